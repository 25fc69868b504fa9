/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-tasks-window.c - finding one's way: views, zoom, panes, cards, units, history, files
 */
#include "task.h"

static const Task tasks[] = {
  { "all-views",
    "caravan-4",
    { "view Front", "shows header | [*Front]", "view Side", "shows header | [*Side]", "view Plan",
      "shows header | [*Plan]", "view Face", "shows header | [*Face]" },
    0 },
  { "views-by-keys",
    "ox",
    { "key ctrl+2", "shows header | [*Front]", "key ctrl+3", "shows header | [*Side]", "key ctrl+4",
      "shows header | [*Plan]", "key ctrl+1", "shows header | [*Face]" },
    0 },
  { "zoom-and-fit",
    "merlin-tail",
    { "key ctrl+plus", "key ctrl+plus", "key ctrl+minus", "ctrl-wheel -3", "wheel 2", "ctrl-wheel 4",
      "key ctrl+0" },
    0 },
  { "panes-folded-and-back",
    "merlin-tail",
    { "key F9", "lacks parts | Core", "key shift+F9", "lacks card Fit | Fit", "key F9", "shows parts | Core",
      "key shift+F9", "shows card Fit | Fit" },
    0 },
  { "inches-and-back",
    "merlin-tail",
    /* 222 600 mm² / 645.16 = 345.03 in² */
    { "press header | Menu", "key Escape", "key ctrl+0" },
    0 },
  { "card-rows-open",
    "merlin-tail",
    { "open Free frontal area", "shows card Free | 26 600 mm² = 11.9 %", "open Fan coverage",
      "shows card Fan | 208 080 mm² = 93.5 %", "open Pass layout", "shows card Pass | 1.960 m/s", "open Fit",
      "shows card Fit | 62.0 mm" },
    0 },
  { "card-row-chooses-its-part",
    "merlin-tail",
    { "open Free frontal area", "row Free frontal area | Cross tube", "chosen Cross tube",
      "shows form | Cross tube" },
    0 },
  { "finding-chooses-its-part", "merlin-tail", { "row Findings | leaves Inlet", "chosen Supply" }, 0 },
  { "tab-goes-on", "merlin-tail", { "list Core", "click Core", "key Tab", "key Tab", "key Return" }, 0 },
  { "form-by-enter", "merlin-tail", { "click Core", "key Return", "shows form | Face width = 700" }, 0 },
  { "bad-figure-is-kept-and-said",
    "merlin-tail",
    { "list Core", "fill Face width = seven", "shows form | Face width = seven", "is Core face_width_mm 700",
      "key Escape", "shows form | Face width = 700" },
    0 },
  { "too-large-a-figure",
    "merlin-tail",
    { "list Core", "fill Face width = 900000", "is Core face_width_mm 700", "key Escape",
      "shows form | Face width = 700" },
    0 },
  { "undo-names-what-it-does",
    "merlin-tail",
    { "drag Baffle 0 -10", "key ctrl+z", "is Baffle place_mm -5", "key ctrl+shift+z",
      "is Baffle place_mm -15" },
    1 },
  { "several-changes-one-by-one",
    "merlin-tail",
    { "drag Baffle 0 -10", "list Core", "fill Face width = 710", "list Left fan", "fill Hub diameter = 100",
      "key ctrl+z" },
    2 },
  { "save-and-reopen", "volt-9", { "key ctrl+s", "key ctrl+r", "shows header | Volt-9" }, 0 },
  /* a plain click in the list chooses one alone, whatever was chosen before */
  { "list-chooses-one",
    "merlin-tail",
    { "list Left fan", "list Core", "shows form | Face width = 700",
      "lacks form | Parts of different kinds" },
    0 },
  { "escape-chooses-nothing", "merlin-tail", { "click Core", "chosen Core", "key Escape", "chosen -" }, 0 },
};

int
main (int argc, char **argv)
{
  return task_main (argc, argv, "window", tasks, G_N_ELEMENTS (tasks));
}
