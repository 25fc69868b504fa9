/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/space.h"

#include <math.h>

double
tw_vec_length_mm (TwVec a)
{
  return sqrt (tw_vec_dot (a, a));
}

double
tw_vec_distance_mm (TwVec a, TwVec b)
{
  return tw_vec_length_mm (tw_vec_subtract (b, a));
}

TwVec
tw_vec_unit (TwVec a)
{
  double length = tw_vec_length_mm (a);

  return length > 0.0 ? tw_vec_scale (a, 1.0 / length) : a;
}

double
tw_vec_angle_rad (TwVec a, TwVec b)
{
  /* the arc cosine alone loses half its figures near 0 and π */
  return atan2 (tw_vec_length_mm (tw_vec_cross (a, b)), tw_vec_dot (a, b));
}

TwVec
tw_vec_square_to (TwVec a)
{
  double x = fabs (a.x), y = fabs (a.y), z = fabs (a.z);
  TwVec other = x <= y && x <= z ? tw_vec (1, 0, 0) : y <= z ? tw_vec (0, 1, 0) : tw_vec (0, 0, 1);

  return tw_vec_unit (tw_vec_cross (a, other));
}

gboolean
tw_vec_is_sane (TwVec a)
{
  /* NaN fails every comparison */
  return fabs (a.x) <= TW_GEOM_LIMIT_MM && fabs (a.y) <= TW_GEOM_LIMIT_MM && fabs (a.z) <= TW_GEOM_LIMIT_MM;
}

/* Clockwise looking with the air: from +y towards +x. */
static TwVec
roll (TwVec a, double angle_rad)
{
  double c = cos (angle_rad), s = sin (angle_rad);

  return tw_vec (c * a.x + s * a.y, c * a.y - s * a.x, a.z);
}

/* From +z towards +x. */
static TwVec
head (TwVec a, double angle_rad)
{
  double c = cos (angle_rad), s = sin (angle_rad);

  return tw_vec (c * a.x + s * a.z, a.y, c * a.z - s * a.x);
}

TwFrame
tw_frame_place (TwVec origin, TwTurns turns)
{
  TwVec u = roll (tw_vec (1, 0, 0), turns.turn_rad);
  TwVec v = roll (tw_vec (0, 1, 0), turns.turn_rad);
  TwVec w = tw_vec (0, 0, 1);
  double c = cos (turns.lean_rad), s = sin (turns.lean_rad);
  TwVec leaned_v = tw_vec_add_scaled (tw_vec_scale (v, c), s, w);
  TwVec leaned_w = tw_vec_add_scaled (tw_vec_scale (w, c), -s, v);

  return (TwFrame){ .origin = origin,
                    .u = head (roll (u, turns.roll_rad), turns.heading_rad),
                    .v = head (roll (leaned_v, turns.roll_rad), turns.heading_rad),
                    .w = head (roll (leaned_w, turns.roll_rad), turns.heading_rad) };
}

TwFrame
tw_frame_job (void)
{
  return (TwFrame){ .u = { 1, 0, 0 }, .v = { 0, 1, 0 }, .w = { 0, 0, 1 } };
}

TwVec
tw_frame_turn_to_job (const TwFrame *self, TwVec direction)
{
  return tw_vec_add_scaled (tw_vec_add_scaled (tw_vec_scale (self->u, direction.x), direction.y, self->v),
                            direction.z, self->w);
}

TwVec
tw_frame_turn_from_job (const TwFrame *self, TwVec direction)
{
  return tw_vec (tw_vec_dot (direction, self->u), tw_vec_dot (direction, self->v),
                 tw_vec_dot (direction, self->w));
}

TwVec
tw_frame_to_job (const TwFrame *self, TwVec uvw)
{
  return tw_vec_add (self->origin, tw_frame_turn_to_job (self, uvw));
}

TwVec
tw_frame_from_job (const TwFrame *self, TwVec xyz)
{
  return tw_frame_turn_from_job (self, tw_vec_subtract (xyz, self->origin));
}

TwFrame
tw_frame_along (TwVec origin, TwVec w)
{
  TwVec level = tw_vec_cross (tw_vec (0, 1, 0), w);
  TwVec u = tw_vec_length_mm (level) > 1e-9 ? tw_vec_unit (level) : tw_vec (1, 0, 0);

  return (TwFrame){ .origin = origin, .u = u, .v = tw_vec_cross (w, u), .w = w };
}

TwVec
tw_plane_lift (TwPlane plane, TwPoint at, double third_mm)
{
  switch (plane) {
  case TW_PLANE_SIDE:
    return tw_vec (third_mm, at.y_mm, at.x_mm);
  case TW_PLANE_PLAN:
    return tw_vec (at.x_mm, third_mm, at.y_mm);
  case TW_PLANE_FRONT:
  default:
    return tw_vec (at.x_mm, at.y_mm, third_mm);
  }
}

TwPoint
tw_plane_drop (TwPlane plane, TwVec at)
{
  switch (plane) {
  case TW_PLANE_SIDE:
    return (TwPoint){ at.z, at.y };
  case TW_PLANE_PLAN:
    return (TwPoint){ at.x, at.z };
  case TW_PLANE_FRONT:
  default:
    return (TwPoint){ at.x, at.y };
  }
}

double
tw_plane_third_mm (TwPlane plane, TwVec at)
{
  switch (plane) {
  case TW_PLANE_SIDE:
    return at.x;
  case TW_PLANE_PLAN:
    return at.y;
  case TW_PLANE_FRONT:
  default:
    return at.z;
  }
}
