/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * pane-layout.h - lays out what scrolls up and down
 *
 * A pane is as wide as its child asks and as tall as it is given; it never asks its child how tall it would
 * be. The platform's layouts do ask, at every width that comes to mind, which costs a line-breaking of every
 * label in the pane for each of them, at each change of a figure.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TW_TYPE_PANE_LAYOUT (tw_pane_layout_get_type ())
G_DECLARE_FINAL_TYPE (TwPaneLayout, tw_pane_layout, TW, PANE_LAYOUT, GtkLayoutManager)

G_END_DECLS
