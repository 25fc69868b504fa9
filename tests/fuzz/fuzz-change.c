/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Any bytes at all into the reader of changes: it refuses and says why, or gives a change that is written,
 * read and written again without a byte's difference; a job takes it whole or is left as it was.
 */
#include "job/change-text.h"
#include "job/write.h"

#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput (const uint8_t *bytes, size_t length);

/* A core with a tank, for the change to fall on. */
static TwJob *
make_job (void)
{
  static const char *const ids[] = { "core-1", "tank-1" };
  TwJob *job = tw_job_new ();
  TwPart *tank;
  TwId id[2];

  for (guint i = 0; i < 2; i++)
    g_assert_true (tw_id_from_text (ids[i], &id[i]));
  tw_job_insert (job, tw_part_new (TW_KIND_CORE, id[0]), -1);
  tank = tw_part_new (TW_KIND_TANK, id[1]);
  ((TwTank *)tank)->core = id[0];
  tw_job_insert (job, tank, -1);
  return job;
}

static void
try_on_job (const TwChange *change)
{
  g_autoptr (TwJob) job = make_job ();
  g_autofree char *before = tw_job_write_text (job), *after = NULL;
  g_autoptr (TwChange) inverse = NULL, forth = NULL;
  g_autoptr (GError) error = NULL;

  if (tw_change_apply (change, job, &inverse, &error))
    g_assert_true (tw_change_apply (inverse, job, &forth, NULL));
  else
    g_assert_nonnull (error);
  after = tw_job_write_text (job);
  g_assert_true (g_str_equal (before, after));
}

int
LLVMFuzzerTestOneInput (const uint8_t *bytes, size_t length)
{
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  g_autoptr (TwChange) change = tw_change_read_text ((const char *)bytes, length, troubles);
  g_autoptr (TwChange) back = NULL;
  g_autofree char *text = NULL, *again = NULL;

  if (change == NULL) {
    g_assert_cmpuint (troubles->n, >, 0);
    return 0;
  }
  g_assert_cmpuint (troubles->n, ==, 0);
  text = tw_change_write_text (change, NULL);
  back = tw_change_read_text (text, strlen (text), troubles);
  g_assert_nonnull (back);
  again = tw_change_write_text (back, NULL);
  g_assert_true (g_str_equal (text, again));
  try_on_job (change);
  return 0;
}
