/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * tubes.h - where the tubes stand, how much water fits through one, and what lies over their mouths
 *
 * Along the header means +v (up) for level tubes and +u (to the right) for upright ones, from the middle of
 * the face; across means w, along the air, from the face. Tubes are counted by place along the header, from
 * the top (level) or from the left (upright), 1 first; rows are counted with the air, 1 first. Rows multiply
 * the area, not the count. A mouth is the inside section of a tube where it ends in the header plate.
 */
#pragma once

#include "layout/placement.h"

G_BEGIN_DECLS

/* The two header sides of a core. */
typedef enum {
  TW_HEADER_FIRST,  /* left of level tubes, top of upright ones */
  TW_HEADER_SECOND, /* right of level tubes, bottom of upright ones */
  TW_N_HEADERS
} TwHeader;

/* All tubes of a core: places follow from a first one and equal steps. */
typedef struct {
  TwId core;
  gboolean level;        /* cross-flow; else upright, down-flow */
  guint n_tubes;         /* places along the header; 0 when the core does not say enough */
  guint n_rows;          /* tubes behind each other along the air */
  double first_mm;       /* middle of tube 1 along the header */
  double step_mm;        /* from tube to tube along the header: negative for level tubes */
  double first_row_mm;   /* middle of row 1 across */
  double row_step_mm;    /* from row to row across, positive */
  double height_mm;      /* outside of a tube, along the header */
  double width_mm;       /* outside of a tube, across */
  double bore_height_mm; /* inside, along the header */
  double bore_width_mm;  /* inside, across */
  double bore_area_mm2;  /* of one tube, flat sides with round ends: (w − h)·h + π·h²/4 */
  double length_mm;      /* between the header plates: the face's width or height */
} TwTubeGrid;

/* The tubes of @core; not plugged ones are counted too. */
TwTubeGrid tw_tube_grid (const TwCore *core);

/* Middle of a tube along the header, of a row across. Counted from 1; not checked against the counts. */
double tw_tube_along_mm (const TwTubeGrid *grid, guint tube);
double tw_tube_across_mm (const TwTubeGrid *grid, guint row);

/* The header side that @tank closes; FALSE when its side is not a header side of the core (a tank on top of
 * level tubes): @header is then untouched. */
gboolean tw_tube_header (const TwTubeGrid *grid, const TwTank *tank, TwHeader *header);

/* Whether the job says that the tube at this place is plugged. */
gboolean tw_tube_is_plugged (const TwCore *core, guint tube, guint row);

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
  guint tube, row;  /* the tube that is nearest, from 1 */
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
