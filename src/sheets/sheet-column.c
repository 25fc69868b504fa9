/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The column of tables that stands on the title block, and the pages that it goes on to.
 */
#include "sheets/sheet-private.h"

double
tw_sheet_table_height_mm (TwPaperSize size)
{
  TwBox column = tw_sheet_column (size);

  return column.y1_mm - column.y0_mm;
}

double
tw_sheet_tables_need_mm (TwPaperSize size, GPtrArray *tables)
{
  TwLook look = tw_look_paper (tw_paper (size)->large);
  double need = 0;

  for (guint i = 0; i < tables->len; i++) {
    const TwTable *table = g_ptr_array_index (tables, i);

    if (tw_table_n_rows (table) > 0)
      need += tw_table_height_mm (table, &look, tw_table_n_rows (table)) + TW_SHEET_GAP_MM;
  }
  return need;
}

gboolean
tw_sheet_tables_fit (const TwSheetSet *self, TwPaperSize size, GPtrArray *tables)
{
  TwPaperSize small = self->smallest;

  if (tw_sheet_tables_need_mm (size, tables) <= tw_sheet_table_height_mm (size))
    return TRUE;
  /* larger papers are for drawings: take the smallest one when no small one holds the tables */
  while (!tw_paper (tw_paper_next (small))->large && tw_paper_next (small) != small)
    small = tw_paper_next (small);
  return tw_sheet_tables_need_mm (small, tables) > tw_sheet_table_height_mm (small);
}

/* Puts as many rows from @first on as fit above @low. Returns how many; @low is moved up. */
static guint
put_rows (TwSheetSet *self, TwSheet *page, const TwTable *table, guint first, double *low)
{
  TwBox box = tw_sheet_column (page->size);
  guint n = MIN (tw_table_n_rows (table) - first, tw_table_fit (table, &page->look, box.y1_mm - *low));
  const TwTablePlace place = { box.x0_mm, box.x1_mm, *low, first, n };

  if (n == 0)
    return 0;
  box.y0_mm = *low;
  box.y1_mm = tw_table_draw (table, page->ink, &page->look, self->source->measure, &place);
  tw_place_add_block (page->place, &box, TW_TABLE_LAYER);
  *low = box.y1_mm + TW_SHEET_GAP_MM;
  return n;
}

void
tw_sheet_put_tables (TwSheetSet *self, TwSheet *page, GPtrArray *tables)
{
  double low = tw_sheet_column (page->size).y0_mm;

  for (guint i = 0; i < tables->len; i++) {
    const TwTable *table = g_ptr_array_index (tables, i);
    guint first = 0;

    while (first < tw_table_n_rows (table)) {
      guint n = put_rows (self, page, table, first, &low);

      first += n;
      if (first < tw_table_n_rows (table)) {
        const TwSheetTitle *words = g_ptr_array_index (self->titles, self->titles->len - 1);
        g_autofree char *title = g_strdup (words->title);

        page = tw_sheet_add (self, page->kind, self->smallest, title, NULL);
        low = tw_sheet_column (page->size).y0_mm;
      }
    }
  }
}
