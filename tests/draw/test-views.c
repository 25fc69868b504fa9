/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/view-bench.h"

/* By the definitions of the views: x right and y up in Front, z right and y up in Side seen from the right
 * (+x is nearest), x right and z up in Plan seen from above (+y is nearest). */
static void
test_frames (void)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 10);
  Bench bench;
  static const struct {
    TwView view;
    TwVec across, up, away;
  } views[] = {
    { TW_VIEW_FRONT, { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } },
    { TW_VIEW_SIDE, { 0, 0, 1 }, { 0, 1, 0 }, { -1, 0, 0 } },
    { TW_VIEW_PLAN, { 1, 0, 0 }, { 0, 0, 1 }, { 0, -1, 0 } },
    { TW_VIEW_FACE, { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } }, /* a core that is not turned */
  };

  bench_init (&bench, job);
  for (guint i = 0; i < G_N_ELEMENTS (views); i++) {
    TwFrame frame = tw_view_frame (bench.placement, views[i].view, TW_ID_NONE);

    g_assert_cmpfloat (tw_vec_distance_mm (frame.u, views[i].across), <, 1e-12);
    g_assert_cmpfloat (tw_vec_distance_mm (frame.v, views[i].up), <, 1e-12);
    g_assert_cmpfloat (tw_vec_distance_mm (frame.w, views[i].away), <, 1e-12);
  }
  bench_clear (&bench);
}

/* Ten level tubes at 10, 400 long, 42 thick: the face is 400 × 100, Side shows 42 × 100, Plan 400 × 42. */
static void
test_block (void)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 10);
  Bench bench;
  g_autoptr (TwViewDrawing) front = NULL, side = NULL, plan = NULL, large = NULL, small = NULL;
  const TwInkItem *tubes;

  bench_init (&bench, job);
  front = draw (&bench, TW_VIEW_FRONT, 0.2, TW_VIEW_NO_NAMES);
  side = draw (&bench, TW_VIEW_SIDE, 0.2, TW_VIEW_NO_NAMES);
  plan = draw (&bench, TW_VIEW_PLAN, 0.2, TW_VIEW_NO_NAMES);
  assert_box (box_of (item_of (front, "core", "core-1", TW_INK_LINE, 0)), -200, -50, 200, 50);
  assert_box (box_of (item_of (side, "core", "core-1", TW_INK_LINE, 0)), 0, -50, 42, 50);
  assert_box (box_of (item_of (plan, "core", "core-1", TW_INK_LINE, 0)), -200, 0, 200, 42);

  /* tubes are 2 thick: 0.4 at 1:5 is more than one pen of 0.25 and less than three: ten single lines */
  tubes = item_of (front, "core", "core-1", TW_INK_LINE, 1);
  g_assert_cmpuint (tubes->n_corners, ==, 20);
  g_assert_cmpfloat_with_epsilon (tubes->corners[0].at.y_mm, 45, 1e-9); /* tube 1 is at the top */
  /* 2 at 1:1 are ten outlines; 0.1 at 1:20 is a tone */
  large = draw (&bench, TW_VIEW_FRONT, 1, TW_VIEW_NO_NAMES);
  g_assert_nonnull (item_of (large, "core", "core-1", TW_INK_LINE, 2));
  small = draw (&bench, TW_VIEW_FRONT, 0.05, TW_VIEW_NO_NAMES);
  g_assert_cmpuint (item_of (small, "core", "core-1", TW_INK_TONE, 1)->n_corners, ==, 40);
  bench_clear (&bench);
}

/* A puller is behind the core: dashed on top in Front, on the layers behind; seen from the side it is solid.
 */
static void
test_fan (void)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 30);
  Bench bench;
  g_autoptr (TwViewDrawing) front = NULL, side = NULL;
  const TwInkItem *ring;

  tw_make_shroud (job, 0, 0, 380, 280);
  tw_make_fan (job, 50, 20, 240, 80);
  bench_init (&bench, job);
  front = draw (&bench, TW_VIEW_FRONT, 0.2, TW_VIEW_NO_NAMES);
  ring = item_of (front, "hidden", "fan-1", TW_INK_LINE, 0);
  g_assert_cmpint (ring->style.pen, ==, TW_INK_PEN_BEHIND);
  assert_box (box_of (ring), 50 - 126, 20 - 126, 50 + 126, 20 + 126); /* the ring is 12 wider than 240 */
  g_assert_nonnull (item_of (front, "fan-behind", "fan-1", TW_INK_LINE, 0));
  assert_box (box_of (item_of (front, "hidden", "shroud-1", TW_INK_LINE, 0)), -190, -140, 190, 140);

  side = draw (&bench, TW_VIEW_SIDE, 0.2, TW_VIEW_NO_NAMES);
  g_assert_null (item_of (side, "hidden", "fan-1", TW_INK_LINE, 0));
  ring = item_of (side, "fan", "fan-1", TW_INK_LINE, 0);
  if (ring == NULL)
    ring = item_of (side, "fan-behind", "fan-1", TW_INK_LINE, 0);
  assert_box (box_of (ring), 42 + 40, 20 - 126, 42 + 40 + 60, 20 + 126); /* thickness, plenum, depth */
  bench_clear (&bench);
}

/* Two passes: the first to the right over tubes 1 to 5, hot; the second back, cool. */
static void
test_passes (void)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 10);
  Bench bench;
  g_autoptr (TwViewDrawing) face = NULL;
  const TwInkItem *first, *second;

  tw_make_baffle (job, "tank-1", 5);
  tw_make_port (job, "tank-1", TW_PORT_INLET, TW_WALL_BACK, 25);
  tw_make_port (job, "tank-1", TW_PORT_OUTLET, TW_WALL_BACK, -25);
  bench_init (&bench, job);
  face = draw (&bench, TW_VIEW_FACE, 0.2, TW_VIEW_NO_NAMES);
  first = item_of (face, "way", "core-1", TW_INK_ARROW, 0);
  second = item_of (face, "way", "core-1", TW_INK_ARROW, 1);
  g_assert_cmpint (first->style.tint, ==, TW_INK_TINT_HOT);
  g_assert_cmpfloat_with_epsilon (cos (first->angle_rad), 1, 1e-9);
  g_assert_cmpfloat_with_epsilon (first->corners[0].at.y_mm, 25, 1e-9); /* tubes at 45, 35, 25, 15, 5 */
  g_assert_cmpint (second->style.tint, ==, TW_INK_TINT_COOL);
  g_assert_cmpfloat_with_epsilon (cos (second->angle_rad), -1, 1e-9);
  g_assert_cmpfloat_with_epsilon (second->corners[0].at.y_mm, -25, 1e-9);

  /* the inlet's arrow points into the left tank, the outlet's away from it */
  first = item_of (face, "way", "port-1", TW_INK_ARROW, 0);
  g_assert_cmpfloat_with_epsilon (cos (first->angle_rad), 1, 1e-9);
  second = item_of (face, "way", "port-2", TW_INK_ARROW, 0);
  g_assert_cmpfloat_with_epsilon (cos (second->angle_rad), -1, 1e-9);
  g_assert_cmpfloat (second->corners[0].at.x_mm, <, first->corners[0].at.x_mm);
  bench_clear (&bench);
}

/* For a sheet: of 2 × 15 tubes those at both ends and beside the border, 1, 2, 14, 15, 16, 17, 29, 30; no
 * arrows of passes, those of the ports stay. */
static void
test_for_sheets (void)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 30);
  Bench bench;
  g_autoptr (TwViewDrawing) face = NULL;
  const TwInkItem *tubes;

  tw_make_baffle (job, "tank-1", 15);
  tw_make_port (job, "tank-1", TW_PORT_INLET, TW_WALL_BACK, 75);
  tw_make_port (job, "tank-1", TW_PORT_OUTLET, TW_WALL_BACK, -75);
  bench_init (&bench, job);
  face = draw (&bench, TW_VIEW_FACE, 0.2, TW_VIEW_NO_NAMES | TW_VIEW_FEW_TUBES | TW_VIEW_NO_PASSES);
  tubes = item_of (face, "core", "core-1", TW_INK_LINE, 1);
  g_assert_cmpuint (tubes->n_corners, ==, 2 * 8);
  /* tube 14 is the third that is drawn: 145 − 13 · 10 */
  g_assert_cmpfloat_with_epsilon (tubes->corners[4].at.y_mm, 15, 1e-9);
  g_assert_null (item_of (face, "way", "core-1", TW_INK_ARROW, 0));
  g_assert_nonnull (item_of (face, "way", "port-1", TW_INK_ARROW, 0));
  bench_clear (&bench);
}

/* A bar of 38 before the core, drawn in Side: a circle there, a band of 38 in Front and as the shadow in
 * Face. */
static void
test_taken (void)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 10);
  TwMakeBox beside = { -400, -300, -100, -300, 300, 100 };
  Bench bench;
  g_autoptr (TwViewDrawing) side = NULL, face = NULL;
  TwBox box;

  tw_make_bar (job, TW_PLANE_SIDE, -60, 10, 38);
  tw_make_box (job, TW_PLANE_FRONT, TW_TAKEN_HOT, &beside);
  bench_init (&bench, job);
  side = draw (&bench, TW_VIEW_SIDE, 0.2, TW_VIEW_NO_NAMES);
  assert_box (box_of (item_of (side, "taken", "volume-1", TW_INK_HATCH, 0)), -79, -9, -41, 29);
  face = draw (&bench, TW_VIEW_FACE, 0.2, TW_VIEW_NO_NAMES);
  box = box_of (item_of (face, "taken-before", "volume-1", TW_INK_HATCH, 0));
  g_assert_cmpfloat_with_epsilon (box.y0_mm, -9, 0.01);
  g_assert_cmpfloat_with_epsilon (box.y1_mm, 29, 0.01);
  bench_clear (&bench);
}

/* A core that leans by 30 degrees takes its baffle along: seen from the side, the plate's line lies square to
 * the leaning header, 30 degrees under level. */
static void
test_leaning_baffle (void)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 10);
  Bench bench;
  g_autoptr (TwViewDrawing) side = NULL;
  const TwInkItem *line;
  double angle_rad;

  tw_make_set (job, "core-1", "lean_deg", "30");
  tw_make_baffle (job, "tank-2", 5);
  bench_init (&bench, job);
  side = draw (&bench, TW_VIEW_SIDE, 0.2, TW_VIEW_NO_NAMES);
  line = item_of (side, "hidden", "baffle-1", TW_INK_LINE, 0);
  g_assert_cmpint (line->style.pen, ==, TW_INK_PEN_BEHIND);
  g_assert_cmpuint (line->n_corners, ==, 2);
  angle_rad = atan2 (line->corners[1].at.y_mm - line->corners[0].at.y_mm,
                     line->corners[1].at.x_mm - line->corners[0].at.x_mm);
  g_assert_cmpfloat_with_epsilon (tan (angle_rad), tan (-G_PI / 6), 1e-9);
  bench_clear (&bench);
}

/* A run that goes 300 across, then 200 with the air, in a bend of 60: Front shows the leg along z as a circle
 * of its outside, 28 + 2 · 4.5; Plan shows both legs. */
static void
test_hose_end_on (void)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 10);
  const double from_mm[] = { 0, 500, -600 }, to_mm[] = { 300, 500, -200 },
               corner_mm[][3] = { { 300, 500, -600 } };
  Bench bench;
  g_autoptr (TwViewDrawing) front = NULL, plan = NULL;
  guint n_circles = 0;

  tw_make_hose (job, tw_make_engine_port (job, TW_ENGINE_SUPPLY, from_mm, TW_LEAVES_AXIS_RIGHT),
                tw_make_engine_port (job, TW_ENGINE_RETURN, to_mm, TW_LEAVES_AXIS_UPSTREAM), 1, corner_mm,
                60);
  bench_init (&bench, job);
  front = draw (&bench, TW_VIEW_FRONT, 0.2, TW_VIEW_NO_NAMES);
  for (guint i = 0; i < 8; i++) {
    const TwInkItem *item = item_of (front, "hose", "hose-1", TW_INK_LINE, i);

    if (item == NULL || item->corners[0].bow_mm == 0)
      continue;
    n_circles++;
    assert_box (box_of (item), 300 - 18.5, 500 - 18.5, 300 + 18.5, 500 + 18.5);
  }
  g_assert_cmpuint (n_circles, ==, 1);
  plan = draw (&bench, TW_VIEW_PLAN, 0.2, TW_VIEW_NO_NAMES);
  assert_box (box_of (item_of (plan, "hose", "hose-1", TW_INK_LINE, 0)), 0, -600 - 18.5, 300 + 18.5, -200);
  bench_clear (&bench);
}

static void
test_hatches_differ (void)
{
  for (int a = TW_TAKEN_STRUCTURE; a <= TW_TAKEN_OTHER; a++)
    for (int b = TW_TAKEN_STRUCTURE; b < a; b++) {
      double angle_a, angle_b, spacing_a, spacing_b;

      tw_view_hatch (a, &angle_a, &spacing_a);
      tw_view_hatch (b, &angle_b, &spacing_b);
      /* at least 20 degrees apart, as lines */
      g_assert_cmpfloat (fabs (sin (angle_a - angle_b)), >, sin (20 * G_PI / 180) - 1e-9);
      g_assert_cmpfloat (spacing_a, >=, 1);
    }
}

static void
test_letters (void)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 30);
  static const struct {
    guint nth;
    const char *letter;
  } letters[] = { { 0, "A" },  { 7, "H" },  { 8, "J" },   { 12, "N" },
                  { 13, "P" }, { 23, "Z" }, { 24, "AA" }, { 25, "AB" } };
  Bench bench;

  for (guint i = 0; i < 26; i++)
    tw_make_port (job, "tank-1", TW_PORT_SPARE, TW_WALL_BACK, 0);
  bench_init (&bench, job);
  for (guint i = 0; i < G_N_ELEMENTS (letters); i++) {
    g_autofree char *letter = tw_view_port_letter (
        bench.drawing, tw_drawing_get (bench.drawing, TW_KIND_PORT, letters[i].nth)->id);

    g_assert_cmpstr (letter, ==, letters[i].letter);
  }
  g_assert_null (tw_view_port_letter (bench.drawing, TW_ID_NONE));
  bench_clear (&bench);
}

static void
test_empty (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  Bench bench;

  bench_init (&bench, job);
  for (guint view = 0; view < TW_N_VIEWS; view++) {
    g_autoptr (TwViewDrawing) drawing = draw (&bench, view, 0.2, 0);

    g_assert_cmpuint (tw_ink_count (drawing->ink), ==, 0);
    g_assert_true (tw_box_is_empty (drawing->all));
  }
  bench_clear (&bench);
}

/* --- random jobs ------------------------------------------------------------------------------------------
 */

static void
assert_nothing_meets (const Bench *bench, const TwViewDrawing *drawing, double scale, guint32 seed)
{
  g_autoptr (TwInk) page = tw_ink_new ();
  g_autoptr (TwPlace) place = NULL;
  g_autoptr (GArray) found = NULL;
  TwBox frame;

  if (!tw_ink_bounds (drawing->ink, &frame))
    return;
  tw_ink_append_scaled (page, drawing->ink, scale, (TwPoint){ 0, 0 });
  frame = (TwBox){ frame.x0_mm * scale - 500, frame.y0_mm * scale - 500, frame.x1_mm * scale + 500,
                   frame.y1_mm * scale + 500 };
  place = tw_place_new (&frame, &bench->look, &bench->measure);
  tw_place_take (place, page, 0);
  found = tw_place_check (place);
  for (guint i = 0; i < found->len; i++) {
    g_autofree char *words = tw_place_collision_text (place, &g_array_index (found, TwPlaceCollision, i));

    g_test_message ("job %u: %s", seed, words);
  }
  g_assert_cmpuint (found->len, ==, 0);
}

static void
assert_same (const TwViewDrawing *a, const TwViewDrawing *b)
{
  g_assert_cmpuint (tw_ink_count (a->ink), ==, tw_ink_count (b->ink));
  for (guint i = 0; i < tw_ink_count (a->ink); i++)
    g_assert_true (tw_ink_item_equal (tw_ink_get (a->ink, i), tw_ink_get (b->ink, i)));
}

/* Whatever the job: no text meets anything, and drawing again gives the same. */
static void
test_random (void)
{
  for (guint32 seed = 1; seed <= 25; seed++) {
    g_autoptr (TwJob) job = tw_random_job (seed);
    Bench bench;

    bench_init (&bench, job);
    for (guint view = 0; view < TW_N_VIEWS; view++) {
      double scale = seed % 2 ? 0.2 : 0.1;
      g_autoptr (TwViewDrawing) drawing = draw (&bench, view, scale, 0);
      g_autoptr (TwViewDrawing) again = draw (&bench, view, scale, 0);

      assert_nothing_meets (&bench, drawing, scale, seed);
      assert_same (drawing, again);
    }
    bench_clear (&bench);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/views/frames", test_frames);
  g_test_add_func ("/draw/views/block", test_block);
  g_test_add_func ("/draw/views/fan", test_fan);
  g_test_add_func ("/draw/views/passes", test_passes);
  g_test_add_func ("/draw/views/for-sheets", test_for_sheets);
  g_test_add_func ("/draw/views/taken", test_taken);
  g_test_add_func ("/draw/views/leaning-baffle", test_leaning_baffle);
  g_test_add_func ("/draw/views/hose-end-on", test_hose_end_on);
  g_test_add_func ("/draw/views/hatches-differ", test_hatches_differ);
  g_test_add_func ("/draw/views/letters", test_letters);
  g_test_add_func ("/draw/views/empty", test_empty);
  g_test_add_func ("/draw/views/random", test_random);
  return g_test_run ();
}
