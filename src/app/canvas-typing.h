/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * canvas-typing.h - a figure typed while something is held
 *
 * A small entry beside what is held: the name of the figure, what is typed, and what is wrong with it. Enter
 * takes it and lets go, Escape puts everything back, Tab goes to the next figure. The canvas places it.
 */
#pragma once

#include "app/session.h"
#include "stage/hand.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TW_TYPE_CANVAS_TYPING (tw_canvas_typing_get_type ())
G_DECLARE_FINAL_TYPE (TwCanvasTyping, tw_canvas_typing, TW, CANVAS_TYPING, GtkWidget)

/* Hidden. `done` is emitted with TRUE when the figure was taken and with FALSE when all is to be put back. */
GtkWidget *tw_canvas_typing_new (TwSession *session, TwHand *hand);

/* Shows it for the hand's first figure, with @begun already typed (may be empty). FALSE when the hand holds
 * nothing that has a figure. */
gboolean tw_canvas_typing_begin (TwCanvasTyping *self, const char *begun);
/* Hides it; nothing is emitted. */
void tw_canvas_typing_end (TwCanvasTyping *self);
gboolean tw_canvas_typing_is_open (TwCanvasTyping *self);

G_END_DECLS
