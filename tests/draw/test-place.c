/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/place.h"

#include <math.h>

/* Worked by hand: running values of a folded tank at a pitch of 7. The three round 59.9768 pool about their
 * own mean (1/3)(55.5 + 59.9768 + 64.4535) = 59.9768, the three round 123.9303 likewise. */
static void
test_spread_worked (void)
{
  double values[] = { 0, 55.5, 59.9768, 64.4535, 91.9536, 119.4536, 123.9303, 128.4071, 183.9071 };
  static const double places[]
      = { 0, 52.9768, 59.9768, 66.9768, 91.9536, 116.9303, 123.9303, 130.9303, 183.9071 };

  tw_place_spread (values, G_N_ELEMENTS (values), 7);
  for (guint i = 0; i < G_N_ELEMENTS (values); i++)
    g_assert_cmpfloat_with_epsilon (values[i], places[i], 1e-4);
}

static double
moved (const double *a, const double *b, guint n)
{
  double sum = 0;

  for (guint i = 0; i < n; i++)
    sum += (a[i] - b[i]) * (a[i] - b[i]);
  return sum;
}

static int
compare_doubles (gconstpointer a, gconstpointer b)
{
  double one = *(const double *)a, two = *(const double *)b;

  return one > two ? 1 : one < two ? -1 : 0;
}

/* No other allowed arrangement near the answer moves less: the sum of squares is convex, so a minimum among
 * neighbours is the minimum. */
static void
test_spread_least (void)
{
  for (guint round = 0; round < 200; round++) {
    double wants[8], places[8];
    guint n = g_test_rand_int_range (1, 9);

    for (guint i = 0; i < n; i++)
      wants[i] = g_test_rand_double_range (0, 40);
    qsort (wants, n, sizeof *wants, compare_doubles);
    memcpy (places, wants, sizeof places);
    tw_place_spread (places, n, 5);
    for (guint i = 1; i < n; i++)
      g_assert_cmpfloat (places[i] - places[i - 1], >=, 5 - 1e-9);

    for (guint tries = 0; tries < 200; tries++) {
      double other[8];
      gboolean allowed = TRUE;

      for (guint i = 0; i < n; i++) {
        other[i] = places[i] + g_test_rand_double_range (-0.5, 0.5);
        allowed &= i == 0 || other[i] - other[i - 1] >= 5;
      }
      if (allowed)
        g_assert_cmpfloat (moved (other, wants, n), >=, moved (places, wants, n) - 1e-9);
    }
  }
}

static void
test_spread_between (void)
{
  double ends[] = { 1, 2, 3 };
  double full[] = { 1, 2, 3 };

  g_assert_true (tw_place_spread_between (ends, 3, 5, 0, 20));
  g_assert_cmpfloat (ends[0], ==, 0); /* wants -3, 2, 7 and is shifted in */
  g_assert_cmpfloat (ends[1], ==, 5);
  g_assert_cmpfloat (ends[2], ==, 10);
  g_assert_false (tw_place_spread_between (full, 3, 5, 0, 9.9));
  g_assert_cmpfloat (full[1], ==, 2);
}

/* Worked by hand: {0–60, 60–660, 660–720, 0–720, 210–480}. */
static void
test_tiers_worked (void)
{
  TwPlaceSpan spans[] = {
    { 0, 60, 10, 50, 0 },    { 60, 660, 340, 380, 0 },  { 660, 720, 670, 710, 0 },
    { 0, 720, 340, 380, 0 }, { 210, 480, 330, 360, 0 },
  };
  static const guint tiers[] = { 1, 2, 1, 3, 1 };

  g_assert_cmpuint (tw_place_tiers (spans, G_N_ELEMENTS (spans)), ==, 3);
  for (guint i = 0; i < G_N_ELEMENTS (spans); i++)
    g_assert_cmpuint (spans[i].tier, ==, tiers[i]);
}

/* A figure that is wider than its size pushes its neighbour up a tier. */
static void
test_tiers_figures (void)
{
  TwPlaceSpan spans[] = { { 0, 10, -2, 12, 0 }, { 10, 30, 12, 28, 0 } };

  g_assert_cmpuint (tw_place_tiers (spans, 2), ==, 2);
  g_assert_cmpuint (spans[0].tier, ==, 1);
  g_assert_cmpuint (spans[1].tier, ==, 2);
}

static double
turn (TwPoint a, TwPoint b, TwPoint c)
{
  return (b.x_mm - a.x_mm) * (c.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (c.x_mm - a.x_mm);
}

static gboolean
cross (TwPoint a0, TwPoint a1, TwPoint b0, TwPoint b1)
{
  return turn (a0, a1, b0) * turn (a0, a1, b1) < 0 && turn (b0, b1, a0) * turn (b0, b1, a1) < 0;
}

static void
test_columns (void)
{
  const TwBox view = { 50, 50, 150, 150 };

  for (guint round = 0; round < 300; round++) {
    TwPlaceLabel labels[14] = { 0 };
    guint n = g_test_rand_int_range (0, 15);

    for (guint i = 0; i < n; i++) {
      labels[i].anchor = (TwPoint){ g_test_rand_double_range (50, 150), g_test_rand_double_range (50, 150) };
      labels[i].height_mm = g_test_rand_double_range (4, 9);
    }
    g_assert_true (tw_place_columns (labels, n, &view, 40, 160));
    for (guint i = 0; i < n; i++) {
      TwPoint end = { labels[i].right ? 150 : 50, labels[i].y_mm };

      g_assert_cmpfloat (labels[i].y_mm - labels[i].height_mm / 2, >=, 40 - 1e-9);
      g_assert_cmpfloat (labels[i].y_mm + labels[i].height_mm / 2, <=, 160 + 1e-9);
      for (guint k = 0; k < i; k++) {
        TwPoint other = { labels[k].right ? 150 : 50, labels[k].y_mm };

        if (labels[i].right != labels[k].right)
          continue;
        g_assert_cmpfloat (fabs (labels[i].y_mm - labels[k].y_mm), >=,
                           (labels[i].height_mm + labels[k].height_mm) / 2 - 1e-9);
        g_assert_false (cross (labels[i].anchor, end, labels[k].anchor, other));
      }
    }
  }
}

/* All anchors on one side: the column holds ten of 10, the rest goes across; 21 are too many for both. */
static void
test_columns_full (void)
{
  const TwBox view = { 0, 0, 100, 100 };
  TwPlaceLabel labels[21] = { 0 };
  guint n_right = 0;

  for (guint i = 0; i < G_N_ELEMENTS (labels); i++) {
    labels[i].anchor = (TwPoint){ 60 + i, 50 };
    labels[i].height_mm = 10;
  }
  g_assert_true (tw_place_columns (labels, 14, &view, 0, 100));
  for (guint i = 0; i < 14; i++)
    n_right += labels[i].right;
  g_assert_cmpuint (n_right, ==, 10);
  g_assert_false (labels[0].right); /* the nearest to the middle went */
  g_assert_false (tw_place_columns (labels, 21, &view, 0, 100));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/place/spread-worked", test_spread_worked);
  g_test_add_func ("/draw/place/spread-least", test_spread_least);
  g_test_add_func ("/draw/place/spread-between", test_spread_between);
  g_test_add_func ("/draw/place/tiers-worked", test_tiers_worked);
  g_test_add_func ("/draw/place/tiers-figures", test_tiers_figures);
  g_test_add_func ("/draw/place/columns", test_columns);
  g_test_add_func ("/draw/place/columns-full", test_columns_full);
  return g_test_run ();
}
