/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * While something is held: distances to its neighbours, what it snapped to and the line to that.
 */
#include "app/canvas-private.h"

#include "stage/gauge.h"

#include <math.h>

#define LABEL_AWAY_PX 16.0
#define LABEL_PAD_PX 4.0
#define ARROW_PX 7.0
#define ARROW_HALF_PX 2.2
#define LEAST_PX 3.0 /* a shorter distance has no room for its arrows */

/* Labels that stand already, so that no two are written over each other. */
typedef struct {
  graphene_rect_t boxes[TW_GAUGE_MOST + 1];
  guint n;
} Labels;

typedef struct {
  TwCanvas *canvas;
  GtkSnapshot *snapshot;
  cairo_t *cr;
  GdkRGBA ink;
  GdkRGBA paper;
  Labels labels;
} Page;

static gboolean
is_free (const Page *page, const graphene_rect_t *box)
{
  graphene_rect_t all
      = GRAPHENE_RECT_INIT (0.0F, 0.0F, (float)gtk_widget_get_width (GTK_WIDGET (page->canvas)),
                            (float)gtk_widget_get_height (GTK_WIDGET (page->canvas)));

  if (!graphene_rect_contains_rect (&all, box))
    return FALSE;
  for (guint i = 0; i < page->labels.n; i++)
    if (graphene_rect_intersection (&page->labels.boxes[i], box, NULL))
      return FALSE;
  return TRUE;
}

static void
write_label (Page *page, PangoLayout *layout, const graphene_rect_t *box)
{
  page->labels.boxes[page->labels.n++] = *box;
  gtk_snapshot_append_color (page->snapshot, &page->paper, box);
  gtk_snapshot_save (page->snapshot);
  gtk_snapshot_translate (page->snapshot,
                          &GRAPHENE_POINT_INIT (box->origin.x + (float)LABEL_PAD_PX, box->origin.y + 1.0F));
  gtk_snapshot_append_layout (page->snapshot, layout, &page->ink);
  gtk_snapshot_restore (page->snapshot);
}

/* The first of some places along the way and beside it that is free; left out when there is none: the form
 * and the status line have the figure too. */
static void
label_gauge (Page *page, const TwGauge *gauge, graphene_point_t from, graphene_point_t to)
{
  static const float along[] = { 0.5F, 0.3F, 0.7F, 0.15F, 0.85F };
  TwUnitStyle style = tw_session_style (page->canvas->session);
  g_autofree char *text
      = tw_units_format (TW_QUANTITY_LENGTH, &style, gauge->length_mm, style.inches ? -1 : 1);
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (page->canvas), text);
  int width, height;

  pango_layout_get_pixel_size (layout, &width, &height);
  for (guint i = 0; i < G_N_ELEMENTS (along) * 3; i++) {
    float share = along[i / 3], beside = (float)((int)(i % 3 + 1) % 3 - 1) * ((float)height + 4.0F);
    float x = from.x + share * (to.x - from.x), y = from.y + share * (to.y - from.y) + beside;
    graphene_rect_t box
        = GRAPHENE_RECT_INIT (x - (float)width / 2.0F - (float)LABEL_PAD_PX, y - (float)height / 2.0F - 1.0F,
                              (float)width + 2.0F * (float)LABEL_PAD_PX, (float)height + 2.0F);

    if (is_free (page, &box)) {
      write_label (page, layout, &box);
      return;
    }
  }
}

static void
add_arrow (cairo_t *cr, double x, double y, double angle_rad)
{
  double c = cos (angle_rad), s = sin (angle_rad);

  cairo_move_to (cr, x, y);
  cairo_line_to (cr, x + ARROW_PX * c - ARROW_HALF_PX * s, y + ARROW_PX * s + ARROW_HALF_PX * c);
  cairo_line_to (cr, x + ARROW_PX * c + ARROW_HALF_PX * s, y + ARROW_PX * s - ARROW_HALF_PX * c);
  cairo_close_path (cr);
}

static void
draw_way (cairo_t *cr, graphene_point_t from, graphene_point_t to)
{
  double dx = (double)to.x - (double)from.x, dy = (double)to.y - (double)from.y, angle_rad = atan2 (dy, dx);

  if (hypot (dx, dy) < LEAST_PX)
    return;
  cairo_move_to (cr, (double)from.x, (double)from.y);
  cairo_line_to (cr, (double)to.x, (double)to.y);
  cairo_stroke (cr);
  if (hypot (dx, dy) < 2.0 * ARROW_PX)
    return;
  add_arrow (cr, (double)from.x, (double)from.y, angle_rad);
  add_arrow (cr, (double)to.x, (double)to.y, angle_rad + G_PI);
  cairo_fill (cr);
}

static void
draw_guides (Page *page)
{
  const double dashes[] = { 5.0, 4.0 };
  guint n;
  const TwSnap *snaps = tw_hand_snaps (page->canvas->hand, &n);

  cairo_set_dash (page->cr, dashes, 2, 0.0);
  for (guint i = 0; i < n; i++) {
    graphene_point_t from = tw_canvas_place_of (page->canvas, snaps[i].guide[0]);
    graphene_point_t to = tw_canvas_place_of (page->canvas, snaps[i].guide[1]);

    if (!snaps[i].has_guide)
      continue;
    cairo_move_to (page->cr, (double)from.x, (double)from.y);
    cairo_line_to (page->cr, (double)to.x, (double)to.y);
    cairo_stroke (page->cr);
  }
  cairo_set_dash (page->cr, NULL, 0, 0.0);
}

/* What the drag snapped to, beside the pointer, and why it goes no further. */
static void
label_snap (Page *page)
{
  TwCanvas *self = page->canvas;
  const char *refusal = tw_hand_refusal (self->hand);
  g_autofree char *text = refusal ? g_strdup (refusal) : tw_canvas_snap_text (self);
  g_autoptr (PangoLayout) layout = NULL;
  int width, height;
  double x, y;

  if (text == NULL)
    return;
  layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), text);
  pango_layout_get_pixel_size (layout, &width, &height);
  x = self->pointer.x_px + LABEL_AWAY_PX;
  y = self->pointer.y_px - LABEL_AWAY_PX - height;
  if (x + width + LABEL_PAD_PX > gtk_widget_get_width (GTK_WIDGET (self)))
    x = self->pointer.x_px - LABEL_AWAY_PX - width;
  x = MAX (x, LABEL_PAD_PX);
  y = MAX (y, LABEL_PAD_PX);
  write_label (page, layout,
               &GRAPHENE_RECT_INIT ((float)(x - LABEL_PAD_PX), (float)(y - 1.0),
                                    (float)(width + 2.0 * LABEL_PAD_PX), (float)height + 2.0F));
}

static GdkRGBA
colour (const TwLook *look, TwInkTint tint, float alpha)
{
  double rgb[3];

  tw_look_colour (look, tint, 1.0, rgb);
  return (GdkRGBA){ (float)rgb[0], (float)rgb[1], (float)rgb[2], alpha };
}

void
tw_canvas_snapshot_gauges (TwCanvas *self, const TwLook *look, GtkSnapshot *snapshot)
{
  Page page = { self,
                snapshot,
                NULL,
                colour (look, TW_INK_TINT_MEASURE, 1.0F),
                colour (look, TW_INK_TINT_PAPER, 0.9F),
                { .n = 0 } };
  graphene_rect_t all = GRAPHENE_RECT_INIT (0.0F, 0.0F, (float)gtk_widget_get_width (GTK_WIDGET (self)),
                                            (float)gtk_widget_get_height (GTK_WIDGET (self)));
  TwGauge gauges[TW_GAUGE_MOST];
  TwStageView axes;
  guint n = 0;

  if (!tw_hand_is_holding (self->hand) || !tw_session_view_axes (self->session, &axes))
    return;
  n = tw_gauge_find (tw_session_placement (self->session), &axes, tw_hand_part (self->hand),
                     tw_hand_grip (self->hand, 0)->element, gauges);
  page.cr = gtk_snapshot_append_cairo (snapshot, &all);
  cairo_set_source_rgb (page.cr, (double)page.ink.red, (double)page.ink.green, (double)page.ink.blue);
  cairo_set_line_width (page.cr, 1.0);
  draw_guides (&page);
  for (guint i = 0; i < n; i++)
    draw_way (page.cr, tw_canvas_place_of (self, gauges[i].from), tw_canvas_place_of (self, gauges[i].to));
  cairo_destroy (page.cr);
  label_snap (&page);
  for (guint i = 0; i < n; i++)
    label_gauge (&page, &gauges[i], tw_canvas_place_of (self, gauges[i].from),
                 tw_canvas_place_of (self, gauges[i].to));
}
