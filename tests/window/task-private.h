/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * task-private.h - what the files of task share
 */
#pragma once

#include "task.h"

#include "app/window.h"

G_BEGIN_DECLS

/* The one window, its job, its drawing. */
GtkWidget *task_window (void);
TwSession *task_session (void);
GtkWidget *task_board (void);

/* Waits for so many frames. */
void task_frames (guint n);

/* The @n parts of @text between @at, without spaces round them; another number ends the test. (transfer full)
 */
char **task_cut (const char *text, const char *at, guint n);

/* The part of that name; none ends the test. (transfer none) */
const TwPart *task_part (const char *name);

/* One step each; @rest is what stands behind its verb. */
void task_step_view (const char *rest);
void task_step_click (const char *rest);
void task_step_drag (const char *rest);
void task_step_hold (const char *rest);
void task_step_release (const char *rest);
void task_step_key (const char *rest);
void task_step_fill (const char *rest);
void task_step_press (const char *rest);
void task_step_open (const char *rest);
void task_step_row (const char *rest);
void task_step_list (const char *rest);
void task_step_wheel (const char *rest);
void task_step_ctrl_wheel (const char *rest);
void task_step_shows (const char *rest);
void task_step_lacks (const char *rest);
void task_step_is (const char *rest);
void task_step_gone (const char *rest);
void task_step_chosen (const char *rest);
void task_step_zoomed (const char *rest);

G_END_DECLS
