/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "task-private.h"

#include "app/application.h"
#include "app/canvas.h"
#include "drive.h"
#include "job/write.h"
#include "look.h"

#include <string.h>

static TwWindow *window;

GtkWidget *
task_window (void)
{
  return GTK_WIDGET (window);
}

TwSession *
task_session (void)
{
  return tw_window_session (window);
}

GtkWidget *
task_board (void)
{
  return drive_find (GTK_WIDGET (window), TW_TYPE_CANVAS, NULL);
}

void
task_frames (guint n)
{
  for (guint i = 0; i < n; i++)
    drive_frame (GTK_WIDGET (window));
}

char **
task_cut (const char *text, const char *at, guint n)
{
  char **parts = g_strsplit (text, at, (int)n);

  if (g_strv_length (parts) != n)
    g_error ("\"%s\" wants %u parts", text, n);
  for (guint i = 0; i < n; i++)
    g_strstrip (parts[i]);
  return parts;
}

static char *
job_text (void)
{
  return tw_job_write_text (tw_session_job (task_session ()));
}

/* --- a task -----------------------------------------------------------------------------------------------
 */

typedef struct {
  const char *verb;
  void (*act) (const char *rest);
} Verb;

static const Verb verbs[] = {
  { "view", task_step_view },
  { "click", task_step_click },
  { "drag", task_step_drag },
  { "hold", task_step_hold },
  { "release", task_step_release },
  { "key", task_step_key },
  { "fill", task_step_fill },
  { "press", task_step_press },
  { "open", task_step_open },
  { "row", task_step_row },
  { "list", task_step_list },
  { "wheel", task_step_wheel },
  { "ctrl-wheel", task_step_ctrl_wheel },
  { "shows", task_step_shows },
  { "lacks", task_step_lacks },
  { "is", task_step_is },
  { "gone", task_step_gone },
  { "chosen", task_step_chosen },
  { "zoomed", task_step_zoomed },
};

static void
do_step (const char *step)
{
  gsize length = strcspn (step, " ");
  const char *rest = step[length] == '\0' ? "" : step + length + 1;

  g_test_message ("%s", step);
  for (guint i = 0; i < G_N_ELEMENTS (verbs); i++)
    if (strlen (verbs[i].verb) == length && strncmp (verbs[i].verb, step, length) == 0) {
      verbs[i].act (rest);
      return;
    }
  g_error ("what is \"%s\"?", step);
}

static void
open_sample (const char *stem)
{
  g_autofree char *file = g_strconcat (stem, ".twjob", NULL);
  g_autofree char *from = g_test_build_filename (G_TEST_DIST, "..", "samples", file, NULL);
  g_autofree char *path = g_test_build_filename (G_TEST_BUILT, "window", "task.twjob", NULL), *text = NULL;
  g_autoptr (GError) error = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (from, &text, &length, &error)
                 && g_file_set_contents (path, text, (gssize)length, &error));
  tw_session_open (task_session (), path, &error);
  g_assert_no_error (error);
  tw_session_set_view (task_session (), TW_VIEW_FACE);
  task_frames (4);
}

/* By the keys that anybody would use, from the drawing. */
static void
undo_all (guint n, const char *start)
{
  gtk_widget_grab_focus (task_board ());
  for (guint i = 0; i < n; i++) {
    drive_key (GDK_KEY_z, GDK_CONTROL_MASK);
    task_frames (1);
  }
  for (guint i = 0; i < 100; i++) {
    g_autofree char *now = job_text ();

    if (g_str_equal (now, start))
      return;
    drive_step ();
  }
  {
    g_autofree char *now = job_text ();

    g_assert_cmpstr (now, ==, start);
  }
}

static void
redo_all (guint n, const char *end)
{
  g_autofree char *now = NULL;

  for (guint i = 0; i < n; i++) {
    drive_key (GDK_KEY_z, GDK_CONTROL_MASK | GDK_SHIFT_MASK);
    task_frames (1);
  }
  for (guint i = 0; i < 20; i++)
    drive_step ();
  now = job_text ();
  g_assert_cmpstr (now, ==, end);
}

static void
test_task (gconstpointer data)
{
  const Task *task = data;
  g_autofree char *start = NULL, *end = NULL;

  open_sample (task->sample);
  start = job_text ();
  for (guint i = 0; i < TASK_STEPS && task->steps[i] != NULL; i++)
    do_step (task->steps[i]);
  task_frames (4);
  look_tell (look_judge (task_window (), LOOK_ALL), task->name);
  drive_picture (task_window (), task->name);
  end = job_text ();
  if (task->n_undo > 0)
    g_assert_cmpstr (start, !=, end);
  undo_all (task->n_undo, start);
  g_assert_false (tw_session_is_modified (task_session ()));
  redo_all (task->n_undo, end);
  undo_all (task->n_undo, start);
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
task_main (int argc, char **argv, const char *group, const Task *tasks, guint n)
{
  g_autoptr (AdwApplication) application = NULL;

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < n; i++) {
    g_autofree char *path = g_strdup_printf ("/tasks/%s/%s", group, tasks[i].name);

    g_test_add_data_func (path, &tasks[i], test_task);
  }
  application = tw_application_new (G_APPLICATION_NON_UNIQUE);
  g_signal_connect (application, "activate", G_CALLBACK (run_cb), NULL);
  g_application_run (G_APPLICATION (application), 1, argv);
  return result;
}
