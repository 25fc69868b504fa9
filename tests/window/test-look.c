/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-look.c - planted faults are found, and only those; the real window has none
 */
#include "app/application.h"
#include "drive.h"
#include "look.h"

#include <string.h>

static TwWindow *window; /* of the program */

/* --- planted faults ---------------------------------------------------------------------------------------
 */

static GtkWidget *
label (const char *text)
{
  GtkWidget *widget = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (widget), 0.0F);
  return widget;
}

static GtkWidget *
make_sound (void)
{
  return label ("Face width");
}

static GtkWidget *
make_shortened (void)
{
  GtkWidget *widget = label ("A name that is far too long for the room that it is given here");

  gtk_label_set_ellipsize (GTK_LABEL (widget), PANGO_ELLIPSIZE_END);
  gtk_widget_set_size_request (widget, 60, -1);
  gtk_widget_set_halign (widget, GTK_ALIGN_START);
  gtk_label_set_max_width_chars (GTK_LABEL (widget), 8);
  return widget;
}

/* A box that gives its child less than it needs. */
static GtkWidget *
make_cut_off (void)
{
  GtkWidget *fixed = gtk_fixed_new (), *room = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  gtk_widget_set_size_request (fixed, 40, 20);
  gtk_widget_set_halign (fixed, GTK_ALIGN_START);
  gtk_fixed_put (GTK_FIXED (fixed), label ("hangs over"), -30.0, 0.0);
  gtk_box_append (GTK_BOX (room), fixed);
  return room;
}

static GtkWidget *
make_unnamed (void)
{
  GtkWidget *button = gtk_button_new_from_icon_name ("edit-undo-symbolic");

  gtk_widget_set_tooltip_text (button, "Undo");
  return button;
}

static GtkWidget *
make_without_tip (void)
{
  GtkWidget *button = gtk_button_new_from_icon_name ("edit-undo-symbolic");

  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, "Undo", -1);
  return button;
}

static GtkWidget *
make_overlapping (void)
{
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_attach (GTK_GRID (grid), label ("first"), 0, 0, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), label ("second"), 0, 0, 1, 1);
  return grid;
}

static GtkWidget *
coloured (const char *markup)
{
  GtkWidget *widget = label (NULL);

  gtk_label_set_markup (GTK_LABEL (widget), markup);
  return widget;
}

/* By WCAG's own formula, by hand: 0x8a is 0.5412, so 0.2540, and 1.05 / 0.3040 = 3.45; 0x6f is 0.4353, so
 * 0.1590, and 1.05 / 0.2090 = 5.02. */
static GtkWidget *
make_pale (void)
{
  return coloured (
      "<span background='#ffffff' foreground='#8a8a8a' alpha='100%'>too pale to read well</span>");
}

static GtkWidget *
make_just_dark_enough (void)
{
  return coloured ("<span background='#ffffff' foreground='#6f6f6f' alpha='100%'>just dark enough</span>");
}

typedef struct {
  const char *name;
  GtkWidget *(*make) (void);
  const char *fault; /* NULL: none */
} Case;

static const Case cases[] = {
  { "sound", make_sound, NULL },
  { "shortened", make_shortened, "is shortened" },
  { "cut-off", make_cut_off, "is cut off" },
  { "unnamed", make_unnamed, "has no name" },
  { "without-tip", make_without_tip, "no tip" },
  { "overlapping", make_overlapping, "lies on" },
  { "pale", make_pale, "contrast of 3." },
  { "just-dark-enough", make_just_dark_enough, NULL },
};

static GtkWidget *
shown_with (GtkWidget *child)
{
  GtkWidget *plain = gtk_window_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_window_set_title (GTK_WINDOW (plain), "Planted");
  gtk_window_set_default_size (GTK_WINDOW (plain), 400, 200);
  gtk_window_set_titlebar (GTK_WINDOW (plain), gtk_box_new (GTK_ORIENTATION_VERTICAL, 0));
  gtk_box_append (GTK_BOX (box), child);
  gtk_window_set_child (GTK_WINDOW (plain), box);
  gtk_window_present (GTK_WINDOW (plain));
  DRIVE_UNTIL (gtk_widget_get_mapped (plain) && gtk_widget_get_width (child) > 0);
  drive_frame (plain);
  return plain;
}

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  GtkWidget *plain = shown_with (c->make ());
  g_autoptr (GPtrArray) faults = look_judge (plain, LOOK_ALL);

  for (guint i = 0; i < faults->len; i++)
    g_test_message ("%s", (const char *)g_ptr_array_index (faults, i));
  g_assert_cmpuint (faults->len, ==, c->fault ? 1 : 0);
  if (c->fault != NULL)
    g_assert_nonnull (strstr (g_ptr_array_index (faults, 0), c->fault));
  gtk_window_destroy (GTK_WINDOW (plain));
}

/* --- the real window --------------------------------------------------------------------------------------
 */

static void
open_sample (const char *name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "samples", name, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_true (tw_session_open (tw_window_session (window), path, &error));
  g_assert_no_error (error);
  for (guint i = 0; i < 4; i++)
    drive_frame (GTK_WIDGET (window));
}

static void
test_start_page (void)
{
  look_fine (GTK_WIDGET (window), "start page");
  g_assert_true (look_shows (GTK_WIDGET (window), "start", "Merlin"));
}

static void
test_sample (gconstpointer name)
{
  open_sample (name);
  for (TwView view = 0; view < TW_N_VIEWS; view++) {
    g_autofree char *when = g_strdup_printf ("%s, view %d", (const char *)name, (int)view);

    tw_session_set_view (tw_window_session (window), view);
    for (guint i = 0; i < 4; i++)
      drive_frame (GTK_WIDGET (window));
    look_fine (GTK_WIDGET (window), when);
  }
  tw_session_set_view (tw_window_session (window), TW_VIEW_FACE);
}

/* The tail sample: 31 tubes, 16 over 15; its card says so, its parts are on the drawing and in the list. */
static void
test_describe (void)
{
  g_autofree char *description = NULL;

  open_sample ("merlin-tail.twjob");
  description = look_describe (GTK_WIDGET (window));
  g_test_message ("%s", description);
  g_assert_true (look_shows (GTK_WIDGET (window), "header", "[*Face]"));
  g_assert_true (look_shows (GTK_WIDGET (window), "header", "(Undo)"));
  g_assert_true (look_shows (GTK_WIDGET (window), "drawing", "<Baffle>"));
  g_assert_true (look_shows (GTK_WIDGET (window), "parts", "Baffle"));
  g_assert_true (look_shows (GTK_WIDGET (window), "card Pass layout", "16"));
  g_assert_false (look_shows (GTK_WIDGET (window), "card Pass layout", "17 |"));
}

static void
add_tests (void)
{
  static const char *const samples[]
      = { "merlin-tail.twjob", "caravan-4.twjob", "volt-9.twjob", "ox.twjob", "merlin-boot.twjob" };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strconcat ("/look/planted/", cases[i].name, NULL);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  g_test_add_func ("/look/start-page", test_start_page);
  for (guint i = 0; i < G_N_ELEMENTS (samples); i++) {
    g_autofree char *path = g_strconcat ("/look/sample/", samples[i], NULL);

    g_test_add_data_func (path, samples[i], test_sample);
  }
  g_test_add_func ("/look/describe", test_describe);
}

static int result;

static void
run_cb (AdwApplication *application)
{
  g_application_hold (G_APPLICATION (application));
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  window = drive_window (application, 1366, 768);
  result = g_test_run ();
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
