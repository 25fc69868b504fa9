/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * heights-tank.c - how high the water of header tanks, swirl pots and bottles stands
 */
#include "layout/heights-private.h"

#include <math.h>

static double
inside_mm (double half_mm, double wall_mm)
{
  return MAX (half_mm - wall_mm, 0.0);
}

/* From the middle to the place inside that lies farthest along @way, both in the tank's own frame. */
static TwVec
farthest (const TwPlacedHeaderTank *tank, TwVec way)
{
  TwVec half = tw_vec (inside_mm (tank->half.x, tank->wall_mm), inside_mm (tank->half.y, tank->wall_mm),
                       inside_mm (tank->half.z, tank->wall_mm));
  TwVec at = tw_vec (copysign (half.x, way.x), copysign (half.y, way.y), copysign (half.z, way.z));
  double round_mm = inside_mm (0.5 * tank->round_mm, tank->wall_mm), across;

  if (tank->form == TW_VESSEL_UPRIGHT) {
    across = hypot (way.x, way.z);
    at.x = across > 0.0 ? round_mm * way.x / across : 0.0;
    at.z = across > 0.0 ? round_mm * way.z / across : 0.0;
  } else if (tank->form == TW_VESSEL_LEVEL) {
    across = hypot (way.y, way.z);
    at.y = across > 0.0 ? round_mm * way.y / across : 0.0;
    at.z = across > 0.0 ? round_mm * way.z / across : 0.0;
  }
  return at;
}

/* Along its own upright from its middle to the cold level. */
static double
cold_mm (const TwPlacement *placement, const TwPlacedHeaderTank *tank)
{
  const TwHeaderTank *drawn
      = (const TwHeaderTank *)tw_drawing_find (tw_placement_drawing (placement), tank->id);

  return (2.0 * drawn->cold_share - 1.0) * inside_mm (tank->half.y, tank->wall_mm);
}

GArray *
tw_heights_of_tanks (const TwPlacement *placement, TwVec up)
{
  GArray *heights = g_array_new (FALSE, FALSE, sizeof (TwTankHeight));
  guint n;
  const TwPlacedHeaderTank *tanks = tw_placement_header_tanks (placement, &n);

  for (guint i = 0; i < n; i++) {
    const TwFrame *frame = &tanks[i].frame;
    TwVec way = tw_frame_turn_from_job (frame, up), top = farthest (&tanks[i], way);
    double middle_mm = tw_vec_dot (frame->origin, up);
    TwTankHeight height = {
      .tank = tanks[i].id,
      .highest_mm = middle_mm + tw_vec_dot (top, way),
      .lowest_mm = middle_mm - tw_vec_dot (top, way), /* it is the same upside down */
      .cold_mm = middle_mm + cold_mm (placement, &tanks[i]) * way.y,
      .highest_at = tw_frame_to_job (frame, top),
    };

    g_array_append_val (heights, height);
  }
  return heights;
}
