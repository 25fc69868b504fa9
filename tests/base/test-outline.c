/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Outlines as drawn: each fault found, and said where it is.
 */
#include "base/outline.h"

#include <locale.h>
#include <math.h>

typedef struct {
  const char *name;
  TwCorner outer[6];
  guint n_outer;
  TwCorner hole[4];
  guint n_hole;
  TwOutlineCode code;
  guint ring, corner;
  const char *text;
} Case;

#define SQUARE                                                                                               \
  {                                                                                                          \
    { { 0, 0 }, 0 }, { { 40, 0 }, 0 }, { { 40, 40 }, 0 },                                                    \
    {                                                                                                        \
      { 0, 40 }, 0                                                                                           \
    }                                                                                                        \
  }

static const Case cases[] = {
  /* clang-format off */
  { "sound", SQUARE, 4, { { { 0 } } }, 0, TW_OUTLINE_OK, 0, 0, "nothing wrong" },
  { "hole", SQUARE, 4, { { { 10, 20 }, 10 }, { { 30, 20 }, 10 } }, 2, TW_OUTLINE_OK, 0, 0, "nothing wrong" },
  { "two-corners", { { { 0, 0 }, 0 }, { { 4, 0 }, 0 } }, 2, { { { 0 } } }, 0, TW_OUTLINE_TOO_FEW, 0, 0,
    "has too few corners" },
  { "none", { { { 0 } } }, 0, { { { 0 } } }, 0, TW_OUTLINE_TOO_FEW, 0, 0, "has too few corners" },
  { "nan", { { { 0, 0 }, 0 }, { { 4, NAN }, 0 }, { { 4, 4 }, 0 } }, 3, { { { 0 } } }, 0, TW_OUTLINE_NO_NUMBER, 0, 1,
    "has a corner that is no place" },
  { "huge-bow", { { { 0, 0 }, 0 }, { { 4, 0 }, 1e300 }, { { 4, 4 }, 0 } }, 3, { { { 0 } } }, 0,
    TW_OUTLINE_NO_NUMBER, 0, 1, "has a corner that is no place" },
  { "zero-edge", { { { 0, 0 }, 0 }, { { 4, 0 }, 0 }, { { 4, 0 }, 0 }, { { 0, 4 }, 0 } }, 4, { { { 0 } } }, 0,
    TW_OUTLINE_ZERO_EDGE, 0, 1, "has two corners in a row at (4.0, 0.0)" },
  { "closed-twice", { { { 0, 0 }, 0 }, { { 4, 0 }, 0 }, { { 0, 4 }, 0 }, { { 0, 0 }, 0 } }, 4, { { { 0 } } }, 0,
    TW_OUTLINE_ZERO_EDGE, 0, 3, "has two corners in a row at (0.0, 0.0)" },
  { "bow", { { { 0, 0 }, 0 }, { { 4, 0 }, 20.1 }, { { 4, 4 }, 0 } }, 3, { { { 0 } } }, 0, TW_OUTLINE_BOW, 0, 1,
    "bows too far at (4.0, 0.0)" },
  /* The diagonals of a square of 24 × 80 meet in its middle. */
  { "crosses", { { { 0, 0 }, 0 }, { { 24, 80 }, 0 }, { { 24, 0 }, 0 }, { { 0, 80 }, 0 } }, 4, { { { 0 } } }, 0,
    TW_OUTLINE_CROSSES, 0, 0, "crosses itself at (12.0, 40.0)" },
  { "on-a-line", { { { 0, 0 }, 0 }, { { 4, 4 }, 0 }, { { 2, 2 }, 0 } }, 3, { { { 0 } } }, 0, TW_OUTLINE_NO_AREA,
    0, 0, "has nothing inside" },
  { "there-and-back", { { { 0, 0 }, 5 }, { { 10, 0 }, -5 } }, 2, { { { 0 } } }, 0, TW_OUTLINE_CROSSES, 0, 0,
    NULL },
  { "hole-outside", SQUARE, 4, { { { 60, 20 }, 10 }, { { 80, 20 }, 10 } }, 2, TW_OUTLINE_HOLE_OUTSIDE, 1, 0, NULL },
  { "hole-crosses", SQUARE, 4, { { { 30, 10 }, 0 }, { { 50, 10 }, 0 }, { { 50, 20 }, 0 }, { { 30, 20 }, 0 } }, 4,
    TW_OUTLINE_CROSSES, 0, 1, NULL },
  /* clang-format on */
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  const TwOutline rings[] = { { c->outer, c->n_outer }, { c->hole, c->n_hole } };
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwArea) area = NULL;
  g_autofree char *text = NULL;
  TwOutlineFault fault;
  guint n_rings = c->n_hole > 0 ? 2 : 1;

  g_assert_cmpint (tw_outline_check (geos, rings, n_rings, &fault), ==, c->code == TW_OUTLINE_OK);
  g_assert_cmpint (fault.code, ==, c->code);
  g_assert_null (tw_geos_trouble (geos));
  text = tw_outline_fault_text (&fault);
  if (c->text != NULL)
    g_assert_cmpstr (text, ==, c->text);
  if (c->code != TW_OUTLINE_OK) {
    g_assert_cmpuint (fault.ring, ==, c->ring);
    g_assert_cmpuint (fault.corner, ==, c->corner);
  }

  area = tw_area_new_outline (geos, rings, n_rings);
  g_assert_cmpint (tw_area_is_empty (area), ==, c->code != TW_OUTLINE_OK);
  g_assert_cmpint (tw_geos_trouble (geos) != NULL, ==, c->code != TW_OUTLINE_OK);
}

/* 1600 less a hole of radius 10. */
static void
test_area (void)
{
  static const TwCorner outer[] = SQUARE;
  static const TwCorner hole[] = { { { 10, 20 }, 10 }, { { 30, 20 }, 10 } };
  const TwOutline rings[] = { { outer, 4 }, { hole, 2 } };
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwArea) area = tw_area_new_outline (geos, rings, 2);

  g_assert_cmpfloat_with_epsilon (tw_area_mm2 (area), 1600 - 100 * G_PI, 1e-9);
  g_assert_cmpuint (tw_area_n_rings (area), ==, 2);
}

/* A hole within a hole. */
static void
test_nested (void)
{
  static const TwCorner outer[] = SQUARE;
  static const TwCorner hole[] = { { { 10, 20 }, 10 }, { { 30, 20 }, 10 } };
  static const TwCorner inner[] = { { { 15, 20 }, 5 }, { { 25, 20 }, 5 } };
  const TwOutline rings[] = { { outer, 4 }, { hole, 2 }, { inner, 2 } };
  g_autoptr (TwGeos) geos = tw_geos_new ();
  TwOutlineFault fault;

  g_assert_false (tw_outline_check (geos, rings, 3, &fault));
  g_assert_cmpint (fault.code, ==, TW_OUTLINE_HOLE_IN_HOLE);
  g_assert_cmpuint (fault.ring, ==, 2);
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strdup_printf ("/base/outline/%s", cases[i].name);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  g_test_add_func ("/base/outline/area", test_area);
  g_test_add_func ("/base/outline/nested", test_nested);
  return g_test_run ();
}
