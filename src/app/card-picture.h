/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * card-picture.h - the small picture of any card, on a strip of paper
 *
 * Keeps its height whatever is drawn. Nothing is drawn while it is scrolled out of sight, nor painted again
 * while it looks the same.
 */
#pragma once

#include <gtk/gtk.h>

#include "answer/answer.h"
#include "cards/card.h"

G_BEGIN_DECLS

#define TW_TYPE_CARD_PICTURE (tw_card_picture_get_type ())
G_DECLARE_FINAL_TYPE (TwCardPicture, tw_card_picture, TW, CARD_PICTURE, GtkWidget)

/* Shows the picture of @card, or hides when it has none; @answer is counted. */
void tw_card_picture_show (TwCardPicture *self,
                           const TwCard *card,
                           const TwAnswer *answer,
                           const TwUnitStyle *style);

/* Has come into sight, perhaps: draws what it has missed. */
void tw_card_picture_wake (TwCardPicture *self);

/* How often it was painted anew; for tests of the cost. */
guint tw_card_picture_n_painted (TwCardPicture *self);

G_END_DECLS
