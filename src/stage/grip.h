/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * grip.h - the places by which a part can be taken in a view
 *
 * For the canvas: make the grips of each chosen part after each change (tw_grips_new(), some microseconds),
 * draw a handle at @at of every grip that is no body, and take the cursor from @ways. At a press ask
 * tw_grips_at() first, then tw_pick_at(); hand the grip, or the bodies of all chosen parts, to
 * tw_hand_take(). A grip is plain data and named by part, element, kind and number, so it may be kept over
 * changes: the hand looks the place up again. tw_grip_words() names it for tooltip and screen reader.
 *
 * A kind of part is one row in grip.c and one function that lists its grips.
 */
#pragma once

#include "stage/freedom.h"

G_BEGIN_DECLS

typedef enum {
  TW_GRIP_BODY,    /* the whole part; no handle of its own */
  TW_GRIP_EDGE,    /* one side of what is seen; goes square to itself */
  TW_GRIP_CORNER,  /* two sides at once */
  TW_GRIP_END,     /* one end of what has two: a stub's tip, a tank's start */
  TW_GRIP_ELEMENT, /* a corner of an outline, a via-point, a flap as a whole */
  TW_GRIP_BULGE,   /* the middle of an arc: changes its bow */
  TW_N_GRIPS
} TwGripKind;

/* Which side or corner of something with four of them, as TwGrip's @nth counts them: sides first. */
enum {
  TW_GRIP_LEFT,
  TW_GRIP_RIGHT,
  TW_GRIP_BOTTOM,
  TW_GRIP_TOP,
  TW_GRIP_BOTTOM_LEFT,
  TW_GRIP_BOTTOM_RIGHT,
  TW_GRIP_TOP_LEFT,
  TW_GRIP_TOP_RIGHT,
  TW_GRIP_OTHER, /* from here on: more that the kind of part has */
};

typedef struct {
  TwGripKind kind;
  TwId part;
  TwId element;     /* that it moves, or that its edge leaves; none */
  guint nth;        /* tells grips of one kind and element apart; TW_GRIP_LEFT … for sides and corners */
  TwVec place;      /* where the handle stands: job frame */
  TwPoint at;       /* the same, mm of the view */
  TwPoint ways[2];  /* directions in the view in which it can go, of length 1 */
  guint n_ways;     /* 0 to 2; 2: any way */
  const char *what; /* N_()-marked: what it changes, `right edge`; not owned */
} TwGrip;

typedef struct _TwGrips TwGrips; /* never changes once made */

/**
 * tw_grips_new:
 * @placement: of the job as it is now
 *
 * All grips of @part that can go in @view, its body first. None for a part without a place, or when the view
 * shows no direction in which it can go.
 *
 * Returns: (transfer full): free with tw_grips_free()
 */
TwGrips *
tw_grips_new (const TwPlacement *placement, const TwStageView *view, TwId part) G_GNUC_WARN_UNUSED_RESULT;
void tw_grips_free (TwGrips *self);

/* In an order that stays the same while the part has the same elements; NULL past the last. (transfer none)
 */
guint tw_grips_count (const TwGrips *self);
const TwGrip *tw_grips_get (const TwGrips *self, guint nth);
/* What the grip number @nth changes; @nth below the count. (transfer none) */
const TwFreedoms *tw_grips_freedoms (const TwGrips *self, guint nth);

/* The body, or NULL when the part cannot be moved in this view. (transfer none) */
const TwGrip *tw_grips_body (const TwGrips *self);

/* Place of the grip that is named as @grip is (kind, element, number), or -1. */
int tw_grips_find (const TwGrips *self, const TwGrip *grip);

/* The grip whose handle is nearest to @at and no further than @reach_mm; bodies have no handle. Elements
 * stand before edges of the same distance. NULL when there is none. (transfer none) */
const TwGrip *tw_grips_at (const TwGrips *self, TwPoint at, double reach_mm);

/* Why nothing of @part can be moved in @view: N_()-marked, or NULL when something can. (transfer none) */
const char *tw_grips_why_none (const TwPlacement *placement, const TwStageView *view, TwId part);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwGrips, tw_grips_free)

G_END_DECLS
