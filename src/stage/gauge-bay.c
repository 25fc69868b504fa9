/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * gauge-bay.c - distances to the edges of volumes, straight to the left, right, down and up in the view
 */
#include "stage/gauge-private.h"

#include "stage/extent.h"

#include <math.h>

#define SQUARE 1e-9 /* dimensionless: how far from square on a view may be */

/* What is measured from. */
typedef struct {
  TwGaugeSearch *search;
  TwBox box; /* mm of the view */
  TwId volume;
} From;

/* The part of an edge that lies beside the box (@across: left or right of it), nearest to its side @nth. */
static void
measure_edge (const From *from, TwPoint a, TwPoint b, guint nth)
{
  gboolean across = nth < 2;
  double low_mm = across ? from->box.y0_mm : from->box.x0_mm;
  double high_mm = across ? from->box.y1_mm : from->box.x1_mm;
  double side_mm = nth == 0   ? from->box.x0_mm
                   : nth == 1 ? from->box.x1_mm
                   : nth == 2 ? from->box.y0_mm
                              : from->box.y1_mm;
  double sign = nth % 2 ? 1.0 : -1.0;
  double a_on = across ? a.y_mm : a.x_mm, b_on = across ? b.y_mm : b.x_mm;
  double a_off = across ? a.x_mm : a.y_mm, b_off = across ? b.x_mm : b.y_mm;
  double ends[2] = { CLAMP (a_on, low_mm, high_mm), CLAMP (b_on, low_mm, high_mm) };
  double best_mm = G_MAXDOUBLE, on_mm = 0.0;

  if (MAX (a_on, b_on) < low_mm || MIN (a_on, b_on) > high_mm)
    return;
  for (guint i = 0; i < 2; i++) {
    double share = fabs (b_on - a_on) > 0.0 ? (ends[i] - a_on) / (b_on - a_on) : (double)i;
    double off_mm = sign * (a_off + share * (b_off - a_off) - side_mm);

    if (off_mm > 0.0 && off_mm < best_mm) {
      best_mm = off_mm;
      on_mm = ends[i];
    }
  }
  if (best_mm == G_MAXDOUBLE)
    return;
  best_mm = side_mm + sign * best_mm;
  tw_gauge_take_seen (from->search, nth, across ? (TwPoint){ side_mm, on_mm } : (TwPoint){ on_mm, side_mm },
                      across ? (TwPoint){ best_mm, on_mm } : (TwPoint){ on_mm, best_mm }, from->volume);
}

static void
measure_ring (const From *from, const TwPoint *points, guint n)
{
  for (guint i = 0; i < n; i++)
    for (guint nth = 0; nth < 4; nth++)
      measure_edge (from, points[i], points[(i + 1) % n], nth);
}

static void
measure_outline (const From *from, const TwPlacedVolume *volume)
{
  for (guint i = 0; i < tw_area_n_rings (volume->outline); i++) {
    TwRing ring = tw_area_ring (volume->outline, i);
    g_autofree TwPoint *points = g_new (TwPoint, ring.n_points);

    for (guint k = 0; k < ring.n_points; k++)
      points[k] = tw_stage_view_place (from->search->view,
                                       tw_plane_lift (volume->plane, ring.points[k], volume->from_mm));
    measure_ring (from, points, ring.n_points);
  }
}

static void
measure_box (const From *from, TwBox box)
{
  const TwPoint points[4] = {
    { box.x0_mm, box.y0_mm }, { box.x1_mm, box.y0_mm }, { box.x1_mm, box.y1_mm }, { box.x0_mm, box.y1_mm }
  };

  measure_ring (from, points, 4);
}

void
tw_gauge_bays (TwGaugeSearch *self, TwId part, TwBox box, const double depth_mm[2])
{
  TwVec look = tw_stage_view_depth (self->view);
  gboolean is_axis = MAX (fabs (look.x), MAX (fabs (look.y), fabs (look.z))) > 1.0 - SQUARE;
  const TwPoint zero = { 0.0, 0.0 };
  guint n;
  const TwPlacedVolume *volumes = tw_placement_volumes (self->placement, &n);

  for (guint i = 0; i < n && is_axis; i++) {
    const TwPlacedVolume *volume = &volumes[i];
    From from = { self, box, volume->id };
    double range_mm[2];

    /* what lies before or behind in the view is in nobody's way */
    if (tw_id_equal (volume->id, part)
        || !tw_extent_along (self->placement, volume->id, TW_EXTENT_PART, look, range_mm)
        || range_mm[0] > depth_mm[1] || range_mm[1] < depth_mm[0])
      continue;
    if (fabs (tw_vec_dot (look, tw_plane_lift (volume->plane, zero, 1.0))) > 1.0 - SQUARE)
      measure_outline (&from, volume);
    else
      measure_box (&from, tw_extent_seen (self->placement, self->view, volume->id, TW_EXTENT_PART));
  }
}
