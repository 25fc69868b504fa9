/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/pane-layout.h"

#define LEAST_HEIGHT 120
#define NATURAL_HEIGHT 360

struct _TwPaneLayout {
  GtkLayoutManager parent_instance;
};

G_DEFINE_FINAL_TYPE (TwPaneLayout, tw_pane_layout, GTK_TYPE_LAYOUT_MANAGER)

static GtkSizeRequestMode
request_mode (GtkLayoutManager *manager, GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_CONSTANT_SIZE;
}

static void
measure (GtkLayoutManager *manager,
         GtkWidget *widget,
         GtkOrientation orientation,
         int for_size,
         int *minimum,
         int *natural,
         int *minimum_baseline,
         int *natural_baseline)
{
  if (orientation == GTK_ORIENTATION_VERTICAL) {
    *minimum = LEAST_HEIGHT;
    *natural = NATURAL_HEIGHT;
    return;
  }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child)) {
    int least = 0, wished = 0;

    gtk_widget_measure (child, orientation, -1, &least, &wished, NULL, NULL);
    *minimum = MAX (*minimum, least);
    *natural = MAX (*natural, wished);
  }
}

static void
allocate (GtkLayoutManager *manager, GtkWidget *widget, int width, int height, int baseline)
{
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_should_layout (child))
      gtk_widget_allocate (child, width, height, -1, NULL);
}

static void
tw_pane_layout_class_init (TwPaneLayoutClass *klass)
{
  GtkLayoutManagerClass *layout_class = GTK_LAYOUT_MANAGER_CLASS (klass);

  layout_class->get_request_mode = request_mode;
  layout_class->measure = measure;
  layout_class->allocate = allocate;
}

static void
tw_pane_layout_init (TwPaneLayout *self)
{
}
