/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * hatch.h - the lines of a hatch, cut at its rings
 *
 * Cut exactly, arcs too, so that a writer needs no clipping. Lines of all hatches with one angle and gap lie
 * on one set of lines through the ink's zero, so regions that meet match.
 */
#pragma once

#include "draw/ink.h"

G_BEGIN_DECLS

/* One line of a hatch, mm of ink. */
typedef struct {
  TwPoint from;
  TwPoint to;
} TwHatchLine;

/* Most lines that one hatch gets; a closer gap is widened until they suffice. */
#define TW_HATCH_MOST 4000

/**
 * tw_hatch_lines:
 * @item: a hatch
 * @gap_mm: between neighbouring lines, in mm of ink, over 0
 *
 * Returns: (transfer full) (element-type TwHatchLine): lines inside by the even-odd rule
 */
GArray *tw_hatch_lines (const TwInkItem *item, double gap_mm) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
