/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-tasks-parts.c - moving, measuring and removing parts, by pointer, keys and form
 *
 * Figures are those of the samples (see samples/) and what follows from them by hand, as said beside a task.
 */
#include "task.h"

static const Task tasks[] = {
  /* 31 tubes of pitch 10 mm: one gap down takes one tube from the second pass */
  { "baffle-by-one-tube",
    "merlin-tail",
    { "drag Baffle 0 -10", "is Baffle place_mm -15", "shows card Pass layout | 17 to the right, then 14" },
    1 },
  { "baffle-by-five-tubes",
    "merlin-tail",
    { "drag Baffle 0 50", "is Baffle place_mm 45", "shows card Pass layout | 11 to the right, then 20" },
    1 },
  { "baffle-put-back-by-escape",
    "merlin-tail",
    { "hold Baffle 0 -30", "is Baffle place_mm -35", "key Escape", "is Baffle place_mm -5", "release" },
    0 },
  { "baffle-across-upright-tubes",
    "volt-9",
    { "drag Baffle 30 0", "shows card Pass layout | 16 down, then 10 up" },
    1 },
  { "baffle-by-key",
    "merlin-tail",
    { "click Baffle", "key Up", "is Baffle place_mm -4", "key shift+Down", "is Baffle place_mm -14" },
    2 },
  { "baffle-typed-in-inches",
    "merlin-tail",
    /* 1 3/8 in = 34.925 mm */
    { "list Baffle", "fill Place along the header = 1 3/8 in", "is Baffle place_mm 34.925" },
    1 },
  { "baffle-removed",
    "merlin-tail",
    { "click Baffle", "key Delete", "gone Baffle", "lacks parts | Baffle" },
    1 },

  { "core-wider",
    "merlin-tail",
    /* 690 · 318 = 219 420 */
    { "list Core", "fill Face width = 690", "shows card Free frontal area | of 219 420 mm²" },
    1 },
  { "core-dragged-in-front", "merlin-tail", { "view Front", "drag Core 10 0", "shows header | [Undo]" }, 1 },
  { "core-leans", "merlin-boot", { "list Core", "fill Lean = 35", "is Core lean_deg 35" }, 1 },
  { "core-rolls", "merlin-tail", { "list Core", "fill Roll = 3", "is Core roll_deg 3" }, 1 },
  { "core-by-key-in-plan",
    "merlin-tail",
    { "view Plan", "list Core", "click Core", "key shift+Right", "shows header | [Undo]" },
    1 },

  { "tank-deeper", "merlin-tail", { "list Left tank", "fill Depth = 70", "is Left tank depth_mm 70" }, 1 },
  { "tank-wall-in-gauge-of-sheet",
    "merlin-tail",
    { "list Right tank", "fill Wall = 2.5", "is Right tank wall_mm 2.5" },
    1 },
  { "tank-removed-with-what-is-on-it",
    "merlin-tail",
    { "list Right tank", "key Escape", "list Left bleed" },
    0 },

  { "port-dragged", "merlin-tail", { "drag Outlet 0 15", "shows header | [Undo]", "chosen Outlet" }, 1 },
  { "port-by-key",
    "merlin-tail",
    { "list Outlet", "click Outlet", "key Up", "key Up", "shows header | [Undo]" },
    2 },
  { "port-bore", "merlin-tail", { "list Inlet", "fill Bore = 30", "is Inlet bore_mm 30" }, 1 },
  { "port-removed", "merlin-tail", { "click Water sensor", "key Delete", "gone Water sensor" }, 1 },

  { "fan-swept",
    "merlin-tail",
    /* both 280: 123 150; one of 240: 61 575 + 45 239 = 106 814, of 222 600 48.0 % */
    { "list Left fan", "fill Swept diameter = 240", "shows card Fan coverage | 48.0 % swept" },
    1 },
  { "fan-dragged", "merlin-tail", { "drag Left fan -20 0", "shows header | [Undo]", "chosen Left fan" }, 1 },
  { "fan-removed",
    "merlin-tail",
    /* 61 575 of 222 600 = 27.7 % */
    { "list Right fan", "click Right fan", "key Delete", "gone Right fan",
      "shows card Fan coverage | 27.7 % swept" },
    1 },
  { "shroud-narrower",
    "merlin-tail",
    /* 600 · 306 = 183 600 of 222 600 = 82.5 % */
    { "list Shroud", "fill Mouth width = 600", "shows card Fan coverage | 82.5 %" },
    1 },

  { "hose-tighter-bends",
    "merlin-tail",
    { "list Return", "fill Bend radius = 60", "open Hose routing", "shows card Hose routing | R 60.0 mm" },
    1 },
  { "hose-bore", "merlin-tail", { "list Supply", "fill Bore = 32", "is Supply bore_mm 32" }, 1 },
  { "hose-chosen-by-its-row",
    "merlin-tail",
    { "open Hose routing", "row Hose routing | Return", "chosen Return" },
    0 },

  { "bay-wall-closer",
    "merlin-tail",
    { "list Bay", "fill To = 160", "is Bay to_mm 160", "shows card Fit | 5.0 mm" },
    1 },
  { "what-takes-room-is-moved",
    "merlin-tail",
    { "view Front", "drag Exhaust 0 -20", "shows header | [Undo]", "chosen Exhaust" },
    1 },
  { "cross-tube-removed",
    "merlin-tail",
    { "list Cross tube", "view Front", "click Cross tube", "key Delete", "gone Cross tube",
      "lacks card Free | Cross tube" },
    1 },
};

int
main (int argc, char **argv)
{
  return task_main (argc, argv, "parts", tasks, G_N_ELEMENTS (tasks));
}
