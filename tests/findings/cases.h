/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * cases.h - for each check a drawing that it finds something in, and a near twin in which it does not
 */
#pragma once

/* A check, what spoils the whole job for it, and how nearly the same does not. */
typedef struct {
  const char *check;
  const char *fires;
  const char *twin; /* "": the whole job itself */
} FindingCase;

/* A path of hose-1 that climbs 100 mm and comes back, one that dips as much; legs 200, 100, 100, 100, 148. */
#define OVER "-500 100 21 -500 200 21 -400 200 21 -400 100 21"
#define UNDER "-500 100 21 -500 0 21 -400 0 21 -400 100 21"

/* clang-format off */
static const FindingCase finding_cases[] = {
  /* water: a tube’s inside is 39.4 × 1.4 with round ends, 54.74 mm²; 15 of them 821 mm² */
  { "no-inlet", "port-1 use spare", "" },
  { "no-outlet", "port-2 use spare", "" },
  { "no-way", "baffle tank-2 15", "" },
  { "short-circuit", "remove baffle-1", "" },
  { "open-header", "remove tank-2", "" },
  { "wrong-side", "tank-2 side top", "" },
  { "port-on-baffle", "port-1 along_mm 5", "port-1 along_mm 16" },
  { "port-off-tank", "port-1 along_mm 160", "port-1 along_mm 130" },
  { "stray-baffle", "baffle tank-2 1; baffle-2 place_mm 160", "" },
  { "dead-port", "baffle tank-1 28; baffle tank-2 28; port tank-1 inlet start",
    "baffle tank-1 28; port tank-1 inlet start" },
  { "dead-tubes", "baffle tank-1 28; baffle tank-2 28", "" },
  { "dead-chamber", "baffle tank-1 28; baffle tank-2 28", "" },
  { "sensor-dead", "baffle tank-1 28; baffle tank-2 28; port tank-1 sensor start", "port tank-1 sensor start" },
  { "uneven-passes", "baffle-1 place_mm -40", "baffle-1 place_mm -20" },      /* 19 : 11, 17 : 13 */
  { "water-fast", "job flow_l_min 150", "job flow_l_min 120" },               /* 3.04, 2.44 m/s */
  /* mouths: tubes 15 and 16 at ±5, ±1 outside, ±0.7 inside; tube 1 at 145; across ±20 outside */
  { "baffle-on-mouth", "baffle-1 place_mm 4", "baffle-1 place_mm 3" },
  { "end-wall-on-mouth", "tank-2 end_mm 147", "tank-2 end_mm 148" },
  { "side-wall-on-mouth", "tank-2 width_mm 42", "tank-2 width_mm 44" },
  { "lip-on-mouth", "tank-2 lip_mm 8", "tank-2 lip_mm 6" },
  { "mouth-outside-tanks", "tank-2 end_mm 120", "tank-2 end_mm 150" },
  { "land-small", "baffle-1 place_mm 2.5", "baffle-1 place_mm 1.5" },
  { "tank-too-long", "tank-2 end_mm 156", "" },
  { "tank-too-wide", "tank-2 width_mm 56", "tank-2 width_mm 52" },
  { "tank-too-short", "tank-2 end_mm 152", "" },
  /* filling: insides end at ±153 */
  { "no-bleed", "port-4 use spare", "port-4 use filler" },
  { "bleed-low", "port-4 wall back; port-4 along_mm 100", "port-4 wall back; port-4 along_mm 149" },
  { "air-trapped", "baffle-1 place_mm 2.9", "" },
  { "filler-low", "port tank-1 filler back", "port tank-1 filler end" },
  { "no-drain", "port-5 use spare; port-6 use spare", "" },
  { "water-trapped", "port-6 wall back; port-6 along_mm -100", "port-6 wall back; port-6 along_mm -149" },
  /* air */
  { "face-turned", "core-1 heading_deg 180", "core-1 heading_deg 80" },
  { "no-bay", "remove volume-1", "" },
  { "face-shaded", "box structure -20 -20 -120 20 20 -100", "box structure -20 -20 200 20 20 220" },
  /* fans: face and mouth 400 × 300; a ring is 12 wider than what it sweeps; sheet 1.5 */
  { "box-closed", "remove fan-1", "" },
  { "fans-overlap", "fan-1 swept_mm 180; fan-1 u_mm -80; fan 80 180", "fan-1 swept_mm 180; fan-1 u_mm -100; fan 100 180" },
  { "fan-beyond-face", "fan-1 u_mm 61", "fan-1 u_mm 59" },
  { "fan-beyond-shroud", "fan-1 u_mm 55", "fan-1 u_mm 53" },
  { "web-narrow", "fan-1 swept_mm 180; fan-1 ring_mm 192; fan-1 u_mm -97; fan 97 180",
    "fan-1 swept_mm 180; fan-1 ring_mm 192; fan-1 u_mm -98; fan 98 180" },
  { "coverage-low", "fan-1 swept_mm 270", "fan-1 swept_mm 280" },             /* 47.7, 51.3 % in a box */
  { "boxed-low", "shroud-1 width_mm 350", "shroud-1 width_mm 370" },
  { "plenum-shallow", "shroud-1 plenum_mm 12", "shroud-1 plenum_mm 13" },
  /* hoses: straight ones, or those paths */
  { "hose-no-fit", "hose 60 " OVER, "hose 30 " OVER },                        /* 100 − 2 × 60 */
  { "hose-straight-short", "hose 40 " OVER, "hose 30 " OVER },                /* 100 − 2 × 40 = 20 */
  { "hose-bend-tight", "hose 30 " OVER "; hose-3 least_radius_mm 40", "hose 30 " OVER "; hose-3 least_radius_mm 25" },
  { "hose-doubles-back", "hose 30 -400 100 21 -500 100 21", "hose 30 -500 100 21 -400 100 21" },
  { "hose-off-axis", "engine_port-1 y_mm 110", "engine_port-1 y_mm 105" },    /* of 448: 1.3°, 0.6° */
  { "hose-no-end", "tank-1 end_mm -200", "" },
  { "hose-no-radius", "hose 30 " OVER "; hose-3 bend_radius_mm; hose-3 bore_mm", "hose 30 " OVER },
  { "hose-high-point", "hose 30 " OVER, "hose 30 " UNDER },
  { "hose-low-point", "hose 30 " UNDER, "hose 30 " OVER },
  { "hose-no-bore", "hose-1 bore_mm", "" },
  { "hose-same-place", "hose 30 -500 100 21 -500 100 21", "hose 30 -500 100 21 -400 100 21" },
  /* fit: the right tank ends at x = 252, the bay at ±500, 300; the clearance is 10 */
  { "part-crosses", "box structure 240 -20 0 300 20 40", "box structure 270 -20 0 300 20 40" },
  { "people-crossed", "box occupied 240 -20 0 300 20 40", "box structure 240 -20 0 300 20 40" },
  { "service-crossed", "box service 240 -20 0 300 20 40", "box service 255 -20 0 300 20 40" },
  { "clearance-small", "box structure 257 -20 0 300 20 40", "box structure 263 -20 0 300 20 40" },
  { "out-of-bay", "core-1 x_mm 300", "" },
  { "bay-near", "core-1 x_mm 240", "core-1 x_mm 237" },
  { "cap-room-small", "port tank-1 filler end; port-7 stand_out_mm 110", "port tank-1 filler end" },
  /* the whole */
  { "no-place", "fan-1 swept_mm", "" },
  { "tubes-unknown", "core-1 tube_count; core-1 tube_pitch_mm 100; core-1 face_height_mm 50", "" },
  { "assumed", "shroud-1 wall_mm", "" },
  { "not-all-checked", "job flow_l_min", "" },
};
/* clang-format on */
