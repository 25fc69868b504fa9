/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The samples are sound and stored exactly as the program writes them.
 */
#include "job/drawing.h"
#include "job/read.h"
#include "job/write.h"

#include <string.h>

static char *
sample_path (const char *name)
{
  return g_test_build_filename (G_TEST_DIST, "..", "samples", name, NULL);
}

/* Every core kind and every port's standard and size that a sample names is in the catalogue. */
static void
check_names (const TwJob *job, const TwCatalogue *catalogue)
{
  for (guint i = 0; i < tw_job_count (job, TW_KIND_CORE); i++) {
    const TwCore *core = (const TwCore *)tw_job_get (job, TW_KIND_CORE, i);

    g_assert_nonnull (tw_catalogue_find (catalogue, TW_CATALOGUE_CORE_KINDS, core->core_kind));
  }
  for (guint i = 0; i < tw_job_count (job, TW_KIND_TANK); i++) {
    const TwTank *tank = (const TwTank *)tw_job_get (job, TW_KIND_TANK, i);

    if (tank->alloy != NULL)
      g_assert_nonnull (tw_catalogue_find (catalogue, TW_CATALOGUE_ALLOYS, tank->alloy));
  }
  for (guint i = 0; i < tw_job_count (job, TW_KIND_PORT); i++) {
    const TwPort *port = (const TwPort *)tw_job_get (job, TW_KIND_PORT, i);

    if (port->size != NULL)
      g_assert_nonnull (tw_catalogue_port (catalogue, port->standard, port->size));
  }
}

static void
test_sample (gconstpointer name)
{
  g_autofree char *path = sample_path (name), *stored = NULL, *written = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (TwCatalogue) catalogue = tw_catalogue_load (&error);
  g_autoptr (TwJob) job = NULL;

  g_assert_no_error (error);
  job = tw_job_read_file (path, &error);
  g_assert_no_error (error);
  g_assert_true (g_file_get_contents (path, &stored, NULL, &error));
  written = tw_job_write_text (job);
  if (!g_str_equal (stored, written))
    g_error ("%s is not stored as the program writes it", path);
  g_assert_nonnull (tw_job_settings (job)->note);
  check_names (job, catalogue);
}

int
main (int argc, char *argv[])
{
  g_autofree char *folder = NULL;
  g_autoptr (GDir) samples = NULL;
  const char *name;
  guint n = 0;

  g_test_init (&argc, &argv, NULL);
  folder = sample_path (".");
  samples = g_dir_open (folder, 0, NULL);
  g_assert_nonnull (samples);
  while ((name = g_dir_read_name (samples)) != NULL)
    if (g_str_has_suffix (name, ".twjob")) {
      g_autofree char *test = g_strdup_printf ("/files/samples/%s", name);

      g_test_add_data_func_full (test, g_strdup (name), test_sample, g_free);
      n++;
    }
  g_assert_cmpuint (n, >=, 5);
  return g_test_run ();
}
