/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * dimension.h - sizes, leaders and balloons on a page
 *
 * Drawn after ISO 129-1 for millimetres (figure above the line, read from the bottom or from the right) and
 * in the United States' manner for inches (figures level, in a gap of the line). All coordinates are mm on
 * paper; the figure is text that the caller made from the true value, so scale never enters here.
 */
#pragma once

#include "draw/ink.h"
#include "draw/look.h"
#include "draw/measure.h"

G_BEGIN_DECLS

/* How dimensions are drawn on this page. Make it with tw_dimension_manner(). */
typedef struct {
  gboolean level;           /* all figures level, in a gap of the line (inch jobs); else above it, along it */
  double gap_mm;            /* between outline and extension line: 0 after ISO, 1.5 else */
  double beyond_mm;         /* extension line past its dimension line */
  double first_mm;          /* outline to the first dimension line, at least 10 */
  double next_mm;           /* between dimension lines, at least 6 */
  const TwLook *look;       /* (transfer none) */
  const TwMeasure *measure; /* (transfer none) */
} TwDimensionManner;

/* The manner of a job shown in inches or millimetres; @look and @measure are kept, not owned. */
TwDimensionManner tw_dimension_manner (gboolean inches, const TwLook *look, const TwMeasure *measure);

/* Where the dimensions stand, seen from the outline. */
typedef enum {
  TW_DIMENSION_BELOW,
  TW_DIMENSION_ABOVE,
  TW_DIMENSION_LEFT,
  TW_DIMENSION_RIGHT
} TwDimensionSide;

/* One linear size, between two points of an outline. The side says whether it goes across or up. */
typedef struct {
  TwPoint from, to; /* mm on paper, in any order; they differ along the side */
  const char *text; /* the figure, as it is to be read; auxiliary ones come with their brackets */
  TwId part;        /* part that it measures, or none */
} TwDimension;

/**
 * tw_dimension_stack:
 * @ink: written to; NULL: only find how much room is needed
 * @outline: what the dimensions stand beside; lines keep clear of it
 *
 * Stacks @dims on one side of @outline in tiers, short ones nearest. Figures that do not fit between their
 * extension lines stand beyond one of them, arrows then point in from outside.
 *
 * Returns: how far the stack reaches from the outline, mm on paper
 */
double tw_dimension_stack (TwInk *ink,
                           const TwDimensionManner *manner,
                           TwDimensionSide side,
                           const TwBox *outline,
                           const TwDimension *dims,
                           guint n);

/**
 * tw_dimension_running:
 * @origin: the datum: its place along the side is 0, a ring marks it
 *
 * Running sizes from one datum: one extension line each, figure at its end, spread so that none overlap; `to`
 * of each is the point, `from` is not read.
 *
 * Returns: how far it reaches from the outline, mm on paper; a negative number and nothing written if the
 * side is too short for them: use a table
 */
double tw_dimension_running (TwInk *ink,
                             const TwDimensionManner *manner,
                             TwDimensionSide side,
                             const TwBox *outline,
                             TwPoint origin,
                             const TwDimension *dims,
                             guint n);

/* A note on a leader that starts at a point. */
typedef struct {
  TwPoint at;       /* where it points, mm on paper */
  gboolean on_face; /* ends in a dot inside a face; else in a head on an outline */
  const char *text;
  TwId part;
} TwDimensionNote;

/* One leader: sloped from @at to a short level shoulder that ends before the text, whose near end is at @to.
 */
void
tw_dimension_leader (TwInk *ink, const TwDimensionManner *manner, const TwDimensionNote *note, TwPoint to);

/* Radius or diameter leader of a circle: head on the circle, pointing at its centre, from the side @to lies
 * on. */
void tw_dimension_radius (TwInk *ink,
                          const TwDimensionManner *manner,
                          TwPoint centre,
                          double radius_mm,
                          const TwDimensionNote *note,
                          TwPoint to);

/**
 * tw_dimension_notes:
 * @ink: written to; NULL: only find whether and how far they reach
 * @low_mm: lower end of both columns
 * @high_mm: upper end
 * @reach_mm: (out) (optional): [0] left and [1] right of the outline, mm on paper
 *
 * Notes in columns left and right of @outline with leaders that do not cross.
 * Returns: FALSE and nothing written if the columns cannot hold them: use a table
 */
gboolean tw_dimension_notes (TwInk *ink,
                             const TwDimensionManner *manner,
                             const TwBox *outline,
                             const TwDimensionNote *notes,
                             guint n,
                             double reach_mm[2]);

/* Balloon: a text in a ring with the look's note height, centred at @at. */
void tw_dimension_balloon (TwInk *ink,
                           const TwDimensionManner *manner,
                           const TwInkStyle *style,
                           TwPoint at,
                           const char *text);
/* Its radius, mm on paper. */
double tw_dimension_balloon_radius (const TwDimensionManner *manner, const char *text);

G_END_DECLS
