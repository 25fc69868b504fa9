/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Laws that hold for every job: what is written reads back the same to the byte. Nothing here
 * is compared with a stored value.
 */
#include "job/read.h"
#include "job/write.h"
#include "support/make-job.h"

#include <string.h>

#define N_JOBS 2000

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

static void
test_write_read_write (void)
{
  for (guint32 seed = 0; seed < N_JOBS; seed++) {
    g_autoptr (TwJob) job = tw_random_job (seed);
    g_autofree char *text = tw_job_write_text (job), *again = NULL;
    g_autoptr (TwJob) back = read_or_fail (text, seed);

    again = tw_job_write_text (back);
    g_assert_cmpstr (text, ==, again);
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

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job/random/same-seed-same-job", test_same_seed_same_job);
  g_test_add_func ("/job/random/write-read-write", test_write_read_write);
  return g_test_run ();
}
