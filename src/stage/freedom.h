/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * freedom.h - which fields move a part, and which way
 *
 * A drag changes what the view shows and nothing else: each field that can move a part has a direction in the
 * job; the gesture's two distances are shared out over the fields by what the view sees of their directions.
 */
#pragma once

#include "layout/placement.h"

G_BEGIN_DECLS

#define TW_FREEDOM_MOST 3 /* fields that move one part */

/* The two directions of a view. */
typedef struct {
  TwVec across; /* direction, job frame: to the right on the screen */
  TwVec up;     /* direction, job frame: upwards on the screen */
} TwStageView;

/* The views of the job planes, and the one square on a core's face. */
TwStageView tw_stage_view_plane (TwPlane plane);
TwStageView tw_stage_view_face (const TwPlacedCore *core);

/* One field that moves a part. */
typedef struct {
  guint field;     /* of the part's kind */
  TwVec along;     /* direction, job frame: where the part goes when the figure grows */
  double value_mm; /* now, what is assumed where the job says nothing */
  double low_mm;   /* what the field takes */
  double high_mm;
} TwFreedom;

/* Fields that move @part: none for one without a place, or that nothing moves. Returns how many. */
guint tw_freedom_list (const TwPlacement *placement, TwId part, TwFreedom freedoms[TW_FREEDOM_MOST]);

/**
 * tw_freedom_solve:
 * @freedoms: (array length=n)
 * @view: in which it was drawn
 * @drawn: how far, in the view's mm
 * @amounts_mm: (out) (array length=n): by how much each figure grows
 *
 * The smallest amounts (in the sense of least squares) whose sum is seen as @drawn; what is seen shorter than
 * TW_FREEDOM_LEAST of its length does not move.
 *
 * Returns: FALSE when the view shows no direction in which the part can move
 */
gboolean tw_freedom_solve (const TwFreedom *freedoms,
                           guint n,
                           const TwStageView *view,
                           TwPoint drawn,
                           double *amounts_mm);

#define TW_FREEDOM_LEAST 0.2 /* dimensionless: the sine of 11.5° */

G_END_DECLS
