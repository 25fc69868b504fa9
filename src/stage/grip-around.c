/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * grip-around.c - grips of what stands round the cores: header tanks, openings and exits
 */
#include "stage/grip-private.h"

/* --- header tanks --------------------------------------------------------------------------------------- */

/* Which figure is its size along u, v and w. */
static void
sizes_of (const TwPlacedHeaderTank *tank, guint fields[3])
{
  gboolean is_upright = tank->form == TW_VESSEL_UPRIGHT;

  if (tank->form == TW_VESSEL_BOX) {
    fields[0] = TW_HEADER_TANK_width_mm;
    fields[1] = TW_HEADER_TANK_height_mm;
    fields[2] = TW_HEADER_TANK_depth_mm;
    return;
  }
  fields[0] = is_upright ? TW_HEADER_TANK_diameter_mm : TW_HEADER_TANK_length_mm;
  fields[1] = is_upright ? TW_HEADER_TANK_length_mm : TW_HEADER_TANK_diameter_mm;
  fields[2] = TW_HEADER_TANK_diameter_mm;
}

/* The other side stays: the middle goes half the way. */
static void
list_side (TwGripMaker *self, const TwPlacedHeaderTank *tank, guint axis, gboolean far)
{
  static const char *const words[]
      = { N_ ("left side"), N_ ("right side"), N_ ("bottom"), N_ ("top"), N_ ("front"), N_ ("back") };
  const TwVec ways[3] = { tank->frame.u, tank->frame.v, tank->frame.w };
  const double halves_mm[3] = { tank->half.x, tank->half.y, tank->half.z };
  guint fields[3], nth = axis < 2 ? TW_GRIP_LEFT + 2 * axis + (far ? 1 : 0) : TW_GRIP_OTHER + (far ? 1 : 0);
  TwVec along = tw_vec_scale (ways[axis], far ? 1.0 : -1.0);

  sizes_of (tank, fields);
  tw_grip_begin (self, TW_GRIP_EDGE, nth, tw_vec_add_scaled (tank->frame.origin, halves_mm[axis], along),
                 words[2 * axis + (far ? 1 : 0)]);
  tw_grip_go (self, along);
  tw_grip_change (self, fields[axis], 1.0);
  tw_grip_change (self, TW_HEADER_TANK_x_mm, along.x / 2.0);
  tw_grip_change (self, TW_HEADER_TANK_y_mm, along.y / 2.0);
  tw_grip_change (self, TW_HEADER_TANK_z_mm, along.z / 2.0);
  tw_grip_end (self);
}

void
tw_grip_list_header_tank (TwGripMaker *self)
{
  static const guint axes[] = { TW_HEADER_TANK_x_mm, TW_HEADER_TANK_y_mm, TW_HEADER_TANK_z_mm };
  const TwPlacedHeaderTank *tank = tw_placement_header_tank (self->placement, self->part->id);

  if (tank == NULL)
    return;
  tw_grip_begin (self, TW_GRIP_BODY, 0, tank->frame.origin, N_ ("header tank"));
  tw_grip_go_axes (self, NULL, axes);
  tw_grip_end (self);
  for (guint axis = 0; axis < 3; axis++) {
    list_side (self, tank, axis, FALSE);
    list_side (self, tank, axis, TRUE);
  }
}

/* --- openings and exits --------------------------------------------------------------------------------- */

/* An exit has the fields of an opening. */
G_STATIC_ASSERT ((int)TW_OPENING_across_mm == (int)TW_EXIT_across_mm);
G_STATIC_ASSERT ((int)TW_OPENING_up_mm == (int)TW_EXIT_up_mm);
G_STATIC_ASSERT ((int)TW_OPENING_at_mm == (int)TW_EXIT_at_mm);
G_STATIC_ASSERT ((int)TW_OPENING_width_mm == (int)TW_EXIT_width_mm);
G_STATIC_ASSERT ((int)TW_OPENING_height_mm == (int)TW_EXIT_height_mm);
G_STATIC_ASSERT (offsetof (TwOpening, outline) == offsetof (TwExit, outline));

static void
list_body (TwGripMaker *self, const TwGripPlane *plane, const TwOpening *opening, TwPoint middle)
{
  gboolean has_outline = opening->outline->len > 0;

  tw_grip_begin (self, TW_GRIP_BODY, 0, tw_plane_lift (plane->plane, middle, plane->middle_mm),
                 N_ ("opening"));
  tw_grip_go (self, plane->across);
  if (has_outline)
    tw_grip_change_ring (self, opening->outline, TW_CORNER_across_mm);
  else
    tw_grip_change (self, TW_OPENING_across_mm, 1.0);
  tw_grip_go (self, plane->up);
  if (has_outline)
    tw_grip_change_ring (self, opening->outline, TW_CORNER_up_mm);
  else
    tw_grip_change (self, TW_OPENING_up_mm, 1.0);
  tw_grip_go (self, plane->third);
  tw_grip_change (self, TW_OPENING_at_mm, 1.0);
  tw_grip_end (self);
}

void
tw_grip_list_opening (TwGripMaker *self)
{
  static const TwGripBox fields
      = { TW_OPENING_across_mm, TW_OPENING_up_mm, TW_OPENING_width_mm, TW_OPENING_height_mm };
  const TwPlacedOpening *placed = tw_placement_opening (self->placement, self->part->id);
  const TwOpening *opening = (const TwOpening *)self->part;
  TwPoint middle = { opening->across_mm, opening->up_mm };
  TwGripPlane plane;
  TwFrame frame;
  TwBox box;

  if (placed == NULL)
    return;
  plane = tw_grip_plane (placed->plane, placed->at_mm);
  if (opening->outline->len > 0) {
    list_body (self, &plane, opening, tw_grip_ring_middle (opening->outline));
    if (tw_grip_plane_is_seen (self, &plane))
      tw_grip_ring (self, &plane, opening->outline, TW_GRIP_OTHER);
    return;
  }
  list_body (self, &plane, opening, middle);
  frame = (TwFrame){ tw_vec (0.0, 0.0, 0.0), plane.across, plane.up, plane.third };
  box = (TwBox){ middle.x_mm - opening->width_mm / 2.0, middle.y_mm - opening->height_mm / 2.0,
                 middle.x_mm + opening->width_mm / 2.0, middle.y_mm + opening->height_mm / 2.0 };
  tw_grip_sides (self, &frame, NULL, &fields, &box, placed->at_mm);
}
