/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/area-private.h"

#include <math.h>

/* Triangles on their way to larger convex pieces. A piece is a ring of places in @points. */
typedef struct {
  GArray *points;      /* of TwPoint, each place once */
  GHashTable *place;   /* TwPoint (in @points' order of first meeting) → its number + 1 */
  GPtrArray *pieces;   /* of GArray of guint, counter-clockwise; NULL once joined to another */
  GArray *joined_to;   /* of guint: the piece that took it in, or itself */
  GHashTable *edge_of; /* edge key → piece number + 1 */
} Pieces;

static guint
point_hash (gconstpointer key)
{
  const TwPoint *point = key;

  return g_double_hash (&point->x_mm) * 31u + g_double_hash (&point->y_mm);
}

static gboolean
point_equal (gconstpointer a, gconstpointer b)
{
  const TwPoint *point_a = a;
  const TwPoint *point_b = b;

  return point_a->x_mm == point_b->x_mm && point_a->y_mm == point_b->y_mm;
}

static void
unref_piece (gpointer data)
{
  if (data != NULL)
    g_array_unref (data);
}

static guint
place_of (Pieces *self, TwPoint point)
{
  guint number = GPOINTER_TO_UINT (g_hash_table_lookup (self->place, &point));

  if (number == 0) {
    g_array_append_val (self->points, point);
    number = self->points->len;
    g_hash_table_insert (self->place, g_memdup2 (&point, sizeof point), GUINT_TO_POINTER (number));
  }
  return number - 1;
}

/* Areas with more corners are not joined up: two places must make one key, of 30 bits. */
#define MAX_PLACES (1u << 15)

static gpointer
edge_key (guint from, guint to)
{
  return GSIZE_TO_POINTER (((gsize)from * MAX_PLACES + to) + 1);
}

static void
add_triangle (TwGeos *geos, Pieces *self, const GEOSGeometry *triangle)
{
  g_autoptr (GArray) ring = tw_geos_points (geos, GEOSGetExteriorRing_r (geos->context, triangle));
  TwPoint *points = (TwPoint *)(void *)ring->data;
  GArray *piece;
  guint number = self->pieces->len;

  if (ring->len != 4)
    return;
  if (tw_ring_double_area_mm2 (points, 3) < 0.0) {
    TwPoint swap = points[1];

    points[1] = points[2];
    points[2] = swap;
  }
  piece = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint i = 0; i < 3; i++) {
    guint place = place_of (self, points[i]);

    g_array_append_val (piece, place);
  }
  for (guint i = 0; i < 3; i++)
    g_hash_table_insert (
        self->edge_of, edge_key (g_array_index (piece, guint, i), g_array_index (piece, guint, (i + 1) % 3)),
        GUINT_TO_POINTER (number + 1));
  g_ptr_array_add (self->pieces, piece);
  g_array_append_val (self->joined_to, number);
}

static guint
taken_by (Pieces *self, guint piece)
{
  while (g_array_index (self->joined_to, guint, piece) != piece)
    piece = g_array_index (self->joined_to, guint, piece);
  return piece;
}

/* Where in @ring the place @wanted stands, followed by @next. */
static guint
find_edge (const GArray *ring, guint wanted, guint next)
{
  for (guint i = 0; i < ring->len; i++)
    if (g_array_index (ring, guint, i) == wanted && g_array_index (ring, guint, (i + 1) % ring->len) == next)
      return i;
  return G_MAXUINT;
}

/* TRUE when the ring nowhere bends inwards at its place number @i. */
static gboolean
bends_out (const Pieces *self, const GArray *ring, guint i)
{
  guint n = ring->len;
  TwPoint a = g_array_index (self->points, TwPoint, g_array_index (ring, guint, (i + n - 1) % n));
  TwPoint b = g_array_index (self->points, TwPoint, g_array_index (ring, guint, i % n));
  TwPoint c = g_array_index (self->points, TwPoint, g_array_index (ring, guint, (i + 1) % n));
  TwPoint to = { b.x_mm - a.x_mm, b.y_mm - a.y_mm };
  TwPoint on = { c.x_mm - b.x_mm, c.y_mm - b.y_mm };

  return to.x_mm * on.y_mm - to.y_mm * on.x_mm
         >= -1e-12 * hypot (to.x_mm, to.y_mm) * hypot (on.x_mm, on.y_mm);
}

/* Joins the two pieces on either side of the edge @from-@to when the whole is convex. */
static void
try_join (Pieces *self, guint from, guint to)
{
  guint left = GPOINTER_TO_UINT (g_hash_table_lookup (self->edge_of, edge_key (from, to)));
  guint right = GPOINTER_TO_UINT (g_hash_table_lookup (self->edge_of, edge_key (to, from)));
  GArray *a, *b;
  g_autoptr (GArray) whole = NULL;
  guint at_a, at_b;

  if (left == 0 || right == 0)
    return;
  left = taken_by (self, left - 1);
  right = taken_by (self, right - 1);
  a = g_ptr_array_index (self->pieces, left);
  b = g_ptr_array_index (self->pieces, right);
  at_a = find_edge (a, from, to);
  at_b = find_edge (b, to, from);
  if (left == right || at_a == G_MAXUINT || at_b == G_MAXUINT)
    return;

  /* round @a from @to to @from, then round @b from after @from to before @to */
  whole = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint i = 0; i < a->len; i++)
    g_array_append_val (whole, g_array_index (a, guint, (at_a + 1 + i) % a->len));
  for (guint i = 0; i + 2 < b->len; i++)
    g_array_append_val (whole, g_array_index (b, guint, (at_b + 2 + i) % b->len));
  if (!bends_out (self, whole, 0) || !bends_out (self, whole, a->len - 1))
    return;

  g_array_unref (a);
  g_array_unref (b);
  self->pieces->pdata[left] = g_steal_pointer (&whole);
  self->pieces->pdata[right] = NULL;
  g_array_index (self->joined_to, guint, right) = left;
}

/* An edge between two triangles. */
typedef struct {
  guint from;
  guint to;
  double length_mm;
} Edge;

static int
compare_edges (gconstpointer a, gconstpointer b)
{
  double a_mm = ((const Edge *)a)->length_mm, b_mm = ((const Edge *)b)->length_mm;

  return a_mm > b_mm ? -1 : a_mm < b_mm;
}

/* Longest edges first: then neither the place nor the hand of an outline decides how it is cut. */
static void
join_all (Pieces *self)
{
  g_autoptr (GArray) edges = g_array_new (FALSE, FALSE, sizeof (Edge));

  for (guint i = 0; i < self->pieces->len; i++) {
    const GArray *triangle = g_ptr_array_index (self->pieces, i);

    for (guint k = 0; k < 3; k++) {
      Edge edge = { .from = g_array_index (triangle, guint, k),
                    .to = g_array_index (triangle, guint, (k + 1) % 3) };

      edge.length_mm = tw_point_distance_mm (g_array_index (self->points, TwPoint, edge.from),
                                             g_array_index (self->points, TwPoint, edge.to));
      if (edge.from < edge.to)
        g_array_append_val (edges, edge);
    }
  }
  g_array_sort (edges, compare_edges);
  for (guint i = 0; i < edges->len; i++)
    try_join (self, g_array_index (edges, Edge, i).from, g_array_index (edges, Edge, i).to);
}

static void
give_pieces (const Pieces *self, GPtrArray *areas)
{
  for (guint i = 0; i < self->pieces->len; i++) {
    const GArray *piece = g_ptr_array_index (self->pieces, i);
    GArray *points;

    if (piece == NULL)
      continue;
    points = g_array_sized_new (FALSE, FALSE, sizeof (TwPoint), piece->len);
    for (guint k = 0; k < piece->len; k++)
      g_array_append_val (points, g_array_index (self->points, TwPoint, g_array_index (piece, guint, k)));
    g_ptr_array_add (areas, tw_area_of_ring (points));
  }
}

static void
unref_area (gpointer data)
{
  tw_area_unref (data);
}

static void
cut_up (TwGeos *geos, const GEOSGeometry *triangles, GPtrArray *areas)
{
  Pieces pieces = {
    .points = g_array_new (FALSE, FALSE, sizeof (TwPoint)),
    .place = g_hash_table_new_full (point_hash, point_equal, g_free, NULL),
    .pieces = g_ptr_array_new_with_free_func (unref_piece),
    .joined_to = g_array_new (FALSE, FALSE, sizeof (guint)),
    .edge_of = g_hash_table_new (NULL, NULL),
  };

  for (int i = 0; i < GEOSGetNumGeometries_r (geos->context, triangles); i++)
    add_triangle (geos, &pieces, GEOSGetGeometryN_r (geos->context, triangles, i));
  if (pieces.points->len < MAX_PLACES)
    join_all (&pieces);
  give_pieces (&pieces, areas);

  g_array_unref (pieces.points);
  g_hash_table_unref (pieces.place);
  g_ptr_array_unref (pieces.pieces);
  g_array_unref (pieces.joined_to);
  g_hash_table_unref (pieces.edge_of);
}

GPtrArray *
tw_area_convex_pieces (TwGeos *geos, const TwArea *self)
{
  GPtrArray *areas = g_ptr_array_new_with_free_func (unref_area);
  GEOSGeometry *geometry, *triangles;
  double sum_mm2 = 0.0;

  g_return_val_if_fail (geos != NULL && self != NULL, areas);

  if (tw_area_is_empty (self))
    return areas;
  if (tw_area_is_convex (self)) {
    TwRing ring = tw_area_ring (self, 0);
    GArray *points = g_array_new (FALSE, FALSE, sizeof (TwPoint));

    g_array_append_vals (points, ring.points, ring.n_points);
    g_ptr_array_add (areas, tw_area_of_ring (points));
    return areas;
  }

  geometry = tw_geos_from_area (geos, self);
  triangles = geometry != NULL ? GEOSConstrainedDelaunayTriangulation_r (geos->context, geometry) : NULL;
  if (geometry != NULL)
    GEOSGeom_destroy_r (geos->context, geometry);
  if (triangles != NULL) {
    cut_up (geos, triangles, areas);
    GEOSGeom_destroy_r (geos->context, triangles);
  }
  for (guint i = 0; i < areas->len; i++)
    sum_mm2 += tw_area_mm2 (g_ptr_array_index (areas, i));
  if (!(fabs (sum_mm2 - tw_area_mm2 (self)) <= 1e-9 * tw_area_mm2 (self)))
    tw_geos_fail (geos, "an area could not be cut into convex pieces");
  return areas;
}
