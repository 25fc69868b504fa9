/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * data/tankwright-job.schema.json is what the field lists give. With TW_RENEW set it is written afresh: look
 * at the difference before keeping it.
 */
#include "job/schema.h"

static void
test_is_up_to_date (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("TANKWRIGHT_DATA"), "tankwright-job.schema.json", NULL);
  g_autofree char *text = tw_job_schema_text (), *stored = NULL;
  g_autoptr (GError) error = NULL;

  if (g_getenv ("TW_RENEW") != NULL)
    g_assert_true (g_file_set_contents (path, text, -1, &error));
  g_assert_true (g_file_get_contents (path, &stored, NULL, &error));
  if (!g_str_equal (stored, text))
    g_error ("%s is not what the field lists give; run this test with TW_RENEW=1 and look at it", path);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job/schema/is-up-to-date", test_is_up_to_date);
  return g_test_run ();
}
