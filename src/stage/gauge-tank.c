/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * gauge-tank.c - distances of baffles, ports and tanks along their header
 */
#include "stage/gauge-private.h"

#include "layout/tube-grid.h"

#include <math.h>

/* A place on a header side: along, off the header plate, downstream of the face; in the job. */
static TwVec
place (const TwPlacedCore *core, const TwHeaderSide *side, TwVec along_out_w)
{
  return tw_frame_to_job (&core->frame, tw_header_point (side, along_out_w.x, along_out_w.y, along_out_w.z));
}

/* --- baffles -------------------------------------------------------------------------------------------- */

/* From its two faces to the outside of the nearest tubes; from its middle to the ends of the header plate. */
static void
measure_across (TwGaugeSearch *self,
                const TwPlacedBaffle *baffle,
                const TwPlacedTank *tank,
                const TwPlacedCore *core)
{
  const TwDrawing *drawing = tw_placement_drawing (self->placement);
  const TwBaffle *drawn = (const TwBaffle *)tw_drawing_find (drawing, baffle->id);
  TwTubeGrid grid = tw_tube_grid ((const TwCore *)tw_drawing_find (drawing, baffle->core));
  double w_mm = (tank->w_from_mm + tank->w_to_mm) / 2.0;
  double half_mm = tw_vec_dot (tw_vec_subtract (baffle->to, baffle->from), tank->side.along) / 2.0;
  double here_mm = drawn->place_mm, depth_mm = tw_placed_tank_depth_mm (tank, here_mm);
  const double ends_mm[2] = { core->header_start_mm, core->header_end_mm };

  for (guint i = 0; i < 2; i++)
    tw_gauge_take (self, i, place (core, &tank->side, tw_vec (here_mm, depth_mm, w_mm)),
                   place (core, &tank->side, tw_vec (ends_mm[i], depth_mm, w_mm)), core->id);
  for (guint tube = 1; tube <= grid.n_tubes; tube++) {
    double middle_mm = tw_tube_along_mm (&grid, tube);
    double sign = middle_mm < here_mm ? -1.0 : 1.0;
    double face_mm = here_mm + sign * half_mm, edge_mm = middle_mm - sign * grid.height_mm / 2.0;

    if (sign * (edge_mm - face_mm) > 0.0)
      tw_gauge_take (self, sign < 0.0 ? 2 : 3, place (core, &tank->side, tw_vec (face_mm, 0.0, w_mm)),
                     place (core, &tank->side, tw_vec (edge_mm, 0.0, w_mm)), core->id);
  }
}

static void
measure_baffle (TwGaugeSearch *self, const TwPlacedBaffle *baffle)
{
  const TwPlacedTank *tank = tw_placement_tank (self->placement, baffle->tank);
  const TwPlacedCore *core = tw_placement_core (self->placement, baffle->core);
  TwVec middle = tw_vec_scale (tw_vec_add (baffle->from, baffle->to), 0.5);
  TwVec air_in = middle, air_out = middle;

  if (!baffle->runs_along) {
    measure_across (self, baffle, tank, core);
    return;
  }
  air_in.z = tank->w_from_mm;
  air_out.z = tank->w_to_mm;
  tw_gauge_take (self, 0, tw_frame_to_job (&core->frame, middle), tw_frame_to_job (&core->frame, air_in),
                 tank->id);
  tw_gauge_take (self, 1, tw_frame_to_job (&core->frame, middle), tw_frame_to_job (&core->frame, air_out),
                 tank->id);
}

/* --- ports ---------------------------------------------------------------------------------------------- */

/* Its place as along, out and w of its header side. */
static TwVec
on_side (const TwPlacedPort *port, const TwHeaderSide *side)
{
  return tw_vec (tw_vec_dot (port->at_core, side->along),
                 tw_vec_dot (port->at_core, side->out) - side->off_mm, port->at_core.z);
}

/* To the tank's walls from low to high: @axis 0 along, 1 out, 2 w. Slots 0 and 1 are the first pair. */
static void
measure_walls (TwGaugeSearch *self,
               const TwPlacedPort *port,
               const TwPlacedTank *tank,
               guint axis,
               guint slot)
{
  const TwPlacedCore *core = tw_placement_core (self->placement, tank->core);
  TwVec here = on_side (port, &tank->side);
  const double lows_mm[3] = { tank->start_mm, 0.0, tank->w_from_mm };
  const double highs_mm[3] = { tank->end_mm, tw_placed_tank_depth_mm (tank, here.x), tank->w_to_mm };

  for (guint i = 0; i < 2; i++) {
    double wall_mm = i ? highs_mm[axis] : lows_mm[axis];
    TwVec there = here;

    if (axis == 0)
      there.x = wall_mm;
    else if (axis == 1)
      there.y = wall_mm;
    else
      there.z = wall_mm;
    tw_gauge_take (self, slot + i, place (core, &tank->side, here), place (core, &tank->side, there),
                   tank->id);
  }
}

static void
measure_port (TwGaugeSearch *self, const TwPlacedPort *port)
{
  const TwPlacedTank *tank = tw_placement_tank (self->placement, port->tank);
  const TwPlacedCore *core = tw_placement_core (self->placement, port->core);
  gboolean in_end = port->wall == TW_WALL_START || port->wall == TW_WALL_END;
  TwVec here = on_side (port, &tank->side);
  guint n;
  const TwPlacedPort *ports = tw_placement_ports (self->placement, &n);

  measure_walls (self, port, tank, in_end ? 1 : 0, 0);
  measure_walls (self, port, tank, in_end || port->wall == TW_WALL_BACK ? 2 : 1, 2);
  for (guint i = 0; i < n && !in_end; i++) {
    TwVec there = on_side (&ports[i], &tank->side);

    if (!tw_id_equal (ports[i].tank, port->tank) || ports[i].wall != port->wall
        || tw_id_equal (ports[i].id, port->id))
      continue;
    /* straight along the header, so that the figure is that of the field */
    tw_gauge_take (self, there.x < here.x ? 0 : 1, place (core, &tank->side, here),
                   place (core, &tank->side, tw_vec (there.x, here.y, here.z)), ports[i].id);
  }
}

/* --- tanks ---------------------------------------------------------------------------------------------- */

static void
measure_tank (TwGaugeSearch *self, const TwPlacedTank *tank)
{
  const TwPlacedCore *core = tw_placement_core (self->placement, tank->core);
  double w_mm = (tank->w_from_mm + tank->w_to_mm) / 2.0;
  double out_mm = tank->depth_start_mm / 2.0;
  guint n;
  const TwPlacedTank *tanks = tw_placement_tanks (self->placement, &n);
  TwVec start = place (core, &tank->side, tw_vec (tank->start_mm, out_mm, w_mm));
  TwVec end = place (core, &tank->side, tw_vec (tank->end_mm, out_mm, w_mm));

  tw_gauge_offer (self, start, place (core, &tank->side, tw_vec (core->header_start_mm, out_mm, w_mm)),
                  core->id);
  tw_gauge_offer (self, end, place (core, &tank->side, tw_vec (core->header_end_mm, out_mm, w_mm)), core->id);
  for (guint i = 0; i < n; i++) {
    if (!tw_id_equal (tanks[i].core, tank->core) || tanks[i].side.side != tank->side.side
        || tw_id_equal (tanks[i].id, tank->id))
      continue;
    if (tanks[i].end_mm <= tank->start_mm)
      tw_gauge_offer (self, start, place (core, &tank->side, tw_vec (tanks[i].end_mm, out_mm, w_mm)),
                      tanks[i].id);
    if (tanks[i].start_mm >= tank->end_mm)
      tw_gauge_offer (self, end, place (core, &tank->side, tw_vec (tanks[i].start_mm, out_mm, w_mm)),
                      tanks[i].id);
  }
}

void
tw_gauge_tanks (TwGaugeSearch *self, TwId part)
{
  const TwPlacedBaffle *baffle = tw_placement_baffle (self->placement, part);
  const TwPlacedPort *port = tw_placement_port (self->placement, part);
  const TwPlacedTank *tank = tw_placement_tank (self->placement, part);

  if (baffle != NULL)
    measure_baffle (self, baffle);
  else if (port != NULL)
    measure_port (self, port);
  else if (tank != NULL)
    measure_tank (self, tank);
}
