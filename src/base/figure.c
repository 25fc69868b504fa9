/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/figure.h"

#include <math.h>

TwFigure
tw_figure_exact (double value, const char *source)
{
  return tw_figure_band (value, value, value, source);
}

TwFigure
tw_figure_band (double value, double low, double high, const char *source)
{
  g_assert (source != NULL);
  g_assert (isfinite (low) && isfinite (high) && low <= value && value <= high);
  return (TwFigure){ .value = value, .low = low, .high = high, .source = source };
}

TwFigure
tw_figure_not_computed (const char *source)
{
  g_assert (source != NULL);
  return (
      TwFigure){ .value = NAN, .low = NAN, .high = NAN, .source = source, .flags = TW_FIGURE_NOT_COMPUTED };
}

TwFigure
tw_figure_flagged (TwFigure figure, TwFigureFlags flags)
{
  g_assert ((flags & TW_FIGURE_NOT_COMPUTED) == 0 || isnan (figure.value));
  figure.flags |= flags;
  return figure;
}
