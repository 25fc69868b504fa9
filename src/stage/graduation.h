/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * graduation.h - how a ruler beside a view is divided
 *
 * Millimetres by 1, 2 and 5 times a power of ten. Inches by halves down to 1/64, from an inch on by 1, 2, 3,
 * 6 and 12 in and then by feet times 1, 2, 5 and powers of ten; shown as decimals by 1, 2 and 5 below an
 * inch.
 */
#pragma once

#include "base/units.h"

G_BEGIN_DECLS

typedef struct {
  double figure_mm; /* from one figure to the next: over 0 */
  guint n_ticks;    /* parts into which that is divided: at least 1 */
  int decimals;     /* of a figure, as tw_units_format_number() takes them */
} TwGraduation;

/* @px_mm: pixels a millimetre, over 0. Figures stand at least @figure_px apart, ticks at least @tick_px. */
TwGraduation tw_graduation (double px_mm, const TwUnitStyle *style, double figure_px, double tick_px);

/* The first multiple of @step_mm that is no less than @from_mm, as a count of steps. */
double tw_graduation_first (double from_mm, double step_mm);

G_END_DECLS
