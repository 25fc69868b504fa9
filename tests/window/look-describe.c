/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "look-private.h"

#include "app/canvas-part.h"

#include <adwaita.h>
#include <string.h>

/* Thin spaces stand between figure and unit: @what as one would type it. (transfer full) */
static char *
as_typed (const char *what)
{
  GString *text = g_string_new (what);

  g_string_replace (text, "\342\200\211", " ", 0);
  g_string_replace (text, "\342\200\257", " ", 0);
  g_string_replace (text, "\302\240", " ", 0);
  return g_string_free (text, FALSE);
}

static void
add_line (GString *lines, LookWalk *walk, GtkWidget *widget, const char *said)
{
  g_autofree char *where = look_where (widget), *what = as_typed (said);
  graphene_rect_t seen;

  g_string_append_printf (lines, "%s | %s%s\n", where, what,
                          look_seen (widget, walk->root, &seen) ? "" : " ~");
}

static const char *
on_mark (GtkWidget *widget)
{
  if (GTK_IS_TOGGLE_BUTTON (widget))
    return gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (widget)) ? "*" : "";
  return gtk_widget_get_state_flags (widget) & (GTK_STATE_FLAG_SELECTED | GTK_STATE_FLAG_CHECKED) ? "*" : "";
}

/* `[name]`, `<name>` or `(name)`. */
static char *
usable_words (GtkWidget *widget, const char *brackets)
{
  g_autofree char *name = look_name (widget);

  if (!gtk_widget_is_sensitive (widget))
    return g_strdup_printf ("(%s)", name ? name : "");
  return g_strdup_printf ("%c%s%s%c", brackets[0], on_mark (widget), name ? name : "", brackets[1]);
}

static char *
chosen_text (GtkDropDown *list)
{
  gpointer item = gtk_drop_down_get_selected_item (list);

  return g_strdup (GTK_IS_STRING_OBJECT (item) ? gtk_string_object_get_string (item) : "");
}

/* What is told of @widget itself, or NULL; @whole: its children are told with it. (transfer full) */
static char *
words_of (GtkWidget *widget, gboolean *whole)
{
  g_autofree char *name = NULL, *text = NULL;

  *whole = TRUE;
  if (TW_IS_CANVAS_PART (widget))
    return usable_words (widget, "<>");
  if (GTK_IS_BUTTON (widget))
    return usable_words (widget, "[]");
  if (GTK_IS_DROP_DOWN (widget)) {
    name = look_name (widget);
    text = chosen_text (GTK_DROP_DOWN (widget));
    return g_strdup_printf ("%s = %s", name ? name : "", text);
  }
  if (GTK_IS_ENTRY (widget) || GTK_IS_SPIN_BUTTON (widget)) {
    name = look_name (widget);
    return g_strdup_printf ("%s = %s", name ? name : "", gtk_editable_get_text (GTK_EDITABLE (widget)));
  }
  *whole = FALSE;
  text = look_text (widget);
  return text != NULL && text[0] != '\0' ? g_steal_pointer (&text) : NULL;
}

static void
describe (GString *lines, LookWalk *walk, GtkWidget *widget)
{
  gboolean whole;
  g_autofree char *words = words_of (widget, &whole);

  if (words != NULL)
    add_line (lines, walk, widget, words);
  for (GtkWidget *child = whole ? NULL : look_first (widget); child != NULL; child = look_next (child))
    describe (lines, walk, child);
}

char *
look_describe (GtkWidget *root)
{
  LookWalk walk = { root, NULL };
  GString *lines = g_string_new (NULL);

  describe (lines, &walk, root);
  return g_string_free (lines, FALSE);
}

gboolean
look_shows (GtkWidget *root, const char *where, const char *what)
{
  g_autofree char *description = look_describe (root);
  g_auto (GStrv) lines = g_strsplit (description, "\n", -1);

  for (guint i = 0; lines[i] != NULL; i++)
    if (g_str_has_prefix (lines[i], where) && strstr (lines[i], what) != NULL)
      return TRUE;
  return FALSE;
}
