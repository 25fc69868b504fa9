/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * dimension-private.h - a side's own axes: along it and out from it, so that four sides are one case
 */
#pragma once

#include "draw/dimension.h"

G_BEGIN_DECLS

/* Whether the side goes up the page. */
gboolean tw_dimension_edge_is_upright (const TwDimensionEdge *edge);

/* Whether a figure that stands above its line (as it is read) stands away from the outline. */
gboolean tw_dimension_edge_figures_away (const TwDimensionEdge *edge);

/* The point @along_mm along the side (x or y of the page) and @out_mm out from the outline. */
TwPoint tw_dimension_edge_point (const TwDimensionEdge *edge, double along_mm, double out_mm);

/* The two the other way round; mm. */
double tw_dimension_edge_along (const TwDimensionEdge *edge, TwPoint point);
double tw_dimension_edge_out (const TwDimensionEdge *edge, TwPoint point);

/* Direction on the page in which `along` and `out` grow. */
double tw_dimension_edge_along_rad (const TwDimensionEdge *edge);
double tw_dimension_edge_out_rad (const TwDimensionEdge *edge);

/* Height of figures, mm. */
double tw_dimension_height (const TwDimensionManner *manner);

/* Length of a figure, mm. */
double tw_dimension_length (const TwDimensionManner *manner, const char *text);

/* Between a figure's baseline and the line under it, mm. */
double tw_dimension_lift (const TwDimensionManner *manner, const char *text);

/* Style of the lines of a dimension of @part, and of its figure. */
TwInkStyle tw_dimension_style (TwInkPen pen, TwId part);
TwInkStyle tw_dimension_text_style (TwId part);

G_END_DECLS
