/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/placement-private.h"

static TwBox
box_round (double u_mm, double v_mm, double width_mm, double height_mm)
{
  return (TwBox){ u_mm - 0.5 * width_mm, v_mm - 0.5 * height_mm, u_mm + 0.5 * width_mm,
                  v_mm + 0.5 * height_mm };
}

/* Flaps have ids within their shroud, not within the job. */
static void
place_flaps (TwPlacement *self, const TwShroud *shroud, TwId core)
{
  for (guint i = 0; i < shroud->flaps->len; i++) {
    const TwFlap *flap = TW_ELEMENT (shroud->flaps, TwFlap, i);
    TwPlacedFlap placed = {
      .id = flap->head.id,
      .shroud = shroud->head.id,
      .core = core,
      .opening = box_round (tw_known_or (flap->u_mm, 0.0), tw_known_or (flap->v_mm, 0.0), flap->width_mm,
                            flap->height_mm),
    };

    if (isfinite (flap->width_mm) && isfinite (flap->height_mm))
      g_array_append_val (self->flaps, placed);
    else
      tw_placement_add (self, &shroud->head, NULL, NULL, N_ ("the size of a flap is not known"));
  }
}

static void
place_shroud (TwPlacement *self, const TwShroud *shroud)
{
  const TwPlacedCore *core = tw_placement_core (self, shroud->core);
  double plenum_mm = tw_known_or (shroud->plenum_mm, 0.0);
  TwPlacedShroud placed;

  if (core == NULL) {
    tw_placement_add (self, &shroud->head, self->shrouds, NULL, N_ ("its core has no place"));
    return;
  }
  placed = (TwPlacedShroud){
    .id = shroud->head.id,
    .core = core->id,
    .is_before = shroud->stands == TW_STANDS_BEFORE,
    .is_tapered = shroud->form == TW_FORM_TAPERED,
    .mouth = box_round (tw_known_or (shroud->u_mm, 0.0), tw_known_or (shroud->v_mm, 0.0),
                        tw_known_or (shroud->width_mm, core->face_width_mm),
                        tw_known_or (shroud->height_mm, core->face_height_mm)),
  };
  placed.fan_wall = placed.mouth;
  placed.mouth_w_mm = placed.is_before ? 0.0 : core->thickness_mm;
  placed.fans_w_mm = placed.is_before ? -plenum_mm : core->thickness_mm + plenum_mm;
  tw_placement_add (self, &shroud->head, self->shrouds, &placed, NULL);

  place_flaps (self, shroud, core->id);
}

static double
distance_mm (TwBox box, TwPoint at)
{
  double across_mm = MAX (MAX (box.x0_mm - at.x_mm, at.x_mm - box.x1_mm), 0.0);
  double up_mm = MAX (MAX (box.y0_mm - at.y_mm, at.y_mm - box.y1_mm), 0.0);

  return hypot (across_mm, up_mm);
}

/* The shroud of the fan's side of its core whose mouth holds its centre, else the nearest one; by id where
 * two are as near, so that the order of the parts does not matter. */
static TwPlacedShroud *
shroud_of (TwPlacement *self, const TwPlacedFan *fan)
{
  TwPlacedShroud *best = NULL;
  double best_mm = G_MAXDOUBLE;

  for (guint i = 0; i < self->shrouds->len; i++) {
    TwPlacedShroud *shroud = &g_array_index (self->shrouds, TwPlacedShroud, i);
    double apart_mm;

    if (!tw_id_equal (shroud->core, fan->core) || shroud->is_before != fan->is_pusher)
      continue;
    apart_mm = distance_mm (shroud->mouth, fan->centre);
    if (apart_mm < best_mm || (apart_mm <= best_mm && strcmp (shroud->id.text, best->id.text) < 0)) {
      best = shroud;
      best_mm = apart_mm;
    }
  }
  return best;
}

/* A tapered shroud ends round the rings of its fans; the first ring takes the place of the mouth. */
static void
taper (TwPlacedShroud *shroud, const TwPlacedFan *fan, gboolean is_first)
{
  TwBox ring = box_round (fan->centre.x_mm, fan->centre.y_mm, fan->ring_mm, fan->ring_mm);

  if (shroud->is_tapered)
    shroud->fan_wall = is_first ? ring : tw_box_add (shroud->fan_wall, ring);
}

static const char *
place_fan (TwPlacement *self, const TwFan *fan, TwPlacedFan *placed)
{
  const TwPlacedCore *core = tw_placement_core (self, fan->core);
  TwPlacedShroud *shroud;
  double plenum_mm = 0.0, stand_off_mm;

  if (core == NULL)
    return N_ ("its core has no place");
  if (!isfinite (fan->swept_mm))
    return N_ ("its swept diameter is not known");

  *placed = (TwPlacedFan){
    .id = fan->head.id,
    .core = core->id,
    .shroud = TW_ID_NONE,
    .is_pusher = fan->blows == TW_BLOWS_PUSH,
    .centre = { tw_known_or (fan->u_mm, 0.0), tw_known_or (fan->v_mm, 0.0) },
    .swept_mm = fan->swept_mm,
    .ring_mm = tw_known_or (fan->ring_mm, fan->swept_mm),
    .hub_mm = tw_known_or (fan->hub_mm, 0.0),
    .depth_mm = tw_known_or (fan->depth_mm, 0.0),
  };
  shroud = shroud_of (self, placed);
  if (shroud != NULL) {
    gboolean is_first = TRUE;

    for (guint i = 0; i < self->fans->len; i++)
      if (tw_id_equal (g_array_index (self->fans, TwPlacedFan, i).shroud, shroud->id))
        is_first = FALSE;
    placed->shroud = shroud->id;
    taper (shroud, placed, is_first);
    plenum_mm = fabs (shroud->fans_w_mm - shroud->mouth_w_mm);
  }
  stand_off_mm = tw_known_or (fan->stand_off_mm, plenum_mm);
  placed->mounting_w_mm = placed->is_pusher ? -stand_off_mm : core->thickness_mm + stand_off_mm;
  placed->back_w_mm = placed->mounting_w_mm + (placed->is_pusher ? -placed->depth_mm : placed->depth_mm);
  return NULL;
}

/* What is kept of a shroud's box between its mouth and a smaller or larger fan wall: each of the four walls
 * goes through the same side of both. */
static TwConvex *
shroud_solid (const TwPlacedCore *core, const TwPlacedShroud *shroud)
{
  TwBox all = tw_box_add (shroud->mouth, shroud->fan_wall);
  double long_mm = shroud->fans_w_mm - shroud->mouth_w_mm;
  double mouth_mm[4]
      = { -shroud->mouth.x0_mm, shroud->mouth.x1_mm, -shroud->mouth.y0_mm, shroud->mouth.y1_mm };
  double wall_mm[4]
      = { -shroud->fan_wall.x0_mm, shroud->fan_wall.x1_mm, -shroud->fan_wall.y0_mm, shroud->fan_wall.y1_mm };
  TwConvex *solid = tw_convex_new_box (&core->frame, tw_vec (all.x0_mm, all.y0_mm, shroud->mouth_w_mm),
                                       tw_vec (all.x1_mm, all.y1_mm, shroud->fans_w_mm));

  for (guint i = 0; i < 4 && shroud->is_tapered; i++) {
    double slope = (wall_mm[i] - mouth_mm[i]) / long_mm, sign = i % 2 == 0 ? -1.0 : 1.0;
    double length = sqrt (1.0 + slope * slope);
    TwVec out = i < 2 ? tw_vec (sign, 0.0, -slope) : tw_vec (0.0, sign, -slope);
    TwVec through = i < 2 ? tw_vec (sign * mouth_mm[i], 0.0, shroud->mouth_w_mm)
                          : tw_vec (0.0, sign * mouth_mm[i], shroud->mouth_w_mm);
    TwHalfSpace half;
    TwConvex *kept;

    half.normal = tw_frame_turn_to_job (&core->frame, tw_vec_scale (out, 1.0 / length));
    half.offset_mm = tw_vec_dot (half.normal, tw_frame_to_job (&core->frame, through));
    kept = tw_convex_clip (solid, half);
    tw_convex_unref (solid);
    solid = kept;
  }
  return solid;
}

static void
add_fan_solids (TwPlacement *self, TwSolidRole role)
{
  for (guint i = 0; i < self->fans->len; i++) {
    const TwPlacedFan *fan = &g_array_index (self->fans, TwPlacedFan, i);
    const TwPlacedCore *core = tw_placement_core (self, fan->core);
    TwPlacedSolid like = { .part = fan->id, .core = fan->core, .role = role };
    TwVec from = tw_vec (fan->centre.x_mm, fan->centre.y_mm, fan->mounting_w_mm);
    TwVec to = tw_vec (fan->centre.x_mm, fan->centre.y_mm, fan->back_w_mm);

    /* the hub of the only core's puller shades nothing */
    if (role == TW_SOLID_HUB && !fan->is_pusher && self->cores->len == 1)
      continue;
    tw_placement_add_round (self, &like, tw_frame_to_job (&core->frame, from),
                            tw_frame_to_job (&core->frame, to),
                            role == TW_SOLID_HUB ? fan->hub_mm : fan->ring_mm);
  }
}

void
tw_placement_place_fans (TwPlacement *self)
{
  guint n_shrouds = tw_drawing_count (self->drawing, TW_KIND_SHROUD);
  guint n_fans = tw_drawing_count (self->drawing, TW_KIND_FAN);

  for (guint i = 0; i < n_shrouds; i++)
    place_shroud (self, TW_DRAWING_SHROUD (self->drawing, i));
  for (guint i = 0; i < n_fans; i++) {
    const TwFan *fan = TW_DRAWING_FAN (self->drawing, i);
    TwPlacedFan placed;
    const char *why = place_fan (self, fan, &placed);

    tw_placement_add (self, &fan->head, self->fans, &placed, why);
  }
  for (guint i = 0; i < self->shrouds->len; i++) {
    const TwPlacedShroud *shroud = &g_array_index (self->shrouds, TwPlacedShroud, i);
    const TwPlacedCore *core = tw_placement_core (self, shroud->core);

    if (fabs (shroud->fans_w_mm - shroud->mouth_w_mm) > 0.0)
      tw_placement_add_solid (self, shroud->id, core->id, TW_SOLID_SHROUD, shroud_solid (core, shroud));
  }
  add_fan_solids (self, TW_SOLID_FAN);
  add_fan_solids (self, TW_SOLID_HUB);
}
