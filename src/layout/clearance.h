/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * clearance.h - how far everything stays off what takes room and off the bay's walls
 *
 * True distances in space between the solids of the parts and each taken volume, and between them and the
 * boundary of the bay, which is the union of the free volumes. What is made and placed here counts: blocks
 * with their header plates, tanks, ports, shrouds, fans, header tanks, hoses. Engine ports are the engine's
 * own. Hoses leave the bay, so its walls do not count for them, nor for a header tank that stands wholly
 * outside; nor, where a hose is joined to an engine port, do the
 * pieces at that end count against a volume in which the port sits.
 *
 * In this version the free volumes must be drawn in one plane, whichever it is: slab by slab along its third
 * axis their outlines united are the bay. Otherwise a flag says so, and no distance to the bay is found.
 */
#pragma once

#include "layout/placement.h"

G_BEGIN_DECLS

typedef enum {
  TW_CLEARANCE_NO_BAY = 1 << 0, /* the job has no free volume: only taken ones were looked at */
  TW_CLEARANCE_MIXED_BAY
  = 1 << 1,                      /* free volumes drawn in different planes: only taken ones were looked at */
  TW_CLEARANCE_TROUBLE = 1 << 2, /* the polygon library refused something: figures are not to be trusted */
} TwClearanceFlags;

/* A part and what it must stay off. */
typedef struct {
  TwId part;           /* core, tank, port, shroud, fan, header tank or hose */
  TwSolidRole role;    /* of its nearest solid */
  TwId other;          /* the taken volume, or the free one whose wall is nearest */
  gboolean is_bay;     /* @other is free: a wall of the bay */
  double distance_mm;  /* 0 when they touch or cross */
  gboolean crosses;    /* the part reaches into the volume, or out through the wall */
  gboolean is_outside; /* of the bay, the nearest solid wholly: @distance_mm is then how far */
  double depth_mm; /* of a crossing: the least move along a face's normal that frees it from the volume (of a
                    * concave one: from its convex piece that it is deepest in), or how far it stands out
                    * through the wall; outside: how far it reaches away from the wall; else 0 */
  double required_mm; /* the volume's clearance as the drawing fills it */
  double over_mm;     /* distance less required; of a crossing or outside: -depth less required */
  TwVec at_part;      /* the two nearest places; one place when they touch or cross */
  TwVec at_other;
} TwClearancePair;

typedef struct _TwClearance TwClearance; /* never changes once found; share it between threads */

/**
 * tw_clearance_find:
 * @placement: not kept
 * @geos: a handle, used during the call
 * @hoses: (array length=n_hoses) (nullable): solids of the hose runs, those of one run together
 * @n_hoses: how many
 *
 * Returns: (transfer full): free with tw_clearance_unref()
 */
TwClearance *tw_clearance_find (const TwPlacement *placement,
                                TwGeos *geos,
                                const TwPlacedSolid *hoses,
                                guint n_hoses) G_GNUC_WARN_UNUSED_RESULT;
TwClearance *tw_clearance_ref (const TwClearance *self);
void tw_clearance_unref (TwClearance *self);

/* What was not looked at, and whether the figures can be trusted. */
TwClearanceFlags tw_clearance_flags (const TwClearance *self);

/* With TW_CLEARANCE_MIXED_BAY: the first free volume that is not drawn in the plane of the first; else none.
 */
TwId tw_clearance_odd_volume (const TwClearance *self);

/* Every pair, in the order of the parts' solids, for each the taken volumes in their order and then the bay.
 * Of a part and a volume there is one pair: that with the least @over_mm. (transfer none) (array length=n) */
const TwClearancePair *tw_clearance_pairs (const TwClearance *self, guint *n);

/* The pair with the least distance, the deepest crossing before all; the first of equals. NULL without pairs.
 */
const TwClearancePair *tw_clearance_nearest (const TwClearance *self);

/* The pair with the least @over_mm: what to mend first. NULL without pairs. */
const TwClearancePair *tw_clearance_tightest (const TwClearance *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwClearance, tw_clearance_unref)

G_END_DECLS
