/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Arcs and outlines against elementary geometry, worked by hand beside each case.
 */
#include "base/geom.h"

#include <math.h>

#define assert_near(a, b, by) g_assert_cmpfloat_with_epsilon (a, b, by)

typedef struct {
  const char *name;
  TwPoint from, to;
  double bow_mm;
  TwPoint centre;
  double radius_mm, turn_rad, length_mm;
  TwBox bounds;
} ArcCase;

static const ArcCase arcs[] = {
  /* clang-format off */
  /* Half circle on the chord 0..20 along +x: bows to the right, that is down; the path turns counter-clockwise. */
  { "half-right", { 0, 0 }, { 20, 0 }, 10, { 10, 0 }, 10, G_PI, 10 * G_PI, { 0, -10, 20, 0 } },
  { "half-left", { 0, 0 }, { 20, 0 }, -10, { 10, 0 }, 10, -G_PI, 10 * G_PI, { 0, 0, 20, 10 } },
  /* 3-4-5: chord 8, rise 2 gives r = (16 + 4)/4 = 5, centre 3 from the chord, angle 2·atan(4/3). */
  { "flat", { -4, 0 }, { 4, 0 }, 2, { 0, 3 }, 5, 1.8545904360032244, 9.272952180016122, { -4, -2, 4, 0 } },
  /* The rest of that circle: rise 8 on the other side of the same chord; angle 2π − 2·atan(4/3). */
  { "major", { -4, 0 }, { 4, 0 }, -8, { 0, 3 }, 5, -4.428594871176362, 22.14297435588181, { -5, 0, 5, 8 } },
  { "major-down", { -4, 0 }, { 4, 0 }, 8, { 0, -3 }, 5, 4.428594871176362, 22.14297435588181, { -5, -8, 5, 0 } },
  /* Quarter of r = 10 about the origin from (10,0) to (0,10), counter-clockwise: rise 10·(1 − cos 45°). */
  { "quarter", { 10, 0 }, { 0, 10 }, 2.9289321881345254, { 0, 0 }, 10, G_PI_2, 5 * G_PI, { 0, 0, 10, 10 } },
  { "straight", { 1, 2 }, { 4, 6 }, 0, { 0, 0 }, 0, 0, 5, { 1, 2, 4, 6 } },
  /* clang-format on */
};

static void
test_arc (gconstpointer data)
{
  const ArcCase *c = data;
  TwArc arc = tw_arc_of_edge (c->from, c->to, c->bow_mm);
  TwBox box = tw_edge_bounds (c->from, c->to, c->bow_mm);

  assert_near (arc.centre.x_mm, c->centre.x_mm, 1e-12);
  assert_near (arc.centre.y_mm, c->centre.y_mm, 1e-12);
  assert_near (arc.radius_mm, c->radius_mm, 1e-12);
  assert_near (arc.turn_rad, c->turn_rad, 1e-12);
  assert_near (tw_edge_length_mm (c->from, c->to, c->bow_mm), c->length_mm, 1e-12);
  assert_near (box.x0_mm, c->bounds.x0_mm, 1e-12);
  assert_near (box.y0_mm, c->bounds.y0_mm, 1e-12);
  assert_near (box.x1_mm, c->bounds.x1_mm, 1e-12);
  assert_near (box.y1_mm, c->bounds.y1_mm, 1e-12);
  if (c->bow_mm != 0.0) {
    TwPoint start = tw_arc_point (&arc, 0.0), end = tw_arc_point (&arc, 1.0);

    assert_near (tw_point_distance_mm (start, c->from), 0.0, 1e-12);
    assert_near (tw_point_distance_mm (end, c->to), 0.0, 1e-12);
  }
}

/* A very flat arc keeps its area: about 2/3·c·h, here 2/3·100·1e-6 to the second order of h/c. */
static void
test_flat_segment (void)
{
  TwArc arc = tw_arc_of_edge ((TwPoint){ 0, 0 }, (TwPoint){ 100, 0 }, 1e-6);

  assert_near (tw_arc_segment_area_mm2 (arc.radius_mm, arc.turn_rad) / (2.0 / 3.0 * 100e-6), 1.0, 1e-12);
  /* just either side of where the series takes over: d(area)/dθ there is r²/2·(1 − cos θ) */
  assert_near (tw_arc_segment_area_mm2 (1000, 0.00300001) / tw_arc_segment_area_mm2 (1000, 0.00299999),
               1.0 + 3.0 * 2e-8 / 0.003, 1e-9);
}

static double
flat_area_mm2 (const GArray *points)
{
  double sum_mm2 = 0.0;

  for (guint i = 0; i < points->len; i++) {
    TwPoint a = g_array_index (points, TwPoint, i);
    TwPoint b = g_array_index (points, TwPoint, (i + 1) % points->len);

    sum_mm2 += (a.x_mm * b.y_mm - b.x_mm * a.y_mm) / 2.0;
  }
  return sum_mm2;
}

typedef struct {
  const char *name;
  TwCorner corners[4];
  guint n_corners;
  double area_mm2;
  guint n_flat; /* points once flattened */
} OutlineCase;

static const OutlineCase outlines[] = {
  /* clang-format off */
  { "square", { { { 0, 0 }, 0 }, { { 10, 0 }, 0 }, { { 10, 10 }, 0 }, { { 0, 10 }, 0 } }, 4, 100, 4 },
  { "clockwise", { { { 0, 0 }, 0 }, { { 0, 10 }, 0 }, { { 10, 10 }, 0 }, { { 10, 0 }, 0 } }, 4, -100, 4 },
  /* A circle of radius 7: two corners, bow half the chord; 49π. */
  { "circle", { { { -7, 0 }, 7 }, { { 7, 0 }, 7 } }, 2, 49 * G_PI, 1024 },
  { "circle-clockwise", { { { -7, 0 }, -7 }, { { 7, 0 }, -7 } }, 2, -49 * G_PI, 1024 },
  /* A slot 20 between centres, r 5: 20·10 + 25π. */
  { "slot", { { { 0, -5 }, 0 }, { { 20, -5 }, 5 }, { { 20, 5 }, 0 }, { { 0, 5 }, 5 } }, 4, 200 + 25 * G_PI, 1026 },
  /* A square of 20 with a half circle of r 10 bitten out of its right side: 400 − 50π. */
  { "bite", { { { 0, 0 }, 0 }, { { 20, 0 }, -10 }, { { 20, 20 }, 0 }, { { 0, 20 }, 0 } }, 4, 400 - 50 * G_PI, 515 },
  /* The 3-4-5 segment and the rest of its circle: 25·(θ − sin θ)/2 with θ = 2·atan(4/3), sin θ = 24/25. */
  { "segment", { { { -4, 0 }, 2 }, { { 4, 0 }, 0 } }, 2, 11.18238045004030, 304 },
  { "major-segment", { { { -4, 0 }, 8 }, { { 4, 0 }, 0 } }, 2, 78.53981633974483 - 11.18238045004030, 723 },
  /* clang-format on */
};

static void
test_outline (gconstpointer data)
{
  const OutlineCase *c = data;
  g_autoptr (GArray) points = tw_outline_flatten (c->corners, c->n_corners);

  assert_near (tw_outline_area_mm2 (c->corners, c->n_corners), c->area_mm2, 1e-10);
  assert_near (flat_area_mm2 (points), c->area_mm2, 1e-10);
  g_assert_cmpuint (points->len, ==, c->n_flat);
}

static void
test_circle (void)
{
  TwPoint points[TW_GEOM_CIRCLE_SIDES], mirrored[TW_GEOM_CIRCLE_SIDES];
  TwBox box = TW_BOX_EMPTY;
  g_autoptr (GArray) ring = g_array_new (FALSE, FALSE, sizeof (TwPoint));

  tw_circle_points ((TwPoint){ 170.0, 489.0 }, 140.0, points);
  tw_circle_points ((TwPoint){ -170.0, 489.0 }, 140.0, mirrored);
  for (guint i = 0; i < G_N_ELEMENTS (points); i++) {
    box = tw_box_add_point (box, points[i]);
    /* counter-clockwise from just above +x: its mirror image counts backwards from just above −x */
    TwPoint other = mirrored[(G_N_ELEMENTS (points) + 511 - i) % G_N_ELEMENTS (points)];

    g_assert_true (other.x_mm == -points[i].x_mm && other.y_mm == points[i].y_mm);
  }
  g_array_append_vals (ring, points, G_N_ELEMENTS (points));
  /* area π·r² and width 2·r·(1 − (π/1024)²/6), from the series of cos and of sqrt (x/sin x) */
  assert_near (flat_area_mm2 (ring), G_PI * 140 * 140, 1e-8);
  assert_near (box.x1_mm - box.x0_mm, 280.0 * (1.0 - 1.5687e-6), 1e-6);
  assert_near (box.y1_mm - box.y0_mm, 280.0 * (1.0 - 1.5687e-6), 1e-6);
}

static void
test_boxes (void)
{
  TwBox box = tw_box_add_point (tw_box_add_point (TW_BOX_EMPTY, (TwPoint){ 3, 4 }), (TwPoint){ 1, 9 });

  g_assert_true (tw_box_is_empty (TW_BOX_EMPTY));
  g_assert_true (tw_box_is_empty ((TwBox){ NAN, 0, 1, 1 }));
  g_assert_false (tw_box_is_empty (box));
  g_assert_true (box.x0_mm == 1 && box.y0_mm == 4 && box.x1_mm == 3 && box.y1_mm == 9);
  g_assert_true (tw_box_contains (box, (TwPoint){ 3, 9 }));
  g_assert_false (tw_box_contains (box, (TwPoint){ 3.1, 9 }));
  g_assert_true (tw_box_overlaps (box, (TwBox){ 3, 0, 5, 4 }));
  g_assert_false (tw_box_overlaps (box, (TwBox){ 3.1, 0, 5, 4 }));
  g_assert_false (tw_box_overlaps (box, TW_BOX_EMPTY));
  g_assert_true (tw_box_grow (box, 2).y1_mm == 11);
  g_assert_false (tw_point_is_sane ((TwPoint){ NAN, 0 }));
  g_assert_false (tw_point_is_sane ((TwPoint){ 0, 1e300 }));
  g_assert_true (tw_point_is_sane ((TwPoint){ 0, -1e6 }));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (arcs); i++) {
    g_autofree char *path = g_strdup_printf ("/base/geom/arc/%s", arcs[i].name);

    g_test_add_data_func (path, &arcs[i], test_arc);
  }
  for (guint i = 0; i < G_N_ELEMENTS (outlines); i++) {
    g_autofree char *path = g_strdup_printf ("/base/geom/outline/%s", outlines[i].name);

    g_test_add_data_func (path, &outlines[i], test_outline);
  }
  g_test_add_func ("/base/geom/flat-segment", test_flat_segment);
  g_test_add_func ("/base/geom/circle", test_circle);
  g_test_add_func ("/base/geom/boxes", test_boxes);
  return g_test_run ();
}
