/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/dimension.h"

#include <math.h>

#include "draw/place.h"

static const TwInkStyle edge_style = { TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, "part", { "" } };

/* What every test draws on: a page that is larger than eight tiers of wide figures ask for. */
typedef struct {
  TwLook look;
  TwMeasure measure;
  TwDimensionManner manner;
  TwInk *ink;
} Page;

static void
page_init (Page *page, gboolean inches)
{
  page->look = tw_look_paper (FALSE);
  page->measure = tw_measure_fixed ();
  page->manner = tw_dimension_manner (inches, &page->look, &page->measure);
  page->ink = tw_ink_new ();
}

static guint
faults_of (Page *page)
{
  g_autoptr (TwPlace) place = tw_place_new (&(TwBox){ -100, -100, 700, 520 }, &page->look, &page->measure);
  g_autoptr (GArray) found = NULL;

  tw_place_take (place, page->ink, 0);
  found = tw_place_check (place);
  for (guint i = 0; i < found->len; i++) {
    g_autofree char *words = tw_place_collision_text (place, &g_array_index (found, TwPlaceCollision, i));

    g_test_message ("%s", words);
  }
  return found->len;
}

static const TwInkItem *
nth_of (Page *page, TwInkKind kind, TwInkPen pen, guint nth)
{
  for (guint i = 0; i < tw_ink_count (page->ink); i++) {
    const TwInkItem *item = tw_ink_get (page->ink, i);

    if (item->kind == kind && item->style.pen == pen && nth-- == 0)
      return item;
  }
  return NULL;
}

/* One size of 100 below a box: the line lies 10 under it, the figure in the middle above the line, heads
 * inside. */
static void
test_one_below (void)
{
  Page page;
  TwDimensionEdge edge = { { 100, 200, 200, 300 }, TW_DIMENSION_BELOW };
  TwDimension dim = { { 200, 200 }, { 100, 200 }, "100", { "" } };
  const TwInkItem *item;
  double reach_mm;

  page_init (&page, FALSE);
  reach_mm = tw_dimension_stack (page.ink, &page.manner, &edge, &dim, 1);
  g_assert_cmpfloat (reach_mm, ==, 12.15); /* 2.9 · 3.5 = 10.15, 2 beyond it */
  g_assert_cmpfloat (tw_dimension_stack (NULL, &page.manner, &edge, &dim, 1), ==, reach_mm);

  item = nth_of (&page, TW_INK_LINE, TW_INK_PEN_DIMENSION, 0);
  g_assert_cmpfloat (item->corners[0].at.x_mm, ==, 100);
  g_assert_cmpfloat (item->corners[1].at.x_mm, ==, 200);
  g_assert_cmpfloat_with_epsilon (item->corners[0].at.y_mm, 200 - 10.15, 1e-9);
  item = nth_of (&page, TW_INK_LINE, TW_INK_PEN_EXTENSION, 0);
  g_assert_cmpfloat (item->corners[0].at.y_mm, ==, 200); /* ISO: from the outline itself */
  g_assert_cmpfloat_with_epsilon (item->corners[1].at.y_mm, 200 - 12.15, 1e-9);
  item = nth_of (&page, TW_INK_ARROW, TW_INK_PEN_DIMENSION, 0);
  g_assert_cmpfloat (item->corners[0].at.x_mm, ==, 100);
  g_assert_cmpfloat (fabs (cos (item->angle_rad) + 1), <, 1e-12); /* points left, out of the size */
  item = nth_of (&page, TW_INK_TEXT, TW_INK_PEN_DIMENSION, 0);
  g_assert_cmpfloat (item->place.at.x_mm, ==, 150);
  g_assert_cmpfloat_with_epsilon (item->place.at.y_mm, 200 - 10.15 + 1.05, 1e-9);
  g_assert_false (item->place.upright);
  g_assert_cmpuint (faults_of (&page), ==, 0);
  tw_ink_unref (page.ink);
}

/* ISO figures of upright sizes are read from the right; the US manner keeps them level in a gap, and the
 * extension lines clear of the outline. */
static void
test_upright (void)
{
  TwDimensionEdge edge = { { 100, 200, 200, 300 }, TW_DIMENSION_LEFT };
  TwDimension dim = { { 100, 200 }, { 100, 300 }, "3 15/16", { "" } };
  const TwInkItem *item;
  Page page;

  page_init (&page, FALSE);
  tw_dimension_stack (page.ink, &page.manner, &edge, &dim, 1);
  item = nth_of (&page, TW_INK_TEXT, TW_INK_PEN_DIMENSION, 0);
  g_assert_true (item->place.upright);
  g_assert_cmpfloat (item->place.at.x_mm, <, 100 - 10.15); /* left of its line */
  tw_ink_unref (page.ink);

  page_init (&page, TRUE);
  tw_dimension_stack (page.ink, &page.manner, &edge, &dim, 1);
  item = nth_of (&page, TW_INK_TEXT, TW_INK_PEN_DIMENSION, 0);
  g_assert_false (item->place.upright);
  g_assert_cmpfloat (item->place.at.y_mm, ==, 250);
  g_assert_nonnull (nth_of (&page, TW_INK_LINE, TW_INK_PEN_DIMENSION, 1)); /* two pieces */
  item = nth_of (&page, TW_INK_LINE, TW_INK_PEN_EXTENSION, 0);
  g_assert_cmpfloat (item->corners[0].at.x_mm, ==, 100 - 1.5);
  g_assert_cmpuint (faults_of (&page), ==, 0);
  tw_ink_unref (page.ink);
}

/* 8 mm is less than four heads: they come in from outside; "88.25" (13.1) does not fit and stands beyond. */
static void
test_short (void)
{
  TwDimensionEdge edge = { { 100, 200, 200, 300 }, TW_DIMENSION_ABOVE };
  TwDimension dim = { { 100, 300 }, { 108, 300 }, "88.25", { "" } };
  const TwInkItem *item;
  Page page;

  page_init (&page, FALSE);
  tw_dimension_stack (page.ink, &page.manner, &edge, &dim, 1);
  item = nth_of (&page, TW_INK_ARROW, TW_INK_PEN_DIMENSION, 0);
  g_assert_cmpfloat (item->corners[0].at.x_mm, ==, 100);
  g_assert_cmpfloat (fabs (cos (item->angle_rad) - 1), <, 1e-12);
  item = nth_of (&page, TW_INK_TEXT, TW_INK_PEN_DIMENSION, 0);
  g_assert_cmpfloat (item->place.at.x_mm, <, 100 - 6.5);
  g_assert_cmpuint (faults_of (&page), ==, 0);
  tw_ink_unref (page.ink);
}

/* The stack that place.h works out, on paper: shorter ones nearer, nothing crossed. */
static void
test_stack_tiers (void)
{
  TwDimensionEdge edge = { { 100, 300, 460, 350 }, TW_DIMENSION_BELOW };
  static const double ends[][2] = { { 0, 30 }, { 30, 330 }, { 330, 360 }, { 0, 360 }, { 105, 240 } };
  static const double tiers_mm[] = { 0, 1, 0, 2, 0 };
  TwDimension dims[5];
  Page page;

  page_init (&page, FALSE);
  for (guint i = 0; i < 5; i++)
    dims[i] = (TwDimension){ { 100 + ends[i][0], 300 }, { 100 + ends[i][1], 300 }, "60", { "" } };
  tw_dimension_stack (page.ink, &page.manner, &edge, dims, 5);
  for (guint i = 0; i < 5; i++) {
    const TwInkItem *item = nth_of (&page, TW_INK_TEXT, TW_INK_PEN_DIMENSION, i);

    g_assert_cmpfloat_with_epsilon (item->place.at.y_mm, 300 - 10.15 - 8.4 * tiers_mm[i] + 1.05, 1e-9);
  }
  g_assert_cmpuint (faults_of (&page), ==, 0);
  tw_ink_unref (page.ink);
}

/* Two sizes that overlap without one containing the other: the extension line is interrupted. */
static void
test_overlapping (void)
{
  TwDimensionEdge edge = { { 100, 300, 300, 350 }, TW_DIMENSION_BELOW };
  TwDimension dims[]
      = { { { 100, 300 }, { 200, 300 }, "100", { "" } }, { { 150, 300 }, { 260, 300 }, "110", { "" } } };
  Page page;

  page_init (&page, FALSE);
  tw_dimension_stack (page.ink, &page.manner, &edge, dims, 2);
  g_assert_cmpuint (faults_of (&page), ==, 0);
  g_assert_nonnull (nth_of (&page, TW_INK_LINE, TW_INK_PEN_EXTENSION, 4)); /* one of the four in two */
  tw_ink_unref (page.ink);
}

static void
test_random_stacks (void)
{
  for (guint round = 0; round < 400; round++) {
    TwDimensionEdge edge = { { 200, 150, 400, 280 }, round % 4 };
    TwDimension dims[8];
    char texts[8][16];
    guint n = g_test_rand_int_range (1, 9);
    Page page;

    page_init (&page, g_test_rand_bit ());
    tw_ink_box (page.ink, &edge_style, &edge.outline);
    for (guint i = 0; i < n; i++) {
      TwPoint a = { g_test_rand_int_range (200, 401), g_test_rand_int_range (150, 281) };
      TwPoint b = { g_test_rand_int_range (200, 401), g_test_rand_int_range (150, 281) };

      if (a.x_mm == b.x_mm || a.y_mm == b.y_mm)
        b = (TwPoint){ a.x_mm == 400 ? 399 : a.x_mm + 1, a.y_mm == 280 ? 279 : a.y_mm + 1 };
      g_snprintf (texts[i], sizeof texts[i], "%d 63/64", g_test_rand_int_range (1, 2000));
      dims[i] = (TwDimension){ a, b, texts[i], { "" } };
    }
    tw_dimension_stack (page.ink, &page.manner, &edge, dims, n);
    g_assert_cmpuint (faults_of (&page), ==, 0);
    tw_ink_unref (page.ink);
  }
}

static void
test_running (void)
{
  static const double along_mm[]
      = { 55.5, 59.9768, 64.4535, 91.9536, 119.4536, 123.9303, 128.4071, 183.9071 };
  TwDimension dims[G_N_ELEMENTS (along_mm)];
  TwPoint origin = { 100, 100 };
  char texts[G_N_ELEMENTS (along_mm)][16];

  for (guint side = 0; side < 4; side++) {
    TwDimensionEdge edge = { { 100, 100, 283.9071, 283.9071 }, side };
    Page page;

    page_init (&page, FALSE);
    for (guint i = 0; i < G_N_ELEMENTS (along_mm); i++) {
      gboolean upright = side == TW_DIMENSION_LEFT || side == TW_DIMENSION_RIGHT;

      g_ascii_formatd (texts[i], sizeof texts[i], "%.1f", along_mm[i]);
      dims[i] = (TwDimension){ .to = { upright ? 100 : 100 + along_mm[i], upright ? 100 + along_mm[i] : 100 },
                               .text = texts[i] };
    }
    g_assert_cmpfloat (
        tw_dimension_running (page.ink, &page.manner, &edge, origin, dims, G_N_ELEMENTS (dims)), >, 20);
    g_assert_cmpuint (faults_of (&page), ==, 0);
    g_assert_nonnull (nth_of (&page, TW_INK_RING, TW_INK_PEN_EXTENSION, 0));
    g_assert_cmpstr (nth_of (&page, TW_INK_TEXT, TW_INK_PEN_DIMENSION, 0)->text, ==, "0");
    tw_ink_unref (page.ink);
  }
}

static void
test_running_full (void)
{
  TwDimensionEdge edge = { { 100, 100, 120, 120 }, TW_DIMENSION_BELOW };
  TwDimension dims[9];
  Page page;

  page_init (&page, FALSE);
  for (guint i = 0; i < 9; i++)
    dims[i] = (TwDimension){ .to = { 102 + 2 * i, 100 }, .text = "9" };
  g_assert_cmpfloat (tw_dimension_running (page.ink, &page.manner, &edge, (TwPoint){ 100, 100 }, dims, 9), <,
                     0);
  g_assert_cmpuint (tw_ink_count (page.ink), ==, 0);
  tw_ink_unref (page.ink);
}

static void
test_random_notes (void)
{
  for (guint round = 0; round < 200; round++) {
    TwDimensionColumns columns = { { 200, 150, 400, 280 }, 130, 300, 180, 420 };
    TwDimensionNote notes[16];
    guint n = g_test_rand_int_range (1, 17);
    double reach_mm[2];
    Page page;

    page_init (&page, FALSE);
    for (guint i = 0; i < n; i++)
      notes[i]
          = (TwDimensionNote){ { g_test_rand_double_range (200, 400), g_test_rand_double_range (150, 280) },
                               g_test_rand_bit (),
                               "port A, G 1/8",
                               { "" } };
    g_assert_true (tw_dimension_notes (page.ink, &page.manner, &columns, notes, n, reach_mm));
    g_assert_cmpuint (faults_of (&page), ==, 0);
    g_assert_cmpfloat (reach_mm[0], >=, 180 - 13 * 2.625 - 1e-9);
    g_assert_cmpfloat (reach_mm[1], <=, 420 + 13 * 2.625 + 1e-9);
    tw_ink_unref (page.ink);
  }
}

/* Head on the circle, towards its centre: circle of 10 round (100, 100), text to the upper right. */
static void
test_radius (void)
{
  TwDimensionNote note = { { 100, 100 }, FALSE, "Ø20", { "" } };
  const TwInkItem *head;
  Page page;

  page_init (&page, FALSE);
  tw_ink_circle (page.ink, &edge_style, note.at, 10);
  tw_dimension_radius (page.ink, &page.manner, 10, &note, (TwPoint){ 133.5, 130 });
  head = nth_of (&page, TW_INK_ARROW, TW_INK_PEN_LEADER, 0);
  g_assert_cmpfloat_with_epsilon (head->corners[0].at.x_mm, 100 + 10 * sqrt (0.5),
                                  1e-9); /* knee at 130, 130 */
  g_assert_cmpfloat_with_epsilon (head->corners[0].at.y_mm, 100 + 10 * sqrt (0.5), 1e-9);
  g_assert_cmpfloat_with_epsilon (cos (head->angle_rad), -sqrt (0.5), 1e-9);
  g_assert_cmpuint (faults_of (&page), ==, 0);
  tw_ink_unref (page.ink);
}

static void
test_balloon (void)
{
  Page page;

  page_init (&page, FALSE);
  tw_dimension_balloon (page.ink, &page.manner, &edge_style, (TwPoint){ 100, 100 }, "12");
  g_assert_cmpuint (faults_of (&page), ==, 0);
  tw_ink_unref (page.ink);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/dimension/one-below", test_one_below);
  g_test_add_func ("/draw/dimension/upright", test_upright);
  g_test_add_func ("/draw/dimension/short", test_short);
  g_test_add_func ("/draw/dimension/stack-tiers", test_stack_tiers);
  g_test_add_func ("/draw/dimension/overlapping", test_overlapping);
  g_test_add_func ("/draw/dimension/random-stacks", test_random_stacks);
  g_test_add_func ("/draw/dimension/running", test_running);
  g_test_add_func ("/draw/dimension/running-full", test_running_full);
  g_test_add_func ("/draw/dimension/random-notes", test_random_notes);
  g_test_add_func ("/draw/dimension/radius", test_radius);
  g_test_add_func ("/draw/dimension/balloon", test_balloon);
  return g_test_run ();
}
