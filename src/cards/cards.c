/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cards/cards.h"

#include "cards/maker-private.h"

/* A card, and the rooms whose findings concern it. */
static const struct {
  TwCard *(*make) (TwCardMaker *maker);
  TwRooms rooms;
} kinds[] = {
  { tw_card_frontal, TW_ROOM_FRONTAL },
  { tw_card_coverage, TW_ROOM_COVERAGE },
  { tw_card_passes, TW_ROOM_TUBES | TW_ROOM_PASSES | TW_ROOM_HEIGHTS },
  { tw_card_hoses, TW_ROOM_ROUTES },
  { tw_card_fit, TW_ROOM_CLEARANCE },
  { tw_card_findings, (1 << TW_N_ROOMS) - 1 },
  { tw_card_assumed, 0 },
};

/* The worst finding that concerns a card stands on it; a note does not. */
static void
mark_worst (TwCard *card, const TwFindings *findings, TwRooms rooms)
{
  for (guint i = 0; i < tw_findings_count (findings); i++) {
    const TwCheck *check = tw_findings_get (findings, i)->check;

    if ((check->needs & rooms) == 0 || check->severity == TW_SEVERITY_NOTE)
      continue;
    card->kind = check->severity == TW_SEVERITY_STOP ? TW_ROW_STOP : TW_ROW_WARN;
    return;
  }
}

GPtrArray *
tw_cards_new (const TwAnswer *answer, const TwSources *sources, const TwUnitStyle *style)
{
  GPtrArray *cards = g_ptr_array_new_with_free_func ((GDestroyNotify)tw_card_free);
  TwCardMaker maker = { answer, tw_answer_drawing (answer), sources, *style, *style, NULL };

  maker.style.fractions = FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++) {
    TwCard *card = kinds[i].make (&maker);

    mark_worst (card, tw_answer_findings (answer), kinds[i].rooms);
    g_ptr_array_add (cards, card);
  }
  return cards;
}

const TwCard *
tw_cards_find (const GPtrArray *cards, const char *id)
{
  for (guint i = 0; i < cards->len; i++)
    if (g_str_equal (((const TwCard *)g_ptr_array_index (cards, i))->id, id))
      return g_ptr_array_index (cards, i);
  return NULL;
}
