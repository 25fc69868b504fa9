/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * passes.h - which tubes carry the water, in which order and which way
 *
 * From the drawing alone: chambers lie between end walls and baffles, a tube joins the two chambers that its
 * mouths open into (by the mouth's centre), hoses from port to port join chambers of one or several cores,
 * and the water is followed from the inlets to the outlets. No pattern is assumed.
 *
 * Direction, order and shares come from a plain solution: all inlets at one pressure, all outlets at another,
 * every tube lets the same flow through for the same difference, chambers, ports and hoses hold nothing back.
 * That gives direction and order; where passes lie in parallel the shares are a first guess and the true ones
 * are the network's (cooling). Where all the water goes one way, shares and velocities are exact. Reynolds
 * numbers and losses are not computed here.
 */
#pragma once

#include "layout/tubes.h"

G_BEGIN_DECLS

/* What can be said of the whole; the ids that each concerns are at tw_passes_concerned(). */
typedef enum {
  TW_PASSES_NO_INLET = 1 << 0,  /* no port of that use; concerns the cores */
  TW_PASSES_NO_OUTLET = 1 << 1, /* the same */
  TW_PASSES_NO_WAY = 1 << 2,    /* inlet and outlet are there, no tubes lead from one to the other: ports */
  TW_PASSES_SHORT_CIRCUIT = 1 << 3, /* an inlet and an outlet open into one chamber: the ports */
  TW_PASSES_DEAD_TUBES = 1 << 4,    /* tubes that carry nothing, plugged ones not counted: the cores */
  TW_PASSES_DEAD_CHAMBER = 1 << 5,  /* a chamber with no way through: the tanks */
  TW_PASSES_DEAD_PORT = 1 << 6,     /* an inlet or outlet through which nothing can flow: the ports */
  TW_PASSES_BLOCKED_MOUTHS
  = 1 << 7, /* covered in part or whole, or outside the tanks: baffles, tanks, cores */
  TW_PASSES_BALANCED_BRIDGE = 1 << 8, /* tubes between chambers of equal pressure: the tanks */
  TW_PASSES_OPEN_HEADER = 1 << 9,     /* a header side without any tank: the cores */
  TW_PASSES_WRONG_SIDE = 1 << 10,     /* a tank on a side where no tubes end: the tanks */
  TW_PASSES_STRAY_BAFFLE = 1 << 11,   /* a baffle that parts nothing, beyond its tank's walls: the baffles */
  TW_PASSES_PORT_ON_BAFFLE = 1 << 12, /* a port's bore reaches into two chambers: the ports */
  TW_PASSES_PORT_OFF_TANK = 1 << 13,  /* a port's middle lies beyond its tank's walls: the ports */
} TwPassesFlags;

/* The way of the water in the Face view. */
typedef enum {
  TW_FLOWS_NOWHERE,
  TW_FLOWS_RIGHT,
  TW_FLOWS_LEFT,
  TW_FLOWS_DOWN,
  TW_FLOWS_UP,
} TwFlows;

/* Tubes that lie together: places @first to @last along the header, rows @first_row to @last_row. */
typedef struct {
  guint first, last;         /* from 1 */
  guint first_row, last_row; /* from 1 */
} TwTubeRange;

/* Why tubes carry nothing. */
typedef enum {
  TW_DEAD_NOT,      /* they carry water */
  TW_DEAD_UNKNOWN,  /* no inlet, no outlet or no tank yet */
  TW_DEAD_BLOCKED,  /* the middle of a mouth is covered or outside every tank */
  TW_DEAD_NO_WAY,   /* nothing flows through one of their chambers */
  TW_DEAD_BALANCED, /* the pressure is the same at both ends */
} TwDeadWhy;

/* A room of a tank between its walls and baffles. */
typedef struct {
  TwId core;
  TwId tank;
  TwHeader header;
  double from_mm;        /* along the header, inside; from_mm < to_mm */
  double to_mm;          /* along the header, inside */
  double across_from_mm; /* across (w, from the face), inside */
  double across_to_mm;   /* across, inside */
  double volume_l;       /* inside, folds taken as sharp; NaN when the tank's depth is not known */
  guint n_tubes;         /* places along the header whose tubes open into it, plugged ones not counted */
  gboolean has_flow;     /* water goes through it */
  guint first_port;      /* its ports are these n_ports of tw_passes_port() */
  guint n_ports;
} TwChamber;

/* A port and the chamber that it opens into. */
typedef struct {
  TwId port;
  int use;              /* TW_PORT_INLET … */
  gboolean has_chamber; /* FALSE when its tank has none (wrong side, no inside) */
  guint chamber;        /* number of its chamber */
  double along_mm;      /* middle along the header */
  double across_mm;     /* middle across */
  gboolean is_joined;   /* a hose joins it to a port of a core: neither an inlet nor an outlet of the whole */
} TwChamberPort;

/* All tubes that join the same two chambers. */
typedef struct {
  TwId core;
  guint chamber[TW_N_HEADERS]; /* where its mouths open; G_MAXUINT when one opens nowhere */
  TwFlows flows;
  TwDeadWhy why;
  guint level;     /* of the pass that it belongs to, from 1; 0 when it carries nothing */
  guint n_tubes;   /* places along the header */
  guint n_bores;   /* tubes, rows counted */
  double area_mm2; /* inside, of all its tubes */
  double share;    /* of the flow through all inlets, dimensionless; NaN when the water takes a short cut */
  const TwTubeRange *ranges; /* by place along the header, then row */
  guint n_ranges;
} TwTubeGroup;

/* Groups that the water takes at the same time, the same way, through one core. */
typedef struct {
  TwId core;
  guint level; /* the how manieth crossing on the longest way from an inlet, from 1 */
  TwFlows flows;
  guint first_group; /* its groups are these n_groups of tw_passes_group() */
  guint n_groups;
  guint n_tubes;             /* places along the header */
  guint n_bores;             /* tubes, rows counted */
  double area_mm2;           /* flow area, inside, of all its tubes */
  double share;              /* of the flow through all inlets, dimensionless; NaN with a short cut */
  double velocity_m_s;       /* mean, at the job's flow; NaN when that is not typed or the share is NaN */
  const TwTubeRange *ranges; /* by place along the header, then row */
  guint n_ranges;
} TwPass;

typedef struct _TwPasses TwPasses; /* never changes once found; may be shared between threads */

/**
 * tw_passes_find:
 * @placement: only read during the call
 * @tubes: found from the same placement; not kept
 *
 * Finds chambers, groups and passes. Cannot fail: a half-drawn job gives what it has, and flags for what is
 * missing. The order of parts in the job does not matter.
 *
 * Returns: (transfer full): free with tw_passes_unref()
 */
TwPasses *tw_passes_find (const TwPlacement *placement, const TwTubes *tubes) G_GNUC_WARN_UNUSED_RESULT;
TwPasses *tw_passes_ref (TwPasses *self);
void tw_passes_unref (TwPasses *self);

/* Passes in the order in which the water takes them; side by side ones by core and way. (transfer none), NULL
 * past the last, as in all that follow. */
guint tw_passes_count (const TwPasses *self);
const TwPass *tw_passes_get (const TwPasses *self, guint nth);

/* All groups: those of the passes first, in their order, then those that carry nothing. */
guint tw_passes_n_groups (const TwPasses *self);
const TwTubeGroup *tw_passes_group (const TwPasses *self, guint nth);

/* By core, header side, place along the header (as tubes are counted) and across. */
guint tw_passes_n_chambers (const TwPasses *self);
const TwChamber *tw_passes_chamber (const TwPasses *self, guint nth);

/* By chamber, then id; those without a chamber last. */
guint tw_passes_n_ports (const TwPasses *self);
const TwChamberPort *tw_passes_port (const TwPasses *self, guint nth);

/* Plugged tubes of a core (places and rows as the job says them, counted once). */
guint tw_passes_n_plugged (const TwPasses *self, TwId core);

/* All that can be said of the whole. */
TwPassesFlags tw_passes_flags (const TwPasses *self);

/* Parts that one flag concerns, sorted by id; @n (out) may be 0. (transfer none) */
const TwId *tw_passes_concerned (const TwPasses *self, TwPassesFlags flag, guint *n);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwPasses, tw_passes_unref)

G_END_DECLS
