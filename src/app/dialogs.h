/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * dialogs.h - questions to the person: which file, what to do with changes, what went wrong
 *
 * The only place that knows the toolkit's file chooser and message dialog, both of which later versions
 * rename.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Called once with a local path, or with NULL when nothing was chosen. */
typedef void (*TwDialogFileFunc) (const char *path, gpointer data);

/* Asks for a job to open, or for a place to save one. @folder may be NULL. */
void tw_dialog_open_file (GtkWindow *parent, const char *folder, TwDialogFileFunc done, gpointer data);
void tw_dialog_save_file (GtkWindow *parent, const char *path, TwDialogFileFunc done, gpointer data);

/* What the person decided. */
typedef enum {
  TW_DIALOG_CANCEL,
  TW_DIALOG_DISCARD,
  TW_DIALOG_SAVE,
  TW_DIALOG_ELSEWHERE, /* save under another name */
  TW_DIALOG_RELOAD,    /* take what the file holds */
  TW_DIALOG_OVERWRITE, /* take what the window holds */
} TwDialogAnswer;

typedef void (*TwDialogAnswerFunc) (TwDialogAnswer answer, gpointer data);

/* What to do with the changes of @title before they are lost. With @may_save FALSE they can only be kept or
 * thrown away. */
void tw_dialog_unsaved (GtkWindow *parent,
                        const char *title,
                        gboolean may_save,
                        TwDialogAnswerFunc done,
                        gpointer data);

/* What to do with the file at @path, which has changed since it was read or saved; @difference says how.
 */
void tw_dialog_conflict (GtkWindow *parent,
                         const char *path,
                         const char *difference,
                         TwDialogAnswerFunc done,
                         gpointer data);

/* Whether a question or message stands over @parent. */
gboolean tw_dialog_is_open (GtkWindow *parent);

/* Says that something failed with the file at @path. */
void tw_dialog_file_trouble (GtkWindow *parent, const char *sentence, const char *path, const GError *error);

/* Says that something failed; @details may have many lines. */
void tw_dialog_trouble (GtkWindow *parent, const char *heading, const char *details);

G_END_DECLS
