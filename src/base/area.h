/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * area.h - sets of polygons, and what one does to another
 *
 * A TwArea is plain numbers that never change once made: counted, safe to share between threads. Polygon work
 * is done by the GEOS library through a TwGeos handle; a handle serves one worker at a time. Like a cairo
 * context, a handle remembers its first trouble: what fails gives an empty area, and whoever made a figure
 * asks tw_geos_trouble() once at the end. Same input, same bits: rings start at their leftmost point (the
 * lowest of them), polygons stand in a fixed order.
 */
#pragma once

#include "base/geom.h"

G_BEGIN_DECLS

typedef struct _TwGeos TwGeos;
typedef struct _TwArea TwArea;

/* One closed ring of an area. */
typedef struct {
  const TwPoint
      *points;      /* the first is not repeated at the end; outer rings counter-clockwise, holes clockwise */
  guint n_points;   /* at least 3 */
  gboolean is_hole; /* a hole in the last outer ring before it */
} TwRing;

/* A handle for one worker. (transfer full): free with tw_geos_free() */
TwGeos *tw_geos_new (void) G_GNUC_WARN_UNUSED_RESULT;
void tw_geos_free (TwGeos *self);

/* What went wrong first since the handle was made or cleared; NULL when nothing did. (transfer none) */
const char *tw_geos_trouble (const TwGeos *self);
void tw_geos_clear_trouble (TwGeos *self);

TwArea *tw_area_ref (TwArea *self);
void tw_area_unref (TwArea *self);

/* ---- Makers. All return (transfer full): free with tw_area_unref(); never NULL. ---- */

TwArea *tw_area_new_empty (void) G_GNUC_WARN_UNUSED_RESULT;

/* Empty for an empty box or one of no width; a trouble for figures that are none or beyond TW_GEOM_LIMIT_MM.
 */
TwArea *tw_area_new_box (TwGeos *geos, TwBox box) G_GNUC_WARN_UNUSED_RESULT;

/* One ring, either way round. Fewer than 3 different points or no area: empty. Crossing itself, NaN, beyond
 * the limit: empty and a trouble. */
TwArea *tw_area_new_points (TwGeos *geos, const TwPoint *points, guint n_points) G_GNUC_WARN_UNUSED_RESULT;

/* The polygon of tw_circle_points(); empty for radius 0, a trouble below 0. */
TwArea *tw_area_new_circle (TwGeos *geos, TwPoint centre, double radius_mm) G_GNUC_WARN_UNUSED_RESULT;

/* The smallest convex polygon round the points; empty when they have no area. */
TwArea *tw_area_new_hull (TwGeos *geos, const TwPoint *points, guint n_points) G_GNUC_WARN_UNUSED_RESULT;

/* All within @radius_mm of the open polyline; round ends, or cut off square where it ends. Arcs as of a
 * circle of TW_GEOM_CIRCLE_SIDES sides, corners on the circle. One point with round ends is a disc. */
TwArea *tw_area_new_strip (TwGeos *geos,
                           const TwPoint *points,
                           guint n_points,
                           double radius_mm,
                           gboolean round_ends) G_GNUC_WARN_UNUSED_RESULT;

/* All within @radius_mm of the open polyline, cut off square where it ends, with corners as of a circle of
 * @sides sides, a multiple of 4: for polylines that are themselves only near a curve. */
TwArea *tw_area_new_band (TwGeos *geos, const TwPoint *points, guint n_points, double radius_mm, guint sides)
    G_GNUC_WARN_UNUSED_RESULT;

/* ---- Combining. Arguments are not kept nor changed; results as above. ---- */

/* @areas: (array length=n_areas): in any order; none gives an empty area. */
TwArea *tw_area_union (TwGeos *geos, TwArea *const *areas, guint n_areas) G_GNUC_WARN_UNUSED_RESULT;
TwArea *tw_area_intersection (TwGeos *geos, const TwArea *a, const TwArea *b) G_GNUC_WARN_UNUSED_RESULT;
/* What of @a is not @b. */
TwArea *tw_area_difference (TwGeos *geos, const TwArea *a, const TwArea *b) G_GNUC_WARN_UNUSED_RESULT;
/* The part of @self in @box; @self itself, counted, where that is all of it. */
TwArea *tw_area_in_box (TwGeos *geos, TwArea *self, TwBox box) G_GNUC_WARN_UNUSED_RESULT;
/* @self grown by @by_mm with round corners; shrunk when negative. */
TwArea *tw_area_grow (TwGeos *geos, const TwArea *self, double by_mm) G_GNUC_WARN_UNUSED_RESULT;
/* @self taken by @map; a map that turns area into none gives an empty area and a trouble. */
TwArea *tw_area_map (TwGeos *geos, const TwArea *self, const TwMap *map) G_GNUC_WARN_UNUSED_RESULT;
/* The part of @self where nx·x + ny·y ≤ @offset_mm; @normal is of length 1 (in mm). */
TwArea *
tw_area_clip (TwGeos *geos, const TwArea *self, TwPoint normal, double offset_mm) G_GNUC_WARN_UNUSED_RESULT;

/* ---- Questions. ---- */

gboolean tw_area_is_empty (const TwArea *self);
/* Holes taken off; 0 when empty. */
double tw_area_mm2 (const TwArea *self);
/* TW_BOX_EMPTY when empty. */
TwBox tw_area_bounds (const TwArea *self);
/* TRUE inside; on the edge either may come. */
gboolean tw_area_contains (const TwArea *self, TwPoint point);
/* Rings: each outer one followed by its holes. */
guint tw_area_n_rings (const TwArea *self);
TwRing tw_area_ring (const TwArea *self, guint nth);
/* TRUE for a single ring that nowhere bends inwards. */
gboolean tw_area_is_convex (const TwArea *self);

/**
 * tw_area_label_point:
 * @geos: a handle
 * @self: an area
 * @radius_mm: (out) (optional): the free radius round the point
 *
 * The middle of the largest circle that lies inside, to about 1/100 of the area's size: where a label stands
 * best. The origin and radius 0 for an empty area.
 */
TwPoint tw_area_label_point (TwGeos *geos, const TwArea *self, double *radius_mm);

/**
 * tw_area_distance_mm:
 * @geos: a handle
 * @a: an area
 * @b: another
 * @at_a: (out) (optional): the point of @a nearest to @b
 * @at_b: (out) (optional): the point of @b nearest to @a
 *
 * Returns: 0 when they touch or overlap (the points are then one that both have), G_MAXDOUBLE when one is
 * empty
 */
double tw_area_distance_mm (TwGeos *geos, const TwArea *a, const TwArea *b, TwPoint *at_a, TwPoint *at_b);

/**
 * tw_area_convex_pieces:
 * @geos: a handle
 * @self: any area
 *
 * Cuts @self into convex polygons without adding corners: a convex ring stays one piece, others are
 * triangulated (GEOS, constrained Delaunay) and triangles joined over their longest edges first while they
 * stay convex.
 *
 * Returns: (transfer full) (element-type TwArea): never NULL; together exactly @self
 */
GPtrArray *tw_area_convex_pieces (TwGeos *geos, const TwArea *self) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwGeos, tw_geos_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwArea, tw_area_unref)

G_END_DECLS
