/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/ink.h"

#include <math.h>
#include <string.h>

#include "draw/look.h"

static const TwInkStyle outline = { TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, "part", { "core-1" } };
static const TwInkStyle note = { TW_INK_PEN_DIMENSION, TW_INK_TINT_INK, "note", { "" } };

static void
assert_box (TwBox box, double x0_mm, double y0_mm, double x1_mm, double y1_mm)
{
  g_assert_cmpfloat_with_epsilon (box.x0_mm, x0_mm, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.y0_mm, y0_mm, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.x1_mm, x1_mm, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.y1_mm, y1_mm, 1e-9);
}

static void
test_empty (void)
{
  g_autoptr (TwInk) ink = tw_ink_new ();
  TwBox box = { 1, 2, 3, 4 };

  g_assert_false (tw_ink_bounds (ink, &box));
  assert_box (box, 1, 2, 3, 4);
  g_assert_cmpuint (tw_ink_count (ink), ==, 0);
  g_assert_null (tw_ink_layer (ink, 0));
  g_assert_false (tw_ink_is_finished (ink));
  g_assert_true (tw_ink_finish (ink) == ink);
  g_assert_true (tw_ink_is_finished (ink));
}

static void
test_order_and_layers (void)
{
  g_autoptr (TwInk) ink = tw_ink_new ();
  char layer[] = "part"; /* another pointer to the same word */
  TwInkStyle copied = outline;
  TwInkPlace place = { { 5, 6 }, TW_INK_SIZE_NOTE, TW_INK_LEFT, TW_INK_BASELINE, FALSE };

  copied.layer = layer;
  tw_ink_line (ink, &outline, (TwPoint){ 0, 0 }, (TwPoint){ 10, 0 });
  tw_ink_text (ink, &note, &place, "24 1/2");
  tw_ink_text (ink, &note, &place, "");
  tw_ink_dot (ink, &copied, (TwPoint){ 3, -2 });
  layer[0] = 'x';

  g_assert_cmpuint (tw_ink_count (ink), ==, 3); /* the empty text left nothing */
  g_assert_cmpint (tw_ink_get (ink, 0)->kind, ==, TW_INK_LINE);
  g_assert_cmpstr (tw_ink_get (ink, 0)->style.part.text, ==, "core-1");
  g_assert_cmpstr (tw_ink_get (ink, 1)->text, ==, "24 1/2");
  g_assert_cmpstr (tw_ink_get (ink, 2)->style.layer, ==, "part");
  g_assert_cmpstr (tw_ink_layer (ink, 0), ==, "part");
  g_assert_cmpstr (tw_ink_layer (ink, 1), ==, "note");
  g_assert_null (tw_ink_layer (ink, 2));
}

/* Extremes of arcs: a circle round (10, 20) of 5; a quarter that passes its top at 90 degrees; the other
 * three quarters, clockwise. */
static void
test_bounds (void)
{
  g_autoptr (TwInk) circle = tw_ink_new ();
  g_autoptr (TwInk) arc = tw_ink_new ();
  g_autoptr (TwInk) turned = tw_ink_new ();
  double root = sqrt (0.5);
  TwBox box;

  tw_ink_circle (circle, &outline, (TwPoint){ 10, 20 }, 5);
  g_assert_true (tw_ink_bounds (circle, &box));
  assert_box (box, 5, 15, 15, 25);

  tw_ink_arc (arc, &outline, (TwPoint){ 0, 0 }, 2, (const double[]){ G_PI / 4, 3 * G_PI / 4 });
  g_assert_true (tw_ink_bounds (arc, &box));
  assert_box (box, -2 * root, 2 * root, 2 * root, 2);

  tw_ink_arc (turned, &outline, (TwPoint){ 0, 0 }, 2, (const double[]){ G_PI / 4, -5 * G_PI / 4 });
  g_assert_true (tw_ink_bounds (turned, &box));
  assert_box (box, -2, -2, 2, 2 * root);
}

/* A view put on a sheet at 1:5: places shrink, letters, hatches and pens do not. */
static void
test_append_scaled (void)
{
  g_autoptr (TwInk) view = tw_ink_new ();
  g_autoptr (TwInk) sheet = tw_ink_new ();
  TwInkPlace place = { { 50, 100 }, TW_INK_SIZE_VIEW, TW_INK_CENTRE, TW_INK_TOP, TRUE };
  TwInkCorner corners[4];
  const TwInkItem *item;
  TwBox box;

  tw_ink_box_corners (&(TwBox){ 0, 0, 500, 250 }, corners);
  tw_ink_hatch (view, &outline, corners, 4, G_PI / 4, 1.5);
  tw_ink_circle (view, &outline, (TwPoint){ 100, 100 }, 50);
  tw_ink_text (view, &note, &place, "A");
  tw_ink_finish (view);
  tw_ink_append_scaled (sheet, view, 0.2, (TwPoint){ 10, 20 });

  g_assert_true (tw_ink_bounds (sheet, &box));
  assert_box (box, 10, 20, 110, 70);
  item = tw_ink_get (sheet, 0);
  g_assert_cmpfloat (item->spacing, ==, 1.5);
  g_assert_cmpfloat (item->angle_rad, ==, G_PI / 4);
  tw_ink_item_bounds (tw_ink_get (sheet, 1), &box);
  assert_box (box, 20, 30, 40, 50);
  item = tw_ink_get (sheet, 2);
  g_assert_cmpfloat (item->place.at.x_mm, ==, 20);
  g_assert_cmpfloat (item->place.at.y_mm, ==, 40);
  g_assert_cmpint (item->place.size, ==, TW_INK_SIZE_VIEW);
  g_assert_true (item->place.upright);
}

/* The second to the third of four lines, the same as they were. */
static void
test_append_items (void)
{
  g_autoptr (TwInk) from = tw_ink_new (), to = tw_ink_new ();

  for (int i = 0; i < 4; i++)
    tw_ink_line (from, &outline, (TwPoint){ i, 0 }, (TwPoint){ i, 10 });
  tw_ink_append_items (to, from, 1, 2);
  g_assert_cmpuint (tw_ink_count (to), ==, 2);
  g_assert_true (tw_ink_item_equal (tw_ink_get (to, 0), tw_ink_get (from, 1)));
  g_assert_true (tw_ink_item_equal (tw_ink_get (to, 1), tw_ink_get (from, 2)));
}

/* Two items that differ in one thing each. */
static void
test_item_equal (void)
{
  g_autoptr (TwInk) ink = tw_ink_new ();
  const TwInkPlace place = { .at = { 1, 2 }, .size = TW_INK_SIZE_NOTE };

  tw_ink_line (ink, &outline, (TwPoint){ 0, 0 }, (TwPoint){ 0, 10 });
  tw_ink_line (ink, &outline, (TwPoint){ 0, 0 }, (TwPoint){ 0, 11 });
  tw_ink_line (ink, &note, (TwPoint){ 0, 0 }, (TwPoint){ 0, 10 });
  tw_ink_text (ink, &note, &place, "31");
  tw_ink_text (ink, &note, &place, "32");
  for (guint i = 0; i < tw_ink_count (ink); i++)
    for (guint k = 0; k < tw_ink_count (ink); k++)
      g_assert_cmpint (tw_ink_item_equal (tw_ink_get (ink, i), tw_ink_get (ink, k)), ==, i == k);
}

static void
test_rings (void)
{
  g_autoptr (TwInk) ink = tw_ink_new ();
  TwInkCorner corners[8];
  const TwInkItem *item;

  tw_ink_box_corners (&(TwBox){ 0, 0, 10, 10 }, corners);
  tw_ink_box_corners (&(TwBox){ 3, 3, 7, 7 }, corners + 4);
  tw_ink_fill (ink, &outline, corners, 8);
  item = tw_ink_get (ink, 0);
  g_assert_cmpuint (tw_ink_ring_end (item, 0), ==, 4);
  g_assert_cmpuint (tw_ink_ring_end (item, 4), ==, 8);
  g_assert_true (item->closed);
}

/* WCAG 2 relative luminance, so that the contrasts of the design's table are met by the data. */
static double
luminance (guint32 colour)
{
  double sum = 0;
  const double weights[] = { 0.2126, 0.7152, 0.0722 };

  for (guint i = 0; i < 3; i++) {
    double c = (colour >> (16 - 8 * i) & 0xFF) / 255.0;

    sum += weights[i] * (c <= 0.04045 ? c / 12.92 : pow ((c + 0.055) / 1.055, 2.4));
  }
  return sum;
}

static double
contrast (guint32 a, guint32 b)
{
  double one = luminance (a), two = luminance (b);

  return (MAX (one, two) + 0.05) / (MIN (one, two) + 0.05);
}

static void
test_contrast (void)
{
  for (guint ground = TW_LOOK_LIGHT; ground <= TW_LOOK_PRINT; ground++) {
    TwLook look = tw_look_screen (ground, FALSE), strong = tw_look_screen (ground, TRUE);

    for (guint tint = 0; tint < TW_INK_TINT_PAPER; tint++) {
      double ratio = contrast (look.colours[tint], look.colours[TW_INK_TINT_PAPER]);

      /* 4.5 : 1 is WCAG 2's level AA for text; faint is never text */
      g_assert_cmpfloat (ratio, >=, tint == TW_INK_TINT_FAINT ? 1.7 : 4.5);
      g_assert_cmpfloat (contrast (strong.colours[tint], strong.colours[TW_INK_TINT_PAPER]), >=, 4.5);
    }
  }
}

/* ISO 128-24: two widths 2 : 1; ISO 3098: heights from 2.5 up that are nominal sizes. */
static void
test_paper_look (void)
{
  static const double nominal_mm[] = { 2.5, 3.5, 5, 7, 10 };
  TwLook small = tw_look_paper (FALSE), large = tw_look_paper (TRUE);

  g_assert_cmpfloat_with_epsilon (small.pens[TW_INK_PEN_OUTLINE].width, 0.5, 1e-12);
  g_assert_cmpfloat_with_epsilon (small.pens[TW_INK_PEN_DIMENSION].width, 0.25, 1e-12);
  g_assert_cmpfloat_with_epsilon (large.pens[TW_INK_PEN_OUTLINE].width, 0.7, 1e-12);
  g_assert_cmpfloat_with_epsilon (large.pens[TW_INK_PEN_DIMENSION].width, 0.35, 1e-12);
  g_assert_cmpfloat_with_epsilon (small.pens[TW_INK_PEN_BEHIND].dashes[0], 3, 1e-12);
  g_assert_cmpfloat_with_epsilon (small.pens[TW_INK_PEN_BEHIND].dashes[1], 0.75, 1e-12);
  for (guint size = 0; size < TW_INK_N_SIZES; size++) {
    gboolean found = FALSE;

    for (guint i = 0; i < G_N_ELEMENTS (nominal_mm); i++)
      found |= small.heights[size] == nominal_mm[i];
    g_assert_true (found);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/ink/empty", test_empty);
  g_test_add_func ("/draw/ink/order-and-layers", test_order_and_layers);
  g_test_add_func ("/draw/ink/bounds", test_bounds);
  g_test_add_func ("/draw/ink/append-scaled", test_append_scaled);
  g_test_add_func ("/draw/ink/append-items", test_append_items);
  g_test_add_func ("/draw/ink/item-equal", test_item_equal);
  g_test_add_func ("/draw/ink/rings", test_rings);
  g_test_add_func ("/draw/look/contrast", test_contrast);
  g_test_add_func ("/draw/look/paper", test_paper_look);
  return g_test_run ();
}
