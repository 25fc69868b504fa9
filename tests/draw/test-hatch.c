/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/hatch.h"

#include <math.h>

static const TwInkStyle style = { TW_INK_PEN_HATCH, TW_INK_TINT_TAKEN, "taken", { "" } };

/* Area that the lines stand for: their length times the gap. */
static double
swept_mm2 (const TwInkCorner *corners, guint n, double angle_rad, double gap_mm)
{
  g_autoptr (TwInk) ink = tw_ink_new ();
  g_autoptr (GArray) lines = NULL;
  double length_mm = 0;

  tw_ink_hatch (ink, &style, corners, n, angle_rad, 1);
  lines = tw_hatch_lines (tw_ink_get (ink, 0), gap_mm);
  for (guint i = 0; i < lines->len; i++)
    length_mm += tw_point_distance_mm (g_array_index (lines, TwHatchLine, i).from,
                                       g_array_index (lines, TwHatchLine, i).to);
  return length_mm * gap_mm;
}

/* By the midpoint rule the lines' length times a fine gap comes to the area: a square of 10 without one of 4
 * has 84, a circle of 5 has 25 π. */
static void
test_areas (void)
{
  static const double angles_rad[] = { 0, G_PI / 4, G_PI / 2, 2.0, -0.7 };
  TwInkCorner square[8], circle[2];

  tw_ink_box_corners (&(TwBox){ 0, 0, 10, 10 }, square);
  tw_ink_box_corners (&(TwBox){ 3, 3, 7, 7 }, square + 4);
  tw_ink_circle_corners ((TwPoint){ 20, -30 }, 5, circle);
  for (guint i = 0; i < G_N_ELEMENTS (angles_rad); i++) {
    g_assert_cmpfloat_with_epsilon (swept_mm2 (square, 8, angles_rad[i], 0.01), 84, 0.3);
    g_assert_cmpfloat_with_epsilon (swept_mm2 (circle, 2, angles_rad[i], 0.01), 25 * G_PI, 0.02);
  }
}

/* Level lines at a gap of 4 lie at 2, 6, 10 …: a square from 0 to 10 gets two, each 10 long. */
static void
test_places (void)
{
  g_autoptr (TwInk) ink = tw_ink_new ();
  g_autoptr (GArray) lines = NULL;
  TwInkCorner corners[4];

  tw_ink_box_corners (&(TwBox){ 0, 0, 10, 9.9 }, corners);
  tw_ink_hatch (ink, &style, corners, 4, 0, 1);
  lines = tw_hatch_lines (tw_ink_get (ink, 0), 4);
  g_assert_cmpuint (lines->len, ==, 2);
  for (guint i = 0; i < 2; i++) {
    const TwHatchLine *line = &g_array_index (lines, TwHatchLine, i);

    g_assert_cmpfloat (line->from.y_mm, ==, 2 + 4.0 * i);
    g_assert_cmpfloat (line->from.x_mm, ==, 0);
    g_assert_cmpfloat (line->to.x_mm, ==, 10);
  }
}

/* A gap that would take a million lines is widened. */
static void
test_most (void)
{
  g_autoptr (TwInk) ink = tw_ink_new ();
  g_autoptr (GArray) lines = NULL;
  TwInkCorner corners[4];

  tw_ink_box_corners (&(TwBox){ 0, 0, 1000, 1000 }, corners);
  tw_ink_hatch (ink, &style, corners, 4, 0, 1);
  lines = tw_hatch_lines (tw_ink_get (ink, 0), 0.001);
  g_assert_cmpuint (lines->len, <=, TW_HATCH_MOST);
  g_assert_cmpuint (lines->len, >, TW_HATCH_MOST / 4);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/hatch/areas", test_areas);
  g_test_add_func ("/draw/hatch/places", test_places);
  g_test_add_func ("/draw/hatch/most", test_most);
  return g_test_run ();
}
