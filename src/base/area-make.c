/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/area-private.h"

#include <math.h>

/* Sides of a quarter circle in GEOS's buffers. */
#define QUARTER_SIDES (TW_GEOM_CIRCLE_SIDES / 4)

static gboolean
are_sane (TwGeos *geos, const TwPoint *points, guint n_points)
{
  for (guint i = 0; i < n_points; i++) {
    if (!tw_point_is_sane (points[i])) {
      tw_geos_fail (geos, "a coordinate is no number or too large");
      return FALSE;
    }
  }
  return TRUE;
}

/* @points without neighbours at one place, the last and first counted when @closed. */
static GArray *
without_repeats (const TwPoint *points, guint n_points, gboolean closed)
{
  GArray *kept = g_array_sized_new (FALSE, FALSE, sizeof (TwPoint), n_points);

  for (guint i = 0; i < n_points; i++) {
    const TwPoint *last = kept->len > 0 ? &g_array_index (kept, TwPoint, kept->len - 1) : NULL;

    if (last == NULL || last->x_mm != points[i].x_mm || last->y_mm != points[i].y_mm)
      g_array_append_val (kept, points[i]);
  }
  while (
      closed && kept->len > 1
      && tw_point_distance_mm (g_array_index (kept, TwPoint, 0), g_array_index (kept, TwPoint, kept->len - 1))
             == 0.0)
    g_array_set_size (kept, kept->len - 1);
  return kept;
}

TwArea *
tw_area_new_box (TwGeos *geos, TwBox box)
{
  const TwPoint corners[] = {
    { box.x0_mm, box.y0_mm }, { box.x1_mm, box.y0_mm }, { box.x1_mm, box.y1_mm }, { box.x0_mm, box.y1_mm }
  };
  GArray *points;

  g_return_val_if_fail (geos != NULL, tw_area_new_empty ());

  if (tw_box_is_empty (box) && !isnan (box.x0_mm + box.y0_mm + box.x1_mm + box.y1_mm))
    return tw_area_new_empty ();
  if (!are_sane (geos, corners, 4) || box.x0_mm == box.x1_mm || box.y0_mm == box.y1_mm)
    return tw_area_new_empty ();
  points = g_array_new (FALSE, FALSE, sizeof (TwPoint));
  g_array_append_vals (points, corners, 4);
  return tw_area_of_ring (points);
}

/* TRUE when all points lie on one line. */
static gboolean
is_flat (TwGeos *geos, const GArray *points)
{
  GEOSGeometry *line = tw_geos_line (geos, (const TwPoint *)(const void *)points->data, points->len);
  GEOSGeometry *hull = line != NULL ? GEOSConvexHull_r (geos->context, line) : NULL;
  gboolean flat = hull == NULL || GEOSGeomTypeId_r (geos->context, hull) != GEOS_POLYGON;

  if (hull != NULL)
    GEOSGeom_destroy_r (geos->context, hull);
  if (line != NULL)
    GEOSGeom_destroy_r (geos->context, line);
  return flat;
}

TwArea *
tw_area_new_points (TwGeos *geos, const TwPoint *points, guint n_points)
{
  g_autoptr (GArray) ring = NULL;
  GEOSGeometry *polygon;
  gboolean valid;

  g_return_val_if_fail (geos != NULL && (points != NULL || n_points == 0), tw_area_new_empty ());

  if (!are_sane (geos, points, n_points))
    return tw_area_new_empty ();
  ring = without_repeats (points, n_points, TRUE);
  if (ring->len < 3)
    return tw_area_new_empty ();
  polygon = tw_geos_polygon (geos, (const TwPoint *)(void *)ring->data, ring->len);
  valid = polygon != NULL && GEOSisValid_r (geos->context, polygon) == 1;
  if (polygon != NULL)
    GEOSGeom_destroy_r (geos->context, polygon);
  if (valid)
    return tw_area_of_ring (g_steal_pointer (&ring));
  if (!is_flat (geos, ring))
    tw_geos_fail (geos, "an outline crosses itself");
  return tw_area_new_empty ();
}

TwArea *
tw_area_new_circle (TwGeos *geos, TwPoint centre, double radius_mm)
{
  GArray *points;

  g_return_val_if_fail (geos != NULL, tw_area_new_empty ());

  if (!are_sane (geos, &centre, 1))
    return tw_area_new_empty ();
  if (!(radius_mm >= 0.0 && radius_mm <= TW_GEOM_LIMIT_MM)) {
    tw_geos_fail (geos, "a radius is no number, negative or too large");
    return tw_area_new_empty ();
  }
  /* a circle so small that its points fall together beside its centre has no area either */
  if (radius_mm <= 1e-9 * MAX (1.0, MAX (fabs (centre.x_mm), fabs (centre.y_mm))))
    return tw_area_new_empty ();
  points = g_array_new (FALSE, FALSE, sizeof (TwPoint));
  g_array_set_size (points, TW_GEOM_CIRCLE_SIDES);
  tw_circle_points (centre, radius_mm, (TwPoint *)(void *)points->data);
  return tw_area_of_ring (points);
}

#define N_EXTREMES 8

/* The points furthest out in eight directions, counter-clockwise from +x. */
static void
find_extremes (const TwPoint *points, guint n_points, TwPoint *extremes)
{
  static const double across[N_EXTREMES] = { 1, 1, 0, -1, -1, -1, 0, 1 };
  static const double up[N_EXTREMES] = { 0, 1, 1, 1, 0, -1, -1, -1 };
  double best[N_EXTREMES];

  for (guint k = 0; k < N_EXTREMES; k++)
    best[k] = -G_MAXDOUBLE;
  for (guint i = 0; i < n_points; i++) {
    for (guint k = 0; k < N_EXTREMES; k++) {
      double reach = across[k] * points[i].x_mm + up[k] * points[i].y_mm;

      if (reach > best[k]) {
        best[k] = reach;
        extremes[k] = points[i];
      }
    }
  }
}

/* TRUE for a point in the octagon of @extremes or on its edge. */
static gboolean
is_among (const TwPoint *extremes, TwPoint at)
{
  for (guint k = 0; k < N_EXTREMES; k++) {
    TwPoint a = extremes[k], b = extremes[(k + 1) % N_EXTREMES];

    if ((b.x_mm - a.x_mm) * (at.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (at.x_mm - a.x_mm) < 0.0)
      return FALSE;
  }
  return TRUE;
}

/* @points without those that cannot be corners of their hull: what lies between the extremes (after Akl and
 * Toussaint, Information Processing Letters 7 (1978) 219). Of a round bar seen from the side eight are left.
 */
static GArray *
outer_points (const TwPoint *points, guint n_points)
{
  GArray *outer = g_array_new (FALSE, FALSE, sizeof (TwPoint));
  TwPoint extremes[N_EXTREMES];

  find_extremes (points, n_points, extremes);
  g_array_append_vals (outer, extremes, N_EXTREMES);
  for (guint i = 0; i < n_points; i++)
    if (!is_among (extremes, points[i]))
      g_array_append_val (outer, points[i]);
  return outer;
}

TwArea *
tw_area_new_hull (TwGeos *geos, const TwPoint *points, guint n_points)
{
  g_autoptr (GArray) outer = NULL;
  GEOSGeometry *line, *hull;

  g_return_val_if_fail (geos != NULL && (points != NULL || n_points == 0), tw_area_new_empty ());

  if (n_points < 3 || !are_sane (geos, points, n_points))
    return tw_area_new_empty ();
  outer = outer_points (points, n_points);
  line = tw_geos_line (geos, (const TwPoint *)(void *)outer->data, outer->len);
  hull = line != NULL ? GEOSConvexHull_r (geos->context, line) : NULL;
  if (line != NULL)
    GEOSGeom_destroy_r (geos->context, line);
  return tw_geos_to_area (geos, hull, "a hull could not be made");
}

static TwArea *
new_strip (TwGeos *geos, const GArray *path, double radius_mm, guint quarter_sides, int cap)
{
  GEOSGeometry *line = tw_geos_line (geos, (const TwPoint *)(const void *)path->data, path->len);
  GEOSGeometry *strip = line != NULL ? GEOSBufferWithStyle_r (
                            geos->context, line, radius_mm, (int)quarter_sides, cap, GEOSBUF_JOIN_ROUND, 5.0)
                                     : NULL;

  if (line != NULL)
    GEOSGeom_destroy_r (geos->context, line);
  return tw_geos_to_area (geos, strip, "a strip could not be made");
}

/* The polyline without repeats; NULL when there is nothing to make a strip of. */
static GArray *
sound_path (TwGeos *geos, const TwPoint *points, guint n_points, double radius_mm)
{
  if (!are_sane (geos, points, n_points) || n_points == 0)
    return NULL;
  if (!(radius_mm >= 0.0 && radius_mm <= TW_GEOM_LIMIT_MM)) {
    tw_geos_fail (geos, "a radius is no number, negative or too large");
    return NULL;
  }
  return without_repeats (points, n_points, FALSE);
}

TwArea *
tw_area_new_strip (TwGeos *geos, const TwPoint *points, guint n_points, double radius_mm, gboolean round_ends)
{
  g_autoptr (GArray) path = NULL;

  g_return_val_if_fail (geos != NULL && (points != NULL || n_points == 0), tw_area_new_empty ());

  path = sound_path (geos, points, n_points, radius_mm);
  if (path == NULL)
    return tw_area_new_empty ();
  if (path->len == 1)
    return round_ends ? tw_area_new_circle (geos, points[0], radius_mm) : tw_area_new_empty ();
  return new_strip (geos, path, radius_mm, QUARTER_SIDES, round_ends ? GEOSBUF_CAP_ROUND : GEOSBUF_CAP_FLAT);
}

TwArea *
tw_area_new_band (TwGeos *geos, const TwPoint *points, guint n_points, double radius_mm, guint sides)
{
  g_autoptr (GArray) path = NULL;

  g_return_val_if_fail (geos != NULL && (points != NULL || n_points == 0), tw_area_new_empty ());
  g_return_val_if_fail (sides >= 4 && sides % 4 == 0, tw_area_new_empty ());

  path = sound_path (geos, points, n_points, radius_mm);
  if (path == NULL || path->len == 1)
    return tw_area_new_empty ();
  return new_strip (geos, path, radius_mm, sides / 4, GEOSBUF_CAP_FLAT);
}

TwArea *
tw_area_grow (TwGeos *geos, const TwArea *self, double by_mm)
{
  GEOSGeometry *geometry, *grown;

  g_return_val_if_fail (geos != NULL && self != NULL, tw_area_new_empty ());

  if (!(fabs (by_mm) <= TW_GEOM_LIMIT_MM)) {
    tw_geos_fail (geos, "a distance is no number or too large");
    return tw_area_new_empty ();
  }
  geometry = tw_geos_from_area (geos, self);
  grown = geometry != NULL ? GEOSBuffer_r (geos->context, geometry, by_mm, QUARTER_SIDES) : NULL;
  if (geometry != NULL)
    GEOSGeom_destroy_r (geos->context, geometry);
  return tw_geos_to_area (geos, grown, "an area could not be grown");
}

TwArea *
tw_area_map (TwGeos *geos, const TwArea *self, const TwMap *map)
{
  TwRings *rings;
  double scale;

  g_return_val_if_fail (geos != NULL && self != NULL && map != NULL, tw_area_new_empty ());

  scale = map->xx * map->yy - map->xy * map->yx;
  if (!(isfinite (scale) && scale != 0.0 && isfinite (map->x_mm) && isfinite (map->y_mm))) {
    tw_geos_fail (geos, "a map takes areas to nothing");
    return tw_area_new_empty ();
  }
  rings = tw_rings_new ();
  for (guint i = 0; i < tw_area_n_rings (self); i++) {
    TwRing ring = tw_area_ring (self, i);
    GArray *points = g_array_sized_new (FALSE, FALSE, sizeof (TwPoint), ring.n_points);

    for (guint k = 0; k < ring.n_points; k++) {
      TwPoint point = tw_map_point (map, ring.points[k]);

      g_array_append_val (points, point);
    }
    if (!are_sane (geos, (const TwPoint *)(void *)points->data, points->len)) {
      g_array_unref (points);
      g_ptr_array_unref (rings);
      return tw_area_new_empty ();
    }
    tw_rings_add (rings, points, ring.is_hole);
  }
  return tw_rings_finish (rings);
}
