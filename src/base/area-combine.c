/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/area-private.h"

#include <math.h>

typedef GEOSGeometry *(*Overlay) (GEOSContextHandle_t context, const GEOSGeometry *a, const GEOSGeometry *b);

static void
destroy (TwGeos *geos, GEOSGeometry *geometry)
{
  if (geometry != NULL)
    GEOSGeom_destroy_r (geos->context, geometry);
}

TwArea *
tw_area_union (TwGeos *geos, TwArea *const *areas, guint n_areas)
{
  g_autoptr (GPtrArray) parts = g_ptr_array_new ();
  GEOSGeometry *all, *joined;

  g_return_val_if_fail (geos != NULL && (areas != NULL || n_areas == 0), tw_area_new_empty ());

  for (guint i = 0; i < n_areas; i++) {
    GEOSGeometry *part = tw_area_is_empty (areas[i]) ? NULL : tw_geos_from_area (geos, areas[i]);

    if (part != NULL)
      g_ptr_array_add (parts, part);
  }
  if (parts->len == 0)
    return tw_area_new_empty ();
  all = GEOSGeom_createCollection_r (geos->context, GEOS_GEOMETRYCOLLECTION, (GEOSGeometry **)parts->pdata,
                                     parts->len);
  joined = all != NULL ? GEOSUnaryUnion_r (geos->context, all) : NULL;
  destroy (geos, all);
  return tw_geos_to_area (geos, joined, "areas could not be united");
}

static TwArea *
overlay (TwGeos *geos, const TwArea *a, const TwArea *b, Overlay method, const char *what)
{
  GEOSGeometry *first = tw_geos_from_area (geos, a);
  GEOSGeometry *second = tw_geos_from_area (geos, b);
  GEOSGeometry *result = first != NULL && second != NULL ? method (geos->context, first, second) : NULL;

  destroy (geos, first);
  destroy (geos, second);
  return tw_geos_to_area (geos, result, what);
}

TwArea *
tw_area_intersection (TwGeos *geos, const TwArea *a, const TwArea *b)
{
  g_return_val_if_fail (geos != NULL && a != NULL && b != NULL, tw_area_new_empty ());

  if (!tw_box_overlaps (tw_area_bounds (a), tw_area_bounds (b)))
    return tw_area_new_empty ();
  return overlay (geos, a, b, GEOSIntersection_r, "areas could not be intersected");
}

TwArea *
tw_area_difference (TwGeos *geos, const TwArea *a, const TwArea *b)
{
  g_return_val_if_fail (geos != NULL && a != NULL && b != NULL, tw_area_new_empty ());

  return overlay (geos, a, b, GEOSDifference_r, "an area could not be taken from another");
}

TwArea *
tw_area_in_box (TwGeos *geos, TwArea *self, TwBox box)
{
  TwBox bounds;
  g_autoptr (TwArea) room = NULL;

  g_return_val_if_fail (geos != NULL && self != NULL, tw_area_new_empty ());

  bounds = tw_area_bounds (self);
  if (bounds.x0_mm >= box.x0_mm && bounds.y0_mm >= box.y0_mm && bounds.x1_mm <= box.x1_mm
      && bounds.y1_mm <= box.y1_mm)
    return tw_area_ref (self);
  room = tw_area_new_box (geos, box);
  return tw_area_intersection (geos, self, room);
}

/* The part of @box in the half-plane, as points in order: at most 5. */
static GArray *
cut_box (TwBox box, TwPoint normal, double offset_mm)
{
  const TwPoint corners[] = {
    { box.x0_mm, box.y0_mm }, { box.x1_mm, box.y0_mm }, { box.x1_mm, box.y1_mm }, { box.x0_mm, box.y1_mm }
  };
  GArray *points = g_array_new (FALSE, FALSE, sizeof (TwPoint));

  for (guint i = 0; i < 4; i++) {
    TwPoint a = corners[i];
    TwPoint b = corners[(i + 1) % 4];
    double over_a_mm = normal.x_mm * a.x_mm + normal.y_mm * a.y_mm - offset_mm;
    double over_b_mm = normal.x_mm * b.x_mm + normal.y_mm * b.y_mm - offset_mm;

    if (over_a_mm <= 0.0)
      g_array_append_val (points, a);
    if ((over_a_mm < 0.0 && over_b_mm > 0.0) || (over_a_mm > 0.0 && over_b_mm < 0.0)) {
      double t = over_a_mm / (over_a_mm - over_b_mm);
      TwPoint cut = { a.x_mm + t * (b.x_mm - a.x_mm), a.y_mm + t * (b.y_mm - a.y_mm) };

      g_array_append_val (points, cut);
    }
  }
  return points;
}

TwArea *
tw_area_clip (TwGeos *geos, const TwArea *self, TwPoint normal, double offset_mm)
{
  g_autoptr (GArray) points = NULL;
  g_autoptr (TwArea) kept = NULL;
  TwBox room;

  g_return_val_if_fail (geos != NULL && self != NULL, tw_area_new_empty ());

  if (tw_area_is_empty (self))
    return tw_area_new_empty ();
  if (!(tw_point_is_sane (normal) && isfinite (offset_mm))) {
    tw_geos_fail (geos, "a line to clip at is no line");
    return tw_area_new_empty ();
  }
  /* the room stands off so that only the line itself cuts */
  room = tw_box_grow (tw_area_bounds (self), 1.0);
  points = cut_box (room, normal, offset_mm);
  if (points->len < 3)
    return tw_area_new_empty ();
  kept = tw_area_new_points (geos, (const TwPoint *)(void *)points->data, points->len);
  return tw_area_intersection (geos, self, kept);
}

TwPoint
tw_area_label_point (TwGeos *geos, const TwArea *self, double *radius_mm)
{
  TwBox bounds;
  GEOSGeometry *geometry, *radius = NULL;
  TwPoint at = { 0.0, 0.0 };
  double free_mm = 0.0;

  g_return_val_if_fail (geos != NULL && self != NULL, at);

  if (!tw_area_is_empty (self) && (geometry = tw_geos_from_area (geos, self)) != NULL) {
    bounds = tw_area_bounds (self);
    radius = GEOSMaximumInscribedCircle_r (
        geos->context, geometry, MAX (bounds.x1_mm - bounds.x0_mm, bounds.y1_mm - bounds.y0_mm) / 100.0);
    destroy (geos, geometry);
    if (radius == NULL)
      tw_geos_fail (geos, "no place for a label could be found");
  }
  if (radius != NULL) {
    g_autoptr (GArray) ends = tw_geos_points (geos, radius);

    if (ends->len == 2) {
      at = g_array_index (ends, TwPoint, 0);
      free_mm = tw_point_distance_mm (at, g_array_index (ends, TwPoint, 1));
    }
    destroy (geos, radius);
  }
  if (radius_mm != NULL)
    *radius_mm = free_mm;
  return at;
}

/* A point that @a and @b share; they are known to meet. */
static gboolean
find_shared (TwGeos *geos, const GEOSGeometry *a, const GEOSGeometry *b, TwPoint *at)
{
  GEOSGeometry *shared = GEOSIntersection_r (geos->context, a, b);
  GEOSGeometry *inside = shared != NULL ? GEOSPointOnSurface_r (geos->context, shared) : NULL;
  gboolean found = inside != NULL && GEOSGeomGetX_r (geos->context, inside, &at->x_mm) == 1
                   && GEOSGeomGetY_r (geos->context, inside, &at->y_mm) == 1;

  destroy (geos, inside);
  destroy (geos, shared);
  return found;
}

static gboolean
find_nearest (TwGeos *geos, const GEOSGeometry *a, const GEOSGeometry *b, TwPoint *at)
{
  const GEOSPreparedGeometry *prepared = GEOSPrepare_r (geos->context, a);
  GEOSCoordSequence *nearest
      = prepared != NULL ? GEOSPreparedNearestPoints_r (geos->context, prepared, b) : NULL;
  double flat_mm[4];
  gboolean found
      = nearest != NULL && GEOSCoordSeq_copyToBuffer_r (geos->context, nearest, flat_mm, 0, 0) == 1;

  if (found) {
    at[0] = (TwPoint){ flat_mm[0], flat_mm[1] };
    at[1] = (TwPoint){ flat_mm[2], flat_mm[3] };
  }
  if (nearest != NULL)
    GEOSCoordSeq_destroy_r (geos->context, nearest);
  if (prepared != NULL)
    GEOSPreparedGeom_destroy_r (geos->context, prepared);
  return found;
}

double
tw_area_distance_mm (TwGeos *geos, const TwArea *a, const TwArea *b, TwPoint *at_a, TwPoint *at_b)
{
  GEOSGeometry *first, *second;
  TwPoint at[2] = { { 0.0, 0.0 }, { 0.0, 0.0 } };
  double distance_mm = G_MAXDOUBLE;

  g_return_val_if_fail (geos != NULL && a != NULL && b != NULL, G_MAXDOUBLE);

  first = tw_geos_from_area (geos, a);
  second = tw_geos_from_area (geos, b);
  if (first != NULL && second != NULL && !tw_area_is_empty (a) && !tw_area_is_empty (b)) {
    gboolean found;

    if (GEOSIntersects_r (geos->context, first, second) == 1) {
      found = find_shared (geos, first, second, &at[0]);
      at[1] = at[0];
    } else {
      found = find_nearest (geos, first, second, at);
    }
    if (found)
      distance_mm = tw_point_distance_mm (at[0], at[1]);
    else
      tw_geos_fail (geos, "a distance could not be measured");
  }
  destroy (geos, first);
  destroy (geos, second);
  if (at_a != NULL)
    *at_a = at[0];
  if (at_b != NULL)
    *at_b = at[1];
  return distance_mm;
}
