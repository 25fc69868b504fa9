/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/dialogs.h"
#include "app/recent.h"
#include "app/window-private.h"

#include <glib/gi18n-lib.h>

/* A save under way: which window, and who wants to know how it ended. */
typedef struct {
  TwWindow *window;   /* counted */
  TwWindowEnded done; /* may be NULL */
  gpointer data;
} Saving;

static Saving *
saving_new (TwWindow *window, TwWindowEnded done, gpointer data)
{
  Saving *self = g_new (Saving, 1);

  *self = (Saving){ g_object_ref (window), done, data };
  return self;
}

static void
end (Saving *self, gboolean ok)
{
  if (self->done != NULL)
    self->done (self->window, ok, self->data);
  g_object_unref (self->window);
  g_free (self);
}

/* --- writing -------------------------------------------------------------------------------------------- */

static void
write_to (Saving *self, const char *path)
{
  g_autoptr (GError) error = NULL;
  gboolean ok = tw_session_save (self->window->session, path, &error);

  if (ok) {
    tw_recent_add (path);
    tw_window_say (self->window, _ ("Saved"));
  } else {
    tw_dialog_file_trouble (GTK_WINDOW (self->window), _ ("The job was not saved"), path, error);
  }
  end (self, ok);
}

static void save_checked (Saving *self);

static void
place_chosen_cb (const char *path, gpointer data)
{
  Saving *self = data;
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (self->window));
  TwWindow *other = path != NULL ? tw_window_with_file (application, path) : NULL;

  if (path == NULL) {
    end (self, FALSE);
  } else if (other == self->window) {
    save_checked (self);
  } else if (other != NULL) {
    tw_dialog_trouble (
        GTK_WINDOW (self->window), _ ("The job was not saved"),
        _ ("This file is open in another window. Choose another name, or close that window first."));
    end (self, FALSE);
  } else {
    write_to (self, path);
  }
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
ask_place (Saving *self)
{
  const char *path = tw_session_path (self->window->session);
  g_autofree char *suggested = path ? g_strdup (path) : suggest_name (self->window);

  tw_dialog_save_file (GTK_WINDOW (self->window), suggested, place_chosen_cb, self);
}

/* --- a file that others have changed -------------------------------------------------------------------- */

static void
add_words (GString *text, const char *format, guint n)
{
  if (n == 0)
    return;
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
  g_string_append (text, text->len > 0 ? "; " : "");
  g_string_append_printf (text, format, n);
#pragma GCC diagnostic pop
}

/* What the file holds, compared with the job in the window. */
static char *
difference_words (const TwJobDifference *d)
{
  g_autoptr (GString) list = g_string_new (NULL);

  add_words (list, ngettext ("%u part differs", "%u parts differ", d->n_changed), d->n_changed);
  add_words (list, ngettext ("%u part is only in the file", "%u parts are only in the file", d->n_added),
             d->n_added);
  add_words (list, ngettext ("%u part is only here", "%u parts are only here", d->n_removed), d->n_removed);
  if (list->len == 0)
    return g_strdup (_ ("By now it holds the same as this window."));
  /* Translators: a list such as “2 parts differ; 1 part is only here” */
  return g_strdup_printf (_ ("Compared with this window: %s."), list->str);
}

static void
conflict_answered_cb (TwDialogAnswer answer, gpointer data)
{
  Saving *self = data;
  g_autofree char *path = g_strdup (tw_session_path (self->window->session));

  switch (answer) {
  case TW_DIALOG_OVERWRITE:
    write_to (self, path);
    break;
  case TW_DIALOG_ELSEWHERE:
    ask_place (self);
    break;
  case TW_DIALOG_RELOAD:
    tw_window_read_again (self->window);
    end (self, FALSE);
    break;
  default:
    end (self, FALSE);
  }
}

/* To the job's own file, when it is as it was read or saved last; else asks. */
static void
save_checked (Saving *self)
{
  g_autofree char *path = g_strdup (tw_session_path (self->window->session));
  g_autofree char *words = NULL;
  TwJobDifference difference;

  switch (tw_keeper_look (self->window->keeper, &difference)) {
  case TW_DISK_SAME:
  case TW_DISK_GONE:
    write_to (self, path);
    return;
  case TW_DISK_CHANGED:
    words = difference_words (&difference);
    break;
  case TW_DISK_UNREADABLE:
    words = g_strdup (_ ("What it holds now cannot be read as a job."));
    break;
  }
  tw_dialog_conflict (GTK_WINDOW (self->window), path, words, conflict_answered_cb, self);
}

static void
start (Saving *self)
{
  if (tw_session_path (self->window->session) == NULL)
    ask_place (self);
  else
    save_checked (self);
}

void
tw_window_save (TwWindow *self)
{
  start (saving_new (self, NULL, NULL));
}

void
tw_window_save_as (TwWindow *self)
{
  ask_place (saving_new (self, NULL, NULL));
}

void
tw_window_disk_changed (TwWindow *self)
{
  g_autofree char *name = tw_session_path (self->session) != NULL
                              ? g_filename_display_basename (tw_session_path (self->session))
                              : NULL;
  g_autofree char *words = NULL;
  TwDiskState state = tw_keeper_look (self->keeper, NULL);

  if (state == TW_DISK_SAME || name == NULL)
    return;
  if (state == TW_DISK_GONE)
    words = g_strdup_printf (_ ("%s is not in its folder any more. Saving writes it anew."), name);
  else if (tw_session_is_modified (self->session) || state == TW_DISK_UNREADABLE)
    words = g_strdup_printf (_ ("%s has changed on disk. Saving will ask."), name);
  else
    words = g_strdup_printf (_ ("%s has changed on disk."), name);
  tw_window_say_with (self, words, state == TW_DISK_CHANGED ? _ ("Reload") : NULL, "win.reopen");
}

/* --- closing -------------------------------------------------------------------------------------------- */

static void
saved_before_close_cb (TwWindow *self, gboolean ok, gpointer data)
{
  Saving *closing = data;

  self->may_close = ok;
  end (closing, ok);
}

static void
close_answered_cb (TwDialogAnswer answer, gpointer data)
{
  Saving *closing = data;

  if (answer == TW_DIALOG_SAVE) {
    start (saving_new (closing->window, saved_before_close_cb, closing));
    return;
  }
  closing->window->may_close = answer == TW_DIALOG_DISCARD;
  end (closing, answer == TW_DIALOG_DISCARD);
}

void
tw_window_ask_close (TwWindow *self, TwWindowEnded done, gpointer data)
{
  g_autofree char *title = tw_session_title (self->session);

  if (tw_dialog_is_open (GTK_WINDOW (self)))
    return;
  tw_dialog_unsaved (GTK_WINDOW (self), title, TRUE, close_answered_cb, saving_new (self, done, data));
}

static void
close_cb (TwWindow *self, gboolean ok, gpointer data)
{
  if (ok)
    gtk_window_close (GTK_WINDOW (self));
}

gboolean
tw_window_try_close (TwWindow *self)
{
  if (self->may_close || !tw_session_is_modified (self->session)) {
    tw_keeper_forget (self->keeper); /* nobody wants it back */
    return TRUE;
  }
  tw_window_ask_close (self, close_cb, NULL);
  return FALSE;
}

gboolean
tw_window_wants_answer (TwWindow *self)
{
  return !self->may_close && tw_session_is_modified (self->session);
}

void
tw_window_stay (TwWindow *self)
{
  self->may_close = FALSE;
}
