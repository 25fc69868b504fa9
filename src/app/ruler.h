/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * ruler.h - a ruler along the canvas, in the job's units
 *
 * Shows where the pointer is and how far the chosen parts reach. The status line says the pointer's place in
 * figures, so the ruler itself is decoration for a screen reader.
 */
#pragma once

#include "app/canvas.h"

G_BEGIN_DECLS

#define TW_TYPE_RULER (tw_ruler_get_type ())
G_DECLARE_FINAL_TYPE (TwRuler, tw_ruler, TW, RULER, GtkWidget)

/* Once, before it is shown. It stands along @canvas, as long as it is. */
void tw_ruler_set_canvas (TwRuler *self, TwSession *session, TwCanvas *canvas);

G_END_DECLS
