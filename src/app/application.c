/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/application.h"

#include "app/help-window.h"
#include "app/recovery.h"
#include "app/window.h"

#include <glib/gi18n-lib.h>

typedef struct {
  const char *action;
  const char *keys[3];
} Shortcut;

static const Shortcut shortcuts[] = {
  { "app.new-window", { "<Ctrl>n" } },
  { "app.quit", { "<Ctrl>q" } },
  { "win.new-layout", { "<Ctrl><Shift>n" } },
  { "win.open", { "<Ctrl>o" } },
  { "win.save", { "<Ctrl>s" } },
  { "win.save-as", { "<Ctrl><Shift>s" } },
  { "win.reopen", { "<Ctrl>r" } },
  { "win.close", { "<Ctrl>w" } },
  { "win.undo", { "<Ctrl>z" } },
  { "win.redo", { "<Ctrl><Shift>z", "<Ctrl>y" } },
  { "win.duplicate", { "<Ctrl>d" } },
  { "win.zoom-chosen", { "<Ctrl>9" } },
  { "win.distance", { "<Ctrl><Shift>d" } },
  { "win.show-rulers", { "<Ctrl><Shift>r" } },
  { "win.copy-picture", { "<Ctrl><Shift>c" } },
  { "win.view::face", { "<Ctrl>1" } },
  { "win.view::front", { "<Ctrl>2" } },
  { "win.view::side", { "<Ctrl>3" } },
  { "win.view::plan", { "<Ctrl>4" } },
  { "win.zoom-in", { "<Ctrl>plus", "<Ctrl>equal" } },
  { "win.zoom-out", { "<Ctrl>minus" } },
  { "win.zoom-fit", { "<Ctrl>0" } },
  { "win.show-parts", { "F9" } },
  { "win.show-answers", { "<Shift>F9" } },
  { "win.show-help-overlay", { "<Ctrl>question" } },
  { "app.help::first-steps", { "F1" } },
};

static void
new_window_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  gtk_window_present (GTK_WINDOW (tw_window_new (ADW_APPLICATION (data))));
}

static void quit_next (GtkApplication *application);

static void
quit_answered_cb (TwWindow *window, gboolean ok, gpointer data)
{
  if (ok) {
    quit_next (data);
    return;
  }
  for (GList *at = gtk_application_get_windows (data); at != NULL; at = at->next)
    if (TW_IS_WINDOW (at->data))
      tw_window_stay (at->data);
}

/* Asks about the changes of one window after the other; closes all of them when nothing holds any of them. */
static void
quit_next (GtkApplication *application)
{
  g_autoptr (GList) windows = g_list_copy (gtk_application_get_windows (application));

  for (GList *at = windows; at != NULL; at = at->next)
    if (TW_IS_WINDOW (at->data) && tw_window_wants_answer (at->data)) {
      gtk_window_present (at->data);
      tw_window_ask_close (at->data, quit_answered_cb, application);
      return;
    }
  for (GList *at = windows; at != NULL; at = at->next)
    gtk_window_close (at->data);
}

static void
quit_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  quit_next (data);
}

static void
recover_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  if (!tw_recovery_offer (data))
    tw_window_say (TW_WINDOW (gtk_application_get_active_window (data)),
                   _ ("There is no unsaved work to recover"));
}

static void
help_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (data));

  if (window != NULL)
    tw_help_show (window, g_variant_get_string (parameter, NULL));
}

static void
about_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  GtkWindow *parent = gtk_application_get_active_window (GTK_APPLICATION (data));

  adw_show_about_window (
      parent, "application-name", _ ("Tankwright"), "application-icon", TW_APPLICATION_ID, "version",
      TW_VERSION, "comments",
      _ ("Lays out one-off aluminium radiators. Figures are estimates: prove the finished part "
         "with a pressure test and instrumented running. Never open a hot system."),
      "license-type", GTK_LICENSE_GPL_3_0, NULL);
}

static void
colour_scheme_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  const char *wanted = g_variant_get_string (parameter, NULL);
  AdwColorScheme scheme = ADW_COLOR_SCHEME_DEFAULT;

  if (g_str_equal (wanted, "light"))
    scheme = ADW_COLOR_SCHEME_FORCE_LIGHT;
  else if (g_str_equal (wanted, "dark"))
    scheme = ADW_COLOR_SCHEME_FORCE_DARK;
  adw_style_manager_set_color_scheme (adw_application_get_style_manager (ADW_APPLICATION (data)), scheme);
  g_simple_action_set_state (action, parameter);
}

static const GActionEntry entries[] = {
  { "new-window", new_window_cb }, { "quit", quit_cb },
  { "recover", recover_cb },       { "help", help_cb, "s" },
  { "about", about_cb },           { "colour-scheme", colour_scheme_cb, "s", "'system'" },
};

static gboolean
offer_recovery_cb (gpointer data)
{
  if (gtk_application_get_active_window (data) != NULL)
    (void)tw_recovery_offer (data);
  return G_SOURCE_REMOVE;
}

/* Once, over the first window. */
static void
first_window_cb (GtkApplication *application)
{
  g_signal_handlers_disconnect_by_func (application, first_window_cb, NULL);
  g_idle_add_full (G_PRIORITY_LOW, offer_recovery_cb, g_object_ref (application), g_object_unref);
}

static void
activate_cb (GtkApplication *application)
{
  GtkWindow *window = gtk_application_get_active_window (application);

  if (window == NULL)
    window = GTK_WINDOW (tw_window_new (ADW_APPLICATION (application)));
  gtk_window_present (window);
}

static void
open_path (GtkApplication *application, const char *path)
{
  GtkWindow *window = gtk_application_get_active_window (application);

  if (!TW_IS_WINDOW (window))
    window = GTK_WINDOW (tw_window_new (ADW_APPLICATION (application)));
  gtk_window_present (window);
  tw_window_open_path (TW_WINDOW (window), path, FALSE);
}

static void
open_cb (GtkApplication *application, GFile **files, int n_files)
{
  for (int i = 0; i < n_files; i++) {
    g_autofree char *path = g_file_get_path (files[i]);

    if (path != NULL)
      open_path (application, path);
  }
  if (gtk_application_get_active_window (application) == NULL)
    activate_cb (application);
}

static void
startup_cb (GtkApplication *application)
{
  g_action_map_add_action_entries (G_ACTION_MAP (application), entries, G_N_ELEMENTS (entries), application);
  for (guint i = 0; i < G_N_ELEMENTS (shortcuts); i++)
    gtk_application_set_accels_for_action (application, shortcuts[i].action, shortcuts[i].keys);
  gtk_window_set_default_icon_name (TW_APPLICATION_ID);
}

AdwApplication *
tw_application_new (GApplicationFlags flags)
{
  AdwApplication *application = adw_application_new (TW_APPLICATION_ID, flags | G_APPLICATION_HANDLES_OPEN);

  g_signal_connect (application, "startup", G_CALLBACK (startup_cb), NULL);
  g_signal_connect (application, "activate", G_CALLBACK (activate_cb), NULL);
  g_signal_connect (application, "open", G_CALLBACK (open_cb), NULL);
  g_signal_connect (application, "window-added", G_CALLBACK (first_window_cb), NULL);
  return application;
}
