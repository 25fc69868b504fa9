/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-graduation.c - how a ruler is divided
 *
 * Worked by hand. Figures stand at least 50 px apart, ticks at least 5 px: at 1 px a millimetre that is 50
 * mm, 5 mm parts are 5 px. At 3.7 px a millimetre an inch is 93.98 px: half an inch (46.99) is too close for
 * a figure, a sixteenth is 5.87 px.
 */
#include "stage/graduation.h"

typedef struct {
  const char *name;
  double px_mm;
  TwUnitStyle style;
  double figure_mm; /* expected */
  guint n_ticks;
  int decimals;
} Case;

#define DECIMALS ((TwUnitStyle){ .inches = TRUE })

static const Case cases[] = {
  { "mm-1px", 1, TW_UNIT_STYLE_MM, 50, 10, 0 },
  { "mm-0.9px", 0.9, TW_UNIT_STYLE_MM, 100, 10, 0 }, /* 90 px; tenths 9 px */
  { "mm-whole-vehicle", 0.1, TW_UNIT_STYLE_MM, 500, 10, 0 },
  { "mm-20px", 20, TW_UNIT_STYLE_MM, 5, 10, 0 },          /* 100 px; tenths 10 px */
  { "mm-40px", 40, TW_UNIT_STYLE_MM, 2, 10, 0 },          /* 80 px; tenths 8 px */
  { "mm-tube-mouth", 200, TW_UNIT_STYLE_MM, 0.5, 10, 1 }, /* 100 px */
  { "inch-3.7px", 3.7, TW_UNIT_STYLE_IN, 25.4, 16, 0 },
  { "inch-8px", 8, TW_UNIT_STYLE_IN, 6.35, 8, 0 },      /* 50.8 px; eighths of it 6.35 px */
  { "inch-2px", 2, TW_UNIT_STYLE_IN, 25.4, 8, 0 },      /* 50.8 px; eighths 6.35 px */
  { "inch-1.5px", 1.5, TW_UNIT_STYLE_IN, 50.8, 8, 0 },  /* 76.2 px; eighths (1/4 in) 9.5, sixteenths 4.8 */
  { "inch-foot", 0.2, TW_UNIT_STYLE_IN, 304.8, 12, 0 }, /* 60.96 px; inches 5.08 px */
  { "inch-feet", 0.1, TW_UNIT_STYLE_IN, 609.6, 10, 0 }, /* 60.96 px; tenths 6.1 px */
  { "decimals-8px", 8, DECIMALS, 12.7, 10, 1 },         /* 101.6 px; tenths 10.2 px */
  { "decimals-3.7px", 3.7, DECIMALS, 25.4, 16, 0 },
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  TwGraduation found = tw_graduation (c->px_mm, &c->style, 50, 5);

  g_assert_cmpfloat_with_epsilon (found.figure_mm, c->figure_mm, 1e-9);
  g_assert_cmpuint (found.n_ticks, ==, c->n_ticks);
  g_assert_cmpint (found.decimals, ==, c->decimals);
}

/* Any zoom from a kilometre on a screen to a tube mouth: figures and ticks keep their distance. */
static void
test_any_zoom (void)
{
  static const TwUnitStyle styles[]
      = { { .finest = 64 }, { .inches = TRUE, .fractions = TRUE, .finest = 64 }, { .inches = TRUE } };

  for (double px_mm = 0.01; px_mm <= 200; px_mm *= 1.07)
    for (guint i = 0; i < G_N_ELEMENTS (styles); i++) {
      TwGraduation found = tw_graduation (px_mm, &styles[i], 50, 5);

      g_assert_cmpfloat (found.figure_mm * px_mm, >=, 50 * (1 - 1e-12));
      g_assert_cmpfloat (found.figure_mm * px_mm, <=, 50 * 8); /* never so far that none is seen */
      g_assert_cmpuint (found.n_ticks, >=, 1);
      if (found.n_ticks > 1)
        g_assert_cmpfloat (found.figure_mm * px_mm / found.n_ticks, >=, 5 * (1 - 1e-12));
    }
}

static void
test_first (void)
{
  g_assert_cmpfloat (tw_graduation_first (-12, 5), ==, -2);
  g_assert_cmpfloat (tw_graduation_first (10, 5), ==, 2);
  g_assert_cmpfloat (tw_graduation_first (10.1, 5), ==, 3);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strconcat ("/stage/graduation/", cases[i].name, NULL);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  g_test_add_func ("/stage/graduation/any-zoom", test_any_zoom);
  g_test_add_func ("/stage/graduation/first", test_first);
  return g_test_run ();
}
