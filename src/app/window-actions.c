/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/clipboard.h"
#include "app/window-private.h"

#include <glib/gi18n-lib.h>

#define ZOOM_STEP 1.25 /* dimensionless */
#define WINDOW(data) TW_WINDOW (data)

static void
open_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  tw_window_ask_open (WINDOW (data));
}

static void
open_sample_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  tw_window_open_path (WINDOW (data), g_variant_get_string (parameter, NULL), TRUE);
}

static void
open_file_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  tw_window_open_path (WINDOW (data), g_variant_get_string (parameter, NULL), FALSE);
}

static void
new_layout_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  tw_window_ask_new_layout (WINDOW (data));
}

static void
new_empty_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  tw_window_take_new (WINDOW (data), tw_job_new ());
}

static void
save_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  tw_window_save (WINDOW (data));
}

static void
save_as_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  tw_window_save_as (WINDOW (data));
}

static void
reopen_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  tw_window_reopen (WINDOW (data));
}

static void
undo_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  tw_session_undo (WINDOW (data)->session);
}

static void
redo_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  tw_session_redo (WINDOW (data)->session);
}

static void
say_error (TwWindow *self, const GError *error)
{
  if (error != NULL)
    tw_window_say (self, error->message);
}

static void
copy_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_autoptr (GError) error = NULL;

  if (!tw_clipboard_copy (WINDOW (data)->session, gtk_widget_get_clipboard (data), &error))
    say_error (data, error);
}

static void
cut_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_autoptr (GError) error = NULL;

  if (!tw_clipboard_cut (WINDOW (data)->session, gtk_widget_get_clipboard (data), &error))
    say_error (data, error);
}

static void
pasted_cb (const GError *error, gpointer data)
{
  g_autoptr (TwWindow) self = data;

  say_error (self, error);
}

static void
paste_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  tw_clipboard_paste (WINDOW (data)->session, gtk_widget_get_clipboard (data), pasted_cb,
                      g_object_ref (data));
}

static void
close_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  gtk_window_close (GTK_WINDOW (data));
}

static void
lengths_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  TwSession *session = WINDOW (data)->session;
  const char *wanted = g_variant_get_string (parameter, NULL);
  TwId job = tw_job_settings (tw_session_job (session))->head.id;
  gboolean inches = !g_str_equal (wanted, "mm");
  TwValue shown = tw_value_choice (TW_FIELD_CHOICE, inches ? TW_SHOWN_IN_INCH : TW_SHOWN_IN_MM);
  TwChange *group = tw_change_group (_ ("Lengths Shown"));
  g_autoptr (GError) error = NULL;

  tw_change_group_add (group, tw_change_set (job, TW_ID_NONE, TW_SETTINGS_shown_in, &shown));
  if (inches) {
    int figures = g_str_equal (wanted, "fractions") ? TW_INCH_FRACTIONS : TW_INCH_DECIMALS;
    TwValue value = tw_value_choice (TW_FIELD_CHOICE, figures);

    tw_change_group_add (group, tw_change_set (job, TW_ID_NONE, TW_SETTINGS_inch_figures, &value));
  }
  if (!tw_session_do (session, group, &error))
    tw_window_say (WINDOW (data), error->message);
}

static const char *const view_names[TW_N_VIEWS] = { "face", "front", "side", "plan" };

static void
view_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  for (guint i = 0; i < TW_N_VIEWS; i++)
    if (g_str_equal (view_names[i], g_variant_get_string (parameter, NULL)))
      tw_session_set_view (WINDOW (data)->session, i);
  tw_window_update_actions (WINDOW (data));
}

static void
zoom_in_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  tw_canvas_zoom (WINDOW (data)->canvas, ZOOM_STEP);
}

static void
zoom_out_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  tw_canvas_zoom (WINDOW (data)->canvas, 1.0 / ZOOM_STEP);
}

static void
zoom_fit_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  tw_canvas_fit (WINDOW (data)->canvas);
}

static const GActionEntry entries[] = {
  { "view", view_cb, "s", "'face'" },
  { "zoom-in", zoom_in_cb },
  { "zoom-out", zoom_out_cb },
  { "zoom-fit", zoom_fit_cb },
  { "open", open_cb },
  { "open-sample", open_sample_cb, "s" },
  { "open-file", open_file_cb, "s" },
  { "new-layout", new_layout_cb },
  { "new-empty", new_empty_cb },
  { "save", save_cb },
  { "save-as", save_as_cb },
  { "reopen", reopen_cb },
  { "close", close_cb },
  { "undo", undo_cb },
  { "redo", redo_cb },
  { "cut", cut_cb },
  { "copy", copy_cb },
  { "paste", paste_cb },
  { "lengths", lengths_cb, "s", "'mm'" },
};

static void
enable (TwWindow *self, const char *name, gboolean enabled)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), name);

  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), enabled);
}

static const char *
lengths_state (TwWindow *self)
{
  TwUnitStyle style = tw_session_style (self->session);

  if (!style.inches)
    return "mm";
  return style.fractions ? "fractions" : "decimals";
}

void
tw_window_update_actions (TwWindow *self)
{
  gboolean has_job = tw_session_has_job (self->session);
  TwId chosen = tw_session_selection (self->session);
  g_autofree char *undo = NULL, *redo = NULL;
  GAction *view = g_action_map_lookup_action (G_ACTION_MAP (self), "view");
  GAction *lengths = g_action_map_lookup_action (G_ACTION_MAP (self), "lengths");

  g_object_get (self->session, "undo-label", &undo, "redo-label", &redo, NULL);
  enable (self, "save",
          tw_session_is_modified (self->session) || (has_job && tw_session_path (self->session) == NULL));
  enable (self, "save-as", has_job);
  enable (self, "reopen", has_job && tw_session_path (self->session) != NULL);
  enable (self, "undo", undo != NULL);
  enable (self, "redo", redo != NULL);
  enable (self, "cut", !tw_id_is_none (chosen) && !g_str_equal (chosen.text, "job"));
  enable (self, "copy", !tw_id_is_none (chosen) && !g_str_equal (chosen.text, "job"));
  enable (self, "paste", has_job);
  enable (self, "lengths", has_job);
  enable (self, "view", has_job);
  enable (self, "zoom-in", has_job);
  enable (self, "zoom-out", has_job);
  enable (self, "zoom-fit", has_job);
  tw_window_update_edit_actions (self);
  tw_window_update_look_actions (self);
  g_simple_action_set_state (G_SIMPLE_ACTION (view),
                             g_variant_new_string (view_names[tw_session_view (self->session)]));
  g_simple_action_set_state (G_SIMPLE_ACTION (lengths), g_variant_new_string (lengths_state (self)));
}

void
tw_window_add_actions (TwWindow *self)
{
  g_autoptr (GPropertyAction) show_parts
      = g_property_action_new ("show-parts", self->parts_flap, "reveal-flap");
  g_autoptr (GPropertyAction) show_answers
      = g_property_action_new ("show-answers", self->cards_flap, "reveal-flap");

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  tw_window_add_edit_actions (self);
  tw_window_add_look_actions (self);
  g_action_map_add_action (G_ACTION_MAP (self), G_ACTION (show_parts));
  g_action_map_add_action (G_ACTION_MAP (self), G_ACTION (show_answers));
}
