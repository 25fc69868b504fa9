/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/field-pick.h"

#include "app/field-words.h"
#include "app/part-words.h"

#include <glib/gi18n-lib.h>

#define BUTTON_CHARS 6 /* fewest: longer words wrap */

/* What a row of the list stands for. */
typedef enum { ROW_SEVERAL, ROW_SILENCE, ROW_VALUE } RowKind;

typedef struct {
  RowKind kind;
  int choice; /* of a choice or flag */
  TwId ref;   /* of a reference */
} Row;

struct _TwFieldPick {
  TwFieldEditor parent_instance;

  GtkDropDown *list;
  GArray *rows;     /* of Row, as they stand in it */
  gboolean filling; /* the editor itself is choosing a row */
};

G_DEFINE_FINAL_TYPE (TwFieldPick, tw_field_pick, TW_TYPE_FIELD_EDITOR)

static void
add_row (TwFieldPick *self, GtkStringList *words, const char *word, Row row)
{
  gtk_string_list_append (words, word);
  g_array_append_val (self->rows, row);
}

static void
add_references (TwFieldPick *self, GtkStringList *words, const TwFieldTarget *target)
{
  const TwJob *job = tw_session_job (tw_field_target_session (target));

  for (const TwChoice *c = tw_field_target_info (target)->choices; c->name != NULL; c++) {
    TwKind kind = tw_kind_from_member (c->name);

    for (guint i = 0; i < tw_job_count (job, kind); i++) {
      const TwPart *part = tw_job_get (job, kind, i);

      add_row (self, words, tw_part_words_name (part), (Row){ ROW_VALUE, -1, part->id });
    }
  }
}

static void
add_values (TwFieldPick *self, GtkStringList *words, const TwFieldTarget *target)
{
  const TwField *field = tw_field_target_info (target);

  if (field->store == TW_FIELD_REF) {
    add_references (self, words, target);
  } else if (field->store == TW_FIELD_FLAG) {
    add_row (self, words, _ ("no"), (Row){ ROW_VALUE, 0, TW_ID_NONE });
    add_row (self, words, _ ("yes"), (Row){ ROW_VALUE, 1, TW_ID_NONE });
  } else {
    for (int i = 0; field->choices[i].name != NULL; i++)
      add_row (self, words, _ (field->choices[i].label), (Row){ ROW_VALUE, i, TW_ID_NONE });
  }
}

static GtkStringList *
list_words (TwFieldPick *self, gboolean several, const char *unsaid)
{
  TwFieldTarget *target = tw_field_editor_target (TW_FIELD_EDITOR (self));
  GtkStringList *words = gtk_string_list_new (NULL);

  g_array_set_size (self->rows, 0);
  if (several)
    add_row (self, words, _ ("several values"), (Row){ ROW_SEVERAL, -1, TW_ID_NONE });
  if (!tw_field_target_is_needed (target))
    add_row (self, words, unsaid ? unsaid : _ ("not said"), (Row){ ROW_SILENCE, -1, TW_ID_NONE });
  add_values (self, words, target);
  return words;
}

static guint
place_of (TwFieldPick *self, const TwValue *value, gboolean several)
{
  gboolean silent = value->choice < 0 && tw_id_is_none (value->ref);

  for (guint i = 0; i < self->rows->len; i++) {
    const Row *row = &g_array_index (self->rows, Row, i);

    if (row->kind == ROW_SEVERAL || (row->kind == ROW_SILENCE && silent && !several)
        || (row->kind == ROW_VALUE && !silent && row->choice == value->choice
            && tw_id_equal (row->ref, value->ref)))
      return i;
  }
  return GTK_INVALID_LIST_POSITION;
}

static gboolean
same_words (GListModel *a, GListModel *b)
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
show_words (TwFieldPick *self, GtkStringList *words, guint place)
{
  GListModel *now = gtk_drop_down_get_model (self->list);

  self->filling = TRUE;
  if (now == NULL || !same_words (now, G_LIST_MODEL (words)))
    gtk_drop_down_set_model (self->list, G_LIST_MODEL (words));
  if (gtk_drop_down_get_selected (self->list) != place)
    gtk_drop_down_set_selected (self->list, place);
  self->filling = FALSE;
}

static void
update (TwFieldEditor *editor)
{
  TwFieldPick *self = TW_FIELD_PICK (editor);
  TwFieldTarget *target = tw_field_editor_target (editor);
  g_autoptr (GtkStringList) words = NULL;
  g_autofree char *unsaid = NULL, *note = NULL;
  gboolean several;
  TwValue value;
  guint place;

  several = !tw_field_target_get (target, &value);
  unsaid = tw_field_words_unsaid (target, &note);
  words = list_words (self, several, unsaid);
  place = place_of (self, &value, several);
  tw_value_clear (&value);
  show_words (self, words, place);
  if (place < self->rows->len && g_array_index (self->rows, Row, place).kind != ROW_VALUE) {
    gtk_widget_add_css_class (GTK_WIDGET (self->list), "assumed");
    tw_field_editor_set_note (editor, note);
  } else {
    gtk_widget_remove_css_class (GTK_WIDGET (self->list), "assumed");
    tw_field_editor_set_note (editor, NULL);
  }
}

static void
chosen_cb (TwFieldPick *self)
{
  TwFieldEditor *editor = TW_FIELD_EDITOR (self);
  TwFieldTarget *target = tw_field_editor_target (editor);
  TwFieldStore store = tw_field_target_info (target)->store;
  guint place = gtk_drop_down_get_selected (self->list);
  TwValue value;
  Row row;

  if (self->filling || place >= self->rows->len || tw_field_target_owner (target, 0) == NULL)
    return;
  row = g_array_index (self->rows, Row, place);
  if (row.kind == ROW_SEVERAL)
    return;
  if (row.kind == ROW_SILENCE)
    value = tw_value_unknown (store);
  else
    value = store == TW_FIELD_REF ? tw_value_ref (row.ref) : tw_value_choice (store, row.choice);
  if (!tw_field_editor_take (editor, &value) && !tw_field_editor_is_let_go (editor))
    tw_field_editor_update (editor);
}

/* --- rows ----------------------------------------------------------------------------------------------- */

static void
setup_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0.0F);
  gtk_list_item_set_child (item, label);
}

/* The button is no wider than its place, whatever the words: they wrap. */
static void
setup_button_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0.0F);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_width_chars (GTK_LABEL (label), BUTTON_CHARS);
  gtk_label_set_max_width_chars (GTK_LABEL (label), BUTTON_CHARS);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_list_item_set_child (item, label);
}

static void
bind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  GtkStringObject *word = gtk_list_item_get_item (item);

  gtk_label_set_text (GTK_LABEL (gtk_list_item_get_child (item)), gtk_string_object_get_string (word));
}

/* In the open list the row of silence says that it is one. */
static void
bind_row_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  TwFieldPick *self = data;
  guint place = gtk_list_item_get_position (item);
  GtkStringObject *word = gtk_list_item_get_item (item);
  const char *text = gtk_string_object_get_string (word);
  g_autofree char *shown = NULL;

  if (place < self->rows->len && g_array_index (self->rows, Row, place).kind == ROW_SILENCE
      && !g_str_equal (text, _ ("not said")))
    /* Translators: a word that is meant when the job says nothing */
    shown = g_strdup_printf (_ ("%s (not said)"), text);
  gtk_label_set_text (GTK_LABEL (gtk_list_item_get_child (item)), shown ? shown : text);
}

/* --- the widget ----------------------------------------------------------------------------------------- */

static void
tw_field_pick_finalize (GObject *object)
{
  g_array_unref (TW_FIELD_PICK (object)->rows);
  G_OBJECT_CLASS (tw_field_pick_parent_class)->finalize (object);
}

static void
tw_field_pick_class_init (TwFieldPickClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = tw_field_pick_finalize;
  TW_FIELD_EDITOR_CLASS (klass)->update = update;
}

static void
tw_field_pick_init (TwFieldPick *self)
{
  g_autoptr (GtkListItemFactory) button = gtk_signal_list_item_factory_new ();
  g_autoptr (GtkListItemFactory) rows = gtk_signal_list_item_factory_new ();

  self->rows = g_array_new (FALSE, FALSE, sizeof (Row));
  self->list = GTK_DROP_DOWN (gtk_drop_down_new (NULL, NULL));
  g_signal_connect (button, "setup", G_CALLBACK (setup_button_cb), NULL);
  g_signal_connect (button, "bind", G_CALLBACK (bind_cb), NULL);
  g_signal_connect (rows, "setup", G_CALLBACK (setup_cb), NULL);
  g_signal_connect_object (rows, "bind", G_CALLBACK (bind_row_cb), self, 0);
  gtk_drop_down_set_factory (self->list, button);
  gtk_drop_down_set_list_factory (self->list, rows);
  gtk_widget_set_parent (GTK_WIDGET (self->list), GTK_WIDGET (self));
}

GtkWidget *
tw_field_pick_new (TwFieldTarget *target)
{
  TwFieldPick *self = g_object_new (TW_TYPE_FIELD_PICK, NULL);

  tw_field_editor_set_up (TW_FIELD_EDITOR (self), target, GTK_WIDGET (self->list));
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->list), _ (tw_field_target_info (target)->hint));
  tw_field_editor_update (TW_FIELD_EDITOR (self));
  g_signal_connect_swapped (self->list, "notify::selected", G_CALLBACK (chosen_cb), self);
  return GTK_WIDGET (self);
}
