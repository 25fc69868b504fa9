/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/hatch.h"

#include <math.h>

/* The hatch turned so that its lines are level. */
typedef struct {
  double cos_a, sin_a; /* of the lines' angle; dimensionless */
  GArray *crossings;   /* of double: where one line meets the rings, mm along it */
  double level_mm;     /* of that line */
} Sweep;

static TwPoint
turned (const Sweep *sweep, TwPoint at)
{
  return (TwPoint){ at.x_mm * sweep->cos_a + at.y_mm * sweep->sin_a,
                    at.y_mm * sweep->cos_a - at.x_mm * sweep->sin_a };
}

static TwPoint
turned_back (const Sweep *sweep, double x_mm, double y_mm)
{
  return (TwPoint){ x_mm * sweep->cos_a - y_mm * sweep->sin_a, x_mm * sweep->sin_a + y_mm * sweep->cos_a };
}

static void
cross_straight (Sweep *sweep, TwPoint from, TwPoint to)
{
  double x_mm;

  if ((from.y_mm > sweep->level_mm) == (to.y_mm > sweep->level_mm))
    return;
  x_mm = from.x_mm + (to.x_mm - from.x_mm) * (sweep->level_mm - from.y_mm) / (to.y_mm - from.y_mm);
  g_array_append_val (sweep->crossings, x_mm);
}

/* An arc is cut where its circle is, as long as the angle lies on it. */
static void
cross_arc (Sweep *sweep, TwPoint from, TwPoint to, double bow_mm)
{
  TwArc arc = tw_arc_of_edge (from, to, bow_mm);
  double rise_mm = sweep->level_mm - arc.centre.y_mm;

  if (fabs (rise_mm) >= arc.radius_mm)
    return;
  for (int side = -1; side <= 1; side += 2) {
    double run_mm = side * sqrt (arc.radius_mm * arc.radius_mm - rise_mm * rise_mm);
    double along_rad = atan2 (rise_mm, run_mm) - arc.from_rad;
    double x_mm = arc.centre.x_mm + run_mm;

    along_rad = fmod (arc.turn_rad > 0 ? along_rad : -along_rad, 2 * G_PI);
    if (along_rad < 0)
      along_rad += 2 * G_PI;
    if (along_rad < fabs (arc.turn_rad))
      g_array_append_val (sweep->crossings, x_mm);
  }
}

static void
cross_rings (Sweep *sweep, const TwInkItem *item)
{
  for (guint first = 0, end; first < item->n_corners; first = end) {
    end = tw_ink_ring_end (item, first);
    for (guint i = first; i < end; i++) {
      const TwInkCorner *from = &item->corners[i], *to = &item->corners[i + 1 < end ? i + 1 : first];

      if (from->bow_mm != 0 && tw_point_distance_mm (from->at, to->at) > 0)
        cross_arc (sweep, turned (sweep, from->at), turned (sweep, to->at), from->bow_mm);
      else
        cross_straight (sweep, turned (sweep, from->at), turned (sweep, to->at));
    }
  }
}

static int
compare_doubles (gconstpointer a, gconstpointer b)
{
  double one = *(const double *)a, two = *(const double *)b;

  return one > two ? 1 : one < two ? -1 : 0;
}

static void
append_lines (const Sweep *sweep, GArray *lines)
{
  const double *x_mm = (const double *)(gconstpointer)sweep->crossings->data;

  for (guint i = 0; i + 1 < sweep->crossings->len; i += 2) {
    TwHatchLine line = { turned_back (sweep, x_mm[i], sweep->level_mm),
                         turned_back (sweep, x_mm[i + 1], sweep->level_mm) };

    if (x_mm[i + 1] - x_mm[i] > 1e-6)
      g_array_append_val (lines, line);
  }
}

GArray *
tw_hatch_lines (const TwInkItem *item, double gap_mm)
{
  Sweep sweep = { cos (item->angle_rad), sin (item->angle_rad), NULL, 0 };
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (TwHatchLine));
  TwBox box, across = TW_BOX_EMPTY;

  g_return_val_if_fail (item->kind == TW_INK_HATCH && gap_mm > 0, lines);

  tw_ink_item_bounds (item, &box);
  across = tw_box_add_point (across, turned (&sweep, (TwPoint){ box.x0_mm, box.y0_mm }));
  across = tw_box_add_point (across, turned (&sweep, (TwPoint){ box.x1_mm, box.y0_mm }));
  across = tw_box_add_point (across, turned (&sweep, (TwPoint){ box.x0_mm, box.y1_mm }));
  across = tw_box_add_point (across, turned (&sweep, (TwPoint){ box.x1_mm, box.y1_mm }));
  while ((across.y1_mm - across.y0_mm) / gap_mm > TW_HATCH_MOST)
    gap_mm *= 2;

  sweep.crossings = g_array_new (FALSE, FALSE, sizeof (double));
  for (double nth = floor (across.y0_mm / gap_mm); (nth + 0.5) * gap_mm < across.y1_mm; nth++) {
    sweep.level_mm = (nth + 0.5) * gap_mm;
    g_array_set_size (sweep.crossings, 0);
    cross_rings (&sweep, item);
    g_array_sort (sweep.crossings, compare_doubles);
    append_lines (&sweep, lines);
  }
  g_array_unref (sweep.crossings);
  return lines;
}
