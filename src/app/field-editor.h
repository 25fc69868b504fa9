/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * field-editor.h - where a field of the job is read and changed, whatever it looks like
 *
 * The base of entries, lists of choices and pages of text. A bad entry stays as it was typed, marked, and
 * nothing is changed until it is mended; what it says is the editor's trouble, shown by whoever holds it.
 *
 * Signals: `told` when trouble, note or what stands in it has changed; `reached` when the keyboard comes into
 * it.
 */
#pragma once

#include <gtk/gtk.h>

#include "app/field-target.h"

G_BEGIN_DECLS

#define TW_TYPE_FIELD_EDITOR (tw_field_editor_get_type ())
G_DECLARE_DERIVABLE_TYPE (TwFieldEditor, tw_field_editor, TW, FIELD_EDITOR, GtkWidget)

struct _TwFieldEditorClass {
  GtkWidgetClass parent_class;

  /* Shows what the job says; what is being typed, or waits to be mended, is left alone. */
  void (*update) (TwFieldEditor *self);
  /* What is typed and not taken, NULL when there is nothing. (transfer full) May be NULL. */
  char *(*draft) (TwFieldEditor *self);
  /* Puts such a text in, and takes it as if it were typed. May be NULL. */
  void (*type) (TwFieldEditor *self, const char *text);
};

/* For its kinds: once, from their maker. @inner is their child that has the keyboard. Takes @target. */
void tw_field_editor_set_up (TwFieldEditor *self, TwFieldTarget *target, GtkWidget *inner);
/* For its kinds: what is refused, NULL when nothing is; and what is to be known beside the value. Copied. */
void tw_field_editor_set_trouble (TwFieldEditor *self, const char *trouble);
void tw_field_editor_set_note (TwFieldEditor *self, const char *note);
/* For its kinds: hands @value over; FALSE, with its trouble set and nothing changed, when it is refused. */
gboolean tw_field_editor_take (TwFieldEditor *self, TwValue *value);
/* For its kinds: the child that has the keyboard. (transfer none) */
GtkWidget *tw_field_editor_inner (TwFieldEditor *self);

/* (transfer none) */
TwFieldTarget *tw_field_editor_target (TwFieldEditor *self);
const char *tw_field_editor_trouble (TwFieldEditor *self);
const char *tw_field_editor_note (TwFieldEditor *self);

/* Shows what the job says. */
void tw_field_editor_update (TwFieldEditor *self);
/* Puts @text in as if it were typed. Only of texts and figures. */
void tw_field_editor_type (TwFieldEditor *self, const char *text);

/* A bad text outlives its editor: kept in @drafts (of texts by tw_field_target_key()) while the part is not
 * shown, put in again by an editor of the same field. What is only half typed is no longer taken. */
void tw_field_editor_keep (TwFieldEditor *self, GHashTable *drafts);
void tw_field_editor_restore (TwFieldEditor *self, GHashTable *drafts);

/* What a screen reader calls it, where the field's own name is not enough: `Corner 3, across`. */
void tw_field_editor_set_name (TwFieldEditor *self, const char *name);

/* Whether the job says something that it need not say, and does so. */
gboolean tw_field_editor_can_forget (TwFieldEditor *self);
void tw_field_editor_forget (TwFieldEditor *self);

/* Puts the keyboard into it, with all that is there chosen. */
void tw_field_editor_take_focus (TwFieldEditor *self);

/* Whether it is on its way out. */
gboolean tw_field_editor_is_let_go (TwFieldEditor *self);

G_END_DECLS
