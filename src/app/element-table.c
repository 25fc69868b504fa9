/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/element-table.h"

#include "app/element-row.h"

#include "base/error.h"
#include "stage/add-between.h"
#include "stage/add.h"

#include <glib/gi18n-lib.h>

#define PAGE 12 /* rows at a time */

struct _TwElementTable {
  GtkWidget parent_instance;

  GtkLabel *title;
  GtkBox *pager;
  GtkLabel *range;
  GtkGrid *heads;
  GtkBox *rows;
  GtkRevealer *revealer;
  GtkLabel *trouble;
  GtkWidget *before; /* these make sense where there is a row */
  GtkWidget *more;

  TwSession *session;
  TwId part;
  guint list;
  GHashTable *drafts;

  GPtrArray *shown; /* of TwElementRow, owned by the box, in order */
  guint first;      /* place of the first row that is shown */
  TwId chosen;
  const char *unit; /* of lengths, as the heads say */
  char *refusal;    /* of the last thing that was tried, NULL: it was done */
};

enum { CHOSEN, TROUBLED, N_SIGNALS };

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TwElementTable, tw_element_table, GTK_TYPE_WIDGET)

static const TwList *
list_info (TwElementTable *self)
{
  return &tw_kind_info (tw_job_find (tw_session_job (self->session), self->part)->kind)->lists[self->list];
}

/* NULL when the part is gone. */
static GPtrArray *
elements_of (TwElementTable *self)
{
  const TwPart *part = tw_job_find (tw_session_job (self->session), self->part);

  return part != NULL ? tw_part_list (part, self->list) : NULL;
}

static int
place_of (TwElementTable *self, TwId element)
{
  GPtrArray *elements = elements_of (self);

  for (guint i = 0; elements != NULL && i < elements->len; i++)
    if (tw_id_equal (((const TwPart *)g_ptr_array_index (elements, i))->id, element))
      return (int)i;
  return -1;
}

/* --- what is said ----------------------------------------------------------------------------------------
 */

static void
show_trouble (TwElementTable *self)
{
  const char *trouble = self->refusal;

  for (guint i = 0; i < self->shown->len && trouble == NULL; i++)
    trouble = tw_element_row_trouble (g_ptr_array_index (self->shown, i));
  if (trouble != NULL)
    gtk_label_set_text (self->trouble, trouble);
  gtk_revealer_set_reveal_child (self->revealer, trouble != NULL);
  if (trouble != NULL)
    g_signal_emit (self, signals[TROUBLED], 0);
}

static void
told_cb (TwElementTable *self)
{
  g_clear_pointer (&self->refusal, g_free);
  show_trouble (self);
}

static void
show_enabled (TwElementTable *self, guint n)
{
  int place = place_of (self, self->chosen);
  const TwList *info = list_info (self);
  GtkWidget *widget = GTK_WIDGET (self);

  gtk_widget_action_set_enabled (widget, "elements.before", n < info->most);
  gtk_widget_action_set_enabled (widget, "elements.after", n < info->most);
  gtk_widget_action_set_enabled (widget, "elements.remove", place >= 0);
  gtk_widget_action_set_enabled (widget, "elements.up", place > 0);
  gtk_widget_action_set_enabled (widget, "elements.down", place >= 0 && place + 1 < (int)n);
  gtk_widget_action_set_enabled (widget, "elements.earlier", self->first > 0);
  gtk_widget_action_set_enabled (widget, "elements.later", self->first + PAGE < n);
}

/* Heads over the columns, with the unit in which their figures are unless they say another. */
static GtkWidget *
make_head (const TwField *field, const TwUnitStyle *style)
{
  const char *unit = tw_units_name (field->quantity, style);
  g_autofree char *text = unit[0] != '\0' ? g_strdup_printf ("%s, %s", _ (field->label), unit) : NULL;
  GtkWidget *head = gtk_label_new (text ? text : _ (field->label));

  gtk_label_set_xalign (GTK_LABEL (head), 1.0F);
  gtk_label_set_yalign (GTK_LABEL (head), 1.0F);
  gtk_label_set_justify (GTK_LABEL (head), GTK_JUSTIFY_RIGHT);
  gtk_label_set_wrap (GTK_LABEL (head), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (head), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_width_chars (GTK_LABEL (head), 4);
  gtk_label_set_max_width_chars (GTK_LABEL (head), 6);
  gtk_widget_set_hexpand (head, TRUE);
  gtk_widget_add_css_class (head, "caption");
  gtk_widget_add_css_class (head, "dim-label");
  gtk_widget_set_tooltip_text (head, _ (field->hint));
  return head;
}

static void
show_heads (TwElementTable *self)
{
  const TwKindInfo *info = tw_kind_info (list_info (self)->element);
  guint columns = tw_element_row_columns (info->kind);
  TwUnitStyle style = tw_session_style (self->session);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->heads))) != NULL)
    gtk_grid_remove (self->heads, child);
  for (guint i = 0; i < info->n_fields; i++)
    gtk_grid_attach (self->heads, make_head (&info->fields[i], &style), (int)(i % columns),
                     (int)(i / columns), 1, 1);
}

static void
show_head (TwElementTable *self, guint n)
{
  g_autofree char *title = g_strdup_printf ("%s (%u)", _ (list_info (self)->label), n);
  /* Translators: rows from, to */
  g_autofree char *range = g_strdup_printf (_ ("%u–%u"), self->first + 1, MIN (self->first + PAGE, n));

  gtk_label_set_text (self->title, title);
  gtk_label_set_text (self->range, range);
  gtk_widget_set_visible (GTK_WIDGET (self->pager), n > PAGE);
  gtk_widget_set_visible (GTK_WIDGET (self->heads), n > 0);
  gtk_widget_set_visible (self->before, n > 0);
  gtk_widget_set_visible (self->more, n > 0);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
}

/* --- rows ------------------------------------------------------------------------------------------------
 */

static void
reached_cb (TwElementTable *self, TwElementRow *row)
{
  if (tw_id_equal (self->chosen, tw_element_row_element (row)))
    return;
  self->chosen = tw_element_row_element (row);
  tw_element_table_update (self);
  g_signal_emit (self, signals[CHOSEN], 0);
}

static void
each_editor (TwElementRow *row, GHashTable *drafts, void (*act) (TwFieldEditor *, GHashTable *))
{
  for (guint i = 0; tw_element_row_editor (row, i) != NULL; i++)
    act (tw_element_row_editor (row, i), drafts);
}

static TwElementRow *
make_row (TwElementTable *self, TwId element)
{
  GtkWidget *row = tw_element_row_new (self->session, self->part, element);

  each_editor (TW_ELEMENT_ROW (row), self->drafts, tw_field_editor_restore);
  g_signal_connect_swapped (row, "reached", G_CALLBACK (reached_cb), self);
  g_signal_connect_swapped (row, "told", G_CALLBACK (told_cb), self);
  gtk_box_append (self->rows, row);
  return TW_ELEMENT_ROW (row);
}

static void
drop_row (TwElementTable *self, TwElementRow *row)
{
  g_signal_handlers_disconnect_by_data (row, self);
  each_editor (row, self->drafts, tw_field_editor_keep);
  gtk_box_remove (self->rows, GTK_WIDGET (row));
}

/* The row of @element among @rows, taken out of them; NULL. */
static TwElementRow *
take_row (GPtrArray *rows, TwId element)
{
  for (guint i = 0; i < rows->len; i++)
    if (tw_id_equal (tw_element_row_element (g_ptr_array_index (rows, i)), element))
      return g_ptr_array_steal_index (rows, i);
  return NULL;
}

/* Rows stay with their elements: what is typed in one, and the keyboard, move with it. */
static void
show_rows (TwElementTable *self, GPtrArray *elements)
{
  g_autoptr (GPtrArray) old = self->shown;
  GtkWidget *after = NULL;
  guint end = MIN (self->first + PAGE, elements->len);

  self->shown = g_ptr_array_new ();
  for (guint i = self->first; i < end; i++) {
    const TwPart *element = g_ptr_array_index (elements, i);
    TwElementRow *row = take_row (old, element->id);

    g_ptr_array_add (self->shown, row != NULL ? row : make_row (self, element->id));
  }
  for (guint i = 0; i < old->len; i++)
    drop_row (self, g_ptr_array_index (old, i));
  for (guint i = 0; i < self->shown->len; i++) {
    TwElementRow *row = g_ptr_array_index (self->shown, i);

    if (gtk_widget_get_prev_sibling (GTK_WIDGET (row)) != after)
      gtk_box_reorder_child_after (self->rows, GTK_WIDGET (row), after);
    after = GTK_WIDGET (row);
    tw_element_row_update (row, self->first + i, tw_id_equal (tw_element_row_element (row), self->chosen));
  }
}

void
tw_element_table_update (TwElementTable *self)
{
  GPtrArray *elements = elements_of (self);
  TwUnitStyle style = tw_session_style (self->session);

  if (elements == NULL)
    return;
  if (self->unit != tw_units_name (TW_QUANTITY_LENGTH, &style)) {
    self->unit = tw_units_name (TW_QUANTITY_LENGTH, &style);
    show_heads (self);
  }
  if (self->first >= elements->len)
    self->first = elements->len > 0 ? (elements->len - 1) / PAGE * PAGE : 0;
  show_rows (self, elements);
  show_head (self, elements->len);
  show_enabled (self, elements->len);
  show_trouble (self);
}

static void
turn_to (TwElementTable *self, int place)
{
  self->first = (guint)MAX (place, 0) / PAGE * PAGE;
  tw_element_table_update (self);
}

static void
focus (TwElementTable *self, int place, guint field)
{
  if (place < 0)
    return;
  turn_to (self, place);
  if ((guint)place - self->first < self->shown->len)
    tw_field_editor_take_focus (
        tw_element_row_editor (g_ptr_array_index (self->shown, (guint)place - self->first), field));
}

/* The row and field that have the keyboard; FALSE when none has. */
static gboolean
where_focus_is (TwElementTable *self, int *place, guint *field)
{
  for (guint i = 0; i < self->shown->len; i++) {
    int there = tw_element_row_focus (g_ptr_array_index (self->shown, i));

    if (there >= 0) {
      *place = (int)(self->first + i);
      *field = (guint)there;
      return TRUE;
    }
  }
  return FALSE;
}

/* --- what can be done ------------------------------------------------------------------------------------
 */

static gboolean
do_change (TwElementTable *self, TwChange *change)
{
  g_autoptr (GError) error = NULL;

  g_clear_pointer (&self->refusal, g_free);
  if (tw_session_do (self->session, change, &error))
    return TRUE;
  self->refusal = g_strdup (error->message);
  show_trouble (self);
  return FALSE;
}

/* Where there is no neighbour the stage finds a place; a curve begins with a point of which nothing is known.
 */
static TwChange *
first_element (TwElementTable *self, TwId *element, GError **error)
{
  TwStageView view;
  gboolean seen = tw_session_view_axes (self->session, &view);
  TwAddWhere where = { .job = tw_session_job (self->session),
                       .placement = tw_session_placement (self->session),
                       .passes = tw_session_passes (self->session),
                       .view = seen ? &view : NULL,
                       .chosen = self->part };

  if (list_info (self)->element == TW_KIND_CURVE_POINT) {
    (void)tw_id_from_text ("curve_point-1", element);
    return tw_change_add_element (self->part, self->list, tw_part_new (TW_KIND_CURVE_POINT, *element), 0);
  }
  if (!seen) {
    g_set_error_literal (error, TW_ERROR, TW_ERROR_REFUSED, _ ("this view shows nothing of it"));
    return NULL;
  }
  return tw_add_element (&where, self->list, element, error);
}

static void
add (TwElementTable *self, gboolean after)
{
  int place = place_of (self, self->chosen);
  GPtrArray *elements = elements_of (self);
  g_autoptr (GError) error = NULL;
  TwChange *change;
  TwId made;

  if (place < 0 && elements->len > 0)
    place = after ? (int)elements->len - 1 : 0;
  if (elements->len == 0)
    change = first_element (self, &made, &error);
  else
    change = tw_add_between (tw_session_job (self->session), tw_session_placement (self->session), self->part,
                             self->list, (guint)place + (after ? 1 : 0), &made);
  if (change == NULL) {
    g_free (self->refusal);
    self->refusal = g_strdup (error->message);
    show_trouble (self);
  } else if (do_change (self, change)) {
    tw_element_table_take_focus (self, made, 0);
  }
}

static void
remove_chosen (TwElementTable *self)
{
  int place = place_of (self, self->chosen);
  GPtrArray *elements = elements_of (self);
  guint field = 0;
  int there;

  if (place < 0)
    return;
  (void)where_focus_is (self, &there, &field);
  if (!do_change (self, tw_change_remove (self->part, self->chosen)))
    return;
  elements = elements_of (self);
  if (elements->len > 0)
    focus (self, MIN (place, (int)elements->len - 1), field);
}

static void
move (TwElementTable *self, int by)
{
  int place = place_of (self, self->chosen), there;
  guint field = 0;
  gboolean had_focus = where_focus_is (self, &there, &field);

  if (place < 0 || place + by < 0 || place + by >= (int)elements_of (self)->len)
    return;
  if (!do_change (self, tw_change_reorder (self->part, self->chosen, (guint)(place + by))))
    return;
  turn_to (self, place + by);
  if (had_focus)
    focus (self, place + by, field);
}

static void
page (TwElementTable *self, int by)
{
  guint n = elements_of (self)->len;
  int first = (int)self->first + by * PAGE;

  if (first >= 0 && first < (int)n)
    turn_to (self, first);
}

static void
action_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  TwElementTable *self = TW_ELEMENT_TABLE (widget);

  if (elements_of (self) == NULL)
    return;
  if (g_str_equal (name, "elements.before") || g_str_equal (name, "elements.after"))
    add (self, g_str_equal (name, "elements.after"));
  else if (g_str_equal (name, "elements.remove"))
    remove_chosen (self);
  else if (g_str_equal (name, "elements.up") || g_str_equal (name, "elements.down"))
    move (self, g_str_equal (name, "elements.up") ? -1 : 1);
  else
    page (self, g_str_equal (name, "elements.earlier") ? -1 : 1);
}

/* Up and down within a column, over the ends of a page. */
static gboolean
step (TwElementTable *self, int by)
{
  GPtrArray *elements = elements_of (self);
  guint field;
  int place;

  if (!where_focus_is (self, &place, &field) || place + by < 0 || place + by >= (int)elements->len)
    return GDK_EVENT_PROPAGATE;
  focus (self, place + by, field);
  return GDK_EVENT_STOP;
}

/* From the last field of a page to the first of the next. */
static gboolean
tab_over (TwElementTable *self)
{
  guint field;
  int place;

  if (!where_focus_is (self, &place, &field) || place != (int)(self->first + self->shown->len) - 1
      || field + 1 != tw_kind_info (list_info (self)->element)->n_fields
      || place + 1 >= (int)elements_of (self)->len)
    return GDK_EVENT_PROPAGATE;
  focus (self, place + 1, 0);
  return GDK_EVENT_STOP;
}

static gboolean
key_cb (TwElementTable *self, guint keyval, guint code, GdkModifierType state)
{
  GdkModifierType held = state & (GDK_CONTROL_MASK | GDK_SHIFT_MASK | GDK_ALT_MASK);
  GtkWidget *widget = GTK_WIDGET (self);

  if (held == 0 && (keyval == GDK_KEY_Up || keyval == GDK_KEY_Down))
    return step (self, keyval == GDK_KEY_Up ? -1 : 1);
  if (held == 0 && keyval == GDK_KEY_Tab)
    return tab_over (self);
  if (held == GDK_CONTROL_MASK && keyval == GDK_KEY_Return)
    return gtk_widget_activate_action (widget, "elements.after", NULL);
  if (held == (GDK_CONTROL_MASK | GDK_SHIFT_MASK) && keyval == GDK_KEY_Return)
    return gtk_widget_activate_action (widget, "elements.before", NULL);
  if (held == GDK_CONTROL_MASK && keyval == GDK_KEY_Delete)
    return gtk_widget_activate_action (widget, "elements.remove", NULL);
  if (held == GDK_ALT_MASK && (keyval == GDK_KEY_Up || keyval == GDK_KEY_Down))
    return gtk_widget_activate_action (widget, keyval == GDK_KEY_Up ? "elements.up" : "elements.down", NULL);
  return GDK_EVENT_PROPAGATE;
}

/* --- the widget ----------------------------------------------------------------------------------------- */

static void
tw_element_table_dispose (GObject *object)
{
  TwElementTable *self = TW_ELEMENT_TABLE (object);
  GtkWidget *child;

  for (guint i = 0; i < self->shown->len; i++)
    g_signal_handlers_disconnect_by_data (g_ptr_array_index (self->shown, i), self);
  g_ptr_array_set_size (self->shown, 0);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (tw_element_table_parent_class)->dispose (object);
}

static void
tw_element_table_finalize (GObject *object)
{
  TwElementTable *self = TW_ELEMENT_TABLE (object);

  g_ptr_array_unref (self->shown);
  g_free (self->refusal);
  g_clear_pointer (&self->drafts, g_hash_table_unref);
  G_OBJECT_CLASS (tw_element_table_parent_class)->finalize (object);
}

static void
tw_element_table_class_init (TwElementTableClass *klass)
{
  static const char *const actions[]
      = { "elements.before", "elements.after",   "elements.remove", "elements.up",
          "elements.down",   "elements.earlier", "elements.later" };
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tw_element_table_dispose;
  object_class->finalize = tw_element_table_finalize;
  signals[CHOSEN] = g_signal_new ("chosen", TW_TYPE_ELEMENT_TABLE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 0);
  signals[TROUBLED] = g_signal_new ("troubled", TW_TYPE_ELEMENT_TABLE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                    G_TYPE_NONE, 0);
  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    gtk_widget_class_install_action (widget_class, actions[i], NULL, action_cb);

  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/element-table.ui");
  gtk_widget_class_bind_template_child (widget_class, TwElementTable, title);
  gtk_widget_class_bind_template_child (widget_class, TwElementTable, pager);
  gtk_widget_class_bind_template_child (widget_class, TwElementTable, range);
  gtk_widget_class_bind_template_child (widget_class, TwElementTable, heads);
  gtk_widget_class_bind_template_child (widget_class, TwElementTable, rows);
  gtk_widget_class_bind_template_child (widget_class, TwElementTable, revealer);
  gtk_widget_class_bind_template_child (widget_class, TwElementTable, trouble);
  gtk_widget_class_bind_template_child (widget_class, TwElementTable, before);
  gtk_widget_class_bind_template_child (widget_class, TwElementTable, more);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_set_css_name (widget_class, "element-table");
}

static void
tw_element_table_init (TwElementTable *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_orientable_set_orientation (GTK_ORIENTABLE (gtk_widget_get_layout_manager (GTK_WIDGET (self))),
                                  GTK_ORIENTATION_VERTICAL);
  self->shown = g_ptr_array_new ();
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self->rows), keys);
}

GtkWidget *
tw_element_table_new (TwSession *session, TwId part, guint list, GHashTable *drafts)
{
  TwElementTable *self = g_object_new (TW_TYPE_ELEMENT_TABLE, NULL);

  self->session = g_object_ref (session);
  self->part = part;
  self->list = list;
  self->drafts = g_hash_table_ref (drafts);
  tw_element_table_update (self);
  return GTK_WIDGET (self);
}

TwId
tw_element_table_chosen (TwElementTable *self)
{
  return self->chosen;
}

void
tw_element_table_choose (TwElementTable *self, TwId element)
{
  int place = place_of (self, element);

  self->chosen = place >= 0 ? element : TW_ID_NONE;
  if (place >= 0 && ((guint)place < self->first || (guint)place >= self->first + PAGE))
    turn_to (self, place);
  else
    tw_element_table_update (self);
}

void
tw_element_table_take_focus (TwElementTable *self, TwId element, guint field)
{
  focus (self, place_of (self, element), field);
}

void
tw_element_table_let_go (TwElementTable *self)
{
  for (guint i = 0; i < self->shown->len; i++)
    each_editor (g_ptr_array_index (self->shown, i), self->drafts, tw_field_editor_keep);
}
