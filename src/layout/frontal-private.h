/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * frontal-private.h - what the files of layout/frontal share: the light that falls on one face
 */
#pragma once

#include "layout/frontal.h"

G_BEGIN_DECLS

/* Shadows smaller than this are rounding, not parts. */
#define TW_FRONTAL_NOTHING_MM2 1e-6

/* One convex piece of a free volume. */
typedef struct {
  TwSolidBox bounds;
  TwHalfSpace *halves; /* what is in all of them is in the piece */
  guint n_halves;
} TwRoom;

/* The air on its way to one face, as light. */
typedef struct {
  TwGeos *geos;
  const TwPlacedCore *core;
  TwVec air;            /* direction of the air in core coordinates */
  TwHalfSpace upstream; /* before the plane of the face */
  TwHalfSpace beam[4];  /* between the air's ways through the four edges of the face */
  TwFrame view;         /* its w is the air's direction, its origin the middle of the face */
  TwMap to_face;        /* from the view's (u, v) along the air to the face's */
  const GArray *rooms;  /* of TwRoom; NULL: everything counts */
} TwLight;

/* What is being gathered of one part. */
typedef struct {
  GPtrArray *areas;  /* of TwArea, on the face */
  double nearest_mm; /* from the face along the air's way */
} TwGathered;

/* Pieces of all free volumes; NULL when the job has none. */
GArray *tw_frontal_rooms (const TwPlacement *placement) G_GNUC_WARN_UNUSED_RESULT;

/* Light on @core, which the air meets. */
TwLight tw_light_on (TwGeos *geos, const TwPlacedCore *core, const GArray *rooms);

/**
 * tw_light_shadow:
 * @solids: (array length=n_solids): all solids of one part, in their order
 * @distance_mm: (out): from the face to the nearest place that shades it, along the air's way
 *
 * Returns: (transfer full): what they shade of the face, in (u, v)
 */
TwArea *tw_light_shadow (const TwLight *self,
                         const TwPlacedSolid *solids,
                         guint n_solids,
                         double *distance_mm) G_GNUC_WARN_UNUSED_RESULT;

/* What of a polyhedron shades the face. */
void tw_light_gather_polyhedron (const TwLight *self, TwConvex *solid, TwGathered *gathered);

/* What of the hose shades it whose piece is @solids[@at] and goes on from there. Returns the place after what
 * was gathered; @at itself when that is no piece of hose. */
guint tw_light_gather_tubes (const TwLight *self,
                             const TwPlacedSolid *solids,
                             guint n,
                             guint at,
                             TwGathered *gathered);

/* Keeps @area (taken) unless it is empty. */
void tw_light_gather_area (TwArea *area, TwGathered *gathered);

G_END_DECLS
