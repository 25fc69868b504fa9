/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/part-form.h"

#include "app/element-table.h"
#include "app/field-row.h"
#include "app/pane-layout.h"
#include "app/part-groups.h"
#include "app/part-words.h"

#include <glib/gi18n-lib.h>

#define REVEAL_FRAMES 30
#define REVEAL_MARGIN_PX 12.0
#define REVEAL_PX 110.0 /* of a tall row its foot */

struct _TwPartForm {
  GtkWidget parent_instance;

  GtkImage *icon;
  GtkLabel *name;
  GtkLabel *kind;
  GtkScrolledWindow *scroller;
  GtkBox *fields;

  TwSession *session;
  GArray *parts;      /* of TwId: whose fields are shown */
  GPtrArray *rows;    /* of TwFieldRow, owned by the boxes */
  GPtrArray *tables;  /* of TwElementTable, owned by the box */
  GHashTable *drafts; /* bad texts of parts that are not shown, see tw_field_editor_keep() */
};

G_DEFINE_FINAL_TYPE (TwPartForm, tw_part_form, GTK_TYPE_WIDGET)

/* What is chosen, else the job itself. (transfer full) (element-type TwId) */
static GArray *
chosen_parts (TwPartForm *self)
{
  const TwJob *job = tw_session_job (self->session);
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (TwId));
  const TwId *chosen;
  guint n;

  if (job == NULL)
    return parts;
  chosen = tw_session_chosen (self->session, &n);
  for (guint i = 0; i < n; i++)
    if (tw_job_find (job, chosen[i]) != NULL)
      g_array_append_val (parts, chosen[i]);
  if (parts->len == 0)
    g_array_append_val (parts, tw_job_settings (job)->head.id);
  return parts;
}

static const TwPart *
part_at (TwPartForm *self, guint nth)
{
  return tw_job_find (tw_session_job (self->session), g_array_index (self->parts, TwId, nth));
}

static gboolean
same_parts (const GArray *a, const GArray *b)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    if (!tw_id_equal (g_array_index (a, TwId, i), g_array_index (b, TwId, i)))
      return FALSE;
  return TRUE;
}

static gboolean
are_of_one_kind (TwPartForm *self)
{
  for (guint i = 1; i < self->parts->len; i++)
    if (part_at (self, i)->kind != part_at (self, 0)->kind)
      return FALSE;
  return TRUE;
}

/* --- what is wrong must be seen --------------------------------------------------------------------------
 */

/* It stands at the foot of its row: brought into view once it has been laid out. */
static gboolean
reveal_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  TwPartForm *self = TW_PART_FORM (gtk_widget_get_ancestor (widget, TW_TYPE_PART_FORM));
  GtkAdjustment *rolled = gtk_scrolled_window_get_vadjustment (self->scroller);
  int *frames_left = data;
  graphene_rect_t place;

  if (gtk_widget_compute_bounds (widget, GTK_WIDGET (self->fields), &place)) {
    double foot_px = (double)(place.origin.y + place.size.height);
    double head_px = MAX ((double)place.origin.y, foot_px - REVEAL_PX);

    gtk_adjustment_clamp_page (rolled, head_px, foot_px + REVEAL_MARGIN_PX);
  }
  return --*frames_left > 0 ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

static void
troubled_cb (GtkWidget *widget)
{
  int *frames_left = g_new (int, 1);

  *frames_left = REVEAL_FRAMES; /* as long as it slides open */
  gtk_widget_add_tick_callback (widget, reveal_cb, frames_left, g_free);
}

/* --- rows ------------------------------------------------------------------------------------------------
 */

static GtkWidget *
add_group (GtkBox *box, const char *title)
{
  GtkWidget *group = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  if (title != NULL) {
    GtkWidget *label = g_object_new (GTK_TYPE_LABEL, "accessible-role", GTK_ACCESSIBLE_ROLE_HEADING, "label",
                                     title, "xalign", 0.0, "wrap", TRUE, NULL);

    gtk_widget_add_css_class (label, "caption-heading");
    gtk_widget_add_css_class (label, "group");
    gtk_widget_set_margin_top (label, 10);
    gtk_box_append (GTK_BOX (group), label);
  }
  gtk_box_append (box, group);
  return group;
}

static void
add_row (TwPartForm *self, GtkWidget *group, guint field)
{
  const TwId *parts = (const TwId *)(gconstpointer)self->parts->data;
  TwFieldTarget *target = tw_field_target_new (self->session, parts, self->parts->len, TW_ID_NONE, field);
  GtkWidget *row = tw_field_row_new (target);

  gtk_box_append (GTK_BOX (group), row);
  g_signal_connect (row, "troubled", G_CALLBACK (troubled_cb), NULL);
  g_ptr_array_add (self->rows, row);
  tw_field_editor_restore (tw_field_row_editor (TW_FIELD_ROW (row)), self->drafts);
}

/* The chosen element is the session's, so that canvas and form agree. */
static void
element_chosen_cb (TwPartForm *self, TwElementTable *table)
{
  tw_session_choose_element (self->session, g_array_index (self->parts, TwId, 0),
                             tw_element_table_chosen (table));
}

static void
add_table (TwPartForm *self, const TwPart *part, guint list)
{
  GtkWidget *table = tw_element_table_new (self->session, part->id, list, self->drafts);

  gtk_widget_set_margin_top (table, 10);
  gtk_box_append (self->fields, table);
  g_signal_connect (table, "troubled", G_CALLBACK (troubled_cb), NULL);
  g_signal_connect_swapped (table, "chosen", G_CALLBACK (element_chosen_cb), self);
  g_ptr_array_add (self->tables, table);
}

static void
clear (TwPartForm *self)
{
  GtkWidget *child;

  for (guint i = 0; i < self->rows->len; i++)
    tw_field_editor_keep (tw_field_row_editor (g_ptr_array_index (self->rows, i)), self->drafts);
  for (guint i = 0; i < self->tables->len; i++)
    tw_element_table_let_go (g_ptr_array_index (self->tables, i));
  g_ptr_array_set_size (self->rows, 0);
  g_ptr_array_set_size (self->tables, 0);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->fields))) != NULL)
    gtk_box_remove (self->fields, child);
}

static void
say_nothing_is_shared (TwPartForm *self)
{
  GtkWidget *label = gtk_label_new (
      _ ("Parts of different kinds are chosen. Choose parts of one kind to change them together."));

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0.0F);
  gtk_widget_add_css_class (label, "dim-label");
  gtk_box_append (self->fields, label);
}

static void
build (TwPartForm *self)
{
  const TwPart *part = part_at (self, 0);
  const TwPartGroup *group;

  if (!are_of_one_kind (self)) {
    say_nothing_is_shared (self);
    return;
  }
  for (guint i = 0; (group = tw_part_group (part->kind, i)) != NULL; i++) {
    GtkWidget *box = add_group (self->fields, group->title ? _ (group->title) : NULL);

    for (guint k = 0; k < group->n_fields; k++)
      add_row (self, box, group->fields[k]);
  }
  for (guint i = 0; i < tw_kind_info (part->kind)->n_lists && self->parts->len == 1; i++)
    add_table (self, part, i);
}

/* --- the head --------------------------------------------------------------------------------------------
 */

static char *
names_of (TwPartForm *self)
{
  GString *names = g_string_new (NULL);

  for (guint i = 0; i < self->parts->len; i++)
    g_string_append_printf (names, "%s%s", i > 0 ? ", " : "", tw_part_words_name (part_at (self, i)));
  return g_string_free (names, FALSE);
}

static void
show_head (TwPartForm *self)
{
  const TwPart *part = part_at (self, 0);
  g_autofree char *names = names_of (self);
  const char *noun = _ (tw_kind_info (part->kind)->noun);
  /* Translators: so many parts of a kind: `3 × port` */
  g_autofree char *several = g_strdup_printf (_ ("%u × %s"), self->parts->len, noun);

  if (!g_str_equal (gtk_label_get_text (self->name), names))
    gtk_label_set_text (self->name, names);
  gtk_label_set_text (self->kind, self->parts->len > 1 ? several : noun);
  gtk_widget_set_visible (GTK_WIDGET (self->kind), part->kind != TW_KIND_SETTINGS && are_of_one_kind (self));
  gtk_image_set_from_icon_name (self->icon, tw_part_words_icon (part));
}

static void
show_tables (TwPartForm *self)
{
  TwId element = tw_session_element (self->session);

  for (guint i = 0; i < self->tables->len; i++) {
    TwElementTable *table = g_ptr_array_index (self->tables, i);

    if (tw_id_equal (tw_element_table_chosen (table), element))
      tw_element_table_update (table);
    else
      tw_element_table_choose (table, element);
  }
}

static void
show (TwPartForm *self)
{
  g_autoptr (GArray) parts = chosen_parts (self);
  gboolean same = same_parts (self->parts, parts);

  gtk_widget_set_visible (GTK_WIDGET (self), parts->len > 0);
  if (!same) {
    clear (self);
    g_array_set_size (self->parts, 0);
    g_array_append_vals (self->parts, parts->data, parts->len);
  }
  if (parts->len == 0)
    return;
  show_head (self);
  if (!same) {
    build (self);
    gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (self->scroller), 0.0);
  }
  for (guint i = 0; i < self->rows->len && same; i++)
    tw_field_editor_update (tw_field_row_editor (g_ptr_array_index (self->rows, i)));
  show_tables (self);
}

/* Bad texts belong to the job in which they were typed. */
static void
job_leaves_cb (TwPartForm *self)
{
  clear (self);
  g_array_set_size (self->parts, 0);
  g_hash_table_remove_all (self->drafts);
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
  g_ptr_array_unref (self->tables);
  g_array_unref (self->parts);
  g_hash_table_unref (self->drafts);
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
  self->tables = g_ptr_array_new ();
  self->parts = g_array_new (FALSE, FALSE, sizeof (TwId));
  self->drafts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
}

void
tw_part_form_set_session (TwPartForm *self, TwSession *session)
{
  g_return_if_fail (self->session == NULL);

  self->session = g_object_ref (session);
  g_signal_connect_object (session, "job-leaves", G_CALLBACK (job_leaves_cb), self, G_CONNECT_SWAPPED);
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
      tw_field_editor_take_focus (tw_field_row_editor (row));
      return;
    }
  }
}
