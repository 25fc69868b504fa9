/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/convex-private.h"

#include <math.h>

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
tw_convex_new_rod (TwVec from, TwVec to, double radius_mm, guint sides)
{
  TwVec w = tw_vec_unit (tw_vec_subtract (to, from));
  TwVec u = tw_vec_square_to (w);
  TwFrame frame = { .origin = from, .u = u, .v = tw_vec_cross (w, u), .w = w };
  TwPoint ring[TW_GEOM_CIRCLE_SIDES];
  TwConvex *self;

  g_assert (tw_vec_distance_mm (from, to) > 0.0 && radius_mm > 0.0);
  g_assert (sides <= TW_GEOM_CIRCLE_SIDES);

  tw_circle_sides ((TwPoint){ 0, 0 }, radius_mm, sides, ring);
  self = tw_convex_new_prism (&frame, ring, sides, 0.0, tw_vec_distance_mm (from, to));
  self->round_mm = radius_mm;
  self->axis[0] = from;
  self->axis[1] = to;
  return self;
}

TwConvex *
tw_convex_new_cylinder (TwVec from, TwVec to, double radius_mm)
{
  return tw_convex_new_rod (from, to, radius_mm, TW_GEOM_CIRCLE_SIDES);
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
  tw_convex_round (self, radius_mm);
  return self;
}
