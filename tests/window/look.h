/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * look.h - what is on the screen, judged as a careful person would, by structure and not by picture
 *
 * Walks the widgets that are mapped. What has been scrolled out of sight is judged for its size, not for its
 * paint. Popovers and dialogs have screens of their own: give each as a root. Coordinates are logical pixels
 * of the root.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* What is judged. */
typedef enum {
  LOOK_SIZES = 1 << 0,    /* texts whole, nothing smaller than it needs or cut off by what holds it */
  LOOK_OVERLAP = 1 << 1,  /* no two siblings on each other */
  LOOK_NAMES = 1 << 2,    /* whatever can be used has a name; what has only an icon has a tip as well */
  LOOK_CONTRAST = 1 << 3, /* texts against what is painted behind them */
  LOOK_DRAWING = 1 << 4,  /* texts of the drawing */
  LOOK_ALL = (1 << 5) - 1
} LookAspects;

/**
 * look_judge:
 * @root: a window, a popover or any part of one; drawn
 *
 * Sizes: a text that is ellipsized is a fault unless it is the name of a part or file and a tip says the
 * whole. Contrast: at least 4.5, 3.0 for large text (24 px, or bold 18.66 px: WCAG 2.1, 1.4.3); what cannot
 * be used now is not judged. Drawing: texts inside the view, none on another, letters of at least 11 px.
 *
 * Returns: (transfer full) (element-type utf8): one line for each fault
 */
GPtrArray *look_judge (GtkWidget *root, LookAspects aspects) G_GNUC_WARN_UNUSED_RESULT;

/**
 * look_foreign:
 * @names: (element-type utf8): what is told as it is in any language: names of parts, files
 *
 * In a window that speaks the made-up language of tests/support/pseudo_language.py every text stands in
 * brackets: words outside them were not translated. Units, key names and what a person wrote into an entry
 * are left out.
 *
 * Returns: (transfer full) (element-type utf8): one line for each
 */
GPtrArray *look_foreign (GtkWidget *root, const GPtrArray *names) G_GNUC_WARN_UNUSED_RESULT;

/* Fails the test with all @faults when there are any, and frees them; @when says what was being done. */
void look_tell (GPtrArray *faults, const char *when);

/* The same for all that look_judge() finds. */
void look_fine (GtkWidget *root, const char *when);

/**
 * look_describe:
 *
 * What a person sees, a line for each thing in the order of reading, as `where | what`. Where: `header`,
 * `start`, `parts`, `form`, `drawing`, `status`, `card NAME`, `dialog`, `popover`, else `window`. What: a
 * text as it is; `[name]` for what can be pressed, `[*name]` when it is on, `(name)` when it cannot be used;
 * `name = text` for what is filled in; `<name>` for a part on the drawing, `<*name>` for the chosen one. What
 * lies out of sight in a scrolled list has ` ~` behind it. Narrow spaces are told as plain ones.
 *
 * Returns: (transfer full)
 */
char *look_describe (GtkWidget *root) G_GNUC_WARN_UNUSED_RESULT;

/* Whether a line of look_describe() begins with @where and holds @what, in sight or not. */
gboolean look_shows (GtkWidget *root, const char *where, const char *what);

G_END_DECLS
