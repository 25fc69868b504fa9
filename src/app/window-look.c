/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Actions that look and change nothing of the job: copying the view, measuring in it, rulers.
 */
#include "app/window-private.h"

#include "app/canvas-copy.h"

#include <glib/gi18n-lib.h>

#define WINDOW(data) TW_WINDOW (data)

static void
copy_view (TwWindow *self, gboolean as_lines)
{
  g_autoptr (GError) error = NULL;

  if (tw_canvas_copy_view (self->session, gtk_widget_get_clipboard (GTK_WIDGET (self)), as_lines, &error))
    tw_window_say (self, as_lines ? _ ("The view is copied as SVG") : _ ("The view is copied as a picture"));
  else if (error != NULL)
    tw_window_say (self, error->message);
}

static void
copy_picture_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  copy_view (WINDOW (data), FALSE);
}

static void
copy_lines_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  copy_view (WINDOW (data), TRUE);
}

static void
distance_cb (GSimpleAction *action, GVariant *wanted, gpointer data)
{
  tw_canvas_set_measuring (WINDOW (data)->canvas, g_variant_get_boolean (wanted));
}

/* Escape on the canvas ends it too. */
static void
measuring_changed_cb (TwWindow *self)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), "distance");

  g_simple_action_set_state (G_SIMPLE_ACTION (action),
                             g_variant_new_boolean (tw_canvas_is_measuring (self->canvas)));
}

static const GActionEntry entries[] = {
  { "copy-picture", copy_picture_cb },
  { "copy-lines", copy_lines_cb },
  { "distance", NULL, NULL, "false", distance_cb },
};

void
tw_window_add_look_actions (TwWindow *self)
{
  g_autoptr (GPropertyAction) rulers = g_property_action_new ("show-rulers", self->ruler_across, "visible");

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  g_action_map_add_action (G_ACTION_MAP (self), G_ACTION (rulers));
  g_object_bind_property (self->ruler_across, "visible", self->ruler_up, "visible", G_BINDING_SYNC_CREATE);
  tw_ruler_set_canvas (self->ruler_across, self->session, self->canvas);
  tw_ruler_set_canvas (self->ruler_up, self->session, self->canvas);
  g_signal_connect_object (self->canvas, "looked", G_CALLBACK (measuring_changed_cb), self,
                           G_CONNECT_SWAPPED);
}

void
tw_window_update_look_actions (TwWindow *self)
{
  for (guint i = 0; i < G_N_ELEMENTS (entries); i++) {
    GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), entries[i].name);

    g_simple_action_set_enabled (G_SIMPLE_ACTION (action), tw_session_has_job (self->session));
  }
}
