/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The window against an empty one of the platform, in one process on one display: from making it to its first
 * painted frame, and a frame of a drag with everything recomputed (rooms, cards, drawing) against a frame of
 * the empty window in which one label changes. Time is the processor's, so that waiting for the next frame
 * does not count. `bench-window FILE…`
 */
#include "app/application.h"
#include "drive.h"
#include "job/change.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>

#define ROUNDS 41

static char **files;

static double
cpu_ms (void)
{
  struct timespec now;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &now);
  return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

static int
by_value (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;

  return x < y ? -1 : x > y;
}

static double
median (double *values)
{
  qsort (values, ROUNDS, sizeof *values, by_value);
  return values[ROUNDS / 2];
}

static void
painted_cb (GdkFrameClock *clock, gpointer data)
{
  ++*(guint *)data;
}

/* Runs the main loop until the window has painted once more. */
static void
wait_for_paint (GtkWidget *window)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (window);
  guint painted = 0;
  gulong id = g_signal_connect (clock, "after-paint", G_CALLBACK (painted_cb), &painted);

  while (painted == 0)
    g_main_context_iteration (NULL, TRUE);
  g_signal_handler_disconnect (clock, id);
}

static double
first_frame_ms (GtkWidget *window, double since)
{
  gtk_window_present (GTK_WINDOW (window));
  while (gtk_widget_get_frame_clock (window) == NULL || !gtk_widget_get_mapped (window))
    g_main_context_iteration (NULL, TRUE);
  wait_for_paint (window);
  return cpu_ms () - since;
}

static GtkWidget *
empty_window (AdwApplication *application, GtkWidget **label)
{
  GtkWidget *window = adw_application_window_new (GTK_APPLICATION (application));
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  *label = gtk_label_new ("0");
  gtk_box_append (GTK_BOX (box), adw_header_bar_new ());
  gtk_box_append (GTK_BOX (box), *label);
  adw_application_window_set_content (ADW_APPLICATION_WINDOW (window), box);
  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 760);
  return window;
}

static double
empty_frame_ms (GtkWidget *window, GtkWidget *label)
{
  double times[ROUNDS];

  for (guint i = 0; i < ROUNDS; i++) {
    g_autofree char *text = g_strdup_printf ("%u", i);
    double start = cpu_ms ();

    gtk_label_set_label (GTK_LABEL (label), text);
    wait_for_paint (window);
    times[i] = cpu_ms () - start;
  }
  return median (times);
}

static double
drag_frame_ms (TwWindow *window)
{
  TwSession *session = tw_window_session (window);
  const TwPart *baffle = tw_job_get (tw_session_job (session), TW_KIND_BAFFLE, 0);
  double times[ROUNDS], place = ((const TwBaffle *)baffle)->place_mm;
  TwId id = baffle->id;

  for (guint i = 0; i < ROUNDS; i++) {
    TwValue value = tw_value_number (place + i % 7);
    double start = cpu_ms ();

    tw_session_do (session, tw_change_set (id, TW_ID_NONE, TW_BAFFLE_place_mm, &value), NULL);
    wait_for_paint (GTK_WIDGET (window));
    times[i] = cpu_ms () - start;
  }
  return median (times);
}

static void
activate_cb (AdwApplication *application, gpointer data)
{
  GtkWidget *label, *empty;
  double start = cpu_ms (), empty_start, empty_frame;

  g_application_hold (G_APPLICATION (application));
  empty = empty_window (application, &label);
  first_frame_ms (empty, start); /* the first of all pays for style sheets and fonts */
  gtk_window_destroy (GTK_WINDOW (empty));
  start = cpu_ms ();
  empty = empty_window (application, &label);
  empty_start = first_frame_ms (empty, start);
  empty_frame = empty_frame_ms (empty, label);
  gtk_window_destroy (GTK_WINDOW (empty));
  for (guint i = 0; files[i] != NULL; i++) {
    TwWindow *window;
    double ready, drag;

    start = cpu_ms ();
    window = tw_window_new (application);
    tw_window_open_path (window, files[i], FALSE);
    ready = first_frame_ms (GTK_WIDGET (window), start);
    drag = drag_frame_ms (window);
    g_print ("%-22s first frame %6.1f ms, %4.1f of empty   drag frame %5.2f ms, %4.1f of empty (%.2f ms)\n",
             strrchr (files[i], '/') + 1, ready, ready / empty_start, drag, drag / empty_frame, empty_frame);
    gtk_window_destroy (GTK_WINDOW (window));
  }
  g_application_release (G_APPLICATION (application));
}

int
main (int argc, char *argv[])
{
  g_autoptr (AdwApplication) application = NULL;

  files = argv + 1;
  if (!gtk_init_check ()) {
    g_print ("no display\n");
    return 0;
  }
  application = adw_application_new ("org.tankwright.Bench", G_APPLICATION_NON_UNIQUE);
  g_application_set_resource_base_path (G_APPLICATION (application), "/org/tankwright/Tankwright");
  g_signal_connect (application, "activate", G_CALLBACK (activate_cb), NULL);
  return g_application_run (G_APPLICATION (application), 1, argv);
}
