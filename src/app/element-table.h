/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * element-table.h - a list inside a part (corners, via-points, flaps, plugged tubes, points of a curve) by
 * number
 *
 * One row an element, its fields side by side, a page of rows at a time, so that two thousand corners cost no
 * more than twenty. One row is chosen: that in which the keyboard was last; the buttons under the rows work
 * on it. Tab goes from field to field and on to the next page, the arrows up and down within a column;
 * Ctrl+Enter adds a row after, with Shift before, Ctrl+Delete removes it, Alt with the arrows moves it.
 *
 * Signals: `chosen` when another element is chosen here; `troubled` when something was refused.
 */
#pragma once

#include "app/field-editor.h"

G_BEGIN_DECLS

#define TW_TYPE_ELEMENT_TABLE (tw_element_table_get_type ())
G_DECLARE_FINAL_TYPE (TwElementTable, tw_element_table, TW, ELEMENT_TABLE, GtkWidget)

/* List @list of @part. Bad texts are kept in @drafts, which outlives the table (see tw_field_editor_keep()).
 */
GtkWidget *tw_element_table_new (TwSession *session, TwId part, guint list, GHashTable *drafts);

/* Shows what the job says. */
void tw_element_table_update (TwElementTable *self);

/* The chosen element; TW_ID_NONE. */
TwId tw_element_table_chosen (TwElementTable *self);

/* Chooses an element and turns to its page; one that is not in this list, and none, unchooses. */
void tw_element_table_choose (TwElementTable *self, TwId element);

/* Puts the keyboard into field @field of an element of this list. */
void tw_element_table_take_focus (TwElementTable *self, TwId element, guint field);

/* It is about to be taken away: bad texts go into the drafts, what is half typed is no longer taken. */
void tw_element_table_let_go (TwElementTable *self);

G_END_DECLS
