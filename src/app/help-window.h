/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * help-window.h - the help: a window of its own beside the work, without network
 *
 * Actions of its own: `help.back`, `help.search`.
 */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

#define TW_TYPE_HELP_WINDOW (tw_help_window_get_type ())
G_DECLARE_FINAL_TYPE (TwHelpWindow, tw_help_window, TW, HELP_WINDOW, AdwWindow)

/* Shows @page (name of a file in data/help, `first-steps`; one that is not there: the first) in the help
 * window of the application, which is opened or brought to the front. It closes with the last window that
 * is no help. @parent: any window of the application; the action `app.help` with the page's name does the
 * same. */
void tw_help_show (GtkWindow *parent, const char *page);

/* The page that is shown. (transfer none) (nullable) */
const char *tw_help_window_page (TwHelpWindow *self);

G_END_DECLS
