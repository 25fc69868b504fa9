/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/answer-row.h"

#include <math.h>

struct _TwAnswerRow {
  GtkWidget parent_instance;

  GtkLabel *name;
  GtkEntry *entry;
  GtkLabel *trouble;
  TwQuantity quantity;
};

enum { PROP_0, PROP_LABEL, PROP_HINT, N_PROPS };

enum { CHANGED, N_SIGNALS };

static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TwAnswerRow, tw_answer_row, GTK_TYPE_WIDGET)

static void
entry_changed_cb (TwAnswerRow *self)
{
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
tw_answer_row_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (tw_answer_row_parent_class)->dispose (object);
}

static void
tw_answer_row_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  TwAnswerRow *self = TW_ANSWER_ROW (object);

  switch (id) {
  case PROP_LABEL:
    g_value_set_string (value, gtk_label_get_label (self->name));
    break;
  case PROP_HINT:
    g_value_set_string (value, gtk_entry_get_placeholder_text (self->entry));
    break;
  default:
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
  }
}

static void
tw_answer_row_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  TwAnswerRow *self = TW_ANSWER_ROW (object);

  switch (id) {
  case PROP_LABEL:
    gtk_label_set_label (self->name, g_value_get_string (value));
    break;
  case PROP_HINT:
    gtk_entry_set_placeholder_text (self->entry, g_value_get_string (value));
    break;
  default:
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
  }
}

static void
tw_answer_row_class_init (TwAnswerRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  const GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->dispose = tw_answer_row_dispose;
  object_class->get_property = tw_answer_row_get_property;
  object_class->set_property = tw_answer_row_set_property;
  props[PROP_LABEL] = g_param_spec_string ("label", NULL, NULL, "", flags);
  props[PROP_HINT] = g_param_spec_string ("hint", NULL, NULL, "", flags);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signals[CHANGED]
      = g_signal_new ("changed", TW_TYPE_ANSWER_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/answer-row.ui");
  gtk_widget_class_bind_template_child (widget_class, TwAnswerRow, name);
  gtk_widget_class_bind_template_child (widget_class, TwAnswerRow, entry);
  gtk_widget_class_bind_template_child (widget_class, TwAnswerRow, trouble);
  gtk_widget_class_bind_template_callback (widget_class, entry_changed_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
tw_answer_row_init (TwAnswerRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->quantity = TW_QUANTITY_LENGTH;
}

void
tw_answer_row_take_focus (TwAnswerRow *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self->entry));
}

void
tw_answer_row_set_quantity (TwAnswerRow *self, TwQuantity quantity)
{
  self->quantity = quantity;
}

static char *
typed_text (TwAnswerRow *self)
{
  return g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->entry))));
}

gboolean
tw_answer_row_read (TwAnswerRow *self, const TwUnitStyle *style, double *value)
{
  g_autofree char *text = typed_text (self);
  g_autoptr (GError) error = NULL;

  *value = (double)NAN;
  if (text[0] == '\0' || tw_units_parse (self->quantity, style, text, value, &error)) {
    tw_answer_row_say (self, NULL);
    return TRUE;
  }
  tw_answer_row_say (self, error->message);
  return FALSE;
}

void
tw_answer_row_say (TwAnswerRow *self, const char *trouble)
{
  gboolean bad = trouble != NULL;

  if (bad && g_strcmp0 (gtk_label_get_label (self->trouble), trouble) != 0)
    gtk_label_set_label (self->trouble, trouble);
  if (bad == gtk_widget_get_visible (GTK_WIDGET (self->trouble)))
    return;
  gtk_widget_set_visible (GTK_WIDGET (self->trouble), bad);
  if (bad)
    gtk_widget_add_css_class (GTK_WIDGET (self->entry), "error");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->entry), "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID,
                               bad ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
  if (bad)
    gtk_accessible_update_relation (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_RELATION_DESCRIBED_BY,
                                    self->trouble, NULL, -1);
  else
    gtk_accessible_reset_relation (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_RELATION_DESCRIBED_BY);
}

void
tw_answer_row_restyle (TwAnswerRow *self, const TwUnitStyle *from, const TwUnitStyle *to)
{
  g_autofree char *text = typed_text (self), *now = NULL;
  double value;

  if (text[0] == '\0' || !tw_units_parse (self->quantity, from, text, &value, NULL))
    return;
  now = tw_units_format_plain (self->quantity, to, value);
  gtk_editable_set_text (GTK_EDITABLE (self->entry), now);
}
