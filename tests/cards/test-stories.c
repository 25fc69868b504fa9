/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Six jobs walked through, to the last digit that a card shows. Every figure follows by hand from the sizes
 * in the sample; the closed form stands at its line.
 */
#include "cards/told.h"

#include <math.h>

#define INCH2 (25.4 * 25.4)

/* A first layout in the tail. Face 700 × 318 = 222 600. A tube of 38 across all of it takes 38 × 700 = 26
 * 600; of the plate, 30 wide from 300 to 471, what lies before the face (from 489 − 159 = 330) takes 30 × 141
 * = 4230. Behind the core, 48 + 45 + 62 of 180 leave 25. */
static void
test_first_layout (void)
{
  Told told = told_open ("merlin-tail.twjob");

  told_remove (&told, "supply");
  told_remove (&told, "return");
  told_tell (&told);
  told_assert_row (&told, "frontal", "face:core", "222 600 mm²");
  told_assert_row (&told, "frontal", "free:core", "191 770 mm² = 86.2 %");
  told_assert_row (&told, "frontal", "shade:core:cross-tube", "26 600 mm² = 11.9 %");
  told_assert_row (&told, "frontal", "shade:core:mount-plate", "4230 mm² = 1.9 %");
  told_assert_row (&told, "frontal", "shared:core", "0 mm² = 0.0 %");
  told_assert_text (tw_cards_find (told.cards, "frontal")->headline, "86.2 % free");
  told_assert_text (tw_cards_find (told.cards, "fit")->headline, "25.0 mm");
  told_assert_row (&told, "fit", "part:left-fan", "25.0 mm");
  told_clear (&told);
}

/* A baffle moved by one tube. A tube is (45.4 − 1.4) × 1.4 + π × 1.4² ÷ 4 = 63.139 mm² inside; 118.8 l/min
 * are 1.98e6 mm³/s: ÷ 16, 15, 17, 14 tubes. Tube 16 lies at 150 − 15 × 10 = 0. */
static void
test_baffle_by_one (void)
{
  Told told = told_open ("merlin-tail.twjob");

  told_tell (&told);
  told_assert_row (&told, "passes", "pass-1", "16 tubes, 1.960 m/s");
  told_assert_row (&told, "passes", "pass-2", "15 tubes, 2.091 m/s");
  tw_make_set (told.job, "baffle", "place_mm", "-15");
  told_tell (&told);
  told_assert_row (&told, "passes", "pass-1", "17 tubes, 1.845 m/s");
  told_assert_row (&told, "passes", "pass-2", "14 tubes, 2.240 m/s");
  g_assert_cmpuint (told_count (&told, "baffle-on-mouth"), ==, 0);
  tw_make_set (told.job, "baffle", "place_mm", "-10");
  told_tell (&told);
  g_assert_cmpuint (told_count (&told, "baffle-on-mouth"), ==, 1);
  g_assert_cmpint (tw_cards_find (told.cards, "passes")->kind, ==, TW_ROW_STOP);
  told_assert_row (&told, "passes", "reynolds", "not yet computed");
  told_assert_row (&told, "passes", "loss", "not yet computed");
  told_clear (&told);
}

/* Both halves of two equal discs of radius @r, @d apart, that lie in each other. */
static double
lens (double r, double d)
{
  return 2 * r * r * acos (d / (2 * r)) - d / 2 * sqrt (4 * r * r - d * d);
}

/* The part of a disc of radius @r beyond a line @d from its centre. */
static double
segment (double r, double d)
{
  return r * r * acos (d / r) - d * sqrt (r * r - d * d);
}

/* Two fans of 15 in on a face of 31 × 19.19 in, hubs 6 in: 2 × π ÷ 4 × 15² = 353.43, less 2 × π ÷ 4 × 6²
 * = 56.55. Of 16 in at ± 7.75: discs 2 × 201.06 less a lens of 15.5 apart and two segments beyond 15.5
 * − 7.75. A mouth of 31 × 18.8 = 582.80. */
static void
test_fans (void)
{
  static const char *const fans[] = { "left-fan", "right-fan" };
  Told told = told_open ("caravan-4.twjob");
  double both = 2 * G_PI * 64 - lens (8, 15.5) - 2 * segment (8, 7.75);

  told_tell (&told);
  told_assert_row (&told, "coverage", "swept:core", "353.43 in² = 59.4 %");
  told_assert_row (&told, "coverage", "ring:core", "296.88 in² = 49.9 %");
  told_assert_row (&told, "coverage", "boxed:core", "582.80 in² = 98.0 %");
  told_assert_row (&told, "coverage", "operating-point:core", "not yet computed");
  for (guint i = 0; i < G_N_ELEMENTS (fans); i++) {
    tw_make_set (told.job, fans[i], "swept_mm", "16 in");
    tw_make_set (told.job, fans[i], "ring_mm", "16.2 in");
  }
  told_tell (&told);
  told_assert_row (&told, "coverage", "swept:core", "399.47 in² = 67.2 %");
  g_assert_cmpfloat_with_epsilon (told_figure (&told, "coverage", "swept:core", "area_mm2") / INCH2, both,
                                  2e-3);
  told_assert_row (&told, "coverage", "overlap:left-fan:right-fan", "1.33 in²");
  g_assert_cmpfloat_with_epsilon (told_figure (&told, "coverage", "overlap:left-fan:right-fan", "depth_mm"),
                                  0.5 * 25.4, 1e-9);
  for (guint i = 0; i < G_N_ELEMENTS (fans); i++) {
    g_autofree char *row = g_strdup_printf ("fan:%s", fans[i]);

    g_assert_cmpfloat_with_epsilon (told_figure (&told, "coverage", row, "beyond_face_mm"), 0.25 * 25.4,
                                    1e-9);
    g_assert_cmpfloat_with_epsilon (told_figure (&told, "coverage", row, "beyond_face_mm2") / INCH2,
                                    segment (8, 7.75), 2e-3);
  }
  g_assert_cmpuint (told_count (&told, "fans-overlap"), ==, 1);
  g_assert_cmpuint (told_count (&told, "fan-beyond-face"), ==, 2);
  told_clear (&told);
}

/* Hoses past the driver, R 65: legs of the supply 370, 2350, 388, 147, 372 = 3627 less four bends, each
 * 2 × 65 − π ÷ 2 × 65 = 27.898 shorter than its corner: 3515.4. Of the return 181, 147, 160, 2350, 190 =
 * 3028: 2916.4. The shortest straight lies between two bends: 147 − 2 × 65 = 17. Bore 28: 615.75 mm². */
static void
test_hoses (void)
{
  Told told = told_open ("merlin-boot.twjob");

  told_tell (&told);
  told_assert_row (&told, "hoses", "centreline:supply", "3515.4 mm");
  told_assert_row (&told, "hoses", "centreline:return", "2916.4 mm");
  told_assert_row (&told, "hoses", "bends:supply", "4");
  told_assert_row (&told, "hoses", "bends:return", "4");
  told_assert_row (&told, "hoses", "bend-1:supply", "90.0° at R 65.0 mm");
  told_assert_row (&told, "hoses", "bend-4:return", "90.0° at R 65.0 mm");
  told_assert_row (&told, "hoses", "shortest:supply", "17.0 mm");
  told_assert_row (&told, "hoses", "shortest:return", "17.0 mm");
  told_assert_row (&told, "hoses", "volume:supply", "2.165 L");
  told_assert_row (&told, "hoses", "volume:return", "1.796 L");
  told_assert_row (&told, "hoses", "loss:supply", "not yet computed");
  g_assert_cmpuint (told_count (&told, "hose-straight-short"), ==, 2);
  tw_make_set (told.job, "job", "straight_mm", "15");
  told_tell (&told);
  g_assert_cmpuint (told_count (&told, "hose-straight-short"), ==, 0);
  told_clear (&told);
}

/* A baffle in the top tank of upright tubes: two highest chambers, each in want of a bleed. 13 and 13 tubes
 * of (29.4 − 1.4) × 1.4 + π × 1.4² ÷ 4 = 40.739 mm²; 12.4 l/min: 0.390 m/s. */
static void
test_air_trap (void)
{
  static const char *const bleeds[] = { "left-bleed", "right-bleed" };
  Told told = told_open ("volt-9.twjob");

  told_tell (&told);
  told_assert_row (&told, "passes", "pass-1", "13 tubes, 0.390 m/s");
  told_assert_row (&told, "passes", "pass-2", "13 tubes, 0.390 m/s");
  for (guint n = 0; n <= G_N_ELEMENTS (bleeds); n++) {
    g_assert_cmpuint (told_count (&told, "no-bleed"), ==, n);
    if (n < G_N_ELEMENTS (bleeds))
      told_remove (&told, bleeds[n]);
    told_tell (&told);
  }
  g_assert_cmpint (tw_cards_find (told.cards, "passes")->kind, ==, TW_ROW_STOP);
  told_clear (&told);
}

/* Leaning until it fits: tanks 360 by 54, about the middle of the block at y 500 between 330 and 670. At an
 * angle a they are 360 cos a + 54 sin a high, 360 sin a + 54 cos a deep; the middle of the face lies 21
 * before that of the block. */
static void
lean (Told *told, double lean_deg)
{
  double a = lean_deg * G_PI / 180;

  tw_make_set_number (told->job, "core", "lean_deg", lean_deg);
  tw_make_set_number (told->job, "core", "y_mm", 500 + 21 * sin (a));
  tw_make_set_number (told->job, "core", "z_mm", -21 * cos (a));
  told_tell (told);
}

static void
test_lean (void)
{
  Told told = told_open ("merlin-boot.twjob");

  told_remove (&told, "supply");
  told_remove (&told, "return");
  told_tell (&told);
  told_assert_row (&told, "fit", "overall:core", "644.0 mm × 310.5 mm × 272.8 mm");
  told_assert_row (&told, "fit", "part:left-tank", "14.8 mm");
  told_assert_row (&told, "frontal", "face:core", "187 920 mm²");
  told_assert_row (&told, "frontal", "projected:core", "143 955 mm²");
  told_assert_row (&told, "frontal", "shade:core:floor-stiffener", "13 500 mm² = 7.2 %"); /* 25 × 540 */
  told_assert_row (&told, "frontal", "free:core", "174 420 mm² = 92.8 %");
  lean (&told, 30);
  told_assert_row (&told, "fit", "overall:core", "644.0 mm × 338.8 mm × 226.8 mm");
  told_assert_row (&told, "fit", "part:left-tank", "0.6 mm");
  lean (&told, 0);
  told_assert_row (&told, "fit", "overall:core", "644.0 mm × 360.0 mm × 54.0 mm");
  told_assert_row (&told, "fit", "part:left-tank", "10.0 mm through the wall");
  g_assert_cmpuint (told_count (&told, "out-of-bay"), >, 0);
  told_clear (&told);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cards/stories/first-layout", test_first_layout);
  g_test_add_func ("/cards/stories/baffle-by-one-tube", test_baffle_by_one);
  g_test_add_func ("/cards/stories/fans-on-the-pick-up", test_fans);
  g_test_add_func ("/cards/stories/hoses-past-the-driver", test_hoses);
  g_test_add_func ("/cards/stories/air-trap", test_air_trap);
  g_test_add_func ("/cards/stories/lean-until-it-fits", test_lean);
  return g_test_run ();
}
