/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/placement-private.h"

static double
radians (double angle_deg)
{
  return tw_known_or (angle_deg, 0.0) * (G_PI / 180.0);
}

static TwFrame
core_frame (const TwCore *core)
{
  TwVec origin
      = tw_vec (tw_known_or (core->x_mm, 0.0), tw_known_or (core->y_mm, 0.0), tw_known_or (core->z_mm, 0.0));
  TwTurns turns = {
    .turn_rad = radians (core->turn_deg),
    .lean_rad = radians (core->lean_deg),
    .roll_rad = radians (core->roll_deg),
    .heading_rad = radians (core->heading_deg),
  };

  return tw_frame_place (origin, turns);
}

static void
place_sides (TwPlacedCore *placed, double reach_mm)
{
  TwVec across = tw_vec (1.0, 0.0, 0.0), up = tw_vec (0.0, 1.0, 0.0);
  TwVec out = placed->is_upright ? up : across;
  double half_mm = 0.5 * (placed->is_upright ? placed->face_height_mm : placed->face_width_mm);
  double half_along_mm = 0.5 * (placed->is_upright ? placed->face_width_mm : placed->face_height_mm);

  for (guint i = 0; i < 2; i++) {
    TwHeaderSide *side = &placed->sides[i];
    gboolean is_positive = placed->is_upright ? i == 0 : i == 1;

    side->side = placed->is_upright ? (i == 0 ? TW_SIDE_TOP : TW_SIDE_BOTTOM)
                                    : (i == 0 ? TW_SIDE_LEFT : TW_SIDE_RIGHT);
    side->along = placed->is_upright ? across : up;
    side->out = is_positive ? out : tw_vec_scale (out, -1.0);
    side->off_mm = half_mm + placed->header_thickness_mm;
  }
  placed->header_start_mm = -half_along_mm - reach_mm;
  placed->header_end_mm = half_along_mm + reach_mm;
}

static void
place_corners (TwPlacedCore *placed)
{
  TwBox face = placed->face;
  TwPoint corners[4] = { { face.x0_mm, face.y0_mm },
                         { face.x1_mm, face.y0_mm },
                         { face.x1_mm, face.y1_mm },
                         { face.x0_mm, face.y1_mm } };

  for (guint i = 0; i < 4; i++)
    placed->corners[i] = tw_frame_to_job (&placed->frame, tw_vec (corners[i].x_mm, corners[i].y_mm, 0.0));
}

/* The rim of a header plate: four strips as thick as the plate, standing away from the tubes along its edges.
 */
static void
add_rim (TwPlacement *self, const TwPlacedCore *core, const TwHeaderSide *side, double lip_mm)
{
  double along_mm[2] = { core->header_start_mm, core->header_end_mm };
  double w_mm[2] = { core->header_w_from_mm, core->header_w_to_mm };
  double thick_mm = core->header_thickness_mm;

  for (guint i = 0; i < 4; i++) {
    double a_mm[2] = { along_mm[0], along_mm[1] }, b_mm[2] = { w_mm[0], w_mm[1] };
    double *thin_mm = i < 2 ? a_mm : b_mm;

    if (i % 2 == 0)
      thin_mm[1] = thin_mm[0] + thick_mm;
    else
      thin_mm[0] = thin_mm[1] - thick_mm;
    tw_placement_add_solid (self, core->id, core->id, TW_SOLID_HEADER,
                            tw_convex_new_box (&core->frame, tw_header_point (side, a_mm[0], 0.0, b_mm[0]),
                                               tw_header_point (side, a_mm[1], lip_mm, b_mm[1])));
  }
}

static void
add_core_solids (TwPlacement *self, const TwPlacedCore *core, double lip_mm)
{
  tw_placement_add_solid (
      self, core->id, core->id, TW_SOLID_BLOCK,
      tw_convex_new_box (&core->frame, tw_vec (core->face.x0_mm, core->face.y0_mm, 0.0),
                         tw_vec (core->face.x1_mm, core->face.y1_mm, core->thickness_mm)));
  for (guint i = 0; i < 2 && core->header_thickness_mm > 0.0; i++) {
    const TwHeaderSide *side = &core->sides[i];
    TwVec from
        = tw_header_point (side, core->header_start_mm, -core->header_thickness_mm, core->header_w_from_mm);
    TwVec to = tw_header_point (side, core->header_end_mm, 0.0, core->header_w_to_mm);

    tw_placement_add_solid (self, core->id, core->id, TW_SOLID_HEADER,
                            tw_convex_new_box (&core->frame, from, to));
    if (lip_mm > 0.0)
      add_rim (self, core, side, lip_mm);
  }
}

static const char *
place_core (const TwCore *core, TwPlacedCore *placed)
{
  double half_width_mm;

  if (!isfinite (core->face_width_mm) || !isfinite (core->face_height_mm))
    return N_ ("the size of its face is not known");
  if (!isfinite (core->thickness_mm))
    return N_ ("its thickness is not known");

  *placed = (TwPlacedCore){
    .id = core->head.id,
    .frame = core_frame (core),
    .is_upright = core->tubes == TW_TUBES_UPRIGHT,
    .face_width_mm = core->face_width_mm,
    .face_height_mm = core->face_height_mm,
    .thickness_mm = core->thickness_mm,
    .face = { -0.5 * core->face_width_mm, -0.5 * core->face_height_mm, 0.5 * core->face_width_mm,
              0.5 * core->face_height_mm },
    .header_thickness_mm = tw_known_or (core->header_thickness_mm, 0.0),
  };
  placed->air = core->air == TW_AIR_SQUARE ? placed->frame.w : tw_vec (0.0, 0.0, 1.0);
  placed->air_cos = tw_vec_dot (placed->air, placed->frame.w);
  half_width_mm = 0.5 * tw_known_or (core->header_width_mm, core->thickness_mm);
  placed->header_w_from_mm = 0.5 * core->thickness_mm - half_width_mm;
  placed->header_w_to_mm = 0.5 * core->thickness_mm + half_width_mm;
  place_sides (placed, tw_known_or (core->header_reach_mm, 0.0));
  place_corners (placed);
  return NULL;
}

void
tw_placement_place_cores (TwPlacement *self)
{
  guint n = tw_drawing_count (self->drawing, TW_KIND_CORE);

  for (guint i = 0; i < n; i++) {
    const TwCore *core = TW_DRAWING_CORE (self->drawing, i);
    TwPlacedCore placed;
    const char *why = place_core (core, &placed);

    tw_placement_add (self, &core->head, self->cores, &placed, why);
    if (why == NULL)
      add_core_solids (self, &placed, tw_known_or (core->header_lip_mm, 0.0));
  }
}
