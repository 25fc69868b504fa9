/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * add-core.c - new parts on a core: tanks, baffles, ports, shrouds, fans; and hoses between ports
 */
#include "stage/add-private.h"

#include "layout/tube-grid.h"

#include <math.h>
#include <string.h>

#define LEAST_FAN_MM 20.0 /* swept diameter, as its field takes */
#define ROUND_FAN_MM 5.0
#define CLEAR_SHARE 0.98 /* of the free circle that a fan takes, dimensionless */
#define GRID 48          /* places tried across and up */

/* --- tanks, baffles, ports ------------------------------------------------------------------------------ */

static gboolean
has_tank (const TwPlacement *placement, TwId core, int side)
{
  guint n;
  const TwPlacedTank *tanks = tw_placement_tanks (placement, &n);

  for (guint i = 0; i < n; i++)
    if (tw_id_equal (tanks[i].core, core) && tanks[i].side.side == side)
      return TRUE;
  return FALSE;
}

gboolean
tw_add_new_tank (const TwAddWhere *where, TwPart *made, GError **error)
{
  const TwPlacedCore *core = tw_add_core (where, error);
  const TwHeaderSide *best = NULL;
  double best_mm = G_MAXDOUBLE;

  if (core == NULL)
    return FALSE;
  for (guint i = 0; i < 2; i++) {
    const TwHeaderSide *side = &core->sides[i];
    TwPoint at = tw_stage_view_place (where->view,
                                      tw_frame_to_job (&core->frame, tw_header_point (side, 0.0, 0.0, 0.0)));
    double off_mm = where->n_points > 0 ? tw_point_distance_mm (at, where->points[0]) : (double)i;

    if (!has_tank (where->placement, core->id, side->side) && (best == NULL || off_mm < best_mm)) {
      best = side;
      best_mm = off_mm;
    }
  }
  if (best == NULL)
    return tw_add_refuse (error,
                          _ ("both header sides of the core have a tank: shorten one first, then copy it"));
  tw_add_refer (made, TW_TANK_core, core->id);
  tw_add_choose (made, TW_TANK_side, best->side);
  return TRUE;
}

/* Where along the header of a tank the pointer is; FALSE without one, or when the view does not show that. */
static gboolean
along_pointer (const TwAddWhere *where, const TwPlacedTank *tank, double *along_mm)
{
  const TwPlacedCore *core = tw_placement_core (where->placement, tank->core);
  TwVec way = tw_frame_turn_to_job (&core->frame, tank->side.along);
  TwVec zero = tw_frame_to_job (&core->frame, tw_header_point (&tank->side, 0.0, 0.0, tank->w_from_mm));
  TwPoint seen = tw_stage_view_direction (where->view, way), from = tw_stage_view_place (where->view, zero);
  double length2 = seen.x_mm * seen.x_mm + seen.y_mm * seen.y_mm;

  if (where->n_points == 0 || !tw_point_is_sane (where->points[0])
      || length2 < TW_FREEDOM_LEAST * TW_FREEDOM_LEAST)
    return FALSE;
  *along_mm
      = ((where->points[0].x_mm - from.x_mm) * seen.x_mm + (where->points[0].y_mm - from.y_mm) * seen.y_mm)
        / length2;
  return TRUE;
}

/* The middle of the longest chamber, else of the tank. */
static double
middle_mm (const TwAddWhere *where, const TwPlacedTank *tank)
{
  double longest_mm = 0.0, best_mm = (tank->start_mm + tank->end_mm) / 2.0;

  for (guint i = 0; where->passes != NULL && i < tw_passes_n_chambers (where->passes); i++) {
    const TwChamber *chamber = tw_passes_chamber (where->passes, i);

    if (tw_id_equal (chamber->tank, tank->id) && chamber->to_mm - chamber->from_mm > longest_mm + 1e-6) {
      longest_mm = chamber->to_mm - chamber->from_mm;
      best_mm = (chamber->from_mm + chamber->to_mm) / 2.0;
    }
  }
  return best_mm;
}

static gboolean
has_baffle (const TwAddWhere *where, TwId tank, double place_mm, double step_mm)
{
  const TwDrawing *drawing = tw_placement_drawing (where->placement);

  for (guint i = 0; i < tw_drawing_count (drawing, TW_KIND_BAFFLE); i++) {
    const TwBaffle *baffle = TW_DRAWING_BAFFLE (drawing, i);

    if (tw_id_equal (baffle->tank, tank) && baffle->runs != TW_RUNS_ALONG
        && fabs (baffle->place_mm - place_mm) < step_mm / 2.0)
      return TRUE;
  }
  return FALSE;
}

gboolean
tw_add_baffle (const TwAddWhere *where, TwPart *made, GError **error)
{
  const TwPlacedTank *tank = tw_add_tank (where, error);
  double wanted_mm, best_mm = NAN;
  TwTubeGrid grid;

  if (tank == NULL)
    return FALSE;
  grid = tw_tube_grid ((const TwCore *)tw_drawing_find (tw_placement_drawing (where->placement), tank->core));
  if (!along_pointer (where, tank, &wanted_mm))
    wanted_mm = middle_mm (where, tank);
  for (guint tube = 1; tube < grid.n_tubes; tube++) {
    double gap_mm = (tw_tube_along_mm (&grid, tube) + tw_tube_along_mm (&grid, tube + 1)) / 2.0;

    if (gap_mm <= tank->start_mm || gap_mm >= tank->end_mm
        || has_baffle (where, tank->id, gap_mm, fabs (grid.step_mm)))
      continue;
    if (isnan (best_mm) || fabs (gap_mm - wanted_mm) < fabs (best_mm - wanted_mm) - 1e-9)
      best_mm = gap_mm;
  }
  if (isnan (best_mm))
    return tw_add_refuse (error, _ ("the tank has no gap between two tubes that is free"));
  tw_add_refer (made, TW_BAFFLE_tank, tank->id);
  tw_add_put (made, TW_BAFFLE_place_mm, best_mm);
  return TRUE;
}

gboolean
tw_add_port (const TwAddWhere *where, TwPart *made, GError **error)
{
  const TwPlacedTank *tank = tw_add_tank (where, error);
  double along_mm;

  if (tank == NULL)
    return FALSE;
  tw_add_refer (made, TW_PORT_tank, tank->id);
  tw_add_choose (made, TW_PORT_wall, TW_WALL_BACK);
  if (along_pointer (where, tank, &along_mm))
    tw_add_put (made, TW_PORT_along_mm, round (CLAMP (along_mm, tank->start_mm, tank->end_mm)));
  return TRUE;
}

/* --- shrouds and fans ----------------------------------------------------------------------------------- */

gboolean
tw_add_shroud (const TwAddWhere *where, TwPart *made, GError **error)
{
  const TwPlacedCore *core = tw_add_core (where, error);
  guint n;
  const TwPlacedShroud *shrouds = tw_placement_shrouds (where->placement, &n);

  if (core == NULL)
    return FALSE;
  for (guint i = 0; i < n; i++)
    if (tw_id_equal (shrouds[i].core, core->id) && !shrouds[i].is_before
        && shrouds[i].mouth.x0_mm <= core->face.x0_mm && shrouds[i].mouth.x1_mm >= core->face.x1_mm
        && shrouds[i].mouth.y0_mm <= core->face.y0_mm && shrouds[i].mouth.y1_mm >= core->face.y1_mm)
      return tw_add_refuse (error, _ ("a shroud covers the whole face already: make it smaller first"));
  tw_add_refer (made, TW_SHROUD_core, core->id);
  return TRUE;
}

/* From a place to the nearest ring, flap or edge of the mouth. */
static double
free_mm (const TwPlacement *placement, TwId core, gboolean before, const TwBox *mouth, TwPoint at)
{
  double free = MIN (MIN (at.x_mm - mouth->x0_mm, mouth->x1_mm - at.x_mm),
                     MIN (at.y_mm - mouth->y0_mm, mouth->y1_mm - at.y_mm));
  guint n;
  const TwPlacedFan *fans = tw_placement_fans (placement, &n);
  const TwPlacedFlap *flaps;

  for (guint i = 0; i < n; i++)
    if (tw_id_equal (fans[i].core, core) && fans[i].is_pusher == before)
      free = MIN (free, tw_point_distance_mm (at, fans[i].centre) - fans[i].ring_mm / 2.0);
  flaps = tw_placement_flaps (placement, &n);
  for (guint i = 0; i < n; i++) {
    TwBox box = flaps[i].opening;
    double across_mm = MAX (box.x0_mm - at.x_mm, at.x_mm - box.x1_mm);
    double up_mm = MAX (box.y0_mm - at.y_mm, at.y_mm - box.y1_mm);

    if (tw_id_equal (flaps[i].core, core) && !before)
      free = MIN (free, across_mm > 0.0 && up_mm > 0.0 ? hypot (across_mm, up_mm) : MAX (across_mm, up_mm));
  }
  return free;
}

double
tw_add_largest_mm (const TwPlacement *placement, TwId core, gboolean before, TwBox mouth, TwPoint *middle)
{
  TwPoint centre = { (mouth.x0_mm + mouth.x1_mm) / 2.0, (mouth.y0_mm + mouth.y1_mm) / 2.0 };
  double best_mm = -G_MAXDOUBLE, best_off_mm = 0.0;

  for (guint i = 0; i <= GRID; i++)
    for (guint k = 0; k <= GRID; k++) {
      TwPoint at = { mouth.x0_mm + (mouth.x1_mm - mouth.x0_mm) * i / GRID,
                     mouth.y0_mm + (mouth.y1_mm - mouth.y0_mm) * k / GRID };
      double free = free_mm (placement, core, before, &mouth, at);
      double off_mm = tw_point_distance_mm (at, centre);

      if (free > best_mm + 1e-6 || (free > best_mm - 1e-6 && off_mm < best_off_mm - 1e-6)) {
        best_mm = free;
        best_off_mm = off_mm;
        *middle = at;
      }
    }
  return best_mm;
}

/* Where a new fan is looked for beside one that is there. */
typedef struct {
  const TwPlacement *placement;
  const TwPlacedFan *fan;
  TwBox mouth;
  double best_mm; /* free radius of the best place so far */
  TwPoint best;
} Beside;

/* A place as good as any is one where a ring as large as that fan's fits. */
static void
try_beside (Beside *self, TwPoint at)
{
  double free = free_mm (self->placement, self->fan->core, self->fan->is_pusher, &self->mouth, at);

  if (free >= self->fan->ring_mm / 2.0 && free > self->best_mm + 1e-6) {
    self->best_mm = free;
    self->best = at;
  }
}

/* The place with the most room that is level with a fan of the core, across or up: rows of fans are what one
 * builds. Returns the free radius, 0 when there is none as large as that fan's ring. */
static double
beside_fan_mm (const TwPlacement *placement, TwId core, gboolean before, TwBox mouth, TwPoint *middle)
{
  Beside beside = { .placement = placement, .mouth = mouth };
  double long_mm = MAX (mouth.x1_mm - mouth.x0_mm, mouth.y1_mm - mouth.y0_mm);
  guint n;
  const TwPlacedFan *fans = tw_placement_fans (placement, &n);

  for (guint i = 0; i < n; i++) {
    if (!tw_id_equal (fans[i].core, core) || fans[i].is_pusher != before)
      continue;
    beside.fan = &fans[i];
    for (double by_mm = 0.0; by_mm <= long_mm; by_mm += 1.0) {
      try_beside (&beside, (TwPoint){ mouth.x0_mm + by_mm, fans[i].centre.y_mm });
      try_beside (&beside, (TwPoint){ fans[i].centre.x_mm, mouth.y0_mm + by_mm });
    }
  }
  if (beside.best_mm > 0.0)
    *middle = beside.best;
  return beside.best_mm;
}

/* The first shroud behind the core, that the pointer or choice may mean. */
static const TwPlacedShroud *
shroud_for (const TwAddWhere *where, const TwPlacedCore *core)
{
  const TwPlacedShroud *chosen = tw_placement_shroud (where->placement, where->chosen);
  guint n;
  const TwPlacedShroud *shrouds = tw_placement_shrouds (where->placement, &n);

  if (chosen != NULL)
    return chosen;
  for (guint i = 0; i < n; i++)
    if (tw_id_equal (shrouds[i].core, core->id) && !shrouds[i].is_before)
      return &shrouds[i];
  return NULL;
}

/* As large as the other fans of the core where there is room, else as the room. */
static double
swept_for (const TwPlacement *placement, TwId core, double room_mm)
{
  double most_mm = floor (2.0 * room_mm * CLEAR_SHARE / ROUND_FAN_MM) * ROUND_FAN_MM;
  guint n;
  const TwPlacedFan *fans = tw_placement_fans (placement, &n);

  for (guint i = 0; i < n; i++)
    if (tw_id_equal (fans[i].core, core))
      return MIN (most_mm, fans[i].swept_mm);
  return most_mm;
}

gboolean
tw_add_fan (const TwAddWhere *where, TwPart *made, GError **error)
{
  const TwPlacedCore *core = tw_add_core (where, error);
  const TwPlacedShroud *shroud = core != NULL ? shroud_for (where, core) : NULL;
  gboolean before = shroud != NULL && shroud->is_before;
  TwBox mouth;
  TwPoint middle;
  TwVec pointer;
  double room_mm, swept_mm;

  if (core == NULL)
    return FALSE;
  mouth = shroud != NULL ? shroud->mouth : core->face;
  room_mm = beside_fan_mm (where->placement, core->id, before, mouth, &middle);
  if (room_mm <= 0.0)
    room_mm = tw_add_largest_mm (where->placement, core->id, before, mouth, &middle);
  if (tw_add_pointer (where, tw_frame_to_job (&core->frame, tw_vec (middle.x_mm, middle.y_mm, 0.0)),
                      &pointer)) {
    TwVec uvw = tw_frame_from_job (&core->frame, pointer);
    TwPoint at = { round (uvw.x), round (uvw.y) };
    double free = free_mm (where->placement, core->id, before, &mouth, at);

    if (2.0 * free >= LEAST_FAN_MM) {
      middle = at;
      room_mm = free;
    }
  }
  swept_mm = swept_for (where->placement, core->id, room_mm);
  if (!(swept_mm >= LEAST_FAN_MM))
    return tw_add_refuse (error, _ ("there is no room left for a fan"));
  tw_add_refer (made, TW_FAN_core, core->id);
  tw_add_put (made, TW_FAN_u_mm, middle.x_mm);
  tw_add_put (made, TW_FAN_v_mm, middle.y_mm);
  tw_add_put (made, TW_FAN_swept_mm, MIN (swept_mm, 3000.0));
  if (before)
    tw_add_choose (made, TW_FAN_blows, TW_BLOWS_PUSH);
  return TRUE;
}
