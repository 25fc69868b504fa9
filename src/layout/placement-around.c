/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * placement-around.c - what stands round the cores: header tanks, openings and exits
 */
#include "layout/placement-private.h"

/* An exit has the fields of an opening, and is placed as one. */
G_STATIC_ASSERT (sizeof (TwExit) == sizeof (TwOpening));
G_STATIC_ASSERT (offsetof (TwExit, pressure) == offsetof (TwOpening, pressure));
G_STATIC_ASSERT (offsetof (TwExit, outline) == offsetof (TwOpening, outline));

static const char *
place_header_tank (const TwHeaderTank *tank, TwPlacedHeaderTank *placed)
{
  gboolean is_box = tank->form <= TW_VESSEL_BOX, is_upright = tank->form == TW_VESSEL_UPRIGHT;
  TwVec size = is_box       ? tw_vec (tank->width_mm, tank->height_mm, tank->depth_mm)
               : is_upright ? tw_vec (tank->diameter_mm, tank->length_mm, tank->diameter_mm)
                            : tw_vec (tank->length_mm, tank->diameter_mm, tank->diameter_mm);
  TwTurns turns = { .heading_rad = tw_known_or (tank->heading_deg, 0.0) * (G_PI / 180.0) };
  double reach_mm;

  if (!isfinite (size.x) || !isfinite (size.y) || !isfinite (size.z))
    return is_box ? N_ ("its width, height or depth is not known")
                  : N_ ("its diameter or length is not known");

  *placed = (TwPlacedHeaderTank){
    .id = tank->head.id,
    .use = MAX (tank->use, TW_VESSEL_HEADER),
    .form = MAX (tank->form, TW_VESSEL_BOX),
    .frame = tw_frame_place (
        tw_vec (tw_known_or (tank->x_mm, 0.0), tw_known_or (tank->y_mm, 0.0), tw_known_or (tank->z_mm, 0.0)),
        turns),
    .half = tw_vec_scale (size, 0.5),
    .wall_mm = tw_known_or (tank->wall_mm, 0.0),
  };
  if (is_box)
    return NULL;
  reach_mm = 0.5 * tank->length_mm;
  placed->round_mm = tank->diameter_mm;
  for (guint i = 0; i < 2; i++)
    placed->ends[i] = tw_vec_add_scaled (placed->frame.origin, i == 0 ? -reach_mm : reach_mm,
                                         is_upright ? placed->frame.v : placed->frame.u);
  return NULL;
}

void
tw_placement_place_header_tanks (TwPlacement *self)
{
  guint n = tw_drawing_count (self->drawing, TW_KIND_HEADER_TANK);

  for (guint i = 0; i < n; i++) {
    const TwHeaderTank *tank = TW_DRAWING_HEADER_TANK (self->drawing, i);
    TwPlacedSolid like = { .part = tank->head.id, .core = TW_ID_NONE, .role = TW_SOLID_HEADER_TANK };
    TwPlacedHeaderTank placed;
    const char *why = place_header_tank (tank, &placed);

    tw_placement_add (self, &tank->head, self->header_tanks, &placed, why);
    if (why != NULL)
      continue;
    if (placed.form == TW_VESSEL_BOX)
      tw_placement_add_solid (
          self, placed.id, TW_ID_NONE, TW_SOLID_HEADER_TANK,
          tw_convex_new_box (&placed.frame, tw_vec_scale (placed.half, -1.0), placed.half));
    else
      tw_placement_add_round (self, &like, placed.ends[0], placed.ends[1], placed.round_mm);
  }
}

/* Its outline, else the rectangle round its middle; empty, with the reason, when there is neither. */
static TwArea *
area_of (const TwOpening *opening, TwGeos *geos, const char **why)
{
  double across_mm = tw_known_or (opening->across_mm, 0.0), up_mm = tw_known_or (opening->up_mm, 0.0);
  double half_width_mm = 0.5 * opening->width_mm, half_height_mm = 0.5 * opening->height_mm;
  TwArea *area;

  if (opening->outline->len == 0) {
    if (isfinite (half_width_mm) && isfinite (half_height_mm))
      return tw_area_new_box (geos, (TwBox){ across_mm - half_width_mm, up_mm - half_height_mm,
                                             across_mm + half_width_mm, up_mm + half_height_mm });
    *why = N_ ("it has neither an outline nor a width and height");
    return tw_area_new_empty ();
  }
  area = tw_placement_outline_area (opening->outline, NULL, geos);
  if (tw_area_is_empty (area))
    *why = N_ ("its outline holds nothing, or crosses itself");
  return area;
}

static void
place_opening (TwPlacement *self, const TwPart *part, TwGeos *geos)
{
  const TwOpening *opening = (const TwOpening *)part;
  TwPlane plane = (TwPlane)MAX (opening->plane, TW_DRAWN_FRONT);
  TwVec third = tw_plane_lift (plane, (TwPoint){ 0.0, 0.0 }, 1.0);
  const char *why = NULL;
  TwPlacedOpening placed = {
    .id = part->id,
    .is_exit = part->kind == TW_KIND_EXIT,
    .plane = plane,
    .at_mm = tw_known_or (opening->at_mm, 0.0),
    .outline = area_of (opening, geos, &why),
    .way = opening->way == TW_WAY_AGAINST ? tw_vec_scale (third, -1.0) : third,
  };
  double radius_mm;

  if (why == NULL) {
    placed.area_mm2 = tw_area_mm2 (placed.outline);
    placed.middle
        = tw_plane_lift (plane, tw_area_label_point (geos, placed.outline, &radius_mm), placed.at_mm);
  } else {
    tw_area_unref (placed.outline);
  }
  tw_placement_add (self, part, self->openings, &placed, why);
}

void
tw_placement_place_openings (TwPlacement *self, TwGeos *geos)
{
  static const TwKind kinds[] = { TW_KIND_OPENING, TW_KIND_EXIT };

  for (guint k = 0; k < G_N_ELEMENTS (kinds); k++) {
    guint n = tw_drawing_count (self->drawing, kinds[k]);

    for (guint i = 0; i < n; i++)
      place_opening (self, tw_drawing_get (self->drawing, kinds[k], i), geos);
  }
}
