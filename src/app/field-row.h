/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * field-row.h - one field in the form: its name, its editor, and what is to be said of it
 *
 * The name stands on the left and the editor on the right, all editors of one width; what needs more room
 * stands under its name. Under the editor stands where the figure comes from when the job does not say it, or
 * the same in the job's unit; under that, with a sign and marked, what is wrong with what was typed.
 *
 * Signal: `troubled` when a bad entry has been marked.
 */
#pragma once

#include "app/field-editor.h"

G_BEGIN_DECLS

#define TW_TYPE_FIELD_ROW (tw_field_row_get_type ())
G_DECLARE_FINAL_TYPE (TwFieldRow, tw_field_row, TW, FIELD_ROW, GtkWidget)

/* Takes @target. */
GtkWidget *tw_field_row_new (TwFieldTarget *target);

/* (transfer none) */
TwFieldEditor *tw_field_row_editor (TwFieldRow *self);

/* Number of its field in the kind of its part. */
guint tw_field_row_field (TwFieldRow *self);

/* Marks the row while a drag changes its field. */
void tw_field_row_set_moving (TwFieldRow *self, gboolean moving);

G_END_DECLS
