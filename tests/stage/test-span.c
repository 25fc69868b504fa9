/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-span.c - the distance between two chosen places: triangles of 3, 4 and 5
 */
#include "stage/span.h"

static void
check (const TwSpan *span, double length_mm, double across_mm, double up_mm)
{
  g_assert_cmpfloat_with_epsilon (tw_span_length_mm (span), length_mm, 1e-12);
  g_assert_cmpfloat_with_epsilon (tw_span_across_mm (span), across_mm, 1e-12);
  g_assert_cmpfloat_with_epsilon (tw_span_up_mm (span), up_mm, 1e-12);
}

static void
test_two_places (void)
{
  TwSpan span = tw_span ();

  tw_span_follow (&span, (TwPoint){ 7, 7 });
  check (&span, 0, 0, 0);
  tw_span_choose (&span, (TwPoint){ 10, 20 });
  check (&span, 0, 0, 0);
  tw_span_follow (&span, (TwPoint){ 7, 24 });
  check (&span, 5, 3, 4);
  tw_span_choose (&span, (TwPoint){ 40, -20 });
  check (&span, 50, 30, 40);
  tw_span_follow (&span, (TwPoint){ 0, 0 }); /* both are chosen */
  check (&span, 50, 30, 40);
  tw_span_choose (&span, (TwPoint){ 1, 1 }); /* begins anew */
  check (&span, 0, 0, 0);
}

static void
test_corner (void)
{
  const TwInkStyle style = { TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, "core", { "a" } };
  const TwBox box = { 0, 0, 100, 50 };
  g_autoptr (TwInk) ink = tw_ink_new ();
  g_autoptr (TwPick) pick = NULL;
  TwPoint at;

  tw_ink_box (ink, &style, &box);
  pick = tw_pick_new (tw_ink_finish (ink));
  at = tw_span_corner_near (pick, (TwPoint){ 98, 51 }, 4);
  g_assert_cmpfloat (at.x_mm, ==, 100);
  g_assert_cmpfloat (at.y_mm, ==, 50);
  at = tw_span_corner_near (pick, (TwPoint){ 60, 50 }, 4); /* on an edge, near no corner */
  g_assert_cmpfloat (at.x_mm, ==, 60);
  g_assert_cmpfloat (at.y_mm, ==, 50);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/stage/span/two-places", test_two_places);
  g_test_add_func ("/stage/span/corner", test_corner);
  return g_test_run ();
}
