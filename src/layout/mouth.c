/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/mouth-private.h"

#include <math.h>

static double
common_mm (double a0, double a1, double b0, double b1)
{
  return MAX (MIN (a1, b1) - MAX (a0, b0), 0.0);
}

double
tw_mouth_under_arc_mm2 (double r, double x)
{
  return 0.5 * (x * sqrt (MAX (r * r - x * x, 0.0)) + r * r * asin (CLAMP (x / r, -1.0, 1.0)));
}

/* ∫ over x0..x1 (within ±r) of @y held between the lower and the upper half of the circle. */
static double
held_mm2 (double r, double y, double x0, double x1)
{
  double top = MIN (fabs (y), r), turns = sqrt (r * r - top * top);
  double left = CLAMP (-turns, x0, x1), right = CLAMP (turns, x0, x1);
  double area = top * (right - left) + tw_mouth_under_arc_mm2 (r, left) - tw_mouth_under_arc_mm2 (r, x0)
                + tw_mouth_under_arc_mm2 (r, x1) - tw_mouth_under_arc_mm2 (r, right);

  return y < 0.0 ? -area : area;
}

/* Area of a circle about the zero point in @box. */
static double
disc_mm2 (double r, TwBox box)
{
  double x0 = CLAMP (box.x0_mm, -r, r), x1 = CLAMP (box.x1_mm, -r, r);

  if (x1 <= x0 || box.y1_mm <= box.y0_mm)
    return 0.0;
  return held_mm2 (r, box.y1_mm, x0, x1) - held_mm2 (r, box.y0_mm, x0, x1);
}

double
tw_mouth_area_mm2 (double height_mm, double width_mm, TwBox box)
{
  double r = height_mm / 2.0, flat = MAX (width_mm - height_mm, 0.0) / 2.0;
  double area = common_mm (-flat, flat, box.x0_mm, box.x1_mm) * common_mm (-r, r, box.y0_mm, box.y1_mm);
  TwBox left = { box.x0_mm + flat, box.y0_mm, MIN (box.x1_mm + flat, 0.0), box.y1_mm };
  TwBox right = { MAX (box.x0_mm - flat, 0.0), box.y0_mm, box.x1_mm - flat, box.y1_mm };

  return area + disc_mm2 (r, left) + disc_mm2 (r, right);
}
