/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The program as src/app/main.c starts it. `start-whole [FILE]`
 */
#include "app/application.h"
#include "first-frame.h"

#include <locale.h>

int
main (int argc, char *argv[])
{
  g_autoptr (AdwApplication) application = NULL;

  setlocale (LC_ALL, "");
  g_set_prgname (TW_APPLICATION_ID);
  application = tw_application_new (G_APPLICATION_NON_UNIQUE);
  first_frame_watch (GTK_APPLICATION (application));
  return g_application_run (G_APPLICATION (application), argc, argv);
}
