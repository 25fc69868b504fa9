/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stage/gauge-private.h"

#include "stage/extent.h"

#include <math.h>
#include <string.h>

#define LEAST_MM 0.01 /* less is no distance */

static void
take (TwGaugeSearch *self, guint nth, TwGauge gauge)
{
  TwGauge *best = &self->found[nth];
  gboolean is_seen = tw_point_distance_mm (gauge.from, gauge.to) >= LEAST_MM;

  if (!is_seen || !(gauge.length_mm >= LEAST_MM))
    return;
  if (self->is_found[nth]
      && (gauge.length_mm > best->length_mm
          || (gauge.length_mm == best->length_mm
              && strcmp (gauge.neighbour.text, best->neighbour.text) >= 0)))
    return;
  self->is_found[nth] = TRUE;
  *best = gauge;
}

void
tw_gauge_take (TwGaugeSearch *self, guint nth, TwVec from, TwVec to, TwId neighbour)
{
  take (self, nth,
        (TwGauge){ tw_stage_view_place (self->view, from), tw_stage_view_place (self->view, to),
                   tw_vec_distance_mm (from, to), neighbour });
}

void
tw_gauge_take_seen (TwGaugeSearch *self, guint nth, TwPoint from, TwPoint to, TwId neighbour)
{
  take (self, nth, (TwGauge){ from, to, tw_point_distance_mm (from, to), neighbour });
}

void
tw_gauge_offer (TwGaugeSearch *self, TwVec from, TwVec to, TwId neighbour)
{
  TwPoint way = tw_stage_view_direction (self->view, tw_vec_subtract (to, from));
  guint nth = fabs (way.x_mm) >= fabs (way.y_mm) ? (way.x_mm < 0.0 ? 0 : 1) : (way.y_mm < 0.0 ? 2 : 3);

  tw_gauge_take (self, nth, from, to, neighbour);
}

/* The two edges that meet in a corner of an outline. */
static void
take_corner (TwGaugeSearch *self, const TwPart *part, TwId element, TwPlane plane)
{
  guint list, place;
  const TwPart *corner = tw_part_element (part, element, &list);
  GPtrArray *ring = tw_part_list (part, list);

  if (!g_ptr_array_find (ring, corner, &place))
    return;
  for (guint i = 0; i < 2 && ring->len > 2; i++) {
    const TwOutlineCorner *here = (const TwOutlineCorner *)corner;
    const TwOutlineCorner *other
        = TW_ELEMENT (ring, TwOutlineCorner, (place + (i ? 1 : ring->len - 1)) % ring->len);
    TwPoint a = { here->across_mm, here->up_mm }, b = { other->across_mm, other->up_mm };

    tw_gauge_take (self, i, tw_plane_lift (plane, a, 0.0), tw_plane_lift (plane, b, 0.0), part->id);
  }
}

static void
take_point (TwGaugeSearch *self, TwId part, TwVec at, double radius_mm)
{
  TwPoint seen = tw_stage_view_place (self->view, at);
  double depth_mm = tw_vec_dot (at, tw_stage_view_depth (self->view));
  TwBox box = { seen.x_mm - radius_mm, seen.y_mm - radius_mm, seen.x_mm + radius_mm, seen.y_mm + radius_mm };

  tw_gauge_bays (self, part, box, (double[2]){ depth_mm - radius_mm, depth_mm + radius_mm });
}

static void
take_element (TwGaugeSearch *self, const TwPart *part, TwId element)
{
  const TwPart *found = tw_part_element (part, element, NULL);
  const TwPlacedVolume *volume = tw_placement_volume (self->placement, part->id);
  const TwPlacedOpening *opening = tw_placement_opening (self->placement, part->id);

  if (found == NULL)
    return;
  if (found->kind == TW_KIND_CORNER && volume != NULL)
    take_corner (self, part, element, volume->plane);
  else if (found->kind == TW_KIND_CORNER && opening != NULL)
    take_corner (self, part, element, opening->plane);
  else if (found->kind == TW_KIND_VIA) {
    const TwVia *via = (const TwVia *)found;
    const TwHose *hose = (const TwHose *)part;
    double radius_mm = hose->bore_mm / 2.0 + hose->wall_mm;

    take_point (self, part->id, tw_vec (via->x_mm, via->y_mm, via->z_mm),
                isfinite (radius_mm) ? radius_mm : 0.0);
  }
}

static void
take_part (TwGaugeSearch *self, const TwPart *part)
{
  const TwPlacedEnginePort *engine = tw_placement_engine_port (self->placement, part->id);
  double depth_mm[2];
  TwBox box;

  tw_gauge_tanks (self, part->id);
  tw_gauge_faces (self, part->id, TW_ID_NONE);
  if (part->kind == TW_KIND_BAFFLE || part->kind == TW_KIND_PORT || part->kind == TW_KIND_FAN
      || part->kind == TW_KIND_SHROUD || part->kind == TW_KIND_HOSE)
    return;
  if (engine != NULL)
    take_point (self, part->id, engine->at, 0.0);
  else if (tw_extent_along (self->placement, part->id, TW_EXTENT_ASSEMBLY, tw_stage_view_depth (self->view),
                            depth_mm)) {
    box = tw_extent_seen (self->placement, self->view, part->id, TW_EXTENT_ASSEMBLY);
    tw_gauge_bays (self, part->id, box, depth_mm);
  }
}

guint
tw_gauge_find (const TwPlacement *placement,
               const TwStageView *view,
               TwId part,
               TwId element,
               TwGauge gauges[TW_GAUGE_MOST])
{
  TwGaugeSearch search = { .placement = placement, .view = view };
  const TwPart *drawn = tw_drawing_find (tw_placement_drawing (placement), part);
  guint n = 0;

  if (drawn == NULL)
    return 0;
  if (drawn->kind == TW_KIND_SHROUD && !tw_id_is_none (element))
    tw_gauge_faces (&search, part, element);
  else if (!tw_id_is_none (element))
    take_element (&search, drawn, element);
  else
    take_part (&search, drawn);
  for (guint i = 0; i < TW_GAUGE_MOST; i++)
    if (search.is_found[i])
      gauges[n++] = search.found[i];
  return n;
}
