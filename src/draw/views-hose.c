/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * views-hose.c - hose runs as double lines with their centreline and numbered bends
 */
#include "draw/views-private.h"

#include <math.h>

/* Longest step along a bend that becomes straight. */
#define STEP_RAD (G_PI / 36)

/* A centreline whose walls fold over is thinned to steps of this share of their distance from it;
 * dimensionless. */
#define THINNED 0.35

/* A leg is seen end on: share of the way of looking, dimensionless; the same as a cylinder's. */
#define END_ON 0.9999

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

/* The centreline of a stretch as it is seen. */
static GArray *
centreline (const TwViewHand *hand, const TwViewStretch *stretch)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (TwPoint));

  append_point (hand, points, stretch->route->pieces[stretch->first].from);
  for (guint i = 0; i < stretch->n; i++) {
    const TwRoutePiece *piece = &stretch->route->pieces[stretch->first + i];
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

/* Half the angle by which the centreline turns at inner point @nth, or at its ends nought. */
static double
half_turn (const TwPoint *points, guint n, guint nth)
{
  double in_rad, out_rad;

  if (nth == 0 || nth + 1 == n)
    return 0;
  in_rad = atan2 (points[nth].y_mm - points[nth - 1].y_mm, points[nth].x_mm - points[nth - 1].x_mm);
  out_rad = atan2 (points[nth + 1].y_mm - points[nth].y_mm, points[nth + 1].x_mm - points[nth].x_mm);
  return remainder (out_rad - in_rad, 2 * G_PI) / 2;
}

/* Whether walls at @half_mm to both sides nowhere fold over: then they are the centreline moved out. */
static gboolean
is_gentle (const TwPoint *points, guint n, double half_mm)
{
  for (guint i = 0; i + 1 < n; i++) {
    double taken_mm
        = half_mm * (fabs (tan (half_turn (points, n, i))) + fabs (tan (half_turn (points, n, i + 1))));

    if (fabs (half_turn (points, n, i)) > G_PI / 6
        || taken_mm > tw_point_distance_mm (points[i], points[i + 1]))
      return FALSE;
  }
  return TRUE;
}

/* The point of one wall beside centreline point @nth; @side_mm positive to the left. */
static TwPoint
wall_point (const TwPoint *points, guint n, guint nth, double side_mm)
{
  guint from = nth > 0 ? nth - 1 : 0, to = nth > 0 ? nth : 1;
  double turn_rad = half_turn (points, n, nth);
  double angle_rad
      = atan2 (points[to].y_mm - points[from].y_mm, points[to].x_mm - points[from].x_mm) + turn_rad;
  double out_mm = side_mm / cos (turn_rad);

  return (TwPoint){ points[nth].x_mm - out_mm * sin (angle_rad),
                    points[nth].y_mm + out_mm * cos (angle_rad) };
}

static GArray *
gentle_walls (const TwPoint *points, guint n, double half_mm)
{
  GArray *corners = g_array_new (FALSE, FALSE, sizeof (TwInkCorner));

  for (guint i = 0; i < 2 * n; i++) {
    TwPoint at = wall_point (points, n, i < n ? i : 2 * n - 1 - i, i < n ? half_mm : -half_mm);
    TwInkCorner corner = { at, 0, i == 0 };

    g_array_append_val (corners, corner);
  }
  return corners;
}

/* Leaves out points nearer than @least_mm to the last one that was kept; the ends stay. */
static guint
thin (const TwPoint *points, guint n, double least_mm, TwPoint *thinned)
{
  guint n_thinned = 0;

  for (guint i = 0; i < n; i++) {
    gboolean is_end = i == 0 || i + 1 == n;

    if (is_end
        || (tw_point_distance_mm (points[i], thinned[n_thinned - 1]) >= least_mm
            && tw_point_distance_mm (points[i], points[n - 1]) >= least_mm))
      thinned[n_thinned++] = points[i];
  }
  return n_thinned;
}

/* Walls of a run that folds over as it is seen, or is seen end on. */
static GArray *
folded_walls (const TwViewHand *hand, const TwPoint *points, guint n, double half_mm)
{
  g_autofree TwPoint *thinned = g_new (TwPoint, n);
  guint n_thinned = thin (points, n, THINNED * half_mm, thinned);
  TwArea *area = n > 1 ? tw_area_new_strip (hand->source->geos, thinned, n_thinned, half_mm, FALSE)
                       : tw_area_new_circle (hand->source->geos, points[0], half_mm);
  GArray *corners = tw_view_area_corners (area);

  tw_area_unref (area);
  return corners;
}

/* Both walls, and the ends that are ends of the run: where a stretch goes on round a corner there is no line.
 */
static void
draw_gentle (const TwViewHand *hand,
             const TwViewStretch *stretch,
             const GArray *corners,
             const TwInkStyle *style)
{
  g_autofree TwInkCorner *copy = g_memdup2 (corners->data, corners->len * sizeof (TwInkCorner));
  guint half = corners->len / 2;
  gboolean starts = stretch->first == 0, ends = stretch->first + stretch->n == stretch->route->n_pieces;

  if (starts && ends) {
    tw_ink_path (hand->ink, style, copy, corners->len, TRUE);
    return;
  }
  copy[half].start = !ends;
  tw_ink_path (hand->ink, style, copy, corners->len, FALSE);
  if (starts)
    tw_ink_line (hand->ink, style, copy[corners->len - 1].at, copy[0].at);
}

static void
draw_walls (const TwViewHand *hand,
            const TwViewStretch *stretch,
            const GArray *points,
            const TwInkStyle *style)
{
  const TwPoint *first = (const TwPoint *)(gconstpointer)points->data;
  double half_mm = outside_of (hand, stretch->route->hose) / 2;
  guint n = points->len;
  gboolean gentle = n > 1 && is_gentle (first, n, half_mm);
  g_autoptr (GArray) corners
      = gentle ? gentle_walls (first, n, half_mm) : folded_walls (hand, first, n, half_mm);
  TwInkStyle ground = *style;

  ground.tint = TW_INK_TINT_PAPER;
  if (corners->len < 3)
    return;
  tw_ink_fill (hand->ink, &ground, (TwInkCorner *)(gpointer)corners->data, corners->len);
  if (gentle)
    draw_gentle (hand, stretch, corners, style);
  else
    tw_ink_path (hand->ink, style, (TwInkCorner *)(gpointer)corners->data, corners->len, TRUE);
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

/* A leg seen end on: the circle of its outside. */
static void
draw_end_on (const TwViewHand *hand, const TwRoutePiece *leg, double outside_mm, const TwInkStyle *style)
{
  const TwVec ends[] = { leg->from, leg->to };

  tw_view_cylinder (hand, ends, outside_mm / 2, style, TRUE);
}

void
tw_view_draw_hose (const TwViewHand *hand, const TwViewStretch *stretch)
{
  TwId hose = stretch->route->hose;
  TwInkStyle edge = tw_view_style (hand, TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, TW_VIEW_LAYER_HOSE, hose);
  TwInkStyle centre = tw_view_style (hand, TW_INK_PEN_CENTRE, TW_INK_TINT_SOFT, TW_VIEW_LAYER_HOSE, hose);
  double outside_mm = outside_of (hand, hose);
  g_autoptr (GArray) points = centreline (hand, stretch);

  if (outside_mm > 0 && stretch->end_on)
    draw_end_on (hand, &stretch->route->pieces[stretch->first], outside_mm, &edge);
  else if (outside_mm > 0)
    draw_walls (hand, stretch, points, &edge);
  draw_middle (hand, points, &centre);
  if (stretch->first == 0)
    want_numbers (hand, stretch->route, outside_mm);
}

/* --- stretches --------------------------------------------------------------------------------------------
 */

static double
depth_of (const TwViewHand *hand, const TwViewStretch *stretch)
{
  double sum_mm = 0, length_mm = 0;

  for (guint i = 0; i < stretch->n; i++) {
    const TwRoutePiece *piece = &stretch->route->pieces[stretch->first + i];
    double long_mm = fabs (piece->length_mm) + 1e-9;

    sum_mm += long_mm * (tw_view_depth_mm (hand, piece->from) + tw_view_depth_mm (hand, piece->to)) / 2;
    length_mm += long_mm;
  }
  return sum_mm / length_mm;
}

static gboolean
is_end_on (const TwViewHand *hand, const TwRoutePiece *piece)
{
  return piece->kind == TW_ROUTE_STRAIGHT && piece->length_mm > 0
         && fabs (tw_view_away (hand, piece->way)) > END_ON;
}

static void
append_stretches (const TwViewHand *hand, const TwRoute *route, GArray *stretches)
{
  for (guint first = 0, end; first < route->n_pieces; first = end) {
    TwViewStretch stretch
        = { .route = route, .first = first, .end_on = is_end_on (hand, &route->pieces[first]) };

    for (end = first + 1; !stretch.end_on && end < route->n_pieces && !is_end_on (hand, &route->pieces[end]);)
      end++;
    stretch.n = end - first;
    stretch.depth_mm = depth_of (hand, &stretch);
    g_array_append_val (stretches, stretch);
  }
}

GArray *
tw_view_hose_stretches (const TwViewHand *hand)
{
  GArray *stretches = g_array_new (FALSE, FALSE, sizeof (TwViewStretch));
  const TwRoutes *routes = hand->source->routes;

  for (guint i = 0; routes != NULL && i < tw_routes_count (routes); i++)
    append_stretches (hand, tw_routes_get (routes, i), stretches);
  return stretches;
}
