/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * help-book.h - all help pages, in their order, searched by words
 *
 * The order stands in data/help/pages, one name a line; a page is data/help/<language>/<name>.md, sought in
 * the person's languages and at last in `C`. Two pages are made by the program, so that they never drift:
 * `sources` from data/sources.json and `checks` from the table of checks.
 */
#pragma once

#include "app/help-text.h"

G_BEGIN_DECLS

typedef struct _TwHelpBook TwHelpBook;

/**
 * tw_help_book_new:
 * @languages: (array zero-terminated=1) (nullable): as g_get_language_names() gives them; NULL: these
 * @keys: (nullable): see tw_help_page_read()
 * @data: for @keys
 *
 * An error names the file that is missing or the line that cannot be read.
 *
 * Returns: (transfer full) (nullable): free with tw_help_book_free()
 */
TwHelpBook *tw_help_book_new (const char *const *languages, TwHelpKeys keys, gpointer data, GError **error)
    G_GNUC_WARN_UNUSED_RESULT;
void tw_help_book_free (TwHelpBook *self);

/* Pages in their order; @nth is below the count. (transfer none) */
guint tw_help_book_count (const TwHelpBook *self);
const TwHelpPage *tw_help_book_get (const TwHelpBook *self, guint nth);
/* By name, or NULL. (transfer none) */
const TwHelpPage *tw_help_book_find (const TwHelpBook *self, const char *name);

/* Whether all @words stand in @page, in any case; no words stand in every page. */
gboolean tw_help_page_has (const TwHelpPage *page, const char *words);
/* A line of the page round the first of @words, NULL when only its title has it. (transfer full) */
char *tw_help_page_excerpt (const TwHelpPage *page, const char *words) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwHelpBook, tw_help_book_free)

G_END_DECLS
