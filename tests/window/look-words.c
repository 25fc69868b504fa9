/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "look-private.h"

#include <string.h>

#define BEGIN 0x27E6u /* brackets of the made-up language */
#define END 0x27E7u

/* Said alike in every language: units, and the program's own name. */
static const char *const same_everywhere[]
    = { "mm",  "cm",  "in",  "ft",  "min", "kg",  "ml",  "kW",  "Pa", "kPa", "bar",
        "psi", "inH", "rad", "deg", "cfm", "gpm", "rpm", "gal", "lb", "US",  "Tankwright" };

static gboolean
is_same_everywhere (const char *word)
{
  for (guint i = 0; i < G_N_ELEMENTS (same_everywhere); i++)
    if (g_str_equal (word, same_everywhere[i]))
      return TRUE;
  return FALSE;
}

/* What of @text stands outside the brackets. (transfer full) */
static char *
outside (const char *text)
{
  GString *left = g_string_new (NULL);
  int depth = 0;

  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at)) {
    gunichar sign = g_utf8_get_char (at);

    depth += sign == BEGIN;
    if (depth == 0)
      g_string_append_unichar (left, sign);
    depth -= sign == END && depth > 0;
  }
  return g_string_free (left, FALSE);
}

/* Ids such as (via-1), by which the command and the file call a thing. */
static char *
without_ids (const char *text)
{
  g_autoptr (GRegex) ids = g_regex_new ("\\([a-z-]+-[0-9]+\\)", 0, 0, NULL);

  return g_regex_replace_literal (ids, text, -1, 0, "", 0, NULL);
}

static char *
without_names (char *text, const GPtrArray *names)
{
  GString *left = g_string_new (text);

  g_free (text);
  for (guint i = 0; i < names->len; i++)
    g_string_replace (left, g_ptr_array_index (names, i), " ", 0);
  return g_string_free (left, FALSE);
}

/* The first word of two plain letters or more that no language shares, or NULL. (transfer full) */
static char *
foreign_word (const char *text, const GPtrArray *names)
{
  g_autofree char *whole = without_ids (text);
  g_autofree char *left = without_names (outside (without_names (g_steal_pointer (&whole), names)), names);
  g_auto (GStrv) words = g_strsplit_set (left, " \t\n,.;:()[]{}/+-0123456789·×–—=%", -1);

  for (guint i = 0; words[i] != NULL; i++)
    if (g_ascii_isalpha (words[i][0]) && g_ascii_isalpha (words[i][1]) && !is_same_everywhere (words[i]))
      return g_strdup (words[i]);
  return NULL;
}

static void
judge_words (LookWalk *walk, GtkWidget *widget, const char *text, const GPtrArray *names)
{
  g_autofree char *word = text ? foreign_word (text, names) : NULL;

  if (word != NULL)
    look_fault (walk, widget, "says \"%s\" untranslated in \"%s\"", word, text);
}

static void
judge (LookWalk *walk, GtkWidget *widget, const GPtrArray *names)
{
  g_autofree char *text = GTK_IS_TEXT (widget) ? NULL : look_text (widget), *name = NULL;

  if (GTK_IS_WINDOW_CONTROLS (widget))
    return; /* the platform's */
  judge_words (walk, widget, text, names);
  judge_words (walk, widget, gtk_widget_get_tooltip_text (widget), names);
  if (look_is_usable (widget) && text == NULL) {
    name = look_name (widget);
    judge_words (walk, widget, g_strcmp0 (name, "(by another)") == 0 ? NULL : name, names);
  }
  for (GtkWidget *child = look_first (widget); child != NULL; child = look_next (child))
    judge (walk, child, names);
}

GPtrArray *
look_foreign (GtkWidget *root, const GPtrArray *names)
{
  LookWalk walk = { root, g_ptr_array_new_with_free_func (g_free) };

  judge (&walk, root, names);
  return walk.faults;
}
