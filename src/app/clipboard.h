/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * clipboard.h - parts to the clipboard and back, between jobs, windows and programs
 *
 * What is put there is the text of job/pieces.h, under its own media type and as plain text.
 */
#pragma once

#include <gtk/gtk.h>

#include "app/session.h"

G_BEGIN_DECLS

/* Copies the chosen parts with what belongs to them; FALSE, saying why, when there is nothing to copy. */
gboolean tw_clipboard_copy (TwSession *session, GdkClipboard *clipboard, GError **error);

/* Copies, then removes them with everything that refers to them: one step. */
gboolean tw_clipboard_cut (TwSession *session, GdkClipboard *clipboard, GError **error);

/* @error NULL: it was pasted, and the new parts are chosen. */
typedef void (*TwClipboardDone) (const GError *error, gpointer data);

/* Puts the parts in the clipboard into the job of @session as one step. Parts that are still there just as
 * they were copied are set beside themselves. @done is called once. */
void tw_clipboard_paste (TwSession *session, GdkClipboard *clipboard, TwClipboardDone done, gpointer data);

G_END_DECLS
