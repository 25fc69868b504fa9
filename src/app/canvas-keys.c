/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The canvas by keys: moving what is chosen, going from grip to grip, typing figures.
 */
#include "app/canvas-private.h"

#include <string.h>

static TwHandGrasp
grasp_of (TwCanvas *self, const TwStageView *axes, const GArray *bodies, const char *label)
{
  if (self->has_grip)
    return (TwHandGrasp){ .view = axes, .grips = &self->grip, .n_grips = 1, .label = label };
  return (TwHandGrasp){
    .view = axes, .grips = (const TwGrip *)bodies->data, .n_grips = bodies->len, .label = label
  };
}

static gboolean
nudge (TwCanvas *self, int right, int up, GdkModifierType state)
{
  TwHandBench bench = tw_canvas_bench (self);
  TwUnitStyle style = tw_session_style (self->session);
  TwHandNudge by
      = { right, up, style.inches, (state & GDK_SHIFT_MASK) != 0, (state & GDK_CONTROL_MASK) != 0 };
  g_autoptr (GArray) bodies = tw_canvas_bodies (self);
  g_autofree char *label = tw_canvas_step_label (self, self->has_grip ? &self->grip : NULL);
  TwStageView axes;
  TwHandGrasp grasp;

  if (!tw_session_view_axes (self->session, &axes) || tw_hand_is_holding (self->hand))
    return GDK_EVENT_PROPAGATE;
  grasp = grasp_of (self, &axes, bodies, label);
  if (grasp.n_grips == 0)
    return GDK_EVENT_PROPAGATE;
  (void)tw_hand_nudge_all (&bench, &grasp, &by);
  tw_canvas_sync_grips (self);
  tw_canvas_hand_moved (self);
  return GDK_EVENT_STOP;
}

/* --- typing --------------------------------------------------------------------------------------------- */

void
tw_canvas_end_typing (TwCanvas *self, gboolean taken)
{
  if (!tw_canvas_typing_is_open (self->typing))
    return;
  tw_canvas_typing_end (self->typing);
  if (taken)
    tw_hand_release (self->hand);
  else
    tw_hand_cancel (self->hand);
  gtk_widget_grab_focus (GTK_WIDGET (self));
  tw_canvas_let_go (self);
}

/* Without a drag the chosen grip, or the part itself, is held until the figure is taken. */
static gboolean
type (TwCanvas *self, const char *begun)
{
  TwStageView axes;
  gboolean was_holding = tw_hand_is_holding (self->hand);

  if (!tw_session_view_axes (self->session, &axes))
    return GDK_EVENT_PROPAGATE;
  if (!was_holding && !tw_canvas_take (self, self->has_grip ? &self->grip : NULL, (TwPoint){ 0.0, 0.0 }))
    return GDK_EVENT_PROPAGATE;
  if (!tw_canvas_typing_begin (self->typing, begun)) {
    if (!was_holding)
      tw_hand_cancel (self->hand);
    return GDK_EVENT_PROPAGATE;
  }
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  return GDK_EVENT_STOP;
}

/* What a length can begin with. */
static gboolean
type_key (TwCanvas *self, guint keyval)
{
  gunichar sign = gdk_keyval_to_unicode (keyval);
  char text[8] = "";

  if (sign == 0
      || !(g_unichar_isdigit (sign) || strchr ("-.,", (int)MIN (sign, 127)) || g_unichar_isalpha (sign)))
    return GDK_EVENT_PROPAGATE;
  if (!g_unichar_isdigit (sign) && g_unichar_isalpha (sign))
    return GDK_EVENT_PROPAGATE;
  /* comma and point go from grip to grip while nothing is held */
  if (!tw_hand_is_holding (self->hand) && (sign == '.' || sign == ','))
    return tw_canvas_step_grip (self, sign == '.' ? 1 : -1);
  text[g_unichar_to_utf8 (sign, text)] = '\0';
  return type (self, text);
}

/* --- keys ----------------------------------------------------------------------------------------------- */

static gboolean
escape (TwCanvas *self)
{
  if (tw_hand_is_holding (self->hand)) {
    tw_hand_cancel (self->hand);
    tw_canvas_let_go (self);
  } else if (self->is_boxing) {
    tw_canvas_let_go (self);
  } else if (self->has_grip) {
    self->has_grip = FALSE;
    gtk_widget_queue_draw (GTK_WIDGET (self));
  } else {
    tw_session_select (self->session, TW_ID_NONE);
  }
  return GDK_EVENT_STOP;
}

static gboolean
arrow (TwCanvas *self, guint keyval, GdkModifierType state)
{
  switch (keyval) {
  case GDK_KEY_Left:
    return nudge (self, -1, 0, state);
  case GDK_KEY_Right:
    return nudge (self, 1, 0, state);
  case GDK_KEY_Up:
    return nudge (self, 0, 1, state);
  case GDK_KEY_Down:
    return nudge (self, 0, -1, state);
  default:
    return GDK_EVENT_PROPAGATE;
  }
}

static gboolean
other_key (TwCanvas *self, guint keyval)
{
  switch (keyval) {
  case GDK_KEY_Escape:
    return escape (self);
  case GDK_KEY_Return:
  case GDK_KEY_KP_Enter:
    g_signal_emit_by_name (self, "part-activated");
    return GDK_EVENT_STOP;
  case GDK_KEY_Delete:
    gtk_widget_activate_action (GTK_WIDGET (self), "win.delete", NULL);
    return GDK_EVENT_STOP;
  case GDK_KEY_F2:
    return type (self, "");
  case GDK_KEY_Menu:
    tw_canvas_show_menu (self, -1.0, -1.0);
    return GDK_EVENT_STOP;
  case GDK_KEY_space:
    self->space_held = TRUE;
    gtk_widget_set_cursor_from_name (GTK_WIDGET (self), "grab");
    return GDK_EVENT_STOP;
  default:
    return type_key (self, keyval);
  }
}

static gboolean
key_pressed_cb (TwCanvas *self, guint keyval, guint keycode, GdkModifierType state)
{
  if (!tw_session_has_job (self->session) || (state & GDK_ALT_MASK) != 0
      || tw_canvas_typing_is_open (self->typing))
    return GDK_EVENT_PROPAGATE;
  if (self->is_measuring && tw_canvas_measure_key (self, keyval, state) == GDK_EVENT_STOP)
    return GDK_EVENT_STOP;
  if (arrow (self, keyval, state) == GDK_EVENT_STOP)
    return GDK_EVENT_STOP;
  if (keyval == GDK_KEY_F10 && (state & GDK_SHIFT_MASK) != 0) {
    tw_canvas_show_menu (self, -1.0, -1.0);
    return GDK_EVENT_STOP;
  }
  if ((state & GDK_CONTROL_MASK) == 0)
    return other_key (self, keyval);
  /* no key of the application: entries have it for their text */
  return keyval == GDK_KEY_a && gtk_widget_activate_action (GTK_WIDGET (self), "win.choose", "s", "all")
             ? GDK_EVENT_STOP
             : GDK_EVENT_PROPAGATE;
}

static void
key_released_cb (TwCanvas *self, guint keyval)
{
  if (keyval != GDK_KEY_space)
    return;
  self->space_held = FALSE;
  gtk_widget_set_cursor (GTK_WIDGET (self), NULL);
}

static void
typing_done_cb (TwCanvas *self, gboolean taken)
{
  tw_canvas_end_typing (self, taken);
}

void
tw_canvas_add_keys (TwCanvas *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  g_signal_connect_swapped (keys, "key-released", G_CALLBACK (key_released_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}

void
tw_canvas_add_typing (TwCanvas *self)
{
  self->typing = TW_CANVAS_TYPING (tw_canvas_typing_new (self->session, self->hand));
  gtk_widget_set_parent (GTK_WIDGET (self->typing), GTK_WIDGET (self));
  g_signal_connect_swapped (self->typing, "done", G_CALLBACK (typing_done_cb), self);
}
