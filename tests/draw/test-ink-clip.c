/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What of a list lies in a box: worked by hand in the box from 0, 0 to 100, 50.
 */
#include "draw/ink.h"

#include <math.h>

static const TwInkStyle style = { TW_INK_PEN_THIN, TW_INK_TINT_INK, "part", { "" } };
static const TwBox box = { 0, 0, 100, 50 };

static void
assert_point (const TwInkItem *item, guint nth, double x_mm, double y_mm)
{
  g_assert_cmpfloat_with_epsilon (item->corners[nth].at.x_mm, x_mm, 1e-9);
  g_assert_cmpfloat_with_epsilon (item->corners[nth].at.y_mm, y_mm, 1e-9);
}

/* From (−50, 0) to (50, 50) the line rises by half: it comes in at x 0, y 25. */
static void
test_line (void)
{
  g_autoptr (TwInk) ink = tw_ink_new (), clipped = tw_ink_new ();
  TwInkCuts cuts;

  tw_ink_line (ink, &style, (TwPoint){ -50, 0 }, (TwPoint){ 50, 50 });
  tw_ink_line (ink, &style, (TwPoint){ 10, 60 }, (TwPoint){ 90, 60 }); /* beyond */
  tw_ink_line (ink, &style, (TwPoint){ 10, 10 }, (TwPoint){ 20, 20 }); /* inside */
  tw_ink_append_clipped (clipped, ink, &box, &cuts);
  g_assert_cmpuint (tw_ink_count (clipped), ==, 2);
  assert_point (tw_ink_get (clipped, 0), 0, 0, 25);
  assert_point (tw_ink_get (clipped, 0), 1, 50, 50);
  assert_point (tw_ink_get (clipped, 1), 1, 20, 20);
  g_assert_true (cuts.any[0] && !cuts.any[1] && !cuts.any[2] && !cuts.any[3]);
  g_assert_cmpfloat (cuts.low_mm[0], ==, 25);
  g_assert_cmpfloat (cuts.high_mm[0], ==, 25);
}

/* Two level walls of a hose that leaves at the right, 10 and 30 up: cut there, two stretches, open. */
static void
test_closed_path (void)
{
  g_autoptr (TwInk) ink = tw_ink_new (), clipped = tw_ink_new ();
  const TwInkItem *item;
  TwInkCuts cuts;

  tw_ink_box (ink, &style, &(TwBox){ 60, 10, 160, 30 });
  tw_ink_append_clipped (clipped, ink, &box, &cuts);
  g_assert_cmpuint (tw_ink_count (clipped), ==, 1);
  item = tw_ink_get (clipped, 0);
  g_assert_false (item->closed);
  g_assert_true (cuts.any[1] && !cuts.any[0]);
  g_assert_cmpfloat (cuts.low_mm[1], ==, 10);
  g_assert_cmpfloat (cuts.high_mm[1], ==, 30);
  for (guint i = 0; i < item->n_corners; i++)
    g_assert_cmpfloat (item->corners[i].at.x_mm, <=, 100);
}

static double
area_of (const TwInkItem *item)
{
  double twice = 0;

  for (guint first = 0, end; first < item->n_corners; first = end) {
    end = tw_ink_ring_end (item, first);
    for (guint i = first; i < end; i++) {
      TwPoint a = item->corners[i].at, b = item->corners[i + 1 < end ? i + 1 : first].at;

      twice += a.x_mm * b.y_mm - a.y_mm * b.x_mm;
    }
  }
  return fabs (twice) / 2;
}

/* An L from (−20, −20): 60 × 60 with a 30 × 30 taken from its upper right; in the box 40 × 40 less the corner
 * from (10, 10) on: 1600 − 900 = 700. A circle of radius 20 round (100, 25): half of it, to the steps of its
 * arcs. */
static void
test_areas (void)
{
  const TwInkCorner l[] = { { { -20, -20 }, 0, TRUE }, { { 40, -20 }, 0, FALSE }, { { 40, 10 }, 0, FALSE },
                            { { 10, 10 }, 0, FALSE },  { { 10, 40 }, 0, FALSE },  { { -20, 40 }, 0, FALSE } };
  g_autoptr (TwInk) ink = tw_ink_new (), clipped = tw_ink_new ();
  TwInkCorner circle[2];
  TwInkCuts cuts;

  tw_ink_circle_corners ((TwPoint){ 100, 25 }, 20, circle);
  tw_ink_hatch (ink, &style, l, G_N_ELEMENTS (l), 1, 2);
  tw_ink_tone (ink, &style, circle, 2, 0.5);
  tw_ink_fill (ink, &style,
               (const TwInkCorner[]){
                   { { 200, 200 }, 0, TRUE }, { { 210, 200 }, 0, FALSE }, { { 210, 210 }, 0, FALSE } },
               3);
  tw_ink_append_clipped (clipped, ink, &box, &cuts);
  g_assert_cmpuint (tw_ink_count (clipped), ==, 2);
  g_assert_cmpint (tw_ink_get (clipped, 0)->kind, ==, TW_INK_HATCH);
  g_assert_cmpfloat (tw_ink_get (clipped, 0)->spacing, ==, 2);
  g_assert_cmpfloat_with_epsilon (area_of (tw_ink_get (clipped, 0)), 700, 1e-9);
  g_assert_cmpint (tw_ink_get (clipped, 1)->kind, ==, TW_INK_TONE);
  g_assert_cmpfloat_with_epsilon (area_of (tw_ink_get (clipped, 1)), G_PI * 200, 10);
}

/* What has one place stays whole or goes. */
static void
test_marks (void)
{
  const TwInkPlace in = { { 99, 25 }, TW_INK_SIZE_NOTE, TW_INK_LEFT, TW_INK_MIDDLE, FALSE },
                   out = { { 101, 25 }, TW_INK_SIZE_NOTE, TW_INK_RIGHT, TW_INK_MIDDLE, FALSE };
  g_autoptr (TwInk) ink = tw_ink_new (), clipped = tw_ink_new ();
  TwInkCuts cuts;

  tw_ink_text (ink, &style, &in, "stays");
  tw_ink_text (ink, &style, &out, "goes");
  tw_ink_dot (ink, &style, (TwPoint){ 50, 50 });
  tw_ink_arrow (ink, &style, (TwPoint){ 50, 51 }, 0);
  tw_ink_append_clipped (clipped, ink, &box, &cuts);
  g_assert_cmpuint (tw_ink_count (clipped), ==, 2);
  g_assert_cmpstr (tw_ink_get (clipped, 0)->text, ==, "stays");
  g_assert_cmpint (tw_ink_get (clipped, 1)->kind, ==, TW_INK_DOT);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/ink-clip/line", test_line);
  g_test_add_func ("/draw/ink-clip/closed-path", test_closed_path);
  g_test_add_func ("/draw/ink-clip/areas", test_areas);
  g_test_add_func ("/draw/ink-clip/marks", test_marks);
  return g_test_run ();
}
