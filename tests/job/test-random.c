/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Laws that hold for every job: what is written reads back the same to the byte; undoing any sequence gives
 * the same file, redoing it the other one. Nothing here is compared with a stored value.
 */
#include "job/history.h"
#include "job/read.h"
#include "job/write.h"
#include "support/make-job.h"

#include <string.h>

#define N_JOBS 2000
#define N_HISTORIES 70
#define N_STEPS 30

/* The job in @text, or the end of the test with what is wrong in it. */
static TwJob *
read_or_fail (const char *text, guint32 seed)
{
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  TwJob *job = tw_job_read_text (text, strlen (text), troubles);

  for (guint i = 0; i < troubles->list->len; i++) {
    g_autofree char *line = tw_trouble_text (g_ptr_array_index (troubles->list, i));

    g_test_message ("seed %u: %s", seed, line);
  }
  g_assert_nonnull (job);
  return job;
}

/* As g_assert_cmpstr(), but says the first line that differs instead of both files. */
static void
assert_same_file (const char *was, const char *is, guint32 seed)
{
  g_auto (GStrv) a = g_strsplit (was, "\n", -1), b = g_strsplit (is, "\n", -1);

  for (guint i = 0; a[i] != NULL || b[i] != NULL; i++)
    if (g_strcmp0 (a[i], b[i]) != 0)
      g_error ("seed %u, line %u: \"%s\" became \"%s\"", seed, i + 1, a[i] ? a[i] : "", b[i] ? b[i] : "");
}

static void
test_write_read_write (void)
{
  for (guint32 seed = 0; seed < N_JOBS; seed++) {
    g_autoptr (TwJob) job = tw_random_job (seed);
    g_autofree char *text = tw_job_write_text (job), *again = NULL;
    g_autoptr (TwJob) back = read_or_fail (text, seed);

    again = tw_job_write_text (back);
    assert_same_file (text, again, seed);
    g_assert_true (tw_job_equal (job, back));
  }
}

static void
test_same_seed_same_job (void)
{
  for (guint32 seed = 0; seed < 20; seed++) {
    g_autoptr (TwJob) one = tw_random_job (seed);
    g_autoptr (TwJob) other = tw_random_job (seed);

    g_assert_true (tw_job_equal (one, other));
  }
}

/* A few changes, some of them in an open step, some after an undo. */
static void
walk (TwHistory *history, TwJob *job, GRand *rng)
{
  for (guint i = 0; i < N_STEPS; i++) {
    TwChange *change = tw_random_change (job, rng);
    g_autoptr (GError) error = NULL;

    if (!tw_history_is_open (history) && g_rand_int_range (rng, 0, 6) == 0)
      tw_history_open (history, "A drag");
    if (change != NULL && !tw_history_do (history, change, &error))
      g_error ("a change that the copy took is refused: %s", error->message);
    if (tw_history_is_open (history) && g_rand_int_range (rng, 0, 4) == 0)
      tw_history_close (history);
    else if (tw_history_is_open (history) && g_rand_int_range (rng, 0, 12) == 0)
      tw_history_cancel (history);
    if (!tw_history_is_open (history) && g_rand_int_range (rng, 0, 8) == 0)
      tw_history_undo (history);
  }
}

static void
test_undo_redo (void)
{
  for (guint32 seed = 0; seed < N_HISTORIES; seed++) {
    g_autoptr (TwJob) job = tw_random_job (seed);
    g_autoptr (TwHistory) history = tw_history_new (job);
    g_autofree char *before = tw_job_write_text (job), *after = NULL, *undone = NULL, *redone = NULL;
    GRand *rng = g_rand_new_with_seed (seed + 1000);
    guint n = 0;

    walk (history, job, rng);
    g_rand_free (rng);
    if (tw_history_is_open (history))
      tw_history_close (history);
    after = tw_job_write_text (job);
    for (; tw_history_can_undo (history); n++)
      tw_history_undo (history);
    undone = tw_job_write_text (job);
    assert_same_file (before, undone, seed);
    for (; n > 0; n--)
      tw_history_redo (history);
    redone = tw_job_write_text (job);
    assert_same_file (after, redone, seed);
  }
}

/* What changes leave can be opened again: a change that would make a file that the reader refuses is refused.
 */
static void
test_changed_job_reads (void)
{
  for (guint32 seed = 0; seed < N_HISTORIES; seed++) {
    g_autoptr (TwJob) job = tw_random_job (seed);
    GRand *rng = g_rand_new_with_seed (seed + 5000);

    for (guint i = 0; i < N_STEPS; i++) {
      g_autoptr (TwChange) change = tw_random_change (job, rng);
      g_autoptr (TwChange) inverse = NULL;
      g_autofree char *text = NULL, *again = NULL;
      g_autoptr (TwJob) back = NULL;

      if (change == NULL || !tw_change_apply (change, job, &inverse, NULL))
        continue;
      text = tw_job_write_text (job);
      back = read_or_fail (text, seed);
      again = tw_job_write_text (back);
      assert_same_file (text, again, seed);
    }
    g_rand_free (rng);
  }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job/random/same-seed-same-job", test_same_seed_same_job);
  g_test_add_func ("/job/random/write-read-write", test_write_read_write);
  g_test_add_func ("/job/random/undo-redo", test_undo_redo);
  g_test_add_func ("/job/random/changed-job-reads", test_changed_job_reads);
  return g_test_run ();
}
