/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Header tanks, openings and exits as they are drawn.
 */
#include "draw/view-bench.h"

static guint
n_items_of (const TwViewDrawing *drawing, const char *part)
{
  guint n = 0;

  for (guint i = 0; i < tw_ink_count (drawing->ink); i++)
    n += g_str_equal (tw_ink_get (drawing->ink, i)->style.part.text, part);
  return n;
}

/* Thick with a thin line inside, in the air's ink. The pen is 0.5 wide on paper: at 1:5 the second line lies
 * 2.4 · 0.5 · 5 = 6 inside. */
static void
test_opening (void)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 10);
  g_autoptr (TwViewDrawing) front = NULL, side = NULL;
  const TwInkItem *outer, *inner, *edge;
  Bench bench;

  tw_make_opening (job, TW_KIND_OPENING, TW_DRAWN_FRONT, (const double[]){ 50, 20, -300 },
                   (const double[]){ 200, 100 });
  bench_init (&bench, job);
  front = draw (&bench, TW_VIEW_FRONT, 0.2, TW_VIEW_NO_NAMES);
  outer = item_of (front, "opening", "opening-1", TW_INK_LINE, 0);
  inner = item_of (front, "opening", "opening-1", TW_INK_LINE, 1);
  g_assert_true (outer->closed && outer->style.pen == TW_INK_PEN_OUTLINE);
  g_assert_cmpint (outer->style.tint, ==, TW_INK_TINT_AIR);
  assert_box (box_of (outer), -50, -30, 150, 70);
  g_assert_cmpint (inner->style.pen, ==, TW_INK_PEN_THIN);
  assert_box (box_of (inner), -44, -24, 144, 64);

  /* from the side a line at z −300; the air goes to the right, so the thin one lies right of it, the lips
   * left */
  side = draw (&bench, TW_VIEW_SIDE, 0.2, TW_VIEW_NO_NAMES);
  edge = item_of (side, "opening", "opening-1", TW_INK_LINE, 0);
  assert_box (box_of (edge), -300, -30, -300, 70);
  for (guint i = 1; i <= 2; i++)
    g_assert_cmpfloat (box_of (item_of (side, "opening", "opening-1", TW_INK_LINE, i)).x0_mm, <, -301);
  assert_box (box_of (item_of (side, "opening", "opening-1", TW_INK_LINE, 3)), -294, -30, -294, 70);
  bench_clear (&bench);
}

/* Lips of an exit open the other way. */
static void
test_exit (void)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 10);
  g_autoptr (TwViewDrawing) front = NULL, side = NULL;
  Bench bench;

  tw_make_opening (job, TW_KIND_EXIT, TW_DRAWN_FRONT, (const double[]){ 0, 0, 400 },
                   (const double[]){ 200, 60 });
  bench_init (&bench, job);
  side = draw (&bench, TW_VIEW_SIDE, 0.2, TW_VIEW_NO_NAMES);
  for (guint i = 1; i <= 2; i++)
    g_assert_cmpfloat (box_of (item_of (side, "opening", "exit-1", TW_INK_LINE, i)).x1_mm, >, 401);

  /* behind the core it is dashed, with no second line */
  front = draw (&bench, TW_VIEW_FRONT, 0.2, TW_VIEW_NO_NAMES);
  g_assert_null (item_of (front, "opening", "exit-1", TW_INK_LINE, 0));
  assert_box (box_of (item_of (front, "hidden", "exit-1", TW_INK_LINE, 0)), -100, -30, 100, 30);
  g_assert_cmpint (item_of (front, "hidden", "exit-1", TW_INK_LINE, 0)->style.pen, ==, TW_INK_PEN_BEHIND);
  g_assert_null (item_of (front, "hidden", "exit-1", TW_INK_LINE, 1));
  bench_clear (&bench);
}

/* Face shows an opening before a core that stands square, not before one that leans by 40°. */
static void
test_face (void)
{
  static const double leans[] = { 0, 40 };

  for (guint i = 0; i < G_N_ELEMENTS (leans); i++) {
    g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 10);
    g_autoptr (TwViewDrawing) face = NULL, front = NULL, bare = NULL;
    Bench bench;

    tw_make_set_number (job, "core-1", "lean_deg", leans[i]);
    tw_make_opening (job, TW_KIND_OPENING, TW_DRAWN_FRONT, (const double[]){ 0, 0, -300 },
                     (const double[]){ 200, 60 });
    bench_init (&bench, job);
    face = draw (&bench, TW_VIEW_FACE, 0.2, TW_VIEW_NO_NAMES);
    front = draw (&bench, TW_VIEW_FRONT, 0.2, TW_VIEW_NO_NAMES);
    bare = draw (&bench, TW_VIEW_FRONT, 0.2, TW_VIEW_NO_NAMES | TW_VIEW_NO_OPENINGS);
    g_assert_cmpint (n_items_of (face, "opening-1") > 0, ==, leans[i] == 0);
    g_assert_cmpuint (n_items_of (front, "opening-1"), >, 0);
    g_assert_cmpuint (n_items_of (bare, "opening-1"), ==, 0);
    bench_clear (&bench);
  }
}

/* A box shows its sides, and half full the level in its middle; it covers what is behind. */
static void
test_header_tank (void)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 10);
  g_autoptr (TwViewDrawing) front = NULL, plan = NULL, bare = NULL;
  const TwInkItem *level;
  Bench bench;

  tw_make_header_tank (job, (const double[]){ 0, 300, -50 }, (const double[]){ 200, 80, 120 });
  bench_init (&bench, job);
  front = draw (&bench, TW_VIEW_FRONT, 0.2, TW_VIEW_NO_NAMES);
  plan = draw (&bench, TW_VIEW_PLAN, 0.2, TW_VIEW_NO_NAMES);
  bare = draw (&bench, TW_VIEW_PLAN, 0.2, TW_VIEW_NO_NAMES | TW_VIEW_NO_HOSES);
  assert_box (box_of (item_of (front, "header-tank", "header_tank-1", TW_INK_FILL, 0)), -100, 260, 100, 340);
  assert_box (box_of (item_of (front, "header-tank", "header_tank-1", TW_INK_LINE, 0)), -100, 260, 100, 340);
  assert_box (box_of (item_of (plan, "header-tank", "header_tank-1", TW_INK_LINE, 0)), -100, -110, 100, 10);
  level = item_of (front, "header-tank", "header_tank-1", TW_INK_LINE, 1);
  g_assert_cmpint (level->style.tint, ==, TW_INK_TINT_COOL);
  g_assert_cmpfloat_with_epsilon (level->corners[0].at.y_mm, 300, 1e-9);
  g_assert_cmpuint (n_items_of (bare, "header_tank-1"), ==, 0);
  bench_clear (&bench);
}

/* A level cylinder of Ø80 × 200 along x: a rectangle in Front, a circle in Side, with centre lines. */
static void
test_cylinder (void)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 10);
  g_autoptr (TwViewDrawing) front = NULL, side = NULL;
  TwId id = tw_make_header_tank (job, (const double[]){ 0, 300, 0 }, (const double[]){ 1000, 1000, 1000 });
  Bench bench;

  tw_make_set (job, id.text, "form", "level");
  tw_make_set (job, id.text, "diameter_mm", "80");
  tw_make_set (job, id.text, "length_mm", "200");
  bench_init (&bench, job);
  front = draw (&bench, TW_VIEW_FRONT, 0.2, TW_VIEW_NO_NAMES);
  side = draw (&bench, TW_VIEW_SIDE, 0.2, TW_VIEW_NO_NAMES);
  assert_box (box_of (item_of (front, "header-tank", id.text, TW_INK_LINE, 0)), -100, 260, 100, 340);
  assert_box (box_of (item_of (side, "header-tank", id.text, TW_INK_LINE, 0)), -40, 260, 40, 340);
  g_assert_cmpfloat (fabs (item_of (side, "header-tank", id.text, TW_INK_LINE, 0)->corners[0].bow_mm), >, 0);
  g_assert_cmpint (item_of (front, "header-tank", id.text, TW_INK_LINE, 1)->style.pen, ==, TW_INK_PEN_CENTRE);
  bench_clear (&bench);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/views/opening", test_opening);
  g_test_add_func ("/draw/views/exit", test_exit);
  g_test_add_func ("/draw/views/face", test_face);
  g_test_add_func ("/draw/views/header-tank", test_header_tank);
  g_test_add_func ("/draw/views/cylinder", test_cylinder);
  return g_test_run ();
}
