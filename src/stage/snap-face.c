/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * snap-face.c - what stands on a core's face: fans, shrouds, flaps, and the face's own edges
 */
#include "stage/snap-private.h"

#define ALONG_LEAST 0.999 /* dimensionless: nearer to an axis of the core a freedom is along it */

/* Which axis of the core the freedom goes along: 0 u, 1 v, -1 neither. */
static int
axis_of (const TwSnapSearch *self, const TwPlacedCore *core, double *sign)
{
  double across = tw_vec_dot (self->freedom->along, core->frame.u);
  double up = tw_vec_dot (self->freedom->along, core->frame.v);

  *sign = fabs (across) > fabs (up) ? (across < 0.0 ? -1.0 : 1.0) : (up < 0.0 ? -1.0 : 1.0);
  return fabs (across) > ALONG_LEAST ? 0 : fabs (up) > ALONG_LEAST ? 1 : -1;
}

/* The edges of a box along one of its directions. */
static void
range_of (const TwBox *box, int axis, double range_mm[2])
{
  range_mm[0] = axis == 0 ? box->x0_mm : box->y0_mm;
  range_mm[1] = axis == 0 ? box->x1_mm : box->y1_mm;
}

/* Lines on the face that edges come to lie on, and what they are the edges of. */
typedef struct {
  const TwPlacedCore *core;
  int axis;
  double sign;          /* +1 or -1, dimensionless: whether the freedom grows along the axis */
  double offsets_mm[2]; /* from the grip's place to the edges of what is held, along the axis */
  guint n_offsets;
} Lines;

static void
add_line (TwSnapSearch *self, const Lines *lines, double line_mm, TwId other)
{
  TwVec at = tw_frame_from_job (&lines->core->frame, self->grip->place);
  double here_mm = lines->axis == 0 ? at.x : at.y;
  TwVec place = at;

  if (lines->axis == 0)
    place = tw_vec (line_mm, 0.0, at.z);
  else
    place = tw_vec (0.0, line_mm, at.z);
  for (guint i = 0; i < lines->n_offsets; i++)
    tw_snap_add_amount (self, TW_SNAP_TOUCHES, lines->sign * (line_mm - here_mm - lines->offsets_mm[i]),
                        other, tw_frame_to_job (&lines->core->frame, place));
}

static void
add_box_lines (TwSnapSearch *self, const Lines *lines, const TwBox *box, TwId other)
{
  double range_mm[2];

  range_of (box, lines->axis, range_mm);
  add_line (self, lines, range_mm[0], other);
  add_line (self, lines, range_mm[1], other);
}

static void
add_tank_walls (TwSnapSearch *self, const Lines *lines)
{
  guint n;
  const TwPlacedTank *tanks = tw_placement_tanks (self->bench->placement, &n);

  for (guint i = 0; i < n; i++) {
    TwBox box = { tanks[i].from.x, tanks[i].from.y, tanks[i].to.x, tanks[i].to.y };

    if (tw_id_equal (tanks[i].core, lines->core->id))
      add_box_lines (self, lines, &box, tanks[i].id);
  }
}

/* --- fans ----------------------------------------------------------------------------------------------- */

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
add_shares (TwSnapSearch *self, const TwPlacedFan *fan, const double range_mm[2])
{
  guint n = tw_id_is_none (fan->shroud) ? 1 : MAX (fans_of_shroud (self->bench->placement, fan->shroud), 1);

  for (guint i = 0; i < n; i++)
    tw_snap_add_value (self, TW_SNAP_SHARE_MIDDLE,
                       range_mm[0] + (range_mm[1] - range_mm[0]) * (2.0 * i + 1.0) / (2.0 * n), fan->shroud);
  if (n > 1)
    tw_snap_add_value (self, TW_SNAP_SHARE_MIDDLE, (range_mm[0] + range_mm[1]) / 2.0, fan->shroud);
}

static void
add_level_fans (TwSnapSearch *self, const TwPlacedFan *fan, const TwPlacedCore *core, int axis)
{
  guint n;
  const TwPlacedFan *fans = tw_placement_fans (self->bench->placement, &n);

  for (guint i = 0; i < n; i++)
    if (tw_id_equal (fans[i].core, fan->core) && !tw_snap_moves (self, fans[i].id))
      tw_snap_add_value_at (self, TW_SNAP_LEVEL_WITH, axis == 0 ? fans[i].centre.x_mm : fans[i].centre.y_mm,
                            fans[i].id,
                            tw_frame_to_job (&core->frame, tw_vec (fans[i].centre.x_mm, fans[i].centre.y_mm,
                                                                   fans[i].mounting_w_mm)));
}

/* The ring or the tips reach what they are near to. */
static void
add_diameters (TwSnapSearch *self, const TwPlacedFan *fan, const TwBox *mouth, TwId owner)
{
  const double room_mm[4] = { fan->centre.x_mm - mouth->x0_mm, mouth->x1_mm - fan->centre.x_mm,
                              fan->centre.y_mm - mouth->y0_mm, mouth->y1_mm - fan->centre.y_mm };
  gboolean is_ring = self->target->field == TW_FAN_ring_mm;
  guint n;
  const TwPlacedFan *fans = tw_placement_fans (self->bench->placement, &n);

  for (guint i = 0; i < 4; i++)
    tw_snap_add_value (self, TW_SNAP_TOUCHES, 2.0 * room_mm[i], owner);
  for (guint i = 0; i < n; i++) {
    if (tw_snap_moves (self, fans[i].id))
      continue;
    tw_snap_add_value (self, TW_SNAP_SAME_SIZE, is_ring ? fans[i].ring_mm : fans[i].swept_mm, fans[i].id);
    if (tw_id_equal (fans[i].core, fan->core))
      tw_snap_add_value (self, TW_SNAP_TOUCHES,
                         2.0 * tw_point_distance_mm (fan->centre, fans[i].centre) - fans[i].ring_mm,
                         fans[i].id);
  }
}

static void
add_of_fan (TwSnapSearch *self, const TwPlacedFan *fan)
{
  const TwPlacedCore *core = tw_placement_core (self->bench->placement, fan->core);
  const TwPlacedShroud *shroud = tw_placement_shroud (self->bench->placement, fan->shroud);
  const TwBox *mouth = shroud != NULL ? &shroud->mouth : &core->face;
  TwId owner = shroud != NULL ? shroud->id : core->id;
  double range_mm[2], sign;
  int axis = axis_of (self, core, &sign);

  if (self->grip->kind != TW_GRIP_BODY) {
    if (self->target->field != TW_FAN_depth_mm)
      add_diameters (self, fan, mouth, owner);
    return;
  }
  range_of (mouth, axis, range_mm);
  tw_snap_add_value_at (self, TW_SNAP_FACE_MIDDLE, 0.0, fan->core,
                        tw_frame_to_job (&core->frame, tw_vec (0.0, 0.0, fan->mounting_w_mm)));
  add_shares (self, fan, range_mm);
  tw_snap_add_value (self, TW_SNAP_TOUCHES, range_mm[0] + fan->ring_mm / 2.0, owner);
  tw_snap_add_value (self, TW_SNAP_TOUCHES, range_mm[1] - fan->ring_mm / 2.0, owner);
  add_level_fans (self, fan, core, axis);
}

/* --- shrouds and flaps ---------------------------------------------------------------------------------- */

static const TwPlacedFlap *
held_flap (const TwSnapSearch *self, TwId shroud)
{
  guint n;
  const TwPlacedFlap *flaps = tw_placement_flaps (self->bench->placement, &n);

  for (guint i = 0; i < n; i++)
    if (tw_id_equal (flaps[i].shroud, shroud) && tw_id_equal (flaps[i].id, self->grip->element))
      return &flaps[i];
  return NULL;
}

static void
add_other_shrouds (TwSnapSearch *self, const Lines *lines)
{
  guint n;
  const TwPlacedShroud *shrouds = tw_placement_shrouds (self->bench->placement, &n);

  for (guint i = 0; i < n; i++)
    if (tw_id_equal (shrouds[i].core, lines->core->id) && !tw_snap_moves (self, shrouds[i].id))
      add_box_lines (self, lines, &shrouds[i].mouth, shrouds[i].id);
}

static void
add_of_shroud (TwSnapSearch *self, const TwPlacedShroud *shroud)
{
  const TwPlacedCore *core = tw_placement_core (self->bench->placement, shroud->core);
  const TwPlacedFlap *flap = held_flap (self, shroud->id);
  const TwBox *box = flap != NULL ? &flap->opening : &shroud->mouth;
  gboolean is_whole = self->grip->kind == TW_GRIP_BODY || self->grip->kind == TW_GRIP_ELEMENT;
  Lines lines = { core, 0, 1.0, { 0.0, 0.0 }, 1 };
  double range_mm[2];

  lines.axis = axis_of (self, core, &lines.sign);
  if (lines.axis < 0)
    return;
  if (is_whole) {
    range_of (box, lines.axis, range_mm);
    lines.n_offsets = 2;
    lines.offsets_mm[0] = (range_mm[0] - range_mm[1]) / 2.0;
    lines.offsets_mm[1] = -lines.offsets_mm[0];
    tw_snap_add_value_at (self, TW_SNAP_FACE_MIDDLE, 0.0, core->id, core->frame.origin);
  }
  add_box_lines (self, &lines, &core->face, core->id);
  if (flap != NULL) {
    add_box_lines (self, &lines, &shroud->mouth, shroud->id);
    return;
  }
  add_tank_walls (self, &lines);
  add_other_shrouds (self, &lines);
}

void
tw_snap_faces (TwSnapSearch *self)
{
  const TwPlacedFan *fan = tw_placement_fan (self->bench->placement, self->grip->part);
  const TwPlacedShroud *shroud = tw_placement_shroud (self->bench->placement, self->grip->part);

  if (fan != NULL)
    add_of_fan (self, fan);
  else if (shroud != NULL)
    add_of_shroud (self, shroud);
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
        || fans[i].is_pusher != moved->is_pusher || apart_mm < 1e-6 || fabs (apart_mm - wanted_mm) > best_mm)
      continue;
    best_mm = fabs (apart_mm - wanted_mm);
    centre->x_mm = fans[i].centre.x_mm + (from.x_mm - fans[i].centre.x_mm) * wanted_mm / apart_mm;
    centre->y_mm = fans[i].centre.y_mm + (from.y_mm - fans[i].centre.y_mm) * wanted_mm / apart_mm;
    *other = fans[i].id;
    found = TRUE;
  }
  return found;
}
