/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What menus and double clicks do on the canvas, and where.
 */
#include "app/canvas-private.h"

#include <math.h>

#define EDGE_PX 8.0 /* how near an edge a double click must be */

guint
tw_canvas_menu_points (TwCanvas *self, TwPoint points[2])
{
  points[0] = points[1] = tw_canvas_point_at (self, self->menu_place.x_px, self->menu_place.y_px);
  return self->has_menu_place ? 1 : 0;
}

double
tw_canvas_px_mm (TwCanvas *self)
{
  return MAX (tw_canvas_lens (self)->px_mm, TW_LENS_LEAST_PX_MM);
}

static double
segment_away_mm (TwPoint at, TwPoint a, TwPoint b)
{
  double dx_mm = b.x_mm - a.x_mm, dy_mm = b.y_mm - a.y_mm, square = dx_mm * dx_mm + dy_mm * dy_mm;
  double share = ((at.x_mm - a.x_mm) * dx_mm + (at.y_mm - a.y_mm) * dy_mm) / MAX (square, 1e-12);

  share = CLAMP (share, 0.0, 1.0);
  return tw_point_distance_mm (at, (TwPoint){ a.x_mm + share * dx_mm, a.y_mm + share * dy_mm });
}

/* Away from @at to the nearest edge of what bounds @part, in pixels. */
static double
edge_away_px (TwCanvas *self, TwId part, TwPoint at)
{
  double best_mm = INFINITY;
  gboolean closed;
  GArray *points;

  for (guint i = 0; (points = tw_pick_outline (self->pick, part, i, &closed)) != NULL; i++) {
    for (guint k = closed ? 0 : 1; k < points->len; k++) {
      TwPoint a = g_array_index (points, TwPoint, (k + points->len - 1) % points->len);

      best_mm = MIN (best_mm, segment_away_mm (at, a, g_array_index (points, TwPoint, k)));
    }
    g_array_unref (points);
  }
  return best_mm * tw_canvas_lens (self)->px_mm;
}

gboolean
tw_canvas_add_point (TwCanvas *self)
{
  TwId lead = tw_session_selection (self->session);
  const TwPart *part = tw_job_find (tw_session_job (self->session), lead);
  TwPoint at = tw_canvas_point_at (self, self->pressed.x_px, self->pressed.y_px);
  const char *list = NULL;

  if (part == NULL || self->pick == NULL)
    return FALSE;
  if (part->kind == TW_KIND_HOSE)
    list = "vias";
  else if (part->kind == TW_KIND_VOLUME && edge_away_px (self, lead, at) < EDGE_PX)
    list = "outline";
  if (list == NULL)
    return FALSE;
  self->menu_place = self->pressed;
  self->has_menu_place = TRUE;
  gtk_widget_activate_action (GTK_WIDGET (self), "win.add-element", "s", list);
  self->has_menu_place = FALSE;
  return TRUE;
}

/* The action of the chosen item runs after the menu has closed. */
static gboolean
forget_place_cb (gpointer data)
{
  TW_CANVAS (data)->has_menu_place = FALSE;
  return G_SOURCE_REMOVE;
}

static void
menu_closed_cb (TwCanvas *self)
{
  g_idle_add_full (G_PRIORITY_LOW, forget_place_cb, g_object_ref (self), g_object_unref);
}

void
tw_canvas_show_menu (TwCanvas *self, double x, double y)
{
  const TwPickShape *shape
      = self->pick ? tw_pick_find (self->pick, tw_session_selection (self->session)) : NULL;
  GdkRectangle place = { (int)x, (int)y, 1, 1 };

  if (self->menu == NULL)
    return;
  self->has_menu_place = x >= 0.0;
  self->menu_place = (TwPixel){ x, y };
  if (x < 0.0) {
    TwPoint middle = shape && !tw_box_is_empty (shape->box)
                         ? (TwPoint){ (shape->box.x0_mm + shape->box.x1_mm) / 2.0,
                                      (shape->box.y0_mm + shape->box.y1_mm) / 2.0 }
                         : tw_canvas_lens (self)->middle;
    graphene_point_t at = tw_canvas_place_of (self, middle);

    place.x = CLAMP ((int)at.x, 0, gtk_widget_get_width (GTK_WIDGET (self)));
    place.y = CLAMP ((int)at.y, 0, gtk_widget_get_height (GTK_WIDGET (self)));
  }
  gtk_popover_set_pointing_to (self->menu, &place);
  gtk_popover_popup (self->menu);
}

void
tw_canvas_set_menu (TwCanvas *self, GMenuModel *model)
{
  self->menu = GTK_POPOVER (gtk_popover_menu_new_from_model (model));
  gtk_popover_set_has_arrow (self->menu, FALSE);
  gtk_widget_set_halign (GTK_WIDGET (self->menu), GTK_ALIGN_START);
  gtk_widget_set_parent (GTK_WIDGET (self->menu), GTK_WIDGET (self));
  g_signal_connect_swapped (self->menu, "closed", G_CALLBACK (menu_closed_cb), self);
}

void
tw_canvas_zoom_to_chosen (TwCanvas *self)
{
  const TwPickShape *shape
      = self->pick ? tw_pick_find (self->pick, tw_session_selection (self->session)) : NULL;
  TwLens *lens = tw_canvas_lens (self);

  if (shape == NULL || tw_box_is_empty (shape->box))
    return;
  *lens = tw_lens_fit (shape->box, lens->width_px, lens->height_px, TW_CANVAS_MARGIN_PX * 2.0);
  tw_canvas_lens_changed (self);
}
