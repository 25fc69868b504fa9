/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/passes-private.h"

#define L_MIN_IN_M3_S 60000.0
#define MM2_IN_M2 1e6

/* Those that carry first, by level, core, way and place. */
static int
by_pass (gconstpointer a, gconstpointer b)
{
  const TwBundle *x = a, *y = b;
  gint64 keys[][2] = { { x->group.level == 0, y->group.level == 0 },
                       { x->group.level, y->group.level },
                       { x->tubes->core, y->tubes->core },
                       { x->group.flows, y->group.flows },
                       { x->group.why, y->group.why },
                       { x->tubes->tube, y->tubes->tube },
                       { x->tubes->row, y->tubes->row } };

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keys[i][0] != keys[i][1])
      return keys[i][0] < keys[i][1] ? -1 : 1;
  return 0;
}

static int
by_tube (gconstpointer a, gconstpointer b)
{
  const TwGroupTube *x = a, *y = b;

  if (x->tube != y->tube)
    return x->tube < y->tube ? -1 : 1;
  return (x->row > y->row) - (x->row < y->row);
}

static gboolean
in_pass (const TwPass *pass, const TwTubeGroup *group)
{
  return pass->level == group->level && pass->flows == group->flows && tw_id_equal (pass->core, group->core);
}

static void
add_pass (TwPassesNet *net, guint first, double flow_l_min)
{
  const TwTubeGroup *lead = &g_array_index (net->bundles, TwBundle, first).group;
  TwPass pass = { .core = lead->core, .level = lead->level, .flows = lead->flows, .first_group = first };
  g_autoptr (GArray) tubes = g_array_new (FALSE, FALSE, sizeof (TwGroupTube));

  for (guint i = first; i < net->bundles->len; i++) {
    const TwBundle *bundle = &g_array_index (net->bundles, TwBundle, i);

    if (!in_pass (&pass, &bundle->group))
      break;
    pass.n_groups++;
    pass.n_bores += bundle->n_bores;
    pass.share += bundle->group.share;
    g_array_append_vals (tubes, bundle->tubes, bundle->n_bores);
  }
  g_array_sort (tubes, by_tube);
  pass.area_mm2 = pass.n_bores * g_array_index (net->bundles, TwBundle, first).grid->bore_area_mm2;
  pass.velocity_m_s = pass.share * flow_l_min / L_MIN_IN_M3_S / (pass.area_mm2 / MM2_IN_M2);
  pass.ranges = tw_tube_groups_ranges (net->self, (const TwGroupTube *)(const void *)tubes->data, tubes->len,
                                       &pass.n_ranges, &pass.n_tubes);
  g_array_append_val (net->self->passes, pass);
}

static void
gather_passes (TwPassesNet *net, double flow_l_min)
{
  GArray *groups = net->self->groups;

  g_array_sort (net->bundles, by_pass);
  for (guint i = 0; i < net->bundles->len; i++) {
    const TwTubeGroup *group = &g_array_index (net->bundles, TwBundle, i).group;
    const TwPass *last = net->self->passes->len > 0
                             ? &g_array_index (net->self->passes, TwPass, net->self->passes->len - 1)
                             : NULL;

    g_array_append_val (groups, *group);
    if (group->level > 0 && (last == NULL || !in_pass (last, group)))
      add_pass (net, i, flow_l_min);
  }
}

static TwPasses *
make_empty (void)
{
  TwPasses *self = g_atomic_rc_box_new0 (TwPasses);

  self->chambers = g_array_new (FALSE, TRUE, sizeof (TwChamber));
  self->open = g_array_new (FALSE, TRUE, sizeof (TwBox));
  self->ports = g_array_new (FALSE, TRUE, sizeof (TwChamberPort));
  self->groups = g_array_new (FALSE, TRUE, sizeof (TwTubeGroup));
  self->passes = g_array_new (FALSE, TRUE, sizeof (TwPass));
  self->tallies = g_array_new (FALSE, TRUE, sizeof (TwCoreTally));
  self->ranges = g_ptr_array_new_with_free_func (g_free);
  return self;
}

TwPasses *
tw_passes_find (const TwPlacement *placement, const TwTubes *tubes)
{
  const TwDrawing *drawing = tw_placement_drawing (placement);
  TwPasses *self = make_empty ();
  g_autofree guint *joined = NULL, *doors = NULL;
  g_autofree TwNetEnds *ends = NULL;
  g_autoptr (GArray) bundles = NULL, all_tubes = NULL;
  TwPassesNet net = { .self = self };

  tw_chambers_collect (self, placement);
  net.bundles = bundles = tw_tube_groups_collect (self, placement, tubes, &all_tubes);
  net.joined = joined = g_new (guint, self->chambers->len + 1);
  net.doors = doors = g_new0 (guint, self->chambers->len + 1);
  net.ends = ends = g_new0 (TwNetEnds, self->chambers->len + 1);
  for (guint i = 0; i < self->chambers->len; i++)
    joined[i] = i;
  tw_passes_net_follow (&net, drawing);
  gather_passes (&net, tw_drawing_settings (drawing)->flow_l_min);
  tw_passes_judge (&net, drawing, tubes);
  return self;
}

static void
clear_passes (gpointer data)
{
  TwPasses *self = data;

  g_array_unref (self->chambers);
  g_array_unref (self->open);
  g_array_unref (self->ports);
  g_array_unref (self->groups);
  g_array_unref (self->passes);
  g_array_unref (self->tallies);
  g_ptr_array_unref (self->ranges);
  for (guint bit = 0; bit < TW_PASSES_N_FLAGS; bit++)
    g_clear_pointer (&self->concerned[bit], g_array_unref);
}

TwPasses *
tw_passes_ref (TwPasses *self)
{
  return g_atomic_rc_box_acquire (self);
}

void
tw_passes_unref (TwPasses *self)
{
  g_atomic_rc_box_release_full (self, clear_passes);
}

guint
tw_passes_count (const TwPasses *self)
{
  return self->passes->len;
}

const TwPass *
tw_passes_get (const TwPasses *self, guint nth)
{
  return nth < self->passes->len ? &g_array_index (self->passes, TwPass, nth) : NULL;
}

guint
tw_passes_n_groups (const TwPasses *self)
{
  return self->groups->len;
}

const TwTubeGroup *
tw_passes_group (const TwPasses *self, guint nth)
{
  return nth < self->groups->len ? &g_array_index (self->groups, TwTubeGroup, nth) : NULL;
}

guint
tw_passes_n_chambers (const TwPasses *self)
{
  return self->chambers->len;
}

const TwChamber *
tw_passes_chamber (const TwPasses *self, guint nth)
{
  return nth < self->chambers->len ? &g_array_index (self->chambers, TwChamber, nth) : NULL;
}

guint
tw_passes_n_ports (const TwPasses *self)
{
  return self->ports->len;
}

const TwChamberPort *
tw_passes_port (const TwPasses *self, guint nth)
{
  return nth < self->ports->len ? &g_array_index (self->ports, TwChamberPort, nth) : NULL;
}

const TwCoreTally *
tw_passes_tally (const TwPasses *self, TwId core)
{
  for (guint i = 0; i < self->tallies->len; i++)
    if (tw_id_equal (g_array_index (self->tallies, TwCoreTally, i).core, core))
      return &g_array_index (self->tallies, TwCoreTally, i);
  return NULL;
}

guint
tw_passes_n_plugged (const TwPasses *self, TwId core)
{
  const TwCoreTally *tally = tw_passes_tally (self, core);

  return tally == NULL ? 0 : tally->n_plugged;
}

TwPassesFlags
tw_passes_flags (const TwPasses *self)
{
  return self->flags;
}

const TwId *
tw_passes_concerned (const TwPasses *self, TwPassesFlags flag, guint *n)
{
  GArray *ids = self->concerned[g_bit_nth_lsf (flag, -1)];

  *n = ids == NULL ? 0 : ids->len;
  return ids == NULL ? NULL : (const TwId *)(const void *)ids->data;
}
