/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * tubes.h - where the tubes stand and what lies over their mouths
 *
 * A mouth is the inside section of a tube where it ends in the header plate. How tubes are counted and placed
 * stands in layout/tube-grid.h. Plugged tubes have no mouths.
 */
#pragma once

#include "layout/placement.h"
#include "layout/tube-grid.h"

G_BEGIN_DECLS

/* What lies over a mouth. */
typedef enum {
  TW_COVER_BAFFLE,
  TW_COVER_END_WALL,  /* of the tank, at its start or end */
  TW_COVER_SIDE_WALL, /* of the tank, on the air-in or air-out side */
  TW_COVER_LIP,       /* of the tank, on the header plate beyond the walls */
  TW_COVER_OUTSIDE,   /* nothing: this part of the mouth lies outside every tank of its side */
} TwCoverKind;

/* One mouth and one thing over it. */
typedef struct {
  TwId core;
  TwHeader header;
  guint tube, row; /* from 1 */
  TwCoverKind kind;
  TwId by;      /* baffle or tank; the core for TW_COVER_OUTSIDE */
  double share; /* of the mouth's area, dimensionless, above 0, at most 1 */
} TwCover;

/* The narrowest bare strip beside one baffle, wall or lip on the header plate. */
typedef struct {
  TwId core;
  TwHeader header;
  TwCoverKind kind; /* all but TW_COVER_OUTSIDE */
  TwId by;          /* baffle or tank */
  guint tube, row;  /* a tube that is nearest, from 1 */
  double land_mm;   /* from its edge to the outside of that tube; negative when it lies over the tube */
} TwLand;

typedef struct _TwTubes TwTubes; /* never changes once found; may be shared between threads */

/**
 * tw_tubes_find:
 * @placement: only read during the call
 *
 * Places, covers and lands of all cores. Cannot fail: a half-drawn job gives what it has.
 *
 * Returns: (transfer full): free with tw_tubes_unref()
 */
TwTubes *tw_tubes_find (const TwPlacement *placement) G_GNUC_WARN_UNUSED_RESULT;
TwTubes *tw_tubes_ref (TwTubes *self);
void tw_tubes_unref (TwTubes *self);

/* Grids in the order of the placement's cores; NULL past the last. (transfer none) */
guint tw_tubes_n_grids (const TwTubes *self);
const TwTubeGrid *tw_tubes_grid (const TwTubes *self, guint nth);

/* Covered mouths by core, header side, tube and row; on a side without any tank none is listed. (transfer
 * none)
 */
guint tw_tubes_n_covers (const TwTubes *self);
const TwCover *tw_tubes_cover (const TwTubes *self, guint nth);

/* One land for each baffle, end wall pair, side wall pair and lip that has a tube near it. (transfer none) */
guint tw_tubes_n_lands (const TwTubes *self);
const TwLand *tw_tubes_land (const TwTubes *self, guint nth);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwTubes, tw_tubes_unref)

G_END_DECLS
