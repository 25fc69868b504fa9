/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Header tanks, openings and exits: where they are, what they shade, what they must stay off, how high their
 * water stands. Figures are worked by hand beside each case.
 */
#include "air-parts.h"
#include "layout/clearance.h"
#include "layout/frontal.h"
#include "layout/heights.h"
#include "support/make-job.h"

#define TEN_DEG (10 * AIR_DEG)

/* A tank by its fields as the command sets them. */
static TwJob *
tank_job (const char *const *fields)
{
  TwJob *job = tw_job_new ();

  air_add (job, TW_KIND_HEADER_TANK, "tank");
  for (guint i = 0; fields[i] != NULL; i += 2)
    tw_make_set (job, "tank", fields[i], fields[i + 1]);
  return job;
}

static const TwSolidBox *
tank_bounds (const Air *air, TwSolidBox *box)
{
  guint n;
  const TwPlacedSolid *solids = tw_placement_solids (air->placement, &n);

  g_assert_cmpuint (n, ==, 1);
  g_assert_cmpint (solids[0].role, ==, TW_SOLID_HEADER_TANK);
  g_assert_cmpstr (solids[0].part.text, ==, "tank");
  g_assert_true (tw_id_is_none (solids[0].core));
  *box = tw_convex_bounds (solids[0].convex);
  return box;
}

/* The boxes round tanks with their middle at (10, 20, 30). */
static const struct {
  const char *name;
  const char *fields[12];
  double half[3]; /* of the box round it, mm */
  double volume_l;
} tanks[] = {
  /* wall 2: 96 × 56 × 36 mm³ */
  { "box", { "width_mm", "100", "height_mm", "60", "depth_mm", "40" }, { 50, 30, 20 }, 0.193536 },
  /* turned a quarter: width along −z or z, depth along x */
  { "box-turned",
    { "width_mm", "100", "height_mm", "60", "depth_mm", "40", "heading_deg", "90" },
    { 20, 30, 50 },
    0.193536 },
  /* π ÷ 4 × 76² × 196 mm³ */
  { "upright",
    { "form", "upright", "diameter_mm", "80", "length_mm", "200" },
    { 40, 100, 40 },
    G_PI / 4 * 76 * 76 * 196 / 1e6 },
  { "level", { "form", "level", "diameter_mm", "80", "length_mm", "200" }, { 100, 40, 40 }, NAN },
  { "level-turned",
    { "form", "level", "diameter_mm", "80", "length_mm", "200", "heading_deg", "90" },
    { 40, 40, 100 },
    NAN },
  /* what is said is not worked out */
  { "volume-said",
    { "width_mm", "100", "height_mm", "60", "depth_mm", "40", "volume_l", "3" },
    { 50, 30, 20 },
    3 },
};

static void
test_tank (gconstpointer data)
{
  guint nth = GPOINTER_TO_UINT (data);
  g_autoptr (TwJob) job = tank_job (tanks[nth].fields);
  const double *half = tanks[nth].half, middle[] = { 10, 20, 30 };
  static const char *const places[] = { "x_mm", "y_mm", "z_mm" };
  TwSolidBox box;
  Air air;

  for (guint i = 0; i < 3; i++)
    tw_make_set_number (job, "tank", places[i], middle[i]);
  air = air_of (job);
  tank_bounds (&air, &box);
  /* polygons of circles have the circle's area: their corners stand out by less than 1/1000 of the radius */
  assert_near (box.from.x, 10 - half[0], 1e-3 * half[0]);
  assert_near (box.from.y, 20 - half[1], 1e-3 * half[1]);
  assert_near (box.from.z, 30 - half[2], 1e-3 * half[2]);
  assert_near (box.to.x, 10 + half[0], 1e-3 * half[0]);
  assert_near (box.to.y, 20 + half[1], 1e-3 * half[1]);
  assert_near (box.to.z, 30 + half[2], 1e-3 * half[2]);
  if (!isnan (tanks[nth].volume_l))
    assert_near (TW_DRAWING_HEADER_TANK (air.drawing, 0)->volume_l, tanks[nth].volume_l, 1e-12);
  air_clear (&air);
}

/* A part without a size has no place, and says which one is missing. */
static void
test_unplaced (void)
{
  static const struct {
    TwKind kind;
    const char *field, *value, *why;
  } cases[] = {
    { TW_KIND_HEADER_TANK, "width_mm", "100", "its width, height or depth is not known" },
    { TW_KIND_HEADER_TANK, "form", "level", "its diameter or length is not known" },
    { TW_KIND_OPENING, "width_mm", "100", "it has neither an outline nor a width and height" },
    { TW_KIND_EXIT, "height_mm", "100", "it has neither an outline nor a width and height" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (TwJob) job = tw_job_new ();
    const TwUnplaced *unplaced;
    guint n;
    Air air;

    air_add (job, cases[i].kind, "part");
    tw_make_set (job, "part", cases[i].field, cases[i].value);
    air = air_of (job);
    unplaced = tw_placement_unplaced (air.placement, &n);
    g_assert_cmpuint (n, ==, 1);
    g_assert_cmpstr (unplaced[0].why, ==, cases[i].why);
    tw_placement_solids (air.placement, &n);
    g_assert_cmpuint (n, ==, 0);
    air_clear (&air);
  }
}

/* ---- openings ---- */

/* A rectangle of 60 × 20 with its middle at across 100, up 200, at 300 along the third axis. */
static const struct {
  const char *plane, *way;
  TwVec middle, air;
} planes[] = {
  { "front", "along", { 100, 200, 300 }, { 0, 0, 1 } },
  { "front", "against", { 100, 200, 300 }, { 0, 0, -1 } },
  { "side", "along", { 300, 200, 100 }, { 1, 0, 0 } },
  { "side", "", { 300, 200, 100 }, { 1, 0, 0 } },
  { "plan", "against", { 100, 300, 200 }, { 0, -1, 0 } },
};

static void
test_opening_planes (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (planes); i++)
    for (TwKind kind = TW_KIND_OPENING; kind <= TW_KIND_EXIT; kind++) {
      g_autoptr (TwJob) job = tw_job_new ();
      const TwPlacedOpening *placed;
      TwId id
          = tw_make_opening (job, kind, -1, (const double[]){ 100, 200, 300 }, (const double[]){ 60, 20 });
      guint n;
      Air air;

      tw_make_set (job, id.text, "plane", planes[i].plane);
      tw_make_set (job, id.text, "way", planes[i].way);
      air = air_of (job);
      placed = tw_placement_openings (air.placement, &n);
      g_assert_cmpuint (n, ==, 1);
      g_assert_true (placed == tw_placement_opening (air.placement, id));
      g_assert_cmpint (placed->is_exit, ==, kind == TW_KIND_EXIT);
      assert_near (placed->area_mm2, 1200, 1e-9);
      /* the middle line of the rectangle holds the places that are farthest from its edges */
      g_assert_cmpfloat (tw_vec_distance_mm (placed->middle, planes[i].middle), <=, 20 + 1e-6);
      assert_near (tw_vec_distance_mm (placed->way, planes[i].air), 0, 1e-12);
      tw_placement_solids (air.placement, &n);
      g_assert_cmpuint (n, ==, 0);
      air_clear (&air);
    }
}

static void
add_corner (TwOpening *opening, double across_mm, double up_mm, double bow_mm)
{
  TwOutlineCorner *corner
      = (TwOutlineCorner *)tw_part_new (TW_KIND_CORNER, air_id (opening->outline->len == 0   ? "a"
                                                                : opening->outline->len == 1 ? "b"
                                                                                             : "c"));

  corner->across_mm = across_mm;
  corner->up_mm = up_mm;
  corner->bow_mm = bow_mm;
  g_ptr_array_add (opening->outline, corner);
}

/* An outline is meant, whatever width and height say: a circle of r 50 has π · 50² mm². */
static void
test_opening_outline (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwOpening *opening = air_add (job, TW_KIND_OPENING, "round");
  const TwPlacedOpening *placed;
  Air air;

  add_corner (opening, -50, 0, 50);
  add_corner (opening, 50, 0, 50);
  opening->width_mm = opening->height_mm = 10;
  air = air_of (job);
  placed = tw_placement_opening (air.placement, air_id ("round"));
  /* arcs are flattened to a given rise */
  assert_near (placed->area_mm2, G_PI * 50 * 50, 0.005 * 50 * 50);
  assert_near (tw_vec_length_mm (placed->middle), 0, 1);
  air_clear (&air);
}

/* Neither solid nor shadow: a core with an opening and an exit round it has the same panels as without. */
static void
test_openings_shade_nothing (void)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 10);
  const TwFaceShade *face;
  TwFrontal *frontal;
  Air air;

  tw_make_opening (job, TW_KIND_OPENING, TW_DRAWN_FRONT, (const double[]){ 0, 0, -100 },
                   (const double[]){ 100, 50 });
  tw_make_opening (job, TW_KIND_EXIT, TW_DRAWN_FRONT, (const double[]){ 0, 0, 200 },
                   (const double[]){ 100, 50 });
  air = air_of (job);
  frontal = tw_frontal_find (air.placement, air.geos, NULL, 0);
  face = tw_frontal_face (frontal, air_id ("core-1"));
  g_assert_cmpuint (face->n_shades, ==, 0);
  assert_near (face->free_mm2, face->face_mm2, 1e-9);
  tw_frontal_unref (frontal);
  air_clear (&air);
}

/* ---- shadows and clearance ---- */

/* A box of 100 × 50 × 30: its front lies at z − 15. Ten level tubes have a face of 400 × 100. */
static const struct {
  const char *name;
  double middle[3]; /* mm */
  double shadow_mm2, distance_mm;
} shades[] = {
  { "before", { 0, 0, -100 }, 5000, 85 },
  { "half-beside", { 200, 0, -100 }, 2500, 85 },
  { "beside", { 300, 0, -100 }, 0, 0 },
  { "behind", { 0, 0, 200 }, 0, 0 },
};

static void
test_shadows (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (shades); i++) {
    g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 10);
    const TwFaceShade *face;
    TwFrontal *frontal;
    Air air;

    g_test_message ("%s", shades[i].name);
    tw_make_header_tank (job, shades[i].middle, (const double[]){ 100, 50, 30 });
    air = air_of (job);
    frontal = tw_frontal_find (air.placement, air.geos, NULL, 0);
    face = tw_frontal_face (frontal, air_id ("core-1"));
    g_assert_cmpuint (face->n_shades, ==, shades[i].shadow_mm2 > 0 ? 1 : 0);
    assert_near (face->face_mm2 - face->free_mm2, shades[i].shadow_mm2, 1e-6);
    if (face->n_shades > 0)
      assert_near (face->shades[0].distance_mm, shades[i].distance_mm, 1e-9);
    tw_frontal_unref (frontal);
    air_clear (&air);
  }
}

/* A bay of x −300…300, y −300…300, z −300…300 and a bar of structure at x 100…120, clearance 10 each; the
 * tank is 40 × 40 × 40. */
static const struct {
  const char *name;
  double x_mm;
  double to_bar_mm;    /* below 0: so deep in it */
  gboolean bay_counts; /* else it stands elsewhere */
  double to_bay_mm;    /* below 0: so far through the wall */
} gaps[] = {
  { "between", 0, 80, TRUE, 280 },       /* 100 − 20; to the walls across and up 300 − 20 */
  { "in the bar", 90, -10, TRUE, 190 },  /* its side at 110; the right wall is at 300, its side at 110 */
  { "at the wall", 270, 130, TRUE, 10 }, /* 250 − 120; 300 − 290 */
  { "through it", 290, 150, TRUE, -10 }, /* 270 − 120; 310 − 300 */
  { "outside", 400, 260, FALSE, 0 },     /* 380 − 120; it stands outside */
};

static const TwClearancePair *
pair_with (const TwClearance *clearance, gboolean bay)
{
  guint n;
  const TwClearancePair *pairs = tw_clearance_pairs (clearance, &n);

  for (guint i = 0; i < n; i++)
    if (pairs[i].is_bay == bay)
      return &pairs[i];
  return NULL;
}

static double
free_mm (const TwClearancePair *pair)
{
  return pair->crosses ? -pair->depth_mm : pair->distance_mm;
}

static void
test_clearance (void)
{
  const TwMakeBox bay = { -300, -300, -300, 300, 300, 300 }, bar = { 100, -300, -300, 120, 300, 300 };

  for (guint i = 0; i < G_N_ELEMENTS (gaps); i++) {
    g_autoptr (TwJob) job = tw_job_new ();
    const TwClearancePair *to_bay;
    TwClearance *clearance;
    Air air;

    g_test_message ("%s", gaps[i].name);
    tw_make_box (job, TW_DRAWN_FRONT, -1, &bay);
    tw_make_box (job, TW_DRAWN_FRONT, TW_TAKEN_STRUCTURE, &bar);
    tw_make_header_tank (job, (const double[]){ gaps[i].x_mm, 0, 0 }, (const double[]){ 40, 40, 40 });
    air = air_of (job);
    clearance = tw_clearance_find (air.placement, air.geos, NULL, 0);
    assert_near (free_mm (pair_with (clearance, FALSE)), gaps[i].to_bar_mm, 1e-9);
    to_bay = pair_with (clearance, TRUE);
    g_assert_cmpint (to_bay != NULL, ==, gaps[i].bay_counts);
    if (to_bay != NULL)
      assert_near (free_mm (to_bay), gaps[i].to_bay_mm, 1e-9);
    tw_clearance_unref (clearance);
    air_clear (&air);
  }
}

/* ---- heights ---- */

/* Middle at y 100, inside 2 less all round; leaned by 10° the nose goes up, and with it what lies towards −z.
 */
static const struct {
  const char *name;
  const char *fields[12];
  double nose_up_rad;
  double high, cold; /* over the middle of a tank at the job's zero, mm */
} levels[] = {
  /* inside 96 × 56 × 36; a quarter full: 14 over the bottom at −28 */
  { "box", { "width_mm", "100", "height_mm", "60", "depth_mm", "40", "cold_share", "25 %" }, 0, 28, -14 },
  { "box-nose-up",
    { "width_mm", "100", "height_mm", "60", "depth_mm", "40", "cold_share", "25 %" },
    TEN_DEG,
    30.701, /* 28 cos 10° + 18 sin 10° = 27.5746 + 3.1257 */
    -13.787 /* −14 cos 10° */ },
  /* inside r 38, 98 either way along the axis */
  { "upright-nose-up",
    { "form", "upright", "diameter_mm", "80", "length_mm", "200", "cold_share", "50 %" },
    TEN_DEG,
    103.110, /* 98 cos 10° + 38 sin 10° = 96.5112 + 6.5986 */
    0 },
  { "level-nose-up",
    { "form", "level", "diameter_mm", "80", "length_mm", "200", "cold_share", "50 %" },
    TEN_DEG,
    38, /* its axis lies across: the round stays as it is */
    0 },
  /* axis along z: 98 sin 10° + 38 cos 10° = 17.0175 + 37.4227 */
  { "level-along",
    { "form", "level", "diameter_mm", "80", "length_mm", "200", "heading_deg", "90", "cold_share", "50 %" },
    TEN_DEG,
    54.440,
    0 },
};

static void
test_heights (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (levels); i++) {
    g_autoptr (TwJob) job = tank_job (levels[i].fields);
    TwAttitude attitude = { .nose_up_rad = levels[i].nose_up_rad };
    const TwTankHeight *height;
    TwHeights *heights;
    TwTubes *tubes;
    TwPasses *passes;
    TwVec up;
    Air air;

    g_test_message ("%s", levels[i].name);
    air = air_of (job);
    tubes = tw_tubes_find (air.placement);
    passes = tw_passes_find (air.placement, tubes);
    heights = tw_heights_find (air.placement, passes, attitude);
    g_assert_cmpuint (tw_heights_n_tanks (heights), ==, 1);
    g_assert_null (tw_heights_tank (heights, 1));
    height = tw_heights_tank (heights, 0);
    up = tw_attitude_up (air.drawing, attitude);
    assert_near (height->highest_mm, levels[i].high, 1e-3);
    assert_near (height->lowest_mm, -levels[i].high, 1e-3);
    assert_near (height->cold_mm, levels[i].cold, 1e-3);
    assert_near (tw_vec_dot (height->highest_at, up), height->highest_mm, 1e-9);
    tw_heights_unref (heights);
    tw_passes_unref (passes);
    tw_tubes_unref (tubes);
    air_clear (&air);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tanks); i++) {
    g_autofree char *path = g_strdup_printf ("/layout/around/tank-%s", tanks[i].name);

    g_test_add_data_func (path, GUINT_TO_POINTER (i), test_tank);
  }
  g_test_add_func ("/layout/around/unplaced", test_unplaced);
  g_test_add_func ("/layout/around/opening-planes", test_opening_planes);
  g_test_add_func ("/layout/around/opening-outline", test_opening_outline);
  g_test_add_func ("/layout/around/openings-shade-nothing", test_openings_shade_nothing);
  g_test_add_func ("/layout/around/shadows", test_shadows);
  g_test_add_func ("/layout/around/clearance", test_clearance);
  g_test_add_func ("/layout/around/heights", test_heights);
  return g_test_run ();
}
