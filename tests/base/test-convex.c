/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Solids: distances, clipping and shadows against elementary geometry, and distances of random boxes against
 * all pairs of their corners, edges and faces.
 */
#include "base/convex.h"

#include <math.h>

#define DEG (G_PI / 180.0)
#define N_RANDOM 3000
#define assert_near(a, b, by) g_assert_cmpfloat_with_epsilon (a, b, by)

/* A solid of a case: B box (from, to), C cylinder and O capsule (from, to, radius), leaned about x. */
typedef struct {
  char kind;
  TwVec from, to;
  double radius_mm, lean_deg;
} Solid;

typedef struct {
  const char *name;
  Solid a, b;
  double distance_mm;
  gboolean crosses;
  double depth_mm;
} Case;

static const Case cases[] = {
  /* clang-format off */
  { "boxes-face-face", { 'B', { 0, 0, 0 }, { 10, 10, 10 }, 0, 0 }, { 'B', { 13, 2, 2 }, { 20, 8, 8 }, 0, 0 }, 3, FALSE, 0 },
  { "boxes-corner-corner", { 'B', { 0, 0, 0 }, { 10, 10, 10 }, 0, 0 }, { 'B', { 12, 13, 16 }, { 20, 20, 20 }, 0, 0 }, 7, FALSE, 0 },
  { "boxes-edge-edge-parallel", { 'B', { 0, 0, 0 }, { 10, 10, 10 }, 0, 0 }, { 'B', { 13, 14, 0 }, { 20, 20, 10 }, 0, 0 }, 5, FALSE, 0 },
  /* Leaned by 45° about x through (2, 5, 5) the second box's edge at the end of w is 4·sin 45° lower: 5 − 2√2. */
  { "box-face-to-edge", { 'B', { 0, -10, 0 }, { 10, 0, 10 }, 0, 0 }, { 'B', { 2, 5, 5 }, { 8, 9, 9 }, 0, 45 }, 5 - 2 * M_SQRT2, FALSE, 0 },
  { "boxes-share-a-face", { 'B', { 0, 0, 0 }, { 10, 10, 10 }, 0, 0 }, { 'B', { 10, 2, 2 }, { 20, 8, 8 }, 0, 0 }, 0, FALSE, 0 },
  { "boxes-cross", { 'B', { 0, 0, 0 }, { 10, 10, 10 }, 0, 0 }, { 'B', { 7, 2, 2 }, { 20, 8, 8 }, 0, 0 }, 0, TRUE, 3 },
  { "box-in-box", { 'B', { 0, 0, 0 }, { 100, 100, 100 }, 0, 0 }, { 'B', { 45, 45, 30 }, { 55, 55, 40 }, 0, 0 }, 0, TRUE, 40 },
  /* A hose of r 20 whose axis passes 50 before a face. */
  { "capsule-box", { 'O', { -200, 5, -50 }, { 200, 5, -50 }, 20, 0 }, { 'B', { 0, 0, 0 }, { 10, 10, 10 }, 0, 0 }, 30, FALSE, 0 },
  { "capsule-end-corner", { 'O', { 13, 14, 10 }, { 100, 100, 10 }, 2, 0 }, { 'B', { 0, 0, 0 }, { 10, 10, 10 }, 0, 0 }, 3, FALSE, 0 },
  { "capsules-square", { 'O', { -9, 0, 0 }, { 9, 0, 0 }, 2, 0 }, { 'O', { 0, -9, 12 }, { 0, 9, 12 }, 3, 0 }, 7, FALSE, 0 },
  { "capsules-touch", { 'O', { -9, 0, 0 }, { 9, 0, 0 }, 2, 0 }, { 'O', { 0, -9, 5 }, { 0, 9, 5 }, 3, 0 }, 0, FALSE, 0 },
  { "capsules-cross", { 'O', { -9, 0, 0 }, { 9, 0, 0 }, 2, 0 }, { 'O', { 0, -9, 4 }, { 0, 9, 4 }, 3, 0 }, 0, TRUE, 1 },
  { "axes-cross", { 'O', { -9, 0, 0 }, { 9, 0, 0 }, 2, 0 }, { 'O', { 0, -9, 0 }, { 0, 9, 0 }, 3, 0 }, 0, TRUE, 5 },
  { "balls", { 'O', { 0, 0, 0 }, { 0, 0, 0 }, 1, 0 }, { 'O', { 2, 3, 6 }, { 2, 3, 6 }, 2, 0 }, 4, FALSE, 0 },
  /* A fan ring of r 146 from z 93 to 155 before a wall at 180: 25. */
  { "cylinder-end-wall", { 'C', { 170, 489, 93 }, { 170, 489, 155 }, 146, 0 }, { 'B', { -460, 290, 180 }, { 460, 720, 190 }, 0, 0 }, 25, FALSE, 0 },
  /* A level tube of r 19 at y 490 over a floor at 290: 181 to the half-thousandth. */
  { "cylinder-side-floor", { 'C', { -460, 490, -60 }, { 460, 490, -60 }, 19, 0 }, { 'B', { -460, 200, -520 }, { 460, 290, 180 }, 0, 0 }, 181, FALSE, 0 },
  { "cylinders-cross", { 'C', { 0, 0, 0 }, { 0, 0, 50 }, 100, 0 }, { 'C', { 0, 0, 40 }, { 0, 0, 90 }, 100, 0 }, 0, TRUE, 10 },
  { "cylinders-stacked", { 'C', { 0, 0, 0 }, { 0, 0, 50 }, 100, 0 }, { 'C', { 10, 0, 50 }, { 10, 0, 90 }, 60, 0 }, 0, FALSE, 0 },
  /* clang-format on */
};

static TwConvex *
make (const Solid *s)
{
  TwTurns turns = { .lean_rad = s->lean_deg * DEG };
  TwFrame frame = tw_frame_place (s->lean_deg != 0.0 ? s->from : tw_vec (0, 0, 0), turns);

  switch (s->kind) {
  case 'C':
    return tw_convex_new_cylinder (s->from, s->to, s->radius_mm);
  case 'O':
    return tw_convex_new_capsule (s->from, s->to, s->radius_mm);
  default:
    if (s->lean_deg != 0.0)
      return tw_convex_new_box (&frame, tw_vec (0, 0, 0), tw_vec_subtract (s->to, s->from));
    return tw_convex_new_box (&frame, s->from, s->to);
  }
}

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TwConvex) a = make (&c->a);
  g_autoptr (TwConvex) b = make (&c->b);
  double by_mm = c->a.kind == 'C' ? 0.0005 : 1e-9;

  for (guint swapped = 0; swapped < 2; swapped++) {
    TwGap gap = swapped ? tw_convex_gap (b, a) : tw_convex_gap (a, b);

    assert_near (gap.distance_mm, c->distance_mm, by_mm);
    g_assert_cmpint (gap.crosses, ==, c->crosses);
    assert_near (gap.depth_mm, c->depth_mm, by_mm);
    assert_near (tw_vec_distance_mm (gap.at_a, gap.at_b), c->distance_mm, by_mm);
    g_assert_cmpfloat (tw_solid_box_distance_mm (tw_convex_bounds (a), tw_convex_bounds (b)), <=,
                       gap.distance_mm + 1e-9);
  }
}

/* ---- Boxes against brute force ---- */

typedef struct {
  TwFrame frame;
  TwVec half; /* half its size along u, v, w */
} Box;

static Box
random_box (GRand *rand, double room_mm)
{
  TwTurns turns = { g_rand_double_range (rand, -4, 4), g_rand_double_range (rand, -4, 4),
                    g_rand_double_range (rand, -4, 4), g_rand_double_range (rand, -4, 4) };
  Box box;

  /* every third stands square to the job, as most parts do */
  if (g_rand_int_range (rand, 0, 3) == 0)
    turns = (TwTurns){ 0 };
  box.frame = tw_frame_place (tw_vec (g_rand_double_range (rand, -room_mm, room_mm),
                                      g_rand_double_range (rand, -room_mm, room_mm),
                                      g_rand_double_range (rand, -room_mm, room_mm)),
                              turns);
  box.half = tw_vec (g_rand_double_range (rand, 0.5, 600), g_rand_double_range (rand, 0.5, 600),
                     g_rand_double_range (rand, 0.5, 600));
  return box;
}

static TwConvex *
box_solid (const Box *box)
{
  return tw_convex_new_box (&box->frame, tw_vec_scale (box->half, -1), box->half);
}

static TwVec
box_corner (const Box *box, guint i)
{
  return tw_frame_to_job (&box->frame,
                          tw_vec (i & 1 ? box->half.x : -box->half.x, i & 2 ? box->half.y : -box->half.y,
                                  i & 4 ? box->half.z : -box->half.z));
}

/* The nearest point of a box is the point itself with its box coordinates held within the box. */
static double
point_to_box_mm (TwVec p, const Box *box)
{
  TwVec q = tw_frame_from_job (&box->frame, p);
  TwVec held = tw_vec (CLAMP (q.x, -box->half.x, box->half.x), CLAMP (q.y, -box->half.y, box->half.y),
                       CLAMP (q.z, -box->half.z, box->half.z));

  return tw_vec_distance_mm (q, held);
}

/* Two lines in space: the common normal when its feet lie on both, by the 2 × 2 normal equations. The ends of
 * edges are left to point_to_box_mm(). */
static double
edge_to_edge_mm (TwVec a0, TwVec a1, TwVec b0, TwVec b1)
{
  TwVec d = tw_vec_subtract (a1, a0), e = tw_vec_subtract (b1, b0), r = tw_vec_subtract (a0, b0);
  double dd = tw_vec_dot (d, d), ee = tw_vec_dot (e, e), de = tw_vec_dot (d, e);
  double det = dd * ee - de * de;
  double s, t;

  if (det < 1e-9 * dd * ee)
    return G_MAXDOUBLE;
  s = (de * tw_vec_dot (e, r) - ee * tw_vec_dot (d, r)) / det;
  t = (dd * tw_vec_dot (e, r) - de * tw_vec_dot (d, r)) / det;
  if (s < 0 || s > 1 || t < 0 || t > 1)
    return G_MAXDOUBLE;
  return tw_vec_distance_mm (tw_vec_add_scaled (a0, s, d), tw_vec_add_scaled (b0, t, e));
}

/* By how much the most separating of the 15 axes of two boxes keeps them apart; they cross when negative. */
static double
separation_mm (const Box *a, const Box *b)
{
  const TwVec axes_a[] = { a->frame.u, a->frame.v, a->frame.w };
  const TwVec axes_b[] = { b->frame.u, b->frame.v, b->frame.w };
  TwVec axes[15];
  double best_mm = -G_MAXDOUBLE;
  guint n = 0;

  for (guint i = 0; i < 3; i++) {
    axes[n++] = axes_a[i];
    axes[n++] = axes_b[i];
    for (guint k = 0; k < 3; k++)
      axes[n++] = tw_vec_cross (axes_a[i], axes_b[k]);
  }
  for (guint i = 0; i < n; i++) {
    double a1 = -G_MAXDOUBLE, a0 = G_MAXDOUBLE, b1 = -G_MAXDOUBLE, b0 = G_MAXDOUBLE;

    if (tw_vec_length_mm (axes[i]) < 1e-6)
      continue;
    axes[i] = tw_vec_unit (axes[i]);
    for (guint k = 0; k < 8; k++) {
      double pa = tw_vec_dot (axes[i], box_corner (a, k)), pb = tw_vec_dot (axes[i], box_corner (b, k));

      a0 = MIN (a0, pa);
      a1 = MAX (a1, pa);
      b0 = MIN (b0, pb);
      b1 = MAX (b1, pb);
    }
    best_mm = MAX (best_mm, MAX (b0 - a1, a0 - b1));
  }
  return best_mm;
}

static double
all_pairs_mm (const Box *a, const Box *b)
{
  double least_mm = G_MAXDOUBLE;

  for (guint i = 0; i < 8; i++)
    least_mm = MIN (least_mm,
                    MIN (point_to_box_mm (box_corner (a, i), b), point_to_box_mm (box_corner (b, i), a)));
  for (guint i = 0; i < 24; i++) {
    guint bit_a = 1u << i / 8, from_a = i % 8;

    if (from_a & bit_a)
      continue;
    for (guint k = 0; k < 24; k++) {
      guint bit_b = 1u << k / 8, from_b = k % 8;

      if (!(from_b & bit_b))
        least_mm = MIN (least_mm, edge_to_edge_mm (box_corner (a, from_a), box_corner (a, from_a | bit_a),
                                                   box_corner (b, from_b), box_corner (b, from_b | bit_b)));
    }
  }
  return least_mm;
}

static void
test_random_boxes (void)
{
  GRand *rand = g_rand_new_with_seed (1988);
  guint n_apart = 0, n_crossing = 0;

  for (guint i = 0; i < N_RANDOM; i++) {
    Box a = random_box (rand, 1000), b = random_box (rand, 1000);
    g_autoptr (TwConvex) solid_a = box_solid (&a);
    g_autoptr (TwConvex) solid_b = box_solid (&b);
    double apart_mm = separation_mm (&a, &b);
    TwGap gap = tw_convex_gap (solid_a, solid_b);

    if (apart_mm > 1e-6) {
      g_assert_false (gap.crosses);
      assert_near (gap.distance_mm, all_pairs_mm (&a, &b), 1e-6);
      assert_near (tw_vec_distance_mm (gap.at_a, gap.at_b), gap.distance_mm, 1e-9);
      assert_near (point_to_box_mm (gap.at_a, &a), 0, 1e-9);
      assert_near (point_to_box_mm (gap.at_b, &b), 0, 1e-9);
      n_apart++;
    } else if (apart_mm < -1e-6) {
      g_assert_true (gap.crosses && gap.distance_mm == 0);
      assert_near (point_to_box_mm (gap.at_a, &a), 0, 1e-6);
      assert_near (point_to_box_mm (gap.at_a, &b), 0, 1e-6);
      /* a face's normal is one of the 15 axes, so the move along it is never shorter than the best */
      g_assert_cmpfloat (gap.depth_mm, >=, -apart_mm - 1e-6);
      n_crossing++;
    }
  }
  g_assert_cmpuint (n_apart, >, 1000);
  g_assert_cmpuint (n_crossing, >, 300);
  g_rand_free (rand);
}

/* Turning and moving both leaves the distance; 5 m apart as well. */
static void
test_turned (void)
{
  GRand *rand = g_rand_new_with_seed (5);

  for (guint i = 0; i < 300; i++) {
    Box a = random_box (rand, 2000), b = random_box (rand, 2000), move = random_box (rand, 2000);
    Box boxes[] = { a, b };
    g_autoptr (TwConvex) solid_a = box_solid (&a);
    g_autoptr (TwConvex) solid_b = box_solid (&b);
    g_autoptr (TwConvex) turned_a = NULL;
    g_autoptr (TwConvex) turned_b = NULL;

    for (guint k = 0; k < 2; k++)
      boxes[k].frame = (TwFrame){ tw_frame_to_job (&move.frame, boxes[k].frame.origin),
                                  tw_frame_turn_to_job (&move.frame, boxes[k].frame.u),
                                  tw_frame_turn_to_job (&move.frame, boxes[k].frame.v),
                                  tw_frame_turn_to_job (&move.frame, boxes[k].frame.w) };
    turned_a = box_solid (&boxes[0]);
    turned_b = box_solid (&boxes[1]);
    assert_near (tw_convex_gap (solid_a, solid_b).distance_mm, tw_convex_gap (turned_b, turned_a).distance_mm,
                 1e-6);
  }
  g_rand_free (rand);
}

/* Random cylinders and walls: the distance of a cylinder from a plane is that of its axis' nearer end less
 * r·sin of the angle between axis and normal. */
static void
test_cylinder_plane (void)
{
  GRand *rand = g_rand_new_with_seed (9);

  for (guint i = 0; i < 300; i++) {
    double angle_rad = g_rand_double_range (rand, 0, G_PI);
    double r_mm = g_rand_double_range (rand, 5, 200), length_mm = g_rand_double_range (rand, 1, 900);
    TwVec axis = tw_vec (sin (angle_rad), cos (angle_rad), 0);
    TwVec from = tw_vec (g_rand_double_range (rand, -50, 50), 1500, g_rand_double_range (rand, -50, 50));
    TwVec to = tw_vec_add_scaled (from, length_mm, axis);
    TwFrame job = tw_frame_job ();
    g_autoptr (TwConvex) cylinder = tw_convex_new_cylinder (from, to, r_mm);
    g_autoptr (TwConvex) floor = tw_convex_new_box (&job, tw_vec (-3000, -10, -3000), tw_vec (3000, 0, 3000));
    double wanted_mm = MIN (from.y, to.y) - r_mm * sin (angle_rad);

    /* the polygon's corners stand out by 3.2e-6 of the radius, its sides in by 1.6e-6 */
    assert_near (tw_convex_gap (cylinder, floor).distance_mm, wanted_mm, 3.3e-6 * r_mm + 1e-6);
    assert_near (tw_convex_volume_mm3 (cylinder) / (G_PI * r_mm * r_mm * length_mm), 1.0, 1e-9);
  }
  g_rand_free (rand);
}

static TwConvex *
random_solid (GRand *rand)
{
  Box box = random_box (rand, 1500);

  switch (g_rand_int_range (rand, 0, 4)) {
  case 0:
    return box_solid (&box);
  case 1:
    return tw_convex_new_cylinder (box_corner (&box, 0), box_corner (&box, 7), box.half.x / 4);
  case 2: /* a thin disc, as a fan's ring is */
    return tw_convex_new_cylinder (box.frame.origin, tw_vec_add_scaled (box.frame.origin, 3, box.frame.w),
                                   box.half.x);
  default: /* a hose leg of up to 5 m */
    return tw_convex_new_capsule (box.frame.origin,
                                  tw_vec_add_scaled (box.frame.origin, box.half.x * 8, box.frame.u), 17);
  }
}

/* Whatever the solids: two planes square to the line of the nearest points, one through each, have the solids
 * on their far sides. That no distance could be shorter needs no other proof. */
static void
test_certificate (void)
{
  GRand *rand = g_rand_new_with_seed (41);
  guint n_apart = 0;

  for (guint i = 0; i < 1500; i++) {
    g_autoptr (TwConvex) a = random_solid (rand);
    g_autoptr (TwConvex) b = random_solid (rand);
    TwGap gap = tw_convex_gap (a, b);
    TwVec toward = tw_vec_unit (tw_vec_subtract (gap.at_b, gap.at_a));

    if (gap.distance_mm > 0.001) {
      assert_near (tw_convex_least_mm (b, toward) - tw_convex_reach_mm (a, toward), gap.distance_mm, 1e-6);
      n_apart++;
    }
  }
  g_assert_cmpuint (n_apart, >, 1000);
  g_rand_free (rand);
}

/* How far a prism on a ring of many corners reaches, against a look at all of them: corners bunched on an
 * ellipse, some of them in the middle of a straight edge. */
static void
test_reach (void)
{
  GRand *rand = g_rand_new_with_seed (43);

  for (guint i = 0; i < 400; i++) {
    guint n = 2 * (guint)g_rand_int_range (rand, 10, 400);
    Box box = random_box (rand, 1000);
    g_autofree TwPoint *ring = g_new (TwPoint, n);
    g_autoptr (TwConvex) prism = NULL;

    for (guint k = 0; k < n; k += 2) {
      double angle_rad = 2 * G_PI * pow ((k + g_rand_double (rand)) / n, 1 + i % 4);

      ring[k] = (TwPoint){ 300 * cos (angle_rad), 20 * sin (angle_rad) };
    }
    for (guint k = 1; k < n; k += 2)
      ring[k] = (TwPoint){ (ring[k - 1].x_mm + ring[(k + 1) % n].x_mm) / 2,
                           (ring[k - 1].y_mm + ring[(k + 1) % n].y_mm) / 2 };
    prism = tw_convex_new_prism (&box.frame, ring, n, 0, box.half.x);
    for (guint k = 0; k < 30; k++) {
      TwVec along = k == 0   ? box.frame.w
                    : k == 1 ? tw_vec_scale (box.frame.u, -1)
                             : tw_vec_unit (tw_vec_subtract (random_box (rand, 1).frame.u, box.frame.v));
      double reach_mm = -G_MAXDOUBLE;

      for (guint m = 0; m < tw_convex_n_points (prism); m++)
        reach_mm = MAX (reach_mm, tw_vec_dot (along, tw_convex_point (prism, m)));
      assert_near (tw_convex_reach_mm (prism, along), reach_mm, 1e-9);
    }
  }
  g_rand_free (rand);
}

/* Solids that nearly touch: the same pair moved along the line of their nearest points. */
static void
test_nearly_touching (void)
{
  static const double gaps_mm[] = { 10, 0.1, 1e-3, 1e-5 };
  GRand *rand = g_rand_new_with_seed (42);

  for (guint i = 0; i < 300; i++) {
    Box a = random_box (rand, 1500), b = random_box (rand, 1500);
    g_autoptr (TwConvex) solid_a = box_solid (&a);
    g_autoptr (TwConvex) solid_b = box_solid (&b);
    TwGap gap = tw_convex_gap (solid_a, solid_b);

    for (guint k = 0; k < G_N_ELEMENTS (gaps_mm) && gap.distance_mm > 20; k++) {
      Box moved = b;
      g_autoptr (TwConvex) solid = NULL;

      moved.frame.origin = tw_vec_add_scaled (b.frame.origin, 1 - gaps_mm[k] / gap.distance_mm,
                                              tw_vec_subtract (gap.at_a, gap.at_b));
      solid = box_solid (&moved);
      assert_near (tw_convex_gap (solid_a, solid).distance_mm, gaps_mm[k], 1e-6);
    }
  }
  g_rand_free (rand);
}

/* ---- Clipping and shadows ---- */

static void
test_clip_box (void)
{
  TwFrame job = tw_frame_job ();
  g_autoptr (TwConvex) box = tw_convex_new_box (&job, tw_vec (0, 0, 0), tw_vec (10, 20, 30));
  g_autoptr (TwConvex) half = tw_convex_clip (box, (TwHalfSpace){ { 0, 0, 1 }, 12 });
  g_autoptr (TwConvex) all = tw_convex_clip (box, (TwHalfSpace){ { 0, 0, 1 }, 30 });
  g_autoptr (TwConvex) none = tw_convex_clip (box, (TwHalfSpace){ { 0, 0, 1 }, 0 });
  /* through the corner's three neighbours, a tenth of each edge: 1/6·1·2·3 goes */
  TwVec n = tw_vec_unit (tw_vec (-6, -3, -2));
  g_autoptr (TwConvex) corner = tw_convex_clip (box, (TwHalfSpace){ n, tw_vec_dot (n, tw_vec (1, 0, 0)) });
  /* through two opposite edges: half goes, and the plane passes through corners */
  TwVec d = tw_vec_unit (tw_vec (2, -1, 0));
  g_autoptr (TwConvex) wedge = tw_convex_clip (box, (TwHalfSpace){ d, 0 });
  g_autoptr (TwConvex) less = tw_convex_clip (wedge, (TwHalfSpace){ { 0, 0, -1 }, -15 });

  assert_near (tw_convex_volume_mm3 (box), 6000, 1e-9);
  assert_near (tw_convex_volume_mm3 (half), 2400, 1e-9);
  g_assert_cmpuint (tw_convex_n_points (half), ==, 8);
  g_assert_true (all == box);
  g_assert_true (tw_convex_is_empty (none));
  assert_near (tw_convex_volume_mm3 (corner), 5999, 1e-9);
  g_assert_cmpuint (tw_convex_n_points (corner), ==, 10);
  assert_near (tw_convex_volume_mm3 (wedge), 3000, 1e-9);
  g_assert_cmpuint (tw_convex_n_points (wedge), ==, 6);
  assert_near (tw_convex_volume_mm3 (less), 1500, 1e-9);
}

/* What two half-spaces leave adds up, for boxes and cylinders cut again and again. */
static void
test_clip_random (void)
{
  GRand *rand = g_rand_new_with_seed (77);

  for (guint i = 0; i < 200; i++) {
    Box box = random_box (rand, 100), cutter = random_box (rand, 100);
    TwConvex *solid = i % 4 ? box_solid (&box)
                            : tw_convex_new_cylinder (box.frame.origin, box_corner (&box, 0), box.half.x);

    for (guint k = 0; k < 6 && !tw_convex_is_empty (solid); k++) {
      TwVec normal = k == 0   ? cutter.frame.u
                     : k == 1 ? cutter.frame.v
                              : tw_vec_unit (box_corner (&cutter, k));
      double offset_mm = tw_vec_dot (normal, box.frame.origin) + g_rand_double_range (rand, -100, 200);
      g_autoptr (TwConvex) kept = tw_convex_clip (solid, (TwHalfSpace){ normal, offset_mm });
      g_autoptr (TwConvex) gone
          = tw_convex_clip (solid, (TwHalfSpace){ tw_vec_scale (normal, -1), -offset_mm });

      assert_near (tw_convex_volume_mm3 (kept) + tw_convex_volume_mm3 (gone), tw_convex_volume_mm3 (solid),
                   1e-9 * tw_convex_volume_mm3 (solid) + 1e-6);
      if (!tw_convex_is_empty (kept))
        g_assert_cmpfloat (tw_convex_reach_mm (kept, normal), <=, offset_mm + 1e-9);
      tw_convex_unref (solid);
      solid = g_steal_pointer (&kept);
    }
    tw_convex_unref (solid);
  }
  g_rand_free (rand);
}

static void
test_clip_wall (void)
{
  static const TwVec points[] = { { 0, 0, 5 }, { 10, 0, 5 }, { 10, 10, 5 }, { 0, 10, 5 } };
  g_autoptr (TwConvex) wall = tw_convex_new_wall (points, 4);
  g_autoptr (TwConvex) half = tw_convex_clip (wall, (TwHalfSpace){ { 1, 0, 0 }, 4 });
  g_autoptr (TwConvex) ball = tw_convex_new_capsule (tw_vec (3, 3, 9), tw_vec (3, 3, 9), 1);
  g_autoptr (TwConvex) through = tw_convex_new_capsule (tw_vec (3, 3, 9), tw_vec (3, 3, 1), 1);

  g_assert_cmpuint (tw_convex_n_points (half), ==, 4);
  assert_near (tw_convex_bounds (half).to.x, 4, 1e-12);
  assert_near (tw_convex_gap (half, ball).distance_mm, 3, 1e-12);
  g_assert_true (tw_convex_gap (half, through).crosses);
}

static void
test_shadow (void)
{
  g_autoptr (TwGeos) geos = tw_geos_new ();
  TwFrame job = tw_frame_job ();
  TwFrame leaning = tw_frame_place (tw_vec (0, 0, 0), (TwTurns){ .lean_rad = 40 * DEG });
  g_autoptr (TwConvex) tube = tw_convex_new_cylinder (tw_vec (-350, 490, -60), tw_vec (350, 490, -60), 19);
  g_autoptr (TwConvex) hose = tw_convex_new_capsule (tw_vec (-100, 0, 0), tw_vec (100, 0, 50), 17);
  g_autoptr (TwConvex) ball = tw_convex_new_capsule (tw_vec (7, 0, 0), tw_vec (7, 0, 0), 17);
  g_autoptr (TwConvex) face = tw_convex_new_box (&leaning, tw_vec (-270, -174, 0), tw_vec (270, 174, 0));
  g_autoptr (TwArea) of_tube = tw_convex_shadow (tube, geos, &job);
  g_autoptr (TwArea) of_hose = tw_convex_shadow (hose, geos, &job);
  g_autoptr (TwArea) of_ball = tw_convex_shadow (ball, geos, &job);
  g_autoptr (TwArea) of_face = tw_convex_shadow (face, geos, &job);
  g_autoptr (TwArea) square_on = tw_convex_shadow (face, geos, &leaning);
  g_autoptr (TwArea) end_on
      = tw_convex_shadow (face, geos, &(TwFrame){ .u = leaning.u, .v = leaning.w, .w = leaning.v });

  assert_near (tw_area_mm2 (of_tube), 700 * 38, 0.05);
  assert_near (tw_area_mm2 (of_hose), 200 * 34 + G_PI * 17 * 17, 0.01);
  assert_near (tw_area_mm2 (of_ball), G_PI * 17 * 17, 1e-9);
  /* job 5: face 187 920 mm², seen along z 143 955 */
  assert_near (tw_area_mm2 (square_on), 187920, 1e-6);
  assert_near (tw_area_mm2 (of_face), 143955, 0.5);
  assert_near (tw_area_mm2 (end_on), 0, 1e-6);
  g_assert_null (tw_geos_trouble (geos));
}

/* One volume drawn in each plane. */
static void
test_plane_prism (void)
{
  static const TwPoint ring[] = { { 0, 0 }, { 2, 0 }, { 2, 3 }, { 0, 3 } };
  static const TwVec sizes[] = { { 2, 3, 5 }, { 5, 3, 2 }, { 2, 5, 3 } };

  for (TwPlane plane = TW_PLANE_FRONT; plane <= TW_PLANE_PLAN; plane++) {
    for (guint way = 0; way < 2; way++) {
      g_autoptr (TwConvex) prism = tw_convex_new_plane_prism (plane, ring, 4, way ? 5 : 0, way ? 0 : 5);
      TwVec to = tw_convex_bounds (prism).to;

      g_assert_true (to.x == sizes[plane].x && to.y == sizes[plane].y && to.z == sizes[plane].z);
      assert_near (tw_convex_volume_mm3 (prism), 30, 1e-12);
    }
  }
}

/* A rod of few sides has the cylinder's volume, V = π·r²·l; its corners stand out by 1.645/n² of the
 * diameter: the polygon of n sides and of the circle's area, R/r = √(x / sin x) with x = 2π/n. */
static void
test_rod (void)
{
  g_autoptr (TwConvex) rod = tw_convex_new_rod (tw_vec (1, 2, 3), tw_vec (1, 2, 103), 16, 64);
  double greatest_mm = 0.0;

  g_assert_cmpuint (tw_convex_n_points (rod), ==, 128);
  assert_near (tw_convex_volume_mm3 (rod), G_PI * 256 * 100, 1e-6);
  for (guint i = 0; i < 128; i++) {
    TwVec at = tw_convex_point (rod, i);

    greatest_mm = MAX (greatest_mm, hypot (at.x - 1, at.y - 2));
  }
  assert_near (greatest_mm, 16 * (1 + 2 * 1.645 / 4096), 1e-5);
}

/* The mirror image of a rod has the mirror images of its corners, whatever its sides: else distances to it
 * would hang on which hand it is seen from. */
static void
test_rod_mirrored (void)
{
  static const guint sides[] = { 8, 64, 256, 512, TW_GEOM_CIRCLE_SIDES };
  const TwVec from = tw_vec (10, 20, 30), way = tw_vec (0.4, -0.8, -0.3);

  for (guint s = 0; s < G_N_ELEMENTS (sides); s++) {
    TwVec to = tw_vec_add_scaled (from, 40, way);
    g_autoptr (TwConvex) rod = tw_convex_new_rod (from, to, 16, sides[s]);
    g_autoptr (TwConvex) other
        = tw_convex_new_rod (tw_vec (-from.x, from.y, from.z), tw_vec (-to.x, to.y, to.z), 16, sides[s]);

    for (guint i = 0; i < 2 * sides[s]; i++) {
      TwVec at = tw_convex_point (rod, i);
      double least_mm = INFINITY;

      for (guint k = 0; k < 2 * sides[s]; k++)
        least_mm
            = MIN (least_mm, tw_vec_distance_mm (tw_convex_point (other, k), tw_vec (-at.x, at.y, at.z)));
      assert_near (least_mm, 0, 1e-11);
    }
  }
}

/* Round solids know their axis; cut ones and prisms have none. */
static void
test_axis (void)
{
  g_autoptr (TwConvex) cylinder = tw_convex_new_cylinder (tw_vec (1, 2, 3), tw_vec (4, 6, 3), 7);
  g_autoptr (TwConvex) capsule = tw_convex_new_capsule (tw_vec (1, 2, 3), tw_vec (4, 6, 3), 7);
  g_autoptr (TwConvex) ball = tw_convex_new_capsule (tw_vec (1, 2, 3), tw_vec (1, 2, 3), 7);
  g_autoptr (TwConvex) cut = tw_convex_clip (cylinder, (TwHalfSpace){ { 1, 0, 0 }, 2 });
  TwVec from, to;
  double radius_mm;

  g_assert_true (tw_convex_axis (cylinder, &from, &to, &radius_mm));
  assert_near (tw_vec_distance_mm (from, to), 5, 1e-12);
  assert_near (radius_mm, 7, 1e-12);
  g_assert_true (tw_convex_axis (capsule, &from, &to, &radius_mm));
  assert_near (tw_vec_distance_mm (to, tw_vec (4, 6, 3)), 0, 1e-12);
  assert_near (radius_mm, 7, 1e-12);
  g_assert_true (tw_convex_axis (ball, &from, &to, &radius_mm));
  assert_near (tw_vec_distance_mm (from, to), 0, 1e-12);
  g_assert_false (tw_convex_axis (cut, &from, &to, &radius_mm));
}

/* A solid is what lies in the half-spaces of its faces: of a box leaned by 30° each is as far from the middle
 * as half its side. */
static void
test_faces (void)
{
  TwTurns turns = { .lean_rad = 30 * DEG };
  TwFrame frame = tw_frame_place (tw_vec (5, 6, 7), turns);
  g_autoptr (TwConvex) box = tw_convex_new_box (&frame, tw_vec (-10, -20, -30), tw_vec (10, 20, 30));
  double sum_mm = 0.0;

  g_assert_cmpuint (tw_convex_n_faces (box), ==, 6);
  for (guint i = 0; i < 6; i++) {
    TwHalfSpace half = tw_convex_face (box, i);

    assert_near (tw_vec_length_mm (half.normal), 1, 1e-12);
    sum_mm += half.offset_mm - tw_vec_dot (half.normal, frame.origin);
    assert_near (tw_convex_reach_mm (box, half.normal), half.offset_mm, 1e-9);
  }
  assert_near (sum_mm, 2 * (10 + 20 + 30), 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strdup_printf ("/base/convex/gap/%s", cases[i].name);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  g_test_add_func ("/base/convex/gap/random-boxes", test_random_boxes);
  g_test_add_func ("/base/convex/gap/turned", test_turned);
  g_test_add_func ("/base/convex/gap/certificate", test_certificate);
  g_test_add_func ("/base/convex/reach", test_reach);
  g_test_add_func ("/base/convex/gap/nearly-touching", test_nearly_touching);
  g_test_add_func ("/base/convex/gap/cylinder-plane", test_cylinder_plane);
  g_test_add_func ("/base/convex/clip/box", test_clip_box);
  g_test_add_func ("/base/convex/clip/random", test_clip_random);
  g_test_add_func ("/base/convex/clip/wall", test_clip_wall);
  g_test_add_func ("/base/convex/rod", test_rod);
  g_test_add_func ("/base/convex/rod-mirrored", test_rod_mirrored);
  g_test_add_func ("/base/convex/axis", test_axis);
  g_test_add_func ("/base/convex/faces", test_faces);
  g_test_add_func ("/base/convex/shadow", test_shadow);
  g_test_add_func ("/base/convex/plane-prism", test_plane_prism);
  return g_test_run ();
}
