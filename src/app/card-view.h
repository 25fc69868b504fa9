/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * card-view.h - any card: label, headline, picture, one line of meaning, rows behind a disclosure
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

/* Properties (notify): `open`: whether the rows are shown. */

/* A click on a row chooses its parts in @session. @is_open: rows are shown from the start. */
GtkWidget *tw_card_view_new (TwSession *session, gboolean is_open);

/* Shows @card, which must stay until the next call. */
void tw_card_view_show (TwCardView *self, const TwCard *card);

/* Id of the card that it shows; NULL: none yet. (transfer none) */
const char *tw_card_view_id (TwCardView *self);
gboolean tw_card_view_is_open (TwCardView *self);

/* Has come into sight, perhaps. */
void tw_card_view_wake (TwCardView *self);

/* Marks the rows of the parts that are chosen now. */
void tw_card_view_mark (TwCardView *self);

/* A change is over: findings that were not there when the last one was are marked for a while. */
void tw_card_view_settle (TwCardView *self);
/* Another job: nothing of it is new. */
void tw_card_view_forget (TwCardView *self);

G_END_DECLS
