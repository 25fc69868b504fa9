/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/coverage-private.h"

#include <math.h>

/* A hole in a fan wall: a ring, or a flap's opening. */
typedef struct {
  TwId part; /* fan, or shroud of the flap */
  TwId flap; /* none for a ring */
  gboolean is_before;
  double radius_mm; /* of a ring; 0 for a flap */
  TwPoint centre;   /* of a ring */
  TwBox opening;    /* of a flap */
} Hole;

static GArray *
holes_of (const TwPlacement *placement, TwId core)
{
  GArray *holes = g_array_new (FALSE, FALSE, sizeof (Hole));
  guint n;
  const TwPlacedFan *fans = tw_placement_fans (placement, &n);
  const TwPlacedFlap *flaps;

  for (guint i = 0; i < n; i++) {
    Hole hole = { .part = fans[i].id,
                  .is_before = fans[i].is_pusher,
                  .radius_mm = 0.5 * fans[i].ring_mm,
                  .centre = fans[i].centre };

    if (tw_id_equal (fans[i].core, core) && holes->len < TW_COVERAGE_MOST_HOLES)
      g_array_append_val (holes, hole);
  }
  flaps = tw_placement_flaps (placement, &n);
  for (guint i = 0; i < n; i++) {
    const TwPlacedShroud *shroud = tw_placement_shroud (placement, flaps[i].shroud);
    Hole hole = {
      .part = shroud->id, .flap = flaps[i].id, .is_before = shroud->is_before, .opening = flaps[i].opening
    };

    if (tw_id_equal (flaps[i].core, core) && holes->len < TW_COVERAGE_MOST_HOLES)
      g_array_append_val (holes, hole);
  }
  return holes;
}

/* Of two intervals that lie @across_mm and @up_mm apart, negative where they overlap. */
static double
apart_mm (double across_mm, double up_mm)
{
  if (across_mm < 0.0 && up_mm < 0.0)
    return MAX (across_mm, up_mm);
  return hypot (MAX (across_mm, 0.0), MAX (up_mm, 0.0));
}

static double
gap_mm (const Hole *a, const Hole *b)
{
  if (a->radius_mm > 0.0 && b->radius_mm > 0.0)
    return tw_point_distance_mm (a->centre, b->centre) - a->radius_mm - b->radius_mm;
  if (a->radius_mm > 0.0) {
    double across_mm = MAX (b->opening.x0_mm - a->centre.x_mm, a->centre.x_mm - b->opening.x1_mm);
    double up_mm = MAX (b->opening.y0_mm - a->centre.y_mm, a->centre.y_mm - b->opening.y1_mm);

    return apart_mm (across_mm, up_mm) - a->radius_mm;
  }
  if (b->radius_mm > 0.0)
    return gap_mm (b, a);
  return apart_mm (MAX (b->opening.x0_mm - a->opening.x1_mm, a->opening.x0_mm - b->opening.x1_mm),
                   MAX (b->opening.y0_mm - a->opening.y1_mm, a->opening.y0_mm - b->opening.y1_mm));
}

static int
compare_gaps (gconstpointer first, gconstpointer second)
{
  const TwHoleGap *a = first, *b = second;
  int by_id[] = { strcmp (a->a.text, b->a.text), strcmp (a->a_flap.text, b->a_flap.text),
                  strcmp (a->b.text, b->b.text), strcmp (a->b_flap.text, b->b_flap.text) };

  if (a->gap_mm < b->gap_mm || a->gap_mm > b->gap_mm)
    return a->gap_mm < b->gap_mm ? -1 : 1;
  for (guint i = 0; i < G_N_ELEMENTS (by_id); i++)
    if (by_id[i] != 0)
      return by_id[i];
  return 0;
}

void
tw_coverage_find_gaps (const TwPlacement *placement, TwId core, TwFaceCover *face)
{
  g_autoptr (GArray) holes = holes_of (placement, core);
  GArray *gaps = g_array_new (FALSE, FALSE, sizeof (TwHoleGap));

  for (guint i = 0; i < holes->len; i++) {
    for (guint j = i + 1; j < holes->len; j++) {
      const Hole *a = &g_array_index (holes, Hole, i), *b = &g_array_index (holes, Hole, j);
      TwHoleGap gap = { a->part, a->flap, b->part, b->flap, gap_mm (a, b) };

      if (a->is_before == b->is_before)
        g_array_append_val (gaps, gap);
    }
  }
  g_array_sort (gaps, compare_gaps);
  face->n_gaps = gaps->len;
  face->gaps = (TwHoleGap *)(void *)g_array_free (gaps, FALSE);
}
