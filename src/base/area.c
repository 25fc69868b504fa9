/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/area-private.h"

#include <math.h>
#include <string.h>

typedef struct {
  guint start; /* of its points in the area's array */
  guint n_points;
  gboolean is_hole;
} RingPlace;

struct _TwArea {
  gatomicrefcount refs;
  TwPoint *points;
  RingPlace *rings;
  guint n_rings;
  double area_mm2;
  TwBox bounds;
};

static int
compare_points (const TwPoint *a, const TwPoint *b)
{
  if (a->x_mm != b->x_mm)
    return a->x_mm < b->x_mm ? -1 : 1;
  if (a->y_mm != b->y_mm)
    return a->y_mm < b->y_mm ? -1 : 1;
  return 0;
}

static int
compare_rings (gconstpointer a, gconstpointer b)
{
  const GArray *ring_a = *(GArray *const *)a;
  const GArray *ring_b = *(GArray *const *)b;

  for (guint i = 0; i < MIN (ring_a->len, ring_b->len); i++) {
    int order = compare_points (&g_array_index (ring_a, TwPoint, i), &g_array_index (ring_b, TwPoint, i));

    if (order != 0)
      return order;
  }
  return ring_a->len < ring_b->len ? -1 : ring_a->len > ring_b->len;
}

static int
compare_polygons (gconstpointer a, gconstpointer b)
{
  const GPtrArray *polygon_a = *(GPtrArray *const *)a;
  const GPtrArray *polygon_b = *(GPtrArray *const *)b;

  return compare_rings (&polygon_a->pdata[0], &polygon_b->pdata[0]);
}

double
tw_ring_double_area_mm2 (const TwPoint *points, guint n_points)
{
  double sum_mm2 = 0.0;

  for (guint i = 1; i + 1 < n_points; i++) {
    TwPoint a = { points[i].x_mm - points[0].x_mm, points[i].y_mm - points[0].y_mm };
    TwPoint b = { points[i + 1].x_mm - points[0].x_mm, points[i + 1].y_mm - points[0].y_mm };

    sum_mm2 += a.x_mm * b.y_mm - b.x_mm * a.y_mm;
  }
  return sum_mm2;
}

/* The right way round, the leftmost and then lowest point first. */
static void
settle_ring (GArray *ring, gboolean is_hole)
{
  TwPoint *points = (TwPoint *)(void *)ring->data;
  g_autofree TwPoint *old = g_memdup2 (points, ring->len * sizeof (TwPoint));
  gboolean backwards = (tw_ring_double_area_mm2 (points, ring->len) < 0.0) != is_hole;
  guint first = 0;

  for (guint i = 1; i < ring->len; i++)
    if (compare_points (&old[i], &old[first]) < 0)
      first = i;
  for (guint i = 0; i < ring->len; i++)
    points[i] = old[(backwards ? first + ring->len - i : first + i) % ring->len];
}

static void
unref_polygon (gpointer data)
{
  g_ptr_array_unref (data);
}

static void
unref_ring (gpointer data)
{
  g_array_unref (data);
}

TwRings *
tw_rings_new (void)
{
  return g_ptr_array_new_with_free_func (unref_polygon);
}

void
tw_rings_add (TwRings *self, GArray *points, gboolean is_hole)
{
  g_assert (points->len >= 3);
  g_assert (!is_hole || self->len > 0);

  settle_ring (points, is_hole);
  if (!is_hole)
    g_ptr_array_add (self, g_ptr_array_new_with_free_func (unref_ring));
  g_ptr_array_add (g_ptr_array_index (self, self->len - 1), points);
}

static void
order_polygons (TwRings *rings)
{
  for (guint i = 0; i < rings->len; i++) {
    GPtrArray *polygon = g_ptr_array_index (rings, i);

    if (polygon->len > 2)
      qsort (&polygon->pdata[1], polygon->len - 1, sizeof (gpointer), compare_rings);
  }
  g_ptr_array_sort (rings, compare_polygons);
}

TwArea *
tw_rings_finish (TwRings *self)
{
  TwArea *area = tw_area_new_empty ();
  guint n_points = 0, at = 0, nth = 0;

  order_polygons (self);
  for (guint i = 0; i < self->len; i++) {
    const GPtrArray *polygon = g_ptr_array_index (self, i);

    area->n_rings += polygon->len;
    for (guint k = 0; k < polygon->len; k++)
      n_points += ((GArray *)g_ptr_array_index (polygon, k))->len;
  }
  area->points = g_new (TwPoint, n_points);
  area->rings = g_new (RingPlace, area->n_rings);
  for (guint i = 0; i < self->len; i++) {
    const GPtrArray *polygon = g_ptr_array_index (self, i);

    for (guint k = 0; k < polygon->len; k++) {
      const GArray *ring = g_ptr_array_index (polygon, k);

      area->rings[nth++] = (RingPlace){ at, ring->len, k > 0 };
      memcpy (&area->points[at], ring->data, ring->len * sizeof (TwPoint));
      area->area_mm2 += tw_ring_double_area_mm2 (&area->points[at], ring->len) / 2.0;
      at += ring->len;
    }
  }
  for (guint i = 0; i < n_points; i++)
    area->bounds = tw_box_add_point (area->bounds, area->points[i]);
  g_ptr_array_unref (self);
  return area;
}

TwArea *
tw_area_of_ring (GArray *points)
{
  TwRings *rings = tw_rings_new ();

  tw_rings_add (rings, points, FALSE);
  return tw_rings_finish (rings);
}

TwArea *
tw_area_new_empty (void)
{
  TwArea *self = g_new0 (TwArea, 1);

  g_atomic_ref_count_init (&self->refs);
  self->bounds = TW_BOX_EMPTY;
  return self;
}

TwArea *
tw_area_ref (TwArea *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  g_atomic_ref_count_inc (&self->refs);
  return self;
}

void
tw_area_unref (TwArea *self)
{
  g_return_if_fail (self != NULL);

  if (g_atomic_ref_count_dec (&self->refs)) {
    g_free (self->points);
    g_free (self->rings);
    g_free (self);
  }
}

gboolean
tw_area_is_empty (const TwArea *self)
{
  g_return_val_if_fail (self != NULL, TRUE);

  return self->n_rings == 0;
}

double
tw_area_mm2 (const TwArea *self)
{
  g_return_val_if_fail (self != NULL, 0.0);

  return self->area_mm2;
}

TwBox
tw_area_bounds (const TwArea *self)
{
  g_return_val_if_fail (self != NULL, TW_BOX_EMPTY);

  return self->bounds;
}

guint
tw_area_n_rings (const TwArea *self)
{
  g_return_val_if_fail (self != NULL, 0);

  return self->n_rings;
}

TwRing
tw_area_ring (const TwArea *self, guint nth)
{
  g_assert (self != NULL && nth < self->n_rings);

  return (TwRing){ &self->points[self->rings[nth].start], self->rings[nth].n_points,
                   self->rings[nth].is_hole };
}

/* Even-odd along the line to the right of @point. */
static gboolean
ring_parity (TwRing ring, TwPoint point)
{
  gboolean odd = FALSE;

  for (guint i = 0; i < ring.n_points; i++) {
    TwPoint a = ring.points[i];
    TwPoint b = ring.points[(i + 1) % ring.n_points];

    if ((a.y_mm > point.y_mm) != (b.y_mm > point.y_mm)
        && point.x_mm < a.x_mm + (point.y_mm - a.y_mm) / (b.y_mm - a.y_mm) * (b.x_mm - a.x_mm))
      odd = !odd;
  }
  return odd;
}

gboolean
tw_area_contains (const TwArea *self, TwPoint point)
{
  gboolean inside = FALSE;

  g_return_val_if_fail (self != NULL, FALSE);

  if (!tw_box_contains (self->bounds, point))
    return FALSE;
  for (guint i = 0; i < self->n_rings; i++)
    inside ^= ring_parity (tw_area_ring (self, i), point);
  return inside;
}

gboolean
tw_area_is_convex (const TwArea *self)
{
  TwRing ring;

  g_return_val_if_fail (self != NULL, FALSE);

  if (self->n_rings != 1)
    return FALSE;
  ring = tw_area_ring (self, 0);
  for (guint i = 0; i < ring.n_points; i++) {
    TwPoint a = ring.points[i];
    TwPoint b = ring.points[(i + 1) % ring.n_points];
    TwPoint c = ring.points[(i + 2) % ring.n_points];
    TwPoint to = { b.x_mm - a.x_mm, b.y_mm - a.y_mm };
    TwPoint on = { c.x_mm - b.x_mm, c.y_mm - b.y_mm };
    double turn_mm2 = to.x_mm * on.y_mm - to.y_mm * on.x_mm;

    /* rounding of coordinates may bend a straight edge inwards by a few parts in 1e13 */
    if (turn_mm2 < -1e-12 * hypot (to.x_mm, to.y_mm) * hypot (on.x_mm, on.y_mm))
      return FALSE;
  }
  return TRUE;
}
