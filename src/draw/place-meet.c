/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * place-meet.c - what meets a box
 */
#include "draw/place-private.h"

/* --- what meets a box -------------------------------------------------------------------------------------
 */

gboolean
tw_place_boxes_meet (const TwBox *a, const TwBox *b)
{
  return a->x0_mm < b->x1_mm && b->x0_mm < a->x1_mm && a->y0_mm < b->y1_mm && b->y0_mm < a->y1_mm;
}

/* Cuts the share t0..t1 of a line down to where from + t · step lies strictly within low..high. */
static gboolean
clip (double from, double step, const double bounds[2], double *t0, double *t1)
{
  double low, high;

  if (step == 0)
    return from > bounds[0] && from < bounds[1];
  low = (bounds[0] - from) / step;
  high = (bounds[1] - from) / step;
  *t0 = MAX (*t0, MIN (low, high));
  *t1 = MIN (*t1, MAX (low, high));
  return *t0 < *t1;
}

gboolean
tw_place_line_meets (const TwPlaceLine *line, const TwBox *box)
{
  const double across[] = { box->x0_mm, box->x1_mm }, up[] = { box->y0_mm, box->y1_mm };
  double t0 = 0, t1 = 1;

  if (line->from.x_mm == line->to.x_mm && line->from.y_mm == line->to.y_mm)
    return FALSE; /* all of it is covered */
  return clip (line->from.x_mm, line->to.x_mm - line->from.x_mm, across, &t0, &t1)
         && clip (line->from.y_mm, line->to.y_mm - line->from.y_mm, up, &t0, &t1);
}

TwBox
tw_place_room_for_lines (const TwPlace *self, const TwBox *box, TwInkPen pen)
{
  return tw_box_grow (*box, TW_PLACE_PAD_MM / 2 + self->look.pens[pen].width / 2);
}

gboolean
tw_place_style_may_hide (const TwInkStyle *style)
{
  TwInkPen pen = style->pen;

  if (pen == TW_INK_PEN_BEHIND)
    return style->tint != TW_INK_TINT_INK;
  return pen == TW_INK_PEN_THIN || pen == TW_INK_PEN_CENTRE || pen == TW_INK_PEN_HATCH
         || pen == TW_INK_PEN_GRID || pen == TW_INK_PEN_OTHER;
}

/* Whether the rings of @item enclose @at or an edge of theirs enters @box: even-odd, arcs taken as chords. */
gboolean
tw_place_hatch_meets (const TwInkItem *item, const TwBox *box)
{
  TwPoint at = { (box->x0_mm + box->x1_mm) / 2, (box->y0_mm + box->y1_mm) / 2 };
  gboolean inside = FALSE;

  for (guint first = 0, end; first < item->n_corners; first = end) {
    end = tw_ink_ring_end (item, first);
    for (guint i = first; i < end; i++) {
      TwPlaceLine edge = { 0, item->corners[i].at, item->corners[i + 1 < end ? i + 1 : first].at };

      if (tw_place_line_meets (&edge, box))
        return TRUE;
      if ((edge.from.y_mm > at.y_mm) != (edge.to.y_mm > at.y_mm)
          && at.x_mm < edge.from.x_mm
                           + (edge.to.x_mm - edge.from.x_mm) * (at.y_mm - edge.from.y_mm)
                                 / (edge.to.y_mm - edge.from.y_mm))
        inside = !inside;
    }
  }
  return inside;
}
