/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/canvas-part.h"

#include "app/part-words.h"

#include <glib/gi18n-lib.h>

struct _TwCanvasPart {
  GtkWidget parent_instance;

  TwSession *session;
  TwId part;
  const TwPart *shown; /* counted: what name and description were made from */
  int chosen;          /* -1: not told yet */
};

G_DEFINE_FINAL_TYPE (TwCanvasPart, tw_canvas_part, GTK_TYPE_WIDGET)

static void
select_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  TwCanvasPart *self = TW_CANVAS_PART (widget);

  tw_session_select (self->session, self->part);
}

/* Who comes here by Tab chooses the part. */
static void
focus_entered_cb (TwCanvasPart *self)
{
  tw_session_select (self->session, self->part);
}

static void
tw_canvas_part_dispose (GObject *object)
{
  TwCanvasPart *self = TW_CANVAS_PART (object);

  g_clear_object (&self->session);
  if (self->shown != NULL)
    tw_part_unref ((gpointer)self->shown);
  self->shown = NULL;
  G_OBJECT_CLASS (tw_canvas_part_parent_class)->dispose (object);
}

static void
tw_canvas_part_class_init (TwCanvasPartClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tw_canvas_part_dispose;
  gtk_widget_class_install_action (widget_class, "part.select", NULL, select_cb);
  gtk_widget_class_set_css_name (widget_class, "canvas-part");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_BUTTON);
}

static void
tw_canvas_part_init (TwCanvasPart *self)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();

  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_can_target (GTK_WIDGET (self), FALSE);
  g_signal_connect_swapped (focus, "enter", G_CALLBACK (focus_entered_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
  self->chosen = -1;
}

GtkWidget *
tw_canvas_part_new (TwSession *session, TwId part)
{
  TwCanvasPart *self = g_object_new (TW_TYPE_CANVAS_PART, NULL);

  self->session = g_object_ref (session);
  self->part = part;
  tw_canvas_part_update (self);
  return GTK_WIDGET (self);
}

TwId
tw_canvas_part_id (TwCanvasPart *self)
{
  return self->part;
}

static void
update_words (TwCanvasPart *self, const TwPart *part)
{
  TwUnitStyle style = tw_session_style (self->session);
  g_autofree char *figures = NULL;

  if (self->shown == part)
    return;
  if (self->shown != NULL)
    tw_part_unref ((gpointer)self->shown);
  self->shown = tw_part_ref (part);
  figures = tw_part_words_figures (part, &style);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  tw_part_words_name (part), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, figures,
                                  -1);
}

void
tw_canvas_part_update (TwCanvasPart *self)
{
  const TwPart *part = tw_job_find (tw_session_job (self->session), self->part);
  gboolean chosen = tw_id_equal (tw_session_selection (self->session), self->part);

  if (part != NULL)
    update_words (self, part);
  if (self->chosen != chosen) {
    self->chosen = chosen;
    gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_SELECTED, chosen, -1);
  }
}
