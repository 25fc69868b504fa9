/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * add-element.c - new elements: corners, holes, via-points, flaps, plugged tubes
 */
#include "stage/add-private.h"

#include "layout/tube-grid.h"

#include <math.h>

#define SHARE_FLAP 0.6 /* of the free circle's square that a flap takes, dimensionless */
#define LEAST_FLAP_MM 5.0
#define SHARE_HOLE 0.5 /* of the free circle's square that a hole takes, dimensionless */
#define END_SHARE 0.05 /* of an edge or leg that stays free at its ends, dimensionless */

/* An element being added to the chosen part. */
typedef struct {
  const TwAddWhere *where;
  const TwPart *part; /* of the job */
  guint list;
  TwChange *group;
  TwId id; /* of the new element, the first of several */
} Job;

/* An id that no element of the part has. */
static TwId
new_id (const Job *self, TwKind kind, guint skip)
{
  TwId id;

  for (guint n = 1;; n++) {
    g_autofree char *text = g_strdup_printf ("%s-%u", tw_kind_info (kind)->stem, n);

    if (tw_id_from_text (text, &id) && tw_part_element (self->part, id, NULL) == NULL && skip-- == 0)
      return id;
  }
}

static void
add (Job *self, TwPart *made, int nth)
{
  if (tw_id_is_none (self->id))
    self->id = made->id;
  tw_change_group_add (self->group, tw_change_add_element (self->part->id, self->list, made, nth));
}

/* The share of the way from @a to @b that is nearest to @at, kept off both ends. */
static double
share_of (TwPoint a, TwPoint b, TwPoint at)
{
  double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm, length2 = dx * dx + dy * dy;

  if (!(length2 > 0.0))
    return 0.5;
  return CLAMP (((at.x_mm - a.x_mm) * dx + (at.y_mm - a.y_mm) * dy) / length2, END_SHARE, 1.0 - END_SHARE);
}

static TwPoint
between (TwPoint a, TwPoint b, double share)
{
  return (TwPoint){ a.x_mm + share * (b.x_mm - a.x_mm), a.y_mm + share * (b.y_mm - a.y_mm) };
}

/* --- corners -------------------------------------------------------------------------------------------- */

/* The pointer in the plane of a volume or opening, when the view shows that square on. */
static gboolean
pointer_in_plane (const Job *self, TwPlane plane, TwPoint *at)
{
  const TwStageView *view = self->where->view;
  TwPoint point = self->where->points[0];
  TwPlane seen;

  if (self->where->n_points == 0 || !tw_point_is_sane (point) || !tw_add_plane (view, &seen) || seen != plane)
    return FALSE;
  *at = tw_plane_drop (plane, tw_vec_add_scaled (tw_vec_add_scaled (view->origin, point.x_mm, view->across),
                                                 point.y_mm, view->up));
  return TRUE;
}

static TwPoint
corner_at (GPtrArray *ring, guint nth)
{
  const TwOutlineCorner *corner = TW_ELEMENT (ring, TwOutlineCorner, nth % ring->len);

  return (TwPoint){ corner->across_mm, corner->up_mm };
}

static double
bow_of (GPtrArray *ring, guint nth)
{
  double bow_mm = TW_ELEMENT (ring, TwOutlineCorner, nth)->bow_mm;

  return isfinite (bow_mm) ? bow_mm : 0.0;
}

/* The edge that is nearest to the pointer, else the longest, and where on it the corner comes to lie. */
static guint
edge_for (GPtrArray *ring, const TwPoint *pointer, double *share)
{
  double best = G_MAXDOUBLE;
  guint edge = 0;

  for (guint i = 0; i < ring->len; i++) {
    TwPoint a = corner_at (ring, i), b = corner_at (ring, i + 1);
    double here = pointer != NULL ? share_of (a, b, *pointer) : 0.5;
    double worth = pointer != NULL ? tw_point_distance_mm (between (a, b, here), *pointer)
                                   : -tw_edge_length_mm (a, b, bow_of (ring, i));

    if (worth < best - 1e-9) {
      best = worth;
      edge = i;
      *share = here;
    }
  }
  return edge;
}

/* Rise of an arc of that radius and angle: r·(1 − cos(θ/2)), elementary geometry; its sign is that of the
 * angle. */
static double
bow_mm (const TwArc *arc, double share)
{
  double angle_rad = fabs (arc->turn_rad) * share;
  double rise_mm = arc->radius_mm * (1.0 - cos (angle_rad / 2.0));

  return arc->turn_rad < 0.0 ? -rise_mm : rise_mm;
}

static void
set_bow (Job *self, const TwPart *corner, double rise_mm)
{
  TwValue value = tw_value_number (tw_freedom_clean_mm (rise_mm));

  tw_change_group_add (self->group, tw_change_set (self->part->id, corner->id, TW_CORNER_bow_mm, &value));
}

static gboolean
add_corner (Job *self, TwPlane plane, GPtrArray *ring)
{
  TwPoint pointer, at;
  gboolean has_pointer = pointer_in_plane (self, plane, &pointer);
  double share = 0.5;
  guint edge = edge_for (ring, has_pointer ? &pointer : NULL, &share);
  TwPart *made = tw_part_new (TW_KIND_CORNER, new_id (self, TW_KIND_CORNER, 0));

  at = between (corner_at (ring, edge), corner_at (ring, edge + 1), share);
  if (bow_of (ring, edge) != 0.0) {
    TwArc arc = tw_arc_of_edge (corner_at (ring, edge), corner_at (ring, edge + 1), bow_of (ring, edge));

    at = tw_arc_point (&arc, share);
    set_bow (self, g_ptr_array_index (ring, edge), bow_mm (&arc, share));
    tw_add_put (made, TW_CORNER_bow_mm, bow_mm (&arc, 1.0 - share));
  }
  tw_add_put (made, TW_CORNER_across_mm, at.x_mm);
  tw_add_put (made, TW_CORNER_up_mm, at.y_mm);
  add (self, made, (int)edge + 1);
  return TRUE;
}

/* A hole in nothing yet: the box of two points, else a square in the middle of the free room. */
static gboolean
add_hole (Job *self, const TwPlacedVolume *placed)
{
  g_autoptr (TwGeos) geos = tw_geos_new ();
  double radius_mm = 0.0;
  TwPoint middle = tw_area_label_point (geos, placed->outline, &radius_mm);
  double half_mm = SHARE_HOLE * radius_mm;
  TwBox box = { middle.x_mm - half_mm, middle.y_mm - half_mm, middle.x_mm + half_mm, middle.y_mm + half_mm };
  TwPoint low;
  TwBox drawn;

  if (tw_add_box (self->where, &drawn) && pointer_in_plane (self, placed->plane, &low)) {
    double by_x = self->where->points[1].x_mm - self->where->points[0].x_mm;
    double by_y = self->where->points[1].y_mm - self->where->points[0].y_mm;

    box = tw_box_add_point (tw_box_add_point (TW_BOX_EMPTY, low),
                            (TwPoint){ low.x_mm + by_x, low.y_mm + by_y });
  }
  for (guint i = 0; i < 4; i++) {
    TwPart *made = tw_part_new (TW_KIND_CORNER, new_id (self, TW_KIND_CORNER, i));

    tw_add_put (made, TW_CORNER_across_mm, i == 0 || i == 3 ? box.x0_mm : box.x1_mm);
    tw_add_put (made, TW_CORNER_up_mm, i < 2 ? box.y0_mm : box.y1_mm);
    add (self, made, -1);
  }
  return TRUE;
}

static gboolean
add_to_ring (Job *self, GError **error)
{
  GPtrArray *ring = tw_part_list (self->part, self->list);
  const TwPlacedVolume *volume = tw_placement_volume (self->where->placement, self->part->id);
  const TwPlacedOpening *opening = tw_placement_opening (self->where->placement, self->part->id);

  if (volume == NULL && opening == NULL)
    return tw_add_refuse (error, _ ("it has no place yet"));
  if (ring->len > 0)
    return add_corner (self, volume != NULL ? volume->plane : opening->plane, ring);
  if (volume == NULL)
    return tw_add_refuse (error, _ ("it is a rectangle by its width and height"));
  return add_hole (self, volume);
}

/* --- via-points ----------------------------------------------------------------------------------------- */

static gboolean
end_place (const TwPlacement *placement, TwId id, TwVec *at)
{
  const TwPlacedPort *port = tw_placement_port (placement, id);
  const TwPlacedEnginePort *engine = tw_placement_engine_port (placement, id);

  if (port == NULL && engine == NULL)
    return FALSE;
  *at = port != NULL ? port->tip : engine->tip;
  return TRUE;
}

/* From end to end by the via-points. (transfer full) (nullable) (element-type TwVec) */
static GArray *
places_of (const Job *self)
{
  const TwHose *hose = (const TwHose *)self->part;
  GArray *places = g_array_new (FALSE, FALSE, sizeof (TwVec));
  TwVec from, to;

  if (!end_place (self->where->placement, hose->from, &from)
      || !end_place (self->where->placement, hose->to, &to)) {
    g_array_unref (places);
    return NULL;
  }
  g_array_append_val (places, from);
  for (guint i = 0; i < hose->vias->len; i++) {
    const TwVia *via = TW_ELEMENT (hose->vias, TwVia, i);
    TwVec at = tw_vec (via->x_mm, via->y_mm, via->z_mm);

    g_array_append_val (places, at);
  }
  g_array_append_val (places, to);
  return places;
}

static gboolean
add_via (Job *self, GError **error)
{
  g_autoptr (GArray) places = places_of (self);
  gboolean has_pointer = self->where->n_points > 0 && tw_point_is_sane (self->where->points[0]);
  double best = G_MAXDOUBLE, share = 0.5;
  guint leg = 0;
  TwPart *made;
  TwVec from, at;

  if (places == NULL)
    return tw_add_refuse (error, _ ("an end of the hose has no place yet"));
  for (guint i = 0; i + 1 < places->len; i++) {
    TwVec start = g_array_index (places, TwVec, i), end = g_array_index (places, TwVec, i + 1);
    TwPoint a = tw_stage_view_place (self->where->view, start);
    TwPoint b = tw_stage_view_place (self->where->view, end);
    double here = has_pointer ? share_of (a, b, self->where->points[0]) : 0.5;
    double worth = has_pointer ? tw_point_distance_mm (between (a, b, here), self->where->points[0])
                               : -tw_vec_distance_mm (start, end);

    if (worth < best - 1e-9) {
      best = worth;
      leg = i;
      share = here;
    }
  }
  from = g_array_index (places, TwVec, leg);
  at = tw_vec_add_scaled (from, share, tw_vec_subtract (g_array_index (places, TwVec, leg + 1), from));
  made = tw_part_new (TW_KIND_VIA, new_id (self, TW_KIND_VIA, 0));
  tw_add_put (made, TW_VIA_x_mm, at.x);
  tw_add_put (made, TW_VIA_y_mm, at.y);
  tw_add_put (made, TW_VIA_z_mm, at.z);
  add (self, made, (int)leg);
  return TRUE;
}

/* --- flaps and plugs ------------------------------------------------------------------------------------ */

static gboolean
add_flap (Job *self, GError **error)
{
  const TwPlacement *placement = self->where->placement;
  const TwPlacedShroud *shroud = tw_placement_shroud (placement, self->part->id);
  const TwPlacedCore *core = shroud != NULL ? tw_placement_core (placement, shroud->core) : NULL;
  TwPoint middle;
  double room_mm, side_mm;
  TwVec pointer;
  TwPart *made;

  if (core == NULL)
    return tw_add_refuse (error, _ ("the shroud has no place yet"));
  room_mm = tw_add_largest_mm (placement, core->id, shroud->is_before, shroud->mouth, &middle);
  side_mm = floor (2.0 * SHARE_FLAP * room_mm / LEAST_FLAP_MM) * LEAST_FLAP_MM;
  if (!(side_mm >= LEAST_FLAP_MM))
    return tw_add_refuse (error, _ ("there is no room left for a flap"));
  if (tw_add_pointer (self->where,
                      tw_frame_to_job (&core->frame, tw_vec (middle.x_mm, middle.y_mm, shroud->fans_w_mm)),
                      &pointer)) {
    TwVec uvw = tw_frame_from_job (&core->frame, pointer);

    middle = (TwPoint){ round (CLAMP (uvw.x, shroud->mouth.x0_mm, shroud->mouth.x1_mm)),
                        round (CLAMP (uvw.y, shroud->mouth.y0_mm, shroud->mouth.y1_mm)) };
  }
  made = tw_part_new (TW_KIND_FLAP, new_id (self, TW_KIND_FLAP, 0));
  tw_add_put (made, TW_FLAP_u_mm, middle.x_mm);
  tw_add_put (made, TW_FLAP_v_mm, middle.y_mm);
  tw_add_put (made, TW_FLAP_width_mm, side_mm);
  tw_add_put (made, TW_FLAP_height_mm, side_mm);
  add (self, made, -1);
  return TRUE;
}

/* The tube nearest to the pointer that is not plugged, else the first. */
static gboolean
add_plug (Job *self, GError **error)
{
  const TwCore *core = (const TwCore *)self->part;
  const TwPlacedCore *placed = tw_placement_core (self->where->placement, self->part->id);
  const TwDrawing *drawing = tw_placement_drawing (self->where->placement);
  TwTubeGrid grid = tw_tube_grid ((const TwCore *)tw_drawing_find (drawing, self->part->id));
  double best_mm = G_MAXDOUBLE, wanted_mm = grid.first_mm;
  TwValue value;
  guint best = 0;
  TwPart *made;
  TwVec at;

  if (placed != NULL && tw_add_pointer (self->where, placed->frame.origin, &at)) {
    TwVec uvw = tw_frame_from_job (&placed->frame, at);

    wanted_mm = grid.level ? uvw.y : uvw.x;
  }
  for (guint tube = 1; tube <= grid.n_tubes; tube++) {
    double off_mm = fabs (tw_tube_along_mm (&grid, tube) - wanted_mm);

    if (!tw_tube_is_plugged (core, tube, 1) && off_mm < best_mm - 1e-9) {
      best_mm = off_mm;
      best = tube;
    }
  }
  if (best == 0)
    return tw_add_refuse (error, _ ("there is no tube that is not plugged"));
  made = tw_part_new (TW_KIND_PLUG, new_id (self, TW_KIND_PLUG, 0));
  value = tw_value_choice (TW_FIELD_COUNT, (int)best);
  tw_part_put (made, TW_PLUG_tube, &value);
  add (self, made, -1);
  return TRUE;
}

/* --- the door ------------------------------------------------------------------------------------------- */

TwChange *
tw_add_element (const TwAddWhere *where, guint list, TwId *element, GError **error)
{
  Job job = { .where = where, .part = tw_job_find (where->job, where->chosen), .list = list };
  g_autoptr (TwChange) group = tw_change_group (where->label);
  const TwKindInfo *info;
  gboolean ok;

  *element = TW_ID_NONE;
  if (job.part == NULL) {
    (void)tw_add_refuse (error, _ ("choose a part first"));
    return NULL;
  }
  info = tw_kind_info (job.part->kind);
  g_return_val_if_fail (list < info->n_lists, NULL);
  job.group = group;
  if (info->lists[list].element == TW_KIND_CORNER)
    ok = add_to_ring (&job, error);
  else if (info->lists[list].element == TW_KIND_VIA)
    ok = add_via (&job, error);
  else if (info->lists[list].element == TW_KIND_FLAP)
    ok = add_flap (&job, error);
  else if (info->lists[list].element == TW_KIND_PLUG)
    ok = add_plug (&job, error);
  else
    ok = tw_add_refuse (error, _ ("points of a curve are added in the form"));
  if (!ok)
    return NULL;
  *element = job.id;
  return g_steal_pointer (&group);
}
