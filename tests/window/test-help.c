/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-help.c - the help pages: read, linked, and true to the window that they speak of
 *
 * Words that a page calls words on the screen must stand in the program's own files, actions must be there,
 * every page must be found by links from the first.
 */
#include "app/application.h"
#include "app/help-book.h"
#include "app/samples.h"
#include "app/window.h"
#include "drive.h"

#include <glib/gstdio.h>
#include <string.h>

static GApplication *application;
static TwWindow *window;

static TwHelpBook *
book_in (const char *language)
{
  const char *const languages[] = { language, NULL };
  g_autoptr (GError) error = NULL;
  TwHelpBook *book = tw_help_book_new (languages, NULL, NULL, &error);

  g_assert_no_error (error);
  return book;
}

/* --- reading -------------------------------------------------------------------------------------------- */

typedef struct {
  const char *name;
  const char *text;
  const char *refused; /* words of the error; NULL: it is read */
  guint n_blocks;
  const char *last; /* markup of the last block */
} Text;

static const Text texts[] = {
  { "title", "# A & B\n", NULL, 0, NULL },
  { "joined", "# T\n\none\ntwo\n\nthree\n", NULL, 2, "three" },
  { "joined-item", "# T\n\n- one\n  two\n", NULL, 1, "one two" },
  { "steps", "# T\n\n1. one\n2. two *three*\n", NULL, 2, "two <i>three</i>" },
  { "escaped", "# T\n\na < b & c\n", NULL, 1, "a &lt; b &amp; c" },
  { "link", "# T\n\nsee [the & core](core).\n", NULL, 1, "see <a href=\"core\">the &amp; core</a>." },
  { "word", "# T\n\n**Save** it\n", NULL, 1, "<b>Save</b> it" },
  { "keys", "# T\n\n{win.save}\n", NULL, 1, "<tt>win.save</tt>" },
  { "caution", "# T\n\n> never\n> ever\n", NULL, 1, "never ever" },
  { "two-cautions", "# T\n\n> never\n\n> ever\n", NULL, 2, "ever" },
  { "picture", "# T\n\n![a core](ox/face)\n", NULL, 1, "a core" },
  { "not-a-step", "# T\n\n1.5 mm\n", NULL, 1, "1.5 mm" },
  { "empty", "", "line 1", 0, NULL },
  { "no-title", "text\n", "line 1", 0, NULL },
  { "two-titles", "# T\n\n# U\n", "line 3", 0, NULL },
  { "open-word", "# T\n\n**Save it\n", "line 3", 0, NULL },
  { "open-link", "# T\n\none\n\n[core\n", "line 5", 0, NULL },
  { "open-keys", "# T\n\n{win.save\n", "not closed", 0, NULL },
  { "bad-picture", "# T\n\n![a core]\n", "picture", 0, NULL },
  { "not-utf-8", "# T\n\n\xff\n", "UTF-8", 0, NULL },
};

static void
test_text (gconstpointer data)
{
  const Text *c = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (TwHelpPage) page = tw_help_page_read ("page", c->text, NULL, NULL, &error);
  const TwHelpBlock *last;

  if (c->refused != NULL) {
    g_assert_null (page);
    g_assert_nonnull (strstr (error->message, c->refused));
    g_assert_nonnull (strstr (error->message, "page"));
    return;
  }
  g_assert_no_error (error);
  g_assert_cmpuint (page->blocks->len, ==, c->n_blocks);
  if (c->n_blocks == 0)
    return;
  last = g_ptr_array_index (page->blocks, c->n_blocks - 1);
  g_assert_cmpstr (last->markup, ==, c->last);
  g_assert_true (pango_parse_markup (last->markup, -1, 0, NULL, NULL, NULL, NULL)
                 || strstr (last->markup, "<a ") != NULL);
}

/* A page in the person's language goes before that in `C`; what is not there falls back. */
static void
test_languages (void)
{
  g_autofree char *folder = g_dir_make_tmp ("tw-help-XXXXXX", NULL);
  static const char *const files[][2] = { { "pages", "one\ntwo\n" },
                                          { "C/one.md", "# One\n" },
                                          { "C/two.md", "# Two\n" },
                                          { "xx/one.md", "# Eins\n" } };
  g_autofree char *before = g_strdup (g_getenv ("TANKWRIGHT_DATA"));
  g_autoptr (TwHelpBook) book = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (files); i++) {
    g_autofree char *path = g_build_filename (folder, "help", files[i][0], NULL);
    g_autofree char *inside = g_path_get_dirname (path);

    g_assert_cmpint (g_mkdir_with_parents (inside, 0700), ==, 0);
    g_assert_true (g_file_set_contents (path, files[i][1], -1, NULL));
  }
  g_setenv ("TANKWRIGHT_DATA", folder, TRUE);
  book = book_in ("xx");
  g_setenv ("TANKWRIGHT_DATA", before, TRUE);
  g_assert_cmpuint (tw_help_book_count (book), ==, 2);
  g_assert_cmpstr (tw_help_book_get (book, 0)->title, ==, "Eins");
  g_assert_cmpstr (tw_help_book_get (book, 1)->title, ==, "Two");
  for (guint i = G_N_ELEMENTS (files); i > 0; i--) {
    g_autofree char *path = g_build_filename (folder, "help", files[i - 1][0], NULL);
    g_autofree char *inside = g_path_get_dirname (path);

    g_unlink (path);
    g_rmdir (inside);
  }
  g_rmdir (folder);
}

/* --- the pages ------------------------------------------------------------------------------------------ */

static void
test_links (void)
{
  g_autoptr (TwHelpBook) book = book_in ("C");
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GPtrArray) open = g_ptr_array_new ();

  g_ptr_array_add (open, (gpointer)tw_help_book_get (book, 0));
  g_hash_table_add (seen, tw_help_book_get (book, 0)->name);
  while (open->len > 0) {
    const TwHelpPage *page = g_ptr_array_steal_index_fast (open, 0);

    for (guint i = 0; i < page->links->len; i++) {
      const char *name = g_ptr_array_index (page->links, i);
      const TwHelpPage *next = tw_help_book_find (book, name);

      if (next == NULL)
        g_error ("%s leads to %s, which is no page", page->name, name);
      if (g_hash_table_add (seen, next->name))
        g_ptr_array_add (open, (gpointer)next);
    }
  }
  for (guint i = 0; i < tw_help_book_count (book); i++)
    if (!g_hash_table_contains (seen, tw_help_book_get (book, i)->name))
      g_error ("no link leads to %s", tw_help_book_get (book, i)->name);
}

/* No file lies there that nobody reads. */
static void
test_files (void)
{
  g_autoptr (TwHelpBook) book = book_in ("C");
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "..", "data", "help", "C", NULL);
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
add_text_of (GString *all, const char *folder, const char *file)
{
  g_autofree char *path = g_build_filename (folder, file, NULL);
  g_autofree char *text = NULL;

  if (g_file_test (path, G_FILE_TEST_IS_DIR)) {
    g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
    const char *inside;

    while ((inside = g_dir_read_name (dir)) != NULL)
      add_text_of (all, path, inside);
    return;
  }
  if (!g_str_has_suffix (file, ".c") && !g_str_has_suffix (file, ".ui") && !g_str_has_suffix (file, ".inc"))
    return;
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_string_append (all, text);
}

/* The program's own words, without the lines under letters. */
static GString *
program_words (void)
{
  static const char *const folders[] = { "app", "cards", "job" };
  g_autofree char *source = g_test_build_filename (G_TEST_DIST, "..", "src", NULL);
  GString *all = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (folders); i++)
    add_text_of (all, source, folders[i]);
  g_string_replace (all, "_", "", 0);
  return all;
}

static void
test_words (void)
{
  g_autoptr (TwHelpBook) book = book_in ("C");
  GString *words = program_words ();

  for (guint i = 0; i < tw_help_book_count (book); i++) {
    const TwHelpPage *page = tw_help_book_get (book, i);

    for (guint k = 0; k < page->words->len; k++) {
      const char *word = g_ptr_array_index (page->words, k);
      g_autofree char *in_code = g_strdup_printf ("\"%s\"", word);
      g_autofree char *in_ui = g_strdup_printf (">%s<", word);

      if (strstr (words->str, in_code) == NULL && strstr (words->str, in_ui) == NULL)
        g_error ("%s speaks of “%s”, which is nowhere on the screen", page->name, word);
    }
  }
  g_string_free (words, TRUE);
}

static void
test_actions (void)
{
  g_autoptr (TwHelpBook) book = book_in ("C");

  for (guint i = 0; i < tw_help_book_count (book); i++) {
    const TwHelpPage *page = tw_help_book_get (book, i);

    for (guint k = 0; k < page->actions->len; k++) {
      const char *detailed = g_ptr_array_index (page->actions, k);
      g_auto (GStrv) keys = gtk_application_get_accels_for_action (GTK_APPLICATION (application), detailed);
      g_auto (GStrv) parts = g_strsplit (detailed, "::", 2);
      const char *name = strchr (parts[0], '.');
      GActionGroup *group
          = g_str_has_prefix (detailed, "app.") ? G_ACTION_GROUP (application) : G_ACTION_GROUP (window);

      if (name == NULL
          || (!g_action_group_has_action (group, name + 1) && !g_str_has_suffix (detailed, "overlay")))
        g_error ("%s speaks of %s, which is no action", page->name, detailed);
      if (keys[0] == NULL)
        g_error ("%s speaks of the keys of %s, which has none", page->name, detailed);
    }
  }
}

static void
test_pictures (void)
{
  g_autoptr (TwHelpBook) book = book_in ("C");
  TwSamples *samples = tw_samples_of (application);
  guint n = 0;

  for (guint i = 0; i < tw_help_book_count (book); i++) {
    const TwHelpPage *page = tw_help_book_get (book, i);

    for (guint k = 0; k < page->blocks->len; k++) {
      const TwHelpBlock *block = g_ptr_array_index (page->blocks, k);
      g_auto (GStrv) words = block->picture ? g_strsplit (block->picture, "/", 2) : NULL;

      if (words == NULL)
        continue;
      if (tw_samples_find (samples, words[0]) == NULL)
        g_error ("%s shows %s, which is no sample", page->name, words[0]);
      g_assert_true (strstr ("face front side plan", words[1]) != NULL);
      n++;
    }
  }
  g_assert_cmpuint (n, >=, 5);
}

/* Every source and every check stands on its page; nothing in data files is taken for a mark. */
static void
test_made (void)
{
  g_autoptr (TwHelpBook) book = book_in ("C");
  const TwHelpPage *sources = tw_help_book_find (book, "sources"),
                   *checks = tw_help_book_find (book, "checks");

  g_assert_nonnull (strstr (sources->plain, "DEF-FACE"));
  g_assert_nonnull (strstr (sources->plain, "NIST-SP-811"));
  g_assert_nonnull (strstr (checks->plain, "baffle"));
  g_assert_cmpuint (checks->blocks->len, >, 50);
}

static void
test_search (void)
{
  g_autoptr (TwHelpBook) book = book_in ("C");
  const TwHelpPage *passes = tw_help_book_find (book, "passes");
  g_autofree char *excerpt = tw_help_page_excerpt (passes, "LAMINAR");

  g_assert_true (tw_help_page_has (passes, "laminar PUMP"));
  g_assert_false (tw_help_page_has (passes, "laminar exhaust"));
  g_assert_true (tw_help_page_has (passes, ""));
  g_assert_nonnull (strstr (excerpt, "laminar"));
  g_assert_true (g_utf8_validate (excerpt, -1, NULL));
  g_assert_null (tw_help_page_excerpt (passes, "zebra"));
}

static int result;

static void
run_cb (AdwApplication *running)
{
  g_application_hold (G_APPLICATION (running));
  application = G_APPLICATION (running);
  window = TW_WINDOW (gtk_application_get_active_window (GTK_APPLICATION (running)));
  result = g_test_run ();
  gtk_window_destroy (GTK_WINDOW (window));
  g_application_release (G_APPLICATION (running));
}

int
main (int argc, char **argv)
{
  g_autoptr (AdwApplication) running = NULL;

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++) {
    g_autofree char *path = g_strdup_printf ("/window/help/text/%s", texts[i].name);

    g_test_add_data_func (path, &texts[i], test_text);
  }
  g_test_add_func ("/window/help/languages", test_languages);
  g_test_add_func ("/window/help/links", test_links);
  g_test_add_func ("/window/help/files", test_files);
  g_test_add_func ("/window/help/words", test_words);
  g_test_add_func ("/window/help/actions", test_actions);
  g_test_add_func ("/window/help/pictures", test_pictures);
  g_test_add_func ("/window/help/made", test_made);
  g_test_add_func ("/window/help/search", test_search);
  running = tw_application_new (G_APPLICATION_NON_UNIQUE);
  g_signal_connect (running, "activate", G_CALLBACK (run_cb), NULL);
  g_application_run (G_APPLICATION (running), 1, argv);
  return result;
}
