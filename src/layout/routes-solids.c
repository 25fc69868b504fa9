/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/routes-private.h"

#include <math.h>

static void
add_solid (GArray *solids, TwId hose, TwConvex *convex)
{
  TwPlacedSolid solid = { .part = hose, .core = TW_ID_NONE, .role = TW_SOLID_HOSE, .convex = convex };

  g_array_append_val (solids, solid);
}

/* Chords of at most TW_ROUTES_SAG_MM under their arc: R·(1 − cos (δ/2)). */
static void
add_bend (const TwRoutePiece *piece, TwId hose, double radius_mm, GArray *solids)
{
  double step = 2.0 * acos (MAX (1.0 - TW_ROUTES_SAG_MM / piece->radius_mm, 0.0));
  guint n = (guint)ceil (piece->angle_rad / step);

  for (guint i = 0; i < n; i++)
    add_solid (solids, hose,
               tw_convex_new_capsule (tw_route_piece_point (piece, (double)i / n),
                                      tw_route_piece_point (piece, (i + 1.0) / n), radius_mm));
}

void
tw_route_add_solids (const TwRoute *route, double radius_mm, GArray *solids)
{
  for (guint i = 0; i < route->n_pieces; i++) {
    const TwRoutePiece *piece = &route->pieces[i];

    if (piece->kind == TW_ROUTE_BEND && piece->radius_mm > 0.0)
      add_bend (piece, route->hose, radius_mm, solids);
    else if (piece->kind == TW_ROUTE_BEND)
      add_solid (solids, route->hose, tw_convex_new_capsule (piece->corner, piece->corner, radius_mm));
    else if (piece->length_mm > 0.0)
      add_solid (solids, route->hose, tw_convex_new_cylinder (piece->from, piece->to, radius_mm));
  }
}
