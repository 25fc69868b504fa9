/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/dimension-private.h"

#include <math.h>

#include "draw/place.h"

/* Dimension lines nearer than this to an extension line of another are left a gap in it, mm on paper. */
#define BREAK_MM 1.2

/* A dimension while it is placed; mm on paper along the side. */
typedef struct {
  const TwDimension *dim;
  double low_mm, high_mm;         /* its ends */
  double low_out_mm, high_out_mm; /* how far out its two points lie; negative within the outline */
  double text_mm;                 /* middle of its figure */
  double text_half_mm;            /* half of what the figure takes along the line */
  gboolean arrows_outside;
  gboolean text_outside;
  double line_low_mm, line_high_mm; /* the line with its tails */
  double out_mm;                    /* the line's distance from the outline */
  guint tier;
} Placed;

/* --- where lines and figures go ---------------------------------------------------------------------------
 */

static void
begin (Placed *placed, const TwDimensionManner *manner, const TwDimensionEdge *edge, const TwDimension *dim)
{
  double from_mm = tw_dimension_edge_along (edge, dim->from), to_mm = tw_dimension_edge_along (edge, dim->to);
  gboolean turned = from_mm > to_mm;
  double arrow_mm = manner->look->arrow_length, length_mm, along_mm;

  *placed = (Placed){
    .dim = dim,
    .low_mm = MIN (from_mm, to_mm),
    .high_mm = MAX (from_mm, to_mm),
    .low_out_mm = tw_dimension_edge_out (edge, turned ? dim->to : dim->from),
    .high_out_mm = tw_dimension_edge_out (edge, turned ? dim->from : dim->to),
  };
  length_mm = placed->high_mm - placed->low_mm;
  along_mm = manner->level && tw_dimension_edge_is_upright (edge)
                 ? tw_dimension_height (manner) * (1 + 2 * tw_measure_down (dim->text))
                 : tw_dimension_length (manner, dim->text);
  placed->text_half_mm = along_mm / 2 + 1;
  placed->text_mm = (placed->low_mm + placed->high_mm) / 2;
  placed->arrows_outside = length_mm < 4 * arrow_mm;
  placed->text_outside = length_mm < 2 * placed->text_half_mm + (manner->level ? 2 * arrow_mm + 3 : 0);
  placed->arrows_outside |= placed->text_outside && manner->level;
  placed->line_low_mm = placed->low_mm - (placed->arrows_outside ? 2 * arrow_mm : 0);
  placed->line_high_mm = placed->high_mm + (placed->arrows_outside ? 2 * arrow_mm : 0);
}

/* How many of the others a figure beyond one end would meet, or have an extension line through it. */
static guint
count_in_way (const Placed *all, guint n, guint self, double low_mm, double high_mm)
{
  guint count = 0;

  for (guint i = 0; i < n; i++) {
    if (i == self)
      continue;
    count += MIN (all[i].high_mm, high_mm) - MAX (all[i].low_mm, low_mm) > 1e-9
             && all[i].high_mm - all[i].low_mm < all[self].high_mm - all[self].low_mm + 1e-9;
    count += all[i].low_mm > low_mm + 1e-9 && all[i].low_mm < high_mm - 1e-9;
    count += all[i].high_mm > low_mm + 1e-9 && all[i].high_mm < high_mm - 1e-9;
  }
  return count;
}

/* Puts a figure that has no room beyond the end where it meets less. */
static void
move_outside (Placed *all, guint n, guint self, double middle_mm)
{
  Placed *placed = &all[self];
  double room_mm = 2 * placed->text_half_mm;
  guint above = count_in_way (all, n, self, placed->high_mm, placed->line_high_mm + room_mm);
  guint below = count_in_way (all, n, self, placed->line_low_mm - room_mm, placed->low_mm);
  gboolean up = above == below ? placed->text_mm >= middle_mm : above < below;

  if (up) {
    placed->text_mm = placed->line_high_mm + placed->text_half_mm;
    placed->line_high_mm += room_mm;
  } else {
    placed->text_mm = placed->line_low_mm - placed->text_half_mm;
    placed->line_low_mm -= room_mm;
  }
}

static guint
give_tiers (Placed *all, guint n)
{
  g_autofree TwPlaceSpan *spans = g_new0 (TwPlaceSpan, MAX (n, 1));
  guint n_tiers;

  for (guint i = 0; i < n; i++)
    spans[i] = (TwPlaceSpan){
      .from = all[i].low_mm,
      .to = all[i].high_mm,
      .text_from = MIN (all[i].line_low_mm, all[i].text_mm - all[i].text_half_mm),
      .text_to = MAX (all[i].line_high_mm, all[i].text_mm + all[i].text_half_mm),
    };
  n_tiers = tw_place_tiers (spans, n);
  for (guint i = 0; i < n; i++)
    all[i].tier = spans[i].tier;
  return n_tiers;
}

/* What the figures of a tier take across the line, towards the part and away from it. */
static void
tier_room (const TwDimensionManner *manner,
           const TwDimensionEdge *edge,
           const Placed *all,
           const guint n_and_tier[2],
           double room_mm[2])
{
  gboolean away = tw_dimension_edge_figures_away (edge);

  room_mm[0] = room_mm[1] = 0;
  for (guint i = 0; i < n_and_tier[0]; i++) {
    double half_mm = tw_dimension_edge_is_upright (edge) ? tw_dimension_length (manner, all[i].dim->text) / 2
                                                         : tw_dimension_height (manner) * 0.7;
    double above_mm = tw_dimension_height (manner) + tw_dimension_lift (manner, all[i].dim->text);

    if (all[i].tier != n_and_tier[1])
      continue;
    if (manner->level) {
      room_mm[0] = MAX (room_mm[0], half_mm + 1);
      room_mm[1] = MAX (room_mm[1], half_mm + 1);
    } else {
      room_mm[away] = MAX (room_mm[away], above_mm + 1);
    }
  }
}

/* Gives each its distance from the outline; returns how far all reach. */
static double
give_distances (const TwDimensionManner *manner,
                const TwDimensionEdge *edge,
                Placed *all,
                guint n,
                guint n_tiers)
{
  double out_mm = 0, reach_mm = 0, room_mm[2];

  for (guint tier = 1; tier <= n_tiers; tier++) {
    tier_room (manner, edge, all, (const guint[]){ n, tier }, room_mm);
    out_mm = MAX (out_mm + (tier == 1 ? manner->first_mm : manner->next_mm), reach_mm + room_mm[0]);
    reach_mm = out_mm + MAX (room_mm[1], manner->beyond_mm);
    for (guint i = 0; i < n; i++)
      if (all[i].tier == tier)
        all[i].out_mm = out_mm;
  }
  return reach_mm;
}

/* --- ink --------------------------------------------------------------------------------------------------
 */

static void
draw_line (TwInk *ink, const TwDimensionEdge *edge, const Placed *placed, double from_mm, double to_mm)
{
  TwInkStyle style = tw_dimension_style (TW_INK_PEN_DIMENSION, placed->dim->part);

  if (to_mm - from_mm > 1e-6)
    tw_ink_line (ink, &style, tw_dimension_edge_point (edge, from_mm, placed->out_mm),
                 tw_dimension_edge_point (edge, to_mm, placed->out_mm));
}

/* A piece of the line, with a gap for a level figure. */
static void
draw_piece (TwInk *ink,
            const TwDimensionManner *manner,
            const TwDimensionEdge *edge,
            const Placed *placed,
            const double ends_mm[2])
{
  double gap_low_mm = placed->text_mm - placed->text_half_mm;
  double gap_high_mm = placed->text_mm + placed->text_half_mm;

  if (!manner->level || gap_high_mm <= ends_mm[0] || gap_low_mm >= ends_mm[1]) {
    draw_line (ink, edge, placed, ends_mm[0], ends_mm[1]);
    return;
  }
  draw_line (ink, edge, placed, ends_mm[0], gap_low_mm);
  draw_line (ink, edge, placed, gap_high_mm, ends_mm[1]);
}

static void
draw_figure (TwInk *ink, const TwDimensionManner *manner, const TwDimensionEdge *edge, const Placed *placed)
{
  TwInkStyle style = tw_dimension_text_style (placed->dim->part);
  TwInkPlace place = { .at = tw_dimension_edge_point (edge, placed->text_mm, placed->out_mm),
                       .size = TW_INK_SIZE_NOTE,
                       .across = TW_INK_CENTRE,
                       .up = TW_INK_MIDDLE };

  if (!manner->level) {
    double lift_mm = tw_dimension_lift (manner, placed->dim->text);

    place.up = TW_INK_BASELINE;
    place.upright = tw_dimension_edge_is_upright (edge);
    if (place.upright)
      place.at.x_mm -= lift_mm;
    else
      place.at.y_mm += lift_mm;
  }
  tw_ink_text (ink, &style, &place, placed->dim->text);
}

static void
draw_dimension (TwInk *ink,
                const TwDimensionManner *manner,
                const TwDimensionEdge *edge,
                const Placed *placed)
{
  TwInkStyle style = tw_dimension_style (TW_INK_PEN_DIMENSION, placed->dim->part);
  double low_rad = tw_dimension_edge_along_rad (edge) + (placed->arrows_outside ? 0 : G_PI);

  draw_piece (ink, manner, edge, placed, (const double[]){ placed->line_low_mm, placed->low_mm });
  draw_piece (ink, manner, edge, placed, (const double[]){ placed->low_mm, placed->high_mm });
  draw_piece (ink, manner, edge, placed, (const double[]){ placed->high_mm, placed->line_high_mm });
  tw_ink_arrow (ink, &style, tw_dimension_edge_point (edge, placed->low_mm, placed->out_mm), low_rad);
  tw_ink_arrow (ink, &style, tw_dimension_edge_point (edge, placed->high_mm, placed->out_mm), low_rad + G_PI);
  draw_figure (ink, manner, edge, placed);
}

/* Where an extension line at @along_mm must be interrupted for @placed: its line, or its figure too. */
static gboolean
gap_for (const TwDimensionManner *manner,
         const TwDimensionEdge *edge,
         const Placed *placed,
         double along_mm,
         double gap_mm[2])
{
  gboolean on_line = along_mm > placed->line_low_mm + 1e-6 && along_mm < placed->line_high_mm - 1e-6
                     && fabs (along_mm - placed->low_mm) > 1e-6 && fabs (along_mm - placed->high_mm) > 1e-6;
  gboolean on_text = fabs (along_mm - placed->text_mm) < placed->text_half_mm;
  gboolean away = tw_dimension_edge_figures_away (edge);
  double above_mm
      = tw_dimension_height (manner) + tw_dimension_lift (manner, placed->dim->text) + BREAK_MM / 2;
  double half_mm = tw_dimension_edge_is_upright (edge) ? tw_dimension_length (manner, placed->dim->text) / 2
                                                       : tw_dimension_height (manner) * 0.7;

  if (!on_line && !on_text)
    return FALSE;
  gap_mm[0] = placed->out_mm - BREAK_MM;
  gap_mm[1] = placed->out_mm + BREAK_MM;
  if (on_text && manner->level) {
    gap_mm[0] = MIN (gap_mm[0], placed->out_mm - half_mm - BREAK_MM);
    gap_mm[1] = MAX (gap_mm[1], placed->out_mm + half_mm + BREAK_MM);
  } else if (on_text && away) {
    gap_mm[1] = placed->out_mm + above_mm;
  } else if (on_text) {
    gap_mm[0] = placed->out_mm - above_mm;
  }
  return TRUE;
}

static int
compare_gaps (gconstpointer a, gconstpointer b)
{
  const double *one = a, *two = b;

  return one[0] < two[0] ? -1 : one[0] > two[0];
}

/* One extension line, from @from_mm out to @to_mm, interrupted wherever it passes a line or figure. */
static void
draw_extension (TwInk *ink,
                const TwDimensionManner *manner,
                const TwDimensionEdge *edge,
                const Placed *own,
                const Placed *all_and_end[2],
                const double where_mm[3])
{
  g_autoptr (GArray) gaps = g_array_new (FALSE, FALSE, 2 * sizeof (double));
  TwInkStyle style = tw_dimension_style (TW_INK_PEN_EXTENSION, own->dim->part);
  double along_mm = where_mm[0], from_mm = where_mm[1];

  for (const Placed *placed = all_and_end[0]; placed < all_and_end[1]; placed++) {
    double gap_mm[2];

    if (placed->out_mm < where_mm[2] && gap_for (manner, edge, placed, along_mm, gap_mm))
      g_array_append_vals (gaps, gap_mm, 1);
  }
  g_array_sort (gaps, compare_gaps);
  for (guint i = 0; i < gaps->len; i++) {
    const double *gap_mm = (const double *)(gconstpointer)gaps->data + 2 * i;

    if (gap_mm[0] - from_mm > 0.1)
      tw_ink_line (ink, &style, tw_dimension_edge_point (edge, along_mm, from_mm),
                   tw_dimension_edge_point (edge, along_mm, gap_mm[0]));
    from_mm = MAX (from_mm, gap_mm[1]);
  }
  if (where_mm[2] - from_mm > 0.1)
    tw_ink_line (ink, &style, tw_dimension_edge_point (edge, along_mm, from_mm),
                 tw_dimension_edge_point (edge, along_mm, where_mm[2]));
}

/* Extension lines at one place along the side are one line: from the deepest point to beyond the outermost
 * dimension. @nth says whose turn it is; only the first of those that share a place draws. */
static void
draw_extensions (TwInk *ink,
                 const TwDimensionManner *manner,
                 const TwDimensionEdge *edge,
                 const Placed *all,
                 guint n)
{
  for (guint i = 0; i < 2 * n; i++) {
    double along_mm = i % 2 ? all[i / 2].high_mm : all[i / 2].low_mm;
    double from_mm = G_MAXDOUBLE, to_mm = 0;
    gboolean drawn = FALSE;

    for (guint k = 0; k < 2 * n; k++) {
      double other_mm = k % 2 ? all[k / 2].high_mm : all[k / 2].low_mm;

      if (fabs (other_mm - along_mm) > 1e-3)
        continue;
      drawn |= k < i;
      from_mm = MIN (from_mm, k % 2 ? all[k / 2].high_out_mm : all[k / 2].low_out_mm);
      to_mm = MAX (to_mm, all[k / 2].out_mm);
    }
    if (!drawn)
      draw_extension (ink, manner, edge, &all[i / 2], (const Placed *[]){ all, all + n },
                      (const double[]){ along_mm, from_mm + manner->gap_mm, to_mm + manner->beyond_mm });
  }
}

double
tw_dimension_stack (TwInk *ink,
                    const TwDimensionManner *manner,
                    const TwDimensionEdge *edge,
                    const TwDimension *dims,
                    guint n)
{
  g_autofree Placed *all = g_new0 (Placed, MAX (n, 1));
  double middle_mm
      = tw_dimension_edge_along (edge, (TwPoint){ (edge->outline.x0_mm + edge->outline.x1_mm) / 2,
                                                  (edge->outline.y0_mm + edge->outline.y1_mm) / 2 });
  double reach_mm;

  for (guint i = 0; i < n; i++)
    begin (&all[i], manner, edge, &dims[i]);
  for (guint i = 0; i < n; i++)
    if (all[i].text_outside)
      move_outside (all, n, i, middle_mm);
  reach_mm = give_distances (manner, edge, all, n, give_tiers (all, n));
  if (ink != NULL) {
    draw_extensions (ink, manner, edge, all, n);
    for (guint i = 0; i < n; i++)
      draw_dimension (ink, manner, edge, &all[i]);
  }
  return reach_mm;
}
