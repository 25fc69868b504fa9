/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/recent.h"

#include <adwaita.h>
#include <glib/gi18n-lib.h>
#include <string.h>

#define MEDIA_TYPE "application/vnd.tankwright.job+json"

static void
recent_free (gpointer data)
{
  TwRecent *self = data;

  g_free (self->path);
  g_free (self->name);
  g_free (self->folder);
  g_free (self);
}

char *
tw_recent_shown (const char *path)
{
  const char *home = g_get_home_dir ();
  gsize n = strlen (home);

  if (n > 1 && g_str_has_prefix (path, home) && (path[n] == '/' || path[n] == '\0')) {
    g_autofree char *short_one = g_strconcat ("~", path + n, NULL);

    return g_filename_display_name (short_one);
  }
  return g_filename_display_name (path);
}

static char *
shown_folder (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);

  return tw_recent_shown (folder);
}

static int
latest_first (gconstpointer a, gconstpointer b)
{
  GDateTime *one = gtk_recent_info_get_modified ((GtkRecentInfo *)a);
  GDateTime *other = gtk_recent_info_get_modified ((GtkRecentInfo *)b);

  return g_date_time_compare (other, one);
}

/* Path of a job of ours whose file is there, or NULL. */
static char *
job_path (GtkRecentInfo *info)
{
  g_autofree char *path = NULL;

  if (g_strcmp0 (gtk_recent_info_get_mime_type (info), MEDIA_TYPE) != 0 || !gtk_recent_info_is_local (info))
    return NULL;
  path = g_filename_from_uri (gtk_recent_info_get_uri (info), NULL, NULL);
  return path != NULL && g_file_test (path, G_FILE_TEST_IS_REGULAR) ? g_steal_pointer (&path) : NULL;
}

GPtrArray *
tw_recent_list (guint most)
{
  GPtrArray *list = g_ptr_array_new_with_free_func (recent_free);
  GList *items = g_list_sort (gtk_recent_manager_get_items (gtk_recent_manager_get_default ()), latest_first);

  for (GList *at = items; at != NULL && list->len < most; at = at->next) {
    char *path = job_path (at->data);
    TwRecent *recent;

    if (path == NULL)
      continue;
    recent = g_new (TwRecent, 1);
    *recent = (TwRecent){ path, g_filename_display_basename (path), shown_folder (path) };
    g_ptr_array_add (list, recent);
  }
  g_list_free_full (items, (GDestroyNotify)gtk_recent_info_unref);
  return list;
}

void
tw_recent_add (const char *path)
{
  g_autofree char *uri = g_filename_to_uri (path, NULL, NULL);
  const GtkRecentData data = {
    .mime_type = (char *)MEDIA_TYPE,
    .app_name = (char *)g_get_prgname (),
    .app_exec = (char *)"tankwright %u",
  };

  if (uri != NULL)
    gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
}

static void
fill (GMenu *menu)
{
  g_autoptr (GPtrArray) list = tw_recent_list (TW_RECENT_MOST);

  g_menu_remove_all (menu);
  for (guint i = 0; i < list->len; i++) {
    const TwRecent *recent = g_ptr_array_index (list, i);
    g_auto (GStrv) parts = g_strsplit (recent->name, "_", -1); /* no mnemonics in the name of a file */
    g_autofree char *label = g_strjoinv ("__", parts);
    g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);

    g_menu_item_set_action_and_target (item, "win.open-file", "s", recent->path);
    g_menu_append_item (menu, item);
  }
  if (list->len == 0)
    g_menu_append (menu, _ ("Nothing Yet"), "win.none");
}

void
tw_recent_keep_menu (GMenu *menu)
{
  fill (menu);
  g_signal_connect_object (gtk_recent_manager_get_default (), "changed", G_CALLBACK (fill), menu,
                           G_CONNECT_SWAPPED);
}

static void
add_row (GtkListBox *list, const TwRecent *recent)
{
  GtkWidget *row = adw_action_row_new ();

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), recent->name);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), recent->folder);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (row), "win.open-file");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (row), "s", recent->path);
  gtk_list_box_append (list, row);
}

#define MOST "tw-most"
#define SHOWN "tw-shown"

static void
fill_list (GtkListBox *list)
{
  guint most = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (list), MOST));
  g_autoptr (GPtrArray) recent = tw_recent_list (most);
  GtkWidget *row;

  while ((row = gtk_widget_get_first_child (GTK_WIDGET (list))) != NULL)
    gtk_list_box_remove (list, row);
  for (guint i = 0; i < recent->len; i++)
    add_row (list, g_ptr_array_index (recent, i));
  gtk_widget_set_visible (g_object_get_data (G_OBJECT (list), SHOWN), recent->len > 0);
}

void
tw_recent_keep_list (GtkListBox *list, guint most, GtkWidget *shown)
{
  g_object_set_data (G_OBJECT (list), MOST, GUINT_TO_POINTER (most));
  g_object_set_data (G_OBJECT (list), SHOWN, shown);
  fill_list (list);
  g_signal_connect_object (gtk_recent_manager_get_default (), "changed", G_CALLBACK (fill_list), list,
                           G_CONNECT_SWAPPED);
}
