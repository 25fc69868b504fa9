/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * view-page.h - one view alone on a page, as a picture for a letter or another program
 */
#pragma once

#include "draw/views.h"
#include "sheets/page.h"

G_BEGIN_DECLS

#define TW_VIEW_PAGE_WIDTH_MM 270.0

/**
 * tw_view_page_lay:
 * @manner: its scale, flags and shown are not read; the view is as large as the page's width allows
 * @ink: empty; written and finished
 * @page: (out): TW_VIEW_PAGE_WIDTH_MM wide, as tall as the view needs; holds @ink and the manner's look
 *
 * Returns: FALSE when there is nothing to be seen; @ink is then empty and not finished
 */
gboolean tw_view_page_lay (const TwViewSource *source, const TwViewManner *manner, TwInk *ink, TwPage *page)
    G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
