/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * snap-bay.c - places in the job frame: edges of volumes, clearance, heights of other parts, lines of hoses
 *
 * For whatever goes along an axis of the job: cores, engine ports, via-points, volumes with their corners.
 */
#include "stage/snap-private.h"

#include "stage/extent.h"

#define ALONG_LEAST 0.9999 /* dimensionless: nearer to an axis of the job a freedom is along it */
#define MOST_CORNERS 64    /* of a ring whose corners are looked at one by one */

/* What is held, as the search sees it: along one axis of the job. */
typedef struct {
  TwSnapSearch *search;
  int axis;             /* 0 x, 1 y, 2 z */
  double sign;          /* +1 or -1, dimensionless: whether the freedom grows along the axis */
  TwVec place;          /* of the grip, where the other freedoms have it */
  double offsets_mm[3]; /* from the place to its own edges along the axis, the place itself first */
  guint n_offsets;
  TwSolidBox body; /* round what moves, moved by the other freedoms; the place alone for elements */
} Held;

static double
of_axis (TwVec at, int axis)
{
  return axis == 0 ? at.x : axis == 1 ? at.y : at.z;
}

static TwVec
with_axis (TwVec at, int axis, double value)
{
  if (axis == 0)
    at.x = value;
  else if (axis == 1)
    at.y = value;
  else
    at.z = value;
  return at;
}

static int
axis_of (TwVec along, double *sign)
{
  for (int axis = 0; axis < 3; axis++) {
    double share = of_axis (along, axis);

    *sign = share < 0.0 ? -1.0 : 1.0;
    if (fabs (share) > ALONG_LEAST)
      return axis;
  }
  return -1;
}

/* @at is a place with the wanted coordinate, for the guide line. */
static void
add (const Held *held, TwSnapKind kind, double offset_mm, TwVec at, TwId other)
{
  double wanted_mm = of_axis (at, held->axis) - offset_mm - of_axis (held->search->grip->place, held->axis);

  tw_snap_add_amount (held->search, kind, held->sign * wanted_mm, other, at);
}

static void
add_edges (const Held *held, TwVec at, TwId other)
{
  for (guint i = 0; i < held->n_offsets; i++)
    add (held, TW_SNAP_EDGE, held->offsets_mm[i], at, other);
}

/* --- volumes -------------------------------------------------------------------------------------------- */

/* Whether two boxes lie over each other when looked at along the axis, @by_mm counted. */
static gboolean
is_over (TwSolidBox a, TwSolidBox b, int axis, double by_mm)
{
  for (int other = 0; other < 3; other++)
    if (other != axis
        && (of_axis (a.from, other) > of_axis (b.to, other) + by_mm
            || of_axis (b.from, other) > of_axis (a.to, other) + by_mm))
      return FALSE;
  return TRUE;
}

/* Just clear of a box, or within it (@inside). */
static void
add_clear (const Held *held, TwSolidBox box, double clear_mm, gboolean inside, TwId other)
{
  double low_mm = of_axis (held->body.from, held->axis) - of_axis (held->place, held->axis);
  double high_mm = of_axis (held->body.to, held->axis) - of_axis (held->place, held->axis);
  double from_mm = of_axis (box.from, held->axis), to_mm = of_axis (box.to, held->axis);
  double before_mm = inside ? from_mm + clear_mm - low_mm : from_mm - clear_mm - high_mm;
  double behind_mm = inside ? to_mm - clear_mm - high_mm : to_mm + clear_mm - low_mm;

  if (!isfinite (clear_mm) || !is_over (held->body, box, held->axis, inside ? 0.0 : clear_mm))
    return;
  add (held, TW_SNAP_CLEARANCE, from_mm - before_mm, with_axis (held->place, held->axis, from_mm), other);
  add (held, TW_SNAP_CLEARANCE, to_mm - behind_mm, with_axis (held->place, held->axis, to_mm), other);
}

static void
add_ring (const Held *held, const TwPlacedVolume *volume, GPtrArray *ring)
{
  double third_mm = (volume->from_mm + volume->to_mm) / 2.0;

  for (guint i = 0; i < ring->len && ring->len <= MOST_CORNERS; i++) {
    const TwOutlineCorner *corner = TW_ELEMENT (ring, TwOutlineCorner, i);
    TwPoint at = { corner->across_mm, corner->up_mm };

    add_edges (held, tw_plane_lift (volume->plane, at, third_mm), volume->id);
  }
}

static void
add_volume (const Held *held, const TwPlacedVolume *placed)
{
  const TwDrawing *drawing = tw_placement_drawing (held->search->bench->placement);
  const TwVolume *volume = (const TwVolume *)tw_drawing_find (drawing, placed->id);
  TwSolidBox box = tw_extent_box (held->search->bench->placement, placed->id);
  const TwPoint zero = { 0.0, 0.0 };
  double sign;
  TwVec middle = tw_vec_scale (tw_vec_add (box.from, box.to), 0.5);

  if (axis_of (tw_plane_lift (placed->plane, zero, 1.0), &sign) == held->axis) {
    add_edges (held, with_axis (middle, held->axis, placed->from_mm), placed->id);
    add_edges (held, with_axis (middle, held->axis, placed->to_mm), placed->id);
  } else {
    add_ring (held, placed, volume->outline);
    add_ring (held, placed, volume->hole);
    add_edges (held, with_axis (middle, held->axis, of_axis (box.from, held->axis)), placed->id);
    add_edges (held, with_axis (middle, held->axis, of_axis (box.to, held->axis)), placed->id);
  }
  add_clear (held, box, volume->clearance_mm, placed->is_free, placed->id);
}

/* --- other parts ---------------------------------------------------------------------------------------- */

static void
add_level (const Held *held, TwVec at, TwId other)
{
  if (!tw_snap_moves (held->search, other))
    add (held, held->axis == 1 ? TW_SNAP_AS_HIGH : TW_SNAP_LEVEL_WITH, 0.0, at, other);
}

/* Cores, ports and engine ports that the grip does not take along. */
static void
add_levels (const Held *held)
{
  const TwPlacement *placement = held->search->bench->placement;
  guint n;
  const TwPlacedCore *cores = tw_placement_cores (placement, &n);
  const TwPlacedEnginePort *engine;
  const TwPlacedPort *ports;

  for (guint i = 0; i < n; i++)
    add_level (held, cores[i].frame.origin, cores[i].id);
  engine = tw_placement_engine_ports (placement, &n);
  for (guint i = 0; i < n; i++)
    add_level (held, engine[i].at, engine[i].id);
  ports = tw_placement_ports (placement, &n);
  for (guint i = 0; i < n; i++)
    if (!tw_snap_moves (held->search, ports[i].core))
      add_level (held, ports[i].at, ports[i].id);
}

static gboolean
is_solid (TwSolidRole role)
{
  return role != TW_SOLID_FREE && role != TW_SOLID_TAKEN && role != TW_SOLID_BAFFLE && role != TW_SOLID_HUB;
}

/* Just clear of the solids of parts that do not move along. */
static void
add_clear_parts (const Held *held)
{
  const TwPlacement *placement = held->search->bench->placement;
  double clear_mm = tw_drawing_settings (tw_placement_drawing (placement))->clearance_mm;
  guint n;
  const TwPlacedSolid *solids = tw_placement_solids (placement, &n);

  for (guint i = 0; i < n; i++)
    if (is_solid (solids[i].role) && !tw_snap_moves (held->search, solids[i].part)
        && !tw_snap_moves (held->search, solids[i].core))
      add_clear (held, tw_convex_bounds (solids[i].convex), clear_mm, FALSE, solids[i].part);
}

/* --- hoses and corners ---------------------------------------------------------------------------------- */

static gboolean
port_place (const TwPlacement *placement, TwId id, TwVec *at)
{
  const TwPlacedPort *port = tw_placement_port (placement, id);
  const TwPlacedEnginePort *engine = tw_placement_engine_port (placement, id);

  if (port == NULL && engine == NULL)
    return FALSE;
  *at = port != NULL ? port->at : engine->at;
  return TRUE;
}

/* In line with the points before and after it; next to an end that is the port. */
static void
add_run (const Held *held, const TwHose *hose)
{
  GPtrArray *vias = hose->vias;

  for (guint i = 0; i < vias->len; i++) {
    const TwPart *via = g_ptr_array_index (vias, i);
    TwVec at;

    if (!tw_id_equal (via->id, held->search->grip->element))
      continue;
    for (int step = -1; step <= 1; step += 2) {
      int next = (int)i + step;
      gboolean is_via = next >= 0 && next < (int)vias->len;

      if (is_via) {
        const TwVia *other = TW_ELEMENT (vias, TwVia, next);

        add (held, TW_SNAP_IN_LINE, 0.0, tw_vec (other->x_mm, other->y_mm, other->z_mm), hose->head.id);
      } else if (port_place (held->search->bench->placement, next < 0 ? hose->from : hose->to, &at)) {
        add (held, TW_SNAP_IN_LINE, 0.0, at, next < 0 ? hose->from : hose->to);
      }
    }
  }
}

/* A corner in line with the corners before and after it. */
static void
add_corners (const Held *held, const TwVolume *volume, const TwPlacedVolume *placed)
{
  double third_mm = (placed->from_mm + placed->to_mm) / 2.0;
  guint list, place;
  const TwPart *element = tw_part_element (&volume->head, held->search->grip->element, &list);
  GPtrArray *ring = element != NULL ? tw_part_list (&volume->head, list) : NULL;

  if (ring == NULL || !g_ptr_array_find (ring, element, &place))
    return;
  for (guint step = 1; step < ring->len; step += MAX (1, ring->len - 2)) {
    const TwOutlineCorner *other = TW_ELEMENT (ring, TwOutlineCorner, (place + step) % ring->len);
    TwPoint at = { other->across_mm, other->up_mm };

    add (held, TW_SNAP_LEVEL_WITH, 0.0, tw_plane_lift (placed->plane, at, third_mm), volume->head.id);
  }
}

/* --- what is held --------------------------------------------------------------------------------------- */

/* Where the other freedoms have the grip. */
static TwVec
shift_of (const TwSnapSearch *self)
{
  const TwFreedom *first = self->freedom - self->nth;
  TwVec shift = tw_vec (0.0, 0.0, 0.0);

  for (guint i = 0; i < TW_FREEDOM_MOST; i++)
    if (i != self->nth && fabs (self->amounts_mm[i]) > 0.0)
      shift = tw_vec_add_scaled (shift, self->amounts_mm[i], first[i].along);
  return shift;
}

static double
hose_radius_mm (const TwHose *hose)
{
  return isfinite (hose->bore_mm) && isfinite (hose->wall_mm) ? hose->bore_mm / 2.0 + hose->wall_mm : 0.0;
}

static void
find_body (Held *held, const TwPart *part)
{
  TwVec shift = shift_of (held->search);
  TwSolidBox box = { held->search->grip->place, held->search->grip->place };
  double by_mm = 0.0;

  if (held->search->grip->kind == TW_GRIP_BODY) {
    box = tw_extent_box (held->search->bench->placement, part->id);
    held->offsets_mm[1] = of_axis (box.from, held->axis) - of_axis (held->search->grip->place, held->axis);
    held->offsets_mm[2] = of_axis (box.to, held->axis) - of_axis (held->search->grip->place, held->axis);
    held->n_offsets = part->kind == TW_KIND_CORE || part->kind == TW_KIND_VOLUME ? 3 : 1;
  } else if (part->kind == TW_KIND_HOSE) {
    by_mm = hose_radius_mm ((const TwHose *)part);
  }
  held->place = tw_vec_add (held->search->grip->place, shift);
  held->body = (TwSolidBox){ tw_vec_subtract (tw_vec_add (box.from, shift), tw_vec (by_mm, by_mm, by_mm)),
                             tw_vec_add (tw_vec_add (box.to, shift), tw_vec (by_mm, by_mm, by_mm)) };
}

static gboolean
lives_in_job (TwKind kind)
{
  return kind == TW_KIND_CORE || kind == TW_KIND_ENGINE_PORT || kind == TW_KIND_HOSE || kind == TW_KIND_VOLUME
         || kind == TW_KIND_HEADER_TANK || kind == TW_KIND_OPENING || kind == TW_KIND_EXIT;
}

void
tw_snap_bays (TwSnapSearch *self)
{
  const TwPart *part = tw_drawing_find (tw_placement_drawing (self->bench->placement), self->grip->part);
  Held held = { .search = self, .n_offsets = 1 };
  guint n;
  const TwPlacedVolume *volumes = tw_placement_volumes (self->bench->placement, &n);

  held.axis = axis_of (self->freedom->along, &held.sign);
  if (held.axis < 0 || part == NULL || !lives_in_job (part->kind) || self->grip->kind == TW_GRIP_BULGE)
    return;
  find_body (&held, part);
  for (guint i = 0; i < n; i++)
    if (!tw_snap_moves (self, volumes[i].id))
      add_volume (&held, &volumes[i]);
  add_levels (&held);
  add_clear_parts (&held);
  if (part->kind == TW_KIND_HOSE && self->grip->kind == TW_GRIP_ELEMENT)
    add_run (&held, (const TwHose *)part);
  if (part->kind == TW_KIND_VOLUME && self->grip->kind == TW_GRIP_ELEMENT)
    add_corners (&held, (const TwVolume *)part, tw_placement_volume (self->bench->placement, part->id));
}
