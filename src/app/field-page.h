/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * field-page.h - a long text of the job, on a page of lines; taken when it is left
 */
#pragma once

#include "app/field-editor.h"

G_BEGIN_DECLS

#define TW_TYPE_FIELD_PAGE (tw_field_page_get_type ())
G_DECLARE_FINAL_TYPE (TwFieldPage, tw_field_page, TW, FIELD_PAGE, TwFieldEditor)

/* Takes @target, of a text. */
GtkWidget *tw_field_page_new (TwFieldTarget *target);

G_END_DECLS
