/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * views-port.c - ports of tanks and of the engine
 */
#include "draw/views-private.h"

#include <math.h>

/* A port whose axis goes away from the eye by more than this is hidden by its tank; dimensionless. */
#define AWAY 0.7

/* Arrow at an inlet or outlet: length and distance from the stub, in heights of a note, dimensionless. */
#define WAY_LENGTH 2.6
#define WAY_GAP 0.5

/* Radius of the stub or boss; of the bore if that is all that is known. */
static double
radius_of (const TwPlacedPort *port)
{
  if (!isnan (port->boss_mm))
    return port->boss_mm / 2;
  if (!isnan (port->outside_mm))
    return port->outside_mm / 2;
  return isnan (port->bore_mm) ? 0 : port->bore_mm / 2;
}

static void
draw_stub (const TwViewHand *hand, const TwPlacedPort *port, const TwInkStyle *style, gboolean covers)
{
  TwVec ends[] = { port->at, port->tip };
  double radius_mm = radius_of (port);
  TwInkStyle bore = *style;

  if (radius_mm <= 0)
    return;
  if (port->stand_out_mm > 0)
    tw_view_cylinder (hand, ends, radius_mm, style, covers);
  else
    tw_view_circle (hand, port->at, port->axis, radius_mm, style);
  if (style->pen != TW_INK_PEN_BEHIND)
    bore.pen = TW_INK_PEN_THIN;
  if (port->bore_mm > 0 && port->bore_mm < 2 * radius_mm && tw_view_away (hand, port->axis) < -0.2)
    tw_view_circle (hand, port->tip, port->axis, port->bore_mm / 2, &bore);
}

void
tw_view_draw_port (const TwViewHand *hand, const TwPlacedSolid *solid)
{
  const TwPlacedPort *port = tw_placement_port (hand->source->placement, solid->part);
  TwInkStyle style
      = tw_view_style (hand, TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, TW_VIEW_LAYER_PORT, solid->part);
  TwInkStyle centre
      = tw_view_style (hand, TW_INK_PEN_CENTRE, TW_INK_TINT_SOFT, TW_VIEW_LAYER_PORT, solid->part);
  TwVec ends[] = { port->at, port->tip };

  draw_stub (hand, port, &style, TRUE);
  tw_view_centre (hand, ends, radius_of (port), &centre);
}

void
tw_view_draw_engine_port (const TwViewHand *hand, const TwPlacedSolid *solid)
{
  const TwPlacedEnginePort *port = tw_placement_engine_port (hand->source->placement, solid->part);
  const TwPart *part = tw_drawing_find (tw_placement_drawing (hand->source->placement), solid->part);
  TwInkStyle style
      = tw_view_style (hand, TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, TW_VIEW_LAYER_ENGINE, solid->part);
  TwInkStyle centre
      = tw_view_style (hand, TW_INK_PEN_CENTRE, TW_INK_TINT_SOFT, TW_VIEW_LAYER_ENGINE, solid->part);
  TwVec ends[] = { port->at, port->tip };
  double radius_mm = isnan (port->outside_mm) ? 0 : port->outside_mm / 2;

  if (radius_mm > 0 && port->has_axis && port->stand_out_mm > 0)
    tw_view_cylinder (hand, ends, radius_mm, &style, TRUE);
  tw_view_centre (hand, ends, radius_mm, &centre);
  tw_view_label (hand, TW_VIEW_LABEL_ENGINE, solid->part, tw_view_point (hand, port->at), radius_mm,
                 g_strdup (tw_part_name (part)));
}

/* Behind the core or what stands on it, and so much farther that it would only confuse. */
static gboolean
is_out_of_sight (const TwViewHand *hand, const TwPlacedPort *port)
{
  return tw_view_depth_mm (hand, port->at) > hand->nearest_mm + TW_VIEW_BESIDE_MM
         && tw_view_is_covered (hand, port->tip);
}

void
tw_view_draw_hidden_ports (const TwViewHand *hand)
{
  guint n;
  const TwPlacedPort *ports = tw_placement_ports (hand->source->placement, &n);

  for (guint i = 0; i < n; i++) {
    TwInkStyle style = { TW_INK_PEN_BEHIND, TW_INK_TINT_SOFT, TW_VIEW_LAYER_HIDDEN, ports[i].id };
    gboolean away = tw_view_away (hand, ports[i].axis) > AWAY;

    if (is_out_of_sight (hand, &ports[i]))
      continue;
    if (away)
      draw_stub (hand, &ports[i], &style, FALSE);
    tw_view_label (hand, TW_VIEW_LABEL_PORT, ports[i].id, tw_view_point (hand, ports[i].tip),
                   radius_of (&ports[i]),
                   tw_view_port_letter (tw_placement_drawing (hand->source->placement), ports[i].id));
  }
}

/* --- ways -------------------------------------------------------------------------------------------------
 */

/* Into the page: a cross in the bore; out of it: a dot. */
static void
draw_end_on (const TwViewHand *hand, const TwPlacedPort *port, const TwInkStyle *style, gboolean to_eye)
{
  TwPoint at = tw_view_point (hand, port->tip);
  double half_mm = 0.7 * MAX (port->bore_mm / 2, 0) * sqrt (0.5);

  if (to_eye) {
    tw_ink_dot (hand->ink, style, at);
    tw_ink_ring (hand->ink, style, at, 0.45);
    return;
  }
  tw_ink_line (hand->ink, style, (TwPoint){ at.x_mm - half_mm, at.y_mm - half_mm },
               (TwPoint){ at.x_mm + half_mm, at.y_mm + half_mm });
  tw_ink_line (hand->ink, style, (TwPoint){ at.x_mm - half_mm, at.y_mm + half_mm },
               (TwPoint){ at.x_mm + half_mm, at.y_mm - half_mm });
}

static TwPoint
along (TwPoint from, double angle_rad, double by_mm)
{
  return (TwPoint){ from.x_mm + by_mm * cos (angle_rad), from.y_mm + by_mm * sin (angle_rad) };
}

static void
draw_way (const TwViewHand *hand, const TwPlacedPort *port, gboolean inlet)
{
  TwInkStyle style
      = { TW_INK_PEN_WATER, inlet ? TW_INK_TINT_HOT : TW_INK_TINT_COOL, TW_VIEW_LAYER_WAY, port->id };
  double note_mm = tw_view_paper_mm (hand, hand->manner->look->heights[TW_INK_SIZE_NOTE]);
  TwPoint tip = tw_view_point (hand, port->tip), near, far;
  double angle_rad;

  if (!tw_view_angle (hand, port->axis, &angle_rad)) {
    if (!isnan (port->bore_mm))
      draw_end_on (hand, port, &style, inlet == (tw_view_away (hand, port->axis) > 0));
    near = far = tip;
  } else {
    near = along (tip, angle_rad, WAY_GAP * note_mm);
    far = along (tip, angle_rad, (WAY_GAP + WAY_LENGTH) * note_mm);
    tw_ink_line (hand->ink, &style, near, far);
    tw_ink_arrow (hand->ink, &style, inlet ? near : far, inlet ? angle_rad + G_PI : angle_rad);
  }
  tw_view_label (hand, TW_VIEW_LABEL_END, port->id, far, MAX (radius_of (port), note_mm / 2),
                 g_strdup (tw_view_words (hand, inlet ? N_ ("hot, in") : N_ ("cool, out"))))
      ->tint
      = style.tint;
}

void
tw_view_draw_port_ways (const TwViewHand *hand)
{
  guint n;
  const TwPlacedPort *ports = tw_placement_ports (hand->source->placement, &n);

  for (guint i = 0; i < n; i++) {
    const TwPort *port
        = (const TwPort *)tw_drawing_find (tw_placement_drawing (hand->source->placement), ports[i].id);

    if ((port->use == TW_PORT_INLET || port->use == TW_PORT_OUTLET) && !is_out_of_sight (hand, &ports[i]))
      draw_way (hand, &ports[i], port->use == TW_PORT_INLET);
  }
}
