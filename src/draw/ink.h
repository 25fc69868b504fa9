/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * ink.h - a display list: what is drawn, before anybody says on what
 *
 * Screen, PDF, SVG and DXF are all fed from one list, so that all show the same. Coordinates are millimetres:
 * of the model in a view, of the paper on a sheet; x to the right, y up. How wide a pen is, how tall letters,
 * how long arrowheads and how far apart hatch lines are is not in the list but in the look of whoever shows
 * it (draw/look.h), so tw_ink_append_scaled() puts a view on a sheet without thickening pens or shrinking
 * letters.
 *
 * A list is written by one owner, then finished; from there on it never changes and may be shared between
 * threads. The same calls give the same bits.
 */
#pragma once

#include <glib.h>

#include "base/geom.h"
#include "job/id.h"

G_BEGIN_DECLS

/* What kind of line it is; its width and dashes are the look's. */
typedef enum {
  TW_INK_PEN_OUTLINE,   /* visible edges: wide, continuous */
  TW_INK_PEN_THIN,      /* tubes, details, thread roots: narrow, continuous */
  TW_INK_PEN_BEHIND,    /* edges behind: narrow, dashed */
  TW_INK_PEN_CENTRE,    /* centre lines, axes, pitch circles: narrow, long-short */
  TW_INK_PEN_DIMENSION, /* dimension lines: narrow, continuous; nothing may cross them */
  TW_INK_PEN_EXTENSION, /* extension lines: likewise; may cross each other and outlines */
  TW_INK_PEN_LEADER,    /* leaders: likewise; end at a text or balloon of theirs */
  TW_INK_PEN_HATCH,     /* hatch lines: narrow, continuous */
  TW_INK_PEN_GRID,      /* grid, zone marks: narrowest */
  TW_INK_PEN_CUT,       /* cutting plane: wide, long-short */
  TW_INK_PEN_OTHER,     /* neighbours, other positions: narrow, long-short-short */
  TW_INK_PEN_BAY,       /* outline of the bay: one step wider than an outline */
  TW_INK_PEN_FRAME,     /* frame of a sheet: one step wider than an outline */
  TW_INK_PEN_WATER,     /* way of the water or the air: wide, continuous, ends in an arrowhead */
  TW_INK_N_PENS
} TwInkPen;

/* What it means; the colour for it is the look's. Colour never carries the meaning alone. */
typedef enum {
  TW_INK_TINT_INK,     /* outlines, text */
  TW_INK_TINT_SOFT,    /* dimensions, centre lines, hidden edges */
  TW_INK_TINT_FAINT,   /* grid, tubes and fins as tone; never text */
  TW_INK_TINT_HOT,     /* hot end of the water */
  TW_INK_TINT_COOL,    /* cool end of the water */
  TW_INK_TINT_AIR,     /* air */
  TW_INK_TINT_TAKEN,   /* taken volumes */
  TW_INK_TINT_MEASURE, /* measure, snap, typed dimension */
  TW_INK_TINT_PAPER,   /* the ground: covers what is behind */
  TW_INK_N_TINTS
} TwInkTint;

typedef enum {
  TW_INK_LINE,  /* polyline with straight and arc pieces, open or closed, stroked with the pen */
  TW_INK_FILL,  /* closed rings, filled with the tint (even-odd) */
  TW_INK_TONE,  /* closed rings, filled with a share of the tint over the paper (even-odd) */
  TW_INK_HATCH, /* closed rings, filled with parallel lines (even-odd) */
  TW_INK_TEXT,
  TW_INK_ARROW, /* filled head with its point at the place */
  TW_INK_DOT,   /* filled dot */
  TW_INK_RING,  /* circle whose radius is in letter heights: round a balloon's number, origin of running sizes
                 */
} TwInkKind;

/* Role of a text: how tall it is, is the look's. */
typedef enum {
  TW_INK_SIZE_SMALL, /* tables */
  TW_INK_SIZE_NOTE,  /* dimensions, notes, names of parts */
  TW_INK_SIZE_TITLE, /* titles */
  TW_INK_SIZE_VIEW,  /* view letters */
  TW_INK_SIZE_FIELD, /* names of fields in a title block */
  TW_INK_N_SIZES
} TwInkSize;

/* What part of the text is at its place, across. */
typedef enum { TW_INK_LEFT, TW_INK_CENTRE, TW_INK_RIGHT } TwInkAcross;

typedef enum {
  TW_INK_BASELINE,
  TW_INK_MIDDLE, /* half the height of a capital */
  TW_INK_TOP,    /* top of a capital */
} TwInkUp;

/* A corner of a path, and the edge that leaves it. */
typedef struct {
  TwPoint at;
  double bow_mm;  /* of the edge from here to the next corner, as in TwCorner: 0 straight, positive
                   * counter-clockwise, half the chord is half a circle */
  gboolean start; /* begins a new stretch or ring; the first corner of an item always does */
} TwInkCorner;

/* What all of a kind have in common: with which pen, in which meaning, on which layer, of which part. */
typedef struct {
  TwInkPen pen;
  TwInkTint tint;
  const char *layer; /* plain lower-case word, kept as an interned string; never NULL */
  TwId part;         /* the part it shows; empty for none */
} TwInkStyle;

/* Where and how a text stands. */
typedef struct {
  TwPoint at; /* its anchor */
  TwInkSize size;
  TwInkAcross across; /* which point of the text lies on the anchor, along the line … */
  TwInkUp up;         /* … and across it */
  gboolean upright;   /* turned a quarter, to be read from the right */
} TwInkPlace;

/* One item, as it is read. Which members mean something depends on its kind. */
typedef struct {
  TwInkKind kind;
  TwInkStyle style;
  const TwInkCorner *corners; /* LINE, FILL, TONE, HATCH: n_corners of them. ARROW, DOT, RING: one */
  guint n_corners;
  gboolean closed;  /* LINE: every stretch is closed; the others always are */
  double angle_rad; /* HATCH: of its lines; ARROW: where it points; from x, counter-clockwise */
  double spacing;   /* HATCH: between lines, as a multiple of the look's closest hatch; TONE: share 0..1 of
                     * the tint; RING: radius as a multiple of the note's letter height; dimensionless */
  TwInkPlace place; /* TEXT */
  const char *text; /* TEXT: one line, UTF-8 */
} TwInkItem;

typedef struct _TwInk TwInk;

/* An empty list, to be written. (transfer full): finish it, or tw_ink_unref() it. */
TwInk *tw_ink_new (void) G_GNUC_WARN_UNUSED_RESULT;

/* Ends writing: the list does not change any more. Returns: (transfer none) @self, for use in a return. */
TwInk *tw_ink_finish (TwInk *self);
gboolean tw_ink_is_finished (const TwInk *self);

/* Counted safely between threads. */
TwInk *tw_ink_ref (TwInk *self);
void tw_ink_unref (TwInk *self);

/* Writing. Every coordinate is finite; @style is copied. All assert that the list is not finished. */

void tw_ink_line (TwInk *self, const TwInkStyle *style, TwPoint from, TwPoint to);
/* A polyline through @corners (at least two); a ring that is @closed has no repeated corner at its end. */
void tw_ink_path (TwInk *self, const TwInkStyle *style, const TwInkCorner *corners, guint n, gboolean closed);
/* Level rectangle, stroked. */
void tw_ink_box (TwInk *self, const TwInkStyle *style, const TwBox *box);
/* Full circle, stroked: two half circles that begin at the right. */
void tw_ink_circle (TwInk *self, const TwInkStyle *style, TwPoint centre, double radius_mm);
/* Part of a circle from the first of @angles_rad to the second: counter-clockwise, clockwise if that is less;
 * at most once round. */
void tw_ink_arc (TwInk *self,
                 const TwInkStyle *style,
                 TwPoint centre,
                 double radius_mm,
                 const double angles_rad[2]);

/* Corners of a circle and of a level rectangle, as a ring for the calls below; counter-clockwise. */
void tw_ink_circle_corners (TwPoint centre, double radius_mm, TwInkCorner corners[2]);
void tw_ink_box_corners (const TwBox *box, TwInkCorner corners[4]);

/* Filled: rings by corners, each ring begun by a corner with `start`. A fill in the paper's tint covers what
 * lies behind it: with the outline's pen it is a part, with the leader's the ground of a text. */
void tw_ink_fill (TwInk *self, const TwInkStyle *style, const TwInkCorner *corners, guint n);
/* @share 0..1 of the tint over the paper, dimensionless */
void tw_ink_tone (TwInk *self, const TwInkStyle *style, const TwInkCorner *corners, guint n, double share);
/* @spacing: multiple of the look's closest hatch, at least 1, dimensionless */
void tw_ink_hatch (TwInk *self,
                   const TwInkStyle *style,
                   const TwInkCorner *corners,
                   guint n,
                   double angle_rad,
                   double spacing);

/* @text is valid UTF-8 in one line; an empty one leaves no item. */
void tw_ink_text (TwInk *self, const TwInkStyle *style, const TwInkPlace *place, const char *text);

/* A head at @at that points along @angle_rad. */
void tw_ink_arrow (TwInk *self, const TwInkStyle *style, TwPoint at, double angle_rad);
void tw_ink_dot (TwInk *self, const TwInkStyle *style, TwPoint at);
/* @radius in letter heights of a note, dimensionless */
void tw_ink_ring (TwInk *self, const TwInkStyle *style, TwPoint at, double radius);

/* All of @from, each point at @scale (over nought) times itself plus @shift. @from may be finished or not,
 * but is not @self. Pens, letters, heads, dots and hatches keep their size, since those are the look's. */
void tw_ink_append_scaled (TwInk *self, const TwInk *from, double scale, TwPoint shift);

/* Items @first to @first + @n - 1 of @from, as they are. @from may be finished or not, but is not @self. */
void tw_ink_append_items (TwInk *self, const TwInk *from, guint first, guint n);

/* Where lines were cut off at the left, right, lower and upper side of a box: how far along it, the least
 * and the greatest place. */
typedef struct {
  gboolean any[4]; /* something was cut off at this side */
  double low_mm[4];
  double high_mm[4];
} TwInkCuts;

/* What of @from lies in @box: lines and areas end at its sides, where they are cut their arcs become short
 * straight lines; texts, heads, dots and rings stay whole when their place lies in it. @cuts (out): where
 * lines were cut. @from is not @self. */
void tw_ink_append_clipped (TwInk *self, const TwInk *from, const TwBox *box, TwInkCuts *cuts);

/* Reading, in the order of writing: later items lie over earlier ones. */

guint tw_ink_count (const TwInk *self);
/* (transfer none): good until @self is written to again or freed */
const TwInkItem *tw_ink_get (const TwInk *self, guint nth);

/* Whether two items of any lists would be drawn alike, to the bit. */
gboolean tw_ink_item_equal (const TwInkItem *a, const TwInkItem *b);

/* Box round all points, arcs included; text, heads, dots and rings count as their place alone. FALSE and
 * untouched @box if there is nothing. Kept while writing, so it costs nothing. */
gboolean tw_ink_bounds (const TwInk *self, TwBox *box);
/* The same for one item. */
void tw_ink_item_bounds (const TwInkItem *item, TwBox *box);

/* The ring or stretch of @item that begins at corner @first ends before this one. */
guint tw_ink_ring_end (const TwInkItem *item, guint first);

/* The layers in the order of their first item; NULL past the last. (transfer none) */
const char *tw_ink_layer (const TwInk *self, guint nth);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwInk, tw_ink_unref)

G_END_DECLS
