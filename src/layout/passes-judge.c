/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/passes-private.h"

#include <string.h>

void
tw_passes_concern (TwPasses *self, TwPassesFlags flag, TwId id)
{
  guint bit = (guint)g_bit_nth_lsf (flag, -1);

  self->flags |= flag;
  if (self->concerned[bit] == NULL)
    self->concerned[bit] = g_array_new (FALSE, FALSE, sizeof (TwId));
  g_array_append_val (self->concerned[bit], id);
}

/* Whether both header sides of a core have a chamber: before that, nothing is said of what it carries. */
static gboolean
is_closed (const TwPasses *self, TwId core)
{
  const TwCoreTally *tally = tw_passes_tally (self, core);

  return tally != NULL && tally->is_closed;
}

static void
judge_ports (const TwPassesNet *net)
{
  TwPasses *self = net->self;

  for (guint i = 0; i < self->ports->len; i++) {
    const TwChamberPort *port = &g_array_index (self->ports, TwChamberPort, i);

    if (!tw_passes_is_end (port))
      continue;
    if (!port->has_chamber) {
      tw_passes_concern (self, TW_PASSES_DEAD_PORT, port->port);
      continue;
    }
    if (!net->has_inlet || !net->has_outlet)
      continue;
    if (net->ends[tw_passes_net_node (net, port->chamber)] == TW_NET_BOTH)
      tw_passes_concern (self, TW_PASSES_SHORT_CIRCUIT, port->port);
    else if (!g_array_index (self->chambers, TwChamber, port->chamber).has_flow
             && is_closed (self, g_array_index (self->chambers, TwChamber, port->chamber).core))
      tw_passes_concern (self, TW_PASSES_DEAD_PORT, port->port);
  }
}

static void
judge_no_way (const TwPassesNet *net)
{
  TwPasses *self = net->self;

  if (!net->has_inlet || !net->has_outlet || self->passes->len > 0 || net->has_short_cut)
    return;
  for (guint i = 0; i < self->tallies->len; i++)
    if (!g_array_index (self->tallies, TwCoreTally, i).is_closed)
      return;
  for (guint i = 0; i < self->ports->len; i++)
    if (tw_passes_is_end (&g_array_index (self->ports, TwChamberPort, i)))
      tw_passes_concern (self, TW_PASSES_NO_WAY, g_array_index (self->ports, TwChamberPort, i).port);
}

static void
judge_groups (const TwPassesNet *net)
{
  TwPasses *self = net->self;

  for (guint i = 0; i < self->groups->len; i++) {
    const TwTubeGroup *group = &g_array_index (self->groups, TwTubeGroup, i);

    if (group->why == TW_DEAD_BLOCKED || group->why == TW_DEAD_NO_WAY || group->why == TW_DEAD_BALANCED)
      tw_passes_concern (self, TW_PASSES_DEAD_TUBES, group->core);
    for (guint header = 0; group->why == TW_DEAD_BALANCED && header < TW_N_HEADERS; header++)
      tw_passes_concern (self, TW_PASSES_BALANCED_BRIDGE,
                         g_array_index (self->chambers, TwChamber, group->chamber[header]).tank);
  }
  for (guint i = 0; net->has_inlet && net->has_outlet && i < self->chambers->len; i++) {
    const TwChamber *chamber = &g_array_index (self->chambers, TwChamber, i);

    if (!chamber->has_flow && is_closed (self, chamber->core))
      tw_passes_concern (self, TW_PASSES_DEAD_CHAMBER, chamber->tank);
  }
}

/* What needs no water to be seen. */
static void
judge_drawing (const TwPassesNet *net, const TwDrawing *drawing, const TwTubes *tubes)
{
  TwPasses *self = net->self;
  TwHeader header;

  for (guint i = 0; i < tw_tubes_n_covers (tubes); i++)
    tw_passes_concern (self, TW_PASSES_BLOCKED_MOUTHS, tw_tubes_cover (tubes, i)->by);
  for (guint i = 0; i < tw_tubes_n_grids (tubes); i++) {
    TwId core = tw_tubes_grid (tubes, i)->core;
    const TwCoreTally *tally = tw_passes_tally (self, core);

    if (tally != NULL && !tally->is_closed)
      tw_passes_concern (self, TW_PASSES_OPEN_HEADER, core);
    if (!net->has_inlet)
      tw_passes_concern (self, TW_PASSES_NO_INLET, core);
    if (!net->has_outlet)
      tw_passes_concern (self, TW_PASSES_NO_OUTLET, core);
  }
  for (guint i = 0; i < tw_drawing_count (drawing, TW_KIND_TANK); i++) {
    const TwTank *tank = TW_DRAWING_TANK (drawing, i);
    const TwPart *core = tw_drawing_find (drawing, tank->core);
    TwTubeGrid grid;

    if (core == NULL)
      continue;
    grid = tw_tube_grid ((const TwCore *)core);
    if (!tw_tube_header (&grid, tank, &header))
      tw_passes_concern (self, TW_PASSES_WRONG_SIDE, tank->head.id);
  }
}

static int
by_id (gconstpointer a, gconstpointer b)
{
  return strcmp (((const TwId *)a)->text, ((const TwId *)b)->text);
}

/* Each id once. */
static void
tidy_concerned (TwPasses *self)
{
  for (guint bit = 0; bit < TW_PASSES_N_FLAGS; bit++) {
    GArray *ids = self->concerned[bit];
    guint kept = 0;

    if (ids == NULL)
      continue;
    g_array_sort (ids, by_id);
    for (guint i = 0; i < ids->len; i++)
      if (kept == 0 || !tw_id_equal (g_array_index (ids, TwId, kept - 1), g_array_index (ids, TwId, i)))
        g_array_index (ids, TwId, kept++) = g_array_index (ids, TwId, i);
    g_array_set_size (ids, kept);
  }
}

void
tw_passes_judge (const TwPassesNet *net, const TwDrawing *drawing, const TwTubes *tubes)
{
  judge_ports (net);
  judge_no_way (net);
  judge_groups (net);
  judge_drawing (net, drawing, tubes);
  tidy_concerned (net->self);
}
