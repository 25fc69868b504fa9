/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/frontal-private.h"

#include <math.h>

/* Shadows are kept to this fraction of a millimetre, so that pieces of one part that meet at a cut have the
 * very same corners there. */
#define GRID_PER_MM 1e9

static void
clear_room (gpointer data)
{
  TwRoom *room = data;

  g_free (room->halves);
}

GArray *
tw_frontal_rooms (const TwPlacement *placement)
{
  GArray *rooms = g_array_new (FALSE, FALSE, sizeof (TwRoom));
  guint n;
  const TwPlacedSolid *solids = tw_placement_solids (placement, &n);

  g_array_set_clear_func (rooms, clear_room);
  for (guint i = 0; i < n; i++) {
    TwRoom room;

    if (solids[i].role != TW_SOLID_FREE)
      continue;
    room.bounds = tw_convex_bounds (solids[i].convex);
    room.n_halves = tw_convex_n_faces (solids[i].convex);
    room.halves = g_new (TwHalfSpace, room.n_halves);
    for (guint k = 0; k < room.n_halves; k++)
      room.halves[k] = tw_convex_face (solids[i].convex, k);
    g_array_append_val (rooms, room);
  }
  if (rooms->len > 0)
    return rooms;
  g_array_unref (rooms);
  return NULL;
}

/* From a half-space in core coordinates; @normal need not be of length 1. */
static TwHalfSpace
half_of (const TwFrame *frame, TwVec normal, TwVec through)
{
  TwHalfSpace half = { .normal = tw_frame_turn_to_job (frame, tw_vec_unit (normal)) };

  half.offset_mm = tw_vec_dot (half.normal, tw_frame_to_job (frame, through));
  return half;
}

/* Where the air that passes @uvw meets the plane of the face. */
static TwPoint
along_air (const TwLight *self, TwVec uvw)
{
  double t = uvw.z / self->air.z;

  return (TwPoint){ uvw.x - self->air.x * t, uvw.y - self->air.y * t };
}

static TwMap
view_to_face (const TwLight *self)
{
  const TwFrame *frame = &self->core->frame;
  TwPoint across = along_air (self, tw_frame_turn_from_job (frame, self->view.u));
  TwPoint up = along_air (self, tw_frame_turn_from_job (frame, self->view.v));

  return (TwMap){ .xx = across.x_mm, .xy = up.x_mm, .yx = across.y_mm, .yy = up.y_mm };
}

TwLight
tw_light_on (TwGeos *geos, const TwPlacedCore *core, const GArray *rooms)
{
  const TwFrame *frame = &core->frame;
  TwVec air = tw_frame_turn_from_job (frame, core->air);
  TwBox face = core->face;
  TwLight self = { .geos = geos, .core = core, .air = air, .rooms = rooms };

  self.upstream = half_of (frame, tw_vec (0.0, 0.0, 1.0), tw_vec (0.0, 0.0, 0.0));
  self.beam[0] = half_of (frame, tw_vec (-air.z, 0.0, air.x), tw_vec (face.x0_mm, 0.0, 0.0));
  self.beam[1] = half_of (frame, tw_vec (air.z, 0.0, -air.x), tw_vec (face.x1_mm, 0.0, 0.0));
  self.beam[2] = half_of (frame, tw_vec (0.0, -air.z, air.y), tw_vec (0.0, face.y0_mm, 0.0));
  self.beam[3] = half_of (frame, tw_vec (0.0, air.z, -air.y), tw_vec (0.0, face.y1_mm, 0.0));
  self.view = tw_frame_along (frame->origin, core->air);
  self.to_face = view_to_face (&self);
  return self;
}

/* The least and greatest of normal · p over a box, against the half-space's plane. */
static void
box_over (TwSolidBox box, TwHalfSpace half, double *least_mm, double *most_mm)
{
  TwVec middle = tw_vec_scale (tw_vec_add (box.from, box.to), 0.5);
  TwVec reach = tw_vec_scale (tw_vec_subtract (box.to, box.from), 0.5);
  double at_mm = tw_vec_dot (half.normal, middle) - half.offset_mm;
  double spread_mm
      = fabs (half.normal.x) * reach.x + fabs (half.normal.y) * reach.y + fabs (half.normal.z) * reach.z;

  *least_mm = at_mm - spread_mm;
  *most_mm = at_mm + spread_mm;
}

/* Clips @solid (taken) to all of @halves; NULL when nothing is left. */
static TwConvex *
clip (TwConvex *solid, const TwHalfSpace *halves, guint n_halves)
{
  for (guint i = 0; i < n_halves; i++) {
    double least_mm, most_mm;
    TwConvex *kept;

    box_over (tw_convex_bounds (solid), halves[i], &least_mm, &most_mm);
    if (most_mm <= 0.0)
      continue;
    kept = least_mm >= 0.0 ? NULL : tw_convex_clip (solid, halves[i]);
    tw_convex_unref (solid);
    if (kept == NULL || tw_convex_is_empty (kept)) {
      g_clear_pointer (&kept, tw_convex_unref);
      return NULL;
    }
    solid = kept;
  }
  return solid;
}

static gboolean
boxes_meet (TwSolidBox a, TwSolidBox b)
{
  return a.from.x < b.to.x && b.from.x < a.to.x && a.from.y < b.to.y && b.from.y < a.to.y && a.from.z < b.to.z
         && b.from.z < a.to.z;
}

static double
on_grid (double value_mm, double least_mm, double most_mm)
{
  return CLAMP (rint (value_mm * GRID_PER_MM) / GRID_PER_MM, least_mm, most_mm);
}

void
tw_light_gather_area (TwArea *area, TwGathered *gathered)
{
  if (tw_area_is_empty (area))
    tw_area_unref (area);
  else
    g_ptr_array_add (gathered->areas, area);
}

/* Shadow of a polyhedron of which all shades the face. */
static void
gather_shadow (const TwLight *self, const TwConvex *solid, TwGathered *gathered)
{
  guint n = tw_convex_n_points (solid);
  g_autofree TwPoint *points = g_new (TwPoint, n);
  TwBox face = self->core->face;

  for (guint i = 0; i < n; i++) {
    TwVec uvw = tw_frame_from_job (&self->core->frame, tw_convex_point (solid, i));
    TwPoint at = along_air (self, uvw);

    points[i].x_mm = on_grid (at.x_mm, face.x0_mm, face.x1_mm);
    points[i].y_mm = on_grid (at.y_mm, face.y0_mm, face.y1_mm);
    gathered->nearest_mm = MIN (gathered->nearest_mm, MAX (0.0, -uvw.z / self->air.z));
  }
  tw_light_gather_area (tw_area_new_hull (self->geos, points, n), gathered);
}

void
tw_light_gather_polyhedron (const TwLight *self, TwConvex *solid, TwGathered *gathered)
{
  TwConvex *lit = clip (tw_convex_ref (solid), &self->upstream, 1);

  if (lit != NULL)
    lit = clip (lit, self->beam, G_N_ELEMENTS (self->beam));
  if (lit == NULL)
    return;
  if (self->rooms == NULL)
    gather_shadow (self, lit, gathered);
  for (guint i = 0; self->rooms != NULL && i < self->rooms->len; i++) {
    const TwRoom *room = &g_array_index (self->rooms, TwRoom, i);
    TwConvex *in;

    if (!boxes_meet (tw_convex_bounds (lit), room->bounds))
      continue;
    in = clip (tw_convex_ref (lit), room->halves, room->n_halves);
    if (in != NULL)
      gather_shadow (self, in, gathered);
    g_clear_pointer (&in, tw_convex_unref);
  }
  tw_convex_unref (lit);
}

TwArea *
tw_light_shadow (const TwLight *self, const TwPlacedSolid *solids, guint n_solids, double *distance_mm)
{
  g_autoptr (GPtrArray) areas = g_ptr_array_new_with_free_func ((GDestroyNotify)tw_area_unref);
  TwGathered gathered = { .areas = areas, .nearest_mm = G_MAXDOUBLE };

  for (guint i = 0; i < n_solids;) {
    guint end = tw_light_gather_tubes (self, solids, n_solids, i, &gathered);

    if (end == i)
      tw_light_gather_polyhedron (self, solids[end++].convex, &gathered);
    i = end;
  }
  *distance_mm = areas->len > 0 ? gathered.nearest_mm : 0.0;
  if (areas->len == 1)
    return tw_area_ref (g_ptr_array_index (areas, 0));
  return tw_area_union (self->geos, (TwArea *const *)areas->pdata, areas->len);
}
