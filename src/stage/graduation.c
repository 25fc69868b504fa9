/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stage/graduation.h"

#include <math.h>

#define INCH_MM 25.4

/* A distance between figures in inches, and into how many parts it may be divided, most first. */
typedef struct {
  double figure_in; /* inches */
  guint parts[5];   /* ends with 0 */
} Division;

static const Division by_halves[] = {
  { 1.0 / 64, { 0 } },         { 1.0 / 32, { 2, 0 } },          { 1.0 / 16, { 4, 2, 0 } },
  { 1.0 / 8, { 8, 4, 2, 0 } }, { 1.0 / 4, { 16, 8, 4, 2, 0 } }, { 1.0 / 2, { 16, 8, 4, 2, 0 } },
};

static const Division by_inches[] = {
  { 1, { 16, 8, 4, 2, 0 } },  { 2, { 16, 8, 4, 2, 0 } },   { 3, { 24, 12, 6, 3, 0 } },
  { 6, { 24, 12, 6, 2, 0 } }, { 12, { 24, 12, 4, 2, 0 } },
};

/* Parts of a step of 1, 2 or 5. */
static const guint parts_of_ten[3][5] = { { 10, 5, 2, 0 }, { 10, 4, 2, 0 }, { 10, 5, 0 } };

static guint
most_parts (const guint *parts, double figure_px, double tick_px)
{
  for (; *parts > 0; parts++)
    if (figure_px / *parts >= tick_px)
      return *parts;
  return 1;
}

/* The least of 1, 2, 5, 10, 20 … times @unit_mm that is no less than @least_mm. */
static TwGraduation
by_tens (double unit_mm, double least_mm, double px_mm, double tick_px)
{
  static const double firsts[3] = { 1.0, 2.0, 5.0 };
  double power = floor (log10 (least_mm / unit_mm)), figure_mm;
  guint i = 0;

  while ((figure_mm = firsts[i] * pow (10.0, power) * unit_mm) < least_mm) {
    i = (i + 1) % 3;
    power += i == 0 ? 1.0 : 0.0;
  }
  return (TwGraduation){ figure_mm, most_parts (parts_of_ten[i], figure_mm * px_mm, tick_px),
                         (int)MAX (-power, 0.0) };
}

static gboolean
find (const Division *divisions, guint n, const double asked[3], TwGraduation *found)
{
  for (guint i = 0; i < n; i++) {
    double figure_mm = divisions[i].figure_in * INCH_MM;

    if (figure_mm < asked[0])
      continue;
    *found = (TwGraduation){ figure_mm, most_parts (divisions[i].parts, figure_mm * asked[1], asked[2]), 0 };
    return TRUE;
  }
  return FALSE;
}

TwGraduation
tw_graduation (double px_mm, const TwUnitStyle *style, double figure_px, double tick_px)
{
  const double asked[3] = { figure_px / px_mm, px_mm, tick_px };
  TwGraduation found;

  if (!style->inches)
    return by_tens (1.0, asked[0], px_mm, tick_px);
  if (style->fractions && find (by_halves, G_N_ELEMENTS (by_halves), asked, &found))
    return found;
  if (!style->fractions && asked[0] <= 0.5 * INCH_MM)
    return by_tens (INCH_MM, asked[0], px_mm, tick_px);
  if (find (by_inches, G_N_ELEMENTS (by_inches), asked, &found))
    return found;
  found = by_tens (12.0 * INCH_MM, asked[0], px_mm, tick_px);
  found.decimals = 0; /* whole inches */
  return found;
}

double
tw_graduation_first (double from_mm, double step_mm)
{
  return ceil (from_mm / step_mm - 1e-9);
}
