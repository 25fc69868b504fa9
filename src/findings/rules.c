/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the whole rests on: parts without a place, tubes that are not known, assumed values, checks that were
 * not made. The last must stand last in the table. */
#include "findings/findings-private.h"

static const char *
find_unplaced (TwFinder *finder)
{
  guint n;
  const TwUnplaced *parts = tw_placement_unplaced (finder->known->placement, &n);

  for (guint i = 0; i < n; i++)
    tw_finder_add (finder, parts[i].part)->why = parts[i].why;
  return NULL;
}

static const char *
find_no_tubes (TwFinder *finder)
{
  for (guint i = 0; i < tw_tubes_n_grids (finder->known->tubes); i++)
    if (tw_tubes_grid (finder->known->tubes, i)->n_tubes == 0)
      tw_finder_add (finder, tw_tubes_grid (finder->known->tubes, i)->core);
  return NULL;
}

static const char *
find_assumed (TwFinder *finder)
{
  guint n = tw_drawing_n_assumed (finder->known->drawing);

  if (n > 0)
    tw_finder_add (finder, TW_ID_NONE)->measured = n;
  return NULL;
}

static const char *
find_left_out (TwFinder *finder)
{
  if (finder->n_left_out > 0)
    tw_finder_add (finder, TW_ID_NONE)->measured = finder->n_left_out;
  return NULL;
}

/* clang-format off */
static const TwCheckRow rows[] = {
  { { "no-place", TW_SEVERITY_WARN, TW_ROOM_PLACEMENT }, find_unplaced },
  { { "tubes-unknown", TW_SEVERITY_WARN, TW_ROOM_TUBES }, find_no_tubes },
  { { "assumed", TW_SEVERITY_NOTE, 0, TW_QUANTITY_COUNT }, find_assumed },
  { { "not-all-checked", TW_SEVERITY_NOTE, 0, TW_QUANTITY_COUNT }, find_left_out },
};
/* clang-format on */

const TwCheckRows tw_checks_rules = { rows, G_N_ELEMENTS (rows) };
