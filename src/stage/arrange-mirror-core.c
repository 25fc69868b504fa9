/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * arrange-mirror-core.c - mirroring what stands on a core, about the core's own middle
 */
#include "stage/arrange-private.h"

#include <math.h>

/* What is needed of a part in or on a tank. */
typedef struct {
  TwArrangeMirror *mirror;
  const TwJob *job;
  const TwDrawing *drawing;
} Desk;

static gboolean
is_upright (const Desk *desk, TwId core)
{
  const TwCore *found = (const TwCore *)tw_job_find (desk->job, core);

  return found != NULL && found->tubes == TW_TUBES_UPRIGHT;
}

static int
other_side (int side)
{
  switch (side) {
  case TW_SIDE_RIGHT:
    return TW_SIDE_LEFT;
  case TW_SIDE_TOP:
  case TW_SIDE_BOTTOM:
    return side;
  default:
    return TW_SIDE_RIGHT;
  }
}

/* --- in the tank ---------------------------------------------------------------------------------------- */

static void
turn_about (const Desk *desk, const TwPart *part)
{
  int leaves = ((const TwPort *)part)->leaves;

  if (leaves == TW_LEAVES_LEFT || leaves == TW_LEAVES_RIGHT)
    tw_arrange_choose (desk->mirror, part, TW_PORT_leaves,
                       leaves == TW_LEAVES_LEFT ? TW_LEAVES_RIGHT : TW_LEAVES_LEFT);
}

/* Along a header that runs to the right. */
static void
turn_port_end_for_end (const Desk *desk, const TwPart *part)
{
  int wall = ((const TwPort *)part)->wall;

  tw_arrange_flip (desk->mirror, part, NULL, TW_PORT_along_mm, 0.0);
  if (wall == TW_WALL_START || wall == TW_WALL_END)
    tw_arrange_choose (desk->mirror, part, TW_PORT_wall, wall == TW_WALL_START ? TW_WALL_END : TW_WALL_START);
}

static void
turn_baffle_end_for_end (const Desk *desk, const TwPart *part)
{
  if (((const TwBaffle *)part)->runs != TW_RUNS_ALONG)
    tw_arrange_flip (desk->mirror, part, NULL, TW_BAFFLE_place_mm, 0.0);
}

/* What is in a tank that is mirrored. */
static void
mirror_inside (const Desk *desk, TwId tank, gboolean upright)
{
  for (guint i = 0; i < tw_job_count (desk->job, TW_KIND_PORT); i++) {
    const TwPart *port = tw_job_get (desk->job, TW_KIND_PORT, i);

    if (!tw_part_refers_to (port, tank))
      continue;
    turn_about (desk, port);
    if (upright)
      turn_port_end_for_end (desk, port);
  }
  for (guint i = 0; upright && i < tw_job_count (desk->job, TW_KIND_BAFFLE); i++)
    if (tw_part_refers_to (tw_job_get (desk->job, TW_KIND_BAFFLE, i), tank))
      turn_baffle_end_for_end (desk, tw_job_get (desk->job, TW_KIND_BAFFLE, i));
}

/* Depths of a tapered tank change places. */
static void
swap_depths (const Desk *desk, const TwPart *part)
{
  const TwTank *tank = (const TwTank *)part;
  const TwTank *drawn = (const TwTank *)tw_drawing_find (desk->drawing, part->id);

  if (tank->back != TW_BACK_TAPERED || !isfinite (tank->depth_end_mm) || drawn == NULL)
    return;
  tw_arrange_carry (desk->mirror, part, TW_TANK_depth_end_mm, TW_TANK_depth_mm, FALSE);
  if (isfinite (tank->depth_mm)) {
    tw_arrange_carry (desk->mirror, part, TW_TANK_depth_mm, TW_TANK_depth_end_mm, FALSE);
  } else {
    TwValue assumed = tw_value_number (drawn->depth_mm);

    tw_change_group_add (desk->mirror->group,
                         tw_change_set (part->id, TW_ID_NONE, TW_TANK_depth_end_mm, &assumed));
  }
}

static void
mirror_tank (const Desk *desk, const TwPart *part)
{
  gboolean upright = is_upright (desk, ((const TwTank *)part)->core);

  if (upright) {
    tw_arrange_carry (desk->mirror, part, TW_TANK_end_mm, TW_TANK_start_mm, TRUE);
    tw_arrange_carry (desk->mirror, part, TW_TANK_start_mm, TW_TANK_end_mm, TRUE);
    swap_depths (desk, part);
  } else {
    tw_arrange_choose (desk->mirror, part, TW_TANK_side, other_side (((const TwTank *)part)->side));
  }
  mirror_inside (desk, part->id, upright);
}

/* --- to the other tank ---------------------------------------------------------------------------------- */

/* The one tank on the other header side that reaches over @along_mm (NaN: whichever). */
static const TwTank *
opposite_tank (const Desk *desk, const TwTank *tank, double along_mm)
{
  const TwTank *found = NULL;

  for (guint i = 0; i < tw_drawing_count (desk->drawing, TW_KIND_TANK); i++) {
    const TwTank *other = TW_DRAWING_TANK (desk->drawing, i);
    gboolean reaches = isnan (along_mm) || (other->start_mm <= along_mm && along_mm <= other->end_mm);

    if (!tw_id_equal (other->core, tank->core) || other->side != other_side (tank->side) || !reaches)
      continue;
    if (found != NULL)
      return NULL;
    found = other;
  }
  return found;
}

static gboolean
to_other_tank (const Desk *desk, const TwPart *part, TwId tank, guint field, double along_mm, GError **error)
{
  const TwTank *here = (const TwTank *)tw_drawing_find (desk->drawing, tank);
  const TwTank *there = here != NULL ? opposite_tank (desk, here, along_mm) : NULL;
  TwValue value;

  if (there == NULL) {
    g_set_error (error, TW_ERROR, TW_ERROR_REFUSED,
                 _ ("%s: there is not one tank on the other side of the core to take it"),
                 tw_part_name (part));
    return FALSE;
  }
  value = tw_value_ref (there->head.id);
  tw_change_group_add (desk->mirror->group, tw_change_set (part->id, TW_ID_NONE, field, &value));
  return TRUE;
}

static gboolean
mirror_port (const Desk *desk, const TwPart *part, GError **error)
{
  const TwPort *port = (const TwPort *)part;
  const TwTank *tank = (const TwTank *)tw_job_find (desk->job, port->tank);

  turn_about (desk, part);
  if (!is_upright (desk, tank->core))
    return to_other_tank (desk, part, port->tank, TW_PORT_tank, port->along_mm, error);
  turn_port_end_for_end (desk, part);
  return TRUE;
}

static gboolean
mirror_baffle (const Desk *desk, const TwPart *part, GError **error)
{
  const TwBaffle *baffle = (const TwBaffle *)part;
  const TwTank *tank = (const TwTank *)tw_job_find (desk->job, baffle->tank);

  if (!is_upright (desk, tank->core))
    return to_other_tank (desk, part, baffle->tank, TW_BAFFLE_tank,
                          baffle->runs == TW_RUNS_ALONG ? (double)NAN : baffle->place_mm, error);
  turn_baffle_end_for_end (desk, part);
  return TRUE;
}

/* --- on the face ---------------------------------------------------------------------------------------- */

static void
mirror_shroud (const Desk *desk, const TwPart *part)
{
  GPtrArray *flaps = ((const TwShroud *)part)->flaps;

  tw_arrange_flip (desk->mirror, part, NULL, TW_SHROUD_u_mm, 0.0);
  for (guint i = 0; i < flaps->len; i++)
    tw_arrange_flip (desk->mirror, part, g_ptr_array_index (flaps, i), TW_FLAP_u_mm, 0.0);
}

gboolean
tw_arrange_mirror_on_core (TwArrangeMirror *self, const TwPart *part, gboolean alone, GError **error)
{
  Desk desk = { self, self->set->job, tw_placement_drawing (self->set->placement) };

  switch (part->kind) {
  case TW_KIND_TANK:
    mirror_tank (&desk, part);
    return TRUE;
  case TW_KIND_SHROUD:
    mirror_shroud (&desk, part);
    return TRUE;
  case TW_KIND_FAN:
    tw_arrange_flip (self, part, NULL, TW_FAN_u_mm, 0.0);
    return TRUE;
  case TW_KIND_PORT:
    return !alone || mirror_port (&desk, part, error);
  case TW_KIND_BAFFLE:
    return !alone || mirror_baffle (&desk, part, error);
  default:
    return TRUE;
  }
}
