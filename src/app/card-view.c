/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/card-view.h"

#include "app/card-picture.h"
#include "app/card-row.h"
#include "app/passage.h"

#include <glib/gi18n-lib.h>

/* How long a finding is marked as new. */
#define NEW_MS 8000

struct _TwCardView {
  GtkWidget parent_instance;

  GtkLabel *label;
  GtkImage *icon;
  TwPassage *headline;
  GtkMenuButton *where;
  TwCardPicture *picture;
  TwPassage *meaning;
  GtkButton *add;
  GtkExpander *more;
  GtkListBox *rows;
  TwPassage *notes;

  TwSession *session;
  const TwCard *card;
  GHashTable *settled; /* ids of the findings when the last change was over; NULL: none was */
  GHashTable *fresh;   /* ids of those that came since */
  guint fresh_timer;   /* 0: none is marked */
};

enum { PROP_0, PROP_OPEN, N_PROPS };

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TwCardView, tw_card_view, GTK_TYPE_WIDGET)

static void
make_popover_cb (GtkMenuButton *button, gpointer data)
{
  TwCardView *self = data;
  GtkWidget *popover = gtk_popover_new ();

  if (self->card != NULL)
    tw_card_where_fill (GTK_POPOVER (popover), self->card, self->card->where);
  gtk_menu_button_set_popover (button, popover);
}

static void
row_activated_cb (TwCardView *self, GtkListBoxRow *row)
{
  const GArray *parts = tw_card_row_widget_parts (TW_CARD_ROW_WIDGET (row));
  g_autoptr (GArray) chosen = g_array_new (FALSE, FALSE, sizeof (TwId));

  /* what the row names first is to lead, and the last one leads */
  for (guint i = parts != NULL ? parts->len : 0; i > 0; i--)
    g_array_append_val (chosen, g_array_index (parts, TwId, i - 1));
  if (chosen->len > 0)
    tw_session_choose (self->session, (const TwId *)(gpointer)chosen->data, chosen->len);
}

static gboolean
show_label (GtkLabel *label, const char *text)
{
  if (g_str_equal (gtk_label_get_text (label), text))
    return FALSE;
  gtk_label_set_text (label, text);
  return TRUE;
}

/* Whether a row is about a part that is chosen. */
static gboolean
is_chosen (TwCardView *self, const TwCardRow *row)
{
  for (guint i = 0; i < row->parts->len; i++)
    if (tw_session_is_chosen (self->session, g_array_index (row->parts, TwId, i)))
      return TRUE;
  return FALSE;
}

void
tw_card_view_mark (TwCardView *self)
{
  if (self->card == NULL || !gtk_expander_get_expanded (self->more))
    return;
  for (guint i = 0; i < self->card->rows->len; i++) {
    const TwCardRow *row = g_ptr_array_index (self->card->rows, i);
    GtkListBoxRow *shown = gtk_list_box_get_row_at_index (self->rows, (int)i);

    tw_card_row_widget_mark (TW_CARD_ROW_WIDGET (shown), is_chosen (self, row),
                             g_hash_table_contains (self->fresh, row->id));
  }
}

/* Rows are alike but for what they show: as many as are wanted, each shows what stands in its place. While
 * they are folded away they wait. */
static void
show_rows (TwCardView *self, const TwCard *card)
{
  if (!gtk_expander_get_expanded (self->more))
    return;
  for (guint i = 0; i < card->rows->len; i++) {
    GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->rows, (int)i);

    if (row == NULL) {
      row = GTK_LIST_BOX_ROW (tw_card_row_widget_new ());
      gtk_list_box_append (self->rows, GTK_WIDGET (row));
    }
    tw_card_row_widget_show (TW_CARD_ROW_WIDGET (row), card, g_ptr_array_index (card->rows, i));
  }
  for (GtkListBoxRow *row; (row = gtk_list_box_get_row_at_index (self->rows, (int)card->rows->len)) != NULL;)
    gtk_list_box_remove (self->rows, GTK_WIDGET (row));
  tw_card_view_mark (self);
}

static void
opened_cb (TwCardView *self)
{
  if (self->card != NULL)
    show_rows (self, self->card);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_OPEN]);
}

static void
tw_card_view_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_OPEN)
    g_value_set_boolean (value, tw_card_view_is_open (TW_CARD_VIEW (object)));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tw_card_view_finalize (GObject *object)
{
  TwCardView *self = TW_CARD_VIEW (object);

  g_clear_pointer (&self->settled, g_hash_table_unref);
  g_hash_table_unref (self->fresh);
  G_OBJECT_CLASS (tw_card_view_parent_class)->finalize (object);
}

static void
tw_card_view_dispose (GObject *object)
{
  TwCardView *self = TW_CARD_VIEW (object);
  GtkWidget *child;

  g_clear_handle_id (&self->fresh_timer, g_source_remove);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (tw_card_view_parent_class)->dispose (object);
}

static void
tw_card_view_class_init (TwCardViewClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tw_card_view_dispose;
  object_class->finalize = tw_card_view_finalize;
  object_class->get_property = tw_card_view_get_property;
  props[PROP_OPEN] = g_param_spec_boolean (
      "open", NULL, NULL, FALSE, G_PARAM_READABLE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  g_type_ensure (TW_TYPE_PASSAGE);
  g_type_ensure (TW_TYPE_CARD_PICTURE);

  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/card-view.ui");
  gtk_widget_class_bind_template_child (widget_class, TwCardView, label);
  gtk_widget_class_bind_template_child (widget_class, TwCardView, icon);
  gtk_widget_class_bind_template_child (widget_class, TwCardView, headline);
  gtk_widget_class_bind_template_child (widget_class, TwCardView, where);
  gtk_widget_class_bind_template_child (widget_class, TwCardView, picture);
  gtk_widget_class_bind_template_child (widget_class, TwCardView, meaning);
  gtk_widget_class_bind_template_child (widget_class, TwCardView, add);
  gtk_widget_class_bind_template_child (widget_class, TwCardView, more);
  gtk_widget_class_bind_template_child (widget_class, TwCardView, rows);
  gtk_widget_class_bind_template_child (widget_class, TwCardView, notes);
  gtk_widget_class_bind_template_callback (widget_class, row_activated_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "card-view");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
tw_card_view_init (TwCardView *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->fresh = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_signal_connect_swapped (self->more, "notify::expanded", G_CALLBACK (opened_cb), self);
  gtk_menu_button_set_create_popup_func (self->where, make_popover_cb, self, NULL);
}

GtkWidget *
tw_card_view_new (TwSession *session, gboolean is_open)
{
  TwCardView *self = g_object_new (TW_TYPE_CARD_VIEW, NULL);

  self->session = g_object_ref (session);
  gtk_expander_set_expanded (self->more, is_open);
  return GTK_WIDGET (self);
}

static void
show_notes (TwCardView *self, const TwCard *card)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < card->notes->len; i++)
    g_string_append_printf (text, "%s%s", i ? "\n" : "", (const char *)g_ptr_array_index (card->notes, i));
  tw_passage_show (self->notes, text->str);
  gtk_widget_set_visible (GTK_WIDGET (self->notes), text->len > 0);
  g_string_free (text, TRUE);
}

static void
show_head (TwCardView *self, const TwCard *card)
{
  const char *icon = tw_card_kind_icon (card->kind);
  const char *word = tw_card_kind_word (card->kind);
  g_autofree char *headline = card->is_assumed ? g_strdup_printf (_ ("%s (assumed)"), card->headline) : NULL;
  const char *meaning = card->missing ? card->missing : card->meaning;
  gboolean changed = show_label (self->label, card->label);
  g_autofree char *spoken = NULL, *more = NULL;

  changed |= tw_passage_show (self->headline, card->headline);
  changed |= tw_passage_show (self->meaning, meaning);
  gtk_widget_set_visible (GTK_WIDGET (self->icon), icon != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->meaning), meaning != NULL && meaning[0] != '\0');
  gtk_widget_set_visible (GTK_WIDGET (self->where), card->where != NULL);
  if (icon != NULL)
    gtk_image_set_from_icon_name (self->icon, icon);
  if (!changed)
    return;
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->headline), headline ? _ ("Rests on assumed figures") : NULL);
  spoken = g_strdup_printf ("%s%s%s. %s", word ? word : "", word ? ": " : "",
                            headline ? headline : card->headline, meaning ? meaning : "");
  more = g_strdup_printf (_ ("More on %s"), card->label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, card->label,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, spoken, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->more), GTK_ACCESSIBLE_PROPERTY_LABEL, more, -1);
}

/* A button that adds what is missing, in a window that knows how. */
static void
show_add (TwCardView *self, const TwCard *card)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  gboolean can = card->missing != NULL && card->missing_kind < TW_N_KINDS && G_IS_ACTION_GROUP (root)
                 && g_action_group_has_action (G_ACTION_GROUP (root), "add");
  const TwKindInfo *kind = can ? tw_kind_info (card->missing_kind) : NULL;
  g_autofree char *label = NULL;

  gtk_widget_set_visible (GTK_WIDGET (self->add), can);
  if (!can)
    return;
  /* Translators: a kind of part, such as `port` */
  label = g_strdup_printf (_ ("Add %s"), _ (kind->noun));
  gtk_button_set_label (self->add, label);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (self->add), "s", kind->stem);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->add), "win.add");
}

void
tw_card_view_show (TwCardView *self, const TwCard *card)
{
  TwUnitStyle style = tw_session_style (self->session);

  self->card = card;
  show_head (self, card);
  show_add (self, card);
  tw_card_picture_show (self->picture, card, tw_session_answer (self->session), &style);
  show_rows (self, card);
  show_notes (self, card);
  gtk_widget_set_visible (GTK_WIDGET (self->more), card->rows->len > 0 || card->notes->len > 0);
}

const char *
tw_card_view_id (TwCardView *self)
{
  return self->card != NULL ? self->card->id : NULL;
}

gboolean
tw_card_view_is_open (TwCardView *self)
{
  return gtk_expander_get_expanded (self->more);
}

void
tw_card_view_wake (TwCardView *self)
{
  tw_card_picture_wake (self->picture);
}

/* --- what is new ---------------------------------------------------------------------------------------- */

static void
no_longer_new_cb (gpointer data)
{
  TwCardView *self = data;

  self->fresh_timer = 0;
  g_hash_table_remove_all (self->fresh);
  tw_card_view_mark (self);
}

void
tw_card_view_forget (TwCardView *self)
{
  g_clear_handle_id (&self->fresh_timer, g_source_remove);
  g_hash_table_remove_all (self->fresh);
  g_clear_pointer (&self->settled, g_hash_table_unref);
}

void
tw_card_view_settle (TwCardView *self)
{
  GHashTable *ids = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  gboolean has_new = FALSE;

  for (guint i = 0; self->card != NULL && i < self->card->rows->len; i++) {
    const TwCardRow *row = g_ptr_array_index (self->card->rows, i);

    if (row->kind < TW_ROW_STOP)
      continue;
    g_hash_table_add (ids, g_strdup (row->id));
    if (self->settled != NULL && !g_hash_table_contains (self->settled, row->id))
      has_new |= g_hash_table_add (self->fresh, g_strdup (row->id));
  }
  g_clear_pointer (&self->settled, g_hash_table_unref);
  self->settled = ids;
  if (!has_new)
    return;
  tw_card_view_mark (self);
  g_clear_handle_id (&self->fresh_timer, g_source_remove);
  self->fresh_timer = g_timeout_add_once (NEW_MS, no_longer_new_cb, self);
}
