/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the proof must find, planted one by one; and what it must leave alone.
 */
#include "draw/place.h"

#include <math.h>

static const TwInkStyle edge = { TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, "part", { "" } };
static const TwInkStyle thin = { TW_INK_PEN_THIN, TW_INK_TINT_INK, "part", { "" } };
static const TwInkStyle dimension = { TW_INK_PEN_DIMENSION, TW_INK_TINT_SOFT, "dimension", { "" } };
static const TwInkStyle extension = { TW_INK_PEN_EXTENSION, TW_INK_TINT_SOFT, "dimension", { "" } };
static const TwInkStyle leader = { TW_INK_PEN_LEADER, TW_INK_TINT_SOFT, "dimension", { "" } };
static const TwInkStyle ground = { TW_INK_PEN_LEADER, TW_INK_TINT_PAPER, "part", { "" } };
static const TwInkStyle cover = { TW_INK_PEN_OUTLINE, TW_INK_TINT_PAPER, "part", { "" } };
static const TwInkStyle block = { TW_INK_PEN_THIN, TW_INK_TINT_INK, "title", { "" } };
static const TwInkStyle frame = { TW_INK_PEN_FRAME, TW_INK_TINT_INK, TW_PLACE_FRAME_LAYER, { "" } };

static void
text (TwInk *ink, const TwInkStyle *style, double x_mm, double y_mm, const char *words)
{
  TwInkPlace place = { { x_mm, y_mm }, TW_INK_SIZE_NOTE, TW_INK_LEFT, TW_INK_BASELINE, FALSE };

  tw_ink_text (ink, style, &place, words);
}

static void
line (TwInk *ink, const TwInkStyle *style, double x0_mm, double y0_mm, double x1_mm, double y1_mm)
{
  tw_ink_line (ink, style, (TwPoint){ x0_mm, y0_mm }, (TwPoint){ x1_mm, y1_mm });
}

static void
rectangle (TwInk *ink, const TwInkStyle *style, const TwBox *box, gboolean hatched)
{
  TwInkCorner corners[4];

  tw_ink_box_corners (box, corners);
  if (hatched)
    tw_ink_hatch (ink, style, corners, 4, 1, 1);
  else
    tw_ink_fill (ink, style, corners, 4);
}

/* Letters of the fixed measure are 0.75 · 3.5 = 2.625 wide: "ABCD" on (100, 100) covers 100–110.5 ×
 * 100–103.5. */
static void
text_on_text (TwInk *ink)
{
  text (ink, &edge, 100, 100, "ABCD");
  text (ink, &edge, 110.8, 102, "EF");
}

static void
line_through_text (TwInk *ink)
{
  text (ink, &edge, 100, 100, "ABCD");
  line (ink, &leader, 90, 90, 104, 102);
}

static void
arc_through_text (TwInk *ink)
{
  text (ink, &edge, 100, 100, "ABCD");
  tw_ink_circle (ink, &thin, (TwPoint){ 105, 90 }, 12); /* its top passes at 102 */
}

static void
tail_too_near (TwInk *ink)
{
  text (ink, &edge, 100, 100, "gate"); /* reaches to 98.775 */
  line (ink, &thin, 90, 98.7, 120, 98.7);
}

static void
dimension_crossed (TwInk *ink)
{
  line (ink, &dimension, 50, 50, 150, 50);
  line (ink, &extension, 100, 40, 100, 60);
}

static void
dimension_on_dimension (TwInk *ink)
{
  line (ink, &dimension, 50, 50, 150, 50);
  line (ink, &dimension, 120, 50, 180, 50);
}

static void
dimension_through_outline (TwInk *ink)
{
  line (ink, &edge, 100, 40, 100, 60);
  line (ink, &dimension, 50, 50, 150, 50);
}

static void
text_outside (TwInk *ink)
{
  text (ink, &edge, 275, 100, "ABCD"); /* to 285.5; the frame ends at 280 */
}

static void
line_outside (TwInk *ink)
{
  line (ink, &edge, 100, 100, 100, 300);
}

static void
text_on_block (TwInk *ink)
{
  text (ink, &edge, 195, 20, "ABCD");
}

static void
line_on_block (TwInk *ink)
{
  line (ink, &edge, 190, 20, 250, 20);
}

static void
hatch_under_text (TwInk *ink)
{
  rectangle (ink, &thin, &(TwBox){ 80, 80, 140, 140 }, TRUE);
  text (ink, &edge, 100, 100, "ABCD");
}

static void
ground_hides_no_outline (TwInk *ink)
{
  line (ink, &edge, 104, 90, 104, 110);
  rectangle (ink, &ground, &(TwBox){ 99, 99, 112, 105 }, FALSE);
  text (ink, &edge, 100, 100, "ABCD");
}

static void
line_after_ground (TwInk *ink)
{
  rectangle (ink, &ground, &(TwBox){ 99, 99, 112, 105 }, FALSE);
  line (ink, &thin, 104, 90, 104, 110);
  text (ink, &edge, 100, 100, "ABCD");
}

static void
head_in_text (TwInk *ink)
{
  text (ink, &edge, 100, 100, "ABCD");
  tw_ink_arrow (ink, &dimension, (TwPoint){ 111.5, 102 }, 0); /* its shaft reaches back to 108.35 */
}

static void
ring_through_text (TwInk *ink)
{
  text (ink, &edge, 100, 100, "ABCD");
  tw_ink_ring (ink, &edge, (TwPoint){ 105.25, 101.75 }, 1.2); /* radius 4.2: cuts both ends */
}

static void
covered_in_part (TwInk *ink)
{
  line (ink, &edge, 60, 102, 120, 102);
  rectangle (ink, &cover, &(TwBox){ 70, 95, 108, 110 }, FALSE); /* what sticks out still runs into the text */
  text (ink, &edge, 100, 100, "ABCD");
}

/* --- what is well placed ----------------------------------------------------------------------------------
 */

static void
good_page (TwInk *ink)
{
  text (ink, &edge, 100, 100, "ABCD");
  text (ink, &edge, 112, 100, "EF"); /* 1.5 apart */
  line (ink, &leader, 80, 80, 98.9, 101.75);
  line (ink, &dimension, 50, 50, 150, 50);
  line (ink, &extension, 50, 40, 50, 52);
  line (ink, &extension, 150, 40, 150, 52);
  tw_ink_arrow (ink, &dimension, (TwPoint){ 50, 50 }, G_PI);
  text (ink, &dimension, 95, 51.05, "100");
  line (ink, &leader, 120, 50, 140, 70); /* a leader may end on a dimension line */
  tw_ink_ring (ink, &edge, (TwPoint){ 200, 150 }, 1.6);
  text (ink, &edge, 198.7, 148.25, "7");
  rectangle (ink, &thin, &(TwBox){ 80, 120, 140, 180 }, TRUE);
  line (ink, &thin, 104, 130, 104, 170);
  rectangle (ink, &ground, &(TwBox){ 99, 149, 112, 155 }, FALSE);
  text (ink, &edge, 100, 150, "ABCD");
  line (ink, &edge, 200, 60, 260, 90);
  line (ink, &dimension, 202, 55, 202, 95);
  tw_ink_circle (ink, &edge, (TwPoint){ 230, 75 }, 20);
  rectangle (ink, &cover, &(TwBox){ 195, 50, 265, 100 }, FALSE); /* a part over all that */
  text (ink, &edge, 225, 75, "ABCD");
  text (ink, &block, 195, 20, "title");
  line (ink, &block, 190, 26, 270, 26);
  line (ink, &frame, 0, 0, 297, 0);
}

/* --- cases ------------------------------------------------------------------------------------------------
 */

typedef struct {
  const char *name;
  void (*write) (TwInk *ink);
  TwPlaceFault fault;
} Planted;

static const Planted planted[] = {
  { "text-on-text", text_on_text, TW_PLACE_TEXT_ON_TEXT },
  { "line-through-text", line_through_text, TW_PLACE_LINE_THROUGH_TEXT },
  { "arc-through-text", arc_through_text, TW_PLACE_LINE_THROUGH_TEXT },
  { "tail-too-near", tail_too_near, TW_PLACE_LINE_THROUGH_TEXT },
  { "hatch-under-text", hatch_under_text, TW_PLACE_LINE_THROUGH_TEXT },
  { "ground-hides-no-outline", ground_hides_no_outline, TW_PLACE_LINE_THROUGH_TEXT },
  { "line-after-ground", line_after_ground, TW_PLACE_LINE_THROUGH_TEXT },
  { "covered-in-part", covered_in_part, TW_PLACE_LINE_THROUGH_TEXT },
  { "head-in-text", head_in_text, TW_PLACE_LINE_THROUGH_TEXT },
  { "ring-through-text", ring_through_text, TW_PLACE_LINE_THROUGH_TEXT },
  { "dimension-crossed", dimension_crossed, TW_PLACE_DIMENSION_CROSSED },
  { "dimension-on-dimension", dimension_on_dimension, TW_PLACE_DIMENSION_CROSSED },
  { "dimension-through-outline", dimension_through_outline, TW_PLACE_DIMENSION_CROSSED },
  { "text-outside", text_outside, TW_PLACE_OUTSIDE },
  { "line-outside", line_outside, TW_PLACE_OUTSIDE },
  { "text-on-block", text_on_block, TW_PLACE_ON_BLOCK },
  { "line-on-block", line_on_block, TW_PLACE_ON_BLOCK },
};

static TwPlace *
page_of (TwInk *ink)
{
  TwLook look = tw_look_paper (FALSE);
  TwMeasure measure = tw_measure_fixed ();
  TwPlace *place = tw_place_new (&(TwBox){ 10, 10, 280, 200 }, &look, &measure);

  tw_place_add_block (place, &(TwBox){ 190, 10, 280, 40 }, "title");
  tw_place_take (place, ink, 0);
  return place;
}

static void
test_planted (gconstpointer data)
{
  const Planted *c = data;
  g_autoptr (TwInk) ink = tw_ink_new ();
  g_autoptr (TwPlace) place = NULL;
  g_autoptr (GArray) found = NULL;
  g_autofree char *words = NULL;

  c->write (ink);
  place = page_of (ink);
  found = tw_place_check (place);
  g_assert_cmpuint (found->len, >=, 1);
  g_assert_cmpint (g_array_index (found, TwPlaceCollision, 0).fault, ==, c->fault);
  words = tw_place_collision_text (place, &g_array_index (found, TwPlaceCollision, 0));
  g_test_message ("%s", words);
}

static void
test_good (void)
{
  g_autoptr (TwInk) ink = tw_ink_new ();
  g_autoptr (TwPlace) place = NULL;
  g_autoptr (GArray) found = NULL;

  good_page (ink);
  place = page_of (ink);
  found = tw_place_check (place);
  for (guint i = 0; i < found->len; i++) {
    g_autofree char *words = tw_place_collision_text (place, &g_array_index (found, TwPlaceCollision, i));

    g_test_message ("%s", words);
  }
  g_assert_cmpuint (found->len, ==, 0);
}

static void
test_words (void)
{
  g_autoptr (TwInk) ink = tw_ink_new ();
  g_autoptr (TwPlace) place = NULL;
  g_autoptr (GArray) found = NULL;
  g_autofree char *words = NULL;

  line_through_text (ink);
  place = page_of (ink);
  found = tw_place_check (place);
  words = tw_place_collision_text (place, &g_array_index (found, TwPlaceCollision, 0));
  g_assert_cmpstr (words, ==, "\"ABCD\" is crossed by leader 1 of dimension at 100, 100");
}

/* Labels put one after the other among random lines: the proof finds nothing, and finds the one planted then.
 */
static void
test_random_labels (void)
{
  TwMeasure measure = tw_measure_fixed ();
  TwLook look = tw_look_paper (FALSE);

  for (guint round = 0; round < 60; round++) {
    g_autoptr (TwInk) ink = tw_ink_new ();
    g_autoptr (TwPlace) place = NULL;
    g_autoptr (GArray) found = NULL, planted_too = NULL;
    guint n_placed = 0, last = 0;

    for (guint i = 0; i < 20; i++)
      line (ink, &edge, g_test_rand_double_range (20, 270), g_test_rand_double_range (45, 190),
            g_test_rand_double_range (20, 270), g_test_rand_double_range (45, 190));
    place = page_of (ink);
    for (guint i = 0; i < 25; i++) {
      TwInkPlace where = { .size = TW_INK_SIZE_NOTE, .upright = i % 5 == 0 };
      TwPoint at = { g_test_rand_double_range (20, 270), g_test_rand_double_range (20, 190) };

      if (!tw_place_label (place, "port A", at, 40, FALSE, &where))
        continue;
      last = tw_ink_count (ink);
      tw_ink_text (ink, &edge, &where, "port A");
      tw_place_take (place, ink, last);
      n_placed++;
    }
    g_assert_cmpuint (n_placed, >, 10);
    found = tw_place_check (place);
    g_assert_cmpuint (found->len, ==, 0);

    {
      const TwInkPlace *victim = &tw_ink_get (ink, last)->place;
      TwBox box = tw_measure_box (&measure, &look, victim, "port A");

      last = tw_ink_count (ink);
      line (ink, &leader, box.x0_mm - 1, box.y0_mm - 1, box.x1_mm + 1, box.y1_mm + 1);
      tw_place_take (place, ink, last);
      planted_too = tw_place_check (place);
      g_assert_cmpuint (planted_too->len, >=, 1);
    }
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (planted); i++) {
    g_autofree char *path = g_strconcat ("/draw/place/planted/", planted[i].name, NULL);

    g_test_add_data_func (path, &planted[i], test_planted);
  }
  g_test_add_func ("/draw/place/good", test_good);
  g_test_add_func ("/draw/place/words", test_words);
  g_test_add_func ("/draw/place/random-labels", test_random_labels);
  return g_test_run ();
}
