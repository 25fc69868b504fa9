/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/window-private.h"

#include <glib/gi18n-lib.h>

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
close_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  gtk_window_close (GTK_WINDOW (data));
}

static void
delete_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  TwSession *session = WINDOW (data)->session;
  g_autoptr (GError) error = NULL;
  TwChange *change = tw_change_remove_whole (tw_session_job (session), tw_session_selection (session));

  if (!tw_session_do (session, change, &error))
    tw_window_say (WINDOW (data), error->message);
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

static const GActionEntry entries[] = {
  { "open", open_cb },     { "open-sample", open_sample_cb, "s" },
  { "save", save_cb },     { "save-as", save_as_cb },
  { "reopen", reopen_cb }, { "close", close_cb },
  { "undo", undo_cb },     { "redo", redo_cb },
  { "delete", delete_cb }, { "lengths", lengths_cb, "s", "'mm'" },
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
  GAction *lengths = g_action_map_lookup_action (G_ACTION_MAP (self), "lengths");

  g_object_get (self->session, "undo-label", &undo, "redo-label", &redo, NULL);
  enable (self, "save", has_job);
  enable (self, "save-as", has_job);
  enable (self, "reopen", has_job && tw_session_path (self->session) != NULL);
  enable (self, "undo", undo != NULL);
  enable (self, "redo", redo != NULL);
  enable (self, "delete", !tw_id_is_none (chosen) && !g_str_equal (chosen.text, "job"));
  enable (self, "lengths", has_job);
  g_simple_action_set_state (G_SIMPLE_ACTION (lengths), g_variant_new_string (lengths_state (self)));
}

void
tw_window_add_actions (TwWindow *self)
{
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
}
