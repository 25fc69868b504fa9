/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One movement of a drag in stage (solve, snap, change, apply) with its distances and grips, against placing
 * the parts of the same job, which each movement asks for anyway. A job of 400 tubes and 200 parts.
 */
#include "stage/gauge.h"
#include "stage/hand.h"
#include "support/make-job.h"

#include "times.h"

#define ROUNDS 201
#define VOLUMES 150
#define FANS 24
#define PORTS 24

static TwJob *
large_job (void)
{
  TwJob *job = tw_make_job (TW_TUBES_LEVEL, 400);
  const TwMakeBox bay = { -4000, -3000, -1000, 4000, 3000, 5000 };

  tw_make_box (job, TW_DRAWN_FRONT, -1, &bay);
  for (guint i = 0; i < VOLUMES; i++) {
    double x_mm = 300.0 + 20.0 * i, y_mm = -2500.0 + 30.0 * i;
    const TwMakeBox box = { x_mm, y_mm, 0, x_mm + 15, y_mm + 25, 200 };

    tw_make_box (job, (int)(i % 3), TW_TAKEN_STRUCTURE, &box);
  }
  for (guint i = 0; i < FANS; i++)
    tw_make_fan (job, -150.0 + 300.0 * (i % 2), -1800.0 + 150.0 * i, 120, 50);
  for (guint i = 0; i < PORTS; i++)
    tw_make_port (job, "tank-1", TW_PORT_SPARE, TW_WALL_BACK, -1900.0 + 150.0 * i);
  tw_make_baffle (job, "tank-1", 200);
  return job;
}

typedef struct {
  const char *part;
  TwPlane plane;
} Case;

static void
bench (const Case *c, TwJob *job, TwHistory *history, TwPlacement *placement, double place_ms)
{
  const TwHandManner manner = { 6, 1, FALSE, FALSE };
  TwHandBench on = { job, history, placement, NULL };
  TwStageView view = tw_stage_view_plane (c->plane);
  double moves_ms[ROUNDS], gauges_ms[ROUNDS], grips_ms[ROUNDS];
  g_autoptr (TwHand) hand = tw_hand_new ();
  TwId part;

  g_assert_true (tw_id_from_text (c->part, &part));
  g_assert_true (tw_hand_press (hand, &on, &view, part, (TwPoint){ 0, 0 }, "Drag"));
  for (guint i = 0; i < ROUNDS; i++) {
    TwGauge gauges[TW_GAUGE_MOST];
    double at_ms = times_cpu_ms ();

    tw_hand_move (hand, (TwPoint){ 3.0 + i, 2.0 + i % 60 }, &manner);
    moves_ms[i] = times_cpu_ms () - at_ms;
    at_ms = times_cpu_ms ();
    (void)tw_gauge_find (placement, &view, part, TW_ID_NONE, gauges);
    gauges_ms[i] = times_cpu_ms () - at_ms;
    at_ms = times_cpu_ms ();
    tw_grips_free (tw_grips_new (placement, &view, part));
    grips_ms[i] = times_cpu_ms () - at_ms;
  }
  tw_hand_cancel (hand);
  g_print ("%-14s movement %.3f ms  distances %.3f ms  grips %.3f ms  (placing %.2f ms)\n", c->part,
           times_median (moves_ms, ROUNDS), times_median (gauges_ms, ROUNDS), times_median (grips_ms, ROUNDS),
           place_ms);
}

int
main (void)
{
  static const Case cases[]
      = { { "core-1", TW_PLANE_FRONT },   { "fan-1", TW_PLANE_FRONT },    { "port-1", TW_PLANE_SIDE },
          { "baffle-1", TW_PLANE_FRONT }, { "volume-30", TW_PLANE_SIDE }, { "tank-1", TW_PLANE_FRONT } };
  g_autoptr (TwJob) job = large_job ();
  g_autoptr (TwHistory) history = tw_history_new (job);
  g_autoptr (TwCatalogue) catalogue = tw_catalogue_load (NULL);
  g_autoptr (TwDrawing) drawing = tw_drawing_new (job, catalogue);
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwPlacement) placement = NULL;
  double at_ms = times_cpu_ms (), place_ms;

  placement = tw_placement_new (drawing, geos);
  place_ms = times_cpu_ms () - at_ms;
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    bench (&cases[i], job, history, placement, place_ms);
  return 0;
}
