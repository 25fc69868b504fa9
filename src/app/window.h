/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * window.h - one window with one job: parts and form left, the drawing in the middle, answers right
 */
#pragma once

#include <adwaita.h>

#include "app/session.h"

G_BEGIN_DECLS

#define TW_TYPE_WINDOW (tw_window_get_type ())
G_DECLARE_FINAL_TYPE (TwWindow, tw_window, TW, WINDOW, AdwApplicationWindow)

/* Without a job: shows the start page. Owned by @application until it is closed. */
TwWindow *tw_window_new (AdwApplication *application);

/* (transfer none) */
TwSession *tw_window_session (TwWindow *self);

/* Opens the job at @path in this window when it has none, else in another; a refusal is said in a dialog.
 * @as_copy: the file itself is not to be written (a sample). */
void tw_window_open_path (TwWindow *self, const char *path, gboolean as_copy);

G_END_DECLS
