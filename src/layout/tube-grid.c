/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/tube-grid.h"

#include <math.h>

static double
or_else (double value, double otherwise)
{
  return isnan (value) ? otherwise : value;
}

TwTubeGrid
tw_tube_grid (const TwCore *core)
{
  gboolean level = core->tubes != TW_TUBES_UPRIGHT;
  double extent = level ? core->face_height_mm : core->face_width_mm;
  guint n = core->tube_count > 0 ? (guint)core->tube_count : 0, rows = core->rows > 0 ? (guint)core->rows : 1;
  double pitch = n == 1 ? or_else (core->tube_pitch_mm, 0.0) : core->tube_pitch_mm;
  double first = or_else (core->first_tube_mm, (extent - (n - 1.0) * pitch) / 2.0);
  double row_pitch = or_else (core->row_pitch_mm, core->thickness_mm / rows);
  double h = core->tube_height_mm - 2.0 * core->tube_wall_mm;
  double w = core->tube_width_mm - 2.0 * core->tube_wall_mm;
  TwTubeGrid grid = {
    .core = core->head.id,
    .level = level,
    .n_tubes = n,
    .n_rows = rows,
    .first_mm = level ? extent / 2.0 - first : first - extent / 2.0,
    .step_mm = level ? -pitch : pitch,
    .first_row_mm = core->thickness_mm / 2.0 - (rows - 1.0) / 2.0 * row_pitch,
    .row_step_mm = row_pitch,
    .height_mm = core->tube_height_mm,
    .width_mm = core->tube_width_mm,
    .bore_height_mm = h,
    .bore_width_mm = w,
    .bore_area_mm2 = (w - h) * h + G_PI * h * h / 4.0,
    .length_mm = level ? core->face_width_mm : core->face_height_mm,
  };

  if (!(isfinite (grid.first_mm) && isfinite (pitch) && isfinite (grid.first_row_mm) && h > 0.0 && w >= h))
    grid.n_tubes = 0;
  return grid;
}

double
tw_tube_along_mm (const TwTubeGrid *grid, guint tube)
{
  return grid->first_mm + (tube - 1.0) * grid->step_mm;
}

double
tw_tube_across_mm (const TwTubeGrid *grid, guint row)
{
  return grid->first_row_mm + (row - 1.0) * grid->row_step_mm;
}

gboolean
tw_tube_header (const TwTubeGrid *grid, const TwTank *tank, TwHeader *header)
{
  int first = grid->level ? TW_SIDE_LEFT : TW_SIDE_TOP, second = grid->level ? TW_SIDE_RIGHT : TW_SIDE_BOTTOM;

  if (tank->side != first && tank->side != second)
    return FALSE;
  *header = tank->side == first ? TW_HEADER_FIRST : TW_HEADER_SECOND;
  return TRUE;
}

gboolean
tw_tube_is_plugged (const TwCore *core, guint tube, guint row)
{
  for (guint i = 0; i < core->plugged->len; i++) {
    const TwPlug *plug = TW_ELEMENT (core->plugged, TwPlug, i);

    if (plug->tube == (int)tube && (plug->row < 0 || plug->row == (int)row))
      return TRUE;
  }
  return FALSE;
}
