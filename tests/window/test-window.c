/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-window.c - the main job in the real window, by pointer and keys
 *
 * One window, opened once; every test opens the tail sample afresh from a copy of its own. Its tubes have a
 * pitch of 10 mm and are counted from the top, the baffle lies at −5, between tubes 16 and 17 of 31.
 */
#include "app/application.h"
#include "app/canvas.h"
#include "app/canvas-part.h"
#include "app/card-view.h"
#include "app/field-row.h"
#include "drive.h"
#include "job/read.h"
#include "job/write.h"

#include <math.h>

static TwWindow *window;
static char *sample; /* copy of the sample, opened by every test */

static TwSession *
session (void)
{
  return tw_window_session (window);
}

static TwCanvas *
canvas (void)
{
  return TW_CANVAS (drive_find (GTK_WIDGET (window), TW_TYPE_CANVAS, NULL));
}

static void
open_sample (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *from = g_test_build_filename (G_TEST_DIST, "..", "samples", "merlin-tail.twjob", NULL);
  g_autofree char *text = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (from, &text, &length, &error));
  g_assert_true (g_file_set_contents (sample, text, (gssize)length, &error));
  g_assert_true (tw_session_open (session (), sample, &error));
  g_assert_no_error (error);
  tw_session_set_view (session (), TW_VIEW_FACE);
  drive_frame (GTK_WIDGET (window));
  drive_frame (GTK_WIDGET (window));
}

static TwId
part_named (TwKind kind, const char *name)
{
  const TwJob *job = tw_session_job (session ());

  for (guint i = 0; i < tw_job_count (job, kind); i++)
    if (g_str_equal (tw_part_name (tw_job_get (job, kind, i)), name))
      return tw_job_get (job, kind, i)->id;
  g_error ("no part is called %s", name);
}

static gboolean
is_chosen (TwKind kind, const char *name)
{
  return tw_id_equal (tw_session_selection (session ()), part_named (kind, name));
}

static double
baffle_place_mm (void)
{
  return ((const TwBaffle *)tw_job_get (tw_session_job (session ()), TW_KIND_BAFFLE, 0))->place_mm;
}

static double
face_width_mm (void)
{
  return ((const TwCore *)tw_job_get (tw_session_job (session ()), TW_KIND_CORE, 0))->face_width_mm;
}

/* What the pass card tells a screen reader. */
static gboolean
pass_card_says (const char *words)
{
  GtkWidget *card = drive_find (GTK_WIDGET (window), TW_TYPE_CARD_VIEW, "Pass layout");
  g_autofree char *text = drive_description (card);

  gtk_test_accessible_assert_role (card, GTK_ACCESSIBLE_ROLE_GROUP);
  return strstr (text, words) != NULL;
}

/* Takes the baffle in the middle of its tank and moves it by so many mm, in steps of a frame. */
static void
drag_baffle (double by_mm)
{
  TwCanvas *board = canvas ();
  GtkWidget *part = drive_find (GTK_WIDGET (board), TW_TYPE_CANVAS_PART, "Baffle");
  graphene_point_t middle;
  double px;

  g_assert_nonnull (part);
  g_assert_true (gtk_widget_compute_point (part, GTK_WIDGET (board),
                                           &GRAPHENE_POINT_INIT ((float)gtk_widget_get_width (part) / 4.0F,
                                                                 (float)gtk_widget_get_height (part) / 2.0F),
                                           &middle));
  px = (double)(tw_canvas_place_of (board, (TwPoint){ 0, by_mm }).y
                - tw_canvas_place_of (board, (TwPoint){ 0, 0 }).y);
  drive_pointer_to (GTK_WIDGET (board), (double)middle.x, (double)middle.y);
  drive_press ();
  for (int i = 1; i <= 6; i++)
    drive_pointer_to (GTK_WIDGET (board), (double)middle.x, (double)middle.y + px * i / 6);
}

/* --- tests ---------------------------------------------------------------------------------------------- */

static void
test_drag_undo_save_reopen (void)
{
  g_autofree char *before = NULL, *undone = NULL, *saved = NULL, *read_again = NULL;
  GtkWidget *undo;

  open_sample ();
  before = tw_job_write_text (tw_session_job (session ()));
  DRIVE_UNTIL (pass_card_says ("16"));

  drag_baffle (-10);
  DRIVE_UNTIL (baffle_place_mm () == -15);
  DRIVE_UNTIL (pass_card_says ("17") && pass_card_says ("14"));
  drive_picture (GTK_WIDGET (window), "dragging");
  drive_release ();

  undo = drive_find (GTK_WIDGET (window), GTK_TYPE_BUTTON, "Undo");
  DRIVE_UNTIL (strstr (gtk_widget_get_tooltip_text (undo), "Move of Baffle") != NULL);
  drive_key (GDK_KEY_z, GDK_CONTROL_MASK);
  DRIVE_UNTIL (baffle_place_mm () == -5);
  DRIVE_UNTIL (pass_card_says ("16"));
  undone = tw_job_write_text (tw_session_job (session ()));
  g_assert_cmpstr (undone, ==, before);
  g_assert_false (tw_session_is_modified (session ()));

  drive_key (GDK_KEY_z, GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  DRIVE_UNTIL (baffle_place_mm () == -15);
  drive_key (GDK_KEY_s, GDK_CONTROL_MASK);
  DRIVE_UNTIL (!tw_session_is_modified (session ()));
  g_assert_true (g_file_get_contents (sample, &saved, NULL, NULL));
  g_assert_nonnull (strstr (saved, "-15"));

  drive_key (GDK_KEY_r, GDK_CONTROL_MASK);
  DRIVE_UNTIL (baffle_place_mm () == -15);
  read_again = tw_job_write_text (tw_session_job (session ()));
  g_assert_cmpstr (read_again, ==, saved);
  DRIVE_UNTIL (pass_card_says ("17"));
}

static void
test_escape_puts_back (void)
{
  open_sample ();
  drag_baffle (-20);
  DRIVE_UNTIL (baffle_place_mm () == -25);
  drive_key (GDK_KEY_Escape, 0);
  DRIVE_UNTIL (baffle_place_mm () == -5);
  drive_release ();
  g_assert_false (tw_session_is_modified (session ()));
}

static void
test_arrow_keys (void)
{
  open_sample ();
  tw_session_select (session (), part_named (TW_KIND_BAFFLE, "Baffle"));
  gtk_widget_grab_focus (drive_find (GTK_WIDGET (window), TW_TYPE_CANVAS_PART, "Baffle"));
  drive_key (GDK_KEY_Up, 0);
  DRIVE_UNTIL (baffle_place_mm () == -4);
  drive_key (GDK_KEY_Down, GDK_SHIFT_MASK);
  DRIVE_UNTIL (baffle_place_mm () == -14);
}

/* Tab goes from part to part and chooses; every part has name, role and figures. */
static void
test_tab_chooses (void)
{
  GtkWidget *first;
  g_autofree char *figures = NULL;

  open_sample ();
  first = drive_find (GTK_WIDGET (canvas ()), TW_TYPE_CANVAS_PART, NULL);
  gtk_widget_grab_focus (first);
  DRIVE_UNTIL (tw_id_equal (tw_session_selection (session ()), tw_canvas_part_id (TW_CANVAS_PART (first))));
  drive_key (GDK_KEY_Tab, 0);
  DRIVE_UNTIL (!tw_id_equal (tw_session_selection (session ()), tw_canvas_part_id (TW_CANVAS_PART (first))));
  gtk_test_accessible_assert_role (first, GTK_ACCESSIBLE_ROLE_BUTTON);
  first = drive_find (GTK_WIDGET (canvas ()), TW_TYPE_CANVAS_PART, "Baffle");
  figures = drive_description (first);
  g_assert_nonnull (strstr (figures, "baffle"));
  g_assert_nonnull (strstr (figures, "Place along the header"));
}

static GtkWidget *
entry_of (const char *label)
{
  GtkWidget *entry = drive_find (GTK_WIDGET (window), GTK_TYPE_ENTRY, label);

  g_assert_nonnull (entry);
  return entry;
}

static void
fill_entry (GtkWidget *entry, const char *text)
{
  gtk_widget_grab_focus (entry);
  drive_key (GDK_KEY_a, GDK_CONTROL_MASK);
  drive_type (text);
  drive_key (GDK_KEY_Return, 0);
}

/* 20 3/8 in = 20.375 · 25.4 mm = 517.525 mm */
static void
test_type_a_fraction (void)
{
  GtkWidget *entry;

  open_sample ();
  tw_session_select (session (), part_named (TW_KIND_CORE, "Core"));
  drive_frame (GTK_WIDGET (window));
  entry = entry_of ("Face width");
  fill_entry (entry, "20 3/8");
  DRIVE_UNTIL (fabs (face_width_mm () - 517.525) < 1e-9);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "20 3/8");
  g_assert_nonnull (strstr (gtk_widget_get_tooltip_text (entry), "517.525 mm"));
  drive_picture (GTK_WIDGET (window), "typed");
}

static void
test_bad_entry (void)
{
  GtkWidget *entry;

  open_sample ();
  tw_session_select (session (), part_named (TW_KIND_CORE, "Core"));
  drive_frame (GTK_WIDGET (window));
  entry = entry_of ("Face width");
  fill_entry (entry, "seven");
  DRIVE_UNTIL (gtk_widget_has_css_class (entry, "error"));
  gtk_test_accessible_assert_state (entry, GTK_ACCESSIBLE_STATE_INVALID, GTK_ACCESSIBLE_INVALID_TRUE);
  g_assert_cmpfloat (face_width_mm (), ==, 700);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "seven");
  for (int i = 0; i < 20; i++)
    drive_frame (GTK_WIDGET (window));
  drive_picture (GTK_WIDGET (window), "bad-entry");
  drive_key (GDK_KEY_Escape, 0);
  DRIVE_UNTIL (!gtk_widget_has_css_class (entry, "error"));
  g_assert_true (g_str_has_prefix (gtk_editable_get_text (GTK_EDITABLE (entry)), "700"));
}

static void
test_views (void)
{
  static const char *const names[] = { "face", "front", "side", "plan" };

  open_sample ();
  for (guint i = 0; i < G_N_ELEMENTS (names); i++) {
    drive_key (GDK_KEY_1 + i, GDK_CONTROL_MASK);
    DRIVE_UNTIL (tw_session_view (session ()) == i);
    drive_picture (GTK_WIDGET (window), names[i]);
  }
}

static void
test_dark (void)
{
  AdwStyleManager *styles = adw_style_manager_get_default ();

  open_sample ();
  adw_style_manager_set_color_scheme (styles, ADW_COLOR_SCHEME_FORCE_DARK);
  for (int i = 0; i < 20; i++)
    drive_frame (GTK_WIDGET (window));
  g_assert_true (adw_style_manager_get_dark (styles));
  drive_picture (GTK_WIDGET (window), "dark");
  adw_style_manager_set_color_scheme (styles, ADW_COLOR_SCHEME_DEFAULT);
}

/* A card's row and a finding choose their part. */
static void
test_card_row_chooses (void)
{
  GtkWidget *card, *row;

  open_sample ();
  card = drive_find (GTK_WIDGET (window), TW_TYPE_CARD_VIEW, "Free frontal area");
  gtk_widget_activate (drive_find (card, GTK_TYPE_EXPANDER, NULL));
  for (int i = 0; i < 20; i++)
    drive_frame (GTK_WIDGET (window));
  for (row = gtk_widget_get_first_child (drive_find (card, GTK_TYPE_LIST_BOX, NULL)); row != NULL;
       row = gtk_widget_get_next_sibling (row)) {
    g_autofree char *name = drive_name (row);

    if (g_str_has_prefix (name, "Cross tube"))
      break;
  }
  g_assert_nonnull (row);
  for (int i = 0; i < 20 && !is_chosen (TW_KIND_VOLUME, "Cross tube"); i++) {
    drive_click (row); /* on a slow machine the card may still be opening under the pointer */
    for (int k = 0; k < 20 && !is_chosen (TW_KIND_VOLUME, "Cross tube"); k++)
      drive_frame (GTK_WIDGET (window));
  }
  DRIVE_UNTIL (is_chosen (TW_KIND_VOLUME, "Cross tube"));
  drive_picture (GTK_WIDGET (window), "row-chosen");
}

static GtkWindow *
dialog (void)
{
  g_autoptr (GList) all = gtk_window_list_toplevels ();

  for (GList *at = all; at != NULL; at = at->next)
    if (ADW_IS_MESSAGE_DIALOG (at->data) && gtk_widget_get_mapped (at->data))
      return at->data;
  return NULL;
}

/* The question before changes are lost; Escape keeps the window. */
static void
test_unsaved_question (void)
{
  open_sample ();
  drag_baffle (-10);
  drive_release ();
  DRIVE_UNTIL (tw_session_is_modified (session ()));
  drive_key (GDK_KEY_w, GDK_CONTROL_MASK);
  DRIVE_UNTIL (dialog () != NULL);
  drive_frame (GTK_WIDGET (dialog ()));
  drive_picture (GTK_WIDGET (dialog ()), "unsaved");
  drive_key (GDK_KEY_Escape, 0);
  DRIVE_UNTIL (dialog () == NULL);
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (window)));
  tw_session_undo (session ());
}

/* Six movements of a drag draw again what they move: less than the whole drawing twice. */
static void
test_drag_draws_little (void)
{
  guint before, all, moved;

  open_sample ();
  before = tw_canvas_nodes_drawn (canvas ());
  tw_canvas_zoom (canvas (), 1.01);
  DRIVE_UNTIL (tw_canvas_nodes_drawn (canvas ()) > before);
  all = tw_canvas_nodes_drawn (canvas ()) - before;
  drag_baffle (-20);
  DRIVE_UNTIL (baffle_place_mm () == -25);
  drive_frame (GTK_WIDGET (canvas ()));
  moved = tw_canvas_nodes_drawn (canvas ()) - before - all;
  g_test_message ("%u nodes in all, %u in six movements", all, moved);
  g_assert_cmpuint (moved, >, 0);
  g_assert_cmpuint (moved, <, 2 * all);
  drive_key (GDK_KEY_Escape, 0);
  drive_release ();
}

/* A window without a job offers the samples; a sample opens as a job that is in no file yet. */
static void
test_start_page (void)
{
  GtkWidget *row;

  g_assert_false (tw_session_has_job (session ()));
  drive_picture (GTK_WIDGET (window), "start");
  row = drive_find (GTK_WIDGET (window), GTK_TYPE_FLOW_BOX_CHILD, NULL);
  g_assert_nonnull (row);
  drive_click (row);
  DRIVE_UNTIL (tw_session_has_job (session ()));
  g_assert_null (tw_session_path (session ()));
  g_assert_false (tw_session_is_modified (session ()));
}

static void
add_tests (void)
{
  g_test_add_func ("/window/start-page", test_start_page);
  g_test_add_func ("/window/drag-undo-save-reopen", test_drag_undo_save_reopen);
  g_test_add_func ("/window/escape-puts-back", test_escape_puts_back);
  g_test_add_func ("/window/arrow-keys", test_arrow_keys);
  g_test_add_func ("/window/tab-chooses", test_tab_chooses);
  g_test_add_func ("/window/type-a-fraction", test_type_a_fraction);
  g_test_add_func ("/window/bad-entry", test_bad_entry);
  g_test_add_func ("/window/views", test_views);
  g_test_add_func ("/window/dark", test_dark);
  g_test_add_func ("/window/card-row-chooses", test_card_row_chooses);
  g_test_add_func ("/window/unsaved-question", test_unsaved_question);
  g_test_add_func ("/window/drag-draws-little", test_drag_draws_little);
}

static int result;

static void
run_cb (AdwApplication *application)
{
  g_application_hold (G_APPLICATION (application));
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  window = drive_window (application, 1280, 760);
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
  sample = g_test_build_filename (G_TEST_BUILT, "window", "copy.twjob", NULL);
  application = tw_application_new (G_APPLICATION_NON_UNIQUE);
  g_signal_connect (application, "activate", G_CALLBACK (run_cb), NULL);
  g_application_run (G_APPLICATION (application), 1, argv);
  g_free (sample);
  return result;
}
