/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/help-book.h"

#include "app/help-made.h"
#include "base/data.h"

#include <string.h>

#define EXCERPT_BEFORE 24 /* characters kept before the word that was found */
#define EXCERPT_MOST 80   /* characters of an excerpt */

struct _TwHelpBook {
  GPtrArray *pages; /* of TwHelpPage */
};

void
tw_help_book_free (TwHelpBook *self)
{
  g_ptr_array_unref (self->pages);
  g_free (self);
}

/* The text of a page in the first language that has it. (transfer full) (nullable) */
static char *
page_text (const char *name, const char *const *languages, GError **error)
{
  g_autofree char *last = g_strdup_printf ("help/C/%s.md", name);
  g_autofree char *path = NULL;
  char *text = NULL;

  for (guint i = 0; languages[i] != NULL && path == NULL; i++) {
    g_autofree char *file = g_strdup_printf ("help/%s/%s.md", languages[i], name);

    path = tw_data_find_shipped (file, NULL);
  }
  if (path == NULL)
    path = tw_data_find_shipped (last, error);
  if (path != NULL && !g_file_get_contents (path, &text, NULL, error))
    return NULL;
  return text;
}

static gboolean
add_page (TwHelpBook *self,
          const char *name,
          const char *const *languages,
          TwHelpKeys keys,
          gpointer data,
          GError **error)
{
  g_autofree char *made = tw_help_made_text (name, error);
  g_autofree char *text = NULL;
  TwHelpPage *page;

  if (made == NULL && error != NULL && *error != NULL)
    return FALSE;
  text = made ? g_steal_pointer (&made) : page_text (name, languages, error);
  if (text == NULL)
    return FALSE;
  page = tw_help_page_read (name, text, keys, data, error);
  if (page == NULL)
    return FALSE;
  g_ptr_array_add (self->pages, page);
  return TRUE;
}

TwHelpBook *
tw_help_book_new (const char *const *languages, TwHelpKeys keys, gpointer data, GError **error)
{
  g_autofree char *path = tw_data_find_shipped ("help/pages", error);
  g_autofree char *text = NULL;
  g_auto (GStrv) names = NULL;
  g_autoptr (TwHelpBook) self = NULL;
  GError *trouble = NULL;

  if (path == NULL || !g_file_get_contents (path, &text, NULL, error))
    return NULL;
  if (languages == NULL)
    languages = g_get_language_names ();
  names = g_strsplit (g_strstrip (text), "\n", -1);
  self = g_new0 (TwHelpBook, 1);
  self->pages = g_ptr_array_new_with_free_func ((GDestroyNotify)tw_help_page_free);
  for (guint i = 0; names[i] != NULL; i++)
    if (!add_page (self, g_strstrip (names[i]), languages, keys, data, &trouble)) {
      g_propagate_error (error, trouble);
      return NULL;
    }
  return g_steal_pointer (&self);
}

guint
tw_help_book_count (const TwHelpBook *self)
{
  return self->pages->len;
}

const TwHelpPage *
tw_help_book_get (const TwHelpBook *self, guint nth)
{
  g_assert (nth < self->pages->len);
  return g_ptr_array_index (self->pages, nth);
}

const TwHelpPage *
tw_help_book_find (const TwHelpBook *self, const char *name)
{
  for (guint i = 0; i < self->pages->len; i++) {
    const TwHelpPage *page = g_ptr_array_index (self->pages, i);

    if (g_str_equal (page->name, name))
      return page;
  }
  return NULL;
}

/* --- searching ------------------------------------------------------------------------------------------ */

static char **
folded_words (const char *words)
{
  g_autofree char *folded = g_utf8_casefold (words, -1);

  return g_strsplit_set (g_strstrip (folded), " \t", -1);
}

gboolean
tw_help_page_has (const TwHelpPage *page, const char *words)
{
  g_auto (GStrv) sought = folded_words (words);
  g_autofree char *folded = g_utf8_casefold (page->plain, -1);

  for (guint i = 0; sought[i] != NULL; i++)
    if (strstr (folded, sought[i]) == NULL)
      return FALSE;
  return TRUE;
}

/* The part of @line round @place (bytes), whole words. */
static char *
cut_out (const char *line, gsize place)
{
  glong length = g_utf8_strlen (line, -1);
  glong at = g_utf8_pointer_to_offset (line, line + place);
  glong from = MAX (0, at - EXCERPT_BEFORE), to = MIN (length, from + EXCERPT_MOST);
  g_autofree char *part = NULL;

  while (from > 0 && *g_utf8_offset_to_pointer (line, from - 1) != ' ')
    from--;
  while (to < length && *g_utf8_offset_to_pointer (line, to) != ' ')
    to++;
  part = g_utf8_substring (line, from, to);
  return g_strdup_printf ("%s%s%s", from > 0 ? "… " : "", part, to < length ? " …" : "");
}

char *
tw_help_page_excerpt (const TwHelpPage *page, const char *words)
{
  g_auto (GStrv) sought = folded_words (words);
  g_auto (GStrv) lines = g_strsplit (page->plain, "\n", -1);

  if (sought[0] == NULL || sought[0][0] == '\0')
    return NULL;
  for (guint i = 1; lines[i] != NULL; i++) {
    g_autofree char *lower = g_utf8_strdown (lines[i], -1);
    const char *found = strstr (lower, sought[0]);

    /* a letter whose small form is longer would shift the place: then the line from its start */
    if (found != NULL)
      return cut_out (lines[i], strlen (lower) == strlen (lines[i]) ? (gsize)(found - lower) : 0);
  }
  return NULL;
}
