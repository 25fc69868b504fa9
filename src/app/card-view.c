/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/card-view.h"

#include "app/card-row.h"
#include "app/passage.h"

#include <glib/gi18n-lib.h>

struct _TwCardView {
  GtkWidget parent_instance;

  GtkLabel *label;
  GtkImage *icon;
  TwPassage *headline;
  GtkMenuButton *where;
  TwPassage *meaning;
  GtkExpander *more;
  GtkListBox *rows;
  TwPassage *notes;

  TwSession *session;
  const TwCard *card;
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

static gboolean
show_label (GtkLabel *label, const char *text)
{
  if (g_str_equal (gtk_label_get_text (label), text))
    return FALSE;
  gtk_label_set_text (label, text);
  return TRUE;
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
}

static void
opened_cb (TwCardView *self)
{
  if (self->card != NULL)
    show_rows (self, self->card);
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
tw_card_view_class_init (TwCardViewClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tw_card_view_dispose;
  g_type_ensure (TW_TYPE_PASSAGE);

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

void
tw_card_view_show (TwCardView *self, const TwCard *card)
{
  self->card = card;
  show_head (self, card);
  show_rows (self, card);
  show_notes (self, card);
  gtk_widget_set_visible (GTK_WIDGET (self->more), card->rows->len > 0 || card->notes->len > 0);
}
