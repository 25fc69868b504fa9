/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "first-frame.h"

#include "times.h"

#include <stdlib.h>
#include <string.h>

/* A figure of /proc/self/smaps_rollup, KiB. */
static double
memory_kib (const char *name)
{
  g_autofree char *text = NULL;
  const char *at;

  if (!g_file_get_contents ("/proc/self/smaps_rollup", &text, NULL, NULL))
    g_error ("the system does not say how much memory is taken");
  at = strstr (text, name);
  g_assert_nonnull (at);
  return g_ascii_strtod (at + strlen (name), NULL);
}

static void
painted_cb (GdkFrameClock *clock, gpointer data)
{
  double cpu_ms = times_cpu_ms ();
  gint64 since_us = g_ascii_strtoll (g_getenv (FIRST_FRAME_SINCE), NULL, 10);
  double wall_ms = (double)(g_get_monotonic_time () - since_us) / 1e3;

  g_print ("%.3f %.3f %.0f %.0f\n", wall_ms, cpu_ms, memory_kib ("\nPss:"), memory_kib ("\nRss:"));
  exit (0);
}

static void
mapped_cb (GtkWidget *window, gpointer data)
{
  g_signal_connect (gtk_widget_get_frame_clock (window), "after-paint", G_CALLBACK (painted_cb), NULL);
}

static void
window_added_cb (GtkApplication *application, GtkWindow *window, gpointer data)
{
  g_signal_connect_after (window, "map", G_CALLBACK (mapped_cb), NULL);
}

void
first_frame_watch (GtkApplication *application)
{
  g_assert_nonnull (g_getenv (FIRST_FRAME_SINCE));
  g_signal_connect (application, "window-added", G_CALLBACK (window_added_cb), NULL);
}
