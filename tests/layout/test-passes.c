/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Passes counted by hand: each line of a case was drawn on paper and the water followed with a finger.
 */
#include "layout/drawn.h"

#include <math.h>
#include <string.h>

typedef struct {
  const char *name;
  const char *drawn;  /* as drawn.h says */
  const char *passes; /* as spell() writes them */
  guint flags;
} Case;

static const Case cases[] = {
  { "one pass, ports on both sides", "L40 i1:1 o2:40", ">1-40", 0 },
  { "one pass the other way", "L40 i2:1 o1:40", "<1-40", 0 },
  { "one pass down, two rows", "U52 r2 i1:1 o2:40", "v1-52", 0 },
  { "one pass up", "U52 i2:1 o1:40", "^1-52", 0 },
  { "Merlin, tail", "L31 b1:16 i1:3 o1:29", ">1-16 <17-31", 0 },
  { "Merlin, tail, the baffle a tube lower", "L31 b1:17 i1:3 o1:29", ">1-17 <18-31", 0 },
  { "Caravan 4: two rows, ports on the right", "L46 r2 b2:23 i2:3 o2:43", "<1-23 >24-46", 0 },
  { "Volt-9: down and up", "U26 b1:13 i1:7 o1:20", "v1-13 ^14-26", 0 },
  { "Merlin, boot: three passes", "L34 b1:12 b2:23 i1:2 o2:33", ">1-12 <13-23 >24-34", 0 },
  { "four passes", "L40 b1:10 b1:30 b2:20 i1:5 o1:35", ">1-10 <11-20 >21-30 <31-40", 0 },
  { "five uneven passes", "L50 b1:4 b1:30 b2:20 b2:41 i1:2 o2:49", ">1-4 <5-20 >21-30 <31-41 >42-50", 0 },
  { "six passes", "L60 b1:10 b1:30 b1:50 b2:20 b2:40 i1:5 o1:55", ">1-10 <11-20 >21-30 <31-40 >41-50 <51-60",
    0 },
  { "six passes upwards", "L60 b1:10 b1:30 b1:50 b2:20 b2:40 i1:55 o1:5",
    ">51-60 <41-50 >31-40 <21-30 >11-20 <1-10", 0 },
  { "Z", "U10 i1:1 o2:10", "v1-10", 0 },
  { "U", "U10 i1:1 o2:1", "v1-10", 0 },
  { "in and out in one chamber", "L10 i1:1 o1:10", "x1-10 no way",
    TW_PASSES_SHORT_CIRCUIT | TW_PASSES_DEAD_TUBES | TW_PASSES_DEAD_CHAMBER },
  { "short cut beside a second outlet", "L10 i1:1 o1:10 o2:5", ">1-10@nan", TW_PASSES_SHORT_CIRCUIT },
  { "no ports", "L10", "x1-10 unknown", TW_PASSES_NO_INLET | TW_PASSES_NO_OUTLET },
  { "no inlet", "L10 o2:4 x1:4", "x1-10 unknown", TW_PASSES_NO_INLET },
  { "no outlet", "L10 i2:4", "x1-10 unknown", TW_PASSES_NO_OUTLET },
  { "split side for a baffle", "L31 s1:16 i1:3 o3:29", ">1-16 <17-31", 0 },
  { "split side and a baffle", "L30 s1:10 b2:20 i1:3 o2:29", ">1-10 <11-20 >21-30", 0 },
  { "passes in depth", "L20 r2 a1:0 i1:1f o1:20b", ">1-20/1 <1-20/2", 0 },
  { "three passes in depth", "L20 r3 a1:-21 a2:21 i1:5f o2:6b", ">1-20/1 <1-20/2 >1-20/3", 0 },
  { "depth and height", "L20 r2 a1:0 b1:10 a2:0 b2:10 i1:1f o2:1f",
    ">1-10/1 x1-10/2 no way x11-20/1 no way x11-20/2 no way", TW_PASSES_DEAD_TUBES | TW_PASSES_DEAD_CHAMBER },
  { "two outlets of parallel chambers", "L20 b2:10 i1:10 o2:5 o2:15", ">1-20", 0 },
  { "two inlets of parallel chambers", "L20 b1:5 i1:2 i1:15 o2:10", ">1-20", 0 },
  { "in at the middle, out above and below", "L30 b1:10 b1:20 i1:15 o1:5 o1:25", ">11-20 <1-10+21-30", 0 },
  { "two ways of unlike length", "L40 b1:10 b1:20 b1:30 b2:10 i1:15 o1:35 o1:5",
    /* from the middle chamber (11–20) by the right chamber 11–40 up to 31–40; 21–30 is a pocket, as is all
       above */
    ">11-20 <31-40 x1-10 no way x21-30 no way",
    TW_PASSES_DEAD_TUBES | TW_PASSES_DEAD_CHAMBER | TW_PASSES_DEAD_PORT },
  { "a pocket without a port", "L30 b1:20 i1:10 o2:5", ">1-20 x21-30 no way",
    TW_PASSES_DEAD_TUBES | TW_PASSES_DEAD_CHAMBER },
  { "nothing between in and out", "L30 b1:15 b2:15 i1:5 o2:20", "x1-15 no way x16-30 no way",
    TW_PASSES_NO_WAY | TW_PASSES_DEAD_TUBES | TW_PASSES_DEAD_CHAMBER | TW_PASSES_DEAD_PORT },
  { "inlets at both ends of a tube", "L20 b2:10 b1:10 i1:5 i2:5 i1:15 o2:15", ">11-20 x1-10 balanced",
    TW_PASSES_DEAD_TUBES | TW_PASSES_BALANCED_BRIDGE | TW_PASSES_DEAD_CHAMBER | TW_PASSES_DEAD_PORT },
  /* Hoses make Wheatstone's bridge of five groups of ten: R1 is in, L3 out, L1 and R2 one arm, L2 and R3 the
   * other, tubes 21–30 between the arms. */
  { "bridge in balance", "L50 b1:10 b1:30 b2:20 b2:40 x1:5 x1:20 x2:30 x2:45 i2:10 o1:40 h1:3 h2:4",
    "<1-20 <31-50 x21-30 balanced", TW_PASSES_DEAD_TUBES | TW_PASSES_BALANCED_BRIDGE },
  /* The same with 12, 8, 10, 10, 10 tubes: arms at x, y: 12(1−x) = 10(x−y) + 10x and 8(1−y) + 10(x−y) = 10y,
   * so x = 0.522613, y = 0.472362; all 10(x+y) = 9.94975, over the bridge 0.50251, out of the arms 5.22613
   * and 4.72362. */
  { "bridge out of balance", "L50 b1:12 b1:30 b2:20 b2:40 x1:5 x1:20 x2:30 x2:45 i2:10 o1:40 h1:3 h2:4",
    "<1-20 <21-40@0.576 <41-50@0.475", 0 },
  { "plugged tube", "L31 b1:16 p5 i1:3 o1:29", ">1-4+6-16 <17-31", 0 },
  { "plugged in one row", "L31 r3 b1:16 p5/2 p6/2 i1:3 o1:29", ">1-4+5-6/1+5-6/3+7-16 <17-31", 0 },
  { "baffle on a mouth", "L31 m1:16 i1:3 o1:29", ">1-15 <17-31 x16 blocked",
    TW_PASSES_DEAD_TUBES | TW_PASSES_BLOCKED_MOUTHS },
  { "baffle on a plugged mouth", "L31 m1:16 p16 i1:3 o1:29", ">1-15 <17-31", 0 },
  { "one tube", "L1 i1:1 o2:1", ">1", 0 },
  { "400 tubes", "L400 b1:100 b2:200 b1:300 i1:50 o1:350", ">1-100 <101-200 >201-300 <301-400", 0 },
  { "two cores one after the other", "L10 c i1:2 x2:9 x3:2 o4:9 h2:3", "1>1-10 2>1-10", 0 },
  { "two cores, their ports called inlet and outlet", "L10 c i1:2 o2:9 i3:2 o4:9 h2:3", "1>1-10 2>1-10", 0 },
  { "two cores, back through the second", "L10 c i1:2 o2:9 i4:2 o3:9 h2:3", "1>1-10 2<1-10", 0 },
  { "two cores side by side", "L10 c i1:2 o2:9 i3:2 o4:9", "1>1-10@0.500 2>1-10@0.500", 0 },
  /* the second alone has a baffle: its way is twice as long and half as wide, so a quarter of the first's
     flow */
  { "two unlike cores side by side", "L10 c b3:5 i1:2 o2:9 i3:2 o3:9",
    "1>1-10@0.800 2>1-5@0.200 2<6-10@0.200", 0 },
  { "a core that nothing leads to", "L10 c i1:2 o2:9", "1>1-10 2x1-10 no way",
    TW_PASSES_DEAD_TUBES | TW_PASSES_DEAD_CHAMBER },
  { "a hose round the core in place of a right tank's bend", "L20 b1:10 b2:10 i1:5 x2:5 x2:15 o1:15 h2:3",
    ">1-10 <11-20", 0 },
  { "a hose from side to side", "L20 b1:10 i1:5 x2:5 x1:15 o1:16 h2:3", ">1-10 x11-20 balanced",
    TW_PASSES_DEAD_TUBES | TW_PASSES_BALANCED_BRIDGE },
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TwJob) job = draw (c->drawn);
  g_auto (Found) found = find (job);
  g_autofree char *text = spell (&found);

  g_assert_cmpstr (text, ==, c->passes);
  g_assert_cmphex (tw_passes_flags (found.passes), ==, c->flags);
}

/* Flow area and velocity of the passes of one core; velocity in mm/s to the last digit that is published. */
typedef struct {
  const char *name;
  const char *drawn;
  double height_mm, width_mm, wall_mm, flow_l_min;
  double bore_mm2; /* (w − h)·h + π·h²/4 by hand */
  guint velocity_mm_s[3];
} Speed;

static const Speed speeds[] = {
  /* 44·1.4 + π·0.7² = 63.1394; 118.8 L/min = 1.98e6 mm³/s over 16, 15, 17, 14 of them */
  { "Merlin, tail", "L31 b1:16 i1:3 o1:29", 2.0, 46.0, 0.3, 118.8, 63.139, { 1960, 2091 } },
  { "Merlin, tail, a tube lower", "L31 b1:17 i1:3 o1:29", 2.0, 46.0, 0.3, 118.8, 63.139, { 1845, 2240 } },
  /* 28·1.4 + π·0.7² = 40.7394; 12.4 L/min = 206 667 mm³/s over 13 */
  { "Volt-9", "U26 b1:13 i1:7 o1:20", 2.0, 30.0, 0.3, 12.4, 40.739, { 390, 390 } },
};

static void
test_speed (gconstpointer data)
{
  const Speed *c = data;
  g_autoptr (TwJob) job = draw (c->drawn);
  Found found;

  tw_make_set_number (job, "core-1", "tube_height_mm", c->height_mm);
  tw_make_set_number (job, "core-1", "tube_width_mm", c->width_mm);
  tw_make_set_number (job, "core-1", "tube_wall_mm", c->wall_mm);
  tw_make_set_number (job, "core-1", "thickness_mm", c->width_mm + 2.0);
  tw_make_set_number (job, "job", "flow_l_min", c->flow_l_min);
  found = find (job);
  g_assert_cmpfloat_with_epsilon (tw_tubes_grid (found.tubes, 0)->bore_area_mm2, c->bore_mm2, 0.0005);
  for (guint i = 0; i < 3; i++) {
    const TwPass *pass = tw_passes_get (found.passes, i);

    g_assert_true ((pass == NULL) == (c->velocity_mm_s[i] == 0));
    if (pass == NULL)
      continue;
    g_assert_cmpfloat_with_epsilon (pass->area_mm2, pass->n_bores * c->bore_mm2, 0.001 * pass->n_bores);
    g_assert_cmpuint ((guint)(pass->velocity_m_s * 1000.0 + 0.5), ==, c->velocity_mm_s[i]);
  }
  found_clear (&found);
}

static void
test_no_flow_typed (void)
{
  g_autoptr (TwJob) job = draw ("L10 i1:1 o2:10");
  g_auto (Found) found = find (job);

  g_assert_true (isnan (tw_passes_get (found.passes, 0)->velocity_m_s));
  g_assert_cmpfloat (tw_passes_get (found.passes, 0)->share, ==, 1.0);
}

/* Ten tubes of 400 with tanks of 110 by 54 by 50, wall 2: inside 106 by 50 by 48; a baffle of 2 after tube 4
 * leaves 106 − 2 − 65 + … : from the upper end inside at 53 down to its upper face at 11, and from 9 to −53.
 */
static void
test_chambers (void)
{
  g_autoptr (TwJob) job = draw ("L10 b1:4 i1:2 o1:8 x2:5");
  g_auto (Found) found = find (job);
  const TwChamber *upper = tw_passes_chamber (found.passes, 0), *lower = tw_passes_chamber (found.passes, 1);
  const TwChamber *right = tw_passes_chamber (found.passes, 2);

  g_assert_cmpuint (tw_passes_n_chambers (found.passes), ==, 3);
  g_assert_cmpfloat_with_epsilon (upper->to_mm, 53.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (upper->from_mm, 11.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (lower->to_mm, 9.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (lower->from_mm, -53.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (upper->across_from_mm, -4.0, 1e-12); /* 21 − 27 + 2 */
  g_assert_cmpfloat_with_epsilon (upper->across_to_mm, 46.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (upper->volume_l, 42.0 * 50.0 * 48.0 / 1e6, 1e-12);
  g_assert_cmpfloat_with_epsilon (right->volume_l, 106.0 * 50.0 * 48.0 / 1e6, 1e-12);
  g_assert_cmpuint (upper->n_tubes, ==, 4);
  g_assert_cmpuint (lower->n_tubes, ==, 6);
  g_assert_cmpuint (right->n_tubes, ==, 10);
  g_assert_true (upper->has_flow && lower->has_flow && right->has_flow);
  g_assert_cmpuint (upper->n_ports, ==, 1);
  g_assert_cmpstr (tw_passes_port (found.passes, upper->first_port)->port.text, ==, "port-1");
  g_assert_cmpstr (tw_passes_port (found.passes, lower->first_port)->port.text, ==, "port-2");
  g_assert_cmpstr (tw_passes_port (found.passes, right->first_port)->port.text, ==, "port-3");
  g_assert_cmpfloat_with_epsilon (tw_passes_port (found.passes, upper->first_port)->along_mm, 35.0, 1e-12);
}

static void
expect_concerned (const Found *found, TwPassesFlags flag, const char *ids)
{
  guint n;
  const TwId *concerned = tw_passes_concerned (found->passes, flag, &n);
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < n; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? " " : "", concerned[i].text);
  g_assert_cmpstr (text->str, ==, ids);
  g_assert_cmpint ((tw_passes_flags (found->passes) & flag) != 0, ==, n > 0);
}

static void
test_concerned (void)
{
  g_autoptr (TwJob) job = draw ("L30 m1:10 b1:20 b2:25 i1:3 o1:14 o2:3 x2:5");
  Found found;

  tw_make_set_number (job, "baffle-3", "place_mm", 154.0); /* in the end wall, 153 to 155 */
  tw_make_set_number (job, "port-1", "bore_mm", 150.0);    /* over the baffle at tube 10: 70 away */
  tw_make_set_number (job, "port-4", "along_mm", 156.0);
  found = find (job);
  expect_concerned (&found, TW_PASSES_BLOCKED_MOUTHS, "baffle-1");
  expect_concerned (&found, TW_PASSES_STRAY_BAFFLE, "baffle-3");
  expect_concerned (&found, TW_PASSES_PORT_ON_BAFFLE, "port-1 port-4");
  expect_concerned (&found, TW_PASSES_PORT_OFF_TANK, "port-4");
  expect_concerned (&found, TW_PASSES_DEAD_TUBES, "core-1");
  expect_concerned (&found, TW_PASSES_DEAD_CHAMBER, "tank-1");
  expect_concerned (&found, TW_PASSES_NO_INLET, "");
  found_clear (&found);
  tw_make_set (job, "tank-2", "side", "top");
  found = find (job);
  expect_concerned (&found, TW_PASSES_WRONG_SIDE, "tank-2");
  expect_concerned (&found, TW_PASSES_OPEN_HEADER, "core-1");
  expect_concerned (&found, TW_PASSES_DEAD_PORT, "port-3");
  found_clear (&found);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strconcat ("/layout/passes/", cases[i].name, NULL);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  for (guint i = 0; i < G_N_ELEMENTS (speeds); i++) {
    g_autofree char *path = g_strconcat ("/layout/passes/speed/", speeds[i].name, NULL);

    g_test_add_data_func (path, &speeds[i], test_speed);
  }
  g_test_add_func ("/layout/passes/no flow typed", test_no_flow_typed);
  g_test_add_func ("/layout/passes/chambers", test_chambers);
  g_test_add_func ("/layout/passes/concerned", test_concerned);
  return g_test_run ();
}
