/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where air stays in, where water stays in: bleeds, drains, the filler. Standing level. */
#include "findings/findings-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Less air than this over a bleed goes with the water; less water than this under a drain dries. Common
 * practice, no source. */
#define SMALL_POCKET_MM 5.0
#define SMALL_POOL_MM 10.0

/* What a check looks for in each chamber. */
enum { NO_BLEED, LOW_BLEED, TRAPPED_AIR, NO_DRAIN, TRAPPED_WATER };

static gboolean
is_wanting (const TwChamberHeight *height, guint which, double *measured_mm, double *limit_mm)
{
  *measured_mm = which == NO_DRAIN || which == TRAPPED_WATER ? height->pool_mm : height->pocket_mm;
  *limit_mm = which == TRAPPED_WATER ? SMALL_POOL_MM : SMALL_POCKET_MM;
  switch (which) {
  case NO_BLEED:
    *measured_mm = *limit_mm = NAN;
    return height->is_high && !height->has_bleed;
  case NO_DRAIN:
    *measured_mm = *limit_mm = NAN;
    return height->is_low && !height->has_drain;
  case LOW_BLEED:
    return height->is_high && height->has_bleed && *measured_mm > *limit_mm;
  case TRAPPED_AIR:
    return !height->is_high && *measured_mm > *limit_mm;
  case TRAPPED_WATER:
    return (!height->is_low || height->has_drain) && *measured_mm > *limit_mm;
  }
  g_assert_not_reached ();
}

static const char *
find_in_chambers (TwFinder *finder)
{
  const TwHeights *heights = finder->known->heights;
  const char *reason = NULL;

  for (guint i = 0; i < tw_heights_n_chambers (heights); i++) {
    const TwChamberHeight *height = tw_heights_chamber (heights, i);
    TwFinding *finding;
    double measured_mm, limit_mm;

    if (isnan (height->highest_mm))
      reason = N_ ("a tank’s depth is not known");
    if (isnan (height->highest_mm) || !is_wanting (height, finder->which, &measured_mm, &limit_mm))
      continue;
    finding = tw_finder_add (finder, tw_passes_chamber (finder->known->passes, i)->tank);
    finding->measured = measured_mm;
    finding->from = finding->to = i + 1;
    finding->limit = limit_mm;
    finding->beside = finder->which == NO_DRAIN || finder->which == TRAPPED_WATER ? height->lowest_mm
                                                                                  : height->highest_mm;
  }
  return reason;
}

/* The highest place with water in the cores; -INFINITY when there is none. */
static double
highest_chamber (const TwHeights *heights, guint *nth)
{
  double highest_mm = -INFINITY;

  for (guint i = 0; i < tw_heights_n_chambers (heights); i++)
    if (tw_heights_chamber (heights, i)->highest_mm > highest_mm) {
      highest_mm = tw_heights_chamber (heights, i)->highest_mm;
      *nth = i;
    }
  return highest_mm;
}

static const char *
find_low_fillers (TwFinder *finder)
{
  const TwHeights *heights = finder->known->heights;
  guint nth = 0;
  double highest_mm = highest_chamber (heights, &nth);

  for (guint i = 0; i < tw_heights_n_ports (heights); i++) {
    const TwPortHeight *port = tw_heights_port (heights, i);
    TwFinding *finding;

    if (tw_passes_port (finder->known->passes, i)->use != TW_PORT_FILLER || !(highest_mm > port->height_mm))
      continue;
    finding = tw_finder_add (finder, port->port);
    tw_finding_also (finding, tw_passes_chamber (finder->known->passes, nth)->tank);
    finding->measured = highest_mm - port->height_mm;
    finding->limit = 0;
  }
  return NULL;
}

/* clang-format off */
#define NEEDS (TW_ROOM_PASSES | TW_ROOM_HEIGHTS)

static const TwCheckRow rows[] = {
  { { "no-bleed", TW_SEVERITY_STOP, NEEDS, TW_QUANTITY_NONE, TW_QUANTITY_LENGTH }, find_in_chambers, NO_BLEED },
  { { "bleed-low", TW_SEVERITY_WARN, NEEDS, TW_QUANTITY_LENGTH, TW_QUANTITY_LENGTH, TW_COMMON_PRACTICE },
    find_in_chambers, LOW_BLEED },
  { { "air-trapped", TW_SEVERITY_WARN, NEEDS, TW_QUANTITY_LENGTH, TW_QUANTITY_LENGTH, TW_COMMON_PRACTICE },
    find_in_chambers, TRAPPED_AIR },
  { { "filler-low", TW_SEVERITY_WARN, NEEDS, TW_QUANTITY_LENGTH, .source = TW_COMMON_PRACTICE },
    find_low_fillers },
  { { "no-drain", TW_SEVERITY_WARN, NEEDS, TW_QUANTITY_NONE, TW_QUANTITY_LENGTH }, find_in_chambers, NO_DRAIN },
  { { "water-trapped", TW_SEVERITY_NOTE, NEEDS, TW_QUANTITY_LENGTH, TW_QUANTITY_LENGTH, TW_COMMON_PRACTICE },
    find_in_chambers, TRAPPED_WATER },
};
/* clang-format on */

const TwCheckRows tw_checks_filling = { rows, G_N_ELEMENTS (rows) };
