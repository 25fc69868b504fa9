/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How high chambers and ports stand, and where air stays in: worked by hand from the makers' sizes (tanks of
 * wall 2 and depth 50, header plates 2 thick, tubes of 2 by 40 with wall 0.3 every 10, 400 long).
 */
#include "layout/drawn.h"
#include "layout/heights.h"

#include <math.h>

typedef struct {
  Found found;
  TwHeights *heights;
} Stood;

static Stood
stand (const TwJob *job, double nose_up_deg, double right_down_deg)
{
  Stood stood = { .found = find (job) };
  TwAttitude attitude = { nose_up_deg * G_PI / 180.0, right_down_deg * G_PI / 180.0 };

  stood.heights = tw_heights_find (stood.found.placement, stood.found.passes, attitude);
  return stood;
}

static void
stood_clear (Stood *self)
{
  tw_heights_unref (self->heights);
  found_clear (&self->found);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Stood, stood_clear)

/* Which chambers are high, low: H, L, * both, . neither, in the order of the passes' chambers; lower case
 * once they have a bleed or drain. */
static char *
spell_ends (const TwHeights *heights)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < tw_heights_n_chambers (heights); i++) {
    const TwChamberHeight *chamber = tw_heights_chamber (heights, i);

    g_string_append_printf (text, "%s%s%s", i > 0 ? " " : "",
                            !chamber->is_high    ? ""
                            : chamber->has_bleed ? "h"
                                                 : "H",
                            !chamber->is_low     ? ""
                            : chamber->has_drain ? "l"
                                                 : "L");
    if (!chamber->is_high && !chamber->is_low)
      g_string_append_c (text, '.');
  }
  return g_string_free (text, FALSE);
}

typedef struct {
  const char *name;
  const char *drawn;
  double nose_up_deg, right_down_deg;
  const char *ends;
} Case;

/* Chambers stand left (top) before right (bottom), from the top (left). The nose points against the air, so
 * that the vehicle's right is the left of the view. */
static const Case cases[] = {
  { "one pass across: both tanks", "L20", 0, 0, "HL HL" },
  { "one pass down: the top one, the bottom one", "U20", 0, 0, "H L" },
  { "across, two passes", "L20 b1:10", 0, 0, "H L HL" },
  { "across, three passes", "L34 b1:12 b2:23", 0, 0, "H L H L" },
  { "kart: baffle in the top tank", "U26 b1:13", 0, 0, "H H L" },
  { "baffle in the bottom tank", "U26 b2:13", 0, 0, "H L L" },
  { "kart rolled with its right down", "U26 b1:13", 0, 8, "H H L" },
  { "across, the right tank lifted", "L20", 0, 8, "L H" },
  { "across, the left tank lifted", "L20", 0, -8, "H L" },
  { "across, nose up changes nothing", "L20 b1:10", 8, 0, "H L HL" },
  { "split side", "L20 s1:10", 0, 0, "H L HL" },
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TwJob) job = draw (c->drawn);
  g_auto (Stood) stood = stand (job, c->nose_up_deg, c->right_down_deg);
  g_autofree char *ends = spell_ends (stood.heights);

  g_assert_cmpstr (ends, ==, c->ends);
}

static void
expect_heights (const Stood *stood, guint chamber, double lowest_mm, double highest_mm)
{
  const TwChamberHeight *height = tw_heights_chamber (stood->heights, chamber);

  g_assert_cmpfloat_with_epsilon (height->lowest_mm, lowest_mm, 1e-9);
  g_assert_cmpfloat_with_epsilon (height->highest_mm, highest_mm, 1e-9);
}

/* 20 tubes, ten above a baffle of 2: tanks from −105 to 105, inside ±103, at y 500. The pocket under the
 * baffle: 499 − (495 + 0.7). */
static void
test_level (void)
{
  g_autoptr (TwJob) job = draw ("L20 b1:10");
  Stood stood;

  tw_make_set_number (job, "core-1", "y_mm", 500.0);
  stood = stand (job, 0.0, 0.0);
  expect_heights (&stood, 0, 501.0, 603.0);
  expect_heights (&stood, 1, 397.0, 499.0);
  expect_heights (&stood, 2, 397.0, 603.0);
  g_assert_cmpfloat_with_epsilon (tw_heights_chamber (stood.heights, 1)->pocket_mm, 3.3, 1e-9);
  g_assert_true (isnan (tw_heights_chamber (stood.heights, 0)->pocket_mm));
  g_assert_cmpfloat_with_epsilon (tw_heights_chamber (stood.heights, 0)->pool_mm, 3.3, 1e-9);
  stood_clear (&stood);
}

/* Leaned 90° (top downstream) the tanks' width stands upright: 54 about the middle of the core's 42, and what
 * was w points down: inside 21 ± 25 below the face. Leaned 40° about the middle of the face, the upper inside
 * edge (v 103, w −4) stands at 103·cos 40° − (−4)·sin 40°. */
static void
test_leaned (void)
{
  g_autoptr (TwJob) job = draw ("L20");
  Stood stood;

  tw_make_set_number (job, "core-1", "lean_deg", 90.0);
  stood = stand (job, 0.0, 0.0);
  expect_heights (&stood, 0, -46.0, 4.0);
  stood_clear (&stood);
  tw_make_set_number (job, "core-1", "lean_deg", 40.0);
  stood = stand (job, 0.0, 0.0);
  g_assert_cmpfloat_with_epsilon (tw_heights_chamber (stood.heights, 0)->highest_mm,
                                  103.0 * cos (40.0 * G_PI / 180.0) + 4.0 * sin (40.0 * G_PI / 180.0), 1e-9);
  stood_clear (&stood);
}

/* Job 3: face 268 by 200 in the middle of which x −16, y 220; top tank x −156…124, y 322…362, z −4…36,
 * wall 1.6, baffle at x −16. Level, both upper chambers reach 360.4. Rolled 8° right down (the view's left):
 * the inside corner at x 122.4 stands 360.4·cos 8° + 122.4·sin 8° high, the baffle's other side at x −16.8
 * lower. */
static TwJob *
kart (void)
{
  TwJob *job = draw ("U26 b1:13");
  static const struct {
    const char *part, *field;
    double value;
  } sizes[] = {
    { "core-1", "x_mm", -16.0 },          { "core-1", "y_mm", 220.0 },
    { "core-1", "face_width_mm", 268.0 }, { "core-1", "face_height_mm", 200 },
    { "core-1", "thickness_mm", 32 },     { "core-1", "first_tube_mm", 9.0 },
    { "core-1", "tube_width_mm", 30.0 },  { "core-1", "row_pitch_mm", 32 },
    { "core-1", "header_reach_mm", 6.0 }, { "core-1", "header_width_mm", 40 },
    { "tank-1", "start_mm", -140.0 },     { "tank-1", "end_mm", 140.0 },
    { "tank-1", "width_mm", 40.0 },       { "tank-1", "depth_mm", 40.0 },
    { "tank-1", "wall_mm", 1.6 },         { "tank-2", "start_mm", -140.0 },
    { "tank-2", "end_mm", 140.0 },        { "tank-2", "width_mm", 40.0 },
    { "tank-2", "depth_mm", 35.0 },       { "tank-2", "wall_mm", 1.6 },
    { "baffle-1", "place_mm", 0.0 },      { "baffle-1", "thickness_mm", 1.6 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    tw_make_set_number (job, sizes[i].part, sizes[i].field, sizes[i].value);
  return job;
}

static void
test_kart (void)
{
  g_autoptr (TwJob) job = kart ();
  g_auto (Stood) level = stand (job, 0.0, 0.0);
  g_auto (Stood) right_down = stand (job, 0.0, 8.0);
  g_auto (Stood) left_down = stand (job, 0.0, -8.0);
  double c = cos (8.0 * G_PI / 180.0), s = sin (8.0 * G_PI / 180.0);

  g_assert_cmpfloat_with_epsilon (tw_heights_chamber (level.heights, 0)->highest_mm, 360.4, 1e-9);
  g_assert_cmpfloat_with_epsilon (tw_heights_chamber (level.heights, 1)->highest_mm, 360.4, 1e-9);
  g_assert_cmpfloat_with_epsilon (tw_heights_chamber (level.heights, 2)->lowest_mm, 84.6, 1e-9);
  g_assert_cmpfloat_with_epsilon (tw_heights_chamber (right_down.heights, 0)->highest_mm,
                                  360.4 * c + -16.8 * s, 1e-9);
  g_assert_cmpfloat_with_epsilon (tw_heights_chamber (right_down.heights, 1)->highest_mm,
                                  360.4 * c + 122.4 * s, 1e-9);
  g_assert_cmpfloat (tw_heights_chamber (left_down.heights, 0)->highest_mm, >,
                     tw_heights_chamber (left_down.heights, 1)->highest_mm);
}

/* Attitudes by hand: nose against the air (−z): nose up turns up towards −z; right down, the right being −x,
 * turns up towards +x. With the nose along the air all of it turns round. */
static void
test_attitude (void)
{
  g_autoptr (TwJob) job = draw ("L5");
  g_auto (Stood) stood = stand (job, 0.0, 0.0);
  TwAttitude nose = { G_PI / 6.0, 0.0 }, roll = { 0.0, G_PI / 6.0 };
  double half = 0.5, most = sqrt (3.0) / 2.0;
  Stood turned;

  g_assert_cmpfloat (
      tw_vec_distance_mm (tw_attitude_up (stood.found.drawing, nose), tw_vec (0.0, most, -half)), <, 1e-12);
  g_assert_cmpfloat (
      tw_vec_distance_mm (tw_attitude_up (stood.found.drawing, roll), tw_vec (half, most, 0.0)), <, 1e-12);
  tw_make_set_number (job, "job", "nose_heading_deg", 180.0);
  turned = stand (job, 0.0, 0.0);
  g_assert_cmpfloat (
      tw_vec_distance_mm (tw_attitude_up (turned.found.drawing, nose), tw_vec (0.0, most, half)), <, 1e-12);
  g_assert_cmpfloat (
      tw_vec_distance_mm (tw_attitude_up (turned.found.drawing, roll), tw_vec (-half, most, 0.0)), <, 1e-12);
  stood_clear (&turned);
}

/* A bleed in the back 20 under the upper inside edge leaves 20 of air; one on the end none; a filler counts.
 * One drain serves both tanks: of the other what lies under the lowest mouth stays, −95 − 0.7 over −103. */
static void
test_taps (void)
{
  g_autoptr (TwJob) job = draw ("L20 x1:1 x2:1 x1:20");
  Stood stood;

  tw_make_set (job, "port-1", "use", "bleed");
  tw_make_set_number (job, "port-1", "along_mm", 83.0);
  tw_make_set (job, "port-2", "use", "filler");
  tw_make_set (job, "port-2", "wall", "end");
  tw_make_set (job, "port-3", "use", "drain");
  tw_make_set (job, "port-3", "wall", "start");
  stood = stand (job, 0.0, 0.0);
  {
    g_autofree char *ends = spell_ends (stood.heights);

    g_assert_cmpstr (ends, ==, "hl h");
  }
  g_assert_cmpfloat_with_epsilon (tw_heights_chamber (stood.heights, 0)->pocket_mm, 20.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (tw_heights_chamber (stood.heights, 1)->pocket_mm, 0.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (tw_heights_chamber (stood.heights, 0)->pool_mm, 0.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (tw_heights_chamber (stood.heights, 1)->pool_mm, 7.3, 1e-9);
  for (guint i = 0; i < tw_heights_n_ports (stood.heights); i++) {
    const TwPortHeight *port = tw_heights_port (stood.heights, i);

    if (g_str_equal (port->port.text, "port-1"))
      g_assert_cmpfloat_with_epsilon (port->height_mm, 83.0, 1e-9);
  }
  stood_clear (&stood);
}

/* A top tank with a half-round back, 54 wide and 50 deep: straight to 23 over the plate, then a half circle
 * of 27, 25 inside. The plate's outside stands at 202, so the crown at 250. Nose up 30° the farthest place is
 * on the arc, whose centre lies at y 225, z 21. */
static void
test_round_back (void)
{
  g_autoptr (TwJob) job = draw ("U20");
  Stood stood;

  tw_make_set (job, "tank-1", "back", "half-round");
  stood = stand (job, 0.0, 0.0);
  g_assert_cmpfloat_with_epsilon (tw_heights_chamber (stood.heights, 0)->highest_mm, 250.0, 1e-9);
  stood_clear (&stood);
  stood = stand (job, 30.0, 0.0);
  g_assert_cmpfloat_with_epsilon (tw_heights_chamber (stood.heights, 0)->highest_mm,
                                  225.0 * cos (G_PI / 6.0) - 21.0 * sin (G_PI / 6.0) + 25.0, 1e-9);
  stood_clear (&stood);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strconcat ("/layout/heights/", cases[i].name, NULL);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  g_test_add_func ("/layout/heights/level", test_level);
  g_test_add_func ("/layout/heights/leaned", test_leaned);
  g_test_add_func ("/layout/heights/kart", test_kart);
  g_test_add_func ("/layout/heights/attitude", test_attitude);
  g_test_add_func ("/layout/heights/taps", test_taps);
  g_test_add_func ("/layout/heights/round back", test_round_back);
  return g_test_run ();
}
