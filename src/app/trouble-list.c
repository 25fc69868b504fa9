/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/trouble-list.h"

#include <glib/gi18n-lib.h>

struct _TwTroubleList {
  AdwWindow parent_instance;

  AdwWindowTitle *title;
  GtkLabel *count;
  GtkListBox *rows;
  GtkButton *copy;
  char *text; /* all of it, as it is copied */
};

G_DEFINE_FINAL_TYPE (TwTroubleList, tw_trouble_list, ADW_TYPE_WINDOW)

static void
copy_cb (TwTroubleList *self)
{
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self)), self->text);
  gtk_button_set_label (self->copy, _ ("Copied"));
}

static void
add_row (TwTroubleList *self, const char *place, const char *words)
{
  GtkWidget *row = adw_action_row_new ();

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), place);
  adw_action_row_set_title_lines (ADW_ACTION_ROW (row), 0);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), words);
  adw_action_row_set_subtitle_lines (ADW_ACTION_ROW (row), 0);
  gtk_list_box_append (self->rows, row);
}

static void
fill (TwTroubleList *self, const char *path, const TwTroubles *troubles)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < troubles->list->len; i++) {
    const TwTrouble *trouble = g_ptr_array_index (troubles->list, i);
    /* Translators: what stands in a file, what is accepted there */
    g_autofree char *words = g_strdup_printf (_ ("found %s, expected %s"), trouble->found, trouble->expected);
    g_autofree char *line = tw_trouble_text (trouble);

    add_row (self, trouble->where, words);
    g_string_append_printf (text, "%s: %s\n", path, line);
  }
  if (troubles->n > troubles->list->len) {
    guint more = troubles->n - troubles->list->len;
    g_autofree char *words = g_strdup_printf (ngettext ("and %u more", "and %u more", more), more);

    add_row (self, words, _ ("Mend some of these first; the rest is told then."));
    g_string_append_printf (text, "%s: %s\n", path, words);
  }
  self->text = g_string_free (text, FALSE);
}

static void
tw_trouble_list_finalize (GObject *object)
{
  g_free (TW_TROUBLE_LIST (object)->text);
  G_OBJECT_CLASS (tw_trouble_list_parent_class)->finalize (object);
}

static void
tw_trouble_list_class_init (TwTroubleListClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = tw_trouble_list_finalize;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/trouble-list.ui");
  gtk_widget_class_bind_template_child (widget_class, TwTroubleList, title);
  gtk_widget_class_bind_template_child (widget_class, TwTroubleList, count);
  gtk_widget_class_bind_template_child (widget_class, TwTroubleList, rows);
  gtk_widget_class_bind_template_child (widget_class, TwTroubleList, copy);
  gtk_widget_class_bind_template_callback (widget_class, copy_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
tw_trouble_list_init (TwTroubleList *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
tw_trouble_list_show (GtkWindow *parent, const char *path, const TwTroubles *troubles)
{
  TwTroubleList *self = g_object_new (TW_TYPE_TROUBLE_LIST, "transient-for", parent, "modal", TRUE, NULL);
  g_autofree char *name = g_filename_display_basename (path);
  g_autofree char *count = NULL;

  count
      = g_strdup_printf (ngettext ("%u thing in this file cannot be read. Nothing was opened.",
                                   "%u things in this file cannot be read. Nothing was opened.", troubles->n),
                         troubles->n);
  adw_window_title_set_subtitle (self->title, name);
  gtk_label_set_label (self->count, count);
  fill (self, path, troubles);
  gtk_window_present (GTK_WINDOW (self));
}
