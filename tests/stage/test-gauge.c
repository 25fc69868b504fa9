/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-gauge.c - distances to neighbours; worked by hand on the stand of laid.h
 */
#include "stage/gauge.h"
#include "stage/laid.h"

typedef struct {
  const char *name;
  const char *part;
  const char *element;
  int view;
  guint n;
  double lengths_mm[4];
  const char *neighbours[4];
} Case;

static const Case cases[] = {
  /* plate ends at ±205 from its middle; tubes 20 and 21 at ±5, 2 high, from its faces at ±1: 4 − 1 */
  { "baffle", "baffle-1", "", FACE, 4, { 205, 205, 3, 3 }, { "core-1", "core-1", "core-1", "core-1" } },
  { "baffle-unseen", "baffle-1", "", PLAN, 0, { 0 }, { NULL } },
  /* ends of its tank at ±205; across it is not seen */
  { "port", "port-1", "", FACE, 2, { 305, 105 }, { "tank-1", "tank-1" } },
  /* the tank's walls lie 27 to either side: half of 54 */
  { "port-side", "port-1", "", SIDE, 4, { 305, 105, 27, 27 }, { "tank-1", "tank-1", "tank-1", "tank-1" } },
  /* ring of 172 round (−90, 0) in a mouth of ±190, ±180 */
  { "fan", "fan-1", "", FACE, 4, { 14, 194, 94, 94 }, { "shroud-1", "shroud-1", "shroud-1", "shroud-1" } },
  { "shroud", "shroud-1", "", FACE, 4, { 10, 10, 20, 20 }, { "core-1", "core-1", "core-1", "core-1" } },
  /* 40 × 30 round (120, 100) */
  { "flap",
    "shroud-1",
    "flap-1",
    FACE,
    4,
    { 290, 50, 265, 65 },
    { "shroud-1", "shroud-1", "shroud-1", "shroud-1" } },
  /* the assembly reaches from −292 to 292 with its stubs, ±205 up; volume 2 begins at 300 */
  { "core", "core-1", "", FRONT, 4, { 108, 8, 95, 95 }, { "volume-1", "volume-2", "volume-1", "volume-1" } },
  /* bore 28, wall 4.5: 18.5 round (0, −200); at z 250 neither volume 2 nor the bar is in the way */
  { "via",
    "hose-1",
    "via-1",
    FRONT,
    4,
    { 381.5, 381.5, 81.5, 481.5 },
    { "volume-1", "volume-1", "volume-1", "volume-1" } },
  /* z −100 to 500, y ±300 in Side: the via lies at z 250, y −200; the bar of 40 round z 300, y 200 begins at
   * y 180 and reaches over z 280 to 320, beside the hose's 231.5 to 268.5 */
  { "via-side",
    "hose-1",
    "via-1",
    SIDE,
    4,
    { 331.5, 231.5, 81.5, 481.5 },
    { "volume-1", "volume-1", "volume-1", "volume-1" } },
  { "engine-port",
    "engine_port-2",
    "",
    PLAN,
    4,
    { 400, 400, 500, 100 },
    { "volume-1", "volume-1", "volume-1", "volume-1" } },
  { "corner", "volume-1", "corner-1", FRONT, 2, { 600, 800 }, { "volume-1", "volume-1" } },
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  TwGauge gauges[TW_GAUGE_MOST];
  TwStageView view;
  Laid laid;

  laid_out (&laid, laid_stand ());
  view = laid_view (&laid, c->view);
  g_assert_cmpuint (tw_gauge_find (laid.placement, &view, laid_id (c->part), laid_id (c->element), gauges),
                    ==, c->n);
  for (guint i = 0; i < c->n; i++) {
    g_assert_cmpfloat_with_epsilon (gauges[i].length_mm, c->lengths_mm[i], 1e-9);
    g_assert_cmpstr (gauges[i].neighbour.text, ==, c->neighbours[i]);
  }
  laid_away (&laid);
}

/* Rings of 172 at −90 and 110: 200 − 172 between them. */
static void
test_two_fans (void)
{
  TwGauge gauges[TW_GAUGE_MOST];
  TwStageView view;
  Laid laid;

  laid_out (&laid, laid_stand ());
  tw_make_fan (laid.job, 110, 0, 160, 60);
  laid_again (&laid);
  view = laid_view (&laid, FACE);
  g_assert_cmpuint (tw_gauge_find (laid.placement, &view, laid_id ("fan-1"), TW_ID_NONE, gauges), ==, 4);
  g_assert_cmpfloat_with_epsilon (gauges[1].length_mm, 28, 1e-9);
  g_assert_cmpstr (gauges[1].neighbour.text, ==, "fan-2");
  g_assert_cmpfloat_with_epsilon (gauges[1].from.x_mm, -4, 1e-9);
  g_assert_cmpfloat_with_epsilon (gauges[1].to.x_mm, 24, 1e-9);
  laid_away (&laid);
}

/* A core that leans by 60° is seen half as high; the length stays true. */
static void
test_true_length (void)
{
  TwGauge gauges[TW_GAUGE_MOST];
  TwStageView view;
  Laid laid;

  laid_out (&laid, laid_stand ());
  tw_make_set_number (laid.job, "core-1", "lean_deg", 60);
  laid_again (&laid);
  view = laid_view (&laid, FRONT);
  g_assert_cmpuint (tw_gauge_find (laid.placement, &view, laid_id ("baffle-1"), TW_ID_NONE, gauges), ==, 4);
  g_assert_cmpfloat_with_epsilon (gauges[0].length_mm, 205, 1e-9);
  g_assert_cmpfloat_with_epsilon (tw_point_distance_mm (gauges[0].from, gauges[0].to), 102.5, 1e-9);
  laid_away (&laid);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strconcat ("/stage/gauge/", cases[i].name, NULL);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  g_test_add_func ("/stage/gauge/two-fans", test_two_fans);
  g_test_add_func ("/stage/gauge/true-length", test_true_length);
  return g_test_run ();
}
