/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reading a job against cJSON's parse alone of the same bytes; writing it against reading it.
 *
 * Both are timed in turn in one run, so the ratios hold whatever the machine does meanwhile. `bench-read
 * FILE…`
 */
#include "job/read.h"
#include "job/write.h"

#include <stdlib.h>
#include <string.h>

#define ROUNDS 41

static int
by_value (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;

  return x < y ? -1 : x > y;
}

static double
median (double *values)
{
  qsort (values, ROUNDS, sizeof *values, by_value);
  return values[ROUNDS / 2];
}

static void
bench (const char *path)
{
  double parse[ROUNDS], read[ROUNDS], write[ROUNDS];
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  gsize length;

  if (!g_file_get_contents (path, &text, &length, &error))
    g_error ("%s", error->message);
  for (guint i = 0; i < ROUNDS; i++) {
    g_autoptr (TwTroubles) troubles = tw_troubles_new ();
    g_autofree char *again = NULL;
    gint64 t0 = g_get_monotonic_time (), t1, t2, t3;
    cJSON *tree = cJSON_ParseWithLength (text, length);
    TwJob *job;

    cJSON_Delete (tree);
    t1 = g_get_monotonic_time ();
    job = tw_job_read_text (text, length, troubles);
    t2 = g_get_monotonic_time ();
    g_assert_nonnull (job);
    again = tw_job_write_text (job);
    t3 = g_get_monotonic_time ();
    tw_job_free (job);
    parse[i] = (double)(t1 - t0);
    read[i] = (double)(t2 - t1);
    write[i] = (double)(t3 - t2);
  }
  g_print ("%-28s %7.0f bytes  cJSON parse %6.0f us  read/parse %5.1f  write/parse %5.1f\n",
           strrchr (path, '/') + 1, (double)length, median (parse), median (read) / median (parse),
           median (write) / median (parse));
}

int
main (int argc, char *argv[])
{
  for (int i = 1; i < argc; i++)
    bench (argv[i]);
  return 0;
}
