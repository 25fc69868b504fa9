/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * to-svg.h - ink as SVG 1.1, written by ourselves
 *
 * The root is as large as the page in mm and one user unit is a millimetre; every layer is a group whose id
 * is its name; arcs are arcs, text is text; no style sheet, no transform but the quarter turn of a text. y is
 * flipped in the numbers.
 */
#pragma once

#include "sheets/letters.h"
#include "sheets/page.h"

G_BEGIN_DECLS

/* One page as a file. Items of one layer come together, layers in the order of their first item. Texts carry
 * the length that was measured, so a reader's other font cannot make them meet. (transfer full) */
GBytes *tw_svg_write (const TwPage *page, const TwPageAbout *about) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
