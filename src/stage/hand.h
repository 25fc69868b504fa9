/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * hand.h - press, move, type, release: from a gesture in a view to changes of the job
 *
 * A whole drag is one step of the history: it opens with the first movement and closes when the hand lets go.
 * All movements are measured from the press, so nothing adds up. The hand keeps the placement of the press;
 * the job may be altered by nothing else until it lets go. What the job would refuse (an outline that crosses
 * itself) is not done: the part stays where it last could be, and tw_hand_refusal() says why.
 *
 * A port that is held alone goes over to another wall, of its tank or of another one, when the pointer leaves
 * its own: fields `tank` and `wall` are then set too, and the figures are those of the new wall.
 *
 * For the canvas: tw_hand_take() at the press, tw_hand_move() with each movement, tw_hand_release() at the
 * end, tw_hand_cancel() with Escape or a lost grab. While holding, mark tw_hand_figures() in the form, draw
 * tw_hand_snaps() with their guide lines and say their words, and send what is typed with Enter to
 * tw_hand_type(); a refused text leaves the drag as it was, ready for another. After a text was taken,
 * release (Enter) or cancel (Escape).
 */
#pragma once

#include "job/history.h"
#include "stage/grip.h"
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
  gboolean no_carry; /* a port stays in its wall */
} TwHandManner;

/* What is taken. One grip, or the bodies of several parts; all follow one drawn distance, each as its own
 * freedoms allow. The first one snaps, the others follow it where they can. */
typedef struct {
  const TwStageView *view;
  const TwGrip *grips;
  guint n_grips;
  TwPoint at;        /* of the press: mm of the view */
  const char *label; /* what undo calls it, translated, or NULL: named after the fields */
} TwHandGrasp;

/* One figure that the drag changes or can change in this view. */
typedef struct {
  TwId part;
  TwId element;     /* of the part; none: the part itself */
  guint field;      /* of the element's kind, or of the part's */
  double value_mm;  /* now */
  gboolean changed; /* it is not as it was at the press */
  gboolean typed;   /* the pointer no longer moves it */
} TwHandFigure;

typedef struct _TwHand TwHand;

/* With nothing in it. (transfer full) */
TwHand *tw_hand_new (void) G_GNUC_WARN_UNUSED_RESULT;
/* Cancels what is held. */
void tw_hand_free (TwHand *self);

/* Whether @part can be moved in @view at all. */
gboolean tw_hand_can_move (const TwPlacement *placement, const TwStageView *view, TwId part);

/**
 * tw_hand_take:
 * @grasp: only read during the call
 *
 * Takes hold. Nothing is changed yet. Of several parts those that cannot be moved in this view stay where
 * they are.
 *
 * Returns: FALSE when nothing of it can be moved in this view; the hand then stays empty
 */
gboolean tw_hand_take (TwHand *self, const TwHandBench *bench, const TwHandGrasp *grasp);

/* The same for the body of one part. */
gboolean tw_hand_press (TwHand *self,
                        const TwHandBench *bench,
                        const TwStageView *view,
                        TwId part,
                        TwPoint at,
                        const char *label);

/* Moves what is held. A place that is no number moves nothing. Returns whether anything changed. */
gboolean tw_hand_move (TwHand *self, TwPoint at, const TwHandManner *manner);

/**
 * tw_hand_type:
 * @nth: of tw_hand_figures()
 * @text: as typed, in any unit that the trade uses; kept as typed in the job
 * @style: what a number without a unit means
 *
 * Sets a figure while it is held. What goes with it goes along (the middle with the width); the pointer no
 * longer moves it. The drag stays open.
 *
 * Returns: FALSE when the text is refused, with what is accepted; the drag is then as it was
 */
gboolean tw_hand_type (TwHand *self, guint nth, const char *text, const TwUnitStyle *style, GError **error);

/* Lets go: what was moved is one step of the history. */
void tw_hand_release (TwHand *self);
/* Lets go and puts everything back as it was at the press. */
void tw_hand_cancel (TwHand *self);

/* Between press and release. */
gboolean tw_hand_is_holding (const TwHand *self);
/* The part that is held (the first of several), or TW_ID_NONE. */
TwId tw_hand_part (const TwHand *self);
/* The grip by which part number @nth is held, as it was at the press; NULL past the last. (transfer none) */
const TwGrip *tw_hand_grip (const TwHand *self, guint nth);

/* The figures that the drag changes, those that a person would name first; until the next call that alters
 * the hand. (transfer none) (array length=n) */
const TwHandFigure *tw_hand_figures (const TwHand *self, guint *n);

/* Fields of the held part itself that the drag has changed; @n may be 0. (transfer none) */
const guint *tw_hand_fields (const TwHand *self, guint *n);

/* What it snapped to with the last movement: one for each direction that snapped, the most telling first.
 * (transfer none) (array length=n) */
const TwSnap *tw_hand_snaps (const TwHand *self, guint *n);
/* The first of them; kind TW_SNAP_NONE when there is none. (transfer none) */
const TwSnap *tw_hand_snap (const TwHand *self);

/* Why the last movement was not done, translated; NULL when it was. (transfer none) */
const char *tw_hand_refusal (const TwHand *self);

/* By arrow keys. */
typedef struct {
  int right;       /* steps to the right, negative to the left */
  int up;          /* steps upwards, negative downwards */
  gboolean inches; /* a step is 1/16 in, else 1 mm */
  gboolean ten;    /* ten steps at once */
  gboolean gap;    /* a baffle goes to the next gap between two tubes, or of two rows; other parts: a step */
} TwHandNudge;

/* One step of the history: moves @part by steps and takes no snap. FALSE when it cannot be moved so. */
gboolean tw_hand_nudge (const TwHandBench *bench,
                        const TwStageView *view,
                        TwId part,
                        const TwHandNudge *nudge,
                        const char *label);

/* The same for a grip or several bodies; the press's place is not read. */
gboolean tw_hand_nudge_all (const TwHandBench *bench, const TwHandGrasp *grasp, const TwHandNudge *nudge);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwHand, tw_hand_free)

G_END_DECLS
