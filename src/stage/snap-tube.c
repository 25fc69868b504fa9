/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * snap-tube.c - gaps between tubes, for baffles and for the ends of tanks that share a header side
 */
#include "stage/snap-private.h"

#include "layout/tube-grid.h"

static TwTubeGrid
grid_of (const TwSnapSearch *self, TwId core)
{
  return tw_tube_grid ((const TwCore *)tw_drawing_find (tw_placement_drawing (self->bench->placement), core));
}

static double
gap_mm (const TwTubeGrid *grid, guint tube)
{
  return (tw_tube_along_mm (grid, tube) + tw_tube_along_mm (grid, tube + 1)) / 2.0;
}

static void
add_gap (TwSnapSearch *self, TwSnapKind kind, double value_mm, guint tube, TwId other)
{
  tw_snap_add_value (self, kind, value_mm, other);
  g_array_index (self->list, TwSnap, self->list->len - 1).tube = tube;
}

static void
add_gaps (TwSnapSearch *self, const TwPlacedBaffle *baffle)
{
  const TwPlacedTank *tank = tw_placement_tank (self->bench->placement, baffle->tank);
  const TwPlacedCore *core = tw_placement_core (self->bench->placement, baffle->core);
  TwTubeGrid grid = grid_of (self, baffle->core);

  if (baffle->runs_along) {
    for (guint row = 1; row < grid.n_rows; row++)
      tw_snap_add_value (self, TW_SNAP_GAP,
                         (tw_tube_across_mm (&grid, row) + tw_tube_across_mm (&grid, row + 1)) / 2.0
                             - core->thickness_mm / 2.0,
                         TW_ID_NONE);
    return;
  }
  for (guint tube = 1; tube < grid.n_tubes; tube++) {
    double middle_mm = gap_mm (&grid, tube);

    if (middle_mm > tank->start_mm && middle_mm < tank->end_mm)
      add_gap (self, TW_SNAP_GAP, middle_mm, tube, TW_ID_NONE);
  }
}

/* The outside of an end wall in the middle of a gap, where another tank of the same side begins within two
 * tubes. */
static void
add_splits (TwSnapSearch *self, const TwPlacedTank *tank)
{
  gboolean is_start = self->target->field == TW_TANK_start_mm;
  TwTubeGrid grid = grid_of (self, tank->core);
  guint n;
  const TwPlacedTank *tanks = tw_placement_tanks (self->bench->placement, &n);

  for (guint i = 0; i < n; i++) {
    double edge_mm = is_start ? tanks[i].end_mm : tanks[i].start_mm;

    if (!tw_id_equal (tanks[i].core, tank->core) || tanks[i].side.side != tank->side.side
        || tw_snap_moves (self, tanks[i].id))
      continue;
    for (guint tube = 1; tube < grid.n_tubes; tube++)
      if (fabs (gap_mm (&grid, tube) - edge_mm) < 2.0 * fabs (grid.step_mm)
          && (is_start ? gap_mm (&grid, tube) >= edge_mm - 1e-6 : gap_mm (&grid, tube) <= edge_mm + 1e-6))
        add_gap (self, TW_SNAP_SPLIT, gap_mm (&grid, tube), tube, tanks[i].id);
    tw_snap_add_value (self, TW_SNAP_TOUCHES, edge_mm, tanks[i].id);
  }
}

void
tw_snap_tubes (TwSnapSearch *self)
{
  const TwPlacedBaffle *baffle = tw_placement_baffle (self->bench->placement, self->grip->part);
  const TwPlacedTank *tank = tw_placement_tank (self->bench->placement, self->grip->part);

  if (baffle != NULL)
    add_gaps (self, baffle);
  else if (tank != NULL && self->grip->kind != TW_GRIP_BODY
           && (self->target->field == TW_TANK_start_mm || self->target->field == TW_TANK_end_mm))
    add_splits (self, tank);
}
