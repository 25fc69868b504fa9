/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/data.h"
#include "base/error.h"

/* The first of @places, ended by NULL, that holds @name, or NULL; an empty text stands for a place that is
 * not there. */
static char *
find_in (const char *const *places, const char *name)
{
  for (guint i = 0; places[i] != NULL; i++) {
    g_autofree char *path = g_build_filename (places[i], name, NULL);

    if (places[i][0] != '\0' && g_file_test (path, G_FILE_TEST_IS_REGULAR))
      return g_steal_pointer (&path);
  }
  return NULL;
}

static char *
find_or_say (const char *const *places, const char *name, GError **error)
{
  char *path = find_in (places, name);
  g_autofree char *sought = NULL;

  if (path == NULL) {
    sought = g_strjoinv (", ", (char **)(places[0][0] != '\0' ? places : places + 1));
    g_set_error (error, TW_ERROR, TW_ERROR_MISSING, _ ("data file %s not found in %s"), name, sought);
  }
  return path;
}

static const char *
named_folder (void)
{
  const char *named = g_getenv ("TANKWRIGHT_DATA");

  return named != NULL ? named : "";
}

static char *
own_folder (void)
{
  return g_build_filename (g_get_user_data_dir (), "tankwright", NULL);
}

/* `share/NAME` beside the folder that the running program lies in; empty when the system does not say. */
static char *
folder_beside_program (const char *name)
{
  g_autofree char *program = g_file_read_link ("/proc/self/exe", NULL);
  g_autofree char *folder = program != NULL ? g_path_get_dirname (program) : NULL;

  return folder != NULL ? g_build_filename (folder, "..", "share", name, NULL) : g_strdup ("");
}

char *
tw_data_find (const char *name, GError **error)
{
  g_autofree char *own = own_folder (), *beside = folder_beside_program ("tankwright");
  const char *places[] = { named_folder (), own, beside, TW_INSTALLED_DATA, NULL };

  return find_or_say (places, name, error);
}

char *
tw_data_find_shipped (const char *name, GError **error)
{
  g_autofree char *beside = folder_beside_program ("tankwright");
  const char *places[] = { named_folder (), beside, TW_INSTALLED_DATA, NULL };

  return find_or_say (places, name, error);
}

char *
tw_data_find_own (const char *name)
{
  g_autofree char *own = own_folder ();
  const char *places[] = { own, NULL };

  return find_in (places, name);
}

char *
tw_data_locale_folder (void)
{
  g_autofree char *beside = folder_beside_program ("locale");

  return g_file_test (beside, G_FILE_TEST_IS_DIR) ? g_steal_pointer (&beside) : g_strdup (TW_LOCALE_FOLDER);
}
