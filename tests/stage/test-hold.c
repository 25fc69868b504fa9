/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-hold.c - typing while holding, several parts at once, steps by keys, and what the job refuses; worked
 * by hand on the stand of laid.h
 */
#include "stage/laid.h"

#include <math.h>

static const TwHandManner free_manner = { .no_snaps = TRUE };

static TwGrip
grip (const char *part, const char *element, TwGripKind kind, guint nth)
{
  return (TwGrip){ .kind = kind, .part = laid_id (part), .element = laid_id (element), .nth = nth };
}

static guint
figure_nth (const TwHand *hand, const char *element, guint field)
{
  guint n;
  const TwHandFigure *figures = tw_hand_figures (hand, &n);

  for (guint i = 0; i < n; i++)
    if (figures[i].field == field && g_str_equal (figures[i].element.text, element))
      return i;
  g_assert_not_reached ();
}

/* --- typing --------------------------------------------------------------------------------------------- */

typedef struct {
  const char *name;
  const char *part;
  const char *element;
  TwGripKind kind;
  guint nth;
  int view;
  const char *typed_into; /* field */
  const char *text;
  gboolean inches;
  const char *refusal; /* part of the words; NULL: it is taken */
  const char *fields[3];
  double values_mm[3];
} Type;

/* The pointer is 20 to the right and 10 up when it is typed, and 40 and 30 afterwards. */
static const Type types[] = {
  { "width",
    "shroud-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_RIGHT,
    FACE,
    "width_mm",
    "410 mm",
    FALSE,
    NULL,
    { "width_mm", "u_mm", "height_mm" },
    { 410, 15, 360 } },
  { "fraction",
    "shroud-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_RIGHT,
    FACE,
    "width_mm",
    "15 3/8",
    TRUE,
    NULL,
    { "width_mm", "u_mm" },
    { 390.525, 5.2625 } },
  { "feet",
    "volume-1",
    "corner-2",
    TW_GRIP_ELEMENT,
    0,
    FRONT,
    "across_mm",
    "2 ft",
    FALSE,
    NULL,
    { "corner-2/across_mm", "corner-2/up_mm" },
    { 609.6, -270 } },
  /* the middle typed: the width follows, 2 × 12 more */
  { "middle",
    "shroud-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_RIGHT,
    FACE,
    "u_mm",
    "12",
    FALSE,
    NULL,
    { "width_mm", "u_mm" },
    { 404, 12 } },
  { "corner-goes-on-upwards",
    "shroud-1",
    "",
    TW_GRIP_CORNER,
    TW_GRIP_TOP_RIGHT,
    FACE,
    "width_mm",
    "400",
    FALSE,
    NULL,
    { "width_mm", "height_mm", "v_mm" },
    { 400, 390, 15 } },
  { "start-takes-end-along",
    "tank-1",
    "",
    TW_GRIP_BODY,
    0,
    FACE,
    "start_mm",
    "-200",
    FALSE,
    NULL,
    { "start_mm", "end_mm" },
    { -200, 210 } },
  { "diameter",
    "fan-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_RIGHT,
    FACE,
    "swept_mm",
    "7 in",
    FALSE,
    NULL,
    { "swept_mm", "u_mm" },
    { 177.8, -90 } },
  /* refused: the drag goes on as if nothing had been typed */
  { "nonsense",
    "shroud-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_RIGHT,
    FACE,
    "width_mm",
    "wide",
    FALSE,
    "wide",
    { "width_mm", "u_mm" },
    { 420, 20 } },
  { "nothing",
    "shroud-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_RIGHT,
    FACE,
    "width_mm",
    "",
    FALSE,
    "expected",
    { "width_mm" },
    { 420 } },
  { "other-quantity",
    "shroud-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_RIGHT,
    FACE,
    "width_mm",
    "12 kg",
    FALSE,
    "12 kg",
    { "width_mm" },
    { 420 } },
  { "out-of-range",
    "shroud-1",
    "",
    TW_GRIP_EDGE,
    TW_GRIP_RIGHT,
    FACE,
    "width_mm",
    "9 m",
    FALSE,
    "5",
    { "width_mm" },
    { 420 } },
  { "end-before-start",
    "tank-1",
    "",
    TW_GRIP_END,
    1,
    FACE,
    "end_mm",
    "-300",
    FALSE,
    "-300",
    { "start_mm", "end_mm" },
    { -205, 235 } },
};

static void
test_type (gconstpointer data)
{
  const Type *c = data;
  TwUnitStyle style = c->inches ? TW_UNIT_STYLE_IN : TW_UNIT_STYLE_MM;
  g_autoptr (TwHand) hand = tw_hand_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *before = NULL, *after = NULL;
  TwGrip held = grip (c->part, c->element, c->kind, c->nth);
  TwKind kind;
  TwStageView view;
  TwHandGrasp grasp;
  Laid laid;
  guint nth;

  laid_out (&laid, laid_stand ());
  view = laid_view (&laid, c->view);
  before = tw_job_write_text (laid.job);
  grasp = (TwHandGrasp){ &view, &held, 1, { 0, 0 }, "Drag" };
  g_assert_true (tw_hand_take (hand, &laid.bench, &grasp));
  g_assert_true (tw_hand_move (hand, (TwPoint){ 20, 10 }, &free_manner));
  kind = c->element[0] != '\0' ? TW_KIND_CORNER : tw_job_find (laid.job, held.part)->kind;
  nth = figure_nth (hand, c->element, (guint)tw_kind_field (kind, c->typed_into));
  g_assert_true (tw_hand_type (hand, nth, c->text, &style, &error) == (c->refusal == NULL));
  if (c->refusal != NULL)
    g_assert_nonnull (strstr (error->message, c->refusal));
  tw_hand_move (hand, (TwPoint){ 40, 30 }, &free_manner);
  for (guint i = 0; i < 3 && c->fields[i] != NULL; i++)
    g_assert_cmpfloat_with_epsilon (laid_figure (&laid, c->part, c->fields[i]), c->values_mm[i], 1e-9);
  if (c->refusal == NULL) {
    const TwPart *part = tw_job_find (laid.job, held.part);
    TwValue value = tw_part_get (c->element[0] != '\0' ? tw_part_element (part, held.element, NULL) : part,
                                 (guint)tw_kind_field (kind, c->typed_into));

    g_assert_true (g_str_has_prefix (value.typed, c->text)); /* a bare number gets the unit it meant */
    tw_value_clear (&value);
  }
  tw_hand_cancel (hand);
  after = tw_job_write_text (laid.job);
  g_assert_cmpstr (after, ==, before);
  laid_away (&laid);
}

/* Typing is one step with the drag, also when nothing was moved before; typing again takes the newer. */
static void
test_type_twice (void)
{
  TwUnitStyle style = TW_UNIT_STYLE_MM;
  g_autoptr (TwHand) hand = tw_hand_new ();
  g_autofree char *before = NULL, *after = NULL;
  TwGrip held = grip ("shroud-1", "", TW_GRIP_EDGE, TW_GRIP_RIGHT);
  TwStageView view;
  TwHandGrasp grasp;
  Laid laid;

  laid_out (&laid, laid_stand ());
  view = laid_view (&laid, FACE);
  before = tw_job_write_text (laid.job);
  grasp = (TwHandGrasp){ &view, &held, 1, { 0, 0 }, "Drag" };
  g_assert_true (tw_hand_take (hand, &laid.bench, &grasp));
  g_assert_true (tw_hand_type (hand, 0, "39 cm", &style, NULL));
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "shroud-1", "u_mm"), 5, 1e-9);
  g_assert_true (tw_hand_type (hand, 1, "30", &style, NULL)); /* the middle, which leads the width now */
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "shroud-1", "width_mm"), 440, 1e-9);
  tw_hand_release (hand);
  g_assert_cmpstr (tw_history_undo_label (laid.history), ==, "Drag");
  tw_history_undo (laid.history);
  g_assert_false (tw_history_can_undo (laid.history));
  after = tw_job_write_text (laid.job);
  g_assert_cmpstr (after, ==, before);
  laid_away (&laid);
}

/* What a person would name comes first, each figure once. */
static void
test_figures (void)
{
  g_autoptr (TwHand) hand = tw_hand_new ();
  TwGrip held = grip ("shroud-1", "", TW_GRIP_CORNER, TW_GRIP_TOP_LEFT);
  const guint expected[] = { TW_SHROUD_width_mm, TW_SHROUD_height_mm, TW_SHROUD_u_mm, TW_SHROUD_v_mm };
  const TwHandFigure *figures;
  TwStageView view;
  TwHandGrasp grasp;
  Laid laid;
  guint n;

  laid_out (&laid, laid_stand ());
  view = laid_view (&laid, FACE);
  grasp = (TwHandGrasp){ &view, &held, 1, { 0, 0 }, NULL };
  g_assert_true (tw_hand_take (hand, &laid.bench, &grasp));
  tw_hand_move (hand, (TwPoint){ 0, 10 }, &free_manner);
  figures = tw_hand_figures (hand, &n);
  g_assert_cmpuint (n, ==, 4);
  for (guint i = 0; i < n; i++)
    g_assert_cmpuint (figures[i].field, ==, expected[i]);
  g_assert_false (figures[0].changed);
  g_assert_true (figures[1].changed);
  g_assert_cmpfloat (figures[1].value_mm, ==, 370);
  tw_hand_cancel (hand);
  laid_away (&laid);
}

/* --- several parts -------------------------------------------------------------------------------------- */

/* One drawn distance; the baffle, which only goes up, takes its share of it. */
static void
test_several (void)
{
  g_autoptr (TwHand) hand = tw_hand_new ();
  g_autofree char *before = NULL, *after = NULL;
  TwGrip held[] = { grip ("fan-1", "", TW_GRIP_BODY, 0), grip ("shroud-1", "", TW_GRIP_BODY, 0),
                    grip ("baffle-1", "", TW_GRIP_BODY, 0), grip ("fan-1", "", TW_GRIP_BODY, 0) };
  TwStageView view;
  TwHandGrasp grasp;
  Laid laid;

  laid_out (&laid, laid_stand ());
  view = laid_view (&laid, FACE);
  before = tw_job_write_text (laid.job);
  grasp = (TwHandGrasp){ &view, held, 4, { 0, 0 }, "Move of 3 parts" };
  g_assert_true (tw_hand_take (hand, &laid.bench, &grasp));
  g_assert_true (tw_hand_move (hand, (TwPoint){ 11, 20 }, &free_manner));
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "fan-1", "u_mm"), -79, 1e-9);
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "fan-1", "v_mm"), 20, 1e-9);
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "shroud-1", "u_mm"), 11, 1e-9);
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "baffle-1", "place_mm"), 20, 1e-9);
  tw_hand_release (hand);
  tw_history_undo (laid.history);
  g_assert_false (tw_history_can_undo (laid.history));
  after = tw_job_write_text (laid.job);
  g_assert_cmpstr (after, ==, before);
  laid_away (&laid);
}

/* The first one snaps: 13 up is the gap at 10, and the engine port goes 10 up and the whole 7 across. */
static void
test_follows_the_snap (void)
{
  const TwHandManner manner = { 6, 1, FALSE };
  g_autoptr (TwHand) hand = tw_hand_new ();
  TwGrip held[] = { grip ("baffle-1", "", TW_GRIP_BODY, 0), grip ("engine_port-2", "", TW_GRIP_BODY, 0) };
  TwStageView view;
  TwHandGrasp grasp;
  Laid laid;

  laid_out (&laid, laid_stand ());
  view = laid_view (&laid, FRONT);
  grasp = (TwHandGrasp){ &view, held, 2, { 0, 0 }, NULL };
  g_assert_true (tw_hand_take (hand, &laid.bench, &grasp));
  tw_hand_move (hand, (TwPoint){ 7, 13 }, &manner);
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "baffle-1", "place_mm"), 10, 1e-9);
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "engine_port-2", "x_mm"), 7, 1e-9);
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "engine_port-2", "y_mm"), -240, 1e-9);
  tw_hand_cancel (hand);
  laid_away (&laid);
}

/* --- a port over to another wall ------------------------------------------------------------------------ */

typedef struct {
  const char *name;
  int view;
  TwPoint to; /* of the pointer: mm of the view; the port is pressed at (−252, 100) in Face */
  const char *tank;
  int wall;
  const char *fields[3];
  double values_mm[3];
} Carry;

/* Port 1 hangs in the back of tank 1, the line x −252 from −205 to 205 in Face; its ends are the lines at
 * ±205 from −252 to −202. */
static const Carry carries[] = {
  { "stays", FACE, { -256, 130 }, "tank-1", TW_WALL_BACK, { "along_mm", "across_mm" }, { 130, 0 } },
  /* past the corner but nearer to its own wall */
  { "stays-above", FACE, { -253, 230 }, "tank-1", TW_WALL_BACK, { "along_mm" }, { 230 } },
  { "upper-end",
    FACE,
    { -232, 210 },
    "tank-1",
    TW_WALL_END,
    { "out_mm", "along_mm", "across_mm" },
    { 30, 100, 0 } },
  { "lower-end", FACE, { -212, -215 }, "tank-1", TW_WALL_START, { "out_mm", "along_mm" }, { 10, 100 } },
  /* inside the tank, off every edge: the wall that faces the eye */
  { "front", FACE, { -225, 40 }, "tank-1", TW_WALL_AIR_IN, { "along_mm", "out_mm" }, { 40, 23 } },
  { "other-tank", FACE, { 255, -60 }, "tank-2", TW_WALL_BACK, { "along_mm", "across_mm" }, { -60, 0 } },
  { "other-tank-end", FACE, { 232, 212 }, "tank-2", TW_WALL_END, { "out_mm" }, { 30 } },
};

static void
test_carry (gconstpointer data)
{
  const Carry *c = data;
  const TwHandManner manner = { 4, 1, TRUE, FALSE };
  g_autoptr (TwHand) hand = tw_hand_new ();
  g_autofree char *before = NULL, *after = NULL, *cancelled = NULL;
  const TwPort *port;
  TwStageView view;
  Laid laid;

  laid_out (&laid, laid_stand ());
  view = laid_view (&laid, c->view);
  before = tw_job_write_text (laid.job);
  for (guint twice = 0; twice < 2; twice++) {
    g_assert_true (
        tw_hand_press (hand, &laid.bench, &view, laid_id ("port-1"), (TwPoint){ -252, 100 }, "Move"));
    if (!g_str_has_prefix (c->name, "stays"))
      tw_hand_move (hand, (TwPoint){ 0, 300 }, &manner); /* by way of somewhere else */
    tw_hand_move (hand, c->to, &manner);
    if (twice == 0) {
      tw_hand_cancel (hand);
      cancelled = tw_job_write_text (laid.job);
      g_assert_cmpstr (cancelled, ==, before);
    }
  }
  port = (const TwPort *)tw_job_find (laid.job, laid_id ("port-1"));
  g_assert_cmpstr (port->tank.text, ==, c->tank);
  g_assert_cmpint (port->wall, ==, c->wall);
  for (guint i = 0; i < 3 && c->fields[i] != NULL; i++)
    g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "port-1", c->fields[i]), c->values_mm[i], 1e-9);
  tw_hand_release (hand);
  tw_history_undo (laid.history);
  g_assert_false (tw_history_can_undo (laid.history));
  after = tw_job_write_text (laid.job);
  g_assert_cmpstr (after, ==, before);
  laid_away (&laid);
}

/* Out to another tank and home again: nothing is done. Held in its wall it stays there. Typing sets the
 * figure of the wall where it hangs. */
static void
test_carry_home (void)
{
  const TwHandManner manner = { 4, 1, TRUE, FALSE }, stay = { 4, 1, TRUE, TRUE };
  TwUnitStyle style = TW_UNIT_STYLE_MM;
  g_autoptr (TwHand) hand = tw_hand_new ();
  TwStageView view;
  Laid laid;

  laid_out (&laid, laid_stand ());
  view = laid_view (&laid, FACE);
  g_assert_true (tw_hand_press (hand, &laid.bench, &view, laid_id ("port-1"), (TwPoint){ 0, 0 }, NULL));
  tw_hand_move (hand, (TwPoint){ 507, -160 }, &stay);
  g_assert_cmpstr (((const TwPort *)tw_job_find (laid.job, laid_id ("port-1")))->tank.text, ==, "tank-1");
  tw_hand_move (hand, (TwPoint){ 507, -160 }, &manner);
  g_assert_cmpstr (((const TwPort *)tw_job_find (laid.job, laid_id ("port-1")))->tank.text, ==, "tank-2");
  g_assert_true (tw_hand_type (hand, figure_nth (hand, "", TW_PORT_along_mm), "12 cm", &style, NULL));
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "port-1", "along_mm"), 120, 1e-9);
  tw_hand_move (hand, (TwPoint){ 0, 0 }, &manner);
  tw_hand_release (hand);
  g_assert_false (tw_history_can_undo (laid.history));
  laid_away (&laid);
}

/* --- keys ----------------------------------------------------------------------------------------------- */

typedef struct {
  double from_mm;
  TwHandNudge nudge;
  double place_mm;
} Gap;

/* Gaps lie at every 10. */
static const Gap gaps[] = {
  { 0, { .up = 1, .gap = TRUE }, 10 },               /* */
  { 0, { .up = -2, .gap = TRUE }, -20 },             /* */
  { 0, { .up = 1, .gap = TRUE, .ten = TRUE }, 100 }, /* */
  { 3, { .up = 1, .gap = TRUE }, 10 },               /* from between: 13 is nearest to 10 */
  { 0, { .up = 1 }, 1 },                             /* */
};

static void
test_gaps (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (gaps); i++) {
    TwStageView view;
    Laid laid;

    laid_out (&laid, laid_stand ());
    tw_make_set_number (laid.job, "baffle-1", "place_mm", gaps[i].from_mm);
    laid_again (&laid);
    view = laid_view (&laid, SIDE);
    g_assert_true (tw_hand_nudge (&laid.bench, &view, laid_id ("baffle-1"), &gaps[i].nudge, NULL));
    g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "baffle-1", "place_mm"), gaps[i].place_mm, 1e-9);
    laid_away (&laid);
  }
}

static void
test_nudge_grip (void)
{
  const TwHandNudge nudge = { .right = 2, .up = 1, .ten = TRUE };
  TwGrip held = grip ("volume-1", "corner-2", TW_GRIP_ELEMENT, 0);
  TwStageView view;
  TwHandGrasp grasp;
  Laid laid;

  laid_out (&laid, laid_stand ());
  view = laid_view (&laid, FRONT);
  grasp = (TwHandGrasp){ &view, &held, 1, { 0, 0 }, "Nudge" };
  g_assert_true (tw_hand_nudge_all (&laid.bench, &grasp, &nudge));
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "volume-1", "corner-2/across_mm"), 420, 1e-9);
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "volume-1", "corner-2/up_mm"), -290, 1e-9);
  laid_away (&laid);
}

/* --- what the job refuses ------------------------------------------------------------------------------- */

/* The lower left corner over the upper edge: the outline would cross itself. */
static void
test_refusal (void)
{
  g_autoptr (TwHand) hand = tw_hand_new ();
  TwGrip held = grip ("volume-1", "corner-1", TW_GRIP_ELEMENT, 0);
  TwStageView view;
  TwHandGrasp grasp;
  Laid laid;

  laid_out (&laid, laid_stand ());
  view = laid_view (&laid, FRONT);
  grasp = (TwHandGrasp){ &view, &held, 1, { -400, -300 }, NULL };
  g_assert_true (tw_hand_take (hand, &laid.bench, &grasp));
  g_assert_true (tw_hand_move (hand, (TwPoint){ -380, -290 }, &free_manner));
  g_assert_null (tw_hand_refusal (hand));
  g_assert_false (tw_hand_move (hand, (TwPoint){ 0, 400 }, &free_manner));
  g_assert_nonnull (tw_hand_refusal (hand));
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "volume-1", "corner-1/across_mm"), -380, 1e-9);
  g_assert_true (tw_hand_move (hand, (TwPoint){ -370, -290 }, &free_manner));
  g_assert_null (tw_hand_refusal (hand));
  tw_hand_cancel (hand);
  g_assert_cmpfloat_with_epsilon (laid_figure (&laid, "volume-1", "corner-1/across_mm"), -400, 1e-9);
  laid_away (&laid);
}

/* A figure that the job does not say is set by a drag, and unsaid again when it is back. */
static void
test_unsaid (void)
{
  g_autoptr (TwHand) hand = tw_hand_new ();
  TwStageView view;
  Laid laid;

  laid_out (&laid, laid_stand ());
  tw_make_set (laid.job, "shroud-1", "u_mm", "");
  laid_again (&laid);
  view = laid_view (&laid, FACE);
  g_assert_true (tw_hand_press (hand, &laid.bench, &view, laid_id ("shroud-1"), (TwPoint){ 0, 0 }, NULL));
  tw_hand_move (hand, (TwPoint){ 5, 0 }, &free_manner);
  g_assert_cmpfloat (laid_figure (&laid, "shroud-1", "u_mm"), ==, 5);
  tw_hand_move (hand, (TwPoint){ 0, 0 }, &free_manner);
  g_assert_true (isnan (laid_figure (&laid, "shroud-1", "u_mm")));
  tw_hand_release (hand);
  g_assert_false (tw_history_can_undo (laid.history));
  laid_away (&laid);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (types); i++) {
    g_autofree char *path = g_strconcat ("/stage/type/", types[i].name, NULL);

    g_test_add_data_func (path, &types[i], test_type);
  }
  for (guint i = 0; i < G_N_ELEMENTS (carries); i++) {
    g_autofree char *path = g_strconcat ("/stage/carry/", carries[i].name, NULL);

    g_test_add_data_func (path, &carries[i], test_carry);
  }
  g_test_add_func ("/stage/carry/home", test_carry_home);
  g_test_add_func ("/stage/type/twice", test_type_twice);
  g_test_add_func ("/stage/hold/figures", test_figures);
  g_test_add_func ("/stage/hold/several", test_several);
  g_test_add_func ("/stage/hold/follows-the-snap", test_follows_the_snap);
  g_test_add_func ("/stage/hold/gaps", test_gaps);
  g_test_add_func ("/stage/hold/nudge-grip", test_nudge_grip);
  g_test_add_func ("/stage/hold/refusal", test_refusal);
  g_test_add_func ("/stage/hold/unsaid", test_unsaid);
  return g_test_run ();
}
