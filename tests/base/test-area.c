/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Areas: what goes in, what comes out, and what bad figures do.
 */
#include "base/area.h"

#include <math.h>

#define assert_near(a, b, by) g_assert_cmpfloat_with_epsilon (a, b, by)

typedef struct {
  const char *name;
  TwPoint points[8];
  guint n_points;
  double area_mm2;
  gboolean trouble;
  guint n_pieces; /* convex pieces; a concave hexagon cannot do with fewer than 2 */
} PointsCase;

static const PointsCase points_cases[] = {
  /* clang-format off */
  { "square", { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 } }, 4, 100, FALSE, 1 },
  { "clockwise", { { 0, 0 }, { 0, 10 }, { 10, 10 }, { 10, 0 } }, 4, 100, FALSE, 1 },
  { "closed-twice", { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 }, { 0, 0 }, { 0, 0 } }, 6, 100, FALSE, 1 },
  { "repeated", { { 0, 0 }, { 10, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 } }, 5, 100, FALSE, 1 },
  { "on-edge", { { 0, 0 }, { 5, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 } }, 5, 100, FALSE, 1 },
  { "L", { { 0, 0 }, { 20, 0 }, { 20, 10 }, { 10, 10 }, { 10, 20 }, { 0, 20 } }, 6, 300, FALSE, 2 },
  { "none", { { 0 } }, 0, 0, FALSE, 0 },
  { "one", { { 1, 1 } }, 1, 0, FALSE, 0 },
  { "two", { { 1, 1 }, { 2, 2 } }, 2, 0, FALSE, 0 },
  { "same", { { 1, 1 }, { 1, 1 }, { 1, 1 }, { 1, 1 } }, 4, 0, FALSE, 0 },
  { "on-a-line", { { 0, 0 }, { 1, 1 }, { 3, 3 }, { 2, 2 } }, 4, 0, FALSE, 0 },
  { "bow-tie", { { 0, 0 }, { 10, 10 }, { 10, 0 }, { 0, 10 } }, 4, 0, TRUE, 0 },
  { "nan", { { 0, 0 }, { 10, NAN }, { 10, 10 } }, 3, 0, TRUE, 0 },
  { "infinite", { { 0, 0 }, { INFINITY, 0 }, { 10, 10 } }, 3, 0, TRUE, 0 },
  { "huge", { { 0, 0 }, { 1e300, 0 }, { 10, 10 } }, 3, 0, TRUE, 0 },
  { "tiny", { { 0, 0 }, { 1e-300, 0 }, { 0, 1e-300 } }, 3, 0, FALSE, 0 },
  { "spike", { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 10, 30 }, { 10, 10 }, { 0, 10 } }, 6, 0, TRUE, 0 },
  /* clang-format on */
};

static void
test_points (gconstpointer data)
{
  const PointsCase *c = data;
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwArea) area = tw_area_new_points (geos, c->points, c->n_points);
  g_autoptr (GPtrArray) pieces = tw_area_convex_pieces (geos, area);

  g_assert_cmpint (tw_geos_trouble (geos) != NULL, ==, c->trouble);
  assert_near (tw_area_mm2 (area), c->area_mm2, 1e-12);
  if (c->area_mm2 > 0.0) {
    TwRing ring = tw_area_ring (area, 0);

    g_assert_cmpuint (pieces->len, ==, c->n_pieces);
    g_assert_true (ring.points[0].x_mm == 0 && ring.points[0].y_mm == 0);
    g_assert_true (ring.points[1].y_mm == 0);
  } else if (!g_str_equal (c->name, "tiny")) {
    g_assert_true (tw_area_is_empty (area));
  }
  tw_geos_clear_trouble (geos);
  g_assert_null (tw_geos_trouble (geos));
}

static TwArea *
box (TwGeos *geos, double x0_mm, double y0_mm, double x1_mm, double y1_mm)
{
  return tw_area_new_box (geos, (TwBox){ x0_mm, y0_mm, x1_mm, y1_mm });
}

static void
test_overlays (void)
{
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwArea) a = box (geos, 0, 0, 10, 10);
  g_autoptr (TwArea) b = box (geos, 4, 4, 6, 6);
  g_autoptr (TwArea) c = box (geos, 10, 0, 12, 10);
  g_autoptr (TwArea) frame = tw_area_difference (geos, a, b);
  g_autoptr (TwArea) touch = tw_area_intersection (geos, a, c);
  g_autoptr (TwArea) nothing = tw_area_difference (geos, b, a);
  TwArea *const list[] = { c, frame }, *const other_way[] = { frame, c };
  g_autoptr (TwArea) joined = tw_area_union (geos, list, 2);
  g_autoptr (TwArea) again = tw_area_union (geos, other_way, 2);

  assert_near (tw_area_mm2 (frame), 96.0, 1e-12);
  g_assert_cmpuint (tw_area_n_rings (frame), ==, 2);
  g_assert_false (tw_area_ring (frame, 0).is_hole);
  g_assert_true (tw_area_ring (frame, 1).is_hole);
  g_assert_false (tw_area_contains (frame, (TwPoint){ 5, 5 }));
  g_assert_true (tw_area_contains (frame, (TwPoint){ 3, 5 }));
  g_assert_false (tw_area_contains (frame, (TwPoint){ 11, 5 }));
  g_assert_true (tw_area_is_empty (touch));
  g_assert_true (tw_area_is_empty (nothing));
  assert_near (tw_area_mm2 (joined), 116.0, 1e-12);
  g_assert_true (tw_area_bounds (joined).x1_mm == 12);
  g_assert_cmpmem (tw_area_ring (joined, 0).points, tw_area_ring (joined, 0).n_points * sizeof (TwPoint),
                   tw_area_ring (again, 0).points, tw_area_ring (again, 0).n_points * sizeof (TwPoint));
  g_assert_null (tw_geos_trouble (geos));
}

/* The order of polygons and the first point do not depend on the order in which they came. */
static void
test_order (void)
{
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwArea) a = tw_area_new_circle (geos, (TwPoint){ 5, 5 }, 3);
  g_autoptr (TwArea) b = box (geos, 6, 0, 20, 4);
  g_autoptr (TwArea) c = box (geos, -30, 0, -20, 4);
  TwArea *const one[] = { a, b, c }, *const two[] = { c, b, a };
  g_autoptr (TwArea) first = tw_area_union (geos, one, 3);
  g_autoptr (TwArea) second = tw_area_union (geos, two, 3);

  g_assert_cmpuint (tw_area_n_rings (first), ==, 2);
  g_assert_true (tw_area_ring (first, 0).points[0].x_mm == -30);
  for (guint i = 0; i < 2; i++)
    g_assert_cmpmem (tw_area_ring (first, i).points, tw_area_ring (first, i).n_points * sizeof (TwPoint),
                     tw_area_ring (second, i).points, tw_area_ring (second, i).n_points * sizeof (TwPoint));
}

static void
test_clip_and_map (void)
{
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwArea) a = box (geos, 0, 0, 10, 10);
  g_autoptr (TwArea) half = tw_area_clip (geos, a, (TwPoint){ 1, 0 }, 3);
  g_autoptr (TwArea) all = tw_area_clip (geos, a, (TwPoint){ 0, 1 }, 10);
  g_autoptr (TwArea) none = tw_area_clip (geos, a, (TwPoint){ 0, 1 }, 0);
  g_autoptr (TwArea) corner = tw_area_clip (geos, a, (TwPoint){ M_SQRT1_2, M_SQRT1_2 }, 5 * M_SQRT1_2);
  /* mirrored in x, doubled in y, moved: area 2·100 */
  g_autoptr (TwArea) mapped = tw_area_map (geos, a, &(TwMap){ .xx = -1, .yy = 2, .x_mm = 100, .y_mm = -50 });

  assert_near (tw_area_mm2 (half), 30.0, 1e-12);
  assert_near (tw_area_mm2 (all), 100.0, 1e-12);
  g_assert_true (tw_area_is_empty (none));
  assert_near (tw_area_mm2 (corner), 12.5, 1e-12);
  assert_near (tw_area_mm2 (mapped), 200.0, 1e-12);
  g_assert_true (tw_area_bounds (mapped).x0_mm == 90 && tw_area_bounds (mapped).y1_mm == -30);
  g_assert_null (tw_geos_trouble (geos));
  {
    g_autoptr (TwArea) flat = tw_area_map (geos, a, &(TwMap){ .xx = 1 });

    g_assert_true (tw_area_is_empty (flat));
    g_assert_nonnull (tw_geos_trouble (geos));
  }
}

static void
test_hull_strip_grow (void)
{
  static const TwPoint cloud[] = { { 0, 0 }, { 5, 5 }, { 10, 0 }, { 10, 10 }, { 0, 10 }, { 5, 0 } };
  static const TwPoint path[] = { { 0, 0 }, { 100, 0 }, { 100, 0 } };
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwArea) hull = tw_area_new_hull (geos, cloud, G_N_ELEMENTS (cloud));
  g_autoptr (TwArea) flat = tw_area_new_hull (geos, path, G_N_ELEMENTS (path));
  g_autoptr (TwArea) round = tw_area_new_strip (geos, path, 3, 10, TRUE);
  g_autoptr (TwArea) square = tw_area_new_strip (geos, path, 3, 10, FALSE);
  g_autoptr (TwArea) disc = tw_area_new_strip (geos, path, 1, 10, TRUE);
  g_autoptr (TwArea) bead = tw_area_new_strip (geos, path, 1, 10, FALSE);
  g_autoptr (TwArea) a = box (geos, 0, 0, 10, 10);
  g_autoptr (TwArea) grown = tw_area_grow (geos, a, 2);
  g_autoptr (TwArea) shrunk = tw_area_grow (geos, a, -2);
  g_autoptr (TwArea) gone = tw_area_grow (geos, a, -6);

  assert_near (tw_area_mm2 (hull), 100.0, 1e-12);
  g_assert_cmpuint (tw_area_ring (hull, 0).n_points, ==, 4);
  g_assert_true (tw_area_is_empty (flat));
  assert_near (tw_area_mm2 (round), 2000.0 + 100 * G_PI, 0.003);
  assert_near (tw_area_mm2 (square), 2000.0, 1e-9);
  assert_near (tw_area_mm2 (disc), 100 * G_PI, 1e-9);
  g_assert_true (tw_area_is_empty (bead));
  assert_near (tw_area_mm2 (grown), 180.0 + 4 * G_PI, 1e-4);
  assert_near (tw_area_mm2 (shrunk), 36.0, 1e-9);
  g_assert_true (tw_area_is_empty (gone));
  g_assert_null (tw_geos_trouble (geos));
}

static void
test_distance_and_label (void)
{
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwArea) a = box (geos, 0, 0, 10, 10);
  g_autoptr (TwArea) far = tw_area_new_circle (geos, (TwPoint){ 30, 5 }, 5);
  g_autoptr (TwArea) inside = box (geos, 2, 2, 3, 3);
  g_autoptr (TwArea) beside = box (geos, 10, 2, 13, 3);
  g_autoptr (TwArea) empty = tw_area_new_empty ();
  TwPoint at_a, at_b, label;
  double radius_mm;

  assert_near (tw_area_distance_mm (geos, a, far, &at_a, &at_b), 15.0, 1e-4);
  assert_near (at_a.x_mm, 10.0, 1e-9);
  assert_near (at_b.x_mm, 25.0, 1e-4);
  g_assert_true (tw_area_distance_mm (geos, a, inside, &at_a, &at_b) == 0.0);
  g_assert_true (tw_area_contains (inside, at_a));
  g_assert_true (tw_area_distance_mm (geos, beside, a, &at_a, NULL) == 0.0);
  assert_near (at_a.x_mm, 10.0, 1e-12);
  g_assert_true (tw_area_distance_mm (geos, a, empty, NULL, NULL) == G_MAXDOUBLE);

  label = tw_area_label_point (geos, a, &radius_mm);
  assert_near (label.x_mm, 5.0, 0.2);
  assert_near (label.y_mm, 5.0, 0.2);
  assert_near (radius_mm, 5.0, 0.2);
  label = tw_area_label_point (geos, empty, &radius_mm);
  g_assert_true (radius_mm == 0.0);
  g_assert_null (tw_geos_trouble (geos));
}

static void
test_pieces (void)
{
  static const TwPoint comb[] = { { 0, 0 },   { 70, 0 },  { 70, 30 }, { 60, 30 }, { 60, 10 }, { 40, 10 },
                                  { 40, 30 }, { 30, 30 }, { 30, 10 }, { 10, 10 }, { 10, 30 }, { 0, 30 } };
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwArea) a = tw_area_new_points (geos, comb, G_N_ELEMENTS (comb));
  g_autoptr (TwArea) plate = box (geos, -50, -50, 120, 80);
  g_autoptr (TwArea) hole = tw_area_new_circle (geos, (TwPoint){ 90, 50 }, 20);
  g_autoptr (TwArea) drilled = tw_area_difference (geos, plate, hole);
  const TwArea *const areas[] = { a, drilled };

  for (guint i = 0; i < G_N_ELEMENTS (areas); i++) {
    g_autoptr (GPtrArray) pieces = tw_area_convex_pieces (geos, areas[i]);
    double sum_mm2 = 0.0;

    for (guint k = 0; k < pieces->len; k++) {
      const TwArea *piece = g_ptr_array_index (pieces, k);
      g_autoptr (TwArea) beyond = tw_area_difference (geos, piece, areas[i]);

      g_assert_true (tw_area_is_convex (piece));
      assert_near (tw_area_mm2 (beyond), 0.0, 1e-9);
      sum_mm2 += tw_area_mm2 (piece);
    }
    assert_near (sum_mm2, tw_area_mm2 (areas[i]), 1e-7);
    if (i == 0)
      g_assert_cmpuint (pieces->len, <=, 6);
  }
  g_assert_null (tw_geos_trouble (geos));
}

/* The first trouble stays, and nothing is printed: the test framework would fail on any warning. */
static void
test_trouble_stays (void)
{
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwArea) bad = tw_area_new_circle (geos, (TwPoint){ NAN, 0 }, 1);
  g_autoptr (TwArea) worse = tw_area_new_circle (geos, (TwPoint){ 0, 0 }, -1);
  g_autoptr (TwArea) worst = box (geos, 0, 0, NAN, 1);
  g_autoptr (TwArea) small = tw_area_new_circle (geos, (TwPoint){ 1e6, 1e6 }, 1e-12);

  g_assert_true (tw_area_is_empty (bad) && tw_area_is_empty (worse) && tw_area_is_empty (worst));
  g_assert_true (tw_area_is_empty (small));
  g_assert_cmpstr (tw_geos_trouble (geos), ==, "a coordinate is no number or too large");
}

/* A band along a right angle: two arms of 100 and 50 by 20, cut square at the ends, which overlap in a square
 * of 10 × 10, and a quarter disc of 10 outside the corner; as a polygon of 16 sides on the circle that
 * quarter is 4·½·r²·sin 22.5°. */
static void
test_band (void)
{
  g_autoptr (TwGeos) geos = tw_geos_new ();
  const TwPoint path[] = { { 0, 0 }, { 100, 0 }, { 100, 50 } };
  g_autoptr (TwArea) band = tw_area_new_band (geos, path, 3, 10, 16);
  g_autoptr (TwArea) none = tw_area_new_band (geos, path, 1, 10, 16);

  g_assert_null (tw_geos_trouble (geos));
  g_assert_cmpfloat_with_epsilon (tw_area_mm2 (band), 150 * 20 - 100 + 200 * sin (G_PI / 8), 1e-6);
  g_assert_true (tw_area_is_empty (none));
}

/* A disc in a box is itself; over an edge it is cut; beside it nothing is left. */
static void
test_in_box (void)
{
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwArea) disc = tw_area_new_circle (geos, (TwPoint){ 0, 0 }, 10);
  g_autoptr (TwArea) all = tw_area_in_box (geos, disc, (TwBox){ -10, -20, 30, 20 });
  g_autoptr (TwArea) half = tw_area_in_box (geos, disc, (TwBox){ 0, -20, 30, 20 });
  g_autoptr (TwArea) none = tw_area_in_box (geos, disc, (TwBox){ 20, -20, 30, 20 });

  g_assert_cmpfloat_with_epsilon (tw_area_mm2 (all), G_PI * 100, 1e-9);
  g_assert_cmpfloat_with_epsilon (tw_area_mm2 (half), G_PI * 50, 1e-9);
  g_assert_true (tw_area_is_empty (none));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (points_cases); i++) {
    g_autofree char *path = g_strdup_printf ("/base/area/points/%s", points_cases[i].name);

    g_test_add_data_func (path, &points_cases[i], test_points);
  }
  g_test_add_func ("/base/area/overlays", test_overlays);
  g_test_add_func ("/base/area/order", test_order);
  g_test_add_func ("/base/area/clip-and-map", test_clip_and_map);
  g_test_add_func ("/base/area/hull-strip-grow", test_hull_strip_grow);
  g_test_add_func ("/base/area/band", test_band);
  g_test_add_func ("/base/area/in-box", test_in_box);
  g_test_add_func ("/base/area/distance-and-label", test_distance_and_label);
  g_test_add_func ("/base/area/pieces", test_pieces);
  g_test_add_func ("/base/area/trouble-stays", test_trouble_stays);
  return g_test_run ();
}
