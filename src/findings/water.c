/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The way of the water: ports, chambers, passes. */
#include "findings/findings-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Water that is faster wears aluminium tubes away: common practice, no source; 2.5 to 3 m/s is said. */
#define FASTEST_M_S 2.5

/* Passes of one core whose flow areas differ by more than this: common practice, no source. */
#define WIDEST_SHARE 1.5

static gboolean
is_said (const TwFinder *finder, TwPassesFlags flag)
{
  return (tw_passes_flags (finder->known->passes) & flag) != 0;
}

/* One finding for each part that a flag concerns. */
static const char *
find_each (TwFinder *finder)
{
  guint n;
  const TwId *ids = tw_passes_concerned (finder->known->passes, finder->which, &n);

  for (guint i = 0; i < n; i++)
    tw_finder_add (finder, ids[i]);
  return NULL;
}

/* One finding for all parts that a flag concerns together. */
static const char *
find_together (TwFinder *finder)
{
  guint n;
  const TwId *ids = tw_passes_concerned (finder->known->passes, finder->which, &n);
  TwFinding *finding;

  if (!is_said (finder, finder->which))
    return NULL;
  finding = tw_finder_add (finder, n > 0 ? ids[0] : TW_ID_NONE);
  for (guint i = 1; i < n; i++)
    tw_finding_also (finding, ids[i]);
  return NULL;
}

/* Nothing can be said of single tubes and chambers before water has a way at all. */
static gboolean
water_has_way (const TwFinder *finder)
{
  return !is_said (finder, TW_PASSES_NO_INLET | TW_PASSES_NO_OUTLET | TW_PASSES_NO_WAY);
}

static const char *
why_dead (TwDeadWhy why)
{
  switch (why) {
  case TW_DEAD_BLOCKED:
    return N_ ("a mouth is covered or lies outside every tank");
  case TW_DEAD_NO_WAY:
    return N_ ("nothing flows through the chamber at one end");
  case TW_DEAD_BALANCED:
    return N_ ("the pressure is the same at both ends");
  case TW_DEAD_NOT:
  case TW_DEAD_UNKNOWN:
    return NULL;
  }
  return NULL;
}

static const char *
find_dead_tubes (TwFinder *finder)
{
  const TwPasses *passes = finder->known->passes;

  if (!water_has_way (finder) || is_said (finder, TW_PASSES_SHORT_CIRCUIT))
    return NULL;
  for (guint i = 0; i < tw_passes_n_groups (passes); i++) {
    const TwTubeGroup *group = tw_passes_group (passes, i);
    TwFinding *finding;

    if (why_dead (group->why) == NULL)
      continue;
    finding = tw_finder_add (finder, group->core);
    finding->measured = group->n_tubes;
    finding->why = why_dead (group->why);
    if (group->n_ranges > 0) {
      finding->from = group->ranges[0].first;
      finding->to = group->ranges[group->n_ranges - 1].last;
    }
  }
  return NULL;
}

static const char *
find_dead_chambers (TwFinder *finder)
{
  const TwPasses *passes = finder->known->passes;

  if (!water_has_way (finder) || is_said (finder, TW_PASSES_SHORT_CIRCUIT))
    return NULL;
  for (guint i = 0; i < tw_passes_n_chambers (passes); i++) {
    const TwChamber *chamber = tw_passes_chamber (passes, i);

    TwFinding *finding;

    if (chamber->has_flow)
      continue;
    finding = tw_finder_add (finder, chamber->tank);
    finding->measured = chamber->n_tubes;
    finding->from = finding->to = i + 1;
  }
  return NULL;
}

static const char *
find_dead_sensors (TwFinder *finder)
{
  const TwPasses *passes = finder->known->passes;

  if (!water_has_way (finder))
    return NULL;
  for (guint i = 0; i < tw_passes_n_ports (passes); i++) {
    const TwChamberPort *port = tw_passes_port (passes, i);

    if (port->use == TW_PORT_SENSOR && port->has_chamber
        && !tw_passes_chamber (passes, port->chamber)->has_flow)
      tw_finding_also (tw_finder_add (finder, port->port), tw_passes_chamber (passes, port->chamber)->tank);
  }
  return NULL;
}

/* Flow area that the water has at one crossing of one core. */
static double
level_area_mm2 (const TwPasses *passes, TwId core, guint level)
{
  double area_mm2 = 0;

  for (guint i = 0; i < tw_passes_count (passes); i++) {
    const TwPass *pass = tw_passes_get (passes, i);

    if (pass->level == level && tw_id_equal (pass->core, core))
      area_mm2 += pass->area_mm2;
  }
  return area_mm2;
}

static const char *
find_uneven_passes (TwFinder *finder)
{
  const TwPasses *passes = finder->known->passes;

  for (guint c = 0; c < tw_drawing_count (finder->known->drawing, TW_KIND_CORE); c++) {
    TwId core = TW_DRAWING_CORE (finder->known->drawing, c)->head.id;
    double least_mm2 = INFINITY, most_mm2 = 0;

    for (guint i = 0; i < tw_passes_count (passes); i++)
      if (tw_id_equal (tw_passes_get (passes, i)->core, core)) {
        double area_mm2 = level_area_mm2 (passes, core, tw_passes_get (passes, i)->level);

        least_mm2 = MIN (least_mm2, area_mm2);
        most_mm2 = MAX (most_mm2, area_mm2);
      }
    if (most_mm2 > WIDEST_SHARE * least_mm2) {
      TwFinding *finding = tw_finder_add (finder, core);

      finding->measured = most_mm2 / least_mm2;
      finding->limit = WIDEST_SHARE;
    }
  }
  return NULL;
}

static const char *
find_fast_water (TwFinder *finder)
{
  const TwPasses *passes = finder->known->passes;
  const char *reason = NULL;

  if (isnan (tw_drawing_settings (finder->known->drawing)->flow_l_min))
    return N_ ("no water flow is typed");
  for (guint i = 0; i < tw_passes_count (passes); i++) {
    const TwPass *pass = tw_passes_get (passes, i);
    TwFinding *finding;

    if (isnan (pass->velocity_m_s))
      reason = N_ ("the water takes a short cut: its share in the tubes is not known");
    if (!(pass->velocity_m_s > FASTEST_M_S))
      continue;
    finding = tw_finder_add (finder, pass->core);
    finding->measured = pass->velocity_m_s;
    finding->limit = FASTEST_M_S;
    finding->from = pass->ranges[0].first;
    finding->to = pass->ranges[pass->n_ranges - 1].last;
  }
  return reason;
}

/* clang-format off */
static const TwCheckRow rows[] = {
  { { "no-inlet", TW_SEVERITY_STOP, TW_ROOM_PASSES }, find_each, TW_PASSES_NO_INLET },
  { { "no-outlet", TW_SEVERITY_STOP, TW_ROOM_PASSES }, find_each, TW_PASSES_NO_OUTLET },
  { { "no-way", TW_SEVERITY_STOP, TW_ROOM_PASSES }, find_together, TW_PASSES_NO_WAY },
  { { "short-circuit", TW_SEVERITY_STOP, TW_ROOM_PASSES }, find_together, TW_PASSES_SHORT_CIRCUIT },
  { { "open-header", TW_SEVERITY_STOP, TW_ROOM_PASSES }, find_each, TW_PASSES_OPEN_HEADER },
  { { "wrong-side", TW_SEVERITY_STOP, TW_ROOM_PASSES }, find_each, TW_PASSES_WRONG_SIDE },
  { { "port-on-baffle", TW_SEVERITY_STOP, TW_ROOM_PASSES }, find_each, TW_PASSES_PORT_ON_BAFFLE },
  { { "port-off-tank", TW_SEVERITY_STOP, TW_ROOM_PASSES }, find_each, TW_PASSES_PORT_OFF_TANK },
  { { "stray-baffle", TW_SEVERITY_WARN, TW_ROOM_PASSES }, find_each, TW_PASSES_STRAY_BAFFLE },
  { { "dead-port", TW_SEVERITY_WARN, TW_ROOM_PASSES }, find_each, TW_PASSES_DEAD_PORT },
  { { "dead-tubes", TW_SEVERITY_WARN, TW_ROOM_PASSES, TW_QUANTITY_COUNT }, find_dead_tubes },
  { { "dead-chamber", TW_SEVERITY_WARN, TW_ROOM_PASSES, TW_QUANTITY_COUNT }, find_dead_chambers },
  { { "sensor-dead", TW_SEVERITY_WARN, TW_ROOM_PASSES }, find_dead_sensors },
  { { "uneven-passes", TW_SEVERITY_NOTE, TW_ROOM_PASSES, .source = TW_COMMON_PRACTICE }, find_uneven_passes },
  { { "water-fast", TW_SEVERITY_WARN, TW_ROOM_PASSES, TW_QUANTITY_SPEED, .source = TW_COMMON_PRACTICE },
    find_fast_water },
};
/* clang-format on */

const TwCheckRows tw_checks_water = { rows, G_N_ELEMENTS (rows) };
