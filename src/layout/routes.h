/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * routes.h - each hose run as a chain of straights and bends in space
 *
 * The centreline goes from wall to wall, stand-outs included: from the place of one port by the via-points to
 * that of the other, each corner rounded by an arc that touches both legs. With an angle θ between the legs'
 * directions and a radius R the arc takes R·tan(θ/2) off each leg and is R·θ long (elementary geometry).
 */
#pragma once

#include "layout/placement.h"

G_BEGIN_DECLS

/* What can be said of a run. */
typedef enum {
  TW_ROUTE_NO_END = 1 << 0,       /* an end or via-point has no place: the run has no pieces and no figures */
  TW_ROUTE_NO_RADIUS = 1 << 1,    /* a corner without a bend radius: drawn sharp, no length */
  TW_ROUTE_NO_FIT = 1 << 2,       /* two bends want more than the leg between them has: see the straights */
  TW_ROUTE_SHORT = 1 << 3,        /* a straight shorter than the job's shortest, though nothing is missing */
  TW_ROUTE_TIGHT = 1 << 4,        /* a bend under the smallest radius */
  TW_ROUTE_DOUBLES_BACK = 1 << 5, /* legs that turn by 179° and more: no arc joins them, no length */
  TW_ROUTE_OFF_AXIS_FROM = 1 << 6, /* the first leg is more than 1° off its port's axis */
  TW_ROUTE_OFF_AXIS_TO = 1 << 7,   /* the last leg */
  TW_ROUTE_SAME_PLACE = 1 << 8,    /* two points that follow each other are one: the second was left out */
} TwRouteFlags;

/* What a piece of a run is. */
typedef enum {
  TW_ROUTE_STRAIGHT,
  TW_ROUTE_BEND,
} TwRoutePieceKind;

/* One straight or bend, in the direction of the water. */
typedef struct {
  TwRoutePieceKind kind;
  TwVec from;       /* where it starts */
  TwVec to;         /* where it ends */
  TwVec way;        /* direction in which it starts */
  TwVec way_end;    /* direction in which it ends */
  double length_mm; /* along it; a straight that has no room is negative: how much is missing */
  /* What follows is of bends; of straights it is 0. */
  guint bend;        /* number of the bend, from 1 */
  TwId via;          /* the via-point that it rounds */
  TwVec corner;      /* where the two legs meet */
  TwVec centre;      /* of the arc */
  double radius_mm;  /* of the centreline; 0 for a sharp corner */
  double angle_rad;  /* by which the run turns, 0..π */
  double tangent_mm; /* from the corner to where the arc starts */
  TwVec normal;      /* direction: way × way_end by components */
  double turn_rad; /* of its plane against that of the bend before, about the leg between: −π..π, positive
                    * clockwise looking with the water; 0 for the first */
  double over_least_mm; /* radius less the smallest allowed; NaN when the run does not say that */
} TwRoutePiece;

/* A place inside a run that is higher or lower than what is before and after it. */
typedef struct {
  gboolean is_high; /* air stays here; else water does */
  TwVec at;         /* on the centreline; the middle of a level stretch */
  double along_mm;  /* from the start */
  double
      rise_mm; /* over (high) or under (low) the next turning place or end, whichever is nearer in height */
} TwRouteTurn;

/* One hose run. */
typedef struct {
  TwId hose;
  TwRouteFlags flags;
  double centreline_mm;     /* wall to wall; NaN when it cannot be known */
  double cut_mm;            /* centreline − stand-outs + push-ons; NaN when one of them is not known */
  double volume_l;          /* bore by centreline; NaN when the bore is not known */
  double fall_mm;           /* start higher than end; negative when it climbs */
  double shortest_mm;       /* shortest straight, negative when bends do not fit; NaN for a run without any */
  double off_axis_from_rad; /* between the first leg and its port's axis; NaN when that is not known */
  double off_axis_to_rad;   /* between the last leg, looked at from its port, and that port's axis */
  guint n_bends;
  guint n_pieces;
  guint n_turns;
  const TwRoutePiece *pieces; /* in the direction of the water */
  const TwRouteTurn *turns;   /* in the direction of the water */
} TwRoute;

typedef struct _TwRoutes TwRoutes; /* never changes once found; may be shared between threads */

/**
 * tw_routes_find:
 * @placement: only read during the call
 *
 * Returns: (transfer full): free with tw_routes_unref()
 */
TwRoutes *tw_routes_find (const TwPlacement *placement) G_GNUC_WARN_UNUSED_RESULT;
TwRoutes *tw_routes_ref (TwRoutes *self);
void tw_routes_unref (TwRoutes *self);

/* In the order of the drawing's hoses; NULL past the last. (transfer none) */
guint tw_routes_count (const TwRoutes *self);
const TwRoute *tw_routes_get (const TwRoutes *self, guint nth);

/* The run of that hose, or NULL. (transfer none) */
const TwRoute *tw_routes_find_hose (const TwRoutes *self, TwId hose);

/* Runs as solids of the role TW_SOLID_HOSE, at their outside diameter: cylinders for straights, chains of
 * capsules for bends, whose middles lie at most TW_ROUTES_SAG_MM inside the arc. A run without a wall has its
 * bore; one without a bore has none. (transfer none) (array length=n) */
#define TW_ROUTES_SAG_MM 0.1
const TwPlacedSolid *tw_routes_solids (const TwRoutes *self, guint *n);

/* The point a share @t (0 start, 1 end, dimensionless) of the way along a piece. */
TwVec tw_route_piece_point (const TwRoutePiece *piece, double t);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwRoutes, tw_routes_unref)

G_END_DECLS
