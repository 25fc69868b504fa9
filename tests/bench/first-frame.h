/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * first-frame.h - a program that says what it cost to its first painted frame, and ends
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* When the program was started, as g_get_monotonic_time() says it: the environment variable that the one who
 * starts it sets. */
#define FIRST_FRAME_SINCE "TW_BENCH_SINCE"

/* Before @application runs: when its first window has painted once, prints
 * `wall ms, processor ms, proportional share of memory KiB, resident KiB` and ends the process. */
void first_frame_watch (GtkApplication *application);

G_END_DECLS
