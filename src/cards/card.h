/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * card.h - one card: what a panel, the command, a report and a screen reader say alike
 *
 * Plain data. Texts are translated and rounded in the job's units; figures stand beside them in base units,
 * with keys that name the unit. Every card has the same anatomy: label, headline, one line of meaning, rows.
 */
#pragma once

#include "base/figure.h"
#include "base/units.h"
#include "findings/findings.h"

G_BEGIN_DECLS

/* One figure of a headline or row. */
typedef struct {
  const char
      *key; /* `area_mm2`, `share` (dimensionless): as JSON names it; a constant, the unit in its name */
  TwQuantity quantity;
  TwFigure figure; /* in the quantity's base unit */
} TwCardFigure;

/* What a figure was made from: a field of a part. */
typedef struct {
  TwId part;
  char *label;     /* `Core: face width` */
  char *text;      /* `700 mm` */
  const char *why; /* why it was assumed, translated, not owned; NULL: the user gave it */
} TwCardInput;

/* Where figures come from. */
typedef struct {
  char *id;           /* within its card: rows name it */
  char *formula;      /* in words */
  char *source_id;    /* in data/sources.json */
  char *source_title; /* title, edition and status as people read them; the id when the list was not handed in
                       */
  GPtrArray *inputs;  /* of TwCardInput; never NULL */
} TwCardWhere;

/* What a row is, beside its text. */
typedef enum {
  TW_ROW_PLAIN,
  TW_ROW_HEADING, /* opens the rows that are indented further */
  TW_ROW_PENDING, /* not yet computed by this version, or waiting */
  TW_ROW_STOP,    /* a finding of that severity */
  TW_ROW_WARN,
  TW_ROW_NOTE,
} TwRowKind;

/* One row. */
typedef struct {
  char *id; /* unique in its card and the same from one revision to the next: `shade:core:cross-tube` */
  TwRowKind kind;
  guint indent;        /* 0, 1 or 2 */
  char *label;         /* `Cross tube` */
  char *text;          /* `26 490 mm² = 11.9 %`; empty for some headings */
  char *detail;        /* further words, as a finding's remedy; NULL: none */
  GArray *figures;     /* of TwCardFigure; never NULL */
  GArray *parts;       /* of TwId, what a click chooses; never NULL */
  guint mark;          /* number that names it in the card's picture, from 1; 0: none */
  char *where;         /* id of a TwCardWhere of the card; NULL: none */
  gboolean is_assumed; /* rests on something that the user did not give */
} TwCardRow;

/* One card. */
typedef struct {
  const char *id;      /* `frontal`, `coverage`, `passes`, `hoses`, `fit`, `findings`; a constant */
  char *label;         /* `Free frontal area` */
  char *headline;      /* `86.2 % free`; `–` when there is none */
  GArray *figures;     /* of TwCardFigure: those of the headline; never NULL */
  char *where;         /* of the headline; NULL: none */
  gboolean is_assumed; /* the headline rests on something that the user did not give */
  TwRowKind kind; /* TW_ROW_STOP … when findings concern the card itself, TW_ROW_PENDING without figures */
  char *picture;  /* what the card's picture (draw/picture.h) shows, in words; empty when it has none */
  char *meaning;  /* one line: `31 tubes in two passes, 16 from the top, then 15` */
  char *missing;  /* what is not there yet, when the card has nothing to say; NULL: nothing */
  TwKind missing_kind; /* the kind of part to be added then; TW_N_KINDS: none */
  GPtrArray *rows;     /* of TwCardRow; never NULL */
  GPtrArray *notes;    /* of char *: definitions that change figures; never NULL */
  GPtrArray *wheres;   /* of TwCardWhere; never NULL */
} TwCard;

/* An empty card with label and id; for the rooms of this folder. (transfer full) */
TwCard *tw_card_new (const char *id, const char *label) G_GNUC_WARN_UNUSED_RESULT;
void tw_card_free (TwCard *self);

/* Row or source by id, or NULL. (transfer none) */
const TwCardRow *tw_card_row (const TwCard *self, const char *id);
const TwCardWhere *tw_card_where (const TwCard *self, const char *id);

/* The figure of that key in a list of TwCardFigure, or NULL. (transfer none) */
const TwCardFigure *tw_card_figure (const GArray *figures, const char *key);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwCard, tw_card_free)

G_END_DECLS
