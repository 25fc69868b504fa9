/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/paper.h"

#include <math.h>

#include "draw/place.h"

/* ISO 5457: trimmed sizes and number of fields, ASME Y14.1: inch sizes. The drawing spaces of A4 to A2 are
 * the trimmed size less 30 and 20; ours are 20 all round on A1 and A0. */
typedef struct {
  const char *name;
  double width_mm, height_mm;
  double space_width_mm, space_height_mm;
  guint zones_across, zones_up;
} Size;

static const Size sizes[] = {
  { "A4", 210, 297, 180, 277, 0, 0 },
  { "A3", 420, 297, 390, 277, 8, 6 },
  { "A2", 594, 420, 564, 400, 12, 8 },
  { "A1", 841, 594, 801, 554, 16, 12 },
  { "A0", 1189, 841, 1149, 801, 24, 16 },
  { "Letter", 215.9, 279.4, 185.9, 259.4, 0, 0 },
  { "Tabloid", 431.8, 279.4, 400.304, 259.4, 0, 0 },
  { "C", 558.8, 431.8, 520.7, 406.4, 4, 4 },
  { "D", 863.6, 558.8, 838.2, 508, 8, 4 },
  { "E", 1117.6, 863.6, 1066.8, 838.2, 8, 8 },
};

static void
test_sizes (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++) {
    TwPaperSize size = 0;
    const TwPaper *paper;

    g_assert_true (tw_paper_find (sizes[i].name, &size));
    g_assert_cmpuint (size, ==, i);
    paper = tw_paper (size);
    g_assert_cmpfloat_with_epsilon (paper->width_mm, sizes[i].width_mm, 1e-9);
    g_assert_cmpfloat_with_epsilon (paper->height_mm, sizes[i].height_mm, 1e-9);
    g_assert_cmpfloat_with_epsilon (paper->frame.x1_mm - paper->frame.x0_mm, sizes[i].space_width_mm, 1e-9);
    g_assert_cmpfloat_with_epsilon (paper->frame.y1_mm - paper->frame.y0_mm, sizes[i].space_height_mm, 1e-9);
    g_assert_cmpuint (paper->zones_across, ==, sizes[i].zones_across);
    g_assert_cmpuint (paper->zones_up, ==, sizes[i].zones_up);
  }
  g_assert_false (tw_paper_find ("A7", &(TwPaperSize){ 0 }));
}

/* ISO 5457: the number of fields is the even number nearest to side / 50. */
static void
test_zone_counts (void)
{
  for (guint i = TW_PAPER_A3; i <= TW_PAPER_A0; i++) {
    g_assert_cmpfloat (fabs (sizes[i].width_mm / 50 - sizes[i].zones_across), <=, 1);
    g_assert_cmpfloat (fabs (sizes[i].height_mm / 50 - sizes[i].zones_up), <=, 1);
    g_assert_cmpuint (sizes[i].zones_across % 2 + sizes[i].zones_up % 2, ==, 0);
  }
}

static const TwInkItem *
find_text (const TwInk *ink, const char *text, guint nth)
{
  for (guint i = 0; i < tw_ink_count (ink); i++)
    if (tw_ink_get (ink, i)->kind == TW_INK_TEXT && g_str_equal (tw_ink_get (ink, i)->text, text)
        && nth-- == 0)
      return tw_ink_get (ink, i);
  return NULL;
}

/* A3: the frame runs from 20 to 410; fields end at 60, 110, 160, 210 …; so 1 is 40 wide and 8 is 50 wide.
 * Letters go down from A, without I and O. */
static void
test_zone_places (void)
{
  g_autoptr (TwInk) ink = tw_ink_new ();
  g_autoptr (TwInk) large = tw_ink_new ();

  tw_paper_draw_frame (ink, TW_PAPER_A3);
  g_assert_cmpfloat (find_text (ink, "1", 0)->place.at.x_mm, ==, 40);
  g_assert_cmpfloat (find_text (ink, "2", 0)->place.at.x_mm, ==, 85);
  g_assert_cmpfloat (find_text (ink, "8", 0)->place.at.x_mm, ==, 385);
  g_assert_null (find_text (ink, "9", 0));
  g_assert_cmpfloat (find_text (ink, "A", 0)->place.at.y_mm, ==, (287 + 248.5) / 2);
  g_assert_cmpfloat (find_text (ink, "F", 0)->place.at.y_mm, ==, (10 + 48.5) / 2);
  g_assert_nonnull (find_text (ink, "A", 1)); /* on both sides */

  tw_paper_draw_frame (large, TW_PAPER_A0);
  g_assert_nonnull (find_text (large, "H", 0));
  g_assert_null (find_text (large, "I", 0));
  g_assert_null (find_text (large, "O", 0));
  g_assert_nonnull (find_text (large, "R", 0)); /* the sixteenth without I and O */
  g_assert_null (find_text (large, "S", 0));
}

/* Follows from the definition: the circles show what is seen from the small end, so in third angle they stand
 * beside it, in first angle beside the large end. */
static void
test_projection (gconstpointer data)
{
  TwPaperProjection projection = GPOINTER_TO_INT (data);
  g_autoptr (TwInk) ink = tw_ink_new ();
  const TwInkCorner *frustum = NULL;
  double circle_x_mm = NAN, small_x_mm, large_x_mm, radii_mm[2];
  guint n_circles = 0;

  tw_paper_projection_symbol (ink, projection, (TwPoint){ 100, 50 }, 3.5);
  for (guint i = 0; i < tw_ink_count (ink); i++) {
    const TwInkItem *item = tw_ink_get (ink, i);
    TwBox box;

    if (item->n_corners == 4)
      frustum = item->corners;
    if (item->corners[0].bow_mm == 0)
      continue;
    tw_ink_item_bounds (item, &box);
    circle_x_mm = (box.x0_mm + box.x1_mm) / 2;
    radii_mm[n_circles++] = (box.x1_mm - box.x0_mm) / 2;
  }
  g_assert_cmpuint (n_circles, ==, 2);
  g_assert_cmpfloat_with_epsilon (MAX (radii_mm[0], radii_mm[1]), 3.5, 1e-9); /* Ø 2 h and Ø h */
  g_assert_cmpfloat_with_epsilon (MIN (radii_mm[0], radii_mm[1]), 1.75, 1e-9);
  small_x_mm = fabs (frustum[0].at.y_mm - 50) < fabs (frustum[1].at.y_mm - 50) ? frustum[0].at.x_mm
                                                                               : frustum[1].at.x_mm;
  large_x_mm = frustum[0].at.x_mm + frustum[1].at.x_mm - small_x_mm;
  g_assert_cmpfloat_with_epsilon (fabs (small_x_mm - large_x_mm), 7, 1e-9);
  if (projection == TW_PAPER_THIRD_ANGLE)
    g_assert_cmpfloat (fabs (circle_x_mm - small_x_mm), <, fabs (circle_x_mm - large_x_mm));
  else
    g_assert_cmpfloat (fabs (circle_x_mm - large_x_mm), <, fabs (circle_x_mm - small_x_mm));
}

/* Frame, zones and block of every size: nothing meets, also with texts that are far too long. */
static void
test_block (gconstpointer data)
{
  TwPaperSize size = GPOINTER_TO_UINT (data);
  static const char *const owners[]
      = { "Å. Ngô, Ólafsvík", "A workshop with a name that goes on and on and on and on" };
  TwMeasure measure = tw_measure_fixed ();
  TwLook look = tw_look_paper (tw_paper (size)->large);

  for (guint i = 0; i < G_N_ELEMENTS (owners); i++) {
    g_autoptr (TwInk) ink = tw_ink_new ();
    g_autoptr (TwPlace) place = tw_place_new (&tw_paper (size)->frame, &look, &measure);
    g_autoptr (GArray) found = NULL;
    const TwPaperTitle title = { .owner = owners[i],
                                 .title = owners[i],
                                 .subtitle = owners[i],
                                 .number = owners[i],
                                 .kind = owners[i],
                                 .creator = owners[i],
                                 .approver = owners[i],
                                 .date = owners[i],
                                 .revision = owners[i],
                                 .scale = owners[i],
                                 .units = owners[i],
                                 .tolerance = owners[i],
                                 .manner = owners[i],
                                 .caution = owners[i],
                                 .projection = i,
                                 .sheet = 12,
                                 .n_sheets = 14 };
    TwBox block = tw_paper_title_box (size, TRUE);

    tw_paper_draw (ink, size, &title, &measure);
    g_assert_nonnull (find_text (ink, "12 / 14", 0));
    tw_place_add_block (place, &block, TW_PAPER_TITLE_LAYER);
    tw_place_take (place, ink, 0);
    found = tw_place_check (place);
    for (guint k = 0; k < found->len; k++) {
      g_autofree char *words = tw_place_collision_text (place, &g_array_index (found, TwPlaceCollision, k));

      g_test_message ("%s", words);
    }
    g_assert_cmpuint (found->len, ==, 0);
  }
}

static const char *
shouting (const char *words)
{
  return g_str_equal (words, "Owner") ? "OWNER" : words;
}

static void
test_translated (void)
{
  g_autoptr (TwInk) ink = tw_ink_new ();
  TwMeasure measure = tw_measure_fixed ();
  const TwPaperTitle title = { .sheet = 1, .n_sheets = 1, .translate = shouting };

  tw_paper_draw (ink, TW_PAPER_A3, &title, &measure);
  g_assert_nonnull (find_text (ink, "OWNER", 0));
  g_assert_null (find_text (ink, "Owner", 0));
}

/* Worked by hand. A3 has 390 × 277, the block (with its caution) is 64.5 high, so 212.5 above it. */
typedef struct {
  TwPaperNeed need;
  TwPaperSize from, largest;
  TwPaperScale finest;
  const char *scale; /* NULL: refused */
  TwPaperSize size;
} Choice;

static const Choice choices[] = {
  /* 900 · 0.2 = 180, 700 · 0.2 = 140: 1:5 fits above the block, 1:2 (450 wide) does not */
  { { 900, 700, 100, 60, 0 }, TW_PAPER_A3, TW_PAPER_A0, { 1, 10 }, "1:5", TW_PAPER_A3 },
  /* 100 more at the side: 380 of 390 */
  { { 900, 700, 100, 60, 100 }, TW_PAPER_A3, TW_PAPER_A0, { 1, 10 }, "1:5", TW_PAPER_A3 },
  { { 900, 700, 100, 60, 111 }, TW_PAPER_A3, TW_PAPER_A0, { 1, 10 }, "1:10", TW_PAPER_A3 },
  /* 1:10 is coarser than wanted: A2 (564 × 400, 335.5 above the block) takes 1:5 */
  { { 900, 700, 100, 60, 111 }, TW_PAPER_A3, TW_PAPER_A0, { 1, 5 }, "1:5", TW_PAPER_A2 },
  /* the largest allowed takes what it can */
  { { 900, 700, 100, 60, 111 }, TW_PAPER_A3, TW_PAPER_A3, { 1, 5 }, "1:10", TW_PAPER_A3 },
  /* beside the block: 100 · 2 + 5 = 205 of 210 wide, 130 · 2 + 10 = 270 of 277 high */
  { { 100, 130, 5, 10, 0 }, TW_PAPER_A3, TW_PAPER_A3, { 1, 1 }, "2:1", TW_PAPER_A3 },
  { { 9, 9, 0, 0, 0 }, TW_PAPER_A4, TW_PAPER_A4, { 1, 1 }, "20:1", TW_PAPER_A4 },
  { { 200000, 1000, 0, 0, 0 }, TW_PAPER_A3, TW_PAPER_A0, { 1, 10 }, NULL, TW_PAPER_A3 },
};

static void
test_choose (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (choices); i++) {
    const Choice *c = &choices[i];
    TwPaperSize size = c->from;
    TwPaperScale scale = { 0, 0 };
    gboolean found = tw_paper_choose (&c->need, &size, c->largest, c->finest, &scale);
    g_autofree char *text = tw_paper_scale_text (scale);

    g_test_message ("choice %u: %s on %s", i, text, tw_paper (size)->name);
    g_assert_cmpint (found, ==, c->scale != NULL);
    g_assert_cmpint (size, ==, c->size);
    if (found)
      g_assert_cmpstr (text, ==, c->scale);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheets/paper/sizes", test_sizes);
  g_test_add_func ("/sheets/paper/zone-counts", test_zone_counts);
  g_test_add_func ("/sheets/paper/zone-places", test_zone_places);
  g_test_add_data_func ("/sheets/paper/projection/first", GINT_TO_POINTER (TW_PAPER_FIRST_ANGLE),
                        test_projection);
  g_test_add_data_func ("/sheets/paper/projection/third", GINT_TO_POINTER (TW_PAPER_THIRD_ANGLE),
                        test_projection);
  for (guint i = 0; i < TW_N_PAPERS; i++) {
    g_autofree char *path = g_strconcat ("/sheets/paper/block/", tw_paper (i)->name, NULL);

    g_test_add_data_func (path, GUINT_TO_POINTER (i), test_block);
  }
  g_test_add_func ("/sheets/paper/translated", test_translated);
  g_test_add_func ("/sheets/paper/choose", test_choose);
  return g_test_run ();
}
