/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * drawn.h - cores with tanks, baffles and ports from one line of text, for tests
 *
 * Words, in this order: L31 or U26: level or upright tubes, how many; r2: rows; c: the same core once more,
 * its tanks 3 and 4; s1:16 splits tank 1 after tube 16: tank 3 takes the rest, a second split makes tank 4;
 * b1:16 a baffle across tank 1 after tube 16; m1:16 one in the middle of tube 16; a1:0 one along tank 1, so
 * far from the middle of the core; i1:3, o2:29, x2:5 an inlet, outlet or spare port in the back of tank 1 or
 * 2 beside tube 3, 29, 5, with f or b behind it in the air-in or air-out wall; p5 or p5/2 plugs tube 5, in
 * row 2 only; h2:3 a hose from the second port to the third.
 */
#pragma once

#include "layout/found.h"
#include "support/make-job.h"

G_BEGIN_DECLS

/* The job so far. */
typedef struct {
  TwJob *job;
  guint n_tubes;
  gboolean level;
  guint n_hoses;
} Drawn;

static inline TwId
drawn_id (const char *stem, guint n)
{
  g_autofree char *text = g_strdup_printf ("%s-%u", stem, n);

  return id_of (text);
}

/* Middle of a tube along the header. */
static inline double
drawn_tube_mm (const Drawn *drawn, double tube)
{
  double half = drawn->n_tubes * TW_MAKE_PITCH_MM / 2.0, off = (tube - 0.5) * TW_MAKE_PITCH_MM;

  return drawn->level ? half - off : off - half;
}

static inline void
drawn_rows (const Drawn *drawn, guint rows)
{
  tw_make_set_number (drawn->job, "core-1", "thickness_mm", rows * TW_MAKE_THICKNESS_MM);
  tw_make_set_number (drawn->job, "core-1", "row_pitch_mm", TW_MAKE_THICKNESS_MM);
  tw_make_set_number (drawn->job, "core-1", "header_width_mm", rows * TW_MAKE_THICKNESS_MM + 12.0);
  for (guint i = 1; i <= 2; i++)
    tw_make_set_number (drawn->job, drawn_id ("tank", i).text, "width_mm",
                        rows * TW_MAKE_THICKNESS_MM + 12.0);
  {
    g_autofree char *text = g_strdup_printf ("%u", rows);

    tw_make_set (drawn->job, "core-1", "rows", text);
  }
}

/* What follows tube @after along the header goes to a new tank. */
static inline void
drawn_split (const Drawn *drawn, const char *tank, guint after)
{
  const TwPart *whole = tw_job_find (drawn->job, id_of (tank));
  TwTank *rest = (TwTank *)tw_part_copy (whole);
  double at = drawn_tube_mm (drawn, after + 0.5);

  rest->head.id = tw_job_new_id (drawn->job, TW_KIND_TANK);
  if (drawn->level)
    rest->end_mm = at;
  else
    rest->start_mm = at;
  tw_job_insert (drawn->job, &rest->head, -1);
  tw_make_set_number (drawn->job, tank, drawn->level ? "start_mm" : "end_mm", at);
}

static inline void
drawn_again (const Drawn *drawn)
{
  TwPart *core = tw_part_copy (tw_job_find (drawn->job, id_of ("core-1")));

  core->id = tw_job_new_id (drawn->job, TW_KIND_CORE);
  for (guint i = 1; i <= 2; i++) {
    TwTank *tank = (TwTank *)tw_part_copy (tw_job_find (drawn->job, drawn_id ("tank", i)));

    tank->head.id = tw_job_new_id (drawn->job, TW_KIND_TANK);
    tank->core = core->id;
    tw_job_insert (drawn->job, &tank->head, -1);
  }
  tw_job_insert (drawn->job, core, -1);
}

static inline void
drawn_plug (const Drawn *drawn, guint tube, int row)
{
  TwCore *core = (TwCore *)tw_part_copy (tw_job_find (drawn->job, id_of ("core-1")));
  TwPlug *plug = (TwPlug *)tw_part_new (TW_KIND_PLUG, drawn_id ("plug", core->plugged->len + 1));

  plug->tube = (int)tube;
  plug->row = row;
  g_ptr_array_add (core->plugged, plug);
  tw_job_replace (drawn->job, &core->head);
}

static inline void
drawn_port (const Drawn *drawn, char use, const char *tank, const char *rest)
{
  char *end;
  double tube = g_ascii_strtod (rest, &end);
  int uses = use == 'i' ? TW_PORT_INLET : use == 'o' ? TW_PORT_OUTLET : TW_PORT_SPARE;
  int wall = *end == 'f' ? TW_WALL_AIR_IN : *end == 'b' ? TW_WALL_AIR_OUT : TW_WALL_BACK;
  TwId id = tw_make_port (drawn->job, tank, uses, wall, drawn_tube_mm (drawn, tube));

  tw_make_set_number (drawn->job, id.text, "bore_mm", 8.0); /* reaches over no baffle beside the tube */
}

static inline void
drawn_word (Drawn *drawn, const char *word)
{
  const char *rest = strchr (word, ':');
  double value = rest != NULL ? g_ascii_strtod (rest + 1, NULL) : 0.0;
  guint first = (guint)g_ascii_strtoull (word + 1, NULL, 10);
  g_autofree char *tank = g_strdup_printf ("tank-%u", first);
  TwId id;

  switch (word[0]) {
  case 'L':
  case 'U':
    drawn->job = tw_make_job (word[0] == 'L' ? TW_TUBES_LEVEL : TW_TUBES_UPRIGHT, first);
    drawn->level = word[0] == 'L';
    drawn->n_tubes = first;
    break;
  case 'r':
    drawn_rows (drawn, first);
    break;
  case 'c':
    drawn_again (drawn);
    break;
  case 's':
    drawn_split (drawn, tank, (guint)value);
    break;
  case 'b':
  case 'm':
    id = tw_make_baffle (drawn->job, tank, (guint)value);
    if (word[0] == 'm')
      tw_make_set_number (drawn->job, id.text, "place_mm", drawn_tube_mm (drawn, value));
    break;
  case 'a':
    id = tw_make_baffle (drawn->job, tank, 1);
    tw_make_set (drawn->job, id.text, "runs", "along");
    tw_make_set_number (drawn->job, id.text, "place_mm", value);
    break;
  case 'p':
    rest = strchr (word, '/');
    drawn_plug (drawn, first, rest == NULL ? -1 : (int)g_ascii_strtoll (rest + 1, NULL, 10));
    break;
  case 'h':
    tw_make_hose (drawn->job, drawn_id ("port", first), drawn_id ("port", (guint)value), 0, NULL, 40.0);
    break;
  default:
    drawn_port (drawn, word[0], tank, rest + 1);
  }
}

/* The job of a line. (transfer full) */
static inline TwJob *
draw (const char *line)
{
  g_auto (GStrv) words = g_strsplit (line, " ", -1);
  Drawn drawn = { NULL };

  for (guint i = 0; words[i] != NULL; i++)
    drawn_word (&drawn, words[i]);
  return drawn.job;
}

/* Which core, when there are several: its number. */
static inline void
spell_core (GString *text, const Found *found, TwId core)
{
  if (tw_tubes_n_grids (found->tubes) > 1)
    g_string_append (text, strrchr (core.text, '-') + 1);
}

static inline void
spell_ranges (GString *text, const TwTubeRange *ranges, guint n, guint n_rows)
{
  for (guint i = 0; i < n; i++) {
    g_string_append_printf (text, "%s%u", i > 0 ? "+" : "", ranges[i].first);
    if (ranges[i].last != ranges[i].first)
      g_string_append_printf (text, "-%u", ranges[i].last);
    if (ranges[i].first_row != 1 || ranges[i].last_row != n_rows)
      g_string_append_printf (text, "/%u", ranges[i].first_row);
    if (ranges[i].last_row != ranges[i].first_row && ranges[i].last_row != n_rows)
      g_string_append_printf (text, "-%u", ranges[i].last_row);
  }
}

/**
 * Passes as one line: way (> < v ^), ranges of tubes (with /rows where these are not all), @share where it is
 * not the whole; then what is dead, with the reason: x21-30 no way. (transfer full)
 */
static inline char *
spell (const Found *found)
{
  static const char ways[] = "?><v^";
  static const char *const whys[] = { "", "unknown", "blocked", "no way", "balanced" };
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < tw_passes_count (found->passes); i++) {
    const TwPass *pass = tw_passes_get (found->passes, i);

    g_string_append (text, text->len > 0 ? " " : "");
    spell_core (text, found, pass->core);
    g_string_append_c (text, ways[pass->flows]);
    spell_ranges (text, pass->ranges, pass->n_ranges, tw_tubes_grid (found->tubes, 0)->n_rows);
    if (!(pass->share > 1.0 - 1e-9)) {
      char share[G_ASCII_DTOSTR_BUF_SIZE];

      g_string_append_printf (text, "@%s", g_ascii_formatd (share, sizeof share, "%.3f", pass->share));
    }
  }
  for (guint i = 0; i < tw_passes_n_groups (found->passes); i++) {
    const TwTubeGroup *group = tw_passes_group (found->passes, i);

    if (group->why == TW_DEAD_NOT)
      continue;
    g_string_append (text, text->len > 0 ? " " : "");
    spell_core (text, found, group->core);
    g_string_append_c (text, 'x');
    spell_ranges (text, group->ranges, group->n_ranges, tw_tubes_grid (found->tubes, 0)->n_rows);
    g_string_append_printf (text, " %s", whys[group->why]);
  }
  return g_string_free (text, FALSE);
}

G_END_DECLS
