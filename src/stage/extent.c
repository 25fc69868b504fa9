/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stage/extent.h"

#include <math.h>

static void
add_point (TwVec at, TwVec direction, double range_mm[2])
{
  double along_mm = tw_vec_dot (at, direction);

  range_mm[0] = MIN (range_mm[0], along_mm);
  range_mm[1] = MAX (range_mm[1], along_mm);
}

static void
add_solid (const TwConvex *convex, TwVec direction, double range_mm[2])
{
  double radius_mm = tw_convex_radius_mm (convex);

  for (guint i = 0; i < tw_convex_n_points (convex); i++) {
    TwVec at = tw_convex_point (convex, i);

    add_point (tw_vec_add_scaled (at, -radius_mm, direction), direction, range_mm);
    add_point (tw_vec_add_scaled (at, radius_mm, direction), direction, range_mm);
  }
}

/* Solids know their bounds along the axes of the job. */
static gboolean
add_bounds (const TwConvex *convex, TwVec direction, double range_mm[2])
{
  TwSolidBox box;

  if (MAX (fabs (direction.x), MAX (fabs (direction.y), fabs (direction.z))) < 1.0)
    return FALSE;
  box = tw_convex_bounds (convex);
  add_point (box.from, direction, range_mm);
  add_point (box.to, direction, range_mm);
  return TRUE;
}

/* The solids among which those of a part are: of a volume they are known. */
static const TwPlacedSolid *
solids_of (const TwPlacement *placement, TwId part, guint *n)
{
  const TwPlacedVolume *volume = tw_placement_volume (placement, part);
  const TwPlacedSolid *solids = tw_placement_solids (placement, n);

  if (volume == NULL)
    return solids;
  *n = volume->n_solids;
  return solids + volume->first_solid;
}

static const TwHose *
hose_of (const TwPlacement *placement, TwId part)
{
  const TwPart *drawn = tw_drawing_find (tw_placement_drawing (placement), part);

  return drawn != NULL && drawn->kind == TW_KIND_HOSE ? (const TwHose *)drawn : NULL;
}

/* Openings and exits are flat and no solids: the corners of the box round their outline. */
static gboolean
opening_corners (const TwPlacement *placement, TwId part, TwVec corners[2])
{
  const TwPlacedOpening *opening = tw_placement_opening (placement, part);
  TwBox box;

  if (opening == NULL)
    return FALSE;
  box = tw_area_bounds (opening->outline);
  corners[0] = tw_plane_lift (opening->plane, (TwPoint){ box.x0_mm, box.y0_mm }, opening->at_mm);
  corners[1] = tw_plane_lift (opening->plane, (TwPoint){ box.x1_mm, box.y1_mm }, opening->at_mm);
  return TRUE;
}

gboolean
tw_extent_along (const TwPlacement *placement,
                 TwId part,
                 TwExtent extent,
                 TwVec direction,
                 double range_mm[2])
{
  const TwHose *hose = hose_of (placement, part);
  TwVec corners[2];
  guint n;
  const TwPlacedSolid *solids = solids_of (placement, part, &n);

  range_mm[0] = G_MAXDOUBLE;
  range_mm[1] = -G_MAXDOUBLE;
  for (guint i = 0; i < n; i++)
    if ((tw_id_equal (solids[i].part, part)
         || (extent == TW_EXTENT_ASSEMBLY && tw_id_equal (solids[i].core, part)))
        && !add_bounds (solids[i].convex, direction, range_mm))
      add_solid (solids[i].convex, direction, range_mm);
  for (guint i = 0; hose != NULL && i < hose->vias->len; i++) {
    const TwVia *via = TW_ELEMENT (hose->vias, TwVia, i);

    add_point (tw_vec (via->x_mm, via->y_mm, via->z_mm), direction, range_mm);
  }
  if (opening_corners (placement, part, corners)) {
    add_point (corners[0], direction, range_mm);
    add_point (corners[1], direction, range_mm);
  }
  return range_mm[0] <= range_mm[1];
}

TwSolidBox
tw_solid_box_add (TwSolidBox a, TwSolidBox b)
{
  return (TwSolidBox){
    { MIN (a.from.x, b.from.x), MIN (a.from.y, b.from.y), MIN (a.from.z, b.from.z) },
    { MAX (a.to.x, b.to.x), MAX (a.to.y, b.to.y), MAX (a.to.z, b.to.z) },
  };
}

TwSolidBox
tw_extent_box (const TwPlacement *placement, TwId part)
{
  const TwHose *hose = hose_of (placement, part);
  TwSolidBox box = TW_SOLID_BOX_EMPTY;
  TwVec corners[2];
  guint n;
  const TwPlacedSolid *solids = solids_of (placement, part, &n);

  for (guint i = 0; i < n; i++)
    if (tw_id_equal (solids[i].part, part) || tw_id_equal (solids[i].core, part))
      box = tw_solid_box_add (box, tw_convex_bounds (solids[i].convex));
  for (guint i = 0; hose != NULL && i < hose->vias->len; i++) {
    const TwVia *via = TW_ELEMENT (hose->vias, TwVia, i);
    TwVec at = tw_vec (via->x_mm, via->y_mm, via->z_mm);

    box = tw_solid_box_add (box, (TwSolidBox){ at, at });
  }
  if (opening_corners (placement, part, corners))
    box = tw_solid_box_add (box, (TwSolidBox){ corners[0], corners[1] });
  return box;
}

TwBox
tw_extent_seen (const TwPlacement *placement, const TwStageView *view, TwId part, TwExtent extent)
{
  TwPoint origin = tw_stage_view_direction (view, view->origin);
  double across_mm[2], up_mm[2];

  if (!tw_extent_along (placement, part, extent, view->across, across_mm)
      || !tw_extent_along (placement, part, extent, view->up, up_mm))
    return TW_BOX_EMPTY;
  return (TwBox){ across_mm[0] - origin.x_mm, up_mm[0] - origin.y_mm, across_mm[1] - origin.x_mm,
                  up_mm[1] - origin.y_mm };
}
