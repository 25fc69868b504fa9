/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * to-cairo.h - ink by cairo: PDF, PNG, printer and screen
 */
#pragma once

#include <cairo.h>

#include "draw/ink.h"
#include "draw/look.h"
#include "sheets/letters.h"
#include "sheets/page.h"

G_BEGIN_DECLS

/* From ink to the user space of a cairo context. Widths and heights of the look are in that user space. */
typedef struct {
  double scale;              /* user units a millimetre of ink */
  double origin_x, origin_y; /* where the ink's 0 lies, user units; y there runs down */
  gboolean snap;             /* level and upright lines land on whole device pixels; for a screen */
} TwCairoLens;

/* Draws all of @ink. The context is left as it was found. */
void tw_cairo_draw (cairo_t *cr,
                    const TwInk *ink,
                    const TwLook *look,
                    TwLetters *letters,
                    const TwCairoLens *lens);

/**
 * tw_cairo_write_pdf:
 * @pages: at least one; each keeps its own size
 *
 * Real size: a millimetre of ink is a millimetre on the page. Text is text, with its font embedded.
 * Returns: (transfer full): the file, or NULL with an error
 */
GBytes *tw_cairo_write_pdf (const TwPage *pages, guint n, const TwPageAbout *about, GError **error)
    G_GNUC_WARN_UNUSED_RESULT;

/* One page as a picture; @pixels_per_mm over 0, at most 40; refused if a side were over 20 000 pixels. */
GBytes *
tw_cairo_write_png (const TwPage *page, double pixels_per_mm, GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
