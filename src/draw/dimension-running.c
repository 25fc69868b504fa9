/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * dimension-running.c - sizes that all count from one datum
 */
#include "draw/dimension-private.h"

#include <math.h>

#include "draw/place.h"

/* Band in which extension lines may kink, and from there to the figure; mm on paper. */
#define KINK_MM 6.0
#define STRAIGHT_MM 2.0

/* Radius of the ring at the datum, in letter heights, dimensionless. */
#define ORIGIN_RADIUS 0.3

/* One size while it is placed; the datum itself is one too. */
typedef struct {
  const TwDimension *dim; /* NULL for the datum */
  double along_mm;        /* its point along the side */
  double point_out_mm;    /* how far out its point lies */
  double text_mm;         /* where its figure stands along the side */
} Running;

static int
compare_running (gconstpointer a, gconstpointer b)
{
  const Running *one = a, *two = b;

  if (one->along_mm != two->along_mm)
    return one->along_mm > two->along_mm ? 1 : -1;
  return (one->dim > two->dim) - (one->dim < two->dim);
}

static const char *
figure_of (const Running *running)
{
  return running->dim != NULL ? running->dim->text : "0";
}

static TwId
part_of (const Running *running)
{
  return running->dim != NULL ? running->dim->part : TW_ID_NONE;
}

static gboolean
spread_figures (const TwDimensionManner *manner, const TwDimensionEdge *edge, Running *all, guint n)
{
  g_autofree double *places_mm = g_new (double, n);
  double pitch_mm = 1.6 * tw_dimension_height (manner) + 2 * TW_PLACE_PAD_MM;
  TwPoint low = { edge->outline.x0_mm, edge->outline.y0_mm },
          high = { edge->outline.x1_mm, edge->outline.y1_mm };

  for (guint i = 0; i < n; i++)
    places_mm[i] = all[i].along_mm;
  if (!tw_place_spread_between (places_mm, n, pitch_mm, tw_dimension_edge_along (edge, low) - pitch_mm,
                                tw_dimension_edge_along (edge, high) + pitch_mm))
    return FALSE;
  for (guint i = 0; i < n; i++)
    all[i].text_mm = places_mm[i];
  return TRUE;
}

static void
draw_extension (TwInk *ink,
                const TwDimensionManner *manner,
                const TwDimensionEdge *edge,
                const Running *running)
{
  TwInkStyle style = tw_dimension_style (TW_INK_PEN_EXTENSION, part_of (running));
  double bend_mm = manner->first_mm + manner->beyond_mm;
  TwInkCorner corners[] = {
    { .at = tw_dimension_edge_point (edge, running->along_mm, running->point_out_mm + manner->gap_mm) },
    { .at = tw_dimension_edge_point (edge, running->along_mm, bend_mm) },
    { .at = tw_dimension_edge_point (edge, running->text_mm, bend_mm + KINK_MM) },
    { .at = tw_dimension_edge_point (edge, running->text_mm, bend_mm + KINK_MM + STRAIGHT_MM) },
  };

  tw_ink_path (ink, &style, corners, G_N_ELEMENTS (corners), FALSE);
}

static void
draw_figure (TwInk *ink, const TwDimensionManner *manner, const TwDimensionEdge *edge, const Running *running)
{
  TwInkStyle style = tw_dimension_text_style (part_of (running));
  double out_mm = manner->first_mm + manner->beyond_mm + KINK_MM + STRAIGHT_MM + 1;
  gboolean to_lower = edge->side == TW_DIMENSION_BELOW || edge->side == TW_DIMENSION_LEFT;
  TwInkPlace place = { .at = tw_dimension_edge_point (edge, running->text_mm, out_mm),
                       .size = TW_INK_SIZE_NOTE,
                       .across = to_lower ? TW_INK_RIGHT : TW_INK_LEFT,
                       .up = TW_INK_MIDDLE,
                       .upright = !tw_dimension_edge_is_upright (edge) };

  tw_ink_text (ink, &style, &place, figure_of (running));
}

/* The line from one extension line to the next, so that none crosses it, with a head at its end. */
static void
draw_piece (TwInk *ink,
            const TwDimensionManner *manner,
            const TwDimensionEdge *edge,
            const Running *from,
            const Running *to)
{
  TwInkStyle style = tw_dimension_style (TW_INK_PEN_DIMENSION, part_of (to));
  double sign = to->along_mm > from->along_mm ? 1 : -1;
  double radius_mm = from->dim == NULL ? ORIGIN_RADIUS * tw_dimension_height (manner) : 0;

  if (fabs (to->along_mm - from->along_mm) <= radius_mm)
    return;
  tw_ink_line (ink, &style,
               tw_dimension_edge_point (edge, from->along_mm + sign * radius_mm, manner->first_mm),
               tw_dimension_edge_point (edge, to->along_mm, manner->first_mm));
  if (fabs (to->along_mm - from->along_mm) > manner->look->arrow_length + radius_mm)
    tw_ink_arrow (ink, &style, tw_dimension_edge_point (edge, to->along_mm, manner->first_mm),
                  tw_dimension_edge_along_rad (edge) + (sign > 0 ? 0 : G_PI));
  else
    tw_ink_dot (ink, &style, tw_dimension_edge_point (edge, to->along_mm, manner->first_mm));
}

static void
draw (TwInk *ink, const TwDimensionManner *manner, const TwDimensionEdge *edge, const Running *all, guint n)
{
  TwInkStyle ring = tw_dimension_style (TW_INK_PEN_EXTENSION, TW_ID_NONE);
  guint datum = 0;

  for (guint i = 0; i < n; i++) {
    draw_extension (ink, manner, edge, &all[i]);
    draw_figure (ink, manner, edge, &all[i]);
    if (all[i].dim == NULL)
      datum = i;
  }
  for (guint i = datum; i + 1 < n; i++)
    draw_piece (ink, manner, edge, &all[i], &all[i + 1]);
  for (guint i = datum; i > 0; i--)
    draw_piece (ink, manner, edge, &all[i], &all[i - 1]);
  tw_ink_ring (ink, &ring, tw_dimension_edge_point (edge, all[datum].along_mm, manner->first_mm),
               ORIGIN_RADIUS);
}

double
tw_dimension_running (TwInk *ink,
                      const TwDimensionManner *manner,
                      const TwDimensionEdge *edge,
                      TwPoint origin,
                      const TwDimension *dims,
                      guint n)
{
  g_autofree Running *all = g_new0 (Running, n + 1);
  double reach_mm = manner->first_mm + manner->beyond_mm + KINK_MM + STRAIGHT_MM + 1, longest_mm = 0;

  all[n] = (Running){ NULL, tw_dimension_edge_along (edge, origin), tw_dimension_edge_out (edge, origin), 0 };
  for (guint i = 0; i < n; i++)
    all[i] = (Running){ &dims[i], tw_dimension_edge_along (edge, dims[i].to),
                        tw_dimension_edge_out (edge, dims[i].to), 0 };
  qsort (all, n + 1, sizeof *all, compare_running);
  if (!spread_figures (manner, edge, all, n + 1))
    return -1;
  for (guint i = 0; i <= n; i++)
    longest_mm = MAX (longest_mm, tw_dimension_length (manner, figure_of (&all[i])));
  if (ink != NULL)
    draw (ink, manner, edge, all, n + 1);
  return reach_mm + longest_mm;
}
