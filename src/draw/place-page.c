/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * place-page.c - what stands where on a page, read from its ink
 */
#include "draw/place-private.h"

#include <math.h>

/* Side of a cell, and most cells along a side: a page on a screen may be very large. */
#define CELL_MM 10.0
#define MOST_CELLS 200

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
  self->cell_mm = MAX (CELL_MM, MAX (frame->x1_mm - frame->x0_mm, frame->y1_mm - frame->y0_mm) / MOST_CELLS);
  self->n_across = MAX (1, ceil ((frame->x1_mm - frame->x0_mm) / self->cell_mm));
  self->n_up = MAX (1, ceil ((frame->y1_mm - frame->y0_mm) / self->cell_mm));
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
cell_of (const TwPlace *self, double from_low_mm, guint n)
{
  return CLAMP (floor (from_low_mm / self->cell_mm), 0, n - 1);
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
    .across0 = cell_of (self, box->x0_mm - self->frame.x0_mm, self->n_across),
    .across1 = cell_of (self, box->x1_mm - self->frame.x0_mm, self->n_across),
    .up0 = cell_of (self, box->y0_mm - self->frame.y0_mm, self->n_up),
    .up1 = cell_of (self, box->y1_mm - self->frame.y0_mm, self->n_up),
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

void
tw_place_add_line (TwPlace *self, guint item, TwPoint from, TwPoint to)
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

void
tw_place_flatten (const TwInkCorner *from, const TwInkCorner *to, GArray *lines)
{
  TwPlaceLine line = { 0, from->at, to->at };
  TwArc arc;
  guint n;

  if (tw_point_distance_mm (from->at, to->at) < 1e-9)
    return;
  if (from->bow_mm == 0) {
    g_array_append_val (lines, line);
    return;
  }
  arc = tw_arc_of_edge (from->at, to->at, from->bow_mm);
  n = MAX (1, ceil (fabs (arc.turn_rad) / ARC_STEP_RAD));
  for (guint i = 1; i <= n; i++) {
    line.to = i == n ? to->at : tw_arc_point (&arc, (double)i / n);
    g_array_append_val (lines, line);
    line.from = line.to;
  }
}

static void
add_edge (TwPlace *self, guint item, const TwInkCorner *from, const TwInkCorner *to)
{
  g_autoptr (GArray) lines = g_array_new (FALSE, FALSE, sizeof (TwPlaceLine));

  tw_place_flatten (from, to, lines);
  for (guint i = 0; i < lines->len; i++) {
    const TwPlaceLine *line = &g_array_index (lines, TwPlaceLine, i);

    tw_place_add_line (self, item, line->from, line->to);
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
  double length_mm, width_mm;

  tw_look_head (&self->look, item->style.pen, &length_mm, &width_mm);
  tw_place_add_line (
      self, nth, at,
      (TwPoint){ at.x_mm - length_mm * cos (item->angle_rad), at.y_mm - length_mm * sin (item->angle_rad) });
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
    if (item->style.tint != TW_INK_TINT_PAPER) {
      add_edges (self, nth, item);
    } else if (item->style.pen == TW_INK_PEN_LEADER) {
      tw_ink_item_bounds (item, &ground.box);
      g_array_append_val (self->grounds, ground);
    } else if (item->style.pen == TW_INK_PEN_OUTLINE) {
      tw_place_cover (self, item);
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

/* --- what is free
 * -------------------------------------------------------------------------------------------- */

static gboolean
lines_leave_free (const TwPlace *self, const TwBox *box, gboolean grounded)
{
  TwBox wide = tw_box_grow (*box, NEAR_MM);
  g_autoptr (GArray) near = tw_place_lines_near (self, &wide);

  for (guint i = 0; i < near->len; i++) {
    const TwPlaceLine *line = &g_array_index (self->lines, TwPlaceLine, g_array_index (near, guint, i));
    const TwInkStyle *style = &tw_ink_get (self->ink, line->item)->style;
    TwBox room = tw_place_room_for_lines (self, box, style->pen);

    if (!(grounded && tw_place_style_may_hide (style)) && tw_place_line_meets (line, &room))
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
tw_place_is_clear (const TwPlace *self, TwPoint from, TwPoint to)
{
  const TwPlaceLine leader = { 0, from, to };
  TwBox box = tw_box_add_point (tw_box_add_point (TW_BOX_EMPTY, from), to);
  g_autoptr (GArray) near = tw_place_lines_near (self, &box);

  for (guint i = 0; i < self->texts->len; i++) {
    TwBox room
        = tw_place_room_for_lines (self, &g_array_index (self->texts, TwPlaceText, i).box, TW_INK_PEN_LEADER);

    if (tw_place_line_meets (&leader, &room))
      return FALSE;
  }
  for (guint i = 0; i < self->blocks->len; i++)
    if (tw_place_line_meets (&leader, &g_array_index (self->blocks, TwPlaceBlock, i).box))
      return FALSE;
  for (guint i = 0; i < near->len; i++) {
    const TwPlaceLine *line = &g_array_index (self->lines, TwPlaceLine, g_array_index (near, guint, i));

    TwInkPen pen = tw_ink_get (self->ink, line->item)->style.pen;

    if ((pen == TW_INK_PEN_DIMENSION || pen == TW_INK_PEN_LEADER) && tw_place_lines_cross (line, &leader))
      return FALSE;
  }
  return TRUE;
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
