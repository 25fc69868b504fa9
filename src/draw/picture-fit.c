/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * picture-fit.c - the two that come nearest to each other, seen where their distance shows best
 */
#include "draw/picture-private.h"

#include "draw/views-private.h"

#include <math.h>

/* So wide and so high the distance itself is, in the picture. */
#define GAP_ACROSS_PX 46.0
#define GAP_UP_PX 30.0

/* The picture shows at least so much, up. */
#define LEAST_SHOWN_MM 40.0

/* The nearest place lies in the box round its piece, but for rounding; mm. */
#define NEAR_MM 0.5

/* Arrows stand inside a distance longer than this. */
#define LONG_PX 24.0

/* Between the distance's line and its figure. */
#define BESIDE_PX 5.0

/* How far a name may stand from the middle of what it names. */
#define REACH_PX 40.0

/* Shares of the tint, dimensionless. */
#define PART_TONE 0.45
#define WALL_TONE 0.35

/* The picture of one pair. */
typedef struct {
  const TwPictureHand *hand;
  const TwClearancePair *pair;
  TwGeos *geos;
  TwFrame eye;   /* u across, v up, w away */
  double scale;  /* px a millimetre */
  TwPoint shift; /* px */
  TwBox shown;   /* mm of the view */
  TwPlace *place;
} Scene;

static TwPoint
seen (const Scene *scene, TwVec at)
{
  TwVec in_eye = tw_frame_from_job (&scene->eye, at);

  return (TwPoint){ in_eye.x, in_eye.y };
}

static TwPoint
on_picture (const Scene *scene, TwPoint at)
{
  return (TwPoint){ at.x_mm * scene->scale + scene->shift.x_mm, at.y_mm * scene->scale + scene->shift.y_mm };
}

/* The view in which the distance is least foreshortened. */
static TwFrame
best_eye (const TwPlacement *placement, TwVec way)
{
  TwFrame best = tw_view_frame (placement, TW_VIEW_FRONT, TW_ID_NONE);

  for (TwView view = TW_VIEW_SIDE; view < TW_N_VIEWS; view++) {
    TwFrame eye = tw_view_frame (placement, view, TW_ID_NONE);

    if (fabs (tw_vec_dot (way, eye.w)) < fabs (tw_vec_dot (way, best.w)) - 1e-6)
      best = eye;
  }
  return best;
}

static void
look_at (Scene *scene)
{
  const TwBox *room = &scene->hand->room;
  TwPoint from = seen (scene, scene->pair->at_part), to = seen (scene, scene->pair->at_other);
  TwPoint middle = { (from.x_mm + to.x_mm) / 2, (from.y_mm + to.y_mm) / 2 };
  double high_px = room->y1_mm - room->y0_mm, half_x_mm, half_y_mm;

  scene->scale = MIN (GAP_ACROSS_PX / MAX (fabs (to.x_mm - from.x_mm), 0.1),
                      GAP_UP_PX / MAX (fabs (to.y_mm - from.y_mm), 0.1));
  scene->scale = MIN (scene->scale, high_px / MAX (LEAST_SHOWN_MM, 3 * scene->pair->depth_mm));
  half_x_mm = (room->x1_mm - room->x0_mm) / 2 / scene->scale;
  half_y_mm = high_px / 2 / scene->scale;
  scene->shown = (TwBox){ middle.x_mm - half_x_mm, middle.y_mm - half_y_mm, middle.x_mm + half_x_mm,
                          middle.y_mm + half_y_mm };
  scene->shift = (TwPoint){ (room->x0_mm + room->x1_mm) / 2 - middle.x_mm * scene->scale,
                            (room->y0_mm + room->y1_mm) / 2 - middle.y_mm * scene->scale };
}

/* --- what is seen -----------------------------------------------------------------------------------------
 */

static gboolean
is_shown (const Scene *scene, const TwConvex *solid)
{
  TwBox box = { tw_convex_least_mm (solid, scene->eye.u), tw_convex_least_mm (solid, scene->eye.v),
                tw_convex_reach_mm (solid, scene->eye.u), tw_convex_reach_mm (solid, scene->eye.v) };

  return tw_box_overlaps (box, scene->shown);
}

static void
add_shadow (const Scene *scene, GPtrArray *areas, const TwConvex *solid)
{
  g_autoptr (TwArea) shadow = NULL;

  if (tw_convex_is_empty (solid) || !is_shown (scene, solid))
    return;
  shadow = tw_convex_shadow (solid, scene->geos, &scene->eye);
  g_ptr_array_add (areas, tw_area_in_box (scene->geos, shadow, scene->shown));
}

/* Whether the nearest place lies on this piece: a hose that comes back would hide it. */
static gboolean
is_at (const TwConvex *solid, TwVec at)
{
  TwSolidBox box = tw_convex_bounds (solid);

  return at.x > box.from.x - NEAR_MM && at.x < box.to.x + NEAR_MM && at.y > box.from.y - NEAR_MM
         && at.y < box.to.y + NEAR_MM && at.z > box.from.z - NEAR_MM && at.z < box.to.z + NEAR_MM;
}

/* What of a part is seen, of a hose its nearest pieces; of the bay all of its free volumes. (transfer full)
 */
static TwArea *
area_of (const Scene *scene, TwId part, gboolean is_bay)
{
  g_autoptr (GPtrArray) areas = g_ptr_array_new_with_free_func ((GDestroyNotify)tw_area_unref);
  guint n, n_hoses;
  const TwPlacedSolid *solids = tw_placement_solids (tw_answer_placement (scene->hand->answer), &n);
  const TwPlacedSolid *hoses = tw_routes_solids (tw_answer_routes (scene->hand->answer), &n_hoses);

  for (guint i = 0; i < n; i++)
    if (is_bay ? solids[i].role == TW_SOLID_FREE : tw_id_equal (solids[i].part, part))
      add_shadow (scene, areas, solids[i].convex);
  for (guint i = 0; i < n_hoses; i++)
    if (!is_bay && tw_id_equal (hoses[i].part, part) && is_at (hoses[i].convex, scene->pair->at_part))
      add_shadow (scene, areas, hoses[i].convex);
  if (areas->len == 1)
    return tw_area_ref (g_ptr_array_index (areas, 0));
  return tw_area_union (scene->geos, (TwArea *const *)areas->pdata, areas->len);
}

static void
append (const Scene *scene, const TwInk *ink)
{
  TwInkCuts cuts;
  g_autoptr (TwInk) clipped = tw_ink_new ();

  tw_ink_append_clipped (clipped, ink, &scene->shown, &cuts);
  tw_ink_append_scaled (scene->hand->ink, clipped, scene->scale, scene->shift);
}

static void
draw_part (const Scene *scene, const TwArea *area)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_OUTLINE, TW_INK_TINT_PAPER, scene->pair->part);
  g_autoptr (GArray) found = tw_view_area_corners (area);
  const TwInkCorner *corners = (const TwInkCorner *)(gpointer)found->data;
  g_autoptr (TwInk) ink = tw_ink_new ();

  if (found->len < 3)
    return;
  tw_ink_fill (ink, &style, corners, found->len);
  style.tint = TW_INK_TINT_FAINT;
  tw_ink_tone (ink, &style, corners, found->len, PART_TONE);
  style = tw_picture_style (TW_INK_PEN_THIN, TW_INK_TINT_INK, scene->pair->part);
  tw_ink_path (ink, &style, corners, found->len, TRUE);
  append (scene, ink);
}

/* What is taken is hatched by its kind; round a bay everything is toned. */
static void
draw_other (const Scene *scene, const TwArea *area)
{
  const TwPlacedVolume *volume
      = tw_placement_volume (tw_answer_placement (scene->hand->answer), scene->pair->other);
  TwInkStyle style = tw_picture_style (TW_INK_PEN_THIN, TW_INK_TINT_TAKEN, scene->pair->other);
  g_autoptr (GArray) found = tw_view_area_corners (area);
  const TwInkCorner *corners = (const TwInkCorner *)(gpointer)found->data;
  g_autoptr (TwInk) ink = tw_ink_new ();
  double angle_rad, spacing;

  if (found->len < 3 || volume == NULL)
    return;
  if (scene->pair->is_bay) {
    tw_picture_tone (scene->hand, &scene->hand->room, &style, WALL_TONE);
    style.tint = TW_INK_TINT_PAPER;
    tw_ink_fill (ink, &style, corners, found->len);
  } else {
    style.pen = TW_INK_PEN_HATCH;
    tw_view_hatch (volume->kind, &angle_rad, &spacing);
    tw_ink_hatch (ink, &style, corners, found->len, angle_rad, spacing);
  }
  style = tw_picture_style (TW_INK_PEN_THIN, TW_INK_TINT_TAKEN, scene->pair->other);
  tw_ink_path (ink, &style, corners, found->len, TRUE);
  append (scene, ink);
}

/* --- words ------------------------------------------------------------------------------------------------
 */

static void
write_at (const Scene *scene, TwPoint at, const TwInkStyle *style, const char *text)
{
  TwInkPlace stands = { .size = TW_INK_SIZE_SMALL };
  guint first = tw_ink_count (scene->hand->ink);
  TwInkStyle ground = tw_picture_style (TW_INK_PEN_LEADER, TW_INK_TINT_PAPER, style->part);
  TwBox box;

  if (!tw_place_label (scene->place, text, at, REACH_PX, TRUE, &stands))
    return;
  box = tw_measure_box (scene->hand->manner->measure, scene->hand->manner->look, &stands, text);
  box = tw_box_grow (box, 1.5);
  tw_picture_tone (scene->hand, &box, &ground, 0);
  tw_ink_text (scene->hand->ink, style, &stands, text);
  tw_place_take (scene->place, scene->hand->ink, first);
}

/* @is_beyond: room outside of a bay, which may have any shape; else the middle of what is seen serves */
static void
write_name (const Scene *scene, TwId part, const TwArea *area, gboolean is_beyond)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_LEADER, TW_INK_TINT_INK, part);
  double most_px = (scene->hand->room.x1_mm - scene->hand->room.x0_mm) / 2.5;
  g_autofree char *name = tw_measure_fit (scene->hand->manner->measure, tw_picture_name (scene->hand, part),
                                          tw_picture_letter_px (scene->hand), most_px);
  TwBox box = tw_area_bounds (area);
  TwPoint middle = { (box.x0_mm + box.x1_mm) / 2, (box.y0_mm + box.y1_mm) / 2 };

  if (tw_area_is_empty (area))
    return;
  if (is_beyond)
    middle = tw_area_label_point (scene->geos, area, NULL);
  write_at (scene, on_picture (scene, middle), &style, name);
}

static void
draw_distance (const Scene *scene)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_EXTENSION, TW_INK_TINT_MEASURE, scene->pair->part);
  TwPoint from = on_picture (scene, seen (scene, scene->pair->at_part));
  TwPoint to = on_picture (scene, seen (scene, scene->pair->at_other));
  double angle_rad = atan2 (to.y_mm - from.y_mm, to.x_mm - from.x_mm);
  double length_px = tw_point_distance_mm (from, to);

  if (length_px > LONG_PX) {
    tw_ink_arrow (scene->hand->ink, &style, to, angle_rad);
    tw_ink_arrow (scene->hand->ink, &style, from, angle_rad + G_PI);
  } else {
    tw_ink_dot (scene->hand->ink, &style, from);
    tw_ink_dot (scene->hand->ink, &style, to);
  }
  if (length_px > 0.5)
    tw_ink_line (scene->hand->ink, &style, from, to);
}

static void
write_distance (const Scene *scene)
{
  const TwClearancePair *pair = scene->pair;
  TwInkStyle style = tw_picture_style (TW_INK_PEN_LEADER, TW_INK_TINT_MEASURE, pair->part);
  TwPoint from = on_picture (scene, seen (scene, pair->at_part));
  TwPoint to = on_picture (scene, seen (scene, pair->at_other));
  double free_mm = pair->crosses      ? -pair->depth_mm
                   : pair->is_outside ? -pair->distance_mm
                                      : pair->distance_mm;
  g_autofree char *text = tw_picture_length (scene->hand, free_mm);
  double length_px = tw_point_distance_mm (from, to);
  TwPoint side = { length_px > 0.5 ? fabs (to.y_mm - from.y_mm) / length_px : 0,
                   length_px > 0.5 ? fabs (to.x_mm - from.x_mm) / length_px : 1 };

  /* beside the line, not on it */
  side.x_mm *= tw_picture_text_px (scene->hand, text) / 2 + BESIDE_PX;
  side.y_mm *= tw_picture_letter_px (scene->hand) / 2 + BESIDE_PX;
  write_at (scene, (TwPoint){ (from.x_mm + to.x_mm) / 2 + side.x_mm, (from.y_mm + to.y_mm) / 2 + side.y_mm },
            &style, text);
}

/* What is seen of the room outside of a bay. (transfer full) */
static TwArea *
beyond (const Scene *scene, const TwArea *bay)
{
  g_autoptr (TwArea) all = tw_area_new_box (scene->geos, scene->shown);

  return tw_area_difference (scene->geos, all, bay);
}

void
tw_picture_fit (const TwPictureHand *hand)
{
  const TwClearancePair *pair = tw_clearance_nearest (tw_answer_clearance (hand->answer));
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwPlace) place = tw_place_new (&hand->room, hand->manner->look, hand->manner->measure);
  g_autoptr (TwArea) part = NULL, other = NULL, outside = NULL;
  Scene scene = { .hand = hand, .pair = pair, .geos = geos, .place = place };

  scene.eye = best_eye (tw_answer_placement (hand->answer), tw_vec_subtract (pair->at_other, pair->at_part));
  look_at (&scene);
  part = area_of (&scene, pair->part, FALSE);
  other = area_of (&scene, pair->other, pair->is_bay);
  draw_other (&scene, other);
  draw_part (&scene, part);
  draw_distance (&scene);
  tw_place_take (place, hand->ink, 0);
  write_distance (&scene);
  write_name (&scene, pair->part, part, FALSE);
  if (pair->is_bay)
    outside = beyond (&scene, other);
  write_name (&scene, pair->other, pair->is_bay ? outside : other, pair->is_bay);
}
