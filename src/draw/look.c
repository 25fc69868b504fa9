/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/look.h"

#include <string.h>

/* clang-format off */

/* Pens on paper as multiples of the narrow width d. Dashes after ISO 128-20, from memory: dashed 12 d and 3 d, long-short
 * 24, 3, 0.5, 3. */
static const TwLookPen paper_pens[TW_INK_N_PENS] = {
  [TW_INK_PEN_OUTLINE]   = { 2.0, { 0 } },
  [TW_INK_PEN_THIN]      = { 1.0, { 0 } },
  [TW_INK_PEN_BEHIND]    = { 1.0, { 12, 3 } },
  [TW_INK_PEN_CENTRE]    = { 1.0, { 24, 3, 0.5, 3 } },
  [TW_INK_PEN_DIMENSION] = { 1.0, { 0 } },
  [TW_INK_PEN_EXTENSION] = { 1.0, { 0 } },
  [TW_INK_PEN_LEADER]    = { 1.0, { 0 } },
  [TW_INK_PEN_HATCH]     = { 0.72, { 0 } },
  [TW_INK_PEN_GRID]      = { 0.52, { 0 } },
  [TW_INK_PEN_CUT]       = { 2.0, { 24, 3, 0.5, 3 } },
  [TW_INK_PEN_OTHER]     = { 1.0, { 24, 3, 0.5, 3, 0.5, 3 } },
  [TW_INK_PEN_BAY]       = { 2.8, { 0 } },
  [TW_INK_PEN_FRAME]     = { 2.8, { 0 } },
  [TW_INK_PEN_WATER]     = { 2.0, { 0 } },
};

/* Pens on a screen at scale 1, px. */
static const TwLookPen screen_pens[TW_INK_N_PENS] = {
  [TW_INK_PEN_OUTLINE]   = { 1.6, { 0 } },
  [TW_INK_PEN_THIN]      = { 1.0, { 0 } },
  [TW_INK_PEN_BEHIND]    = { 1.0, { 5, 3 } },
  [TW_INK_PEN_CENTRE]    = { 0.8, { 14, 3, 2, 3 } },
  [TW_INK_PEN_DIMENSION] = { 0.8, { 0 } },
  [TW_INK_PEN_EXTENSION] = { 0.8, { 0 } },
  [TW_INK_PEN_LEADER]    = { 0.8, { 0 } },
  [TW_INK_PEN_HATCH]     = { 0.6, { 0 } },
  [TW_INK_PEN_GRID]      = { 0.5, { 0 } },
  [TW_INK_PEN_CUT]       = { 1.6, { 14, 3, 2, 3 } },
  [TW_INK_PEN_OTHER]     = { 1.0, { 14, 3, 2, 3, 2, 3 } },
  [TW_INK_PEN_BAY]       = { 2.2, { 0 } },
  [TW_INK_PEN_FRAME]     = { 2.2, { 0 } },
  [TW_INK_PEN_WATER]     = { 2.0, { 0 } },
};

static const guint32 colours[][TW_INK_N_TINTS] = {
  /*                   ink,      soft,     faint,    hot,      cool,     air,      taken,    measure,  paper */
  [TW_LOOK_LIGHT] = { 0x20252B, 0x566069, 0xB9BDBB, 0xA63F12, 0x0F5F7A, 0x3E6B2F, 0x7A5B43, 0x6B3FA0, 0xFAF7F0 },
  [TW_LOOK_DARK]  = { 0xE9E6DF, 0xA7AFB6, 0x4A5056, 0xF08B5A, 0x6CC3DE, 0x9CCB86, 0xC9A88D, 0xC3A3EE, 0x1E2124 },
  [TW_LOOK_PRINT] = { 0x000000, 0x000000, 0x9A9A9A, 0xA63F12, 0x0F5F7A, 0x3E6B2F, 0x7A5B43, 0x6B3FA0, 0xFFFFFF },
};

/* Heights of capitals after ISO 3098: notes 3.5, tables 2.5, titles 5; one step more on large sheets. */
static const double paper_heights[2][TW_INK_N_SIZES] = {
  { [TW_INK_SIZE_SMALL] = 2.5, [TW_INK_SIZE_NOTE] = 3.5, [TW_INK_SIZE_TITLE] = 5, [TW_INK_SIZE_VIEW] = 5, [TW_INK_SIZE_FIELD] = 2.5 },
  { [TW_INK_SIZE_SMALL] = 3.5, [TW_INK_SIZE_NOTE] = 5.0, [TW_INK_SIZE_TITLE] = 7, [TW_INK_SIZE_VIEW] = 7, [TW_INK_SIZE_FIELD] = 2.5 },
};
/* clang-format on */

/* A font of 11 px has capitals of about 8 px (0.73 of the em in common sans serifs, measured). */
static const double screen_heights[TW_INK_N_SIZES] = {
  [TW_INK_SIZE_SMALL] = 8.0, [TW_INK_SIZE_NOTE] = 8.8,  [TW_INK_SIZE_TITLE] = 12.0,
  [TW_INK_SIZE_VIEW] = 12.0, [TW_INK_SIZE_FIELD] = 8.0,
};

TwLook
tw_look_paper (gboolean large)
{
  TwLook look = { .dot_diameter = 1.0, .halo = FALSE };
  double narrow_mm = large ? 0.35 : 0.25;

  for (guint i = 0; i < TW_INK_N_PENS; i++) {
    look.pens[i].width = paper_pens[i].width * narrow_mm;
    for (guint k = 0; k < TW_LOOK_DASHES; k++)
      look.pens[i].dashes[k] = paper_pens[i].dashes[k] * narrow_mm;
  }
  memcpy (look.heights, paper_heights[large ? 1 : 0], sizeof look.heights);
  look.arrow_length = look.heights[TW_INK_SIZE_NOTE] * 0.9;
  look.arrow_width = look.arrow_length / 3;
  look.way_length = look.heights[TW_INK_SIZE_NOTE];
  look.way_width = look.way_length * 0.7;
  look.hatch_gap = large ? 3.5 : 2.5;
  memcpy (look.colours, colours[TW_LOOK_PRINT], sizeof look.colours);
  return look;
}

TwLook
tw_look_screen (TwLookGround ground, gboolean contrast)
{
  TwLook look = { .arrow_length = 9,
                  .arrow_width = 3,
                  .way_length = 10,
                  .way_width = 7,
                  .dot_diameter = 3,
                  .hatch_gap = 6,
                  .halo = TRUE };

  memcpy (look.pens, screen_pens, sizeof look.pens);
  memcpy (look.heights, screen_heights, sizeof look.heights);
  memcpy (look.colours, colours[ground], sizeof look.colours);
  if (contrast) {
    look.colours[TW_INK_TINT_SOFT] = look.colours[TW_INK_TINT_INK];
    look.colours[TW_INK_TINT_FAINT] = look.colours[TW_INK_TINT_INK];
  }
  return look;
}

TwLook
tw_look_scaled (const TwLook *self, double scale)
{
  TwLook look = *self;
  double *lengths[] = { &look.arrow_length, &look.arrow_width,  &look.way_length,
                        &look.way_width,    &look.dot_diameter, &look.hatch_gap };

  for (guint i = 0; i < TW_INK_N_PENS; i++) {
    look.pens[i].width *= scale;
    for (guint k = 0; k < TW_LOOK_DASHES; k++)
      look.pens[i].dashes[k] *= scale;
  }
  for (guint i = 0; i < TW_INK_N_SIZES; i++)
    look.heights[i] *= scale;
  for (guint i = 0; i < G_N_ELEMENTS (lengths); i++)
    *lengths[i] *= scale;
  return look;
}

void
tw_look_head (const TwLook *self, TwInkPen pen, double *length, double *width)
{
  *length = pen == TW_INK_PEN_WATER ? self->way_length : self->arrow_length;
  *width = pen == TW_INK_PEN_WATER ? self->way_width : self->arrow_width;
}

void
tw_look_colour (const TwLook *self, TwInkTint tint, double share, double rgb[3])
{
  for (guint i = 0; i < 3; i++) {
    guint shift = 16 - 8 * i;
    double full = (self->colours[tint] >> shift & 0xFF) / 255.0;
    double paper = (self->colours[TW_INK_TINT_PAPER] >> shift & 0xFF) / 255.0;

    rgb[i] = paper + (full - paper) * share;
  }
}
