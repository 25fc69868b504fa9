/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/canvas-private.h"

#include "app/compat.h"

#include <math.h>

#define HALO_PX 5.0
#define TICK_PX 9.0 /* arms of the corner marks round the chosen part */
#define AWAY_PX 7.0 /* from the part's box to the marks */
#define LABEL_AWAY_PX 16.0
#define LABEL_PAD_PX 5.0

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
draw_halo (TwCanvas *self, cairo_t *cr, TwId part, const GdkRGBA *accent)
{
  gboolean closed;
  GArray *points;

  cairo_new_path (cr);
  for (guint i = 0; (points = tw_pick_outline (self->pick, part, i, &closed)) != NULL; i++) {
    add_outline (self, cr, points, closed);
    g_array_unref (points);
  }
  cairo_set_source_rgba (cr, (double)accent->red, (double)accent->green, (double)accent->blue, 0.4);
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

static void
draw_chosen (TwCanvas *self, GtkSnapshot *snapshot)
{
  TwId part = tw_session_selection (self->session);
  const TwPickShape *shape = tw_pick_find (self->pick, part);
  graphene_rect_t box, bounds, all;
  GdkRGBA accent;
  cairo_t *cr;

  if (shape == NULL || tw_box_is_empty (shape->box))
    return;
  tw_compat_accent (GTK_WIDGET (self), &accent);
  box = marks_box (self, shape);
  bounds = box;
  graphene_rect_inset (&bounds, -4.0F, -4.0F);
  all = GRAPHENE_RECT_INIT (0.0F, 0.0F, (float)gtk_widget_get_width (GTK_WIDGET (self)),
                            (float)gtk_widget_get_height (GTK_WIDGET (self)));
  if (!graphene_rect_intersection (&bounds, &all, &bounds))
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  draw_halo (self, cr, part, &accent);
  draw_ticks (cr, &box, &accent);
  cairo_destroy (cr);
}

/* What the drag snapped to, beside the pointer. */
static void
draw_snap (TwCanvas *self, const TwLook *look, GtkSnapshot *snapshot)
{
  g_autofree char *text = tw_canvas_snap_text (self);
  g_autoptr (PangoLayout) layout = NULL;
  double rgb[3], paper[3], x, y;
  int width, height;
  GdkRGBA ink, ground;

  if (text == NULL)
    return;
  layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), text);
  pango_layout_get_pixel_size (layout, &width, &height);
  x = self->pointer.x_px + LABEL_AWAY_PX;
  y = self->pointer.y_px - LABEL_AWAY_PX - height;
  if (x + width + LABEL_PAD_PX > gtk_widget_get_width (GTK_WIDGET (self)))
    x = self->pointer.x_px - LABEL_AWAY_PX - width;
  y = MAX (y, LABEL_PAD_PX);
  tw_look_colour (look, TW_INK_TINT_MEASURE, 1.0, rgb);
  tw_look_colour (look, TW_INK_TINT_PAPER, 1.0, paper);
  ink = (GdkRGBA){ (float)rgb[0], (float)rgb[1], (float)rgb[2], 1.0F };
  ground = (GdkRGBA){ (float)paper[0], (float)paper[1], (float)paper[2], 0.9F };
  gtk_snapshot_append_color (snapshot, &ground,
                             &GRAPHENE_RECT_INIT ((float)(x - LABEL_PAD_PX), (float)(y - 1.0),
                                                  (float)(width + 2.0 * LABEL_PAD_PX), (float)height + 2.0F));
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float)x, (float)y));
  gtk_snapshot_append_layout (snapshot, layout, &ink);
  gtk_snapshot_restore (snapshot);
}

void
tw_canvas_snapshot_marks (TwCanvas *self, const TwLook *look, GtkSnapshot *snapshot)
{
  draw_chosen (self, snapshot);
  draw_snap (self, look, snapshot);
}
