/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * table.h - tables on a sheet: a title, headings, rows
 *
 * Columns are as wide as their longest text; when that is more than there is, the widest give way and their
 * texts are cut with an ellipsis. Columns of figures stand at their right edge. A table too tall for its
 * place goes on elsewhere, headings repeated.
 */
#pragma once

#include "draw/ink.h"
#include "draw/look.h"
#include "draw/measure.h"

G_BEGIN_DECLS

/* Layer of everything that is written here. */
#define TW_TABLE_LAYER "table"

typedef struct _TwTable TwTable;

/* @title and @headings are copied; no @headings (NULL): labels and what they say, without a row of headings.
 * @n_columns at most 12. (transfer full) */
TwTable *
tw_table_new (const char *title, const char *const *headings, guint n_columns) G_GNUC_WARN_UNUSED_RESULT;
void tw_table_free (TwTable *self);

/* Takes @cells, as many as there are columns; a NULL cell is empty. */
void tw_table_add (TwTable *self, char **cells);

/* How many rows were added. */
guint tw_table_n_rows (const TwTable *self);

/* Height of the table with @n_rows rows on paper, mm. */
double tw_table_height_mm (const TwTable *self, const TwLook *look, guint n_rows);

/* How many rows fit into @height_mm. */
guint tw_table_fit (const TwTable *self, const TwLook *look, double height_mm);

/* Where a table stands. */
typedef struct {
  double left_mm;  /* on paper */
  double right_mm; /* on paper */
  double low_mm;   /* lower edge, on paper */
  guint first;     /* first row */
  guint n;         /* rows from there */
} TwTablePlace;

/* Draws rows @first to @first + @n - 1. Returns: the upper edge, mm on paper. */
double tw_table_draw (const TwTable *self,
                      TwInk *ink,
                      const TwLook *look,
                      const TwMeasure *measure,
                      const TwTablePlace *place);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwTable, tw_table_free)

G_END_DECLS
