/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "task-private.h"

#include "app/canvas.h"
#include "app/card-view.h"
#include "app/parts-pane.h"
#include "drive.h"
#include "look.h"

#include <math.h>
#include <string.h>

/* --- widgets ----------------------------------------------------------------------------------------------
 */

/* The first widget of @type under @root that says @text. */
static GtkWidget *
find_saying (GtkWidget *root, GType type, const char *text)
{
  if (!gtk_widget_get_mapped (root))
    return NULL;
  if (g_type_is_a (G_OBJECT_TYPE (root), type)) {
    g_autofree char *description = look_describe (root);

    if (strstr (description, text) != NULL)
      return root;
  }
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child)) {
    GtkWidget *found = find_saying (child, type, text);

    if (found != NULL)
      return found;
  }
  return NULL;
}

static GtkWidget *
wanted (GtkWidget *root, GType type, const char *text)
{
  GtkWidget *found = NULL;

  if (root == NULL)
    g_error ("nothing to look for \"%s\" in", text);
  for (guint i = 0; i < 100 && (found = find_saying (root, type, text)) == NULL; i++)
    drive_frame (task_window ());
  if (found == NULL)
    g_error ("no %s says \"%s\"", g_type_name (type), text);
  return found;
}

static GtkWidget *
card_called (const char *name)
{
  GtkWidget *card = drive_find (task_window (), TW_TYPE_CARD_VIEW, name);

  if (card == NULL)
    g_error ("there is no card %s", name);
  return card;
}

/* Ends the test: what was looked for is not there. */
static void
say_screen (const char *what)
{
  g_autofree char *description = look_describe (task_window ());

  g_error ("there is no %s on\n%s", what, description);
}

/* Scrolls whatever it lies in so that the pointer reaches it. */
static void
bring_to_view (GtkWidget *widget)
{
  GtkWidget *viewport = gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLED_WINDOW);
  GtkAdjustment *down;
  graphene_point_t at;

  if (viewport == NULL
      || !gtk_widget_compute_point (widget, viewport, &GRAPHENE_POINT_INIT (0.0F, 0.0F), &at))
    return;
  down = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (viewport));
  gtk_adjustment_set_value (down, gtk_adjustment_get_value (down) + (double)at.y
                                      - gtk_widget_get_height (viewport) / 2.0);
  task_frames (3);
}

void
task_step_view (const char *rest)
{
  drive_click (wanted (task_window (), GTK_TYPE_TOGGLE_BUTTON, rest));
}

void
task_step_press (const char *rest)
{
  g_auto (GStrv) parts = task_cut (rest, "|", 2);
  g_autofree char *line = g_strconcat (parts[0], " | [", NULL);
  GtkWidget *button = drive_find (task_window (), GTK_TYPE_BUTTON, parts[1]);

  if (button == NULL)
    button = wanted (task_window (), GTK_TYPE_BUTTON, parts[1]);
  bring_to_view (button);
  drive_click (button);
}

void
task_step_fill (const char *rest)
{
  g_auto (GStrv) parts = task_cut (rest, "=", 2);
  GtkWidget *entry = NULL;

  for (guint i = 0; i < 60 && entry == NULL; i++) {
    drive_frame (task_window ());
    entry = drive_find (task_window (), GTK_TYPE_ENTRY, parts[0]);
  }
  if (entry == NULL)
    say_screen (parts[0]);
  bring_to_view (entry);
  drive_click (entry);
  drive_key (GDK_KEY_a, GDK_CONTROL_MASK);
  drive_type (parts[1]);
  drive_key (GDK_KEY_Return, 0);
  task_frames (2);
}

void
task_step_open (const char *rest)
{
  GtkWidget *more = drive_find (card_called (rest), GTK_TYPE_EXPANDER, NULL);

  if (gtk_expander_get_expanded (GTK_EXPANDER (more)))
    return;
  bring_to_view (more);
  gtk_widget_grab_focus (more);
  drive_key (GDK_KEY_space, 0);
  DRIVE_UNTIL (gtk_expander_get_expanded (GTK_EXPANDER (more)));
  task_frames (3);
}

void
task_step_row (const char *rest)
{
  g_auto (GStrv) parts = task_cut (rest, "|", 2);
  GtkWidget *row = wanted (card_called (parts[0]), GTK_TYPE_LIST_BOX_ROW, parts[1]);
  TwId before = tw_session_selection (task_session ());

  task_frames (3); /* a card that stood open is still finding its height */
  bring_to_view (row);
  task_frames (3);
  drive_click (row);
  task_frames (5);
  if (!tw_id_equal (before, tw_session_selection (task_session ())))
    return;
  bring_to_view (row); /* it moved away under the pointer */
  task_frames (10);
  drive_click (row);
}

void
task_step_list (const char *rest)
{
  g_autofree char *text = g_strconcat ("| ", rest, NULL);
  TwId id = task_part (rest)->id;
  GtkWidget *row
      = wanted (drive_find (task_window (), TW_TYPE_PARTS_PANE, NULL), GTK_TYPE_LIST_BOX_ROW, text);

  bring_to_view (row);
  drive_click (row);
  DRIVE_UNTIL (tw_id_equal (tw_session_selection (task_session ()), id));
}

/* --- what is seen -----------------------------------------------------------------------------------------
 */

static void
wait_for (const char *rest, gboolean is_there)
{
  g_auto (GStrv) parts = task_cut (rest, "|", 2);
  g_autofree char *description = NULL;

  for (guint i = 0; i < 200; i++) {
    if (look_shows (task_window (), parts[0], parts[1]) == is_there)
      return;
    drive_frame (task_window ());
  }
  description = look_describe (task_window ());
  g_error ("%s %s \"%s\"; there is\n%s", parts[0], is_there ? "does not show" : "shows", parts[1],
           description);
}

void
task_step_shows (const char *rest)
{
  wait_for (rest, TRUE);
}

void
task_step_lacks (const char *rest)
{
  wait_for (rest, FALSE);
}

void
task_step_zoomed (const char *rest)
{
  double wanted_percent = g_ascii_strtod (rest, NULL), percent = -1;
  graphene_point_t zero, one;

  for (guint i = 0; i < 100 && fabs (percent - wanted_percent) > 1; i++) {
    drive_frame (task_window ());
    zero = tw_canvas_place_of (TW_CANVAS (task_board ()), (TwPoint){ 0, 0 });
    one = tw_canvas_place_of (TW_CANVAS (task_board ()), (TwPoint){ 96, 0 });
    percent = (double)(one.x - zero.x) * 25.4 / 96 / 96 * 100;
  }
  g_assert_cmpfloat_with_epsilon (percent, wanted_percent, 1);
}
