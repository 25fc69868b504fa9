/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * canvas-copy.h - the view that is shown, as a picture for other programs
 */
#pragma once

#include <gtk/gtk.h>

#include "app/session.h"

G_BEGIN_DECLS

/* The view on white paper to @clipboard: with @as_lines as SVG, else as a picture in pixels that any program
 * takes (PNG). FALSE, saying why, when the view shows nothing. */
gboolean tw_canvas_copy_view (TwSession *session, GdkClipboard *clipboard, gboolean as_lines, GError **error);

G_END_DECLS
