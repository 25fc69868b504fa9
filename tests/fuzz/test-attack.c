/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Random jobs driven to the ends of what their fields take, and at each end through all that is made of a
 * job: see fuzz-job.c.
 */
#include "job/write.h"
#include "support/make-job.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput (const uint8_t *bytes, size_t length);

/* TW_RANDOM_JOBS says otherwise. */
#define JOBS 40
#define STEPS 3
#define CHANGES 3 /* a step */

static void
change_some (TwJob *job, GRand *rng)
{
  for (guint i = 0; i < CHANGES; i++) {
    g_autoptr (TwChange) change = tw_extreme_change (job, rng), inverse = NULL;

    if (change != NULL)
      g_assert_true (tw_change_apply (change, job, &inverse, NULL));
  }
}

static void
test_attack (void)
{
  const char *wanted = g_getenv ("TW_RANDOM_JOBS");
  guint32 n = wanted != NULL ? (guint32)atoi (wanted) : JOBS;
  GRand *rng = g_rand_new_with_seed (7);

  for (guint32 seed = 0; seed < n; seed++) {
    g_autoptr (TwJob) job = tw_random_job (seed);

    for (guint step = 0; step < STEPS; step++) {
      g_autofree char *text = NULL;

      change_some (job, rng);
      text = tw_job_write_text (job);
      g_test_message ("job %u, step %u", seed, step);
      LLVMFuzzerTestOneInput ((const uint8_t *)text, strlen (text));
    }
  }
  g_rand_free (rng);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fuzz/attack", test_attack);
  return g_test_run ();
}
