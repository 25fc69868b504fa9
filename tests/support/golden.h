/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * golden.h - display lists as text, against texts that were looked at before they were kept
 *
 * With TW_KEEP_GOLDEN set the text is kept; look at the drawing, and at what git says.
 */
#pragma once

#include <math.h>

#include "draw/ink.h"

/* Hundredths of a millimetre of ink. */
static inline void
golden_append_point (GString *text, TwPoint at)
{
  g_string_append_printf (text, " %ld,%ld", lround (at.x_mm * 100), lround (at.y_mm * 100));
}

/* Long paths by their ends and number of corners: what matters of them is proved elsewhere. */
static inline void
golden_append_item (GString *text, const TwInkItem *item)
{
  static const char *const kinds[] = { "line", "fill", "tone", "hatch", "text", "arrow", "dot", "ring" };

  g_string_append_printf (text, "%s %s %d %d", item->style.layer, kinds[item->kind], (int)item->style.pen,
                          (int)item->style.tint);
  if (item->kind == TW_INK_TEXT) {
    golden_append_point (text, item->place.at);
    g_string_append_printf (text, " %d%s \"%s\"\n", (int)item->place.size, item->place.upright ? " up" : "",
                            item->text);
    return;
  }
  golden_append_point (text, item->corners[0].at);
  if (item->n_corners > 1)
    golden_append_point (text, item->corners[item->n_corners - 1].at);
  if (item->n_corners > 2)
    g_string_append_printf (text, " of %u%s", item->n_corners, item->closed ? " closed" : "");
  g_string_append_c (text, '\n');
}

static inline void
golden_append_ink (GString *text, const TwInk *ink)
{
  for (guint i = 0; i < tw_ink_count (ink); i++)
    golden_append_item (text, tw_ink_get (ink, i));
}

/* Fails, and says where, if the file `golden/@name` of the tests of @folder holds another text. */
static inline void
golden_assert (const char *folder, const char *name, const char *text)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, folder, "golden", name, NULL);
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
