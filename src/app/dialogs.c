/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/dialogs.h"

#include <adwaita.h>
#include <glib/gi18n-lib.h>

#define MOST_DETAIL_LINES 12

typedef struct {
  GtkFileChooserNative *chooser;
  TwDialogFileFunc done;
  gpointer data;
} FileQuestion;

static void
file_response_cb (GtkNativeDialog *dialog, int response, gpointer data)
{
  FileQuestion *question = data;
  g_autofree char *path = NULL;

  if (response == GTK_RESPONSE_ACCEPT) {
    g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));

    path = g_file_get_path (file);
  }
  question->done (path, question->data);
  g_object_unref (question->chooser);
  g_free (question);
}

static void
add_filters (GtkFileChooser *chooser)
{
  g_autoptr (GtkFileFilter) jobs = gtk_file_filter_new ();
  g_autoptr (GtkFileFilter) all = gtk_file_filter_new ();

  gtk_file_filter_set_name (jobs, _ ("Tankwright jobs"));
  gtk_file_filter_add_pattern (jobs, "*.twjob");
  gtk_file_chooser_add_filter (chooser, jobs);
  gtk_file_filter_set_name (all, _ ("All files"));
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (chooser, all);
}

static void
set_folder (GtkFileChooser *chooser, const char *folder)
{
  g_autoptr (GFile) file = NULL;

  if (folder == NULL)
    return;
  file = g_file_new_for_path (folder);
  gtk_file_chooser_set_current_folder (chooser, file, NULL);
}

static void
ask_file (GtkFileChooserNative *chooser, TwDialogFileFunc done, gpointer data)
{
  FileQuestion *question = g_new (FileQuestion, 1);

  *question = (FileQuestion){ chooser, done, data };
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  add_filters (GTK_FILE_CHOOSER (chooser));
  g_signal_connect (chooser, "response", G_CALLBACK (file_response_cb), question);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

void
tw_dialog_open_file (GtkWindow *parent, const char *folder, TwDialogFileFunc done, gpointer data)
{
  GtkFileChooserNative *chooser = gtk_file_chooser_native_new (
      _ ("Open a Job"), parent, GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Open"), _ ("_Cancel"));

  set_folder (GTK_FILE_CHOOSER (chooser), folder);
  ask_file (chooser, done, data);
}

void
tw_dialog_save_file (GtkWindow *parent, const char *path, TwDialogFileFunc done, gpointer data)
{
  GtkFileChooserNative *chooser = gtk_file_chooser_native_new (
      _ ("Save the Job"), parent, GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"), _ ("_Cancel"));
  g_autofree char *name = g_path_get_basename (path);

  if (g_path_is_absolute (path)) {
    g_autofree char *folder = g_path_get_dirname (path);

    set_folder (GTK_FILE_CHOOSER (chooser), folder);
  }
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), name);
  ask_file (chooser, done, data);
}

typedef struct {
  TwDialogAnswerFunc done;
  gpointer data;
} AnswerQuestion;

static void
answer_response_cb (AdwMessageDialog *dialog, const char *response, gpointer data)
{
  AnswerQuestion *question = data;
  static const struct {
    const char *response;
    TwDialogAnswer answer;
  } answers[] = {
    { "save", TW_DIALOG_SAVE },           { "discard", TW_DIALOG_DISCARD },
    { "elsewhere", TW_DIALOG_ELSEWHERE }, { "reload", TW_DIALOG_RELOAD },
    { "overwrite", TW_DIALOG_OVERWRITE },
  };
  TwDialogAnswer answer = TW_DIALOG_CANCEL;

  for (guint i = 0; i < G_N_ELEMENTS (answers); i++)
    if (g_str_equal (response, answers[i].response))
      answer = answers[i].answer;
  question->done (answer, question->data);
  g_free (question);
}

void
tw_dialog_unsaved (GtkWindow *parent,
                   const char *title,
                   gboolean may_save,
                   TwDialogAnswerFunc done,
                   gpointer data)
{
  GtkWidget *widget
      = adw_message_dialog_new (parent, may_save ? _ ("Save Changes?") : _ ("Throw Changes Away?"), NULL);
  AdwMessageDialog *dialog = ADW_MESSAGE_DIALOG (widget);
  AnswerQuestion *question = g_new (AnswerQuestion, 1);

  *question = (AnswerQuestion){ done, data };
  adw_message_dialog_format_body (
      dialog, _ ("“%s” has changes that are in no file. What is not saved is lost for good."), title);
  adw_message_dialog_add_response (dialog, "cancel", _ ("_Cancel"));
  adw_message_dialog_add_response (dialog, "discard", may_save ? _ ("_Discard") : _ ("_Throw Away"));
  adw_message_dialog_set_response_appearance (dialog, "discard", ADW_RESPONSE_DESTRUCTIVE);
  if (may_save) {
    adw_message_dialog_add_response (dialog, "save", _ ("_Save"));
    adw_message_dialog_set_response_appearance (dialog, "save", ADW_RESPONSE_SUGGESTED);
    adw_message_dialog_set_default_response (dialog, "save");
  }
  adw_message_dialog_set_close_response (dialog, "cancel");
  g_signal_connect (dialog, "response", G_CALLBACK (answer_response_cb), question);
  gtk_window_present (GTK_WINDOW (dialog));
}

void
tw_dialog_conflict (GtkWindow *parent,
                    const char *path,
                    const char *difference,
                    TwDialogAnswerFunc done,
                    gpointer data)
{
  GtkWidget *widget = adw_message_dialog_new (parent, _ ("The File Has Changed on Disk"), NULL);
  AdwMessageDialog *dialog = ADW_MESSAGE_DIALOG (widget);
  AnswerQuestion *question = g_new (AnswerQuestion, 1);
  g_autofree char *name = g_filename_display_basename (path);

  *question = (AnswerQuestion){ done, data };
  adw_message_dialog_format_body (
      dialog,
      /* Translators: the name of a file; a sentence that says what it holds now */
      _ ("“%s” is not as it was when it was opened or saved last. %s\n\nReload takes what the file holds and "
         "gives up the changes made here. Overwrite keeps what is here and gives up what the file holds."),
      name, difference);
  adw_message_dialog_add_responses (dialog, "cancel", _ ("_Cancel"), "reload", _ ("_Reload"), "overwrite",
                                    _ ("_Overwrite"), "elsewhere", _ ("Save Under _Another Name…"), NULL);
  adw_message_dialog_set_response_appearance (dialog, "reload", ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_response_appearance (dialog, "overwrite", ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_response_appearance (dialog, "elsewhere", ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (dialog, "elsewhere");
  adw_message_dialog_set_close_response (dialog, "cancel");
  gtk_window_set_title (GTK_WINDOW (dialog), adw_message_dialog_get_heading (dialog));
  g_signal_connect (dialog, "response", G_CALLBACK (answer_response_cb), question);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* A file can be wrong in two hundred places; a dialog that long leaves the screen. */
static char *
shorten (const char *details)
{
  g_auto (GStrv) lines = g_strsplit (details, "\n", -1);
  guint n = g_strv_length (lines);
  g_autofree char *start = NULL;
  guint more;

  if (n <= MOST_DETAIL_LINES)
    return g_strdup (details);
  g_clear_pointer (&lines[MOST_DETAIL_LINES], g_free);
  start = g_strjoinv ("\n", lines);
  more = n - MOST_DETAIL_LINES;
  for (guint i = MOST_DETAIL_LINES + 1; i < n; i++)
    g_clear_pointer (&lines[i], g_free);
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%s\n… and %u more line", "%s\n… and %u more lines", more), start, more);
}

void
tw_dialog_trouble (GtkWindow *parent, const char *heading, const char *details)
{
  g_autofree char *body = shorten (details);
  GtkWidget *dialog = adw_message_dialog_new (parent, heading, body);

  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "close", _ ("_Close"));
  gtk_window_present (GTK_WINDOW (dialog));
}

void
tw_dialog_file_trouble (GtkWindow *parent, const char *sentence, const char *path, const GError *error)
{
  g_autofree char *name = g_filename_display_basename (path);
  g_autofree char *heading = g_strdup_printf ("%s: %s", sentence, name);

  tw_dialog_trouble (parent, heading, error->message);
}

gboolean
tw_dialog_is_open (GtkWindow *parent)
{
  g_autoptr (GList) all = gtk_window_list_toplevels ();

  for (GList *at = all; at != NULL; at = at->next)
    if (ADW_IS_MESSAGE_DIALOG (at->data) && gtk_window_get_transient_for (at->data) == parent
        && gtk_widget_get_visible (at->data))
      return TRUE;
  return FALSE;
}
