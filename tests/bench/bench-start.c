/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The whole program against an empty one of the platform, each in a process of its own, from before it is
 * loaded to its first painted frame; and the memory that it then holds. They start in turn, so that whatever
 * the machine does meets all alike. `bench-start EMPTY WHOLE FILE…`: without a job, and with each of the
 * files.
 */
#include "first-frame.h"
#include "times.h"

#include <gio/gio.h>
#include <stdio.h>

#define ROUNDS 7

enum { WALL_MS, CPU_MS, PSS_KIB, RSS_KIB, N_FIGURES };

/* Runs the program once, @file NULL: without one. */
static void
start (const char *program, const char *file, double figures[N_FIGURES])
{
  g_autoptr (GSubprocessLauncher) launcher = g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE);
  g_autoptr (GSubprocess) process = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *said = NULL, *since = g_strdup_printf ("%" G_GINT64_FORMAT, g_get_monotonic_time ());

  g_subprocess_launcher_setenv (launcher, FIRST_FRAME_SINCE, since, TRUE);
  process = g_subprocess_launcher_spawn (launcher, &error, program, file, NULL);
  if (process == NULL || !g_subprocess_communicate_utf8 (process, NULL, NULL, &said, NULL, &error))
    g_error ("%s: %s", program, error->message);
  if (sscanf (said, "%lf %lf %lf %lf", &figures[WALL_MS], &figures[CPU_MS], &figures[PSS_KIB],
              &figures[RSS_KIB])
      != N_FIGURES)
    g_error ("%s said \"%s\"", program, said);
}

/* One program with one file, or the empty one. */
typedef struct {
  const char *program, *file;
  double figures[N_FIGURES][ROUNDS];
  double medians[N_FIGURES];
} Case;

static void
measure (Case *cases, guint n)
{
  double warm[N_FIGURES];

  for (guint i = 0; i < n; i++)
    start (cases[i].program, cases[i].file, warm); /* the first of all pays for disk and font caches */
  for (guint round = 0; round < ROUNDS; round++) {
    for (guint i = 0; i < n; i++) {
      double figures[N_FIGURES];

      start (cases[i].program, cases[i].file, figures);
      for (guint k = 0; k < N_FIGURES; k++)
        cases[i].figures[k][round] = figures[k];
    }
  }
  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < N_FIGURES; k++)
      cases[i].medians[k] = times_median (cases[i].figures[k], ROUNDS);
}

static void
say (const Case *a, const Case *empty)
{
  const double *is = a->medians, *base = empty->medians;
  g_autofree char *name
      = a->file ? g_path_get_basename (a->file) : g_strdup (a == empty ? "empty" : "no job");

  g_print ("%-18s %4.0f ms (%.2f of empty)  processor %4.0f ms (%.2f of empty)  own memory %5.1f MB (%+.1f)"
           "  resident %5.1f MB (%+.1f)\n",
           name, is[WALL_MS], is[WALL_MS] / base[WALL_MS], is[CPU_MS], is[CPU_MS] / base[CPU_MS],
           is[PSS_KIB] / 1024, (is[PSS_KIB] - base[PSS_KIB]) / 1024, is[RSS_KIB] / 1024,
           (is[RSS_KIB] - base[RSS_KIB]) / 1024);
}

int
main (int argc, char *argv[])
{
  guint n = (guint)argc - 1;
  g_autofree Case *cases = NULL;

  if (g_getenv ("DISPLAY") == NULL) {
    g_print ("no display\n");
    return 0;
  }
  g_assert (argc >= 3);
  cases = g_new0 (Case, n);
  for (guint i = 0; i < n; i++) {
    cases[i].program = argv[MIN (i, 1) + 1];
    cases[i].file = i > 1 ? argv[i + 1] : NULL;
  }
  measure (cases, n);
  for (guint i = 0; i < n; i++)
    say (&cases[i], &cases[0]);
  return 0;
}
