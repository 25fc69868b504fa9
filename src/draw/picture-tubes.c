/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/picture-tubes-private.h"

#include <math.h>

/* What carries nothing is never thinner. */
#define LEAST_EMPTY_PX 3.0

/* So far beyond the tubes a tank's end or a baffle may lie. */
#define BEYOND_PX 2.0

/* The groups of each place along the header. (transfer full) */
static guint64 *
groups_by_place (const TwPictureBench *self)
{
  guint64 *places = g_new0 (guint64, self->grid.n_tubes + 1);

  for (guint i = 0; i < self->n_groups; i++)
    for (guint k = 0; k < self->groups[i]->n_ranges; k++) {
      const TwTubeRange *range = &self->groups[i]->ranges[k];

      for (guint tube = range->first; tube <= MIN (range->last, self->grid.n_tubes); tube++)
        places[tube] |= (guint64)1 << i;
    }
  return places;
}

void
tw_picture_bench_open (TwPictureBench *self, const TwPasses *passes, const TwTubeGrid *grid)
{
  g_autofree guint64 *places = NULL;

  *self = (TwPictureBench){ .core = grid->core, .grid = *grid };
  self->stretches = g_array_new (FALSE, FALSE, sizeof (TwPictureStretch));
  for (guint i = 0; i < tw_passes_n_groups (passes) && self->n_groups < TW_PICTURE_MOST_GROUPS; i++)
    if (tw_id_equal (tw_passes_group (passes, i)->core, grid->core))
      self->groups[self->n_groups++] = tw_passes_group (passes, i);
  places = groups_by_place (self);
  for (guint tube = 1; tube <= grid->n_tubes; tube++) {
    TwPictureStretch stretch = { tube, tube, places[tube], 0, 0 };

    if (tube > 1 && places[tube] == places[tube - 1])
      g_array_index (self->stretches, TwPictureStretch, self->stretches->len - 1).last = tube;
    else
      g_array_append_val (self->stretches, stretch);
  }
}

void
tw_picture_bench_close (TwPictureBench *self)
{
  g_clear_pointer (&self->stretches, g_array_unref);
}

static guint
count_groups (guint64 groups)
{
  guint n = 0;

  for (; groups != 0; groups &= groups - 1)
    n++;
  return n;
}

void
tw_picture_bench_spread (TwPictureBench *self, double length_px, double least_px)
{
  double wanted_px = 0, at_px = 0, shrink, spare_px;

  for (guint i = 0; i < self->stretches->len; i++)
    wanted_px += MAX (LEAST_EMPTY_PX,
                      least_px * count_groups (g_array_index (self->stretches, TwPictureStretch, i).groups));
  shrink = wanted_px > length_px ? length_px / wanted_px : 1;
  spare_px = MAX (length_px - wanted_px, 0);
  for (guint i = 0; i < self->stretches->len; i++) {
    TwPictureStretch *stretch = &g_array_index (self->stretches, TwPictureStretch, i);

    stretch->from_px = at_px;
    at_px += shrink * MAX (LEAST_EMPTY_PX, least_px * count_groups (stretch->groups))
             + spare_px * (stretch->last - stretch->first + 1) / self->grid.n_tubes;
    stretch->to_px = at_px;
  }
}

double
tw_picture_bench_along_px (const TwPictureBench *self, double along_mm)
{
  /* counted in tubes: 0.5 is the edge before the first */
  double place = (along_mm - self->grid.first_mm) / self->grid.step_mm + 1;
  const TwPictureStretch *last = NULL;

  for (guint i = 0; i < self->stretches->len; i++) {
    const TwPictureStretch *stretch = &g_array_index (self->stretches, TwPictureStretch, i);
    double from = stretch->first - 0.5, to = stretch->last + 0.5;

    if (place < from)
      return stretch->from_px - BEYOND_PX;
    if (place <= to)
      return stretch->from_px + (place - from) / (to - from) * (stretch->to_px - stretch->from_px);
    last = stretch;
  }
  return last != NULL ? last->to_px + BEYOND_PX : 0;
}

TwPoint
tw_picture_bench_point (const TwPictureBench *self, double along_px, double across_px)
{
  if (self->grid.level)
    return (TwPoint){ self->tubes.x0_mm + across_px, self->tubes.y1_mm - along_px };
  return (TwPoint){ self->tubes.x0_mm + along_px, self->tubes.y1_mm - across_px };
}

TwBox
tw_picture_bench_box (const TwPictureBench *self, const double along_px[2], const double across_px[2])
{
  TwBox box = TW_BOX_EMPTY;

  for (guint i = 0; i < 2; i++)
    box = tw_box_add_point (box, tw_picture_bench_point (self, along_px[i], across_px[i]));
  return box;
}

double
tw_picture_bench_across_px (const TwPictureBench *self)
{
  return self->grid.level ? self->tubes.x1_mm - self->tubes.x0_mm : self->tubes.y1_mm - self->tubes.y0_mm;
}
