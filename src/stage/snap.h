/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * snap.h - places where a part wants to be, by name
 *
 * A baffle belongs between two tubes, a port in the middle of its chamber, fans in the middle of their share
 * of the mouth or touching each other. A snap says what it is and to which part; the hand takes the nearest
 * within reach, of two at one place the more telling one (the one that stands first below).
 *
 * Every freedom of a grip is snapped for itself: a snap is an amount by which the freedom goes. Subjects have
 * their files: snap-tube.c (gaps), snap-tank.c (chambers, ports, tank ends), snap-face.c (fans, shrouds,
 * flaps), snap-bay.c (edges of the bay and of parts, clearance, heights, hoses).
 */
#pragma once

#include "layout/passes.h"
#include "stage/grip.h"

G_BEGIN_DECLS

typedef enum {
  TW_SNAP_NONE,
  TW_SNAP_GAP,            /* between two tubes */
  TW_SNAP_CHAMBER_MIDDLE, /* along the header, of the chamber that the port opens into */
  TW_SNAP_TANK_MIDDLE,    /* along the header, or of its width or depth */
  TW_SNAP_SPACING,        /* as far from the next port of its wall as that from the one beyond */
  TW_SNAP_FACE_MIDDLE,    /* of the core's face */
  TW_SNAP_SHARE_MIDDLE,   /* of the fan's share of its shroud's mouth */
  TW_SNAP_HEADER_END,     /* a tank's end at the header plate's end */
  TW_SNAP_SPLIT,          /* a tank's end beside that of another, between the same two tubes */
  TW_SNAP_IN_LINE,        /* a via-point level with the port or point that is next in its run */
  TW_SNAP_LEVEL_WITH,     /* in line with its neighbour */
  TW_SNAP_AS_HIGH,        /* as high as another part */
  TW_SNAP_TOUCHES,        /* its edge on another's: ring, mouth, face, wall */
  TW_SNAP_CLEARANCE,      /* the smallest clearance away from something */
  TW_SNAP_EDGE,           /* on an edge or corner of a volume */
  TW_SNAP_SAME_SIZE,      /* as large as another of its kind, or as the face */
  TW_SNAP_ROUND,          /* a round figure: 10 mm or half an inch */
  TW_N_SNAPS
} TwSnapKind;

/* A place for one freedom of a grip. */
typedef struct {
  TwSnapKind kind;
  guint freedom;      /* which of the grip's */
  double amount_mm;   /* by which the freedom goes */
  guint tube;         /* of a gap: the tube before it, counted from 1; 0: between rows */
  TwId other;         /* neighbour, tank, core or volume that it is taken from; may be none */
  gboolean has_place; /* @place is set */
  TwVec place;        /* what it is taken from, for the guide line: job frame */
  gboolean has_guide; /* @guide is set: a line to be drawn; only in what the hand gives */
  TwPoint guide[2];   /* from what it is taken from to what is held: mm of the view */
} TwSnap;

/* What a search may look at. */
typedef struct {
  const TwPlacement *placement;
  const TwPasses *passes; /* NULL: no chambers */
  const TwStageView *view;
  const GHashTable *moving; /* ids (as text) of parts that move along, which are no neighbours; NULL: only the
                             * part itself and what is fixed to it */
  const TwPlacedPort
      *port;       /* the held port where it hangs now, when it was carried to another wall; or NULL */
  gboolean inches; /* round figures are half inches */
} TwSnapBench;

/* What is snapped: one freedom of a grip. */
typedef struct {
  const TwGrip *grip;
  const TwFreedoms *freedoms;
  guint freedom;
  const double *amounts_mm; /* of all its freedoms, as the pointer has them */
} TwSnapAsk;

/* All places for the freedom, in no order. (transfer full) (element-type TwSnap) */
GArray *tw_snap_list (const TwSnapBench *bench, const TwSnapAsk *ask) G_GNUC_WARN_UNUSED_RESULT;

/* The nearest of those no further than @reach_mm from where the pointer has it, the more telling one of two
 * at the same place. FALSE when there is none. */
gboolean tw_snap_find (const TwSnapBench *bench, const TwSnapAsk *ask, double reach_mm, TwSnap *snap);

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

/* What it is, N_()-marked: of a gap with two %u for its tubes, else with one %s for the name of the part that
 * it is taken from, when tw_snap_names() says so. (transfer none) */
const char *tw_snap_words (TwSnapKind kind);
/* Whether the words of that kind hold a name. */
gboolean tw_snap_names (TwSnapKind kind);

G_END_DECLS
