/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * start-page.h - what a window shows before it has a job: a new layout, a file, or one of the samples
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TW_TYPE_START_PAGE (tw_start_page_get_type ())

/* Runs the window's actions `win.new-layout`, `win.open`, `win.new-empty`, `win.open-sample` and
 * `win.open-file` (with a path). */
G_DECLARE_FINAL_TYPE (TwStartPage, tw_start_page, TW, START_PAGE, GtkWidget)

G_END_DECLS
