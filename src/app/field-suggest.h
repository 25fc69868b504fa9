/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * field-suggest.h - what the catalogue knows for a text field: kinds of core, alloys, port standards and
 * sizes
 */
#pragma once

#include "app/field-editor.h"

G_BEGIN_DECLS

/* Whether the catalogue has names for @field. */
gboolean tw_field_suggests (const TwField *field);

/* A button that opens their list; the chosen one is put into @editor, which holds the button. */
GtkWidget *tw_field_suggest_button_new (TwFieldEditor *editor);

G_END_DECLS
