/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * letters.h - letters set by Pango, and their measure
 *
 * One font call serves measuring and writing, so that what was proved free is free. Letters are asked for by
 * the height of their capitals (ISO 3098); which font that is, is the caller's.
 */
#pragma once

#include <cairo.h>

#include "draw/measure.h"

G_BEGIN_DECLS

/* Plain upright sans serif of the system, for sheets. */
#define TW_LETTERS_SHEET_FONT "Sans"

/* Letters of one font. Not to be shared between threads. */
typedef struct _TwLetters TwLetters;

/* @family: as Pango reads it, such as TW_LETTERS_SHEET_FONT; never NULL. (transfer full) */
TwLetters *tw_letters_new (const char *family) G_GNUC_WARN_UNUSED_RESULT;
void tw_letters_free (TwLetters *self);

/* Its measure; @self must live longer. */
TwMeasure tw_letters_measure (TwLetters *self);

/* Size of the font, in the unit of @height, whose capitals are @height tall. */
double tw_letters_font_size (TwLetters *self, double height);

/* Fills the current colour of @cr with @text: its baseline begins at the current point, along x. With
 * @halo_width over 0 a rim of the source set by the caller is stroked instead. Both in user units. */
void tw_letters_show (TwLetters *self, cairo_t *cr, const char *text, double height, double halo_width);

/* Name of the family that is really used, for writers that only name it. (transfer none) */
const char *tw_letters_family (TwLetters *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwLetters, tw_letters_free)

G_END_DECLS
