/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * passage.h - a text that wraps at the width it is given, cheap to change
 *
 * The toolkit's label sets a wrapping text some twenty times to find the narrowest width of as many lines; a
 * dozen of them changing in a drag cost more than the answer. Here one setting tells the height. A figure and
 * its unit stay on one line. Style classes and alignment are the label's.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TW_TYPE_PASSAGE (tw_passage_get_type ())

/* Properties: `text`; `xalign` (0 left to 1 right, dimensionless); `tabular` (figures of equal width);
 * `light-units` (a unit behind its figure is one step lighter); `most-width` (px): wants to be as wide as its
 * text up to this; 0: takes the width that it is given. */
G_DECLARE_FINAL_TYPE (TwPassage, tw_passage, TW, PASSAGE, GtkWidget)

/* NULL shows nothing. Returns whether it changed; otherwise nothing is laid out again. */
gboolean tw_passage_show (TwPassage *self, const char *text);
/* The same with Pango markup, without links; figures are then not tabular. */
gboolean tw_passage_show_markup (TwPassage *self, const char *markup);

/* The text as it is set at the width that it has. (transfer none): until it changes. For tests. */
PangoLayout *tw_passage_layout (TwPassage *self);

G_END_DECLS
