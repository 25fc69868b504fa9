/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Marks that are put on a page and proved at once: dimensions, the datum, the bar, weld symbols.
 */
#include "sheets/sheet-private.h"

#include <math.h>

#define IN_MM 25.4

/* The bar stands so high over the frame, its ticks are so long; mm on paper. */
#define BAR_UP_MM 4.0
#define BAR_TICK_MM 1.5
#define BAR_WORDS_MM 60.0

/* Heads, rings and pens reach no farther beyond their places; mm on paper. */
#define NEAR_MM 6.0

/* Kept free round the tables that will stand in the column; mm on paper. */
#define COLUMN_EDGE_MM 1.0

/* Reference line of a weld symbol, between its two lines, its fork and the circle at its elbow; mm on paper.
 */
#define WELD_LONG_MM 14.0
#define WELD_LINES_MM 1.2
#define WELD_FORK_MM 2.5
#define WELD_RING 0.3

/* --- proved at once ---------------------------------------------------------------------------------------
 */

static TwPlace *
place_of (const TwSheetSet *self, const TwSheet *page)
{
  TwPlace *place = tw_place_new (&tw_paper (page->size)->frame, &page->look, self->source->measure);
  TwBox block = tw_paper_title_box (page->size, FALSE);
  TwBox column = tw_box_grow (tw_sheet_column (page->size), COLUMN_EDGE_MM);

  tw_place_add_block (place, &block, TW_PAPER_TITLE_LAYER);
  tw_place_add_block (place, &column, TW_TABLE_LAYER);
  return place;
}

/* The box that an item covers, its letters too. */
static TwBox
box_of (const TwSheetSet *self, const TwSheet *page, const TwInkItem *item)
{
  TwBox box;

  if (item->kind == TW_INK_TEXT)
    return tw_measure_box (self->source->measure, &page->look, &item->place, item->text);
  tw_ink_item_bounds (item, &box);
  return box;
}

/* What of the page is near @ink, then @ink itself. Returns: how many items are of the page. */
static guint
gather (const TwSheetSet *self, const TwSheet *page, const TwInk *ink, TwInk *all)
{
  TwBox reach = TW_BOX_EMPTY;

  for (guint i = 0; i < tw_ink_count (ink); i++)
    reach = tw_box_add (reach, box_of (self, page, tw_ink_get (ink, i)));
  reach = tw_box_grow (reach, NEAR_MM);
  for (guint i = 0; i < tw_ink_count (page->ink); i++) {
    TwBox box = box_of (self, page, tw_ink_get (page->ink, i));

    if (box.x0_mm <= reach.x1_mm && box.x1_mm >= reach.x0_mm && box.y0_mm <= reach.y1_mm
        && box.y1_mm >= reach.y0_mm)
      tw_ink_append_items (all, page->ink, i, 1);
  }
  return tw_ink_count (all);
}

gboolean
tw_sheet_try (const TwSheetSet *self, TwSheet *page, const TwInk *ink)
{
  g_autoptr (TwPlace) place = place_of (self, page);
  g_autoptr (TwInk) all = tw_ink_new ();
  g_autoptr (GArray) faults = NULL;
  guint first = gather (self, page, ink, all);

  tw_ink_append_items (all, ink, 0, tw_ink_count (ink));
  tw_place_take (place, all, 0);
  faults = tw_place_check (place);
  for (guint i = 0; i < faults->len; i++) {
    const TwPlaceCollision *fault = &g_array_index (faults, TwPlaceCollision, i);
    gboolean of_two = fault->fault != TW_PLACE_OUTSIDE && fault->fault != TW_PLACE_ON_BLOCK;

    if (fault->item >= first || (of_two && fault->other >= first))
      return FALSE;
  }
  tw_ink_append_items (page->ink, ink, 0, tw_ink_count (ink));
  return TRUE;
}

guint
tw_sheet_stack (const TwSheetSet *self,
                TwSheet *page,
                const TwDimensionEdge *edge,
                const TwDimension *dims,
                guint n)
{
  TwDimensionManner manner = tw_sheet_manner (self, page);

  for (; n > 0; n--) {
    g_autoptr (TwInk) ink = tw_ink_new ();

    (void)tw_dimension_stack (ink, &manner, edge, dims, n);
    if (tw_sheet_try (self, page, ink))
      break;
  }
  return n;
}

/* --- the datum --------------------------------------------------------------------------------------------
 */

gboolean
tw_sheet_datum (const TwSheetSet *self, TwVec *at)
{
  const TwPlacedCore *cores;
  const TwHeaderSide *side;
  guint n;

  cores = tw_placement_cores (self->placement, &n);
  if (n == 0)
    return FALSE;
  side = &cores[0].sides[cores[0].is_upright ? 1 : 0];
  *at = tw_frame_to_job (&cores[0].frame,
                         tw_header_point (side, cores[0].header_start_mm, 0, cores[0].header_w_from_mm));
  return TRUE;
}

void
tw_sheet_mark_datum (const TwSheetSet *self, TwSheetView *view)
{
  TwFrame eye = tw_view_frame (self->placement, view->manner.view, view->manner.core);
  TwInkStyle style = { TW_INK_PEN_THIN, TW_INK_TINT_INK, "datum", TW_ID_NONE };
  TwInk *ink;
  TwViewLabel label = { .kind = TW_VIEW_LABEL_PORT, .tint = TW_INK_TINT_INK };
  TwVec at;

  if (!tw_sheet_datum (self, &at))
    return;
  at = tw_frame_from_job (&eye, at);
  label.at = (TwPoint){ at.x, at.y };
  label.around = (TwBox){ at.x, at.y, at.x, at.y };
  label.text = g_strdup ("0");
  g_array_prepend_val (view->drawing->labels, label);
  ink = tw_ink_new ();
  tw_ink_append_items (ink, view->drawing->ink, 0, tw_ink_count (view->drawing->ink));
  tw_ink_dot (ink, &style, label.at);
  tw_ink_ring (ink, &style, label.at, 0.35);
  tw_ink_unref (view->drawing->ink);
  view->drawing->ink = tw_ink_finish (ink);
}

/* --- the bar ----------------------------------------------------------------------------------------------
 */

void
tw_sheet_draw_bar (const TwSheetSet *self, TwSheet *page)
{
  const TwInkStyle wide = { TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, TW_SHEET_BAR_LAYER, TW_ID_NONE };
  const TwInkStyle thin = { TW_INK_PEN_THIN, TW_INK_TINT_INK, TW_SHEET_BAR_LAYER, TW_ID_NONE };
  const TwBox *frame = &tw_paper (page->size)->frame;
  guint n = self->inches ? 4 : 10;
  double step_mm = self->inches ? IN_MM : 10;
  TwPoint at = { frame->x0_mm + TW_SHEET_MARK_MM, frame->y0_mm + BAR_UP_MM };
  TwInkPlace place = { .size = TW_INK_SIZE_SMALL, .across = TW_INK_LEFT, .up = TW_INK_MIDDLE };
  const char *words = self->inches ? N_ ("4 in; print at 100 %") : N_ ("100 mm; print at 100 %");
  TwBox box = { at.x_mm, frame->y0_mm + 1, at.x_mm + n * step_mm + BAR_WORDS_MM, at.y_mm + BAR_TICK_MM + 1 };

  tw_ink_line (page->ink, &wide, at, (TwPoint){ at.x_mm + n * step_mm, at.y_mm });
  for (guint i = 0; i <= n; i++) {
    double x_mm = at.x_mm + i * step_mm, up_mm = i == 0 || i == n ? 2 * BAR_TICK_MM : BAR_TICK_MM;

    tw_ink_line (page->ink, &thin, (TwPoint){ x_mm, at.y_mm }, (TwPoint){ x_mm, at.y_mm + up_mm });
  }
  place.at = (TwPoint){ at.x_mm + n * step_mm + 2, at.y_mm + BAR_TICK_MM };
  tw_ink_text (page->ink, &thin, &place, tw_sheet_words (self, words));
  tw_place_add_block (page->place, &box, TW_SHEET_BAR_LAYER);
}

/* --- welds ------------------------------------------------------------------------------------------------
 */

/* Two lines that open away from the end of the reference line. */
static void
draw_fork (TwInk *ink, const TwInkStyle *style, TwPoint end, double sign)
{
  for (double up = -1; up <= 1; up += 2)
    tw_ink_line (ink, style, end, (TwPoint){ end.x_mm + sign * WELD_FORK_MM, end.y_mm + up * WELD_FORK_MM });
}

void
tw_sheet_weld (const TwSheetSet *self, const TwSheet *page, TwInk *ink, TwPoint joint, TwPoint elbow)
{
  const TwInkStyle style = { TW_INK_PEN_LEADER, TW_INK_TINT_INK, "weld", TW_ID_NONE };
  TwInkStyle dashed = style;
  double sign = elbow.x_mm >= joint.x_mm ? 1 : -1, height = page->look.heights[TW_INK_SIZE_NOTE];
  TwPoint end = { elbow.x_mm + sign * WELD_LONG_MM, elbow.y_mm };
  double left_mm = (elbow.x_mm + end.x_mm) / 2 - height / 2, up = self->inches ? -1 : 1;
  const TwInkCorner fillet[] = { { .at = { left_mm, elbow.y_mm } },
                                 { .at = { left_mm, elbow.y_mm + up * height } },
                                 { .at = { left_mm + height, elbow.y_mm } } };
  TwInkPlace place = { { end.x_mm + sign * (WELD_FORK_MM + 1), end.y_mm },
                       TW_INK_SIZE_NOTE,
                       sign > 0 ? TW_INK_LEFT : TW_INK_RIGHT,
                       TW_INK_MIDDLE,
                       FALSE };

  tw_ink_line (ink, &style, joint, elbow);
  tw_ink_arrow (ink, &style, joint, atan2 (joint.y_mm - elbow.y_mm, joint.x_mm - elbow.x_mm));
  tw_ink_ring (ink, &style, elbow, WELD_RING); /* all round */
  tw_ink_line (ink, &style, elbow, end);
  tw_ink_path (ink, &style, fillet, G_N_ELEMENTS (fillet), TRUE);
  if (!self->inches) {
    dashed.pen = TW_INK_PEN_BEHIND;
    tw_ink_line (ink, &dashed, (TwPoint){ elbow.x_mm + sign * 1.5, elbow.y_mm - WELD_LINES_MM },
                 (TwPoint){ end.x_mm, end.y_mm - WELD_LINES_MM });
  }
  draw_fork (ink, &style, end, sign);
  /* gas tungsten arc, by ISO 4063 and by AWS */
  tw_ink_text (ink, &style, &place, self->inches ? "GTAW" : "141");
}
