/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/routes-private.h"

#include <math.h>

#define LEVEL_MM 1e-6

/* Between two of these a run only rises, only falls, or lies level. */
typedef struct {
  double along_mm; /* from the start; of a level stretch its middle */
  double y_mm;
  double half_mm; /* half the length of a level stretch */
} Station;

/* Where inside a bend its height turns, as an angle from its start; 0 when nowhere. The height at φ is that
 * of the centre + R·(−n·cos φ + d·sin φ) with n, d the upward parts of the way inwards and of the way. */
static double
turn_of_bend_rad (const TwRoutePiece *piece)
{
  double n = (piece->centre.y - piece->from.y) / piece->radius_mm, d = piece->way.y;
  double angle = atan2 (-d, n);

  if (n == 0.0 && d == 0.0)
    return 0.0;
  if (angle <= 0.0)
    angle += G_PI;
  return angle < piece->angle_rad ? angle : 0.0;
}

/* Adds a place; one as high as the last makes a level stretch with it. */
static void
add_station (GArray *stations, double along_mm, double y_mm)
{
  Station *last = stations->len > 0 ? &g_array_index (stations, Station, stations->len - 1) : NULL;
  Station new = { along_mm, y_mm, 0.0 };
  double start;

  if (last == NULL || fabs (last->y_mm - y_mm) > LEVEL_MM) {
    g_array_append_val (stations, new);
    return;
  }
  start = last->along_mm - last->half_mm;
  last->along_mm = 0.5 * (start + along_mm);
  last->half_mm = 0.5 * (along_mm - start);
}

static GArray *
find_stations (const TwRoutePiece *pieces, guint n)
{
  GArray *stations = g_array_new (FALSE, FALSE, sizeof (Station));
  double along = 0.0;

  add_station (stations, 0.0, pieces[0].from.y);
  for (guint i = 0; i < n; i++) {
    double turn = pieces[i].radius_mm > 0.0 ? turn_of_bend_rad (&pieces[i]) : 0.0;

    if (turn > 0.0)
      add_station (stations, along + turn * pieces[i].radius_mm,
                   tw_route_piece_point (&pieces[i], turn / pieces[i].angle_rad).y);
    along += pieces[i].length_mm;
    add_station (stations, along, pieces[i].to.y);
  }
  return stations;
}

/* Leaves the two ends and the places at which the height turns. */
static void
keep_turns (GArray *stations)
{
  guint kept = 1;

  for (guint i = 1; i + 1 < stations->len; i++) {
    const Station *here = &g_array_index (stations, Station, i);
    double before = here->y_mm - g_array_index (stations, Station, i - 1).y_mm;
    double after = g_array_index (stations, Station, i + 1).y_mm - here->y_mm;

    if ((before > 0.0) == (after > 0.0))
      continue;
    g_array_index (stations, Station, kept++)
        = *here; /* what is written over lies before i − 1 or is i itself */
  }
  if (stations->len > 1)
    g_array_index (stations, Station, kept++) = g_array_index (stations, Station, stations->len - 1);
  g_array_set_size (stations, kept);
}

static TwVec
place_at (const TwRoutePiece *pieces, guint n, double along_mm)
{
  for (guint i = 0; i + 1 < n; i++) {
    if (along_mm < pieces[i].length_mm)
      return tw_route_piece_point (&pieces[i], along_mm / pieces[i].length_mm);
    along_mm -= pieces[i].length_mm;
  }
  return tw_vec_add_scaled (pieces[n - 1].from, along_mm, pieces[n - 1].way);
}

GArray *
tw_route_turns (const TwRoutePiece *pieces, guint n)
{
  GArray *turns = g_array_new (FALSE, FALSE, sizeof (TwRouteTurn));
  g_autoptr (GArray) stations = find_stations (pieces, n);

  keep_turns (stations);
  for (guint i = 1; i + 1 < stations->len; i++) {
    const Station *here = &g_array_index (stations, Station, i);
    double before = here->y_mm - g_array_index (stations, Station, i - 1).y_mm;
    double after = here->y_mm - g_array_index (stations, Station, i + 1).y_mm;
    TwRouteTurn turn = {
      .is_high = before > 0.0,
      .at = place_at (pieces, n, here->along_mm),
      .along_mm = here->along_mm,
      .rise_mm = MIN (fabs (before), fabs (after)),
    };

    g_array_append_val (turns, turn);
  }
  return turns;
}
