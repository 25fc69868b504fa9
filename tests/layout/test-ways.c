/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Nets whose flows are known by hand: links in series and parallel, and Wheatstone's bridge.
 */
#include "layout/ways-private.h"

#include <math.h>
#include <string.h>

#define MOST 12

typedef struct {
  const char *name;
  guint n_nodes, n_links;
  TwWaysLink links[MOST];
  const char *runs; /* by link: > from a to b, < back, = balanced, . on no way */
  double flows[MOST];
  const char *levels; /* by link */
} Case;

/* Node 0 is held at 1, the last node at 0. */
static const Case cases[] = {
  { "one link", 2, 1, { { 0, 1, 3.0 } }, ">", { 3.0 }, "1" },
  { "one link, drawn the other way", 2, 1, { { 1, 0, 3.0 } }, "<", { 3.0 }, "1" },
  /* 1/4 + 1/4 + 1/2 = 1 */
  { "series", 4, 3, { { 0, 1, 4.0 }, { 2, 1, 4.0 }, { 2, 3, 2.0 } }, "><>", { 1.0, 1.0, 1.0 }, "123" },
  { "parallel", 2, 2, { { 0, 1, 1.0 }, { 0, 1, 2.0 } }, ">>", { 1.0, 2.0 }, "11" },
  { "dead end and loop on itself",
    4,
    3,
    { { 0, 3, 1.0 }, { 0, 1, 5.0 }, { 2, 2, 5.0 } },
    ">..",
    { 1.0, 0.0, 0.0 },
    "100" },
  { "a ring hanging on one node",
    5,
    5,
    { { 0, 1, 2.0 }, { 1, 4, 2.0 }, { 1, 2, 1.0 }, { 2, 3, 1.0 }, { 3, 1, 1.0 } },
    ">>...",
    { 1.0, 1.0 },
    "12000" },
  { "bridge in balance",
    4,
    5,
    { { 0, 1, 2.0 }, { 0, 2, 1.0 }, { 1, 2, 7.0 }, { 1, 3, 4.0 }, { 2, 3, 2.0 } },
    ">>=>>",
    { 4.0 / 3.0, 2.0 / 3.0, 0.0, 4.0 / 3.0, 2.0 / 3.0 },
    "11022" },
  /* Pressures x, y: 2(1−x) = (x−y) + x and (1−y) + (x−y) = 2y → 4x − y = 2, 4y − x = 1: x = 3/5, y = 2/5. */
  { "bridge out of balance",
    4,
    5,
    { { 0, 1, 2.0 }, { 0, 2, 1.0 }, { 1, 2, 1.0 }, { 1, 3, 1.0 }, { 2, 3, 2.0 } },
    ">>>>>",
    { 0.8, 0.6, 0.2, 0.6, 0.8 },
    "11223" },
  { "short way and long way",
    4,
    4,
    { { 0, 3, 1.0 }, { 0, 1, 3.0 }, { 1, 2, 3.0 }, { 2, 3, 3.0 } },
    ">>>>",
    { 1.0, 1.0, 1.0, 1.0 },
    "1123" },
  { "nothing joins them", 3, 1, { { 0, 1, 1.0 } }, ".", { 0.0 }, "0" },
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  const TwWaysHeld held[] = { { 0, 1.0 }, { c->n_nodes - 1, 0.0 } };
  g_autoptr (GArray) flows = tw_ways_solve (c->n_nodes, held, 2, c->links, c->n_links);

  g_assert_cmpuint (flows->len, ==, c->n_links);
  for (guint i = 0; i < c->n_links; i++) {
    const TwWaysFlow *flow = &g_array_index (flows, TwWaysFlow, i);

    g_assert_cmpint (flow->runs, ==, c->runs[i] == '>' ? 1 : c->runs[i] == '<' ? -1 : 0);
    g_assert_cmpint (flow->on_way, ==, c->runs[i] != '.');
    g_assert_cmpfloat_with_epsilon (flow->flow, c->flows[i], 1e-12);
    g_assert_cmpuint (flow->level, ==, (guint)(c->levels[i] - '0'));
  }
}

/* n links of ease 1 one after the other: each carries 1/n, and comes at its own place. */
static void
test_chain (void)
{
  const guint n = 2000;
  const TwWaysHeld held[] = { { 0, 1.0 }, { n, 0.0 } };
  g_autofree TwWaysLink *links = g_new (TwWaysLink, n);
  g_autoptr (GArray) flows = NULL;

  for (guint i = 0; i < n; i++)
    links[i] = (TwWaysLink){ i, i + 1, 1.0 };
  flows = tw_ways_solve (n + 1, held, 2, links, n);
  for (guint i = 0; i < n; i++) {
    g_assert_cmpuint (g_array_index (flows, TwWaysFlow, i).level, ==, i + 1);
    g_assert_cmpfloat_with_epsilon (g_array_index (flows, TwWaysFlow, i).flow, 1.0 / n, 1e-12);
  }
}

/* Between 0 (1), 1 (1/2) and 2 (0), all joined at 3 by ease 1: 3 stands at 1/2, so 1 carries nothing. */
static void
test_three_held (void)
{
  const TwWaysHeld held[] = { { 0, 1.0 }, { 2, 0.0 }, { 1, 0.5 } };
  const TwWaysLink links[] = { { 0, 3, 1.0 }, { 1, 3, 1.0 }, { 3, 2, 1.0 } };
  g_autoptr (GArray) flows = tw_ways_solve (4, held, 3, links, 3);
  const TwWaysFlow *flow = (const TwWaysFlow *)(const void *)flows->data;

  g_assert_cmpfloat_with_epsilon (flow[0].flow, 0.5, 1e-12);
  g_assert_cmpint (flow[1].runs, ==, 0);
  g_assert_true (flow[1].on_way);
  g_assert_cmpfloat_with_epsilon (flow[2].flow, 0.5, 1e-12);
}

static void
test_too_few_held (void)
{
  const TwWaysHeld held[] = { { 0, 1.0 } };
  const TwWaysLink links[] = { { 0, 1, 1.0 } };
  g_autoptr (GArray) flows = tw_ways_solve (2, held, 1, links, 1);

  g_assert_false (g_array_index (flows, TwWaysFlow, 0).on_way);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strconcat ("/layout/ways/", cases[i].name, NULL);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  g_test_add_func ("/layout/ways/long chain", test_chain);
  g_test_add_func ("/layout/ways/three held", test_three_held);
  g_test_add_func ("/layout/ways/one held", test_too_few_held);
  return g_test_run ();
}
