/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * routes-private.h - a chain of points becomes straights and bends
 */
#pragma once

#include "layout/routes.h"

G_BEGIN_DECLS

/* A place that a run goes by; the first and last are its ends. */
typedef struct {
  TwVec at;
  double radius_mm; /* of the bend there; NaN when unknown */
  TwId via;
} TwRoutePoint;

/**
 * tw_route_pieces:
 * @points: (array length=n): no two that follow each other are one
 * @n: at least 2
 * @least_mm: smallest bend radius, NaN when not said
 * @flags: (inout): what is found is added
 *
 * A point at which the run goes straight on makes no bend.
 *
 * Returns: (transfer full): an array of TwRoutePiece
 */
GArray *tw_route_pieces (const TwRoutePoint *points, guint n, double least_mm, TwRouteFlags *flags)
    G_GNUC_WARN_UNUSED_RESULT;

/* High and low places inside a run whose pieces fit. Returns (transfer full) an array of TwRouteTurn. */
GArray *tw_route_turns (const TwRoutePiece *pieces, guint n) G_GNUC_WARN_UNUSED_RESULT;

/* Adds what one run takes of the room, @radius_mm round its centreline, to @solids (of TwPlacedSolid). */
void tw_route_add_solids (const TwRoute *route, double radius_mm, GArray *solids);

G_END_DECLS
