/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * desk.h - sheets of a job, for tests
 */
#pragma once

#include "job/read.h"
#include "sheets/letters.h"
#include "sheets/sheet.h"
#include "support/make-job.h"

#include <stdlib.h>

/* What sheets are made with; all of it is owned. */
typedef struct {
  TwCatalogue *catalogue;
  TwGeos *geos;
  TwLetters *letters;
  TwMeasure measure;
} Desk;

static inline Desk
desk_open (void)
{
  g_autoptr (GError) error = NULL;
  Desk desk = { .geos = tw_geos_new (), .letters = tw_letters_new (TW_LETTERS_SHEET_FONT) };

  desk.catalogue = tw_catalogue_load (&error);
  g_assert_no_error (error);
  desk.measure = tw_letters_measure (desk.letters);
  return desk;
}

static inline void
desk_close (Desk *desk)
{
  tw_catalogue_free (desk->catalogue);
  tw_geos_free (desk->geos);
  tw_letters_free (desk->letters);
}

static inline TwJob *
desk_sample (const char *sample)
{
  g_autofree char *name = g_strconcat (sample, ".twjob", NULL);
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "samples", name, NULL);
  g_autoptr (GError) error = NULL;
  TwJob *job = tw_job_read_file (path, &error);

  g_assert_no_error (error);
  return job;
}

/* All sheets of @job. (transfer full) */
static inline GPtrArray *
desk_sheets (const Desk *desk, const TwJob *job)
{
  g_autoptr (TwAnswer) answer = tw_answer_new (job, desk->catalogue, desk->geos);
  const TwSheetSource source = {
    .answer = answer, .geos = desk->geos, .revision = "01234567", .measure = &desk->measure, .decimal = '.'
  };
  g_autoptr (GError) error = NULL;
  GPtrArray *sheets = tw_sheets_new (&source, TW_SHEET_ALL, &error);

  g_assert_no_error (error);
  return sheets;
}

/* Letters lower than 2.5 mm on a page. */
static inline guint
desk_small_letters (const TwSheet *sheet)
{
  guint n = 0;

  for (guint i = 0; i < tw_ink_count (sheet->ink); i++) {
    const TwInkItem *item = tw_ink_get (sheet->ink, i);

    n += item->kind == TW_INK_TEXT && sheet->look.heights[item->place.size] < 2.5;
  }
  return n;
}

/* What meets on all pages, and letters that are too small. */
static inline guint
desk_count_faults (const char *name, GPtrArray *sheets)
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
    n += faults->len + desk_small_letters (sheet);
  }
  return n;
}

static inline guint
desk_prove (const Desk *desk, const char *name, const TwJob *job)
{
  g_autoptr (GPtrArray) sheets = desk_sheets (desk, job);

  return desk_count_faults (name, sheets);
}

/* Checked builds are some ten times slower. */
#ifdef __SANITIZE_ADDRESS__
#define DESK_RANDOM_JOBS 12
#else
#define DESK_RANDOM_JOBS 250
#endif

/* Random jobs from number @first on; TW_RANDOM_JOBS says how many. */
static inline void
desk_prove_random (guint32 first)
{
  const char *wanted = g_getenv ("TW_RANDOM_JOBS");
  guint n = wanted != NULL ? (guint)atoi (wanted) : DESK_RANDOM_JOBS, n_bad = 0;
  Desk desk = desk_open ();

  for (guint32 seed = first; seed < first + n; seed++) {
    g_autoptr (TwJob) job = tw_random_job (seed);
    g_autofree char *name = g_strdup_printf ("random job %u", seed);

    n_bad += desk_prove (&desk, name, job) > 0;
  }
  g_test_message ("%u of %u random jobs with faults", n_bad, n);
  g_assert_cmpuint (n_bad, ==, 0);
  desk_close (&desk);
}
