/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/placement-private.h"

#include "base/outline.h"

G_STATIC_ASSERT ((int)TW_DRAWN_FRONT == (int)TW_PLANE_FRONT);
G_STATIC_ASSERT ((int)TW_DRAWN_SIDE == (int)TW_PLANE_SIDE);
G_STATIC_ASSERT ((int)TW_DRAWN_PLAN == (int)TW_PLANE_PLAN);

static TwOutline
outline_of (GPtrArray *list)
{
  TwCorner *corners = g_new0 (TwCorner, list->len);

  for (guint i = 0; i < list->len; i++) {
    const TwOutlineCorner *corner = TW_ELEMENT (list, TwOutlineCorner, i);

    corners[i].at = (TwPoint){ tw_known_or (corner->across_mm, 0.0), tw_known_or (corner->up_mm, 0.0) };
    corners[i].bow_mm = tw_known_or (corner->bow_mm, 0.0);
  }
  return (TwOutline){ .corners = corners, .n_corners = list->len };
}

TwArea *
tw_placement_outline_area (GPtrArray *outline, GPtrArray *hole, TwGeos *geos)
{
  gboolean was_well = tw_geos_trouble (geos) == NULL;
  TwOutline rings[2] = { outline_of (outline), hole != NULL ? outline_of (hole) : (TwOutline){ 0 } };
  TwArea *area = tw_area_new_outline (geos, rings, rings[1].n_corners > 0 ? 2 : 1);

  if (was_well && tw_area_is_empty (area))
    tw_geos_clear_trouble (geos);
  g_free ((gpointer)rings[0].corners);
  g_free ((gpointer)rings[1].corners);
  return area;
}

static void
add_pieces (TwPlacement *self, TwGeos *geos, TwPlacedVolume *placed)
{
  g_autoptr (GPtrArray) pieces = tw_area_convex_pieces (geos, placed->outline);

  placed->first_solid = self->solids->len;
  for (guint i = 0; i < pieces->len; i++) {
    TwRing ring = tw_area_ring (g_ptr_array_index (pieces, i), 0);

    tw_placement_add_solid (self, placed->id, TW_ID_NONE, placed->is_free ? TW_SOLID_FREE : TW_SOLID_TAKEN,
                            tw_convex_new_plane_prism (placed->plane, ring.points, ring.n_points,
                                                       placed->from_mm, placed->to_mm));
  }
  placed->n_solids = self->solids->len - placed->first_solid;
}

static const char *
place_volume (const TwVolume *volume, TwGeos *geos, TwPlacedVolume *placed)
{
  if (!isfinite (volume->from_mm) || !isfinite (volume->to_mm))
    return N_ ("where it starts and ends is not known");
  if (fabs (volume->to_mm - volume->from_mm) <= 0.0)
    return N_ ("it ends where it starts");

  *placed = (TwPlacedVolume){
    .id = volume->head.id,
    .is_free = volume->use == TW_USE_FREE,
    .kind = volume->use == TW_USE_FREE ? -1 : MAX (volume->kind, TW_TAKEN_STRUCTURE),
    .plane = (TwPlane)MAX (volume->plane, TW_DRAWN_FRONT),
    .from_mm = MIN (volume->from_mm, volume->to_mm),
    .to_mm = MAX (volume->from_mm, volume->to_mm),
    .outline = tw_placement_outline_area (volume->outline, volume->hole, geos),
  };
  if (tw_area_is_empty (placed->outline)) {
    tw_area_unref (placed->outline);
    return N_ ("its outline holds nothing, or crosses itself");
  }
  return NULL;
}

void
tw_placement_place_volumes (TwPlacement *self, TwGeos *geos)
{
  guint n = tw_drawing_count (self->drawing, TW_KIND_VOLUME);

  for (guint i = 0; i < n; i++) {
    const TwVolume *volume = TW_DRAWING_VOLUME (self->drawing, i);
    TwPlacedVolume placed;
    const char *why = place_volume (volume, geos, &placed);

    if (why == NULL)
      add_pieces (self, geos, &placed);
    tw_placement_add (self, &volume->head, self->volumes, &placed, why);
  }
}
