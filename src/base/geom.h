/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * geom.h - points, boxes and outlines with arcs in a plane
 *
 * Plain values and closed forms; what one polygon does to another is in base/area.h. A plane has x to the
 * right and y up, whatever the drawing calls its two axes. Nothing here allocates unless it says so.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Coordinates further out than this (a kilometre) are refused: no installation is that large, and products of
 * such figures are still exact enough. */
#define TW_GEOM_LIMIT_MM 1e6

/* Sides that a full circle gets when it becomes a polygon. */
#define TW_GEOM_CIRCLE_SIDES 1024

/* The largest bow of an edge, as a multiple of its chord (dimensionless): an arc of 337°. */
#define TW_GEOM_BOW_LIMIT 5.0

/* A place in a plane. */
typedef struct {
  double x_mm; /* to the right */
  double y_mm; /* up */
} TwPoint;

/* An upright rectangle; empty while x1 < x0 or y1 < y0. */
typedef struct {
  double x0_mm; /* left */
  double y0_mm; /* bottom */
  double x1_mm; /* right */
  double y1_mm; /* top */
} TwBox;

/* A box that holds nothing; the first point added makes it that point. */
#define TW_BOX_EMPTY ((TwBox){ G_MAXDOUBLE, G_MAXDOUBLE, -G_MAXDOUBLE, -G_MAXDOUBLE })

/* A corner of a closed outline and the edge that leaves it. */
typedef struct {
  TwPoint at;
  double bow_mm; /* rise of the edge's arc over its chord; 0 straight; positive bows to the right of the
                  * direction of travel: outwards on a counter-clockwise outline. Half a chord is half a
                  * circle, more is the major arc, up to TW_GEOM_BOW_LIMIT chords */
} TwCorner;

/* The circle that an edge follows. */
typedef struct {
  TwPoint centre;
  double radius_mm; /* positive; 0 for a straight edge, the rest is then 0 too */
  double from_rad;  /* direction from the centre to the start of the edge, counter-clockwise from +x */
  double turn_rad;  /* angle along the edge: positive counter-clockwise (a positive bow) */
} TwArc;

/* A linear map of the plane and a shift: x' = xx·x + xy·y + x_mm, y' = yx·x + yy·y + y_mm. */
typedef struct {
  double xx;   /* dimensionless */
  double xy;   /* dimensionless */
  double yx;   /* dimensionless */
  double yy;   /* dimensionless */
  double x_mm; /* shift to the right */
  double y_mm; /* shift up */
} TwMap;

#define TW_MAP_IDENTITY ((TwMap){ .xx = 1.0, .yy = 1.0 })

/* Distance between two points. */
double tw_point_distance_mm (TwPoint a, TwPoint b);

/* TRUE when both coordinates are numbers within TW_GEOM_LIMIT_MM. */
gboolean tw_point_is_sane (TwPoint point);

/* Where @map takes @point. */
TwPoint tw_map_point (const TwMap *map, TwPoint point);

/* Holds no point at all; a box of no width still holds its line. */
gboolean tw_box_is_empty (TwBox box);

/* The smallest box round @box and @point, or round both boxes. */
TwBox tw_box_add_point (TwBox box, TwPoint point);
TwBox tw_box_add (TwBox a, TwBox b);

/* TRUE when the two have a point in common, edges counted. */
gboolean tw_box_overlaps (TwBox a, TwBox b);

/* TRUE when @point lies in @box, edges counted. */
gboolean tw_box_contains (TwBox box, TwPoint point);

/* @box with every side moved out by @by_mm (in when negative). */
TwBox tw_box_grow (TwBox box, double by_mm);

/**
 * tw_arc_of_edge:
 * @from: start of the edge
 * @to: its end, not the same place
 * @bow_mm: as in TwCorner
 *
 * With chord c and rise h: radius = (c²/4 + h²) / 2|h|, angle = 4·atan (2|h|/c). Elementary geometry of the
 * circular segment.
 */
TwArc tw_arc_of_edge (TwPoint from, TwPoint to, double bow_mm);

/* Area between the chord and the arc of angle @turn_rad (0..2π, sign not regarded): r²/2·(θ − sin θ). */
double tw_arc_segment_area_mm2 (double radius_mm, double turn_rad);

/* The point a share @t (0 start, 1 end, dimensionless) of the way along @arc. */
TwPoint tw_arc_point (const TwArc *arc, double t);

/* Length along an edge, straight or bowed. */
double tw_edge_length_mm (TwPoint from, TwPoint to, double bow_mm);

/* The smallest box round an edge, the arc's own extremes counted. */
TwBox tw_edge_bounds (TwPoint from, TwPoint to, double bow_mm);

/* The smallest box round a closed outline, arcs counted; empty for @n_corners 0. */
TwBox tw_outline_bounds (const TwCorner *corners, guint n_corners);

/* Area in a closed outline by the closed forms, arcs exact: positive when it goes counter-clockwise. */
double tw_outline_area_mm2 (const TwCorner *corners, guint n_corners);

/**
 * tw_outline_flatten:
 * @corners: (array length=n_corners): a closed outline; the last edge returns to the first corner
 * @n_corners: at least 2
 *
 * The outline with straight edges only. An arc gets the sides it would have as a part of a circle of
 * TW_GEOM_CIRCLE_SIDES sides, two at least; its ends stay, the points between lie so far out that the area of
 * the circular segment is kept exactly.
 *
 * Returns: (transfer full): an array of TwPoint, the first not repeated at the end
 */
GArray *tw_outline_flatten (const TwCorner *corners, guint n_corners) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_circle_points:
 * @centre: its centre
 * @radius_mm: positive
 * @points: (out caller-allocates): TW_GEOM_CIRCLE_SIDES points, counter-clockwise
 *
 * The regular polygon of the circle's own area; a side, not a corner, faces each axis, so that it is wide and
 * high to 1.6 parts in a million. Mirrors onto itself to the last bit.
 */
void tw_circle_points (TwPoint centre, double radius_mm, TwPoint *points);

/* The same with @n sides, a multiple of 8: corners stand out by 1.65/n² of the diameter. @points: @n of them.
 */
void tw_circle_sides (TwPoint centre, double radius_mm, guint n, TwPoint *points);

G_END_DECLS
