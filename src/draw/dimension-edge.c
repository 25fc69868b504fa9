/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * dimension-edge.c - manner and axes of dimensions
 */
#include "draw/dimension-private.h"

TwDimensionManner
tw_dimension_manner (gboolean inches, const TwLook *look, const TwMeasure *measure)
{
  double height_mm = look->heights[TW_INK_SIZE_NOTE];

  return (TwDimensionManner){
    .level = inches,
    .gap_mm = inches ? 1.5 : 0.0,
    .beyond_mm = 2.0,
    .first_mm = MAX (10.0, 2.9 * height_mm),
    .next_mm = MAX (6.0, 2.4 * height_mm),
    .look = look,
    .measure = measure,
  };
}

gboolean
tw_dimension_edge_is_upright (const TwDimensionEdge *edge)
{
  return edge->side == TW_DIMENSION_LEFT || edge->side == TW_DIMENSION_RIGHT;
}

TwPoint
tw_dimension_edge_point (const TwDimensionEdge *edge, double along_mm, double out_mm)
{
  switch (edge->side) {
  case TW_DIMENSION_BELOW:
    return (TwPoint){ along_mm, edge->outline.y0_mm - out_mm };
  case TW_DIMENSION_ABOVE:
    return (TwPoint){ along_mm, edge->outline.y1_mm + out_mm };
  case TW_DIMENSION_LEFT:
    return (TwPoint){ edge->outline.x0_mm - out_mm, along_mm };
  case TW_DIMENSION_RIGHT:
  default:
    return (TwPoint){ edge->outline.x1_mm + out_mm, along_mm };
  }
}

double
tw_dimension_edge_along (const TwDimensionEdge *edge, TwPoint point)
{
  return tw_dimension_edge_is_upright (edge) ? point.y_mm : point.x_mm;
}

double
tw_dimension_edge_out (const TwDimensionEdge *edge, TwPoint point)
{
  switch (edge->side) {
  case TW_DIMENSION_BELOW:
    return edge->outline.y0_mm - point.y_mm;
  case TW_DIMENSION_ABOVE:
    return point.y_mm - edge->outline.y1_mm;
  case TW_DIMENSION_LEFT:
    return edge->outline.x0_mm - point.x_mm;
  case TW_DIMENSION_RIGHT:
  default:
    return point.x_mm - edge->outline.x1_mm;
  }
}

double
tw_dimension_edge_along_rad (const TwDimensionEdge *edge)
{
  return tw_dimension_edge_is_upright (edge) ? G_PI / 2 : 0;
}

double
tw_dimension_height (const TwDimensionManner *manner)
{
  return manner->look->heights[TW_INK_SIZE_NOTE];
}

double
tw_dimension_lift (const TwDimensionManner *manner, const char *text)
{
  return tw_dimension_height (manner) * (0.3 + tw_measure_down (text));
}

gboolean
tw_dimension_edge_figures_away (const TwDimensionEdge *edge)
{
  return edge->side == TW_DIMENSION_ABOVE || edge->side == TW_DIMENSION_LEFT;
}

double
tw_dimension_edge_out_rad (const TwDimensionEdge *edge)
{
  static const double quarters[] = {
    [TW_DIMENSION_BELOW] = -1, [TW_DIMENSION_ABOVE] = 1, [TW_DIMENSION_LEFT] = 2, [TW_DIMENSION_RIGHT] = 0
  };

  return quarters[edge->side] * G_PI / 2;
}

double
tw_dimension_length (const TwDimensionManner *manner, const char *text)
{
  return tw_measure_width (manner->measure, text, tw_dimension_height (manner));
}

TwInkStyle
tw_dimension_style (TwInkPen pen, TwId part)
{
  return (TwInkStyle){ pen, TW_INK_TINT_SOFT, TW_DIMENSION_LAYER, part };
}

TwInkStyle
tw_dimension_text_style (TwId part)
{
  return (TwInkStyle){ TW_INK_PEN_DIMENSION, TW_INK_TINT_INK, TW_DIMENSION_LAYER, part };
}
