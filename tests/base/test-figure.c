/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/figure.h"

#include <math.h>

static void
test_exact (void)
{
  TwFigure area = tw_figure_exact (391800, "DEF-FACE");

  g_assert_cmpfloat (area.value, ==, 391800);
  g_assert_cmpfloat (area.low, ==, 391800);
  g_assert_cmpfloat (area.high, ==, 391800);
  g_assert_cmpstr (area.source, ==, "DEF-FACE");
  g_assert_cmpint (area.flags, ==, 0);
}

static void
test_band (void)
{
  TwFigure loss = tw_figure_band (10, 8, 13, "COMMON-PRACTICE");

  g_assert_cmpfloat (loss.low, ==, 8);
  g_assert_cmpfloat (loss.value, ==, 10);
  g_assert_cmpfloat (loss.high, ==, 13);
  g_assert_cmpint (loss.flags, ==, 0);
}

static void
test_not_computed (void)
{
  TwFigure none = tw_figure_not_computed ("DEF-PASS");

  g_assert_true (isnan (none.value) && isnan (none.low) && isnan (none.high));
  g_assert_cmpint (none.flags, ==, TW_FIGURE_NOT_COMPUTED);
  none = tw_figure_flagged (none, TW_FIGURE_NOT_COMPUTED | TW_FIGURE_ASSUMED);
  g_assert_cmpint (none.flags, ==, TW_FIGURE_NOT_COMPUTED | TW_FIGURE_ASSUMED);
}

static void
test_flags_combine (void)
{
  TwFigure figure = tw_figure_band (10, 8, 13, "COMMON-PRACTICE");

  figure = tw_figure_flagged (figure, TW_FIGURE_ASSUMED);
  figure = tw_figure_flagged (figure, TW_FIGURE_OUT_OF_RANGE);
  figure = tw_figure_flagged (figure, 0);
  g_assert_cmpint (figure.flags, ==, TW_FIGURE_ASSUMED | TW_FIGURE_OUT_OF_RANGE);
  g_assert_cmpfloat (figure.value, ==, 10);
}

/* Each misuse runs in a process of its own and must end it. */
static void
test_misuse (void)
{
  static const struct {
    double value, low, high;
  } cases[] = { { 10, 11, 12 }, { 10, 8, 9 }, { NAN, 8, 9 }, { 10, -INFINITY, 12 }, { 10, 8, NAN } };

  if (g_test_subprocess ()) {
    guint nth = (guint)g_ascii_strtoull (g_getenv ("TW_TEST_CASE"), NULL, 10);
    TwFigure figure = nth < G_N_ELEMENTS (cases)
                          ? tw_figure_band (cases[nth].value, cases[nth].low, cases[nth].high, "DEF-FACE")
                          : tw_figure_flagged (tw_figure_exact (1, "DEF-FACE"), TW_FIGURE_NOT_COMPUTED);

    g_test_message ("%g", figure.value);
    return;
  }
  for (guint i = 0; i <= G_N_ELEMENTS (cases); i++) {
    g_autofree char *nth = g_strdup_printf ("%u", i);

    g_setenv ("TW_TEST_CASE", nth, TRUE);
    g_test_trap_subprocess (NULL, 0, 0);
    g_test_trap_assert_failed ();
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/figure/exact", test_exact);
  g_test_add_func ("/base/figure/band", test_band);
  g_test_add_func ("/base/figure/not-computed", test_not_computed);
  g_test_add_func ("/base/figure/flags-combine", test_flags_combine);
  g_test_add_func ("/base/figure/misuse", test_misuse);
  return g_test_run ();
}
