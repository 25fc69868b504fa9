/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * space.h - vectors, frames and the three job planes
 *
 * The job frame: x across, + to the right when looking with the air; y up; z with the air, + downstream. As z
 * points away from the eye, (x, y, z) is a LEFT-handed triple, and so is a core's (u, v, w), which lies along
 * it while the core is not turned. Said once, here: the algebra (dot and cross products by components) is the
 * usual one; "clockwise looking with the air" is a turn from +y towards +x.
 */
#pragma once

#include "base/geom.h"

G_BEGIN_DECLS

/* A place in the job frame, or a direction of length 1. */
typedef struct {
  double x; /* mm; dimensionless in a direction */
  double y; /* mm; dimensionless in a direction */
  double z; /* mm; dimensionless in a direction */
} TwVec;

/* The turns of something placed, in the order in which they are applied. */
typedef struct {
  double turn_rad;    /* in its own face, about w; positive clockwise looking with the air */
  double lean_rad;    /* about its own u line; positive takes the top downstream */
  double roll_rad;    /* about a line along z; positive clockwise looking with the air */
  double heading_rad; /* about an upright line; positive turns the face's normal w towards +x */
} TwTurns;

/* Three axes at a point. */
typedef struct {
  TwVec origin;
  TwVec u; /* direction: across the face */
  TwVec v; /* direction: up the face */
  TwVec w; /* direction: through the core, with the air */
} TwFrame;

/* What lies on one side of a plane: normal · p ≤ offset. */
typedef struct {
  TwVec normal; /* direction, out of what is kept */
  double offset_mm;
} TwHalfSpace;

/* The planes in which volumes are drawn; across and up are the plane's two coordinates. */
typedef enum {
  TW_PLANE_FRONT, /* across x, up y; third axis z */
  TW_PLANE_SIDE,  /* across z, up y; third axis x */
  TW_PLANE_PLAN,  /* across x, up z; third axis y */
} TwPlane;

static inline TwVec
tw_vec (double x, double y, double z)
{
  return (TwVec){ x, y, z };
}

static inline TwVec
tw_vec_add (TwVec a, TwVec b)
{
  return (TwVec){ a.x + b.x, a.y + b.y, a.z + b.z };
}

static inline TwVec
tw_vec_subtract (TwVec a, TwVec b)
{
  return (TwVec){ a.x - b.x, a.y - b.y, a.z - b.z };
}

static inline TwVec
tw_vec_scale (TwVec a, double by)
{
  return (TwVec){ a.x * by, a.y * by, a.z * by };
}

/* a + by·b */
static inline TwVec
tw_vec_add_scaled (TwVec a, double by, TwVec b)
{
  return (TwVec){ a.x + by * b.x, a.y + by * b.y, a.z + by * b.z };
}

static inline double
tw_vec_dot (TwVec a, TwVec b)
{
  return a.x * b.x + a.y * b.y + a.z * b.z;
}

static inline TwVec
tw_vec_cross (TwVec a, TwVec b)
{
  return (TwVec){ a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x };
}

/* Length of @a, and the distance between two places. */
double tw_vec_length_mm (TwVec a);
double tw_vec_distance_mm (TwVec a, TwVec b);

/* @a of length 1; @a itself when it has no length. */
TwVec tw_vec_unit (TwVec a);

/* The angle between two directions, 0..π; exact also near 0 and π. */
double tw_vec_angle_rad (TwVec a, TwVec b);

/* Some direction square to the direction @a: always the same one for the same @a. */
TwVec tw_vec_square_to (TwVec a);

/* TRUE when all three are numbers within TW_GEOM_LIMIT_MM. */
gboolean tw_vec_is_sane (TwVec a);

/* @turns applied to a frame along x, y, z at @origin. */
TwFrame tw_frame_place (TwVec origin, TwTurns turns);

/* The frame along x, y, z at the job's zero. */
TwFrame tw_frame_job (void);

/* From frame coordinates (u, v, w) to the job's, and back. */
TwVec tw_frame_to_job (const TwFrame *self, TwVec uvw);
TwVec tw_frame_from_job (const TwFrame *self, TwVec xyz);

/* The same for directions: turned, not moved. */
TwVec tw_frame_turn_to_job (const TwFrame *self, TwVec direction);
TwVec tw_frame_turn_from_job (const TwFrame *self, TwVec direction);

/* A frame on @origin whose w is the direction @w, u as level (u.y = 0) as can be and v upwards; for @w
 * upright, u is +x. For drawing or projecting along @w. */
TwFrame tw_frame_along (TwVec origin, TwVec w);

/* A point of a job plane lifted to @third_mm along the plane's third axis, and back. */
TwVec tw_plane_lift (TwPlane plane, TwPoint at, double third_mm);
TwPoint tw_plane_drop (TwPlane plane, TwVec at);
double tw_plane_third_mm (TwPlane plane, TwVec at);

G_END_DECLS
