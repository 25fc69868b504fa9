/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/field-suggest.h"

#include <glib/gi18n-lib.h>

#define LIST_HEIGHT_PX 280
#define LIST_CHARS 30

typedef struct {
  const char *text;  /* for the job */
  const char *title; /* as people say it, NULL: the text says it */
} Suggestion;

static const struct {
  const char *field;
  TwCatalogueList list;
} lists[] = {
  { "core_kind", TW_CATALOGUE_CORE_KINDS },
  { "alloy", TW_CATALOGUE_ALLOYS },
  { "standard", TW_CATALOGUE_PORTS },
  { "size", TW_CATALOGUE_PORTS },
};

static int
list_of (const TwField *field)
{
  for (guint i = 0; i < G_N_ELEMENTS (lists) && field->store == TW_FIELD_TEXT; i++)
    if (g_str_equal (lists[i].field, field->name))
      return (int)lists[i].list;
  return -1;
}

gboolean
tw_field_suggests (const TwField *field)
{
  return list_of (field) >= 0;
}

static gboolean
is_there (GArray *suggestions, const char *text)
{
  for (guint i = 0; i < suggestions->len; i++)
    if (g_str_equal (g_array_index (suggestions, Suggestion, i).text, text))
      return TRUE;
  return FALSE;
}

/* The standard that the port goes by; a stub where nothing is said. */
static const char *
standard_of (const TwFieldTarget *target)
{
  const TwPart *owner = tw_field_target_owner (target, 0);
  const TwPart *filled = tw_drawing_find (tw_session_drawing (tw_field_target_session (target)), owner->id);
  const char *standard = filled != NULL ? ((const TwPort *)filled)->standard : NULL;

  return standard != NULL ? standard : "stub";
}

/* What of @entry fits into the field; FALSE when nothing. */
static gboolean
suggest (const TwFieldTarget *target, TwCatalogueList list, const TwEntry *entry, Suggestion *suggestion)
{
  const char *field = tw_field_target_info (target)->name;
  const char *standard = list == TW_CATALOGUE_PORTS ? tw_entry_text (entry, "standard") : NULL;

  if (list != TW_CATALOGUE_PORTS)
    *suggestion = (Suggestion){ tw_entry_id (entry), tw_entry_name (entry) };
  else if (g_str_equal (field, "standard"))
    *suggestion = (Suggestion){ standard, NULL };
  else if (g_strcmp0 (standard, standard_of (target)) == 0)
    *suggestion = (Suggestion){ tw_entry_text (entry, "size"), tw_entry_name (entry) };
  else
    return FALSE;
  return suggestion->text != NULL;
}

static GArray *
suggestions_for (const TwFieldTarget *target)
{
  const TwCatalogue *catalogue = tw_session_catalogue (tw_field_target_session (target));
  TwCatalogueList list = (TwCatalogueList)list_of (tw_field_target_info (target));
  GArray *suggestions = g_array_new (FALSE, FALSE, sizeof (Suggestion));

  for (guint i = 0; i < tw_catalogue_count (catalogue, list); i++) {
    Suggestion suggestion;

    if (suggest (target, list, tw_catalogue_get (catalogue, list, i), &suggestion)
        && !is_there (suggestions, suggestion.text))
      g_array_append_val (suggestions, suggestion);
  }
  return suggestions;
}

static GtkWidget *
line_of (const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0.0F);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_width_chars (GTK_LABEL (label), LIST_CHARS);
  gtk_label_set_max_width_chars (GTK_LABEL (label), LIST_CHARS);
  if (style != NULL)
    gtk_widget_add_css_class (label, style);
  return label;
}

static GtkWidget *
row_of (const Suggestion *suggestion)
{
  GtkWidget *lines = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *row = gtk_list_box_row_new ();

  gtk_box_append (GTK_BOX (lines), line_of (suggestion->text, NULL));
  if (suggestion->title != NULL)
    gtk_box_append (GTK_BOX (lines), line_of (suggestion->title, "caption"));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), lines);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, suggestion->text,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  suggestion->title ? suggestion->title : "", -1);
  g_object_set_data_full (G_OBJECT (row), "text", g_strdup (suggestion->text), g_free);
  return row;
}

static void
chosen_cb (GtkListBox *list, GtkListBoxRow *row, gpointer data)
{
  GtkWidget *popover = gtk_widget_get_ancestor (GTK_WIDGET (list), GTK_TYPE_POPOVER);

  gtk_popover_popdown (GTK_POPOVER (popover));
  tw_field_editor_type (TW_FIELD_EDITOR (data), g_object_get_data (G_OBJECT (row), "text"));
  tw_field_editor_take_focus (TW_FIELD_EDITOR (data));
}

/* Made anew each time that it opens: which sizes there are follows from the standard. */
static void
open_cb (GtkMenuButton *button, gpointer data)
{
  g_autoptr (GArray) suggestions = suggestions_for (tw_field_editor_target (TW_FIELD_EDITOR (data)));
  GtkWidget *popover = gtk_popover_new (), *scroller = gtk_scrolled_window_new ();
  GtkWidget *list = gtk_list_box_new ();

  for (guint i = 0; i < suggestions->len; i++)
    gtk_list_box_append (GTK_LIST_BOX (list), row_of (&g_array_index (suggestions, Suggestion, i)));
  gtk_list_box_set_placeholder (GTK_LIST_BOX (list),
                                line_of (_ ("The catalogue has nothing for this."), "dim-label"));
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  g_signal_connect_object (list, "row-activated", G_CALLBACK (chosen_cb), data, 0);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_width (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), LIST_HEIGHT_PX);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), list);
  gtk_widget_add_css_class (popover, "menu");
  gtk_popover_set_child (GTK_POPOVER (popover), scroller);
  gtk_menu_button_set_popover (button, popover);
}

GtkWidget *
tw_field_suggest_button_new (TwFieldEditor *editor)
{
  GtkWidget *button = gtk_menu_button_new ();

  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (button), "pan-down-symbolic");
  gtk_widget_set_tooltip_text (button, _ ("What the catalogue has"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("What the catalogue has"), -1);
  gtk_menu_button_set_create_popup_func (GTK_MENU_BUTTON (button), open_cb, editor, NULL);
  return button;
}
