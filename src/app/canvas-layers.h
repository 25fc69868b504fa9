/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * canvas-layers.h - ink as kept render nodes
 *
 * Items of one layer and part that follow each other become one node. A node is kept from frame to frame
 * while what it shows is the same, so that a drag draws again only what it moves (the renderer compares nodes
 * by identity).
 */
#pragma once

#include <gtk/gtk.h>

#include "sheets/to-cairo.h"
#include "stage/lens.h"

G_BEGIN_DECLS

typedef struct _TwCanvasLayers TwCanvasLayers;

/* With nothing in it. (transfer full) */
TwCanvasLayers *tw_canvas_layers_new (void) G_GNUC_WARN_UNUSED_RESULT;
void tw_canvas_layers_free (TwCanvasLayers *self);

/* Takes note of what is to be drawn (@ink finished, a reference is kept) and how. Nothing is drawn yet. */
void tw_canvas_layers_set (TwCanvasLayers *self, TwInk *ink, const TwLook *look, const TwLens *lens);

/* Draws what is not kept, adds all. @letters write and measure. */
void tw_canvas_layers_snapshot (TwCanvasLayers *self, TwLetters *letters, GtkSnapshot *snapshot);

/* How many nodes have been drawn since it was made. */
guint tw_canvas_layers_drawn (const TwCanvasLayers *self);

G_END_DECLS
