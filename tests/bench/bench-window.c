/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A frame of a drag, by real input, against a frame of an empty window in which one label changes, and
 * against cairo alone drawing the same strokes; and where its time goes. The baffle is taken in the Face view
 * and moved from gap to gap: rooms, cards, drawing, layout and paint are all made anew. Also a frame of a
 * zoom, in which every stroke is drawn again. Time is the processor's, so that waiting for the next frame
 * does not count. `bench-window FILE…`: those and a made-up job of 400 tubes and 200 parts.
 */
#include "alone.h"
#include "app/application.h"
#include "app/canvas-part.h"
#include "app/canvas.h"
#include "drive.h"
#include "job/read.h"
#include "support/big-job.h"
#include "times.h"

#include <string.h>

#define ROUNDS 15
#define DRAG_PX 14.0 /* from one place of the drag to the next: more than a snap reaches */

static char **files;

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

/* Presents it and waits until it is still: what is late from opening is none of a frame's cost. */
static void
show (GtkWidget *window)
{
  gtk_window_present (GTK_WINDOW (window));
  while (gtk_widget_get_frame_clock (window) == NULL || !gtk_window_is_active (GTK_WINDOW (window)))
    drive_step ();
  for (guint i = 0; i < 30; i++)
    drive_step ();
}

/* --- an empty window ------------------------------------------------------------------------------------ */

static double
empty_frame_ms (AdwApplication *application)
{
  GtkWidget *window = adw_application_window_new (GTK_APPLICATION (application));
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *label = gtk_label_new ("");
  double times[ROUNDS];

  gtk_box_append (GTK_BOX (box), adw_header_bar_new ());
  gtk_box_append (GTK_BOX (box), label);
  adw_application_window_set_content (ADW_APPLICATION_WINDOW (window), box);
  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 760);
  show (window);
  for (guint i = 0; i < ROUNDS; i++) {
    g_autofree char *text = g_strdup_printf ("%u", i);
    double start = times_cpu_ms ();

    gtk_label_set_label (GTK_LABEL (label), text);
    wait_for_paint (window);
    times[i] = times_cpu_ms () - start;
  }
  gtk_window_destroy (GTK_WINDOW (window));
  return times_median (times, ROUNDS);
}

/* --- a drag -----------------------------------------------------------------------------------------------
 */

enum { CHANGED, TOLD, LAID_OUT, PAINTED, N_MARKS };

/* When each stage of the frame that is measured was over. */
typedef struct {
  double start_ms;
  double over_ms[N_MARKS];
  gboolean seen[N_MARKS];
} Frame;

static void
mark (Frame *frame, guint nth)
{
  if (nth > CHANGED && !frame->seen[nth - 1])
    return; /* of an earlier frame */
  frame->over_ms[nth] = times_cpu_ms ();
  frame->seen[nth] = TRUE;
}

/* Before any widget hears of the change. */
static gboolean
emitted_cb (GSignalInvocationHint *hint, guint n, const GValue *values, gpointer data)
{
  mark (data, CHANGED);
  return TRUE;
}

/* After all of them have. */
static void
told_cb (TwSession *session, gpointer data)
{
  mark (data, TOLD);
}

static void
laid_out_cb (GdkFrameClock *clock, gpointer data)
{
  mark (data, LAID_OUT);
}

static void
frame_over_cb (GdkFrameClock *clock, gpointer data)
{
  mark (data, PAINTED);
}

/* Presses the pointer somewhere on the part so that it is chosen; says where. */
static graphene_point_t
take_hold (TwWindow *window, GtkWidget *canvas, TwId id)
{
  TwSession *session = tw_window_session (window);

  for (GtkWidget *part = gtk_widget_get_first_child (canvas); part != NULL;
       part = gtk_widget_get_next_sibling (part)) {
    graphene_rect_t place;

    if (!TW_IS_CANVAS_PART (part) || !tw_id_equal (tw_canvas_part_id (TW_CANVAS_PART (part)), id))
      continue;
    g_assert_true (gtk_widget_compute_bounds (part, canvas, &place));
    for (guint i = 1; i < 20; i++) {
      graphene_point_t at = GRAPHENE_POINT_INIT (place.origin.x + place.size.width * (float)i / 20.0F,
                                                 place.origin.y + place.size.height * (float)i / 20.0F);

      drive_pointer_to (canvas, (double)at.x, (double)at.y);
      drive_press ();
      if (tw_id_equal (tw_session_selection (session), id))
        return at;
      drive_release ();
    }
  }
  g_error ("%s cannot be taken", id.text);
}

/* Of a drag, ms: the whole frame, then what it is made of. */
enum { WHOLE, INPUT, ANSWER, CARDS, DRAWING, WIDGETS, LAYOUT, PAINT, N_FIGURES };

/* Moves the pointer and waits until the frame that shows it is painted. */
static void
drag_step (GtkWidget *canvas, graphene_point_t at, Frame *frame)
{
  memset (frame, 0, sizeof *frame);
  frame->start_ms = times_cpu_ms ();
  drive_pointer_send (canvas, (double)at.x, (double)at.y);
  DRIVE_UNTIL (frame->seen[PAINTED]);
}

/* What the rooms take by themselves is taken from the stages that hold them. */
static void
take_figures (double figures[N_FIGURES][ROUNDS], guint nth, const Frame *frame, const AloneTimes *alone)
{
  const double *over_ms = frame->over_ms;
  const double taken[N_FIGURES] = {
    [WHOLE] = over_ms[PAINTED] - frame->start_ms,
    [INPUT] = over_ms[CHANGED] - frame->start_ms - alone->answer_ms - alone->cards_ms,
    [ANSWER] = alone->answer_ms,
    [CARDS] = alone->cards_ms,
    [DRAWING] = alone->drawing_ms,
    [WIDGETS] = over_ms[TOLD] - over_ms[CHANGED] - alone->drawing_ms,
    [LAYOUT] = over_ms[LAID_OUT] - over_ms[TOLD],
    [PAINT] = over_ms[PAINTED] - over_ms[LAID_OUT],
  };

  for (guint i = 0; i < N_FIGURES; i++)
    figures[i][nth] = taken[i];
}

/* Drags the held baffle to and fro along the header. */
static void
drag (TwWindow *window, GtkWidget *canvas, graphene_point_t hold, double figures[N_FIGURES][ROUNDS])
{
  static Frame frame; /* the hook may outlive this call */
  TwSession *session = tw_window_session (window);
  const TwCore *core = (const TwCore *)tw_job_get (tw_session_job (session), TW_KIND_CORE, 0);
  gboolean level = core->tubes == TW_TUBES_LEVEL;
  GdkFrameClock *clock = gtk_widget_get_frame_clock (canvas);
  guint signal = g_signal_lookup ("job-changed", TW_TYPE_SESSION);
  gulong hook = g_signal_add_emission_hook (signal, 0, emitted_cb, &frame, NULL);
  gulong told = g_signal_connect (session, "job-changed", G_CALLBACK (told_cb), &frame);
  gulong laid_out = g_signal_connect_after (clock, "layout", G_CALLBACK (laid_out_cb), &frame);
  gulong over = g_signal_connect_after (clock, "after-paint", G_CALLBACK (frame_over_cb), &frame);
  g_autoptr (Alone) alone = alone_new (window);

  for (guint i = 0; i < ROUNDS; i++) {
    float by = (float)DRAG_PX * (float)(i % 4 < 3 ? i % 4 + 1 : 2);
    AloneTimes times;

    drag_step (canvas, GRAPHENE_POINT_INIT (hold.x + (level ? 0 : by), hold.y + (level ? by : 0)), &frame);
    times = alone_measure (alone);
    take_figures (figures, i, &frame, &times);
  }
  g_signal_remove_emission_hook (signal, hook);
  g_signal_handler_disconnect (session, told);
  g_signal_handler_disconnect (clock, laid_out);
  g_signal_handler_disconnect (clock, over);
}

static void
measure_drag (TwWindow *window, double medians[N_FIGURES])
{
  const TwJob *job = tw_session_job (tw_window_session (window));
  GtkWidget *canvas = drive_find (GTK_WIDGET (window), TW_TYPE_CANVAS, NULL);
  graphene_point_t hold = take_hold (window, canvas, tw_job_get (job, TW_KIND_BAFFLE, 0)->id);
  double figures[N_FIGURES][ROUNDS];

  drag (window, canvas, hold, figures);
  drive_key (GDK_KEY_Escape, 0);
  drive_release ();
  for (guint i = 0; i < N_FIGURES; i++)
    medians[i] = times_median (figures[i], ROUNDS);
}

static double
zoom_frame_ms (TwWindow *window)
{
  TwCanvas *canvas = TW_CANVAS (drive_find (GTK_WIDGET (window), TW_TYPE_CANVAS, NULL));
  double times[ROUNDS];

  for (guint i = 0; i < ROUNDS; i++) {
    double start = times_cpu_ms ();

    tw_canvas_zoom (canvas, i % 2 ? 1 / 1.05 : 1.05);
    wait_for_paint (GTK_WIDGET (window));
    times[i] = times_cpu_ms () - start;
  }
  return times_median (times, ROUNDS);
}

/* --- all of it --------------------------------------------------------------------------------------------
 */

static void
bench (AdwApplication *application, const char *name, TwJob *job, double empty_ms)
{
  TwWindow *window = tw_window_new (application);
  g_autoptr (Alone) alone = NULL;
  double frame[N_FIGURES], cairo_ms, zoom_ms;

  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 760);
  tw_session_take_job (tw_window_session (window), job, NULL);
  show (GTK_WIDGET (window));
  alone = alone_new (window);
  cairo_ms = alone_cairo_ms (alone, ROUNDS);
  measure_drag (window, frame);
  zoom_ms = zoom_frame_ms (window);
  g_print ("%-20s drag frame %5.1f ms: %4.1f of an empty frame (%.2f ms), %4.1f of cairo alone (%.2f ms)\n",
           name, frame[WHOLE], frame[WHOLE] / empty_ms, empty_ms, frame[WHOLE] / cairo_ms, cairo_ms);
  g_print ("  input %.1f  answer %.1f  cards %.1f  drawing %.1f  other widgets %.1f  layout %.1f  paint %.1f"
           "   zoom frame %.1f ms\n",
           frame[INPUT], frame[ANSWER], frame[CARDS], frame[DRAWING], frame[WIDGETS], frame[LAYOUT],
           frame[PAINT], zoom_ms);
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
activate_cb (AdwApplication *application, gpointer data)
{
  double empty_ms;

  g_application_hold (G_APPLICATION (application));
  empty_ms = empty_frame_ms (application);
  for (guint i = 0; files[i] != NULL; i++) {
    g_autofree char *name = g_path_get_basename (files[i]);
    g_autoptr (GError) error = NULL;
    TwJob *job = tw_job_read_file (files[i], &error);

    g_assert_no_error (error);
    bench (application, name, job, empty_ms);
  }
  bench (application, "400 tubes, 200 parts", tw_big_job (400, 200), empty_ms);
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
