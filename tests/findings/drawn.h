/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * drawn.h - a job in which nothing is wrong, and a line of words that spoils it
 */
#pragma once

#include "answer/answer.h"
#include "support/make-job.h"

#include <string.h>

static inline TwId
drawn_id (const char *text)
{
  TwId id;

  g_assert_true (tw_id_from_text (text, &id));
  return id;
}

/* 30 level tubes in two passes; a bleed and a drain at each tank; a fan in a box; straight hoses to the
 * engine; a bay with room all round. Every limit is said. Ids: port-1 inlet, port-2 outlet, port-3 and 4
 * bleeds, port-5 and 6 drains. */
static inline TwJob *
drawn_whole (void)
{
  TwJob *job = tw_make_job (TW_TUBES_LEVEL, 30);
  TwId inlet, outlet;

  tw_make_baffle (job, "tank-1", 15);
  inlet = tw_make_port (job, "tank-1", TW_PORT_INLET, TW_WALL_BACK, 100);
  outlet = tw_make_port (job, "tank-1", TW_PORT_OUTLET, TW_WALL_BACK, -100);
  tw_make_port (job, "tank-1", TW_PORT_BLEED, TW_WALL_END, 0);
  tw_make_port (job, "tank-2", TW_PORT_BLEED, TW_WALL_END, 0);
  tw_make_port (job, "tank-1", TW_PORT_DRAIN, TW_WALL_START, 0);
  tw_make_port (job, "tank-2", TW_PORT_DRAIN, TW_WALL_START, 0);
  tw_make_fan (job, 0, 0, 280, 100);
  tw_make_shroud (job, 0, 0, 400, 300);
  tw_make_box (job, TW_DRAWN_FRONT, -1, &(TwMakeBox){ -500, -300, -200, 500, 300, 300 });
  tw_make_hose (
      job, tw_make_engine_port (job, TW_ENGINE_SUPPLY, (double[]){ -700, 100, 21 }, TW_LEAVES_AXIS_RIGHT),
      inlet, 0, NULL, 84);
  tw_make_hose (
      job, outlet,
      tw_make_engine_port (job, TW_ENGINE_RETURN, (double[]){ -700, -100, 21 }, TW_LEAVES_AXIS_RIGHT), 0,
      NULL, 84);
  tw_make_set (job, "job", "clearance_mm", "10");
  tw_make_set (job, "job", "hot_clearance_mm", "50");
  tw_make_set (job, "job", "straight_mm", "25");
  tw_make_set (job, "job", "land_mm", "1");
  tw_make_set (job, "job", "flow_l_min", "60");
  return job;
}

static inline void
drawn_remove (TwJob *job, const char *part)
{
  g_autoptr (TwChange) change = tw_change_remove_whole (job, drawn_id (part));
  g_autoptr (TwChange) inverse = NULL;
  g_autoptr (GError) error = NULL;

  if (!tw_change_apply (change, job, &inverse, &error))
    g_error ("%s", error->message);
}

/* `hose radius x y z x y z …`: instead of hose-1, by those via-points. */
static inline void
drawn_hose (TwJob *job, char **words)
{
  double vias_mm[8][3];
  guint n = (g_strv_length (words) - 2) / 3;

  for (guint i = 0; i < 3 * n; i++)
    vias_mm[i / 3][i % 3] = g_ascii_strtod (words[2 + i], NULL);
  drawn_remove (job, "hose-1");
  tw_make_hose (job, drawn_id ("engine_port-1"), drawn_id ("port-1"), n, (const double (*)[3])vias_mm,
                g_ascii_strtod (words[1], NULL));
}

static inline int
drawn_choice (const TwChoice *choices, const char *name)
{
  for (int i = 0; choices[i].name != NULL; i++)
    if (g_str_equal (choices[i].name, name))
      return i;
  g_error ("no choice \"%s\"", name);
}

/* One order: `remove PART`, `port TANK USE WALL`, `baffle TANK AFTER`, `fan U SWEPT`, `box KIND X0 Y0 Z0 X1
 * Y1 Z1`, `hose …`, or `PART FIELD VALUE` (without value: unknown). */
static inline void
drawn_do (TwJob *job, char **words)
{
  if (g_str_equal (words[0], "remove")) {
    drawn_remove (job, words[1]);
  } else if (g_str_equal (words[0], "port")) {
    tw_make_port (job, words[1], drawn_choice (tw_choices_port_use, words[2]),
                  drawn_choice (tw_choices_wall, words[3]), 0);
  } else if (g_str_equal (words[0], "baffle")) {
    tw_make_baffle (job, words[1], (guint)g_ascii_strtoull (words[2], NULL, 10));
  } else if (g_str_equal (words[0], "fan")) {
    tw_make_fan (job, g_ascii_strtod (words[1], NULL), 0, g_ascii_strtod (words[2], NULL), 50);
  } else if (g_str_equal (words[0], "box")) {
    double at[6];

    for (guint i = 0; i < 6; i++)
      at[i] = g_ascii_strtod (words[2 + i], NULL);
    tw_make_box (job, TW_DRAWN_FRONT, drawn_choice (tw_choices_taken, words[1]),
                 &(TwMakeBox){ at[0], at[1], at[2], at[3], at[4], at[5] });
  } else if (g_str_equal (words[0], "hose")) {
    drawn_hose (job, words);
  } else {
    tw_make_set (job, words[0], words[1], words[2] != NULL ? words[2] : "");
  }
}

/* The whole job, and then the orders, parted by `; `. */
static inline TwJob *
drawn_with (const char *orders)
{
  TwJob *job = drawn_whole ();
  g_auto (GStrv) list = g_strsplit (orders, "; ", -1);

  for (guint i = 0; list[i] != NULL && *list[i] != '\0'; i++) {
    g_auto (GStrv) words = g_strsplit (list[i], " ", -1);

    drawn_do (job, words);
  }
  return job;
}

/* The answer to the whole job after @orders. */
static inline TwAnswer *
drawn_answer (const TwCatalogue *catalogue, const char *orders)
{
  g_autoptr (TwJob) job = drawn_with (orders);

  return tw_answer_new (job, catalogue, NULL);
}
