/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * maker-private.h - how the cards of this folder are put together
 */
#pragma once

#include "answer/answer.h"
#include "base/source.h"
#include "cards/card.h"

G_BEGIN_DECLS

/* One card being made. */
typedef struct {
  const TwAnswer *answer;
  const TwDrawing *drawing; /* of the answer */
  const TwSources *sources; /* NULL: sources are shown by id */
  TwUnitStyle style;        /* for computed figures: inches as decimals */
  TwUnitStyle typed_style;  /* for figures that a person gave */
  TwCard *card;
} TwCardMaker;

/* The cards, each in its file. */
TwCard *tw_card_frontal (TwCardMaker *maker) G_GNUC_WARN_UNUSED_RESULT;
TwCard *tw_card_coverage (TwCardMaker *maker) G_GNUC_WARN_UNUSED_RESULT;
TwCard *tw_card_passes (TwCardMaker *maker) G_GNUC_WARN_UNUSED_RESULT;
TwCard *tw_card_hoses (TwCardMaker *maker) G_GNUC_WARN_UNUSED_RESULT;
TwCard *tw_card_fit (TwCardMaker *maker) G_GNUC_WARN_UNUSED_RESULT;
TwCard *tw_card_findings (TwCardMaker *maker) G_GNUC_WARN_UNUSED_RESULT;
TwCard *tw_card_assumed (TwCardMaker *maker) G_GNUC_WARN_UNUSED_RESULT;

/* A figure with its unit, rounded to what drawings are good for. (transfer full) */
char *tw_maker_text (const TwCardMaker *self, TwQuantity quantity, double value) G_GNUC_WARN_UNUSED_RESULT;
/* `26 600 mm² = 11.9 %`. (transfer full) */
char *tw_maker_area (const TwCardMaker *self, double area_mm2, double share) G_GNUC_WARN_UNUSED_RESULT;
/* A field of a part as people read it, without the part's name. (transfer full) */
char *
tw_maker_field_text (const TwCardMaker *self, const TwPart *part, guint field) G_GNUC_WARN_UNUSED_RESULT;
/* Name of a part, else its id; `–` when there is none. (transfer none) */
const char *tw_maker_name (const TwCardMaker *self, TwId part);

/* Opens the card on hand. */
void tw_maker_begin (TwCardMaker *self, const char *id, const char *label);
/* Marks what rests on assumed inputs and closes the card: the card. (transfer full) */
TwCard *tw_maker_end (TwCardMaker *self) G_GNUC_WARN_UNUSED_RESULT;

/* What the card says when it has nothing to say; @kind: of the part to be added, TW_N_KINDS none. */
void tw_maker_missing (TwCardMaker *self, const char *what, TwKind kind);
/* The headline's text (transfer full). */
void tw_maker_headline (TwCardMaker *self, char *text);
/* A figure of the headline; NaN: not computed. */
void tw_maker_headline_figure (TwCardMaker *self,
                               const char *key,
                               TwQuantity quantity,
                               double value,
                               const char *source);
/* What the picture shows: @sentence (transfer full) goes behind what is there already. */
void tw_maker_picture (TwCardMaker *self, char *sentence);
/* A definition that changes figures. */
void tw_maker_note (TwCardMaker *self, const char *text);

/* A row `@id:@part`, or `@id` when @part is none; the part is what a click chooses. Takes @text (may be
 * NULL). Valid as long as the card. */
TwCardRow *tw_maker_row (TwCardMaker *self, const char *id, TwId part, const char *label, char *text);
/* A row that opens those that are indented further. */
TwCardRow *tw_maker_heading (TwCardMaker *self, const char *id, TwId part, const char *label);
/* A row that reads `not yet computed`. */
TwCardRow *tw_maker_pending (TwCardMaker *self, const char *id, TwId part, const char *label);

/* Adds to a row: a figure for machines to read, and a further part that a click chooses. */
void tw_row_figure (TwCardRow *self, const char *key, TwQuantity quantity, double value, const char *source);
void tw_row_also (TwCardRow *self, TwId part);

/* Where figures come from; `@id:@part`. @formula is translated. */
TwCardWhere *
tw_maker_where (TwCardMaker *self, const char *id, TwId part, const char *formula, const char *source);
/* A field that went in; unknown ones too. */
void tw_maker_input (const TwCardMaker *self, TwCardWhere *where, TwId part, guint field);
/* Makes @where that of @row. */
void tw_row_where (TwCardRow *row, const TwCardWhere *where);

G_END_DECLS
