/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-add.c - new parts and elements; worked by hand on the stand of laid.h
 */
#include "stage/add.h"
#include "stage/laid.h"

#include "base/error.h"

#include <math.h>

typedef struct {
  const char *name;
  TwKind kind;
  const char *chosen;
  int view;
  guint n_points;
  TwPoint points[2];
  const char *fields[4];
  double values_mm[4];
  const char *refusal; /* part of the words */
} Case;

static const Case cases[] = {
  /* chambers from 1 to 203 and below: the middle 102 of the upper, gaps at 100 and 110 */
  { "baffle", TW_KIND_BAFFLE, "tank-1", FACE, 0, { { 0 } }, { "place_mm" }, { 100 }, NULL },
  { "baffle-at-pointer",
    TW_KIND_BAFFLE,
    "tank-1",
    FACE,
    1,
    { { -225, -57 } },
    { "place_mm" },
    { -60 },
    NULL },
  /* the gap at 0 is taken, 10 is nearer to 3 than −10 */
  { "baffle-beside", TW_KIND_BAFFLE, "baffle-1", FACE, 1, { { -225, 3 } }, { "place_mm" }, { 10 }, NULL },
  { "port", TW_KIND_PORT, "tank-2", FACE, 0, { { 0 } }, { "along_mm" }, { NAN }, NULL },
  { "port-at-pointer", TW_KIND_PORT, "", FACE, 1, { { 230, 33.4 } }, { "along_mm" }, { 33 }, NULL },
  { "tank", TW_KIND_TANK, "core-1", FACE, 0, { { 0 } }, { NULL }, { 0 }, "both header sides" },
  { "shroud", TW_KIND_SHROUD, "core-1", FACE, 0, { { 0 } }, { "u_mm", "width_mm" }, { NAN, NAN }, NULL },
  /* level with the fan at −90: u + 4 to its ring, hypot (100 − u, 85) to the flap; in whole mm the most
   * is 86.68 at 83 (86 at 82, 86.49 at 84); it becomes as large as the other */
  { "fan",
    TW_KIND_FAN,
    "",
    FACE,
    0,
    { { 0 } },
    { "u_mm", "v_mm", "swept_mm", "ring_mm" },
    { 83, 0, 160, NAN },
    NULL },
  { "fan-at-pointer",
    TW_KIND_FAN,
    "shroud-1",
    FACE,
    1,
    { { 100, 50 } },
    { "u_mm", "v_mm" },
    { 100, 50 },
    NULL },
  { "engine-port",
    TW_KIND_ENGINE_PORT,
    "",
    PLAN,
    1,
    { { 33, 350 } },
    { "x_mm", "z_mm", "y_mm" },
    { 33, 350, 0 },
    NULL },
  /* the two that have no hose: port 2 is the outlet, engine port 2 the return */
  { "hose", TW_KIND_HOSE, "", FRONT, 0, { { 0 } }, { "bore_mm" }, { NAN }, NULL },
  { "volume",
    TW_KIND_VOLUME,
    "",
    FRONT,
    2,
    { { 50, 60 }, { -20, 10 } },
    { "corner-1/across_mm", "corner-3/up_mm", "from_mm", "to_mm" },
    { -20, 60, -100, 500 },
    NULL },
  { "volume-side",
    TW_KIND_VOLUME,
    "",
    SIDE,
    2,
    { { 50, 60 }, { 90, 10 } },
    { "corner-1/across_mm", "corner-1/up_mm", "from_mm", "to_mm" },
    { 50, 10, -400, 400 },
    NULL },
  /* a fifth of the bay's lower side of 600, beside it: 400 to 520 */
  { "volume-beside",
    TW_KIND_VOLUME,
    "",
    FRONT,
    0,
    { { 0 } },
    { "corner-1/across_mm", "corner-2/across_mm", "corner-1/up_mm" },
    { 400, 520, -60 },
    NULL },
  { "core",
    TW_KIND_CORE,
    "",
    FRONT,
    1,
    { { 20, 30 } },
    { "x_mm", "y_mm", "z_mm", "face_width_mm" },
    { 20, 30, 200, 480 },
    NULL },
  { "opening",
    TW_KIND_OPENING,
    "",
    FRONT,
    0,
    { { 0 } },
    { "width_mm", "height_mm", "at_mm" },
    { 400, 400, -100 },
    NULL },
  { "exit-drawn",
    TW_KIND_EXIT,
    "",
    FRONT,
    2,
    { { -100, -50 }, { 100, 50 } },
    { "width_mm", "height_mm", "at_mm", "up_mm" },
    { 200, 100, 500, 0 },
    NULL },
  { "vessel-drawn",
    TW_KIND_HEADER_TANK,
    "",
    FRONT,
    2,
    { { -100, -50 }, { 100, 50 } },
    { "width_mm", "height_mm", "x_mm", "y_mm" },
    { 200, 100, 0, 0 },
    NULL },
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *before = NULL, *after = NULL;
  TwStageView view;
  TwAddWhere where;
  TwChange *change;
  Laid laid;
  TwId id;

  laid_out (&laid, laid_stand ());
  before = tw_job_write_text (laid.job);
  view = laid_view (&laid, c->view);
  where = (TwAddWhere){ .job = laid.job,
                        .placement = laid.placement,
                        .passes = laid.passes,
                        .view = &view,
                        .chosen = laid_id (c->chosen),
                        .n_points = c->n_points,
                        .points = { c->points[0], c->points[1] } };
  change = tw_add_part (&where, c->kind, &id, &error);
  if (c->refusal != NULL) {
    g_assert_null (change);
    g_assert_nonnull (strstr (error->message, c->refusal));
  } else {
    g_assert_no_error (error);
    g_assert_true (tw_history_do (laid.history, change, &error));
    g_assert_cmpint (tw_job_find (laid.job, id)->kind, ==, c->kind);
    for (guint i = 0; i < 4 && c->fields[i] != NULL; i++) {
      double value_mm = laid_figure (&laid, id.text, c->fields[i]);

      if (isnan (c->values_mm[i]))
        g_assert_true (isnan (value_mm));
      else
        g_assert_cmpfloat_with_epsilon (value_mm, c->values_mm[i], 1e-9);
    }
    tw_history_undo (laid.history);
  }
  after = tw_job_write_text (laid.job);
  g_assert_cmpstr (after, ==, before);
  laid_away (&laid);
}

/* The outlet of the core leads to the return of the engine, in the direction of the water. */
static void
test_hose_ends (void)
{
  TwStageView view;
  TwAddWhere where;
  const TwHose *hose;
  Laid laid;
  TwId id;

  laid_out (&laid, laid_stand ());
  view = laid_view (&laid, FRONT);
  where = (TwAddWhere){ .job = laid.job, .placement = laid.placement, .view = &view };
  g_assert_true (tw_history_do (laid.history, tw_add_part (&where, TW_KIND_HOSE, &id, NULL), NULL));
  hose = (const TwHose *)tw_job_find (laid.job, id);
  g_assert_cmpstr (hose->from.text, ==, "port-2");
  g_assert_cmpstr (hose->to.text, ==, "engine_port-2");
  laid_again (&laid);
  where.placement = laid.placement;
  g_assert_null (tw_add_part (&where, TW_KIND_HOSE, &id, NULL));
  laid_away (&laid);
}

/* A bare job: its first volume is the bay, then a core in it, then its tanks, one a side. */
static void
test_from_nothing (void)
{
  static const struct {
    TwKind kind;
    gboolean refused;
  } steps[] = { { TW_KIND_TANK, TRUE },    { TW_KIND_FAN, TRUE },     { TW_KIND_VOLUME, FALSE },
                { TW_KIND_CORE, FALSE },   { TW_KIND_TANK, FALSE },   { TW_KIND_TANK, FALSE },
                { TW_KIND_TANK, TRUE },    { TW_KIND_BAFFLE, FALSE }, { TW_KIND_PORT, FALSE },
                { TW_KIND_SHROUD, FALSE }, { TW_KIND_SHROUD, TRUE },  { TW_KIND_FAN, FALSE },
                { TW_KIND_FAN, FALSE } };
  Laid laid;

  laid_out (&laid, tw_job_new ());
  for (guint i = 0; i < G_N_ELEMENTS (steps); i++) {
    g_autoptr (GError) error = NULL;
    TwStageView view = laid_view (&laid, FRONT);
    TwAddWhere where = { .job = laid.job, .placement = laid.placement, .passes = laid.passes, .view = &view };
    TwId id;
    TwChange *change = tw_add_part (&where, steps[i].kind, &id, &error);

    g_assert_true ((change == NULL) == steps[i].refused);
    g_assert_true ((error != NULL) == steps[i].refused);
    if (change == NULL)
      continue;
    g_assert_true (tw_history_do (laid.history, change, &error));
    laid_again (&laid);
  }
  g_assert_cmpint (((const TwVolume *)tw_job_find (laid.job, laid_id ("volume-1")))->use, ==, TW_USE_FREE);
  g_assert_cmpint (((const TwTank *)tw_job_find (laid.job, laid_id ("tank-2")))->side, ==, TW_SIDE_RIGHT);
  laid_away (&laid);
}

/* --- elements ------------------------------------------------------------------------------------------- */

typedef struct {
  const char *name;
  const char *part;
  guint list;
  int view;
  guint n_points;
  TwPoint at;
  const char *element;
  const char *fields[3];
  double values_mm[3];
} Element;

static const Element elements[] = {
  /* nearest edge: the lower one, from −400 to 400 at −300 */
  { "corner",
    "volume-1",
    0,
    FRONT,
    1,
    { 100, -310 },
    "corner-5",
    { "corner-5/across_mm", "corner-5/up_mm" },
    { 100, -300 } },
  /* the longest edge is the first of the two of 800 */
  { "corner-unpointed",
    "volume-1",
    0,
    FRONT,
    0,
    { 0 },
    "corner-5",
    { "corner-5/across_mm", "corner-5/up_mm" },
    { 0, -300 } },
  /* the first half circle of the bar from (300, 180) to (300, 220) bows to the right of the way up: its
   * middle is (320, 200), and each half of it rises 20·(1 − cos 45°) */
  { "corner-in-arc",
    "volume-3",
    0,
    SIDE,
    1,
    { 330, 200 },
    "corner-3",
    { "corner-3/across_mm", "corner-3/up_mm", "corner-1/bow_mm" },
    { 320, 200, 5.857864 } },
  /* the free room of 800 × 600: a circle of 300, half of it to each side */
  { "hole", "volume-1", 1, FRONT, 0, { 0 }, "corner-5", { NULL }, { 0 } },
  /* from the stub's end at (150, −250, 360) to via 1 at (0, −200, 250): a third of the way */
  { "via",
    "hose-1",
    0,
    FRONT,
    1,
    { 100, -233.333333 },
    "via-3",
    { "via-3/x_mm", "via-3/y_mm", "via-3/z_mm" },
    { 100, -233.333333, 323.333333 } },
  { "flap",
    "shroud-1",
    0,
    FACE,
    1,
    { 100, -100 },
    "flap-2",
    { "flap-2/u_mm", "flap-2/v_mm" },
    { 100, -100 } },
};

static void
test_element (gconstpointer data)
{
  const Element *c = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *before = NULL, *after = NULL;
  TwStageView view;
  TwAddWhere where;
  TwChange *change;
  TwId element;
  Laid laid;

  laid_out (&laid, laid_stand ());
  before = tw_job_write_text (laid.job);
  view = laid_view (&laid, c->view);
  where = (TwAddWhere){ .job = laid.job,
                        .placement = laid.placement,
                        .view = &view,
                        .chosen = laid_id (c->part),
                        .n_points = c->n_points,
                        .points = { c->at } };
  change = tw_add_element (&where, c->list, &element, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (element.text, ==, c->element);
  g_assert_true (tw_history_do (laid.history, change, &error));
  g_assert_no_error (error);
  for (guint i = 0; i < 3 && c->fields[i] != NULL; i++)
    g_assert_cmpfloat_with_epsilon (laid_figure (&laid, c->part, c->fields[i]), c->values_mm[i], 1e-5);
  tw_history_undo (laid.history);
  after = tw_job_write_text (laid.job);
  g_assert_cmpstr (after, ==, before);
  laid_away (&laid);
}

/* Tubes lie at 195 − 10·(k − 1): that at 55 is the 15th; then it is taken, and 65 or 45 is next. */
static void
test_plug (void)
{
  const int expected[] = { 15, 14 };
  Laid laid;

  laid_out (&laid, laid_stand ());
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++) {
    TwStageView view = laid_view (&laid, FACE);
    TwAddWhere where = { .job = laid.job,
                         .placement = laid.placement,
                         .view = &view,
                         .chosen = laid_id ("core-1"),
                         .n_points = 1,
                         .points = { { 0, 56 } } };
    TwId element;
    const TwPart *core;

    g_assert_true (tw_history_do (laid.history, tw_add_element (&where, 0, &element, NULL), NULL));
    core = tw_job_find (laid.job, laid_id ("core-1"));
    g_assert_cmpint (((const TwPlug *)tw_part_element (core, element, NULL))->tube, ==, expected[i]);
    laid_again (&laid);
  }
  laid_away (&laid);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strconcat ("/stage/add/", cases[i].name, NULL);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  for (guint i = 0; i < G_N_ELEMENTS (elements); i++) {
    g_autofree char *path = g_strconcat ("/stage/add/element/", elements[i].name, NULL);

    g_test_add_data_func (path, &elements[i], test_element);
  }
  g_test_add_func ("/stage/add/hose-ends", test_hose_ends);
  g_test_add_func ("/stage/add/from-nothing", test_from_nothing);
  g_test_add_func ("/stage/add/plug", test_plug);
  return g_test_run ();
}
