/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pictures of the cards: whatever the drawing and however wide the pane, nothing meets and nothing is cut
 * off; what is seen is what the figures say.
 */
#include "draw/picture.h"

#include <math.h>

#include "draw/place.h"
#include "job/read.h"
#include "support/big-job.h"
#include "support/make-job.h"

static const char *const cards[] = { "frontal", "coverage", "passes", "hoses", "fit" };
static const double widths_px[] = { 240, 292, 420, 600 };

/* What a picture is drawn with. */
typedef struct {
  TwCatalogue *catalogue;
  TwGeos *geos;
  TwAnswer *answer;
  TwLook look;
  TwMeasure measure;
  TwUnitStyle style;
} Bench;

static void
bench_init (Bench *bench, const TwJob *job)
{
  g_autoptr (GError) error = NULL;

  bench->catalogue = tw_catalogue_load (&error);
  g_assert_no_error (error);
  bench->geos = tw_geos_new ();
  bench->answer = tw_answer_new (job, bench->catalogue, bench->geos);
  bench->look = tw_look_screen (TW_LOOK_LIGHT, FALSE);
  bench->measure = tw_measure_fixed ();
  bench->style = tw_job_unit_style (job);
}

static void
bench_clear (Bench *bench)
{
  tw_answer_unref (bench->answer);
  tw_catalogue_free (bench->catalogue);
  tw_geos_free (bench->geos);
}

static TwInk *
draw (const Bench *bench, const char *card, double width_px)
{
  const TwPictureManner manner = { width_px, &bench->look, &bench->measure, &bench->style, NULL };

  return tw_picture_draw (card, bench->answer, &manner);
}

static TwJob *
sample (const char *name)
{
  g_autofree char *file = g_strconcat (name, ".twjob", NULL);
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "samples", file, NULL);
  g_autoptr (GError) error = NULL;
  TwJob *job = tw_job_read_file (path, &error);

  g_assert_no_error (error);
  return job;
}

/* --- the proof --------------------------------------------------------------------------------------------
 */

static void
assert_clear (const Bench *bench, const TwInk *ink, double width_px, const char *what)
{
  TwBox frame = { 0, 0, width_px, TW_PICTURE_HEIGHT_PX };
  g_autoptr (TwPlace) place = tw_place_new (&frame, &bench->look, &bench->measure);
  g_autoptr (GArray) found = NULL;
  TwBox bounds;

  tw_place_take (place, ink, 0);
  found = tw_place_check (place);
  for (guint i = 0; i < found->len; i++) {
    g_autofree char *words = tw_place_collision_text (place, &g_array_index (found, TwPlaceCollision, i));

    g_test_message ("%s: %s", what, words);
  }
  g_assert_true (tw_ink_bounds (ink, &bounds));
  bounds = tw_box_add (bounds, frame);
  if (bounds.x0_mm < 0 || bounds.y0_mm < 0 || bounds.x1_mm > width_px
      || bounds.y1_mm > TW_PICTURE_HEIGHT_PX) {
    g_test_message ("%s: reaches beyond its strip", what);
    g_test_fail ();
  }
  if (found->len > 0)
    g_test_fail ();
}

static void
assert_letters (const TwInk *ink)
{
  for (guint i = 0; i < tw_ink_count (ink); i++)
    if (tw_ink_get (ink, i)->kind == TW_INK_TEXT)
      g_assert_cmpint (tw_ink_get (ink, i)->place.size, ==, TW_INK_SIZE_SMALL);
}

static void
check_all (const TwJob *job, const char *name)
{
  Bench bench;

  bench_init (&bench, job);
  for (guint i = 0; i < G_N_ELEMENTS (cards); i++)
    for (guint k = 0; k < G_N_ELEMENTS (widths_px); k++) {
      g_autoptr (TwInk) ink = draw (&bench, cards[i], widths_px[k]);
      g_autofree char *what = g_strdup_printf ("%s, %s, %d wide", name, cards[i], (int)widths_px[k]);

      if (ink == NULL)
        continue;
      assert_clear (&bench, ink, widths_px[k], what);
      assert_letters (ink);
    }
  bench_clear (&bench);
}

static void
test_samples (void)
{
  static const char *const names[] = { "merlin-tail", "merlin-boot", "caravan-4", "volt-9", "ox" };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++) {
    g_autoptr (TwJob) job = sample (names[i]);

    check_all (job, names[i]);
  }
}

static void
test_random (void)
{
  for (guint32 seed = 1; seed <= 200; seed++) {
    g_autoptr (TwJob) job = tw_random_job (seed);
    g_autofree char *name = g_strdup_printf ("random job %u", seed);

    check_all (job, name);
  }
}

static void
tell_cost (const TwJob *job, const char *name)
{
  Bench bench;

  bench_init (&bench, job);
  for (guint i = 0; i < G_N_ELEMENTS (cards); i++) {
    g_test_timer_start ();
    for (guint k = 0; k < 50; k++)
      tw_ink_unref (draw (&bench, cards[i], 240));
    g_test_message ("%s, %s: %d µs", name, cards[i], (int)(g_test_timer_elapsed () * 1e6 / 50));
  }
  bench_clear (&bench);
}

/* What the pictures cost: said when asked for by `-m perf`. */
static void
test_cost (void)
{
  g_autoptr (TwJob) small = sample ("merlin-tail");
  g_autoptr (TwJob) big = tw_big_job (400, 200);

  if (!g_test_perf ())
    return;
  tell_cost (small, "merlin-tail");
  tell_cost (big, "400 tubes, 200 parts");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/picture/samples", test_samples);
  g_test_add_func ("/draw/picture/random", test_random);
  g_test_add_func ("/draw/picture/cost", test_cost);
  return g_test_run ();
}
