/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/routes-private.h"

#include <math.h>

#define STRAIGHT_ON_RAD 1e-6
#define BACK_RAD (179.0 / 180.0 * G_PI)
#define ROUNDING_MM 1e-9

/* From a point of the run to the next. */
typedef struct {
  TwVec way;
  double length_mm;
} Leg;

/* Where two legs meet. */
typedef struct {
  double angle_rad;
  double radius_mm;  /* 0 for a sharp corner */
  double tangent_mm; /* taken off both legs */
} Corner;

static Leg
leg_to (TwVec from, TwVec to)
{
  TwVec way = tw_vec_subtract (to, from);

  return (Leg){ tw_vec_unit (way), tw_vec_length_mm (way) };
}

/* The points without those at which the run goes straight on. */
static GArray *
bent_points (const TwRoutePoint *points, guint n)
{
  GArray *bent = g_array_new (FALSE, FALSE, sizeof (TwRoutePoint));

  g_array_append_val (bent, points[0]);
  for (guint i = 1; i < n; i++) {
    const TwRoutePoint *last = &g_array_index (bent, TwRoutePoint, bent->len - 1);

    if (i + 1 == n
        || tw_vec_angle_rad (leg_to (last->at, points[i].at).way, leg_to (points[i].at, points[i + 1].at).way)
               > STRAIGHT_ON_RAD)
      g_array_append_val (bent, points[i]);
  }
  return bent;
}

static Corner
corner_of (const TwRoutePoint *point, const Leg *in, const Leg *out, TwRouteFlags *flags)
{
  Corner corner = { .angle_rad = tw_vec_angle_rad (in->way, out->way) };

  if (corner.angle_rad >= BACK_RAD) {
    *flags |= TW_ROUTE_DOUBLES_BACK;
  } else if (!(point->radius_mm > 0.0)) {
    *flags |= TW_ROUTE_NO_RADIUS;
  } else {
    corner.radius_mm = point->radius_mm;
    corner.tangent_mm = point->radius_mm * tan (corner.angle_rad / 2.0);
  }
  return corner;
}

static TwRoutePiece
straight (TwVec start, const Leg *leg, double from_mm, double to_mm)
{
  double length = to_mm - from_mm;

  return (TwRoutePiece){
    .kind = TW_ROUTE_STRAIGHT,
    .from = tw_vec_add_scaled (start, from_mm, leg->way),
    .to = tw_vec_add_scaled (start, to_mm, leg->way),
    .way = leg->way,
    .way_end = leg->way,
    .length_mm = fabs (length) < ROUNDING_MM ? 0.0 : length,
  };
}

/* The direction square to @way, in the plane of the bend, towards its centre. */
static TwVec
inwards (TwVec way, TwVec way_end)
{
  return tw_vec_unit (tw_vec_add_scaled (way_end, -tw_vec_dot (way, way_end), way));
}

static TwRoutePiece
bend (const TwRoutePoint *point, const Corner *corner, const Leg *in, const Leg *out, double least_mm)
{
  TwVec from = tw_vec_add_scaled (point->at, -corner->tangent_mm, in->way);

  return (TwRoutePiece){
    .kind = TW_ROUTE_BEND,
    .from = from,
    .to = tw_vec_add_scaled (point->at, corner->tangent_mm, out->way),
    .way = in->way,
    .way_end = out->way,
    .length_mm = corner->radius_mm * corner->angle_rad,
    .via = point->via,
    .corner = point->at,
    .centre = tw_vec_add_scaled (from, corner->radius_mm, inwards (in->way, out->way)),
    .radius_mm = corner->radius_mm,
    .angle_rad = corner->angle_rad,
    .tangent_mm = corner->tangent_mm,
    .normal = tw_vec_unit (tw_vec_cross (in->way, out->way)),
    .over_least_mm = corner->radius_mm - least_mm,
  };
}

/* Numbers the bends and turns each plane against the one before. */
static void
turn_planes (GArray *pieces)
{
  const TwRoutePiece *before = NULL;
  guint n = 0;

  for (guint i = 0; i < pieces->len; i++) {
    TwRoutePiece *piece = &g_array_index (pieces, TwRoutePiece, i);

    if (piece->kind != TW_ROUTE_BEND)
      continue;
    piece->bend = ++n;
    if (before != NULL) /* left-handed axes: clockwise is against the usual sense */
      piece->turn_rad = atan2 (-tw_vec_dot (piece->way, tw_vec_cross (before->normal, piece->normal)),
                               tw_vec_dot (before->normal, piece->normal));
    before = piece;
  }
}

GArray *
tw_route_pieces (const TwRoutePoint *points, guint n, double least_mm, TwRouteFlags *flags)
{
  GArray *pieces = g_array_new (FALSE, TRUE, sizeof (TwRoutePiece));
  g_autoptr (GArray) bent = bent_points (points, n);
  const TwRoutePoint *at = (const TwRoutePoint *)(const void *)bent->data;
  double taken = 0.0; /* of the leg at hand by the bend before it */

  for (guint i = 0; i + 1 < bent->len; i++) {
    Leg leg = leg_to (at[i].at, at[i + 1].at);
    gboolean is_last = i + 2 == bent->len;
    Leg next = is_last ? (Leg){ leg.way, 0.0 } : leg_to (at[i + 1].at, at[i + 2].at);
    Corner corner = is_last ? (Corner){ 0.0, 0.0, 0.0 } : corner_of (&at[i + 1], &leg, &next, flags);
    TwRoutePiece piece = straight (at[i].at, &leg, taken, leg.length_mm - corner.tangent_mm);

    if (piece.length_mm < 0.0)
      *flags |= TW_ROUTE_NO_FIT;
    g_array_append_val (pieces, piece);
    taken = corner.tangent_mm;
    if (is_last)
      break;
    piece = bend (&at[i + 1], &corner, &leg, &next, least_mm);
    if (piece.radius_mm > 0.0 && piece.over_least_mm < -ROUNDING_MM)
      *flags |= TW_ROUTE_TIGHT;
    g_array_append_val (pieces, piece);
  }
  turn_planes (pieces);
  return pieces;
}

TwVec
tw_route_piece_point (const TwRoutePiece *piece, double t)
{
  double angle = piece->angle_rad * t;
  TwVec out;

  if (piece->kind == TW_ROUTE_STRAIGHT || piece->radius_mm == 0.0)
    return tw_vec_add_scaled (piece->from, piece->length_mm * t, piece->way);
  out = tw_vec_subtract (piece->from, piece->centre);
  return tw_vec_add_scaled (tw_vec_add_scaled (piece->centre, cos (angle), out),
                            piece->radius_mm * sin (angle), piece->way);
}
