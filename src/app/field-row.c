/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/field-row.h"

#include "app/field-words.h"

#include <glib/gi18n-lib.h>

#define EDITOR_PX 148        /* all editors end at the same edge */
#define EDITOR_CHARS 13      /* width of an entry */
#define LONG_TEXT_BYTES 1000 /* longer texts get a page of lines */

struct _TwFieldRow {
  GtkWidget parent_instance;

  GtkWidget *line;
  GtkLabel *name;
  GtkRevealer *revealer;
  GtkLabel *trouble;
  GtkWidget *editor; /* GtkEntry, GtkDropDown or GtkTextView */

  TwSession *session;
  TwId part;
  TwId element;
  guint field;

  char *shown;           /* text that the editor had when it last agreed with the job */
  GArray *values;        /* of a list of references: TwId by place */
  gboolean filling;      /* the row itself is altering its editor */
  gboolean must_be_said; /* a list without a row for silence */
  gboolean let_go;       /* on its way out: what is typed is dropped */
};

enum { TROUBLED, N_SIGNALS };

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TwFieldRow, tw_field_row, GTK_TYPE_WIDGET)

static const TwPart *
owner_of (TwFieldRow *self)
{
  const TwJob *job = tw_session_job (self->session);
  const TwPart *part = job ? tw_job_find (job, self->part) : NULL;

  if (part == NULL || tw_id_is_none (self->element))
    return part;
  return tw_part_element (part, self->element, NULL);
}

static const TwField *
info_of (TwFieldRow *self, const TwPart *owner)
{
  return &tw_kind_info (owner->kind)->fields[self->field];
}

static void
show_trouble (TwFieldRow *self, const char *message)
{
  gboolean bad = message != NULL;

  if (bad)
    gtk_label_set_text (self->trouble, message);
  gtk_revealer_set_reveal_child (self->revealer, bad);
  if (bad)
    g_signal_emit (self, signals[TROUBLED], 0);
  if (bad)
    gtk_widget_add_css_class (self->editor, "error");
  else
    gtk_widget_remove_css_class (self->editor, "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->editor), GTK_ACCESSIBLE_STATE_INVALID,
                               bad ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
}

/* Hands @value over; FALSE, marked and nothing changed, when it is refused. */
static gboolean
set_value (TwFieldRow *self, TwValue *value)
{
  g_autoptr (GError) error = NULL;
  TwChange *change = tw_change_set (self->part, self->element, self->field, value);

  if (!tw_session_do (self->session, change, &error)) {
    show_trouble (self, error->message);
    return FALSE;
  }
  show_trouble (self, NULL);
  return TRUE;
}

static void
take_text (TwFieldRow *self, const char *text)
{
  const TwPart *owner = owner_of (self);
  TwUnitStyle style = tw_session_style (self->session);
  g_autoptr (GError) error = NULL;
  TwValue value;

  if (owner == NULL)
    return;
  if (g_strcmp0 (text, self->shown) == 0) {
    show_trouble (self, NULL);
    return;
  }
  if (!tw_value_parse (info_of (self, owner), &style, text, &value, &error)) {
    show_trouble (self, error->message);
    return;
  }
  if (set_value (self, &value)) {
    g_clear_pointer (&self->shown, g_free);
    tw_field_row_update (self);
  }
}

/* --- entries -------------------------------------------------------------------------------------------- */

static void
show_entry (TwFieldRow *self, const TwField *field, const TwValue *value)
{
  g_autofree char *text = tw_field_words_value (self->session, field, value);
  const char *why = NULL;
  g_autofree char *assumed
      = text ? NULL : tw_field_words_unsaid (self->session, owner_of (self), self->field, &why);
  GtkEntry *entry = GTK_ENTRY (self->editor);
  const char *now = gtk_editable_get_text (GTK_EDITABLE (entry)), *tip;
  g_autofree char *typed = NULL;

  if (self->shown != NULL && g_strcmp0 (now, self->shown) != 0)
    return; /* is being typed in, or waits to be mended */
  if (text == NULL)
    text = g_strdup ("");
  if (!g_str_equal (now, text))
    gtk_editable_set_text (GTK_EDITABLE (entry), text);
  if (g_strcmp0 (gtk_entry_get_placeholder_text (entry), assumed) != 0)
    gtk_entry_set_placeholder_text (entry, assumed);
  typed = value->typed ? g_strdup_printf (_ ("Typed as %s"), value->typed) : NULL;
  tip = typed ? typed : why ? _ (why) : NULL;
  if (g_strcmp0 (gtk_widget_get_tooltip_text (self->editor), tip) != 0)
    gtk_widget_set_tooltip_text (self->editor, tip);
  g_free (self->shown);
  self->shown = g_steal_pointer (&text);
}

static void
entry_activated_cb (TwFieldRow *self)
{
  take_text (self, gtk_editable_get_text (GTK_EDITABLE (self->editor)));
  gtk_editable_select_region (GTK_EDITABLE (self->editor), 0, -1);
}

static void
entry_left_cb (TwFieldRow *self)
{
  if (!self->let_go)
    take_text (self, gtk_editable_get_text (GTK_EDITABLE (self->editor)));
}

/* Escape puts back what the job says. */
static gboolean
entry_key_cb (TwFieldRow *self, guint keyval)
{
  if (keyval != GDK_KEY_Escape
      || g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (self->editor)), self->shown) == 0)
    return GDK_EVENT_PROPAGATE;
  gtk_editable_set_text (GTK_EDITABLE (self->editor), self->shown ? self->shown : "");
  gtk_editable_select_region (GTK_EDITABLE (self->editor), 0, -1);
  show_trouble (self, NULL);
  return GDK_EVENT_STOP;
}

static void
watch_focus (TwFieldRow *self, GCallback left)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  g_signal_connect_swapped (focus, "leave", left, self);
  gtk_widget_add_controller (self->editor, focus);
  if (GTK_IS_ENTRY (self->editor)) {
    gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
    g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (entry_key_cb), self);
    gtk_widget_add_controller (self->editor, keys);
  } else {
    g_object_unref (keys);
  }
}

static void
make_entry (TwFieldRow *self, const TwField *field)
{
  self->editor = gtk_entry_new ();
  gtk_editable_set_width_chars (GTK_EDITABLE (self->editor), EDITOR_CHARS);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self->editor), EDITOR_CHARS);
  if (field->store != TW_FIELD_TEXT)
    gtk_widget_add_css_class (self->editor, "numeric");
  g_signal_connect_swapped (self->editor, "activate", G_CALLBACK (entry_activated_cb), self);
  watch_focus (self, G_CALLBACK (entry_left_cb));
}

/* --- long texts ----------------------------------------------------------------------------------------- */

static char *
page_text (TwFieldRow *self)
{
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (GTK_TEXT_VIEW (self->editor));
  GtkTextIter start, end;

  gtk_text_buffer_get_bounds (buffer, &start, &end);
  return gtk_text_buffer_get_text (buffer, &start, &end, FALSE);
}

static void
show_page (TwFieldRow *self, const TwValue *value)
{
  g_autofree char *now = page_text (self);
  const char *text = value->text ? value->text : "";

  if (self->shown != NULL && !g_str_equal (now, self->shown))
    return;
  if (!g_str_equal (now, text))
    gtk_text_buffer_set_text (gtk_text_view_get_buffer (GTK_TEXT_VIEW (self->editor)), text, -1);
  g_free (self->shown);
  self->shown = g_strdup (text);
}

static void
page_left_cb (TwFieldRow *self)
{
  g_autofree char *text = page_text (self);

  if (!self->let_go)
    take_text (self, text);
}

static GtkWidget *
make_page (TwFieldRow *self)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();

  self->editor = gtk_text_view_new ();
  gtk_text_view_set_wrap_mode (GTK_TEXT_VIEW (self->editor), GTK_WRAP_WORD_CHAR);
  gtk_text_view_set_accepts_tab (GTK_TEXT_VIEW (self->editor), FALSE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), self->editor);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scroller), 96);
  gtk_scrolled_window_set_has_frame (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_widget_add_css_class (scroller, "note");
  gtk_widget_set_hexpand (scroller, TRUE);
  watch_focus (self, G_CALLBACK (page_left_cb));
  return scroller;
}

/* --- lists of choices ------------------------------------------------------------------------------------
 *
 * The first row stands for "not said" and names what is then assumed; a reference that must be there has no
 * such row. */

static gboolean
must_be_said (const TwField *field)
{
  return field->store == TW_FIELD_REF && field->low > 0.0;
}

static void
add_references (TwFieldRow *self, const TwField *field, GtkStringList *list)
{
  const TwJob *job = tw_session_job (self->session);

  g_array_set_size (self->values, 0);
  for (const TwChoice *c = field->choices; c->name != NULL; c++) {
    TwKind kind = tw_kind_from_member (c->name);

    for (guint i = 0; i < tw_job_count (job, kind); i++) {
      const TwPart *part = tw_job_get (job, kind, i);

      gtk_string_list_append (list, tw_part_name (part));
      g_array_append_val (self->values, part->id);
    }
  }
}

static GtkStringList *
list_choices (TwFieldRow *self, const TwField *field)
{
  GtkStringList *list = gtk_string_list_new (NULL);
  const char *why;
  g_autofree char *assumed = tw_field_words_unsaid (self->session, owner_of (self), self->field, &why);

  if (!must_be_said (field))
    gtk_string_list_append (list, assumed ? assumed : _ ("not said"));
  if (field->store == TW_FIELD_REF)
    add_references (self, field, list);
  else if (field->store == TW_FIELD_FLAG) {
    gtk_string_list_append (list, _ ("no"));
    gtk_string_list_append (list, _ ("yes"));
  } else {
    for (const TwChoice *c = field->choices; c->name != NULL; c++)
      gtk_string_list_append (list, _ (c->label));
  }
  return list;
}

static guint
place_of (TwFieldRow *self, const TwField *field, const TwValue *value)
{
  if (field->store != TW_FIELD_REF)
    return (guint)(value->choice + 1);
  for (guint i = 0; i < self->values->len; i++)
    if (tw_id_equal (g_array_index (self->values, TwId, i), value->ref))
      return i + (must_be_said (field) ? 0 : 1);
  return must_be_said (field) ? GTK_INVALID_LIST_POSITION : 0;
}

static gboolean
same_list (GListModel *a, GListModel *b)
{
  guint n = g_list_model_get_n_items (a);

  if (n != g_list_model_get_n_items (b))
    return FALSE;
  for (guint i = 0; i < n; i++)
    if (!g_str_equal (gtk_string_list_get_string (GTK_STRING_LIST (a), i),
                      gtk_string_list_get_string (GTK_STRING_LIST (b), i)))
      return FALSE;
  return TRUE;
}

static void
show_choice (TwFieldRow *self, const TwField *field, const TwValue *value)
{
  GtkDropDown *list = GTK_DROP_DOWN (self->editor);
  g_autoptr (GtkStringList) choices = list_choices (self, field);
  GListModel *now = gtk_drop_down_get_model (list);
  guint place;

  self->filling = TRUE;
  if (now == NULL || !same_list (now, G_LIST_MODEL (choices)))
    gtk_drop_down_set_model (list, G_LIST_MODEL (choices));
  place = place_of (self, field, value);
  if (gtk_drop_down_get_selected (list) != place)
    gtk_drop_down_set_selected (list, place);
  if (value->choice < 0 && field->store != TW_FIELD_REF)
    gtk_widget_add_css_class (self->editor, "assumed");
  else
    gtk_widget_remove_css_class (self->editor, "assumed");
  self->filling = FALSE;
}

static void
choice_made_cb (TwFieldRow *self)
{
  guint place = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->editor));
  const TwPart *owner = owner_of (self);
  const TwField *field;
  TwValue value;

  if (self->filling || owner == NULL || place == GTK_INVALID_LIST_POSITION)
    return;
  field = info_of (self, owner);
  if (!must_be_said (field) && place == 0)
    value = tw_value_unknown (field->store);
  else if (field->store == TW_FIELD_REF)
    value = tw_value_ref (g_array_index (self->values, TwId, place - (must_be_said (field) ? 0 : 1)));
  else
    value = tw_value_choice (field->store, (int)place - 1);
  (void)set_value (self, &value);
}

static void
setup_choice_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0.0F);
  gtk_list_item_set_child (item, label);
}

/* The button is as wide as an entry, whatever the words. */
static void
setup_button_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0.0F);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), EDITOR_CHARS - 4);
  gtk_label_set_max_width_chars (GTK_LABEL (label), EDITOR_CHARS - 4);
  gtk_list_item_set_child (item, label);
}

static void
bind_choice_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  GtkStringObject *string = gtk_list_item_get_item (item);

  gtk_label_set_text (GTK_LABEL (gtk_list_item_get_child (item)), gtk_string_object_get_string (string));
}

/* In the open list the first row says that it stands for silence. */
static void
bind_row_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  TwFieldRow *self = data;
  GtkStringObject *string = gtk_list_item_get_item (item);
  const char *text = gtk_string_object_get_string (string);
  g_autofree char *shown = NULL;

  if (gtk_list_item_get_position (item) == 0 && !self->must_be_said && !g_str_equal (text, _ ("not said")))
    /* Translators: a word that is meant when the job says nothing */
    shown = g_strdup_printf (_ ("%s (not said)"), text);
  gtk_label_set_text (GTK_LABEL (gtk_list_item_get_child (item)), shown ? shown : text);
}

static void
make_choice (TwFieldRow *self, const TwField *field)
{
  g_autoptr (GtkListItemFactory) button = gtk_signal_list_item_factory_new ();
  g_autoptr (GtkListItemFactory) rows = gtk_signal_list_item_factory_new ();

  self->must_be_said = must_be_said (field);
  self->editor = gtk_drop_down_new (NULL, NULL);
  g_signal_connect (button, "setup", G_CALLBACK (setup_button_cb), NULL);
  g_signal_connect (button, "bind", G_CALLBACK (bind_choice_cb), NULL);
  g_signal_connect (rows, "setup", G_CALLBACK (setup_choice_cb), NULL);
  g_signal_connect (rows, "bind", G_CALLBACK (bind_row_cb), self);
  gtk_drop_down_set_factory (GTK_DROP_DOWN (self->editor), button);
  gtk_drop_down_set_list_factory (GTK_DROP_DOWN (self->editor), rows);
  g_signal_connect_swapped (self->editor, "notify::selected", G_CALLBACK (choice_made_cb), self);
}

/* --- the widget ----------------------------------------------------------------------------------------- */

static void
tw_field_row_dispose (GObject *object)
{
  TwFieldRow *self = TW_FIELD_ROW (object);
  GtkWidget *child;

  self->let_go = TRUE;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  self->editor = NULL;
  g_clear_object (&self->session);
  G_OBJECT_CLASS (tw_field_row_parent_class)->dispose (object);
}

static void
tw_field_row_finalize (GObject *object)
{
  TwFieldRow *self = TW_FIELD_ROW (object);

  g_free (self->shown);
  g_array_unref (self->values);
  G_OBJECT_CLASS (tw_field_row_parent_class)->finalize (object);
}

static void
tw_field_row_class_init (TwFieldRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tw_field_row_dispose;
  object_class->finalize = tw_field_row_finalize;
  signals[TROUBLED]
      = g_signal_new ("troubled", TW_TYPE_FIELD_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);

  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/field-row.ui");
  gtk_widget_class_bind_template_child (widget_class, TwFieldRow, line);
  gtk_widget_class_bind_template_child (widget_class, TwFieldRow, name);
  gtk_widget_class_bind_template_child (widget_class, TwFieldRow, revealer);
  gtk_widget_class_bind_template_child (widget_class, TwFieldRow, trouble);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "field-row");
}

static void
tw_field_row_init (TwFieldRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_orientable_set_orientation (GTK_ORIENTABLE (gtk_widget_get_layout_manager (GTK_WIDGET (self))),
                                  GTK_ORIENTATION_VERTICAL);
  self->values = g_array_new (FALSE, FALSE, sizeof (TwId));
}

static void
add_editor (TwFieldRow *self, const TwField *field)
{
  GtkWidget *child = NULL;

  if (field->store == TW_FIELD_TEXT && field->high > LONG_TEXT_BYTES) {
    child = make_page (self);
    gtk_orientable_set_orientation (GTK_ORIENTABLE (self->line), GTK_ORIENTATION_VERTICAL);
  } else if (field->store == TW_FIELD_NUMBER || field->store == TW_FIELD_COUNT
             || field->store == TW_FIELD_TEXT) {
    make_entry (self, field);
  } else {
    make_choice (self, field);
  }
  gtk_widget_set_size_request (self->editor, EDITOR_PX, -1);
  gtk_widget_set_valign (child ? child : self->editor, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (self->line), child ? child : self->editor);
  gtk_label_set_mnemonic_widget (self->name, self->editor);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->editor), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ (field->label), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, _ (field->hint), -1);
}

GtkWidget *
tw_field_row_new (TwSession *session, TwId part, TwId element, guint field)
{
  TwFieldRow *self = g_object_new (TW_TYPE_FIELD_ROW, NULL);
  const TwField *info;

  self->session = g_object_ref (session);
  self->part = part;
  self->element = element;
  self->field = field;
  info = info_of (self, owner_of (self));
  gtk_label_set_text (self->name, _ (info->label));
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->name), _ (info->hint));
  add_editor (self, info);
  tw_field_row_update (self);
  return GTK_WIDGET (self);
}

void
tw_field_row_update (TwFieldRow *self)
{
  const TwPart *owner = owner_of (self);
  const TwField *field;
  TwValue value;

  if (owner == NULL)
    return;
  field = info_of (self, owner);
  value = tw_part_get (owner, self->field);
  if (GTK_IS_ENTRY (self->editor))
    show_entry (self, field, &value);
  else if (GTK_IS_TEXT_VIEW (self->editor))
    show_page (self, &value);
  else
    show_choice (self, field, &value);
  tw_value_clear (&value);
}

guint
tw_field_row_field (TwFieldRow *self)
{
  return self->field;
}

void
tw_field_row_set_moving (TwFieldRow *self, gboolean moving)
{
  if (moving)
    gtk_widget_add_css_class (GTK_WIDGET (self), "moving");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "moving");
}

void
tw_field_row_take_focus (TwFieldRow *self)
{
  gtk_widget_grab_focus (self->editor);
}

void
tw_field_row_let_go (TwFieldRow *self)
{
  self->let_go = TRUE;
}
