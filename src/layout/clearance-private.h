/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * clearance-private.h - the bay as walls, for layout/clearance
 */
#pragma once

#include "layout/clearance.h"

G_BEGIN_DECLS

/* A flat convex piece of the bay's boundary. */
typedef struct {
  TwConvex *convex;
  TwVec out;          /* direction, out of the bay */
  TwId volume;        /* the free volume that ends here; the first of several */
  double required_mm; /* its clearance */
} TwBayWall;

/* The bay between two heights along the third axis of its plane, in which it does not change. */
typedef struct {
  double from_mm;
  double to_mm;
  TwArea *area; /* in the plane; may be empty */
} TwBaySlab;

/* The union of the free volumes. */
typedef struct {
  TwPlane plane;
  GArray *walls; /* of TwBayWall */
  GArray *slabs; /* of TwBaySlab, in order along the third axis */
} TwBay;

/* Of free volumes that are all drawn in one plane; none gives a bay without walls. Troubles stay in @geos.
 * (transfer full) */
TwBay *tw_bay_new (const TwPlacement *placement, TwGeos *geos) G_GNUC_WARN_UNUSED_RESULT;
void tw_bay_free (TwBay *self);

/* TRUE when the place @at lies in the bay. */
gboolean tw_bay_contains (const TwBay *self, TwVec at);

/* What a volume wants to be kept off, as the drawing fills it. */
double tw_clearance_required_mm (const TwPlacement *placement, TwId volume);

/* Appends the pairs (TwClearancePair) of all parts and hoses to @pairs; @bay is NULL when its walls are not
 * looked at. */
void tw_clearance_measure (const TwPlacement *placement,
                           const TwBay *bay,
                           const TwPlacedSolid *hoses,
                           guint n_hoses,
                           GArray *pairs);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwBay, tw_bay_free)

G_END_DECLS
