/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-snap.c - where things come to rest, and what it is said to be; worked by hand on the stand of laid.h,
 * reach 6 mm, free figures rounded to 1 mm
 */
#include "stage/laid.h"

typedef struct {
  const char *name;
  const char *part;
  const char *element;
  TwGripKind kind;
  guint nth;
  int view;
  double drawn_mm[2];
  const char *fields[3];
  double values_mm[3];
  TwSnapKind snap;
  const char *other;
} Case;

static const Case cases[] = {
  /* right edge of the mouth at 190; face to 200, tank 2 from 202 */
  { "shroud-edge-to-face",
    "shroud-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_RIGHT,
    FACE,
    { 8, 0 },
    { "width_mm", "u_mm" },
    { 390, 5 },
    TW_SNAP_TOUCHES,
    "core-1" },
  { "shroud-edge-to-tank",
    "shroud-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_RIGHT,
    FACE,
    { 13, 0 },
    { "width_mm", "u_mm" },
    { 392, 6 },
    TW_SNAP_TOUCHES,
    "tank-2" },
  /* the whole shroud: its left edge at −190 comes to −200 */
  { "shroud-body",
    "shroud-1",
    "",
    TW_GRIP_BODY,
    0,
    FACE,
    { -9, 0 },
    { "u_mm", "v_mm" },
    { -10, 0 },
    TW_SNAP_TOUCHES,
    "core-1" },
  { "shroud-middle",
    "shroud-1",
    "",
    TW_GRIP_BODY,
    0,
    FACE,
    { 4, 0 },
    { "u_mm" },
    { 0 },
    TW_SNAP_FACE_MIDDLE,
    "core-1" },
  /* 120 + 20 + 47 is 187: the mouth ends at 190 */
  { "flap-to-mouth",
    "shroud-1",
    "flap-1",
    TW_GRIP_ELEMENT,
    0,
    FACE,
    { 47, 0 },
    { "flap-1/u_mm" },
    { 170 },
    TW_SNAP_TOUCHES,
    "shroud-1" },
  /* ring of 172 at −90: the mouth's edge is 100 away, so a ring of 200 touches; 172 + 2 · 12 is 196 */
  { "ring-to-mouth",
    "fan-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_LEFT,
    FACE,
    { -12, 0 },
    { "ring_mm" },
    { 200 },
    TW_SNAP_TOUCHES,
    "shroud-1" },
  /* the middle of the mouth is that of the face, which is said */
  { "fan-middle",
    "fan-1",
    "",
    TW_GRIP_BODY,
    0,
    FACE,
    { 87, 0 },
    { "u_mm", "v_mm" },
    { 0, 0 },
    TW_SNAP_FACE_MIDDLE,
    "core-1" },
  { "tank-end-short",
    "tank-1",
    "",
    TW_GRIP_END,
    1,
    FACE,
    { 0, -18 },
    { "end_mm" },
    { 190 },
    TW_SNAP_ROUND,
    "" },
  { "tank-as-deep",
    "tank-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_OTHER,
    FACE,
    { -3, 0 },
    { "depth_mm" },
    { 50 },
    TW_SNAP_SAME_SIZE,
    "tank-2" },
  /* the assembly reaches to −292; 10 clear of the bay's −400 its middle stands at −98 */
  { "core-clear-of-bay",
    "core-1",
    "",
    TW_GRIP_BODY,
    0,
    FRONT,
    { -96, 0 },
    { "x_mm", "y_mm" },
    { -98, 0 },
    TW_SNAP_CLEARANCE,
    "volume-1" },
  /* its stub at 292 on the bay's edge */
  { "core-at-bay",
    "core-1",
    "",
    TW_GRIP_BODY,
    0,
    FRONT,
    { 110.5, 0 },
    { "x_mm" },
    { 108 },
    TW_SNAP_EDGE,
    "volume-1" },
  { "core-as-high",
    "core-1",
    "",
    TW_GRIP_BODY,
    0,
    FRONT,
    { 0, -247 },
    { "y_mm" },
    { -250 },
    TW_SNAP_AS_HIGH,
    "engine_port-1" },
  /* next in the run to engine port 1 at (150, −250, 400) */
  { "via-level-with-end",
    "hose-1",
    "via-1",
    TW_GRIP_ELEMENT,
    0,
    FRONT,
    { 0, -47 },
    { "via-1/y_mm", "via-1/x_mm" },
    { -250, 0 },
    TW_SNAP_IN_LINE,
    "engine_port-1" },
  { "via-level-with-via",
    "hose-1",
    "via-2",
    TW_GRIP_ELEMENT,
    0,
    SIDE,
    { 147, 0 },
    { "via-2/z_mm" },
    { 250 },
    TW_SNAP_IN_LINE,
    "hose-1" },
  /* the bay's x 400 with the corner at 380 */
  { "corner-to-bay",
    "volume-2",
    "corner-2",
    TW_GRIP_ELEMENT,
    0,
    PLAN,
    { 18, 0 },
    { "corner-2/across_mm" },
    { 400 },
    TW_SNAP_EDGE,
    "volume-1" },
  /* back to square with the corner above it */
  { "corner-square",
    "volume-1",
    "corner-2",
    TW_GRIP_ELEMENT,
    0,
    FRONT,
    { -3, -20 },
    { "corner-2/across_mm", "corner-2/up_mm" },
    { 400, -320 },
    TW_SNAP_LEVEL_WITH,
    "volume-1" },
  { "engine-in-line",
    "engine_port-2",
    "",
    TW_GRIP_BODY,
    0,
    FRONT,
    { 148, 0 },
    { "x_mm" },
    { 150 },
    TW_SNAP_LEVEL_WITH,
    "engine_port-1" },
  { "vessel-round",
    "header_tank-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_RIGHT,
    FRONT,
    { 12, 0 },
    { "width_mm", "x_mm" },
    { 110, 205 },
    TW_SNAP_ROUND,
    "" },
};

static void
drag (Laid *laid, TwHand *hand, const Case *c, TwStageView *view)
{
  const TwHandManner manner = { 6, 1, FALSE };
  TwGrip grip
      = { .kind = c->kind, .part = laid_id (c->part), .element = laid_id (c->element), .nth = c->nth };
  TwHandGrasp grasp;

  *view = laid_view (laid, c->view);
  grasp = (TwHandGrasp){ view, &grip, 1, { 0, 0 }, NULL };
  g_assert_true (tw_hand_take (hand, &laid->bench, &grasp));
  tw_hand_move (hand, (TwPoint){ c->drawn_mm[0], c->drawn_mm[1] }, &manner);
}

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TwHand) hand = tw_hand_new ();
  TwStageView view;
  Laid laid;

  laid_out (&laid, laid_stand ());
  drag (&laid, hand, c, &view);
  g_assert_cmpint (tw_hand_snap (hand)->kind, ==, c->snap);
  g_assert_cmpstr (tw_hand_snap (hand)->other.text, ==, c->other);
  for (guint i = 0; i < 3 && c->fields[i] != NULL; i++)
    g_assert_cmpfloat_with_epsilon (laid_figure (&laid, c->part, c->fields[i]), c->values_mm[i], 1e-9);
  tw_hand_cancel (hand);
  laid_away (&laid);
}

/* Ends of tank 1 taken off the header plate: back at its end, and beside a second tank of its side. */
static void
test_tank_ends (void)
{
  const Case to_end = { NULL,      "tank-1", "",    TW_GRIP_END,        1,       FACE,
                        { 0, 23 }, { NULL }, { 0 }, TW_SNAP_HEADER_END, "core-1" };
  const Case to_split
      = { NULL, "tank-1", "", TW_GRIP_END, 1, FACE, { 0, -83 }, { NULL }, { 0 }, TW_SNAP_SPLIT, "tank-3" };
  g_autoptr (TwHand) first = tw_hand_new (), second = tw_hand_new ();
  TwTank *other;
  TwStageView view;
  Laid laid;

  laid_out (&laid, laid_stand ());
  tw_make_set_number (laid.job, "tank-1", "end_mm", 180);
  other = (TwTank *)tw_part_copy (tw_job_find (laid.job, laid_id ("tank-1")));
  other->head.id = laid_id ("tank-3");
  other->start_mm = 106;
  other->end_mm = 205;
  tw_job_insert (laid.job, &other->head, -1);
  laid_again (&laid);
  drag (&laid, first, &to_end, &view);
  g_assert_cmpint (tw_hand_snap (first)->kind, ==, TW_SNAP_HEADER_END);
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "tank-1", "end_mm"), 205, 1e-9);
  tw_hand_cancel (first);
  /* 97: the gap at 100 is nearest, 106 is 9 off */
  drag (&laid, second, &to_split, &view);
  g_assert_cmpint (tw_hand_snap (second)->kind, ==, TW_SNAP_SPLIT);
  g_assert_cmpstr (tw_hand_snap (second)->other.text, ==, "tank-3");
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "tank-1", "end_mm"), 100, 1e-9);
  tw_hand_cancel (second);
  laid_away (&laid);
}

/* Ports at 100 and 20 in the same wall: −60 is as far again; it is also 4 from nothing else. */
static void
test_spacing (void)
{
  const Case c
      = { NULL, "port-4", "", TW_GRIP_BODY, 0, FACE, { 0, 117 }, { NULL }, { 0 }, TW_SNAP_SPACING, "port-3" };
  g_autoptr (TwHand) hand = tw_hand_new ();
  TwStageView view;
  Laid laid;

  laid_out (&laid, laid_stand ());
  tw_make_port (laid.job, "tank-1", TW_PORT_SPARE, TW_WALL_BACK, 20);
  tw_make_port (laid.job, "tank-1", TW_PORT_SPARE, TW_WALL_BACK, -180);
  laid_again (&laid);
  drag (&laid, hand, &c, &view);
  g_assert_cmpint (tw_hand_snap (hand)->kind, ==, TW_SNAP_SPACING);
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "port-4", "along_mm"), -60, 1e-9);
  tw_hand_cancel (hand);
  laid_away (&laid);
}

/* From engine port 1 at (150, −250) to the via-point, which stands at (0, −250) then. */
static void
test_guide (void)
{
  const Case c = { NULL,     "hose-1", "via-1",         TW_GRIP_ELEMENT, 0, FRONT, { 0, -47 },
                   { NULL }, { 0 },    TW_SNAP_IN_LINE, "engine_port-1" };
  g_autoptr (TwHand) hand = tw_hand_new ();
  const TwSnap *snaps;
  TwStageView view;
  Laid laid;
  guint n;

  laid_out (&laid, laid_stand ());
  drag (&laid, hand, &c, &view);
  snaps = tw_hand_snaps (hand, &n);
  g_assert_cmpuint (n, ==, 1);
  g_assert_true (snaps[0].has_guide);
  g_assert_cmpfloat_with_epsilon (snaps[0].guide[0].x_mm, 150, 1e-9);
  g_assert_cmpfloat_with_epsilon (snaps[0].guide[0].y_mm, -250, 1e-9);
  g_assert_cmpfloat_with_epsilon (snaps[0].guide[1].x_mm, 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (snaps[0].guide[1].y_mm, -250, 1e-9);
  tw_hand_cancel (hand);
  laid_away (&laid);
}

/* Held off, nothing snaps and the step rounds. */
static void
test_held_off (void)
{
  const TwHandManner manner = { 6, 0.5, TRUE };
  g_autoptr (TwHand) hand = tw_hand_new ();
  TwStageView view;
  Laid laid;
  guint n;

  laid_out (&laid, laid_stand ());
  view = laid_view (&laid, FRONT);
  g_assert_true (tw_hand_press (hand, &laid.bench, &view, laid_id ("core-1"), (TwPoint){ 0, 0 }, NULL));
  tw_hand_move (hand, (TwPoint){ 9.8, 0 }, &manner);
  (void)tw_hand_snaps (hand, &n);
  g_assert_cmpuint (n, ==, 0);
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "core-1", "x_mm"), 10, 1e-9);
  tw_hand_move (hand, (TwPoint){ 9.7, 0 }, &manner);
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "core-1", "x_mm"), 9.5, 1e-9);
  tw_hand_cancel (hand);
  laid_away (&laid);
}

/* Every kind has words, and a place for a name where it says so. */
static void
test_words (void)
{
  for (guint kind = TW_SNAP_GAP; kind < TW_N_SNAPS; kind++) {
    const char *words = tw_snap_words (kind);

    g_assert_cmpuint (strlen (words), >, 0);
    g_assert_true ((strstr (words, "%s") != NULL) == tw_snap_names (kind));
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strconcat ("/stage/snap/", cases[i].name, NULL);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  g_test_add_func ("/stage/snap/tank-ends", test_tank_ends);
  g_test_add_func ("/stage/snap/spacing", test_spacing);
  g_test_add_func ("/stage/snap/guide", test_guide);
  g_test_add_func ("/stage/snap/held-off", test_held_off);
  g_test_add_func ("/stage/snap/words", test_words);
  return g_test_run ();
}
