/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * picture-tanks.c - header plates, tanks, baffles and ports of a core in the picture of its passes
 */
#include "draw/picture-tubes-private.h"

#include <math.h>

/* Across from the header plate to @out_px beyond it, on either side of the core. */
static double
out_of_header (const TwPictureCore *core, TwHeader header, double out_px)
{
  return header == TW_HEADER_FIRST ? -out_px : tw_picture_bench_across_px (&core->bench) + out_px;
}

static gboolean
header_of (const TwPictureCore *core, TwId tank, TwHeader *header)
{
  const TwPart *part = tw_drawing_find (tw_answer_drawing (core->hand->answer), tank);

  return part != NULL && part->kind == TW_KIND_TANK
         && tw_tube_header (&core->bench.grid, (const TwTank *)part, header);
}

static void
draw_tank (const TwPictureCore *core, const TwPlacedTank *tank)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, tank->id);
  TwHeader header;
  double along_px[2];
  TwBox box;

  if (!header_of (core, tank->id, &header))
    return;
  along_px[0] = tw_picture_bench_along_px (&core->bench, tank->start_mm);
  along_px[1] = tw_picture_bench_along_px (&core->bench, tank->end_mm);
  box = tw_picture_bench_box (
      &core->bench, along_px,
      (double[]){ out_of_header (core, header, 0), out_of_header (core, header, core->tank_px) });
  if (box.x1_mm - box.x0_mm < 1 || box.y1_mm - box.y0_mm < 1)
    return;
  tw_picture_tone (core->hand, &box, &style, 0);
  tw_ink_box (core->hand->ink, &style, &box);
}

static void
draw_baffle (const TwPictureCore *core, const TwPlacedBaffle *baffle)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, baffle->id);
  gboolean level = core->bench.grid.level;
  double from_px, to_px;
  TwHeader header;

  if (!header_of (core, baffle->tank, &header))
    return;
  from_px = tw_picture_bench_along_px (&core->bench, level ? baffle->from.y : baffle->from.x);
  to_px = tw_picture_bench_along_px (&core->bench, level ? baffle->to.y : baffle->to.x);
  if (baffle->runs_along) {
    double across_px = out_of_header (core, header, core->tank_px / 2);

    if (fabs (to_px - from_px) > 1)
      tw_ink_line (core->hand->ink, &style, tw_picture_bench_point (&core->bench, from_px, across_px),
                   tw_picture_bench_point (&core->bench, to_px, across_px));
    return;
  }
  from_px = (from_px + to_px) / 2;
  tw_ink_line (core->hand->ink, &style,
               tw_picture_bench_point (&core->bench, from_px, out_of_header (core, header, 0)),
               tw_picture_bench_point (&core->bench, from_px, out_of_header (core, header, core->tank_px)));
}

/* --- ports ------------------------------------------------------------------------------------------------
 */

/* Where a port is seen: on the tank's outer edge, in its middle, or on one of its ends. */
static TwPoint
port_point (const TwPictureCore *core, const TwPlacedPort *port, TwHeader header)
{
  gboolean level = core->bench.grid.level;
  double along_px = tw_picture_bench_along_px (&core->bench, level ? port->at_core.y : port->at_core.x);
  gboolean in_middle = port->wall != TW_WALL_BACK; /* across the tank */

  return tw_picture_bench_point (&core->bench, along_px,
                                 out_of_header (core, header, in_middle ? core->tank_px / 2 : core->tank_px));
}

static gboolean
is_on_end (const TwPlacedPort *port)
{
  return port->wall == TW_WALL_START || port->wall == TW_WALL_END;
}

/* From outside of the tank to the edge of the port's ring. */
static void
port_way (const TwPictureCore *core, const TwPlacedPort *port, TwHeader header, TwPoint ends[2])
{
  double along_mm = core->bench.grid.level ? port->at_core.y : port->at_core.x;
  double along_px = tw_picture_bench_along_px (&core->bench, along_mm);
  double sign
      = along_mm / core->bench.grid.step_mm > core->bench.grid.first_mm / core->bench.grid.step_mm ? 1 : -1;
  double ring_px = TW_PICTURE_PORT_PX + 1, middle_px = out_of_header (core, header, core->tank_px / 2);

  if (is_on_end (port)) {
    ends[0] = tw_picture_bench_point (&core->bench, along_px + sign * core->way_px, middle_px);
    ends[1] = tw_picture_bench_point (&core->bench, along_px + sign * ring_px, middle_px);
    return;
  }
  if (port->wall != TW_WALL_BACK)
    ring_px -= core->tank_px / 2;
  ends[0] = tw_picture_bench_point (&core->bench, along_px,
                                    out_of_header (core, header, core->tank_px + core->way_px));
  ends[1] = tw_picture_bench_point (&core->bench, along_px,
                                    out_of_header (core, header, core->tank_px + ring_px));
}

static void
draw_port_way (const TwPictureCore *core, const TwPlacedPort *port, TwHeader header, gboolean is_inlet)
{
  TwInkStyle style
      = tw_picture_style (TW_INK_PEN_WATER, is_inlet ? TW_INK_TINT_HOT : TW_INK_TINT_COOL, port->id);
  TwPoint ends[2], from, to;
  double angle_rad;

  port_way (core, port, header, ends);
  from = ends[is_inlet ? 0 : 1];
  to = ends[is_inlet ? 1 : 0];
  angle_rad = atan2 (to.y_mm - from.y_mm, to.x_mm - from.x_mm);
  tw_ink_line (core->hand->ink, &style, from,
               (TwPoint){ to.x_mm - TW_PICTURE_HEAD_PX * cos (angle_rad),
                          to.y_mm - TW_PICTURE_HEAD_PX * sin (angle_rad) });
  tw_ink_arrow (core->hand->ink, &style, to, angle_rad);
}

static void
draw_port (const TwPictureCore *core, const TwPlacedPort *port)
{
  const TwPort *drawn = (const TwPort *)tw_drawing_find (tw_answer_drawing (core->hand->answer), port->id);
  gboolean carries = drawn->use == TW_PORT_INLET || drawn->use == TW_PORT_OUTLET;
  TwInkStyle style
      = tw_picture_style (TW_INK_PEN_OUTLINE, carries ? TW_INK_TINT_INK : TW_INK_TINT_SOFT, port->id);
  TwInkCorner corners[2];
  TwHeader header;
  TwPoint at;

  if (!header_of (core, port->tank, &header))
    return;
  at = port_point (core, port, header);
  tw_ink_circle_corners (at, TW_PICTURE_PORT_PX, corners);
  style.tint = TW_INK_TINT_PAPER;
  tw_ink_fill (core->hand->ink, &style, corners, G_N_ELEMENTS (corners));
  style.tint = carries ? TW_INK_TINT_INK : TW_INK_TINT_SOFT;
  tw_ink_circle (core->hand->ink, &style, at, TW_PICTURE_PORT_PX);
  if (carries)
    draw_port_way (core, port, header, drawn->use == TW_PORT_INLET);
}

static void
draw_header_plates (const TwPictureCore *core)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_THIN, TW_INK_TINT_INK, core->bench.core);
  const TwPictureStretch *last
      = &g_array_index (core->bench.stretches, TwPictureStretch, core->bench.stretches->len - 1);

  for (TwHeader header = 0; header < TW_N_HEADERS; header++)
    tw_ink_line (core->hand->ink, &style,
                 tw_picture_bench_point (&core->bench, 0, out_of_header (core, header, 0)),
                 tw_picture_bench_point (&core->bench, last->to_px, out_of_header (core, header, 0)));
}

/* Whether water comes or goes through the end of a tank. */
gboolean
tw_picture_has_end_ways (const TwPictureCore *core)
{
  const TwDrawing *drawing = tw_answer_drawing (core->hand->answer);
  guint n;
  const TwPlacedPort *ports = tw_placement_ports (tw_answer_placement (core->hand->answer), &n);

  for (guint i = 0; i < n; i++) {
    int use = ((const TwPort *)tw_drawing_find (drawing, ports[i].id))->use;

    if (tw_id_equal (ports[i].core, core->bench.core) && is_on_end (&ports[i])
        && (use == TW_PORT_INLET || use == TW_PORT_OUTLET))
      return TRUE;
  }
  return FALSE;
}

void
tw_picture_draw_tanks (const TwPictureCore *core)
{
  const TwPlacement *placement = tw_answer_placement (core->hand->answer);
  guint n_tanks, n_baffles, n_ports;
  const TwPlacedTank *tanks = tw_placement_tanks (placement, &n_tanks);
  const TwPlacedBaffle *baffles = tw_placement_baffles (placement, &n_baffles);
  const TwPlacedPort *ports = tw_placement_ports (placement, &n_ports);

  draw_header_plates (core);
  for (guint i = 0; i < n_tanks; i++)
    if (tw_id_equal (tanks[i].core, core->bench.core))
      draw_tank (core, &tanks[i]);
  for (guint i = 0; i < n_baffles; i++)
    if (tw_id_equal (baffles[i].core, core->bench.core))
      draw_baffle (core, &baffles[i]);
  for (guint i = 0; i < n_ports; i++)
    if (tw_id_equal (ports[i].core, core->bench.core))
      draw_port (core, &ports[i]);
}
