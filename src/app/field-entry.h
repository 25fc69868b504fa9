/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * field-entry.h - a figure or a short text of the job, typed
 *
 * Figures are taken in any unit that the trade uses and stand as they were typed, their note says them in the
 * job's unit. Enter and leaving it take what is typed, Escape puts back what the job says, nothing at all is
 * `not said`. Where the catalogue has names for it a button offers them.
 */
#pragma once

#include "app/field-editor.h"

G_BEGIN_DECLS

#define TW_TYPE_FIELD_ENTRY (tw_field_entry_get_type ())
G_DECLARE_FINAL_TYPE (TwFieldEntry, tw_field_entry, TW, FIELD_ENTRY, TwFieldEditor)

/* Takes @target. @bare: as narrow as a column, and without the unit that the job shows. */
GtkWidget *tw_field_entry_new (TwFieldTarget *target, gboolean bare);

G_END_DECLS
