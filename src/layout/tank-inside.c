/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/tank-inside-private.h"

#include "layout/mouth-private.h"

#include <math.h>

#define MM3_IN_L 1e6

/* The arc of a half-round back in the tank's section: over the whole width, its rise half of that or, in a
 * shallower tank, the depth. Circle over half-chord h and rise s: R = (h² + s²) / 2s. */
typedef struct {
  double across_mm; /* of its centre */
  double off_mm;    /* of its centre, from the header plate, at its crown's own depth 0 */
  double radius_mm; /* inside */
} Back;

double
tw_tank_inside_wall_mm (const TwPlacedTank *tank)
{
  return fmax (tank->wall_mm, 0.0); /* fmax() passes a NaN over */
}

TwBox
tw_tank_inside_box (const TwPlacedTank *tank)
{
  TwBox outside = { tank->w_from_mm, tank->start_mm, tank->w_to_mm, tank->end_mm };

  return tw_box_grow (outside, -tw_tank_inside_wall_mm (tank));
}

static Back
back_of (const TwPlacedTank *tank)
{
  double half = 0.5 * (tank->w_to_mm - tank->w_from_mm), rise = MIN (half, tank->depth_start_mm);
  double radius = (half * half + rise * rise) / (2.0 * rise);

  return (Back){ 0.5 * (tank->w_from_mm + tank->w_to_mm), -radius, radius - tw_tank_inside_wall_mm (tank) };
}

double
tw_tank_inside_depth_mm (const TwPlacedTank *tank, double along_mm, double across_mm)
{
  double depth = tw_placed_tank_depth_mm (tank, along_mm);
  Back back;
  double off;

  if (tank->back != TW_BACK_ROUND)
    return MAX (depth - tw_tank_inside_wall_mm (tank), 0.0);
  back = back_of (tank);
  off = across_mm - back.across_mm;
  return MAX (depth + back.off_mm + sqrt (MAX (back.radius_mm * back.radius_mm - off * off, 0.0)), 0.0);
}

double
tw_tank_inside_reach_across_mm (const TwPlacedTank *tank,
                                double slope,
                                double rise,
                                double from_mm,
                                double to_mm)
{
  Back back;

  if (tank->back != TW_BACK_ROUND || rise <= 0.0)
    return slope > 0.0 ? to_mm : from_mm;
  back = back_of (tank);
  return CLAMP (back.across_mm + back.radius_mm * slope / hypot (slope, rise), from_mm, to_mm);
}

/* Area of the section at @along_mm between two places across. */
static double
section_mm2 (const TwPlacedTank *tank, double along_mm, double from_mm, double to_mm)
{
  double depth = tw_placed_tank_depth_mm (tank, along_mm);
  Back back;
  double from, to, low;

  if (tank->back != TW_BACK_ROUND)
    return MAX (depth - tw_tank_inside_wall_mm (tank), 0.0) * (to_mm - from_mm);
  back = back_of (tank);
  low = depth + back.off_mm;
  from = from_mm - back.across_mm;
  to = to_mm - back.across_mm;
  if (low < 0.0) { /* a shallow arc meets the header plate before the walls */
    double reach = sqrt (MAX (back.radius_mm * back.radius_mm - low * low, 0.0));

    from = CLAMP (from, -reach, reach);
    to = CLAMP (to, -reach, reach);
  }
  return low * (to - from) + tw_mouth_under_arc_mm2 (back.radius_mm, to)
         - tw_mouth_under_arc_mm2 (back.radius_mm, from);
}

double
tw_tank_inside_volume_l (const TwPlacedTank *tank, TwBox box)
{
  double start = section_mm2 (tank, box.y0_mm, box.x0_mm, box.x1_mm);
  double end = section_mm2 (tank, box.y1_mm, box.x0_mm, box.x1_mm);

  return 0.5 * (start + end) * (box.y1_mm - box.y0_mm) / MM3_IN_L; /* the section changes evenly */
}
