/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-start.c - the first five minutes by pointer and keys: start page, new layout, help
 *
 * Each test has a window of its own without a job. The bay is that of the tail sample as a tape would give
 * it.
 */
#include "app/answer-row.h"
#include "app/application.h"
#include "app/help-window.h"
#include "app/job-picture.h"
#include "app/new-layout.h"
#include "app/start-page.h"
#include "drive.h"

#include <math.h>

static AdwApplication *running;
static TwWindow *window;

static TwSession *
session (void)
{
  return tw_window_session (window);
}

/* A window afresh; the one before goes. */
static void
open_window (void)
{
  TwWindow *before = window;

  window = tw_window_new (running);
  gtk_window_set_default_size (GTK_WINDOW (window), 1000, 640);
  gtk_window_present (GTK_WINDOW (window));
  if (before != NULL)
    gtk_window_destroy (GTK_WINDOW (before));
  DRIVE_UNTIL (gtk_widget_get_mapped (GTK_WIDGET (window)) && gtk_window_is_active (GTK_WINDOW (window)));
  drive_frame (GTK_WIDGET (window));
}

/* The first window of @type, or NULL. */
static GtkWidget *
toplevel (GType type)
{
  GListModel *all = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (all); i++) {
    g_autoptr (GtkWidget) one = g_list_model_get_item (all, i);

    if (G_TYPE_CHECK_INSTANCE_TYPE (one, type) && gtk_widget_get_mapped (one))
      return one;
  }
  return NULL;
}

static GtkWidget *
wait_active (GType type)
{
  DRIVE_UNTIL (toplevel (type) != NULL);
  DRIVE_UNTIL (gtk_window_is_active (GTK_WINDOW (toplevel (type))));
  drive_frame (toplevel (type));
  return toplevel (type);
}

static GtkWidget *
label_with (GtkWidget *root, const char *words)
{
  if (GTK_IS_LABEL (root) && gtk_widget_get_mapped (root)
      && strstr (gtk_label_get_text (GTK_LABEL (root)), words) != NULL)
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child)) {
    GtkWidget *found = label_with (child, words);

    if (found != NULL)
      return found;
  }
  return NULL;
}

static gboolean
may_make (GtkWidget *dialog)
{
  GtkWidget *button = gtk_window_get_default_widget (GTK_WINDOW (dialog));

  return gtk_widget_get_sensitive (button);
}

/* --- start page ----------------------------------------------------------------------------------------- */

static guint
n_drawn (GtkWidget *root)
{
  guint n = TW_IS_JOB_PICTURE (root) ? tw_job_picture_drawn (TW_JOB_PICTURE (root)) : 0;

  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += n_drawn (child);
  return n;
}

static void
test_sample_by_click (void)
{
  GtkWidget *tile;

  open_window ();
  tile = drive_find (GTK_WIDGET (window), GTK_TYPE_FLOW_BOX_CHILD, "Merlin, tail");
  g_assert_nonnull (tile);
  /* once as paper, once as drawn */
  DRIVE_UNTIL (n_drawn (GTK_WIDGET (window)) >= 5);
  drive_picture (GTK_WIDGET (window), "start");
  drive_click (tile);
  DRIVE_UNTIL (tw_session_has_job (session ()));
  g_assert_cmpuint (tw_job_count (tw_session_job (session ()), TW_KIND_BAFFLE), ==, 1);
  g_assert_null (tw_session_path (session ()));
}

static void
test_empty_job (void)
{
  open_window ();
  drive_click (label_with (GTK_WIDGET (window), "Empty Job"));
  DRIVE_UNTIL (tw_session_has_job (session ()));
  g_assert_cmpuint (tw_job_count (tw_session_job (session ()), TW_KIND_CORE), ==, 0);
}

/* --- new layout ----------------------------------------------------------------------------------------- */

/* The first half of the first story: a tape-measured bay, 42 kW, 32 °C, all by keys. */
static void
test_five_answers (void)
{
  GtkWidget *dialog;
  const TwSettings *settings;
  g_autofree char *undo = NULL;

  open_window ();
  drive_key (GDK_KEY_n, GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  dialog = wait_active (TW_TYPE_NEW_LAYOUT);
  g_assert_false (may_make (dialog));
  drive_type ("920");
  drive_key (GDK_KEY_Tab, 0);
  drive_type ("430");
  drive_key (GDK_KEY_Tab, 0);
  drive_type ("700");
  DRIVE_UNTIL (may_make (dialog));
  DRIVE_UNTIL (label_with (dialog, "37 tubes") != NULL);
  drive_key (GDK_KEY_Tab, 0); /* known as */
  drive_key (GDK_KEY_Tab, 0);
  drive_type ("42");
  drive_key (GDK_KEY_Tab, 0);
  drive_type ("32");
  DRIVE_UNTIL (label_with (dialog, "2.1 kW for each") != NULL);
  drive_picture (dialog, "new-layout");
  drive_key (GDK_KEY_Return, 0);
  DRIVE_UNTIL (tw_session_has_job (session ()) && toplevel (TW_TYPE_NEW_LAYOUT) == NULL);
  settings = tw_job_settings (tw_session_job (session ()));
  g_assert_cmpfloat (settings->heat_kw, ==, 42);
  g_assert_cmpuint (tw_job_count (tw_session_job (session ()), TW_KIND_TANK), ==, 2);
  g_assert_cmpuint (
      tw_findings_count_of (tw_answer_findings (tw_session_answer (session ())), TW_SEVERITY_STOP), ==, 0);
  g_assert_true (tw_session_is_modified (session ()));
  g_object_get (session (), "undo-label", &undo, NULL);
  g_assert_cmpstr (undo, ==, "New Layout");
  drive_frame (GTK_WIDGET (window));
  drive_picture (GTK_WIDGET (window), "first-layout");
  gtk_window_present (GTK_WINDOW (window)); /* no window manager gives it the keys back */
  DRIVE_UNTIL (gtk_window_is_active (GTK_WINDOW (window)));
  drive_key (GDK_KEY_z, GDK_CONTROL_MASK);
  DRIVE_UNTIL (tw_job_count (tw_session_job (session ()), TW_KIND_CORE) == 0);
}

/* What is no length and a bay that is too small are said beside their entries; mended, all is well. */
static void
test_bad_answers (void)
{
  GtkWidget *dialog;

  open_window ();
  drive_key (GDK_KEY_n, GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  dialog = wait_active (TW_TYPE_NEW_LAYOUT);
  drive_type ("36 1/2 in");
  drive_key (GDK_KEY_Tab, 0);
  drive_type ("17 x");
  drive_key (GDK_KEY_Tab, 0);
  drive_type ("90");
  DRIVE_UNTIL (label_with (dialog, "is not a length") != NULL);
  g_assert_false (may_make (dialog));
  drive_picture (dialog, "new-layout-bad");
  drive_key (GDK_KEY_Tab, GDK_SHIFT_MASK);
  drive_type ("17 in"); /* Tab chose the whole text */
  DRIVE_UNTIL (label_with (dialog, "is not a length") == NULL);
  DRIVE_UNTIL (label_with (dialog, "the smallest core with its tanks and ports needs") != NULL);
  g_assert_false (may_make (dialog));
  drive_key (GDK_KEY_Tab, 0);
  drive_type ("700");
  DRIVE_UNTIL (may_make (dialog));
  drive_key (GDK_KEY_Escape, 0);
  DRIVE_UNTIL (toplevel (TW_TYPE_NEW_LAYOUT) == NULL);
  g_assert_false (tw_session_has_job (session ()));
}

/* Brake power and its share instead of heat; the entries of one go when the other is chosen. */
static void
test_brake_power (void)
{
  GtkWidget *dialog;

  open_window ();
  drive_key (GDK_KEY_n, GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  dialog = wait_active (TW_TYPE_NEW_LAYOUT);
  drive_type ("920");
  drive_key (GDK_KEY_Tab, 0);
  drive_type ("430");
  drive_key (GDK_KEY_Tab, 0);
  drive_type ("700");
  drive_key (GDK_KEY_Tab, 0);
  drive_key (GDK_KEY_space, 0);
  drive_frame (dialog);
  drive_key (GDK_KEY_Down, 0);
  drive_key (GDK_KEY_Return, 0);
  DRIVE_UNTIL (label_with (dialog, "Share to the water") != NULL);
  g_assert_null (label_with (dialog, "Heat to lose"));
  drive_frame (dialog);
  drive_key (GDK_KEY_Tab, 0);
  drive_type ("70");
  DRIVE_UNTIL (label_with (dialog, "Heat to the water 42.0") != NULL);
  drive_key (GDK_KEY_Return, 0);
  DRIVE_UNTIL (tw_session_has_job (session ()));
  g_assert_cmpfloat_with_epsilon (tw_job_settings (tw_session_job (session ()))->heat_kw, 42, 1e-9);
}

/* From the start page with no pointer at all: the first button has the focus. */
static void
test_keys_only (void)
{
  open_window ();
  drive_key (GDK_KEY_Tab, 0);
  for (int i = 0; i < 12 && toplevel (TW_TYPE_NEW_LAYOUT) == NULL; i++) {
    GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));

    if (focus != NULL && GTK_IS_BUTTON (focus)
        && g_strcmp0 (gtk_button_get_label (GTK_BUTTON (focus)), "_New Layout…") == 0)
      drive_key (GDK_KEY_Return, 0);
    else
      drive_key (GDK_KEY_Tab, 0);
    drive_frame (GTK_WIDGET (window));
  }
  wait_active (TW_TYPE_NEW_LAYOUT);
  drive_key (GDK_KEY_Escape, 0);
  DRIVE_UNTIL (toplevel (TW_TYPE_NEW_LAYOUT) == NULL);
}

/* A file let go over the page opens as itself. (The pointer's part of it is the toolkit's.) */
static void
test_drop (void)
{
  g_autofree char *from = g_test_build_filename (G_TEST_DIST, "..", "samples", "ox.twjob", NULL);
  g_autofree char *path = g_test_build_filename (G_TEST_BUILT, "window", "dropped.twjob", NULL);
  g_autofree char *text = NULL;
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GSList) files = g_slist_prepend (NULL, file);
  g_autoptr (GListModel) controllers = NULL;
  g_auto (GValue) value = G_VALUE_INIT;
  GtkWidget *page;
  gboolean took = FALSE;

  g_assert_true (g_file_get_contents (from, &text, NULL, NULL));
  g_assert_true (g_file_set_contents (path, text, -1, NULL));
  open_window ();
  page = drive_find (GTK_WIDGET (window), TW_TYPE_START_PAGE, NULL);
  controllers = gtk_widget_observe_controllers (page);
  g_value_init (&value, GDK_TYPE_FILE_LIST);
  g_value_set_boxed (&value, files);
  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++) {
    g_autoptr (GObject) one = g_list_model_get_item (controllers, i);

    if (GTK_IS_DROP_TARGET (one))
      g_signal_emit_by_name (one, "drop", &value, 10.0, 10.0, &took);
  }
  g_assert_true (took);
  DRIVE_UNTIL (tw_session_has_job (session ()));
  g_assert_cmpstr (tw_session_path (session ()), ==, path);
}

/* At text half as large again all fits into the smallest window. */
static void
test_large_text (void)
{
  GtkSettings *settings = gtk_settings_get_default ();
  GtkWidget *dialog, *help;
  int dpi, least;

  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  g_object_set (settings, "gtk-xft-dpi", dpi * 3 / 2, NULL);
  open_window ();
  gtk_widget_measure (GTK_WIDGET (window), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 1000);
  drive_picture (GTK_WIDGET (window), "start-large");
  drive_key (GDK_KEY_n, GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  dialog = wait_active (TW_TYPE_NEW_LAYOUT);
  drive_type ("920");
  drive_key (GDK_KEY_Tab, 0);
  drive_type ("430");
  drive_key (GDK_KEY_Tab, 0);
  drive_type ("20");
  DRIVE_UNTIL (label_with (dialog, "expected 60 to 5000") != NULL);
  gtk_widget_measure (dialog, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 1000);
  drive_picture (dialog, "new-layout-large");
  drive_key (GDK_KEY_Escape, 0);
  DRIVE_UNTIL (toplevel (TW_TYPE_NEW_LAYOUT) == NULL);
  tw_help_show (GTK_WINDOW (window), "numbers");
  help = wait_active (TW_TYPE_HELP_WINDOW);
  drive_picture (help, "help-large");
  gtk_window_close (GTK_WINDOW (help));
  DRIVE_UNTIL (toplevel (TW_TYPE_HELP_WINDOW) == NULL);
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
}

/* --- help ----------------------------------------------------------------------------------------------- */

static gboolean
shows (const char *page)
{
  GtkWidget *help = toplevel (TW_TYPE_HELP_WINDOW);

  return help != NULL && g_strcmp0 (tw_help_window_page (TW_HELP_WINDOW (help)), page) == 0;
}

static void
test_help_by_keys (void)
{
  GtkWidget *help, *text;

  open_window ();
  drive_key (GDK_KEY_F1, 0);
  help = wait_active (TW_TYPE_HELP_WINDOW);
  g_assert_true (shows ("first-steps"));
  drive_picture (help, "help-first");

  drive_type ("laminar pump");
  DRIVE_UNTIL (label_with (help, "grows to four times") != NULL || label_with (help, "laminar") != NULL);
  drive_key (GDK_KEY_Return, 0);
  DRIVE_UNTIL (shows ("passes"));
  drive_picture (help, "help-search");

  text = label_with (help, "needs a bleed");
  g_assert_nonnull (text);
  gtk_widget_grab_focus (text);
  drive_key (GDK_KEY_Return, 0);
  DRIVE_UNTIL (shows ("ports"));
  for (int i = 0; i < 10; i++)
    drive_frame (help); /* the page takes the focus when it has been laid out */
  drive_key (GDK_KEY_Left, GDK_ALT_MASK);
  DRIVE_UNTIL (shows ("passes"));
  for (int i = 0; i < 10; i++)
    drive_frame (help);
  drive_key (GDK_KEY_Left, GDK_ALT_MASK);
  DRIVE_UNTIL (shows ("first-steps"));
  drive_key (GDK_KEY_Escape, 0);
  drive_key (GDK_KEY_Escape, 0);
  DRIVE_UNTIL (toplevel (TW_TYPE_HELP_WINDOW) == NULL);
}

/* Context help finds its page; one window serves all; it closes with the last window of the work. */
static void
test_help_shown (void)
{
  TwWindow *last;

  open_window ();
  tw_help_show (GTK_WINDOW (window), "fans");
  wait_active (TW_TYPE_HELP_WINDOW);
  g_assert_true (shows ("fans"));
  g_action_group_activate_action (G_ACTION_GROUP (running), "help", g_variant_new_string ("no-such-page"));
  DRIVE_UNTIL (shows ("first-steps"));
  drive_picture (toplevel (TW_TYPE_HELP_WINDOW), "help-fallback");
  last = window;
  window = NULL;
  gtk_window_close (GTK_WINDOW (last));
  DRIVE_UNTIL (toplevel (TW_TYPE_HELP_WINDOW) == NULL);
}

static void
test_help_page_by_page (void)
{
  GtkWidget *help;
  static const char *const pages[] = { "bay", "core", "ports", "sources", "checks", "cautions", "glossary" };

  open_window ();
  tw_help_show (GTK_WINDOW (window), "first-steps");
  help = wait_active (TW_TYPE_HELP_WINDOW);
  for (guint i = 0; i < G_N_ELEMENTS (pages); i++) {
    g_autofree char *name = g_strdup_printf ("help-%s", pages[i]);

    tw_help_show (GTK_WINDOW (window), pages[i]);
    DRIVE_UNTIL (shows (pages[i]));
    drive_frame (help);
    drive_picture (help, name);
  }
  gtk_window_close (GTK_WINDOW (help));
  DRIVE_UNTIL (toplevel (TW_TYPE_HELP_WINDOW) == NULL);
}

static void
add_tests (void)
{
  g_test_add_func ("/window/start/sample-by-click", test_sample_by_click);
  g_test_add_func ("/window/start/empty-job", test_empty_job);
  g_test_add_func ("/window/start/five-answers", test_five_answers);
  g_test_add_func ("/window/start/bad-answers", test_bad_answers);
  g_test_add_func ("/window/start/brake-power", test_brake_power);
  g_test_add_func ("/window/start/keys-only", test_keys_only);
  g_test_add_func ("/window/start/drop", test_drop);
  g_test_add_func ("/window/start/large-text", test_large_text);
  g_test_add_func ("/window/start/help-by-keys", test_help_by_keys);
  g_test_add_func ("/window/start/help-shown", test_help_shown);
  g_test_add_func ("/window/start/help-page-by-page", test_help_page_by_page);
}

static int result;

static void
run_cb (AdwApplication *application)
{
  running = application;
  g_application_hold (G_APPLICATION (application));
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  window = TW_WINDOW (gtk_application_get_active_window (GTK_APPLICATION (application)));
  result = g_test_run ();
  if (window != NULL)
    gtk_window_destroy (GTK_WINDOW (window));
  g_application_release (G_APPLICATION (application));
}

int
main (int argc, char **argv)
{
  g_autoptr (AdwApplication) application = NULL;

  g_test_init (&argc, &argv, NULL);
  add_tests ();
  application = tw_application_new (G_APPLICATION_NON_UNIQUE);
  g_signal_connect (application, "activate", G_CALLBACK (run_cb), NULL);
  g_application_run (G_APPLICATION (application), 1, argv);
  return result;
}
