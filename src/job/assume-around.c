/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * assume-around.c - fills what stands round the cores: engine ports, header tanks, openings and exits
 */
#include "job/assume-private.h"

#include "base/error.h"

#include <math.h>

#define MM3_PER_L 1e6

void
tw_assume_fill_engine_port (TwAssume *self, TwPart *part)
{
  tw_assume_means (part, TW_ENGINE_PORT_x_mm, 0);
  tw_assume_means (part, TW_ENGINE_PORT_y_mm, 0);
  tw_assume_means (part, TW_ENGINE_PORT_z_mm, 0);
  tw_assume_guess (self, part, TW_ENGINE_PORT_stand_out_mm, 40, TW_ASSUME_USUAL);
}

/* What is inside the walls; NaN when a size is not known or the walls leave nothing. */
static double
inside_l (const TwHeaderTank *tank)
{
  double wall_mm = 2 * tank->wall_mm, round_mm = tank->diameter_mm - wall_mm;
  double sizes_mm[] = { tank->width_mm - wall_mm, tank->height_mm - wall_mm, tank->depth_mm - wall_mm };

  if (tank->form == TW_VESSEL_BOX)
    return MIN (sizes_mm[0], MIN (sizes_mm[1], sizes_mm[2])) > 0
               ? sizes_mm[0] * sizes_mm[1] * sizes_mm[2] / MM3_PER_L
               : (double)NAN;
  return MIN (round_mm, tank->length_mm - wall_mm) > 0
             ? G_PI / 4 * round_mm * round_mm * (tank->length_mm - wall_mm) / MM3_PER_L
             : (double)NAN;
}

void
tw_assume_fill_header_tank (TwAssume *self, TwPart *part)
{
  /* a swirl pot runs full, a catch bottle starts empty; the others need room to expand into and water to give
   */
  static const double cold[] = {
    [TW_VESSEL_HEADER] = 0.5, [TW_VESSEL_SWIRL] = 1, [TW_VESSEL_RECOVERY] = 0.3, [TW_VESSEL_CATCH] = 0
  };
  TwHeaderTank *tank = (TwHeaderTank *)part;

  tw_assume_means_choice (part, TW_HEADER_TANK_use, TW_VESSEL_HEADER);
  tw_assume_means_choice (part, TW_HEADER_TANK_form, TW_VESSEL_BOX);
  tw_assume_means (part, TW_HEADER_TANK_x_mm, 0);
  tw_assume_means (part, TW_HEADER_TANK_y_mm, 0);
  tw_assume_means (part, TW_HEADER_TANK_z_mm, 0);
  tw_assume_means (part, TW_HEADER_TANK_heading_deg, 0);
  tw_assume_guess (self, part, TW_HEADER_TANK_wall_mm, 2, TW_ASSUME_USUAL);
  tw_assume_means (part, TW_HEADER_TANK_volume_l, inside_l (tank));
  tw_assume_guess (self, part, TW_HEADER_TANK_cold_share, cold[tank->use], TW_ASSUME_USUAL);
}

void
tw_assume_fill_opening (TwAssume *self, TwPart *part)
{
  tw_assume_means_choice (part, TW_OPENING_plane, TW_DRAWN_FRONT);
  tw_assume_means (part, TW_OPENING_at_mm, 0);
  tw_assume_means_choice (part, TW_OPENING_way, TW_WAY_ALONG);
  tw_assume_means (part, TW_OPENING_across_mm, 0);
  tw_assume_means (part, TW_OPENING_up_mm, 0);
  tw_assume_means_choice (part, TW_OPENING_pressure, TW_PRESSURE_FREE_STREAM);
}

void
tw_assume_fill_exit (TwAssume *self, TwPart *part)
{
  tw_assume_means_choice (part, TW_EXIT_plane, TW_DRAWN_FRONT);
  tw_assume_means (part, TW_EXIT_at_mm, 0);
  tw_assume_means_choice (part, TW_EXIT_way, TW_WAY_ALONG);
  tw_assume_means (part, TW_EXIT_across_mm, 0);
  tw_assume_means (part, TW_EXIT_up_mm, 0);
  tw_assume_means_choice (part, TW_EXIT_pressure, TW_PRESSURE_WAKE);
}
