/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * passes-private.h - the passes while they are being found
 *
 * Steps, a file each: chambers.c parts the tanks and puts the ports in, tube-groups.c gathers the tubes by
 * the chambers that they join, passes-net.c follows the water, passes.c gathers passes, passes-judge.c raises
 * flags.
 */
#pragma once

#include "layout/passes.h"

G_BEGIN_DECLS

#define TW_PASSES_N_FLAGS 14

/* What was found. */
struct _TwPasses {
  GArray *chambers;  /* of TwChamber */
  GArray *open;      /* of TwBox, by chamber: x across, y along the header; lips taken off */
  GArray *ports;     /* of TwChamberPort */
  GArray *groups;    /* of TwTubeGroup */
  GArray *passes;    /* of TwPass */
  GArray *tallies;   /* of TwCoreTally, of cores with tubes, by id */
  GPtrArray *ranges; /* of arrays of TwTubeRange, owned; groups and passes point at them */
  GArray *concerned[TW_PASSES_N_FLAGS]; /* of TwId, by bit */
  TwPassesFlags flags;
};

/* What is known of a core's tubes together. */
typedef struct {
  TwId core;
  guint n_plugged;
  gboolean is_closed; /* both header sides have a chamber */
} TwCoreTally;

/* One tube that is not plugged: a place along the header and a row. */
typedef struct {
  guint core;                  /* rank of its core by id: its tally */
  guint chamber[TW_N_HEADERS]; /* both G_MAXUINT when the middle of a mouth opens into none */
  guint tube, row;
} TwGroupTube;

/* Tubes that join the same two chambers, with what passes.c learns of them. */
typedef struct {
  const TwTubeGrid *grid;
  const TwGroupTube *tubes;
  guint n_bores;
  TwTubeGroup group;
} TwBundle;

/* What stands at a node of the net. */
typedef enum {
  TW_NET_INLET = 1 << 0,
  TW_NET_OUTLET = 1 << 1,
  TW_NET_BOTH = TW_NET_INLET | TW_NET_OUTLET, /* the water takes a short cut */
} TwNetEnds;

/* The net while the water is followed: chambers that nothing parts are one node. */
typedef struct {
  TwPasses *self;
  GArray *bundles; /* of TwBundle */
  guint *joined;   /* by chamber: one that it is joined to, itself at the end of the chain */
  TwNetEnds *ends; /* by chamber; of the last in the chain */
  guint *doors;    /* by chamber: hoses, inlets and outlets that open into it */
  gboolean has_inlet, has_outlet, has_short_cut;
} TwPassesNet;

/* Raises @flag for the part @id. */
void tw_passes_concern (TwPasses *self, TwPassesFlags flag, TwId id);

/* Fills chambers, open and ports. */
void tw_chambers_collect (TwPasses *self, const TwPlacement *placement);

/* Fills tallies and the chambers' counts of tubes. Returns (transfer full) an array of TwBundle; @tubes (out)
 * (transfer full) is what they point at. */
GArray *
tw_tube_groups_collect (TwPasses *self, const TwPlacement *placement, const TwTubes *grids, GArray **tubes);

/* Ranges of @n tubes, sorted by place and row; owned by @self. @n_tubes (out): places along the header. */
const TwTubeRange *
tw_tube_groups_ranges (TwPasses *self, const TwGroupTube *tubes, guint n, guint *n_ranges, guint *n_tubes);

/* The tally of a core, or NULL. */
const TwCoreTally *tw_passes_tally (const TwPasses *self, TwId core);

/* Joins chambers, follows the water, tells each bundle what it carries and each chamber whether it flows. */
void tw_passes_net_follow (TwPassesNet *net, const TwDrawing *drawing);

/* Chamber that stands for all that nothing parts from @chamber. */
guint tw_passes_net_node (const TwPassesNet *net, guint chamber);

/* Whether a port lets the water of the whole in or out. */
gboolean tw_passes_is_end (const TwChamberPort *port);

/* Raises all flags but those of chambers.c. */
void tw_passes_judge (const TwPassesNet *net, const TwDrawing *drawing, const TwTubes *tubes);

G_END_DECLS
