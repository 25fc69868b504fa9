/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/help-text.h"

#include "base/error.h"

#include <string.h>

/* A page while it is being read. */
typedef struct {
  TwHelpPage *page;
  TwHelpKeys keys;
  gpointer data;
  TwHelpBlock *open; /* takes further lines; NULL: none does */
  GString *joined;   /* its lines so far, with marks */
  GString *plain;
  guint first_line; /* of the open block, from 1 */
  guint step;
} Reader;

static void
free_block (gpointer data)
{
  TwHelpBlock *self = data;

  g_free (self->markup);
  g_free (self->picture);
  g_free (self);
}

void
tw_help_page_free (TwHelpPage *self)
{
  g_free (self->name);
  g_free (self->title);
  g_ptr_array_unref (self->blocks);
  g_ptr_array_unref (self->links);
  g_ptr_array_unref (self->words);
  g_ptr_array_unref (self->actions);
  g_free (self->plain);
  g_free (self);
}

static gboolean
refuse (const Reader *self, guint line, const char *what, GError **error)
{
  g_set_error (error, TW_ERROR, TW_ERROR_FORMAT, "%s, line %u: %s", self->page->name, line, what);
  return FALSE;
}

/* --- inside a line -------------------------------------------------------------------------------------- */

static void
append_escaped (GString *to, const char *text, gsize length)
{
  g_autofree char *escaped = g_markup_escape_text (text, (gssize)length);

  g_string_append (to, escaped);
}

/* What stands between @open (already passed) and @close; NULL when it does not end. */
static char *
take_until (const char **at, const char *close)
{
  const char *end = strstr (*at, close);
  char *inside;

  if (end == NULL || end == *at)
    return NULL;
  inside = g_strndup (*at, (gsize)(end - *at));
  *at = end + strlen (close);
  return inside;
}

static gboolean
take_link (Reader *self, const char **at, GString *markup)
{
  g_autofree char *words = NULL, *page = NULL;

  *at += 1;
  words = take_until (at, "](");
  page = words ? take_until (at, ")") : NULL;
  if (page == NULL)
    return FALSE;
  g_string_append_printf (markup, "<a href=\"%s\">", page);
  append_escaped (markup, words, strlen (words));
  g_string_append (markup, "</a>");
  g_string_append (self->plain, words);
  g_ptr_array_add (self->page->links, g_steal_pointer (&page));
  return TRUE;
}

static gboolean
take_keys (Reader *self, const char **at, GString *markup)
{
  g_autofree char *action = NULL, *keys = NULL;

  *at += 1;
  action = take_until (at, "}");
  if (action == NULL)
    return FALSE;
  keys = self->keys != NULL ? self->keys (action, self->data) : NULL;
  g_string_append (markup, "<tt>");
  append_escaped (markup, keys ? keys : action, strlen (keys ? keys : action));
  g_string_append (markup, "</tt>");
  g_string_append (self->plain, keys ? keys : action);
  g_ptr_array_add (self->page->actions, g_steal_pointer (&action));
  return TRUE;
}

/* A word on the screen is bold, a term slanted. */
static gboolean
take_stressed (Reader *self, const char **at, GString *markup)
{
  gboolean bold = g_str_has_prefix (*at, "**");
  g_autofree char *words = NULL;

  *at += bold ? 2 : 1;
  words = take_until (at, bold ? "**" : "*");
  if (words == NULL)
    return FALSE;
  g_string_append (markup, bold ? "<b>" : "<i>");
  append_escaped (markup, words, strlen (words));
  g_string_append (markup, bold ? "</b>" : "</i>");
  g_string_append (self->plain, words);
  if (bold)
    g_ptr_array_add (self->page->words, g_steal_pointer (&words));
  return TRUE;
}

/* (transfer full) (nullable): with an error */
static char *
to_markup (Reader *self, GError **error)
{
  g_autoptr (GString) markup = g_string_new (NULL);
  const char *at = self->joined->str;

  while (*at != '\0') {
    gsize plain = strcspn (at, "*[{");
    gboolean good = TRUE;

    append_escaped (markup, at, plain);
    g_string_append_len (self->plain, at, (gssize)plain);
    at += plain;
    if (*at == '*')
      good = take_stressed (self, &at, markup);
    else if (*at == '[')
      good = take_link (self, &at, markup);
    else if (*at == '{')
      good = take_keys (self, &at, markup);
    if (!good) {
      refuse (self, self->first_line, "a mark that is not closed", error);
      return NULL;
    }
  }
  g_string_append_c (self->plain, '\n');
  return g_strdup (markup->str);
}

/* --- lines ---------------------------------------------------------------------------------------------- */

static gboolean
close_block (Reader *self, GError **error)
{
  if (self->open == NULL)
    return TRUE;
  self->open->markup = to_markup (self, error);
  if (self->open->markup == NULL)
    return FALSE;
  self->open = NULL;
  return TRUE;
}

static gboolean
open_block (Reader *self, TwHelpBlockKind kind, const char *text, guint line, GError **error)
{
  if (!close_block (self, error))
    return FALSE;
  self->open = g_new0 (TwHelpBlock, 1);
  self->open->kind = kind;
  self->step = kind == TW_HELP_STEP ? self->step + 1 : 0;
  self->open->step = self->step;
  self->first_line = line;
  g_string_assign (self->joined, text);
  g_ptr_array_add (self->page->blocks, self->open);
  return TRUE;
}

static gboolean
take_picture (Reader *self, const char *text, guint line, GError **error)
{
  const char *at = text + strlen ("![");
  g_autofree char *shows = take_until (&at, "](");
  g_autofree char *picture = shows ? take_until (&at, ")") : NULL;

  if (picture == NULL)
    return refuse (self, line, "a picture is ![what it shows](sample/view)", error);
  if (!open_block (self, TW_HELP_PICTURE, shows, line, error))
    return FALSE;
  self->open->picture = g_steal_pointer (&picture);
  return close_block (self, error);
}

static gboolean
is_step (const char *text)
{
  const char *at = text;

  while (g_ascii_isdigit (*at))
    at++;
  return at > text && g_str_has_prefix (at, ". ");
}

static gboolean
take_line (Reader *self, const char *text, guint line, GError **error)
{
  if (text[0] == '\0')
    return close_block (self, error);
  if (g_str_has_prefix (text, "## "))
    return open_block (self, TW_HELP_HEADING, text + 3, line, error) && close_block (self, error);
  if (text[0] == '#')
    return refuse (self, line, "only the first line is a title", error);
  if (g_str_has_prefix (text, "- "))
    return open_block (self, TW_HELP_ITEM, text + 2, line, error);
  if (is_step (text))
    return open_block (self, TW_HELP_STEP, strchr (text, ' ') + 1, line, error);
  if (g_str_has_prefix (text, "!["))
    return take_picture (self, text, line, error);
  if (g_str_has_prefix (text, "> ") && (self->open == NULL || self->open->kind != TW_HELP_CAUTION))
    return open_block (self, TW_HELP_CAUTION, text + 2, line, error);
  if (self->open == NULL)
    return open_block (self, TW_HELP_PARAGRAPH, text, line, error);
  g_string_append_c (self->joined, ' ');
  g_string_append (self->joined, g_str_has_prefix (text, "> ") ? text + 2 : text);
  return TRUE;
}

static gboolean
take_lines (Reader *self, const char *text, GError **error)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);

  if (!g_utf8_validate (text, -1, NULL))
    return refuse (self, 1, "not UTF-8", error);
  if (!g_str_has_prefix (text, "# ") || lines[0][2] == '\0')
    return refuse (self, 1, "a page begins with # and its title", error);
  self->page->title = g_strdup (g_strstrip (lines[0] + 2));
  g_string_append_printf (self->plain, "%s\n", self->page->title);
  for (guint i = 1; lines[i] != NULL; i++)
    if (!take_line (self, g_strstrip (lines[i]), i + 1, error))
      return FALSE;
  return close_block (self, error);
}

TwHelpPage *
tw_help_page_read (const char *name, const char *text, TwHelpKeys keys, gpointer data, GError **error)
{
  g_autoptr (TwHelpPage) page = g_new0 (TwHelpPage, 1);
  g_autoptr (GString) joined = g_string_new (NULL);
  g_autoptr (GString) plain = g_string_new (NULL);
  Reader reader = { .page = page, .keys = keys, .data = data, .joined = joined, .plain = plain };

  page->name = g_strdup (name);
  page->blocks = g_ptr_array_new_with_free_func (free_block);
  page->links = g_ptr_array_new_with_free_func (g_free);
  page->words = g_ptr_array_new_with_free_func (g_free);
  page->actions = g_ptr_array_new_with_free_func (g_free);
  if (!take_lines (&reader, text, error))
    return NULL;
  page->plain = g_strdup (plain->str);
  return g_steal_pointer (&page);
}
