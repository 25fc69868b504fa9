/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * look.h - pens, letters and colours as data
 *
 * Ink says what a line is; a look says how wide and in which colour it is shown. On paper lengths are
 * millimetres (drawn after ISO 128: two widths, 2 : 1, 0.5 / 0.25 up to A2 and 0.7 / 0.35 above; lettering
 * after ISO 3098 type B), on a screen they are pixels at scale 1.
 */
#pragma once

#include "draw/ink.h"

G_BEGIN_DECLS

#define TW_LOOK_DASHES 6

/* How one pen writes. Lengths in the unit of the look. */
typedef struct {
  double width;                  /* mm on paper, px on a screen */
  double dashes[TW_LOOK_DASHES]; /* line, gap, line, gap …; mm or px; ends at the first 0 */
} TwLookPen;

typedef enum {
  TW_LOOK_LIGHT, /* screen, light ground */
  TW_LOOK_DARK,  /* screen, dark ground */
  TW_LOOK_PRINT, /* white paper */
} TwLookGround;

typedef struct {
  TwLookPen pens[TW_INK_N_PENS];
  double heights[TW_INK_N_SIZES];  /* of capitals; mm on paper, px on a screen */
  double arrow_length;             /* of a head; mm or px */
  double arrow_width;              /* mm or px */
  double way_length;               /* of a head on the way of water or air; mm or px */
  double way_width;                /* mm or px */
  double dot_diameter;             /* mm or px */
  double hatch_gap;                /* between the closest hatch lines; mm or px */
  guint32 colours[TW_INK_N_TINTS]; /* 0xRRGGBB */
  gboolean halo;                   /* texts have a paper-coloured rim */
} TwLook;

/* Length and width of a head that is written with @pen. */
void tw_look_head (const TwLook *self, TwInkPen pen, double *length, double *width);

/* For a sheet of paper; @large for A1, A0 and the inch sheets D and E. */
TwLook tw_look_paper (gboolean large);

/* For a screen at scale 1. High @contrast replaces soft and faint by ink. */
TwLook tw_look_screen (TwLookGround ground, gboolean contrast);

/* The same with every length @scale (over 0, dimensionless) times as long: a screen's look on paper. */
TwLook tw_look_scaled (const TwLook *self, double scale);

/* Red, green and blue, 0..1, dimensionless, of @tint at a @share (0..1) over the paper colour. */
void tw_look_colour (const TwLook *self, TwInkTint tint, double share, double rgb[3]);

G_END_DECLS
