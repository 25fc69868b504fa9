/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-grip.c - which figures each grip changes, and by how much; worked by hand on the stand of laid.h
 */
#include "stage/laid.h"

#include <math.h>

typedef struct {
  const char *name;
  const char *part;
  const char *element;
  TwGripKind kind;
  guint nth;
  int view;
  double drawn_mm[2];
  const char *fields[4];
  double values_mm[4];
} Case;

#define BODY "", TW_GRIP_BODY, 0

static const Case cases[] = {
  /* the other side stays: the middle goes half the way */
  { "shroud-right",
    "shroud-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_RIGHT,
    FACE,
    { 20, 7 },
    { "width_mm", "u_mm", "height_mm" },
    { 400, 10, 360 } },
  { "shroud-left",
    "shroud-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_LEFT,
    FACE,
    { -20, 0 },
    { "width_mm", "u_mm" },
    { 400, -10 } },
  { "shroud-corner",
    "shroud-1",
    "",
    TW_GRIP_CORNER,
    TW_GRIP_TOP_RIGHT,
    FACE,
    { 20, 10 },
    { "width_mm", "u_mm", "height_mm", "v_mm" },
    { 400, 10, 370, 5 } },
  { "shroud-lower-corner",
    "shroud-1",
    "",
    TW_GRIP_CORNER,
    TW_GRIP_BOTTOM_LEFT,
    FACE,
    { 20, 10 },
    { "width_mm", "u_mm", "height_mm", "v_mm" },
    { 360, 10, 350, 5 } },
  { "shroud-body", "shroud-1", BODY, FACE, { 3, 4 }, { "u_mm", "v_mm", "width_mm" }, { 3, 4, 380 } },
  { "shroud-plenum", "shroud-1", "", TW_GRIP_EDGE, TW_GRIP_OTHER, SIDE, { 10, 5 }, { "plenum_mm" }, { 50 } },
  { "flap",
    "shroud-1",
    "flap-1",
    TW_GRIP_ELEMENT,
    0,
    FACE,
    { -20, 5 },
    { "flap-1/u_mm", "flap-1/v_mm", "u_mm" },
    { 100, 105, 0 } },
  { "flap-top",
    "shroud-1",
    "flap-1",
    TW_GRIP_EDGE,
    TW_GRIP_TOP,
    FACE,
    { 0, 6 },
    { "flap-1/height_mm", "flap-1/v_mm" },
    { 36, 103 } },
  /* start and end together */
  { "tank-along", "tank-1", BODY, FACE, { 3, 15 }, { "start_mm", "end_mm", "depth_mm" }, { -190, 220, 50 } },
  { "tank-across", "tank-1", BODY, SIDE, { 6, -5 }, { "start_mm", "end_mm", "offset_mm" }, { -210, 200, 6 } },
  { "tank-end", "tank-1", "", TW_GRIP_END, 1, FACE, { 0, 7 }, { "start_mm", "end_mm" }, { -205, 212 } },
  { "tank-start", "tank-1", "", TW_GRIP_END, 0, FACE, { 0, 7 }, { "start_mm", "end_mm" }, { -198, 205 } },
  /* no shorter than 5: 205 − 5 */
  { "tank-start-too-far",
    "tank-1",
    "",
    TW_GRIP_END,
    0,
    FACE,
    { 0, 1000 },
    { "start_mm", "end_mm" },
    { 200, 205 } },
  { "tank-depth-left", "tank-1", "", TW_GRIP_EDGE, TW_GRIP_OTHER, FACE, { -10, 0 }, { "depth_mm" }, { 60 } },
  { "tank-depth-right", "tank-2", "", TW_GRIP_EDGE, TW_GRIP_OTHER, FACE, { -10, 0 }, { "depth_mm" }, { 40 } },
  { "tank-corner",
    "tank-1",
    "",
    TW_GRIP_CORNER,
    1,
    FACE,
    { -10, 5 },
    { "depth_mm", "end_mm", "start_mm" },
    { 60, 210, -205 } },
  { "tank-air-out",
    "tank-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_OTHER + 2,
    SIDE,
    { 8, 0 },
    { "width_mm", "offset_mm" },
    { 62, 4 } },
  { "tank-air-in",
    "tank-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_OTHER + 1,
    PLAN,
    { 0, -8 },
    { "width_mm", "offset_mm" },
    { 62, -4 } },
  { "baffle", "baffle-1", BODY, FACE, { 50, 13 }, { "place_mm" }, { 13 } },
  { "port-stand-out",
    "port-1",
    "",
    TW_GRIP_END,
    0,
    FRONT,
    { -15, 0 },
    { "stand_out_mm", "along_mm" },
    { 55, 100 } },
  { "fan-swept",
    "fan-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_RIGHT,
    FACE,
    { -10, 0 },
    { "swept_mm", "ring_mm", "u_mm" },
    { 140, 172, -90 } },
  { "fan-ring",
    "fan-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_LEFT,
    FACE,
    { -10, 0 },
    { "ring_mm", "swept_mm" },
    { 192, 160 } },
  /* not under its hub of 60 */
  { "fan-under-hub", "fan-1", "", TW_GRIP_EDGE, TW_GRIP_TOP, FACE, { 0, -70 }, { "swept_mm" }, { 60 } },
  { "fan-depth", "fan-1", "", TW_GRIP_EDGE, TW_GRIP_OTHER, PLAN, { 0, 5 }, { "depth_mm" }, { 65 } },
  { "core-right",
    "core-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_RIGHT,
    FRONT,
    { 20, 0 },
    { "face_width_mm", "x_mm", "y_mm" },
    { 420, 10, 0 } },
  { "core-top",
    "core-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_TOP,
    SIDE,
    { 9, 30 },
    { "face_height_mm", "y_mm", "z_mm" },
    { 430, 15, 0 } },
  { "core-corner",
    "core-1",
    "",
    TW_GRIP_CORNER,
    TW_GRIP_BOTTOM_RIGHT,
    FACE,
    { 10, -10 },
    { "face_width_mm", "face_height_mm", "x_mm", "y_mm" },
    { 410, 410, 5, -5 } },
  { "header-reach", "core-1", "", TW_GRIP_END, 1, FACE, { 0, 5 }, { "header_reach_mm" }, { 10 } },
  { "header-reach-lower", "core-1", "", TW_GRIP_END, 2, FACE, { 0, 3 }, { "header_reach_mm" }, { 2 } },
  { "volume-front",
    "volume-1",
    BODY,
    FRONT,
    { 10, -20 },
    { "corner-1/across_mm", "corner-3/up_mm", "from_mm", "to_mm" },
    { -390, 280, -100, 500 } },
  { "volume-side",
    "volume-1",
    BODY,
    SIDE,
    { 30, 5 },
    { "corner-1/across_mm", "corner-3/up_mm", "from_mm", "to_mm" },
    { -400, 305, -70, 530 } },
  { "volume-corner",
    "volume-1",
    "corner-1",
    TW_GRIP_ELEMENT,
    0,
    FRONT,
    { -10, -20 },
    { "corner-1/across_mm", "corner-1/up_mm", "corner-2/up_mm" },
    { -410, -320, -300 } },
  { "volume-edge",
    "volume-1",
    "corner-1",
    TW_GRIP_EDGE,
    0,
    FRONT,
    { 8, -25 },
    { "corner-1/across_mm", "corner-1/up_mm", "corner-2/up_mm", "corner-3/up_mm" },
    { -400, -325, -325, 300 } },
  { "volume-from",
    "volume-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_OTHER,
    SIDE,
    { -40, 0 },
    { "from_mm", "to_mm" },
    { -140, 500 } },
  /* no shorter than 1: 500 − 1 */
  { "volume-from-too-far",
    "volume-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_OTHER,
    SIDE,
    { 4000, 0 },
    { "from_mm", "to_mm" },
    { 499, 500 } },
  { "volume-plan-third",
    "volume-2",
    BODY,
    FRONT,
    { 5, 6 },
    { "corner-1/across_mm", "from_mm", "to_mm", "corner-1/up_mm" },
    { 305, -194, -94, 0 } },
  { "circle",
    "volume-3",
    "corner-1",
    TW_GRIP_EDGE,
    TW_GRIP_OTHER + 2,
    SIDE,
    { 0, -5 },
    { "corner-1/up_mm", "corner-2/up_mm", "corner-1/bow_mm", "corner-2/bow_mm" },
    { 175, 225, 25, 25 } },
  { "circle-sideways",
    "volume-3",
    "corner-1",
    TW_GRIP_EDGE,
    TW_GRIP_OTHER + 4,
    SIDE,
    { 5, 0 },
    { "corner-1/up_mm", "corner-2/up_mm", "corner-1/bow_mm", "corner-1/across_mm" },
    { 175, 225, 25, 300 } },
  { "via-front",
    "hose-1",
    "via-1",
    TW_GRIP_ELEMENT,
    0,
    FRONT,
    { 5, 6 },
    { "via-1/x_mm", "via-1/y_mm", "via-1/z_mm", "via-2/x_mm" },
    { 5, -194, 250, -300 } },
  { "via-plan",
    "hose-1",
    "via-1",
    TW_GRIP_ELEMENT,
    0,
    PLAN,
    { 5, 6 },
    { "via-1/x_mm", "via-1/y_mm", "via-1/z_mm" },
    { 5, -200, 256 } },
  { "hose",
    "hose-1",
    BODY,
    SIDE,
    { 7, 8 },
    { "via-1/z_mm", "via-1/y_mm", "via-2/z_mm", "via-2/x_mm" },
    { 257, -192, 107, -300 } },
  { "engine-port", "engine_port-1", BODY, PLAN, { 7, 8 }, { "x_mm", "y_mm", "z_mm" }, { 157, -250, 408 } },
  { "engine-tip",
    "engine_port-1",
    "",
    TW_GRIP_END,
    0,
    SIDE,
    { -10, 3 },
    { "stand_out_mm", "z_mm" },
    { 50, 400 } },
  { "vessel", "header_tank-1", BODY, FRONT, { 1, 2 }, { "x_mm", "y_mm", "z_mm" }, { 201, 262, 200 } },
  { "vessel-right",
    "header_tank-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_RIGHT,
    FRONT,
    { 10, 0 },
    { "width_mm", "x_mm" },
    { 110, 205 } },
  { "vessel-bottom",
    "header_tank-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_BOTTOM,
    SIDE,
    { 0, 10 },
    { "height_mm", "y_mm" },
    { 50, 265 } },
  { "opening", "opening-1", BODY, SIDE, { 5, 6 }, { "at_mm", "up_mm", "across_mm" }, { -85, 6, 0 } },
  { "opening-right",
    "opening-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_RIGHT,
    FRONT,
    { 10, 0 },
    { "width_mm", "across_mm" },
    { 310, 5 } },
};

static TwGrip
grip_of (const Case *c)
{
  return (
      TwGrip){ .kind = c->kind, .part = laid_id (c->part), .element = laid_id (c->element), .nth = c->nth };
}

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  const TwHandManner manner = { .no_snaps = TRUE };
  g_autoptr (TwHand) hand = tw_hand_new ();
  g_autofree char *before = NULL, *after = NULL;
  TwGrip grip = grip_of (c);
  TwStageView view;
  TwHandGrasp grasp;
  Laid laid;

  laid_out (&laid, laid_stand ());
  view = laid_view (&laid, c->view);
  before = tw_job_write_text (laid.job);
  grasp = (TwHandGrasp){ &view, &grip, 1, { 11, 12 }, "Drag" };
  g_assert_true (tw_hand_take (hand, &laid.bench, &grasp));
  g_assert_true (tw_hand_move (hand, (TwPoint){ 11 + c->drawn_mm[0], 12 + c->drawn_mm[1] }, &manner));
  for (guint i = 0; i < 4 && c->fields[i] != NULL; i++)
    g_assert_cmpfloat_with_epsilon (laid_figure (&laid, c->part, c->fields[i]), c->values_mm[i], 1e-9);
  tw_hand_release (hand);
  tw_history_undo (laid.history);
  after = tw_job_write_text (laid.job);
  g_assert_cmpstr (after, ==, before);
  laid_away (&laid);
}

/* Handles stand where the thing is: worked from the figures of the stand. */
typedef struct {
  const char *part;
  const char *element;
  TwGripKind kind;
  guint nth;
  int view;
  double at_mm[2];
} Place;

static const Place places[] = {
  { "shroud-1", "", TW_GRIP_EDGE, TW_GRIP_RIGHT, FACE, { 190, 0 } },
  { "shroud-1", "flap-1", TW_GRIP_ELEMENT, 0, FACE, { 120, 100 } },
  { "tank-1", "", TW_GRIP_END, 1, FACE, { -227, 205 } },              /* 202 + half of 50 */
  { "tank-1", "", TW_GRIP_EDGE, TW_GRIP_OTHER, FACE, { -252, 0 } },   /* */
  { "core-1", "", TW_GRIP_END, 1, FACE, { -201, 205 } },              /* in the middle of the plate of 2 */
  { "fan-1", "", TW_GRIP_EDGE, TW_GRIP_RIGHT, FACE, { -10, 0 } },     /* −90 + 80 */
  { "port-1", "", TW_GRIP_END, 0, FRONT, { -292, 100 } },             /* 252 + 40 */
  { "volume-1", "", TW_GRIP_EDGE, TW_GRIP_OTHER, SIDE, { -100, 0 } }, /* */
  { "volume-2", "corner-1", TW_GRIP_ELEMENT, 0, PLAN, { 300, 0 } },   /* */
  { "hose-1", "via-2", TW_GRIP_ELEMENT, 0, SIDE, { 100, 50 } },       /* */
  { "engine_port-1", "", TW_GRIP_END, 0, SIDE, { 360, -250 } },       /* 400 − 40 */
};

static void
test_places (void)
{
  Laid laid;

  laid_out (&laid, laid_stand ());
  for (guint i = 0; i < G_N_ELEMENTS (places); i++) {
    const Place *p = &places[i];
    TwStageView view = laid_view (&laid, p->view);
    TwGrip named
        = { .kind = p->kind, .part = laid_id (p->part), .element = laid_id (p->element), .nth = p->nth };
    g_autoptr (TwGrips) grips = tw_grips_new (laid.placement, &view, named.part);
    int nth = tw_grips_find (grips, &named);

    g_assert_cmpint (nth, >=, 0);
    g_assert_cmpfloat_with_epsilon (tw_grips_get (grips, (guint)nth)->at.x_mm, p->at_mm[0], 1e-9);
    g_assert_cmpfloat_with_epsilon (tw_grips_get (grips, (guint)nth)->at.y_mm, p->at_mm[1], 1e-9);
    /* its own place picks it, or another that stands there too */
    g_assert_cmpfloat_with_epsilon (
        tw_point_distance_mm (tw_grips_at (grips, tw_grips_get (grips, (guint)nth)->at, 3)->at,
                              tw_grips_get (grips, (guint)nth)->at),
        0, 1e-6);
  }
  laid_away (&laid);
}

/* Corners only where both ways are seen; a baffle not in Plan; a hose without via-points nowhere. */
static void
test_not_seen (void)
{
  TwStageView face, side, plan;
  TwGrip corner = {
    .kind = TW_GRIP_CORNER, .part = laid_id ("shroud-1"), .element = TW_ID_NONE, .nth = TW_GRIP_TOP_RIGHT
  };
  g_autoptr (TwGrips) seen = NULL, unseen = NULL, baffle = NULL;
  Laid laid;

  laid_out (&laid, laid_stand ());
  face = laid_view (&laid, FACE);
  side = laid_view (&laid, SIDE);
  plan = laid_view (&laid, PLAN);
  seen = tw_grips_new (laid.placement, &face, corner.part);
  unseen = tw_grips_new (laid.placement, &side, corner.part);
  g_assert_cmpint (tw_grips_find (seen, &corner), >=, 0);
  g_assert_cmpint (tw_grips_find (unseen, &corner), ==, -1);
  baffle = tw_grips_new (laid.placement, &plan, laid_id ("baffle-1"));
  g_assert_null (tw_grips_body (baffle));
  g_assert_cmpstr (tw_grips_why_none (laid.placement, &plan, laid_id ("baffle-1")), ==,
                   "this view does not show the way in which it can go");
  g_assert_null (tw_grips_why_none (laid.placement, &face, laid_id ("baffle-1")));
  tw_make_hose (laid.job, laid_id ("engine_port-2"), laid_id ("port-2"), 0, NULL, 60);
  laid_again (&laid);
  g_assert_cmpstr (tw_grips_why_none (laid.placement, &side, laid_id ("hose-2")), ==,
                   "a hose without via-points goes where its ends go");
  laid_away (&laid);
}

/* A rectangle's bottom edge with a rise of 30 downwards: the middle of the arc lies 330 down. */
static void
test_arc (void)
{
  const TwHandManner manner = { .no_snaps = TRUE };
  g_autoptr (TwHand) hand = tw_hand_new ();
  g_autoptr (TwChange) change = NULL, inverse = NULL;
  TwValue bow = tw_value_number (30);
  TwGrip grip = { .kind = TW_GRIP_BULGE, .part = laid_id ("volume-1"), .element = laid_id ("corner-1") };
  TwStageView view;
  TwHandGrasp grasp;
  Laid laid;

  laid_out (&laid, laid_stand ());
  change = tw_change_set (grip.part, grip.element, TW_CORNER_bow_mm, &bow);
  g_assert_true (tw_change_apply (change, laid.job, &inverse, NULL));
  laid_again (&laid);
  view = laid_view (&laid, FRONT);
  grasp = (TwHandGrasp){ &view, &grip, 1, { 0, -330 }, NULL };
  g_assert_true (tw_hand_take (hand, &laid.bench, &grasp));
  g_assert_cmpfloat_with_epsilon (tw_hand_grip (hand, 0)->at.y_mm, -330, 1e-9);
  tw_hand_move (hand, (TwPoint){ 5, -345 }, &manner);
  tw_hand_release (hand);
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "volume-1", "corner-1/bow_mm"), 45, 1e-9);
  laid_away (&laid);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strconcat ("/stage/grip/", cases[i].name, NULL);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  g_test_add_func ("/stage/grip/places", test_places);
  g_test_add_func ("/stage/grip/not-seen", test_not_seen);
  g_test_add_func ("/stage/grip/arc", test_arc);
  return g_test_run ();
}
