/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * hand.h - press, move, release: from a gesture in a view to changes of the job
 *
 * A whole drag is one step of the history: it opens with the first movement and closes when the hand lets go.
 * All movements are measured from the press, so nothing adds up. The hand keeps the placement of the press;
 * the job may be altered by nothing else until it lets go.
 */
#pragma once

#include "job/history.h"
#include "stage/snap.h"

G_BEGIN_DECLS

/* What a hand works on. Everything is (transfer none); placement and passes of the job as it is now. */
typedef struct {
  TwJob *job;
  TwHistory *history;
  const TwPlacement *placement;
  const TwPasses *passes; /* NULL: no chambers to snap to */
} TwHandBench;

/* How a movement is taken. */
typedef struct {
  double reach_mm;   /* how near a snap must be */
  double step_mm;    /* what is not snapped is rounded to this; 0: not rounded */
  gboolean no_snaps; /* held off by a key */
} TwHandManner;

typedef struct _TwHand TwHand;

/* With nothing in it. (transfer full) */
TwHand *tw_hand_new (void) G_GNUC_WARN_UNUSED_RESULT;
/* Cancels what is held. */
void tw_hand_free (TwHand *self);

/* Whether @part can be moved in @view at all. */
gboolean tw_hand_can_move (const TwPlacement *placement, const TwStageView *view, TwId part);

/**
 * tw_hand_press:
 * @at: in the view's mm
 * @label: what undo calls it, translated, or NULL: named after the fields
 *
 * Takes hold of @part. Nothing is changed yet.
 *
 * Returns: FALSE when it cannot be moved in this view; the hand then stays empty
 */
gboolean tw_hand_press (TwHand *self,
                        const TwHandBench *bench,
                        const TwStageView *view,
                        TwId part,
                        TwPoint at,
                        const char *label);

/* Moves what is held. Returns whether anything changed. */
gboolean tw_hand_move (TwHand *self, TwPoint at, const TwHandManner *manner);

/* Lets go: what was moved is one step of the history. */
void tw_hand_release (TwHand *self);
/* Lets go and puts everything back as it was at the press. */
void tw_hand_cancel (TwHand *self);

/* Between press and release. */
gboolean tw_hand_is_holding (const TwHand *self);
/* The part that is held, or TW_ID_NONE. */
TwId tw_hand_part (const TwHand *self);
/* What it snapped to with the last movement; kind TW_SNAP_NONE when nothing. (transfer none) */
const TwSnap *tw_hand_snap (const TwHand *self);
/* The fields that the drag has changed; @n may be 0. (transfer none) */
const guint *tw_hand_fields (const TwHand *self, guint *n);

/* By arrow keys. */
typedef struct {
  int right;       /* steps to the right, negative to the left */
  int up;          /* steps upwards, negative downwards */
  gboolean inches; /* a step is 1/16 in, else 1 mm */
  gboolean ten;    /* ten steps at once */
} TwHandNudge;

/* One step of the history: moves @part by steps and takes no snap. FALSE when it cannot be moved so. */
gboolean tw_hand_nudge (const TwHandBench *bench,
                        const TwStageView *view,
                        TwId part,
                        const TwHandNudge *nudge,
                        const char *label);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwHand, tw_hand_free)

G_END_DECLS
