/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Any bytes at all into the reader of jobs: it refuses and says why, or gives a job that is written, read and
 * written again without a byte's difference.
 */
#include "job/read.h"
#include "job/write.h"

#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput (const uint8_t *bytes, size_t length);

int
LLVMFuzzerTestOneInput (const uint8_t *bytes, size_t length)
{
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  g_autoptr (TwJob) job = tw_job_read_text ((const char *)bytes, length, troubles);
  g_autoptr (TwJob) back = NULL;
  g_autofree char *text = NULL, *again = NULL;

  if (job == NULL) {
    g_assert_cmpuint (troubles->n, >, 0);
    return 0;
  }
  g_assert_cmpuint (troubles->n, ==, 0);
  text = tw_job_write_text (job);
  back = tw_job_read_text (text, strlen (text), troubles);
  g_assert_nonnull (back);
  again = tw_job_write_text (back);
  g_assert_true (g_str_equal (text, again));
  g_assert_true (tw_job_equal (job, back));
  return 0;
}
