/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From one state of a job to another: whatever changes did can be said again as one group.
 */
#include "job/difference.h"
#include "job/read.h"
#include "job/write.h"
#include "support/make-job.h"

#include <string.h>

#define N_JOBS 60
#define N_STEPS 12

static void
assert_leads (const TwJob *from, const TwJob *to)
{
  g_autoptr (TwJob) copy = tw_job_copy (from);
  g_autoptr (TwChange) change = tw_change_between (from, to, NULL), inverse = NULL;
  g_autofree char *wanted = tw_job_write_text (to), *reached = NULL;

  g_assert_nonnull (change);
  g_assert_true (tw_change_apply (change, copy, &inverse, NULL));
  reached = tw_job_write_text (copy);
  g_assert_cmpstr (reached, ==, wanted);
}

/* Any number of any changes at once, forth and back. */
static void
test_random (void)
{
  for (guint32 seed = 0; seed < N_JOBS; seed++) {
    g_autoptr (TwJob) job = tw_random_job (seed), start = tw_job_copy (job);
    GRand *rng = g_rand_new_with_seed (seed + 31);

    for (guint i = 0; i < N_STEPS; i++) {
      g_autoptr (TwChange) change = tw_random_change (job, rng);
      g_autoptr (TwChange) inverse = NULL;

      if (change == NULL || !tw_change_apply (change, job, &inverse, NULL))
        continue;
      assert_leads (start, job);
      assert_leads (job, start);
    }
    g_rand_free (rng);
  }
}

static void
test_same (void)
{
  g_autoptr (TwJob) job = tw_random_job (5), copy = tw_job_copy (job);
  g_autoptr (TwChange) change = tw_change_between (job, copy, "Nothing");

  g_assert_cmpuint (tw_change_group_size (change), ==, 0);
  g_assert_true (tw_job_equal (job, copy));
}

/* A copy gives the ids that the job would give, also where the last ones are gone. */
static void
test_copy_gives_same_ids (void)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 20);
  TwId gone = tw_make_baffle (job, "tank-1", 10), one, other;
  g_autoptr (TwJob) copy = NULL;

  tw_part_unref (tw_job_take (job, gone));
  copy = tw_job_copy (job);
  one = tw_job_new_id (job, TW_KIND_BAFFLE);
  other = tw_job_new_id (copy, TW_KIND_BAFFLE);
  g_assert_cmpstr (one.text, ==, "baffle-2");
  g_assert_cmpstr (other.text, ==, "baffle-2");
}

/* Counted by hand: one baffle more, one port less, the core and the settings changed. */
static void
test_counts (void)
{
  g_autoptr (TwJob) from = tw_make_job (TW_TUBES_LEVEL, 20), to = NULL;
  TwId port = tw_make_port (from, "tank-1", TW_PORT_INLET, TW_WALL_BACK, 0);
  TwJobDifference difference;

  to = tw_job_copy (from);
  tw_make_baffle (to, "tank-1", 10);
  tw_part_unref (tw_job_take (to, port));
  tw_make_set_number (to, "core-1", "thickness_mm", 50);
  tw_make_set (to, "job", "name", "Another");
  difference = tw_job_difference (from, to);
  g_assert_cmpuint (difference.n_added, ==, 1);
  g_assert_cmpuint (difference.n_removed, ==, 1);
  g_assert_cmpuint (difference.n_changed, ==, 2);
  difference = tw_job_difference (to, to);
  g_assert_cmpuint (difference.n_added + difference.n_removed + difference.n_changed, ==, 0);
}

/* What no change can alter is not said to be one. */
static void
test_unknown_members (void)
{
  static const char *const texts[]
      = { "{ \"tankwright-job\": 1, \"later\": 1 }", "{ \"tankwright-job\": 1, \"later\": 2 }" };
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  g_autoptr (TwJob) one = tw_job_read_text (texts[0], strlen (texts[0]), troubles);
  g_autoptr (TwJob) other = tw_job_read_text (texts[1], strlen (texts[1]), troubles);

  g_assert_null (tw_change_between (one, other, NULL));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job/difference/random", test_random);
  g_test_add_func ("/job/difference/same", test_same);
  g_test_add_func ("/job/difference/copy-gives-same-ids", test_copy_gives_same_ids);
  g_test_add_func ("/job/difference/counts", test_counts);
  g_test_add_func ("/job/difference/unknown-members", test_unknown_members);
  return g_test_run ();
}
