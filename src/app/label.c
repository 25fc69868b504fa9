/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/label.h"

#define THIN_SPACE "\342\200\211"      /* U+2009: between figure and unit; a line may break there */
#define THIN_KEPT_SPACE "\342\200\257" /* U+202F: as narrow, and none does */

gboolean
tw_label_show (GtkLabel *label, const char *text)
{
  GString *kept = g_string_new (text);
  gboolean changed;

  g_string_replace (kept, THIN_SPACE, THIN_KEPT_SPACE, 0);
  changed = !g_str_equal (gtk_label_get_text (label), kept->str);
  if (changed)
    gtk_label_set_text (label, kept->str);
  g_string_free (kept, TRUE);
  return changed;
}
