/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * picture.h - the small picture of a card: what its figures say, seen at a glance
 *
 * Drawn from the answer alone, so that window, command and reports show the same. A picture is a strip as
 * wide as its place and TW_PICTURE_HEIGHT_PX high, whatever the drawing: a card never jumps. Coordinates of
 * the ink are pixels of a screen look at scale 1, x from the left, y up from the lower edge; on paper the ink
 * and the look are scaled alike (tw_ink_append_scaled(), tw_look_scaled()). What a picture shows is told in
 * words by its card: TwCard's `picture`.
 */
#pragma once

#include "answer/answer.h"
#include "draw/ink.h"
#include "draw/look.h"
#include "draw/measure.h"

G_BEGIN_DECLS

#define TW_PICTURE_HEIGHT_PX 96.0
#define TW_PICTURE_LEAST_WIDTH_PX 200.0

/* Layer of everything in a picture. */
#define TW_PICTURE_LAYER "picture"

/* How it is drawn; everything is (transfer none). */
typedef struct {
  double width_px; /* at least TW_PICTURE_LEAST_WIDTH_PX */
  const TwLook *look;
  const TwMeasure *measure;
  const TwUnitStyle *style;                     /* of the figures in it */
  const char *(*translate) (const char *words); /* for marked words; NULL leaves them English */
} TwPictureManner;

/**
 * tw_picture_draw:
 * @card: id of a card: `frontal`, `coverage`, `passes`, `hoses`, `fit`
 * @answer: only read during the call
 *
 * Every text is at least TW_INK_SIZE_SMALL and meets nothing; all lies inside the strip.
 *
 * Returns: (transfer full) (nullable): finished ink; NULL for a card without a picture, or while the drawing
 * has nothing of what it would show
 */
TwInk *tw_picture_draw (const char *card,
                        const TwAnswer *answer,
                        const TwPictureManner *manner) G_GNUC_WARN_UNUSED_RESULT;

/* Whether @card has a picture, and the drawing something of what it shows. */
gboolean tw_picture_shows (const char *card, const TwAnswer *answer);

/* Rooms of the answer that the picture of @card is drawn from; 0: it has none. */
TwRooms tw_picture_rooms (const char *card);

G_END_DECLS
