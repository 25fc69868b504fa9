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

static void
end_face (const GArray *loops, GArray *face_starts)
{
  g_array_append_val (face_starts, loops->len);
}

TwConvex *
tw_convex_new_wall (const TwVec *points, guint n_points)
{
  GArray *corners = g_array_new (FALSE, FALSE, sizeof (TwVec));
  GArray *loops = g_array_new (FALSE, FALSE, sizeof (guint));
  GArray *face_starts = g_array_new (FALSE, TRUE, sizeof (guint));

  g_assert (points != NULL && n_points >= 3);

  g_array_append_vals (corners, points, n_points);
  end_face (loops, face_starts);
  for (guint i = 0; i < n_points; i++)
    g_array_append_val (loops, i);
  end_face (loops, face_starts);
  return tw_convex_take (corners, loops, face_starts);
}

/* Twice the area of the ring as a vector (Newell's sum): it points to where the ring looks counter-clockwise.
 */
static TwVec
ring_vector (const TwVec *ring, guint n)
{
  TwVec sum = tw_vec (0, 0, 0);

  for (guint i = 1; i + 1 < n; i++)
    sum = tw_vec_add (
        sum, tw_vec_cross (tw_vec_subtract (ring[i], ring[0]), tw_vec_subtract (ring[i + 1], ring[0])));
  return sum;
}

/* The faces of a prism on a ring of @n: both ends, then its sides. Seen from outside, an end is
 * counter-clockwise when the ring goes round it that way, the start the other way about. @along: the ring is
 * counter-clockwise when looked at from its end. */
static void
face_prism (TwConvex *self, guint n, gboolean along)
{
  guint *loop = g_new (guint, 6 * (gsize)n);

  self->n_faces = n + 2;
  self->face_starts = g_new (guint, (gsize)n + 3);
  self->loops = loop;
  for (guint i = 0; i < n; i++) {
    loop[i] = along ? n - 1 - i : i;
    loop[n + i] = n + (along ? i : n - 1 - i);
  }
  self->face_starts[0] = 0;
  self->face_starts[1] = n;
  self->face_starts[2] = 2 * n;
  loop += 2 * n;
  for (guint i = 0; i < n; i++, loop += 4) {
    guint next = i + 1 < n ? i + 1 : 0;
    guint a = along ? i : next;
    guint b = along ? next : i;

    loop[0] = a;
    loop[1] = b;
    loop[2] = n + b;
    loop[3] = n + a;
    self->face_starts[i + 3] = 2 * n + 4 * (i + 1);
  }
}

/* The prism that the flat ring (freed) sweeps when moved by @shift; a wall when that is nothing. */
static TwConvex *
sweep (GArray *ring, TwVec shift)
{
  guint n = ring->len;
  TwVec *at = (TwVec *)(void *)ring->data;
  gboolean along = tw_vec_dot (ring_vector (at, n), shift) > 0.0;
  TwConvex *self;

  if (tw_vec_length_mm (shift) == 0.0) {
    self = tw_convex_new_wall (at, n);
    g_array_unref (ring);
    return self;
  }
  g_array_set_size (ring, 2 * n);
  at = (TwVec *)(void *)ring->data;
  for (guint i = 0; i < n; i++)
    at[n + i] = tw_vec_add (at[i], shift);
  self = tw_convex_take (ring, NULL, NULL);
  self->n_ring = n;
  face_prism (self, n, along);
  return self;
}

TwConvex *
tw_convex_new_prism (const TwFrame *frame,
                     const TwPoint *points,
                     guint n_points,
                     double from_mm,
                     double to_mm)
{
  GArray *ring = g_array_sized_new (FALSE, FALSE, sizeof (TwVec), n_points);

  g_assert (frame != NULL && points != NULL && n_points >= 3);

  for (guint i = 0; i < n_points; i++) {
    TwVec at = tw_frame_to_job (frame, tw_vec (points[i].x_mm, points[i].y_mm, from_mm));

    g_array_append_val (ring, at);
  }
  return sweep (ring, tw_vec_scale (frame->w, to_mm - from_mm));
}

TwConvex *
tw_convex_new_plane_prism (TwPlane plane, const TwPoint *points, guint n_points, double from_mm, double to_mm)
{
  GArray *ring = g_array_sized_new (FALSE, FALSE, sizeof (TwVec), n_points);

  g_assert (points != NULL && n_points >= 3);

  for (guint i = 0; i < n_points; i++) {
    TwVec at = tw_plane_lift (plane, points[i], from_mm);

    g_array_append_val (ring, at);
  }
  return sweep (ring, tw_plane_lift (plane, (TwPoint){ 0, 0 }, to_mm - from_mm));
}

TwConvex *
tw_convex_new_box (const TwFrame *frame, TwVec from, TwVec to)
{
  const TwPoint ring[] = { { from.x, from.y }, { to.x, from.y }, { to.x, to.y }, { from.x, to.y } };

  return tw_convex_new_prism (frame, ring, G_N_ELEMENTS (ring), from.z, to.z);
}

TwConvex *
tw_convex_new_cylinder (TwVec from, TwVec to, double radius_mm)
{
  TwVec w = tw_vec_unit (tw_vec_subtract (to, from));
  TwVec u = tw_vec_square_to (w);
  TwFrame frame = { .origin = from, .u = u, .v = tw_vec_cross (w, u), .w = w };
  TwPoint ring[TW_GEOM_CIRCLE_SIDES];

  g_assert (tw_vec_distance_mm (from, to) > 0.0 && radius_mm > 0.0);

  tw_circle_points ((TwPoint){ 0, 0 }, radius_mm, ring);
  return tw_convex_new_prism (&frame, ring, G_N_ELEMENTS (ring), 0.0, tw_vec_distance_mm (from, to));
}

TwConvex *
tw_convex_new_capsule (TwVec from, TwVec to, double radius_mm)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (TwVec));
  TwConvex *self;

  g_assert (radius_mm >= 0.0);

  g_array_append_val (points, from);
  if (tw_vec_distance_mm (from, to) > 0.0)
    g_array_append_val (points, to);
  self = tw_convex_take (points, NULL, NULL);
  self->radius_mm = radius_mm;
  self->bounds = bounds_of (self);
  return self;
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
