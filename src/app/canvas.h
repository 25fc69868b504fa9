/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * canvas.h - the drawing of one view, and every gesture on it
 *
 * Translates pointer and keys for stage/hand and paints ink; knows nothing of the trade itself.
 *
 * Properties (notify): `position` (of the pointer, in the job's units), `snap` (what the drag snapped to),
 * `zoom`: texts for the status line; `is-empty`: nothing to show in this view.
 * Signals: `part-activated` when the form of the chosen part is asked for; `looked` when it shows another
 * part of the view, the pointer moved over it, or measuring began or ended.
 */
#pragma once

#include <gtk/gtk.h>

#include "app/session.h"

G_BEGIN_DECLS

#define TW_TYPE_CANVAS (tw_canvas_get_type ())
G_DECLARE_FINAL_TYPE (TwCanvas, tw_canvas, TW, CANVAS, GtkWidget)

/* Once, before it is shown. */
void tw_canvas_set_session (TwCanvas *self, TwSession *session);

/* Larger by @by (dimensionless; under 1 smaller), about the middle. */
void tw_canvas_zoom (TwCanvas *self, double by);
/* Cores and the rooms that they stand in as large as they fit; asked once more, the whole drawing. */
void tw_canvas_fit (TwCanvas *self);

/* Where a place of the view lies on the widget, and back. */
graphene_point_t tw_canvas_place_of (TwCanvas *self, TwPoint at);
TwPoint tw_canvas_point_at (TwCanvas *self, double x, double y);

/* The chosen part as large as it fits. */
void tw_canvas_zoom_to_chosen (TwCanvas *self);
/* The menu that a right click or the menu key opens; once. */
void tw_canvas_set_menu (TwCanvas *self, GMenuModel *model);
/* Where a new part is meant to stand, mm of the view: returns 1 when the menu was opened by the pointer or an
 * edge was clicked twice, else 0. */
guint tw_canvas_menu_points (TwCanvas *self, TwPoint points[2]);
/* Box round all chosen parts as they are seen, mm of the view. FALSE: none is seen. */
gboolean tw_canvas_chosen_box (TwCanvas *self, TwBox *box);
/* Where the pointer is, pixels of the canvas. FALSE: elsewhere. */
gboolean tw_canvas_pointer (TwCanvas *self, graphene_point_t *at);
/* Measuring: clicks choose two places, and the status line reads their distance. */
void tw_canvas_set_measuring (TwCanvas *self, gboolean measures);
gboolean tw_canvas_is_measuring (TwCanvas *self);
/* Pixels a millimetre of the view that is shown. */
double tw_canvas_px_mm (TwCanvas *self);

/* Fields that the drag of the moment has changed; @n is 0 when there is none. (transfer none) */
const guint *tw_canvas_moving_fields (TwCanvas *self, guint *n);

/* What is drawn now, mm of the view; NULL for nothing. (transfer none): until the next change. For tests. */
const TwInk *tw_canvas_ink (TwCanvas *self);
/* How many nodes have been drawn so far: for tests and benchmarks. */
guint tw_canvas_nodes_drawn (TwCanvas *self);

G_END_DECLS
