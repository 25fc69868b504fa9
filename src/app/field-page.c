/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/field-page.h"

#include "app/field-words.h"

#include <glib/gi18n-lib.h>

#define PAGE_HEIGHT_PX 96

struct _TwFieldPage {
  TwFieldEditor parent_instance;

  GtkTextView *view;
  char *shown; /* text that it had when it last agreed with the job */
};

G_DEFINE_FINAL_TYPE (TwFieldPage, tw_field_page, TW_TYPE_FIELD_EDITOR)

static char *
text_of (TwFieldPage *self)
{
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (self->view);
  GtkTextIter start, end;

  gtk_text_buffer_get_bounds (buffer, &start, &end);
  return gtk_text_buffer_get_text (buffer, &start, &end, FALSE);
}

static char *
draft (TwFieldEditor *editor)
{
  TwFieldPage *self = TW_FIELD_PAGE (editor);
  g_autofree char *now = text_of (self);

  return g_strcmp0 (now, self->shown) != 0 ? g_steal_pointer (&now) : NULL;
}

static void
update (TwFieldEditor *editor)
{
  TwFieldPage *self = TW_FIELD_PAGE (editor);
  g_autofree char *typed = self->shown != NULL ? draft (editor) : NULL;
  const char *text;
  TwValue value;

  if (typed != NULL)
    return;
  text = tw_field_target_get (tw_field_editor_target (editor), &value) && value.text ? value.text : "";
  if (g_strcmp0 (text, self->shown) != 0)
    gtk_text_buffer_set_text (gtk_text_view_get_buffer (self->view), text, -1);
  g_free (self->shown);
  self->shown = g_strdup (text);
  tw_value_clear (&value);
}

static void
take (TwFieldPage *self)
{
  TwFieldEditor *editor = TW_FIELD_EDITOR (self);
  const TwField *field = tw_field_target_info (tw_field_editor_target (editor));
  g_autofree char *text = draft (editor);
  g_autoptr (GError) error = NULL;
  TwUnitStyle style = TW_UNIT_STYLE_MM;
  TwValue value;

  if (text == NULL) {
    tw_field_editor_set_trouble (editor, NULL);
    return;
  }
  if (!tw_value_parse (field, &style, text, &value, &error)) {
    tw_field_editor_set_trouble (editor, tw_field_words_trouble (field, error));
    return;
  }
  if (tw_field_editor_take (editor, &value) && !tw_field_editor_is_let_go (editor)) {
    g_free (self->shown);
    self->shown = g_steal_pointer (&text);
  }
}

static void
type (TwFieldEditor *editor, const char *text)
{
  TwFieldPage *self = TW_FIELD_PAGE (editor);

  gtk_text_buffer_set_text (gtk_text_view_get_buffer (self->view), text, -1);
  take (self);
}

static void
left_cb (TwFieldPage *self)
{
  if (!tw_field_editor_is_let_go (TW_FIELD_EDITOR (self)))
    take (self);
}

static void
tw_field_page_finalize (GObject *object)
{
  g_free (TW_FIELD_PAGE (object)->shown);
  G_OBJECT_CLASS (tw_field_page_parent_class)->finalize (object);
}

static void
tw_field_page_class_init (TwFieldPageClass *klass)
{
  TwFieldEditorClass *editor_class = TW_FIELD_EDITOR_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = tw_field_page_finalize;
  editor_class->update = update;
  editor_class->draft = draft;
  editor_class->type = type;
}

static void
tw_field_page_init (TwFieldPage *self)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  self->view = GTK_TEXT_VIEW (gtk_text_view_new ());
  gtk_text_view_set_wrap_mode (self->view, GTK_WRAP_WORD_CHAR);
  gtk_text_view_set_accepts_tab (self->view, FALSE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), GTK_WIDGET (self->view));
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scroller), PAGE_HEIGHT_PX);
  gtk_scrolled_window_set_has_frame (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_widget_add_css_class (scroller, "note");
  gtk_widget_set_parent (scroller, GTK_WIDGET (self));
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (left_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self->view), focus);
}

GtkWidget *
tw_field_page_new (TwFieldTarget *target)
{
  TwFieldPage *self = g_object_new (TW_TYPE_FIELD_PAGE, NULL);

  tw_field_editor_set_up (TW_FIELD_EDITOR (self), target, GTK_WIDGET (self->view));
  tw_field_editor_update (TW_FIELD_EDITOR (self));
  return GTK_WIDGET (self);
}
