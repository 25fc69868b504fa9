/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/canvas-private.h"

#include "app/compat.h"

#include <math.h>

#define HALO_PX 5.0
#define TICK_PX 9.0 /* arms of the corner marks round the chosen part */
#define AWAY_PX 7.0 /* from the part's box to the marks */

static void
add_outline (TwCanvas *self, cairo_t *cr, const GArray *points, gboolean closed)
{
  for (guint i = 0; i < points->len; i++) {
    graphene_point_t at = tw_canvas_place_of (self, g_array_index (points, TwPoint, i));

    if (i == 0)
      cairo_move_to (cr, (double)at.x, (double)at.y);
    else
      cairo_line_to (cr, (double)at.x, (double)at.y);
  }
  if (closed)
    cairo_close_path (cr);
}

static void
draw_halo (TwCanvas *self, cairo_t *cr, TwId part, const GdkRGBA *accent, double alpha)
{
  gboolean closed;
  GArray *points;

  cairo_new_path (cr);
  for (guint i = 0; (points = tw_pick_outline (self->pick, part, i, &closed)) != NULL; i++) {
    add_outline (self, cr, points, closed);
    g_array_unref (points);
  }
  cairo_set_source_rgba (cr, (double)accent->red, (double)accent->green, (double)accent->blue, alpha);
  cairo_set_line_width (cr, HALO_PX);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_stroke (cr);
}

/* Four corners round the part: seen without colour too. */
static void
draw_ticks (cairo_t *cr, const graphene_rect_t *box, const GdkRGBA *accent)
{
  for (int i = 0; i < 4; i++) {
    double right = i & 1, low = (i >> 1) & 1;
    double x = floor ((double)box->origin.x + right * (double)box->size.width) + 0.5;
    double y = floor ((double)box->origin.y + low * (double)box->size.height) + 0.5;

    cairo_move_to (cr, x + (right > 0.0 ? -TICK_PX : TICK_PX), y);
    cairo_line_to (cr, x, y);
    cairo_line_to (cr, x, y + (low > 0.0 ? -TICK_PX : TICK_PX));
  }
  cairo_set_source_rgb (cr, (double)accent->red, (double)accent->green, (double)accent->blue);
  cairo_set_line_width (cr, 2.0);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  cairo_stroke (cr);
}

static graphene_rect_t
marks_box (TwCanvas *self, const TwPickShape *shape)
{
  graphene_point_t low = tw_canvas_place_of (self, (TwPoint){ shape->box.x0_mm, shape->box.y1_mm });
  graphene_point_t high = tw_canvas_place_of (self, (TwPoint){ shape->box.x1_mm, shape->box.y0_mm });
  graphene_rect_t box = GRAPHENE_RECT_INIT (low.x, low.y, high.x - low.x, high.y - low.y);

  return *graphene_rect_inset (&box, (float)-AWAY_PX, (float)-AWAY_PX);
}

static graphene_rect_t
whole (TwCanvas *self)
{
  return GRAPHENE_RECT_INIT (0.0F, 0.0F, (float)gtk_widget_get_width (GTK_WIDGET (self)),
                             (float)gtk_widget_get_height (GTK_WIDGET (self)));
}

static void
draw_chosen_part (TwCanvas *self, GtkSnapshot *snapshot, TwId part, const GdkRGBA *accent)
{
  const TwPickShape *shape = tw_pick_find (self->pick, part);
  graphene_rect_t box, bounds, all = whole (self);
  cairo_t *cr;

  if (shape == NULL || tw_box_is_empty (shape->box))
    return;
  box = marks_box (self, shape);
  bounds = box;
  graphene_rect_inset (&bounds, -4.0F, -4.0F);
  if (!graphene_rect_intersection (&bounds, &all, &bounds))
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  draw_halo (self, cr, part, accent, 0.4);
  draw_ticks (cr, &box, accent);
  cairo_destroy (cr);
}

static void
draw_chosen (TwCanvas *self, GtkSnapshot *snapshot, const GdkRGBA *accent)
{
  guint n;
  const TwId *chosen = tw_session_chosen (self->session, &n);

  for (guint i = 0; i < n; i++)
    draw_chosen_part (self, snapshot, chosen[i], accent);
}

/* What a press would take: a faint halo. */
static void
draw_hovered (TwCanvas *self, GtkSnapshot *snapshot, const GdkRGBA *accent)
{
  const TwPickShape *shape = tw_id_is_none (self->hovered) ? NULL : tw_pick_find (self->pick, self->hovered);
  graphene_rect_t bounds, all = whole (self);
  cairo_t *cr;

  if (shape == NULL || tw_box_is_empty (shape->box) || tw_session_is_chosen (self->session, self->hovered)
      || tw_hand_is_holding (self->hand))
    return;
  bounds = marks_box (self, shape);
  if (!graphene_rect_intersection (&bounds, &all, &bounds))
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  draw_halo (self, cr, self->hovered, accent, 0.22);
  cairo_destroy (cr);
}

static void
draw_handles (TwCanvas *self, const TwLook *look, GtkSnapshot *snapshot, const GdkRGBA *accent)
{
  graphene_rect_t all = whole (self);
  GdkRGBA paper;
  double rgb[3];
  cairo_t *cr;

  if (self->grips == NULL || tw_grips_count (self->grips) < 2 || tw_hand_is_holding (self->hand))
    return;
  tw_look_colour (look, TW_INK_TINT_PAPER, 1.0, rgb);
  paper = (GdkRGBA){ (float)rgb[0], (float)rgb[1], (float)rgb[2], 1.0F };
  cr = gtk_snapshot_append_cairo (snapshot, &all);
  tw_canvas_draw_handles (self, cr, accent, &paper);
  cairo_destroy (cr);
}

static void
draw_box (TwCanvas *self, GtkSnapshot *snapshot, const GdkRGBA *accent)
{
  GdkRGBA fill = *accent;
  float x = (float)MIN (self->pressed.x_px, self->pointer.x_px);
  float y = (float)MIN (self->pressed.y_px, self->pointer.y_px);
  float width = (float)fabs (self->pressed.x_px - self->pointer.x_px);
  float height = (float)fabs (self->pressed.y_px - self->pointer.y_px);
  GskRoundedRect outline;

  if (!self->is_boxing || width < 1.0F || height < 1.0F)
    return;
  fill.alpha = 0.12F;
  gtk_snapshot_append_color (snapshot, &fill, &GRAPHENE_RECT_INIT (x, y, width, height));
  gsk_rounded_rect_init_from_rect (&outline, &GRAPHENE_RECT_INIT (x, y, width, height), 0.0F);
  gtk_snapshot_append_border (snapshot, &outline, (float[4]){ 1.0F, 1.0F, 1.0F, 1.0F },
                              (GdkRGBA[4]){ *accent, *accent, *accent, *accent });
}

void
tw_canvas_snapshot_marks (TwCanvas *self, const TwLook *look, GtkSnapshot *snapshot)
{
  GdkRGBA accent;

  tw_compat_accent (GTK_WIDGET (self), &accent);
  draw_hovered (self, snapshot, &accent);
  draw_chosen (self, snapshot, &accent);
  tw_canvas_snapshot_gauges (self, look, snapshot);
  draw_handles (self, look, snapshot, &accent);
  draw_box (self, snapshot, &accent);
  tw_canvas_snapshot_distance (self, look, snapshot);
}
