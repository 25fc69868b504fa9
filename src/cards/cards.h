/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * cards.h - all cards of an answer, in their fixed order
 */
#pragma once

#include "answer/answer.h"
#include "base/source.h"
#include "cards/card.h"

G_BEGIN_DECLS

/**
 * tw_cards_new:
 * @answer: not kept
 * @sources: (nullable): titles for where figures come from
 * @style: units of the texts: tw_job_unit_style(), with the decimal sign that the reader expects
 *
 * Free frontal area, Fan coverage, Pass layout, Hose routing, Fit, Findings, Assumed.
 *
 * Returns: (transfer full) (element-type TwCard): never NULL; frees its cards
 */
GPtrArray *tw_cards_new (const TwAnswer *answer,
                         const TwSources *sources,
                         const TwUnitStyle *style) G_GNUC_WARN_UNUSED_RESULT;

/* The card of that id, or NULL. (transfer none) */
const TwCard *tw_cards_find (const GPtrArray *cards, const char *id);

G_END_DECLS
