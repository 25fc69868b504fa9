/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/canvas-private.h"

#include "app/canvas-part.h"

#include <math.h>

#define WHEEL_ZOOM 1.15   /* dimensionless: a notch */
#define WHEEL_PAN_PX 48.0 /* a notch */
#define STEP_PX 1.0       /* free drags round to steps no finer than this */

static double
reach_mm (TwCanvas *self)
{
  return TW_CANVAS_REACH_PX / tw_canvas_lens (self)->px_mm;
}

static TwId
part_at (TwCanvas *self, double x, double y)
{
  if (self->pick == NULL)
    return TW_ID_NONE;
  return tw_pick_at (self->pick, tw_canvas_point_at (self, x, y), reach_mm (self));
}

static void
set_cursor (TwCanvas *self, const char *name)
{
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), name);
}

/* What a press would take is marked. */
static void
set_hovered (TwCanvas *self, TwId part)
{
  if (tw_id_equal (self->hovered, part))
    return;
  self->hovered = part;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* The cursor says what a press would do. */
static void
show_cursor (TwCanvas *self)
{
  const TwGrip *grip = tw_canvas_grip_at (self, self->pointer.x_px, self->pointer.y_px);
  TwStageView axes;
  TwId part;

  if (self->is_panning || self->space_held) {
    set_cursor (self, self->is_panning ? "grabbing" : "grab");
    return;
  }
  if (self->is_measuring) {
    set_cursor (self, "crosshair");
    return;
  }
  if (tw_hand_is_holding (self->hand)) {
    set_cursor (self, tw_canvas_grip_cursor (tw_hand_grip (self->hand, 0)));
    return;
  }
  part = grip ? grip->part : part_at (self, self->pointer.x_px, self->pointer.y_px);
  set_hovered (self, grip ? TW_ID_NONE : part);
  if (grip != NULL)
    set_cursor (self, tw_canvas_grip_cursor (grip));
  else if (tw_id_is_none (part) || !tw_session_view_axes (self->session, &axes))
    set_cursor (self, NULL);
  else
    set_cursor (self,
                tw_hand_can_move (tw_session_placement (self->session), &axes, part) ? "move" : "pointer");
}

/* --- dragging ------------------------------------------------------------------------------------------- */

static void
focus_part (TwCanvas *self, TwId part)
{
  for (guint i = 0; i < self->parts->len; i++) {
    GtkWidget *child = g_ptr_array_index (self->parts, i);

    if (tw_id_equal (tw_canvas_part_id (TW_CANVAS_PART (child)), part)) {
      gtk_widget_grab_focus (child);
      return;
    }
  }
}

static void
take_grip (TwCanvas *self, const TwGrip *grip, TwPoint at)
{
  TwGrip taken = *grip; /* choosing makes the list of grips anew */

  self->has_grip = FALSE;
  tw_session_choose_element (self->session, taken.part, taken.element);
  (void)tw_canvas_take (self, &taken, at);
}

static void
take_part (TwCanvas *self, TwId part, TwPoint at)
{
  self->has_pressed_chosen = tw_session_is_chosen (self->session, part);
  self->has_grip = FALSE;
  if (!self->has_pressed_chosen)
    tw_session_select (self->session, part);
  focus_part (self, part);
  (void)tw_canvas_take (self, NULL, at);
}

static void
press (TwCanvas *self, double x, double y, gboolean also)
{
  TwPoint at = tw_canvas_point_at (self, x, y);
  const TwGrip *grip = also ? NULL : tw_canvas_grip_at (self, x, y);
  TwId part = part_at (self, x, y);

  if (grip != NULL) {
    take_grip (self, grip, at);
  } else if (tw_id_is_none (part)) {
    self->is_boxing = TRUE;
    self->box_adds = also;
  } else if (also) {
    tw_session_choose_also (self->session, part);
    focus_part (self, part);
  } else {
    take_part (self, part, at);
  }
}

static void
drag_begin_cb (TwCanvas *self, double x, double y, GtkGestureDrag *gesture)
{
  GdkModifierType state = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (gesture));

  if (!tw_session_has_job (self->session))
    return;
  tw_canvas_end_typing (self, TRUE); /* a press elsewhere leaves the figure as it is shown */
  self->pressed = self->pointer = (TwPixel){ x, y };
  self->lens_pressed = *tw_canvas_lens (self);
  self->has_pressed_chosen = FALSE;
  gtk_widget_grab_focus (GTK_WIDGET (self)); /* ends typing in the form first */
  if (self->space_held)
    self->is_panning = TRUE;
  else if (self->is_measuring)
    tw_canvas_choose_place (self);
  else
    press (self, x, y, (state & GDK_SHIFT_MASK) != 0);
  show_cursor (self);
}

static TwHandManner
manner_of (TwCanvas *self, GdkModifierType state)
{
  TwUnitStyle style = tw_session_style (self->session);

  return (TwHandManner){
    .reach_mm = reach_mm (self),
    .step_mm = tw_lens_step_mm (tw_canvas_lens (self), style.inches, STEP_PX),
    .no_snaps = (state & GDK_CONTROL_MASK) != 0,
  };
}

void
tw_canvas_hand_moved (TwCanvas *self)
{
  tw_session_tell_history (self->session);
  tw_canvas_update_status (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
drag_update_cb (TwCanvas *self, double dx, double dy, GtkGestureDrag *gesture)
{
  GdkModifierType state = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (gesture));
  TwHandManner manner;

  self->pointer = (TwPixel){ self->pressed.x_px + dx, self->pressed.y_px + dy };
  if (self->is_panning) {
    *tw_canvas_lens (self) = tw_lens_pan (&self->lens_pressed, dx, dy);
    tw_canvas_lens_changed (self);
    return;
  }
  if (self->is_boxing)
    gtk_widget_queue_draw (GTK_WIDGET (self));
  if (!tw_hand_is_holding (self->hand) || hypot (dx, dy) < TW_CANVAS_CLICK_PX)
    return;
  manner = manner_of (self, state);
  (void)tw_hand_move (self->hand, tw_canvas_point_at (self, self->pointer.x_px, self->pointer.y_px), &manner);
  tw_canvas_hand_moved (self);
}

void
tw_canvas_let_go (TwCanvas *self)
{
  self->is_panning = FALSE;
  self->is_boxing = FALSE;
  tw_canvas_sync_grips (self);
  show_cursor (self);
  tw_canvas_hand_moved (self);
}

/* What lies in the box is chosen; a click on paper chooses nothing. */
static void
choose_in_box (TwCanvas *self, gboolean clicked)
{
  TwPoint a = tw_canvas_point_at (self, self->pressed.x_px, self->pressed.y_px);
  TwPoint b = tw_canvas_point_at (self, self->pointer.x_px, self->pointer.y_px);
  TwBox box = { MIN (a.x_mm, b.x_mm), MIN (a.y_mm, b.y_mm), MAX (a.x_mm, b.x_mm), MAX (a.y_mm, b.y_mm) };
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (TwId));
  g_autoptr (GArray) inside = clicked || self->pick == NULL ? NULL : tw_pick_in (self->pick, box, FALSE);
  guint n;
  const TwId *chosen = tw_session_chosen (self->session, &n);

  if (self->box_adds && n > 0)
    g_array_append_vals (all, chosen, n);
  if (inside != NULL && inside->len > 0)
    g_array_append_vals (all, inside->data, inside->len);
  tw_session_choose (self->session, (const TwId *)all->data, all->len);
}

static void
drag_end_cb (TwCanvas *self, double dx, double dy)
{
  gboolean clicked = hypot (dx, dy) < TW_CANVAS_CLICK_PX;

  if (tw_canvas_typing_is_open (self->typing))
    return; /* the figure that is being typed is taken with Enter */
  if (self->is_boxing)
    choose_in_box (self, clicked);
  tw_hand_release (self->hand);
  tw_canvas_let_go (self);
}

static void
drag_cancel_cb (TwCanvas *self)
{
  if (tw_canvas_typing_is_open (self->typing))
    return;
  tw_hand_cancel (self->hand);
  tw_canvas_let_go (self);
}

/* Twice on an edge puts a corner or via-point there, twice on a part opens its form; once more on a part that
 * is chosen already means the next one that lies there. */
static void
clicked_cb (TwCanvas *self, int n_press, double x, double y, GtkGestureClick *click)
{
  GdkModifierType state = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (click));
  TwId lead = tw_session_selection (self->session);
  gboolean moved = hypot (x - self->pressed.x_px, y - self->pressed.y_px) >= TW_CANVAS_CLICK_PX;

  if (self->is_measuring || moved || tw_id_is_none (lead) || (state & GDK_SHIFT_MASK) != 0)
    return;
  if (n_press == 2 && !tw_canvas_add_point (self))
    g_signal_emit_by_name (self, "part-activated");
  else if (n_press == 1 && (state & GDK_ALT_MASK) != 0 && self->pick != NULL)
    tw_session_select (self->session,
                       tw_pick_next (self->pick, tw_canvas_point_at (self, x, y), reach_mm (self), lead));
}

static void
menu_pressed_cb (TwCanvas *self, int n_press, double x, double y)
{
  TwId part = part_at (self, x, y);

  if (!tw_session_has_job (self->session))
    return;
  self->pointer = (TwPixel){ x, y };
  self->has_pointer = TRUE;
  if (!tw_id_is_none (part) && !tw_session_is_chosen (self->session, part))
    tw_session_select (self->session, part);
  tw_canvas_show_menu (self, x, y);
}

static void
pan_begin_cb (TwCanvas *self)
{
  self->is_panning = TRUE;
  self->lens_pressed = *tw_canvas_lens (self);
  show_cursor (self);
}

static void
pan_update_cb (TwCanvas *self, double dx, double dy)
{
  *tw_canvas_lens (self) = tw_lens_pan (&self->lens_pressed, dx, dy);
  tw_canvas_lens_changed (self);
}

static void
pan_end_cb (TwCanvas *self)
{
  self->is_panning = FALSE;
  show_cursor (self);
}

/* --- wheel, trackpad and pointer -------------------------------------------------------------------------
 */

static gboolean
scroll_cb (TwCanvas *self, double dx, double dy, GtkEventControllerScroll *scroll)
{
  GdkModifierType state = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (scroll));
  gboolean notches = gtk_event_controller_scroll_get_unit (scroll) == GDK_SCROLL_UNIT_WHEEL;
  double px = notches ? WHEEL_PAN_PX : 1.0;
  TwLens *lens = tw_canvas_lens (self);

  if (tw_hand_is_holding (self->hand) || !tw_session_has_job (self->session))
    return GDK_EVENT_STOP;
  if (state & GDK_CONTROL_MASK)
    *lens = tw_lens_zoom (lens, pow (WHEEL_ZOOM, notches ? -dy : -dy / WHEEL_PAN_PX), self->pointer);
  else if (state & GDK_SHIFT_MASK)
    *lens = tw_lens_pan (lens, -(dx + dy) * px, 0.0);
  else
    *lens = tw_lens_pan (lens, -dx * px, -dy * px);
  tw_canvas_lens_changed (self);
  return GDK_EVENT_STOP;
}

static void
pinch_begin_cb (TwCanvas *self)
{
  tw_hand_cancel (self->hand);
  self->is_boxing = FALSE;
  self->lens_pressed = *tw_canvas_lens (self);
}

static void
pinch_cb (TwCanvas *self, double scale, GtkGesture *gesture)
{
  double x = self->pointer.x_px, y = self->pointer.y_px;

  if (gtk_gesture_is_recognized (gesture)) /* its fingers say where; else it is about the pointer */
    (void)gtk_gesture_get_bounding_box_center (gesture, &x, &y);
  *tw_canvas_lens (self) = tw_lens_zoom (&self->lens_pressed, scale, (TwPixel){ x, y });
  tw_canvas_lens_changed (self);
}

static void
pointer_moved_cb (TwCanvas *self, double x, double y)
{
  gboolean stood = x == self->pointed.x_px && y == self->pointed.y_px;

  self->has_pointer = TRUE;
  self->pointed = (TwPixel){ x, y };
  if (tw_hand_is_holding (self->hand) || self->is_panning || (self->is_measuring && stood))
    return;
  self->pointer = (TwPixel){ x, y };
  if (self->is_measuring) {
    tw_canvas_follow_place (self);
    return;
  }
  show_cursor (self);
  tw_canvas_update_status (self);
}

static void
pointer_left_cb (TwCanvas *self)
{
  self->has_pointer = FALSE;
  set_hovered (self, TW_ID_NONE);
  tw_canvas_update_status (self);
}

/* --- controllers ---------------------------------------------------------------------------------------- */

static void
add_drags (TwCanvas *self)
{
  GtkGesture *drag = gtk_gesture_drag_new (), *pan = gtk_gesture_drag_new ();

  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), GDK_BUTTON_PRIMARY);
  g_signal_connect_swapped (drag, "drag-begin", G_CALLBACK (drag_begin_cb), self);
  g_signal_connect_swapped (drag, "drag-update", G_CALLBACK (drag_update_cb), self);
  g_signal_connect_swapped (drag, "drag-end", G_CALLBACK (drag_end_cb), self);
  g_signal_connect_swapped (drag, "cancel", G_CALLBACK (drag_cancel_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));

  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (pan), GDK_BUTTON_MIDDLE);
  g_signal_connect_swapped (pan, "drag-begin", G_CALLBACK (pan_begin_cb), self);
  g_signal_connect_swapped (pan, "drag-update", G_CALLBACK (pan_update_cb), self);
  g_signal_connect_swapped (pan, "drag-end", G_CALLBACK (pan_end_cb), self);
  g_signal_connect_swapped (pan, "cancel", G_CALLBACK (pan_end_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (pan));
}

static void
add_clicks (TwCanvas *self)
{
  GtkGesture *click = gtk_gesture_click_new (), *menu = gtk_gesture_click_new ();

  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), GDK_BUTTON_PRIMARY);
  g_signal_connect_swapped (click, "released", G_CALLBACK (clicked_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));

  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (menu), GDK_BUTTON_SECONDARY);
  g_signal_connect_swapped (menu, "pressed", G_CALLBACK (menu_pressed_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (menu));
}

void
tw_canvas_add_input (TwCanvas *self)
{
  GtkEventController *scroll = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkGesture *pinch = gtk_gesture_zoom_new ();

  add_drags (self);
  add_clicks (self);
  tw_canvas_add_keys (self);
  g_signal_connect_swapped (scroll, "scroll", G_CALLBACK (scroll_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), scroll);
  g_signal_connect_swapped (pinch, "begin", G_CALLBACK (pinch_begin_cb), self);
  g_signal_connect_swapped (pinch, "scale-changed", G_CALLBACK (pinch_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (pinch));
  g_signal_connect_swapped (motion, "enter", G_CALLBACK (pointer_moved_cb), self);
  g_signal_connect_swapped (motion, "motion", G_CALLBACK (pointer_moved_cb), self);
  g_signal_connect_swapped (motion, "leave", G_CALLBACK (pointer_left_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), motion);
}
