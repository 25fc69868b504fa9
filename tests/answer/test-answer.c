/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/answer.h"
#include "support/make-job.h"

/* What a drawing is made of, for each test anew. */
typedef struct {
  TwCatalogue *catalogue;
  TwJob *job;
} Desk;

static void
set_up (Desk *desk, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  desk->catalogue = tw_catalogue_load (&error);
  g_assert_no_error (error);
  desk->job = tw_make_job (TW_TUBES_LEVEL, 20);
}

static void
tear_down (Desk *desk, gconstpointer data)
{
  tw_job_free (desk->job);
  tw_catalogue_free (desk->catalogue);
}

static void
test_every_room_speaks (Desk *desk, gconstpointer data)
{
  g_autoptr (TwAnswer) answer = tw_answer_new (desk->job, desk->catalogue, NULL);
  const TwFindings *findings = tw_answer_findings (answer);

  g_assert_nonnull (tw_answer_drawing (answer));
  g_assert_nonnull (tw_answer_placement (answer));
  g_assert_nonnull (tw_answer_tubes (answer));
  g_assert_nonnull (tw_answer_passes (answer));
  g_assert_nonnull (tw_answer_heights (answer));
  g_assert_nonnull (tw_answer_routes (answer));
  g_assert_nonnull (tw_answer_frontal (answer));
  g_assert_nonnull (tw_answer_coverage (answer));
  g_assert_nonnull (tw_answer_clearance (answer));
  g_assert_cmpuint (tw_findings_count_state (findings, TW_CHECK_WAITING), ==, 0);
}

/* An answer stays as it was while the job goes on; the next one is of the next revision. */
static void
test_stays (Desk *desk, gconstpointer data)
{
  g_autoptr (TwAnswer) before = tw_answer_new (desk->job, desk->catalogue, NULL);
  g_autoptr (TwAnswer) shared = tw_answer_ref (before);
  g_autoptr (TwAnswer) after = NULL;
  double face_mm2 = tw_frontal_faces (tw_answer_frontal (before), &(guint){ 0 })->face_mm2;

  g_assert_cmpuint (tw_answer_revision (before), ==, tw_job_revision (desk->job));
  tw_make_set (desk->job, "core-1", "face_width_mm", "500");
  after = tw_answer_new (desk->job, desk->catalogue, NULL);
  g_assert_cmpuint (tw_answer_revision (after), ==, tw_job_revision (desk->job));
  g_assert_cmpuint (tw_answer_revision (before), <, tw_answer_revision (after));
  g_assert_cmpfloat (tw_frontal_faces (tw_answer_frontal (shared), &(guint){ 0 })->face_mm2, ==, face_mm2);
  g_assert_cmpfloat (tw_frontal_faces (tw_answer_frontal (after), &(guint){ 0 })->face_mm2, ==,
                     500.0 * 200.0);
}

/* Trouble that a handle remembers from elsewhere is not this answer's. */
static void
test_old_trouble (Desk *desk, gconstpointer data)
{
  const TwPoint crossed[] = { { 0, 0 }, { 10, 10 }, { 10, 0 }, { 0, 10 } };
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwArea) refused = tw_area_new_points (geos, crossed, G_N_ELEMENTS (crossed));
  g_autoptr (TwAnswer) answer = NULL;

  g_assert_true (tw_area_is_empty (refused));
  g_assert_nonnull (tw_geos_trouble (geos));
  answer = tw_answer_new (desk->job, desk->catalogue, geos);
  g_assert_null (tw_geos_trouble (geos));
  g_assert_false ((tw_clearance_flags (tw_answer_clearance (answer)) & TW_CLEARANCE_TROUBLE) != 0);
}

/* A job with nothing in it has an answer too. */
static void
test_empty (Desk *desk, gconstpointer data)
{
  g_autoptr (TwJob) empty = tw_job_new ();
  g_autoptr (TwAnswer) answer = tw_answer_new (empty, desk->catalogue, NULL);
  const TwFindings *findings = tw_answer_findings (answer);

  g_assert_cmpuint (tw_findings_count_of (findings, TW_SEVERITY_STOP), ==, 0);
  g_assert_cmpuint (tw_findings_count_state (findings, TW_CHECK_WAITING), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, test) g_test_add ("/answer/" name, Desk, NULL, set_up, test, tear_down)
  ADD ("every-room-speaks", test_every_room_speaks);
  ADD ("stays", test_stays);
  ADD ("old-trouble", test_old_trouble);
  ADD ("empty", test_empty);
#undef ADD
  return g_test_run ();
}
