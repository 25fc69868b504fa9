/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/view-page.h"

#define EDGE_MM 12.0
#define NAMES_OFF_MM 2.0 /* no name stands nearer to the edge of the page */
#define TRIAL_SCALE 0.2  /* dimensionless: to learn how large the view is */

/* Without names when nothing is @shown. */
static TwViewDrawing *
draw (const TwViewSource *source, const TwViewManner *manner, double scale, const TwBox *shown)
{
  TwViewManner now = *manner;

  now.scale = scale;
  now.flags = shown == NULL ? TW_VIEW_NO_NAMES : 0;
  now.shown = shown;
  return tw_view_draw (source, &now);
}

gboolean
tw_view_page_lay (const TwViewSource *source, const TwViewManner *manner, TwInk *ink, TwPage *page)
{
  g_autoptr (TwViewDrawing) trial = draw (source, manner, TRIAL_SCALE, NULL), bare = NULL, drawing = NULL;
  const double width_mm = TW_VIEW_PAGE_WIDTH_MM;
  double scale, edge_mm;
  TwBox all, shown;

  if (tw_box_is_empty (trial->all))
    return FALSE;
  scale = MIN ((width_mm - 2 * EDGE_MM) / MAX (trial->all.x1_mm - trial->all.x0_mm, 1),
               (2 * width_mm - 2 * EDGE_MM) / MAX (trial->all.y1_mm - trial->all.y0_mm, 1));
  /* arrows are as long as they are on paper: how large all is hangs on the scale */
  bare = draw (source, manner, scale, NULL);
  all = bare->all;
  page->width_mm = width_mm;
  page->height_mm = (all.y1_mm - all.y0_mm) * scale + 2 * EDGE_MM;
  edge_mm = (width_mm / scale - (all.x1_mm - all.x0_mm)) / 2;
  shown = tw_box_grow ((TwBox){ all.x0_mm - edge_mm, all.y0_mm - EDGE_MM / scale, all.x1_mm + edge_mm,
                                all.y1_mm + EDGE_MM / scale },
                       -NAMES_OFF_MM / scale);
  drawing = draw (source, manner, scale, &shown);
  tw_ink_append_scaled (
      ink, drawing->ink, scale,
      (TwPoint){ width_mm / 2 - (all.x0_mm + all.x1_mm) / 2 * scale, EDGE_MM - all.y0_mm * scale });
  page->ink = tw_ink_finish (ink);
  page->look = manner->look;
  return TRUE;
}
