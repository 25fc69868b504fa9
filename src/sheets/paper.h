/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * paper.h - sheets of paper with frame, zones and title block
 *
 * Sizes, zones and centring marks after ISO 5457, fields of the block after ISO 7200, scales after ISO 5455;
 * inch sheets after ASME Y14.1. Not at hand and from memory: borders, margins of inch sheets, 5455's list,
 * proportions of the projection symbol (drawn after, not to be called conforming).
 */
#pragma once

#include "draw/ink.h"
#include "draw/look.h"
#include "draw/measure.h"

G_BEGIN_DECLS

typedef enum {
  TW_PAPER_A4,
  TW_PAPER_A3,
  TW_PAPER_A2,
  TW_PAPER_A1,
  TW_PAPER_A0,
  TW_PAPER_LETTER,  /* ANSI A, 8.5 × 11 in */
  TW_PAPER_TABLOID, /* ANSI B, 11 × 17 in */
  TW_PAPER_C,       /* 17 × 22 in */
  TW_PAPER_D,       /* 22 × 34 in */
  TW_PAPER_E,       /* 34 × 44 in */
  TW_N_PAPERS
} TwPaperSize;

/* A size as it lies on the table: A4 and Letter upright, the others with the long side across. */
typedef struct {
  const char *name;   /* `A3` */
  double width_mm;    /* trimmed */
  double height_mm;   /* trimmed */
  TwBox frame;        /* inside of the frame line, mm from the lower left corner */
  guint zones_across; /* fields along the width; 0: no zones on this size */
  guint zones_up;     /* fields along the height */
  gboolean large;     /* takes the wide pens and tall letters */
} TwPaper;

/* (transfer none) */
const TwPaper *tw_paper (TwPaperSize size);
/* Next larger of the same kind; @size itself for the largest. */
TwPaperSize tw_paper_next (TwPaperSize size);
gboolean tw_paper_find (const char *name, TwPaperSize *size) G_GNUC_WARN_UNUSED_RESULT;

/* How the views of a sheet stand to each other (ISO 5456-2). */
typedef enum { TW_PAPER_FIRST_ANGLE, TW_PAPER_THIRD_ANGLE } TwPaperProjection;

/* What the title block says; NULL members are left open. Everything is (transfer none) and already
 * translated. */
typedef struct {
  const char *owner;
  const char *title;
  const char *subtitle;
  const char *number; /* identification: job, kind of sheet, part letter */
  const char *kind;   /* document type: `Arrangement` */
  const char *creator;
  const char *approver;
  const char *date;      /* of issue, ISO 8601 */
  const char *revision;  /* digest of the job */
  const char *scale;     /* `1:5` */
  const char *units;     /* `mm`, `in` */
  const char *tolerance; /* `ISO 2768-c` */
  const char *caution;   /* `Figures are estimates: see cautions.` or NULL if no computed performance figure
                            stands on it */
  const char *manner;    /* `Drawn after ISO 128, ISO 129` */
  TwPaperProjection projection;
  guint sheet;                                  /* 1 first */
  guint n_sheets;                               /* in the set */
  const char *(*translate) (const char *words); /* for the names of the fields; NULL leaves them English */
} TwPaperTitle;

/* Box that the title block takes with or without a line of caution, mm on paper: 180 wide (a frame that is
 * hardly wider is filled), bottom right
 * inside the frame. */
TwBox tw_paper_title_box (TwPaperSize size, gboolean caution);

/* Layer of everything that tw_paper_draw() writes in the block; frame, zones and marks are on
 * TW_PLACE_FRAME_LAYER. */
#define TW_PAPER_TITLE_LAYER "title"

/* Frame, zones and centring marks alone. */
void tw_paper_draw_frame (TwInk *ink, TwPaperSize size);

/* The title block alone. Texts too long for their field are cut with an ellipsis. */
void tw_paper_draw_title (TwInk *ink, TwPaperSize size, const TwPaperTitle *title, const TwMeasure *measure);

/* Frame, zones, centring marks and title block. Texts too long for their field are cut with an ellipsis. */
void tw_paper_draw (TwInk *ink, TwPaperSize size, const TwPaperTitle *title, const TwMeasure *measure);

/* The projection symbol: frustum and its end view with the middle at @at, for letters @height_mm tall: large
 * diameter and length twice that, small diameter once. Third angle has the circles beside the small end. */
void tw_paper_projection_symbol (TwInk *ink, TwPaperProjection projection, TwPoint at, double height_mm);

/* --- scale -------------------------------------------------------------------------------------------------
 */

/* A scale: drawing : model. */
typedef struct {
  guint drawing;
  guint model;
} TwPaperScale;

/* What a sheet must hold: some lengths shrink with the scale, margins do not. */
typedef struct {
  double model_width_mm;  /* of the views side by side, model mm */
  double model_height_mm; /* of the views over each other */
  double margin_width_mm; /* dimensions, gaps, labels; mm on paper */
  double margin_height_mm;
  double beside_width_mm; /* free width that tables at the side need; 0 none */
} TwPaperNeed;

/**
 * tw_paper_choose:
 * @size: (inout): smallest sheet wanted; what was chosen
 * @largest: the largest one allowed
 * @finest: scale below which the next sheet is taken, such as 1:10
 *
 * The largest scale of ISO 5455 at which all fits above the title block; if that is coarser than @finest the
 * next sheet size, and so on up to @largest. Returns: FALSE if not even 1:100 on the largest sheet holds it
 */
gboolean tw_paper_choose (const TwPaperNeed *need,
                          TwPaperSize *size,
                          TwPaperSize largest,
                          TwPaperScale finest,
                          TwPaperScale *scale) G_GNUC_WARN_UNUSED_RESULT;

/* `1:5`, `2:1`. (transfer full) */
char *tw_paper_scale_text (TwPaperScale scale) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
