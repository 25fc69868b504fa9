/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stage/span.h"

#include <math.h>

TwSpan
tw_span (void)
{
  return (TwSpan){ 0, { { 0.0, 0.0 }, { 0.0, 0.0 } } };
}

void
tw_span_choose (TwSpan *self, TwPoint at)
{
  if (self->n == 2)
    self->n = 0;
  if (self->n == 0)
    self->ends[0] = at;
  self->ends[1] = at;
  self->n++;
}

void
tw_span_follow (TwSpan *self, TwPoint at)
{
  if (self->n == 1)
    self->ends[1] = at;
}

double
tw_span_length_mm (const TwSpan *self)
{
  return self->n > 0 ? tw_point_distance_mm (self->ends[0], self->ends[1]) : 0.0;
}

double
tw_span_across_mm (const TwSpan *self)
{
  return self->n > 0 ? fabs (self->ends[1].x_mm - self->ends[0].x_mm) : 0.0;
}

double
tw_span_up_mm (const TwSpan *self)
{
  return self->n > 0 ? fabs (self->ends[1].y_mm - self->ends[0].y_mm) : 0.0;
}

static void
look_at_part (const TwPick *pick, TwId part, TwPoint at, double *best_mm, TwPoint *corner)
{
  gboolean closed;
  GArray *points;

  for (guint i = 0; (points = tw_pick_outline (pick, part, i, &closed)) != NULL; i++) {
    for (guint k = 0; k < points->len; k++) {
      TwPoint point = g_array_index (points, TwPoint, k);
      double off_mm = tw_point_distance_mm (point, at);

      if (off_mm < *best_mm) {
        *best_mm = off_mm;
        *corner = point;
      }
    }
    g_array_unref (points);
  }
}

TwPoint
tw_span_corner_near (const TwPick *pick, TwPoint at, double reach_mm)
{
  double best_mm = reach_mm;
  TwPoint corner = at;

  for (guint i = 0; i < tw_pick_count (pick); i++) {
    const TwPickShape *shape = tw_pick_get (pick, i);

    if (tw_box_contains (tw_box_grow (shape->box, reach_mm), at))
      look_at_part (pick, shape->part, at, &best_mm, &corner);
  }
  return corner;
}
