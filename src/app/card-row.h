/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * card-row.h - one row of a card: what it is about, its figure, and where that comes from
 */
#pragma once

#include <gtk/gtk.h>

#include "cards/card.h"

G_BEGIN_DECLS

#define TW_TYPE_CARD_ROW (tw_card_row_widget_get_type ())
G_DECLARE_FINAL_TYPE (TwCardRowWidget, tw_card_row_widget, TW, CARD_ROW_WIDGET, GtkListBoxRow)

/* With nothing in it yet. */
GtkWidget *tw_card_row_widget_new (void);

/* Shows @row of @card; both must stay until the next call. */
void tw_card_row_widget_show (TwCardRowWidget *self, const TwCard *card, const TwCardRow *row);

/* The parts that a click chooses, of TwId; NULL before it shows a row. (transfer none), until the next row.
 */
const GArray *tw_card_row_widget_parts (TwCardRowWidget *self);

/* Marks a row whose part @is_chosen, and one that @is_new since the last change was over. */
void tw_card_row_widget_mark (TwCardRowWidget *self, gboolean is_chosen, gboolean is_new);

/* Fills @popover with where a figure of @card comes from. */
void tw_card_where_fill (GtkPopover *popover, const TwCard *card, const char *where);

/* Symbolic icon and word of a kind of row, or NULL for rows that have none. */
const char *tw_card_kind_icon (TwRowKind kind);
const char *tw_card_kind_word (TwRowKind kind);

G_END_DECLS
