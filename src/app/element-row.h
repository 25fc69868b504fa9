/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * element-row.h - one element of a list in the form: its number and its fields side by side
 *
 * Signals: `reached` when the keyboard comes into one of its fields or its number is clicked; `told` when one
 * of its fields has another trouble.
 */
#pragma once

#include "app/field-editor.h"

G_BEGIN_DECLS

#define TW_TYPE_ELEMENT_ROW (tw_element_row_get_type ())
G_DECLARE_FINAL_TYPE (TwElementRow, tw_element_row, TW, ELEMENT_ROW, GtkWidget)

/* Width that the number takes, so that heads stand over their columns, in pixels. */
#define TW_ELEMENT_ROW_NUMBER_PX 30

/* So many fields of @kind stand on a line; those that follow stand under them. */
guint tw_element_row_columns (TwKind kind);

/* Of @element of @part, which must be there. */
GtkWidget *tw_element_row_new (TwSession *session, TwId part, TwId element);

/* Of which it shows the fields. */
TwId tw_element_row_element (TwElementRow *self);

/* Shows what the job says; @place is where it stands in its list, 0 first. */
void tw_element_row_update (TwElementRow *self, guint place, gboolean chosen);

/* Editor of a field, NULL past the last. (transfer none) */
TwFieldEditor *tw_element_row_editor (TwElementRow *self, guint field);

/* The field that has the keyboard, -1 when none has. */
int tw_element_row_focus (TwElementRow *self);

/* The first trouble of its fields, or NULL. (transfer none) */
const char *tw_element_row_trouble (TwElementRow *self);

G_END_DECLS
