/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/canvas-typing.h"

#include <glib/gi18n-lib.h>

struct _TwCanvasTyping {
  GtkWidget parent_instance;

  GtkLabel *name;
  GtkEntry *entry;
  GtkLabel *trouble;

  TwSession *session;
  TwHand *hand; /* the canvas' own */
  guint figure; /* of the hand that is typed */
};

enum { DONE, N_SIGNALS };

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TwCanvasTyping, tw_canvas_typing, GTK_TYPE_WIDGET)

static const TwField *
field_of (TwCanvasTyping *self, const TwHandFigure *figure)
{
  const TwJob *job = tw_session_job (self->session);
  const TwPart *part = tw_job_find (job, figure->part);
  const TwPart *owner
      = part && !tw_id_is_none (figure->element) ? tw_part_element (part, figure->element, NULL) : part;

  return owner ? &tw_kind_info (owner->kind)->fields[figure->field] : NULL;
}

static void
say_trouble (TwCanvasTyping *self, const char *text)
{
  gtk_label_set_label (self->trouble, text ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->trouble), text != NULL);
  if (text != NULL)
    gtk_widget_add_css_class (GTK_WIDGET (self->entry), "error");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->entry), "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID,
                               text ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
}

static gboolean
show_figure (TwCanvasTyping *self, guint nth, const char *begun)
{
  TwUnitStyle style = tw_session_style (self->session);
  guint n;
  const TwHandFigure *figures = tw_hand_figures (self->hand, &n);
  const TwField *field = n > 0 ? field_of (self, &figures[nth % n]) : NULL;
  g_autofree char *now = NULL;

  if (field == NULL)
    return FALSE;
  self->figure = nth % n;
  now = tw_units_format (field->quantity, &style, figures[self->figure].value_mm, -1);
  gtk_label_set_label (self->name, _ (field->label));
  gtk_entry_set_placeholder_text (self->entry, now);
  gtk_editable_set_text (GTK_EDITABLE (self->entry), begun);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ (field->label), -1);
  say_trouble (self, NULL);
  return TRUE;
}

/* Nothing typed leaves the figure as the pointer has it. */
static gboolean
take_text (TwCanvasTyping *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->entry));
  TwUnitStyle style = tw_session_style (self->session);
  g_autoptr (GError) error = NULL;

  if (text[0] == '\0' || tw_hand_type (self->hand, self->figure, text, &style, &error))
    return TRUE;
  say_trouble (self, error->message);
  return FALSE;
}

static void
activate_cb (TwCanvasTyping *self)
{
  if (take_text (self))
    g_signal_emit (self, signals[DONE], 0, TRUE);
}

static void
changed_cb (TwCanvasTyping *self)
{
  say_trouble (self, NULL);
}

static gboolean
key_pressed_cb (TwCanvasTyping *self, guint keyval)
{
  guint n;

  switch (keyval) {
  case GDK_KEY_Escape:
    g_signal_emit (self, signals[DONE], 0, FALSE);
    return GDK_EVENT_STOP;
  case GDK_KEY_Tab:
  case GDK_KEY_ISO_Left_Tab:
    if (!take_text (self))
      return GDK_EVENT_STOP;
    (void)tw_hand_figures (self->hand, &n);
    (void)show_figure (self, keyval == GDK_KEY_Tab ? self->figure + 1 : self->figure + n - 1, "");
    return GDK_EVENT_STOP;
  default:
    return GDK_EVENT_PROPAGATE;
  }
}

gboolean
tw_canvas_typing_is_open (TwCanvasTyping *self)
{
  return gtk_widget_get_visible (GTK_WIDGET (self));
}

void
tw_canvas_typing_end (TwCanvasTyping *self)
{
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}

gboolean
tw_canvas_typing_begin (TwCanvasTyping *self, const char *begun)
{
  if (!tw_hand_is_holding (self->hand) || !show_figure (self, 0, begun))
    return FALSE;
  gtk_widget_set_visible (GTK_WIDGET (self), TRUE);
  gtk_widget_grab_focus (GTK_WIDGET (self->entry));
  gtk_editable_set_position (GTK_EDITABLE (self->entry), -1);
  return TRUE;
}

static void
tw_canvas_typing_dispose (GObject *object)
{
  TwCanvasTyping *self = TW_CANVAS_TYPING (object);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (tw_canvas_typing_parent_class)->dispose (object);
}

static void
tw_canvas_typing_class_init (TwCanvasTypingClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tw_canvas_typing_dispose;
  signals[DONE] = g_signal_new ("done", TW_TYPE_CANVAS_TYPING, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 1, G_TYPE_BOOLEAN);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/canvas-typing.ui");
  gtk_widget_class_bind_template_child (widget_class, TwCanvasTyping, name);
  gtk_widget_class_bind_template_child (widget_class, TwCanvasTyping, entry);
  gtk_widget_class_bind_template_child (widget_class, TwCanvasTyping, trouble);
  gtk_widget_class_bind_template_callback (widget_class, activate_cb);
  gtk_widget_class_bind_template_callback (widget_class, changed_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "typing");
}

static void
tw_canvas_typing_init (TwCanvasTyping *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}

GtkWidget *
tw_canvas_typing_new (TwSession *session, TwHand *hand)
{
  TwCanvasTyping *self = g_object_new (TW_TYPE_CANVAS_TYPING, "visible", FALSE, NULL);

  self->session = g_object_ref (session);
  self->hand = hand;
  return GTK_WIDGET (self);
}
