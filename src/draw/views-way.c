/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * views-way.c - which way water and air go
 */
#include "draw/views-private.h"

#include <math.h>

/* A face is looked at: cosine, dimensionless. */
#define FACING 0.5

/* A pass's arrow is so long, as a share of its tubes, dimensionless. */
#define PASS_SHARE 0.62

/* The air's arrow: length and distance from the face, in heights of a note, dimensionless. */
#define AIR_LENGTH 7.0
#define AIR_GAP 2.5

/* First crossing hot, last one cool; what is between is ink. */
static TwInkTint
tint_of (guint level, guint last, gboolean second_half)
{
  if (last == 1)
    return second_half ? TW_INK_TINT_COOL : TW_INK_TINT_HOT;
  return level == 1 ? TW_INK_TINT_HOT : level == last ? TW_INK_TINT_COOL : TW_INK_TINT_INK;
}

/* An arrow of two halves from one place of the face to another. */
static void
draw_arrow (const TwViewHand *hand, const TwPlacedCore *core, const TwPoint ends[2], const TwInkTint tints[2])
{
  TwPoint from = tw_view_point (hand, tw_frame_to_job (&core->frame, tw_vec (ends[0].x_mm, ends[0].y_mm, 0)));
  TwPoint to = tw_view_point (hand, tw_frame_to_job (&core->frame, tw_vec (ends[1].x_mm, ends[1].y_mm, 0)));
  TwPoint middle = { (from.x_mm + to.x_mm) / 2, (from.y_mm + to.y_mm) / 2 };
  TwInkStyle style = { TW_INK_PEN_WATER, tints[0], TW_VIEW_LAYER_WAY, core->id };

  if (tints[0] == tints[1]) {
    tw_ink_line (hand->ink, &style, from, to);
  } else {
    tw_ink_line (hand->ink, &style, from, middle);
    style.tint = tints[1];
    tw_ink_line (hand->ink, &style, middle, to);
  }
  tw_ink_arrow (hand->ink, &style, to, atan2 (to.y_mm - from.y_mm, to.x_mm - from.x_mm));
}

/* Ends of the arrow over tubes @range, in the core's (u, v), in the direction of the water. */
static gboolean
arrow_ends (const TwPlacedCore *core,
            const TwTubeGrid *grid,
            const TwTubeRange *range,
            TwFlows flows,
            TwPoint ends[2])
{
  double along_mm = (tw_tube_along_mm (grid, range->first) + tw_tube_along_mm (grid, range->last)) / 2;
  double half_mm = PASS_SHARE / 2 * (grid->level ? core->face_width_mm : core->face_height_mm);
  double sign = flows == TW_FLOWS_RIGHT || flows == TW_FLOWS_UP ? 1 : -1;

  if (flows == TW_FLOWS_NOWHERE)
    return FALSE;
  for (guint i = 0; i < 2; i++) {
    double across_mm = (i == 0 ? -sign : sign) * half_mm;

    ends[i] = grid->level ? (TwPoint){ across_mm, along_mm } : (TwPoint){ along_mm, across_mm };
  }
  return TRUE;
}

static guint
last_level (const TwPasses *passes)
{
  guint last = 0;

  for (guint i = 0; i < tw_passes_count (passes); i++)
    last = MAX (last, tw_passes_get (passes, i)->level);
  return last;
}

static void
draw_pass (const TwViewHand *hand, const TwPass *pass, guint last)
{
  const TwPlacedCore *core = tw_placement_core (hand->source->placement, pass->core);
  const TwDrawing *drawing = tw_placement_drawing (hand->source->placement);
  TwTubeGrid grid;
  const TwInkTint tints[] = { tint_of (pass->level, last, FALSE), tint_of (pass->level, last, TRUE) };

  if (core == NULL || tw_view_away (hand, core->frame.w) < FACING)
    return;
  grid = tw_tube_grid ((const TwCore *)tw_drawing_find (drawing, core->id));
  for (guint i = 0; i < pass->n_ranges; i++) {
    TwPoint ends[2], middle;

    /* rows of one place lie behind each other: one arrow */
    if (pass->ranges[i].first_row > 1 && i > 0 && pass->ranges[i].first == pass->ranges[i - 1].first)
      continue;
    if (!arrow_ends (core, &grid, &pass->ranges[i], pass->flows, ends))
      continue;
    draw_arrow (hand, core, ends, tints);
    middle
        = tw_view_point (hand, tw_frame_to_job (&core->frame, tw_vec ((ends[0].x_mm + ends[1].x_mm) / 2,
                                                                      (ends[0].y_mm + ends[1].y_mm) / 2, 0)));
    if (i > 0)
      continue;
    /* Translators: number of a pass, number of its tubes */
    tw_view_label (
        hand, TW_VIEW_LABEL_PASS, core->id, middle, 0,
        g_strdup_printf (tw_view_words (hand, N_ ("pass %u: %u tubes")), pass->level, pass->n_tubes));
  }
}

void
tw_view_draw_passes (const TwViewHand *hand)
{
  const TwPasses *passes = hand->source->passes;

  for (guint i = 0; i < tw_passes_count (passes); i++)
    draw_pass (hand, tw_passes_get (passes, i), last_level (passes));
}

/* How far the face's foremost corner lies before its middle, along the air: nought or less. */
static double
upstream_mm (const TwPlacedCore *core)
{
  double least_mm = 0;

  for (guint i = 0; i < 4; i++)
    least_mm = MIN (least_mm, tw_vec_dot (core->air, tw_vec_subtract (core->corners[i], core->frame.origin)));
  return least_mm;
}

void
tw_view_draw_air (const TwViewHand *hand)
{
  guint n;
  const TwPlacedCore *cores = tw_placement_cores (hand->source->placement, &n);
  double note_mm = tw_view_paper_mm (hand, hand->manner->look->heights[TW_INK_SIZE_NOTE]);

  for (guint i = 0; i < n; i++) {
    TwInkStyle style = { TW_INK_PEN_WATER, TW_INK_TINT_AIR, TW_VIEW_LAYER_WAY, cores[i].id };
    TwVec head = tw_vec_add_scaled (cores[i].frame.origin, upstream_mm (&cores[i]) - AIR_GAP * note_mm,
                                    cores[i].air);
    TwVec tail = tw_vec_add_scaled (head, -AIR_LENGTH * note_mm, cores[i].air);
    double angle_rad;

    if (!tw_view_angle (hand, cores[i].air, &angle_rad))
      continue;
    tw_ink_line (hand->ink, &style, tw_view_point (hand, tail), tw_view_point (hand, head));
    tw_ink_arrow (hand->ink, &style, tw_view_point (hand, head), angle_rad);
    tw_view_label (hand, TW_VIEW_LABEL_AIR, cores[i].id, tw_view_point (hand, tail), note_mm / 2,
                   g_strdup (tw_view_words (hand, N_ ("air"))))
        ->tint
        = TW_INK_TINT_AIR;
  }
}
