/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * field-pick.h - a field of the job that is one of a few words, or another part
 *
 * A list whose first row stands for silence and names what is then meant; a reference that must be there has
 * no such row.
 */
#pragma once

#include "app/field-editor.h"

G_BEGIN_DECLS

#define TW_TYPE_FIELD_PICK (tw_field_pick_get_type ())
G_DECLARE_FINAL_TYPE (TwFieldPick, tw_field_pick, TW, FIELD_PICK, TwFieldEditor)

/* Takes @target, of a choice, a flag or a reference. */
GtkWidget *tw_field_pick_new (TwFieldTarget *target);

G_END_DECLS
