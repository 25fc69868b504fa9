/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/recovery.h"

#include "app/recent.h"
#include "app/window.h"
#include "job/journal.h"
#include "job/read.h"
#include "job/write.h"

#include <glib/gi18n-lib.h>

struct _TwRecovery {
  AdwWindow parent_instance;

  GtkListBox *rows;
};

G_DEFINE_FINAL_TYPE (TwRecovery, tw_recovery, ADW_TYPE_WINDOW)

#define MOST_CHARS 60 /* of a line: so the window is as tall as its lines are when they are broken */

/* A row's journal; it is freed, and so left for the next time, with the row. */
#define JOURNAL "tw-journal"
/* Its button that has the focus first. */
#define FIRST_CHOICE "tw-first-choice"

/* --- words ---------------------------------------------------------------------------------------------- */

static char *
job_name (const TwJournal *journal)
{
  const TwJournalStory *story = tw_journal_story (journal);
  const char *name = tw_job_settings (tw_journal_job (journal))->name;

  if (name != NULL && name[0] != '\0')
    return g_strdup (name);
  return story->path != NULL ? g_filename_display_basename (story->path) : g_strdup (_ ("New job"));
}

static char *
file_words (const TwJournalStory *story)
{
  g_autofree char *shown = story->path != NULL ? tw_recent_shown (story->path) : NULL;
  g_autoptr (TwJob) disk = story->path != NULL ? tw_job_read_file (story->path, NULL) : NULL;
  g_autofree char *identity = disk != NULL ? tw_job_identity (disk) : NULL;

  if (story->path == NULL)
    return g_strdup (_ ("Never saved"));
  if (!g_file_test (story->path, G_FILE_TEST_EXISTS))
    /* Translators: the path of a file */
    return g_strdup_printf (_ ("%s – the file is gone"), shown);
  if (g_strcmp0 (identity, story->identity) != 0)
    return g_strdup_printf (_ ("%s – the file has been changed since"), shown);
  return g_steal_pointer (&shown);
}

static char *
step_words (const TwJournalStory *story)
{
  g_autoptr (GDateTime) time = g_date_time_new_from_unix_local (story->entered_s);
  /* Translators: day and time, as g_date_time_format() takes it */
  g_autofree char *when = g_date_time_format (time, _ ("%-d %B %Y, %H:%M"));
  g_autofree char *steps = g_strdup_printf (ngettext ("%u step", "%u steps", story->n_steps), story->n_steps);

  if (story->last_label == NULL)
    /* Translators: number of steps, day and time */
    return g_strdup_printf (_ ("%s, until %s"), steps, when);
  /* Translators: number of steps, day and time, name of the last step */
  return g_strdup_printf (_ ("%s, until %s; the last: %s"), steps, when, story->last_label);
}

static char *
loss_words (const TwJournalStory *story)
{
  guint n = story->n_lost + (story->cut_off ? 1 : 0);

  if (n == 0)
    return g_strdup (_ ("Nothing that was done is missing."));
  if (n == 1 && story->cut_off)
    return g_strdup (_ ("One more step was cut off while it was written: it is lost."));
  return g_strdup_printf (ngettext ("%u later step cannot be read any more: it is lost.",
                                    "%u later steps cannot be read any more: they are lost.", n),
                          n);
}

/* --- rows ----------------------------------------------------------------------------------------------- */

/* Its file holds the same already, or there was nothing done on it. */
static gboolean
is_needless (const TwJournal *journal)
{
  const TwJournalStory *story = tw_journal_story (journal);
  g_autofree char *now = NULL, *disk_identity = NULL;
  g_autoptr (TwJob) disk = NULL;

  if (story->path == NULL)
    return FALSE;
  now = tw_job_identity (tw_journal_job (journal));
  disk = tw_job_read_file (story->path, NULL);
  disk_identity = disk != NULL ? tw_job_identity (disk) : NULL;
  return g_strcmp0 (now, disk_identity) == 0
         || (story->n_lost == 0 && disk != NULL && g_strcmp0 (now, story->identity) == 0);
}

static TwJournal *
steal_journal (GtkWidget *row)
{
  return g_object_steal_data (G_OBJECT (row), JOURNAL);
}

static void
drop_row (TwRecovery *self, GtkWidget *row)
{
  gtk_list_box_remove (self->rows, row);
  if (gtk_widget_get_first_child (GTK_WIDGET (self->rows)) == NULL)
    gtk_window_close (GTK_WINDOW (self));
}

static void
recover_cb (GtkButton *button, GtkWidget *row)
{
  TwRecovery *self = TW_RECOVERY (gtk_widget_get_root (row));
  GtkWindow *parent = gtk_window_get_transient_for (GTK_WINDOW (self));
  TwJournal *journal = steal_journal (row);

  tw_window_recover (TW_WINDOW (parent), journal);
  drop_row (self, row);
}

/* A second press does it: nothing brings it back. */
static void
discard_cb (GtkButton *button, GtkWidget *row)
{
  TwRecovery *self = TW_RECOVERY (gtk_widget_get_root (row));

  if (!gtk_widget_has_css_class (GTK_WIDGET (button), "destructive-action")) {
    gtk_widget_add_css_class (GTK_WIDGET (button), "destructive-action");
    gtk_button_set_label (button, _ ("Discard for Good"));
    return;
  }
  tw_journal_remove (steal_journal (row));
  drop_row (self, row);
}

static GtkWidget *
line_new (const char *words, const char *style)
{
  GtkWidget *label = gtk_label_new (words);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), MOST_CHARS);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_widget_add_css_class (label, style);
  return label;
}

static GtkWidget *
buttons_new (GtkWidget *row, const char *name)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *discard = gtk_button_new_with_label (_ ("Discard"));
  GtkWidget *recover = gtk_button_new_with_label (_ ("Recover"));
  /* Translators: what a screen reader says for a button; the name of a job */
  g_autofree char *discard_name = g_strdup_printf (_ ("Discard %s"), name),
                  *recover_name = g_strdup_printf (_ ("Recover %s"), name);

  gtk_widget_set_halign (box, GTK_ALIGN_END);
  gtk_widget_set_margin_top (box, 9);
  gtk_accessible_update_property (GTK_ACCESSIBLE (discard), GTK_ACCESSIBLE_PROPERTY_LABEL, discard_name, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (recover), GTK_ACCESSIBLE_PROPERTY_LABEL, recover_name, -1);
  g_signal_connect (discard, "clicked", G_CALLBACK (discard_cb), row);
  g_signal_connect (recover, "clicked", G_CALLBACK (recover_cb), row);
  gtk_box_append (GTK_BOX (box), discard);
  gtk_box_append (GTK_BOX (box), recover);
  g_object_set_data (G_OBJECT (row), FIRST_CHOICE, recover);
  return box;
}

static void
add_row (TwRecovery *self, TwJournal *journal)
{
  const TwJournalStory *story = tw_journal_story (journal);
  GtkWidget *row = gtk_list_box_row_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  g_autofree char *name = job_name (journal), *file = file_words (story), *steps = step_words (story),
                  *loss = loss_words (story);
  gboolean lost = story->n_lost > 0 || story->cut_off;

  g_object_set_data_full (G_OBJECT (row), JOURNAL, journal, (GDestroyNotify)tw_journal_free);
  gtk_widget_add_css_class (box, "recovered");
  gtk_box_append (GTK_BOX (box), line_new (name, "heading"));
  gtk_box_append (GTK_BOX (box), line_new (file, "caption"));
  gtk_box_append (GTK_BOX (box), line_new (steps, "caption"));
  gtk_box_append (GTK_BOX (box), line_new (loss, lost ? "caption-heading" : "caption"));
  gtk_box_append (GTK_BOX (box), buttons_new (row, name));
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_list_box_append (self->rows, row);
}

static void
tw_recovery_class_init (TwRecoveryClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/recovery.ui");
  gtk_widget_class_bind_template_child (widget_class, TwRecovery, rows);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
tw_recovery_init (TwRecovery *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

gboolean
tw_recovery_offer (GtkApplication *application)
{
  GtkWindow *parent = gtk_application_get_active_window (application);
  g_autofree char *folder = tw_journal_folder ();
  g_autoptr (GPtrArray) left = tw_journal_left (folder);
  TwRecovery *self = NULL;

  g_return_val_if_fail (TW_IS_WINDOW (parent), FALSE);
  while (left->len > 0) {
    TwJournal *journal = g_ptr_array_steal_index (left, 0);

    if (is_needless (journal)) {
      tw_journal_remove (journal);
      continue;
    }
    if (self == NULL)
      self = g_object_new (TW_TYPE_RECOVERY, "transient-for", parent, "modal", TRUE, NULL);
    add_row (self, journal);
  }
  if (self == NULL)
    return FALSE;
  gtk_window_set_focus (
      GTK_WINDOW (self),
      g_object_get_data (G_OBJECT (gtk_list_box_get_row_at_index (self->rows, 0)), FIRST_CHOICE));
  gtk_window_present (GTK_WINDOW (self));
  return TRUE;
}
