/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/part-form.h"

#include "app/pane-layout.h"

#include "app/field-row.h"
#include "app/part-words.h"

#include <glib/gi18n-lib.h>

#define REVEAL_FRAMES 30
#define REVEAL_MARGIN_PX 12.0

struct _TwPartForm {
  GtkWidget parent_instance;

  GtkImage *icon;
  GtkLabel *name;
  GtkLabel *kind;
  GtkScrolledWindow *scroller;
  GtkBox *fields;

  TwSession *session;
  TwId part;       /* whose fields are shown */
  char *elements;  /* ids of its elements, in order: other ones want other rows */
  GPtrArray *rows; /* of TwFieldRow, owned by the boxes */
};

G_DEFINE_FINAL_TYPE (TwPartForm, tw_part_form, GTK_TYPE_WIDGET)

static const TwPart *
shown_part (TwPartForm *self)
{
  const TwJob *job = tw_session_job (self->session);
  TwId id = tw_session_selection (self->session);

  if (job == NULL)
    return NULL;
  return tw_id_is_none (id) ? &tw_job_settings (job)->head : tw_job_find (job, id);
}

static char *
element_ids (const TwPart *part)
{
  const TwKindInfo *info = tw_kind_info (part->kind);
  GString *ids = g_string_new (NULL);

  for (guint i = 0; i < info->n_lists; i++) {
    GPtrArray *list = tw_part_list (part, i);

    for (guint k = 0; k < list->len; k++)
      g_string_append_printf (ids, "%s ", ((const TwPart *)g_ptr_array_index (list, k))->id.text);
  }
  return g_string_free (ids, FALSE);
}

static GtkWidget *
add_group (GtkBox *box, const char *title)
{
  GtkWidget *group = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  if (title != NULL) {
    GtkWidget *label = gtk_label_new (title);

    gtk_label_set_xalign (GTK_LABEL (label), 0.0F);
    gtk_label_set_wrap (GTK_LABEL (label), TRUE);
    gtk_widget_add_css_class (label, "heading");
    gtk_widget_set_margin_top (label, 12);
    gtk_box_append (GTK_BOX (group), label);
  }
  gtk_box_append (box, group);
  return group;
}

/* What is wrong stands under its row and must be seen: brought into view once it has been laid out. */
static gboolean
reveal_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  TwPartForm *self = TW_PART_FORM (gtk_widget_get_ancestor (widget, TW_TYPE_PART_FORM));
  GtkAdjustment *rolled = gtk_scrolled_window_get_vadjustment (self->scroller);
  int *frames_left = data;
  graphene_rect_t place;

  if (gtk_widget_compute_bounds (widget, GTK_WIDGET (self->fields), &place))
    gtk_adjustment_clamp_page (rolled, (double)place.origin.y,
                               (double)(place.origin.y + place.size.height) + REVEAL_MARGIN_PX);
  return --*frames_left > 0 ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

static void
row_troubled_cb (GtkWidget *row)
{
  int *frames_left = g_new (int, 1);

  *frames_left = REVEAL_FRAMES; /* as long as it slides open */
  gtk_widget_add_tick_callback (row, reveal_cb, frames_left, g_free);
}

static void
add_row (TwPartForm *self, GtkWidget *group, TwId element, guint field)
{
  GtkWidget *row = tw_field_row_new (self->session, self->part, element, field);

  gtk_box_append (GTK_BOX (group), row);
  g_signal_connect (row, "troubled", G_CALLBACK (row_troubled_cb), NULL);
  g_ptr_array_add (self->rows, row);
}

static void
add_elements (TwPartForm *self, GtkBox *box, const TwList *list, GPtrArray *elements)
{
  GtkWidget *expander, *inside;
  g_autofree char *title = NULL;

  if (elements->len == 0)
    return;
  title = g_strdup_printf ("%s (%u)", _ (list->label), elements->len);
  expander = gtk_expander_new (title);
  inside = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_set_margin_top (expander, 12);
  gtk_accessible_update_property (GTK_ACCESSIBLE (expander), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  gtk_expander_set_child (GTK_EXPANDER (expander), inside);
  gtk_box_append (box, expander);
  for (guint i = 0; i < elements->len; i++) {
    const TwPart *element = g_ptr_array_index (elements, i);
    const TwKindInfo *info = tw_kind_info (element->kind);
    g_autofree char *heading = g_strdup_printf ("%s %u", _ (info->noun), i + 1);
    GtkWidget *group = add_group (GTK_BOX (inside), heading);

    for (guint k = 0; k < info->n_fields; k++)
      add_row (self, group, element->id, k);
  }
}

static void
build (TwPartForm *self, const TwPart *part)
{
  const TwKindInfo *info = tw_kind_info (part->kind);
  GtkWidget *group = NULL, *child;

  for (guint i = 0; i < self->rows->len; i++)
    tw_field_row_let_go (g_ptr_array_index (self->rows, i));
  g_ptr_array_set_size (self->rows, 0);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->fields))) != NULL)
    gtk_box_remove (self->fields, child);
  self->part = part->id;
  for (guint i = 0; i < info->n_fields; i++) {
    const char *title = tw_part_words_group (part->kind, i);

    if (group == NULL || title != NULL)
      group = add_group (self->fields, title ? _ (title) : NULL);
    add_row (self, group, TW_ID_NONE, i);
  }
  for (guint i = 0; i < info->n_lists; i++)
    add_elements (self, self->fields, &info->lists[i], tw_part_list (part, i));
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (self->scroller), 0.0);
}

static void
show_head (TwPartForm *self, const TwPart *part)
{
  const char *name = tw_part_words_name (part);

  if (!g_str_equal (gtk_label_get_text (self->name), name)) {
    gtk_label_set_text (self->name, name);
    gtk_widget_set_tooltip_text (GTK_WIDGET (self->name), name);
  }
  gtk_label_set_text (self->kind, _ (tw_kind_info (part->kind)->noun));
  gtk_widget_set_visible (GTK_WIDGET (self->kind), part->kind != TW_KIND_SETTINGS);
  gtk_image_set_from_icon_name (self->icon, tw_part_words_icon (part));
}

static void
show (TwPartForm *self)
{
  const TwPart *part = shown_part (self);
  g_autofree char *elements = NULL;

  gtk_widget_set_visible (GTK_WIDGET (self), part != NULL);
  if (part == NULL)
    return;
  show_head (self, part);
  elements = element_ids (part);
  if (!tw_id_equal (self->part, part->id) || g_strcmp0 (elements, self->elements) != 0) {
    g_free (self->elements);
    self->elements = g_steal_pointer (&elements);
    build (self, part);
    return;
  }
  for (guint i = 0; i < self->rows->len; i++)
    tw_field_row_update (g_ptr_array_index (self->rows, i));
}

static void
tw_part_form_dispose (GObject *object)
{
  TwPartForm *self = TW_PART_FORM (object);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (tw_part_form_parent_class)->dispose (object);
}

static void
tw_part_form_finalize (GObject *object)
{
  TwPartForm *self = TW_PART_FORM (object);

  g_ptr_array_unref (self->rows);
  g_free (self->elements);
  G_OBJECT_CLASS (tw_part_form_parent_class)->finalize (object);
}

static void
tw_part_form_class_init (TwPartFormClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tw_part_form_dispose;
  object_class->finalize = tw_part_form_finalize;

  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/part-form.ui");
  gtk_widget_class_bind_template_child (widget_class, TwPartForm, icon);
  gtk_widget_class_bind_template_child (widget_class, TwPartForm, name);
  gtk_widget_class_bind_template_child (widget_class, TwPartForm, kind);
  gtk_widget_class_bind_template_child (widget_class, TwPartForm, scroller);
  gtk_widget_class_bind_template_child (widget_class, TwPartForm, fields);
  gtk_widget_class_set_layout_manager_type (widget_class, TW_TYPE_PANE_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "part-form");
}

static void
tw_part_form_init (TwPartForm *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->rows = g_ptr_array_new ();
}

void
tw_part_form_set_session (TwPartForm *self, TwSession *session)
{
  g_return_if_fail (self->session == NULL);

  self->session = g_object_ref (session);
  g_signal_connect_object (session, "job-changed", G_CALLBACK (show), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "selection-changed", G_CALLBACK (show), self, G_CONNECT_SWAPPED);
  show (self);
}

void
tw_part_form_mark (TwPartForm *self, const guint *fields, guint n)
{
  for (guint i = 0; i < self->rows->len; i++) {
    TwFieldRow *row = g_ptr_array_index (self->rows, i);
    gboolean marked = FALSE;

    for (guint k = 0; k < n; k++)
      marked = marked || tw_field_row_field (row) == fields[k];
    tw_field_row_set_moving (row, marked);
  }
}

void
tw_part_form_take_focus (TwPartForm *self, int field)
{
  for (guint i = 0; i < self->rows->len; i++) {
    TwFieldRow *row = g_ptr_array_index (self->rows, i);

    if (field < 0 || tw_field_row_field (row) == (guint)field) {
      tw_field_row_take_focus (row);
      return;
    }
  }
}
