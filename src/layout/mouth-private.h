/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * mouth-private.h - how much of a tube's mouth lies in a rectangle
 *
 * A mouth has flat sides and round ends: a rectangle between two half circles. Closed forms, no polygons.
 */
#pragma once

#include "base/geom.h"

G_BEGIN_DECLS

/* ∫ √(r² − x²) dx from 0 to @x, |x| ≤ r: the area under an upper half circle, in mm². */
double tw_mouth_under_arc_mm2 (double r, double x);

/**
 * tw_mouth_area_mm2:
 * @height_mm: across its flat sides, positive, along y
 * @width_mm: over its round ends, not less than the height, along x
 * @box: a rectangle, seen from the middle of the mouth
 *
 * Area that the mouth and @box have in common; (w − h)·h + π·h²/4 when all of the mouth lies in it.
 */
double tw_mouth_area_mm2 (double height_mm, double width_mm, TwBox box);

G_END_DECLS
