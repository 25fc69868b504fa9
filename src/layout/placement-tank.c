/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/placement-private.h"

TwVec
tw_header_point (const TwHeaderSide *side, double along_mm, double out_mm, double w_mm)
{
  TwVec at = tw_vec_scale (side->along, along_mm);

  at = tw_vec_add_scaled (at, side->off_mm + out_mm, side->out);
  at.z += w_mm;
  return at;
}

double
tw_placed_tank_depth_mm (const TwPlacedTank *tank, double along_mm)
{
  double t = (along_mm - tank->start_mm) / (tank->end_mm - tank->start_mm);

  return tank->depth_start_mm + t * (tank->depth_end_mm - tank->depth_start_mm);
}

/* Of a half-round back: how far its sides are straight. What is left is an arc over the whole width. */
static double
straight_mm (const TwPlacedTank *tank)
{
  return MAX (0.0, tank->depth_start_mm - 0.5 * (tank->w_to_mm - tank->w_from_mm));
}

/* Circle of a half-round back over half-chord h and rise s: R = (h² + s²) / 2s. */
static double
back_radius_mm (const TwPlacedTank *tank)
{
  double half_mm = 0.5 * (tank->w_to_mm - tank->w_from_mm);
  double rise_mm = tank->depth_start_mm - straight_mm (tank);

  return (half_mm * half_mm + rise_mm * rise_mm) / (2.0 * rise_mm);
}

double
tw_placement_tank_back_mm (const TwPlacedTank *tank, double along_mm, double w_mm, TwVec *normal)
{
  const TwHeaderSide *side = &tank->side;
  double depth_mm = tw_placed_tank_depth_mm (tank, along_mm);

  if (tank->back == TW_BACK_ROUND) {
    double radius_mm = back_radius_mm (tank);
    double across_mm = w_mm - 0.5 * (tank->w_from_mm + tank->w_to_mm);
    double rise_mm = sqrt (MAX (0.0, radius_mm * radius_mm - across_mm * across_mm));

    if (normal != NULL) {
      TwVec square = tw_vec_scale (side->out, rise_mm);

      square.z += across_mm;
      *normal = tw_vec_unit (square);
    }
    return depth_mm - radius_mm + rise_mm;
  }
  if (normal != NULL) {
    double slope = (tank->depth_end_mm - tank->depth_start_mm) / (tank->end_mm - tank->start_mm);

    *normal = tw_vec_unit (tw_vec_add_scaled (side->out, -slope, side->along));
  }
  return depth_mm;
}

/* A frame on the header plate whose u, v, w are the core directions @u, @v and @w. */
static TwFrame
side_frame (const TwPlacedCore *core, const TwHeaderSide *side, TwVec u, TwVec v, TwVec w)
{
  return (TwFrame){
    .origin = tw_frame_to_job (&core->frame, tw_header_point (side, 0.0, 0.0, 0.0)),
    .u = tw_frame_turn_to_job (&core->frame, u),
    .v = tw_frame_turn_to_job (&core->frame, v),
    .w = tw_frame_turn_to_job (&core->frame, w),
  };
}

static TwConvex *
round_solid (const TwPlacedCore *core, const TwPlacedTank *tank)
{
  TwVec w = tw_vec (0.0, 0.0, 1.0);
  TwFrame frame = side_frame (core, &tank->side, w, tank->side.out, tank->side.along);
  double straight = straight_mm (tank), rise_mm = tank->depth_start_mm - straight;
  TwCorner corners[4];
  guint n = 0;
  g_autoptr (GArray) points = NULL;

  corners[n++] = (TwCorner){ { tank->w_from_mm, 0.0 }, 0.0 };
  corners[n++] = (TwCorner){ { tank->w_to_mm, 0.0 }, straight > 0.0 ? 0.0 : rise_mm };
  if (straight > 0.0) {
    corners[n++] = (TwCorner){ { tank->w_to_mm, straight }, rise_mm };
    corners[n++] = (TwCorner){ { tank->w_from_mm, straight }, 0.0 };
  }
  points = tw_outline_flatten (corners, n);
  return tw_convex_new_prism (&frame, (const TwPoint *)points->data, points->len, tank->start_mm,
                              tank->end_mm);
}

static TwConvex *
tank_solid (const TwPlacedCore *core, const TwPlacedTank *tank)
{
  TwVec w = tw_vec (0.0, 0.0, 1.0);
  TwFrame frame = side_frame (core, &tank->side, tank->side.along, tank->side.out, w);
  TwPoint points[4] = {
    { tank->start_mm, 0.0 },
    { tank->end_mm, 0.0 },
    { tank->end_mm, tank->depth_end_mm },
    { tank->start_mm, tank->depth_start_mm },
  };

  if (tank->back == TW_BACK_ROUND)
    return round_solid (core, tank);
  return tw_convex_new_prism (&frame, points, 4, tank->w_from_mm, tank->w_to_mm);
}

static const TwHeaderSide *
core_side (const TwPlacedCore *core, int side)
{
  for (guint i = 0; i < 2; i++)
    if (core->sides[i].side == side)
      return &core->sides[i];
  return NULL;
}

static void
bound (TwVec a, TwVec b, TwVec *from, TwVec *to)
{
  *from = tw_vec (MIN (a.x, b.x), MIN (a.y, b.y), MIN (a.z, b.z));
  *to = tw_vec (MAX (a.x, b.x), MAX (a.y, b.y), MAX (a.z, b.z));
}

static const char *
place_tank (const TwTank *tank, const TwPlacedCore *core, TwPlacedTank *placed)
{
  const TwHeaderSide *side;
  double middle_mm, half_mm, deepest_mm;

  if (core == NULL)
    return N_ ("its core has no place");
  side = core_side (core, tank->side);
  if (side == NULL)
    return N_ ("no tubes end on that side of its core");
  if (!isfinite (tank->depth_mm))
    return N_ ("its depth is not known");

  middle_mm = 0.5 * core->thickness_mm + tw_known_or (tank->offset_mm, 0.0);
  half_mm = 0.5 * tw_known_or (tank->width_mm, core->header_w_to_mm - core->header_w_from_mm);
  *placed = (TwPlacedTank){
    .id = tank->head.id,
    .core = core->id,
    .side = *side,
    .back = MAX (tank->back, 0),
    .start_mm = tw_known_or (tank->start_mm, core->header_start_mm),
    .end_mm = tw_known_or (tank->end_mm, core->header_end_mm),
    .w_from_mm = middle_mm - half_mm,
    .w_to_mm = middle_mm + half_mm,
    .depth_start_mm = tank->depth_mm,
    .depth_end_mm
    = tank->back == TW_BACK_TAPERED ? tw_known_or (tank->depth_end_mm, tank->depth_mm) : tank->depth_mm,
    .wall_mm = tank->wall_mm,
  };
  if (!(placed->end_mm > placed->start_mm))
    return N_ ("its upper or right end does not lie beyond its other end");
  deepest_mm = MAX (placed->depth_start_mm, placed->depth_end_mm);
  bound (tw_header_point (side, placed->start_mm, 0.0, placed->w_from_mm),
         tw_header_point (side, placed->end_mm, deepest_mm, placed->w_to_mm), &placed->from, &placed->to);
  return NULL;
}

void
tw_placement_place_tanks (TwPlacement *self)
{
  guint n = tw_drawing_count (self->drawing, TW_KIND_TANK);

  for (guint i = 0; i < n; i++) {
    const TwTank *tank = TW_DRAWING_TANK (self->drawing, i);
    const TwPlacedCore *core = tw_placement_core (self, tank->core);
    TwPlacedTank placed;
    const char *why = place_tank (tank, core, &placed);

    tw_placement_add (self, &tank->head, self->tanks, &placed, why);
    if (why == NULL)
      tw_placement_add_solid (self, placed.id, core->id, TW_SOLID_TANK, tank_solid (core, &placed));
  }
}

static const char *
place_baffle (const TwBaffle *baffle,
              const TwPlacedCore *core,
              const TwPlacedTank *tank,
              TwPlacedBaffle *placed)
{
  double place_mm = tw_known_or (baffle->place_mm, 0.0), half_mm;
  TwVec from, to;

  if (tank == NULL)
    return N_ ("its tank has no place");
  half_mm = 0.5 * tw_known_or (baffle->thickness_mm, tw_known_or (tank->wall_mm, 0.0));
  if (!(half_mm > 0.0))
    return N_ ("its thickness is not known");

  *placed = (TwPlacedBaffle){
    .id = baffle->head.id, .tank = tank->id, .core = core->id, .runs_along = baffle->runs == TW_RUNS_ALONG
  };
  if (placed->runs_along) {
    double w_mm = 0.5 * core->thickness_mm + place_mm;
    double middle_mm = 0.5 * (tank->start_mm + tank->end_mm);

    from = tw_header_point (&tank->side, tank->start_mm, 0.0, w_mm - half_mm);
    to = tw_header_point (&tank->side, tank->end_mm, tw_placement_tank_back_mm (tank, middle_mm, w_mm, NULL),
                          w_mm + half_mm);
  } else {
    from = tw_header_point (&tank->side, place_mm - half_mm, 0.0, tank->w_from_mm);
    to = tw_header_point (&tank->side, place_mm + half_mm, tw_placed_tank_depth_mm (tank, place_mm),
                          tank->w_to_mm);
  }
  bound (from, to, &placed->from, &placed->to);
  return NULL;
}

void
tw_placement_place_baffles (TwPlacement *self)
{
  guint n = tw_drawing_count (self->drawing, TW_KIND_BAFFLE);

  for (guint i = 0; i < n; i++) {
    const TwBaffle *baffle = TW_DRAWING_BAFFLE (self->drawing, i);
    const TwPlacedTank *tank = tw_placement_tank (self, baffle->tank);
    const TwPlacedCore *core = tank == NULL ? NULL : tw_placement_core (self, tank->core);
    TwPlacedBaffle placed;
    const char *why = place_baffle (baffle, core, tank, &placed);

    tw_placement_add (self, &baffle->head, self->baffles, &placed, why);
    if (why == NULL)
      tw_placement_add_solid (self, placed.id, core->id, TW_SOLID_BAFFLE,
                              tw_convex_new_box (&core->frame, placed.from, placed.to));
  }
}
