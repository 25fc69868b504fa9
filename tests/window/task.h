/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * task.h - what a person sets out to do, as a list of steps done by real pointer and keys
 *
 * Each task opens a sample afresh, does its steps, is judged by look, and is undone to the beginning, which
 * must be the same to the byte; done again it must be what it was, and undone again as well.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define TASK_STEPS 16

/* One task. Steps are words, each in a line of its own:
 *
 *     view Front                  the button of a view
 *     click PART                  on the drawing
 *     drag PART ACROSS UP         millimetres of the view; the pointer is let go
 *     hold PART ACROSS UP         the same, the button stays down
 *     release
 *     key ctrl+z                  or Up, shift+Left, F9, Escape …
 *     fill FIELD = TEXT           in the form of the chosen part, with Return; text that needs no Shift
 *     press WHERE | NAME          a button; WHERE as look_describe() has it
 *     open CARD                   the rows behind its disclosure
 *     row CARD | TEXT             the first row with that text
 *     list PART                   in the list of parts
 *     wheel NOTCHES               over the middle of the drawing, + down; `ctrl-wheel` zooms
 *     shows WHERE | WHAT          waits until a line of look_describe() has it
 *     lacks WHERE | WHAT          waits until none has
 *     is PART FIELD VALUE         FIELD by its name in the file; a figure to 1e-6 of what was said
 *     gone PART
 *     chosen PART                 `-` for none
 *     zoomed PERCENT              within one
 */
typedef struct {
  const char *name;
  const char *sample; /* file's stem */
  const char *steps[TASK_STEPS];
  guint n_undo; /* steps to undo it altogether; 0: nothing was changed */
} Task;

/* Runs @tasks as tests `/tasks/GROUP/name` of a program of its own. */
int task_main (int argc, char **argv, const char *group, const Task *tasks, guint n);

G_END_DECLS
