/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-cards.c - the cards in the real window: pictures that follow a drag, rows that choose parts
 *
 * The tail sample: tubes at a pitch of 10 mm, counted from the top; the baffle lies at −5, between tubes 16
 * and 17 of 31.
 */
#include "app/application.h"
#include "app/canvas-part.h"
#include "app/canvas.h"
#include "app/card-picture.h"
#include "app/card-row.h"
#include "app/card-view.h"
#include "drive.h"

static TwWindow *window;

static TwSession *
session (void)
{
  return tw_window_session (window);
}

static void
open_sample (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *from = g_test_build_filename (G_TEST_DIST, "..", "samples", "merlin-tail.twjob", NULL);

  g_assert_true (tw_session_open (session (), from, &error));
  g_assert_no_error (error);
  tw_session_set_view (session (), TW_VIEW_FACE);
  drive_frame (GTK_WIDGET (window));
  drive_frame (GTK_WIDGET (window));
}

static GtkWidget *
card (const char *name)
{
  GtkWidget *found = drive_find (GTK_WIDGET (window), TW_TYPE_CARD_VIEW, name);

  g_assert_nonnull (found);
  return found;
}

static GtkWidget *
picture (const char *name)
{
  GtkWidget *found = drive_find (GTK_WIDGET (window), TW_TYPE_CARD_PICTURE, name);

  g_assert_nonnull (found);
  return found;
}

static gboolean
says (GtkWidget *widget, const char *words)
{
  g_autofree char *text = drive_description (widget);

  return strstr (text, words) != NULL;
}

/* Takes the baffle in the middle of its tank and moves it by so many mm, in steps of a frame. */
static void
drag_baffle (double by_mm)
{
  GtkWidget *board = drive_find (GTK_WIDGET (window), TW_TYPE_CANVAS, NULL);
  GtkWidget *part = drive_find (board, TW_TYPE_CANVAS_PART, "Baffle");
  graphene_point_t at;
  double px = (double)(tw_canvas_place_of (TW_CANVAS (board), (TwPoint){ 0, by_mm }).y
                       - tw_canvas_place_of (TW_CANVAS (board), (TwPoint){ 0, 0 }).y);

  g_assert_nonnull (part);
  g_assert_true (gtk_widget_compute_point (part, board,
                                           &GRAPHENE_POINT_INIT ((float)gtk_widget_get_width (part) / 4.0F,
                                                                 (float)gtk_widget_get_height (part) / 2.0F),
                                           &at));
  drive_pointer_to (board, (double)at.x, (double)at.y);
  drive_press ();
  for (int i = 1; i <= 6; i++)
    drive_pointer_to (board, (double)at.x, (double)at.y + px * i / 6);
}

/* The picture keeps its height and says what it shows; one that is scrolled out of sight waits. */
static void
test_drag_changes_picture (void)
{
  GtkWidget *passes, *hoses;
  guint painted;
  int height;

  open_sample ();
  passes = picture ("Picture of Pass layout");
  hoses = picture ("Picture of Hose routing");
  height = gtk_widget_get_height (passes);
  painted = tw_card_picture_n_painted (TW_CARD_PICTURE (hoses));
  DRIVE_UNTIL (says (passes, "tubes 1 to 16, to the right") && says (passes, "tubes 17 to 31, to the left"));

  drag_baffle (-10);
  DRIVE_UNTIL (says (passes, "tubes 1 to 17, to the right"));
  drive_frame (GTK_WIDGET (window));
  g_assert_cmpint (gtk_widget_get_height (passes), ==, height);
  g_assert_cmpuint (tw_card_picture_n_painted (TW_CARD_PICTURE (hoses)), ==, painted);
  drive_picture (GTK_WIDGET (window), "picture-dragged");
  drive_release ();
  DRIVE_UNTIL (!tw_history_is_open (tw_session_history (session ())));
}

/* A picture that looks as before is not painted again. */
static void
test_same_is_not_painted (void)
{
  GtkWidget *frontal;
  guint painted;

  open_sample ();
  frontal = picture ("Picture of Free frontal area");
  DRIVE_UNTIL (tw_card_picture_n_painted (TW_CARD_PICTURE (frontal)) > 0);
  painted = tw_card_picture_n_painted (TW_CARD_PICTURE (frontal));
  drag_baffle (-20);
  DRIVE_UNTIL (says (picture ("Picture of Pass layout"), "tubes 1 to 18"));
  drive_release ();
  drive_frame (GTK_WIDGET (window));
  g_assert_cmpuint (tw_card_picture_n_painted (TW_CARD_PICTURE (frontal)), ==, painted);
}

/* --- rows ----------------------------------------------------------------------------------------------- */

/* The first row of the card whose label holds @words; NULL for none. */
static GtkWidget *
row_with (GtkWidget *view, const char *words)
{
  GtkWidget *row = gtk_widget_get_first_child (drive_find (view, GTK_TYPE_LIST_BOX, NULL));

  for (; row != NULL; row = gtk_widget_get_next_sibling (row)) {
    g_autofree char *name = drive_name (row);

    if (strstr (name, words) != NULL)
      return row;
  }
  return NULL;
}

static TwCardView *
open_card (const char *name)
{
  GtkWidget *view = card (name);

  if (!tw_card_view_is_open (TW_CARD_VIEW (view)))
    gtk_widget_activate (drive_find (view, GTK_TYPE_EXPANDER, NULL));
  for (int i = 0; i < 20; i++)
    drive_frame (GTK_WIDGET (window));
  return TW_CARD_VIEW (view);
}

/* Choosing a part marks the rows that are about it, in every card that is open. */
static void
test_chosen_rows (void)
{
  GtkWidget *row;
  TwId tube;

  open_sample ();
  row = row_with (GTK_WIDGET (open_card ("Free frontal area")), "Cross tube");
  g_assert_nonnull (row);
  tube = g_array_index (tw_card_row_widget_parts (TW_CARD_ROW_WIDGET (row)), TwId, 0);
  g_assert_false (gtk_widget_has_css_class (row, "chosen"));
  tw_session_select (session (), tube);
  DRIVE_UNTIL (gtk_widget_has_css_class (row, "chosen"));
  gtk_test_accessible_assert_state (row, GTK_ACCESSIBLE_STATE_SELECTED, TRUE);
  drive_picture (GTK_WIDGET (window), "chosen-rows");
  tw_session_select (session (), TW_ID_NONE);
  DRIVE_UNTIL (!gtk_widget_has_css_class (row, "chosen"));
}

/* A baffle on a tube's mouth is a finding that was not there: it says that it is new, once the hand lets go.
 * Typing 0 for its place puts it over tube 16, whose middle lies there. */
static void
test_new_finding (void)
{
  GtkWidget *findings;
  TwValue value = tw_value_number (0);
  TwId baffle;
  g_autoptr (GError) error = NULL;

  open_sample ();
  findings = GTK_WIDGET (open_card ("Findings"));
  g_assert_null (row_with (findings, "new, "));
  baffle = tw_job_get (tw_session_job (session ()), TW_KIND_BAFFLE, 0)->id;
  g_assert_true (
      tw_session_do (session (), tw_change_set (baffle, TW_ID_NONE, TW_BAFFLE_place_mm, &value), &error));
  DRIVE_UNTIL (row_with (findings, "new, ") != NULL);
  drive_picture (GTK_WIDGET (window), "new-finding");
  tw_session_undo (session ());
  open_sample ();
  DRIVE_UNTIL (row_with (findings, "new, ") == NULL);
}

/* A finding about two parts chooses both; the one it names first leads. */
static void
test_finding_chooses_two (void)
{
  GtkWidget *row;
  const GArray *parts;
  guint n = 0;

  open_sample ();
  for (row = gtk_widget_get_first_child (
           drive_find (GTK_WIDGET (open_card ("Findings")), GTK_TYPE_LIST_BOX, NULL));
       row != NULL; row = gtk_widget_get_next_sibling (row))
    if (tw_card_row_widget_parts (TW_CARD_ROW_WIDGET (row))->len == 2)
      break;
  g_assert_nonnull (row);
  parts = tw_card_row_widget_parts (TW_CARD_ROW_WIDGET (row));
  gtk_widget_grab_focus (row);
  drive_frame (GTK_WIDGET (window));
  drive_frame (GTK_WIDGET (window));
  drive_click (row);
  DRIVE_UNTIL (tw_session_chosen (session (), &n) != NULL && n == 2);
  g_assert_true (tw_id_equal (tw_session_selection (session ()), g_array_index (parts, TwId, 0)));
  g_assert_true (tw_id_equal (tw_session_chosen (session (), &n)[0], g_array_index (parts, TwId, 1)));
  drive_picture (GTK_WIDGET (window), "finding-chosen");
}

static void
add_tests (void)
{
  g_test_add_func ("/window/cards/drag-changes-picture", test_drag_changes_picture);
  g_test_add_func ("/window/cards/same-is-not-painted", test_same_is_not_painted);
  g_test_add_func ("/window/cards/chosen-rows", test_chosen_rows);
  g_test_add_func ("/window/cards/new-finding", test_new_finding);
  g_test_add_func ("/window/cards/finding-chooses-two", test_finding_chooses_two);
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
  application = tw_application_new (G_APPLICATION_NON_UNIQUE);
  g_signal_connect (application, "activate", G_CALLBACK (run_cb), NULL);
  g_application_run (G_APPLICATION (application), 1, argv);
  return result;
}
