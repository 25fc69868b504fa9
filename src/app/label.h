/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * label.h - labels whose words change while the person looks
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Shows @text (NULL: nothing). Touches the label only when it shows something else, since each change costs a
 * layout, and keeps a figure and its unit on one line. Returns whether it changed. */
gboolean tw_label_show (GtkLabel *label, const char *text);

G_END_DECLS
