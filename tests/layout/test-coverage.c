/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fan coverage against closed forms: discs, segments, lenses, boxes. The face is 400 × 200.
 */
#include "air-parts.h"
#include "layout/coverage.h"

/* Circular segment of height h: r²·acos (1 − h/r) − (r − h)·√(2rh − h²). */
static double
segment_mm2 (double r, double h)
{
  return r * r * acos (1 - h / r) - (r - h) * sqrt (2 * r * h - h * h);
}

/* Two circles of r, d apart: two segments of height r − d/2. */
static double
lens_mm2 (double r, double d)
{
  return 2 * segment_mm2 (r, r - d / 2);
}

typedef struct {
  Air air;
  TwCoverage *coverage;
  const TwFaceCover *face;
} Seen;

static Seen
see (const TwJob *job)
{
  Seen seen = { .air = air_of (job) };
  double own_mm2 = 0.0;

  seen.coverage = tw_coverage_find (seen.air.placement, seen.air.geos);
  seen.face = tw_coverage_face (seen.coverage, air_id ("core"));
  g_assert_nonnull (seen.face);
  g_assert_false (seen.face->has_trouble);
  for (guint i = 0; i < seen.face->n_fans; i++)
    own_mm2 += seen.face->fans[i].own_mm2;
  g_assert_cmpfloat (fabs (own_mm2 - seen.face->swept_mm2), <=, 1e-9 * seen.face->face_mm2);
  g_assert_cmpfloat (seen.face->ring_mm2, <=, seen.face->swept_mm2);
  g_assert_cmpfloat (seen.face->swept_mm2, <=, seen.face->face_mm2 * (1 + 1e-12));
  g_assert_cmpfloat (seen.face->boxed_mm2, <=, seen.face->face_mm2 * (1 + 1e-12));
  return seen;
}

static void
seen_clear (Seen *seen)
{
  tw_coverage_unref (seen->coverage);
  air_clear (&seen->air);
}

static void
test_none (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  seen = see (job);
  assert_near (seen.face->swept_mm2, 0, 1e-12);
  assert_near (seen.face->boxed_mm2, 0, 1e-12);
  assert_near (seen.face->unswept_mm2, 0, 1e-12);
  g_assert_cmpuint (seen.face->n_fans + seen.face->n_overlaps + seen.face->n_gaps, ==, 0);
  seen_clear (&seen);
}

static void
test_apart (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwShroud *shroud;
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  air_fan (job, "left", -100, 0, 180, 60)->ring_mm = 190;
  air_fan (job, "right", 100, 0, 180, 60)->ring_mm = 190;
  shroud = air_shroud (job, "shroud", 0, 0, 390, 200);
  air_flap (shroud, "flap", 0, 90, 100, 30);
  seen = see (job);
  assert_near (seen.face->swept_mm2, 2 * G_PI * 8100, 1e-5);
  assert_near (seen.face->swept_share, 2 * G_PI * 8100 / 80000, 1e-9);
  assert_near (seen.face->ring_mm2, 2 * G_PI * 7200, 1e-5);
  assert_near (seen.face->boxed_mm2, 390 * 200, 1e-9);
  assert_near (seen.face->unswept_mm2, 390 * 200 - 2 * G_PI * 8100, 1e-5);
  assert_near (seen.face->flaps_mm2, 100 * 25, 1e-9); /* 5 of it beyond the face */
  assert_near (seen.face->fans[0].own_share, G_PI * 8100 / 80000, 1e-9);
  g_assert_cmpuint (seen.face->n_overlaps, ==, 0);
  /* rings 200 − 190 apart; the flap's lower corner (±50, 75) from (±100, 0) is √(50² + 75²) less 95 */
  g_assert_cmpuint (seen.face->n_gaps, ==, 3);
  assert_near (seen.face->gaps[0].gap_mm, sqrt (2500 + 5625) - 95, 1e-9);
  g_assert_cmpstr (seen.face->gaps[0].b.text, ==, "shroud");
  g_assert_cmpstr (seen.face->gaps[0].b_flap.text, ==, "flap");
  assert_near (seen.face->gaps[2].gap_mm, 10, 1e-9);
  g_assert_cmpstr (seen.face->gaps[2].b_flap.text, ==, "");
  seen_clear (&seen);
}

/* Two of r 80, 150 apart: a lens of 10. Hubs stand free of it. */
static void
test_pair (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  double lens = lens_mm2 (80, 150), disc = G_PI * 6400;
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  air_fan (job, "a", -75, 0, 160, 60);
  air_fan (job, "b", 75, 0, 160, 60);
  seen = see (job);
  assert_near (seen.face->swept_mm2, 2 * disc - lens, 0.02);
  assert_near (seen.face->ring_mm2, 2 * disc - lens - 2 * G_PI * 900, 0.02);
  assert_near (seen.face->fans[1].own_mm2, disc - lens / 2, 0.02);
  assert_near (seen.face->fans[1].on_face_mm2, disc, 1e-5);
  g_assert_cmpuint (seen.face->n_overlaps, ==, 1);
  assert_near (seen.face->overlaps[0].depth_mm, 10, 1e-9);
  assert_near (seen.face->overlaps[0].area_mm2, lens, 0.02);
  assert_near (seen.face->gaps[0].gap_mm, -10, 1e-9);
  seen_clear (&seen);
}

/* Two of r 80, 60 apart, with hubs of r 70. What one hub takes off the union is the part of it that the other
 * fan does not sweep: outside the other's disc, or inside the other's hub. The first is hub less (hub ∩
 * disc), once for each fan; the second is the lens of the two hubs. */
static void
test_hub_in_disc (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  double r = 80, s = 70, d = 60;
  /* part of a circle of s in one of r, d apart: x = (d² + r² − s²)/2d from the centre of r */
  double x = (d * d + r * r - s * s) / (2 * d);
  double hub_in_disc = segment_mm2 (r, r - x) + segment_mm2 (s, s - (d - x));
  double lost = 2 * (G_PI * s * s - hub_in_disc) + lens_mm2 (s, d);
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  air_fan (job, "a", -30, 0, 2 * r, 2 * s);
  air_fan (job, "b", 30, 0, 2 * r, 2 * s);
  seen = see (job);
  assert_near (seen.face->swept_mm2, 2 * G_PI * r * r - lens_mm2 (r, d), 0.1);
  assert_near (seen.face->ring_mm2, 2 * G_PI * r * r - lens_mm2 (r, d) - lost, 0.5);
  seen_clear (&seen);
}

/* Three of r 80 at the corners of a triangle of 100: the middle, that all three sweep, is
 * (√3·c²)/4 + 3·(r²·asin (c/2r) − c/4·√(4r² − c²)) with the chord c between neighbouring inner crossings; the
 * inner crossings lie √(r² − 50²) − 50/√3 from the triangle's middle. */
static void
test_three (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  double r = 80, d = 100, disc = G_PI * r * r, lens = lens_mm2 (r, d);
  double c = sqrt (3) * (sqrt (r * r - d * d / 4) - d / (2 * sqrt (3)));
  double all = sqrt (3) / 4 * c * c + 3 * (r * r * asin (c / (2 * r)) - c / 4 * sqrt (4 * r * r - c * c));
  double union_mm2 = 3 * disc - 3 * lens + all;
  Seen seen;

  air_core (job, "core", 400, 400, 40);
  air_fan (job, "a", -50, 0, 2 * r, 20);
  air_fan (job, "b", 50, 0, 2 * r, 20);
  air_fan (job, "c", 0, 50 * sqrt (3), 2 * r, 20);
  seen = see (job);
  assert_near (seen.face->swept_mm2, union_mm2, 0.2);
  for (guint i = 0; i < 3; i++)
    assert_near (seen.face->fans[i].own_mm2, union_mm2 / 3, 0.1);
  g_assert_cmpuint (seen.face->n_overlaps, ==, 3);
  seen_clear (&seen);
}

/* All in one place: each has a third. */
static void
test_same_place (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  air_fan (job, "a", 10, 0, 160, 60);
  air_fan (job, "b", 10, 0, 160, 60);
  air_fan (job, "c", 10, 0, 160, 60);
  seen = see (job);
  assert_near (seen.face->swept_mm2, G_PI * 6400, 1e-4);
  assert_near (seen.face->ring_mm2, G_PI * (6400 - 900), 1e-4);
  for (guint i = 0; i < 3; i++)
    assert_near (seen.face->fans[i].own_mm2, G_PI * 6400 / 3, 1e-4);
  seen_clear (&seen);
}

/* A fan of r 80 whose centre is 70 under the upper edge: 10 beyond the face. The mouth ends 5 further in. */
static void
test_overhang (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  air_fan (job, "fan", 0, 30, 160, 0 + 1)->ring_mm = 166;
  air_shroud (job, "shroud", 0, 0, 380, 190);
  seen = see (job);
  assert_near (seen.face->fans[0].face_over_mm, 10, 1e-9);
  assert_near (seen.face->fans[0].face_over_mm2, segment_mm2 (80, 10), 0.02);
  assert_near (seen.face->fans[0].on_face_mm2, G_PI * 6400 - segment_mm2 (80, 10), 0.02);
  assert_near (seen.face->fans[0].mouth_over_mm, 15, 1e-9);
  assert_near (seen.face->fans[0].mouth_over_mm2, segment_mm2 (80, 15), 0.02);
  assert_near (seen.face->fans[0].ring_mouth_over_mm, 18, 1e-9);
  assert_near (seen.face->unswept_mm2, 380 * 190 - G_PI * 6400 + segment_mm2 (80, 15), 0.02);
  seen_clear (&seen);
}

/* Half of a fan hangs over a corner of the face: a quarter of its disc and of its hub is left. */
static void
test_corner (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  air_fan (job, "fan", 200, 100, 160, 60);
  seen = see (job);
  assert_near (seen.face->swept_mm2, G_PI * 1600, 1e-3);
  assert_near (seen.face->ring_mm2, G_PI * (1600 - 225), 1e-3);
  assert_near (seen.face->fans[0].face_over_mm, 80, 1e-9);
  seen_clear (&seen);
}

/* Shrouds side by side that overlap by 20, and one that reaches beyond the face. A fan belongs to the one
 * whose mouth holds its centre, on its own side of the core. */
static void
test_shrouds (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  TwFan *pusher;
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  air_shroud (job, "left", -110, 0, 200, 180);
  air_shroud (job, "right", 110, 0, 240, 180);
  air_shroud (job, "front", 0, 0, 100, 100)->stands = TW_STANDS_BEFORE;
  air_fan (job, "in-left", -100, 0, 150, 50);
  air_fan (job, "in-right", 100, 0, 150, 50);
  pusher = air_fan (job, "in-front", 100, 0, 80, 50);
  pusher->blows = TW_BLOWS_PUSH;
  seen = see (job);
  /* left x −210 … −10, right −10 … 230, on the face −200 … 200; the front one adds 10 above and below nothing
   */
  assert_near (seen.face->boxed_mm2, 400 * 180, 1e-9);
  g_assert_cmpstr (tw_placement_fan (seen.air.placement, air_id ("in-left"))->shroud.text, ==, "left");
  g_assert_cmpstr (tw_placement_fan (seen.air.placement, air_id ("in-right"))->shroud.text, ==, "right");
  g_assert_cmpstr (tw_placement_fan (seen.air.placement, air_id ("in-front"))->shroud.text, ==, "front");
  /* the pusher lies over the puller and shares with it, but no sheet is between them */
  g_assert_cmpuint (seen.face->n_overlaps, ==, 1);
  g_assert_cmpuint (seen.face->n_gaps, ==, 1);
  assert_near (seen.face->swept_mm2, 2 * G_PI * 5625, 1e-4);
  seen_clear (&seen);
}

/* An L of two mouths: what is swept in it is cut by the library. */
static void
test_stepped_mouth (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  air_shroud (job, "left", -100, 0, 200, 200);
  air_shroud (job, "right", 100, -50, 200, 100);
  air_fan (job, "fan", 0, 0, 100, 20);
  seen = see (job);
  assert_near (seen.face->boxed_mm2, 200 * 200 + 200 * 100, 1e-9);
  /* three quarters of the disc lie in the L */
  assert_near (seen.face->unswept_mm2, 60000 - 0.75 * G_PI * 2500, 1e-3);
  seen_clear (&seen);
}

/* More fans than anybody has: the rest is left out and said. */
static void
test_many (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  Seen seen;

  air_core (job, "core", 400, 200, 40);
  for (guint i = 0; i < TW_COVERAGE_MOST_FANS + 3; i++) {
    g_autofree char *id = g_strdup_printf ("fan-%u", i);

    air_fan (job, id, -190 + 11.0 * i, 0, 10, 2);
  }
  seen = see (job);
  g_assert_cmpuint (seen.face->n_fans, ==, TW_COVERAGE_MOST_FANS);
  g_assert_cmpuint (seen.face->n_left_out, ==, 3);
  assert_near (seen.face->swept_mm2, TW_COVERAGE_MOST_FANS * G_PI * 25, 1e-4);
  seen_clear (&seen);
}

typedef struct {
  const char *name;
  void (*test) (void);
} Named;

static const Named named[] = {
  { "none", test_none },         { "apart", test_apart },
  { "pair", test_pair },         { "hub-in-disc", test_hub_in_disc },
  { "three", test_three },       { "same-place", test_same_place },
  { "overhang", test_overhang }, { "corner", test_corner },
  { "shrouds", test_shrouds },   { "stepped-mouth", test_stepped_mouth },
  { "many", test_many },
};

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (named); i++) {
    g_autofree char *path = g_strdup_printf ("/layout/coverage/%s", named[i].name);
    g_test_add_func (path, named[i].test);
  }
  return g_test_run ();
}
