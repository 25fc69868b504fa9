/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Made-up input for fuzz-job: bytes that were changed at random are hardly ever a job, so most of the time
 * the job is changed instead, by what a person could do and by figures at the ends of what fields take.
 */
#include "job/read.h"
#include "job/write.h"
#include "support/make-job.h"

#include <stdint.h>
#include <string.h>

/* Of libFuzzer. */
size_t LLVMFuzzerMutate (uint8_t *bytes, size_t length, size_t most);
size_t LLVMFuzzerCustomMutator (uint8_t *bytes, size_t length, size_t most, unsigned int seed);

static void
change_once (TwJob *job, GRand *rng)
{
  gboolean extreme = g_rand_int_range (rng, 0, 3) > 0;
  g_autoptr (TwChange) change = extreme ? tw_extreme_change (job, rng) : tw_random_change (job, rng);
  g_autoptr (TwChange) inverse = NULL;

  if (change != NULL)
    g_assert_true (tw_change_apply (change, job, &inverse, NULL));
}

size_t
LLVMFuzzerCustomMutator (uint8_t *bytes, size_t length, size_t most, unsigned int seed)
{
  GRand *rng = g_rand_new_with_seed (seed);
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  g_autoptr (TwJob) job = tw_job_read_text ((const char *)bytes, length, troubles);
  g_autofree char *text = NULL;
  gsize written;

  if (job == NULL)
    job = tw_random_job (g_rand_int (rng));
  for (int i = g_rand_int_range (rng, 1, 5); i > 0; i--)
    change_once (job, rng);
  g_rand_free (rng);
  text = tw_job_write_text (job);
  written = strlen (text);
  if (written > most)
    return LLVMFuzzerMutate (bytes, length, most);
  memcpy (bytes, text, written);
  return written;
}
