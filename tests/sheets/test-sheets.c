/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The proof: on every page of the samples and of random jobs nothing overlaps: no text, dimension or leader,
 * frame or title block. TW_RANDOM_JOBS says how many random jobs.
 */
#include "job/read.h"
#include "sheets/letters.h"
#include "sheets/sheet.h"
#include "support/make-job.h"

#include <stdlib.h>

/* Checked builds are some ten times slower. */
#ifdef __SANITIZE_ADDRESS__
#define RANDOM_JOBS 12
#else
#define RANDOM_JOBS 120
#endif

typedef struct {
  TwCatalogue *catalogue;
  TwGeos *geos;
  TwLetters *letters;
  TwMeasure measure;
} Desk;

static Desk
desk_open (void)
{
  g_autoptr (GError) error = NULL;
  Desk desk = { .geos = tw_geos_new (), .letters = tw_letters_new (TW_LETTERS_SHEET_FONT) };

  desk.catalogue = tw_catalogue_load (&error);
  g_assert_no_error (error);
  desk.measure = tw_letters_measure (desk.letters);
  return desk;
}

static void
desk_close (Desk *desk)
{
  tw_catalogue_free (desk->catalogue);
  tw_geos_free (desk->geos);
  tw_letters_free (desk->letters);
}

static guint
count_faults (const char *name, GPtrArray *sheets)
{
  guint n = 0;

  for (guint i = 0; i < sheets->len; i++) {
    const TwSheet *sheet = g_ptr_array_index (sheets, i);
    g_autoptr (GArray) faults = tw_place_check (sheet->place);

    for (guint k = 0; k < MIN (faults->len, 5); k++) {
      g_autofree char *text
          = tw_place_collision_text (sheet->place, &g_array_index (faults, TwPlaceCollision, k));

      g_test_message ("%s, page %u (%s): %s", name, i + 1, sheet->id, text);
    }
    n += faults->len;
  }
  return n;
}

static guint
prove (Desk *desk, const char *name, const TwJob *job)
{
  g_autoptr (TwAnswer) answer = tw_answer_new (job, desk->catalogue, desk->geos);
  const TwSheetSource source = {
    .answer = answer, .geos = desk->geos, .revision = "01234567", .measure = &desk->measure, .decimal = '.'
  };
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) sheets = tw_sheets_new (&source, TW_SHEET_ALL, &error);

  g_assert_no_error (error);
  return count_faults (name, sheets);
}

static void
test_sample (gconstpointer data)
{
  g_autofree char *name = g_strconcat (data, ".twjob", NULL);
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "samples", name, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (TwJob) job = tw_job_read_file (path, &error);
  Desk desk = desk_open ();

  g_assert_no_error (error);
  g_assert_cmpuint (prove (&desk, data, job), ==, 0);
  desk_close (&desk);
}

static void
test_random (void)
{
  const char *wanted = g_getenv ("TW_RANDOM_JOBS");
  guint n = wanted != NULL ? (guint)atoi (wanted) : RANDOM_JOBS, n_bad = 0;
  Desk desk = desk_open ();

  for (guint32 seed = 1; seed <= n; seed++) {
    g_autoptr (TwJob) job = tw_random_job (seed);
    g_autofree char *name = g_strdup_printf ("random job %u", seed);

    n_bad += prove (&desk, name, job) > 0;
  }
  g_test_message ("%u of %u random jobs with faults", n_bad, n);
  g_assert_cmpuint (n_bad, ==, 0);
  desk_close (&desk);
}

/* An empty job and one with a bay alone have sheets too. */
static void
test_nearly_empty (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  const TwMakeBox box = { -100, 0, -100, 100, 200, 300 };
  Desk desk = desk_open ();

  g_assert_cmpuint (prove (&desk, "empty", job), ==, 0);
  tw_make_box (job, TW_DRAWN_FRONT, -1, &box);
  g_assert_cmpuint (prove (&desk, "bay alone", job), ==, 0);
  desk_close (&desk);
}

int
main (int argc, char *argv[])
{
  static const char *const samples[] = { "merlin-tail", "caravan-4", "volt-9", "ox", "merlin-boot" };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (samples); i++) {
    g_autofree char *path = g_strdup_printf ("/sheets/proof/%s", samples[i]);

    g_test_add_data_func (path, samples[i], test_sample);
  }
  g_test_add_func ("/sheets/proof/nearly-empty", test_nearly_empty);
  g_test_add_func ("/sheets/proof/random", test_random);
  return g_test_run ();
}
