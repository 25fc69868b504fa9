/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * gauge.h - distances from what is held or chosen to its neighbours
 *
 * For the canvas: ask after each movement with the placement of the job as it is now and draw each as a small
 * dimension with its figure. At most four, none of no length.
 */
#pragma once

#include "stage/grip.h"

G_BEGIN_DECLS

#define TW_GAUGE_MOST 4

typedef struct {
  TwPoint from;     /* on what is held: mm of the view */
  TwPoint to;       /* on its neighbour: mm of the view */
  double length_mm; /* true length; longer than what is seen where the view sees it at an angle */
  TwId neighbour;   /* part that it leads to; the part itself for the length of an edge of its own */
} TwGauge;

/**
 * tw_gauge_find:
 * @placement: of the job as it is now
 * @element: of @part that is held (corner, via-point, flap), or none
 * @gauges: (out) (array length=TW_GAUGE_MOST)
 *
 * A baffle: to the ends of its header plate from its middle, and to the nearest tube on either side from its
 * faces; one along the tank: to the tank's walls. A port: to the nearest port of its wall or the tank's end
 * on either side, and to the walls across. A fan: ring to ring, else to the edges of mouth or face. A shroud:
 * to the face's edges; a flap: to the mouth's. A tank: to the ends of the header plate and the next tank, and
 * to what is near. All else: to the nearest edges of volumes that stand in its way, straight in the view. A
 * corner: the lengths of its two edges. Always in the same order for the same job.
 *
 * Returns: how many
 */
guint tw_gauge_find (const TwPlacement *placement,
                     const TwStageView *view,
                     TwId part,
                     TwId element,
                     TwGauge gauges[TW_GAUGE_MOST]);

G_END_DECLS
