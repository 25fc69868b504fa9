/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "task-private.h"

#include "app/canvas-part.h"
#include "app/canvas.h"
#include "drive.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define DRAG_STEPS 6
#define PRESSES 80 /* until a part is taken where no other lies on it */

/* --- parts ------------------------------------------------------------------------------------------------
 */

static const TwPart *
find_part (const char *name)
{
  const TwJob *job = tw_session_job (task_session ());

  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
    for (guint i = 0; i < tw_job_count (job, kind); i++)
      if (g_str_equal (tw_part_name (tw_job_get (job, kind, i)), name))
        return tw_job_get (job, kind, i);
  return NULL;
}

const TwPart *
task_part (const char *name)
{
  const TwPart *part = find_part (name);

  if (part == NULL)
    g_error ("there is no part called %s", name);
  return part;
}

static GtkWidget *
child_of (TwId id)
{
  for (GtkWidget *child = gtk_widget_get_first_child (task_board ()); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (TW_IS_CANVAS_PART (child) && tw_id_equal (tw_canvas_part_id (TW_CANVAS_PART (child)), id))
      return child;
  return NULL;
}

/* Presses at places of the part's box until that part is chosen; says where. */
static graphene_point_t
press_on (TwId id)
{
  /* first the middle, then places that fill the box evenly (steps of the golden ratio and its like in a
   * plane) */
  for (guint i = 0; i < PRESSES; i++) {
    double across = fmod (0.5 + i * 0.7548776662, 1.0), up = fmod (0.5 + i * 0.5698402910, 1.0);
    GtkWidget *child = child_of (id);
    graphene_rect_t box;
    graphene_point_t at;

    if (child == NULL || !gtk_widget_compute_bounds (child, task_board (), &box))
      break;
    at = GRAPHENE_POINT_INIT (box.origin.x + box.size.width * (float)across,
                              box.origin.y + box.size.height * (float)up);
    if (at.x < 0.0F || at.y < 0.0F || at.x >= (float)gtk_widget_get_width (task_board ())
        || at.y >= (float)gtk_widget_get_height (task_board ()))
      continue;
    drive_pointer_to (task_board (), (double)at.x, (double)at.y);
    drive_press ();
    if (tw_id_equal (tw_session_selection (task_session ()), id))
      return at;
    drive_release ();
  }
  g_error ("%s cannot be taken on the drawing", id.text);
}

static void
drag (const char *step, gboolean release)
{
  const char *up = strrchr (step, ' '), *across;
  g_autofree char *before = g_strndup (step, (gsize)(up - step)), *name = NULL;
  graphene_point_t from, zero, one;
  TwPoint by;

  across = strrchr (before, ' ');
  name = g_strndup (before, (gsize)(across - before));
  by = (TwPoint){ g_ascii_strtod (across, NULL), g_ascii_strtod (up, NULL) };
  from = press_on (task_part (name)->id);
  zero = tw_canvas_place_of (TW_CANVAS (task_board ()), (TwPoint){ 0, 0 });
  one = tw_canvas_place_of (TW_CANVAS (task_board ()), by);
  for (guint i = 1; i <= DRAG_STEPS; i++)
    drive_pointer_to (task_board (), (double)(from.x + (one.x - zero.x) * (float)i / DRAG_STEPS),
                      (double)(from.y + (one.y - zero.y) * (float)i / DRAG_STEPS));
  if (release)
    drive_release ();
}

void
task_step_drag (const char *rest)
{
  drag (rest, TRUE);
}

void
task_step_hold (const char *rest)
{
  drag (rest, FALSE);
}

void
task_step_release (const char *rest)
{
  drive_release ();
}

void
task_step_click (const char *rest)
{
  press_on (task_part (rest)->id);
  drive_release ();
}

void
task_step_chosen (const char *rest)
{
  TwId id = g_str_equal (rest, "-") ? TW_ID_NONE : task_part (rest)->id;

  DRIVE_UNTIL (tw_id_equal (tw_session_selection (task_session ()), id));
}

void
task_step_gone (const char *rest)
{
  DRIVE_UNTIL (find_part (rest) == NULL);
}

static gboolean
has_value (const char *name, const char *field, double wanted)
{
  const TwPart *part = task_part (name);
  int nth = tw_kind_field (part->kind, field);
  TwValue value;
  gboolean same;

  if (nth < 0)
    g_error ("%s has no field %s", name, field);
  value = tw_part_get (part, (guint)nth);
  same = fabs (value.number - wanted) <= 1e-6;
  tw_value_clear (&value);
  return same;
}

void
task_step_is (const char *rest)
{
  const char *value = strrchr (rest, ' '), *field;
  g_autofree char *before = g_strndup (rest, (gsize)(value - rest)), *name = NULL;

  field = strrchr (before, ' ');
  name = g_strndup (before, (gsize)(field - before));
  DRIVE_UNTIL (has_value (name, field + 1, g_ascii_strtod (value, NULL)));
}

/* --- keys and wheel ---------------------------------------------------------------------------------------
 */

void
task_step_key (const char *rest)
{
  g_auto (GStrv) parts = g_strsplit (rest, "+", -1);
  guint n = g_strv_length (parts);
  GdkModifierType held = 0;

  for (guint i = 0; i + 1 < n; i++)
    held |= g_str_equal (parts[i], "ctrl") ? GDK_CONTROL_MASK : GDK_SHIFT_MASK;
  drive_key (gdk_keyval_from_name (parts[n - 1]), held);
  task_frames (2);
}

static void
turn_wheel (const char *rest, GdkModifierType held)
{
  drive_pointer_to (task_board (), gtk_widget_get_width (task_board ()) / 2.0,
                    gtk_widget_get_height (task_board ()) / 2.0);
  drive_wheel (atoi (rest), held);
  task_frames (2);
}

void
task_step_wheel (const char *rest)
{
  turn_wheel (rest, 0);
}

void
task_step_ctrl_wheel (const char *rest)
{
  turn_wheel (rest, GDK_CONTROL_MASK);
}
