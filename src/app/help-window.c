/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/help-window.h"

#include "app/help-book.h"
#include "app/help-view.h"
#include "app/window.h"

#include <glib/gi18n-lib.h>

struct _TwHelpWindow {
  AdwWindow parent_instance;

  AdwFlap *flap;
  GtkSearchEntry *search;
  GtkListBox *pages;
  GtkScrolledWindow *scroller;
  TwHelpView *view;

  TwHelpBook *book; /* NULL when it could not be read */
  GPtrArray *past;  /* of char *: pages seen before this one, the last one last */
  char *page;       /* name of the one that is shown; NULL: none yet */
};

G_DEFINE_FINAL_TYPE (TwHelpWindow, tw_help_window, ADW_TYPE_WINDOW)

/* --- the list of pages ---------------------------------------------------------------------------------- */

static const TwHelpPage *
page_of (TwHelpWindow *self, GtkListBoxRow *row)
{
  return tw_help_book_get (self->book, (guint)gtk_list_box_row_get_index (row));
}

static GtkWidget *
row_new (const TwHelpPage *page)
{
  GtkWidget *row = gtk_list_box_row_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *title = gtk_label_new (page->title), *excerpt = gtk_label_new (NULL);

  gtk_label_set_wrap (GTK_LABEL (title), TRUE);
  gtk_label_set_xalign (GTK_LABEL (title), 0.0F);
  gtk_label_set_wrap (GTK_LABEL (excerpt), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (excerpt), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_xalign (GTK_LABEL (excerpt), 0.0F);
  gtk_widget_set_visible (excerpt, FALSE);
  gtk_widget_add_css_class (excerpt, "caption");
  gtk_widget_add_css_class (excerpt, "dim-label");
  gtk_box_append (GTK_BOX (box), title);
  gtk_box_append (GTK_BOX (box), excerpt);
  gtk_widget_set_margin_top (box, 6);
  gtk_widget_set_margin_bottom (box, 6);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, page->title, -1);
  return row;
}

static gboolean
is_sought_cb (GtkListBoxRow *row, gpointer data)
{
  TwHelpWindow *self = data;

  return tw_help_page_has (page_of (self, row), gtk_editable_get_text (GTK_EDITABLE (self->search)));
}

/* Each row says where in the page the first of the words stands. */
static void
show_excerpts (TwHelpWindow *self)
{
  const char *words = gtk_editable_get_text (GTK_EDITABLE (self->search));
  GtkListBoxRow *row;

  for (int i = 0; (row = gtk_list_box_get_row_at_index (self->pages, i)) != NULL; i++) {
    g_autofree char *excerpt = tw_help_page_excerpt (page_of (self, row), words);
    GtkWidget *label = gtk_widget_get_last_child (gtk_list_box_row_get_child (row));

    gtk_label_set_label (GTK_LABEL (label), excerpt ? excerpt : "");
    gtk_widget_set_visible (label, excerpt != NULL);
  }
}

static void
search_changed_cb (TwHelpWindow *self)
{
  if (self->book == NULL)
    return;
  show_excerpts (self);
  gtk_list_box_invalidate_filter (self->pages);
}

/* --- showing a page ------------------------------------------------------------------------------------- */

static void
mark_row (TwHelpWindow *self)
{
  for (guint i = 0; i < tw_help_book_count (self->book); i++)
    if (g_str_equal (tw_help_book_get (self->book, i)->name, self->page))
      gtk_list_box_select_row (self->pages, gtk_list_box_get_row_at_index (self->pages, (int)i));
}

static void
show_page (TwHelpWindow *self, const char *name)
{
  GApplication *application = g_application_get_default ();
  const TwHelpPage *page = tw_help_book_find (self->book, name);
  g_autofree char *title = NULL;

  if (page == NULL)
    page = tw_help_book_get (self->book, 0);
  if (g_strcmp0 (self->page, page->name) == 0)
    return;
  g_free (self->page);
  self->page = g_strdup (page->name);
  tw_help_view_show (self->view, page, tw_samples_of (application));
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (self->scroller), 0.0);
  title = g_strdup_printf (_ ("%s – Help"), page->title);
  gtk_window_set_title (GTK_WINDOW (self), title);
  mark_row (self);
}

static void
go_to (TwHelpWindow *self, const char *name)
{
  if (self->book == NULL || g_strcmp0 (self->page, name) == 0)
    return;
  if (self->page != NULL)
    g_ptr_array_add (self->past, g_strdup (self->page));
  show_page (self, name);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "help.back", self->past->len > 0);
}

static void
back_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  TwHelpWindow *self = TW_HELP_WINDOW (widget);
  g_autofree char *name = NULL;

  if (self->past->len == 0)
    return;
  name = g_ptr_array_steal_index (self->past, self->past->len - 1);
  show_page (self, name);
  gtk_widget_action_set_enabled (widget, "help.back", self->past->len > 0);
}

static void
link_followed_cb (TwHelpWindow *self, const char *page)
{
  go_to (self, page);
}

static void
page_activated_cb (TwHelpWindow *self, GtkListBoxRow *row)
{
  go_to (self, page_of (self, row)->name);
}

/* Return opens the first page that was found. */
static void
search_activated_cb (TwHelpWindow *self)
{
  GtkListBoxRow *row;

  for (int i = 0; (row = gtk_list_box_get_row_at_index (self->pages, i)) != NULL; i++)
    if (gtk_widget_get_child_visible (GTK_WIDGET (row))) {
      go_to (self, page_of (self, row)->name);
      gtk_widget_grab_focus (GTK_WIDGET (row));
      return;
    }
}

/* Escape empties the entry first, then closes. */
static void
search_stopped_cb (TwHelpWindow *self)
{
  if (gtk_editable_get_text (GTK_EDITABLE (self->search))[0] != '\0')
    gtk_editable_set_text (GTK_EDITABLE (self->search), "");
  else
    gtk_window_close (GTK_WINDOW (self));
}

static void
search_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  TwHelpWindow *self = TW_HELP_WINDOW (widget);

  adw_flap_set_reveal_flap (self->flap, TRUE);
  gtk_widget_grab_focus (GTK_WIDGET (self->search));
}

static void
list_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  TwHelpWindow *self = TW_HELP_WINDOW (widget);

  adw_flap_set_reveal_flap (self->flap, !adw_flap_get_reveal_flap (self->flap));
}

/* --- making --------------------------------------------------------------------------------------------- */

/* Keys of an action as menus show them: `Ctrl+S`. */
static char *
keys_of (const char *action, gpointer data)
{
  g_auto (GStrv) keys = gtk_application_get_accels_for_action (GTK_APPLICATION (data), action);
  guint key;
  GdkModifierType held;

  if (keys[0] == NULL || !gtk_accelerator_parse (keys[0], &key, &held))
    return NULL;
  return gtk_accelerator_get_label (key, held);
}

static void
read_book (TwHelpWindow *self)
{
  g_autoptr (GError) error = NULL;

  self->book = tw_help_book_new (NULL, keys_of, g_application_get_default (), &error);
  if (self->book == NULL) {
    GtkWidget *said = gtk_label_new (error->message);

    gtk_label_set_wrap (GTK_LABEL (said), TRUE);
    gtk_label_set_selectable (GTK_LABEL (said), TRUE);
    gtk_scrolled_window_set_child (self->scroller, said);
    return;
  }
  for (guint i = 0; i < tw_help_book_count (self->book); i++)
    gtk_list_box_append (self->pages, row_new (tw_help_book_get (self->book, i)));
  gtk_list_box_set_filter_func (self->pages, is_sought_cb, self, NULL);
}

static void
tw_help_window_dispose (GObject *object)
{
  TwHelpWindow *self = TW_HELP_WINDOW (object);

  if (self->pages != NULL)
    gtk_list_box_set_filter_func (self->pages, NULL, NULL, NULL);
  G_OBJECT_CLASS (tw_help_window_parent_class)->dispose (object);
  g_clear_pointer (&self->book, tw_help_book_free);
  g_clear_pointer (&self->past, g_ptr_array_unref);
  g_clear_pointer (&self->page, g_free);
}

static void
add_keys (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "help.back", NULL, back_cb);
  gtk_widget_class_install_action (widget_class, "help.search", NULL, search_cb);
  gtk_widget_class_install_action (widget_class, "help.list", NULL, list_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Left, GDK_ALT_MASK, "help.back", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_f, GDK_CONTROL_MASK, "help.search", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F9, 0, "help.list", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
tw_help_window_class_init (TwHelpWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tw_help_window_dispose;
  g_type_ensure (TW_TYPE_HELP_VIEW);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/tankwright/Tankwright/help-window.ui");
  gtk_widget_class_bind_template_child (widget_class, TwHelpWindow, flap);
  gtk_widget_class_bind_template_child (widget_class, TwHelpWindow, search);
  gtk_widget_class_bind_template_child (widget_class, TwHelpWindow, pages);
  gtk_widget_class_bind_template_child (widget_class, TwHelpWindow, scroller);
  gtk_widget_class_bind_template_child (widget_class, TwHelpWindow, view);
  gtk_widget_class_bind_template_callback (widget_class, search_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, search_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, search_stopped_cb);
  gtk_widget_class_bind_template_callback (widget_class, page_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, link_followed_cb);
  add_keys (widget_class);
}

static void
tw_help_window_init (TwHelpWindow *self)
{
  self->past = g_ptr_array_new_with_free_func (g_free);
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_search_entry_set_key_capture_widget (self->search, GTK_WIDGET (self));
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "help.back", FALSE);
  read_book (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->search));
}

static TwHelpWindow *
find_help (GtkApplication *application)
{
  for (GList *at = gtk_application_get_windows (application); at != NULL; at = at->next)
    if (TW_IS_HELP_WINDOW (at->data))
      return at->data;
  return NULL;
}

/* The help does not keep the program running. */
static void
window_removed_cb (TwHelpWindow *self, GtkWindow *removed, GtkApplication *application)
{
  for (GList *at = gtk_application_get_windows (application); at != NULL; at = at->next)
    if (TW_IS_WINDOW (at->data))
      return;
  if (removed != GTK_WINDOW (self))
    gtk_window_close (GTK_WINDOW (self));
}

void
tw_help_show (GtkWindow *parent, const char *page)
{
  GtkApplication *application = gtk_window_get_application (parent);
  TwHelpWindow *self = find_help (application);

  if (self == NULL) {
    self = g_object_new (TW_TYPE_HELP_WINDOW, "application", application, NULL);
    g_signal_connect_object (application, "window-removed", G_CALLBACK (window_removed_cb), self,
                             G_CONNECT_SWAPPED);
  }
  go_to (self, page);
  gtk_window_present (GTK_WINDOW (self));
}

const char *
tw_help_window_page (TwHelpWindow *self)
{
  return self->page;
}
