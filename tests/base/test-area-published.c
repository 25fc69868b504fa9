/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Areas of circles on circles and rectangles against the closed forms of the circular segment and of the lens
 * of two circles: lens = r²·acos(d1/r) − d1·√(r² − d1²) + the same for R and d2, with d1 = (d² + r² − R²)/2d
 * and d2 = d − d1 (elementary geometry; any handbook of mathematics under "circular segment").
 */
#include "base/outline.h"

#include <math.h>

#define IN2 (25.4 * 25.4)
#define assert_near(a, b, by) g_assert_cmpfloat_with_epsilon (a, b, by)

static double
segment_mm2 (double r_mm, double to_chord_mm)
{
  return r_mm * r_mm * acos (to_chord_mm / r_mm)
         - to_chord_mm * sqrt (r_mm * r_mm - to_chord_mm * to_chord_mm);
}

typedef struct {
  const char *name;
  double r_mm, big_r_mm, d_mm;
} LensCase;

static const LensCase lenses[] = {
  { "fans-16-in", 8 * 25.4, 8 * 25.4, 15.5 * 25.4 },
  { "half-over", 100, 100, 100 },
  { "small-on-large", 50, 300, 290 },
  { "nearly-apart", 140, 140, 279 },
  { "nearly-one", 140, 140, 1 },
};

/* A boundary that is off by one part in 10^5.5 of the radius moves the area by that much of r times the arcs.
 */
static void
test_lens (gconstpointer data)
{
  const LensCase *c = data;
  double d1_mm = (c->d_mm * c->d_mm + c->r_mm * c->r_mm - c->big_r_mm * c->big_r_mm) / (2 * c->d_mm);
  double lens_mm2 = segment_mm2 (c->r_mm, d1_mm) + segment_mm2 (c->big_r_mm, c->d_mm - d1_mm);
  double slack_mm2 = 3.2e-6 * 2 * G_PI * (c->r_mm * c->r_mm + c->big_r_mm * c->big_r_mm) / 2;
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwArea) a = tw_area_new_circle (geos, (TwPoint){ 17.3, -4.1 }, c->r_mm);
  g_autoptr (TwArea) b = tw_area_new_circle (geos, (TwPoint){ 17.3 + c->d_mm, -4.1 }, c->big_r_mm);
  g_autoptr (TwArea) both = tw_area_intersection (geos, a, b);
  TwArea *const list[] = { a, b };
  g_autoptr (TwArea) joined = tw_area_union (geos, list, 2);

  assert_near (tw_area_mm2 (both), lens_mm2, slack_mm2);
  assert_near (tw_area_mm2 (joined), G_PI * (c->r_mm * c->r_mm + c->big_r_mm * c->big_r_mm) - lens_mm2,
               slack_mm2);
  assert_near (tw_area_mm2 (both) + tw_area_mm2 (joined), tw_area_mm2 (a) + tw_area_mm2 (b), 1e-7);
  g_assert_null (tw_geos_trouble (geos));
}

/* A core face of 31 × 19.19 in with two fans at ±7.75 in on its middle: the sums by hand.
 * 15 in: 2·π·7.5² = 353.4 in². 16 in: lens 2·64·acos(7.75/8) − 2·7.75·√(64 − 7.75²) = 1.33 in²; each reaches
 * 0.25 in beyond its side: segment 64·acos(7.75/8) − 7.75·√(64 − 7.75²) = 0.66 in²; on the face together
 * 2·π·64 − 1.33 − 2·0.66 = 399.47 in². */
static void
test_pick_up (void)
{
  static const struct {
    double r_in, on_face_in2, over_side_in2, lens_in2;
  } fans[] = { { 7.5, 353.43, 0.0, 0.0 }, { 8.0, 399.47, 0.66, 1.33 } };

  for (guint i = 0; i < G_N_ELEMENTS (fans); i++) {
    double x_mm = 7.75 * 25.4, r_mm = fans[i].r_in * 25.4;
    g_autoptr (TwGeos) geos = tw_geos_new ();
    g_autoptr (TwArea) face
        = tw_area_new_box (geos, (TwBox){ -15.5 * 25.4, -9.595 * 25.4, 15.5 * 25.4, 9.595 * 25.4 });
    g_autoptr (TwArea) left = tw_area_new_circle (geos, (TwPoint){ -x_mm, 0 }, r_mm);
    g_autoptr (TwArea) right = tw_area_new_circle (geos, (TwPoint){ x_mm, 0 }, r_mm);
    TwArea *const list[] = { left, right };
    g_autoptr (TwArea) swept = tw_area_union (geos, list, 2);
    g_autoptr (TwArea) on_face = tw_area_intersection (geos, swept, face);
    g_autoptr (TwArea) over = tw_area_difference (geos, left, face);
    g_autoptr (TwArea) lens = tw_area_intersection (geos, left, right);

    assert_near (tw_area_mm2 (on_face) / IN2, fans[i].on_face_in2, 0.005);
    assert_near (tw_area_mm2 (over) / IN2, fans[i].over_side_in2, 0.005);
    assert_near (tw_area_mm2 (lens) / IN2, fans[i].lens_in2, 0.005);
  }
}

/* Segments of a circle of 300 cut off at every tenth of its radius, both by an arc outline and by clipping.
 */
static void
test_segments (void)
{
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwArea) disc = tw_area_new_circle (geos, (TwPoint){ 0, 0 }, 150);

  for (int i = -9; i <= 9; i++) {
    double d_mm = i * 15.0;
    double half_mm = sqrt (150.0 * 150.0 - d_mm * d_mm);
    const TwCorner corners[] = { { { d_mm, -half_mm }, 150.0 - d_mm }, { { d_mm, half_mm }, 0 } };
    const TwOutline ring = { corners, 2 };
    g_autoptr (TwArea) drawn = NULL;
    g_autoptr (TwArea) clipped = tw_area_clip (geos, disc, (TwPoint){ -1, 0 }, -d_mm);

    assert_near (tw_area_mm2 (clipped), segment_mm2 (150, d_mm), 0.3);
    if (150.0 - d_mm <= TW_GEOM_BOW_LIMIT * 2 * half_mm) {
      drawn = tw_area_new_outline (geos, &ring, 1);
      assert_near (tw_area_mm2 (drawn), segment_mm2 (150, d_mm), 1e-7);
    }
  }
  g_assert_null (tw_geos_trouble (geos));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (lenses); i++) {
    g_autofree char *path = g_strdup_printf ("/published/area/lens/%s", lenses[i].name);

    g_test_add_data_func (path, &lenses[i], test_lens);
  }
  g_test_add_func ("/published/area/pick-up", test_pick_up);
  g_test_add_func ("/published/area/segments", test_segments);
  return g_test_run ();
}
