/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/ruler.h"

#include "app/compat.h"
#include "stage/graduation.h"

#include <adwaita.h>
#include <math.h>

#define FIGURE_PX 56.0 /* figures stand at least so far apart */
#define TICK_PX 5.0
#define SHORT_PX 4.0 /* tick */
#define LONG_PX 8.0  /* tick of a figure */
#define PAD_PX 2.0
#define POINTER_PX 5.0 /* half the base of its mark */
#define REACH_PX 3.0   /* thickness of the bar of what is chosen */

struct _TwRuler {
  GtkWidget parent_instance;

  GtkOrientation orientation;
  TwSession *session;
  TwCanvas *canvas;
};

enum { PROP_0, PROP_ORIENTATION };

G_DEFINE_FINAL_TYPE_WITH_CODE (TwRuler,
                               tw_ruler,
                               GTK_TYPE_WIDGET,
                               G_IMPLEMENT_INTERFACE (GTK_TYPE_ORIENTABLE, NULL))

static gboolean
is_upright (const TwRuler *self)
{
  return self->orientation == GTK_ORIENTATION_VERTICAL;
}

/* Where a figure of the view stands along the ruler. */
static double
place_px (const TwRuler *self, double value_mm)
{
  graphene_point_t at = tw_canvas_place_of (self->canvas, (TwPoint){ value_mm, value_mm });

  return is_upright (self) ? (double)at.y : (double)at.x;
}

/* --- measuring ------------------------------------------------------------------------------------------ */

static int
letter_height_px (GtkWidget *widget)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (widget, "0");
  int height;

  pango_layout_get_pixel_size (layout, NULL, &height);
  return height;
}

static void
tw_ruler_measure (GtkWidget *widget,
                  GtkOrientation orientation,
                  int for_size,
                  int *min,
                  int *nat,
                  int *min_b,
                  int *nat_b)
{
  int thick_px = letter_height_px (widget) + (int)(SHORT_PX + PAD_PX);

  *min = *nat = orientation == TW_RULER (widget)->orientation ? 1 : thick_px;
  *min_b = *nat_b = -1;
}

/* --- drawing -------------------------------------------------------------------------------------------- */

/* A box given along the ruler and from the edge beside the canvas, in whole pixels. */
static void
draw_bar (TwRuler *self, GtkSnapshot *snapshot, const double along_px[2], double thick_px, const GdkRGBA *ink)
{
  int width = gtk_widget_get_width (GTK_WIDGET (self)), height = gtk_widget_get_height (GTK_WIDGET (self));
  float from = (float)round (along_px[0]),
        length = (float)MAX (round (along_px[1]) - round (along_px[0]), 1.0);
  float thick = (float)thick_px;

  if (is_upright (self))
    gtk_snapshot_append_color (snapshot, ink,
                               &GRAPHENE_RECT_INIT ((float)width - thick, from, thick, length));
  else
    gtk_snapshot_append_color (snapshot, ink,
                               &GRAPHENE_RECT_INIT (from, (float)height - thick, length, thick));
}

static void
draw_tick (TwRuler *self, GtkSnapshot *snapshot, double at_px, double long_px, const GdkRGBA *ink)
{
  const double along_px[2] = { floor (at_px), floor (at_px) + 1.0 };

  draw_bar (self, snapshot, along_px, long_px, ink);
}

/* Upright, figures are turned a quarter and read from the right. */
static void
write_figure (TwRuler *self, GtkSnapshot *snapshot, const TwGraduation *graduation, double value_mm)
{
  TwUnitStyle style = tw_session_style (self->session);
  g_autofree char *text = tw_units_format_number (TW_QUANTITY_LENGTH, &style, value_mm, graduation->decimals);
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), text);
  double at_px = floor (place_px (self, value_mm)) + PAD_PX + 1.0;
  GdkRGBA ink;

  tw_compat_colour (GTK_WIDGET (self), &ink);
  gtk_snapshot_save (snapshot);
  if (is_upright (self)) {
    gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT (0.0F, (float)(at_px - 2.0 * PAD_PX - 1.0)));
    gtk_snapshot_rotate (snapshot, -90.0F);
  } else {
    gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float)at_px, 0.0F));
  }
  gtk_snapshot_append_layout (snapshot, layout, &ink);
  gtk_snapshot_restore (snapshot);
}

static void
draw_graduation (TwRuler *self,
                 GtkSnapshot *snapshot,
                 const TwGraduation *graduation,
                 const double shown_mm[2])
{
  double tick_mm = graduation->figure_mm / graduation->n_ticks;
  double first = tw_graduation_first (shown_mm[0] - graduation->figure_mm, tick_mm);
  GdkRGBA ink, soft;

  tw_compat_colour (GTK_WIDGET (self), &ink);
  soft = ink;
  soft.alpha *= tw_compat_high_contrast () ? 1.0F : 0.45F;
  for (double i = first; i * tick_mm <= shown_mm[1]; i += 1.0) {
    gboolean has_figure = fmod (i, graduation->n_ticks) == 0.0;

    draw_tick (self, snapshot, place_px (self, i * tick_mm), has_figure ? LONG_PX : SHORT_PX, &soft);
    if (has_figure)
      write_figure (self, snapshot, graduation, i * tick_mm);
  }
}

static void
draw_chosen (TwRuler *self, GtkSnapshot *snapshot)
{
  TwBox box;
  double along_px[2];
  GdkRGBA accent;

  if (!tw_canvas_chosen_box (self->canvas, &box))
    return;
  tw_compat_accent (GTK_WIDGET (self), &accent);
  along_px[0] = place_px (self, is_upright (self) ? box.y1_mm : box.x0_mm);
  along_px[1] = place_px (self, is_upright (self) ? box.y0_mm : box.x1_mm);
  draw_bar (self, snapshot, along_px, REACH_PX, &accent);
  draw_tick (self, snapshot, along_px[0], LONG_PX, &accent);
  draw_tick (self, snapshot, along_px[1], LONG_PX, &accent);
}

/* A wedge whose point touches the canvas. */
static void
draw_pointer (TwRuler *self, GtkSnapshot *snapshot)
{
  int width = gtk_widget_get_width (GTK_WIDGET (self)), height = gtk_widget_get_height (GTK_WIDGET (self));
  graphene_point_t at;
  GdkRGBA ink;
  cairo_t *cr;

  if (!tw_canvas_pointer (self->canvas, &at))
    return;
  tw_compat_colour (GTK_WIDGET (self), &ink);
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0.0F, 0.0F, (float)width, (float)height));
  if (is_upright (self)) {
    cairo_move_to (cr, width, (double)at.y);
    cairo_rel_line_to (cr, -POINTER_PX - 2.0, -POINTER_PX);
    cairo_rel_line_to (cr, 0.0, 2.0 * POINTER_PX);
  } else {
    cairo_move_to (cr, (double)at.x, height);
    cairo_rel_line_to (cr, -POINTER_PX, -POINTER_PX - 2.0);
    cairo_rel_line_to (cr, 2.0 * POINTER_PX, 0.0);
  }
  cairo_close_path (cr);
  gdk_cairo_set_source_rgba (cr, &ink);
  cairo_fill (cr);
  cairo_destroy (cr);
}

static void
tw_ruler_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TwRuler *self = TW_RULER (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  TwUnitStyle style;
  TwGraduation graduation;
  double px_mm, shown_mm[2];
  TwPoint low, high;

  if (self->canvas == NULL || !tw_session_has_job (self->session))
    return;
  px_mm = tw_canvas_px_mm (self->canvas);
  if (!(px_mm > 0.0))
    return;
  style = tw_session_style (self->session);
  graduation = tw_graduation (px_mm, &style, FIGURE_PX, TICK_PX);
  low = tw_canvas_point_at (self->canvas, 0.0, height);
  high = tw_canvas_point_at (self->canvas, width, 0.0);
  shown_mm[0] = is_upright (self) ? low.y_mm : low.x_mm;
  shown_mm[1] = is_upright (self) ? high.y_mm : high.x_mm;
  draw_chosen (self, snapshot);
  draw_graduation (self, snapshot, &graduation, shown_mm);
  draw_pointer (self, snapshot);
}

/* --- the widget ----------------------------------------------------------------------------------------- */

static void
tw_ruler_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_ORIENTATION)
    g_value_set_enum (value, TW_RULER (object)->orientation);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tw_ruler_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id != PROP_ORIENTATION) {
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    return;
  }
  TW_RULER (object)->orientation = g_value_get_enum (value);
  gtk_widget_queue_resize (GTK_WIDGET (object));
}

static void
tw_ruler_dispose (GObject *object)
{
  g_clear_object (&TW_RULER (object)->canvas);
  g_clear_object (&TW_RULER (object)->session);
  G_OBJECT_CLASS (tw_ruler_parent_class)->dispose (object);
}

static void
tw_ruler_class_init (TwRulerClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tw_ruler_dispose;
  object_class->get_property = tw_ruler_get_property;
  object_class->set_property = tw_ruler_set_property;
  widget_class->measure = tw_ruler_measure;
  widget_class->snapshot = tw_ruler_snapshot;
  g_object_class_override_property (object_class, PROP_ORIENTATION, "orientation");
  gtk_widget_class_set_css_name (widget_class, "ruler");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
tw_ruler_init (TwRuler *self)
{
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  g_signal_connect_object (adw_style_manager_get_default (), "notify::high-contrast",
                           G_CALLBACK (gtk_widget_queue_draw), self, G_CONNECT_SWAPPED);
}

void
tw_ruler_set_canvas (TwRuler *self, TwSession *session, TwCanvas *canvas)
{
  g_return_if_fail (self->canvas == NULL);

  self->session = g_object_ref (session);
  self->canvas = g_object_ref (canvas);
  g_signal_connect_object (canvas, "looked", G_CALLBACK (gtk_widget_queue_draw), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "selection-changed", G_CALLBACK (gtk_widget_queue_draw), self,
                           G_CONNECT_SWAPPED);
}
