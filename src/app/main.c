/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/application.h"
#include "base/data.h"

#include <glib/gi18n-lib.h>
#include <locale.h>

int
main (int argc, char **argv)
{
  g_autoptr (AdwApplication) application = NULL;
  g_autofree char *locale_folder = tw_data_locale_folder ();

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, locale_folder);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  g_set_prgname (TW_APPLICATION_ID);
  application = tw_application_new (G_APPLICATION_DEFAULT_FLAGS);
  return g_application_run (G_APPLICATION (application), argc, argv);
}
