/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/element-row.h"

#include "app/field-entry.h"

#include <glib/gi18n-lib.h>

#define MOST_COLUMNS 3
#define GAP_PX 4

struct _TwElementRow {
  GtkWidget parent_instance;

  GtkButton *number;
  GtkGrid *grid;

  TwId element;
  TwKind kind;
  GPtrArray *editors; /* owned by the grid */
  int place;          /* as it was shown, -1: not yet */
};

enum { REACHED, TOLD, N_SIGNALS };

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TwElementRow, tw_element_row, GTK_TYPE_WIDGET)

guint
tw_element_row_columns (TwKind kind)
{
  guint n = tw_kind_info (kind)->n_fields;

  return n <= MOST_COLUMNS ? n : (n + 1) / 2;
}

static void
tw_element_row_dispose (GObject *object)
{
  TwElementRow *self = TW_ELEMENT_ROW (object);
  GtkWidget *child;

  for (guint i = 0; i < self->editors->len; i++)
    g_signal_handlers_disconnect_by_data (g_ptr_array_index (self->editors, i), self);
  g_ptr_array_set_size (self->editors, 0);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (tw_element_row_parent_class)->dispose (object);
}

static void
tw_element_row_finalize (GObject *object)
{
  g_ptr_array_unref (TW_ELEMENT_ROW (object)->editors);
  G_OBJECT_CLASS (tw_element_row_parent_class)->finalize (object);
}

static void
tw_element_row_class_init (TwElementRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tw_element_row_dispose;
  object_class->finalize = tw_element_row_finalize;
  signals[REACHED]
      = g_signal_new ("reached", TW_TYPE_ELEMENT_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[TOLD]
      = g_signal_new ("told", TW_TYPE_ELEMENT_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_set_css_name (widget_class, "element-row");
}

static void
reached_cb (TwElementRow *self)
{
  g_signal_emit (self, signals[REACHED], 0);
}

static void
told_cb (TwElementRow *self)
{
  g_signal_emit (self, signals[TOLD], 0);
}

static void
tw_element_row_init (TwElementRow *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));

  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (layout), GAP_PX);
  self->editors = g_ptr_array_new ();
  self->place = -1;
  self->number = GTK_BUTTON (gtk_button_new ());
  gtk_widget_set_size_request (GTK_WIDGET (self->number), TW_ELEMENT_ROW_NUMBER_PX, -1);
  gtk_widget_set_valign (GTK_WIDGET (self->number), GTK_ALIGN_START);
  gtk_widget_set_focusable (GTK_WIDGET (self->number), FALSE);
  gtk_widget_add_css_class (GTK_WIDGET (self->number), "flat");
  gtk_widget_add_css_class (GTK_WIDGET (self->number), "number");
  g_signal_connect_swapped (self->number, "clicked", G_CALLBACK (reached_cb), self);
  self->grid = GTK_GRID (gtk_grid_new ());
  gtk_grid_set_column_homogeneous (self->grid, TRUE);
  gtk_grid_set_column_spacing (self->grid, GAP_PX);
  gtk_grid_set_row_spacing (self->grid, GAP_PX / 2);
  gtk_widget_set_hexpand (GTK_WIDGET (self->grid), TRUE);
  gtk_widget_set_parent (GTK_WIDGET (self->number), GTK_WIDGET (self));
  gtk_widget_set_parent (GTK_WIDGET (self->grid), GTK_WIDGET (self));
}

GtkWidget *
tw_element_row_new (TwSession *session, TwId part, TwId element)
{
  TwElementRow *self = g_object_new (TW_TYPE_ELEMENT_ROW, NULL);
  const TwPart *owner = tw_part_element (tw_job_find (tw_session_job (session), part), element, NULL);
  const TwKindInfo *info = tw_kind_info (owner->kind);
  guint columns = tw_element_row_columns (owner->kind);

  self->element = element;
  self->kind = owner->kind;
  for (guint i = 0; i < info->n_fields; i++) {
    GtkWidget *editor = tw_field_entry_new (tw_field_target_new (session, &part, 1, element, i), TRUE);

    gtk_widget_set_hexpand (editor, TRUE);
    gtk_grid_attach (self->grid, editor, (int)(i % columns), (int)(i / columns), 1, 1);
    g_signal_connect_swapped (editor, "reached", G_CALLBACK (reached_cb), self);
    g_signal_connect_swapped (editor, "told", G_CALLBACK (told_cb), self);
    g_ptr_array_add (self->editors, editor);
  }
  return GTK_WIDGET (self);
}

TwId
tw_element_row_element (TwElementRow *self)
{
  return self->element;
}

/* `corner 3` and, for each field, `corner 3, Across`. */
static void
name_all (TwElementRow *self)
{
  const TwKindInfo *info = tw_kind_info (self->kind);
  g_autofree char *number = g_strdup_printf ("%d", self->place + 1);
  g_autofree char *name = g_strdup_printf ("%s %s", _ (info->noun), number);
  g_autofree char *tip = g_strdup_printf ("%s (%s)", name, self->element.text);

  gtk_button_set_label (self->number, number);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->number), tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->number), GTK_ACCESSIBLE_PROPERTY_LABEL, tip, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  for (guint i = 0; i < self->editors->len; i++) {
    /* Translators: a field of an element of a list: `corner 3, Across` */
    g_autofree char *field = g_strdup_printf (_ ("%s, %s"), name, _ (info->fields[i].label));

    tw_field_editor_set_name (g_ptr_array_index (self->editors, i), field);
  }
}

void
tw_element_row_update (TwElementRow *self, guint place, gboolean chosen)
{
  if (self->place != (int)place) {
    self->place = (int)place;
    name_all (self);
  }
  if (chosen)
    gtk_widget_add_css_class (GTK_WIDGET (self), "chosen");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "chosen");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->number), GTK_ACCESSIBLE_STATE_PRESSED, chosen, -1);
  for (guint i = 0; i < self->editors->len; i++)
    tw_field_editor_update (g_ptr_array_index (self->editors, i));
}

TwFieldEditor *
tw_element_row_editor (TwElementRow *self, guint field)
{
  return field < self->editors->len ? g_ptr_array_index (self->editors, field) : NULL;
}

int
tw_element_row_focus (TwElementRow *self)
{
  for (guint i = 0; i < self->editors->len; i++)
    if (gtk_widget_get_state_flags (g_ptr_array_index (self->editors, i)) & GTK_STATE_FLAG_FOCUS_WITHIN)
      return (int)i;
  return -1;
}

const char *
tw_element_row_trouble (TwElementRow *self)
{
  for (guint i = 0; i < self->editors->len; i++)
    if (tw_field_editor_trouble (g_ptr_array_index (self->editors, i)) != NULL)
      return tw_field_editor_trouble (g_ptr_array_index (self->editors, i));
  return NULL;
}
