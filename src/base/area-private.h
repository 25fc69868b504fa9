/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * area-private.h - what the files of base/area share: building an area from rings, and the way to GEOS
 */
#pragma once

#include "base/area.h"

#include <geos_c.h>

G_BEGIN_DECLS

/* Rings on their way into an area: polygons of rings of TwPoint, the outer ring first. */
typedef GPtrArray TwRings;

struct _TwGeos {
  GEOSContextHandle_t context;
  char *trouble; /* the first since it was cleared, or NULL */
  char *said;    /* what GEOS said last, or NULL */
};

/* No rings yet. (transfer full): finish it, or free it as an array */
TwRings *tw_rings_new (void) G_GNUC_WARN_UNUSED_RESULT;

/* Starts a polygon with an outer ring, or a hole in the polygon begun last. Takes @points (GArray of
 * TwPoint). */
void tw_rings_add (TwRings *self, GArray *points, gboolean is_hole);

/* Puts rings the right way round and everything into its fixed order; takes @self. (transfer full) */
TwArea *tw_rings_finish (TwRings *self) G_GNUC_WARN_UNUSED_RESULT;

/* One ring that is known to be sound: no crossing, not flat. Takes @points. (transfer full) */
TwArea *tw_area_of_ring (GArray *points) G_GNUC_WARN_UNUSED_RESULT;

/* Twice the area inside, positive when counter-clockwise. */
double tw_ring_double_area_mm2 (const TwPoint *points, guint n_points);

/* Keeps @what, with what GEOS said, as the first trouble unless there is one. */
void tw_geos_fail (TwGeos *self, const char *what);

/* An area as GEOS's own (transfer full), always a multi-polygon; NULL and a trouble when that fails. */
GEOSGeometry *tw_geos_from_area (TwGeos *self, const TwArea *area) G_GNUC_WARN_UNUSED_RESULT;

/* The polygons in @geometry (taken; NULL is an empty area and a trouble named @what); lines and points in it
 * are dropped. (transfer full) */
TwArea *tw_geos_to_area (TwGeos *self, GEOSGeometry *geometry, const char *what) G_GNUC_WARN_UNUSED_RESULT;

/* A closed GEOS ring (transfer full), or NULL. */
GEOSGeometry *tw_geos_ring (TwGeos *self, const TwPoint *points, guint n_points) G_GNUC_WARN_UNUSED_RESULT;

/* A closed GEOS polygon without holes (transfer full), or NULL. */
GEOSGeometry *tw_geos_polygon (TwGeos *self, const TwPoint *points, guint n_points) G_GNUC_WARN_UNUSED_RESULT;

/* An open GEOS line (transfer full), or NULL. */
GEOSGeometry *tw_geos_line (TwGeos *self, const TwPoint *points, guint n_points) G_GNUC_WARN_UNUSED_RESULT;

/* The points of a GEOS line or ring, in its order. (transfer full) */
GArray *tw_geos_points (TwGeos *self, const GEOSGeometry *line) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwRings, g_ptr_array_unref)

G_END_DECLS
