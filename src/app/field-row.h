/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * field-row.h - one field of a part in the form
 *
 * Name on the left, what is said on the right: an entry, a list of choices, or a page for long text. Figures
 * are taken in any unit and shown in the job's. A bad entry stays as typed, marked, with what is accepted
 * under it; nothing is changed until it is mended. What the job does not say shows dimmed what is assumed.
 *
 * Signal: `troubled` when a bad entry has been marked.
 */
#pragma once

#include <gtk/gtk.h>

#include "app/session.h"

G_BEGIN_DECLS

#define TW_TYPE_FIELD_ROW (tw_field_row_get_type ())
G_DECLARE_FINAL_TYPE (TwFieldRow, tw_field_row, TW, FIELD_ROW, GtkWidget)

/* Field @field of @part, or of its @element when that is not TW_ID_NONE. The part must be in the job. */
GtkWidget *tw_field_row_new (TwSession *session, TwId part, TwId element, guint field);

/* Shows what the job says now; an entry that is being typed in is left alone. */
void tw_field_row_update (TwFieldRow *self);

/* Number of its field in the kind of its part. */
guint tw_field_row_field (TwFieldRow *self);

/* Marks the row while a drag changes its field. */
void tw_field_row_set_moving (TwFieldRow *self, gboolean moving);

/* Puts the keyboard into it. */
void tw_field_row_take_focus (TwFieldRow *self);

/* The row is about to be taken away: what is half typed in it is dropped. */
void tw_field_row_let_go (TwFieldRow *self);

G_END_DECLS
