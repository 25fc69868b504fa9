/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * text.h - cards as plain text, for the command
 */
#pragma once

#include "cards/card.h"

G_BEGIN_DECLS

/* What of a card is written besides label, headline, meaning and rows. */
typedef enum {
  TW_TEXT_NOTES = 1 << 0, /* definitions that change figures */
  TW_TEXT_WHERE = 1 << 1, /* formula, source and inputs of each figure */
} TwTextParts;

/* A card, its rows aligned; lines end in a newline. (transfer full) */
char *tw_card_text (const TwCard *card, TwTextParts parts) G_GNUC_WARN_UNUSED_RESULT;

/* Several (of TwCard), an empty line between. (transfer full) */
char *tw_cards_text (const GPtrArray *cards, TwTextParts parts) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
