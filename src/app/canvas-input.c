/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/canvas-private.h"

#include "app/canvas-part.h"
#include "app/part-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define WHEEL_ZOOM 1.15   /* dimensionless: a notch */
#define WHEEL_PAN_PX 48.0 /* a notch */
#define CLICK_PX 3.0      /* less movement is a click */
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

static gboolean
view_axes (TwCanvas *self, TwStageView *axes)
{
  return tw_session_view_axes (self->session, axes);
}

static void
set_cursor (TwCanvas *self, const char *name)
{
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), name);
}

/* A hand over what can be moved. */
static void
show_cursor (TwCanvas *self)
{
  TwStageView axes;
  TwId part;

  if (self->is_panning || self->space_held) {
    set_cursor (self, self->is_panning ? "grabbing" : "grab");
    return;
  }
  if (tw_hand_is_holding (self->hand)) {
    set_cursor (self, "move");
    return;
  }
  part = part_at (self, self->pointer.x_px, self->pointer.y_px);
  if (tw_id_is_none (part) || !view_axes (self, &axes))
    set_cursor (self, NULL);
  else
    set_cursor (self,
                tw_hand_can_move (tw_session_placement (self->session), &axes, part) ? "move" : "pointer");
}

/* --- dragging ------------------------------------------------------------------------------------------- */

static void
take_hold (TwCanvas *self, TwId part)
{
  TwHandBench bench = tw_canvas_bench (self);
  const TwPart *owner = tw_job_find (bench.job, part);
  TwStageView axes;
  g_autofree char *label = NULL;

  if (owner == NULL || !view_axes (self, &axes))
    return;
  /* Translators: a step that can be undone; the name of a part */
  label = g_strdup_printf (_ ("Move of %s"), tw_part_words_name (owner));
  (void)tw_hand_press (self->hand, &bench, &axes, part,
                       tw_canvas_point_at (self, self->pressed.x_px, self->pressed.y_px), label);
}

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
drag_begin_cb (TwCanvas *self, double x, double y)
{
  TwId part;

  if (!tw_session_has_job (self->session) || tw_hand_is_holding (self->hand))
    return;
  self->pressed = (TwPixel){ x, y };
  self->lens_pressed = *tw_canvas_lens (self);
  part = self->space_held ? TW_ID_NONE : part_at (self, x, y);
  gtk_widget_grab_focus (GTK_WIDGET (self)); /* ends typing elsewhere first */
  if (tw_id_is_none (part)) {
    self->is_panning = TRUE;
  } else {
    tw_session_select (self->session, part);
    focus_part (self, part);
    take_hold (self, part);
  }
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
  if (!tw_hand_is_holding (self->hand) || hypot (dx, dy) < CLICK_PX)
    return;
  manner = manner_of (self, state);
  (void)tw_hand_move (self->hand, tw_canvas_point_at (self, self->pointer.x_px, self->pointer.y_px), &manner);
  tw_session_tell_history (self->session);
  tw_canvas_update_status (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
let_go (TwCanvas *self)
{
  self->is_panning = FALSE;
  show_cursor (self);
  tw_canvas_update_status (self);
  tw_session_tell_history (self->session);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
drag_end_cb (TwCanvas *self, double dx, double dy)
{
  if (self->is_panning && hypot (dx, dy) < CLICK_PX && !self->space_held)
    tw_session_select (self->session, TW_ID_NONE);
  tw_hand_release (self->hand);
  let_go (self);
}

static void
drag_cancel_cb (TwCanvas *self)
{
  tw_hand_cancel (self->hand);
  let_go (self);
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
  self->lens_pressed = *tw_canvas_lens (self);
}

static void
pinch_cb (TwCanvas *self, double scale, GtkGesture *gesture)
{
  double x = self->pointer.x_px, y = self->pointer.y_px;

  (void)gtk_gesture_get_bounding_box_center (gesture, &x, &y);
  *tw_canvas_lens (self) = tw_lens_zoom (&self->lens_pressed, scale, (TwPixel){ x, y });
  tw_canvas_lens_changed (self);
}

static void
pointer_moved_cb (TwCanvas *self, double x, double y)
{
  self->has_pointer = TRUE;
  if (tw_hand_is_holding (self->hand) || self->is_panning)
    return;
  self->pointer = (TwPixel){ x, y };
  show_cursor (self);
  tw_canvas_update_status (self);
}

static void
pointer_left_cb (TwCanvas *self)
{
  self->has_pointer = FALSE;
  tw_canvas_update_status (self);
}

/* --- keys ----------------------------------------------------------------------------------------------- */

static gboolean
nudge (TwCanvas *self, int right, int up, GdkModifierType state)
{
  TwHandBench bench = tw_canvas_bench (self);
  TwId part = tw_session_selection (self->session);
  const TwPart *owner = tw_id_is_none (part) ? NULL : tw_job_find (bench.job, part);
  TwUnitStyle style = tw_session_style (self->session);
  TwHandNudge by = { right, up, style.inches, (state & GDK_SHIFT_MASK) != 0 };
  g_autofree char *label = NULL;
  TwStageView axes;

  if (owner == NULL || !view_axes (self, &axes))
    return GDK_EVENT_PROPAGATE;
  label = g_strdup_printf (_ ("Move of %s"), tw_part_words_name (owner));
  (void)tw_hand_nudge (&bench, &axes, part, &by, label);
  tw_session_tell_history (self->session);
  return GDK_EVENT_STOP;
}

static gboolean
key_pressed_cb (TwCanvas *self, guint keyval, guint keycode, GdkModifierType state)
{
  if (!tw_session_has_job (self->session) || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  switch (keyval) {
  case GDK_KEY_Left:
    return nudge (self, -1, 0, state);
  case GDK_KEY_Right:
    return nudge (self, 1, 0, state);
  case GDK_KEY_Up:
    return nudge (self, 0, 1, state);
  case GDK_KEY_Down:
    return nudge (self, 0, -1, state);
  case GDK_KEY_Escape:
    if (tw_hand_is_holding (self->hand))
      drag_cancel_cb (self);
    else
      tw_session_select (self->session, TW_ID_NONE);
    return GDK_EVENT_STOP;
  case GDK_KEY_Return:
  case GDK_KEY_KP_Enter:
    g_signal_emit_by_name (self, "part-activated");
    return GDK_EVENT_STOP;
  case GDK_KEY_Delete:
    gtk_widget_activate_action (GTK_WIDGET (self), "win.delete", NULL);
    return GDK_EVENT_STOP;
  case GDK_KEY_space:
    self->space_held = TRUE;
    show_cursor (self);
    return GDK_EVENT_STOP;
  default:
    return GDK_EVENT_PROPAGATE;
  }
}

static void
key_released_cb (TwCanvas *self, guint keyval)
{
  if (keyval != GDK_KEY_space)
    return;
  self->space_held = FALSE;
  show_cursor (self);
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
  g_signal_connect_swapped (pan, "drag-end", G_CALLBACK (let_go), self);
  g_signal_connect_swapped (pan, "cancel", G_CALLBACK (let_go), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (pan));
}

void
tw_canvas_add_input (TwCanvas *self)
{
  GtkEventController *scroll = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkGesture *pinch = gtk_gesture_zoom_new ();

  add_drags (self);
  g_signal_connect_swapped (scroll, "scroll", G_CALLBACK (scroll_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), scroll);
  g_signal_connect_swapped (pinch, "begin", G_CALLBACK (pinch_begin_cb), self);
  g_signal_connect_swapped (pinch, "scale-changed", G_CALLBACK (pinch_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (pinch));
  g_signal_connect_swapped (motion, "enter", G_CALLBACK (pointer_moved_cb), self);
  g_signal_connect_swapped (motion, "motion", G_CALLBACK (pointer_moved_cb), self);
  g_signal_connect_swapped (motion, "leave", G_CALLBACK (pointer_left_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), motion);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  g_signal_connect_swapped (keys, "key-released", G_CALLBACK (key_released_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}
