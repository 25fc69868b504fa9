/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/dialogs.h"
#include "app/new-layout.h"
#include "app/window-private.h"

#include "job/read.h"
#include "propose/first-layout.h"

#include <glib/gi18n-lib.h>

static void
say_trouble (TwWindow *self, const char *sentence, const char *path, const GError *error)
{
  g_autofree char *name = g_filename_display_basename (path);
  g_autofree char *heading = g_strdup_printf ("%s: %s", sentence, name);

  tw_dialog_trouble (GTK_WINDOW (self), heading, error->message);
}

/* The window that @path is to be opened in: this one while it is empty. */
static TwWindow *
window_for_job (TwWindow *self)
{
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (self));
  TwWindow *other;

  if (!tw_session_has_job (self->session))
    return self;
  other = tw_window_new (ADW_APPLICATION (application));
  gtk_window_present (GTK_WINDOW (other));
  return other;
}

void
tw_window_open_path (TwWindow *self, const char *path, gboolean as_copy)
{
  g_autoptr (GError) error = NULL;
  TwJob *job = tw_job_read_file (path, &error);

  if (job == NULL) {
    say_trouble (self, _ ("This file cannot be opened"), path, error);
    return;
  }
  tw_session_take_job (window_for_job (self)->session, job, as_copy ? NULL : path);
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

/* --- saving --------------------------------------------------------------------------------------------- */

static gboolean
save_to (TwWindow *self, const char *path)
{
  g_autoptr (GError) error = NULL;

  if (!tw_session_save (self->session, path, &error)) {
    say_trouble (self, _ ("The job was not saved"), path, error);
    return FALSE;
  }
  tw_window_say (self, _ ("Saved"));
  return TRUE;
}

static void
save_chosen_cb (const char *path, gpointer data)
{
  g_autoptr (TwWindow) self = data;

  if (path != NULL)
    (void)save_to (self, path);
}

/* A file name made of the job's title: letters, figures and dashes. */
static char *
suggest_name (TwWindow *self)
{
  g_autofree char *title = tw_session_title (self->session);
  g_autofree char *lower = g_utf8_strdown (title, -1);
  GString *name = g_string_new (NULL);

  for (const char *at = lower; *at != '\0'; at = g_utf8_next_char (at)) {
    gunichar c = g_utf8_get_char (at);

    if (g_unichar_isalnum (c))
      g_string_append_unichar (name, c);
    else if (name->len > 0 && name->str[name->len - 1] != '-')
      g_string_append_c (name, '-');
  }
  while (name->len > 0 && name->str[name->len - 1] == '-')
    g_string_truncate (name, name->len - 1);
  g_string_append (name, ".twjob");
  return g_string_free (name, FALSE);
}

static void
ask_save (TwWindow *self, TwDialogFileFunc done)
{
  const char *path = tw_session_path (self->session);
  g_autofree char *suggested = path ? g_strdup (path) : suggest_name (self);

  tw_dialog_save_file (GTK_WINDOW (self), suggested, done, g_object_ref (self));
}

void
tw_window_save_as (TwWindow *self)
{
  ask_save (self, save_chosen_cb);
}

void
tw_window_save (TwWindow *self)
{
  const char *path = tw_session_path (self->session);

  if (path == NULL) {
    tw_window_save_as (self);
  } else {
    g_autofree char *kept = g_strdup (path);

    (void)save_to (self, kept);
  }
}

/* --- reopening ------------------------------------------------------------------------------------------ */

static void
read_again (TwWindow *self)
{
  g_autofree char *path = g_strdup (tw_session_path (self->session));
  g_autoptr (GError) error = NULL;

  if (!tw_session_open (self->session, path, &error))
    say_trouble (self, _ ("This file cannot be opened"), path, error);
}

static void
reopen_answered_cb (TwDialogAnswer answer, gpointer data)
{
  g_autoptr (TwWindow) self = data;

  if (answer == TW_DIALOG_DISCARD)
    read_again (self);
}

void
tw_window_reopen (TwWindow *self)
{
  g_autofree char *title = NULL;

  if (!tw_session_is_modified (self->session)) {
    read_again (self);
    return;
  }
  title = tw_session_title (self->session);
  tw_dialog_unsaved (GTK_WINDOW (self), title, FALSE, reopen_answered_cb, g_object_ref (self));
}

/* --- closing -------------------------------------------------------------------------------------------- */

static void
close_now (TwWindow *self)
{
  self->may_close = TRUE;
  gtk_window_close (GTK_WINDOW (self));
}

static void
save_and_close_cb (const char *path, gpointer data)
{
  g_autoptr (TwWindow) self = data;

  if (path != NULL && save_to (self, path))
    close_now (self);
}

static void
close_answered_cb (TwDialogAnswer answer, gpointer data)
{
  g_autoptr (TwWindow) self = data;
  g_autofree char *path = g_strdup (tw_session_path (self->session));

  if (answer == TW_DIALOG_DISCARD)
    close_now (self);
  else if (answer == TW_DIALOG_SAVE && path == NULL)
    ask_save (self, save_and_close_cb);
  else if (answer == TW_DIALOG_SAVE && save_to (self, path))
    close_now (self);
}

gboolean
tw_window_try_close (TwWindow *self)
{
  g_autofree char *title = NULL;

  if (self->may_close || !tw_session_is_modified (self->session))
    return TRUE;
  title = tw_session_title (self->session);
  tw_dialog_unsaved (GTK_WINDOW (self), title, TRUE, close_answered_cb, g_object_ref (self));
  return FALSE;
}
