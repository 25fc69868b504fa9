/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each tests/files/broken/NAME.twjob is refused with exactly the troubles in NAME.expected, a line each. With
 * TW_RENEW set these are written afresh: read them before keeping them.
 */
#include "job/read.h"

#include <string.h>

/* What is said of the file, a line each. */
static char *
troubles_of (const char *path)
{
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  g_autoptr (GString) lines = g_string_new (NULL);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  TwJob *job;
  gsize length;

  g_assert_true (g_file_get_contents (path, &text, &length, &error));
  job = tw_job_read_text (text, length, troubles);
  g_assert_null (job);
  for (guint i = 0; i < troubles->list->len; i++) {
    g_autofree char *line = tw_trouble_text (g_ptr_array_index (troubles->list, i));

    g_string_append_printf (lines, "%s\n", line);
  }
  if (troubles->n > troubles->list->len)
    g_string_append_printf (lines, "and %u more\n", troubles->n - troubles->list->len);
  return g_string_free (g_steal_pointer (&lines), FALSE);
}

static void
test_broken (gconstpointer path)
{
  g_autofree char *stem = g_strndup (path, strlen (path) - strlen (".twjob"));
  g_autofree char *expected_path = g_strconcat (stem, ".expected", NULL);
  g_autofree char *said = troubles_of (path), *expected = NULL;
  g_autoptr (GError) error = NULL;

  if (g_getenv ("TW_RENEW") != NULL)
    g_assert_true (g_file_set_contents (expected_path, said, -1, &error));
  g_assert_true (g_file_get_contents (expected_path, &expected, NULL, &error));
  g_assert_cmpstr (said, ==, expected);
}

int
main (int argc, char *argv[])
{
  g_autofree char *folder = NULL;
  g_autoptr (GDir) files = NULL;
  const char *name;
  guint n = 0;

  g_test_init (&argc, &argv, NULL);
  folder = g_test_build_filename (G_TEST_DIST, "files", "broken", NULL);
  files = g_dir_open (folder, 0, NULL);
  g_assert_nonnull (files);
  while ((name = g_dir_read_name (files)) != NULL)
    if (g_str_has_suffix (name, ".twjob")) {
      g_autofree char *test = g_strdup_printf ("/files/broken/%s", name);

      g_test_add_data_func_full (test, g_build_filename (folder, name, NULL), test_broken, g_free);
      n++;
    }
  g_assert_cmpuint (n, >=, 60);
  return g_test_run ();
}
