/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * tank-inside-private.h - the room in a tank
 *
 * Folds are taken as sharp; of a half-round back the inside is an arc about the outside's centre, smaller by
 * the wall. An unknown wall is none.
 */
#pragma once

#include "layout/placement.h"

G_BEGIN_DECLS

/* Thickness of the wall, 0 when it is not known. */
double tw_tank_inside_wall_mm (const TwPlacedTank *tank);

/* x across (w, from the face), y along the header; empty when the walls leave nothing. */
TwBox tw_tank_inside_box (const TwPlacedTank *tank);

/* From the header plate to the inside of the back, never negative. */
double tw_tank_inside_depth_mm (const TwPlacedTank *tank, double along_mm, double across_mm);

/* The place across, between @from_mm and @to_mm, at which (@slope · across + @rise · depth) is greatest.
 * @rise and
 * @slope are dimensionless. */
double tw_tank_inside_reach_across_mm (const TwPlacedTank *tank,
                                       double slope,
                                       double rise,
                                       double from_mm,
                                       double to_mm);

/* Room within @box (x across, y along; inside the walls), in litres. */
double tw_tank_inside_volume_l (const TwPlacedTank *tank, TwBox box);

G_END_DECLS
