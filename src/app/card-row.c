/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/card-row.h"

#include "app/passage.h"

#include <glib/gi18n-lib.h>

struct _TwCardRowWidget {
  GtkListBoxRow parent_instance;

  GtkImage *icon;
  TwPassage *label;
  TwPassage *text;
  TwPassage *detail;
  GtkLabel *fresh;
  GtkMenuButton *where;

  const TwCard *card;
  const TwCardRow *row;
  TwRowKind kind; /* that its looks are of */
};

G_DEFINE_FINAL_TYPE (TwCardRowWidget, tw_card_row_widget, GTK_TYPE_LIST_BOX_ROW)

static const char *const icons[] = {
  [TW_ROW_STOP] = "tw-stop-symbolic",
  [TW_ROW_WARN] = "tw-warn-symbolic",
  [TW_ROW_NOTE] = "tw-note-symbolic",
};

static const char *const words[] = {
  [TW_ROW_STOP] = N_ ("stop"),
  [TW_ROW_WARN] = N_ ("warning"),
  [TW_ROW_NOTE] = N_ ("note"),
};

static const char *const classes[] = {
  [TW_ROW_PLAIN] = NULL,  [TW_ROW_HEADING] = "heading", [TW_ROW_PENDING] = "dim-label",
  [TW_ROW_STOP] = "stop", [TW_ROW_WARN] = "warn",       [TW_ROW_NOTE] = "note",
};

const char *
tw_card_kind_icon (TwRowKind kind)
{
  return kind < G_N_ELEMENTS (icons) ? icons[kind] : NULL;
}

const char *
tw_card_kind_word (TwRowKind kind)
{
  return kind < G_N_ELEMENTS (words) && words[kind] ? _ (words[kind]) : NULL;
}

/* --- where from ----------------------------------------------------------------------------------------- */

static GtkWidget *
add_line (GtkBox *box, const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0.0F);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 44);
  gtk_label_set_selectable (GTK_LABEL (label), TRUE);
  gtk_widget_set_can_focus (label, FALSE);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  gtk_box_append (box, label);
  return label;
}

static void
add_input (GtkBox *box, const TwCardInput *input)
{
  g_autofree char *line = NULL;

  if (input->why != NULL)
    /* Translators: what a figure was made from; its value; why it was assumed */
    line = g_strdup_printf (_ ("%s: %s – assumed (%s)"), input->label, input->text, input->why);
  else
    line = g_strdup_printf ("%s: %s", input->label, input->text);
  add_line (box, line, "caption");
}

void
tw_card_where_fill (GtkPopover *popover, const TwCard *card, const char *where)
{
  const TwCardWhere *from = where ? tw_card_where (card, where) : NULL;
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  if (from != NULL) {
    add_line (GTK_BOX (box), _ ("Where from"), "heading");
    add_line (GTK_BOX (box), from->formula, NULL);
    add_line (GTK_BOX (box), from->source_title ? from->source_title : from->source_id, "dim-label");
    for (guint i = 0; i < from->inputs->len; i++)
      add_input (GTK_BOX (box), g_ptr_array_index (from->inputs, i));
  }
  gtk_popover_set_child (popover, box);
}

/* Made when it is opened: the figures may have changed since. */
static void
make_popover_cb (GtkMenuButton *button, gpointer data)
{
  TwCardRowWidget *self = data;
  GtkWidget *popover = gtk_popover_new ();

  tw_card_where_fill (GTK_POPOVER (popover), self->card, self->row->where);
  gtk_menu_button_set_popover (button, popover);
}

/* --- the row -------------------------------------------------------------------------------------------- */

static void
tw_card_row_widget_class_init (TwCardRowWidgetClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (TW_TYPE_PASSAGE);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/card-row.ui");
  gtk_widget_class_bind_template_child (widget_class, TwCardRowWidget, icon);
  gtk_widget_class_bind_template_child (widget_class, TwCardRowWidget, label);
  gtk_widget_class_bind_template_child (widget_class, TwCardRowWidget, text);
  gtk_widget_class_bind_template_child (widget_class, TwCardRowWidget, detail);
  gtk_widget_class_bind_template_child (widget_class, TwCardRowWidget, fresh);
  gtk_widget_class_bind_template_child (widget_class, TwCardRowWidget, where);
}

static void
tw_card_row_widget_init (TwCardRowWidget *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_menu_button_set_create_popup_func (self->where, make_popover_cb, self, NULL);
}

GtkWidget *
tw_card_row_widget_new (void)
{
  return g_object_new (TW_TYPE_CARD_ROW, NULL);
}

static void
set_kind (TwCardRowWidget *self, const TwCardRow *row)
{
  const char *icon = tw_card_kind_icon (row->kind);

  for (guint i = 0; i < G_N_ELEMENTS (classes); i++)
    if (classes[i] != NULL)
      gtk_widget_remove_css_class (GTK_WIDGET (self->label), classes[i]);
  if (classes[row->kind] != NULL)
    gtk_widget_add_css_class (GTK_WIDGET (self->label), classes[row->kind]);
  gtk_widget_set_visible (GTK_WIDGET (self->icon), icon != NULL);
  if (icon != NULL)
    gtk_image_set_from_icon_name (self->icon, icon);
  gtk_widget_set_margin_start (gtk_list_box_row_get_child (GTK_LIST_BOX_ROW (self)), (int)row->indent * 14);
}

static void
set_spoken (TwCardRowWidget *self, const TwCardRow *row)
{
  const char *word = tw_card_kind_word (row->kind);
  const char *fresh
      = gtk_widget_get_visible (GTK_WIDGET (self->fresh)) ? gtk_label_get_text (self->fresh) : NULL;
  g_autofree char *name
      = g_strdup_printf ("%s%s%s%s%s%s%s", fresh ? fresh : "", fresh ? ", " : "", word ? word : "",
                         word ? ": " : "", row->label, row->text[0] ? ": " : "", row->text);

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, row->detail ? row->detail : "", -1);
}

void
tw_card_row_widget_show (TwCardRowWidget *self, const TwCard *card, const TwCardRow *row)
{
  gboolean is_new = self->row == NULL, changed;
  g_autofree char *shown = NULL, *marked = NULL;

  self->card = card;
  self->row = row;
  /* Translators: a figure that rests on something that the program assumed */
  shown = row->is_assumed && row->text[0] ? g_strdup_printf (_ ("%s (assumed)"), row->text)
                                          : g_strdup (row->text);
  marked = row->mark > 0 ? g_strdup_printf ("%u  %s", row->mark, row->label) : NULL;
  changed = tw_passage_show (self->label, marked ? marked : row->label);
  changed |= tw_passage_show (self->text, shown);
  changed |= tw_passage_show (self->detail, row->detail);
  if (!is_new && !changed && self->kind == row->kind)
    return;
  self->kind = row->kind;
  set_kind (self, row);
  set_spoken (self, row);
  gtk_widget_set_visible (GTK_WIDGET (self->text), row->text[0] != '\0');
  gtk_widget_set_visible (GTK_WIDGET (self->detail), row->detail != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->where), row->where != NULL);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (self), row->parts->len > 0);
}

const GArray *
tw_card_row_widget_parts (TwCardRowWidget *self)
{
  return self->row != NULL ? self->row->parts : NULL;
}

void
tw_card_row_widget_mark (TwCardRowWidget *self, gboolean is_chosen, gboolean is_new)
{
  gboolean was_chosen = gtk_widget_has_css_class (GTK_WIDGET (self), "chosen");

  if (!is_chosen != !was_chosen) {
    if (is_chosen)
      gtk_widget_add_css_class (GTK_WIDGET (self), "chosen");
    else
      gtk_widget_remove_css_class (GTK_WIDGET (self), "chosen");
    gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_SELECTED, is_chosen, -1);
  }
  if (!is_new != !gtk_widget_get_visible (GTK_WIDGET (self->fresh))) {
    gtk_widget_set_visible (GTK_WIDGET (self->fresh), is_new);
    set_spoken (self, self->row);
  }
}
