/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * hand-private.h - what a hand holds, for the files of stage/hand
 */
#pragma once

#include "stage/hand.h"

G_BEGIN_DECLS

#define TW_HAND_LAST_MM 1e-9 /* less is no movement */

/* One grip that is held. */
typedef struct {
  TwGrips *grips; /* of the press; owned */
  TwPart *before; /* the part at the press; counted */
  const TwGrip *grip;
  const TwFreedoms *freedoms;
  double amounts_mm[TW_FREEDOM_MOST]; /* as the job has them now */
  double before_mm[TW_FREEDOM_MOST];  /* before the movement that is under way */
  gboolean typed[TW_FREEDOM_MOST];    /* a figure of it was typed */
} TwHandHeld;

/* What a freedom does to a figure. */
typedef struct {
  guint held;
  guint freedom;
  guint figure;  /* place among the figures */
  double factor; /* dimensionless */
} TwHandShare;

/* A figure as the hand knows it, beside what it tells of it. */
typedef struct {
  double base_mm;   /* from where its freedoms are counted */
  double press_mm;  /* at the press, what was assumed then; NaN where the base is another */
  TwValue original; /* what the job said of it at the press, with what was typed; owned */
  TwValue typed;    /* what was typed since; owned; only with the figure's typed */
  double wanted_mm; /* while a movement is reckoned */
} TwHandBase;

/* A port that was carried to another wall than that of the press. */
typedef struct {
  gboolean is_over;    /* it hangs there now */
  TwFreedoms freedoms; /* over the wall, from its middle; owned */
  TwGrip grip;         /* in the middle of the wall */
  TwPlacedPort port;   /* as that of the press, with the tank and wall where it hangs */
  TwPoint pressed;     /* where the press would have been, had the port hung in the middle of the wall */
} TwHandCarried;

struct _TwHand {
  TwHandBench bench;
  TwPlacement *placement; /* of the press, counted; NULL: the hand is empty */
  TwPasses *passes;       /* of the press, counted, or NULL */
  TwStageView view;
  TwPoint pressed;
  char *label;
  GArray *held;       /* of TwHandHeld; the first one snaps */
  GArray *figures;    /* of TwHandFigure */
  GArray *bases;      /* of TwHandBase, by figure */
  GArray *shares;     /* of TwHandShare */
  GArray *fields;     /* of guint: fields of the first part itself that were changed */
  GArray *snaps;      /* of TwSnap */
  GHashTable *moving; /* ids of the parts that are held, as text */
  char *refusal;      /* why the last movement was not done; owned */
  gboolean is_open;   /* the history's step is */
  TwHandCarried carried;
};

/* Number @nth of what is held; below the count. */
TwHandHeld *tw_hand_held (const TwHand *self, guint nth);

/* The figures of all that is held, those first that a person would name; a figure of several freedoms once.
 */
void tw_hand_list_figures (TwHand *self);
void tw_hand_clear_figures (TwHand *self);

/**
 * tw_hand_apply:
 *
 * Sets all figures as the amounts of all that is held have them; those that are back where they were get back
 * what the job said of them.
 *
 * Returns: FALSE when nothing changes, or when the job refuses: then the refusal says why, and job and hand
 * are as they were
 */
gboolean tw_hand_apply (TwHand *self);

/**
 * tw_hand_carry:
 * @at: where the pointer is
 *
 * When a port alone is held and the pointer has left its wall for another one that is seen, of its tank or of
 * another: hangs it there, with what the job said of its place at the press where the new wall does not give
 * another. Back at its own wall everything is as it was.
 *
 * Returns: whether it hangs elsewhere now than before
 */
gboolean tw_hand_carry (TwHand *self, TwPoint at, const TwHandManner *manner);

/* Where movements are counted from. */
TwPoint tw_hand_pressed (const TwHand *self);

/* Applies @change (transfer full) within the step; FALSE when the job refuses it. */
gboolean tw_hand_do (TwHand *self, TwChange *change);

/* Snaps or rounds the amounts of the first grip, in place, and keeps within what its figures take. */
void tw_hand_settle (TwHand *self, double *amounts_mm, const TwHandManner *manner);

G_END_DECLS
