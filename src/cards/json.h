/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * json.h - cards and findings as JSON, for other programs
 *
 * Figures are in base units and their keys end in the unit; ids are stable; nothing is translated or rounded.
 * A figure that is not known is null.
 */
#pragma once

#include "base/json.h"
#include "cards/card.h"

G_BEGIN_DECLS

/* A card: id, figures of the headline, rows by id with parts and figures. (transfer full) */
cJSON *tw_card_json (const TwCard *card) G_GNUC_WARN_UNUSED_RESULT;

/* {"cards": [...]} of several (of TwCard). (transfer full) */
cJSON *tw_cards_json (const GPtrArray *cards) G_GNUC_WARN_UNUSED_RESULT;

/* {"findings": [...], "waiting": [...], "could_not_be_made": [...]}. (transfer full) */
cJSON *tw_findings_json (const TwFindings *findings) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
