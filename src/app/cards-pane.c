/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cards-pane.h"

#include "app/pane-layout.h"

#include "app/card-view.h"
#include "cards/cards.h"

struct _TwCardsPane {
  GtkWidget parent_instance;

  GtkScrolledWindow *scroller;
  GtkBox *box;

  TwSession *session;
  GPtrArray *views; /* of TwCardView, owned by the box, in the order of the cards */
};

G_DEFINE_FINAL_TYPE (TwCardsPane, tw_cards_pane, GTK_TYPE_WIDGET)

static void
show_cards (TwCardsPane *self)
{
  const GPtrArray *cards = tw_session_cards (self->session);

  for (guint i = 0; cards != NULL && i < cards->len; i++) {
    const TwCard *card = g_ptr_array_index (cards, i);

    if (i == self->views->len) {
      GtkWidget *view = tw_card_view_new (self->session, g_str_equal (card->id, "findings"));

      gtk_box_append (self->box, view);
      g_ptr_array_add (self->views, view);
    }
    tw_card_view_show (g_ptr_array_index (self->views, i), card);
  }
}

static void
tw_cards_pane_dispose (GObject *object)
{
  TwCardsPane *self = TW_CARDS_PANE (object);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (tw_cards_pane_parent_class)->dispose (object);
}

static void
tw_cards_pane_finalize (GObject *object)
{
  g_ptr_array_unref (TW_CARDS_PANE (object)->views);
  G_OBJECT_CLASS (tw_cards_pane_parent_class)->finalize (object);
}

static void
tw_cards_pane_class_init (TwCardsPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tw_cards_pane_dispose;
  G_OBJECT_CLASS (klass)->finalize = tw_cards_pane_finalize;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/cards-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, TwCardsPane, scroller);
  gtk_widget_class_bind_template_child (widget_class, TwCardsPane, box);
  gtk_widget_class_set_layout_manager_type (widget_class, TW_TYPE_PANE_LAYOUT);
}

static void
tw_cards_pane_init (TwCardsPane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->views = g_ptr_array_new ();
}

void
tw_cards_pane_set_session (TwCardsPane *self, TwSession *session)
{
  g_return_if_fail (self->session == NULL);

  self->session = g_object_ref (session);
  g_signal_connect_object (session, "job-changed", G_CALLBACK (show_cards), self, G_CONNECT_SWAPPED);
  show_cards (self);
}

void
tw_cards_pane_reveal (TwCardsPane *self, const char *id)
{
  const GPtrArray *cards = tw_session_cards (self->session);

  for (guint i = 0; i < self->views->len; i++) {
    const TwCard *card = g_ptr_array_index (cards, i);
    GtkWidget *view = g_ptr_array_index (self->views, i);
    graphene_point_t at;

    if (g_str_equal (card->id, id)
        && gtk_widget_compute_point (view, GTK_WIDGET (self->box), &GRAPHENE_POINT_INIT (0.0F, 0.0F), &at))
      gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (self->scroller), (double)at.y);
  }
}
