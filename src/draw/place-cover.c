/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * place-cover.c - a part that is drawn over others hides their lines
 */
#include "draw/place-private.h"

#include <math.h>

/* Pieces of a line shorter than this share are dropped; dimensionless. */
#define LEAST_SHARE 1e-9

/* The edges of all rings, arcs in short steps. */
static GArray *
edges_of (const TwInkItem *item)
{
  GArray *edges = g_array_new (FALSE, FALSE, sizeof (TwPlaceLine));

  for (guint first = 0, end; first < item->n_corners; first = end) {
    end = tw_ink_ring_end (item, first);
    for (guint i = first; i < end; i++)
      tw_place_flatten (&item->corners[i], &item->corners[i + 1 < end ? i + 1 : first], edges);
  }
  return edges;
}

static gboolean
encloses (const GArray *edges, TwPoint at)
{
  gboolean inside = FALSE;

  for (guint i = 0; i < edges->len; i++) {
    const TwPlaceLine *edge = &g_array_index (edges, TwPlaceLine, i);

    if ((edge->from.y_mm > at.y_mm) != (edge->to.y_mm > at.y_mm)
        && at.x_mm < edge->from.x_mm
                         + (edge->to.x_mm - edge->from.x_mm) * (at.y_mm - edge->from.y_mm)
                               / (edge->to.y_mm - edge->from.y_mm))
      inside = !inside;
  }
  return inside;
}

static int
compare_doubles (gconstpointer a, gconstpointer b)
{
  double one = *(const double *)a, two = *(const double *)b;

  return one > two ? 1 : one < two ? -1 : 0;
}

/* Shares of the way along @line at which it crosses an edge, 0 and 1 with them, in order. */
static GArray *
cuts_of (const TwPlaceLine *line, const GArray *edges)
{
  GArray *cuts = g_array_new (FALSE, FALSE, sizeof (double));
  double dx = line->to.x_mm - line->from.x_mm, dy = line->to.y_mm - line->from.y_mm;
  const double ends[] = { 0, 1 };

  g_array_append_vals (cuts, ends, 2);
  for (guint i = 0; i < edges->len; i++) {
    const TwPlaceLine *edge = &g_array_index (edges, TwPlaceLine, i);
    double ex = edge->to.x_mm - edge->from.x_mm, ey = edge->to.y_mm - edge->from.y_mm;
    double fx = edge->from.x_mm - line->from.x_mm, fy = edge->from.y_mm - line->from.y_mm;
    double turn = dx * ey - dy * ex, t, u;

    if (MAX (fx, fx + ex) < MIN (0, dx) || MIN (fx, fx + ex) > MAX (0, dx) || MAX (fy, fy + ey) < MIN (0, dy)
        || MIN (fy, fy + ey) > MAX (0, dy) || turn == 0)
      continue;
    t = (fx * ey - fy * ex) / turn;
    u = (fx * dy - fy * dx) / turn;
    if (t > 0 && t < 1 && u >= 0 && u <= 1)
      g_array_append_val (cuts, t);
  }
  g_array_sort (cuts, compare_doubles);
  return cuts;
}

static TwPoint
point_along (const TwPlaceLine *line, double t)
{
  return (TwPoint){ line->from.x_mm + t * (line->to.x_mm - line->from.x_mm),
                    line->from.y_mm + t * (line->to.y_mm - line->from.y_mm) };
}

/* Leaves of line @nth what sticks out; a line of no length meets nothing. */
static void
cut_line (TwPlace *self, guint nth, const GArray *edges)
{
  const TwPlaceLine line = g_array_index (self->lines, TwPlaceLine, nth);
  g_autoptr (GArray) cuts = cuts_of (&line, edges);
  TwPlaceLine *kept = &g_array_index (self->lines, TwPlaceLine, nth);

  if (cuts->len == 2 && !encloses (edges, point_along (&line, 0.5)))
    return;
  kept->to = kept->from;
  for (guint i = 0; i + 1 < cuts->len; i++) {
    double from = g_array_index (cuts, double, i), to = g_array_index (cuts, double, i + 1);

    if (to - from > LEAST_SHARE && !encloses (edges, point_along (&line, (from + to) / 2)))
      tw_place_add_line (self, line.item, point_along (&line, from), point_along (&line, to));
  }
}

static int
compare_numbers (gconstpointer a, gconstpointer b)
{
  guint one = *(const guint *)a, two = *(const guint *)b;

  return one > two ? 1 : one < two ? -1 : 0;
}

void
tw_place_cover (TwPlace *self, const TwInkItem *item)
{
  g_autoptr (GArray) edges = edges_of (item);
  g_autoptr (GArray) near = NULL;
  TwBox box;

  tw_ink_item_bounds (item, &box);
  near = tw_place_lines_near (self, &box);
  g_array_sort (near, compare_numbers);
  for (guint i = 0; i < near->len; i++) {
    guint nth = g_array_index (near, guint, i);
    const TwPlaceLine *line = &g_array_index (self->lines, TwPlaceLine, nth);

    if ((i == 0 || nth != g_array_index (near, guint, i - 1)) && tw_place_line_meets (line, &box))
      cut_line (self, nth, edges);
  }
}
