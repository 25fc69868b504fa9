/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/convex-private.h"

#include <math.h>

static const TwSolidBox empty_box
    = { { G_MAXDOUBLE, G_MAXDOUBLE, G_MAXDOUBLE }, { -G_MAXDOUBLE, -G_MAXDOUBLE, -G_MAXDOUBLE } };

static TwSolidBox
bounds_of (const TwConvex *self)
{
  TwSolidBox box = empty_box;

  for (guint i = 0; i < self->n_points; i++) {
    TwVec p = self->points[i];

    box.from = tw_vec (MIN (box.from.x, p.x), MIN (box.from.y, p.y), MIN (box.from.z, p.z));
    box.to = tw_vec (MAX (box.to.x, p.x), MAX (box.to.y, p.y), MAX (box.to.z, p.z));
  }
  if (self->n_points > 0) {
    TwVec grow = tw_vec (self->radius_mm, self->radius_mm, self->radius_mm);

    box.from = tw_vec_subtract (box.from, grow);
    box.to = tw_vec_add (box.to, grow);
  }
  return box;
}

TwConvex *
tw_convex_take (GArray *points, GArray *loops, GArray *face_starts)
{
  TwConvex *self = g_new0 (TwConvex, 1);

  g_atomic_ref_count_init (&self->refs);
  self->n_points = points->len;
  self->points = (TwVec *)(void *)g_array_free (points, FALSE);
  if (face_starts != NULL) {
    self->n_faces = face_starts->len - 1;
    self->face_starts = (guint *)(void *)g_array_free (face_starts, FALSE);
  }
  if (loops != NULL)
    self->loops = (guint *)(void *)g_array_free (loops, FALSE);
  self->bounds = bounds_of (self);
  return self;
}

void
tw_convex_round (TwConvex *self, double radius_mm)
{
  self->radius_mm = radius_mm;
  self->bounds = bounds_of (self);
}

TwConvex *
tw_convex_ref (TwConvex *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  g_atomic_ref_count_inc (&self->refs);
  return self;
}

void
tw_convex_unref (TwConvex *self)
{
  g_return_if_fail (self != NULL);

  if (g_atomic_ref_count_dec (&self->refs)) {
    g_free (self->points);
    g_free (self->loops);
    g_free (self->face_starts);
    g_free (self);
  }
}

gboolean
tw_convex_is_empty (const TwConvex *self)
{
  g_return_val_if_fail (self != NULL, TRUE);

  return self->n_points == 0;
}

guint
tw_convex_n_points (const TwConvex *self)
{
  g_return_val_if_fail (self != NULL, 0);

  return self->n_points;
}

TwVec
tw_convex_point (const TwConvex *self, guint nth)
{
  g_assert (self != NULL && nth < self->n_points);

  return self->points[nth];
}

double
tw_convex_radius_mm (const TwConvex *self)
{
  g_return_val_if_fail (self != NULL, 0.0);

  return self->radius_mm;
}

TwSolidBox
tw_convex_bounds (const TwConvex *self)
{
  g_return_val_if_fail (self != NULL, empty_box);

  return self->bounds;
}

/* The one of @n points, every @step-th from @from on, round and round a list of @around, that reaches
 * furthest. */
static guint
furthest_of (const TwVec *points, TwVec along, guint from, guint n, guint step, guint around)
{
  guint best = from % around;
  double best_mm = -G_MAXDOUBLE;

  for (guint i = 0; i < n; i++) {
    guint place = (from + i * step) % around;
    double reach_mm = tw_vec_dot (along, points[place]);

    if (reach_mm > best_mm) {
      best_mm = reach_mm;
      best = place;
    }
  }
  return best;
}

guint
tw_convex_support (const TwConvex *self, TwVec along)
{
  guint n = self->n_ring, step, coarse, end;

  if (n < 32)
    return furthest_of (self->points, along, 0, self->n_points, 1, self->n_points);

  /* Round a convex ring the reach rises to its greatest and falls again: it lies beside the greatest of a
   * few. The other end of the prism goes the same way. */
  end = tw_vec_dot (along, self->points[n]) > tw_vec_dot (along, self->points[0]) ? n : 0;
  step = (guint)sqrt (n);
  coarse = furthest_of (self->points + end, along, 0, (n + step - 1) / step, step, n);
  return end + furthest_of (self->points + end, along, coarse + n - step, 2 * step + 1, 1, n);
}

double
tw_convex_reach_mm (const TwConvex *self, TwVec along)
{
  g_assert (self != NULL && self->n_points > 0);

  return tw_vec_dot (along, self->points[tw_convex_support (self, along)]) + self->radius_mm;
}

double
tw_convex_least_mm (const TwConvex *self, TwVec along)
{
  return -tw_convex_reach_mm (self, tw_vec_scale (along, -1.0));
}

TwVec
tw_convex_face_vector (const TwConvex *self, guint face)
{
  const guint *loop = &self->loops[self->face_starts[face]];
  guint n = self->face_starts[face + 1] - self->face_starts[face];
  TwVec origin = self->points[loop[0]];
  TwVec sum = tw_vec (0, 0, 0);

  for (guint i = 1; i + 1 < n; i++)
    sum = tw_vec_add (sum, tw_vec_cross (tw_vec_subtract (self->points[loop[i]], origin),
                                         tw_vec_subtract (self->points[loop[i + 1]], origin)));
  return sum;
}

gboolean
tw_convex_axis (const TwConvex *self, TwVec *from, TwVec *to, double *radius_mm)
{
  gboolean is_capsule;

  g_return_val_if_fail (self != NULL && from != NULL && to != NULL && radius_mm != NULL, FALSE);

  is_capsule = self->radius_mm > 0.0 && (self->n_points == 1 || self->n_points == 2);
  if (!is_capsule && !(self->round_mm > 0.0))
    return FALSE;
  *from = is_capsule ? self->points[0] : self->axis[0];
  *to = is_capsule ? self->points[self->n_points - 1] : self->axis[1];
  *radius_mm = is_capsule ? self->radius_mm : self->round_mm;
  return TRUE;
}

guint
tw_convex_n_faces (const TwConvex *self)
{
  g_return_val_if_fail (self != NULL, 0);

  return self->n_faces;
}

TwHalfSpace
tw_convex_face (const TwConvex *self, guint nth)
{
  TwHalfSpace half;

  g_assert (self != NULL && nth < self->n_faces);

  half.normal = tw_vec_unit (tw_convex_face_vector (self, nth));
  half.offset_mm = tw_vec_dot (half.normal, self->points[self->loops[self->face_starts[nth]]]);
  return half;
}

double
tw_convex_volume_mm3 (const TwConvex *self)
{
  double sum_mm3 = 0.0;

  g_return_val_if_fail (self != NULL, 0.0);

  /* pyramids from the first point to each face */
  for (guint i = 0; i < self->n_faces && self->n_faces > 1; i++) {
    TwVec corner = self->points[self->loops[self->face_starts[i]]];

    sum_mm3 += tw_vec_dot (tw_convex_face_vector (self, i), tw_vec_subtract (corner, self->points[0])) / 6.0;
  }
  return sum_mm3;
}

double
tw_solid_box_distance_mm (TwSolidBox a, TwSolidBox b)
{
  double x_mm = MAX (0.0, MAX (b.from.x - a.to.x, a.from.x - b.to.x));
  double y_mm = MAX (0.0, MAX (b.from.y - a.to.y, a.from.y - b.to.y));
  double z_mm = MAX (0.0, MAX (b.from.z - a.to.z, a.from.z - b.to.z));

  return sqrt (x_mm * x_mm + y_mm * y_mm + z_mm * z_mm);
}
