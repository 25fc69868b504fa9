/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * grip-face.c - grips of cores, and of what stands before or behind their face: shrouds, flaps, fans
 */
#include "stage/grip-private.h"

/* Of a side or corner: +1, -1 or 0 along u and v (dimensionless). */
static const int sides[8][2]
    = { { -1, 0 }, { 1, 0 }, { 0, -1 }, { 0, 1 }, { -1, -1 }, { 1, -1 }, { -1, 1 }, { 1, 1 } };

const char *
tw_grip_side_words (guint nth)
{
  static const char *const words[]
      = { N_ ("left edge"),         N_ ("right edge"),        N_ ("lower edge"),
          N_ ("upper edge"),        N_ ("lower left corner"), N_ ("lower right corner"),
          N_ ("upper left corner"), N_ ("upper right corner") };

  g_return_val_if_fail (nth < G_N_ELEMENTS (words), NULL);
  return words[nth];
}

static TwVec
side_place (const TwFrame *frame, const TwBox *box, guint nth, double w_mm)
{
  double u_mm = (box->x0_mm + box->x1_mm) / 2.0 + sides[nth][0] * (box->x1_mm - box->x0_mm) / 2.0;
  double v_mm = (box->y0_mm + box->y1_mm) / 2.0 + sides[nth][1] * (box->y1_mm - box->y0_mm) / 2.0;

  return tw_frame_to_job (frame, tw_vec (u_mm, v_mm, w_mm));
}

static void
begin_side (TwGripMaker *self, const TwFrame *frame, const TwBox *box, guint nth, double w_mm)
{
  tw_grip_begin (self, nth < TW_GRIP_BOTTOM_LEFT ? TW_GRIP_EDGE : TW_GRIP_CORNER, nth,
                 side_place (frame, box, nth, w_mm), tw_grip_side_words (nth));
}

void
tw_grip_sides (TwGripMaker *self,
               const TwFrame *frame,
               const TwPart *element,
               const TwGripBox *fields,
               const TwBox *box,
               double w_mm)
{
  for (guint nth = 0; nth < G_N_ELEMENTS (sides); nth++) {
    int across = sides[nth][0], up = sides[nth][1];

    begin_side (self, frame, box, nth, w_mm);
    tw_grip_of (self, element);
    if (across != 0) {
      tw_grip_go (self, tw_vec_scale (frame->u, across));
      tw_grip_change_of (self, element, fields->width, 1.0);
      tw_grip_change_of (self, element, fields->u, across / 2.0);
    }
    if (up != 0) {
      tw_grip_go (self, tw_vec_scale (frame->v, up));
      tw_grip_change_of (self, element, fields->height, 1.0);
      tw_grip_change_of (self, element, fields->v, up / 2.0);
    }
    tw_grip_end (self);
  }
}

/* --- cores ---------------------------------------------------------------------------------------------- */

/* The other side of the face stays: its middle, which is the core's place, goes half the way. */
static void
go_face (TwGripMaker *self, TwVec along, guint size)
{
  tw_grip_go (self, along);
  tw_grip_change (self, size, 1.0);
  tw_grip_change (self, TW_CORE_x_mm, along.x / 2.0);
  tw_grip_change (self, TW_CORE_y_mm, along.y / 2.0);
  tw_grip_change (self, TW_CORE_z_mm, along.z / 2.0);
}

static void
list_header_ends (TwGripMaker *self, const TwPlacedCore *core)
{
  double w_mm = (core->header_w_from_mm + core->header_w_to_mm) / 2.0;

  for (guint i = 0; i < 4; i++) {
    const TwHeaderSide *side = &core->sides[i / 2];
    double sign = i % 2 ? 1.0 : -1.0, end_mm = i % 2 ? core->header_end_mm : core->header_start_mm;
    TwVec at = tw_header_point (side, end_mm, -core->header_thickness_mm / 2.0, w_mm);

    tw_grip_begin (self, TW_GRIP_END, i, tw_frame_to_job (&core->frame, at), N_ ("header plate's end"));
    tw_grip_go (self, tw_frame_turn_to_job (&core->frame, tw_vec_scale (side->along, sign)));
    tw_grip_change (self, TW_CORE_header_reach_mm, 1.0);
    tw_grip_end (self);
  }
}

void
tw_grip_list_core (TwGripMaker *self)
{
  static const guint axes[] = { TW_CORE_x_mm, TW_CORE_y_mm, TW_CORE_z_mm };
  const TwPlacedCore *core = tw_placement_core (self->placement, self->part->id);

  if (core == NULL)
    return;
  tw_grip_begin (self, TW_GRIP_BODY, 0, core->frame.origin, N_ ("core"));
  tw_grip_go_axes (self, NULL, axes);
  tw_grip_end (self);
  for (guint nth = 0; nth < G_N_ELEMENTS (sides); nth++) {
    begin_side (self, &core->frame, &core->face, nth, 0.0);
    if (sides[nth][0] != 0)
      go_face (self, tw_vec_scale (core->frame.u, sides[nth][0]), TW_CORE_face_width_mm);
    if (sides[nth][1] != 0)
      go_face (self, tw_vec_scale (core->frame.v, sides[nth][1]), TW_CORE_face_height_mm);
    tw_grip_end (self);
  }
  list_header_ends (self, core);
}

/* --- shrouds -------------------------------------------------------------------------------------------- */

static TwPoint
box_middle (const TwBox *box)
{
  return (TwPoint){ (box->x0_mm + box->x1_mm) / 2.0, (box->y0_mm + box->y1_mm) / 2.0 };
}

static void
go_on_face (TwGripMaker *self, const TwPlacedCore *core, const TwPart *element, guint u, guint v)
{
  tw_grip_go (self, core->frame.u);
  tw_grip_change_of (self, element, u, 1.0);
  tw_grip_go (self, core->frame.v);
  tw_grip_change_of (self, element, v, 1.0);
}

static void
list_flaps (TwGripMaker *self, const TwPlacedShroud *shroud, const TwPlacedCore *core)
{
  static const TwGripBox fields = { TW_FLAP_u_mm, TW_FLAP_v_mm, TW_FLAP_width_mm, TW_FLAP_height_mm };
  guint n;
  const TwPlacedFlap *flaps = tw_placement_flaps (self->placement, &n);

  for (guint i = 0; i < n; i++) {
    const TwPart *element = tw_part_element (self->part, flaps[i].id, NULL);
    TwPoint middle = box_middle (&flaps[i].opening);

    if (!tw_id_equal (flaps[i].shroud, shroud->id) || element == NULL)
      continue;
    tw_grip_begin (self, TW_GRIP_ELEMENT, 0,
                   tw_frame_to_job (&core->frame, tw_vec (middle.x_mm, middle.y_mm, shroud->fans_w_mm)),
                   N_ ("flap"));
    tw_grip_of (self, element);
    go_on_face (self, core, element, TW_FLAP_u_mm, TW_FLAP_v_mm);
    tw_grip_end (self);
    tw_grip_sides (self, &core->frame, element, &fields, &flaps[i].opening, shroud->fans_w_mm);
  }
}

void
tw_grip_list_shroud (TwGripMaker *self)
{
  static const TwGripBox fields = { TW_SHROUD_u_mm, TW_SHROUD_v_mm, TW_SHROUD_width_mm, TW_SHROUD_height_mm };
  const TwPlacedShroud *shroud = tw_placement_shroud (self->placement, self->part->id);
  const TwPlacedCore *core = shroud != NULL ? tw_placement_core (self->placement, shroud->core) : NULL;
  TwPoint middle;
  TwVec at;

  if (core == NULL)
    return;
  middle = box_middle (&shroud->mouth);
  at = tw_vec (middle.x_mm, middle.y_mm, shroud->mouth_w_mm);
  tw_grip_begin (self, TW_GRIP_BODY, 0, tw_frame_to_job (&core->frame, at), N_ ("shroud"));
  go_on_face (self, core, NULL, TW_SHROUD_u_mm, TW_SHROUD_v_mm);
  tw_grip_end (self);
  tw_grip_sides (self, &core->frame, NULL, &fields, &shroud->mouth, shroud->mouth_w_mm);

  at.z = shroud->fans_w_mm;
  tw_grip_begin (self, TW_GRIP_EDGE, TW_GRIP_OTHER, tw_frame_to_job (&core->frame, at), N_ ("plenum depth"));
  tw_grip_go (self, tw_vec_scale (core->frame.w, shroud->is_before ? -1.0 : 1.0));
  tw_grip_change (self, TW_SHROUD_plenum_mm, 1.0);
  tw_grip_end (self);
  list_flaps (self, shroud, core);
}

/* --- fans ----------------------------------------------------------------------------------------------- */

static void
list_diameter (TwGripMaker *self, const TwPlacedFan *fan, const TwPlacedCore *core, guint nth)
{
  gboolean is_ring = nth == TW_GRIP_LEFT || nth == TW_GRIP_BOTTOM;
  double across_mm = is_ring ? fan->ring_mm : fan->swept_mm;
  TwBox box = { fan->centre.x_mm - across_mm / 2.0, fan->centre.y_mm - across_mm / 2.0,
                fan->centre.x_mm + across_mm / 2.0, fan->centre.y_mm + across_mm / 2.0 };
  TwVec way = tw_vec (sides[nth][0], sides[nth][1], 0.0);

  tw_grip_begin (self, TW_GRIP_EDGE, nth, side_place (&core->frame, &box, nth, fan->mounting_w_mm),
                 is_ring ? N_ ("ring diameter") : N_ ("swept diameter"));
  tw_grip_go (self, tw_frame_turn_to_job (&core->frame, way));
  tw_grip_change (self, is_ring ? TW_FAN_ring_mm : TW_FAN_swept_mm, 2.0);
  tw_grip_limit (self, (fan->hub_mm - across_mm) / 2.0, G_MAXDOUBLE);
  tw_grip_end (self);
}

void
tw_grip_list_fan (TwGripMaker *self)
{
  const TwPlacedFan *fan = tw_placement_fan (self->placement, self->part->id);
  const TwPlacedCore *core = fan != NULL ? tw_placement_core (self->placement, fan->core) : NULL;
  TwVec at;

  if (core == NULL)
    return;
  at = tw_vec (fan->centre.x_mm, fan->centre.y_mm, fan->mounting_w_mm);
  tw_grip_begin (self, TW_GRIP_BODY, 0, tw_frame_to_job (&core->frame, at), N_ ("fan"));
  go_on_face (self, core, NULL, TW_FAN_u_mm, TW_FAN_v_mm);
  tw_grip_end (self);
  list_diameter (self, fan, core, TW_GRIP_RIGHT);
  list_diameter (self, fan, core, TW_GRIP_TOP);
  if (fan->ring_mm > fan->swept_mm) {
    list_diameter (self, fan, core, TW_GRIP_LEFT);
    list_diameter (self, fan, core, TW_GRIP_BOTTOM);
  }
  at.z = fan->back_w_mm;
  tw_grip_begin (self, TW_GRIP_EDGE, TW_GRIP_OTHER, tw_frame_to_job (&core->frame, at), N_ ("fan's depth"));
  tw_grip_go (self, tw_vec_scale (core->frame.w, fan->is_pusher ? -1.0 : 1.0));
  tw_grip_change (self, TW_FAN_depth_mm, 1.0);
  tw_grip_end (self);
}
