/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * window.h - one window with one job: parts and form left, the drawing in the middle, answers right
 */
#pragma once

#include <adwaita.h>

#include "app/session.h"
#include "job/journal.h"

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

/* The window of @application in which the file at @path is open, or NULL. (transfer none) */
TwWindow *tw_window_with_file (GtkApplication *application, const char *path);

/* Shows the job of a journal that was taken (transfer full): in the window that has its file, in @self when
 * it has no job, else in another. */
void tw_window_recover (TwWindow *self, TwJournal *journal);

/* A short message that goes away by itself. */
void tw_window_say (TwWindow *self, const char *message);

/* Told how a question ended: TRUE when the window may go. */
typedef void (*TwWindowEnded) (TwWindow *self, gboolean ok, gpointer data);

/* Whether it has changes about which nobody was asked. */
gboolean tw_window_wants_answer (TwWindow *self);
/* Asks about them; @done is called once, or not at all when the question stands on the screen already. */
void tw_window_ask_close (TwWindow *self, TwWindowEnded done, gpointer data);
/* Takes an answer back: the program does not end after all. */
void tw_window_stay (TwWindow *self);

G_END_DECLS
