/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/window-private.h"

#include "app/start-page.h"

#include <glib/gi18n-lib.h>

G_DEFINE_FINAL_TYPE (TwWindow, tw_window, ADW_TYPE_APPLICATION_WINDOW)

static void
show_title (TwWindow *self)
{
  g_autofree char *name = tw_session_title (self->session);
  const char *path = tw_session_path (self->session);
  gboolean modified = tw_session_is_modified (self->session);
  g_autofree char *shown = NULL, *place = NULL, *whole = NULL;

  if (!tw_session_has_job (self->session)) {
    adw_window_title_set_title (self->title, _ ("Tankwright"));
    adw_window_title_set_subtitle (self->title, "");
    gtk_window_set_title (GTK_WINDOW (self), _ ("Tankwright"));
    return;
  }
  shown = g_strconcat (modified ? "• " : "", name, NULL);
  place = path ? g_filename_display_basename (path) : g_strdup (_ ("not saved yet"));
  whole = g_strdup_printf (_ ("%s – Tankwright"), shown);
  adw_window_title_set_title (self->title, shown);
  adw_window_title_set_subtitle (self->title, place);
  gtk_window_set_title (GTK_WINDOW (self), whole);
}

static void
show_job (TwWindow *self)
{
  gboolean has_job = tw_session_has_job (self->session);
  const char *page = has_job ? "job" : "start";

  if (g_strcmp0 (gtk_stack_get_visible_child_name (self->pages), page) != 0)
    gtk_stack_set_visible_child_name (self->pages, page);
  gtk_widget_set_visible (self->views, has_job);
  gtk_widget_set_visible (self->parts_toggle, has_job);
  gtk_widget_set_visible (self->cards_toggle, has_job);
  gtk_widget_set_visible (self->save, has_job);
  gtk_widget_set_visible (self->undo, has_job);
  gtk_widget_set_visible (self->redo, has_job);
  tw_window_update_actions (self);
}

/* Undo and redo say what they would do. */
static void
show_history (TwWindow *self)
{
  g_autofree char *undo = NULL, *redo = NULL, *undo_tip = NULL, *redo_tip = NULL;

  g_object_get (self->session, "undo-label", &undo, "redo-label", &redo, NULL);
  /* Translators: %s is the name of a change, as “Place along the header of Lower baffle” */
  undo_tip = undo ? g_strdup_printf (_ ("Undo: %s (Ctrl+Z)"), undo) : g_strdup (_ ("Nothing to undo"));
  redo_tip = redo ? g_strdup_printf (_ ("Redo: %s (Ctrl+Shift+Z)"), redo) : g_strdup (_ ("Nothing to redo"));
  gtk_widget_set_tooltip_text (self->undo, undo_tip);
  gtk_widget_set_tooltip_text (self->redo, redo_tip);
  tw_window_update_actions (self);
}

static void
restore_size (TwWindow *self)
{
  int width, height;

  if (self->settings == NULL)
    return;
  g_settings_get (self->settings, "window-size", "(ii)", &width, &height);
  gtk_window_set_default_size (GTK_WINDOW (self), width, height);
  if (g_settings_get_boolean (self->settings, "window-maximized"))
    gtk_window_maximize (GTK_WINDOW (self));
  adw_flap_set_reveal_flap (self->parts_flap, !g_settings_get_boolean (self->settings, "parts-folded"));
  adw_flap_set_reveal_flap (self->cards_flap, !g_settings_get_boolean (self->settings, "cards-folded"));
}

static void
keep_size (TwWindow *self)
{
  int width, height;

  if (self->settings == NULL)
    return;
  gtk_window_get_default_size (GTK_WINDOW (self), &width, &height);
  g_settings_set (self->settings, "window-size", "(ii)", width, height);
  g_settings_set_boolean (self->settings, "window-maximized", gtk_window_is_maximized (GTK_WINDOW (self)));
  g_settings_set_boolean (self->settings, "parts-folded", !adw_flap_get_reveal_flap (self->parts_flap));
  g_settings_set_boolean (self->settings, "cards-folded", !adw_flap_get_reveal_flap (self->cards_flap));
}

static gboolean
tw_window_close_request (GtkWindow *window)
{
  TwWindow *self = TW_WINDOW (window);

  if (!tw_window_try_close (self))
    return TRUE;
  keep_size (self);
  return GTK_WINDOW_CLASS (tw_window_parent_class)->close_request (window);
}

static void
tw_window_dispose (GObject *object)
{
  TwWindow *self = TW_WINDOW (object);

  g_clear_object (&self->settings);
  G_OBJECT_CLASS (tw_window_parent_class)->dispose (object);
  g_clear_object (&self->session);
}

static void
tw_window_class_init (TwWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tw_window_dispose;
  GTK_WINDOW_CLASS (klass)->close_request = tw_window_close_request;

  g_type_ensure (TW_TYPE_START_PAGE);
  g_type_ensure (TW_TYPE_PARTS_PANE);
  g_type_ensure (TW_TYPE_PART_FORM);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/window.ui");
  gtk_widget_class_bind_template_child (widget_class, TwWindow, toasts);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, title);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, pages);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, views);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, parts_toggle);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, cards_toggle);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, undo);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, redo);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, save);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, parts_flap);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, cards_flap);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, parts);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, form);
}

/* The schema may be missing where the program was built and not installed. */
static GSettings *
find_settings (void)
{
  GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
  g_autoptr (GSettingsSchema) schema = NULL;

  if (source != NULL)
    schema = g_settings_schema_source_lookup (source, "org.tankwright.Tankwright", TRUE);
  return schema ? g_settings_new ("org.tankwright.Tankwright") : NULL;
}

static void
tw_window_init (TwWindow *self)
{
  self->session = tw_session_new ();
  self->settings = find_settings ();
  gtk_widget_init_template (GTK_WIDGET (self));
  tw_window_add_actions (self);
  tw_parts_pane_set_session (self->parts, self->session);
  tw_part_form_set_session (self->form, self->session);

  g_signal_connect_object (self->session, "job-changed", G_CALLBACK (show_job), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->session, "selection-changed", G_CALLBACK (tw_window_update_actions), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->session, "notify::title", G_CALLBACK (show_title), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->session, "notify::path", G_CALLBACK (show_title), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->session, "notify::modified", G_CALLBACK (show_title), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->session, "notify::undo-label", G_CALLBACK (show_history), self,
                           G_CONNECT_SWAPPED);
  restore_size (self);
  show_job (self);
  show_title (self);
  show_history (self);
}

TwWindow *
tw_window_new (AdwApplication *application)
{
  return g_object_new (TW_TYPE_WINDOW, "application", application, NULL);
}

TwSession *
tw_window_session (TwWindow *self)
{
  return self->session;
}

void
tw_window_say (TwWindow *self, const char *message)
{
  AdwToast *toast = adw_toast_new (message);

  adw_toast_set_timeout (toast, 3);
  adw_toast_overlay_add_toast (self->toasts, toast);
}
