/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * help-text.h - the text of one help page, read from simple marks
 *
 * The first line is `# Title`. Then, parted by empty lines: `## Heading`, paragraphs, lists (`- item`), steps
 * (`1. step`), cautions (`> text`) and pictures (`![what it shows](merlin-tail/face)`: a sample and a view).
 * Inside a line: `*a term*`, `**a word on the screen**`, `[words](page)` and `{win.save}`, which reads as the
 * keys of that action. Lines of one paragraph, item, step or caution are joined. No widgets here.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* What a block is. */
typedef enum {
  TW_HELP_HEADING,
  TW_HELP_PARAGRAPH,
  TW_HELP_ITEM,
  TW_HELP_STEP,
  TW_HELP_CAUTION,
  TW_HELP_PICTURE,
} TwHelpBlockKind;

/* One block of a page. */
typedef struct {
  TwHelpBlockKind kind;
  char *markup;  /* what it says, as Pango markup; links are `<a href="page">` */
  char *picture; /* of a picture: `merlin-tail/face`; else NULL */
  guint step;    /* of a step: from 1; else 0 */
} TwHelpBlock;

/* One page. */
typedef struct {
  char *name;         /* `first-steps`: the name of its file */
  char *title;        /* plain */
  GPtrArray *blocks;  /* of TwHelpBlock */
  GPtrArray *links;   /* of char *: pages that it leads to */
  GPtrArray *words;   /* of char *: words that it says are on the screen */
  GPtrArray *actions; /* of char *: actions whose keys it names, `win.view::face` */
  char *plain;        /* title and text without marks, for searching */
} TwHelpPage;

/* What the keys of @action are called, NULL when it has none. (transfer full) */
typedef char *(*TwHelpKeys) (const char *action, gpointer data);

/**
 * tw_help_page_read:
 * @name: of the page
 * @text: UTF-8
 * @keys: (nullable): says what stands for `{action}`; without it the action itself is shown
 * @data: for @keys
 *
 * Refuses a page without title, marks that are not closed and lines that it does not know, with the line.
 *
 * Returns: (transfer full) (nullable): free with tw_help_page_free()
 */
TwHelpPage *tw_help_page_read (const char *name,
                               const char *text,
                               TwHelpKeys keys,
                               gpointer data,
                               GError **error) G_GNUC_WARN_UNUSED_RESULT;
void tw_help_page_free (TwHelpPage *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwHelpPage, tw_help_page_free)

G_END_DECLS
