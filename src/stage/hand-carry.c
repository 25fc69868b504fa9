/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * hand-carry.c - a port goes over to another wall when the pointer leaves its own
 */
#include "stage/hand-private.h"

#include <math.h>

#define LEAST_REACH_MM 3.0 /* a wall is not left for less */
#define FACING 3.0         /* times the reach, dimensionless: so much nearer other walls seem */
#define AWAY 0.1           /* dimensionless: a wall that faces away by more is not seen */
#define N_WALLS 5

/* A wall of a tank as the view sees it. */
typedef struct {
  const TwPlacedTank *tank;
  int wall;            /* TW_WALL_BACK … TW_WALL_END */
  TwVec middle;        /* job frame */
  TwVec normal;        /* direction out of it, job frame */
  TwVec ways[2];       /* directions in it, job frame */
  guint fields[2];     /* of the port, that go along them */
  double values_mm[2]; /* of the fields in the middle */
  double halves_mm[2]; /* of the wall along the ways */
} Wall;

static Wall
wall_of (const TwPlacement *placement, const TwPlacedTank *tank, int wall)
{
  const TwFrame *frame = &tw_placement_core (placement, tank->core)->frame;
  gboolean in_end = wall == TW_WALL_START || wall == TW_WALL_END, in_back = wall == TW_WALL_BACK;
  double middle_mm = (tank->start_mm + tank->end_mm) / 2.0, w_mm = (tank->w_from_mm + tank->w_to_mm) / 2.0;
  double along_mm = wall == TW_WALL_START ? tank->start_mm : wall == TW_WALL_END ? tank->end_mm : middle_mm;
  double depth_mm = tw_placed_tank_depth_mm (tank, along_mm);
  double out_mm = in_back ? depth_mm : depth_mm / 2.0;
  TwVec along = tw_frame_turn_to_job (frame, tank->side.along);
  TwVec out = tw_frame_turn_to_job (frame, tank->side.out);
  Wall made = { .tank = tank, .wall = wall, .ways = { along, out } };

  made.fields[0] = in_end ? TW_PORT_across_mm : TW_PORT_along_mm;
  made.fields[1] = in_back ? TW_PORT_across_mm : TW_PORT_out_mm;
  made.ways[0] = in_end ? frame->w : along;
  made.ways[1] = in_back ? frame->w : out;
  made.values_mm[0] = in_end ? 0.0 : middle_mm;
  made.values_mm[1] = in_back ? 0.0 : depth_mm / 2.0;
  made.halves_mm[0] = (in_end ? tank->w_to_mm - tank->w_from_mm : tank->end_mm - tank->start_mm) / 2.0;
  made.halves_mm[1] = (in_back ? tank->w_to_mm - tank->w_from_mm : depth_mm) / 2.0;
  made.normal = in_back                   ? out
                : wall == TW_WALL_AIR_IN  ? tw_vec_scale (frame->w, -1.0)
                : wall == TW_WALL_AIR_OUT ? frame->w
                : wall == TW_WALL_START   ? tw_vec_scale (along, -1.0)
                                          : along;
  if (wall == TW_WALL_AIR_IN || wall == TW_WALL_AIR_OUT)
    w_mm = wall == TW_WALL_AIR_IN ? tank->w_from_mm : tank->w_to_mm;
  made.middle = tw_frame_to_job (frame, tw_header_point (&tank->side, along_mm, out_mm, w_mm));
  return made;
}

/* The wall's two ways as freedoms that reach over the wall. (transfer full) */
static TwFreedoms
freedoms_over (const Wall *wall)
{
  TwFreedoms freedoms = tw_freedoms ();

  for (guint i = 0; i < 2; i++) {
    TwFreedomTarget target = { TW_ID_NONE, wall->fields[i], 1.0, wall->values_mm[i] };

    freedoms.list[freedoms.n++]
        = (TwFreedom){ wall->ways[i], -wall->halves_mm[i], wall->halves_mm[i], freedoms.targets->len, 1 };
    g_array_append_val (freedoms.targets, target);
  }
  return freedoms;
}

/* How far the pointer is from what is seen of a wall. */
static double
away_mm (const TwStageView *view, const Wall *wall, TwPoint at)
{
  TwFreedoms freedoms = freedoms_over (wall);
  TwPoint seen = tw_stage_view_place (view, wall->middle);
  double amounts_mm[TW_FREEDOM_MOST];

  (void)tw_freedoms_solve (&freedoms, view, NULL, (TwPoint){ at.x_mm - seen.x_mm, at.y_mm - seen.y_mm },
                           amounts_mm);
  for (guint i = 0; i < 2; i++) {
    TwPoint way = tw_stage_view_direction (view, wall->ways[i]);
    double by_mm = CLAMP (amounts_mm[i], -wall->halves_mm[i], wall->halves_mm[i]);

    seen.x_mm += by_mm * way.x_mm;
    seen.y_mm += by_mm * way.y_mm;
  }
  tw_freedoms_clear (&freedoms);
  return tw_point_distance_mm (seen, at);
}

static gboolean
is_here (const TwHand *self, const Wall *wall)
{
  const TwPlacedPort *port = self->carried.is_over
                                 ? &self->carried.port
                                 : tw_placement_port (self->placement, tw_hand_held (self, 0)->before->id);

  return tw_id_equal (wall->tank->id, port->tank) && wall->wall == port->wall;
}

/* What speaks against a wall: how far away it is, and that it is looked at square on, for then the pointer is
 * in it wherever it is in the tank. */
static double
cost_mm (const TwStageView *view, const Wall *wall, TwPoint at, double reach_mm)
{
  gboolean is_facing = -tw_vec_dot (wall->normal, tw_stage_view_depth (view)) > 0.5;

  return away_mm (view, wall, at) + (is_facing ? FACING * reach_mm : 0.0);
}

/* The wall that the pointer means; FALSE as long as the one where it hangs is not clearly left. */
static gboolean
find_wall (const TwHand *self, TwPoint at, double reach_mm, Wall *found)
{
  double here_mm = G_MAXDOUBLE, best_mm = G_MAXDOUBLE;
  guint n;
  const TwPlacedTank *tanks = tw_placement_tanks (self->placement, &n);

  for (guint i = 0; i < n * N_WALLS; i++) {
    Wall wall = wall_of (self->placement, &tanks[i / N_WALLS], (int)(i % N_WALLS));
    double mm = cost_mm (&self->view, &wall, at, reach_mm);

    if (is_here (self, &wall)) {
      here_mm = mm;
    } else if (tw_vec_dot (wall.normal, tw_stage_view_depth (&self->view)) <= AWAY && mm < best_mm - 1e-6) {
      best_mm = mm;
      *found = wall;
    }
  }
  return best_mm + reach_mm < here_mm;
}

/* --- hanging it there ----------------------------------------------------------------------------------- */

static void
put_back (TwHand *self, TwChange *group, guint field)
{
  const TwPart *before = tw_hand_held (self, 0)->before;
  TwValue value = tw_part_get (before, field);

  tw_change_group_add (group, tw_change_set (before->id, TW_ID_NONE, field, &value));
}

/* Tank and wall are set, what the job said of its place is put back. */
static gboolean
hang (TwHand *self, const Wall *wall, gboolean is_home)
{
  static const guint fields[] = { TW_PORT_along_mm, TW_PORT_across_mm, TW_PORT_out_mm };
  const TwPart *before = tw_hand_held (self, 0)->before;
  TwChange *group = tw_change_group (self->label);

  for (guint i = 0; i < G_N_ELEMENTS (fields); i++)
    put_back (self, group, fields[i]);
  if (is_home) {
    put_back (self, group, TW_PORT_tank);
    put_back (self, group, TW_PORT_wall);
  } else {
    TwValue tank = tw_value_ref (wall->tank->id), choice = tw_value_choice (TW_FIELD_CHOICE, wall->wall);

    tw_change_group_add (group, tw_change_set (before->id, TW_ID_NONE, TW_PORT_tank, &tank));
    tw_change_group_add (group, tw_change_set (before->id, TW_ID_NONE, TW_PORT_wall, &choice));
  }
  return tw_hand_do (self, group);
}

static void
hold_at (TwHand *self, const Wall *wall)
{
  TwHandHeld *held = tw_hand_held (self, 0);
  const TwGrip *home = tw_grips_body (held->grips);
  TwPoint seen = tw_stage_view_place (&self->view, wall->middle);

  tw_freedoms_clear (&self->carried.freedoms);
  self->carried = (TwHandCarried){ .is_over = TRUE, .freedoms = freedoms_over (wall), .grip = *home };
  self->carried.port = *tw_placement_port (self->placement, held->before->id);
  self->carried.port.tank = wall->tank->id;
  self->carried.port.core = wall->tank->core;
  self->carried.port.wall = wall->wall;
  self->carried.grip.place = wall->middle;
  self->carried.grip.at = seen;
  self->carried.pressed = (TwPoint){ seen.x_mm - home->at.x_mm + self->pressed.x_mm,
                                     seen.y_mm - home->at.y_mm + self->pressed.y_mm };
  held->grip = &self->carried.grip;
  held->freedoms = &self->carried.freedoms;
}

static void
hold_home (TwHand *self)
{
  TwHandHeld *held = tw_hand_held (self, 0);

  held->grip = tw_grips_body (held->grips);
  held->freedoms = tw_grips_freedoms (held->grips, 0);
  tw_freedoms_clear (&self->carried.freedoms);
  self->carried.is_over = FALSE;
}

/* The figures of the wall where it hangs; none is in the job yet. */
static void
list_again (TwHand *self)
{
  TwHandHeld *held = tw_hand_held (self, 0);

  memset (held->amounts_mm, 0, sizeof held->amounts_mm);
  memset (held->typed, 0, sizeof held->typed);
  tw_hand_clear_figures (self);
  tw_hand_list_figures (self);
  for (guint i = 0; self->carried.is_over && i < self->figures->len; i++) {
    g_array_index (self->bases, TwHandBase, i).press_mm = NAN;
    g_array_index (self->figures, TwHandFigure, i).value_mm = NAN;
  }
}

gboolean
tw_hand_carry (TwHand *self, TwPoint at, const TwHandManner *manner)
{
  const TwHandHeld *held = tw_hand_held (self, 0);
  const TwPlacedPort *port = tw_placement_port (self->placement, held->before->id);
  const TwGrip *home = tw_grips_body (held->grips);
  gboolean is_home;
  Wall wall;

  if (port == NULL || self->held->len != 1 || held->grip->kind != TW_GRIP_BODY || manner->no_carry)
    return FALSE;
  at = (TwPoint){ home->at.x_mm + at.x_mm - self->pressed.x_mm,
                  home->at.y_mm + at.y_mm - self->pressed.y_mm };
  if (!find_wall (self, at, MAX (manner->reach_mm, LEAST_REACH_MM), &wall))
    return FALSE;
  is_home = tw_id_equal (wall.tank->id, port->tank) && wall.wall == port->wall;
  if (!hang (self, &wall, is_home))
    return FALSE;
  if (is_home)
    hold_home (self);
  else
    hold_at (self, &wall);
  list_again (self);
  return TRUE;
}

TwPoint
tw_hand_pressed (const TwHand *self)
{
  return self->carried.is_over ? self->carried.pressed : self->pressed;
}
