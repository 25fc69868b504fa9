/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/application.h"

#include "app/help-window.h"
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

/* Each window asks about its changes and may stay. */
static void
quit_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_autoptr (GList) windows = g_list_copy (gtk_application_get_windows (GTK_APPLICATION (data)));

  for (GList *at = windows; at != NULL; at = at->next)
    gtk_window_close (GTK_WINDOW (at->data));
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
  { "new-window", new_window_cb },
  { "quit", quit_cb },
  { "help", help_cb, "s" },
  { "about", about_cb },
  { "colour-scheme", colour_scheme_cb, "s", "'system'" },
};

static void
activate_cb (GtkApplication *application)
{
  GtkWindow *window = gtk_application_get_active_window (application);

  if (window == NULL)
    window = GTK_WINDOW (tw_window_new (ADW_APPLICATION (application)));
  gtk_window_present (window);
}

static void
open_cb (GtkApplication *application, GFile **files, int n_files)
{
  for (int i = 0; i < n_files; i++) {
    g_autofree char *path = g_file_get_path (files[i]);
    TwWindow *window = tw_window_new (ADW_APPLICATION (application));

    gtk_window_present (GTK_WINDOW (window));
    if (path != NULL)
      tw_window_open_path (window, path, FALSE);
  }
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
  return application;
}
