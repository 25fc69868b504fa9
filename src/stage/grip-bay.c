/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * grip-bay.c - grips of what stands in the job frame: engine ports, hoses, volumes
 */
#include "stage/grip-private.h"

#include <math.h>

#define LEAST_LONG_MM 1.0 /* a volume is no shorter than this by dragging */

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

static void
list_body (TwGripMaker *self, const TwGripPlane *plane, const TwVolume *volume, TwPoint middle)
{
  tw_grip_begin (self, TW_GRIP_BODY, 0, tw_plane_lift (plane->plane, middle, plane->middle_mm),
                 N_ ("volume"));
  tw_grip_go (self, plane->across);
  tw_grip_change_ring (self, volume->outline, TW_CORNER_across_mm);
  tw_grip_change_ring (self, volume->hole, TW_CORNER_across_mm);
  tw_grip_go (self, plane->up);
  tw_grip_change_ring (self, volume->outline, TW_CORNER_up_mm);
  tw_grip_change_ring (self, volume->hole, TW_CORNER_up_mm);
  tw_grip_go (self, plane->third);
  tw_grip_change (self, TW_VOLUME_from_mm, 1.0);
  tw_grip_change (self, TW_VOLUME_to_mm, 1.0);
  tw_grip_end (self);
}

static void
list_range (TwGripMaker *self, const TwGripPlane *plane, const TwVolume *volume, TwPoint middle)
{
  static const char *const words[] = { N_ ("where it starts"), N_ ("where it ends") };
  const double places_mm[2] = { volume->from_mm, volume->to_mm };

  for (guint end = 0; end < 2; end++) {
    double other_mm = places_mm[1 - end], here_mm = places_mm[end];
    double room_mm = fabs (other_mm - here_mm) - LEAST_LONG_MM;
    gboolean is_lower = here_mm < other_mm;

    tw_grip_begin (self, TW_GRIP_EDGE, TW_GRIP_OTHER + end, tw_plane_lift (plane->plane, middle, here_mm),
                   words[end]);
    tw_grip_go (self, plane->third);
    tw_grip_change (self, end ? TW_VOLUME_to_mm : TW_VOLUME_from_mm, 1.0);
    tw_grip_limit (self, is_lower ? -G_MAXDOUBLE : -room_mm, is_lower ? room_mm : G_MAXDOUBLE);
    tw_grip_end (self);
  }
}

void
tw_grip_list_volume (TwGripMaker *self)
{
  const TwVolume *volume = (const TwVolume *)self->part;
  const TwPlacedVolume *placed = tw_placement_volume (self->placement, self->part->id);
  TwPoint middle;
  TwGripPlane plane;

  if (placed == NULL)
    return;
  plane = tw_grip_plane (placed->plane, (placed->from_mm + placed->to_mm) / 2.0);
  middle = tw_grip_ring_middle (volume->outline);
  list_body (self, &plane, volume, middle);
  list_range (self, &plane, volume, middle);
  /* corners and edges only where the outline is seen as it is drawn */
  if (!tw_grip_plane_is_seen (self, &plane))
    return;
  tw_grip_ring (self, &plane, volume->outline, TW_GRIP_OTHER + 2);
  tw_grip_ring (self, &plane, volume->hole, TW_GRIP_OTHER + 6);
}
