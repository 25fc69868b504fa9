/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/ways-private.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <math.h>

#define ROUNDING 1e-9

/* Links by node; links added between held nodes stand after the net's own. */
typedef struct {
  guint n_nodes;
  guint n_own;   /* links of the net */
  guint n_links; /* with the added ones */
  TwWaysLink *link;
  guint *first; /* by node, n_nodes + 1: its links are at[first[node]] to at[first[node + 1] - 1] */
  guint *at;
  gboolean *on_way; /* by link */
  double *pressure; /* by node, dimensionless */
} Net;

/* A node on the path that the search has come along. */
typedef struct {
  guint node;
  guint came_by; /* link; n_links for the first */
  guint next;    /* its next link to look at, a place in at */
} Step;

static guint
other_end (const TwWaysLink *link, guint node)
{
  return link->a == node ? link->b : link->a;
}

static void
sort_links (Net *net)
{
  net->first = g_new0 (guint, net->n_nodes + 2);
  net->at = g_new0 (guint, 2 * net->n_links + 1);
  for (guint i = 0; i < net->n_links; i++) {
    net->first[net->link[i].a + 2]++;
    net->first[net->link[i].b + 2]++;
  }
  for (guint node = 1; node <= net->n_nodes; node++)
    net->first[node + 1] += net->first[node];
  for (guint i = 0; i < net->n_links; i++) {
    net->at[net->first[net->link[i].a + 1]++] = i;
    net->at[net->first[net->link[i].b + 1]++] = i;
  }
}

static void
make_net (Net *net,
          guint n_nodes,
          const TwWaysHeld *held,
          guint n_held,
          const TwWaysLink *links,
          guint n_links)
{
  *net = (Net){ .n_nodes = n_nodes, .n_own = n_links, .n_links = n_links };
  net->link = g_new0 (TwWaysLink, n_links + TW_WAYS_MOST_HELD);
  for (guint i = 0; i < n_links; i++)
    net->link[i] = links[i];
  for (guint i = 0; i < n_held; i++)
    for (guint k = 0; k < i; k++)
      net->link[net->n_links++] = (TwWaysLink){ held[k].node, held[i].node, 1.0 };
  net->on_way = g_new0 (gboolean, net->n_links);
  net->pressure = g_new0 (double, n_nodes + 1);
  sort_links (net);
}

static void
clear_net (Net *net)
{
  g_free (net->link);
  g_free (net->first);
  g_free (net->at);
  g_free (net->on_way);
  g_free (net->pressure);
}

/* Takes the links of one block off @seen; they are on a way when an added one is among them. */
static void
close_block (Net *net, GArray *seen, guint last)
{
  guint from = seen->len;
  gboolean holds_added = FALSE;

  do
    holds_added = g_array_index (seen, guint, --from) >= net->n_own || holds_added;
  while (g_array_index (seen, guint, from) != last);
  for (guint i = from; holds_added && i < seen->len; i++)
    net->on_way[g_array_index (seen, guint, i)] = TRUE;
  g_array_set_size (seen, from);
}

/* The search for blocks: depth first, without recursion, for a chain of passes may be long. */
typedef struct {
  guint *met; /* by node: when, from 1; 0 not yet */
  guint *low; /* by node: the earliest that it and its followers reach back to */
  guint n_met;
  GArray *seen; /* of guint: links whose block is not closed yet */
  GArray *path; /* of Step */
} Search;

/* Looks along one link from the last node of the path. */
static void
look_along (const Net *net, Search *search, guint link)
{
  const Step *here = &g_array_index (search->path, Step, search->path->len - 1);
  guint node = here->node, to = other_end (&net->link[link], node);
  Step step = { to, link, net->first[to] };

  if (link == here->came_by || to == node || search->met[to] > search->met[node])
    return;
  g_array_append_val (search->seen, link);
  if (search->met[to] != 0) {
    search->low[node] = MIN (search->low[node], search->met[to]);
    return;
  }
  search->met[to] = search->low[to] = ++search->n_met;
  g_array_append_val (search->path, step);
}

/* Leaves the last node of the path. */
static void
step_back (Net *net, Search *search)
{
  Step last = g_array_index (search->path, Step, search->path->len - 1);
  guint before;

  g_array_set_size (search->path, search->path->len - 1);
  if (search->path->len == 0)
    return;
  before = g_array_index (search->path, Step, search->path->len - 1).node;
  search->low[before] = MIN (search->low[before], search->low[last.node]);
  if (search->low[last.node] >= search->met[before])
    close_block (net, search->seen, last.came_by);
}

static void
find_block (Net *net, guint start)
{
  g_autofree guint *met = g_new0 (guint, net->n_nodes), *low = g_new0 (guint, net->n_nodes);
  g_autoptr (GArray) seen = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (GArray) path = g_array_new (FALSE, FALSE, sizeof (Step));
  Search search = { met, low, 1, seen, path };
  Step begin = { start, net->n_links, net->first[start] };

  met[start] = low[start] = 1;
  g_array_append_val (path, begin);
  while (path->len > 0) {
    Step *here = &g_array_index (path, Step, path->len - 1);

    if (here->next < net->first[here->node + 1])
      look_along (net, &search, net->at[here->next++]);
    else
      step_back (net, &search);
  }
}

/* Numbers the nodes that are not held in the order in which they are met, breadth first (Cuthill and McKee's
 * order without the sorting): links then join near numbers. Returns how many. */
static guint
number_nodes (const Net *net, const TwWaysHeld *held, guint n_held, int *number)
{
  g_autofree guint *queue = g_new (guint, net->n_nodes);
  guint n_free = 0, n = 0;

  for (guint node = 0; node < net->n_nodes; node++)
    number[node] = -2;
  for (guint i = 0; i < n_held; i++) {
    queue[n++] = held[i].node;
    number[held[i].node] = -1;
  }
  for (guint i = 0; i < n; i++)
    for (guint k = net->first[queue[i]]; k < net->first[queue[i] + 1]; k++) {
      guint link = net->at[k], to = other_end (&net->link[link], queue[i]);

      if (link >= net->n_own || !net->on_way[link] || number[to] != -2)
        continue;
      number[to] = (int)n_free++;
      queue[n++] = to;
    }
  return n_free;
}

/* Puts one end of a link into the equations: @from is the row's node. */
static void
add_row (const Net *net,
         const TwWaysLink *link,
         const int *number,
         guint from,
         gsl_matrix *band,
         gsl_vector *right)
{
  guint to = other_end (link, from);
  int i = number[from], k = number[to];

  if (i < 0)
    return;
  *gsl_matrix_ptr (band, (gsize)i, 0) += link->ease;
  if (k < 0)
    *gsl_vector_ptr (right, (gsize)i) += link->ease * net->pressure[to];
  else if (k > i)
    *gsl_matrix_ptr (band, (gsize)i, (gsize)(k - i)) -= link->ease;
}

/* Pressures of the nodes on a way: what flows in flows out again. */
static void
solve_pressures (Net *net, const TwWaysHeld *held, guint n_held)
{
  g_autofree int *number = g_new (int, net->n_nodes);
  guint n_free = number_nodes (net, held, n_held, number);
  gsize reach = 0;
  gsl_matrix *band;
  gsl_vector *right;
  int status;

  for (guint i = 0; i < n_held; i++)
    net->pressure[held[i].node] = held[i].pressure;
  if (n_free == 0)
    return;
  for (guint i = 0; i < net->n_own; i++) {
    int a = number[net->link[i].a], b = number[net->link[i].b];

    if (net->on_way[i] && a >= 0 && b >= 0)
      reach = MAX (reach, (gsize)ABS (a - b));
  }
  band = gsl_matrix_calloc (n_free, reach + 1);
  right = gsl_vector_calloc (n_free);
  for (guint i = 0; i < net->n_own; i++)
    if (net->on_way[i]) {
      add_row (net, &net->link[i], number, net->link[i].a, band, right);
      add_row (net, &net->link[i], number, net->link[i].b, band, right);
    }
  status = gsl_linalg_cholesky_band_decomp (band);
  g_assert (status == GSL_SUCCESS); /* every free node has a way to a held one: positive definite */
  gsl_linalg_cholesky_band_svx (band, right);
  for (guint node = 0; node < net->n_nodes; node++)
    if (number[node] >= 0)
      net->pressure[node] = gsl_vector_get (right, (gsize)number[node]);
  gsl_matrix_free (band);
  gsl_vector_free (right);
}

static void
find_flows (const Net *net, TwWaysFlow *flows)
{
  double largest = 0.0;

  for (guint i = 0; i < net->n_own; i++) {
    double flow = net->link[i].ease * (net->pressure[net->link[i].a] - net->pressure[net->link[i].b]);

    flows[i].on_way = net->on_way[i];
    flows[i].flow = net->on_way[i] ? flow : 0.0;
    largest = MAX (largest, fabs (flows[i].flow));
  }
  for (guint i = 0; i < net->n_own; i++) {
    if (fabs (flows[i].flow) <= ROUNDING * largest)
      flows[i].flow = 0.0;
    flows[i].runs = flows[i].flow > 0.0 ? 1 : flows[i].flow < 0.0 ? -1 : 0;
    flows[i].flow = fabs (flows[i].flow);
  }
}

/* Highest pressure first; equal ones by number. */
static int
by_pressure (gconstpointer a, gconstpointer b, gpointer data)
{
  guint x = *(const guint *)a, y = *(const guint *)b;
  const double *pressure = data;

  if (pressure[x] != pressure[y])
    return pressure[x] > pressure[y] ? -1 : 1;
  return x < y ? -1 : x > y;
}

static void
find_levels (const Net *net, TwWaysFlow *flows)
{
  g_autofree guint *order = g_new (guint, net->n_nodes);
  g_autofree guint *level = g_new0 (guint, net->n_nodes);

  for (guint node = 0; node < net->n_nodes; node++)
    order[node] = node;
  g_qsort_with_data (order, (int)net->n_nodes, sizeof (guint), by_pressure, net->pressure);
  for (guint i = 0; i < net->n_nodes; i++)
    for (guint k = net->first[order[i]]; k < net->first[order[i] + 1]; k++) {
      guint link = net->at[k], to = other_end (&net->link[link], order[i]);
      gboolean leaves = link < net->n_own && flows[link].runs == (net->link[link].a == order[i] ? 1 : -1);

      if (!leaves)
        continue;
      flows[link].level = level[order[i]] + 1;
      level[to] = MAX (level[to], flows[link].level);
    }
}

GArray *
tw_ways_solve (guint n_nodes, const TwWaysHeld *held, guint n_held, const TwWaysLink *links, guint n_links)
{
  GArray *flows = g_array_sized_new (FALSE, TRUE, sizeof (TwWaysFlow), n_links);
  Net net;

  g_return_val_if_fail (n_held <= TW_WAYS_MOST_HELD, flows);
  g_array_set_size (flows, n_links);
  if (n_held < 2 || n_links == 0)
    return flows;
  make_net (&net, n_nodes, held, n_held, links, n_links);
  find_block (&net, held[0].node);
  solve_pressures (&net, held, n_held);
  find_flows (&net, (TwWaysFlow *)(void *)flows->data);
  find_levels (&net, (TwWaysFlow *)(void *)flows->data);
  clear_net (&net);
  return flows;
}
