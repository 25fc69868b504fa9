/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * compat.h - what later versions of the toolkit rename, in one place
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The platform's accent colour as @widget sees it. */
void tw_compat_accent (GtkWidget *widget, GdkRGBA *colour);

/* The colour of text in @widget. */
void tw_compat_colour (GtkWidget *widget, GdkRGBA *colour);

/* Whether the platform asks for high contrast. */
gboolean tw_compat_high_contrast (void);

/* How much larger than plain the platform wants letters, dimensionless: 1, with large text 1.25. */
double tw_compat_text_scale (void);

/* Whether the platform asks for little movement. */
gboolean tw_compat_reduced_motion (GtkWidget *widget);

G_END_DECLS
