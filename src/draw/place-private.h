/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * place-private.h - what the page's two files share
 */
#pragma once

#include "draw/place.h"

G_BEGIN_DECLS

/* A text and the box it covers, mm on paper. */
typedef struct {
  guint item; /* number in the ink */
  TwBox box;
} TwPlaceText;

/* A straight piece of a line, ring or head. */
typedef struct {
  guint item; /* number in the ink */
  TwPoint from;
  TwPoint to;
} TwPlaceLine;

/* A paper-coloured ground of a text: hides narrow lines written before it. */
typedef struct {
  guint item; /* number in the ink */
  TwBox box;
} TwPlaceGround;

/* Room that belongs to one layer. */
typedef struct {
  TwBox box;
  const char *layer; /* interned */
} TwPlaceBlock;

struct _TwPlace {
  TwBox frame;
  TwLook look;
  TwMeasure measure;
  TwInk *ink;      /* what was taken, to look its items up; NULL before */
  GArray *texts;   /* of TwPlaceText, in the order of the ink */
  GArray *lines;   /* of TwPlaceLine, likewise */
  GArray *hatches; /* of guint: numbers of hatches in the ink */
  GArray *grounds; /* of TwPlaceGround */
  GArray *blocks;  /* of TwPlaceBlock */
  double cell_mm;  /* side of a cell */
  guint n_across;  /* cells along the width */
  guint n_up;      /* cells along the height */
  GArray **cells;  /* of guint: the lines in each cell; NULL for none. Outer cells take what is outside */
};

/* Numbers of the lines in the cells that @box touches; a line of several cells comes several times.
 * (transfer full) (element-type guint) */
GArray *tw_place_lines_near (const TwPlace *self, const TwBox *box) G_GNUC_WARN_UNUSED_RESULT;

/* Notes one straight line. */
void tw_place_add_line (TwPlace *self, guint item, TwPoint from, TwPoint to);

/* Adds the edge from @from to the next corner @to as short straight lines to @lines. */
void tw_place_flatten (const TwInkCorner *from, const TwInkCorner *to, GArray *lines);

/* Takes out of the lines noted so far what the part @item covers. */
void tw_place_cover (TwPlace *self, const TwInkItem *item);

/* Whether two lines cross between their ends, or lie on each other; touching ends do not count. */
gboolean tw_place_lines_cross (const TwPlaceLine *line, const TwPlaceLine *other);

/* Whether two boxes share more than an edge. */
gboolean tw_place_boxes_meet (const TwBox *a, const TwBox *b);

/* Whether @line enters the inside of @box. */
gboolean tw_place_line_meets (const TwPlaceLine *line, const TwBox *box);

/* @box of a text with the room that it keeps from the middle of a line of @pen. */
TwBox tw_place_room_for_lines (const TwPlace *self, const TwBox *box, TwInkPen pen);

/* Whether a ground may hide lines of @style. Dashed ones in full ink are what matters inside a part, a baffle
 * in a tank: nothing hides them. */
gboolean tw_place_style_may_hide (const TwInkStyle *style);

/* Whether hatch @item covers the middle of @box or has an edge in it. */
gboolean tw_place_hatch_meets (const TwInkItem *item, const TwBox *box);

G_END_DECLS
