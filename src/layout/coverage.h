/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * coverage.h - how much of each core's face its fans sweep and its shrouds box in
 *
 * Swept areas use the swept diameter, as disc and as ring without the hub; what touches and where holes are
 * cut uses the ring diameter. Parts beyond the face do not count. Area that two fans share counts once in the
 * union and half to each (a third to each of three).
 */
#pragma once

#include "layout/placement.h"

G_BEGIN_DECLS

/* Fans of one core that are counted, and holes whose gaps are listed: no bench puts more on one core. */
#define TW_COVERAGE_MOST_FANS 32
#define TW_COVERAGE_MOST_HOLES 256

/* One fan over the face of its core. */
typedef struct {
  TwId fan;
  double on_face_mm2;   /* its disc on the face */
  double own_mm2;       /* its part of the union: what is shared, in equal parts */
  double own_share;     /* of the face, dimensionless */
  double face_over_mm;  /* how far the swept disc reaches beyond the face; 0: not at all */
  double face_over_mm2; /* area of the disc beyond the face */
  double mouth_over_mm; /* the same beyond the mouth of its shroud; 0 without a shroud */
  double mouth_over_mm2;
  double ring_mouth_over_mm; /* how far the ring reaches beyond that mouth; 0: not at all */
} TwFanCover;

/* Two fans whose swept discs share area. */
typedef struct {
  TwId a;
  TwId b;
  double depth_mm;    /* how far they reach into each other on the line between their centres */
  double area_mm2;    /* of the discs, on the face or not */
  double on_face_mm2; /* the part of it on the face */
} TwFanOverlap;

/* Two holes on one side of the core: rings of fans and openings of flaps. */
typedef struct {
  TwId a;      /* fan, or shroud of the flap */
  TwId a_flap; /* flap of that shroud; none for a fan */
  TwId b;      /* likewise */
  TwId b_flap;
  double
      gap_mm; /* sheet left between them; negative: how far they reach into each other; near 0 they touch */
} TwHoleGap;

/* One core's face. */
typedef struct {
  TwId core;
  double face_mm2;
  double swept_mm2;   /* discs, united, on the face */
  double swept_share; /* of the face, dimensionless */
  double ring_mm2;    /* discs without their hubs, united, on the face */
  double ring_share;  /* of the face, dimensionless */
  double boxed_mm2;   /* mouths of shrouds, united, on the face */
  double boxed_share; /* of the face, dimensionless */
  double unswept_mm2; /* boxed in, but swept by no fan */
  double flaps_mm2;   /* openings of ram flaps, united, on the face */
  guint n_shrouds;
  guint n_flaps;
  guint n_left_out; /* fans beyond TW_COVERAGE_MOST_FANS: not counted anywhere */
  guint n_fans;
  TwFanCover *fans; /* in the drawing's order; owned by the result */
  guint n_overlaps;
  TwFanOverlap *overlaps; /* owned by the result */
  guint n_gaps;
  TwHoleGap *gaps;      /* between all holes of one side, narrowest first; owned by the result */
  gboolean has_trouble; /* the polygon library refused something: figures are not to be trusted */
} TwFaceCover;

typedef struct _TwCoverage TwCoverage; /* never changes once found; share it between threads */

/**
 * tw_coverage_find:
 * @placement: not kept
 * @geos: a handle, used during the call
 *
 * Returns: (transfer full): one face for each core that has a place; free with tw_coverage_unref()
 */
TwCoverage *tw_coverage_find (const TwPlacement *placement, TwGeos *geos) G_GNUC_WARN_UNUSED_RESULT;
TwCoverage *tw_coverage_ref (const TwCoverage *self);
void tw_coverage_unref (TwCoverage *self);

/* Faces in the order of the cores. (transfer none) (array length=n) */
const TwFaceCover *tw_coverage_faces (const TwCoverage *self, guint *n);
/* By core; NULL when it has no place. (transfer none) */
const TwFaceCover *tw_coverage_face (const TwCoverage *self, TwId core);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwCoverage, tw_coverage_unref)

G_END_DECLS
