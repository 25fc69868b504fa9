/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The places by which a chosen part is taken, and taking hold.
 */
#include "app/canvas-private.h"

#include "app/part-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define HANDLE_PX 8.0
#define HANDLE_REACH_PX 12.0 /* a handle is met from so far away where there is room */
#define ROOM_PX 56.0         /* a part smaller than this leaves little */

static gboolean
view_axes (TwCanvas *self, TwStageView *axes)
{
  return tw_session_has_job (self->session) && tw_session_view_axes (self->session, axes);
}

void
tw_canvas_sync_grips (TwCanvas *self)
{
  TwId lead = tw_session_selection (self->session);
  TwStageView axes;
  guint n;
  int nth;

  g_clear_pointer (&self->grips, tw_grips_free);
  (void)tw_session_chosen (self->session, &n);
  if (n == 1 && view_axes (self, &axes))
    self->grips = tw_grips_new (tw_session_placement (self->session), &axes, lead);
  if (!self->has_grip)
    return;
  nth = self->grips != NULL && tw_id_equal (self->grip.part, lead) ? tw_grips_find (self->grips, &self->grip)
                                                                   : -1;
  self->has_grip = nth >= 0;
  if (nth >= 0)
    self->grip = *tw_grips_get (self->grips, (guint)nth);
}

/* Handles of a small part leave room to take the part itself. */
static double
handle_reach_px (TwCanvas *self)
{
  const TwPickShape *shape = tw_pick_find (self->pick, tw_session_selection (self->session));
  double px_mm = tw_canvas_lens (self)->px_mm, least_px;

  if (shape == NULL || tw_box_is_empty (shape->box))
    return HANDLE_REACH_PX;
  least_px = MIN (shape->box.x1_mm - shape->box.x0_mm, shape->box.y1_mm - shape->box.y0_mm) * px_mm;
  return least_px < ROOM_PX ? HANDLE_PX / 2.0 + 1.0 : HANDLE_REACH_PX;
}

const TwGrip *
tw_canvas_grip_at (TwCanvas *self, double x, double y)
{
  if (self->grips == NULL || self->pick == NULL)
    return NULL;
  return tw_grips_at (self->grips, tw_canvas_point_at (self, x, y),
                      handle_reach_px (self) / tw_canvas_lens (self)->px_mm);
}

/* Squares for sides and corners, rings for elements and ends, a diamond for an arc: shape says what it is. */
static void
add_handle (cairo_t *cr, const TwGrip *grip, double x, double y)
{
  const double half = HANDLE_PX / 2.0;

  cairo_new_path (cr);
  switch (grip->kind) {
  case TW_GRIP_ELEMENT:
  case TW_GRIP_END:
    cairo_arc (cr, x, y, half, 0.0, 2.0 * G_PI);
    break;
  case TW_GRIP_BULGE:
    cairo_move_to (cr, x - half - 1.0, y);
    cairo_line_to (cr, x, y - half - 1.0);
    cairo_line_to (cr, x + half + 1.0, y);
    cairo_line_to (cr, x, y + half + 1.0);
    cairo_close_path (cr);
    break;
  default:
    cairo_rectangle (cr, floor (x - half) + 0.5, floor (y - half) + 0.5, HANDLE_PX, HANDLE_PX);
  }
}

static gboolean
is_taken (TwCanvas *self, const TwGrip *grip)
{
  const TwGrip *held = tw_hand_is_holding (self->hand) ? tw_hand_grip (self->hand, 0) : NULL;
  const TwGrip *meant = held ? held : self->has_grip ? &self->grip : NULL;

  if (meant != NULL)
    return meant->kind == grip->kind && meant->nth == grip->nth
           && tw_id_equal (meant->element, grip->element);
  return grip->kind == TW_GRIP_ELEMENT && tw_id_equal (grip->element, tw_session_element (self->session));
}

void
tw_canvas_draw_handles (TwCanvas *self, cairo_t *cr, const GdkRGBA *accent, const GdkRGBA *paper)
{
  for (guint i = 0; self->grips != NULL && i < tw_grips_count (self->grips); i++) {
    const TwGrip *grip = tw_grips_get (self->grips, i);
    graphene_point_t at = tw_canvas_place_of (self, grip->at);
    const GdkRGBA *fill = is_taken (self, grip) ? accent : paper;

    if (grip->kind == TW_GRIP_BODY)
      continue;
    add_handle (cr, grip, (double)at.x, (double)at.y);
    cairo_set_source_rgb (cr, (double)fill->red, (double)fill->green, (double)fill->blue);
    cairo_fill_preserve (cr);
    cairo_set_source_rgb (cr, (double)accent->red, (double)accent->green, (double)accent->blue);
    cairo_set_line_width (cr, 1.5);
    cairo_stroke (cr);
  }
}

gboolean
tw_canvas_step_grip (TwCanvas *self, int step)
{
  int n = self->grips ? (int)tw_grips_count (self->grips) : 0;
  int at = self->has_grip && n > 0 ? tw_grips_find (self->grips, &self->grip) : -1;

  if (n == 0)
    return FALSE;
  at = at < 0 ? (step > 0 ? 0 : n - 1) : (at + step + n) % n;
  self->grip = *tw_grips_get (self->grips, (guint)at);
  self->has_grip = TRUE;
  tw_session_choose_element (self->session, self->grip.part, self->grip.element);
  tw_canvas_update_status (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  return TRUE;
}

const char *
tw_canvas_grip_cursor (const TwGrip *grip)
{
  double angle;

  if (grip->kind == TW_GRIP_BODY || grip->n_ways != 1)
    return "move";
  angle = fmod (atan2 (grip->ways[0].y_mm, grip->ways[0].x_mm) * 180.0 / G_PI + 360.0, 180.0);
  if (angle < 22.5 || angle >= 157.5)
    return "ew-resize";
  if (angle < 67.5)
    return "nesw-resize";
  return angle < 112.5 ? "ns-resize" : "nwse-resize";
}

GArray *
tw_canvas_bodies (TwCanvas *self)
{
  GArray *bodies = g_array_new (FALSE, FALSE, sizeof (TwGrip));
  TwStageView axes;
  guint n;
  const TwId *chosen = tw_session_chosen (self->session, &n);

  if (!view_axes (self, &axes))
    return bodies;
  for (guint i = n; i > 0; i--) {
    g_autoptr (TwGrips) grips = tw_grips_new (tw_session_placement (self->session), &axes, chosen[i - 1]);
    const TwGrip *body = grips ? tw_grips_body (grips) : NULL;

    if (body != NULL)
      g_array_append_vals (bodies, body, 1);
  }
  return bodies;
}

char *
tw_canvas_step_label (TwCanvas *self, const TwGrip *grip)
{
  const TwPart *lead = tw_job_find (tw_session_job (self->session), tw_session_selection (self->session));
  guint n;

  (void)tw_session_chosen (self->session, &n);
  if (lead == NULL)
    return NULL;
  if (grip == NULL && n > 1)
    return g_strdup_printf (ngettext ("Move of %u part", "Move of %u parts", n), n);
  if (grip != NULL && grip->kind != TW_GRIP_BODY && grip->what != NULL)
    /* Translators: a step that can be undone; what of a part was changed, and the part: right edge of Shroud
     */
    return g_strdup_printf (C_ ("grip", "%s of %s"), _ (grip->what), tw_part_words_name (lead));
  /* Translators: a step that can be undone; the name of a part */
  return g_strdup_printf (_ ("Move of %s"), tw_part_words_name (lead));
}

gboolean
tw_canvas_take (TwCanvas *self, const TwGrip *grip, TwPoint at)
{
  TwHandBench bench = tw_canvas_bench (self);
  g_autoptr (GArray) bodies = grip ? NULL : tw_canvas_bodies (self);
  g_autofree char *label = tw_canvas_step_label (self, grip);
  TwStageView axes;
  TwHandGrasp grasp = { .view = &axes, .at = at, .label = label };

  if (!view_axes (self, &axes) || tw_hand_is_holding (self->hand))
    return FALSE;
  grasp.grips = grip ? grip : &g_array_index (bodies, TwGrip, 0);
  grasp.n_grips = grip ? 1 : bodies->len;
  return grasp.n_grips > 0 && tw_hand_take (self->hand, &bench, &grasp);
}
