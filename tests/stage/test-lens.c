/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-lens.c - views on a screen. Expected figures are worked by hand beside each case.
 */
#include "stage/lens.h"

#include <math.h>

/* A box 1000 wide and 500 high on 640 × 400 with 20 free: (640 − 40)/1000 = 0.6 against (400 − 40)/500 =
 * 0.72, so 0.6 px a mm; its middle lies in the middle of the screen. */
static void
test_fit (void)
{
  TwLens lens = tw_lens_fit ((TwBox){ 100, 200, 1100, 700 }, 640, 400, 20);
  TwPixel corner = tw_lens_to_screen (&lens, (TwPoint){ 100, 700 });

  g_assert_cmpfloat_with_epsilon (lens.px_mm, 0.6, 1e-12);
  g_assert_cmpfloat_with_epsilon (corner.x_px, 20, 1e-9);
  g_assert_cmpfloat_with_epsilon (corner.y_px, 200 - 250 * 0.6, 1e-9);
}

static void
test_fit_empty (void)
{
  TwLens lens = tw_lens_fit (TW_BOX_EMPTY, 540, 1040, 20); /* (540 − 40)/1000 */

  g_assert_cmpfloat_with_epsilon (lens.px_mm, 0.5, 1e-12);
  g_assert_cmpfloat (lens.middle.x_mm, ==, 0);
}

static void
test_there_and_back (void)
{
  TwLens lens = { .middle = { 12.5, -480 }, .px_mm = 1.75, .width_px = 801, .height_px = 603 };
  TwPixel at = { 17.25, 599 };
  TwPixel back = tw_lens_to_screen (&lens, tw_lens_to_view (&lens, at));

  g_assert_cmpfloat_with_epsilon (back.x_px, at.x_px, 1e-9);
  g_assert_cmpfloat_with_epsilon (back.y_px, at.y_px, 1e-9);
}

static void
test_zoom_keeps_the_pointer (void)
{
  TwLens lens = { .middle = { 0, 0 }, .px_mm = 1, .width_px = 400, .height_px = 300 };
  TwPixel pointer = { 300, 50 }; /* 100 right of and 100 above the middle */
  TwPoint before = tw_lens_to_view (&lens, pointer), after;

  for (int i = 0; i < 40; i++)
    lens = tw_lens_zoom (&lens, i % 2 ? 0.8 : 1.3, pointer);
  after = tw_lens_to_view (&lens, pointer);
  g_assert_cmpfloat_with_epsilon (before.x_mm, 100, 1e-9);
  g_assert_cmpfloat_with_epsilon (before.y_mm, 100, 1e-9);
  g_assert_cmpfloat_with_epsilon (after.x_mm, before.x_mm, 1e-6);
  g_assert_cmpfloat_with_epsilon (after.y_mm, before.y_mm, 1e-6);
}

static void
test_zoom_stops (void)
{
  TwLens lens = { .middle = { 3, 4 }, .px_mm = 1, .width_px = 400, .height_px = 300 };
  TwLens near = tw_lens_zoom (&lens, 1e9, (TwPixel){ 200, 150 });
  TwLens far = tw_lens_zoom (&lens, 1e-9, (TwPixel){ 200, 150 });

  g_assert_cmpfloat (near.px_mm, ==, TW_LENS_MOST_PX_MM);
  g_assert_cmpfloat (far.px_mm, ==, TW_LENS_LEAST_PX_MM);
  g_assert_cmpfloat_with_epsilon (near.middle.x_mm, 3, 1e-9); /* zoomed about its middle */
}

/* 30 px right at 2 px a mm: the picture moves right, so the middle moves 15 mm left. */
static void
test_pan (void)
{
  TwLens lens = { .middle = { 0, 0 }, .px_mm = 2, .width_px = 400, .height_px = 300 };
  TwLens moved = tw_lens_pan (&lens, 30, 10);

  g_assert_cmpfloat_with_epsilon (moved.middle.x_mm, -15, 1e-12);
  g_assert_cmpfloat_with_epsilon (moved.middle.y_mm, 5, 1e-12);
}

typedef struct {
  double px_mm;
  gboolean inches;
  double least_px;
  double step_mm;
} Step;

static const Step steps[] = {
  { 1.0, FALSE, 1.0, 1.0 },          /* a millimetre is a pixel */
  { 0.7, FALSE, 1.0, 2.0 },          /* 1.43 mm are needed */
  { 10.0, FALSE, 1.0, 0.1 },         /* */
  { 1.0, TRUE, 1.0, 25.4 / 16 },     /* 1/64 in is 0.4 px, 1/32 0.8, 1/16 1.6 */
  { 0.01, TRUE, 1.0, 25.4 },         /* an inch at most */
  { 100.0, TRUE, 1.0, 25.4 / 64.0 }, /* 1/64 in at least */
  { 0.001, FALSE, 1.0, 100.0 },      /* */
};

static void
test_steps (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (steps); i++) {
    TwLens lens = { .px_mm = steps[i].px_mm, .width_px = 100, .height_px = 100 };

    g_assert_cmpfloat_with_epsilon (tw_lens_step_mm (&lens, steps[i].inches, steps[i].least_px),
                                    steps[i].step_mm, 1e-12);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/stage/lens/fit", test_fit);
  g_test_add_func ("/stage/lens/fit-empty", test_fit_empty);
  g_test_add_func ("/stage/lens/there-and-back", test_there_and_back);
  g_test_add_func ("/stage/lens/zoom-keeps-the-pointer", test_zoom_keeps_the_pointer);
  g_test_add_func ("/stage/lens/zoom-stops", test_zoom_stops);
  g_test_add_func ("/stage/lens/pan", test_pan);
  g_test_add_func ("/stage/lens/steps", test_steps);
  return g_test_run ();
}
