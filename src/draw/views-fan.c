/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * views-fan.c - shrouds, flaps and fans
 */
#include "draw/views-private.h"

#include <math.h>

/* A fan is looked at along its axis: cosine, dimensionless. */
#define FACING 0.5

/* Lines that stand for blades, and how far each sweeps back. */
#define BLADES 3
#define SWEEP_RAD 0.6

/* A place in the frame of the core that something is fixed to. */
static TwVec
in_core (const TwPlacedCore *core, double u_mm, double v_mm, double w_mm)
{
  return tw_frame_to_job (&core->frame, tw_vec (u_mm, v_mm, w_mm));
}

/* A rectangle square to w. */
static void
draw_rectangle (const TwViewHand *hand,
                const TwPlacedCore *core,
                const TwBox *box,
                double w_mm,
                const TwInkStyle *style)
{
  TwInkCorner corners[4];

  tw_ink_box_corners (box, corners);
  for (guint i = 0; i < 4; i++)
    corners[i].at = tw_view_point (hand, in_core (core, corners[i].at.x_mm, corners[i].at.y_mm, w_mm));
  tw_ink_path (hand->ink, style, corners, 4, TRUE);
}

/* --- shrouds ----------------------------------------------------------------------------------------------
 */

static void
draw_flaps (const TwViewHand *hand, const TwPlacedShroud *shroud, const TwInkStyle *style)
{
  const TwPlacedCore *core = tw_placement_core (hand->source->placement, shroud->core);
  guint n;
  const TwPlacedFlap *flaps = tw_placement_flaps (hand->source->placement, &n);

  for (guint i = 0; i < n; i++) {
    const TwBox *box = &flaps[i].opening;

    if (!tw_id_equal (flaps[i].shroud, shroud->id))
      continue;
    draw_rectangle (hand, core, box, shroud->fans_w_mm, style);
    tw_ink_line (hand->ink, style,
                 tw_view_point (hand, in_core (core, box->x0_mm, box->y0_mm, shroud->fans_w_mm)),
                 tw_view_point (hand, in_core (core, box->x1_mm, box->y1_mm, shroud->fans_w_mm)));
  }
}

void
tw_view_draw_shroud (const TwViewHand *hand, const TwPlacedSolid *solid)
{
  const TwPlacedShroud *shroud = tw_placement_shroud (hand->source->placement, solid->part);
  const TwPlacedCore *core = tw_placement_core (hand->source->placement, shroud->core);
  TwInkStyle style
      = tw_view_style (hand, TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, TW_VIEW_LAYER_SHROUD, solid->part);
  gboolean fans_to_eye = tw_view_away (hand, core->frame.w) * (shroud->is_before ? -1 : 1) < -FACING;

  tw_view_solid (hand, solid->convex, &style, 0);
  style.pen = TW_INK_PEN_THIN;
  if (fans_to_eye)
    draw_flaps (hand, shroud, &style);
}

/* --- fans -------------------------------------------------------------------------------------------------
 */

static TwVec
fan_point (const TwPlacedCore *core, const TwPlacedFan *fan, double radius_mm, double angle_rad, double w_mm)
{
  return in_core (core, fan->centre.x_mm + radius_mm * cos (angle_rad),
                  fan->centre.y_mm + radius_mm * sin (angle_rad), w_mm);
}

/* Curved lines from the hub to the tips, each in short straight pieces so that a leaning fan has them too. */
static void
draw_blades (const TwViewHand *hand, const TwPlacedFan *fan, const TwInkStyle *style)
{
  const TwPlacedCore *core = tw_placement_core (hand->source->placement, fan->core);

  for (guint blade = 0; blade < BLADES; blade++) {
    TwInkCorner corners[9] = { 0 };

    for (guint i = 0; i < G_N_ELEMENTS (corners); i++) {
      double share = (double)i / (G_N_ELEMENTS (corners) - 1);
      double radius_mm = fan->hub_mm / 2 + share * (fan->swept_mm - fan->hub_mm) / 2;
      double angle_rad = G_PI / 2 + 2 * G_PI * blade / BLADES - SWEEP_RAD * share * share;

      corners[i].at = tw_view_point (hand, fan_point (core, fan, radius_mm, angle_rad, fan->mounting_w_mm));
    }
    tw_ink_path (hand->ink, style, corners, G_N_ELEMENTS (corners), FALSE);
  }
}

/* Ring, tips, hub and blades as they are seen along the axis. */
static void
draw_facing (const TwViewHand *hand, const TwPlacedFan *fan, const TwInkStyle *edge, const TwInkStyle *thin)
{
  const TwPlacedCore *core = tw_placement_core (hand->source->placement, fan->core);
  TwVec at = fan_point (core, fan, 0, 0, fan->mounting_w_mm);

  tw_view_circle (hand, at, core->frame.w, fan->ring_mm / 2, edge);
  if (fan->ring_mm - fan->swept_mm > 2 * tw_view_pen_mm (hand, TW_INK_PEN_OUTLINE))
    tw_view_circle (hand, at, core->frame.w, fan->swept_mm / 2, thin);
  if (fan->hub_mm > 0)
    tw_view_circle (hand, at, core->frame.w, fan->hub_mm / 2, edge);
  draw_blades (hand, fan, thin);
}

static void
draw_centre (const TwViewHand *hand, const TwPlacedFan *fan, const char *layer)
{
  const TwPlacedCore *core = tw_placement_core (hand->source->placement, fan->core);
  TwInkStyle style = { TW_INK_PEN_CENTRE, TW_INK_TINT_SOFT, layer, fan->id };
  TwVec ends[]
      = { fan_point (core, fan, 0, 0, fan->mounting_w_mm), fan_point (core, fan, 0, 0, fan->back_w_mm) };

  if (fabs (tw_view_away (hand, core->frame.w)) > FACING)
    ends[1] = ends[0];
  tw_view_centre (hand, ends, fan->ring_mm / 2, &style);
}

void
tw_view_draw_fan (const TwViewHand *hand, const TwPlacedSolid *solid)
{
  const TwPlacedFan *fan = tw_placement_fan (hand->source->placement, solid->part);
  const TwPlacedCore *core = tw_placement_core (hand->source->placement, fan->core);
  TwInkStyle edge = tw_view_style (hand, TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, TW_VIEW_LAYER_FAN, fan->id);
  TwInkStyle thin = tw_view_style (hand, TW_INK_PEN_THIN, TW_INK_TINT_SOFT, TW_VIEW_LAYER_FAN, fan->id);
  TwVec ring[]
      = { fan_point (core, fan, 0, 0, fan->mounting_w_mm), fan_point (core, fan, 0, 0, fan->back_w_mm) };

  if (fan->depth_mm > 0)
    tw_view_cylinder (hand, ring, fan->ring_mm / 2, &edge, TRUE);
  if (fabs (tw_view_away (hand, core->frame.w)) > FACING)
    draw_facing (hand, fan, &edge, &thin);
  else if (fan->depth_mm > 0 && fan->hub_mm > 0)
    tw_view_cylinder (hand, ring, fan->hub_mm / 2, &thin, FALSE);
  draw_centre (hand, fan, thin.layer);
}

/* --- behind a face ----------------------------------------------------------------------------------------
 */

void
tw_view_draw_hidden_airway (const TwViewHand *hand)
{
  guint n_shrouds, n_fans;
  const TwPlacedShroud *shrouds = tw_placement_shrouds (hand->source->placement, &n_shrouds);
  const TwPlacedFan *fans = tw_placement_fans (hand->source->placement, &n_fans);

  for (guint i = 0; i < n_shrouds; i++) {
    const TwPlacedCore *core = tw_placement_core (hand->source->placement, shrouds[i].core);
    TwInkStyle style = { TW_INK_PEN_BEHIND, TW_INK_TINT_SOFT, TW_VIEW_LAYER_HIDDEN, shrouds[i].id };

    if (shrouds[i].is_before || tw_view_away (hand, core->frame.w) < FACING)
      continue;
    draw_rectangle (hand, core, &shrouds[i].mouth, shrouds[i].mouth_w_mm, &style);
    if (shrouds[i].is_tapered)
      draw_rectangle (hand, core, &shrouds[i].fan_wall, shrouds[i].fans_w_mm, &style);
    draw_flaps (hand, &shrouds[i], &style);
  }
  for (guint i = 0; i < n_fans; i++) {
    const TwPlacedCore *core = tw_placement_core (hand->source->placement, fans[i].core);
    TwInkStyle style = { TW_INK_PEN_BEHIND, TW_INK_TINT_SOFT, TW_VIEW_LAYER_HIDDEN, fans[i].id };
    TwInkStyle blades = { TW_INK_PEN_THIN, TW_INK_TINT_FAINT, TW_VIEW_LAYER_HIDDEN, fans[i].id };

    if (fans[i].is_pusher || tw_view_away (hand, core->frame.w) < FACING)
      continue;
    draw_facing (hand, &fans[i], &style, &blades);
    draw_centre (hand, &fans[i], TW_VIEW_LAYER_HIDDEN);
  }
}
