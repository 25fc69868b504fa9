/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * help-view.h - one help page as widgets: headings, lists, cautions, pictures and links between pages
 *
 * Signal: `link-followed` (page name) when a link is used.
 */
#pragma once

#include <gtk/gtk.h>

#include "app/help-text.h"
#include "app/samples.h"

G_BEGIN_DECLS

#define TW_TYPE_HELP_VIEW (tw_help_view_get_type ())
G_DECLARE_FINAL_TYPE (TwHelpView, tw_help_view, TW, HELP_VIEW, GtkWidget)

/* Shows @page from its start in the place of what was shown; nothing of it is kept. @samples: its pictures
 * are drawn of them. */
void tw_help_view_show (TwHelpView *self, const TwHelpPage *page, TwSamples *samples);

G_END_DECLS
