/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * canvas-part.h - one part on the canvas for keyboard and screen reader
 *
 * Draws nothing and takes no clicks: the canvas draws from ink and picks by shape. It has the focus, a role,
 * a name and a description with the part's figures.
 */
#pragma once

#include <gtk/gtk.h>

#include "app/session.h"

G_BEGIN_DECLS

#define TW_TYPE_CANVAS_PART (tw_canvas_part_get_type ())
G_DECLARE_FINAL_TYPE (TwCanvasPart, tw_canvas_part, TW, CANVAS_PART, GtkWidget)

/* For @part of the session's job. */
GtkWidget *tw_canvas_part_new (TwSession *session, TwId part);

/* The part that it stands for. */
TwId tw_canvas_part_id (TwCanvasPart *self);

/* Name and figures as the job says them now, and whether it is chosen. */
void tw_canvas_part_update (TwCanvasPart *self);

G_END_DECLS
