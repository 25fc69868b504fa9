/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * picture-private.h - what the pictures of the cards share
 */
#pragma once

#include "draw/picture.h"
#include "draw/place.h"

G_BEGIN_DECLS

/* Clear edge of a picture. */
#define TW_PICTURE_EDGE_PX 4.0

/* Clear room between a text and what stands beside it. */
#define TW_PICTURE_GAP_PX 3.0

/* What one picture is drawn with. */
typedef struct {
  const TwAnswer *answer;
  const TwPictureManner *manner;
  TwBox room; /* inside of the edge, px */
  TwInk *ink; /* px */
} TwPictureHand;

/* The pictures, each in its file; not asked when there is nothing to show. */
void tw_picture_passes (const TwPictureHand *hand);
void tw_picture_frontal (const TwPictureHand *hand);
void tw_picture_coverage (const TwPictureHand *hand);
void tw_picture_hoses (const TwPictureHand *hand);
void tw_picture_fit (const TwPictureHand *hand);

/* Words for a person. */
const char *tw_picture_words (const TwPictureHand *hand, const char *words);

/* Name of a part; `–` when there is none. (transfer none) */
const char *tw_picture_name (const TwPictureHand *hand, TwId part);
/* A length as the cards show it. (transfer full) */
char *tw_picture_length (const TwPictureHand *hand, double length_mm) G_GNUC_WARN_UNUSED_RESULT;

/* With that pen in that tint, of that part. */
TwInkStyle tw_picture_style (TwInkPen pen, TwInkTint tint, TwId part);

/* Height of small capitals, and width of a small text. */
double tw_picture_letter_px (const TwPictureHand *hand);
double tw_picture_text_px (const TwPictureHand *hand, const char *text);

/* A small text with the middle of its capitals on @at's height. */
void tw_picture_write (const TwPictureHand *hand,
                       TwPoint at,
                       TwInkAcross across,
                       const TwInkStyle *style,
                       const char *text);
/* The same with an ellipsis if it is wider than @most_px. */
void tw_picture_write_fit (const TwPictureHand *hand,
                           TwPoint at,
                           double most_px,
                           const TwInkStyle *style,
                           const char *text);

/* Full and empty shapes. A @share over 0 (of the tint over the paper, dimensionless) tones it; 0 fills it
 * with paper. */
void tw_picture_tone (const TwPictureHand *hand, const TwBox *box, const TwInkStyle *style, double share);
/* A cross of two lines from corner to corner. */
void tw_picture_cross (const TwPictureHand *hand, const TwBox *box, const TwInkStyle *style);

/* --- faces -------------------------------------------------------------------------------------------------
 */

/* A core's face in its place in the picture. */
typedef struct {
  const TwPlacedCore *core;
  double scale;  /* px a millimetre */
  TwPoint shift; /* px: where the middle of the face lies */
  TwBox shown;   /* what is seen, (u, v) in mm */
  TwBox box;     /* the face itself, px */
} TwPictureFace;

/* Most faces that are shown. */
#define TW_PICTURE_MOST_FACES 3

/* Puts faces of all cores beside each other in @room, in one scale. @extents (of @n boxes in (u, v), one a
 * core): what should be seen of each. Returns: how many are shown. */
guint tw_picture_place_faces (const TwPictureHand *hand,
                              const TwBox *room,
                              const TwBox *extents,
                              TwPictureFace *faces);

/* Ink in (u, v) of @face onto the picture, what is seen of it. */
void tw_picture_face_append (const TwPictureHand *hand, const TwPictureFace *face, const TwInk *ink);

/* --- legend ------------------------------------------------------------------------------------------------
 */

/* Height of one row of a legend, and width of the sign at its start. */
#define TW_PICTURE_ROW_PX 14.0
#define TW_PICTURE_SIGN_PX 14.0

/* Rows of text at the right edge. */
typedef struct {
  TwBox room;    /* px */
  guint n_rows;  /* that it will have */
  guint nth_row; /* the next */
} TwPictureLegend;

/* A legend of @n_rows at the right edge of the picture, as wide as @width_px. */
TwPictureLegend tw_picture_legend (const TwPictureHand *hand, guint n_rows, double width_px);
/* Writes the next row; returns the box for its sign. */
TwBox tw_picture_legend_row (const TwPictureHand *hand,
                             TwPictureLegend *legend,
                             const TwInkStyle *style,
                             const char *text);
/* Most rows that have room. */
guint tw_picture_legend_most (const TwPictureHand *hand);

G_END_DECLS
