/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * figure.h - a figure as the front doors hand it out: with its band, its source and its doubts
 *
 * Solvers work in plain doubles; a figure is made where a result leaves a room. A formula used outside its
 * published range still gives its value, with the flag.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum {
  TW_FIGURE_ASSUMED = 1 << 0,      /* rests on something that the user did not give */
  TW_FIGURE_OUT_OF_RANGE = 1 << 1, /* a formula was used outside its published range */
  TW_FIGURE_NOT_COMPUTED = 1 << 2, /* value, low and high are NaN */
} TwFigureFlags;

/* Value and band are in the unit that the name of the field or function holding the figure ends in. */
typedef struct {
  double value;        /* unit: see above; NaN only when not computed */
  double low;          /* the same unit, at most value */
  double high;         /* the same unit, at least value */
  const char *source;  /* id in data/sources.json, a constant; never NULL */
  TwFigureFlags flags; /* 0: nothing is doubtful */
} TwFigure;

/* What geometry or a definition gives: the band is the value itself, which is finite. */
TwFigure tw_figure_exact (double value, const char *source) G_GNUC_WARN_UNUSED_RESULT;

/* An estimate: all three finite, @low <= @value <= @high. */
TwFigure tw_figure_band (double value, double low, double high, const char *source) G_GNUC_WARN_UNUSED_RESULT;

/* No figure yet: not known from this drawing, or not reckoned by this version. */
TwFigure tw_figure_not_computed (const char *source) G_GNUC_WARN_UNUSED_RESULT;

/* @figure with @flags besides its own: pass on what its inputs carry. A figure that was computed does not
 * become one that was not: without TW_FIGURE_NOT_COMPUTED.
 */
TwFigure tw_figure_flagged (TwFigure figure, TwFigureFlags flags) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
