/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Distance: two places are chosen by clicks, or by arrow keys and Enter; the line between them stays until
 * the next one is begun or Escape ends it.
 */
#include "app/canvas-private.h"

#include <glib/gi18n-lib.h>

#define STEP_PX 8.0 /* an arrow key; 1 with Shift */
#define DOT_PX 3.0
#define PAD_PX 4.0
#define AWAY_PX 14.0

gboolean
tw_canvas_is_measuring (TwCanvas *self)
{
  return self->is_measuring;
}

void
tw_canvas_set_measuring (TwCanvas *self, gboolean measures)
{
  if (self->is_measuring == measures)
    return;
  self->is_measuring = measures;
  self->span = tw_span ();
  if (measures)
    gtk_widget_grab_focus (GTK_WIDGET (self));
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), measures ? "crosshair" : NULL);
  tw_canvas_update_status (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* A corner that is near, else where the pointer is. */
static TwPoint
meant (TwCanvas *self)
{
  TwPoint at = tw_lens_to_view (tw_canvas_lens (self), self->pointer);

  if (self->pick == NULL)
    return at;
  return tw_span_corner_near (self->pick, at, TW_CANVAS_REACH_PX / tw_canvas_lens (self)->px_mm);
}

void
tw_canvas_choose_place (TwCanvas *self)
{
  tw_span_choose (&self->span, meant (self));
  tw_canvas_update_status (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
tw_canvas_follow_place (TwCanvas *self)
{
  tw_span_follow (&self->span, meant (self));
  tw_canvas_update_status (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static gboolean
step (TwCanvas *self, int right, int up, GdkModifierType state)
{
  double by_px = (state & GDK_SHIFT_MASK) != 0 ? 1.0 : STEP_PX;
  const TwLens *lens = tw_canvas_lens (self);

  if (!self->has_pointer)
    self->pointer = (TwPixel){ lens->width_px / 2.0, lens->height_px / 2.0 };
  self->has_pointer = TRUE;
  self->pointer.x_px = CLAMP (self->pointer.x_px + right * by_px, 0.0, lens->width_px);
  self->pointer.y_px = CLAMP (self->pointer.y_px - up * by_px, 0.0, lens->height_px);
  tw_canvas_follow_place (self);
  return GDK_EVENT_STOP;
}

gboolean
tw_canvas_measure_key (TwCanvas *self, guint keyval, GdkModifierType state)
{
  switch (keyval) {
  case GDK_KEY_Left:
    return step (self, -1, 0, state);
  case GDK_KEY_Right:
    return step (self, 1, 0, state);
  case GDK_KEY_Up:
    return step (self, 0, 1, state);
  case GDK_KEY_Down:
    return step (self, 0, -1, state);
  case GDK_KEY_Return:
  case GDK_KEY_KP_Enter:
    tw_canvas_choose_place (self);
    return GDK_EVENT_STOP;
  case GDK_KEY_Escape:
    tw_canvas_set_measuring (self, FALSE);
    return GDK_EVENT_STOP;
  default:
    return GDK_EVENT_PROPAGATE;
  }
}

static char *
length_text (TwCanvas *self, double length_mm)
{
  TwUnitStyle style = tw_session_style (self->session);

  style.finest = 32;
  return tw_units_format (TW_QUANTITY_LENGTH, &style, length_mm, style.inches ? -1 : 1);
}

char *
tw_canvas_distance_text (TwCanvas *self)
{
  g_autofree char *length = length_text (self, tw_span_length_mm (&self->span));
  g_autofree char *across = length_text (self, tw_span_across_mm (&self->span));
  g_autofree char *up = length_text (self, tw_span_up_mm (&self->span));

  if (self->span.n == 0)
    return g_strdup (_ ("Distance: choose the first place"));
  /* Translators: the straight distance between two places, and its shares */
  return g_strdup_printf (_ ("Distance %s: across %s, up %s"), length, across, up);
}

/* --- drawing -------------------------------------------------------------------------------------------- */

static GdkRGBA
colour (const TwLook *look, TwInkTint tint)
{
  double rgb[3];

  tw_look_colour (look, tint, 1.0, rgb);
  return (GdkRGBA){ (float)rgb[0], (float)rgb[1], (float)rgb[2], 1.0F };
}

static void
draw_dot (cairo_t *cr, graphene_point_t at)
{
  cairo_new_sub_path (cr);
  cairo_arc (cr, (double)at.x, (double)at.y, DOT_PX, 0.0, 2.0 * G_PI);
  cairo_fill (cr);
}

/* The two ends, the straight line, and dashed its shares across and up. */
static void
draw_lines (cairo_t *cr, graphene_point_t from, graphene_point_t to)
{
  const double dashes[2] = { 5.0, 4.0 };

  cairo_move_to (cr, (double)from.x, (double)from.y);
  cairo_line_to (cr, (double)to.x, (double)to.y);
  cairo_set_line_width (cr, 1.6);
  cairo_stroke (cr);
  cairo_move_to (cr, (double)from.x, (double)from.y);
  cairo_line_to (cr, (double)to.x, (double)from.y);
  cairo_line_to (cr, (double)to.x, (double)to.y);
  cairo_set_line_width (cr, 1.0);
  cairo_set_dash (cr, dashes, 2, 0.0);
  cairo_stroke (cr);
  draw_dot (cr, from);
  draw_dot (cr, to);
}

/* Beside the second end, on a ground of paper, whole on the canvas. */
static void
write_length (TwCanvas *self, const TwLook *look, GtkSnapshot *snapshot, graphene_point_t at)
{
  g_autofree char *text = length_text (self, tw_span_length_mm (&self->span));
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), text);
  GdkRGBA ink = colour (look, TW_INK_TINT_MEASURE), paper = colour (look, TW_INK_TINT_PAPER);
  int width, height, far_x, far_y;
  float x, y;

  pango_layout_get_pixel_size (layout, &width, &height);
  far_x = MAX (gtk_widget_get_width (GTK_WIDGET (self)) - width - (int)(2.0 * PAD_PX), (int)PAD_PX);
  far_y = MAX (gtk_widget_get_height (GTK_WIDGET (self)) - height - (int)PAD_PX, (int)PAD_PX);
  x = CLAMP (at.x + (float)AWAY_PX, (float)PAD_PX, (float)far_x);
  y = CLAMP (at.y - (float)AWAY_PX - (float)height, (float)PAD_PX, (float)far_y);
  gtk_snapshot_append_color (snapshot, &paper,
                             &GRAPHENE_RECT_INIT (x - (float)PAD_PX, y - 1.0F,
                                                  (float)width + 2.0F * (float)PAD_PX, (float)height + 2.0F));
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT (x, y));
  gtk_snapshot_append_layout (snapshot, layout, &ink);
  gtk_snapshot_restore (snapshot);
}

void
tw_canvas_snapshot_distance (TwCanvas *self, const TwLook *look, GtkSnapshot *snapshot)
{
  graphene_point_t from, to;
  graphene_rect_t bounds;
  GdkRGBA ink = colour (look, TW_INK_TINT_MEASURE);
  cairo_t *cr;

  if (!self->is_measuring || self->span.n == 0)
    return;
  from = tw_canvas_place_of (self, self->span.ends[0]);
  to = tw_canvas_place_of (self, self->span.ends[1]);
  graphene_rect_init (&bounds, MIN (from.x, to.x), MIN (from.y, to.y), ABS (to.x - from.x),
                      ABS (to.y - from.y));
  graphene_rect_inset (&bounds, -6.0F, -6.0F);
  graphene_rect_round_extents (&bounds, &bounds);
  cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  gdk_cairo_set_source_rgba (cr, &ink);
  draw_lines (cr, from, to);
  cairo_destroy (cr);
  write_length (self, look, snapshot, to);
}
