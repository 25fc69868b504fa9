/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The least that a program of the platform is: a window with a header bar and a label.
 */
#include "first-frame.h"

#include <adwaita.h>
#include <locale.h>

static void
activate_cb (GtkApplication *application)
{
  GtkWidget *window = adw_application_window_new (application);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_box_append (GTK_BOX (box), adw_header_bar_new ());
  gtk_box_append (GTK_BOX (box), gtk_label_new ("empty"));
  adw_application_window_set_content (ADW_APPLICATION_WINDOW (window), box);
  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 800);
  gtk_window_present (GTK_WINDOW (window));
}

int
main (int argc, char *argv[])
{
  g_autoptr (AdwApplication) application
      = adw_application_new ("org.tankwright.Empty", G_APPLICATION_NON_UNIQUE);

  setlocale (LC_ALL, "");
  first_frame_watch (GTK_APPLICATION (application));
  g_signal_connect (application, "activate", G_CALLBACK (activate_cb), NULL);
  return g_application_run (G_APPLICATION (application), argc, argv);
}
