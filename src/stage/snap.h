/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * snap.h - places where a part wants to be, by name
 *
 * A baffle belongs between two tubes, a port in the middle of its chamber, fans in the middle of their share
 * of the mouth or touching each other. A snap says what it is; the hand takes the nearest within reach.
 */
#pragma once

#include "layout/passes.h"
#include "stage/freedom.h"

G_BEGIN_DECLS

typedef enum {
  TW_SNAP_NONE,
  TW_SNAP_GAP,            /* between two tubes */
  TW_SNAP_CHAMBER_MIDDLE, /* along the header, of the chamber that the port opens into */
  TW_SNAP_TANK_MIDDLE,    /* along the header, or of its width or depth */
  TW_SNAP_FACE_MIDDLE,    /* of the core's face */
  TW_SNAP_SHARE_MIDDLE,   /* of the fan's share of its shroud's mouth */
  TW_SNAP_LEVEL_WITH,     /* as high, or as far across, as its neighbour */
  TW_SNAP_TOUCHES,        /* its ring touches another ring, or the edge of the mouth or face */
  TW_SNAP_ROUND,          /* a round figure: 10 mm or half an inch */
} TwSnapKind;

/* A place for one figure of a part. */
typedef struct {
  TwSnapKind kind;
  guint field;     /* of the part's kind */
  double value_mm; /* of that figure */
  guint tube;      /* of a gap: the tube before it, counted from 1 */
  TwId other;      /* neighbour, tank or core that it is taken from; may be none */
} TwSnap;

/* What a search may look at. */
typedef struct {
  const TwPlacement *placement;
  const TwPasses *passes; /* NULL: no chambers */
  gboolean inches;        /* round figures are half inches */
} TwSnapBench;

/* All places for @field of @part while it stands at @value_mm, in no order. (transfer full) (element-type
 * TwSnap) */
GArray *
tw_snap_list (const TwSnapBench *bench, TwId part, guint field, double value_mm) G_GNUC_WARN_UNUSED_RESULT;

/* The nearest of those no further than @reach_mm from @value_mm, the more telling one of two at the same
 * place. FALSE when there is none. */
gboolean tw_snap_find (const TwSnapBench *bench,
                       TwId part,
                       guint field,
                       double value_mm,
                       double reach_mm,
                       TwSnap *snap);

/**
 * tw_snap_touch:
 * @fan: a fan
 * @centre: (inout): where it would stand, in the core's (u, v)
 * @reach_mm: how far it may be moved
 * @other: (out): the fan that it then touches
 *
 * Moves the centre straight to or from the nearest other fan of the core so that their rings touch.
 *
 * Returns: FALSE, and @centre as it was, when none is near enough
 */
gboolean
tw_snap_touch (const TwPlacement *placement, TwId fan, TwPoint *centre, double reach_mm, TwId *other);

/* What it is, N_()-marked: of a gap with two %u for its tubes, of a neighbour with one %s for its name.
 * (transfer none) */
const char *tw_snap_words (TwSnapKind kind);

G_END_DECLS
