/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * views-label.c - texts of a view, where there is room for them
 */
#include "draw/views.h"

#include <math.h>

/* How far a label may stand from what it names, in heights of a note, dimensionless; and tries on each round.
 */
#define FARTHEST 14.0
#define WAYS 16

/* A leader is drawn when the label stands farther from what it names than this, in heights of a note. */
#define NEAR 1.4

/* A text stands farther from all by this than it must: neither rounding nor a wide pen makes the two meet; mm
 * on paper. */
#define HAIR 0.3

/* Between a leader's end and the text; mm on paper. */
#define LEADER_GAP 0.8

/* What labels are written with. Lengths are mm on paper (units of the look). */
typedef struct {
  const TwViewManner *manner;
  TwPlace *place;
  TwInk *ink;
  double height;
  gboolean has_shown;
  TwBox shown; /* no text stands beyond it */
} Desk;

/* One label on the page. */
typedef struct {
  const TwViewLabel *label;
  TwPoint at;            /* what it names */
  TwBox around;          /* round what it names */
  double inside;         /* free radius inside it, mm on paper */
  TwBox box;             /* round it, with its middle on 0, 0 */
  double ring;           /* radius of its ring, mm on paper; 0 for none */
  gboolean needs_leader; /* a name beside what takes room must point at it */
} Wanted;

static TwBox
moved (const TwBox *box, TwPoint by)
{
  return (TwBox){ box->x0_mm + by.x_mm, box->y0_mm + by.y_mm, box->x1_mm + by.x_mm, box->y1_mm + by.y_mm };
}

static Wanted
want (const Desk *desk, const TwViewLabel *label, TwPoint shift)
{
  const TwInkPlace middle = { { 0, 0 }, TW_INK_SIZE_NOTE, TW_INK_CENTRE, TW_INK_MIDDLE, FALSE };
  double scale = desk->manner->scale;
  Wanted wanted = {
    .label = label,
    .at = { label->at.x_mm * scale + shift.x_mm, label->at.y_mm * scale + shift.y_mm },
    .around = { label->around.x0_mm * scale + shift.x_mm, label->around.y0_mm * scale + shift.y_mm,
                label->around.x1_mm * scale + shift.x_mm, label->around.y1_mm * scale + shift.y_mm },
    .inside = label->inside_mm * scale,
    .box = tw_measure_box (desk->manner->measure, desk->manner->look, &middle, label->text),
  };

  if (label->kind == TW_VIEW_LABEL_PORT || label->kind == TW_VIEW_LABEL_BEND) {
    wanted.ring
        = hypot (tw_measure_width (desk->manner->measure, label->text, desk->height), desk->height) / 2
          + TW_PLACE_PAD_MM + 0.25 * desk->height;
    /* letters with a tail reach farther down */
    wanted.ring = MAX (wanted.ring, hypot (wanted.box.x1_mm, MAX (-wanted.box.y0_mm, wanted.box.y1_mm))
                                        + 1.3 * TW_PLACE_PAD_MM);
    wanted.box = (TwBox){ -wanted.ring, -wanted.ring, wanted.ring, wanted.ring };
  }
  wanted.needs_leader = label->kind == TW_VIEW_LABEL_VOLUME || label->kind == TW_VIEW_LABEL_AROUND
                        || label->kind == TW_VIEW_LABEL_ENGINE;
  return wanted;
}

/* Where a line from @from towards @to ends before the ring or box round @to. */
static TwPoint
edge_of (const Wanted *wanted, TwPoint from, TwPoint to)
{
  double dx = from.x_mm - to.x_mm, dy = from.y_mm - to.y_mm, share;
  double across = (dx > 0 ? wanted->box.x1_mm : -wanted->box.x0_mm) + LEADER_GAP;
  double up = (dy > 0 ? wanted->box.y1_mm : -wanted->box.y0_mm) + LEADER_GAP;

  if (wanted->ring > 0)
    share = wanted->ring / MAX (hypot (dx, dy), 1e-9);
  else
    share = MIN (across / MAX (fabs (dx), 1e-9), up / MAX (fabs (dy), 1e-9));
  share = MIN (share, 1);
  return (TwPoint){ to.x_mm + dx * share, to.y_mm + dy * share };
}

/* Whether a label with its middle on @to has room there, and its leader a way. */
static gboolean
stands (const Desk *desk, const Wanted *wanted, TwPoint to, gboolean leader)
{
  TwBox box = tw_box_grow (moved (&wanted->box, to), HAIR);

  if (desk->has_shown
      && (box.x0_mm < desk->shown.x0_mm || box.y0_mm < desk->shown.y0_mm || box.x1_mm > desk->shown.x1_mm
          || box.y1_mm > desk->shown.y1_mm))
    return FALSE;
  if (!tw_place_is_free (desk->place, &box, TRUE))
    return FALSE;
  return !leader || tw_place_is_clear (desk->place, wanted->at, edge_of (wanted, wanted->at, to));
}

static void
write_leader (const Desk *desk, const Wanted *wanted, TwPoint to)
{
  TwInkStyle style = { TW_INK_PEN_LEADER, TW_INK_TINT_SOFT, TW_VIEW_LAYER_NAMES, wanted->label->part };

  tw_ink_line (desk->ink, &style, wanted->at, edge_of (wanted, wanted->at, to));
  tw_ink_dot (desk->ink, &style, wanted->at);
}

static void
write_label (const Desk *desk, const Wanted *wanted, TwPoint to)
{
  TwInkStyle style = { TW_INK_PEN_LEADER, wanted->label->tint, TW_VIEW_LAYER_NAMES, wanted->label->part };
  TwInkStyle ground = { TW_INK_PEN_LEADER, TW_INK_TINT_PAPER, TW_VIEW_LAYER_NAMES, wanted->label->part };
  TwInkPlace place = { to, TW_INK_SIZE_NOTE, TW_INK_CENTRE, TW_INK_MIDDLE, FALSE };
  TwBox box = moved (&wanted->box, to), wide = tw_box_grow (box, TW_PLACE_PAD_MM / 2);
  gboolean grounded = !tw_place_is_free (desk->place, &box, FALSE); /* over narrow lines or a hatch */
  TwInkCorner corners[4];

  if (wanted->ring > 0) {
    tw_ink_circle_corners (to, wanted->ring, corners);
    if (grounded)
      tw_ink_fill (desk->ink, &ground, corners, 2);
    tw_ink_ring (desk->ink, &style, to, wanted->ring / desk->height);
  } else if (grounded) {
    tw_ink_box_corners (&wide, corners);
    tw_ink_fill (desk->ink, &ground, corners, 4);
  }
  tw_ink_text (desk->ink, &style, &place, wanted->label->text);
}

/* From what is named to the edge of the box round it. */
static double
way_out (const Wanted *wanted, double angle_rad)
{
  double c = cos (angle_rad), s = sin (angle_rad);
  double across = c > 0 ? wanted->around.x1_mm - wanted->at.x_mm : wanted->at.x_mm - wanted->around.x0_mm;
  double up = s > 0 ? wanted->around.y1_mm - wanted->at.y_mm : wanted->at.y_mm - wanted->around.y0_mm;

  return MIN (across / MAX (fabs (c), 1e-9), up / MAX (fabs (s), 1e-9));
}

/* Between what is named and a label's box with its middle on @to. */
static double
gap_to (const Wanted *wanted, TwPoint to)
{
  return hypot (MAX (0, fabs (to.x_mm - wanted->at.x_mm) - wanted->box.x1_mm),
                MAX (0, fabs (to.y_mm - wanted->at.y_mm) - wanted->box.y1_mm));
}

/* A place on a round @out from what is named; FALSE if none of its ways is free. */
static gboolean
find_on_round (const Desk *desk, const Wanted *wanted, double out, gboolean leader, TwPoint *to)
{
  for (guint way = 0; way < WAYS; way++) {
    /* up to the right first, then by turns to both sides of it */
    double turn = (way + 1) / 2 * (way % 2 ? -1.0 : 1.0);
    double angle_rad = G_PI / 4 + turn * 2 * G_PI / WAYS;
    double half = fabs (cos (angle_rad)) * wanted->box.x1_mm + fabs (sin (angle_rad)) * wanted->box.y1_mm;
    double far = way_out (wanted, angle_rad) + out + half;

    to->x_mm = wanted->at.x_mm + far * cos (angle_rad);
    to->y_mm = wanted->at.y_mm + far * sin (angle_rad);
    if (wanted->label->kind == TW_VIEW_LABEL_PASS && gap_to (wanted, *to) > NEAR * desk->height)
      continue;
    if (stands (desk, wanted, *to, leader))
      return TRUE;
  }
  return FALSE;
}

/* In the middle of what is named, else elsewhere in the circle that is free there. */
static gboolean
find_inside (const Desk *desk, const Wanted *wanted, TwPoint *to)
{
  double half = hypot (wanted->box.x1_mm, wanted->box.y1_mm);

  *to = wanted->at;
  if (stands (desk, wanted, *to, FALSE))
    return TRUE;
  for (double out = 2 * desk->height; out + half < wanted->inside; out += 2 * desk->height)
    for (guint way = 0; way < WAYS; way++) {
      to->x_mm = wanted->at.x_mm + out * cos (way * 2 * G_PI / WAYS);
      to->y_mm = wanted->at.y_mm + out * sin (way * 2 * G_PI / WAYS);
      if (stands (desk, wanted, *to, FALSE))
        return TRUE;
    }
  return FALSE;
}

/* Inside what it names if it can, else beside it, else farther off with a leader. */
static gboolean
find_place (const Desk *desk, const Wanted *wanted, TwPoint *to, gboolean *leader)
{
  *leader = FALSE;
  if (wanted->inside > wanted->box.y1_mm && find_inside (desk, wanted, to))
    return TRUE;
  for (double out = 0.3 * desk->height; out <= FARTHEST * desk->height; out += 0.6 * desk->height) {
    *leader = wanted->needs_leader || out > NEAR * desk->height;
    if (*leader && wanted->label->kind == TW_VIEW_LABEL_PASS)
      return FALSE; /* beside another pass's arrow it would be read as that one's */
    if (find_on_round (desk, wanted, out, *leader, to))
      return TRUE;
  }
  return FALSE;
}

/* Labels in the order in which they are placed: by kind, then as they came. */
static GArray *
order_of (const GArray *labels)
{
  GArray *order = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint kind = 0; kind <= TW_VIEW_LABEL_VOLUME; kind++)
    for (guint i = 0; i < labels->len; i++)
      if (g_array_index (labels, TwViewLabel, i).kind == kind)
        g_array_append_val (order, i);
  return order;
}

static gboolean
is_shown (const TwViewManner *manner, const TwViewLabel *label)
{
  return manner->shown == NULL || tw_box_contains (*manner->shown, label->at);
}

guint
tw_view_labels_draw (const TwViewDrawing *drawing,
                     const TwViewManner *manner,
                     TwPoint shift,
                     TwPlace *place,
                     TwInk *ink)
{
  Desk desk
      = { .manner = manner, .place = place, .ink = ink, .height = manner->look->heights[TW_INK_SIZE_NOTE] };
  g_autoptr (GArray) order = order_of (drawing->labels);
  guint n_left_out = 0;

  desk.has_shown = manner->shown != NULL;
  if (desk.has_shown)
    desk.shown = (TwBox){ manner->shown->x0_mm * manner->scale + shift.x_mm,
                          manner->shown->y0_mm * manner->scale + shift.y_mm,
                          manner->shown->x1_mm * manner->scale + shift.x_mm,
                          manner->shown->y1_mm * manner->scale + shift.y_mm };

  for (guint i = 0; i < order->len; i++) {
    const TwViewLabel *label = &g_array_index (drawing->labels, TwViewLabel, g_array_index (order, guint, i));
    Wanted wanted = want (&desk, label, shift);
    guint first = tw_ink_count (ink);
    gboolean leader;
    TwPoint to;

    if (!is_shown (manner, label))
      continue;
    if (!find_place (&desk, &wanted, &to, &leader)) {
      n_left_out++;
      continue;
    }
    if (leader)
      write_leader (&desk, &wanted, to);
    write_label (&desk, &wanted, to);
    tw_place_take (place, ink, first);
  }
  return n_left_out;
}
