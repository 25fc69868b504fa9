/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files that are far too large: a clear message, soon, in bounded memory. Each is read by a child process, so
 * that its peak memory is its own. The bounds are for any machine, not a measurement: a build with checkers
 * takes several times as much and only has to be right.
 */
#include "job/read.h"

#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#if defined(__SANITIZE_ADDRESS__)
#define CHECKED 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define CHECKED 1
#endif
#endif
#ifndef CHECKED
#define CHECKED 0
#endif

#define MOST_SECONDS (CHECKED ? 100 : 10)
#define MOST_MEGABYTES 200

typedef struct {
  const char *name;
  const char *begin, *piece, *end; /* of the file; a `%u` in the piece is its number */
  guint n_pieces;
  const char *says;
} Case;

/* clang-format off */
static const Case cases[] = {
  { "hundred-megabytes", "{ \"tankwright-job\": 1, \"note\": \"", "a hundred bytes of text that are written "
    "down again and again until the file is very much too large. %09u ", "\" }", 1000000, "at most 16777216" },
  { "hundred-megabytes-of-blanks", "", "                                                                    "
    "                                ", "{ \"tankwright-job\": 1 }", 1000000, "at most 16777216" },
  { "hundred-thousand-parts", "{ \"tankwright-job\": 1, \"cores\": [{ \"id\": \"core\" }", ",\n{ \"id\": \"c%u\" }",
    "] }", 100000, "found 100001 parts, expected at most 10000" },
  { "million-levels-of-lists", "{ \"tankwright-job\": 1, \"later\": ", "[", "", 1000000, "fewer lists" },
  { "million-levels-of-objects", "", "{\"a\":", "", 1000000, "fewer lists" },
  { "million-levels-closed", "[", "[],[", "]", 1000000, "fewer lists" },
  { "million-values", "{ \"tankwright-job\": 1, \"later\": [0", ",%u", "] }", 1000000, "at most 500000 values" },
  { "million-members", "{ \"tankwright-job\": 1", ",\"m%u\":0", "}", 1000000, "at most 500000 values" },
  { "ten-thousand-broken-tanks", "{ \"tankwright-job\": 1, \"tanks\": [{ \"id\": \"tank\" }",
    ",{ \"id\": \"t%u\", \"core\": \"c%u\", \"wall_mm\": 0 }", "] }", 9999, "and 19799 more" },
};
/* clang-format on */

static char *
write_case (const Case *c)
{
  char *path = g_build_filename (g_get_tmp_dir (), "huge-XXXXXX", NULL);
  FILE *file = fdopen (g_mkstemp (path), "w");

  g_assert_nonnull (file);
  fputs (c->begin, file);
  for (guint i = 0; i < c->n_pieces; i++) {
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
    fprintf (file, c->piece, i, i);
#pragma GCC diagnostic pop
  }
  fputs (c->end, file);
  g_assert_cmpint (fclose (file), ==, 0);
  return path;
}

/* Reads @path in a child; what it said, and what it took. */
static char *
read_in_child (const char *path, struct rusage *used)
{
  g_autoptr (GString) said = g_string_new (NULL);
  char buffer[4096];
  int ends[2], status;
  gssize n;
  pid_t child;

  g_assert_cmpint (pipe (ends), ==, 0);
  child = fork ();
  g_assert_cmpint (child, >=, 0);
  if (child == 0) {
    GError *error = NULL;
    TwJob *job = tw_job_read_file (path, &error);
    const char *text = job != NULL ? "sound" : error->message;

    _exit (write (ends[1], text, strlen (text)) == (gssize)strlen (text) ? 0 : 1);
  }
  close (ends[1]);
  while ((n = read (ends[0], buffer, sizeof buffer)) > 0)
    g_string_append_len (said, buffer, n);
  close (ends[0]);
  g_assert_cmpint (wait4 (child, &status, 0, used), ==, child);
  g_assert_true (WIFEXITED (status) && WEXITSTATUS (status) == 0);
  return g_string_free (g_steal_pointer (&said), FALSE);
}

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autofree char *path = write_case (c), *said = NULL;
  struct rusage used;
  double seconds;

  said = read_in_child (path, &used);
  g_unlink (path);
  if (strstr (said, c->says) == NULL)
    g_error ("\"%.300s\" does not say \"%s\"", said, c->says);
  seconds = (double)(used.ru_utime.tv_sec + used.ru_stime.tv_sec)
            + (double)(used.ru_utime.tv_usec + used.ru_stime.tv_usec) / 1e6;
  g_test_message ("%.2f s, %ld MB at most", seconds, used.ru_maxrss / 1024);
  g_assert_cmpfloat (seconds, <, MOST_SECONDS);
  if (!CHECKED)
    g_assert_cmpint (used.ru_maxrss / 1024, <, MOST_MEGABYTES);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strdup_printf ("/files/huge/%s", cases[i].name);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  return g_test_run ();
}
