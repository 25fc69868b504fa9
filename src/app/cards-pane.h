/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * cards-pane.h - all cards of the answer, one under the other, always in the same order
 */
#pragma once

#include <gtk/gtk.h>

#include "app/session.h"

G_BEGIN_DECLS

#define TW_TYPE_CARDS_PANE (tw_cards_pane_get_type ())
G_DECLARE_FINAL_TYPE (TwCardsPane, tw_cards_pane, TW, CARDS_PANE, GtkWidget)

/* Once, before it is shown. @settings (nullable) keep which cards are open from one start to the next. */
void tw_cards_pane_set_session (TwCardsPane *self, TwSession *session, GSettings *settings);

/* Brings a card into view; an id that there is not does nothing. */
void tw_cards_pane_reveal (TwCardsPane *self, const char *id);

G_END_DECLS
