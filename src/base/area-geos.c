/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/area-private.h"

static void
geos_says_cb (const char *message, void *data)
{
  TwGeos *self = data;

  g_free (self->said);
  self->said = g_strdup (message);
}

/* GEOS's remarks are neither printed nor kept. */
static void
geos_notes_cb (const char *message, void *data)
{
}

TwGeos *
tw_geos_new (void)
{
  TwGeos *self = g_new0 (TwGeos, 1);

  self->context = GEOS_init_r ();
  GEOSContext_setErrorMessageHandler_r (self->context, geos_says_cb, self);
  GEOSContext_setNoticeMessageHandler_r (self->context, geos_notes_cb, NULL);
  return self;
}

void
tw_geos_free (TwGeos *self)
{
  g_return_if_fail (self != NULL);

  GEOS_finish_r (self->context);
  g_free (self->trouble);
  g_free (self->said);
  g_free (self);
}

const char *
tw_geos_trouble (const TwGeos *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return self->trouble;
}

void
tw_geos_clear_trouble (TwGeos *self)
{
  g_return_if_fail (self != NULL);

  g_clear_pointer (&self->trouble, g_free);
  g_clear_pointer (&self->said, g_free);
}

void
tw_geos_fail (TwGeos *self, const char *what)
{
  if (self->trouble == NULL)
    self->trouble = self->said != NULL ? g_strdup_printf ("%s: %s", what, self->said) : g_strdup (what);
  g_clear_pointer (&self->said, g_free);
}

/* A coordinate list of @points, the first again at the end when @closed. */
static GEOSCoordSequence *
coordinates_of (TwGeos *self, const TwPoint *points, guint n_points, gboolean closed)
{
  guint n = n_points + (closed ? 1 : 0);
  g_autofree double *flat_mm = g_new (double, 2 * (gsize)n);

  for (guint i = 0; i < n; i++) {
    flat_mm[2 * i] = points[i % n_points].x_mm;
    flat_mm[2 * i + 1] = points[i % n_points].y_mm;
  }
  return GEOSCoordSeq_copyFromBuffer_r (self->context, flat_mm, n, 0, 0);
}

GEOSGeometry *
tw_geos_ring (TwGeos *self, const TwPoint *points, guint n_points)
{
  GEOSCoordSequence *coordinates = coordinates_of (self, points, n_points, TRUE);

  return coordinates != NULL ? GEOSGeom_createLinearRing_r (self->context, coordinates) : NULL;
}

GEOSGeometry *
tw_geos_polygon (TwGeos *self, const TwPoint *points, guint n_points)
{
  GEOSGeometry *ring = tw_geos_ring (self, points, n_points);

  return ring != NULL ? GEOSGeom_createPolygon_r (self->context, ring, NULL, 0) : NULL;
}

GEOSGeometry *
tw_geos_line (TwGeos *self, const TwPoint *points, guint n_points)
{
  GEOSCoordSequence *coordinates = coordinates_of (self, points, n_points, FALSE);

  return coordinates != NULL ? GEOSGeom_createLineString_r (self->context, coordinates) : NULL;
}

/* The polygon whose outer ring is @area's ring @nth, with the holes that follow. */
static GEOSGeometry *
polygon_of (TwGeos *self, const TwArea *area, guint nth)
{
  TwRing outer = tw_area_ring (area, nth);
  GEOSGeometry *shell = tw_geos_ring (self, outer.points, outer.n_points);
  g_autoptr (GPtrArray) holes = g_ptr_array_new ();

  for (guint i = nth + 1; i < tw_area_n_rings (area) && tw_area_ring (area, i).is_hole; i++) {
    TwRing hole = tw_area_ring (area, i);

    g_ptr_array_add (holes, tw_geos_ring (self, hole.points, hole.n_points));
  }
  return GEOSGeom_createPolygon_r (self->context, shell, (GEOSGeometry **)holes->pdata, holes->len);
}

GEOSGeometry *
tw_geos_from_area (TwGeos *self, const TwArea *area)
{
  g_autoptr (GPtrArray) polygons = g_ptr_array_new ();
  GEOSGeometry *result;

  for (guint i = 0; i < tw_area_n_rings (area); i++)
    if (!tw_area_ring (area, i).is_hole)
      g_ptr_array_add (polygons, polygon_of (self, area, i));
  result = GEOSGeom_createCollection_r (self->context, GEOS_MULTIPOLYGON, (GEOSGeometry **)polygons->pdata,
                                        polygons->len);
  if (result == NULL)
    tw_geos_fail (self, "polygons could not be made");
  return result;
}

GArray *
tw_geos_points (TwGeos *self, const GEOSGeometry *line)
{
  const GEOSCoordSequence *coordinates = GEOSGeom_getCoordSeq_r (self->context, line);
  GArray *points = g_array_new (FALSE, FALSE, sizeof (TwPoint));
  unsigned int n = 0;

  G_STATIC_ASSERT (sizeof (TwPoint) == 2 * sizeof (double));
  if (coordinates != NULL && GEOSCoordSeq_getSize_r (self->context, coordinates, &n) && n > 0) {
    g_array_set_size (points, n);
    if (!GEOSCoordSeq_copyToBuffer_r (self->context, coordinates, (double *)(void *)points->data, 0, 0))
      g_array_set_size (points, 0);
  }
  return points;
}

static void
take_ring (TwGeos *self, TwRings *rings, const GEOSGeometry *ring, gboolean is_hole)
{
  GArray *points = tw_geos_points (self, ring);

  if (points->len < 4) { /* closed: the first point stands at the end too */
    g_array_unref (points);
    return;
  }
  g_array_set_size (points, points->len - 1);
  tw_rings_add (rings, points, is_hole);
}

static void
take_polygons (TwGeos *self, TwRings *rings, const GEOSGeometry *geometry)
{
  int type = GEOSGeomTypeId_r (self->context, geometry);

  if (type == GEOS_POLYGON) {
    if (GEOSisEmpty_r (self->context, geometry))
      return;
    take_ring (self, rings, GEOSGetExteriorRing_r (self->context, geometry), FALSE);
    for (int i = 0; i < GEOSGetNumInteriorRings_r (self->context, geometry); i++)
      take_ring (self, rings, GEOSGetInteriorRingN_r (self->context, geometry, i), TRUE);
  } else if (type == GEOS_MULTIPOLYGON || type == GEOS_GEOMETRYCOLLECTION) {
    for (int i = 0; i < GEOSGetNumGeometries_r (self->context, geometry); i++)
      take_polygons (self, rings, GEOSGetGeometryN_r (self->context, geometry, i));
  }
}

TwArea *
tw_geos_to_area (TwGeos *self, GEOSGeometry *geometry, const char *what)
{
  TwRings *rings = tw_rings_new ();

  if (geometry == NULL) {
    tw_geos_fail (self, what);
  } else {
    take_polygons (self, rings, geometry);
    GEOSGeom_destroy_r (self->context, geometry);
  }
  return tw_rings_finish (rings);
}
