/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Free frontal area: rules of the definition, and areas by closed forms worked beside each case. The core is
 * 400 × 200 × 40 at the job's zero unless a case says otherwise.
 */
#include "air-parts.h"
#include "layout/frontal.h"

/* Frontal area of a job with one core that is called `core`. */
typedef struct {
  Air air;
  TwFrontal *frontal;
  const TwFaceShade *face;
} Seen;

static void
assert_adds_up (const TwFaceShade *face)
{
  double sum_mm2 = face->free_mm2 + face->shared_mm2, share = face->free_share + face->shared_share;

  for (guint i = 0; i < face->n_shades; i++) {
    sum_mm2 += face->shades[i].alone_mm2;
    share += face->shades[i].alone_share;
    g_assert_cmpfloat (face->shades[i].alone_mm2, <=, face->shades[i].shadow_mm2 * (1 + 1e-12));
    g_assert_cmpfloat (face->shades[i].distance_mm, >=, 0);
    if (i > 0)
      g_assert_cmpfloat (face->shades[i].alone_mm2, <=, face->shades[i - 1].alone_mm2);
  }
  g_assert_cmpfloat (fabs (sum_mm2 - face->face_mm2), <, 1e-9 * face->face_mm2);
  g_assert_cmpfloat (fabs (share - 1.0), <, 1e-9);
  assert_near (tw_area_mm2 (face->free), face->free_mm2, 0.0 + 1e-12);
}

static Seen
see (const TwJob *job, const TwPlacedSolid *hoses, guint n_hoses)
{
  Seen seen = { .air = air_of (job) };

  seen.frontal = tw_frontal_find (seen.air.placement, seen.air.geos, hoses, n_hoses);
  seen.face = tw_frontal_face (seen.frontal, air_id ("core"));
  g_assert_nonnull (seen.face);
  g_assert_false (seen.face->flags & TW_FRONTAL_TROUBLE);
  assert_adds_up (seen.face);
  return seen;
}

static void
seen_clear (Seen *seen)
{
  tw_frontal_unref (seen->frontal);
  air_clear (&seen->air);
}

static const TwShade *
shade_of (const Seen *seen, const char *part)
{
  for (guint i = 0; i < seen->face->n_shades; i++)
    if (g_str_equal (seen->face->shades[i].part.text, part))
      return &seen->face->shades[i];
  return NULL;
}

/* Free room over everything that the cases draw. */
static void
add_bay (TwJob *job)
{
  air_rectangle (air_volume (job, "bay", -1, TW_DRAWN_FRONT, -500, 500), -500, -500, 500, 500);
}

/* ---- which parts count ---- */

typedef struct {
  const char *name;
  int kind;
  double from_mm, to_mm; /* of a 100 × 50 plate before or behind the face */
  double alone_mm2, distance_mm;
} Rule;

static const Rule rules[] = {
  /* clang-format off */
  { "structure", TW_TAKEN_STRUCTURE, -30, -20, 5000, 20 },
  { "hot", TW_TAKEN_HOT, -30, -20, 5000, 20 },
  { "moving", TW_TAKEN_MOVING, -30, -20, 5000, 20 },
  { "service", TW_TAKEN_SERVICE, -30, -20, 0, 0 },
  { "occupied", TW_TAKEN_OCCUPIED, -30, -20, 0, 0 },
  { "other", TW_TAKEN_OTHER, -30, -20, 0, 0 },
  { "behind", TW_TAKEN_STRUCTURE, 60, 80, 0, 0 },
  { "through-the-face", TW_TAKEN_STRUCTURE, -30, 80, 5000, 0 },
  { "on-the-face", TW_TAKEN_STRUCTURE, -30, 0, 5000, 0 },
  { "far-upstream", TW_TAKEN_STRUCTURE, -480, -470, 5000, 470 },
  { "half-in-the-bay", TW_TAKEN_STRUCTURE, -900, -480, 5000, 480 },
  { "outside-the-bay", TW_TAKEN_STRUCTURE, -900, -500, 0, 0 },
  /* clang-format on */
};

static void
test_rule (gconstpointer data)
{
  const Rule *c = data;
  g_autoptr (TwJob) job = tw_job_new ();
  const TwShade *shade;
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  add_bay (job);
  air_rectangle (air_volume (job, "plate", c->kind, TW_DRAWN_FRONT, c->from_mm, c->to_mm), 10, 10, 110, 60);
  seen = see (job, NULL, 0);
  shade = shade_of (&seen, "plate");
  g_assert_cmpuint (seen.face->flags, ==, 0);
  assert_near (seen.face->free_mm2, 80000 - c->alone_mm2, 1e-6);
  if (c->alone_mm2 > 0.0) {
    assert_near (shade->alone_mm2, c->alone_mm2, 1e-6);
    assert_near (shade->distance_mm, c->distance_mm, 1e-9);
  } else {
    g_assert_null (shade);
  }
  seen_clear (&seen);
}

static void
test_no_bay (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  air_rectangle (air_volume (job, "plate", TW_TAKEN_HOT, TW_DRAWN_FRONT, -5000, -4000), 0, 0, 100, 50);
  seen = see (job, NULL, 0);
  g_assert_cmpuint (seen.face->flags, ==, TW_FRONTAL_NO_BAY);
  assert_near (seen.face->free_mm2, 75000, 1e-6);
  assert_near (shade_of (&seen, "plate")->distance_mm, 4000, 1e-9);
  seen_clear (&seen);
}

/* The core's own tanks and headers shade nothing, even where a lean brings them before the face; a port on
 * them does: 40 long, 32 wide, upwards from a tank leaned by 90° its whole side is seen. */
static void
test_own_parts (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwCore *core = air_core (job, "core", 400, 200, 40);
  Seen seen;

  core->tubes = TW_TUBES_UPRIGHT;
  core->lean_deg = 40;
  add_bay (job);
  air_tank (job, "top", "core", TW_SIDE_TOP, 50)->width_mm = 120;
  air_tank (job, "bottom", "core", TW_SIDE_BOTTOM, 50)->width_mm = 120;
  seen = see (job, NULL, 0);
  g_assert_cmpuint (seen.face->n_shades, ==, 0);
  assert_near (seen.face->free_mm2, 80000, 1e-6);
  assert_near (seen.face->projected_mm2, 80000 * cos (40 * AIR_DEG), 1e-6);
  seen_clear (&seen);
}

/* A second core 300 upstream: its tank, header plate and a port on that tank count, its block, shroud and
 * fan rings are losses, its fan's hub counts. */
static void
test_other_core (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwCore *other;
  TwFan *fan;
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  other = air_core (job, "other", 100, 200, 40);
  other->z_mm = -300;
  other->header_reach_mm = 0;
  add_bay (job);
  air_tank (job, "tank", "other", TW_SIDE_RIGHT, 30);
  fan = air_fan (job, "fan", 0, 0, 90, 40);
  fan->core = air_id ("other");
  fan->stand_off_mm = 10;
  seen = see (job, NULL, 0);
  g_assert_cmpuint (seen.face->n_shades, ==, 3);
  assert_near (shade_of (&seen, "tank")->alone_mm2, 30 * 200, 1e-6);
  assert_near (shade_of (&seen, "other")->alone_mm2, 2 * 2 * 200, 1e-6);
  assert_near (shade_of (&seen, "fan")->alone_mm2, G_PI * 400, 1e-6);
  /* the other core's thickness 40, the fan 10 behind it, 60 deep: its back at −190 */
  assert_near (shade_of (&seen, "fan")->distance_mm, 190, 1e-9);
  seen_clear (&seen);
}

/* A pusher's hub; the fan behind shades nothing. */
static void
test_pusher (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwFan *fan;
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  add_bay (job);
  air_fan (job, "puller", -80, 0, 150, 60);
  fan = air_fan (job, "pusher", 80, 0, 150, 60);
  fan->blows = TW_BLOWS_PUSH;
  fan->stand_off_mm = 25;
  seen = see (job, NULL, 0);
  g_assert_cmpuint (seen.face->n_shades, ==, 1);
  assert_near (shade_of (&seen, "pusher")->alone_mm2, G_PI * 900, 1e-6);
  assert_near (shade_of (&seen, "pusher")->distance_mm, 25, 1e-9);
  seen_clear (&seen);
}

/* A free port counts; one under a hose is the hose's. */
static void
test_port_under_hose (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwCore *core = air_core (job, "core", 400, 200, 40);
  TwHose *hose;
  TwPort *port;
  TwPlacedSolid solid = { .part = air_id ("hose"), .role = TW_SOLID_HOSE };
  Seen seen;

  core->header_reach_mm = 0;
  add_bay (job);
  air_tank (job, "tank", "core", TW_SIDE_LEFT, 50);
  port = air_port (job, "port", "tank", TW_WALL_BACK);
  port->wall = TW_WALL_AIR_IN;
  port->leaves = TW_LEAVES_RIGHT;
  port->stand_out_mm = 100;
  hose = air_add (job, TW_KIND_HOSE, "hose");
  hose->from = air_id ("port");
  hose->to = air_id ("port");
  seen = see (job, NULL, 0);
  /* from the middle of the tank at x −227 it reaches to −127: 73 over the face; half of it, cut by the face's
   * plane at w 0, lies before the wall's −5: all but the cap of 11 of its radius 16 is upstream */
  assert_near (shade_of (&seen, "port")->alone_mm2, 73 * 32, 0.15);
  seen_clear (&seen);

  solid.convex = tw_convex_new_cylinder (tw_vec (-227, 0, -5), tw_vec (-127, 0, -5), 20);
  seen = see (job, &solid, 1);
  g_assert_null (shade_of (&seen, "port"));
  assert_near (shade_of (&seen, "hose")->alone_mm2, 73 * 40, 0.01);
  tw_convex_unref (solid.convex);
  seen_clear (&seen);
}

/* ---- closed forms ---- */

static void
test_circle (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  add_bay (job);
  air_circle (air_volume (job, "bar", TW_TAKEN_STRUCTURE, TW_DRAWN_FRONT, -50, -20), 30, 20, 100);
  seen = see (job, NULL, 0);
  assert_near (shade_of (&seen, "bar")->alone_mm2, G_PI * 2500, 1e-5);
  seen_clear (&seen);
}

/* Two round bars of r 40 end-on, 60 apart, one behind the other: each alone the circle less the lens
 * 2r²·acos (d/2r) − d/2·√(4r² − d²); the lens is shared. */
static void
test_lens (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  double lens_mm2 = 3200 * acos (0.75) - 30 * sqrt (6400 - 3600);
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  add_bay (job);
  air_circle (air_volume (job, "a", TW_TAKEN_STRUCTURE, TW_DRAWN_FRONT, -50, -20), -30, 0, 80);
  air_circle (air_volume (job, "b", TW_TAKEN_HOT, TW_DRAWN_FRONT, -90, -70), 30, 0, 80);
  seen = see (job, NULL, 0);
  assert_near (seen.face->shared_mm2, lens_mm2, 0.05);
  assert_near (shade_of (&seen, "a")->alone_mm2, G_PI * 1600 - lens_mm2, 0.05);
  assert_near (shade_of (&seen, "a")->shadow_mm2, G_PI * 1600, 1e-5);
  assert_near (seen.face->free_mm2, 80000 - 2 * G_PI * 1600 + lens_mm2, 0.1);
  seen_clear (&seen);
}

/* Three strips over each other: shared is what two or more cover, counted once. */
static void
test_three (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  add_bay (job);
  air_rectangle (air_volume (job, "a", TW_TAKEN_HOT, TW_DRAWN_FRONT, -50, -20), -100, -50, 0, 50);
  air_rectangle (air_volume (job, "b", TW_TAKEN_HOT, TW_DRAWN_FRONT, -150, -120), -60, -50, 40, 50);
  air_rectangle (air_volume (job, "c", TW_TAKEN_HOT, TW_DRAWN_FRONT, -250, -220), -20, -50, 80, 50);
  seen = see (job, NULL, 0);
  /* in x: a −100…0, b −60…40, c −20…80; two or more −60…40 */
  assert_near (seen.face->shared_mm2, 100 * 100, 1e-6);
  assert_near (shade_of (&seen, "a")->alone_mm2, 40 * 100, 1e-6);
  g_assert_null (seen.face->shades[2].alone_mm2 > 1e-6 ? "" : NULL);
  assert_near (shade_of (&seen, "c")->alone_mm2, 40 * 100, 1e-6);
  seen_clear (&seen);
}

/* A level bar of 20 × 20 seen by a face that leans by 40°: upright height 20 falls on 20/cos 40° of the face.
 */
static void
test_leaning (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwCore *core = air_core (job, "core", 400, 200, 40);
  double c = cos (40 * AIR_DEG), t = tan (40 * AIR_DEG);
  Seen seen;

  core->lean_deg = 40;
  add_bay (job);
  air_rectangle (air_volume (job, "bar", TW_TAKEN_STRUCTURE, TW_DRAWN_FRONT, -150, -130), -300, 0, 300, 20);
  seen = see (job, NULL, 0);
  assert_near (shade_of (&seen, "bar")->alone_mm2, 400 * 20 / c, 1e-6);
  /* The face at y is z = y·tan 40°: nearest from the bar's back at −130 is its lower edge, y 0. */
  assert_near (shade_of (&seen, "bar")->distance_mm, 130, 1e-9);
  assert_near (tw_area_bounds (shade_of (&seen, "bar")->shadow).y1_mm, 20 / c, 1e-6);
  assert_near (seen.face->projected_mm2, 80000 * c, 1e-6);
  g_assert_cmpfloat (t, >, 0);
  seen_clear (&seen);
}

/* A plate through a leaning face: only what is upstream of the plane counts. Plate y −30 … 30 at z −10 … 5:
 * upstream is z < y·tan 40°, so y > −10/tan 40° = −11.9175. */
static void
test_through_leaning (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwCore *core = air_core (job, "core", 400, 200, 40);
  double c = cos (40 * AIR_DEG), t = tan (40 * AIR_DEG);
  Seen seen;

  core->lean_deg = 40;
  add_bay (job);
  air_rectangle (air_volume (job, "plate", TW_TAKEN_STRUCTURE, TW_DRAWN_FRONT, -10, 5), -50, -30, 50, 30);
  seen = see (job, NULL, 0);
  assert_near (shade_of (&seen, "plate")->alone_mm2, 100 * (30 + 10 / t) / c, 1e-6);
  assert_near (shade_of (&seen, "plate")->distance_mm, 0, 1e-9);
  seen_clear (&seen);
}

/* Air square on a core with heading 90°: it looks along x. A bar along z before it (x < 0) shades it, and the
 * projection along z is nothing. */
static void
test_ducted (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwCore *core = air_core (job, "core", 400, 200, 40);
  Seen seen;

  core->heading_deg = 90;
  core->air = TW_AIR_SQUARE;
  add_bay (job);
  air_rectangle (air_volume (job, "before", TW_TAKEN_HOT, TW_DRAWN_FRONT, -50, 50), -100, -10, -70, 20);
  air_rectangle (air_volume (job, "behind", TW_TAKEN_HOT, TW_DRAWN_FRONT, -50, 50), 100, -10, 170, 20);
  seen = see (job, NULL, 0);
  g_assert_cmpuint (seen.face->n_shades, ==, 1);
  assert_near (shade_of (&seen, "before")->alone_mm2, 100 * 30, 1e-6);
  assert_near (shade_of (&seen, "before")->distance_mm, 70, 1e-9);
  assert_near (seen.face->projected_mm2, 0, 1e-6);
  seen_clear (&seen);
}

/* The same core with air along z is edge-on: nothing is shaded, and that is said. */
static void
test_edge_on (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwCore *core = air_core (job, "core", 400, 200, 40);
  Seen seen;

  core->heading_deg = 90;
  add_bay (job);
  air_rectangle (air_volume (job, "plate", TW_TAKEN_HOT, TW_DRAWN_FRONT, -450, -430), -100, -10, 100, 20);
  seen = see (job, NULL, 0);
  g_assert_cmpuint (seen.face->flags, ==, TW_FRONTAL_TURNED);
  g_assert_cmpuint (seen.face->n_shades, ==, 0);
  assert_near (seen.face->free_mm2, 80000, 1e-6);
  seen_clear (&seen);
}

/* A round bar along a slanting line of the Front plane is a strip of its diameter: a hose of 40 from edge to
 * edge at 45° through the middle: (200·√2)·40, its ends beyond the face. */
static void
test_slanting_hose (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwPlacedSolid hose = { .part = air_id ("hose"), .role = TW_SOLID_HOSE };
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  add_bay (job);
  hose.convex = tw_convex_new_cylinder (tw_vec (-150, -150, -90), tw_vec (150, 150, -90), 20);
  seen = see (job, &hose, 1);
  assert_near (shade_of (&seen, "hose")->alone_mm2, 200 * G_SQRT2 * 40, 0.05);
  assert_near (shade_of (&seen, "hose")->distance_mm, 70, 1e-3);
  tw_convex_unref (hose.convex);
  seen_clear (&seen);
}

/* A cylinder of r 20 that comes along the air at 30° to it, ends 100 apart in z: seen as a strip of 40 over
 * the offset 100·tan 30° and two half ellipses, together an ellipse of 20 and 20·cos 30°: its flat ends. */
static void
test_leaning_cylinder (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwPlacedSolid hose = { .part = air_id ("hose"), .role = TW_SOLID_HOSE };
  double run_mm = 100 * tan (30 * AIR_DEG);
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  add_bay (job);
  hose.convex = tw_convex_new_cylinder (tw_vec (0, 0, -200), tw_vec (run_mm, 0, -100), 20);
  seen = see (job, &hose, 1);
  assert_near (shade_of (&seen, "hose")->alone_mm2, 40 * run_mm + G_PI * 20 * 20 * cos (30 * AIR_DEG), 0.02);
  assert_near (shade_of (&seen, "hose")->distance_mm, 100 - 20 * sin (30 * AIR_DEG), 1e-3);
  tw_convex_unref (hose.convex);
  seen_clear (&seen);
}

/* A capsule of r 20 that comes in over the left edge at x = −200 and leads away from the face at 45°: its
 * axis is 300 before the face there, its side r·√2 nearer. What lies beyond the edge is nearer still, and
 * shades nothing.
 */
static void
test_over_the_edge (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwPlacedSolid hose = { .part = air_id ("hose"), .role = TW_SOLID_HOSE };
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  add_bay (job);
  hose.convex = tw_convex_new_capsule (tw_vec (-300, 0, -200), tw_vec (-100, 0, -400), 20);
  seen = see (job, &hose, 1);
  assert_near (shade_of (&seen, "hose")->distance_mm, 300 - 20 * G_SQRT2, 1e-6);
  tw_convex_unref (hose.convex);
  seen_clear (&seen);
}

/* A chain of capsules round a quarter circle of R 80, r 15, in a plane before the face: a quarter of a ring,
 * 2r·R·π/2, and a half circle at each end. A bay that ends in its plane leaves half of its depth but all of
 * its shadow; one that ends beside it leaves what is in it. */
static void
add_bend (GArray *solids)
{
  const guint n = 90;

  for (guint i = 0; i < n; i++) {
    double a = i * 0.5 * G_PI / n, b = (i + 1) * 0.5 * G_PI / n;
    TwPlacedSolid solid = { .part = air_id ("hose"), .role = TW_SOLID_HOSE };

    solid.convex = tw_convex_new_capsule (tw_vec (80 * cos (a), 80 * sin (a), -100),
                                          tw_vec (80 * cos (b), 80 * sin (b), -100), 15);
    g_array_append_val (solids, solid);
  }
}

typedef struct {
  const char *name;
  double bay_z0_mm, bay_x1_mm, lean_deg;
  double area_mm2, by_mm2;
} Bend;

static const Bend bends[] = {
  /* clang-format off */
  { "whole", -500, 500, 0, 30 * 80 * G_PI_2 + G_PI * 225, 1 },
  /* cut in its own plane: its ends are cylinders' ends now, without the half circles */
  { "half-deep", -100, 500, 0, 30 * 80 * G_PI_2, 0.5 },
  /* the bay ends at x 40: the ring's part left of it, ∫ from x 0 to 40 of √(95² − x²) − √(65² − x²), by
   * ½(x√(R² − x²) + R²·asin (x/R)): 3684.5262 − 2425.0160; and the half circle over x < 0 */
  { "cut-across", -500, 40, 0, 1259.5102 + G_PI * 112.5, 2 },
  /* leaned by 30° the same falls on 1/cos 30° of the face */
  { "leaned", -500, 500, 30, (30 * 80 * G_PI_2 + G_PI * 225) / 0.86602540378443865, 1.2 },
  /* clang-format on */
};

static void
test_bend (gconstpointer data)
{
  const Bend *c = data;
  g_autoptr (TwJob) job = tw_job_new ();
  g_autoptr (GArray) solids = g_array_new (FALSE, FALSE, sizeof (TwPlacedSolid));
  Seen seen;

  air_core (job, "core", 400, 300, 40)->lean_deg = c->lean_deg;
  air_rectangle (air_volume (job, "bay", -1, TW_DRAWN_FRONT, c->bay_z0_mm, 500), -500, -500, c->bay_x1_mm,
                 500);
  add_bend (solids);
  seen = see (job, (const TwPlacedSolid *)(void *)solids->data, solids->len);
  assert_near (shade_of (&seen, "hose")->alone_mm2, c->area_mm2, c->by_mm2);
  seen_clear (&seen);
  for (guint i = 0; i < solids->len; i++)
    tw_convex_unref (g_array_index (solids, TwPlacedSolid, i).convex);
}

static void
add_piece (GArray *solids, TwConvex *convex)
{
  TwPlacedSolid solid = { .part = air_id ("hose"), .role = TW_SOLID_HOSE, .convex = convex };

  g_array_append_val (solids, solid);
}

/* Straight, quarter bend of R 80 and straight, r 15, as runs are handed over. The hose comes along @way,
 * turns towards @turn. */
static void
add_run (GArray *solids, const TwVec *start, TwVec way, TwVec turn, double first_mm, double last_mm)
{
  const guint n = 90;
  TwVec bend = tw_vec_add_scaled (*start, first_mm, way), centre = tw_vec_add_scaled (bend, 80, turn),
        end = bend;

  add_piece (solids, tw_convex_new_cylinder (*start, bend, 15));
  for (guint i = 1; i <= n; i++) {
    double a = i * G_PI_2 / n;
    TwVec next = tw_vec_add_scaled (tw_vec_add_scaled (centre, -80 * cos (a), turn), 80 * sin (a), way);

    add_piece (solids, tw_convex_new_capsule (end, next, 15));
    end = next;
  }
  add_piece (solids, tw_convex_new_cylinder (end, tw_vec_add_scaled (end, last_mm, turn), 15));
}

typedef struct {
  const char *name;
  TwVec start, way, turn;
  double first_mm, last_mm, bay_x1_mm;
  double area_mm2, distance_mm;
} HoseRun;

static const HoseRun hose_runs[] = {
  /* clang-format off */
  /* Before the face, in one plane: 2r times the centreline. */
  { "in-plane", { -150, -60, -100 }, { 1, 0, 0 }, { 0, 1, 0 }, 130, 80, 500, 30 * (130 + 80 + 80 * G_PI_2), 85 },
  /* The same over the lower edge of the face at −100: the first straight starts 40 under it. */
  { "over-the-edge", { -20, -140, -100 }, { 0, 1, 0 }, { 1, 0, 0 }, 100, 50, 500, 30 * (60 + 50 + 80 * G_PI_2), 85 },
  /* The same in a bay that ends 20 into the last straight. */
  { "out-of-the-bay", { -150, -60, -100 }, { 0, 1, 0 }, { 1, 0, 0 }, 60, 80, -50, 30 * (60 + 20 + 80 * G_PI_2), 85 },
  /* It comes along the air and turns across it: a strip of 80 + 70 and half a disc. */
  { "along-the-air", { 0, 0, -300 }, { 0, 0, 1 }, { 1, 0, 0 }, 120, 70, 500, 30 * 150 + G_PI * 112.5, 85 },
  /* It crosses and then goes away with the air, down to 20 before the face: its flat end is a disc. */
  { "towards-the-face", { -100, 0, -200 }, { 1, 0, 0 }, { 0, 0, 1 }, 60, 100, 500, 30 * 140 + G_PI * 112.5, 20 },
  /* clang-format on */
};

static void
test_hose_run (gconstpointer data)
{
  const HoseRun *c = data;
  g_autoptr (TwJob) job = tw_job_new ();
  g_autoptr (GArray) solids = g_array_new (FALSE, FALSE, sizeof (TwPlacedSolid));
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  air_rectangle (air_volume (job, "bay", -1, TW_DRAWN_FRONT, -500, 500), -500, -500, c->bay_x1_mm, 500);
  add_run (solids, &c->start, c->way, c->turn, c->first_mm, c->last_mm);
  seen = see (job, (const TwPlacedSolid *)(void *)solids->data, solids->len);
  g_assert_cmpuint (seen.face->n_shades, ==, 1);
  assert_near (shade_of (&seen, "hose")->alone_mm2, c->area_mm2, 1);
  assert_near (shade_of (&seen, "hose")->distance_mm, c->distance_mm, 0.01);
  seen_clear (&seen);
  for (guint i = 0; i < solids->len; i++)
    tw_convex_unref (g_array_index (solids, TwPlacedSolid, i).convex);
}

/* ---- bays ---- */

/* Through an L-shaped bay a plate over its whole box is cut to the L, in one piece: no seam where the bay's
 * convex pieces meet. */
static void
test_concave_bay (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwVolume *bay;
  const TwShade *shade;
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  bay = air_volume (job, "bay", -1, TW_DRAWN_FRONT, -300, 100);
  air_corner (bay, -150, -80, 0);
  air_corner (bay, 150, -80, 0);
  air_corner (bay, 150, 0, 0);
  air_corner (bay, 0, 0, 0);
  air_corner (bay, 0, 80, 0);
  air_corner (bay, -150, 80, 0);
  air_rectangle (air_volume (job, "plate", TW_TAKEN_HOT, TW_DRAWN_FRONT, -50, -20), -190, -90, 190, 90);
  seen = see (job, NULL, 0);
  shade = shade_of (&seen, "plate");
  assert_near (shade->alone_mm2, 300 * 80 + 150 * 80, 1e-6);
  g_assert_cmpuint (tw_area_n_rings (shade->shadow), ==, 1);
  seen_clear (&seen);
}

/* A bay of three volumes in three planes; only what is in one of them counts, what is in two counts once.
 * Plate y −20 … 20 at z −50 … −40: Front room x −100 … −50; Side room (z −60 … 0, y −10 … 10, x −60 … 20)
 * adds x −50 … 20; Plan room (x 0 … 60, z −45 … 0, y −15 … 15) adds x 20 … 60 and, for x 0 … 20, 5 above and
 * below. */
static void
test_bay_of_three (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  air_rectangle (air_volume (job, "front", -1, TW_DRAWN_FRONT, -300, 0), -100, -100, -50, 100);
  air_rectangle (air_volume (job, "side", -1, TW_DRAWN_SIDE, -60, 20), -60, -10, 0, 10);
  air_rectangle (air_volume (job, "plan", -1, TW_DRAWN_PLAN, -15, 15), 0, -45, 60, 0);
  air_rectangle (air_volume (job, "plate", TW_TAKEN_HOT, TW_DRAWN_FRONT, -50, -40), -150, -20, 150, 20);
  seen = see (job, NULL, 0);
  assert_near (shade_of (&seen, "plate")->alone_mm2, 50 * 40 + 70 * 20 + 40 * 30 + 20 * 10, 1e-6);
  assert_near (shade_of (&seen, "plate")->distance_mm, 40, 1e-9);
  seen_clear (&seen);
}

/* A taken volume with a hole shades as a frame; a window in it is free. */
static void
test_frame (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwVolume *frame;
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  add_bay (job);
  frame = air_volume (job, "frame", TW_TAKEN_STRUCTURE, TW_DRAWN_FRONT, -50, -20);
  air_rectangle (frame, -100, -50, 100, 50);
  for (guint i = 0; i < 4; i++) {
    g_autofree char *id = g_strdup_printf ("hole-%u", i);
    TwOutlineCorner *corner = (TwOutlineCorner *)tw_part_new (TW_KIND_CORNER, air_id (id));

    corner->across_mm = i == 1 || i == 2 ? 80 : -80;
    corner->up_mm = i >= 2 ? 30 : -30;
    g_ptr_array_add (frame->hole, corner);
  }
  seen = see (job, NULL, 0);
  assert_near (shade_of (&seen, "frame")->alone_mm2, 200 * 100 - 160 * 60, 1e-6);
  g_assert_true (tw_area_contains (seen.face->free, (TwPoint){ 0, 0 }));
  seen_clear (&seen);
}

typedef struct {
  const char *name;
  void (*test) (void);
} Named;

static const Named named[] = {
  { "no-bay", test_no_bay },
  { "own-parts", test_own_parts },
  { "other-core", test_other_core },
  { "pusher", test_pusher },
  { "port-under-hose", test_port_under_hose },
  { "circle", test_circle },
  { "lens", test_lens },
  { "three", test_three },
  { "leaning", test_leaning },
  { "through-leaning", test_through_leaning },
  { "ducted", test_ducted },
  { "edge-on", test_edge_on },
  { "slanting-hose", test_slanting_hose },
  { "leaning-cylinder", test_leaning_cylinder },
  { "hose-leads-away-over-the-edge", test_over_the_edge },
  { "concave-bay", test_concave_bay },
  { "bay-of-three", test_bay_of_three },
  { "frame", test_frame },
};

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (rules); i++) {
    g_autofree char *path = g_strdup_printf ("/layout/frontal/rule/%s", rules[i].name);
    g_test_add_data_func (path, &rules[i], test_rule);
  }
  for (guint i = 0; i < G_N_ELEMENTS (bends); i++) {
    g_autofree char *path = g_strdup_printf ("/layout/frontal/bend/%s", bends[i].name);
    g_test_add_data_func (path, &bends[i], test_bend);
  }
  for (guint i = 0; i < G_N_ELEMENTS (hose_runs); i++) {
    g_autofree char *path = g_strdup_printf ("/layout/frontal/hose-run/%s", hose_runs[i].name);
    g_test_add_data_func (path, &hose_runs[i], test_hose_run);
  }
  for (guint i = 0; i < G_N_ELEMENTS (named); i++) {
    g_autofree char *path = g_strdup_printf ("/layout/frontal/%s", named[i].name);
    g_test_add_func (path, named[i].test);
  }
  return g_test_run ();
}
