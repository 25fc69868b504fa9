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
  GSettings *settings; /* NULL: nothing is kept from one start to the next */
  GPtrArray *views;    /* of TwCardView, owned by the box, in the order of the cards */
};

G_DEFINE_FINAL_TYPE (TwCardsPane, tw_cards_pane, GTK_TYPE_WIDGET)

static void
keep_open_cb (TwCardsPane *self)
{
  g_autoptr (GStrvBuilder) open = g_strv_builder_new ();
  g_auto (GStrv) ids = NULL;

  if (self->settings == NULL)
    return;
  for (guint i = 0; i < self->views->len; i++) {
    TwCardView *view = g_ptr_array_index (self->views, i);

    if (tw_card_view_id (view) != NULL && tw_card_view_is_open (view))
      g_strv_builder_add (open, tw_card_view_id (view));
  }
  ids = g_strv_builder_end (open);
  g_settings_set_strv (self->settings, "open-cards", (const char *const *)ids);
}

static gboolean
was_open (TwCardsPane *self, const char *id)
{
  g_auto (GStrv) open = NULL;

  if (self->settings == NULL)
    return g_str_equal (id, "findings");
  open = g_settings_get_strv (self->settings, "open-cards");
  return g_strv_contains ((const char *const *)open, id);
}

/* Once a change is over: a drag says so by its name in the history. */
static void
settle_cb (TwCardsPane *self)
{
  if (!tw_session_has_job (self->session) || tw_history_is_open (tw_session_history (self->session)))
    return;
  for (guint i = 0; i < self->views->len; i++)
    tw_card_view_settle (g_ptr_array_index (self->views, i));
}

static void
forget_cb (TwCardsPane *self)
{
  for (guint i = 0; i < self->views->len; i++)
    tw_card_view_forget (g_ptr_array_index (self->views, i));
}

static void
selection_changed_cb (TwCardsPane *self)
{
  for (guint i = 0; i < self->views->len; i++)
    tw_card_view_mark (g_ptr_array_index (self->views, i));
}

static void
scrolled_cb (TwCardsPane *self)
{
  for (guint i = 0; i < self->views->len; i++)
    tw_card_view_wake (g_ptr_array_index (self->views, i));
}

static void
show_cards (TwCardsPane *self)
{
  const GPtrArray *cards = tw_session_cards (self->session);

  for (guint i = 0; cards != NULL && i < cards->len; i++) {
    const TwCard *card = g_ptr_array_index (cards, i);

    if (i == self->views->len) {
      GtkWidget *view = tw_card_view_new (self->session, was_open (self, card->id));

      g_signal_connect_object (view, "notify::open", G_CALLBACK (keep_open_cb), self, G_CONNECT_SWAPPED);
      gtk_box_append (self->box, view);
      g_ptr_array_add (self->views, view);
    }
    tw_card_view_show (g_ptr_array_index (self->views, i), card);
  }
  settle_cb (self);
}

static void
tw_cards_pane_dispose (GObject *object)
{
  TwCardsPane *self = TW_CARDS_PANE (object);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&self->session);
  g_clear_object (&self->settings);
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
tw_cards_pane_set_session (TwCardsPane *self, TwSession *session, GSettings *settings)
{
  GtkAdjustment *scroll = gtk_scrolled_window_get_vadjustment (self->scroller);

  g_return_if_fail (self->session == NULL);

  self->session = g_object_ref (session);
  g_set_object (&self->settings, settings);
  g_signal_connect_object (session, "job-replaced", G_CALLBACK (forget_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "notify::undo-label", G_CALLBACK (settle_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "selection-changed", G_CALLBACK (selection_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (scroll, "value-changed", G_CALLBACK (scrolled_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (scroll, "changed", G_CALLBACK (scrolled_cb), self, G_CONNECT_SWAPPED);
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
