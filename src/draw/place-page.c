/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * place-page.c - what stands where on a page, read from its ink
 */
#include "draw/place-private.h"

#include <math.h>

#define CELL_MM 10.0

/* More than a text keeps from any line. */
#define NEAR_MM 2.0

/* Longest step along an arc that becomes straight here. */
#define ARC_STEP_RAD (G_PI / 24)

TwPlace *
tw_place_new (const TwBox *frame, const TwLook *look, const TwMeasure *measure)
{
  TwPlace *self = g_new0 (TwPlace, 1);

  self->frame = *frame;
  self->look = *look;
  self->measure = *measure;
  self->texts = g_array_new (FALSE, FALSE, sizeof (TwPlaceText));
  self->lines = g_array_new (FALSE, FALSE, sizeof (TwPlaceLine));
  self->hatches = g_array_new (FALSE, FALSE, sizeof (guint));
  self->grounds = g_array_new (FALSE, FALSE, sizeof (TwPlaceGround));
  self->blocks = g_array_new (FALSE, FALSE, sizeof (TwPlaceBlock));
  self->n_across = MAX (1, ceil ((frame->x1_mm - frame->x0_mm) / CELL_MM));
  self->n_up = MAX (1, ceil ((frame->y1_mm - frame->y0_mm) / CELL_MM));
  self->cells = g_new0 (GArray *, self->n_across * self->n_up);
  return self;
}

void
tw_place_free (TwPlace *self)
{
  for (guint i = 0; i < self->n_across * self->n_up; i++)
    g_clear_pointer (&self->cells[i], g_array_unref);
  g_free (self->cells);
  g_array_unref (self->texts);
  g_array_unref (self->lines);
  g_array_unref (self->hatches);
  g_array_unref (self->grounds);
  g_array_unref (self->blocks);
  g_clear_pointer (&self->ink, tw_ink_unref);
  g_free (self);
}

void
tw_place_add_block (TwPlace *self, const TwBox *box, const char *layer)
{
  TwPlaceBlock block = { *box, g_intern_string (layer) };

  g_array_append_val (self->blocks, block);
}

/* --- taking note of ink -----------------------------------------------------------------------------------
 */

static guint
cell_of (double at_mm, double low_mm, guint n)
{
  return CLAMP (floor ((at_mm - low_mm) / CELL_MM), 0, n - 1);
}

/* The cells that a box touches, ends counted. */
typedef struct {
  guint across0, across1;
  guint up0, up1;
} Cells;

static Cells
cells_of (const TwPlace *self, const TwBox *box)
{
  return (Cells){
    .across0 = cell_of (box->x0_mm, self->frame.x0_mm, self->n_across),
    .across1 = cell_of (box->x1_mm, self->frame.x0_mm, self->n_across),
    .up0 = cell_of (box->y0_mm, self->frame.y0_mm, self->n_up),
    .up1 = cell_of (box->y1_mm, self->frame.y0_mm, self->n_up),
  };
}

GArray *
tw_place_lines_near (const TwPlace *self, const TwBox *box)
{
  GArray *near = g_array_new (FALSE, FALSE, sizeof (guint));
  Cells cells = cells_of (self, box);

  for (guint up = cells.up0; up <= cells.up1; up++)
    for (guint across = cells.across0; across <= cells.across1; across++) {
      const GArray *cell = self->cells[up * self->n_across + across];

      if (cell != NULL)
        g_array_append_vals (near, cell->data, cell->len);
    }
  return near;
}

static void
add_line (TwPlace *self, guint item, TwPoint from, TwPoint to)
{
  TwPlaceLine line = { item, from, to };
  TwBox box = tw_box_add_point (tw_box_add_point (TW_BOX_EMPTY, from), to);
  guint nth = self->lines->len;
  Cells cells = cells_of (self, &box);

  g_array_append_val (self->lines, line);
  for (guint up = cells.up0; up <= cells.up1; up++)
    for (guint across = cells.across0; across <= cells.across1; across++) {
      GArray **cell = &self->cells[up * self->n_across + across];

      if (*cell == NULL)
        *cell = g_array_new (FALSE, FALSE, sizeof (guint));
      g_array_append_val (*cell, nth);
    }
}

static void
add_edge (TwPlace *self, guint item, const TwInkCorner *from, const TwInkCorner *to)
{
  TwArc arc;
  guint n;
  TwPoint last = from->at;

  if (tw_point_distance_mm (from->at, to->at) < 1e-9)
    return;
  if (from->bow_mm == 0) {
    add_line (self, item, from->at, to->at);
    return;
  }
  arc = tw_arc_of_edge (from->at, to->at, from->bow_mm);
  n = MAX (1, ceil (fabs (arc.turn_rad) / ARC_STEP_RAD));
  for (guint i = 1; i <= n; i++) {
    TwPoint next = i == n ? to->at : tw_arc_point (&arc, (double)i / n);

    add_line (self, item, last, next);
    last = next;
  }
}

static void
add_edges (TwPlace *self, guint nth, const TwInkItem *item)
{
  for (guint first = 0, end; first < item->n_corners; first = end) {
    end = tw_ink_ring_end (item, first);
    for (guint i = first; i + 1 < end; i++)
      add_edge (self, nth, &item->corners[i], &item->corners[i + 1]);
    if (item->closed && end - first > 1)
      add_edge (self, nth, &item->corners[end - 1], &item->corners[first]);
  }
}

static void
add_ring (TwPlace *self, guint nth, const TwInkItem *item)
{
  TwInkCorner corners[2];

  tw_ink_circle_corners (item->corners[0].at, item->spacing * self->look.heights[TW_INK_SIZE_NOTE], corners);
  add_edge (self, nth, &corners[0], &corners[1]);
  add_edge (self, nth, &corners[1], &corners[0]);
}

/* A head counts as the line along its middle. */
static void
add_head (TwPlace *self, guint nth, const TwInkItem *item)
{
  TwPoint at = item->corners[0].at;

  add_line (self, nth, at,
            (TwPoint){ at.x_mm - self->look.arrow_length * cos (item->angle_rad),
                       at.y_mm - self->look.arrow_length * sin (item->angle_rad) });
}

static void
take_item (TwPlace *self, guint nth, const TwInkItem *item)
{
  TwPlaceText text = { nth };
  TwPlaceGround ground = { nth };

  switch (item->kind) {
  case TW_INK_TEXT:
    text.box = tw_measure_box (&self->measure, &self->look, &item->place, item->text);
    g_array_append_val (self->texts, text);
    break;
  case TW_INK_FILL:
    if (item->style.tint == TW_INK_TINT_PAPER) {
      tw_ink_item_bounds (item, &ground.box);
      g_array_append_val (self->grounds, ground);
    } else {
      add_edges (self, nth, item);
    }
    break;
  case TW_INK_HATCH:
    g_array_append_val (self->hatches, nth);
    break;
  case TW_INK_LINE:
    add_edges (self, nth, item);
    break;
  case TW_INK_RING:
    add_ring (self, nth, item);
    break;
  case TW_INK_ARROW:
    add_head (self, nth, item);
    break;
  case TW_INK_TONE:
  case TW_INK_DOT:
    break;
  }
}

void
tw_place_take (TwPlace *self, const TwInk *ink, guint first)
{
  g_return_if_fail (self->ink == NULL || self->ink == ink);

  if (self->ink == NULL)
    self->ink = tw_ink_ref ((TwInk *)ink);
  for (guint i = first; i < tw_ink_count (ink); i++)
    take_item (self, i, tw_ink_get (ink, i));
}

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

  return clip (line->from.x_mm, line->to.x_mm - line->from.x_mm, across, &t0, &t1)
         && clip (line->from.y_mm, line->to.y_mm - line->from.y_mm, up, &t0, &t1);
}

TwBox
tw_place_room_for_lines (const TwPlace *self, const TwBox *box, TwInkPen pen)
{
  return tw_box_grow (*box, TW_PLACE_PAD_MM / 2 + self->look.pens[pen].width / 2);
}

gboolean
tw_place_pen_may_hide (TwInkPen pen)
{
  return pen == TW_INK_PEN_THIN || pen == TW_INK_PEN_BEHIND || pen == TW_INK_PEN_CENTRE
         || pen == TW_INK_PEN_HATCH || pen == TW_INK_PEN_GRID || pen == TW_INK_PEN_OTHER;
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

static gboolean
lines_leave_free (const TwPlace *self, const TwBox *box, gboolean grounded)
{
  TwBox wide = tw_box_grow (*box, NEAR_MM);
  g_autoptr (GArray) near = tw_place_lines_near (self, &wide);

  for (guint i = 0; i < near->len; i++) {
    const TwPlaceLine *line = &g_array_index (self->lines, TwPlaceLine, g_array_index (near, guint, i));
    TwInkPen pen = tw_ink_get (self->ink, line->item)->style.pen;
    TwBox room = tw_place_room_for_lines (self, box, pen);

    if (!(grounded && tw_place_pen_may_hide (pen)) && tw_place_line_meets (line, &room))
      return FALSE;
  }
  return TRUE;
}

gboolean
tw_place_is_free (const TwPlace *self, const TwBox *box, gboolean grounded)
{
  TwBox wide = tw_box_grow (*box, TW_PLACE_PAD_MM);

  if (wide.x0_mm < self->frame.x0_mm || wide.x1_mm > self->frame.x1_mm || wide.y0_mm < self->frame.y0_mm
      || wide.y1_mm > self->frame.y1_mm)
    return FALSE;
  for (guint i = 0; i < self->blocks->len; i++)
    if (tw_place_boxes_meet (&g_array_index (self->blocks, TwPlaceBlock, i).box, &wide))
      return FALSE;
  for (guint i = 0; i < self->texts->len; i++) {
    TwBox other = tw_box_grow (g_array_index (self->texts, TwPlaceText, i).box, TW_PLACE_PAD_MM);

    if (tw_place_boxes_meet (&other, &wide))
      return FALSE;
  }
  for (guint i = 0; !grounded && i < self->hatches->len; i++)
    if (tw_place_hatch_meets (tw_ink_get (self->ink, g_array_index (self->hatches, guint, i)), &wide))
      return FALSE;
  return lines_leave_free (self, box, grounded);
}

gboolean
tw_place_label (const TwPlace *self,
                const char *text,
                TwPoint at,
                double reach_mm,
                gboolean grounded,
                TwInkPlace *place)
{
  double step_mm = self->look.heights[place->size];

  place->across = TW_INK_CENTRE;
  place->up = TW_INK_MIDDLE;
  for (double out_mm = 0; out_mm <= reach_mm; out_mm += step_mm)
    for (guint way = 0; way < (out_mm > 0 ? 8 : 1); way++) {
      TwBox box;

      place->at.x_mm = at.x_mm + out_mm * cos (way * G_PI / 4);
      place->at.y_mm = at.y_mm + out_mm * sin (way * G_PI / 4);
      box = tw_measure_box (&self->measure, &self->look, place, text);
      if (tw_place_is_free (self, &box, grounded))
        return TRUE;
    }
  return FALSE;
}
