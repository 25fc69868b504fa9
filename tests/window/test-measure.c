/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-measure.c - looking without changing: rulers, distance, copies of the view, zoom
 *
 * The tail sample in the Face view; its core is centred on 0, 0. A pinch cannot be made on the virtual
 * display: its gesture's signals are sent instead.
 */
#include "app/application.h"
#include "app/canvas.h"
#include "app/ruler.h"
#include "drive.h"
#include "job/write.h"
#include "stage/lens.h"

#include <math.h>
#include <string.h>

static TwWindow *window;

static TwSession *
session (void)
{
  return tw_window_session (window);
}

static GtkWidget *
canvas (void)
{
  return drive_find (GTK_WIDGET (window), TW_TYPE_CANVAS, NULL);
}

static void
open_sample (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "samples", "merlin-tail.twjob", NULL);

  g_assert_true (tw_session_open (session (), path, &error));
  g_assert_no_error (error);
  tw_session_set_view (session (), TW_VIEW_FACE);
  drive_frame (GTK_WIDGET (window));
  drive_frame (GTK_WIDGET (window));
}

static gboolean
status_says (const char *words)
{
  g_autofree char *text = NULL;

  g_object_get (canvas (), "snap", &text, NULL);
  return text != NULL && strstr (text, words) != NULL;
}

/* A click at a place of the view, mm. */
static void
click_at (double x_mm, double y_mm)
{
  graphene_point_t at = tw_canvas_place_of (TW_CANVAS (canvas ()), (TwPoint){ x_mm, y_mm });

  drive_pointer_to (canvas (), (double)at.x, (double)at.y);
  drive_press ();
  drive_release ();
}

/* --- tests ---------------------------------------------------------------------------------------------- */

static void
test_rulers (void)
{
  GtkWidget *ruler;

  open_sample ();
  ruler = drive_find (GTK_WIDGET (window), TW_TYPE_RULER, NULL);
  g_assert_true (gtk_widget_get_mapped (ruler));
  g_assert_cmpint (gtk_widget_get_width (ruler), ==, gtk_widget_get_width (canvas ()));
  drive_key (GDK_KEY_r, GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  DRIVE_UNTIL (!gtk_widget_get_mapped (ruler));
  drive_key (GDK_KEY_r, GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  DRIVE_UNTIL (gtk_widget_get_mapped (ruler));
  gtk_test_accessible_assert_role (ruler, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

/* 300 mm across, within a pixel of about 1 mm at each end. */
static void
test_distance (void)
{
  TwCanvas *board;
  g_autofree char *before = NULL, *after = NULL;
  TwId chosen;

  open_sample ();
  board = TW_CANVAS (canvas ());
  before = tw_job_write_text (tw_session_job (session ()));
  chosen = tw_session_selection (session ());
  drive_key (GDK_KEY_d, GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  DRIVE_UNTIL (tw_canvas_is_measuring (board));
  DRIVE_UNTIL (status_says ("choose the first place"));
  click_at (-150, -60);
  DRIVE_UNTIL (status_says ("Distance"));
  click_at (150, -60);
  DRIVE_UNTIL (status_says ("across 30") || status_says ("across 29"));
  DRIVE_UNTIL (status_says ("up 0"));
  g_assert_true (tw_id_equal (chosen, tw_session_selection (session ()))); /* clicks choose nothing else */
  drive_picture (GTK_WIDGET (window), "distance");
  drive_key (GDK_KEY_Escape, 0);
  DRIVE_UNTIL (!tw_canvas_is_measuring (board));
  after = tw_job_write_text (tw_session_job (session ()));
  g_assert_cmpstr (before, ==, after);
}

static void
test_distance_by_keys (void)
{
  TwCanvas *board;

  open_sample ();
  board = TW_CANVAS (canvas ());
  tw_canvas_set_measuring (board, TRUE);
  drive_key (GDK_KEY_Return, 0);
  for (int i = 0; i < 6; i++)
    drive_key (GDK_KEY_Right, 0);
  drive_key (GDK_KEY_Return, 0);
  DRIVE_UNTIL (status_says ("Distance") && !status_says ("across 0"));
  drive_key (GDK_KEY_Escape, 0);
  DRIVE_UNTIL (!tw_canvas_is_measuring (board));
}

static void
read_done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  const char *type;

  *(GInputStream **)data = gdk_clipboard_read_finish (GDK_CLIPBOARD (source), result, &type, NULL);
  g_assert_nonnull (*(GInputStream **)data);
}

/* The first bytes of what lies on the clipboard as @type. */
static void
read_clipboard (const char *type, char *start, gsize n)
{
  GdkClipboard *clipboard = gtk_widget_get_clipboard (GTK_WIDGET (window));
  GInputStream *stream = NULL;
  const char *types[2] = { type, NULL };
  gsize length;
  g_autoptr (GError) error = NULL;

  gdk_clipboard_read_async (clipboard, types, G_PRIORITY_DEFAULT, NULL, read_done_cb, &stream);
  DRIVE_UNTIL (stream != NULL);
  g_assert_true (g_input_stream_read_all (stream, start, n, &length, NULL, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (length, ==, n);
  g_object_unref (stream);
}

static void
test_copies (void)
{
  GdkClipboard *clipboard;
  char start[64] = { 0 };

  open_sample ();
  clipboard = gtk_widget_get_clipboard (GTK_WIDGET (window));
  for (guint view = 0; view < TW_N_VIEWS; view++) {
    tw_session_set_view (session (), view);
    gtk_widget_activate_action (canvas (), "win.copy-lines", NULL);
    read_clipboard ("image/svg+xml", start, sizeof start - 1);
    g_assert_nonnull (strstr (start, "<?xml"));
  }
  tw_session_set_view (session (), TW_VIEW_FACE);
  drive_key (GDK_KEY_c, GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  DRIVE_UNTIL (gdk_content_formats_contain_gtype (gdk_clipboard_get_formats (clipboard), GDK_TYPE_TEXTURE));
  read_clipboard ("image/png", start, 8);
  g_assert_cmpmem (start, 8, "\x89PNG\r\n\x1a\n", 8); /* the first bytes of any PNG, RFC 2083 section 3.1 */
}

/* Names on the drawing are larger with the platform's letters: fewer or the same have room, none smaller. */
static void
test_large_text (void)
{
  GtkSettings *settings = gtk_settings_get_default ();
  guint plain;
  int dpi;

  open_sample ();
  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  plain = tw_canvas_nodes_drawn (TW_CANVAS (canvas ()));
  g_object_set (settings, "gtk-xft-dpi", 96 * 1024 * 3 / 2, NULL);
  DRIVE_UNTIL (tw_canvas_nodes_drawn (TW_CANVAS (canvas ())) > plain);
  drive_picture (GTK_WIDGET (window), "large-text");
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
  drive_frame (GTK_WIDGET (window));
}

static GtkEventController *
controller (GType type)
{
  GListModel *all = gtk_widget_observe_controllers (canvas ());
  GtkEventController *found = NULL;

  for (guint i = 0; i < g_list_model_get_n_items (all); i++) {
    g_autoptr (GtkEventController) one = g_list_model_get_item (all, i);

    if (g_type_is_a (G_OBJECT_TYPE (one), type))
      found = one;
  }
  g_object_unref (all);
  g_assert_nonnull (found);
  return found;
}

static void
test_pinch_and_limits (void)
{
  TwCanvas *board;
  double before;

  open_sample ();
  board = TW_CANVAS (canvas ());
  before = tw_canvas_px_mm (board);
  click_at (0, 0); /* the pinch begins from here: a gesture's begin wants an event, which nobody can make */
  g_signal_emit_by_name (controller (GTK_TYPE_GESTURE_ZOOM), "scale-changed", 2.0);
  g_assert_cmpfloat_with_epsilon (tw_canvas_px_mm (board), 2.0 * before, 1e-9);
  for (int i = 0; i < 40; i++)
    tw_canvas_zoom (board, 2.0);
  g_assert_cmpfloat (tw_canvas_px_mm (board), ==, TW_LENS_MOST_PX_MM);
  drive_picture (GTK_WIDGET (window), "nearest");
  for (int i = 0; i < 60; i++)
    tw_canvas_zoom (board, 0.5);
  g_assert_cmpfloat (tw_canvas_px_mm (board), ==, TW_LENS_LEAST_PX_MM);
  drive_picture (GTK_WIDGET (window), "farthest");
}

static int result;

static void
run_cb (AdwApplication *application)
{
  g_application_hold (G_APPLICATION (application));
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  window = drive_window (application, 1280, 800);
  result = g_test_run ();
  gtk_window_destroy (GTK_WINDOW (window));
  g_application_release (G_APPLICATION (application));
}

int
main (int argc, char **argv)
{
  g_autoptr (AdwApplication) application = NULL;

  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/measure/rulers", test_rulers);
  g_test_add_func ("/measure/distance", test_distance);
  g_test_add_func ("/measure/distance-by-keys", test_distance_by_keys);
  g_test_add_func ("/measure/copies", test_copies);
  g_test_add_func ("/measure/large-text", test_large_text);
  g_test_add_func ("/measure/pinch-and-limits", test_pinch_and_limits);
  application = tw_application_new (G_APPLICATION_NON_UNIQUE);
  g_signal_connect (application, "activate", G_CALLBACK (run_cb), NULL);
  g_application_run (G_APPLICATION (application), 1, argv);
  return result;
}
