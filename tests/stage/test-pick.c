/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-pick.c - what lies under a point. The drawing: a bay 600 × 400, a core 400 × 300 in it, a tank 50 wide
 * left of the core, a baffle 3 high across the tank, a fan of radius 100 on the core, a hose as a line; the
 * reach is 6 mm, so that a shape under 24 mm is thin.
 */
#include "stage/pick.h"

static TwInkStyle
style (TwInkPen pen, const char *part)
{
  TwInkStyle made = { .pen = pen, .tint = TW_INK_TINT_INK, .layer = "test" };

  g_assert_true (tw_id_from_text (part, &made.part));
  return made;
}

static TwInk *
drawing (void)
{
  TwInk *ink = tw_ink_new ();
  TwInkStyle bay = style (TW_INK_PEN_BAY, "bay"), core = style (TW_INK_PEN_OUTLINE, "core");
  TwInkStyle tank = style (TW_INK_PEN_OUTLINE, "tank"), baffle = style (TW_INK_PEN_BEHIND, "baffle");
  TwInkStyle fan = style (TW_INK_PEN_OUTLINE, "fan"), hose = style (TW_INK_PEN_OUTLINE, "hose");
  TwInkStyle size = style (TW_INK_PEN_DIMENSION, "core");

  tw_ink_box (ink, &bay, &(TwBox){ -300, -200, 300, 200 });
  tw_ink_box (ink, &core, &(TwBox){ -200, -150, 200, 150 });
  tw_ink_box (ink, &tank, &(TwBox){ -250, -150, -200, 150 });
  tw_ink_box (ink, &baffle, &(TwBox){ -250, -1.5, -200, 1.5 });
  tw_ink_circle (ink, &fan, (TwPoint){ 50, 0 }, 100);
  tw_ink_line (ink, &hose, (TwPoint){ 220, -100 }, (TwPoint){ 220, 180 });
  tw_ink_line (ink, &size, (TwPoint){ -200, -180 }, (TwPoint){ 200, -180 });
  return tw_ink_finish (ink);
}

typedef struct {
  const char *name;
  double x_mm;
  double y_mm;
  const char *part;
} Case;

static const Case cases[] = {
  { "core", -100, 100, "core" },          /* */
  { "fan-inside-core", 60, 20, "fan" },   /* the smaller of the two */
  { "fan-rim", 50, 99, "fan" },           /* */
  { "beside-fan", 50, 108, "core" },      /* 8 off a wide shape: not within its reach of 1.5 */
  { "tank", -225, 80, "tank" },           /* */
  { "baffle", -225, 1, "baffle" },        /* */
  { "near-baffle", -225, 6, "baffle" },   /* 4.5 off a thin one */
  { "beyond-baffle", -225, 12, "tank" },  /* 10.5 off */
  { "hose-line", 223, 50, "hose" },       /* 3 off a line */
  { "bay-outline", 300, -190, "bay" },    /* on it */
  { "inside-bay-only", 260, -190, NULL }, /* rooms are met on their outline */
  { "dimension", 0, -180, NULL },         /* a dimension is no part */
  { "outside", 500, 500, NULL },          /* */
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TwInk) ink = drawing ();
  g_autoptr (TwPick) pick = tw_pick_new (ink);
  TwId part = tw_pick_at (pick, (TwPoint){ c->x_mm, c->y_mm }, 6);

  g_assert_cmpstr (part.text, ==, c->part ? c->part : "");
}

/* Of two alike the one on top. */
static void
test_topmost (void)
{
  g_autoptr (TwInk) ink = tw_ink_new ();
  g_autoptr (TwPick) pick = NULL;
  TwInkStyle below = style (TW_INK_PEN_OUTLINE, "below"), above = style (TW_INK_PEN_OUTLINE, "above");
  const TwBox box = { 0, 0, 100, 100 };

  tw_ink_box (ink, &below, &box);
  tw_ink_box (ink, &above, &box);
  pick = tw_pick_new (tw_ink_finish (ink));
  g_assert_cmpstr (tw_pick_at (pick, (TwPoint){ 50, 50 }, 2).text, ==, "above");
}

/* Under a point of fan, core and bay's inside: the smaller one first, then round and round. */
static void
test_several (void)
{
  g_autoptr (TwInk) ink = drawing ();
  g_autoptr (TwPick) pick = tw_pick_new (ink);
  const TwPoint at = { 60, 20 }, nothing = { 500, 500 };
  g_autoptr (GArray) all = tw_pick_all (pick, at, 6), none = tw_pick_all (pick, nothing, 6);
  TwId id = TW_ID_NONE;

  g_assert_cmpuint (all->len, ==, 2);
  g_assert_cmpuint (none->len, ==, 0);
  for (guint i = 0; i < 4; i++) {
    id = tw_pick_next (pick, at, 6, id);
    g_assert_cmpstr (id.text, ==, i % 2 ? "core" : "fan");
  }
  g_assert_cmpstr (tw_pick_next (pick, nothing, 6, id).text, ==, "");
}

typedef struct {
  TwBox box;
  gboolean touched;
  const char *parts; /* in the order in which they are drawn */
} Band;

static const Band bands[] = {
  { { -260, -160, -190, 160 }, FALSE, "tank baffle " },     /* */
  { { -260, -160, -190, 160 }, TRUE, "core tank baffle " }, /* it cuts into the core */
  { { -60, -110, 160, 110 }, FALSE, "fan " },               /* */
  { { 40, -10, 60, 10 }, FALSE, "" },                       /* within the fan */
  { { 40, -10, 60, 10 }, TRUE, "core fan " },               /* what lies round it is touched */
  { { 210, 0, 230, 20 }, TRUE, "hose " },                   /* across a line */
  { { 310, -300, 400, 300 }, TRUE, "" },                    /* beside all */
  { { 290, -300, 400, 300 }, TRUE, "" },                    /* a room's edge is not enough */
  { { -400, -300, 400, 300 }, FALSE, "bay core tank baffle fan hose " },
};

static void
test_bands (void)
{
  g_autoptr (TwInk) ink = drawing ();
  g_autoptr (TwPick) pick = tw_pick_new (ink);

  for (guint i = 0; i < G_N_ELEMENTS (bands); i++) {
    g_autoptr (GArray) parts = tw_pick_in (pick, bands[i].box, bands[i].touched);
    g_autoptr (GString) text = g_string_new (NULL);

    for (guint k = 0; k < parts->len; k++)
      g_string_append_printf (text, "%s ", g_array_index (parts, TwId, k).text);
    g_assert_cmpstr (text->str, ==, bands[i].parts);
  }
}

static void
test_boxes (void)
{
  g_autoptr (TwInk) ink = drawing ();
  g_autoptr (TwPick) pick = tw_pick_new (ink);
  const TwPickShape *fan = tw_pick_find (pick, style (TW_INK_PEN_OUTLINE, "fan").part);

  g_assert_cmpuint (tw_pick_count (pick), ==, 6);
  g_assert_cmpstr (tw_pick_get (pick, 0)->part.text, ==, "bay");
  g_assert_null (tw_pick_get (pick, 6));
  g_assert_cmpfloat_with_epsilon (fan->box.x0_mm, -50, 1e-3);
  g_assert_cmpfloat_with_epsilon (fan->box.y1_mm, 100, 1e-3);
}

/* A core with two tubes in it and a header plate beside it: the halo follows core and plate. */
static void
test_outline (void)
{
  g_autoptr (TwInk) ink = tw_ink_new ();
  g_autoptr (TwPick) pick = NULL;
  TwInkStyle core = style (TW_INK_PEN_OUTLINE, "core");
  gboolean closed;
  GArray *points;

  tw_ink_line (ink, &core, (TwPoint){ 0, 20 }, (TwPoint){ 100, 20 });
  tw_ink_box (ink, &core, &(TwBox){ 0, 0, 100, 50 });
  tw_ink_line (ink, &core, (TwPoint){ 0, 40 }, (TwPoint){ 100, 40 });
  tw_ink_box (ink, &core, &(TwBox){ -10, -5, 0, 55 });
  pick = tw_pick_new (tw_ink_finish (ink));
  points = tw_pick_outline (pick, core.part, 0, &closed);
  g_assert_cmpuint (points->len, ==, 4);
  g_assert_cmpfloat (g_array_index (points, TwPoint, 0).x_mm, ==, 0);
  g_array_unref (points);
  points = tw_pick_outline (pick, core.part, 1, &closed);
  g_assert_true (closed);
  g_assert_cmpfloat (g_array_index (points, TwPoint, 0).x_mm, ==, -10);
  g_array_unref (points);
  g_assert_null (tw_pick_outline (pick, core.part, 2, &closed));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strconcat ("/stage/pick/", cases[i].name, NULL);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  g_test_add_func ("/stage/pick/topmost", test_topmost);
  g_test_add_func ("/stage/pick/several", test_several);
  g_test_add_func ("/stage/pick/bands", test_bands);
  g_test_add_func ("/stage/pick/boxes", test_boxes);
  g_test_add_func ("/stage/pick/outline", test_outline);
  return g_test_run ();
}
