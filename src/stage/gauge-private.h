/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * gauge-private.h - how the files of stage/gauge say what is how far away
 */
#pragma once

#include "stage/gauge.h"

G_BEGIN_DECLS

/* The nearest found so far in each of four places. */
typedef struct {
  const TwPlacement *placement;
  const TwStageView *view;
  gboolean is_found[TW_GAUGE_MOST];
  TwGauge found[TW_GAUGE_MOST];
} TwGaugeSearch;

/* Takes a distance between two places of the job, or of the view, for place @nth when it is the nearest there
 * and has a length that is seen. */
void tw_gauge_take (TwGaugeSearch *self, guint nth, TwVec from, TwVec to, TwId neighbour);
void tw_gauge_take_seen (TwGaugeSearch *self, guint nth, TwPoint from, TwPoint to, TwId neighbour);

/* The same with the place by the way that it goes in the view: left, right, down, up. */
void tw_gauge_offer (TwGaugeSearch *self, TwVec from, TwVec to, TwId neighbour);

/* Parts in tanks, parts on the face; they do nothing for parts of another kind. */
void tw_gauge_tanks (TwGaugeSearch *self, TwId part);
void tw_gauge_faces (TwGaugeSearch *self, TwId part, TwId element);
/* From a box of the view, seen of @part, to the edges of volumes; @depth_mm: its range along the way of
 * looking. */
void tw_gauge_bays (TwGaugeSearch *self, TwId part, TwBox box, const double depth_mm[2]);

G_END_DECLS
