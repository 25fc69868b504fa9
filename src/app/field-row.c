/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/field-row.h"

#include "app/field-pick.h"
#include "app/field-entry.h"
#include "app/field-page.h"

#include <glib/gi18n-lib.h>

#define EDITOR_PX 132        /* editors beside a name all end at the same edge */
#define LONG_TEXT_BYTES 1000 /* longer texts get a page of lines */
#define TEXT_BYTES 60        /* longer texts get the whole width */
#define CHOICE_CHARS 10      /* so do longer words */

struct _TwFieldRow {
  GtkWidget parent_instance;

  GtkWidget *line;
  GtkLabel *name;
  GtkBox *place; /* of editor and note */
  GtkLabel *note;
  GtkRevealer *revealer;
  GtkLabel *trouble;

  TwFieldEditor *editor;
};

enum { TROUBLED, N_SIGNALS };

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TwFieldRow, tw_field_row, GTK_TYPE_WIDGET)

static void
told_cb (TwFieldRow *self)
{
  const char *trouble = tw_field_editor_trouble (self->editor);
  const char *note = tw_field_editor_note (self->editor);

  gtk_label_set_text (self->note, note ? note : "");
  gtk_widget_set_visible (GTK_WIDGET (self->note), note != NULL);
  if (trouble != NULL)
    gtk_label_set_text (self->trouble, trouble);
  gtk_revealer_set_reveal_child (self->revealer, trouble != NULL);
  if (trouble != NULL)
    g_signal_emit (self, signals[TROUBLED], 0);
}

static void
tw_field_row_dispose (GObject *object)
{
  TwFieldRow *self = TW_FIELD_ROW (object);
  GtkWidget *child;

  if (self->editor != NULL)
    g_signal_handlers_disconnect_by_data (self->editor, self);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  self->editor = NULL;
  G_OBJECT_CLASS (tw_field_row_parent_class)->dispose (object);
}

static void
tw_field_row_class_init (TwFieldRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tw_field_row_dispose;
  signals[TROUBLED]
      = g_signal_new ("troubled", TW_TYPE_FIELD_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);

  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/field-row.ui");
  gtk_widget_class_bind_template_child (widget_class, TwFieldRow, line);
  gtk_widget_class_bind_template_child (widget_class, TwFieldRow, name);
  gtk_widget_class_bind_template_child (widget_class, TwFieldRow, place);
  gtk_widget_class_bind_template_child (widget_class, TwFieldRow, note);
  gtk_widget_class_bind_template_child (widget_class, TwFieldRow, revealer);
  gtk_widget_class_bind_template_child (widget_class, TwFieldRow, trouble);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "field-row");
}

static void
tw_field_row_init (TwFieldRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_orientable_set_orientation (GTK_ORIENTABLE (gtk_widget_get_layout_manager (GTK_WIDGET (self))),
                                  GTK_ORIENTATION_VERTICAL);
}

/* Whether the editor wants the whole width, under its name. */
static gboolean
wants_width (const TwField *field)
{
  if (field->store == TW_FIELD_REF)
    return TRUE;
  if (field->store == TW_FIELD_TEXT)
    return field->high >= TEXT_BYTES;
  if (field->store == TW_FIELD_CHOICE)
    for (const TwChoice *c = field->choices; c->name != NULL; c++)
      if (g_utf8_strlen (_ (c->label), -1) > CHOICE_CHARS)
        return TRUE;
  return FALSE;
}

static GtkWidget *
make_editor (TwFieldTarget *target)
{
  const TwField *field = tw_field_target_info (target);

  if (field->store == TW_FIELD_TEXT && field->high > LONG_TEXT_BYTES)
    return tw_field_page_new (target);
  if (field->store == TW_FIELD_NUMBER || field->store == TW_FIELD_COUNT || field->store == TW_FIELD_TEXT)
    return tw_field_entry_new (target, FALSE);
  return tw_field_pick_new (target);
}

GtkWidget *
tw_field_row_new (TwFieldTarget *target)
{
  TwFieldRow *self = g_object_new (TW_TYPE_FIELD_ROW, NULL);
  const TwField *field = tw_field_target_info (target);
  GtkWidget *editor = make_editor (target), *inner;

  self->editor = TW_FIELD_EDITOR (editor);
  inner = tw_field_editor_inner (self->editor);
  gtk_label_set_text (self->name, _ (field->label));
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->name), _ (field->hint));
  gtk_label_set_mnemonic_widget (self->name, inner);
  if (wants_width (field)) {
    gtk_orientable_set_orientation (GTK_ORIENTABLE (self->line), GTK_ORIENTATION_VERTICAL);
    gtk_box_set_spacing (GTK_BOX (self->line), 2);
  } else {
    gtk_widget_set_size_request (editor, EDITOR_PX, -1);
    gtk_widget_add_css_class (GTK_WIDGET (self->name), "beside");
  }
  gtk_box_prepend (self->place, editor);
  g_signal_connect_swapped (editor, "told", G_CALLBACK (told_cb), self);
  told_cb (self);
  return GTK_WIDGET (self);
}

TwFieldEditor *
tw_field_row_editor (TwFieldRow *self)
{
  return self->editor;
}

guint
tw_field_row_field (TwFieldRow *self)
{
  return tw_field_target_field (tw_field_editor_target (self->editor));
}

void
tw_field_row_set_moving (TwFieldRow *self, gboolean moving)
{
  if (moving)
    gtk_widget_add_css_class (GTK_WIDGET (self), "moving");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "moving");
}
