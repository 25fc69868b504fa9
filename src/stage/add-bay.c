/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * add-bay.c - new parts of the job frame: volumes, cores, engine ports, header tanks, openings and exits
 *
 * What the model cannot assume (sizes) is taken from the bay, to whole centimetres: a place to begin, which
 * the hand then changes.
 */
#include "stage/add-private.h"

#include <math.h>

#define ROUND_MM 10.0
#define BARE_MM 200.0    /* half a side of the room of a job with nothing in it */
#define SHARE_CORE 0.6   /* of the bay's width and height, dimensionless */
#define SHARE_VOLUME 0.2 /* of the bay's smaller side, dimensionless */
#define BEHIND_MM 150.0  /* of an engine port behind the core */
#define OVER_MM 50.0     /* of a header tank over what is there */

/* Sides of a header tank to begin with: a bottle of about a litre (common practice, no source). */
static const double vessel_mm[3] = { 120.0, 150.0, 80.0 };

static TwSolidBox
room_of (const TwAddWhere *where)
{
  TwSolidBox room;

  if (!tw_add_room (where->placement, &room))
    room = (TwSolidBox){ tw_vec (-BARE_MM, -BARE_MM, -BARE_MM), tw_vec (BARE_MM, BARE_MM, BARE_MM) };
  return room;
}

static TwVec
middle_of (TwSolidBox box)
{
  return tw_vec_scale (tw_vec_add (box.from, box.to), 0.5);
}

static double
rounded_mm (double value_mm)
{
  return MAX (round (value_mm / ROUND_MM) * ROUND_MM, ROUND_MM);
}

/* A point of the view in the coordinates of a plane that it shows square on. */
static TwPoint
in_plane (const TwStageView *view, TwPlane plane, TwPoint at)
{
  TwVec place = tw_vec_add_scaled (view->origin, at.x_mm, view->across);

  return tw_plane_drop (plane, tw_vec_add_scaled (place, at.y_mm, view->up));
}

/* The box that was drawn, else a square of @side_mm round the pointer, else round @middle: in the plane. */
static TwBox
box_in_plane (const TwAddWhere *where, TwPlane plane, double side_mm, TwVec middle)
{
  TwPoint at = tw_plane_drop (plane, tw_add_whole (middle));
  TwVec pointer;
  TwBox drawn;

  if (tw_add_box (where, &drawn)) {
    TwPoint low = in_plane (where->view, plane, (TwPoint){ drawn.x0_mm, drawn.y0_mm });
    TwPoint high = in_plane (where->view, plane, (TwPoint){ drawn.x1_mm, drawn.y1_mm });

    return tw_box_add_point (tw_box_add_point (TW_BOX_EMPTY, low), high);
  }
  if (tw_add_pointer (where, middle, &pointer))
    at = tw_plane_drop (plane, tw_add_whole (pointer));
  return (TwBox){ at.x_mm - side_mm / 2.0, at.y_mm - side_mm / 2.0, at.x_mm + side_mm / 2.0,
                  at.y_mm + side_mm / 2.0 };
}

static gboolean
has_bay (const TwJob *job)
{
  for (guint i = 0; i < tw_job_count (job, TW_KIND_VOLUME); i++)
    if (((const TwVolume *)tw_job_get (job, TW_KIND_VOLUME, i))->use == TW_USE_FREE)
      return TRUE;
  return FALSE;
}

gboolean
tw_add_volume (const TwAddWhere *where, TwPart *made, GError **error)
{
  TwSolidBox room = room_of (where);
  TwVec beside = middle_of (room);
  gboolean is_first = !has_bay (where->job);
  double least_mm = MIN (room.to.x - room.from.x, room.to.y - room.from.y), side_mm;
  TwPlane plane;
  TwBox box;

  if (!tw_add_plane (where->view, &plane))
    return tw_add_refuse (error, _ ("a volume is drawn in Front, Side or Plan"));
  side_mm = rounded_mm (SHARE_VOLUME * least_mm);
  if (is_first)
    side_mm = rounded_mm (MAX (room.to.x - room.from.x, room.to.y - room.from.y));
  else if (plane == TW_PLANE_SIDE)
    beside.z = room.to.z + side_mm / 2.0;
  else
    beside.x = room.to.x + side_mm / 2.0;
  box = box_in_plane (where, plane, side_mm, beside);
  /* the first one is the bay: a job without free room has nothing to stand in */
  tw_add_choose (made, TW_VOLUME_use, is_first ? TW_USE_FREE : TW_USE_TAKEN);
  tw_add_choose (made, TW_VOLUME_plane, (int)plane);
  tw_add_put (made, TW_VOLUME_from_mm, tw_plane_third_mm (plane, room.from));
  tw_add_put (made, TW_VOLUME_to_mm,
              MAX (tw_plane_third_mm (plane, room.to), tw_plane_third_mm (plane, room.from) + ROUND_MM));
  tw_add_corner (made, ((TwVolume *)made)->outline, (TwPoint){ box.x0_mm, box.y0_mm });
  tw_add_corner (made, ((TwVolume *)made)->outline, (TwPoint){ box.x1_mm, box.y0_mm });
  tw_add_corner (made, ((TwVolume *)made)->outline, (TwPoint){ box.x1_mm, box.y1_mm });
  tw_add_corner (made, ((TwVolume *)made)->outline, (TwPoint){ box.x0_mm, box.y1_mm });
  return TRUE;
}

gboolean
tw_add_new_core (const TwAddWhere *where, TwPart *made, GError **error)
{
  TwSolidBox room = room_of (where);
  TwVec at = middle_of (room), pointer;

  (void)error;
  if (tw_add_pointer (where, at, &pointer))
    at = pointer;
  at = tw_add_whole (at);
  tw_add_put (made, TW_CORE_x_mm, at.x);
  tw_add_put (made, TW_CORE_y_mm, at.y);
  tw_add_put (made, TW_CORE_z_mm, at.z);
  tw_add_put (made, TW_CORE_face_width_mm, MIN (rounded_mm (SHARE_CORE * (room.to.x - room.from.x)), 5000.0));
  tw_add_put (made, TW_CORE_face_height_mm,
              MIN (rounded_mm (SHARE_CORE * (room.to.y - room.from.y)), 5000.0));
  return TRUE;
}

gboolean
tw_add_engine_port (const TwAddWhere *where, TwPart *made, GError **error)
{
  TwVec at = middle_of (room_of (where)), pointer;
  guint n;
  const TwPlacedCore *cores = tw_placement_cores (where->placement, &n);

  (void)error;
  if (n > 0)
    at = tw_frame_to_job (&cores[0].frame, tw_vec (0.0, 0.0, cores[0].thickness_mm + BEHIND_MM));
  if (tw_add_pointer (where, at, &pointer))
    at = pointer;
  at = tw_add_whole (at);
  tw_add_put (made, TW_ENGINE_PORT_x_mm, at.x);
  tw_add_put (made, TW_ENGINE_PORT_y_mm, at.y);
  tw_add_put (made, TW_ENGINE_PORT_z_mm, at.z);
  return TRUE;
}

static double
along (TwVec axis, TwVec sizes)
{
  return fabs (axis.x) * sizes.x + fabs (axis.y) * sizes.y + fabs (axis.z) * sizes.z;
}

gboolean
tw_add_header_tank (const TwAddWhere *where, TwPart *made, GError **error)
{
  TwSolidBox room = room_of (where);
  TwVec sizes = tw_vec (vessel_mm[0], vessel_mm[1], vessel_mm[2]), at = middle_of (room), pointer;
  TwBox box;
  TwPlane plane;

  (void)error;
  at.y = room.to.y + OVER_MM + sizes.y / 2.0;
  if (tw_add_pointer (where, middle_of (room), &pointer))
    at = pointer;
  if (tw_add_plane (where->view, &plane) && tw_add_box (where, &box)) {
    double wide_mm = box.x1_mm - box.x0_mm, high_mm = box.y1_mm - box.y0_mm;
    TwVec look = tw_stage_view_depth (where->view);
    double deep_mm = along (look, sizes);

    at = tw_vec_add_scaled (at, (box.x0_mm + box.x1_mm) / 2.0 - where->points[0].x_mm, where->view->across);
    at = tw_vec_add_scaled (at, (box.y0_mm + box.y1_mm) / 2.0 - where->points[0].y_mm, where->view->up);
    sizes = tw_vec (
        fabs (look.x) * deep_mm + fabs (where->view->across.x) * wide_mm + fabs (where->view->up.x) * high_mm,
        fabs (look.y) * deep_mm + fabs (where->view->across.y) * wide_mm + fabs (where->view->up.y) * high_mm,
        fabs (look.z) * deep_mm + fabs (where->view->across.z) * wide_mm
            + fabs (where->view->up.z) * high_mm);
  } else {
    at = tw_add_whole (at);
  }
  tw_add_put (made, TW_HEADER_TANK_x_mm, at.x);
  tw_add_put (made, TW_HEADER_TANK_y_mm, at.y);
  tw_add_put (made, TW_HEADER_TANK_z_mm, at.z);
  tw_add_put (made, TW_HEADER_TANK_width_mm, CLAMP (sizes.x, 5.0, 2000.0));
  tw_add_put (made, TW_HEADER_TANK_height_mm, CLAMP (sizes.y, 5.0, 2000.0));
  tw_add_put (made, TW_HEADER_TANK_depth_mm, CLAMP (sizes.z, 5.0, 2000.0));
  return TRUE;
}

/* In the plane of the view; without points as large as the face, at the upstream or downstream end of the
 * bay. */
gboolean
tw_add_opening (const TwAddWhere *where, TwPart *made, GError **error)
{
  gboolean is_exit = made->kind == TW_KIND_EXIT;
  TwSolidBox room = room_of (where);
  TwVec middle = middle_of (room);
  TwPlane plane = TW_PLANE_FRONT;
  guint n;
  const TwPlacedCore *cores = tw_placement_cores (where->placement, &n);
  TwBox box;

  if (where->n_points > 0 && !tw_add_plane (where->view, &plane))
    return tw_add_refuse (error, _ ("an opening is drawn in Front, Side or Plan"));
  if (n > 0)
    middle = cores[0].frame.origin;
  box = box_in_plane (where, plane, n > 0 ? rounded_mm (cores[0].face_height_mm) : 2.0 * BARE_MM, middle);
  if (where->n_points == 0 && n > 0) {
    box.x0_mm = middle.x - cores[0].face_width_mm / 2.0;
    box.x1_mm = middle.x + cores[0].face_width_mm / 2.0;
  }
  tw_add_choose (made, TW_OPENING_plane, (int)plane);
  tw_add_put (made, TW_OPENING_at_mm, round (tw_plane_third_mm (plane, is_exit ? room.to : room.from)));
  tw_add_put (made, TW_OPENING_across_mm, (box.x0_mm + box.x1_mm) / 2.0);
  tw_add_put (made, TW_OPENING_up_mm, (box.y0_mm + box.y1_mm) / 2.0);
  tw_add_put (made, TW_OPENING_width_mm, CLAMP (box.x1_mm - box.x0_mm, 1.0, 5000.0));
  tw_add_put (made, TW_OPENING_height_mm, CLAMP (box.y1_mm - box.y0_mm, 1.0, 5000.0));
  return TRUE;
}
