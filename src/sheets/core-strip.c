/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The strip of sections of the tanks and of baffles' feet under the assembly.
 */
#include "sheets/core-sheet-private.h"

#include <math.h>

/* Room round each for dimensions, names and title; mm on paper. */
#define SIDE_MM 21.0
#define LOW_MM 24.0
#define TOP_MM 28.0
#define WELD_MM 9.0

/* Sections and feet drawn; further tanks and baffles are alike or stand in the tables. */
#define SECTIONS_MOST 4
#define FEET_MOST 2

static void
clear_item (gpointer data)
{
  TwCoreStripItem *item = data;

  tw_view_drawing_free (item->view.drawing);
  g_free (item->title);
}

static gboolean
append_item (GArray *items, const TwSheetView *view, const TwPlacedTank *tank, const TwPlacedBaffle *baffle)
{
  TwCoreStripItem item = { .tank = tank, .baffle = baffle, .view = *view };

  if (tw_box_is_empty (view->drawing->all)) {
    tw_view_drawing_free (view->drawing);
    return FALSE;
  }
  item.width_mm = view->drawing->all.x1_mm - view->drawing->all.x0_mm;
  item.height_mm = view->drawing->all.y1_mm - view->drawing->all.y0_mm;
  g_array_append_val (items, item);
  return TRUE;
}

/* Whether two baffles of a core have like feet: as thick, and as far from the tube below them. */
static gboolean
are_alike (const TwSheetSet *set, const TwPlacedBaffle *one, const TwPlacedBaffle *two)
{
  const TwBaffle *own = (const TwBaffle *)tw_drawing_find (set->drawing, one->id),
                 *other = (const TwBaffle *)tw_drawing_find (set->drawing, two->id);
  TwTubeGrid grid = tw_tube_grid ((const TwCore *)tw_drawing_find (set->drawing, one->core));

  return tw_id_equal (one->core, two->core) && one->runs_along == two->runs_along
         && fabs (remainder (own->place_mm - other->place_mm, grid.step_mm)) < 0.05
         && fabs (own->thickness_mm - other->thickness_mm) < 0.005;
}

static gboolean
is_like_drawn (const TwSheetSet *set, const GArray *items, const TwPlacedBaffle *baffle)
{
  for (guint i = 0; i < items->len; i++) {
    const TwPlacedBaffle *drawn = g_array_index (items, TwCoreStripItem, i).baffle;

    if (drawn != NULL && are_alike (set, drawn, baffle))
      return TRUE;
  }
  return FALSE;
}

GArray *
tw_core_strip_new (const TwSheetSet *set, const TwSheet *page, const TwPlacedCore *core)
{
  GArray *items = g_array_new (FALSE, FALSE, sizeof (TwCoreStripItem));
  const TwPlacedTank *tanks;
  const TwPlacedBaffle *baffles;
  guint n, n_drawn = 0;

  g_array_set_clear_func (items, clear_item);
  tanks = tw_placement_tanks (set->placement, &n);
  for (guint i = 0; i < n && n_drawn < SECTIONS_MOST; i++)
    if (tw_id_equal (tanks[i].core, core->id)) {
      TwSheetView view = tw_sheet_section (set, page, &tanks[i], 1);

      n_drawn += append_item (items, &view, &tanks[i], NULL);
    }
  n_drawn = 0;
  baffles = tw_placement_baffles (set->placement, &n);
  for (guint i = 0; i < n && n_drawn < FEET_MOST; i++)
    if (tw_id_equal (baffles[i].core, core->id) && !is_like_drawn (set, items, &baffles[i])) {
      TwSheetView view = tw_sheet_foot (set, page, &baffles[i], 1);

      n_drawn += append_item (items, &view, NULL, &baffles[i]);
    }
  return items;
}

/* Room grows with the letters: heights of a note over those of a small sheet, dimensionless. */
static double
letters (const TwLook *look)
{
  return look->heights[TW_INK_SIZE_NOTE] / 3.5;
}

double
tw_core_strip_size (GArray *items, const TwLook *look, const double small[2], double *width_mm)
{
  double high = 0;

  *width_mm = 0;
  for (guint i = 0; i < items->len; i++) {
    TwCoreStripItem *item = &g_array_index (items, TwCoreStripItem, i);

    item->view.scale = item->view.manner.scale = item->tank != NULL ? 1 / small[0] : small[1];
    high = MAX (high, item->height_mm * item->view.scale);
    *width_mm += item->width_mm * item->view.scale + 2 * SIDE_MM;
  }
  return items->len > 0 ? high + (LOW_MM + TOP_MM) * letters (look) : 0;
}

double
tw_core_strip_least (GArray *items)
{
  double least = G_MAXDOUBLE;

  for (guint i = 0; i < items->len; i++) {
    const TwCoreStripItem *item = &g_array_index (items, TwCoreStripItem, i);

    if (item->tank != NULL)
      least = MIN (least, MIN (item->width_mm, item->height_mm));
  }
  return least;
}

/* --- drawing ----------------------------------------------------------------------------------------------
 */

/* Between which tubes the baffles with this foot stand: `12 | 13, 23 | 24`. (transfer full) */
static char *
gaps_of (const TwSheetSet *set, const TwPlacedBaffle *baffle)
{
  const TwPlacedCore *core = tw_placement_core (set->placement, baffle->core);
  g_autoptr (GString) text = g_string_new (NULL);
  const TwPlacedBaffle *baffles;
  guint n;

  baffles = tw_placement_baffles (set->placement, &n);
  for (guint i = 0; i < n; i++)
    if (are_alike (set, baffle, &baffles[i])) {
      g_autofree char *gap
          = tw_sheet_gap (set, core, (const TwBaffle *)tw_drawing_find (set->drawing, baffles[i].id));

      g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", gap);
    }
  return g_strdup (text->str);
}

static char *
title_of (const TwSheetSet *set, const TwCoreStripItem *item, guint nth)
{
  static const char *const letters[] = { "W–W", "X–X", "Y–Y", "Z–Z" };
  double scale = item->view.scale;
  g_autofree char *ratio = tw_paper_scale_text (
      (TwPaperScale){ scale > 1 ? (guint)lround (scale) : 1, scale > 1 ? 1 : (guint)lround (1 / scale) });
  g_autofree char *gap = NULL;

  if (item->tank != NULL && !item->has_plane)
    return g_strdup_printf ("%s\n%s", ratio, tw_sheet_name (set, item->tank->id));
  if (item->tank != NULL)
    return g_strdup_printf ("%s  %s\n%s", letters[nth % G_N_ELEMENTS (letters)], ratio,
                            tw_sheet_name (set, item->tank->id));
  gap = gaps_of (set, item->baffle);
  return g_strdup_printf ("%s  %s\n%s", gap, ratio, tw_sheet_words (set, N_ ("Foot of the baffle")));
}

/* Two lines over a drawing: what it is and its scale, and its name. */
static void
write_title (const TwSheetSet *set, TwSheet *page, const TwCoreStripItem *item, TwPoint at, double room_mm)
{
  const TwInkStyle words = { TW_INK_PEN_THIN, TW_INK_TINT_INK, "view-title", TW_ID_NONE };
  TwInkPlace place = { at, TW_INK_SIZE_NOTE, TW_INK_CENTRE, TW_INK_BASELINE, FALSE };
  double height = page->look.heights[TW_INK_SIZE_NOTE];
  g_auto (GStrv) lines = g_strsplit (item->title, "\n", 2);

  for (guint i = 0; lines[i] != NULL; i++) {
    g_autofree char *text = tw_measure_fit (set->source->measure, lines[i], height, room_mm);

    tw_ink_text (page->ink, &words, &place, text);
    place.at.y_mm -= 1.6 * height;
  }
}

/* Where the tank's rim sits on the plate, on the air-out side, and where its symbol's elbow stands. */
static void
draw_weld (const TwSheetSet *set, TwSheet *page, const TwCoreStripItem *item)
{
  const TwHeaderSide *side = &item->tank->side;
  TwPoint joint = tw_sheet_point (&item->view, tw_sheet_off (side, 0, item->tank->w_to_mm)), elbow = joint;
  g_autoptr (TwInk) ink = tw_ink_new ();

  elbow.x_mm += side->side == TW_SIDE_RIGHT ? -WELD_MM : WELD_MM;
  elbow.y_mm += side->side == TW_SIDE_TOP ? -WELD_MM : WELD_MM;
  tw_sheet_weld (set, page, ink, joint, elbow);
  (void)tw_sheet_try (set, page, ink);
}

static void
draw_item (const TwSheetSet *set, TwSheet *page, TwCoreStripItem *item, const TwBox *cell)
{
  TwBox all = item->view.drawing->all;
  double scale = item->view.scale;

  item->view.shift = (TwPoint){ (cell->x0_mm + cell->x1_mm) / 2 - (all.x0_mm + all.x1_mm) / 2 * scale,
                                (cell->y0_mm + cell->y1_mm + (LOW_MM - TOP_MM) * letters (&page->look)) / 2
                                    - (all.y0_mm + all.y1_mm) / 2 * scale };
  tw_ink_append_scaled (page->ink, item->view.drawing->ink, scale, item->view.shift);
  write_title (set, page, item, (TwPoint){ (cell->x0_mm + cell->x1_mm) / 2, cell->y1_mm - 5 },
               cell->x1_mm - cell->x0_mm - 4);
}

/* When all drawings of the strip stand. */
static void
dimension_item (const TwSheetSet *set, TwSheet *page, const TwCoreStripItem *item)
{
  if (item->tank != NULL) {
    tw_sheet_dimension_section (set, page, &item->view, item->tank);
    draw_weld (set, page, item);
  } else {
    tw_sheet_dimension_foot (set, page, &item->view, item->baffle);
  }
}

void
tw_core_strip_draw (const TwSheetSet *set, TwSheet *page, GArray *items, const TwBox *room)
{
  double need_mm = 0, spare_mm, x_mm = room->x0_mm;
  guint n_sections = 0;

  for (guint i = 0; i < items->len; i++) {
    const TwCoreStripItem *item = &g_array_index (items, TwCoreStripItem, i);

    need_mm += item->width_mm * item->view.scale + 2 * SIDE_MM;
  }
  spare_mm = items->len > 0 ? MAX (0, (room->x1_mm - room->x0_mm - need_mm) / items->len) : 0;
  for (guint i = 0; i < items->len; i++) {
    TwCoreStripItem *item = &g_array_index (items, TwCoreStripItem, i);
    TwBox cell = { x_mm, room->y0_mm, x_mm + item->width_mm * item->view.scale + 2 * SIDE_MM + spare_mm,
                   room->y1_mm };

    item->title = title_of (set, item, n_sections);
    n_sections += item->tank != NULL;
    draw_item (set, page, item, &cell);
    x_mm = cell.x1_mm;
  }
  for (guint i = 0; i < items->len; i++)
    dimension_item (set, page, &g_array_index (items, TwCoreStripItem, i));
}
