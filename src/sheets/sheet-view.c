/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Views on a page: of one core alone or of all, broken off where they would go too far, named when all else
 * stands.
 */
#include "sheets/sheet-private.h"

#include <math.h>
#include <string.h>

/* A view is broken off by a line that goes this far beyond what it cuts, with a zigzag so high; mm on paper.
 */
#define BREAK_BEYOND_MM 3.0
#define BREAK_ZIGZAG_MM 1.6

/* Whether what shows @part belongs on a sheet of @core alone: what is fixed to another core does not. */
static gboolean
is_of_core (const TwSheetSet *self, TwId part, TwId core)
{
  const TwPlacedTank *tank = tw_placement_tank (self->placement, part);
  const TwPlacedPort *port = tw_placement_port (self->placement, part);
  const TwPlacedBaffle *baffle = tw_placement_baffle (self->placement, part);

  if (tw_placement_core (self->placement, part) != NULL)
    return tw_id_equal (part, core);
  return tw_id_equal (tank != NULL     ? tank->core
                      : port != NULL   ? port->core
                      : baffle != NULL ? baffle->core
                                       : core,
                      core);
}

/* Leaves on a view of one core what belongs to it; the air is no part of it. */
static void
keep_core (const TwSheetSet *self, TwViewDrawing *drawing, TwId core)
{
  TwInk *ink = tw_ink_new ();

  for (guint i = 0; i < tw_ink_count (drawing->ink); i++)
    if (is_of_core (self, tw_ink_get (drawing->ink, i)->style.part, core)
        && tw_ink_get (drawing->ink, i)->style.tint != TW_INK_TINT_AIR)
      tw_ink_append_items (ink, drawing->ink, i, 1);
  tw_ink_unref (drawing->ink);
  drawing->ink = tw_ink_finish (ink);
  if (!tw_ink_bounds (ink, &drawing->all))
    drawing->all = TW_BOX_EMPTY;
  drawing->parts = drawing->all;
  for (guint i = drawing->labels->len; i > 0; i--)
    if (!is_of_core (self, g_array_index (drawing->labels, TwViewLabel, i - 1).part, core)
        || g_array_index (drawing->labels, TwViewLabel, i - 1).kind == TW_VIEW_LABEL_AIR)
      g_array_remove_index (drawing->labels, i - 1);
}

TwSheetView
tw_sheet_view (const TwSheetSet *self,
               const TwSheet *page,
               TwView view,
               TwId core,
               double scale,
               TwViewFlags flags)
{
  const TwAnswer *answer = self->source->answer;
  const TwViewSource from
      = { self->placement, tw_answer_routes (answer), tw_answer_passes (answer), self->source->geos };
  TwSheetView made = { .scale = scale };

  made.manner = (TwViewManner){ .view = view,
                                .core = core,
                                .scale = scale,
                                .flags = flags | TW_VIEW_NO_NAMES | TW_VIEW_FEW_TUBES,
                                .look = &page->look,
                                .measure = self->source->measure,
                                .translate = self->source->translate };
  made.drawing = tw_view_draw (&from, &made.manner);
  if (!tw_id_is_none (core))
    keep_core (self, made.drawing, core);
  else if (!tw_ink_bounds (made.drawing->ink, &made.drawing->all)) /* ways of air and water too */
    made.drawing->all = TW_BOX_EMPTY;
  return made;
}

TwPoint
tw_sheet_point (const TwSheetView *view, TwPoint at)
{
  return (TwPoint){ at.x_mm * view->scale + view->shift.x_mm, at.y_mm * view->scale + view->shift.y_mm };
}

TwBox
tw_sheet_on_paper (const TwSheetView *view, TwBox box)
{
  return (TwBox){ box.x0_mm * view->scale + view->shift.x_mm, box.y0_mm * view->scale + view->shift.y_mm,
                  box.x1_mm * view->scale + view->shift.x_mm, box.y1_mm * view->scale + view->shift.y_mm };
}

void
tw_sheet_put_view (TwSheet *page, const TwSheetView *view, const char *title)
{
  const TwInkStyle style = { TW_INK_PEN_THIN, TW_INK_TINT_INK, "view-title", TW_ID_NONE };
  TwBox box = tw_sheet_on_paper (view, view->drawing->all);
  const TwInkPlace place
      = { { box.x0_mm, box.y1_mm + 4 }, TW_INK_SIZE_NOTE, TW_INK_LEFT, TW_INK_BASELINE, FALSE };
  g_autofree char *first = NULL, *fitted = NULL;
  double height = page->look.heights[TW_INK_SIZE_NOTE], room = box.x1_mm - box.x0_mm;

  tw_ink_append_scaled (page->ink, view->drawing->ink, view->scale, view->shift);
  if (title == NULL || tw_box_is_empty (view->drawing->all))
    return;
  if (tw_measure_width (view->manner.measure, title, height) > room) /* what it is stands before the comma */
    title = first = g_strndup (title, strcspn (title, ","));
  fitted = tw_measure_fit (view->manner.measure, title, height, room + 8);
  tw_ink_text (page->ink, &style, &place, fitted);
}

void
tw_sheet_put_names (TwSheet *page, const TwSheetView *views, guint n)
{
  tw_place_take (page->place, page->ink, 0);
  for (guint i = 0; i < n; i++)
    page->left_out
        += tw_view_labels_draw (views[i].drawing, &views[i].manner, views[i].shift, page->place, page->ink);
}

/* A thin line with a zigzag in its middle (ISO 128) along one side of @box, from @low to @high. */
static void
draw_break (TwInk *ink, const TwBox *box, guint side, const double ends_mm[2], double a_paper_mm)
{
  const TwInkStyle style = { TW_INK_PEN_THIN, TW_INK_TINT_INK, "break", TW_ID_NONE };
  const double at_mm[] = { box->x0_mm, box->x1_mm, box->y0_mm, box->y1_mm };
  double middle_mm = (ends_mm[0] + ends_mm[1]) / 2, out_mm = BREAK_ZIGZAG_MM * a_paper_mm;
  const double along_mm[] = { ends_mm[0] - BREAK_BEYOND_MM * a_paper_mm,
                              middle_mm - out_mm,
                              middle_mm - out_mm / 2,
                              middle_mm + out_mm / 2,
                              middle_mm + out_mm,
                              ends_mm[1] + BREAK_BEYOND_MM * a_paper_mm };
  const double off_mm[] = { 0, 0, out_mm, -out_mm, 0, 0 };
  TwInkCorner corners[G_N_ELEMENTS (along_mm)] = { 0 };

  for (guint i = 0; i < G_N_ELEMENTS (along_mm); i++)
    corners[i].at = side < 2 ? (TwPoint){ at_mm[side] + off_mm[i], along_mm[i] }
                             : (TwPoint){ along_mm[i], at_mm[side] + off_mm[i] };
  tw_ink_path (ink, &style, corners, G_N_ELEMENTS (corners), FALSE);
}

/* Names of what is seen no more go; what takes room is named where it is still seen. */
static void
keep_labels (TwViewDrawing *drawing, const TwBox *window)
{
  for (guint i = drawing->labels->len; i > 0; i--) {
    TwViewLabel *label = &g_array_index (drawing->labels, TwViewLabel, i - 1);
    TwBox seen = { MAX (label->around.x0_mm, window->x0_mm), MAX (label->around.y0_mm, window->y0_mm),
                   MIN (label->around.x1_mm, window->x1_mm), MIN (label->around.y1_mm, window->y1_mm) };

    if (tw_box_contains (*window, label->at))
      continue;
    if (label->kind != TW_VIEW_LABEL_VOLUME || seen.x1_mm <= seen.x0_mm || seen.y1_mm <= seen.y0_mm) {
      g_array_remove_index (drawing->labels, i - 1);
      continue;
    }
    label->at = (TwPoint){ (seen.x0_mm + seen.x1_mm) / 2, (seen.y0_mm + seen.y1_mm) / 2 };
    label->around = seen;
    label->inside_mm = MIN (label->inside_mm, MIN (seen.x1_mm - seen.x0_mm, seen.y1_mm - seen.y0_mm) / 2);
  }
}

void
tw_sheet_break_view (TwSheetView *view, const TwBox *window)
{
  TwViewDrawing *drawing = view->drawing;
  TwInk *ink = tw_ink_new ();
  TwInkCuts cuts;

  tw_ink_append_clipped (ink, drawing->ink, window, &cuts);
  for (guint side = 0; side < 4; side++)
    if (cuts.any[side])
      draw_break (ink, window, side, (const double[]){ cuts.low_mm[side], cuts.high_mm[side] },
                  1 / view->scale);
  keep_labels (drawing, window);
  tw_ink_unref (drawing->ink);
  drawing->ink = tw_ink_finish (ink);
  if (!tw_ink_bounds (ink, &drawing->all))
    drawing->all = TW_BOX_EMPTY;
}
