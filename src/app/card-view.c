/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/card-view.h"

#include "app/card-row.h"
#include "app/label.h"

#include <glib/gi18n-lib.h>

struct _TwCardView {
  GtkWidget parent_instance;

  GtkLabel *label;
  GtkImage *icon;
  GtkLabel *headline;
  GtkMenuButton *where;
  GtkLabel *meaning;
  GtkExpander *more;
  GtkListBox *rows;
  GtkLabel *notes;

  TwSession *session;
  const TwCard *card;
  GPtrArray *ids; /* of char *: rows as they stand */
};

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
  TwId part = tw_card_row_widget_part (TW_CARD_ROW_WIDGET (row));

  if (!tw_id_is_none (part))
    tw_session_select (self->session, part);
}

static void
tw_card_view_dispose (GObject *object)
{
  TwCardView *self = TW_CARD_VIEW (object);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (tw_card_view_parent_class)->dispose (object);
}

static void
tw_card_view_finalize (GObject *object)
{
  g_ptr_array_unref (TW_CARD_VIEW (object)->ids);
  G_OBJECT_CLASS (tw_card_view_parent_class)->finalize (object);
}

static void
tw_card_view_class_init (TwCardViewClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tw_card_view_dispose;
  object_class->finalize = tw_card_view_finalize;

  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/card-view.ui");
  gtk_widget_class_bind_template_child (widget_class, TwCardView, label);
  gtk_widget_class_bind_template_child (widget_class, TwCardView, icon);
  gtk_widget_class_bind_template_child (widget_class, TwCardView, headline);
  gtk_widget_class_bind_template_child (widget_class, TwCardView, where);
  gtk_widget_class_bind_template_child (widget_class, TwCardView, meaning);
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
  self->ids = g_ptr_array_new_with_free_func (g_free);
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

static const char *
row_id (const TwCard *card, guint nth)
{
  return ((const TwCardRow *)g_ptr_array_index (card->rows, nth))->id;
}

/* Rows that stay keep their widgets, since making one costs as much as all figures of a card: only what
 * differs between the rows that begin and those that end alike is made anew. */
static void
match_rows (TwCardView *self, const TwCard *card)
{
  guint n_old = self->ids->len, n_new = card->rows->len, begin = 0, end = 0;

  while (begin < MIN (n_old, n_new)
         && g_str_equal (g_ptr_array_index (self->ids, begin), row_id (card, begin)))
    begin++;
  while (end < MIN (n_old, n_new) - begin
         && g_str_equal (g_ptr_array_index (self->ids, n_old - 1 - end), row_id (card, n_new - 1 - end)))
    end++;
  for (guint i = begin; i + end < n_old; i++) {
    gtk_list_box_remove (self->rows, GTK_WIDGET (gtk_list_box_get_row_at_index (self->rows, (int)begin)));
    g_ptr_array_remove_index (self->ids, begin);
  }
  for (guint i = begin; i + end < n_new; i++) {
    gtk_list_box_insert (self->rows, tw_card_row_widget_new (), (int)i);
    g_ptr_array_insert (self->ids, (int)i, g_strdup (row_id (card, i)));
  }
}

static void
show_rows (TwCardView *self, const TwCard *card)
{
  match_rows (self, card);
  for (guint i = 0; i < card->rows->len; i++)
    tw_card_row_widget_show (TW_CARD_ROW_WIDGET (gtk_list_box_get_row_at_index (self->rows, (int)i)), card,
                             g_ptr_array_index (card->rows, i));
  gtk_widget_set_visible (GTK_WIDGET (self->more), card->rows->len > 0 || card->notes->len > 0);
}

static void
show_notes (TwCardView *self, const TwCard *card)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < card->notes->len; i++)
    g_string_append_printf (text, "%s%s", i ? "\n" : "", (const char *)g_ptr_array_index (card->notes, i));
  tw_label_show (self->notes, text->str);
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
  gboolean changed = tw_label_show (self->label, card->label);
  g_autofree char *spoken = NULL, *more = NULL;

  changed |= tw_label_show (self->headline, card->headline);
  changed |= tw_label_show (self->meaning, meaning);
  gtk_widget_set_visible (GTK_WIDGET (self->icon), icon != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->meaning), meaning != NULL && meaning[0] != '\0');
  gtk_widget_set_visible (GTK_WIDGET (self->where), card->where != NULL);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->headline), headline ? _ ("Rests on assumed figures") : NULL);
  if (icon != NULL)
    gtk_image_set_from_icon_name (self->icon, icon);
  if (!changed)
    return;
  spoken = g_strdup_printf ("%s%s%s. %s", word ? word : "", word ? ": " : "",
                            headline ? headline : card->headline, meaning ? meaning : "");
  more = g_strdup_printf (_ ("More on %s"), card->label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, card->label,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, spoken, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->more), GTK_ACCESSIBLE_PROPERTY_LABEL, more, -1);
}

void
tw_card_view_show (TwCardView *self, const TwCard *card)
{
  self->card = card;
  show_head (self, card);
  show_rows (self, card);
  show_notes (self, card);
}
