/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-stories.c - whole jobs of the trade, walked in the real window; their figures worked by hand
 * beforehand
 *
 * Velocities: flow over the bore areas of a pass; of one tube (w − h)·h + π·h²/4 with inner h and w. Tail:
 * h = 1.4, w = 45.4, so 61.6 + 1.5394 = 63.1394 mm²; 118.8 L/min = 1.98e6 mm³/s: 16 tubes 1.960 m/s,
 * 15 2.091, 17 1.845, 14 2.240.
 */
#include "task.h"

static const Task tasks[] = {
  { "baffle-by-one-tube-and-onto-a-mouth",
    "merlin-tail",
    { "open Pass layout", "shows card Pass | 16 tubes, 1.960 m/s", "shows card Pass | 15 tubes, 2.091 m/s",
      "hold Baffle 0 -10", "shows card Pass | 17 tubes, 1.845 m/s", "shows card Pass | 14 tubes, 2.240 m/s",
      "release",
      /* the middle of a tube lies 5 mm from the gap */
      "lacks card Findings | stop", "list Baffle", "fill Place along the header = -10",
      "shows card Findings | stop", "key ctrl+z", "lacks card Findings | stop" },
    1 },
  /* 15 in: 2 · π/4 · 15² = 353.43, less hubs of 6 in 2 · 28.274 = 296.88; of 594.89: 59.4 and 49.9 %. 16 in
   * at ±7.75: 402.12 less the overlap 1.33 less 2 · 0.66 that hangs over = 399.47 = 67.2 % */
  { "larger-fans-overlap",
    "caravan-4",
    { "open Fan coverage", "shows card Fan | 59.4 % swept", "shows card Fan | 353.43 in²",
      "shows card Fan | 296.88 in²", "shows card Fan | 582.80 in² = 98.0 %", "list Left fan",
      "fill Swept diameter = 16", "list Right fan", "fill Swept diameter = 16",
      "shows card Fan | 67.2 % swept", "shows card Fan | 399.47 in²", "shows card Fan | 1.33 in²" },
    2 },
  /* 26 upright tubes, the baffle in the top tank between 13 and 14: both chambers of it are highest */
  { "air-trap-in-the-kart",
    "volt-9",
    { "open Pass layout", "shows card Pass | 13 tubes, 0.390 m/s", "lacks card Findings | stop",
      "list Left bleed", "click Left bleed", "key Delete", "gone Left bleed", "shows card Findings | stop",
      "list Core", "fill Roll = 8", "is Core roll_deg 8" },
    2 },
  /* upright 360 high in 420 less 2 · 10; at 40° 360 · cos 40 + 54 · sin 40 = 310.5 high, 272.8 deep, 14.8
   * clear above; face 540 · 348 = 187 920, along z 187 920 · cos 40 = 143 955 */
  { "lean-it-back-until-it-fits",
    "merlin-boot",
    { "open Fit", "open Free frontal area", "shows card Fit | 310.5 mm × 272.8 mm",
      "shows card Fit | 14.8 mm", "shows card Free | 187 920 mm²", "shows card Free | 143 955 mm²",
      "list Core", "fill Lean = 0", "shows card Free | 187 920 mm²", "lacks card Free | 143 955 mm²",
      "shows card Findings | stop", "fill Lean = 40", "shows card Free | 143 955 mm²",
      "shows card Fit | 14.8 mm" },
    2 },
};

int
main (int argc, char **argv)
{
  return task_main (argc, argv, "stories", tasks, G_N_ELEMENTS (tasks));
}
