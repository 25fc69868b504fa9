/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The water of the five samples, against figures worked by hand from their sizes: bores (w − h)·h + π·h²/4,
 * tank insides by wall and depth, hose runs by tangents and arcs.
 */
#include "job/read.h"
#include "layout/drawn.h"
#include "layout/heights.h"
#include "layout/routes.h"

#include <math.h>

typedef struct {
  const char *file;
  const char *passes; /* as spell() writes them */
  double bore_mm2;
  double flow_l_min;
  guint velocity_mm_s[3];
  const char *ends; /* by chamber: h or l needs a bleed or drain and has it, capital: has none */
} Sample;

static const Sample samples[] = {
  /* 44·1.4 + π·0.49; 1.98e6 mm³/s over 16 and 15 */
  { "merlin-tail.twjob", ">1-16 <17-31", 63.139, 118.8, { 1960, 2091 }, "h l h" },
  /* in inches (0.976 − 0.056)·0.056 + π·0.056²/4 = 0.053983 in²; 121 L/min over 46 of them */
  { "caravan-4.twjob", "<1-23 >24-46", 34.828, 121.0, { 1259, 1259 }, "h h l" },
  /* 28·1.4 + π·0.49; 206 667 mm³/s over 13 */
  { "volt-9.twjob", "v1-13 ^14-26", 40.739, 12.4, { 390, 390 }, "h h l" },
  /* (31.3 − 1.5)·1.5 + π·2.25/4; 200 L/min over 104 */
  { "ox.twjob", "v1-52", 46.467, 200.0, { 690 }, "h l" },
  /* 38·1.4 + π·0.49; 75 L/min over 12, 11, 11 */
  { "merlin-boot.twjob", ">1-12 <13-23 >24-34", 54.739, 75.0, { 1903, 2076, 2076 }, "h . h l" },
};

static TwJob *
open_sample (const char *file)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "samples", file, NULL);
  g_autoptr (GError) error = NULL;
  TwJob *job = tw_job_read_file (path, &error);

  g_assert_no_error (error);
  return job;
}

static void
expect_velocities (const Found *found, const guint velocity_mm_s[3])
{
  for (guint i = 0; i < 3; i++) {
    const TwPass *pass = tw_passes_get (found->passes, i);

    g_assert_true ((pass == NULL) == (velocity_mm_s[i] == 0));
    if (pass != NULL)
      g_assert_cmpuint ((guint)(pass->velocity_m_s * 1000.0 + 0.5), ==, velocity_mm_s[i]);
  }
}

static void
expect_ends (const TwHeights *heights, const char *ends)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < tw_heights_n_chambers (heights); i++) {
    const TwChamberHeight *chamber = tw_heights_chamber (heights, i);

    g_string_append_printf (text, "%s%s%s%s", i > 0 ? " " : "",
                            !chamber->is_high && !chamber->is_low ? "." : "",
                            !chamber->is_high    ? ""
                            : chamber->has_bleed ? "h"
                                                 : "H",
                            !chamber->is_low     ? ""
                            : chamber->has_drain ? "l"
                                                 : "L");
  }
  g_assert_cmpstr (text->str, ==, ends);
}

static void
test_sample (gconstpointer data)
{
  const Sample *c = data;
  g_autoptr (TwJob) job = open_sample (c->file);
  g_auto (Found) found = { NULL };
  g_autofree char *passes = NULL;
  g_autoptr (TwHeights) heights = NULL;

  tw_make_set_number (job, "job", "flow_l_min", c->flow_l_min);
  found = find (job);
  passes = spell (&found);
  heights = tw_heights_find (found.placement, found.passes, TW_ATTITUDE_LEVEL);
  g_assert_cmpstr (passes, ==, c->passes);
  g_assert_cmphex (tw_passes_flags (found.passes), ==, 0);
  g_assert_cmpfloat_with_epsilon (tw_tubes_grid (found.tubes, 0)->bore_area_mm2, c->bore_mm2, 0.0005);
  expect_velocities (&found, c->velocity_mm_s);
  expect_ends (heights, c->ends);
}

/* The tail's baffle from between 16 and 15 tubes to between 17 and 14: ten lower, 474 above the ground. */
static void
test_a_tube_lower (void)
{
  static const guint velocity_mm_s[3] = { 1845, 2240 };
  g_autoptr (TwJob) job = open_sample ("merlin-tail.twjob");
  TwId baffle = tw_job_get (job, TW_KIND_BAFFLE, 0)->id;
  Found found;

  tw_make_set_number (job, "job", "flow_l_min", 118.8);
  tw_make_set_number (job, baffle.text, "place_mm", 474.0 - 489.0);
  found = find (job);
  expect_velocities (&found, velocity_mm_s);
  g_assert_cmpuint (tw_passes_get (found.passes, 0)->n_tubes, ==, 17);
  g_assert_cmpuint (tw_passes_get (found.passes, 1)->n_tubes, ==, 14);
  found_clear (&found);
  /* at 479 it lies on the mouth of tube 17: 639 − 160 */
  tw_make_set_number (job, baffle.text, "place_mm", 479.0 - 489.0);
  found = find (job);
  g_assert_cmphex (tw_passes_flags (found.passes), ==, TW_PASSES_BLOCKED_MOUTHS | TW_PASSES_DEAD_TUBES);
  g_assert_cmpuint (tw_tubes_cover (found.tubes, 0)->tube, ==, 17);
  found_clear (&found);
}

/* The tail's tanks inside: 56 wide (60 − 4), 58 or 53 deep, 167, 157 and 326 long. */
static void
test_tail_chambers (void)
{
  static const double litres[]
      = { 56.0 * 58.0 * 167.0 / 1e6, 56.0 * 58.0 * 157.0 / 1e6, 56.0 * 53.0 * 326.0 / 1e6 };
  g_autoptr (TwJob) job = open_sample ("merlin-tail.twjob");
  g_auto (Found) found = find (job);

  for (guint i = 0; i < 3; i++)
    g_assert_cmpfloat_with_epsilon (tw_passes_chamber (found.passes, i)->volume_l, litres[i], 1e-9);
}

/* Four bends of 90° each in supply and return past the driver; 17.0 is the shortest straight. */
static void
test_boot_hoses (void)
{
  static const double centreline_mm[] = { 3515.4, 2916.4 }, volume_l[] = { 2.165, 1.796 };
  g_autoptr (TwJob) job = open_sample ("merlin-boot.twjob");
  g_auto (Found) found = find (job);
  g_autoptr (TwRoutes) routes = tw_routes_find (found.placement);

  for (guint i = 0; i < 2; i++) {
    const TwRoute *route = tw_routes_get (routes, i);

    g_assert_cmpfloat_with_epsilon (route->centreline_mm, centreline_mm[i], 0.05);
    g_assert_cmpfloat_with_epsilon (route->volume_l, volume_l[i], 0.0005);
    g_assert_cmpfloat_with_epsilon (route->shortest_mm, 17.0, 0.05);
    g_assert_cmpuint (route->n_bends, ==, 4);
    g_assert_cmphex (route->flags, ==, TW_ROUTE_SHORT);
    for (guint k = 0; k < route->n_pieces; k++)
      if (route->pieces[k].kind == TW_ROUTE_BEND)
        g_assert_cmpfloat_with_epsilon (route->pieces[k].angle_rad * 180.0 / G_PI, 90.0, 0.1);
  }
}

/* Rolled, one of the kart's two highest chambers stands higher than the other; rolled back, the other one. */
static void
test_kart_rolled (void)
{
  g_autoptr (TwJob) job = open_sample ("volt-9.twjob");
  g_auto (Found) found = find (job);
  const double roll_rad = 8.0 * G_PI / 180.0;
  double higher_mm[2];

  for (guint i = 0; i < 2; i++) {
    TwAttitude attitude = { 0.0, i == 0 ? roll_rad : -roll_rad };
    g_autoptr (TwHeights) heights = tw_heights_find (found.placement, found.passes, attitude);

    higher_mm[i] = tw_heights_chamber (heights, 0)->highest_mm - tw_heights_chamber (heights, 1)->highest_mm;
    g_assert_true (tw_heights_chamber (heights, 0)->is_high && tw_heights_chamber (heights, 1)->is_high);
  }
  g_assert_cmpfloat (higher_mm[0] * higher_mm[1], <, 0.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (samples); i++) {
    g_autofree char *path = g_strconcat ("/layout/samples/", samples[i].file, NULL);

    g_test_add_data_func (path, &samples[i], test_sample);
  }
  g_test_add_func ("/layout/samples/a tube lower", test_a_tube_lower);
  g_test_add_func ("/layout/samples/tail chambers", test_tail_chambers);
  g_test_add_func ("/layout/samples/boot hoses", test_boot_hoses);
  g_test_add_func ("/layout/samples/kart rolled", test_kart_rolled);
  return g_test_run ();
}
