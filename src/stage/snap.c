/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stage/snap.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define ROUND_MM 10.0
#define SAME_MM 1e-6 /* two places nearer than this are one */

typedef struct {
  const TwSnapBench *bench;
  TwId part;
  guint field;
  double value_mm;
  GArray *list; /* of TwSnap */
} Search;

static void
add (Search *search, TwSnapKind kind, double value_mm, TwId other)
{
  TwSnap snap = { kind, search->field, value_mm, 0, other };

  g_array_append_val (search->list, snap);
}

/* --- baffles -------------------------------------------------------------------------------------------- */

static void
add_gaps (Search *search, const TwPlacedBaffle *baffle)
{
  const TwDrawing *drawing = tw_placement_drawing (search->bench->placement);
  const TwPlacedTank *tank = tw_placement_tank (search->bench->placement, baffle->tank);
  TwTubeGrid grid = tw_tube_grid ((const TwCore *)tw_drawing_find (drawing, baffle->core));
  const TwPlacedCore *core = tw_placement_core (search->bench->placement, baffle->core);

  if (baffle->runs_along) {
    for (guint row = 1; row < grid.n_rows; row++)
      add (search, TW_SNAP_GAP,
           (tw_tube_across_mm (&grid, row) + tw_tube_across_mm (&grid, row + 1)) / 2.0
               - core->thickness_mm / 2.0,
           TW_ID_NONE);
    return;
  }
  for (guint tube = 1; tube < grid.n_tubes; tube++) {
    double middle_mm = (tw_tube_along_mm (&grid, tube) + tw_tube_along_mm (&grid, tube + 1)) / 2.0;
    TwSnap snap = { TW_SNAP_GAP, search->field, middle_mm, tube, TW_ID_NONE };

    if (middle_mm > tank->start_mm && middle_mm < tank->end_mm)
      g_array_append_val (search->list, snap);
  }
}

/* --- ports ---------------------------------------------------------------------------------------------- */

static void
add_chambers (Search *search, const TwPlacedPort *port)
{
  const TwPasses *passes = search->bench->passes;

  for (guint i = 0; passes != NULL && i < tw_passes_n_chambers (passes); i++) {
    const TwChamber *chamber = tw_passes_chamber (passes, i);

    if (tw_id_equal (chamber->tank, port->tank))
      add (search, TW_SNAP_CHAMBER_MIDDLE, (chamber->from_mm + chamber->to_mm) / 2.0, chamber->tank);
  }
}

static void
add_level_ports (Search *search, const TwPlacedPort *port)
{
  const TwDrawing *drawing = tw_placement_drawing (search->bench->placement);
  guint n;
  const TwPlacedPort *ports = tw_placement_ports (search->bench->placement, &n);

  for (guint i = 0; i < n; i++) {
    const TwPort *other = (const TwPort *)tw_drawing_find (drawing, ports[i].id);

    if (tw_id_equal (ports[i].core, port->core) && !tw_id_equal (ports[i].id, port->id)
        && isfinite (other->along_mm))
      add (search, TW_SNAP_LEVEL_WITH, other->along_mm, ports[i].id);
  }
}

static void
add_of_port (Search *search, const TwPlacedPort *port)
{
  const TwPlacedTank *tank = tw_placement_tank (search->bench->placement, port->tank);
  double along_mm = (tank->start_mm + tank->end_mm) / 2.0;

  if (search->field == TW_PORT_along_mm) {
    add_chambers (search, port);
    add_level_ports (search, port);
    add (search, TW_SNAP_TANK_MIDDLE, along_mm, tank->id);
  } else if (search->field == TW_PORT_across_mm) {
    add (search, TW_SNAP_TANK_MIDDLE, 0.0, tank->id);
  } else if (search->field == TW_PORT_out_mm) {
    add (search, TW_SNAP_TANK_MIDDLE, tw_placed_tank_depth_mm (tank, along_mm) / 2.0, tank->id);
  }
}

/* --- fans and shrouds ----------------------------------------------------------------------------------- */

/* The edges of a box along one of its directions. */
static void
range_of (const TwBox *box, gboolean across, double *low_mm, double *high_mm)
{
  *low_mm = across ? box->x0_mm : box->y0_mm;
  *high_mm = across ? box->x1_mm : box->y1_mm;
}

static guint
fans_of_shroud (const TwPlacement *placement, TwId shroud)
{
  guint n, count = 0;
  const TwPlacedFan *fans = tw_placement_fans (placement, &n);

  for (guint i = 0; i < n; i++)
    count += tw_id_equal (fans[i].shroud, shroud) ? 1 : 0;
  return count;
}

static void
add_mouth (Search *search, const TwPlacedFan *fan, gboolean across)
{
  const TwPlacement *placement = search->bench->placement;
  const TwPlacedShroud *shroud = tw_placement_shroud (placement, fan->shroud);
  const TwPlacedCore *core = tw_placement_core (placement, fan->core);
  guint n = shroud ? MAX (fans_of_shroud (placement, fan->shroud), 1) : 1;
  double low_mm, high_mm;

  range_of (shroud ? &shroud->mouth : &core->face, across, &low_mm, &high_mm);
  for (guint i = 0; i < n; i++)
    add (search, TW_SNAP_SHARE_MIDDLE, low_mm + (high_mm - low_mm) * (2.0 * i + 1.0) / (2.0 * n),
         fan->shroud);
  if (n > 1)
    add (search, TW_SNAP_SHARE_MIDDLE, (low_mm + high_mm) / 2.0, fan->shroud);
  add (search, TW_SNAP_TOUCHES, low_mm + fan->ring_mm / 2.0, shroud ? shroud->id : core->id);
  add (search, TW_SNAP_TOUCHES, high_mm - fan->ring_mm / 2.0, shroud ? shroud->id : core->id);
}

static void
add_of_fan (Search *search, const TwPlacedFan *fan)
{
  gboolean across = search->field == TW_FAN_u_mm;
  guint n;
  const TwPlacedFan *fans = tw_placement_fans (search->bench->placement, &n);

  add (search, TW_SNAP_FACE_MIDDLE, 0.0, fan->core);
  add_mouth (search, fan, across);
  for (guint i = 0; i < n; i++)
    if (tw_id_equal (fans[i].core, fan->core) && !tw_id_equal (fans[i].id, fan->id))
      add (search, TW_SNAP_LEVEL_WITH, across ? fans[i].centre.x_mm : fans[i].centre.y_mm, fans[i].id);
}

static void
add_of_shroud (Search *search, const TwPlacedShroud *shroud)
{
  const TwPlacedCore *core = tw_placement_core (search->bench->placement, shroud->core);
  gboolean across = search->field == TW_SHROUD_u_mm;
  double low_mm, high_mm, face_low_mm, face_high_mm, half_mm;

  range_of (&shroud->mouth, across, &low_mm, &high_mm);
  range_of (&core->face, across, &face_low_mm, &face_high_mm);
  half_mm = (high_mm - low_mm) / 2.0;
  add (search, TW_SNAP_FACE_MIDDLE, 0.0, core->id);
  add (search, TW_SNAP_TOUCHES, face_low_mm + half_mm, core->id);
  add (search, TW_SNAP_TOUCHES, face_high_mm - half_mm, core->id);
}

/* --- the search ----------------------------------------------------------------------------------------- */

static void
add_round (Search *search)
{
  double step_mm = search->bench->inches ? 12.7 : ROUND_MM;

  add (search, TW_SNAP_ROUND, round (search->value_mm / step_mm) * step_mm, TW_ID_NONE);
}

GArray *
tw_snap_list (const TwSnapBench *bench, TwId part, guint field, double value_mm)
{
  Search search = { bench, part, field, value_mm, g_array_new (FALSE, FALSE, sizeof (TwSnap)) };
  const TwPlacedBaffle *baffle = tw_placement_baffle (bench->placement, part);
  const TwPlacedPort *port = tw_placement_port (bench->placement, part);
  const TwPlacedFan *fan = tw_placement_fan (bench->placement, part);
  const TwPlacedShroud *shroud = tw_placement_shroud (bench->placement, part);

  if (baffle != NULL)
    add_gaps (&search, baffle);
  else if (port != NULL)
    add_of_port (&search, port);
  else if (fan != NULL)
    add_of_fan (&search, fan);
  else if (shroud != NULL)
    add_of_shroud (&search, shroud);
  else
    add_round (&search);
  return search.list;
}

gboolean
tw_snap_find (const TwSnapBench *bench,
              TwId part,
              guint field,
              double value_mm,
              double reach_mm,
              TwSnap *snap)
{
  g_autoptr (GArray) list = tw_snap_list (bench, part, field, value_mm);
  double best_mm = reach_mm;
  gboolean found = FALSE;

  for (guint i = 0; i < list->len; i++) {
    const TwSnap *candidate = &g_array_index (list, TwSnap, i);
    double off_mm = fabs (candidate->value_mm - value_mm);
    gboolean nearer = found ? off_mm < best_mm - SAME_MM : off_mm <= best_mm;

    if (nearer || (found && off_mm <= best_mm + SAME_MM && candidate->kind < snap->kind)) {
      *snap = *candidate;
      best_mm = off_mm;
      found = TRUE;
    }
  }
  return found;
}

gboolean
tw_snap_touch (const TwPlacement *placement, TwId fan, TwPoint *centre, double reach_mm, TwId *other)
{
  const TwPlacedFan *moved = tw_placement_fan (placement, fan);
  double best_mm = reach_mm;
  TwPoint from = *centre;
  gboolean found = FALSE;
  guint n;
  const TwPlacedFan *fans = tw_placement_fans (placement, &n);

  g_return_val_if_fail (moved != NULL, FALSE);
  for (guint i = 0; i < n; i++) {
    double apart_mm = tw_point_distance_mm (from, fans[i].centre);
    double wanted_mm = (moved->ring_mm + fans[i].ring_mm) / 2.0;

    if (tw_id_equal (fans[i].id, fan) || !tw_id_equal (fans[i].core, moved->core)
        || fans[i].is_pusher != moved->is_pusher || apart_mm < SAME_MM
        || fabs (apart_mm - wanted_mm) > best_mm)
      continue;
    best_mm = fabs (apart_mm - wanted_mm);
    centre->x_mm = fans[i].centre.x_mm + (from.x_mm - fans[i].centre.x_mm) * wanted_mm / apart_mm;
    centre->y_mm = fans[i].centre.y_mm + (from.y_mm - fans[i].centre.y_mm) * wanted_mm / apart_mm;
    *other = fans[i].id;
    found = TRUE;
  }
  return found;
}

const char *
tw_snap_words (TwSnapKind kind)
{
  static const char *const words[] = {
    [TW_SNAP_NONE] = "",
    /* Translators: where a baffle sits; %u and the next number are tubes, counted from 1 */
    [TW_SNAP_GAP] = N_ ("between tubes %u and %u"),
    [TW_SNAP_CHAMBER_MIDDLE] = N_ ("middle of its chamber"),
    [TW_SNAP_TANK_MIDDLE] = N_ ("middle of the tank"),
    [TW_SNAP_FACE_MIDDLE] = N_ ("middle of the face"),
    [TW_SNAP_SHARE_MIDDLE] = N_ ("middle of its share of the mouth"),
    [TW_SNAP_LEVEL_WITH] = N_ ("in line with %s"),
    [TW_SNAP_TOUCHES] = N_ ("touching %s"),
    [TW_SNAP_ROUND] = N_ ("a round figure"),
  };

  return words[kind];
}
