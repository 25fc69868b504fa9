/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * pick.h - which part lies under a point of a view
 *
 * What is seen is what is picked: shapes are those of the ink, dimensions, leaders and texts left out. Inside
 * several shapes the smallest one is meant; what is thin on the screen may be missed by the reach.
 */
#pragma once

#include "draw/ink.h"

G_BEGIN_DECLS

/* One part as it is seen. */
typedef struct {
  TwId part;
  TwBox box; /* round all that is drawn of it, mm of the view */
} TwPickShape;

typedef struct _TwPick TwPick;

/* @ink is finished; a count of it is kept. (transfer full) */
TwPick *tw_pick_new (TwInk *ink) G_GNUC_WARN_UNUSED_RESULT;
void tw_pick_free (TwPick *self);

/* Parts in the order in which they are first drawn; NULL past the last. (transfer none) */
guint tw_pick_count (const TwPick *self);
const TwPickShape *tw_pick_get (const TwPick *self, guint nth);
/* By part, or NULL. (transfer none) */
const TwPickShape *tw_pick_find (const TwPick *self, TwId part);

/**
 * tw_pick_at:
 * @at: mm of the view
 * @reach_mm: how far a thin shape may be missed
 *
 * The smallest shape that holds the point; of two as small the one drawn last. A shape thinner than four
 * times the reach, or a line, is meant from @reach_mm away too. Rooms of the bay are met on their outline
 * only.
 *
 * Returns: TW_ID_NONE when nothing is there
 */
TwId tw_pick_at (const TwPick *self, TwPoint at, double reach_mm);

/* All parts that tw_pick_at() could mean there, the one that it means first: for picking the next one with a
 * repeated click. (transfer full) (element-type TwId) */
GArray *tw_pick_all (const TwPick *self, TwPoint at, double reach_mm) G_GNUC_WARN_UNUSED_RESULT;

/* The one that follows @before among those, round and round; the first when @before is not among them.
 * TW_ID_NONE when nothing is there. */
TwId tw_pick_next (const TwPick *self, TwPoint at, double reach_mm, TwId before);

/* Parts that lie wholly in @box, or with @touched those of which it holds anything at all, in the order in
 * which they are first drawn. Rooms of the bay only when they lie wholly in it. (transfer full) (element-type
 * TwId) */
GArray *tw_pick_in (const TwPick *self, TwBox box, gboolean touched) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_pick_outline:
 * @nth: which of them, 0 first
 * @closed: (out): a ring, not a line
 *
 * What bounds a part, for a halo: its rings and lines that lie within no other ring of it.
 *
 * Returns: (transfer full) (nullable) (element-type TwPoint): straight edges, mm of the view; NULL past the
 * last
 */
GArray *
tw_pick_outline (const TwPick *self, TwId part, guint nth, gboolean *closed) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwPick, tw_pick_free)

G_END_DECLS
