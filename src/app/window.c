/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/window-private.h"

#include "app/recent.h"
#include "app/start-page.h"

#include <glib/gi18n-lib.h>

G_DEFINE_FINAL_TYPE (TwWindow, tw_window, ADW_TYPE_APPLICATION_WINDOW)

static void
show_title (TwWindow *self)
{
  g_autofree char *name = tw_session_title (self->session);
  const char *path = tw_session_path (self->session);
  gboolean modified = tw_session_is_modified (self->session);
  g_autofree char *shown = NULL, *place = NULL, *whole = NULL, *tip = NULL;

  if (!tw_session_has_job (self->session)) {
    adw_window_title_set_title (self->title, _ ("Tankwright"));
    adw_window_title_set_subtitle (self->title, "");
    gtk_window_set_title (GTK_WINDOW (self), _ ("Tankwright"));
    return;
  }
  shown = g_strconcat (modified ? "• " : "", name, NULL);
  place = path ? g_filename_display_basename (path) : g_strdup (_ ("not saved yet"));
  whole = g_strdup_printf (_ ("%s – Tankwright"), shown);
  tip = g_strconcat (name, "\n", place, NULL);
  adw_window_title_set_title (self->title, shown);
  adw_window_title_set_subtitle (self->title, place);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->title), tip);
  gtk_window_set_title (GTK_WINDOW (self), whole);
}

static void
add_count (GString *text, const char *format, guint n)
{
  if (n == 0)
    return;
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
  g_string_append (text, text->len ? " · " : "");
  g_string_append_printf (text, format, n);
#pragma GCC diagnostic pop
}

/* The status line says what was found even while the cards are folded away. */
static void
show_findings (TwWindow *self)
{
  const TwAnswer *answer = tw_session_answer (self->session);
  const TwFindings *findings = answer ? tw_answer_findings (answer) : NULL;
  GString *text = g_string_new (NULL);
  guint n[TW_N_SEVERITIES];

  for (guint i = 0; i < TW_N_SEVERITIES; i++)
    n[i] = findings ? tw_findings_count_of (findings, i) : 0;
  add_count (text, ngettext ("%u stop", "%u stops", n[TW_SEVERITY_STOP]), n[TW_SEVERITY_STOP]);
  add_count (text, ngettext ("%u warning", "%u warnings", n[TW_SEVERITY_WARN]), n[TW_SEVERITY_WARN]);
  add_count (text, ngettext ("%u note", "%u notes", n[TW_SEVERITY_NOTE]), n[TW_SEVERITY_NOTE]);
  if (text->len == 0)
    g_string_append (text, _ ("Nothing found"));
  if (g_strcmp0 (gtk_label_get_label (self->findings), text->str) != 0)
    gtk_label_set_label (self->findings, text->str);
  g_string_free (text, TRUE);
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
  show_findings (self);
  tw_window_update_actions (self);
}

/* Keys go to the drawing until the person chooses otherwise. */
static void
job_replaced_cb (TwWindow *self)
{
  gtk_stack_set_visible_child_name (self->pages, "job");
  gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
}

static void
show_tip (GtkWidget *widget, const char *text)
{
  if (g_strcmp0 (gtk_widget_get_tooltip_text (widget), text) != 0)
    gtk_widget_set_tooltip_text (widget, text);
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
  show_tip (self->undo, undo_tip);
  show_tip (self->redo, redo_tip);
  tw_window_update_actions (self);
}

static void
part_activated_cb (TwWindow *self)
{
  adw_flap_set_reveal_flap (self->parts_flap, TRUE);
  tw_part_form_take_focus (self->form, -1);
}

static void
findings_clicked_cb (TwWindow *self)
{
  adw_flap_set_reveal_flap (self->cards_flap, TRUE);
  tw_cards_pane_reveal (self->cards, "findings");
}

/* The form marks what the drag changes. */
static void
show_drag (TwWindow *self)
{
  guint n;
  const guint *fields = tw_canvas_moving_fields (self->canvas, &n);

  tw_part_form_mark (self->form, fields, n);
}

static void
keeper_trouble_cb (TwWindow *self, const char *words)
{
  tw_window_say_with (self, words, NULL, NULL);
}

/* What was done is kept beside the file, and the file is watched. */
static void
keep_job (TwWindow *self)
{
  self->keeper = tw_keeper_new (self->session);
  g_signal_connect_object (self->keeper, "trouble", G_CALLBACK (keeper_trouble_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->keeper, "disk-changed", G_CALLBACK (tw_window_disk_changed), self,
                           G_CONNECT_SWAPPED);
  tw_window_accept_files (self);
  tw_recent_keep_menu (self->recent_menu);
}

static void
bind_status (TwWindow *self)
{
  g_object_bind_property (self->canvas, "position", self->position, "label", G_BINDING_SYNC_CREATE);
  /* in a narrow window they are shortened */
  g_object_bind_property (self->position, "label", self->position, "tooltip-text", G_BINDING_SYNC_CREATE);
  g_object_bind_property (self->snap, "label", self->snap, "tooltip-text", G_BINDING_SYNC_CREATE);
  g_object_bind_property (self->findings, "label", self->findings, "tooltip-text", G_BINDING_SYNC_CREATE);
  g_object_bind_property (self->canvas, "snap", self->snap, "label", G_BINDING_SYNC_CREATE);
  g_object_bind_property (self->canvas, "zoom", self->zoom, "label", G_BINDING_SYNC_CREATE);
  g_signal_connect_object (self->canvas, "notify::snap", G_CALLBACK (show_drag), self, G_CONNECT_SWAPPED);
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
  gtk_widget_set_visible (GTK_WIDGET (self->ruler_across),
                          !g_settings_get_boolean (self->settings, "rulers-folded"));
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
  g_settings_set_boolean (self->settings, "rulers-folded",
                          !gtk_widget_get_visible (GTK_WIDGET (self->ruler_across)));
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
  g_clear_object (&self->keeper);
  G_OBJECT_CLASS (tw_window_parent_class)->dispose (object);
  g_clear_object (&self->session);
}

static void
tw_window_class_init (TwWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tw_window_dispose;
  GTK_WINDOW_CLASS (klass)->close_request = tw_window_close_request;

  g_type_ensure (TW_TYPE_CANVAS);
  g_type_ensure (TW_TYPE_CARDS_PANE);
  g_type_ensure (TW_TYPE_RULER);
  g_type_ensure (TW_TYPE_START_PAGE);
  g_type_ensure (TW_TYPE_PARTS_PANE);
  g_type_ensure (TW_TYPE_PART_FORM);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/window.ui");
  gtk_widget_class_bind_template_child (widget_class, TwWindow, toasts);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, title);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, recent_menu);
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
  gtk_widget_class_bind_template_child (widget_class, TwWindow, canvas);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, cards);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, ruler_across);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, ruler_up);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, position);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, snap);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, zoom);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, findings);
  gtk_widget_class_bind_template_child (widget_class, TwWindow, context_menu);
  gtk_widget_class_bind_template_callback (widget_class, findings_clicked_cb);
  gtk_widget_class_bind_template_callback (widget_class, part_activated_cb);
  /* Not the program's own keys: those come before an entry that has the focus, and text is copied there. */
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_x, GDK_CONTROL_MASK, "win.cut", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_c, GDK_CONTROL_MASK, "win.copy", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_v, GDK_CONTROL_MASK, "win.paste", NULL);
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
  tw_canvas_set_session (self->canvas, self->session);
  tw_canvas_set_menu (self->canvas, self->context_menu);
  tw_cards_pane_set_session (self->cards, self->session, self->settings);
  bind_status (self);
  keep_job (self);

  g_signal_connect_object (self->session, "job-replaced", G_CALLBACK (job_replaced_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->session, "job-changed", G_CALLBACK (show_job), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->session, "selection-changed", G_CALLBACK (tw_window_update_actions), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->session, "notify::view", G_CALLBACK (tw_window_update_actions), self,
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

static void
toast_gone_cb (TwWindow *self, AdwToast *toast)
{
  if (self->toast == toast)
    self->toast = NULL;
}

/* In the place of the one before, which may stand there for a while yet: news is not kept waiting. */
static void
show_toast (TwWindow *self, AdwToast *toast)
{
  if (self->toast != NULL)
    adw_toast_dismiss (self->toast);
  self->toast = toast;
  g_signal_connect_object (toast, "dismissed", G_CALLBACK (toast_gone_cb), self, G_CONNECT_SWAPPED);
  adw_toast_overlay_add_toast (self->toasts, toast);
}

void
tw_window_say (TwWindow *self, const char *message)
{
  g_autofree char *markup = g_markup_escape_text (message, -1); /* names of parts may hold any sign */
  AdwToast *toast = adw_toast_new (markup);

  adw_toast_set_timeout (toast, 3);
  show_toast (self, toast);
}

void
tw_window_say_with (TwWindow *self, const char *message, const char *button, const char *action)
{
  AdwToast *toast = adw_toast_new (message);

  adw_toast_set_timeout (toast, 15);
  if (button != NULL) {
    adw_toast_set_button_label (toast, button);
    adw_toast_set_action_name (toast, action);
  }
  show_toast (self, toast);
}
