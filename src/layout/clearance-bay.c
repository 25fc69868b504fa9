/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/clearance-private.h"

#include <math.h>

/* What is left when two outlines that are one differ by rounding. */
#define NO_AREA_MM2 1e-6

/* How far from an outline a place may lie by rounding and still be on it. */
#define ON_OUTLINE_MM 1e-6

/* The free volumes of a job. */
typedef struct {
  const TwPlacement *placement;
  GPtrArray *volumes; /* of const TwPlacedVolume */
} Free;

static void
clear_wall (gpointer data)
{
  TwBayWall *wall = data;

  tw_convex_unref (wall->convex);
}

static void
clear_slab (gpointer data)
{
  TwBaySlab *slab = data;

  tw_area_unref (slab->area);
}

double
tw_clearance_required_mm (const TwPlacement *placement, TwId volume)
{
  const TwPart *part = tw_drawing_find (tw_placement_drawing (placement), volume);
  double clearance_mm = part != NULL ? ((const TwVolume *)part)->clearance_mm : 0.0;

  return isfinite (clearance_mm) ? clearance_mm : 0.0;
}

static double
distance_to_line_mm (TwPoint p, TwPoint a, TwPoint b)
{
  double dx_mm = b.x_mm - a.x_mm;
  double dy_mm = b.y_mm - a.y_mm;
  double t = ((p.x_mm - a.x_mm) * dx_mm + (p.y_mm - a.y_mm) * dy_mm) / (dx_mm * dx_mm + dy_mm * dy_mm);

  t = CLAMP (t, 0.0, 1.0);
  return hypot (p.x_mm - a.x_mm - t * dx_mm, p.y_mm - a.y_mm - t * dy_mm);
}

static gboolean
is_on_outline (const TwArea *area, TwPoint at)
{
  if (!tw_box_contains (tw_box_grow (tw_area_bounds (area), ON_OUTLINE_MM), at))
    return FALSE;
  for (guint i = 0; i < tw_area_n_rings (area); i++) {
    TwRing ring = tw_area_ring (area, i);

    for (guint k = 0; k < ring.n_points; k++)
      if (distance_to_line_mm (at, ring.points[k], ring.points[(k + 1) % ring.n_points]) <= ON_OUTLINE_MM)
        return TRUE;
  }
  return FALSE;
}

/* Whether the volume fills the bay somewhere between the two heights. */
static gboolean
is_between (const TwPlacedVolume *volume, double from_mm, double to_mm)
{
  return volume->from_mm <= from_mm && volume->to_mm >= to_mm;
}

/* The free volumes that fill some of @slab. (transfer full) */
static GPtrArray *
volumes_in (const Free *free_, const TwBaySlab *slab)
{
  GPtrArray *found = g_ptr_array_new ();

  for (guint i = 0; i < free_->volumes->len; i++)
    if (is_between (g_ptr_array_index (free_->volumes, i), slab->from_mm, slab->to_mm))
      g_ptr_array_add (found, g_ptr_array_index (free_->volumes, i));
  return found;
}

/* Of @volumes the one that ends at a side wall through @at; of several the one that wants most room. */
static const TwPlacedVolume *
owner_of_side (const Free *free_, const GPtrArray *volumes, TwPoint at)
{
  const TwPlacedVolume *owner = g_ptr_array_index (volumes, 0);
  double most_mm = -1.0;

  for (guint i = 0; i < volumes->len && volumes->len > 1; i++) {
    const TwPlacedVolume *volume = g_ptr_array_index (volumes, i);
    double required_mm = tw_clearance_required_mm (free_->placement, volume->id);

    if (required_mm > most_mm && is_on_outline (volume->outline, at)) {
      owner = volume;
      most_mm = required_mm;
    }
  }
  return owner;
}

static void
add_wall (TwBay *self, const Free *free_, const TwPlacedVolume *owner, TwVec out, TwConvex *convex)
{
  TwBayWall wall = { .convex = convex,
                     .out = out,
                     .volume = owner->id,
                     .required_mm = tw_clearance_required_mm (free_->placement, owner->id) };

  g_array_append_val (self->walls, wall);
}

static void
add_sides (TwBay *self, const Free *free_, const TwBaySlab *slab)
{
  g_autoptr (GPtrArray) volumes = volumes_in (free_, slab);

  for (guint i = 0; i < tw_area_n_rings (slab->area); i++) {
    TwRing ring = tw_area_ring (slab->area, i);

    for (guint k = 0; k < ring.n_points; k++) {
      TwPoint a = ring.points[k], b = ring.points[(k + 1) % ring.n_points];
      TwPoint middle = { 0.5 * (a.x_mm + b.x_mm), 0.5 * (a.y_mm + b.y_mm) };
      /* outer rings run counter-clockwise, holes clockwise: the bay lies to the left of both */
      TwPoint right = { b.y_mm - a.y_mm, a.x_mm - b.x_mm };
      TwVec corners[4] = {
        tw_plane_lift (self->plane, a, slab->from_mm),
        tw_plane_lift (self->plane, b, slab->from_mm),
        tw_plane_lift (self->plane, b, slab->to_mm),
        tw_plane_lift (self->plane, a, slab->to_mm),
      };

      add_wall (self, free_, owner_of_side (free_, volumes, middle),
                tw_vec_unit (tw_plane_lift (self->plane, right, 0.0)), tw_convex_new_wall (corners, 4));
    }
  }
}

/* Walls where @volume ends at @third_mm: what of it does not go on as @beyond. @way is 1 when it ends upwards
 * along the third axis, -1 downwards. */
static void
add_caps (TwBay *self,
          const Free *free_,
          TwGeos *geos,
          const TwPlacedVolume *volume,
          const TwArea *beyond,
          double way)
{
  g_autoptr (TwArea) cap = tw_area_difference (geos, volume->outline, beyond);
  g_autoptr (GPtrArray) pieces = NULL;
  double third_mm = way > 0.0 ? volume->to_mm : volume->from_mm;

  if (tw_area_mm2 (cap) <= NO_AREA_MM2)
    return;
  pieces = tw_area_convex_pieces (geos, cap);
  for (guint i = 0; i < pieces->len; i++) {
    TwRing ring = tw_area_ring (g_ptr_array_index (pieces, i), 0);
    g_autofree TwVec *corners = g_new (TwVec, ring.n_points);

    for (guint k = 0; k < ring.n_points; k++)
      corners[k] = tw_plane_lift (self->plane, ring.points[k], third_mm);
    add_wall (self, free_, volume, tw_plane_lift (self->plane, (TwPoint){ 0.0, 0.0 }, way),
              tw_convex_new_wall (corners, ring.n_points));
  }
}

static int
compare_heights (gconstpointer a, gconstpointer b)
{
  double x_mm = *(const double *)a, y_mm = *(const double *)b;

  return x_mm < y_mm ? -1 : x_mm > y_mm;
}

static TwArea *
area_of (const Free *free_, TwGeos *geos, const TwBaySlab *slab)
{
  g_autoptr (GPtrArray) volumes = volumes_in (free_, slab);
  g_autoptr (GPtrArray) areas = g_ptr_array_new ();

  for (guint i = 0; i < volumes->len; i++)
    g_ptr_array_add (areas, ((const TwPlacedVolume *)g_ptr_array_index (volumes, i))->outline);
  if (areas->len == 1)
    return tw_area_ref (g_ptr_array_index (areas, 0));
  return tw_area_union (geos, (TwArea *const *)areas->pdata, areas->len);
}

static void
cut_slabs (TwBay *self, const Free *free_, TwGeos *geos)
{
  g_autoptr (GArray) heights = g_array_new (FALSE, FALSE, sizeof (double));

  for (guint i = 0; i < free_->volumes->len; i++) {
    const TwPlacedVolume *volume = g_ptr_array_index (free_->volumes, i);

    g_array_append_val (heights, volume->from_mm);
    g_array_append_val (heights, volume->to_mm);
  }
  g_array_sort (heights, compare_heights);
  for (guint i = 0; i + 1 < heights->len; i++) {
    double from_mm = g_array_index (heights, double, i), to_mm = g_array_index (heights, double, i + 1);
    TwBaySlab slab = { .from_mm = from_mm, .to_mm = to_mm };

    if (to_mm > from_mm) {
      slab.area = area_of (free_, geos, &slab);
      g_array_append_val (self->slabs, slab);
    }
  }
}

static void
raise_walls (TwBay *self, const Free *free_, TwGeos *geos)
{
  g_autoptr (TwArea) nothing = tw_area_new_empty ();

  for (guint i = 0; i < self->slabs->len; i++) {
    const TwBaySlab *slab = &g_array_index (self->slabs, TwBaySlab, i);
    const TwArea *before = i > 0 ? g_array_index (self->slabs, TwBaySlab, i - 1).area : nothing;
    const TwArea *after
        = i + 1 < self->slabs->len ? g_array_index (self->slabs, TwBaySlab, i + 1).area : nothing;

    add_sides (self, free_, slab);
    for (guint k = 0; k < free_->volumes->len; k++) {
      const TwPlacedVolume *volume = g_ptr_array_index (free_->volumes, k);

      if (volume->from_mm == slab->from_mm)
        add_caps (self, free_, geos, volume, before, -1.0);
      if (volume->to_mm == slab->to_mm)
        add_caps (self, free_, geos, volume, after, 1.0);
    }
  }
}

TwBay *
tw_bay_new (const TwPlacement *placement, TwGeos *geos)
{
  TwBay *self = g_new0 (TwBay, 1);
  g_autoptr (GPtrArray) list = g_ptr_array_new ();
  Free free_ = { .placement = placement, .volumes = list };
  guint n;
  const TwPlacedVolume *volumes = tw_placement_volumes (placement, &n);

  self->walls = g_array_new (FALSE, FALSE, sizeof (TwBayWall));
  g_array_set_clear_func (self->walls, clear_wall);
  self->slabs = g_array_new (FALSE, FALSE, sizeof (TwBaySlab));
  g_array_set_clear_func (self->slabs, clear_slab);
  for (guint i = 0; i < n; i++)
    if (volumes[i].is_free)
      g_ptr_array_add (list, (gpointer)&volumes[i]);
  if (list->len > 0) {
    self->plane = ((const TwPlacedVolume *)g_ptr_array_index (list, 0))->plane;
    cut_slabs (self, &free_, geos);
    raise_walls (self, &free_, geos);
  }
  return self;
}

void
tw_bay_free (TwBay *self)
{
  g_array_unref (self->walls);
  g_array_unref (self->slabs);
  g_free (self);
}

gboolean
tw_bay_contains (const TwBay *self, TwVec at)
{
  double third_mm = tw_plane_third_mm (self->plane, at);

  for (guint i = 0; i < self->slabs->len; i++) {
    const TwBaySlab *slab = &g_array_index (self->slabs, TwBaySlab, i);

    if (slab->from_mm <= third_mm && third_mm <= slab->to_mm
        && tw_area_contains (slab->area, tw_plane_drop (self->plane, at)))
      return TRUE;
  }
  return FALSE;
}
