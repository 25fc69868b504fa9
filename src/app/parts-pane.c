/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/parts-pane.h"

#include "app/pane-layout.h"

#include "app/part-words.h"

#include <glib/gi18n-lib.h>

#define INDENT_PX 16

struct _TwPartsPane {
  GtkWidget parent_instance;

  GtkListBox *list;

  TwSession *session;
  GArray *rows;     /* of Row, as they stand */
  gboolean filling; /* the list itself is choosing a row */
};

typedef struct {
  TwId part;
  guint level; /* how far it is set in */
  char *name;  /* as shown: a new name wants a new row */
  const char *icon;
} Row;

G_DEFINE_FINAL_TYPE (TwPartsPane, tw_parts_pane, GTK_TYPE_WIDGET)

static void
clear_row (gpointer data)
{
  g_free (((Row *)data)->name);
}

static void
add (GArray *rows, const TwPart *part, guint level)
{
  Row row = { part->id, level, g_strdup (tw_part_words_name (part)), tw_part_words_icon (part) };

  g_array_append_val (rows, row);
}

/* All parts of @kind whose reference to @owner stands in field @field. */
static void
add_of (GArray *rows, const TwJob *job, TwKind kind, const char *field, TwId owner)
{
  gsize offset = tw_kind_info (kind)->fields[tw_kind_field (kind, field)].offset;

  for (guint i = 0; i < tw_job_count (job, kind); i++) {
    const TwPart *part = tw_job_get (job, kind, i);

    if (!tw_id_equal (G_STRUCT_MEMBER (TwId, part, offset), owner))
      continue;
    add (rows, part, kind == TW_KIND_BAFFLE || kind == TW_KIND_PORT ? 2 : 1);
    if (kind == TW_KIND_TANK) {
      add_of (rows, job, TW_KIND_BAFFLE, "tank", part->id);
      add_of (rows, job, TW_KIND_PORT, "tank", part->id);
    }
  }
}

static void
add_all (GArray *rows, const TwJob *job, TwKind kind)
{
  for (guint i = 0; i < tw_job_count (job, kind); i++)
    add (rows, tw_job_get (job, kind, i), 0);
}

static GArray *
list_rows (const TwJob *job)
{
  GArray *rows = g_array_new (FALSE, FALSE, sizeof (Row));

  g_array_set_clear_func (rows, clear_row);
  if (job == NULL)
    return rows;
  add (rows, &tw_job_settings (job)->head, 0);
  add_all (rows, job, TW_KIND_VOLUME);
  for (guint i = 0; i < tw_job_count (job, TW_KIND_CORE); i++) {
    const TwPart *core = tw_job_get (job, TW_KIND_CORE, i);

    add (rows, core, 0);
    add_of (rows, job, TW_KIND_TANK, "core", core->id);
    add_of (rows, job, TW_KIND_SHROUD, "core", core->id);
    add_of (rows, job, TW_KIND_FAN, "core", core->id);
  }
  add_all (rows, job, TW_KIND_ENGINE_PORT);
  add_all (rows, job, TW_KIND_HOSE);
  add_all (rows, job, TW_KIND_HEADER_TANK);
  add_all (rows, job, TW_KIND_OPENING);
  add_all (rows, job, TW_KIND_EXIT);
  return rows;
}

static gboolean
same_rows (const GArray *a, const GArray *b)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++) {
    const Row *x = &g_array_index (a, Row, i), *y = &g_array_index (b, Row, i);

    if (!tw_id_equal (x->part, y->part) || x->level != y->level || x->icon != y->icon
        || !g_str_equal (x->name, y->name))
      return FALSE;
  }
  return TRUE;
}

static GtkWidget *
make_row (const Row *row, const TwPart *part)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *icon = gtk_image_new_from_icon_name (row->icon);
  GtkWidget *name = gtk_label_new (row->name);
  GtkWidget *whole = gtk_list_box_row_new ();

  gtk_widget_set_margin_start (line, (int)row->level * INDENT_PX);
  gtk_label_set_xalign (GTK_LABEL (name), 0.0F);
  gtk_label_set_ellipsize (GTK_LABEL (name), PANGO_ELLIPSIZE_END);
  gtk_box_append (GTK_BOX (line), icon);
  gtk_box_append (GTK_BOX (line), name);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (whole), line);
  gtk_widget_set_tooltip_text (whole, row->name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (whole), GTK_ACCESSIBLE_PROPERTY_LABEL, row->name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, _ (tw_kind_info (part->kind)->noun),
                                  -1);
  return whole;
}

/* Rows that are just made have no place yet: the list is at its top then. */
static void
scroll_to (TwPartsPane *self, GtkWidget *row)
{
  GtkAdjustment *rolled = gtk_list_box_get_adjustment (self->list);
  graphene_rect_t place;

  if (rolled != NULL && gtk_widget_compute_bounds (row, GTK_WIDGET (self->list), &place))
    gtk_adjustment_clamp_page (rolled, (double)place.origin.y, (double)(place.origin.y + place.size.height));
}

static void
show_selection (TwPartsPane *self)
{
  TwId lead = tw_session_selection (self->session);
  GtkListBoxRow *lead_row = NULL;

  self->filling = TRUE;
  gtk_list_box_unselect_all (self->list);
  for (guint i = 0; i < self->rows->len; i++) {
    TwId part = g_array_index (self->rows, Row, i).part;
    GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->list, (int)i);

    if (tw_session_is_chosen (self->session, part) || (tw_id_is_none (lead) && i == 0))
      gtk_list_box_select_row (self->list, row);
    if (tw_id_equal (part, lead) || (tw_id_is_none (lead) && i == 0))
      lead_row = row;
  }
  self->filling = FALSE;
  if (lead_row != NULL)
    scroll_to (self, GTK_WIDGET (lead_row));
}

static void
show_job (TwPartsPane *self)
{
  const TwJob *job = tw_session_job (self->session);
  GArray *rows = list_rows (job);
  GtkWidget *child;

  if (same_rows (rows, self->rows)) {
    g_array_unref (rows);
    return;
  }
  self->filling = TRUE;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->list))) != NULL)
    gtk_list_box_remove (self->list, child);
  for (guint i = 0; i < rows->len; i++) {
    const Row *row = &g_array_index (rows, Row, i);

    gtk_list_box_append (self->list, make_row (row, tw_job_find (job, row->part)));
  }
  self->filling = FALSE;
  g_array_unref (self->rows);
  self->rows = rows;
  show_selection (self);
}

/* The part that was chosen last leads: one that is new among them, else the one that led. */
static void
put_lead_last (TwPartsPane *self, GArray *ids)
{
  TwId lead = tw_session_selection (self->session);
  int place = -1;

  for (guint i = 0; i < ids->len; i++) {
    TwId id = g_array_index (ids, TwId, i);

    if (!tw_session_is_chosen (self->session, id) || (place < 0 && tw_id_equal (id, lead)))
      place = (int)i;
  }
  if (place >= 0) {
    lead = g_array_index (ids, TwId, place);
    g_array_remove_index (ids, (guint)place);
    g_array_append_val (ids, lead);
  }
}

static void
rows_selected_cb (TwPartsPane *self)
{
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (TwId));
  g_autoptr (GList) rows = NULL;

  if (self->filling)
    return;
  rows = gtk_list_box_get_selected_rows (self->list);
  for (GList *l = rows; l != NULL; l = l->next)
    g_array_append_val (ids, g_array_index (self->rows, Row, gtk_list_box_row_get_index (l->data)).part);
  put_lead_last (self, ids);
  if (ids->len > 0)
    tw_session_choose (self->session, (const TwId *)(gpointer)ids->data, ids->len);
  show_selection (self); /* one row always is chosen, the job's only alone */
}

static void
tw_parts_pane_dispose (GObject *object)
{
  TwPartsPane *self = TW_PARTS_PANE (object);
  GtkWidget *child;

  self->filling = TRUE;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (tw_parts_pane_parent_class)->dispose (object);
}

static void
tw_parts_pane_finalize (GObject *object)
{
  g_array_unref (TW_PARTS_PANE (object)->rows);
  G_OBJECT_CLASS (tw_parts_pane_parent_class)->finalize (object);
}

static void
tw_parts_pane_class_init (TwPartsPaneClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tw_parts_pane_dispose;
  object_class->finalize = tw_parts_pane_finalize;

  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/parts-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, TwPartsPane, list);
  gtk_widget_class_bind_template_callback (widget_class, rows_selected_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, TW_TYPE_PANE_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "parts-pane");
}

static void
tw_parts_pane_init (TwPartsPane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->rows = list_rows (NULL);
}

void
tw_parts_pane_set_session (TwPartsPane *self, TwSession *session)
{
  g_return_if_fail (self->session == NULL);

  self->session = g_object_ref (session);
  g_signal_connect_object (session, "job-changed", G_CALLBACK (show_job), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "selection-changed", G_CALLBACK (show_selection), self,
                           G_CONNECT_SWAPPED);
  show_job (self);
}
