/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * grip-bay.c - grips of what stands in the job frame: engine ports, hoses, volumes
 */
#include "stage/grip-private.h"

#include <math.h>

#define LEAST_LONG_MM 1.0 /* a volume is no shorter than this by dragging */
#define ROUND_BOW 1e-6    /* of the chord, dimensionless: as near a half circle is one */

void
tw_grip_list_engine_port (TwGripMaker *self)
{
  static const guint axes[] = { TW_ENGINE_PORT_x_mm, TW_ENGINE_PORT_y_mm, TW_ENGINE_PORT_z_mm };
  const TwPlacedEnginePort *port = tw_placement_engine_port (self->placement, self->part->id);

  if (port == NULL)
    return;
  tw_grip_begin (self, TW_GRIP_BODY, 0, port->at, N_ ("engine port"));
  tw_grip_go_axes (self, NULL, axes);
  tw_grip_end (self);
  tw_grip_begin (self, TW_GRIP_END, 0, port->tip, N_ ("stand-out"));
  if (port->has_axis) {
    tw_grip_go (self, port->axis);
    tw_grip_change (self, TW_ENGINE_PORT_stand_out_mm, 1.0);
  }
  tw_grip_end (self);
}

static TwVec
via_place (const TwVia *via)
{
  return tw_vec (via->x_mm, via->y_mm, via->z_mm);
}

void
tw_grip_list_hose (TwGripMaker *self)
{
  static const guint axes[] = { TW_VIA_x_mm, TW_VIA_y_mm, TW_VIA_z_mm };
  const TwVec ways[3] = { { 1.0, 0.0, 0.0 }, { 0.0, 1.0, 0.0 }, { 0.0, 0.0, 1.0 } };
  GPtrArray *vias = ((const TwHose *)self->part)->vias;

  if (vias->len == 0)
    return;
  tw_grip_begin (self, TW_GRIP_BODY, 0, via_place (TW_ELEMENT (vias, TwVia, vias->len / 2)),
                 N_ ("hose with all via-points"));
  for (guint k = 0; k < 3; k++) {
    tw_grip_go (self, ways[k]);
    for (guint i = 0; i < vias->len; i++)
      tw_grip_change_of (self, g_ptr_array_index (vias, i), axes[k], 1.0);
  }
  tw_grip_end (self);
  for (guint i = 0; i < vias->len; i++) {
    const TwPart *via = g_ptr_array_index (vias, i);

    tw_grip_begin (self, TW_GRIP_ELEMENT, 0, via_place ((const TwVia *)via), N_ ("via-point"));
    tw_grip_of (self, via);
    tw_grip_go_axes (self, via, axes);
    tw_grip_end (self);
  }
}

/* --- volumes -------------------------------------------------------------------------------------------- */

/* A volume with the directions of its plane in the job. */
typedef struct {
  const TwVolume *volume;
  TwPlane plane;
  TwVec across;
  TwVec up;
  TwVec third;
  double middle_mm; /* of its range, along the third axis */
} Prism;

static Prism
prism_of (const TwVolume *volume)
{
  TwPlane plane = (TwPlane)MAX (volume->plane, TW_DRAWN_FRONT);
  const TwPoint zero = { 0.0, 0.0 };

  return (Prism){ volume,
                  plane,
                  tw_plane_lift (plane, (TwPoint){ 1.0, 0.0 }, 0.0),
                  tw_plane_lift (plane, (TwPoint){ 0.0, 1.0 }, 0.0),
                  tw_plane_lift (plane, zero, 1.0),
                  (volume->from_mm + volume->to_mm) / 2.0 };
}

static TwPoint
corner_at (const TwOutlineCorner *corner)
{
  return (TwPoint){ corner->across_mm, corner->up_mm };
}

static TwBox
outline_box (GPtrArray *outline)
{
  TwBox box = TW_BOX_EMPTY;

  for (guint i = 0; i < outline->len; i++)
    box = tw_box_add_point (box, corner_at (TW_ELEMENT (outline, TwOutlineCorner, i)));
  return box;
}

static void
go_corners (TwGripMaker *self, GPtrArray *ring, guint field)
{
  for (guint i = 0; i < ring->len; i++)
    tw_grip_change_of (self, g_ptr_array_index (ring, i), field, 1.0);
}

static void
list_body (TwGripMaker *self, const Prism *prism, TwPoint middle)
{
  tw_grip_begin (self, TW_GRIP_BODY, 0, tw_plane_lift (prism->plane, middle, prism->middle_mm),
                 N_ ("volume"));
  tw_grip_go (self, prism->across);
  go_corners (self, prism->volume->outline, TW_CORNER_across_mm);
  go_corners (self, prism->volume->hole, TW_CORNER_across_mm);
  tw_grip_go (self, prism->up);
  go_corners (self, prism->volume->outline, TW_CORNER_up_mm);
  go_corners (self, prism->volume->hole, TW_CORNER_up_mm);
  tw_grip_go (self, prism->third);
  tw_grip_change (self, TW_VOLUME_from_mm, 1.0);
  tw_grip_change (self, TW_VOLUME_to_mm, 1.0);
  tw_grip_end (self);
}

static void
list_range (TwGripMaker *self, const Prism *prism, TwPoint middle)
{
  static const char *const words[] = { N_ ("where it starts"), N_ ("where it ends") };
  const double places_mm[2] = { prism->volume->from_mm, prism->volume->to_mm };

  for (guint end = 0; end < 2; end++) {
    double other_mm = places_mm[1 - end], here_mm = places_mm[end];
    double room_mm = fabs (other_mm - here_mm) - LEAST_LONG_MM;
    gboolean is_lower = here_mm < other_mm;

    tw_grip_begin (self, TW_GRIP_EDGE, TW_GRIP_OTHER + end, tw_plane_lift (prism->plane, middle, here_mm),
                   words[end]);
    tw_grip_go (self, prism->third);
    tw_grip_change (self, end ? TW_VOLUME_to_mm : TW_VOLUME_from_mm, 1.0);
    tw_grip_limit (self, is_lower ? -G_MAXDOUBLE : -room_mm, is_lower ? room_mm : G_MAXDOUBLE);
    tw_grip_end (self);
  }
}

/* Two corners with a bow of half their distance each: a circle. */
static gboolean
is_circle (GPtrArray *ring)
{
  const TwOutlineCorner *a, *b;
  double chord_mm;

  if (ring->len != 2)
    return FALSE;
  a = TW_ELEMENT (ring, TwOutlineCorner, 0);
  b = TW_ELEMENT (ring, TwOutlineCorner, 1);
  chord_mm = tw_point_distance_mm (corner_at (a), corner_at (b));
  return chord_mm > 0.0 && fabs (fabs (a->bow_mm) - chord_mm / 2.0) <= ROUND_BOW * chord_mm
         && fabs (a->bow_mm - b->bow_mm) <= ROUND_BOW * chord_mm;
}

/* Four handles, each of which makes the circle larger about its middle. */
static void
list_circle (TwGripMaker *self, const Prism *prism, GPtrArray *ring, guint first)
{
  const TwPart *ends[2] = { g_ptr_array_index (ring, 0), g_ptr_array_index (ring, 1) };
  TwPoint a = corner_at ((const TwOutlineCorner *)ends[0]), b = corner_at ((const TwOutlineCorner *)ends[1]);
  TwPoint middle = { (a.x_mm + b.x_mm) / 2.0, (a.y_mm + b.y_mm) / 2.0 };
  double radius_mm = tw_point_distance_mm (a, b) / 2.0;
  TwPoint way = { (a.x_mm - middle.x_mm) / radius_mm, (a.y_mm - middle.y_mm) / radius_mm };
  double sign = ((const TwOutlineCorner *)ends[0])->bow_mm < 0.0 ? -1.0 : 1.0;

  for (guint i = 0; i < 4; i++) {
    double c = i == 0 ? 1.0 : i == 1 ? -1.0 : 0.0, s = i == 2 ? 1.0 : i == 3 ? -1.0 : 0.0;
    TwPoint out = { c * way.x_mm - s * way.y_mm, s * way.x_mm + c * way.y_mm };
    TwPoint at = { middle.x_mm + radius_mm * out.x_mm, middle.y_mm + radius_mm * out.y_mm };
    TwVec along = tw_vec_add_scaled (tw_vec_scale (prism->across, out.x_mm), out.y_mm, prism->up);

    tw_grip_begin (self, TW_GRIP_EDGE, first + i, tw_plane_lift (prism->plane, at, prism->middle_mm),
                   N_ ("radius"));
    tw_grip_of (self, ends[0]);
    tw_grip_go (self, along);
    for (guint k = 0; k < 2; k++) {
      tw_grip_change_of (self, ends[k], TW_CORNER_bow_mm, sign);
      tw_grip_change_of (self, ends[k], TW_CORNER_across_mm, k ? -way.x_mm : way.x_mm);
      tw_grip_change_of (self, ends[k], TW_CORNER_up_mm, k ? -way.y_mm : way.y_mm);
    }
    tw_grip_limit (self, LEAST_LONG_MM - radius_mm, G_MAXDOUBLE);
    tw_grip_end (self);
  }
}

/* The edge that leaves a corner: a straight one goes square to itself with both its corners, of an arc the
 * middle alone, its rise. */
static void
list_edge (TwGripMaker *self, const Prism *prism, const TwPart *from, const TwPart *to)
{
  const TwOutlineCorner *start = (const TwOutlineCorner *)from;
  TwPoint a = corner_at (start), b = corner_at ((const TwOutlineCorner *)to);
  double chord_mm = tw_point_distance_mm (a, b);
  TwPoint right = { (b.y_mm - a.y_mm) / chord_mm, (a.x_mm - b.x_mm) / chord_mm };
  TwPoint at = { (a.x_mm + b.x_mm) / 2.0 + start->bow_mm * right.x_mm,
                 (a.y_mm + b.y_mm) / 2.0 + start->bow_mm * right.y_mm };
  gboolean is_arc = start->bow_mm < 0.0 || start->bow_mm > 0.0;
  double most_mm = TW_GEOM_BOW_LIMIT * chord_mm;

  if (!(chord_mm > 0.0))
    return;
  tw_grip_begin (self, is_arc ? TW_GRIP_BULGE : TW_GRIP_EDGE, 0,
                 tw_plane_lift (prism->plane, at, prism->middle_mm), is_arc ? N_ ("arc") : N_ ("edge"));
  tw_grip_of (self, from);
  tw_grip_go (self, tw_vec_add_scaled (tw_vec_scale (prism->across, right.x_mm), right.y_mm, prism->up));
  if (is_arc) {
    tw_grip_change_of (self, from, TW_CORNER_bow_mm, 1.0);
    tw_grip_limit (self, -most_mm - start->bow_mm, most_mm - start->bow_mm);
  }
  for (guint k = 0; !is_arc && k < 2; k++) {
    tw_grip_change_of (self, k ? to : from, TW_CORNER_across_mm, right.x_mm);
    tw_grip_change_of (self, k ? to : from, TW_CORNER_up_mm, right.y_mm);
  }
  tw_grip_end (self);
}

static void
list_ring (TwGripMaker *self, const Prism *prism, GPtrArray *ring, guint first)
{
  if (is_circle (ring)) {
    list_circle (self, prism, ring, first);
    return;
  }
  for (guint i = 0; i < ring->len; i++) {
    const TwPart *corner = g_ptr_array_index (ring, i);
    TwPoint at = corner_at ((const TwOutlineCorner *)corner);

    tw_grip_begin (self, TW_GRIP_ELEMENT, 0, tw_plane_lift (prism->plane, at, prism->middle_mm),
                   N_ ("corner"));
    tw_grip_of (self, corner);
    tw_grip_go (self, prism->across);
    tw_grip_change_of (self, corner, TW_CORNER_across_mm, 1.0);
    tw_grip_go (self, prism->up);
    tw_grip_change_of (self, corner, TW_CORNER_up_mm, 1.0);
    tw_grip_end (self);
    list_edge (self, prism, corner, g_ptr_array_index (ring, (i + 1) % ring->len));
  }
}

void
tw_grip_list_volume (TwGripMaker *self)
{
  Prism prism = prism_of ((const TwVolume *)self->part);
  TwBox box = outline_box (prism.volume->outline);
  TwPoint middle = { (box.x0_mm + box.x1_mm) / 2.0, (box.y0_mm + box.y1_mm) / 2.0 };

  if (tw_placement_volume (self->placement, self->part->id) == NULL)
    return;
  list_body (self, &prism, middle);
  list_range (self, &prism, middle);
  /* corners and edges only where the outline is seen as it is drawn */
  if (fabs (tw_vec_dot (tw_stage_view_depth (self->view), prism.third)) < 1.0 - 1e-9)
    return;
  list_ring (self, &prism, prism.volume->outline, TW_GRIP_OTHER + 2);
  list_ring (self, &prism, prism.volume->hole, TW_GRIP_OTHER + 6);
}
