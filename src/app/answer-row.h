/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * answer-row.h - one question of the new layout: its words, an entry for a figure, and what is wrong with it
 *
 * Properties: `label` (with a mnemonic), `hint` (shown in the empty entry). Signals: `changed` when another
 * text stands in the entry; `activated` on Return.
 */
#pragma once

#include <gtk/gtk.h>

#include "base/units.h"

G_BEGIN_DECLS

#define TW_TYPE_ANSWER_ROW (tw_answer_row_get_type ())
G_DECLARE_FINAL_TYPE (TwAnswerRow, tw_answer_row, TW, ANSWER_ROW, GtkWidget)

/* Gives the keys to its entry. Not the widget's own `grab-focus`: that would keep Shift+Tab from leaving. */
void tw_answer_row_take_focus (TwAnswerRow *self);

/* What the figure is; TW_QUANTITY_LENGTH at first. */
void tw_answer_row_set_quantity (TwAnswerRow *self, TwQuantity quantity);

/* Reads the entry in @style: NAN when it is empty. FALSE: it says itself, at once, what is accepted. */
gboolean tw_answer_row_read (TwAnswerRow *self, const TwUnitStyle *style, double *value);

/* Says @trouble under the entry; NULL takes it away. */
void tw_answer_row_say (TwAnswerRow *self, const char *trouble);

/* Shows the same figure in another style; a text that is no figure stays. */
void tw_answer_row_restyle (TwAnswerRow *self, const TwUnitStyle *from, const TwUnitStyle *to);

G_END_DECLS
