/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/passes-private.h"

#include "layout/ways-private.h"

#include <math.h>

guint
tw_passes_net_node (const TwPassesNet *net, guint chamber)
{
  while (net->joined[chamber] != chamber)
    chamber = net->joined[chamber] = net->joined[net->joined[chamber]];
  return chamber;
}

static void
join (TwPassesNet *net, guint a, guint b)
{
  guint x = tw_passes_net_node (net, a), y = tw_passes_net_node (net, b);

  net->joined[MAX (x, y)] = MIN (x, y);
  net->ends[MIN (x, y)] |= net->ends[MAX (x, y)];
}

/* The port with that id, if main water may flow through it and it opens into a chamber. */
static TwChamberPort *
water_port (const TwPassesNet *net, TwId id)
{
  for (guint i = 0; i < net->self->ports->len; i++) {
    TwChamberPort *port = &g_array_index (net->self->ports, TwChamberPort, i);

    if (tw_id_equal (port->port, id))
      return port->has_chamber
                     && (port->use == TW_PORT_INLET || port->use == TW_PORT_OUTLET
                         || port->use == TW_PORT_SPARE)
                 ? port
                 : NULL;
  }
  return NULL;
}

static void
join_by_hoses (TwPassesNet *net, const TwDrawing *drawing)
{
  guint n = tw_drawing_count (drawing, TW_KIND_HOSE);

  for (guint i = 0; i < n; i++) {
    const TwHose *hose = TW_DRAWING_HOSE (drawing, i);
    TwChamberPort *from = water_port (net, hose->from), *to = water_port (net, hose->to);

    if (from == NULL || to == NULL)
      continue;
    from->is_joined = to->is_joined = TRUE;
    net->doors[from->chamber]++;
    net->doors[to->chamber]++;
    join (net, from->chamber, to->chamber);
  }
}

/* Whether a port lets the water of the whole in or out. */
gboolean
tw_passes_is_end (const TwChamberPort *port)
{
  return !port->is_joined && (port->use == TW_PORT_INLET || port->use == TW_PORT_OUTLET);
}

static void
find_ends (TwPassesNet *net)
{
  for (guint i = 0; i < net->self->ports->len; i++) {
    const TwChamberPort *port = &g_array_index (net->self->ports, TwChamberPort, i);

    if (!tw_passes_is_end (port) || !port->has_chamber)
      continue;
    net->ends[tw_passes_net_node (net, port->chamber)]
        |= port->use == TW_PORT_INLET ? TW_NET_INLET : TW_NET_OUTLET;
    net->doors[port->chamber]++;
    net->has_inlet |= port->use == TW_PORT_INLET;
    net->has_outlet |= port->use == TW_PORT_OUTLET;
  }
}

/* All inlets have one pressure, all outlets another: their nodes become one each, and what holds both a
 * third, held halfway between. Returns how many are held. */
static guint
join_ends (TwPassesNet *net, TwWaysHeld held[TW_WAYS_MOST_HELD])
{
  static const double pressures[] = { [TW_NET_INLET] = 1.0, [TW_NET_OUTLET] = 0.0, [TW_NET_BOTH] = 0.5 };
  guint n = 0;

  for (guint ends = TW_NET_INLET; ends <= TW_NET_BOTH; ends++) {
    guint first = G_MAXUINT;

    for (guint i = 0; i < net->self->chambers->len; i++) {
      if (net->joined[i] != i || net->ends[i] != ends)
        continue;
      if (first == G_MAXUINT)
        first = i;
      else
        join (net, first, i);
    }
    if (first != G_MAXUINT)
      held[n++] = (TwWaysHeld){ first, pressures[ends] };
    net->has_short_cut |= first != G_MAXUINT && ends == TW_NET_BOTH;
  }
  return n;
}

static TwFlows
flows_of (const TwTubeGrid *grid, int runs)
{
  if (runs == 0)
    return TW_FLOWS_NOWHERE;
  if (grid->level)
    return runs > 0 ? TW_FLOWS_RIGHT : TW_FLOWS_LEFT;
  return runs > 0 ? TW_FLOWS_DOWN : TW_FLOWS_UP;
}

static TwDeadWhy
why_dead (const TwPassesNet *net, const TwBundle *bundle, const TwWaysFlow *flow)
{
  const TwTubeGroup *group = &bundle->group;

  if (!g_array_index (net->self->tallies, TwCoreTally, bundle->tubes->core).is_closed)
    return TW_DEAD_UNKNOWN;
  if (group->chamber[0] == G_MAXUINT)
    return TW_DEAD_BLOCKED;
  if (flow->runs != 0)
    return TW_DEAD_NOT;
  if (!net->has_inlet || !net->has_outlet)
    return TW_DEAD_UNKNOWN;
  if (flow->on_way
      || tw_passes_net_node (net, group->chamber[0]) == tw_passes_net_node (net, group->chamber[1]))
    return TW_DEAD_BALANCED;
  return TW_DEAD_NO_WAY;
}

/* Solves the net and tells each bundle what it carries. */
static void
follow_water (TwPassesNet *net)
{
  guint n = net->bundles->len;
  TwWaysHeld held[TW_WAYS_MOST_HELD];
  guint n_held = join_ends (net, held);
  g_autofree TwWaysLink *links = g_new0 (TwWaysLink, n + 1);
  g_autoptr (GArray) flows = NULL;
  double through = 0.0;

  for (guint i = 0; i < n; i++) {
    const TwTubeGroup *group = &g_array_index (net->bundles, TwBundle, i).group;

    links[i].ease = group->n_bores;
    if (group->chamber[0] == G_MAXUINT)
      continue; /* from node 0 to node 0: nothing */
    links[i].a = tw_passes_net_node (net, group->chamber[0]);
    links[i].b = tw_passes_net_node (net, group->chamber[1]);
  }
  flows = tw_ways_solve (net->self->chambers->len, held, n_held, links, n);
  for (guint i = 0; i < n; i++) {
    const TwWaysFlow *flow = &g_array_index (flows, TwWaysFlow, i);

    if (flow->runs != 0 && net->ends[flow->runs > 0 ? links[i].a : links[i].b] == TW_NET_INLET)
      through += flow->flow;
  }
  for (guint i = 0; i < n; i++) {
    TwBundle *bundle = &g_array_index (net->bundles, TwBundle, i);
    const TwWaysFlow *flow = &g_array_index (flows, TwWaysFlow, i);

    bundle->group.why = why_dead (net, bundle, flow);
    bundle->group.flows = flows_of (bundle->grid, flow->runs);
    bundle->group.level = flow->level;
    bundle->group.share = flow->runs == 0 ? 0.0 : net->has_short_cut ? (double)NAN : flow->flow / through;
  }
}

/* Which chambers water goes through: between tubes that carry, or from door to door. */
static void
mark_chambers (TwPassesNet *net)
{
  guint n = net->self->chambers->len;
  g_autofree gboolean *carries = g_new0 (gboolean, n + 1); /* by node */

  for (guint i = 0; i < net->bundles->len; i++) {
    const TwTubeGroup *group = &g_array_index (net->bundles, TwBundle, i).group;

    for (guint header = 0; group->level > 0 && header < TW_N_HEADERS; header++) {
      g_array_index (net->self->chambers, TwChamber, group->chamber[header]).has_flow = TRUE;
      carries[tw_passes_net_node (net, group->chamber[header])] = TRUE;
    }
  }
  for (guint i = 0; i < n; i++) {
    guint node = tw_passes_net_node (net, i);

    if (net->doors[i] > 1 && (carries[node] || net->ends[node] == TW_NET_BOTH))
      g_array_index (net->self->chambers, TwChamber, i).has_flow = TRUE;
  }
}

void
tw_passes_net_follow (TwPassesNet *net, const TwDrawing *drawing)
{
  join_by_hoses (net, drawing);
  find_ends (net);
  follow_water (net);
  mark_chambers (net);
}
