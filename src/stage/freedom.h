/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * freedom.h - which fields a gesture changes, and by how much
 *
 * A drag changes what the view shows and nothing else: each freedom has a direction in the job; the gesture's
 * two distances are shared out over the freedoms by what the view sees of their directions. One freedom may
 * change several figures at once, each by its own factor: the right edge of a shroud's mouth goes by a when
 * the width grows by a and the middle moves by a/2.
 */
#pragma once

#include "job/change.h"
#include "layout/placement.h"

G_BEGIN_DECLS

#define TW_FREEDOM_MOST 3    /* directions that one grip has */
#define TW_FREEDOM_LEAST 0.2 /* dimensionless: the sine of 11.5° */

/* The two directions of a view, and where its zero lies. */
typedef struct {
  TwVec across; /* direction, job frame: to the right on the screen */
  TwVec up;     /* direction, job frame: upwards on the screen */
  TwVec origin; /* a place that is seen at 0, 0: job frame; the job's zero in the views of the job planes */
} TwStageView;

/* The views of the job planes, and the one square on a core's face. */
TwStageView tw_stage_view_plane (TwPlane plane);
TwStageView tw_stage_view_face (const TwPlacedCore *core);

/* Where a place of the job is seen, and a direction: mm of the view. */
TwPoint tw_stage_view_place (const TwStageView *view, TwVec at);
TwPoint tw_stage_view_direction (const TwStageView *view, TwVec direction);
/* Towards the eye or away from it: direction, job frame. */
TwVec tw_stage_view_depth (const TwStageView *view);

/* One figure that a freedom changes. */
typedef struct {
  TwId element;    /* of the part; none: a field of the part itself */
  guint field;     /* of the element's kind, or of the part's */
  double factor;   /* dimensionless: by how much the figure grows while the freedom goes by 1 */
  double value_mm; /* before the gesture; what is assumed where the job says nothing */
} TwFreedomTarget;

/* One way that something can go. */
typedef struct {
  TwVec along;        /* direction, job frame: where it goes while the freedom grows */
  double low_mm;      /* the least it may go by: 0 or less; the ranges of its figures keep it so */
  double high_mm;     /* the most it may go by: 0 or more */
  guint first_target; /* its figures are these n_targets of the list; the first is the one that a person */
  guint n_targets;    /* would name: the width, the place */
} TwFreedom;

/* The freedoms of one grip, with the figures of all. */
typedef struct {
  TwFreedom list[TW_FREEDOM_MOST];
  guint n;
  GArray *targets; /* of TwFreedomTarget; owned */
} TwFreedoms;

/* With nothing in it. Clear it with tw_freedoms_clear(). */
TwFreedoms tw_freedoms (void);
void tw_freedoms_clear (TwFreedoms *self);
/* Target number @nth of freedom number @freedom. (transfer none) */
const TwFreedomTarget *tw_freedoms_target (const TwFreedoms *self, guint freedom, guint nth);

/**
 * tw_freedoms_solve:
 * @view: in which it was drawn
 * @held: (array length=TW_FREEDOM_MOST) (nullable): freedoms that do not take part, since their figures were
 *   typed
 * @drawn: how far, in the view's mm
 * @amounts_mm: (out) (array length=TW_FREEDOM_MOST): by how much each goes; 0 for those beyond the last
 *
 * The smallest amounts (in the sense of least squares) whose sum is seen as @drawn; what is seen shorter than
 * TW_FREEDOM_LEAST of its length does not move. Amounts are not limited to what the figures take.
 *
 * Returns: FALSE when the view shows no direction in which anything can go
 */
gboolean tw_freedoms_solve (const TwFreedoms *self,
                            const TwStageView *view,
                            const gboolean *held,
                            TwPoint drawn,
                            double *amounts_mm);

/* Adds to @group the sets by which @part's freedoms go by @amounts_mm: figures to a nanometre. Figures that
 * do not change are left out. */
void tw_freedoms_change (const TwFreedoms *self, TwId part, const double *amounts_mm, TwChange *group);

/* What is written of a figure that was moved: binary steps of an inch or a millimetre do not stay on the grid
 * of decimals (0.1 + 0.2), so it is rounded to a nanometre; never -0. */
double tw_freedom_clean_mm (double value_mm);

G_END_DECLS
