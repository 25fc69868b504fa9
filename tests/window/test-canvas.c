/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-canvas.c - handles, boxes, typing while dragging, menus: the canvas as an editor, by pointer and keys
 *
 * One window, opened once; every test opens the tail sample afresh and ends with everything undone: the job
 * then reads as it did at the start, byte for byte. Figures of the sample: the left fan stands at −170, its
 * ring is 292 wide, the shroud's mouth is 680 × 306 about the middle of the face; the baffle lies at −5
 * between tubes of 10 mm pitch.
 */
#include "app/application.h"
#include "app/canvas-part.h"
#include "app/canvas.h"
#include "drive.h"
#include "job/write.h"

#include <math.h>

static TwWindow *window;
static char *start; /* the job as it was opened */

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

static char *
job_text (void)
{
  return tw_job_write_text (tw_session_job (session ()));
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
  g_free (start);
  start = job_text ();
}

static void
undo_all (void)
{
  g_autofree char *now = NULL;

  while (tw_history_undo_label (tw_session_history (session ())) != NULL)
    tw_session_undo (session ());
  now = job_text ();
  g_assert_cmpstr (now, ==, start);
}

static const TwPart *
part (TwKind kind, const char *name)
{
  const TwJob *job = tw_session_job (session ());

  for (guint i = 0; i < tw_job_count (job, kind); i++)
    if (g_str_equal (tw_part_name (tw_job_get (job, kind, i)), name))
      return tw_job_get (job, kind, i);
  return NULL;
}

static const TwFan *
left_fan (void)
{
  return (const TwFan *)part (TW_KIND_FAN, "Left fan");
}

static double
baffle_mm (void)
{
  return ((const TwBaffle *)part (TW_KIND_BAFFLE, "Baffle"))->place_mm;
}

static guint
n_chosen (void)
{
  guint n;

  (void)tw_session_chosen (session (), &n);
  return n;
}

/* To a place of the view, mm. */
static void
point_to (double x_mm, double y_mm)
{
  graphene_point_t at = tw_canvas_place_of (TW_CANVAS (canvas ()), (TwPoint){ x_mm, y_mm });

  drive_pointer_to (canvas (), (double)at.x, (double)at.y);
}

static void
drag (TwPoint from, TwPoint to)
{
  point_to (from.x_mm, from.y_mm);
  drive_press ();
  for (int i = 1; i <= 6; i++)
    point_to (from.x_mm + (to.x_mm - from.x_mm) * i / 6.0, from.y_mm + (to.y_mm - from.y_mm) * i / 6.0);
}

static void
choose (TwKind kind, const char *name)
{
  tw_session_select (session (), part (kind, name)->id);
  gtk_widget_grab_focus (drive_find (canvas (), TW_TYPE_CANVAS_PART, name));
  drive_frame (GTK_WIDGET (window));
}

/* The handle on the right is that of the blades: their radius is 140; near 160 they snap to
 * the edges of the mouth, which is 306 high. */
static void
test_handle (void)
{
  open_sample ();
  choose (TW_KIND_FAN, "Left fan");
  drag ((TwPoint){ -170 + 140, 0 }, (TwPoint){ -170 + 160, 0 });
  drive_picture (GTK_WIDGET (window), "handle");
  drive_release ();
  DRIVE_UNTIL (left_fan ()->swept_mm == 306);
  g_assert_cmpfloat (left_fan ()->u_mm, ==, -170);
  undo_all ();
}

/* A box round both fans' middles chooses nothing: only what lies wholly inside is meant. Round all, many. */
static void
test_box (void)
{
  open_sample ();
  drag ((TwPoint){ -420, 420 }, (TwPoint){ 420, -240 });
  drive_picture (GTK_WIDGET (window), "box");
  drive_release ();
  DRIVE_UNTIL (n_chosen () > 5);
  drive_key (GDK_KEY_Escape, 0);
  DRIVE_UNTIL (n_chosen () == 0);
  undo_all ();
}

/* Both fans go together, as one step. */
static void
test_several_move (void)
{
  TwId ids[2];

  open_sample ();
  ids[0] = part (TW_KIND_FAN, "Right fan")->id;
  ids[1] = part (TW_KIND_FAN, "Left fan")->id;
  tw_session_choose (session (), ids, 2);
  gtk_widget_grab_focus (canvas ());
  drive_key (GDK_KEY_Up, 0);
  DRIVE_UNTIL (left_fan ()->v_mm == 1);
  g_assert_cmpfloat (((const TwFan *)part (TW_KIND_FAN, "Right fan"))->v_mm, ==, 1);
  tw_session_undo (session ());
  g_assert_cmpfloat (left_fan ()->v_mm, ==, 0);
  undo_all ();
}

/* Typed while the button is held: 1 in = 25.4 mm; Enter takes it. */
static void
test_type_while_dragging (void)
{
  open_sample ();
  drag ((TwPoint){ -170, 120 }, (TwPoint){ -150, 120 });
  drive_type ("-6 1/2 in");
  drive_picture (GTK_WIDGET (window), "typing");
  drive_key (GDK_KEY_Return, 0);
  DRIVE_UNTIL (fabs (left_fan ()->u_mm + 6.5 * 25.4) < 1e-9);
  drive_release ();
  DRIVE_UNTIL (fabs (left_fan ()->u_mm + 6.5 * 25.4) < 1e-9);
  undo_all ();
}

/* What cannot be read stays in the entry and says so; Escape puts everything back. */
static void
test_type_nonsense (void)
{
  g_autofree char *now = NULL;
  GtkWidget *entry;

  open_sample ();
  choose (TW_KIND_FAN, "Left fan");
  drive_key (GDK_KEY_F2, 0);
  drive_type ("12 bananas");
  drive_key (GDK_KEY_Return, 0);
  entry = gtk_root_get_focus (GTK_ROOT (window));
  DRIVE_UNTIL (gtk_widget_has_css_class (gtk_widget_get_parent (entry), "error"));
  drive_picture (GTK_WIDGET (window), "typing-bad");
  drive_key (GDK_KEY_Escape, 0);
  drive_frame (GTK_WIDGET (window));
  now = job_text ();
  g_assert_cmpstr (now, ==, start);
  g_assert_false (tw_session_is_modified (session ()));
}

/* With the control key a baffle goes to the next gap: tubes have a pitch of 10. */
static void
test_next_gap (void)
{
  open_sample ();
  choose (TW_KIND_BAFFLE, "Baffle");
  drive_key (GDK_KEY_Up, GDK_CONTROL_MASK);
  DRIVE_UNTIL (baffle_mm () == 5);
  undo_all ();
}

/* Point goes to the handles, arrows move the one that is meant. */
static void
test_handle_by_keys (void)
{
  open_sample ();
  choose (TW_KIND_FAN, "Left fan");
  for (int i = 0; i < 12 && left_fan ()->swept_mm == 280; i++) {
    drive_key (GDK_KEY_period, 0);
    drive_key (GDK_KEY_Right, GDK_SHIFT_MASK);
    drive_frame (GTK_WIDGET (window));
  }
  g_assert_cmpfloat (left_fan ()->swept_mm, !=, 280);
  undo_all ();
}

/* Every part that the menu adds is there, chosen, and gone again with undo. */
static void
test_add (void)
{
  static const TwKind kinds[]
      = { TW_KIND_VOLUME, TW_KIND_BAFFLE,      TW_KIND_PORT,    TW_KIND_FAN,        TW_KIND_SHROUD,
          TW_KIND_EXIT,   TW_KIND_HEADER_TANK, TW_KIND_OPENING, TW_KIND_ENGINE_PORT };

  open_sample ();
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++) {
    guint before = tw_job_count (tw_session_job (session ()), kinds[i]);

    tw_session_select (session (), part (TW_KIND_TANK, "Left tank")->id);
    gtk_widget_activate_action (GTK_WIDGET (window), "win.add", "s", tw_kind_info (kinds[i])->stem);
    drive_frame (GTK_WIDGET (window));
    g_assert_cmpuint (tw_job_count (tw_session_job (session ()), kinds[i]), ==, before + 1);
    g_assert_cmpint (tw_job_find (tw_session_job (session ()), tw_session_selection (session ()))->kind, ==,
                     kinds[i]);
  }
  drive_picture (GTK_WIDGET (window), "added");
  undo_all ();
}

static void
test_copy_mirror_remove (void)
{
  guint before;

  open_sample ();
  before = tw_job_count (tw_session_job (session ()), TW_KIND_FAN);
  choose (TW_KIND_FAN, "Left fan");
  drive_key (GDK_KEY_d, GDK_CONTROL_MASK);
  DRIVE_UNTIL (tw_job_count (tw_session_job (session ()), TW_KIND_FAN) == before + 1);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.mirror", "s", "core");
  drive_frame (GTK_WIDGET (window));
  gtk_widget_grab_focus (canvas ());
  drive_key (GDK_KEY_Delete, 0);
  DRIVE_UNTIL (tw_job_count (tw_session_job (session ()), TW_KIND_FAN) == before);
  undo_all ();
}

/* A corner twice clicked onto an edge of the cross tube's outline, and removed again by the delete key. */
static void
test_corner (void)
{
  TwId tube;
  guint before;

  open_sample ();
  tube = part (TW_KIND_VOLUME, "Cross tube")->id;
  tw_session_select (session (), tube);
  before = tw_part_list (tw_job_find (tw_session_job (session ()), tube), 0)->len;
  gtk_widget_activate_action (GTK_WIDGET (window), "win.add-element", "s", "outline");
  drive_frame (GTK_WIDGET (window));
  g_assert_cmpuint (tw_part_list (tw_job_find (tw_session_job (session ()), tube), 0)->len, ==, before + 1);
  gtk_widget_grab_focus (canvas ());
  drive_key (GDK_KEY_Delete, 0);
  DRIVE_UNTIL (tw_part_list (tw_job_find (tw_session_job (session ()), tube), 0)->len == before);
  undo_all ();
}

/* The menu opens by its key, its first item is reached by arrows, Escape leaves everything as it was. */
static void
test_menu_by_keys (void)
{
  GtkWidget *menu;

  open_sample ();
  choose (TW_KIND_FAN, "Left fan");
  menu = drive_find (canvas (), GTK_TYPE_POPOVER_MENU, NULL);
  g_assert_nonnull (menu);
  drive_key (GDK_KEY_F10, GDK_SHIFT_MASK);
  DRIVE_UNTIL (gtk_widget_get_mapped (menu));
  drive_key (GDK_KEY_Escape, 0);
  DRIVE_UNTIL (!gtk_widget_get_mapped (menu));
  undo_all ();
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
  g_test_add_func ("/canvas/handle", test_handle);
  g_test_add_func ("/canvas/box", test_box);
  g_test_add_func ("/canvas/several-move", test_several_move);
  g_test_add_func ("/canvas/type-while-dragging", test_type_while_dragging);
  g_test_add_func ("/canvas/type-nonsense", test_type_nonsense);
  g_test_add_func ("/canvas/next-gap", test_next_gap);
  g_test_add_func ("/canvas/handle-by-keys", test_handle_by_keys);
  g_test_add_func ("/canvas/add", test_add);
  g_test_add_func ("/canvas/copy-mirror-remove", test_copy_mirror_remove);
  g_test_add_func ("/canvas/corner", test_corner);
  g_test_add_func ("/canvas/menu-by-keys", test_menu_by_keys);
  application = tw_application_new (G_APPLICATION_NON_UNIQUE);
  g_signal_connect (application, "activate", G_CALLBACK (run_cb), NULL);
  g_application_run (G_APPLICATION (application), 1, argv);
  g_free (start);
  return result;
}
