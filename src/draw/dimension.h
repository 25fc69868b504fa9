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

/* Layer of everything written here. */
#define TW_DIMENSION_LAYER "dimension"

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

/* A side of what is measured. */
typedef struct {
  TwBox outline; /* dimension lines keep clear of it; mm on paper */
  TwDimensionSide side;
} TwDimensionEdge;

/* One linear size, between two points of an outline. The side says whether it goes across or up. */
typedef struct {
  TwPoint from, to; /* mm on paper, in any order; they differ along the side */
  const char *text; /* the figure, as it is to be read; auxiliary ones come with their brackets */
  TwId part;        /* part that it measures, or none */
} TwDimension;

/**
 * tw_dimension_stack:
 * @ink: written to; NULL: only find how much room is needed
 *
 * Stacks @dims on one side in tiers, short ones nearest. Figures that do not fit between their extension
 * lines stand beyond one of them, arrows then point in from outside. An extension line that has to pass a
 * dimension line or figure nearer to the part is interrupted there, so that no dimension line is ever
 * crossed.
 *
 * Returns: how far the stack reaches from the outline, mm on paper; 0 for none
 */
double tw_dimension_stack (TwInk *ink,
                           const TwDimensionManner *manner,
                           const TwDimensionEdge *edge,
                           const TwDimension *dims,
                           guint n);

/**
 * tw_dimension_running:
 * @ink: written to; NULL: only find how much room is needed
 * @origin: the datum: its place along the side is 0, a ring marks it
 *
 * Running sizes from one datum: one extension line each, figure at its end and along it, spread so that none
 * overlap; `to` of each is the point, `from` is not read.
 *
 * Returns: how far it reaches from the outline, mm on paper; a negative number and nothing written if the
 * side is too short for them: use a table
 */
double tw_dimension_running (TwInk *ink,
                             const TwDimensionManner *manner,
                             const TwDimensionEdge *edge,
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

/* Radius or diameter leader of a circle: @note's `at` is the centre; the head lies on the circle and points
 * at the centre, from the side @to lies on. */
void tw_dimension_radius (TwInk *ink,
                          const TwDimensionManner *manner,
                          double radius_mm,
                          const TwDimensionNote *note,
                          TwPoint to);

/* Where columns of notes stand; mm on paper. */
typedef struct {
  TwBox view;      /* leaders leave it to the left and right */
  double low_mm;   /* lower end of both columns */
  double high_mm;  /* upper end of both columns */
  double left_mm;  /* texts of the left column end here */
  double right_mm; /* texts of the right column begin here */
} TwDimensionColumns;

/**
 * tw_dimension_notes:
 * @ink: written to; NULL: only find whether and how far they reach
 * @reach_mm: (out) (optional): outer ends of the texts in the left [0] and right [1] column, x in mm on paper
 *
 * Notes in columns left and right of a view with leaders that do not cross each other.
 * Returns: FALSE and nothing written if the columns cannot hold them: use a table
 */
gboolean tw_dimension_notes (TwInk *ink,
                             const TwDimensionManner *manner,
                             const TwDimensionColumns *columns,
                             const TwDimensionNote *notes,
                             guint n,
                             double reach_mm[2]) G_GNUC_WARN_UNUSED_RESULT;

/* Pitch of notes in a column, mm on paper: 1.9 letter heights (ISO 3098, lines with accents). */
double tw_dimension_note_pitch (const TwDimensionManner *manner);

/* Balloon: a text in a ring with the look's note height, centred at @at. */
void tw_dimension_balloon (TwInk *ink,
                           const TwDimensionManner *manner,
                           const TwInkStyle *style,
                           TwPoint at,
                           const char *text);
/* Its radius, mm on paper. */
double tw_dimension_balloon_radius (const TwDimensionManner *manner, const char *text);

G_END_DECLS
