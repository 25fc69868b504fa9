/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Display lists of two samples as text, against lists that were looked at as drawings before they were kept.
 * Letters are measured by the fixed measure, so that no font has a say. After a change that is meant, run
 * this program with TW_KEEP_GOLDEN=1, look at the sheets, and at what git says.
 */
#include "base/units.h"
#include "sheets/desk.h"

#include <math.h>

/* Hundredths of a millimetre on paper. */
static void
append_point (GString *text, TwPoint at)
{
  g_string_append_printf (text, " %ld,%ld", lround (at.x_mm * 100), lround (at.y_mm * 100));
}

static const char *const kinds[] = { "line", "fill", "tone", "hatch", "text", "arrow", "dot", "ring" };

/* Long paths by their ends and number of corners: what matters of them is proved elsewhere. */
static void
append_item (GString *text, const TwInkItem *item)
{
  g_string_append_printf (text, "%s %s %d %d", item->style.layer, kinds[item->kind], (int)item->style.pen,
                          (int)item->style.tint);
  if (item->kind == TW_INK_TEXT) {
    append_point (text, item->place.at);
    g_string_append_printf (text, " %d%s \"%s\"\n", (int)item->place.size, item->place.upright ? " up" : "",
                            item->text);
    return;
  }
  append_point (text, item->corners[0].at);
  if (item->n_corners > 1)
    append_point (text, item->corners[item->n_corners - 1].at);
  if (item->n_corners > 2)
    g_string_append_printf (text, " of %u%s", item->n_corners, item->closed ? " closed" : "");
  g_string_append_c (text, '\n');
}

static void
assert_golden (const char *name, const char *text)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "sheets", "golden", name, NULL);
  g_autofree char *kept = NULL;
  g_autoptr (GError) error = NULL;

  if (g_getenv ("TW_KEEP_GOLDEN") != NULL) {
    g_file_set_contents (path, text, -1, &error);
    g_assert_no_error (error);
  }
  g_file_get_contents (path, &kept, NULL, &error);
  g_assert_no_error (error);
  if (!g_str_equal (text, kept)) {
    g_auto (GStrv) now = g_strsplit (text, "\n", -1), then = g_strsplit (kept, "\n", -1);
    guint i = 0;

    while (now[i] != NULL && then[i] != NULL && g_str_equal (now[i], then[i]))
      i++;
    g_test_message ("line %u is \"%s\", was \"%s\"", i + 1, now[i], then[i]);
    g_test_fail ();
  }
}

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
    for (guint k = 0; k < tw_ink_count (sheet->ink); k++)
      append_item (text, tw_ink_get (sheet->ink, k));
  }
  assert_golden (name, text->str);
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
