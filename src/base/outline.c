/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/area-private.h"
#include "base/outline.h"

#include <math.h>
#include <string.h>

/* What GEOS says of a fault of rings, and what it is to us. Anything else is a crossing. */
static const struct {
  const char *says;
  TwOutlineCode code;
} reasons[] = {
  { "Hole lies outside shell", TW_OUTLINE_HOLE_OUTSIDE },
  { "Holes are nested", TW_OUTLINE_HOLE_IN_HOLE },
  { "Too few points", TW_OUTLINE_NO_AREA },
};

/* The corner and its edge, without regard to others. */
static TwOutlineCode
check_corner (const TwOutline *ring, guint i)
{
  TwCorner corner = ring->corners[i];
  double chord_mm;

  if (!tw_point_is_sane (corner.at) || !(fabs (corner.bow_mm) <= TW_GEOM_LIMIT_MM))
    return TW_OUTLINE_NO_NUMBER;
  chord_mm = tw_point_distance_mm (corner.at, ring->corners[(i + 1) % ring->n_corners].at);
  if (chord_mm < 1e-9)
    return TW_OUTLINE_ZERO_EDGE;
  if (fabs (corner.bow_mm) > TW_GEOM_BOW_LIMIT * chord_mm)
    return TW_OUTLINE_BOW;
  return TW_OUTLINE_OK;
}

static TwOutlineCode
check_ring (const TwOutline *ring, guint *corner)
{
  gboolean bowed = FALSE;

  *corner = 0;
  for (guint i = 0; i < ring->n_corners; i++) {
    /* a NaN in the next corner is that corner's own fault: look at it first */
    if (!tw_point_is_sane (ring->corners[i].at)) {
      *corner = i;
      return TW_OUTLINE_NO_NUMBER;
    }
    bowed |= ring->corners[i].bow_mm != 0.0;
  }
  if (ring->n_corners < 2 || (ring->n_corners == 2 && !bowed))
    return TW_OUTLINE_TOO_FEW;
  for (guint i = 0; i < ring->n_corners; i++) {
    TwOutlineCode code = check_corner (ring, i);

    if (code != TW_OUTLINE_OK) {
      *corner = i;
      return code;
    }
  }
  return TW_OUTLINE_OK;
}

static double
distance_to_line_mm (TwPoint p, TwPoint a, TwPoint b)
{
  double dx_mm = b.x_mm - a.x_mm;
  double dy_mm = b.y_mm - a.y_mm;
  double length2_mm2 = dx_mm * dx_mm + dy_mm * dy_mm;
  double t = 0.0;

  if (length2_mm2 > 0.0)
    t = CLAMP (((p.x_mm - a.x_mm) * dx_mm + (p.y_mm - a.y_mm) * dy_mm) / length2_mm2, 0.0, 1.0);
  return hypot (p.x_mm - a.x_mm - t * dx_mm, p.y_mm - a.y_mm - t * dy_mm);
}

static double
distance_to_edge_mm (TwPoint p, const TwOutline *ring, guint corner)
{
  TwCorner edge[2] = { ring->corners[corner], ring->corners[(corner + 1) % ring->n_corners] };
  g_autoptr (GArray) points = NULL;
  double nearest_mm = G_MAXDOUBLE;

  edge[1].bow_mm = 0.0;
  points = tw_outline_flatten (edge, 2);
  for (guint i = 0; i + 1 < points->len; i++) {
    TwPoint a = g_array_index (points, TwPoint, i);
    TwPoint b = g_array_index (points, TwPoint, i + 1);

    nearest_mm = MIN (nearest_mm, distance_to_line_mm (p, a, b));
  }
  return nearest_mm;
}

/* The edge that passes nearest to @fault->at: the one with a crossing on it. */
static void
blame_edge (const TwOutline *rings, guint n_rings, TwOutlineFault *fault)
{
  double nearest_mm = G_MAXDOUBLE;

  for (guint r = 0; r < n_rings; r++) {
    for (guint i = 0; i < rings[r].n_corners; i++) {
      double off_mm = distance_to_edge_mm (fault->at, &rings[r], i);

      if (off_mm < nearest_mm - 1e-9) {
        nearest_mm = off_mm;
        fault->ring = r;
        fault->corner = i;
      }
    }
  }
}

/* The polygon of @rings in GEOS's words; each ring has passed check_ring(). */
static GEOSGeometry *
polygon_of (TwGeos *geos, const TwOutline *rings, guint n_rings)
{
  g_autoptr (GPtrArray) holes = g_ptr_array_new ();
  GEOSGeometry *shell = NULL;

  for (guint i = 0; i < n_rings; i++) {
    g_autoptr (GArray) points = tw_outline_flatten (rings[i].corners, rings[i].n_corners);
    GEOSGeometry *ring = tw_geos_ring (geos, (const TwPoint *)(void *)points->data, points->len);

    if (i == 0)
      shell = ring;
    else
      g_ptr_array_add (holes, ring);
  }
  return GEOSGeom_createPolygon_r (geos->context, shell, (GEOSGeometry **)holes->pdata, holes->len);
}

static void
read_location (TwGeos *geos, GEOSGeometry *location, TwPoint *at)
{
  if (location == NULL)
    return;
  GEOSGeomGetX_r (geos->context, location, &at->x_mm);
  GEOSGeomGetY_r (geos->context, location, &at->y_mm);
  GEOSGeom_destroy_r (geos->context, location);
}

/* TRUE when less lies in the outer ring than a strip a millionth of its size wide. */
static gboolean
has_no_area (const TwOutline *ring)
{
  TwBox box = tw_outline_bounds (ring->corners, ring->n_corners);
  double size_mm = (box.x1_mm - box.x0_mm) + (box.y1_mm - box.y0_mm);
  double least_mm2 = 1e-9 * size_mm * size_mm;
  double lies_mm2 = 0.0;

  /* A crossing outline may have no area in sum: its corners off the line through the first edge tell. */
  for (guint i = 0; i < ring->n_corners; i++) {
    TwCorner corner = ring->corners[i];
    TwPoint a = ring->corners[0].at, b = ring->corners[1].at, c = corner.at;

    lies_mm2 += fabs ((b.x_mm - a.x_mm) * (c.y_mm - a.y_mm) - (c.x_mm - a.x_mm) * (b.y_mm - a.y_mm));
    lies_mm2 += fabs (corner.bow_mm) * tw_point_distance_mm (c, ring->corners[(i + 1) % ring->n_corners].at);
  }
  return lies_mm2 <= least_mm2;
}

static TwOutlineCode
check_polygon (TwGeos *geos, const GEOSGeometry *polygon, TwPoint *at)
{
  char *reason = NULL;
  GEOSGeometry *location = NULL;
  TwOutlineCode code = TW_OUTLINE_OK;

  if (GEOSisValidDetail_r (geos->context, polygon, 0, &reason, &location) != 1) {
    code = TW_OUTLINE_CROSSES;
    for (guint i = 0; i < G_N_ELEMENTS (reasons); i++)
      if (reason != NULL && strstr (reason, reasons[i].says) != NULL)
        code = reasons[i].code;
  }
  read_location (geos, location, at);
  if (reason != NULL)
    GEOSFree_r (geos->context, reason);
  return code;
}

gboolean
tw_outline_check (TwGeos *geos, const TwOutline *rings, guint n_rings, TwOutlineFault *fault)
{
  GEOSGeometry *polygon;

  g_return_val_if_fail (geos != NULL && rings != NULL && n_rings > 0 && fault != NULL, FALSE);

  *fault = (TwOutlineFault){ .code = TW_OUTLINE_OK };
  for (guint i = 0; i < n_rings && fault->code == TW_OUTLINE_OK; i++) {
    fault->ring = i;
    fault->code = check_ring (&rings[i], &fault->corner);
    if (fault->code == TW_OUTLINE_OK && has_no_area (&rings[i]))
      fault->code = TW_OUTLINE_NO_AREA;
    if (fault->code != TW_OUTLINE_OK && fault->code != TW_OUTLINE_NO_NUMBER && rings[i].n_corners > 0)
      fault->at = rings[i].corners[fault->corner].at;
  }
  if (fault->code != TW_OUTLINE_OK)
    return FALSE;

  fault->ring = 0;
  polygon = polygon_of (geos, rings, n_rings);
  if (polygon == NULL) {
    fault->code = TW_OUTLINE_CROSSES;
  } else {
    fault->code = check_polygon (geos, polygon, &fault->at);
    GEOSGeom_destroy_r (geos->context, polygon);
  }
  g_clear_pointer (&geos->said, g_free);
  if (fault->code != TW_OUTLINE_OK)
    blame_edge (rings, n_rings, fault);
  return fault->code == TW_OUTLINE_OK;
}

char *
tw_outline_fault_text (const TwOutlineFault *fault)
{
  static const char *const words[] = {
    [TW_OUTLINE_OK] = "nothing wrong",
    [TW_OUTLINE_TOO_FEW] = "has too few corners",
    [TW_OUTLINE_NO_NUMBER] = "has a corner that is no place",
    [TW_OUTLINE_ZERO_EDGE] = "has two corners in a row at",
    [TW_OUTLINE_BOW] = "bows too far at",
    [TW_OUTLINE_CROSSES] = "crosses itself at",
    [TW_OUTLINE_NO_AREA] = "has nothing inside",
    [TW_OUTLINE_HOLE_OUTSIDE] = "has a hole that is not inside it at",
    [TW_OUTLINE_HOLE_IN_HOLE] = "has a hole in a hole at",
  };
  const char *text;
  char x[G_ASCII_DTOSTR_BUF_SIZE], y[G_ASCII_DTOSTR_BUF_SIZE];

  g_return_val_if_fail (fault != NULL && fault->code < G_N_ELEMENTS (words), NULL);

  text = words[fault->code];
  if (!g_str_has_suffix (text, " at"))
    return g_strdup (text);
  g_ascii_formatd (x, sizeof x, "%.1f", fault->at.x_mm);
  g_ascii_formatd (y, sizeof y, "%.1f", fault->at.y_mm);
  return g_strdup_printf ("%s (%s, %s)", text, x, y);
}

TwArea *
tw_area_new_outline (TwGeos *geos, const TwOutline *rings, guint n_rings)
{
  TwOutlineFault fault;

  g_return_val_if_fail (geos != NULL && rings != NULL && n_rings > 0, tw_area_new_empty ());

  if (!tw_outline_check (geos, rings, n_rings, &fault)) {
    g_autofree char *text = tw_outline_fault_text (&fault);
    g_autofree char *what = g_strdup_printf ("an outline %s", text);

    tw_geos_fail (geos, what);
    return tw_area_new_empty ();
  }
  return tw_geos_to_area (geos, polygon_of (geos, rings, n_rings), "an outline could not be made an area");
}
