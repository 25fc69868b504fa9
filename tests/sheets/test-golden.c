/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Display lists of two samples as text, against lists that were looked at as drawings before they were kept.
 * Letters are measured by the fixed measure, so that no font has a say. After a change that is meant, run
 * this program with TW_KEEP_GOLDEN=1, look at the sheets, and at what git says.
 */
#include "sheets/desk.h"
#include "support/golden.h"

static void
test_sample (gconstpointer data)
{
  g_autoptr (TwJob) job = desk_sample (data);
  g_autofree char *name = g_strconcat (data, ".txt", NULL);
  g_autoptr (GString) text = g_string_new (NULL);
  Desk desk = desk_open ();
  g_autoptr (GPtrArray) sheets = NULL;

  desk.measure = tw_measure_fixed ();
  sheets = desk_sheets (&desk, job);
  g_assert_cmpuint (desk_count_faults (data, sheets), ==, 0);
  for (guint i = 0; i < sheets->len; i++) {
    const TwSheet *sheet = g_ptr_array_index (sheets, i);

    g_string_append_printf (text, "page %u %s %s\n", i + 1, sheet->id, tw_paper (sheet->size)->name);
    golden_append_ink (text, sheet->ink);
  }
  golden_assert ("sheets", name, text->str);
  desk_close (&desk);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/sheets/golden/merlin-tail", "merlin-tail", test_sample);
  g_test_add_data_func ("/sheets/golden/caravan-4", "caravan-4", test_sample);
  return g_test_run ();
}
