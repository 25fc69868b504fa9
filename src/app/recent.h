/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * recent.h - the jobs that were worked on last, as the desktop keeps them for all programs
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TW_RECENT_MOST 10

/* A job that was opened or saved; its file is there. All are owned. */
typedef struct {
  char *path;
  char *name;   /* of the file, to be shown */
  char *folder; /* to be shown beside it, with ~ for the home */
} TwRecent;

/* The latest first, at most @most, of TwRecent. Reads the desktop's list. (transfer full) */
GPtrArray *tw_recent_list (guint most) G_GNUC_WARN_UNUSED_RESULT;

/* A path as people write it: `~/jobs/merlin.twjob`. (transfer full) */
char *tw_recent_shown (const char *path) G_GNUC_WARN_UNUSED_RESULT;

/* Notes that the job at @path was opened or saved. */
void tw_recent_add (const char *path);

/* Fills @menu with the list, each the target of `win.open-file`, and keeps it up to date as long as it lives.
 */
void tw_recent_keep_menu (GMenu *menu);

/* The same for the rows of a list on the screen; @shown is hidden while there are none. */
void tw_recent_keep_list (GtkListBox *list, guint most, GtkWidget *shown);

G_END_DECLS
