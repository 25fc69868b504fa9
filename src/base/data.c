/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/data.h"
#include "base/error.h"

char *
tw_data_find (const char *name, GError **error)
{
  const char *named = g_getenv ("TANKWRIGHT_DATA");
  g_autofree char *own = g_build_filename (g_get_user_data_dir (), "tankwright", NULL);
  const char *places[] = { named, own, TW_INSTALLED_DATA };
  g_autoptr (GString) sought = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (places); i++) {
    g_autofree char *path = NULL;

    if (places[i] == NULL)
      continue;
    path = g_build_filename (places[i], name, NULL);
    if (g_file_test (path, G_FILE_TEST_IS_REGULAR))
      return g_steal_pointer (&path);
    g_string_append_printf (sought, "%s%s", sought->len ? ", " : "", places[i]);
  }
  g_set_error (error, TW_ERROR, TW_ERROR_MISSING, _ ("data file %s not found in %s"), name, sought->str);
  return NULL;
}
