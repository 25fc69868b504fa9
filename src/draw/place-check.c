/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * place-check.c - the proof that nothing on a page meets
 */
#include "draw/place-private.h"

#include <math.h>

#include "base/units.h"

/* How near its ends a dimension line may be touched, and how deep a line may end in it, mm on paper. */
#define TOUCH_MM 0.05

/* More than a text keeps from any line, mm. */
#define NEAR_MM 2.0

static void
add (GArray *found, TwPlaceFault fault, guint item, guint other, TwBox where)
{
  TwPlaceCollision collision = { fault, item, other, where };

  for (guint i = found->len; i > 0; i--) {
    const TwPlaceCollision *last = &g_array_index (found, TwPlaceCollision, i - 1);

    if (last->item != item)
      break;
    if (last->fault == fault && last->other == other)
      return;
  }
  g_array_append_val (found, collision);
}

/* Number of the last ground that covers all of @text and lies under it; -1 for none. */
static gint64
ground_under (const TwPlace *self, const TwPlaceText *text)
{
  gint64 last = -1;

  for (guint i = 0; i < self->grounds->len; i++) {
    const TwPlaceGround *ground = &g_array_index (self->grounds, TwPlaceGround, i);
    TwBox both = tw_box_add (ground->box, text->box);

    if (ground->item < text->item && both.x0_mm == ground->box.x0_mm && both.x1_mm == ground->box.x1_mm
        && both.y0_mm == ground->box.y0_mm && both.y1_mm == ground->box.y1_mm)
      last = ground->item;
  }
  return last;
}

static void
check_text_on_texts (const TwPlace *self, guint nth, GArray *found)
{
  const TwPlaceText *text = &g_array_index (self->texts, TwPlaceText, nth);
  TwBox wide = tw_box_grow (text->box, TW_PLACE_PAD_MM);

  for (guint i = nth + 1; i < self->texts->len; i++) {
    const TwPlaceText *other = &g_array_index (self->texts, TwPlaceText, i);

    if (tw_place_boxes_meet (&wide, &other->box))
      add (found, TW_PLACE_TEXT_ON_TEXT, text->item, other->item, other->box);
  }
}

static void
check_text_and_line (const TwPlace *self,
                     const TwPlaceText *text,
                     gint64 ground,
                     const TwPlaceLine *line,
                     GArray *found)
{
  const TwInkStyle *style = &tw_ink_get (self->ink, line->item)->style;
  TwBox room = tw_place_room_for_lines (self, &text->box, style->pen);

  if (!(line->item < ground && tw_place_style_may_hide (style)) && tw_place_line_meets (line, &room))
    add (found, TW_PLACE_LINE_THROUGH_TEXT, text->item, line->item, text->box);
}

static void
check_text_on_lines (const TwPlace *self, const TwPlaceText *text, GArray *found)
{
  gint64 ground = ground_under (self, text);
  TwBox wide = tw_box_grow (text->box, NEAR_MM);
  g_autoptr (GArray) near = tw_place_lines_near (self, &wide);

  for (guint i = 0; i < near->len; i++)
    check_text_and_line (self, text, ground,
                         &g_array_index (self->lines, TwPlaceLine, g_array_index (near, guint, i)), found);
  for (guint i = 0; i < self->hatches->len; i++) {
    guint item = g_array_index (self->hatches, guint, i);

    if (item > ground && tw_place_hatch_meets (tw_ink_get (self->ink, item), &text->box))
      add (found, TW_PLACE_LINE_THROUGH_TEXT, text->item, item, text->box);
  }
}

/* --- dimension lines --------------------------------------------------------------------------------------
 */

static double
cross (TwPoint a, TwPoint b)
{
  return a.x_mm * b.y_mm - a.y_mm * b.x_mm;
}

static TwPoint
minus (TwPoint a, TwPoint b)
{
  return (TwPoint){ a.x_mm - b.x_mm, a.y_mm - b.y_mm };
}

/* Two lines on one another, over more than a touch. */
static gboolean
lines_coincide (const TwPlaceLine *a, const TwPlaceLine *b, double length_mm)
{
  TwPoint step = minus (a->to, a->from), from = minus (b->from, a->from), to = minus (b->to, a->from);
  double along0_mm = (from.x_mm * step.x_mm + from.y_mm * step.y_mm) / length_mm;
  double along1_mm = (to.x_mm * step.x_mm + to.y_mm * step.y_mm) / length_mm;

  if (fabs (cross (step, from)) / length_mm > TOUCH_MM || fabs (cross (step, to)) / length_mm > TOUCH_MM)
    return FALSE;
  return MIN (MAX (along0_mm, along1_mm), length_mm) - MAX (MIN (along0_mm, along1_mm), 0) > 2 * TOUCH_MM;
}

gboolean
tw_place_lines_cross (const TwPlaceLine *line, const TwPlaceLine *other)
{
  TwPoint step = minus (line->to, line->from), other_step = minus (other->to, other->from);
  TwPoint between = minus (other->from, line->from);
  double length_mm = hypot (step.x_mm, step.y_mm), other_mm = hypot (other_step.x_mm, other_step.y_mm);
  double turn = cross (step, other_step), t, u;

  if (fabs (turn) < 1e-6 * length_mm * other_mm)
    return lines_coincide (line, other, length_mm);
  t = cross (between, other_step) / turn * length_mm;
  u = cross (between, step) / turn * other_mm;
  return t > TOUCH_MM && t < length_mm - TOUCH_MM && u > TOUCH_MM && u < other_mm - TOUCH_MM;
}

/* A head on its own dimension line is part of it. */
static gboolean
is_own_head (const TwPlace *self, const TwPlaceLine *line, const TwPlaceLine *other)
{
  return tw_ink_get (self->ink, other->item)->kind == TW_INK_ARROW
         && (tw_point_distance_mm (line->from, other->from) < TOUCH_MM
             || tw_point_distance_mm (line->to, other->from) < TOUCH_MM);
}

static void
check_dimension (const TwPlace *self, guint nth, GArray *found)
{
  const TwPlaceLine *line = &g_array_index (self->lines, TwPlaceLine, nth);
  TwBox box = tw_box_add_point (tw_box_add_point (TW_BOX_EMPTY, line->from), line->to);
  g_autoptr (GArray) near = tw_place_lines_near (self, &box);

  for (guint i = 0; i < near->len; i++) {
    const TwPlaceLine *other = &g_array_index (self->lines, TwPlaceLine, g_array_index (near, guint, i));

    if (other->item != line->item && !is_own_head (self, line, other) && tw_place_lines_cross (line, other))
      add (found, TW_PLACE_DIMENSION_CROSSED, line->item, other->item, box);
  }
}

/* --- frame and blocks -------------------------------------------------------------------------------------
 */

static void
check_bounds (const TwPlace *self, guint item, const TwBox *box, const TwPlaceLine *line, GArray *found)
{
  const char *layer = tw_ink_get (self->ink, item)->style.layer;
  TwBox allowed = tw_box_grow (self->frame, 1e-6);
  TwBox both = tw_box_add (allowed, *box);

  if (!g_str_equal (layer, TW_PLACE_FRAME_LAYER)
      && (both.x0_mm < allowed.x0_mm || both.x1_mm > allowed.x1_mm || both.y0_mm < allowed.y0_mm
          || both.y1_mm > allowed.y1_mm))
    add (found, TW_PLACE_OUTSIDE, item, G_MAXUINT, *box);
  for (guint i = 0; i < self->blocks->len; i++) {
    const TwPlaceBlock *block = &g_array_index (self->blocks, TwPlaceBlock, i);
    TwBox inside = tw_box_grow (block->box, -1e-6);

    if (layer != block->layer && !g_str_equal (layer, TW_PLACE_FRAME_LAYER)
        && (line != NULL ? tw_place_line_meets (line, &inside) : tw_place_boxes_meet (box, &inside)))
      add (found, TW_PLACE_ON_BLOCK, item, i, *box);
  }
}

static int
compare_collisions (gconstpointer a, gconstpointer b)
{
  const TwPlaceCollision *one = a, *two = b;

  if (one->item != two->item)
    return one->item > two->item ? 1 : -1;
  if (one->other != two->other)
    return one->other > two->other ? 1 : -1;
  return (int)one->fault - (int)two->fault;
}

GArray *
tw_place_check (const TwPlace *self)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (TwPlaceCollision));

  for (guint i = 0; i < self->texts->len; i++) {
    const TwPlaceText *text = &g_array_index (self->texts, TwPlaceText, i);

    check_text_on_texts (self, i, found);
    check_text_on_lines (self, text, found);
    check_bounds (self, text->item, &text->box, NULL, found);
  }
  for (guint i = 0; i < self->lines->len; i++) {
    const TwPlaceLine *line = &g_array_index (self->lines, TwPlaceLine, i);
    TwBox box = tw_box_add_point (tw_box_add_point (TW_BOX_EMPTY, line->from), line->to);
    const TwInkItem *item = tw_ink_get (self->ink, line->item);

    if (item->style.pen == TW_INK_PEN_DIMENSION && item->kind == TW_INK_LINE)
      check_dimension (self, i, found);
    check_bounds (self, line->item, &box, line, found);
  }
  g_array_sort (found, compare_collisions);
  return found;
}

/* --- in words ---------------------------------------------------------------------------------------------
 */

static char *
item_text (const TwPlace *self, guint nth)
{
  static const char *const pens[TW_INK_N_PENS] = {
    "outline",        "thin line", "edge behind", "centre line", "dimension line",
    "extension line", "leader",    "hatch",       "grid",        "cutting line",
    "other line",     "bay",       "frame",       "way",
  };
  const TwInkItem *item = tw_ink_get (self->ink, nth);

  if (item->kind == TW_INK_TEXT)
    return g_strdup_printf ("\"%s\"", item->text);
  return g_strdup_printf ("%s %u of %s", item->kind == TW_INK_HATCH ? "hatch" : pens[item->style.pen], nth,
                          item->style.layer);
}

char *
tw_place_collision_text (const TwPlace *self, const TwPlaceCollision *collision)
{
  static const char *const faults[] = {
    [TW_PLACE_TEXT_ON_TEXT] = "lies on",
    [TW_PLACE_LINE_THROUGH_TEXT] = "is crossed by",
    [TW_PLACE_DIMENSION_CROSSED] = "is crossed by",
    [TW_PLACE_OUTSIDE] = "is outside of",
    [TW_PLACE_ON_BLOCK] = "stands on",
  };
  g_autofree char *item = item_text (self, collision->item);
  g_autofree char *other = NULL;
  g_autofree char *x = tw_number_text (round (collision->where.x0_mm * 10) / 10);
  g_autofree char *y = tw_number_text (round (collision->where.y0_mm * 10) / 10);

  if (collision->fault == TW_PLACE_OUTSIDE)
    other = g_strdup ("the frame");
  else if (collision->fault == TW_PLACE_ON_BLOCK)
    other = g_strdup_printf ("block %u", collision->other);
  else
    other = item_text (self, collision->other);
  return g_strdup_printf ("%s %s %s at %s, %s", item, faults[collision->fault], other, x, y);
}
