/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * snap-private.h - how the files of stage/snap say where something wants to be
 */
#pragma once

#include "stage/snap.h"

#include <glib/gi18n-lib.h>
#include <math.h>

G_BEGIN_DECLS

/* A search for places of one freedom. */
typedef struct {
  const TwSnapBench *bench;
  const TwGrip *grip;
  const TwFreedom *freedom;
  const TwFreedomTarget *target; /* the figure that a person would name */
  const double *amounts_mm;      /* of all freedoms of the grip */
  guint nth;                     /* which freedom it is */
  double amount_mm;              /* where the pointer has it */
  GArray *list;                  /* of TwSnap */
} TwSnapSearch;

/* The figure is to be @value_mm. */
void tw_snap_add_value (TwSnapSearch *self, TwSnapKind kind, double value_mm, TwId other);
/* The same with the place that it is taken from: job frame. */
void tw_snap_add_value_at (TwSnapSearch *self, TwSnapKind kind, double value_mm, TwId other, TwVec place);
/* The freedom is to go by @amount_mm. */
void tw_snap_add_amount (TwSnapSearch *self, TwSnapKind kind, double amount_mm, TwId other, TwVec place);

/* What the figure is where the pointer has it, and before the gesture. */
double tw_snap_value_mm (const TwSnapSearch *self);

/* Whether a part moves along and so is no neighbour. */
gboolean tw_snap_moves (const TwSnapSearch *self, TwId part);

/* One for each subject; they look at the grip themselves and add what they know. */
void tw_snap_tubes (TwSnapSearch *self);
void tw_snap_tanks (TwSnapSearch *self);
void tw_snap_faces (TwSnapSearch *self);
void tw_snap_bays (TwSnapSearch *self);

G_END_DECLS
