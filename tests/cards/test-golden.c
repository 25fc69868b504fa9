/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Cards of two samples as the command shows them, against texts that were looked at before they were kept.
 * They are the same in any locale but for the decimal sign that the caller asks for. After a change that is
 * meant, run this program with TW_KEEP_GOLDEN=1, and look at what git says.
 */
#include "cards/json.h"
#include "cards/text.h"
#include "cards/told.h"

static void
assert_golden (const char *name, const char *text)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "cards", "golden", name, NULL);
  g_autofree char *kept = NULL;
  g_autoptr (GError) error = NULL;

  if (g_getenv ("TW_KEEP_GOLDEN") != NULL) {
    g_file_set_contents (path, text, -1, &error);
    g_assert_no_error (error);
  }
  g_file_get_contents (path, &kept, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (text, ==, kept);
}

static void
test_text (gconstpointer data)
{
  const char *sample = data;
  g_autofree char *file = g_strconcat (sample, ".twjob", NULL);
  g_autofree char *golden = g_strconcat (sample, ".txt", NULL);
  Told told = told_open (file);
  g_autofree char *text = NULL;

  told_tell (&told);
  text = tw_cards_text (told.cards, TW_TEXT_NOTES | TW_TEXT_WHERE);
  assert_golden (golden, text);
  told_clear (&told);
}

static void
test_json (gconstpointer data)
{
  const char *sample = data;
  g_autofree char *file = g_strconcat (sample, ".twjob", NULL);
  g_autofree char *golden = g_strconcat (sample, ".json", NULL);
  Told told = told_open (file);
  g_autofree char *text = NULL;
  cJSON *tree;

  told_tell (&told);
  tree = tw_findings_json (tw_answer_findings (told.answer));
  text = tw_json_print (tree);
  assert_golden (golden, text);
  cJSON_Delete (tree);
  told_clear (&told);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/cards/golden/merlin-tail", "merlin-tail", test_text);
  g_test_add_data_func ("/cards/golden/caravan-4", "caravan-4", test_text);
  g_test_add_data_func ("/cards/golden/ox-findings", "ox", test_json);
  return g_test_run ();
}
