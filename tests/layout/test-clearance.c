/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Clearances by hand. The core of the cases has a block of 540 × 348 × 42 whose centre is at (0, 170, 0); its
 * tanks are 360 high and 54 wide, 50 deep on header plates of 2: upright, the left one fills x −322…−272,
 * y −10…350, z −27…27.
 */
#include "job/read.h"
#include "layout/clearance.h"

#include <math.h>

#define assert_near(a, b, by) g_assert_cmpfloat_with_epsilon (a, b, by)

/* A box of a volume in the front plane. */
#define BOX(id, use, x0, y0, x1, y1, z0, z1)                                                                 \
  "{\"id\":\"" id "\",\"plane\":\"front\"," use ",\"from_mm\":" #z0 ",\"to_mm\":" #z1 ","                    \
  "\"outline\":[{\"id\":\"" id "-1\",\"across_mm\":" #x0 ",\"up_mm\":" #y0 "},"                              \
  "{\"id\":\"" id "-2\",\"across_mm\":" #x1 ",\"up_mm\":" #y0 "},"                                           \
  "{\"id\":\"" id "-3\",\"across_mm\":" #x1 ",\"up_mm\":" #y1 "},"                                           \
  "{\"id\":\"" id "-4\",\"across_mm\":" #x0 ",\"up_mm\":" #y1 "}]}"
#define FREE "\"use\":\"free\""
#define TAKEN "\"use\":\"taken\",\"clearance_mm\":30"
#define HOT "\"use\":\"taken\",\"kind\":\"hot\""
#define CEILING_340 BOX ("bay", FREE, -400, 0, 400, 340, -400, 400)
#define ROOMY BOX ("bay", FREE, -2000, -2000, 2000, 2000, -2000, 2000)

/* An L: 50 wide, standing 28 left of the tank, its foot reaching under it to 40 below. */
#define CONCAVE                                                                                              \
  "{\"id\":\"ell\",\"plane\":\"front\"," TAKEN ",\"from_mm\":-100,\"to_mm\":100,\"outline\":["               \
  "{\"id\":\"c1\",\"across_mm\":-400,\"up_mm\":-100},{\"id\":\"c2\",\"across_mm\":0,\"up_mm\":-100},"        \
  "{\"id\":\"c3\",\"across_mm\":0,\"up_mm\":-50},{\"id\":\"c4\",\"across_mm\":-350,\"up_mm\":-50},"          \
  "{\"id\":\"c5\",\"across_mm\":-350,\"up_mm\":300},{\"id\":\"c6\",\"across_mm\":-400,\"up_mm\":300}]}"

/* A round bar of r 20 along x, 100 upstream of the middle of the block. */
#define BAR                                                                                                  \
  "{\"id\":\"bar\",\"plane\":\"side\"," TAKEN ",\"from_mm\":-900,\"to_mm\":900,\"outline\":["                \
  "{\"id\":\"b1\",\"across_mm\":-100,\"up_mm\":150,\"bow_mm\":20},"                                          \
  "{\"id\":\"b2\",\"across_mm\":-100,\"up_mm\":190,\"bow_mm\":20}]}"

typedef struct {
  const char *name;
  double lean_deg;
  const char *volumes;
  const char *part; /* of the pair that is looked at */
  const char *other;
  double distance_mm;
  double depth_mm; /* above 0: it crosses, or is outside */
  gboolean is_outside;
  double over_mm;
  TwClearanceFlags flags;
} Case;

static const Case cases[] = {
  /* clang-format off */
  /* Under a ceiling of 340 with 10 all round: upright it is too tall by 360 + 20 − 340 = 40, 20 at each end;
   * leaned by a it takes 360·cos a + 54·sin a, and half of what is left to 340 is clear at each end. */
  { "upright-under-340", 0, CEILING_340, "left-tank", "bay", 0, 10, FALSE, -20, 0 },
  { "30-under-340", 30, CEILING_340, "left-tank", "bay", 0.6154273, 0, FALSE, -9.3845727, 0 },
  { "40-under-340", 40, CEILING_340, "left-tank", "bay", 14.7567344, 0, FALSE, 4.7567344, 0 },
  /* 350 − 322, and its own clearance of 30 */
  { "beside", 0, BOX ("box", TAKEN, -400, 0, -350, 100, -10, 10), "left-tank", "box", 28, 0, FALSE, -2, TW_CLEARANCE_NO_BAY },
  /* hot volumes keep 50 unless they say otherwise */
  { "hot", 0, BOX ("box", HOT, -400, 0, -350, 100, -10, 10), "left-tank", "box", 28, 0, FALSE, -22, TW_CLEARANCE_NO_BAY },
  /* nearest corner to corner: 3, 4 and 12 off give 13 */
  { "corner", 0, BOX ("box", TAKEN, -400, 354, -325, 400, 39, 60), "left-tank", "box", 13, 0, FALSE, -17, TW_CLEARANCE_NO_BAY },
  { "crosses", 0, BOX ("box", TAKEN, -400, 0, -317, 100, -10, 10), "left-tank", "box", 0, 5, FALSE, -35, TW_CLEARANCE_NO_BAY },
  { "concave", 0, CONCAVE, "left-tank", "ell", 28, 0, FALSE, -2, TW_CLEARANCE_NO_BAY },
  /* Upstream by 100 − 21 − 20. */
  { "bar", 0, BAR, "core", "bar", 59 - 6, 0, FALSE, 23, TW_CLEARANCE_NO_BAY },
  { "roomy", 0, ROOMY, "left-tank", "bay", 1650, 0, FALSE, 1640, 0 },
  { "outside", 0, BOX ("bay", FREE, 1000, -500, 1400, 500, -400, 400), "left-tank", "bay", 1272, 1322, TRUE, -1332, 0 },
  /* Two rooms side by side are one: no wall at x = −300, where they meet inside the tank. */
  { "two-rooms", 0, BOX ("west", FREE, -900, -900, -300, 900, -400, 400) "," BOX ("bay", FREE, -300, -900, 900, 900, -400, 400),
    "left-tank", "west", 373, 0, FALSE, 363, 0 },
  /* One behind the other, the second lower: its ceiling at 340 begins at z = 100. The step stands 73 behind the
   * tank and 10 under its top. */
  { "step", 0, BOX ("bay", FREE, -900, -900, 900, 900, -400, 100) "," BOX ("low", FREE, -900, -900, 900, 340, 100, 400),
    "left-tank", "bay", 73, 0, FALSE, 63, 0 },
  { "mixed", 0, BOX ("a", FREE, -900, -900, 900, 900, -400, 400) ","
    "{\"id\":\"b\",\"plane\":\"side\"," FREE ",\"from_mm\":0,\"to_mm\":9,\"outline\":[{\"id\":\"b1\",\"across_mm\":0,\"up_mm\":0,\"bow_mm\":5},{\"id\":\"b2\",\"across_mm\":10,\"up_mm\":0,\"bow_mm\":5}]},"
    BOX ("box", TAKEN, -400, 0, -350, 100, -10, 10), "left-tank", "box", 28, 0, FALSE, -2, TW_CLEARANCE_MIXED_BAY },
  /* clang-format on */
};

static TwPlacement *
place_job (TwJob *job, TwGeos *geos)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TwCatalogue) catalogue = tw_catalogue_load (&error);
  g_autoptr (TwDrawing) drawing = NULL;

  g_assert_no_error (error);
  drawing = tw_drawing_new (job, catalogue);
  return tw_placement_new (drawing, geos);
}

static TwPlacement *
place_text (const char *text, TwGeos *geos)
{
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  g_autoptr (TwJob) job = tw_job_read_text (text, strlen (text), troubles);
  g_autoptr (GError) error = NULL;

  tw_troubles_to_error (troubles, "case", &error);
  g_assert_no_error (error);
  return place_job (job, geos);
}

/* A job with the core of the cases; @more is of further members. */
static TwPlacement *
place_case (double lean_deg, const char *volumes, const char *more, TwGeos *geos)
{
  double lean_rad = lean_deg * G_PI / 180.0;
  char lean[G_ASCII_DTOSTR_BUF_SIZE], y[G_ASCII_DTOSTR_BUF_SIZE], z[G_ASCII_DTOSTR_BUF_SIZE];
  g_autofree char *text = NULL;

  /* the middle of the face is 21 before the block's centre along w = (0, −sin, cos) */
  g_ascii_dtostr (lean, sizeof lean, lean_deg);
  g_ascii_dtostr (y, sizeof y, 170.0 + 21.0 * sin (lean_rad));
  g_ascii_dtostr (z, sizeof z, -21.0 * cos (lean_rad));
  text = g_strconcat (
      "{\"tankwright-job\":1,\"clearance_mm\":10,\"volumes\":[", volumes,
      "],\"cores\":[{\"id\":\"core\",\"x_mm\":0,\"y_mm\":", y, ",\"z_mm\":", z, ",\"lean_deg\":", lean,
      ",\"face_width_mm\":540,\"face_height_mm\":348,\"thickness_mm\":42,\"tubes\":\"level\",\"tube_count\":"
      "34,"
      "\"rows\":1,\"tube_pitch_mm\":10,\"tube_height_mm\":2,\"tube_width_mm\":40,\"tube_wall_mm\":0.3,"
      "\"header_reach_mm\":6,\"header_width_mm\":54,\"header_thickness_mm\":2}],\"tanks\":["
      "{\"id\":\"left-tank\",\"core\":\"core\",\"side\":\"left\",\"start_mm\":-180,\"end_mm\":180,"
      "\"width_mm\":54,\"depth_mm\":50,\"wall_mm\":2}]",
      more, "}", NULL);
  return place_text (text, geos);
}

static const TwClearancePair *
find_pair (const TwClearance *clearance, const char *part, const char *other)
{
  guint n;
  const TwClearancePair *pairs = tw_clearance_pairs (clearance, &n);

  for (guint i = 0; i < n; i++)
    if (g_str_equal (pairs[i].part.text, part) && g_str_equal (pairs[i].other.text, other))
      return &pairs[i];
  return NULL;
}

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwPlacement) placement = place_case (c->lean_deg, c->volumes, "", geos);
  g_autoptr (TwClearance) clearance = tw_clearance_find (placement, geos, NULL, 0);
  const TwClearancePair *pair = find_pair (clearance, c->part, c->other);

  g_assert_nonnull (pair);
  assert_near (pair->distance_mm, c->distance_mm, 1e-4);
  assert_near (pair->depth_mm, c->depth_mm, 1e-6);
  g_assert_cmpint (pair->crosses || pair->is_outside, ==, c->depth_mm > 0.0);
  g_assert_cmpint (pair->is_outside, ==, c->is_outside);
  g_assert_cmpint (pair->is_bay, ==, c->flags == 0);
  assert_near (pair->over_mm, c->over_mm, 1e-4);
  assert_near (tw_vec_distance_mm (pair->at_part, pair->at_other), c->distance_mm, 1e-4);
  g_assert_cmpint (tw_clearance_flags (clearance), ==, c->flags);
  g_assert_cmpstr (tw_clearance_odd_volume (clearance).text, ==,
                   c->flags & TW_CLEARANCE_MIXED_BAY ? "b" : "");
}

/* A hose from an engine port on the side of a box that stands for the engine: the piece on the port is joined
 * to it, the next one 12 off is not; and the bay's walls are nothing to a hose. */
static void
test_hose (void)
{
  static const char more[]
      = ",\"ports\":[{\"id\":\"inlet\",\"tank\":\"left-tank\",\"use\":\"inlet\",\"wall\":\"air-in\",\"along_"
        "mm\":0,"
        "\"stand_out_mm\":40,\"outside_mm\":32,\"bore_mm\":28}],"
        "\"engine_ports\":[{\"id\":\"supply\",\"use\":\"supply\",\"x_mm\":500,\"y_mm\":0,\"z_mm\":-500,"
        "\"leaves\":\"left\",\"stand_out_mm\":30,\"outside_mm\":32}],"
        "\"hoses\":[{\"id\":\"hose\",\"from\":\"supply\",\"to\":\"inlet\",\"bore_mm\":28,\"bend_radius_mm\":"
        "60}]";
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwPlacement) placement
      = place_case (0, CEILING_340 "," BOX ("engine", TAKEN, 500, -100, 700, 100, -700, -300), more, geos);
  g_autoptr (TwConvex) joined = tw_convex_new_cylinder (tw_vec (500, 0, -500), tw_vec (450, 0, -500), 17);
  g_autoptr (TwConvex) next = tw_convex_new_capsule (tw_vec (450, 0, -500), tw_vec (471, 90, -500), 17);
  const TwPlacedSolid hose[] = {
    { .part = { "hose" }, .role = TW_SOLID_HOSE, .convex = joined },
    { .part = { "hose" }, .role = TW_SOLID_HOSE, .convex = next },
  };
  g_autoptr (TwClearance) clearance = tw_clearance_find (placement, geos, hose, 2);
  const TwClearancePair *pair = find_pair (clearance, "hose", "engine");

  g_assert_nonnull (pair);
  assert_near (pair->distance_mm, 12, 1e-6);
  assert_near (pair->over_mm, -18, 1e-6);
  g_assert_null (find_pair (clearance, "hose", "bay"));
  g_assert_null (find_pair (clearance, "supply", "bay"));
}

/* The samples' nearest distances as the stories have them: the Merlin's fans end at 48 + 45 + 62 = 155 before
 * the bay's end at 180; the pick-up's tank corner (18.06, 21.195) in stands off the cut from (19, 21) to (13,
 * 28) in by (7·0.94 − 6·0.195)/√85 = 0.587 in; the kart's (124, 362) off that from (150, 330) to (120, 380)
 * by (50·26 − 30·32)/√3400 = 5.831. */
static void
test_samples (void)
{
  static const struct {
    const char *file, *part, *other;
    double distance_mm;
  } rows[] = {
    { "merlin-tail.twjob", "left-fan", "bay", 25.0 },
    { "caravan-4.twjob", "right-tank", "bay", 0.58678 * 25.4 },
    { "volt-9.twjob", "top-tank", "bay", 5.8310 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "samples", rows[i].file, NULL);
    g_autoptr (GError) error = NULL;
    g_autoptr (TwJob) job = tw_job_read_file (path, &error);
    g_autoptr (TwGeos) geos = tw_geos_new ();
    g_autoptr (TwPlacement) placement = NULL;
    g_autoptr (TwClearance) clearance = NULL;
    const TwClearancePair *nearest;

    g_assert_no_error (error);
    placement = place_job (job, geos);
    clearance = tw_clearance_find (placement, geos, NULL, 0);
    nearest = tw_clearance_nearest (clearance);
    g_assert_cmpint (tw_clearance_flags (clearance), ==, 0);
    g_assert_cmpstr (nearest->part.text, ==, rows[i].part);
    g_assert_cmpstr (nearest->other.text, ==, rows[i].other);
    assert_near (nearest->distance_mm, rows[i].distance_mm, 0.001);
    g_assert_null (tw_geos_trouble (geos));
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strdup_printf ("/layout/clearance/%s", cases[i].name);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  g_test_add_func ("/layout/clearance/hose", test_hose);
  g_test_add_func ("/layout/clearance/samples", test_samples);
  return g_test_run ();
}
