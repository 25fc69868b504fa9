/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * place.h - where figures and names stand so that nothing overlaps, and the proof that nothing does
 *
 * Four ways to place: spread values along one side, stack dimensions in tiers, labels in columns beside a
 * view, labels inside it. The proof does not trust any of them: it reads the ink of the finished page.
 */
#pragma once

#include "draw/ink.h"
#include "draw/look.h"
#include "draw/measure.h"

G_BEGIN_DECLS

/* Clear room round a text, mm on paper. */
#define TW_PLACE_PAD_MM 0.5

/* Layer of the sheet's own frame, zones and marks: the one that may lie outside the frame. */
#define TW_PLACE_FRAME_LAYER "frame"

/* --- along one side ----------------------------------------------------------------------------------------
 */

/**
 * tw_place_spread:
 * @values: rising; replaced by places in the same order, at least @pitch apart
 * @pitch: over 0, in the unit of @values
 *
 * The least sum of squared moves (isotonic regression by pooling adjacent violators; Barlow, Bartholomew,
 * Bremner and Brunk 1972, from memory). Order is kept, so leaders to the places cannot cross.
 */
void tw_place_spread (double *values, guint n, double pitch);

/* The same between @low and @high. FALSE, and nothing changed, if there is no room: use a table. */
gboolean tw_place_spread_between (double *values, guint n, double pitch, double low, double high)
    G_GNUC_WARN_UNUSED_RESULT;

/* --- stacked dimensions ------------------------------------------------------------------------------------
 */

/* One dimension along a side, in any unit of length. */
typedef struct {
  double from, to;           /* what it measures; from < to */
  double text_from, text_to; /* what its figure and arrows cover, clearance included; may reach beyond */
  guint tier;                /* out: 1 is nearest to the part */
} TwPlaceSpan;

/* Gives each its tier: by length, then start, on the lowest tier where it meets no other (open intervals) and
 * above all that it contains. Returns the number of tiers. */
guint tw_place_tiers (TwPlaceSpan *spans, guint n);

/* --- labels beside a view ----------------------------------------------------------------------------------
 */

/* A label in a column left or right of a view, mm on paper. */
typedef struct {
  TwPoint anchor;   /* what it points at */
  double height_mm; /* of the label, clearance included */
  gboolean right;   /* out: which column */
  double y_mm;      /* out: middle of the label */
} TwPlaceLabel;

/**
 * tw_place_columns:
 * @view: labels go left and right of it
 * @low_mm: the columns' lower end
 * @high_mm: the columns' upper end
 *
 * Each label goes to the nearer side, in order of its anchor's height, spread along the column; labels of a
 * column that is full go to the other one; straight leaders that would cross have their labels swapped until
 * none does (boundary labelling: Bekos, Kaufmann, Symvonis and Wolff, Computational Geometry 36(3), 2007).
 * Returns: FALSE if both columns are full: use a table.
 */
gboolean tw_place_columns (TwPlaceLabel *labels, guint n, const TwBox *view, double low_mm, double high_mm)
    G_GNUC_WARN_UNUSED_RESULT;

/* --- the page ----------------------------------------------------------------------------------------------
 */

typedef enum {
  TW_PLACE_TEXT_ON_TEXT,
  TW_PLACE_LINE_THROUGH_TEXT,
  TW_PLACE_DIMENSION_CROSSED,
  TW_PLACE_OUTSIDE,  /* over the frame, or beyond it */
  TW_PLACE_ON_BLOCK, /* on the title block or a table that it does not belong to */
} TwPlaceFault;

/* Two things that meet. Numbers are those of the ink that was taken. */
typedef struct {
  TwPlaceFault fault;
  guint item;  /* the text or dimension line */
  guint other; /* what meets it; G_MAXUINT for the frame, place of the block for blocks */
  TwBox where; /* mm on paper */
} TwPlaceCollision;

typedef struct _TwPlace TwPlace;

/**
 * tw_place_new:
 * @frame: inside of the sheet's frame, mm on paper
 * @look: copied
 * @measure: copied; its data must live longer
 *
 * A page that knows what stands where. (transfer full)
 */
TwPlace *
tw_place_new (const TwBox *frame, const TwLook *look, const TwMeasure *measure) G_GNUC_WARN_UNUSED_RESULT;
void tw_place_free (TwPlace *self);

/* Nothing may stand on @box but ink of @layer. */
void tw_place_add_block (TwPlace *self, const TwBox *box, const char *layer);

/* Takes note of all items of the page's @ink from number @first on: texts, lines, rings; tones and hatches
 * may lie under texts. Coordinates are mm on paper. */
void tw_place_take (TwPlace *self, const TwInk *ink, guint first);

/* Whether a text could stand on @box: no text, no line, no block, inside the frame. A @grounded text brings a
 * paper-coloured ground, so narrow lines and hatches may lie under it. */
gboolean tw_place_is_free (const TwPlace *self, const TwBox *box, gboolean grounded);

/* Whether a leader from @from to @to would cross no text, no dimension line, no other leader and no block. */
gboolean tw_place_is_clear (const TwPlace *self, TwPoint from, TwPoint to);

/**
 * tw_place_label:
 * @at: what the text names
 * @reach_mm: how far its middle may stand from there, at least 0
 * @grounded: as in tw_place_is_free()
 * @place: (inout): its size and turn are given; anchor, across and up are set
 *
 * A free place for @text: with its middle on @at, then in eight places round it, then on further rings of
 * them up to @reach_mm. Returns: FALSE if none is free: use a column.
 */
gboolean tw_place_label (const TwPlace *self,
                         const char *text,
                         TwPoint at,
                         double reach_mm,
                         gboolean grounded,
                         TwInkPlace *place) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_place_check:
 *
 * The proof. A fault is: a text box on another; a line or hatch through a text box; anything that crosses a
 * dimension line between its ends; text or line outside the frame; anything on a block that is not of its
 * layer. Text boxes are as measured, with TW_PLACE_PAD_MM round them towards texts and half of it towards
 * lines. A paper-coloured fill with the leader's pen is the ground of a text: narrow lines (hatch, thin,
 * centre, behind, grid) under it do not count, outlines always do. One with the outline's pen is a part that
 * covers what was written before it. Dashed lines in full ink (baffles in their tanks) are hidden by no text.
 *
 * Returns: (transfer full) (element-type TwPlaceCollision): empty if nothing meets; in order of @item, then
 * @other
 */
GArray *tw_place_check (const TwPlace *self) G_GNUC_WARN_UNUSED_RESULT;

/* One collision in words, for a test or a fault report: `"Ø31.8" is crossed by a leader at 120.5, 80.0`.
 * (transfer full) */
char *tw_place_collision_text (const TwPlace *self,
                               const TwPlaceCollision *collision) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwPlace, tw_place_free)

G_END_DECLS
