/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * paper-scale.c - which scale, on which sheet
 */
#include "sheets/paper.h"

/* ISO 5455, from memory; largest first. */
static const TwPaperScale scales[] = {
  { 50, 1 }, { 20, 1 }, { 10, 1 }, { 5, 1 },  { 2, 1 },  { 1, 1 },
  { 1, 2 },  { 1, 5 },  { 1, 10 }, { 1, 20 }, { 1, 50 }, { 1, 100 },
};

static double
factor_of (TwPaperScale scale)
{
  return (double)scale.drawing / scale.model;
}

static gboolean
fits (const TwPaperNeed *need, TwPaperSize size, TwPaperScale scale)
{
  const TwBox *frame = &tw_paper (size)->frame;
  TwBox title = tw_paper_title_box (size, TRUE);
  double width_mm = need->model_width_mm * factor_of (scale) + need->margin_width_mm;
  double height_mm = need->model_height_mm * factor_of (scale) + need->margin_height_mm;
  double room_mm = frame->x1_mm - frame->x0_mm;

  if (width_mm + need->beside_width_mm <= room_mm && height_mm <= frame->y1_mm - title.y1_mm)
    return TRUE;
  /* or beside the block, which then stands under what is at the side */
  return width_mm + MAX (need->beside_width_mm, title.x1_mm - title.x0_mm) <= room_mm
         && height_mm <= frame->y1_mm - frame->y0_mm;
}

gboolean
tw_paper_choose (const TwPaperNeed *need,
                 TwPaperSize *size,
                 TwPaperSize largest,
                 TwPaperScale finest,
                 TwPaperScale *scale)
{
  for (TwPaperSize sheet = *size;; sheet = tw_paper_next (sheet)) {
    gboolean last = sheet == largest || tw_paper_next (sheet) == sheet;

    for (guint i = 0; i < G_N_ELEMENTS (scales); i++)
      if (fits (need, sheet, scales[i]) && (last || factor_of (scales[i]) >= factor_of (finest))) {
        *size = sheet;
        *scale = scales[i];
        return TRUE;
      }
    if (last)
      return FALSE;
  }
}

char *
tw_paper_scale_text (TwPaperScale scale)
{
  return g_strdup_printf ("%u:%u", scale.drawing, scale.model);
}
