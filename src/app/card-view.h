/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * card-view.h - any card: label, headline, one line of meaning, rows behind a disclosure
 *
 * One widget for all of them. Figures change in place: rows are made anew only when others come or go.
 */
#pragma once

#include <gtk/gtk.h>

#include "app/session.h"
#include "cards/card.h"

G_BEGIN_DECLS

#define TW_TYPE_CARD_VIEW (tw_card_view_get_type ())
G_DECLARE_FINAL_TYPE (TwCardView, tw_card_view, TW, CARD_VIEW, GtkWidget)

/* A click on a row chooses its first part in @session. @is_open: rows are shown from the start. */
GtkWidget *tw_card_view_new (TwSession *session, gboolean is_open);

/* Shows @card, which must stay until the next call. */
void tw_card_view_show (TwCardView *self, const TwCard *card);

G_END_DECLS
