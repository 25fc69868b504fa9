/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * grip-outline.c - grips of outlines: corners, edges, arcs and circles, as volumes and openings have them
 */
#include "stage/grip-private.h"

#include <math.h>

#define LEAST_RADIUS_MM 1.0 /* a circle is no smaller than this by dragging */
#define ROUND_BOW 1e-6      /* of the chord, dimensionless: as near a half circle is one */

TwGripPlane
tw_grip_plane (TwPlane plane, double middle_mm)
{
  const TwPoint zero = { 0.0, 0.0 };

  return (TwGripPlane){ plane, tw_plane_lift (plane, (TwPoint){ 1.0, 0.0 }, 0.0),
                        tw_plane_lift (plane, (TwPoint){ 0.0, 1.0 }, 0.0), tw_plane_lift (plane, zero, 1.0),
                        middle_mm };
}

gboolean
tw_grip_plane_is_seen (const TwGripMaker *self, const TwGripPlane *plane)
{
  return fabs (tw_vec_dot (tw_stage_view_depth (self->view), plane->third)) > 1.0 - 1e-9;
}

static TwPoint
corner_at (const TwOutlineCorner *corner)
{
  return (TwPoint){ corner->across_mm, corner->up_mm };
}

TwPoint
tw_grip_ring_middle (GPtrArray *ring)
{
  TwBox box = TW_BOX_EMPTY;

  for (guint i = 0; i < ring->len; i++)
    box = tw_box_add_point (box, corner_at (TW_ELEMENT (ring, TwOutlineCorner, i)));
  return (TwPoint){ (box.x0_mm + box.x1_mm) / 2.0, (box.y0_mm + box.y1_mm) / 2.0 };
}

void
tw_grip_change_ring (TwGripMaker *self, GPtrArray *ring, guint field)
{
  for (guint i = 0; i < ring->len; i++)
    tw_grip_change_of (self, g_ptr_array_index (ring, i), field, 1.0);
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
list_circle (TwGripMaker *self, const TwGripPlane *plane, GPtrArray *ring, guint first)
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
    TwVec along = tw_vec_add_scaled (tw_vec_scale (plane->across, out.x_mm), out.y_mm, plane->up);

    tw_grip_begin (self, TW_GRIP_EDGE, first + i, tw_plane_lift (plane->plane, at, plane->middle_mm),
                   N_ ("radius"));
    tw_grip_of (self, ends[0]);
    tw_grip_go (self, along);
    for (guint k = 0; k < 2; k++) {
      tw_grip_change_of (self, ends[k], TW_CORNER_bow_mm, sign);
      tw_grip_change_of (self, ends[k], TW_CORNER_across_mm, k ? -way.x_mm : way.x_mm);
      tw_grip_change_of (self, ends[k], TW_CORNER_up_mm, k ? -way.y_mm : way.y_mm);
    }
    tw_grip_limit (self, LEAST_RADIUS_MM - radius_mm, G_MAXDOUBLE);
    tw_grip_end (self);
  }
}

/* The edge that leaves a corner: a straight one goes square to itself with both its corners, of an arc the
 * middle alone, its rise. */
static void
list_edge (TwGripMaker *self, const TwGripPlane *plane, const TwPart *from, const TwPart *to)
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
                 tw_plane_lift (plane->plane, at, plane->middle_mm), is_arc ? N_ ("arc") : N_ ("edge"));
  tw_grip_of (self, from);
  tw_grip_go (self, tw_vec_add_scaled (tw_vec_scale (plane->across, right.x_mm), right.y_mm, plane->up));
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

void
tw_grip_ring (TwGripMaker *self, const TwGripPlane *plane, GPtrArray *ring, guint first)
{
  if (is_circle (ring)) {
    list_circle (self, plane, ring, first);
    return;
  }
  for (guint i = 0; i < ring->len; i++) {
    const TwPart *corner = g_ptr_array_index (ring, i);
    TwPoint at = corner_at ((const TwOutlineCorner *)corner);

    tw_grip_begin (self, TW_GRIP_ELEMENT, 0, tw_plane_lift (plane->plane, at, plane->middle_mm),
                   N_ ("corner"));
    tw_grip_of (self, corner);
    tw_grip_go (self, plane->across);
    tw_grip_change_of (self, corner, TW_CORNER_across_mm, 1.0);
    tw_grip_go (self, plane->up);
    tw_grip_change_of (self, corner, TW_CORNER_up_mm, 1.0);
    tw_grip_end (self);
    list_edge (self, plane, corner, g_ptr_array_index (ring, (i + 1) % ring->len));
  }
}
