/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/field-entry.h"

#include "app/field-suggest.h"
#include "app/field-words.h"

#include <glib/gi18n-lib.h>

#define ENTRY_CHARS 11 /* width that holds `2' 11 15/16"` or `1234.56 mm` */
#define BARE_CHARS 6
#define UNIT_ALPHA 65 /* per cent: the unit one step lighter than its number */

struct _TwFieldEntry {
  TwFieldEditor parent_instance;

  GtkEntry *entry;
  char *shown; /* text that it had when it last agreed with the job */
  gboolean bare;
};

G_DEFINE_FINAL_TYPE (TwFieldEntry, tw_field_entry, TW_TYPE_FIELD_EDITOR)

static const char *
text_of (TwFieldEntry *self)
{
  return gtk_editable_get_text (GTK_EDITABLE (self->entry));
}

static gboolean
is_typed_in (TwFieldEntry *self)
{
  return self->shown != NULL && g_strcmp0 (text_of (self), self->shown) != 0;
}

static void
set_tip (TwFieldEntry *self, const char *tip)
{
  if (g_strcmp0 (gtk_widget_get_tooltip_text (GTK_WIDGET (self->entry)), tip) != 0)
    gtk_widget_set_tooltip_text (GTK_WIDGET (self->entry), tip);
}

static void
show_beside (TwFieldEntry *self, const TwField *field, const TwValue *value)
{
  TwSession *session = tw_field_target_session (tw_field_editor_target (TW_FIELD_EDITOR (self)));
  g_autofree char *beside = tw_field_words_beside (session, field, value);
  g_autofree char *tip = value->typed ? g_strdup_printf (_ ("Typed as %s"), value->typed) : NULL;
  g_autofree char *both = tip && beside ? g_strdup_printf ("%s %s", tip, beside) : NULL;

  tw_field_editor_set_note (TW_FIELD_EDITOR (self), beside);
  set_tip (self, both ? both : tip ? tip : _ (field->hint));
}

static void
show_unsaid (TwFieldEntry *self, const TwField *field, gboolean several)
{
  TwFieldTarget *target = tw_field_editor_target (TW_FIELD_EDITOR (self));
  g_autofree char *note = NULL;
  g_autofree char *assumed
      = several ? g_strdup (_ ("several values")) : tw_field_words_unsaid (target, &note);
  g_autofree char *tip = note ? g_strdup_printf ("%s\n%s", note, _ (field->hint)) : NULL;

  if (g_strcmp0 (gtk_entry_get_placeholder_text (self->entry), assumed) != 0)
    gtk_entry_set_placeholder_text (self->entry, assumed);
  tw_field_editor_set_note (TW_FIELD_EDITOR (self), note);
  set_tip (self, tip ? tip : _ (field->hint));
}

static void
update (TwFieldEditor *editor)
{
  TwFieldEntry *self = TW_FIELD_ENTRY (editor);
  TwFieldTarget *target = tw_field_editor_target (editor);
  const TwField *field = tw_field_target_info (target);
  g_autofree char *text = NULL;
  gboolean same;
  TwValue value;

  if (is_typed_in (self))
    return;
  same = tw_field_target_get (target, &value);
  text = tw_field_words_entry (tw_field_target_session (target), field, &value, self->bare);
  if (text == NULL)
    text = g_strdup ("");
  if (!g_str_equal (text_of (self), text))
    gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
  if (text[0] != '\0')
    show_beside (self, field, &value);
  else
    show_unsaid (self, field, !same);
  tw_value_clear (&value);
  g_free (self->shown);
  self->shown = g_steal_pointer (&text);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "field.forget", tw_field_editor_can_forget (editor));
}

/* Takes what stands there when it is another than the job says. */
static void
take (TwFieldEntry *self)
{
  TwFieldEditor *editor = TW_FIELD_EDITOR (self);
  TwFieldTarget *target = tw_field_editor_target (editor);
  TwUnitStyle style = tw_session_style (tw_field_target_session (target));
  const TwField *field = tw_field_target_info (target);
  g_autoptr (GError) error = NULL;
  TwValue value;

  if (tw_field_target_owner (target, 0) == NULL)
    return;
  if (!is_typed_in (self)) {
    tw_field_editor_set_trouble (editor, NULL);
    return;
  }
  if (!tw_value_parse (field, &style, text_of (self), &value, &error)) {
    tw_field_editor_set_trouble (editor, tw_field_words_trouble (field, error));
    return;
  }
  if (tw_field_editor_take (editor, &value) && !tw_field_editor_is_let_go (editor)) {
    g_clear_pointer (&self->shown, g_free);
    tw_field_editor_update (editor);
  }
}

static char *
draft (TwFieldEditor *editor)
{
  TwFieldEntry *self = TW_FIELD_ENTRY (editor);

  return is_typed_in (self) ? g_strdup (text_of (self)) : NULL;
}

static void
type (TwFieldEditor *editor, const char *text)
{
  TwFieldEntry *self = TW_FIELD_ENTRY (editor);

  gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
  take (self);
}

/* The unit stands one step lighter than its number: what follows the last digit. Not while it is typed in:
 * the toolkit paints chosen text that is lighter in the colour of the paper. */
static void
show_unit (TwFieldEntry *self, gboolean lighter)
{
  const char *text = text_of (self), *end = text;
  g_autoptr (PangoAttrList) list = pango_attr_list_new ();
  PangoAttribute *light;

  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    if (!g_unichar_isalpha (g_utf8_get_char (at)) && *at != '%' && *at != ' ' && g_utf8_get_char (at) != 0xb0)
      end = g_utf8_next_char (at);
  light = pango_attr_foreground_alpha_new (G_MAXUINT16 / 100 * UNIT_ALPHA);
  light->start_index = (guint)(end - text);
  if (end > text && lighter)
    pango_attr_list_insert (list, light);
  else
    pango_attribute_destroy (light);
  gtk_entry_set_attributes (self->entry, list);
}

/* --- what a person does --------------------------------------------------------------------------------- */

static void
activated_cb (TwFieldEntry *self)
{
  take (self);
  if (!tw_field_editor_is_let_go (TW_FIELD_EDITOR (self)))
    gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, -1);
}

static void
left_cb (TwFieldEntry *self)
{
  if (tw_field_editor_is_let_go (TW_FIELD_EDITOR (self)))
    return;
  take (self);
  if (gtk_entry_get_alignment (self->entry) > 0.5F)
    show_unit (self, TRUE);
}

/* Escape puts back what the job says. */
static gboolean
key_cb (TwFieldEntry *self, guint keyval, guint code, GdkModifierType held)
{
  if (keyval != GDK_KEY_Escape || !is_typed_in (self))
    return GDK_EVENT_PROPAGATE;
  gtk_editable_set_text (GTK_EDITABLE (self->entry), self->shown);
  gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, -1);
  tw_field_editor_set_trouble (TW_FIELD_EDITOR (self), NULL);
  tw_field_editor_update (TW_FIELD_EDITOR (self));
  return GDK_EVENT_STOP;
}

static void
changed_cb (TwFieldEntry *self)
{
  show_unit (self, !(gtk_widget_get_state_flags (GTK_WIDGET (self->entry)) & GTK_STATE_FLAG_FOCUS_WITHIN));
}

static void
entered_cb (TwFieldEntry *self)
{
  show_unit (self, FALSE);
}

static void
watch (TwFieldEntry *self)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  g_signal_connect_swapped (self->entry, "activate", G_CALLBACK (activated_cb), self);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (left_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self->entry), focus);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self->entry), keys);
}

/* --- the widget ----------------------------------------------------------------------------------------- */

static void
tw_field_entry_finalize (GObject *object)
{
  g_free (TW_FIELD_ENTRY (object)->shown);
  G_OBJECT_CLASS (tw_field_entry_parent_class)->finalize (object);
}

static void
tw_field_entry_class_init (TwFieldEntryClass *klass)
{
  TwFieldEditorClass *editor_class = TW_FIELD_EDITOR_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = tw_field_entry_finalize;
  editor_class->update = update;
  editor_class->draft = draft;
  editor_class->type = type;
}

static void
tw_field_entry_init (TwFieldEntry *self)
{
  self->entry = GTK_ENTRY (gtk_entry_new ());
}

static GMenuModel *
menu (void)
{
  GMenu *model = g_menu_new ();

  g_menu_append (model, _ ("_Forget What Is Said"), "field.forget");
  return G_MENU_MODEL (model);
}

static GtkWidget *
with_suggestions (TwFieldEntry *self)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  gtk_widget_add_css_class (line, "linked");
  gtk_widget_set_hexpand (GTK_WIDGET (self->entry), TRUE);
  gtk_box_append (GTK_BOX (line), GTK_WIDGET (self->entry));
  gtk_box_append (GTK_BOX (line), tw_field_suggest_button_new (TW_FIELD_EDITOR (self)));
  return line;
}

GtkWidget *
tw_field_entry_new (TwFieldTarget *target, gboolean bare)
{
  TwFieldEntry *self = g_object_new (TW_TYPE_FIELD_ENTRY, NULL);
  const TwField *field = tw_field_target_info (target);
  g_autoptr (GMenuModel) extra = menu ();
  GtkWidget *child = GTK_WIDGET (self->entry);

  self->bare = bare;
  gtk_editable_set_width_chars (GTK_EDITABLE (self->entry), bare ? BARE_CHARS : ENTRY_CHARS);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self->entry), bare ? BARE_CHARS : ENTRY_CHARS);
  gtk_entry_set_extra_menu (self->entry, extra);
  tw_field_editor_set_up (TW_FIELD_EDITOR (self), target, GTK_WIDGET (self->entry));
  if (field->store != TW_FIELD_TEXT) {
    gtk_widget_add_css_class (GTK_WIDGET (self->entry), "numeric");
    gtk_entry_set_alignment (self->entry, 1.0F);
    g_signal_connect_swapped (self->entry, "changed", G_CALLBACK (changed_cb), self);
    g_signal_connect_swapped (self, "reached", G_CALLBACK (entered_cb), self);
  } else if (tw_field_suggests (field)) {
    child = with_suggestions (self);
  }
  gtk_widget_set_parent (child, GTK_WIDGET (self));
  watch (self);
  tw_field_editor_update (TW_FIELD_EDITOR (self));
  return GTK_WIDGET (self);
}
