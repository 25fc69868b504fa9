/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What lies on and beside the mouths of the tubes, and how tanks sit on the header plates. */
#include "findings/findings-private.h"

#include <math.h>

/* Tank and header plate that differ by less are as long as each other: drawings are kept to 0.1 mm. */
#define SAME_LENGTH_MM 0.05

static gboolean
same_thing (const TwCover *a, const TwCover *b)
{
  return a->kind == b->kind && a->header == b->header && tw_id_equal (a->core, b->core)
         && tw_id_equal (a->by, b->by);
}

/* Whether an earlier cover speaks of the same thing. */
static gboolean
is_known (const TwTubes *tubes, guint nth)
{
  for (guint i = 0; i < nth; i++)
    if (same_thing (tw_tubes_cover (tubes, i), tw_tubes_cover (tubes, nth)))
      return TRUE;
  return FALSE;
}

/* One finding for each thing that covers mouths: the tubes, and the share of the worst. */
static const char *
find_covers (TwFinder *finder)
{
  const TwTubes *tubes = finder->known->tubes;

  for (guint i = 0; i < tw_tubes_n_covers (tubes); i++) {
    const TwCover *cover = tw_tubes_cover (tubes, i);
    TwFinding *finding;

    if (cover->kind != (TwCoverKind)finder->which || is_known (tubes, i))
      continue;
    finding = tw_finder_add (finder, cover->by);
    if (!tw_id_equal (cover->by, cover->core))
      tw_finding_also (finding, cover->core);
    finding->measured = cover->share;
    finding->from = finding->to = cover->tube;
    for (guint k = i + 1; k < tw_tubes_n_covers (tubes); k++) {
      const TwCover *other = tw_tubes_cover (tubes, k);

      if (same_thing (cover, other)) {
        finding->measured = MAX (finding->measured, other->share);
        finding->from = MIN (finding->from, other->tube);
        finding->to = MAX (finding->to, other->tube);
      }
    }
  }
  return NULL;
}

/* Whether the thing that leaves too little land lies on a mouth: then that is said, and is worse. */
static gboolean
covers_mouth (const TwTubes *tubes, const TwLand *land)
{
  for (guint i = 0; i < tw_tubes_n_covers (tubes); i++) {
    const TwCover *cover = tw_tubes_cover (tubes, i);

    if (cover->kind == land->kind && cover->header == land->header && tw_id_equal (cover->by, land->by))
      return TRUE;
  }
  return FALSE;
}

static const char *
find_small_lands (TwFinder *finder)
{
  const TwTubes *tubes = finder->known->tubes;
  double least_mm = tw_drawing_settings (finder->known->drawing)->land_mm;

  for (guint i = 0; i < tw_tubes_n_lands (tubes); i++) {
    const TwLand *land = tw_tubes_land (tubes, i);
    TwFinding *finding;

    if (!(land->land_mm < least_mm) || covers_mouth (tubes, land))
      continue;
    finding = tw_finder_add (finder, land->by);
    tw_finding_also (finding, land->core);
    finding->measured = land->land_mm;
    finding->limit = least_mm;
    finding->from = finding->to = land->tube;
  }
  return NULL;
}

static const char *
find_tanks_beyond (TwFinder *finder)
{
  guint n;
  const TwPlacedTank *tanks = tw_placement_tanks (finder->known->placement, &n);

  for (guint i = 0; i < n; i++) {
    const TwPlacedCore *core = tw_placement_core (finder->known->placement, tanks[i].core);
    double along_mm = MAX (core->header_start_mm - tanks[i].start_mm, tanks[i].end_mm - core->header_end_mm);

    if (along_mm > SAME_LENGTH_MM)
      tw_finder_add (finder, tanks[i].id)->measured = along_mm;
  }
  return NULL;
}

static const char *
find_wide_tanks (TwFinder *finder)
{
  guint n;
  const TwPlacedTank *tanks = tw_placement_tanks (finder->known->placement, &n);

  for (guint i = 0; i < n; i++) {
    const TwPlacedCore *core = tw_placement_core (finder->known->placement, tanks[i].core);
    double across_mm
        = MAX (core->header_w_from_mm - tanks[i].w_from_mm, tanks[i].w_to_mm - core->header_w_to_mm);

    if (across_mm > SAME_LENGTH_MM)
      tw_finder_add (finder, tanks[i].id)->measured = across_mm;
  }
  return NULL;
}

/* How far the header plate reaches beyond the first and the last tank on one side of a core. */
static void
find_short_side (TwFinder *finder, const TwPlacedCore *core, int side)
{
  guint n;
  const TwPlacedTank *tanks = tw_placement_tanks (finder->known->placement, &n);
  const TwPlacedTank *first = NULL, *last = NULL;
  double start_mm, end_mm;

  for (guint i = 0; i < n; i++) {
    if (!tw_id_equal (tanks[i].core, core->id) || tanks[i].side.side != side)
      continue;
    if (first == NULL || tanks[i].start_mm < first->start_mm)
      first = &tanks[i];
    if (last == NULL || tanks[i].end_mm > last->end_mm)
      last = &tanks[i];
  }
  if (first == NULL)
    return;
  start_mm = first->start_mm - core->header_start_mm;
  end_mm = core->header_end_mm - last->end_mm;
  if (MAX (start_mm, end_mm) > SAME_LENGTH_MM)
    tw_finder_add (finder, start_mm > end_mm ? first->id : last->id)->measured = MAX (start_mm, end_mm);
}

static const char *
find_short_tanks (TwFinder *finder)
{
  guint n;
  const TwPlacedCore *cores = tw_placement_cores (finder->known->placement, &n);

  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < G_N_ELEMENTS (cores[i].sides); k++)
      find_short_side (finder, &cores[i], cores[i].sides[k].side);
  return NULL;
}

/* clang-format off */
#define COVER(id) { id, TW_SEVERITY_STOP, TW_ROOM_TUBES, TW_QUANTITY_SHARE }

static const TwCheckRow rows[] = {
  { COVER ("baffle-on-mouth"), find_covers, TW_COVER_BAFFLE },
  { COVER ("end-wall-on-mouth"), find_covers, TW_COVER_END_WALL },
  { COVER ("side-wall-on-mouth"), find_covers, TW_COVER_SIDE_WALL },
  { COVER ("lip-on-mouth"), find_covers, TW_COVER_LIP },
  { COVER ("mouth-outside-tanks"), find_covers, TW_COVER_OUTSIDE },
  { { "land-small", TW_SEVERITY_WARN, TW_ROOM_TUBES, TW_QUANTITY_LENGTH, .source = TW_COMMON_PRACTICE },
    find_small_lands },
  { { "tank-too-long", TW_SEVERITY_WARN, TW_ROOM_PLACEMENT, TW_QUANTITY_LENGTH }, find_tanks_beyond },
  { { "tank-too-wide", TW_SEVERITY_NOTE, TW_ROOM_PLACEMENT, TW_QUANTITY_LENGTH }, find_wide_tanks },
  { { "tank-too-short", TW_SEVERITY_NOTE, TW_ROOM_PLACEMENT, TW_QUANTITY_LENGTH }, find_short_tanks },
};
/* clang-format on */

const TwCheckRows tw_checks_mouths = { rows, G_N_ELEMENTS (rows) };
