/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * grip-tank.c - grips of tanks, and of what sits in them: baffles and ports
 */
#include "stage/grip-private.h"

#define LEAST_LONG_MM 5.0 /* a tank is no shorter than this by dragging */

/* Directions of a tank's header side in the job. */
typedef struct {
  const TwPlacedCore *core;
  const TwPlacedTank *tank;
  TwVec along;
  TwVec out;
} Side;

static gboolean
side_of (const TwPlacement *placement, const TwPlacedTank *tank, Side *side)
{
  const TwPlacedCore *core = tank != NULL ? tw_placement_core (placement, tank->core) : NULL;

  if (core == NULL)
    return FALSE;
  *side = (Side){ core, tank, tw_frame_turn_to_job (&core->frame, tank->side.along),
                  tw_frame_turn_to_job (&core->frame, tank->side.out) };
  return TRUE;
}

/* A place on the tank: along the header, a share of its depth there, downstream of the face. */
static TwVec
place_on (const Side *side, double along_mm, double share, double w_mm)
{
  double out_mm = share * tw_placed_tank_depth_mm (side->tank, along_mm);

  return tw_frame_to_job (&side->core->frame, tw_header_point (&side->tank->side, along_mm, out_mm, w_mm));
}

static void
go_start (TwGripMaker *self, const Side *side, gboolean end)
{
  double room_mm = side->tank->end_mm - side->tank->start_mm - LEAST_LONG_MM;

  tw_grip_go (self, side->along);
  tw_grip_change (self, end ? TW_TANK_end_mm : TW_TANK_start_mm, 1.0);
  tw_grip_limit (self, end ? -room_mm : -G_MAXDOUBLE, end ? G_MAXDOUBLE : room_mm);
}

static void
go_deeper (TwGripMaker *self, const Side *side, gboolean at_start, gboolean at_end)
{
  gboolean is_tapered = side->tank->back == TW_BACK_TAPERED;

  tw_grip_go (self, side->out);
  if (at_start || !is_tapered)
    tw_grip_change (self, TW_TANK_depth_mm, 1.0);
  if (at_end && is_tapered)
    tw_grip_change (self, TW_TANK_depth_end_mm, 1.0);
}

static void
list_ends (TwGripMaker *self, const Side *side, double w_mm)
{
  static const char *const ends[] = { N_ ("start of the tank"), N_ ("end of the tank") };
  static const char *const corners[] = { N_ ("start and depth"), N_ ("end and depth") };

  for (guint end = 0; end < 2; end++) {
    double along_mm = end ? side->tank->end_mm : side->tank->start_mm;

    tw_grip_begin (self, TW_GRIP_END, end, place_on (side, along_mm, 0.5, w_mm), ends[end]);
    go_start (self, side, end);
    tw_grip_end (self);
    tw_grip_begin (self, TW_GRIP_CORNER, end, place_on (side, along_mm, 1.0, w_mm), corners[end]);
    go_start (self, side, end);
    go_deeper (self, side, !end, end);
    tw_grip_end (self);
  }
}

/* Width: the other wall stays. */
static void
list_walls (TwGripMaker *self, const Side *side, double middle_mm)
{
  static const char *const walls[] = { N_ ("wall on the air-in side"), N_ ("wall on the air-out side") };

  for (guint out = 0; out < 2; out++) {
    double sign = out ? 1.0 : -1.0, w_mm = out ? side->tank->w_to_mm : side->tank->w_from_mm;

    tw_grip_begin (self, TW_GRIP_EDGE, TW_GRIP_OTHER + 1 + out, place_on (side, middle_mm, 0.5, w_mm),
                   walls[out]);
    tw_grip_go (self, tw_vec_scale (side->core->frame.w, sign));
    tw_grip_change (self, TW_TANK_width_mm, 1.0);
    tw_grip_change (self, TW_TANK_offset_mm, sign / 2.0);
    tw_grip_end (self);
  }
}

void
tw_grip_list_tank (TwGripMaker *self)
{
  const TwPlacedTank *tank = tw_placement_tank (self->placement, self->part->id);
  double middle_mm, w_mm;
  Side side;

  if (!side_of (self->placement, tank, &side))
    return;
  middle_mm = (tank->start_mm + tank->end_mm) / 2.0;
  w_mm = (tank->w_from_mm + tank->w_to_mm) / 2.0;
  tw_grip_begin (self, TW_GRIP_BODY, 0, place_on (&side, middle_mm, 0.5, w_mm), N_ ("tank"));
  tw_grip_go (self, side.along);
  tw_grip_change (self, TW_TANK_start_mm, 1.0);
  tw_grip_change (self, TW_TANK_end_mm, 1.0);
  tw_grip_go (self, side.core->frame.w);
  tw_grip_change (self, TW_TANK_offset_mm, 1.0);
  tw_grip_end (self);

  tw_grip_begin (self, TW_GRIP_EDGE, TW_GRIP_OTHER, place_on (&side, middle_mm, 1.0, w_mm),
                 N_ ("depth of the tank"));
  go_deeper (self, &side, TRUE, TRUE);
  tw_grip_end (self);
  list_ends (self, &side, w_mm);
  list_walls (self, &side, middle_mm);
}

void
tw_grip_list_baffle (TwGripMaker *self)
{
  const TwPlacedBaffle *baffle = tw_placement_baffle (self->placement, self->part->id);
  TwVec middle;
  Side side;

  if (baffle == NULL || !side_of (self->placement, tw_placement_tank (self->placement, baffle->tank), &side))
    return;
  middle = tw_vec_scale (tw_vec_add (baffle->from, baffle->to), 0.5);
  tw_grip_begin (self, TW_GRIP_BODY, 0, tw_frame_to_job (&side.core->frame, middle), N_ ("baffle"));
  tw_grip_go (self, baffle->runs_along ? side.core->frame.w : side.along);
  tw_grip_change (self, TW_BAFFLE_place_mm, 1.0);
  tw_grip_end (self);
}

void
tw_grip_list_port (TwGripMaker *self)
{
  const TwPlacedPort *port = tw_placement_port (self->placement, self->part->id);
  gboolean in_end, in_back;
  Side side;

  if (port == NULL || !side_of (self->placement, tw_placement_tank (self->placement, port->tank), &side))
    return;
  in_end = port->wall == TW_WALL_START || port->wall == TW_WALL_END;
  in_back = port->wall == TW_WALL_BACK;
  tw_grip_begin (self, TW_GRIP_BODY, 0, port->at, N_ ("port"));
  if (!in_end) {
    tw_grip_go (self, side.along);
    tw_grip_change (self, TW_PORT_along_mm, 1.0);
  }
  if (in_end || in_back) {
    tw_grip_go (self, side.core->frame.w);
    tw_grip_change (self, TW_PORT_across_mm, 1.0);
  }
  if (!in_back) {
    tw_grip_go (self, side.out);
    tw_grip_change (self, TW_PORT_out_mm, 1.0);
  }
  tw_grip_end (self);

  tw_grip_begin (self, TW_GRIP_END, 0, port->tip, N_ ("stand-out"));
  tw_grip_go (self, port->axis);
  tw_grip_change (self, TW_PORT_stand_out_mm, 1.0);
  tw_grip_end (self);
}
