/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * part-form.h - the fields of the chosen part, by number
 *
 * Made from the field table of the part's kind; without a chosen part it shows the job's own settings.
 */
#pragma once

#include <gtk/gtk.h>

#include "app/session.h"

G_BEGIN_DECLS

#define TW_TYPE_PART_FORM (tw_part_form_get_type ())
G_DECLARE_FINAL_TYPE (TwPartForm, tw_part_form, TW, PART_FORM, GtkWidget)

/* Once, before it is shown. */
void tw_part_form_set_session (TwPartForm *self, TwSession *session);

/* Marks the fields that a drag is changing; none with @n 0. */
void tw_part_form_mark (TwPartForm *self, const guint *fields, guint n);

/* Puts the keyboard into field @field of the chosen part, or into the first one with -1. */
void tw_part_form_take_focus (TwPartForm *self, int field);

G_END_DECLS
