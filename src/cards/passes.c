/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cards/maker-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define COUNT TW_QUANTITY_COUNT
#define SOURCE "DEF-PASS"

/* mm² by mm is mm³; a litre is 10⁶ of them. */
#define MM3_PER_L 1e6

static const char *
way_of (TwFlows flows)
{
  switch (flows) {
  case TW_FLOWS_RIGHT:
    return _ ("to the right");
  case TW_FLOWS_LEFT:
    return _ ("to the left");
  case TW_FLOWS_DOWN:
    return _ ("down");
  case TW_FLOWS_UP:
    return _ ("up");
  case TW_FLOWS_NOWHERE:
    break;
  }
  return _ ("nowhere");
}

static guint
count_levels (const TwPasses *passes)
{
  guint n = 0;

  for (guint i = 0; i < tw_passes_count (passes); i++)
    n = MAX (n, tw_passes_get (passes, i)->level);
  return n;
}

static char *
tubes_text (guint n)
{
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u tube", "%u tubes", n), n);
}

/* `tubes 1 to 16`, every run of them. */
static char *
ranges_text (const TwTubeRange *ranges, guint n)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < n; i++) {
    if (i > 0 && ranges[i].first == ranges[i - 1].first && ranges[i].last == ranges[i - 1].last)
      continue; /* the same places in another row */
    g_string_append (text, i > 0 ? ", " : "");
    if (ranges[i].first == ranges[i].last)
      g_string_append_printf (text, _ ("tube %u"), ranges[i].first);
    else
      g_string_append_printf (text, _ ("tubes %u to %u"), ranges[i].first, ranges[i].last);
  }
  return g_string_free (text, FALSE);
}

static TwCardWhere *
where_velocity (TwCardMaker *maker, TwId core)
{
  TwCardWhere *where
      = tw_maker_where (maker, "velocity", core,
                        _ ("water flow × share of the pass ÷ flow area of its tubes; "
                           "a tube’s area: (width − height) × height + π × height² ÷ 4, inside"),
                        SOURCE);

  tw_maker_input (maker, where, tw_drawing_settings (maker->drawing)->head.id, TW_SETTINGS_flow_l_min);
  tw_maker_input (maker, where, core, TW_CORE_tube_height_mm);
  tw_maker_input (maker, where, core, TW_CORE_tube_width_mm);
  tw_maker_input (maker, where, core, TW_CORE_tube_wall_mm);
  tw_maker_input (maker, where, core, TW_CORE_rows);
  return where;
}

static TwCardWhere *
where_tubes (TwCardMaker *maker, TwId core)
{
  TwCardWhere *where
      = tw_maker_where (maker, "tubes", core,
                        _ ("places along the header, counted from the top or from the left"), "DEF-TUBES");

  tw_maker_input (maker, where, core, TW_CORE_tube_count);
  tw_maker_input (maker, where, core, TW_CORE_tube_pitch_mm);
  tw_maker_input (maker, where, core, TW_CORE_rows);
  return where;
}

/* The text of a row of @pass; with the core's name where there are several cores. */
static char *
pass_text (const TwCardMaker *maker, const TwPass *pass)
{
  g_autofree char *tubes = tubes_text (pass->n_tubes);
  g_autofree char *speed = NULL;

  if (isnan (pass->velocity_m_s))
    return g_steal_pointer (&tubes);
  speed = tw_maker_text (maker, TW_QUANTITY_SPEED, pass->velocity_m_s);
  return g_strdup_printf ("%s, %s", tubes, speed);
}

static void
add_pass (TwCardMaker *maker, const TwPass *pass, guint nth)
{
  g_autofree char *id = g_strdup_printf ("pass-%u", nth + 1);
  g_autofree char *label = g_strdup_printf (_ ("Pass %u"), pass->level);
  g_autofree char *ranges = ranges_text (pass->ranges, pass->n_ranges);
  g_autofree char *area = tw_maker_text (maker, TW_QUANTITY_AREA, pass->area_mm2);
  g_autofree char *where = g_strconcat ("velocity:", pass->core.text, NULL);
  TwCardRow *row = tw_maker_row (maker, id, TW_ID_NONE, label, pass_text (maker, pass));

  tw_row_also (row, pass->core);
  row->detail = g_strdup_printf ("%s; %s; %s", way_of (pass->flows), ranges, area);
  if (tw_drawing_count (maker->drawing, TW_KIND_CORE) > 1) {
    g_autofree char *detail = g_steal_pointer (&row->detail);

    row->detail = g_strdup_printf ("%s; %s", tw_maker_name (maker, pass->core), detail);
  }
  tw_row_figure (row, "tubes", COUNT, pass->n_tubes, "DEF-TUBES");
  tw_row_figure (row, "level", COUNT, pass->level, SOURCE);
  tw_row_figure (row, "area_mm2", TW_QUANTITY_AREA, pass->area_mm2, SOURCE);
  tw_row_figure (row, "share", TW_QUANTITY_SHARE, pass->share, SOURCE);
  tw_row_figure (row, "velocity_m_s", TW_QUANTITY_SPEED, pass->velocity_m_s, SOURCE);
  if (tw_card_where (maker->card, where) == NULL)
    where_velocity (maker, pass->core);
  row->where = g_steal_pointer (&where);
}

static void
add_core (TwCardMaker *maker, const TwTubeGrid *grid)
{
  const char *name
      = tw_drawing_count (maker->drawing, TW_KIND_CORE) > 1 ? tw_maker_name (maker, grid->core) : NULL;
  g_autofree char *label = name != NULL ? g_strdup_printf (_ ("Tubes of %s"), name) : g_strdup (_ ("Tubes"));
  guint plugged = tw_passes_n_plugged (tw_answer_passes (maker->answer), grid->core);
  TwCardRow *row = tw_maker_row (maker, "tubes", grid->core, label, g_strdup_printf ("%u", grid->n_tubes));

  tw_row_figure (row, "tubes", COUNT, grid->n_tubes, "DEF-TUBES");
  tw_row_figure (row, "rows", COUNT, grid->n_rows, "DEF-TUBES");
  tw_row_where (row, where_tubes (maker, grid->core));
  if (grid->n_rows > 1)
    row->detail = g_strdup_printf (_ ("in %u rows"), grid->n_rows);
  if (plugged > 0) {
    row = tw_maker_row (maker, "plugged", grid->core, _ ("Plugged"), tubes_text (plugged));
    tw_row_figure (row, "tubes", COUNT, plugged, "DEF-TUBES");
  }
}

static void
add_dead (TwCardMaker *maker, const TwPasses *passes)
{
  guint n = 0;

  for (guint i = 0; i < tw_passes_n_groups (passes); i++) {
    const TwTubeGroup *group = tw_passes_group (passes, i);
    g_autofree char *id = NULL;
    TwCardRow *row;

    if (group->why == TW_DEAD_NOT || group->why == TW_DEAD_UNKNOWN)
      continue;
    id = g_strdup_printf ("dead-%u", ++n);
    row = tw_maker_row (maker, id, TW_ID_NONE, _ ("Carry nothing"), tubes_text (group->n_tubes));
    row->detail = ranges_text (group->ranges, group->n_ranges);
    tw_row_also (row, group->core);
    tw_row_figure (row, "tubes", COUNT, group->n_tubes, SOURCE);
  }
}

/* `pass 1: tubes 1 to 16, to the right`, what carries nothing, and where the baffles sit. */
static void
picture_water (TwCardMaker *maker, const TwPasses *passes)
{
  guint n;
  const TwPlacedBaffle *baffles = tw_placement_baffles (tw_answer_placement (maker->answer), &n);

  for (guint i = 0; i < tw_passes_n_groups (passes); i++) {
    const TwTubeGroup *group = tw_passes_group (passes, i);
    g_autofree char *ranges = ranges_text (group->ranges, group->n_ranges);

    if (group->level > 0)
      tw_maker_picture (maker,
                        g_strdup_printf (_ ("pass %u: %s, %s"), group->level, ranges, way_of (group->flows)));
    else if (group->why == TW_DEAD_UNKNOWN)
      tw_maker_picture (maker, g_strdup (ranges));
    else
      tw_maker_picture (maker, g_strdup_printf (_ ("crossed out, since they carry nothing: %s"), ranges));
  }
  for (guint i = 0; i < n; i++)
    tw_maker_picture (maker, g_strdup_printf (_ ("%s in %s"), tw_maker_name (maker, baffles[i].id),
                                              tw_maker_name (maker, baffles[i].tank)));
}

static void
add_flow (TwCardMaker *maker)
{
  double flow_l_min = tw_drawing_settings (maker->drawing)->flow_l_min;
  TwCardRow *row
      = tw_maker_row (maker, "flow", TW_ID_NONE, _ ("Water flow"),
                      isnan (flow_l_min) ? g_strdup (_ ("not typed: no velocities"))
                                         : tw_maker_text (maker, TW_QUANTITY_WATER_FLOW, flow_l_min));

  tw_row_also (row, tw_drawing_settings (maker->drawing)->head.id);
  tw_row_figure (row, "flow_l_min", TW_QUANTITY_WATER_FLOW, flow_l_min, SOURCE);
}

/* Water in the tanks and tubes of all cores. */
static void
add_volume (TwCardMaker *maker, const TwPasses *passes)
{
  const TwTubes *tubes = tw_answer_tubes (maker->answer);
  double volume_l = 0;
  TwCardRow *row;

  for (guint i = 0; i < tw_passes_n_chambers (passes); i++)
    volume_l += tw_passes_chamber (passes, i)->volume_l;
  for (guint i = 0; i < tw_tubes_n_grids (tubes); i++) {
    const TwTubeGrid *grid = tw_tubes_grid (tubes, i);

    volume_l += grid->n_tubes * grid->n_rows * grid->bore_area_mm2 * grid->length_mm / MM3_PER_L;
  }
  row = tw_maker_row (maker, "volume", TW_ID_NONE, _ ("Water in tanks and tubes"),
                      tw_maker_text (maker, TW_QUANTITY_VOLUME, volume_l));
  row->detail = g_strdup (_ ("folds taken as sharp"));
  tw_row_figure (row, "volume_l", TW_QUANTITY_VOLUME, volume_l, SOURCE);
}

/* `16 to the right, then 15 to the left`. */
static char *
order_text (const TwPasses *passes)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < tw_passes_count (passes); i++) {
    const TwPass *pass = tw_passes_get (passes, i);

    if (i > 0 && tw_passes_get (passes, i - 1)->level == pass->level)
      g_string_append (text, _ (" beside "));
    else if (i > 0)
      g_string_append (text, _ (", then "));
    g_string_append_printf (text, "%u %s", pass->n_tubes, way_of (pass->flows));
  }
  return g_string_free (text, FALSE);
}

static void
add_headline (TwCardMaker *maker, const TwPasses *passes)
{
  guint levels = count_levels (passes);
  g_autofree char *order = order_text (passes);

  tw_maker_headline (maker,
                     g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u pass", "%u passes", levels), levels));
  tw_maker_headline_figure (maker, "passes", COUNT, levels, SOURCE);
  g_free (maker->card->meaning);
  maker->card->meaning = g_strdup_printf (_ ("tubes: %s"), order);
}

static const char *
what_is_missing (TwPassesFlags flags, TwKind *kind)
{
  *kind = TW_KIND_PORT;
  if ((flags & TW_PASSES_OPEN_HEADER) != 0) {
    *kind = TW_KIND_TANK;
    return _ ("A header side has no tank.");
  }
  if ((flags & TW_PASSES_NO_INLET) != 0)
    return _ ("No inlet is drawn.");
  if ((flags & TW_PASSES_NO_OUTLET) != 0)
    return _ ("No outlet is drawn.");
  *kind = TW_N_KINDS;
  if ((flags & TW_PASSES_SHORT_CIRCUIT) != 0)
    return _ ("The water takes a short cut from inlet to outlet.");
  return _ ("The water finds no way from inlet to outlet.");
}

TwCard *
tw_card_passes (TwCardMaker *maker)
{
  const TwPasses *passes = tw_answer_passes (maker->answer);
  const TwTubes *tubes = tw_answer_tubes (maker->answer);
  TwKind kind;

  tw_maker_begin (maker, "passes", _ ("Pass layout"));
  tw_maker_note (maker,
                 _ ("Tubes are counted by place along the header, from the top (level tubes) or from the "
                    "left (upright ones); rows multiply the area, not the count."));
  tw_maker_note (
      maker, _ ("Velocity: the mean of the pass. Where passes lie side by side, shares are a first guess."));
  if (tw_tubes_n_grids (tubes) == 0) {
    tw_maker_missing (maker, _ ("No core is drawn."), TW_KIND_CORE);
    return tw_maker_end (maker);
  }
  for (guint i = 0; i < tw_tubes_n_grids (tubes); i++)
    add_core (maker, tw_tubes_grid (tubes, i));
  for (guint i = 0; i < tw_passes_count (passes); i++)
    add_pass (maker, tw_passes_get (passes, i), i);
  if (tw_passes_count (passes) > 0) {
    add_headline (maker, passes);
  } else {
    const char *what = what_is_missing (tw_passes_flags (passes), &kind);

    tw_maker_missing (maker, what, kind);
  }
  add_dead (maker, passes);
  picture_water (maker, passes);
  add_flow (maker);
  add_volume (maker, passes);
  tw_maker_pending (maker, "reynolds", TW_ID_NONE, _ ("Reynolds numbers"));
  tw_maker_pending (maker, "loss", TW_ID_NONE, _ ("Pressure loss"));
  return tw_maker_end (maker);
}
