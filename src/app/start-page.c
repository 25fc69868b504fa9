/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/start-page.h"

#include "app/job-picture.h"
#include "app/recent.h"
#include "app/samples.h"

#include <adwaita.h>
#include <glib/gi18n-lib.h>

#define PICTURE_HEIGHT_PX 104
#define MOST_RECENT 5
#define NOTE_LINES 3

struct _TwStartPage {
  GtkWidget parent_instance;

  GtkListBox *recent;
  GtkWidget *recent_box;
  GtkFlowBox *samples;
  GtkWidget *samples_box;

  TwSamples *list; /* NULL until the page is first seen; owned by the application */
  guint drawing;   /* idle source that fills the pictures, one at a time; 0: none */
  guint n_drawn;
};

G_DEFINE_FINAL_TYPE (TwStartPage, tw_start_page, GTK_TYPE_WIDGET)

static void
sample_activated_cb (TwStartPage *self, GtkFlowBoxChild *tile)
{
  const TwSample *sample = tw_samples_get (self->list, (guint)gtk_flow_box_child_get_index (tile));

  gtk_widget_activate_action (GTK_WIDGET (self), "win.open-sample", "s", sample->path);
}

/* --- files let go over the page ------------------------------------------------------------------------- */

static gboolean
dropped_cb (GtkDropTarget *target, const GValue *value, double x, double y, gpointer data)
{
  GSList *files = g_value_get_boxed (value); /* of GFile */
  gboolean took = FALSE;

  for (GSList *at = files; at != NULL; at = at->next) {
    g_autofree char *path = g_file_get_path (at->data);

    if (path == NULL)
      continue;
    gtk_widget_activate_action (GTK_WIDGET (data), "win.open-file", "s", path);
    took = TRUE;
  }
  return took;
}

static void
take_drops (TwStartPage *self)
{
  GtkDropTarget *target = gtk_drop_target_new (GDK_TYPE_FILE_LIST, GDK_ACTION_COPY);

  g_signal_connect (target, "drop", G_CALLBACK (dropped_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (target));
}

/* --- samples -------------------------------------------------------------------------------------------- */

static GtkWidget *
wrapped_label (const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_xalign (GTK_LABEL (label), 0.0F);
  gtk_label_set_width_chars (GTK_LABEL (label), 14);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 18);
  gtk_widget_add_css_class (label, style);
  return label;
}

/* The tile holds the picture as the first child of its box: see draw_next_cb(). */
static void
add_sample (TwStartPage *self, const TwSample *sample)
{
  GtkWidget *tile = gtk_flow_box_child_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *picture = tw_job_picture_new ();

  gtk_widget_set_size_request (picture, -1, PICTURE_HEIGHT_PX);
  gtk_box_append (GTK_BOX (box), picture);
  gtk_box_append (GTK_BOX (box), wrapped_label (sample->name, "heading"));
  if (sample->note != NULL) {
    GtkWidget *note = wrapped_label (sample->note, "caption");

    gtk_label_set_lines (GTK_LABEL (note), NOTE_LINES);
    gtk_label_set_ellipsize (GTK_LABEL (note), PANGO_ELLIPSIZE_END);
    gtk_box_append (GTK_BOX (box), note);
    gtk_widget_set_tooltip_text (tile, sample->note);
    gtk_accessible_update_property (GTK_ACCESSIBLE (tile), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, sample->note,
                                    -1);
  }
  gtk_flow_box_child_set_child (GTK_FLOW_BOX_CHILD (tile), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (tile), GTK_ACCESSIBLE_PROPERTY_LABEL, sample->name, -1);
  gtk_flow_box_append (self->samples, tile);
}

static gboolean
draw_next_cb (gpointer data)
{
  TwStartPage *self = data;
  GtkFlowBoxChild *tile;
  GtkWidget *picture;

  if (self->n_drawn >= tw_samples_count (self->list)) {
    self->drawing = 0;
    return G_SOURCE_REMOVE;
  }
  tile = gtk_flow_box_get_child_at_index (self->samples, (int)self->n_drawn);
  picture = gtk_widget_get_first_child (gtk_flow_box_child_get_child (tile));
  tw_job_picture_show (
      TW_JOB_PICTURE (picture), tw_samples_answer (self->list, tw_samples_get (self->list, self->n_drawn)),
      TW_VIEW_FACE, TW_VIEW_NO_BAY | TW_VIEW_NO_HOSES | TW_VIEW_NO_OPENINGS | TW_VIEW_NO_WAYS);
  self->n_drawn++;
  return G_SOURCE_CONTINUE;
}

/* Read when the page is first seen: a window that opens a file needs none of them. The pictures follow when
 * there is nothing better to do. */
static void
tw_start_page_map (GtkWidget *widget)
{
  TwStartPage *self = TW_START_PAGE (widget);

  if (self->list == NULL) {
    self->list = tw_samples_of (g_application_get_default ());
    tw_recent_keep_list (self->recent, MOST_RECENT, self->recent_box);
    for (guint i = 0; i < tw_samples_count (self->list); i++)
      add_sample (self, tw_samples_get (self->list, i));
    gtk_widget_set_visible (self->samples_box, tw_samples_count (self->list) > 0);
    self->drawing = g_idle_add_full (G_PRIORITY_LOW, draw_next_cb, self, NULL);
  }
  GTK_WIDGET_CLASS (tw_start_page_parent_class)->map (widget);
}

static void
tw_start_page_dispose (GObject *object)
{
  TwStartPage *self = TW_START_PAGE (object);
  GtkWidget *child;

  g_clear_handle_id (&self->drawing, g_source_remove);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (tw_start_page_parent_class)->dispose (object);
}

static void
tw_start_page_class_init (TwStartPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tw_start_page_dispose;
  widget_class->map = tw_start_page_map;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/start-page.ui");
  gtk_widget_class_bind_template_child (widget_class, TwStartPage, recent);
  gtk_widget_class_bind_template_child (widget_class, TwStartPage, recent_box);
  gtk_widget_class_bind_template_child (widget_class, TwStartPage, samples);
  gtk_widget_class_bind_template_child (widget_class, TwStartPage, samples_box);
  gtk_widget_class_bind_template_callback (widget_class, sample_activated_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
tw_start_page_init (TwStartPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  take_drops (self);
}
