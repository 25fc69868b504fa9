/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/field-editor.h"

#include "app/field-words.h"

#include <glib/gi18n-lib.h>

typedef struct {
  TwFieldTarget *target;
  GtkWidget *inner;
  char *trouble;
  char *note;
  gboolean let_go;
} TwFieldEditorPrivate;

enum { TOLD, REACHED, N_SIGNALS };

static guint signals[N_SIGNALS];

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (TwFieldEditor, tw_field_editor, GTK_TYPE_WIDGET)

static TwFieldEditorPrivate *
private_of (TwFieldEditor *self)
{
  return tw_field_editor_get_instance_private (self);
}

/* What is wrong comes first, then what is assumed, then what the field is. */
static void
describe (TwFieldEditor *self)
{
  TwFieldEditorPrivate *own = private_of (self);
  const char *hint = _ (tw_field_target_info (own->target)->hint);
  const char *first = own->trouble ? own->trouble : own->note;
  g_autofree char *text = first ? g_strdup_printf ("%s; %s", first, hint) : g_strdup (hint);

  gtk_accessible_update_property (GTK_ACCESSIBLE (own->inner), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text, -1);
}

static void
reached_cb (TwFieldEditor *self)
{
  g_signal_emit (self, signals[REACHED], 0);
}

static void
tw_field_editor_dispose (GObject *object)
{
  TwFieldEditorPrivate *own = private_of (TW_FIELD_EDITOR (object));
  GtkWidget *child;

  own->let_go = TRUE;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  own->inner = NULL;
  G_OBJECT_CLASS (tw_field_editor_parent_class)->dispose (object);
}

static void
tw_field_editor_finalize (GObject *object)
{
  TwFieldEditorPrivate *own = private_of (TW_FIELD_EDITOR (object));

  g_clear_pointer (&own->target, tw_field_target_free);
  g_free (own->trouble);
  g_free (own->note);
  G_OBJECT_CLASS (tw_field_editor_parent_class)->finalize (object);
}

static void
forget_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  tw_field_editor_forget (TW_FIELD_EDITOR (widget));
}

static void
tw_field_editor_class_init (TwFieldEditorClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tw_field_editor_dispose;
  object_class->finalize = tw_field_editor_finalize;
  signals[TOLD]
      = g_signal_new ("told", TW_TYPE_FIELD_EDITOR, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[REACHED] = g_signal_new ("reached", TW_TYPE_FIELD_EDITOR, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
  gtk_widget_class_install_action (widget_class, "field.forget", NULL, forget_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "field-editor");
}

static void
tw_field_editor_init (TwFieldEditor *self)
{
}

void
tw_field_editor_set_up (TwFieldEditor *self, TwFieldTarget *target, GtkWidget *inner)
{
  TwFieldEditorPrivate *own = private_of (self);
  GtkEventController *focus = gtk_event_controller_focus_new ();

  g_return_if_fail (own->target == NULL);

  own->target = target;
  own->inner = inner;
  gtk_accessible_update_property (GTK_ACCESSIBLE (inner), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ (tw_field_target_info (target)->label), -1);
  describe (self);
  g_signal_connect_swapped (focus, "enter", G_CALLBACK (reached_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
}

void
tw_field_editor_set_name (TwFieldEditor *self, const char *name)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (private_of (self)->inner), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  name, -1);
}

void
tw_field_editor_set_trouble (TwFieldEditor *self, const char *trouble)
{
  TwFieldEditorPrivate *own = private_of (self);
  gboolean bad = trouble != NULL;

  if (g_strcmp0 (own->trouble, trouble) == 0)
    return;
  g_free (own->trouble);
  own->trouble = g_strdup (trouble);
  if (bad)
    gtk_widget_add_css_class (own->inner, "error");
  else
    gtk_widget_remove_css_class (own->inner, "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (own->inner), GTK_ACCESSIBLE_STATE_INVALID,
                               bad ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
  describe (self);
  g_signal_emit (self, signals[TOLD], 0);
}

void
tw_field_editor_set_note (TwFieldEditor *self, const char *note)
{
  TwFieldEditorPrivate *own = private_of (self);

  if (g_strcmp0 (own->note, note) == 0)
    return;
  g_free (own->note);
  own->note = g_strdup (note);
  describe (self);
  g_signal_emit (self, signals[TOLD], 0);
}

gboolean
tw_field_editor_take (TwFieldEditor *self, TwValue *value)
{
  TwFieldEditorPrivate *own = private_of (self);
  g_autoptr (GError) error = NULL;

  if (!tw_field_target_set (own->target, value, &error)) {
    tw_field_editor_set_trouble (self, tw_field_words_trouble (tw_field_target_info (own->target), error));
    return FALSE;
  }
  tw_field_editor_set_trouble (self, NULL);
  return TRUE;
}

GtkWidget *
tw_field_editor_inner (TwFieldEditor *self)
{
  return private_of (self)->inner;
}

TwFieldTarget *
tw_field_editor_target (TwFieldEditor *self)
{
  return private_of (self)->target;
}

const char *
tw_field_editor_trouble (TwFieldEditor *self)
{
  return private_of (self)->trouble;
}

const char *
tw_field_editor_note (TwFieldEditor *self)
{
  return private_of (self)->note;
}

void
tw_field_editor_update (TwFieldEditor *self)
{
  if (tw_field_target_owner (private_of (self)->target, 0) != NULL)
    TW_FIELD_EDITOR_GET_CLASS (self)->update (self);
}

void
tw_field_editor_type (TwFieldEditor *self, const char *text)
{
  TW_FIELD_EDITOR_GET_CLASS (self)->type (self, text);
}

void
tw_field_editor_keep (TwFieldEditor *self, GHashTable *drafts)
{
  TwFieldEditorPrivate *own = private_of (self);
  TwFieldEditorClass *klass = TW_FIELD_EDITOR_GET_CLASS (self);
  char *draft = own->trouble != NULL && klass->draft != NULL ? klass->draft (self) : NULL;

  own->let_go = TRUE;
  if (draft != NULL)
    g_hash_table_insert (drafts, tw_field_target_key (own->target), draft);
}

void
tw_field_editor_restore (TwFieldEditor *self, GHashTable *drafts)
{
  g_autofree char *key = tw_field_target_key (private_of (self)->target);
  g_autofree char *name = NULL, *draft = NULL;

  if (g_hash_table_steal_extended (drafts, key, (gpointer *)&name, (gpointer *)&draft))
    tw_field_editor_type (self, draft);
}

gboolean
tw_field_editor_can_forget (TwFieldEditor *self)
{
  TwFieldTarget *target = private_of (self)->target;
  TwValue value, none = tw_value_unknown (tw_field_target_info (target)->store);
  gboolean said;

  if (tw_field_target_is_needed (target))
    return FALSE;
  said = !tw_field_target_get (target, &value) || !tw_value_equal (&value, &none);
  tw_value_clear (&value);
  return said;
}

void
tw_field_editor_forget (TwFieldEditor *self)
{
  TwFieldTarget *target = private_of (self)->target;
  TwValue none = tw_value_unknown (tw_field_target_info (target)->store);

  if (!tw_field_editor_can_forget (self))
    return;
  if (TW_FIELD_EDITOR_GET_CLASS (self)->type != NULL)
    tw_field_editor_type (self, "");
  else if (tw_field_editor_take (self, &none))
    tw_field_editor_update (self);
}

void
tw_field_editor_take_focus (TwFieldEditor *self)
{
  gtk_widget_grab_focus (private_of (self)->inner);
}

gboolean
tw_field_editor_is_let_go (TwFieldEditor *self)
{
  return private_of (self)->let_go;
}
