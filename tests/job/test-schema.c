/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * data/tankwright-job.schema.json is what the field lists give. With TW_RENEW set it is written afresh: look
 * at the difference before keeping it.
 */
#include "job/fields.h"
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

/* `rated_v` and `rated_a` would both have been typed as `rated_typed`. */
static void
test_members_differ (void)
{
  for (guint kind = 0; kind < TW_N_KINDS; kind++) {
    const TwKindInfo *info = tw_kind_info (kind);
    g_autoptr (GHashTable) names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

    g_assert_true (g_hash_table_add (names, g_strdup ("id")));
    for (guint i = 0; i < info->n_lists; i++)
      g_assert_true (g_hash_table_add (names, g_strdup (info->lists[i].name)));
    for (guint i = 0; i < info->n_fields; i++) {
      char *typed = tw_field_typed_name (&info->fields[i]);

      if (!g_hash_table_add (names, g_strdup (info->fields[i].name))
          || (typed != NULL && !g_hash_table_add (names, typed)))
        g_error ("%s.%s: a member of this name is there already", info->stem, info->fields[i].name);
    }
  }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job/schema/is-up-to-date", test_is_up_to_date);
  g_test_add_func ("/job/schema/members-differ", test_members_differ);
  return g_test_run ();
}
