/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * tube-grid.h - how the tubes of a core are counted, where they stand and how much water fits through one
 *
 * Along the header means +v (up) for level tubes and +u (to the right) for upright ones, from the middle of
 * the face; across means w, along the air, from the face. Tubes are counted by place along the header, from
 * the top (level) or from the left (upright), 1 first; rows are counted with the air, 1 first. Rows multiply
 * the area, not the count.
 */
#pragma once

#include "job/drawing.h"

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

G_END_DECLS
