/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/dialogs.h"
#include "app/new-layout.h"
#include "app/recent.h"
#include "app/trouble-list.h"
#include "app/window-private.h"

#include "job/read.h"
#include "propose/first-layout.h"

#include <glib/gi18n-lib.h>
#include <sys/stat.h>

/* --- which window --------------------------------------------------------------------------------------- */

/* One file under two names is one file. */
static gboolean
same_file (const char *a, const char *b)
{
  struct stat one, other;

  if (stat (a, &one) == 0 && stat (b, &other) == 0)
    return one.st_dev == other.st_dev && one.st_ino == other.st_ino;
  return g_str_equal (a, b);
}

TwWindow *
tw_window_with_file (GtkApplication *application, const char *path)
{
  for (GList *at = gtk_application_get_windows (application); at != NULL; at = at->next) {
    const char *own = TW_IS_WINDOW (at->data) ? tw_session_path (TW_WINDOW (at->data)->session) : NULL;

    if (own != NULL && same_file (own, path))
      return at->data;
  }
  return NULL;
}

static TwWindow *
another_window (TwWindow *self)
{
  TwWindow *other = tw_window_new (ADW_APPLICATION (gtk_window_get_application (GTK_WINDOW (self))));

  gtk_window_present (GTK_WINDOW (other));
  return other;
}

/* The window that a job is to be opened in: this one while it is empty. */
static TwWindow *
window_for_job (TwWindow *self)
{
  return tw_session_has_job (self->session) ? another_window (self) : self;
}

/* --- opening -------------------------------------------------------------------------------------------- */

/* The job at @path, or NULL after saying everything that is wrong. */
static TwJob *
read_job (TwWindow *self, const char *path)
{
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  g_autoptr (GError) error = NULL;
  TwJob *job = tw_job_read_troubles (path, troubles, &error);

  if (error != NULL)
    tw_dialog_file_trouble (GTK_WINDOW (self), _ ("This file cannot be opened"), path, error);
  else if (job == NULL)
    tw_trouble_list_show (GTK_WINDOW (self), path, troubles);
  return job;
}

/* Opens @path in @target, or shows the window that has it already. */
static void
open_in (TwWindow *self, const char *path, gboolean as_copy, TwWindow *(*choose) (TwWindow *self))
{
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (self));
  TwWindow *other = as_copy ? NULL : tw_window_with_file (application, path);
  TwJob *job;

  if (other != NULL) {
    gtk_window_present (GTK_WINDOW (other));
    return;
  }
  job = read_job (self, path);
  if (job == NULL)
    return;
  tw_session_take_job (choose (self)->session, job, as_copy ? NULL : path);
  if (!as_copy)
    tw_recent_add (path);
}

void
tw_window_open_path (TwWindow *self, const char *path, gboolean as_copy)
{
  open_in (self, path, as_copy, window_for_job);
}

void
tw_window_take_new (TwWindow *self, TwJob *job)
{
  TwSession *session = window_for_job (self)->session;
  TwJob *empty = tw_job_new ();
  TwChange *made;
  g_autoptr (TwJob) kept = job;
  g_autoptr (GError) error = NULL;

  if (tw_job_extra (job) != NULL)
    tw_job_set_extra (empty, cJSON_Duplicate (tw_job_extra (job), TRUE));
  made = tw_first_layout_change (job, _ ("New Layout"));
  tw_session_take_job (session, empty, NULL);
  if (tw_change_group_size (made) == 0)
    tw_change_free (made);
  else if (!tw_session_do (session, made, &error))
    tw_dialog_trouble (GTK_WINDOW (self), _ ("The layout was not made"), error->message);
}

static void
layout_made_cb (TwJob *job, gpointer data)
{
  tw_window_take_new (data, job);
}

void
tw_window_ask_new_layout (TwWindow *self)
{
  tw_new_layout_ask (GTK_WINDOW (self), layout_made_cb, g_object_ref (self), g_object_unref);
}

static void
open_chosen_cb (const char *path, gpointer data)
{
  g_autoptr (TwWindow) self = data;

  if (path != NULL)
    tw_window_open_path (self, path, FALSE);
}

void
tw_window_ask_open (TwWindow *self)
{
  const char *path = tw_session_path (self->session);
  g_autofree char *folder = path ? g_path_get_dirname (path) : NULL;

  tw_dialog_open_file (GTK_WINDOW (self), folder, open_chosen_cb, g_object_ref (self));
}

/* --- reopening ------------------------------------------------------------------------------------------ */

void
tw_window_read_again (TwWindow *self)
{
  g_autofree char *path = g_strdup (tw_session_path (self->session));
  TwJob *job = read_job (self, path);

  if (job != NULL)
    tw_session_take_job (self->session, job, path);
}

static void
reopen_answered_cb (TwDialogAnswer answer, gpointer data)
{
  g_autoptr (TwWindow) self = data;

  if (answer == TW_DIALOG_DISCARD)
    tw_window_read_again (self);
}

void
tw_window_reopen (TwWindow *self)
{
  g_autofree char *title = NULL;

  if (!tw_session_is_modified (self->session)) {
    tw_window_read_again (self);
    return;
  }
  title = tw_session_title (self->session);
  tw_dialog_unsaved (GTK_WINDOW (self), title, FALSE, reopen_answered_cb, g_object_ref (self));
}

/* --- recovering ----------------------------------------------------------------------------------------- */

void
tw_window_recover (TwWindow *self, TwJournal *journal)
{
  const TwJournalStory *story = tw_journal_story (journal);
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (self));
  TwWindow *target = story->path != NULL ? tw_window_with_file (application, story->path) : NULL;
  g_autofree char *words = g_strdup_printf (
      ngettext ("%u step recovered; not saved yet", "%u steps recovered; not saved yet", story->n_steps),
      story->n_steps);

  if (target == NULL || tw_session_is_modified (target->session))
    target = window_for_job (self);
  tw_keeper_recover (target->keeper, journal);
  gtk_window_present (GTK_WINDOW (target));
  tw_window_say (target, words);
}

/* --- dropping files ------------------------------------------------------------------------------------- */

/* A window whose job is in a file takes another in its place. */
static TwWindow *
window_for_drop (TwWindow *self)
{
  return tw_session_is_modified (self->session) ? another_window (self) : self;
}

static gboolean
drop_cb (TwWindow *self, const GValue *value)
{
  TwWindow *(*choose) (TwWindow *) = window_for_drop;
  gboolean any = FALSE;

  for (GSList *at = g_value_get_boxed (value); at != NULL; at = at->next) {
    g_autofree char *path = g_file_get_path (at->data);

    if (path == NULL) {
      tw_window_say (self, _ ("Only files of this computer can be opened."));
      continue;
    }
    open_in (self, path, FALSE, choose);
    choose = another_window;
    any = TRUE;
  }
  return any;
}

void
tw_window_accept_files (TwWindow *self)
{
  GtkDropTarget *target = gtk_drop_target_new (GDK_TYPE_FILE_LIST, GDK_ACTION_COPY);

  g_signal_connect_swapped (target, "drop", G_CALLBACK (drop_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (target));
}
