/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-help-languages.c - the help in each language of po/LINGUAS says what it says in `C`
 *
 * Every page is there; block by block it has the same kinds, pictures, links and keys; and what it calls
 * words on the screen are the words of that language, by its own file of translations.
 */
#include "app/help-book.h"

#include <string.h>

static char *
source_text (const char *folder, const char *file)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", folder, file, NULL);
  char *text = NULL;
  g_autoptr (GError) error = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

static TwHelpBook *
book_in (const char *language)
{
  const char *const languages[] = { language, NULL };
  g_autoptr (GError) error = NULL;
  TwHelpBook *book = tw_help_book_new (languages, NULL, NULL, &error);

  g_assert_no_error (error);
  return book;
}

/* The two pages that the program makes are in no folder. */
static gboolean
is_written (const TwHelpPage *page)
{
  return !g_str_equal (page->name, "sources") && !g_str_equal (page->name, "checks");
}

static void
test_pages (gconstpointer data)
{
  const char *language = data;
  g_autoptr (TwHelpBook) book = book_in ("C");

  for (guint i = 0; i < tw_help_book_count (book); i++) {
    const TwHelpPage *page = tw_help_book_get (book, i);
    g_autofree char *file = g_strdup_printf ("%s.md", page->name);
    g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "data", "help", language, file, NULL);

    if (is_written (page) && !g_file_test (path, G_FILE_TEST_IS_REGULAR))
      g_error ("data/help/%s/%s is missing", language, file);
  }
}

/* No file of the language lies there that the list of pages has not. */
static void
test_files (gconstpointer data)
{
  g_autoptr (TwHelpBook) book = book_in ("C");
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "..", "data", "help", data, NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *file;

  g_assert_nonnull (dir);
  while ((file = g_dir_read_name (dir)) != NULL) {
    g_autofree char *name = g_strndup (file, strlen (file) - strlen (".md"));

    if (tw_help_book_find (book, name) == NULL)
      g_error ("%s is in no list", file);
  }
}

static void
check_blocks (const TwHelpPage *page, const TwHelpPage *other)
{
  if (page->blocks->len != other->blocks->len)
    g_error ("%s has %u blocks, expected %u", other->name, other->blocks->len, page->blocks->len);
  for (guint i = 0; i < page->blocks->len; i++) {
    const TwHelpBlock *a = g_ptr_array_index (page->blocks, i), *b = g_ptr_array_index (other->blocks, i);

    if (a->kind != b->kind || a->step != b->step || g_strcmp0 (a->picture, b->picture) != 0)
      g_error ("%s: “%s” is not what stands there in C: “%s”", other->name, b->markup, a->markup);
  }
}

static int
by_text (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *)a, *(const char *const *)b);
}

/* Links and keys may stand in another order, as the sentences want it. */
static void
check_same (const char *page, const char *what, GPtrArray *one, GPtrArray *other)
{
  if (one->len != other->len)
    g_error ("%s: %u %s, expected %u", page, other->len, what, one->len);
  g_ptr_array_sort (one, by_text);
  g_ptr_array_sort (other, by_text);
  for (guint i = 0; i < one->len; i++)
    if (by_text (&one->pdata[i], &other->pdata[i]) != 0)
      g_error ("%s: %s %s, expected %s", page, what, (char *)other->pdata[i], (char *)one->pdata[i]);
}

static void
test_same (gconstpointer data)
{
  g_autoptr (TwHelpBook) book = book_in ("C");
  g_autoptr (TwHelpBook) other = book_in (data);

  for (guint i = 0; i < tw_help_book_count (book); i++) {
    const TwHelpPage *page = tw_help_book_get (book, i);
    const TwHelpPage *there = tw_help_book_find (other, page->name);

    if (!is_written (page))
      continue;
    check_blocks (page, there);
    check_same (page->name, "links", page->links, there->links);
    check_same (page->name, "keys", page->actions, there->actions);
  }
}

/* --- words on the screen -------------------------------------------------------------------------------- */

/* Whether @po, without the lines under letters, has @theirs for @ours. */
static gboolean
is_translation (const char *po, const char *ours, const char *theirs)
{
  g_autofree char *entry = g_strdup_printf ("\nmsgid \"%s\"\nmsgstr \"%s\"\n", ours, theirs);

  return strstr (po, entry) != NULL;
}

/* Each of @theirs is the translation of one of @ours. */
static void
check_words (const char *po, const TwHelpPage *page, const TwHelpPage *other)
{
  for (guint k = 0; k < other->words->len; k++) {
    const char *theirs = g_ptr_array_index (other->words, k);
    gboolean is_known = FALSE;

    for (guint i = 0; i < page->words->len && !is_known; i++)
      is_known = is_translation (po, g_ptr_array_index (page->words, i), theirs);
    if (!is_known)
      g_error ("%s speaks of “%s”, which is no translation of a word of that page", page->name, theirs);
  }
  for (guint i = 0; i < page->words->len; i++) {
    const char *ours = g_ptr_array_index (page->words, i);
    gboolean is_said = FALSE;

    for (guint k = 0; k < other->words->len && !is_said; k++)
      is_said = is_translation (po, ours, g_ptr_array_index (other->words, k));
    if (!is_said)
      g_error ("%s does not speak of “%s”", page->name, ours);
  }
}

static void
test_words (gconstpointer data)
{
  g_autofree char *file = g_strdup_printf ("%s.po", (const char *)data);
  g_autofree char *text = source_text ("po", file);
  GString *po = g_string_new (text);
  g_autoptr (TwHelpBook) book = book_in ("C");
  g_autoptr (TwHelpBook) other = book_in (data);

  g_string_replace (po, "_", "", 0);
  for (guint i = 0; i < tw_help_book_count (book); i++) {
    const TwHelpPage *page = tw_help_book_get (book, i);

    if (is_written (page))
      check_words (po->str, page, tw_help_book_find (other, page->name));
  }
  g_string_free (po, TRUE);
}

int
main (int argc, char **argv)
{
  static const struct {
    const char *name;
    GTestDataFunc check;
  } checks[]
      = { { "pages", test_pages }, { "files", test_files }, { "same", test_same }, { "words", test_words } };
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;

  g_test_init (&argc, &argv, NULL);
  text = source_text ("po", "LINGUAS");
  lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i] != NULL; i++)
    for (guint k = 0; lines[i][0] != '\0' && lines[i][0] != '#' && k < G_N_ELEMENTS (checks); k++) {
      g_autofree char *path = g_strdup_printf ("/window/help/%s/%s", lines[i], checks[k].name);

      g_test_add_data_func (path, lines[i], checks[k].check);
    }
  return g_test_run ();
}
