/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * snap-tank.c - chambers, walls and neighbours of ports; ends of tanks
 */
#include "stage/snap-private.h"

static TwVec
port_place (const TwPlacedPort *port)
{
  return port->at;
}

static void
add_chambers (TwSnapSearch *self, const TwPlacedPort *port)
{
  const TwPasses *passes = self->bench->passes;

  for (guint i = 0; passes != NULL && i < tw_passes_n_chambers (passes); i++) {
    const TwChamber *chamber = tw_passes_chamber (passes, i);

    if (tw_id_equal (chamber->tank, port->tank))
      tw_snap_add_value (self, TW_SNAP_CHAMBER_MIDDLE, (chamber->from_mm + chamber->to_mm) / 2.0,
                         chamber->tank);
  }
}

static double
along_of (const TwSnapSearch *self, TwId port)
{
  const TwDrawing *drawing = tw_placement_drawing (self->bench->placement);

  return ((const TwPort *)tw_drawing_find (drawing, port))->along_mm;
}

static void
add_level_ports (TwSnapSearch *self, const TwPlacedPort *port)
{
  guint n;
  const TwPlacedPort *ports = tw_placement_ports (self->bench->placement, &n);

  for (guint i = 0; i < n; i++) {
    double along_mm = along_of (self, ports[i].id);

    if (tw_id_equal (ports[i].core, port->core) && !tw_snap_moves (self, ports[i].id) && isfinite (along_mm))
      tw_snap_add_value_at (self, TW_SNAP_LEVEL_WITH, along_mm, ports[i].id, port_place (&ports[i]));
  }
}

static int
compare_mm (gconstpointer a, gconstpointer b)
{
  double first = *(const double *)a, second = *(const double *)b;

  return first < second ? -1 : first > second ? 1 : 0;
}

/* Places at which the port stands as far from a neighbour of its wall as that from the next one, between two
 * neighbours, or in equal parts of the tank with all of them. */
static void
add_spacings (TwSnapSearch *self, const TwPlacedPort *port, const TwPlacedTank *tank)
{
  g_autoptr (GArray) places = g_array_new (FALSE, FALSE, sizeof (double));
  TwId neighbour = TW_ID_NONE;
  guint n;
  const TwPlacedPort *ports = tw_placement_ports (self->bench->placement, &n);

  for (guint i = 0; i < n; i++) {
    double along_mm = along_of (self, ports[i].id);

    if (!tw_id_equal (ports[i].tank, port->tank) || ports[i].wall != port->wall
        || tw_snap_moves (self, ports[i].id))
      continue;
    g_array_append_val (places, along_mm);
    neighbour = ports[i].id;
  }
  g_array_sort (places, compare_mm);
  for (guint i = 0; i + 1 < places->len; i++) {
    double low_mm = g_array_index (places, double, i), high_mm = g_array_index (places, double, i + 1);

    tw_snap_add_value (self, TW_SNAP_SPACING, (low_mm + high_mm) / 2.0, neighbour);
    tw_snap_add_value (self, TW_SNAP_SPACING, 2.0 * high_mm - low_mm, neighbour);
    tw_snap_add_value (self, TW_SNAP_SPACING, 2.0 * low_mm - high_mm, neighbour);
  }
  for (guint i = 0; places->len > 0 && i <= places->len; i++)
    tw_snap_add_value (self, TW_SNAP_SPACING,
                       tank->start_mm
                           + (tank->end_mm - tank->start_mm) * (2.0 * i + 1.0) / (2.0 * (places->len + 1)),
                       neighbour);
}

static void
add_of_port (TwSnapSearch *self, const TwPlacedPort *port)
{
  const TwPlacedTank *tank = tw_placement_tank (self->bench->placement, port->tank);
  double along_mm = (tank->start_mm + tank->end_mm) / 2.0;

  if (self->grip->kind != TW_GRIP_BODY)
    return;
  if (self->target->field == TW_PORT_along_mm) {
    add_chambers (self, port);
    add_level_ports (self, port);
    add_spacings (self, port, tank);
    tw_snap_add_value (self, TW_SNAP_TANK_MIDDLE, along_mm, tank->id);
  } else if (self->target->field == TW_PORT_across_mm) {
    tw_snap_add_value (self, TW_SNAP_TANK_MIDDLE, 0.0, tank->id);
  } else if (self->target->field == TW_PORT_out_mm) {
    tw_snap_add_value (self, TW_SNAP_TANK_MIDDLE, tw_placed_tank_depth_mm (tank, along_mm) / 2.0, tank->id);
  }
}

/* --- tanks ---------------------------------------------------------------------------------------------- */

static TwVec
header_place (const TwPlacedCore *core, const TwPlacedTank *tank, double along_mm)
{
  return tw_frame_to_job (&core->frame, tw_header_point (&tank->side, along_mm, 0.0, tank->w_from_mm));
}

static void
add_header_ends (TwSnapSearch *self, const TwPlacedCore *core, const TwPlacedTank *tank)
{
  double long_mm = tank->end_mm - tank->start_mm;
  gboolean is_end = self->target->field == TW_TANK_end_mm;

  if (is_end || self->grip->kind == TW_GRIP_BODY)
    tw_snap_add_value_at (self, TW_SNAP_HEADER_END, core->header_end_mm - (is_end ? 0.0 : long_mm), core->id,
                          header_place (core, tank, core->header_end_mm));
  if (!is_end)
    tw_snap_add_value_at (self, TW_SNAP_HEADER_END, core->header_start_mm, core->id,
                          header_place (core, tank, core->header_start_mm));
  if (self->grip->kind == TW_GRIP_BODY)
    tw_snap_add_value (self, TW_SNAP_FACE_MIDDLE, -long_mm / 2.0, core->id);
}

/* As deep or wide as the other tanks of the core. */
static void
add_sizes (TwSnapSearch *self, const TwPlacedTank *tank)
{
  const TwDrawing *drawing = tw_placement_drawing (self->bench->placement);
  const TwField *field = &tw_kind_info (TW_KIND_TANK)->fields[self->target->field];
  guint n;
  const TwPlacedTank *tanks = tw_placement_tanks (self->bench->placement, &n);

  for (guint i = 0; i < n; i++) {
    double size_mm = G_STRUCT_MEMBER (double, tw_drawing_find (drawing, tanks[i].id), field->offset);

    if (tw_id_equal (tanks[i].core, tank->core) && !tw_snap_moves (self, tanks[i].id) && isfinite (size_mm))
      tw_snap_add_value (self, TW_SNAP_SAME_SIZE, size_mm, tanks[i].id);
  }
}

static void
add_of_tank (TwSnapSearch *self, const TwPlacedTank *tank)
{
  const TwPlacedCore *core = tw_placement_core (self->bench->placement, tank->core);

  switch (self->target->field) {
  case TW_TANK_start_mm:
  case TW_TANK_end_mm:
    add_header_ends (self, core, tank);
    break;
  case TW_TANK_offset_mm:
    tw_snap_add_value (self, TW_SNAP_TANK_MIDDLE, 0.0, tank->id);
    break;
  case TW_TANK_width_mm:
    tw_snap_add_value (self, TW_SNAP_SAME_SIZE, core->header_w_to_mm - core->header_w_from_mm, core->id);
    add_sizes (self, tank);
    break;
  default:
    add_sizes (self, tank);
    break;
  }
}

void
tw_snap_tanks (TwSnapSearch *self)
{
  const TwPlacedPort *port = self->bench->port != NULL
                                 ? self->bench->port
                                 : tw_placement_port (self->bench->placement, self->grip->part);
  const TwPlacedTank *tank = tw_placement_tank (self->bench->placement, self->grip->part);

  if (port != NULL)
    add_of_port (self, port);
  else if (tank != NULL)
    add_of_tank (self, tank);
}
