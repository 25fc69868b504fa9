/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/placement-private.h"

/* The middle of the hole in core coordinates, and the direction square out of the wall. */
static TwVec
port_on_wall (const TwPort *port, const TwPlacedTank *tank, TwVec *normal)
{
  const TwHeaderSide *side = &tank->side;
  double along_mm = tw_known_or (port->along_mm, 0.5 * (tank->start_mm + tank->end_mm));
  double w_mm = 0.5 * (tank->w_from_mm + tank->w_to_mm) + tw_known_or (port->across_mm, 0.0);
  double out_mm;

  if (port->wall == TW_WALL_START)
    along_mm = tank->start_mm;
  else if (port->wall == TW_WALL_END)
    along_mm = tank->end_mm;
  out_mm = tw_known_or (port->out_mm, 0.5 * tw_placed_tank_depth_mm (tank, along_mm));

  switch (port->wall) {
  case TW_WALL_AIR_IN:
    *normal = tw_vec (0.0, 0.0, -1.0);
    return tw_header_point (side, along_mm, out_mm, tank->w_from_mm);
  case TW_WALL_AIR_OUT:
    *normal = tw_vec (0.0, 0.0, 1.0);
    return tw_header_point (side, along_mm, out_mm, tank->w_to_mm);
  case TW_WALL_START:
    *normal = tw_vec_scale (side->along, -1.0);
    return tw_header_point (side, along_mm, out_mm, w_mm);
  case TW_WALL_END:
    *normal = side->along;
    return tw_header_point (side, along_mm, out_mm, w_mm);
  default:
    return tw_header_point (side, along_mm, tw_placement_tank_back_mm (tank, along_mm, w_mm, normal), w_mm);
  }
}

/* Direction of the job along which something leaves; the choices of ports without their first are those of
 * engine ports. */
static TwVec
axis_of (int leaves)
{
  switch (leaves) {
  case TW_LEAVES_AXIS_LEFT:
    return tw_vec (-1.0, 0.0, 0.0);
  case TW_LEAVES_AXIS_RIGHT:
    return tw_vec (1.0, 0.0, 0.0);
  case TW_LEAVES_AXIS_DOWN:
    return tw_vec (0.0, -1.0, 0.0);
  case TW_LEAVES_AXIS_UP:
    return tw_vec (0.0, 1.0, 0.0);
  case TW_LEAVES_AXIS_UPSTREAM:
    return tw_vec (0.0, 0.0, -1.0);
  case TW_LEAVES_AXIS_DOWNSTREAM:
    return tw_vec (0.0, 0.0, 1.0);
  default:
    return tw_vec (0.0, 0.0, 0.0);
  }
}

G_STATIC_ASSERT ((int)TW_LEAVES_LEFT == (int)TW_LEAVES_AXIS_LEFT + 1);
G_STATIC_ASSERT ((int)TW_LEAVES_DOWNSTREAM == (int)TW_LEAVES_AXIS_DOWNSTREAM + 1);

static void
place_port (const TwPort *port, const TwPlacedCore *core, const TwPlacedTank *tank, TwPlacedPort *placed)
{
  TwVec normal;
  TwVec at_core = port_on_wall (port, tank, &normal);

  *placed = (TwPlacedPort){
    .id = port->head.id,
    .tank = tank->id,
    .core = core->id,
    .wall = MAX (port->wall, TW_WALL_BACK),
    .at_core = at_core,
    .at = tw_frame_to_job (&core->frame, at_core),
    .normal = tw_frame_turn_to_job (&core->frame, normal),
    .outside_mm = port->outside_mm,
    .boss_mm = port->boss_mm,
    .bore_mm = port->bore_mm,
    .stand_out_mm = tw_known_or (port->stand_out_mm, 0.0),
  };
  placed->axis = port->leaves > TW_LEAVES_SQUARE ? axis_of (port->leaves - 1) : placed->normal;
  placed->tip = tw_vec_add_scaled (placed->at, placed->stand_out_mm, placed->axis);
}

void
tw_placement_place_ports (TwPlacement *self)
{
  guint n = tw_drawing_count (self->drawing, TW_KIND_PORT);

  for (guint i = 0; i < n; i++) {
    const TwPort *port = TW_DRAWING_PORT (self->drawing, i);
    const TwPlacedTank *tank = tw_placement_tank (self, port->tank);
    TwPlacedSolid like = { .part = port->head.id, .role = TW_SOLID_PORT };
    TwPlacedPort placed;

    if (tank == NULL) {
      tw_placement_add (self, &port->head, self->ports, NULL, N_ ("its tank has no place"));
      continue;
    }
    like.core = tank->core;
    place_port (port, tw_placement_core (self, tank->core), tank, &placed);
    tw_placement_add (self, &port->head, self->ports, &placed, NULL);
    tw_placement_add_round (self, &like, placed.at, placed.tip,
                            MAX (tw_known_or (placed.outside_mm, 0.0), tw_known_or (placed.boss_mm, 0.0)));
  }
}

void
tw_placement_place_engine_ports (TwPlacement *self)
{
  guint n = tw_drawing_count (self->drawing, TW_KIND_ENGINE_PORT);

  for (guint i = 0; i < n; i++) {
    const TwEnginePort *port = TW_DRAWING_ENGINE_PORT (self->drawing, i);
    TwPlacedSolid like = { .part = port->head.id, .core = TW_ID_NONE, .role = TW_SOLID_ENGINE_PORT };
    TwPlacedEnginePort placed = {
      .id = port->head.id,
      .at
      = tw_vec (tw_known_or (port->x_mm, 0.0), tw_known_or (port->y_mm, 0.0), tw_known_or (port->z_mm, 0.0)),
      .has_axis = port->leaves >= 0,
      .axis = axis_of (port->leaves),
      .outside_mm = port->outside_mm,
      .stand_out_mm = tw_known_or (port->stand_out_mm, 0.0),
    };

    placed.tip = tw_vec_add_scaled (placed.at, placed.stand_out_mm, placed.axis);
    tw_placement_add (self, &port->head, self->engine_ports, &placed, NULL);
    tw_placement_add_round (self, &like, placed.at, placed.tip, placed.outside_mm);
  }
}
