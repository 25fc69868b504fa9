/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * span.h - the distance between two places that a person chose in a view
 *
 * Plain data: begin it, choose a place, let the other follow the pointer, choose that. The next place begins
 * anew.
 */
#pragma once

#include "stage/pick.h"

G_BEGIN_DECLS

typedef struct {
  guint n;         /* places that are chosen: 0 to 2 */
  TwPoint ends[2]; /* mm of the view; with one chosen the second follows the pointer */
} TwSpan;

/* With nothing chosen. */
TwSpan tw_span (void);
/* Chooses a place; a third begins anew. */
void tw_span_choose (TwSpan *self, TwPoint at);
/* The pointer moved: the second end follows it while only the first is chosen. */
void tw_span_follow (TwSpan *self, TwPoint at);

/* Straight distance, and its shares: mm of the view, none negative. 0 with nothing chosen. */
double tw_span_length_mm (const TwSpan *self);
double tw_span_across_mm (const TwSpan *self);
double tw_span_up_mm (const TwSpan *self);

/* A corner of what is drawn that is no further than @reach_mm, the nearest of several, else @at itself. */
TwPoint tw_span_corner_near (const TwPick *pick, TwPoint at, double reach_mm);

G_END_DECLS
