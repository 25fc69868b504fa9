/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-hand.c - gestures to changes
 *
 * The job: level tubes, 40 of pitch 10, face 400 × 400 round the job's zero, so tube 1 lies at 195, the gap
 * after tube k at 200 − 10·k and the gap after 20 at 0. Tanks reach from −205 to 205 with a wall of 2, so a
 * baffle of 2 at 0 leaves a chamber from 1 to 203 above it: its middle is 102.
 */
#include "job/write.h"
#include "stage/hand.h"
#include "support/make-job.h"

#include <math.h>

enum { FACE, FRONT, SIDE, PLAN };

typedef struct {
  TwJob *job;
  TwHistory *history;
  TwPlacement *placement;
  TwTubes *tubes;
  TwPasses *passes;
  TwHandBench bench;
} Bench;

/* Placement and passes of the job as it is now. */
static void
lay_out (Bench *bench)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TwCatalogue) catalogue = tw_catalogue_load (&error);
  g_autoptr (TwDrawing) drawing = NULL;
  g_autoptr (TwGeos) geos = tw_geos_new ();

  g_assert_no_error (error);
  drawing = tw_drawing_new (bench->job, catalogue);
  bench->placement = tw_placement_new (drawing, geos);
  bench->tubes = tw_tubes_find (bench->placement);
  bench->passes = tw_passes_find (bench->placement, bench->tubes);
  bench->bench = (TwHandBench){ bench->job, bench->history, bench->placement, bench->passes };
}

static void
set_up (Bench *bench)
{
  bench->job = tw_make_job (TW_TUBES_LEVEL, 40);
  tw_make_baffle (bench->job, "tank-1", 20);
  tw_make_port (bench->job, "tank-1", TW_PORT_INLET, TW_WALL_BACK, 100);
  tw_make_port (bench->job, "tank-2", TW_PORT_OUTLET, TW_WALL_AIR_IN, -100);
  tw_make_fan (bench->job, -150, 20, 188, 60);
  tw_make_fan (bench->job, 100, 20, 188, 60);
  bench->history = tw_history_new (bench->job);
  lay_out (bench);
}

static void
clear_away (Bench *bench)
{
  tw_passes_unref (bench->passes);
  tw_tubes_unref (bench->tubes);
  tw_placement_unref (bench->placement);
}

static void
tear_down (Bench *bench)
{
  clear_away (bench);
  tw_history_free (bench->history);
  tw_job_free (bench->job);
}

static TwStageView
view_of (const Bench *bench, int view)
{
  guint n;

  if (view == FACE)
    return tw_stage_view_face (&tw_placement_cores (bench->placement, &n)[0]);
  return tw_stage_view_plane (view == FRONT ? TW_PLANE_FRONT : view == SIDE ? TW_PLANE_SIDE : TW_PLANE_PLAN);
}

static double
figure (const Bench *bench, const char *id_text, const char *field)
{
  const TwPart *part;
  TwId id;

  g_assert_true (tw_id_from_text (id_text, &id));
  part = tw_job_find (bench->job, id);
  return G_STRUCT_MEMBER (double, part,
                          tw_kind_info (part->kind)->fields[tw_kind_field (part->kind, field)].offset);
}

typedef struct {
  const char *name;
  const char *part;
  int view;
  double right_mm;
  double up_mm;
  gboolean no_snaps;
  const char *fields[3];
  double values_mm[3];
  TwSnapKind snap;
} Case;

/* Reach 6 mm, free figures rounded to 1 mm. */
static const Case cases[] = {
  /* 9 up: the gap after tube 19 lies at 10 */
  { "baffle-to-gap", "baffle-1", FACE, 3, 9, FALSE, { "place_mm" }, { 10 }, TW_SNAP_GAP },
  { "baffle-held-off", "baffle-1", FACE, 3, 8.7, TRUE, { "place_mm" }, { 9 }, TW_SNAP_NONE },
  { "baffle-side", "baffle-1", SIDE, 40, -19, FALSE, { "place_mm" }, { -20 }, TW_SNAP_GAP },
  /* 103: the chamber's middle is 1 off */
  { "port-to-chamber", "port-1", FACE, 0, 3, FALSE, { "along_mm" }, { 102 }, TW_SNAP_CHAMBER_MIDDLE },
  { "port-to-tank", "port-1", FACE, 0, -98, FALSE, { "along_mm" }, { 0 }, TW_SNAP_TANK_MIDDLE },
  /* −99: the other port is 1 off, the lower chamber's middle −102 is 3 off */
  { "port-level", "port-1", FACE, 0, -199, FALSE, { "along_mm" }, { -100 }, TW_SNAP_LEVEL_WITH },
  { "port-both", "port-1", SIDE, 10, 40, FALSE, { "along_mm", "across_mm" }, { 140, 10 }, TW_SNAP_NONE },
  { "port-plan", "port-1", PLAN, 10, 11, FALSE, { "along_mm", "across_mm" }, { 100, 11 }, TW_SNAP_NONE },
  /* in a wall towards the air: along the header and off the plate; tank 50 deep, on the right: out is +x */
  { "port-out", "port-2", FRONT, 10, 40, FALSE, { "along_mm", "out_mm" }, { -60, 35 }, TW_SNAP_NONE },
  /* rings 200: they touch when the centres are 200 apart */
  { "fan-touching", "fan-1", FACE, 46, 0, FALSE, { "u_mm", "v_mm" }, { -100, 20 }, TW_SNAP_TOUCHES },
  { "fan-to-middle", "fan-1", FACE, 0, -17, FALSE, { "u_mm", "v_mm" }, { -150, 0 }, TW_SNAP_FACE_MIDDLE },
  { "fan-to-edge", "fan-1", FACE, 0, 77, FALSE, { "u_mm", "v_mm" }, { -150, 100 }, TW_SNAP_TOUCHES },
  { "fan-plan", "fan-1", PLAN, -20.2, 30, TRUE, { "u_mm", "v_mm" }, { -170, 20 }, TW_SNAP_NONE },
  { "core-round", "core-1", FRONT, 12.3, 0, FALSE, { "x_mm", "y_mm", "z_mm" }, { 10, 0, 0 }, TW_SNAP_ROUND },
  { "core-front", "core-1", FRONT, 12.3, 4.4, TRUE, { "x_mm", "y_mm", "z_mm" }, { 12, 4, 0 }, TW_SNAP_NONE },
  { "core-side", "core-1", SIDE, 7.2, -3.1, TRUE, { "x_mm", "y_mm", "z_mm" }, { 0, -3, 7 }, TW_SNAP_NONE },
  { "core-plan", "core-1", PLAN, 7.2, -3.1, TRUE, { "x_mm", "y_mm", "z_mm" }, { 7, 0, -3 }, TW_SNAP_NONE },
  { "core-face", "core-1", FACE, 7.2, -3.1, TRUE, { "x_mm", "y_mm", "z_mm" }, { 7, -3, 0 }, TW_SNAP_NONE },
  { "core-too-far", "core-1", FRONT, 1e5, 0, TRUE, { "x_mm" }, { 20000 }, TW_SNAP_NONE },
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  const TwHandManner manner = { 6, 1, c->no_snaps };
  g_autoptr (TwHand) hand = tw_hand_new ();
  g_autofree char *before = NULL, *after = NULL;
  TwStageView view;
  gboolean moved;
  Bench bench;
  TwId part;

  set_up (&bench);
  view = view_of (&bench, c->view);
  before = tw_job_write_text (bench.job);
  g_assert_true (tw_id_from_text (c->part, &part));
  g_assert_true (tw_hand_press (hand, &bench.bench, &view, part, (TwPoint){ 50, 60 }, "Move"));
  moved = tw_hand_move (hand, (TwPoint){ 50 + c->right_mm / 2, 60 + c->up_mm / 3 }, &manner);
  moved |= tw_hand_move (hand, (TwPoint){ 50 + c->right_mm, 60 + c->up_mm }, &manner);
  g_assert_true (moved);
  g_assert_cmpint (tw_hand_snap (hand)->kind, ==, c->snap);
  for (guint i = 0; i < 3 && c->fields[i] != NULL; i++)
    g_assert_cmpfloat_with_epsilon (figure (&bench, c->part, c->fields[i]), c->values_mm[i], 1e-9);
  tw_hand_release (hand);
  g_assert_cmpstr (tw_history_undo_label (bench.history), ==, "Move");
  tw_history_undo (bench.history);
  g_assert_false (tw_history_can_undo (bench.history));
  after = tw_job_write_text (bench.job);
  g_assert_cmpstr (after, ==, before);
  tear_down (&bench);
}

/* Lean 30°: up in the face is (0, cos 30°, sin 30°), so 100 up is 86.602540 up and 50 downstream. */
static void
test_leaning_core (void)
{
  const TwHandManner manner = { .no_snaps = TRUE };
  g_autoptr (TwHand) hand = tw_hand_new ();
  TwStageView view;
  Bench bench;
  TwId core;

  set_up (&bench);
  tw_make_set_number (bench.job, "core-1", "lean_deg", 30);
  clear_away (&bench);
  lay_out (&bench);
  view = view_of (&bench, FACE);
  g_assert_true (tw_id_from_text ("core-1", &core));
  g_assert_true (tw_hand_press (hand, &bench.bench, &view, core, (TwPoint){ 0, 0 }, NULL));
  tw_hand_move (hand, (TwPoint){ 0, 100 }, &manner);
  tw_hand_release (hand);
  g_assert_cmpfloat_with_epsilon (figure (&bench, "core-1", "x_mm"), 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (figure (&bench, "core-1", "y_mm"), 86.602540, 1e-6);
  g_assert_cmpfloat_with_epsilon (figure (&bench, "core-1", "z_mm"), 50, 1e-6);
  tear_down (&bench);
}

/* A baffle across a tank moves up and down alone, and the Plan view shows neither. */
static void
test_cannot_move (void)
{
  g_autoptr (TwHand) hand = tw_hand_new ();
  TwStageView plan = tw_stage_view_plane (TW_PLANE_PLAN), front = tw_stage_view_plane (TW_PLANE_FRONT);
  Bench bench;
  TwId baffle, tank;

  set_up (&bench);
  g_assert_true (tw_id_from_text ("baffle-1", &baffle));
  g_assert_true (tw_id_from_text ("tank-1", &tank));
  g_assert_false (tw_hand_press (hand, &bench.bench, &plan, baffle, (TwPoint){ 0, 0 }, NULL));
  g_assert_true (tw_hand_can_move (bench.placement, &front, tank));
  g_assert_false (tw_hand_press (hand, &bench.bench, &front, TW_ID_NONE, (TwPoint){ 0, 0 }, NULL));
  g_assert_false (tw_hand_is_holding (hand));
  tear_down (&bench);
}

static void
test_click_is_no_step (void)
{
  const TwHandManner manner = { 6, 1, FALSE };
  g_autoptr (TwHand) hand = tw_hand_new ();
  TwStageView view;
  Bench bench;
  TwId baffle;

  set_up (&bench);
  view = view_of (&bench, FACE);
  g_assert_true (tw_id_from_text ("baffle-1", &baffle));
  g_assert_true (tw_hand_press (hand, &bench.bench, &view, baffle, (TwPoint){ 0, 0 }, NULL));
  tw_hand_release (hand);
  g_assert_false (tw_history_can_undo (bench.history));
  /* there and back again is none either */
  g_assert_true (tw_hand_press (hand, &bench.bench, &view, baffle, (TwPoint){ 0, 0 }, NULL));
  tw_hand_move (hand, (TwPoint){ 0, 30 }, &manner);
  tw_hand_move (hand, (TwPoint){ 0, 0 }, &manner);
  tw_hand_release (hand);
  g_assert_false (tw_history_can_undo (bench.history));
  tear_down (&bench);
}

static void
test_cancel (void)
{
  const TwHandManner manner = { 6, 1, FALSE };
  g_autoptr (TwHand) hand = tw_hand_new ();
  g_autofree char *before = NULL, *after = NULL;
  TwStageView view;
  Bench bench;
  TwId core;

  set_up (&bench);
  before = tw_job_write_text (bench.job);
  view = view_of (&bench, FRONT);
  g_assert_true (tw_id_from_text ("core-1", &core));
  g_assert_true (tw_hand_press (hand, &bench.bench, &view, core, (TwPoint){ 0, 0 }, NULL));
  tw_hand_move (hand, (TwPoint){ 33, 44 }, &manner);
  tw_hand_cancel (hand);
  after = tw_job_write_text (bench.job);
  g_assert_cmpstr (after, ==, before);
  g_assert_false (tw_history_can_undo (bench.history));
  g_assert_false (tw_history_is_open (bench.history));
  tear_down (&bench);
}

typedef struct {
  TwHandNudge nudge;
  double place_mm;
} Nudge;

static const Nudge nudges[] = {
  { { 0, 1, FALSE, FALSE }, 1 },
  { { 0, -1, FALSE, TRUE }, -10 },
  { { 0, 1, TRUE, FALSE }, 25.4 / 16.0 },
  { { 0, 1, TRUE, TRUE }, 25.4 * 10.0 / 16.0 },
};

static void
test_nudges (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (nudges); i++) {
    TwStageView view;
    Bench bench;
    TwId baffle;

    set_up (&bench);
    view = view_of (&bench, FACE);
    g_assert_true (tw_id_from_text ("baffle-1", &baffle));
    g_assert_true (tw_hand_nudge (&bench.bench, &view, baffle, &nudges[i].nudge, "Move"));
    g_assert_cmpfloat_with_epsilon (figure (&bench, "baffle-1", "place_mm"), nudges[i].place_mm, 1e-9);
    tw_history_undo (bench.history);
    g_assert_cmpfloat (figure (&bench, "baffle-1", "place_mm"), ==, 0);
    tear_down (&bench);
  }
}

/* The fields that the form marks. */
static void
test_fields (void)
{
  const TwHandManner manner = { 6, 1, TRUE };
  g_autoptr (TwHand) hand = tw_hand_new ();
  const guint *fields;
  TwStageView view;
  Bench bench;
  TwId core;
  guint n;

  set_up (&bench);
  view = view_of (&bench, SIDE);
  g_assert_true (tw_id_from_text ("core-1", &core));
  g_assert_true (tw_hand_press (hand, &bench.bench, &view, core, (TwPoint){ 0, 0 }, NULL));
  tw_hand_move (hand, (TwPoint){ 5, 0 }, &manner);
  fields = tw_hand_fields (hand, &n);
  g_assert_cmpuint (n, ==, 1);
  g_assert_cmpuint (fields[0], ==, TW_CORE_z_mm);
  tw_hand_release (hand);
  tear_down (&bench);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strconcat ("/stage/hand/", cases[i].name, NULL);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  g_test_add_func ("/stage/hand/leaning-core", test_leaning_core);
  g_test_add_func ("/stage/hand/cannot-move", test_cannot_move);
  g_test_add_func ("/stage/hand/click-is-no-step", test_click_is_no_step);
  g_test_add_func ("/stage/hand/cancel", test_cancel);
  g_test_add_func ("/stage/hand/nudges", test_nudges);
  g_test_add_func ("/stage/hand/fields", test_fields);
  return g_test_run ();
}
