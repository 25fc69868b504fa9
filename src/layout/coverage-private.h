/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * coverage-private.h - what the files of layout/coverage share
 */
#pragma once

#include "layout/coverage.h"

G_BEGIN_DECLS

/* Two fans whose swept discs reach into each other. */
typedef struct {
  guint a;
  guint b;
  double depth_mm; /* on the line of their centres */
  TwArea *both;    /* of the discs, on the face or not */
  TwArea *on_face; /* what of it lies on the face */
} TwFanPair;

/* The fans of one core as areas in (u, v). Two that only touch are apart. */
typedef struct {
  TwBox face;
  GPtrArray *fans;     /* of const TwPlacedFan, in the drawing's order, owned by the placement */
  GPtrArray *discs;    /* of TwArea: what each sweeps */
  GPtrArray *on_face;  /* of TwArea: what of it lies on the face */
  GArray *pairs;       /* of TwFanPair */
  gboolean has_threes; /* three discs reach into each other, so that pairs do not tell all */
  guint n_left_out;
} TwFans;

/* Fills @fans; drop them afterwards. */
void
tw_coverage_take_fans (const TwPlacement *placement, TwGeos *geos, const TwPlacedCore *core, TwFans *fans);
void tw_coverage_drop_fans (TwFans *fans);

/* Swept areas, each fan's own figures, and overlaps of @face. */
void
tw_coverage_measure_fans (const TwPlacement *placement, TwGeos *geos, const TwFans *fans, TwFaceCover *face);

/* Each fan's part of the union, @own_mm2 (out, array of all fans): area that k fans sweep counts 1/k to each.
 */
void tw_coverage_share_out (TwGeos *geos, const TwFans *fans, double *own_mm2);

/* Area of @boxed that fans sweep. */
double tw_coverage_swept_in_mm2 (TwGeos *geos, const TwFans *fans, TwArea *boxed);

/* Sheet between rings and flaps. */
void tw_coverage_find_gaps (const TwPlacement *placement, TwId core, TwFaceCover *face);

G_END_DECLS
