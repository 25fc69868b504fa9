/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Hose runs. */
#include "findings/findings-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* A first leg may lie so far off its port's axis: definition of this program. */
#define OFF_AXIS_DEG 1.0

/* A rise or dip that is less goes with the water. Common practice, no source. */
#define SMALL_TURN_MM 5.0

static const char *
find_flag (TwFinder *finder)
{
  const TwRoutes *routes = finder->known->routes;

  for (guint i = 0; i < tw_routes_count (routes); i++)
    if ((tw_routes_get (routes, i)->flags & finder->which) != 0)
      tw_finder_add (finder, tw_routes_get (routes, i)->hose);
  return NULL;
}

/* Number of the shortest straight of a run, from 1. */
static guint
shortest_leg (const TwRoute *route)
{
  guint leg = 0, shortest = 0;
  double least_mm = INFINITY;

  for (guint i = 0; i < route->n_pieces; i++) {
    if (route->pieces[i].kind != TW_ROUTE_STRAIGHT)
      continue;
    leg++;
    if (route->pieces[i].length_mm < least_mm) {
      least_mm = route->pieces[i].length_mm;
      shortest = leg;
    }
  }
  return shortest;
}

static const char *
find_no_room (TwFinder *finder)
{
  const TwRoutes *routes = finder->known->routes;

  for (guint i = 0; i < tw_routes_count (routes); i++) {
    const TwRoute *route = tw_routes_get (routes, i);
    TwFinding *finding;

    if ((route->flags & TW_ROUTE_NO_FIT) == 0)
      continue;
    finding = tw_finder_add (finder, route->hose);
    finding->measured = -route->shortest_mm;
    finding->from = finding->to = shortest_leg (route);
  }
  return NULL;
}

static const char *
find_short (TwFinder *finder)
{
  const TwRoutes *routes = finder->known->routes;

  for (guint i = 0; i < tw_routes_count (routes); i++) {
    const TwRoute *route = tw_routes_get (routes, i);
    TwFinding *finding;

    if ((route->flags & (TW_ROUTE_SHORT | TW_ROUTE_NO_FIT)) != TW_ROUTE_SHORT)
      continue;
    finding = tw_finder_add (finder, route->hose);
    finding->measured = route->shortest_mm;
    finding->limit = tw_drawing_settings (finder->known->drawing)->straight_mm;
    finding->from = finding->to = shortest_leg (route);
  }
  return NULL;
}

static void
find_tight_bends (TwFinder *finder, const TwRoute *route)
{
  for (guint i = 0; i < route->n_pieces; i++) {
    const TwRoutePiece *piece = &route->pieces[i];
    TwFinding *finding;

    if (piece->kind != TW_ROUTE_BEND || !(piece->over_least_mm < 0))
      continue;
    finding = tw_finder_add (finder, route->hose);
    finding->measured = piece->radius_mm;
    finding->limit = piece->radius_mm - piece->over_least_mm;
    finding->from = finding->to = piece->bend;
  }
}

static const char *
find_tight (TwFinder *finder)
{
  const TwRoutes *routes = finder->known->routes;
  const char *reason = NULL;

  for (guint i = 0; i < tw_routes_count (routes); i++) {
    const TwRoute *route = tw_routes_get (routes, i);
    const TwHose *hose = (const TwHose *)tw_drawing_find (finder->known->drawing, route->hose);

    find_tight_bends (finder, route);
    if (route->n_bends > 0 && isnan (hose->least_radius_mm))
      reason = N_ ("a run does not say its smallest bend radius");
  }
  return reason;
}

static void
add_off_axis (TwFinder *finder, const TwRoute *route, TwId port, double off_rad)
{
  TwFinding *finding = tw_finder_add (finder, route->hose);

  tw_finding_also (finding, port);
  finding->measured = off_rad * 180.0 / G_PI;
  finding->limit = OFF_AXIS_DEG;
}

static const char *
find_off_axis (TwFinder *finder)
{
  const TwRoutes *routes = finder->known->routes;
  const char *reason = NULL;

  for (guint i = 0; i < tw_routes_count (routes); i++) {
    const TwRoute *route = tw_routes_get (routes, i);
    const TwHose *hose = (const TwHose *)tw_drawing_find (finder->known->drawing, route->hose);

    if ((route->flags & TW_ROUTE_OFF_AXIS_FROM) != 0)
      add_off_axis (finder, route, hose->from, route->off_axis_from_rad);
    if ((route->flags & TW_ROUTE_OFF_AXIS_TO) != 0)
      add_off_axis (finder, route, hose->to, route->off_axis_to_rad);
    if ((route->flags & TW_ROUTE_NO_END) == 0
        && (isnan (route->off_axis_from_rad) || isnan (route->off_axis_to_rad)))
      reason = N_ ("an engine port does not say which way it points");
  }
  return reason;
}

static const char *
find_turns (TwFinder *finder)
{
  const TwRoutes *routes = finder->known->routes;

  for (guint i = 0; i < tw_routes_count (routes); i++) {
    const TwRoute *route = tw_routes_get (routes, i);

    for (guint k = 0; k < route->n_turns; k++) {
      const TwRouteTurn *turn = &route->turns[k];
      TwFinding *finding;

      if (turn->is_high != (gboolean)finder->which || turn->rise_mm <= SMALL_TURN_MM)
        continue;
      finding = tw_finder_add (finder, route->hose);
      finding->measured = turn->rise_mm;
      finding->from = finding->to = k + 1;
      finding->limit = SMALL_TURN_MM;
      finding->beside = turn->at.y;
    }
  }
  return NULL;
}

static const char *
find_no_bore (TwFinder *finder)
{
  for (guint i = 0; i < tw_drawing_count (finder->known->drawing, TW_KIND_HOSE); i++) {
    const TwHose *hose = TW_DRAWING_HOSE (finder->known->drawing, i);

    if (isnan (hose->bore_mm))
      tw_finder_add (finder, hose->head.id);
  }
  return NULL;
}

/* clang-format off */
static const TwCheckRow rows[] = {
  { { "hose-no-fit", TW_SEVERITY_STOP, TW_ROOM_ROUTES, TW_QUANTITY_LENGTH }, find_no_room },
  { { "hose-doubles-back", TW_SEVERITY_STOP, TW_ROOM_ROUTES }, find_flag, TW_ROUTE_DOUBLES_BACK },
  { { "hose-straight-short", TW_SEVERITY_STOP, TW_ROOM_ROUTES, TW_QUANTITY_LENGTH, .source = TW_COMMON_PRACTICE },
    find_short },
  { { "hose-bend-tight", TW_SEVERITY_STOP, TW_ROOM_ROUTES, TW_QUANTITY_LENGTH }, find_tight },
  { { "hose-off-axis", TW_SEVERITY_WARN, TW_ROOM_ROUTES, TW_QUANTITY_ANGLE, .source = "DEF-HOSE-LENGTH" },
    find_off_axis },
  { { "hose-no-end", TW_SEVERITY_WARN, TW_ROOM_ROUTES }, find_flag, TW_ROUTE_NO_END },
  { { "hose-no-radius", TW_SEVERITY_WARN, TW_ROOM_ROUTES }, find_flag, TW_ROUTE_NO_RADIUS },
  { { "hose-high-point", TW_SEVERITY_WARN, TW_ROOM_ROUTES, TW_QUANTITY_LENGTH, TW_QUANTITY_LENGTH,
      TW_COMMON_PRACTICE }, find_turns, TRUE },
  { { "hose-low-point", TW_SEVERITY_NOTE, TW_ROOM_ROUTES, TW_QUANTITY_LENGTH, TW_QUANTITY_LENGTH,
      TW_COMMON_PRACTICE }, find_turns, FALSE },
  { { "hose-no-bore", TW_SEVERITY_NOTE, 0 }, find_no_bore },
  { { "hose-same-place", TW_SEVERITY_NOTE, TW_ROOM_ROUTES }, find_flag, TW_ROUTE_SAME_PLACE },
};
/* clang-format on */

const TwCheckRows tw_checks_hoses = { rows, G_N_ELEMENTS (rows) };
