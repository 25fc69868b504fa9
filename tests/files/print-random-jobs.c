/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * print-random-jobs COUNT: that many random jobs as their files, each followed by a zero byte.
 */
#include "job/write.h"
#include "support/make-job.h"

#include <stdio.h>

int
main (int argc, char *argv[])
{
  guint64 count = argc == 2 ? g_ascii_strtoull (argv[1], NULL, 10) : 0;

  for (guint32 seed = 0; seed < count; seed++) {
    g_autoptr (TwJob) job = tw_random_job (seed);
    g_autofree char *text = tw_job_write_text (job);

    fputs (text, stdout);
    fputc ('\0', stdout);
  }
  return count > 0 ? 0 : 2;
}
