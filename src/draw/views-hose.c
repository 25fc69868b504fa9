/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * views-hose.c - hose runs as double lines with their centreline and numbered bends
 */
#include "draw/views-private.h"

#include <math.h>

/* Longest step along a bend that becomes straight. */
#define STEP_RAD (G_PI / 36)

/* Bends that turn less than this are not numbered. */
#define NUMBERED_RAD (G_PI / 180)

static void
append_point (const TwViewHand *hand, GArray *points, TwVec at)
{
  TwPoint point = tw_view_point (hand, at);

  if (points->len > 0
      && tw_point_distance_mm (point, g_array_index (points, TwPoint, points->len - 1)) < 1e-6)
    return;
  g_array_append_val (points, point);
}

/* The centreline as it is seen; legs that go along the eye's way are one point. */
static GArray *
centreline (const TwViewHand *hand, const TwRoute *route)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (TwPoint));

  append_point (hand, points, route->pieces[0].from);
  for (guint i = 0; i < route->n_pieces; i++) {
    const TwRoutePiece *piece = &route->pieces[i];
    guint n = piece->kind == TW_ROUTE_BEND && piece->radius_mm > 0
                  ? MAX (1, ceil (piece->angle_rad / STEP_RAD))
                  : 1;

    for (guint k = 1; k <= n; k++)
      append_point (hand, points, k == n ? piece->to : tw_route_piece_point (piece, (double)k / n));
  }
  return points;
}

static double
outside_of (const TwViewHand *hand, TwId id)
{
  const TwHose *hose = (const TwHose *)tw_drawing_find (tw_placement_drawing (hand->source->placement), id);

  return isnan (hose->wall_mm) ? hose->bore_mm : hose->bore_mm + 2 * hose->wall_mm;
}

static void
draw_walls (const TwViewHand *hand, const GArray *points, double outside_mm, const TwInkStyle *style)
{
  const TwPoint *first = (const TwPoint *)(gconstpointer)points->data;
  TwArea *area = points->len > 1
                     ? tw_area_new_strip (hand->source->geos, first, points->len, outside_mm / 2, FALSE)
                     : tw_area_new_circle (hand->source->geos, first[0], outside_mm / 2);
  g_autoptr (GArray) corners = tw_view_area_corners (area);
  TwInkStyle ground = *style;

  ground.tint = TW_INK_TINT_PAPER;
  if (corners->len >= 3)
    tw_ink_fill (hand->ink, &ground, (TwInkCorner *)(gpointer)corners->data, corners->len);
  tw_view_area (hand, area, style);
  tw_area_unref (area);
}

static void
draw_middle (const TwViewHand *hand, const GArray *points, const TwInkStyle *style)
{
  g_autofree TwInkCorner *corners = g_new0 (TwInkCorner, points->len);

  for (guint i = 0; i < points->len; i++)
    corners[i].at = g_array_index (points, TwPoint, i);
  if (points->len > 1)
    tw_ink_path (hand->ink, style, corners, points->len, FALSE);
}

/* Number of the run, from 1; 0 when it is the only one. */
static guint
run_of (const TwViewHand *hand, const TwRoute *route)
{
  guint n = tw_routes_count (hand->source->routes);

  for (guint i = 0; i < n && n > 1; i++)
    if (tw_routes_get (hand->source->routes, i) == route)
      return i + 1;
  return 0;
}

static void
want_numbers (const TwViewHand *hand, const TwRoute *route, double outside_mm)
{
  guint run = run_of (hand, route);

  for (guint i = 0; i < route->n_pieces; i++) {
    const TwRoutePiece *piece = &route->pieces[i];

    if (piece->kind == TW_ROUTE_BEND && piece->angle_rad > NUMBERED_RAD)
      tw_view_label (
          hand, TW_VIEW_LABEL_BEND, route->hose, tw_view_point (hand, tw_route_piece_point (piece, 0.5)),
          isnan (outside_mm) ? 0 : outside_mm / 2,
          run > 0 ? g_strdup_printf ("%u.%u", run, piece->bend) : g_strdup_printf ("%u", piece->bend));
  }
}

void
tw_view_draw_hose (const TwViewHand *hand, const TwRoute *route)
{
  TwInkStyle edge
      = tw_view_style (hand, TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, TW_VIEW_LAYER_HOSE, route->hose);
  TwInkStyle centre
      = tw_view_style (hand, TW_INK_PEN_CENTRE, TW_INK_TINT_SOFT, TW_VIEW_LAYER_HOSE, route->hose);
  double outside_mm = outside_of (hand, route->hose);
  g_autoptr (GArray) points = NULL;

  if (route->n_pieces == 0)
    return;
  points = centreline (hand, route);
  if (outside_mm > 0)
    draw_walls (hand, points, outside_mm, &edge);
  draw_middle (hand, points, &centre);
  want_numbers (hand, route, outside_mm);
}

double
tw_view_hose_depth_mm (const TwViewHand *hand, const TwRoute *route)
{
  double sum_mm = 0, length_mm = 0;

  for (guint i = 0; i < route->n_pieces; i++) {
    double long_mm = fabs (route->pieces[i].length_mm) + 1e-9;
    double depth_mm
        = (tw_view_depth_mm (hand, route->pieces[i].from) + tw_view_depth_mm (hand, route->pieces[i].to)) / 2;

    sum_mm += long_mm * depth_mm;
    length_mm += long_mm;
  }
  return length_mm > 0 ? sum_mm / length_mm : 0;
}
