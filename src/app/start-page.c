/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/start-page.h"

#include "app/samples.h"

#include <adwaita.h>
#include <glib/gi18n-lib.h>

struct _TwStartPage {
  GtkWidget parent_instance;

  GtkListBox *samples;
  GtkWidget *heading;
  GPtrArray *list; /* of TwSample, in the order of the rows */
};

G_DEFINE_FINAL_TYPE (TwStartPage, tw_start_page, GTK_TYPE_WIDGET)

static void
sample_activated_cb (TwStartPage *self, GtkListBoxRow *row)
{
  const TwSample *sample = g_ptr_array_index (self->list, gtk_list_box_row_get_index (row));

  gtk_widget_activate_action (GTK_WIDGET (self), "win.open-sample", "s", sample->path);
}

static void
add_sample (TwStartPage *self, const TwSample *sample)
{
  GtkWidget *row = adw_action_row_new ();

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), sample->name);
  if (sample->note != NULL) {
    adw_action_row_set_subtitle (ADW_ACTION_ROW (row), sample->note);
    adw_action_row_set_subtitle_lines (ADW_ACTION_ROW (row), 2);
  }
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), gtk_image_new_from_icon_name ("go-next-symbolic"));
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
  gtk_list_box_append (self->samples, row);
}

/* Read when the page is first seen: a window that opens a file needs none of them. */
static void
tw_start_page_map (GtkWidget *widget)
{
  TwStartPage *self = TW_START_PAGE (widget);

  if (self->list == NULL) {
    self->list = tw_samples_list ();
    for (guint i = 0; i < self->list->len; i++)
      add_sample (self, g_ptr_array_index (self->list, i));
    gtk_widget_set_visible (GTK_WIDGET (self->samples), self->list->len > 0);
    gtk_widget_set_visible (self->heading, self->list->len > 0);
  }
  GTK_WIDGET_CLASS (tw_start_page_parent_class)->map (widget);
}

static void
tw_start_page_dispose (GObject *object)
{
  TwStartPage *self = TW_START_PAGE (object);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_pointer (&self->list, g_ptr_array_unref);
  G_OBJECT_CLASS (tw_start_page_parent_class)->dispose (object);
}

static void
tw_start_page_class_init (TwStartPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tw_start_page_dispose;
  widget_class->map = tw_start_page_map;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/start-page.ui");
  gtk_widget_class_bind_template_child (widget_class, TwStartPage, samples);
  gtk_widget_class_bind_template_child (widget_class, TwStartPage, heading);
  gtk_widget_class_bind_template_callback (widget_class, sample_activated_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
tw_start_page_init (TwStartPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
