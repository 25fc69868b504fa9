/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/table.h"

#define MOST_COLUMNS 12
#define PAD_MM 1.5      /* beside a text */
#define ROW_HEIGHTS 2.3 /* of a row, in letter heights; dimensionless */

struct _TwTable {
  char *title;
  guint n_columns;
  char **headings; /* NULL: none */
  GPtrArray *rows; /* of char **, n_columns each */
};

static void
free_row (gpointer row)
{
  g_strfreev (row);
}

TwTable *
tw_table_new (const char *title, const char *const *headings, guint n_columns)
{
  TwTable *self = g_new0 (TwTable, 1);

  g_assert (n_columns > 0 && n_columns <= MOST_COLUMNS);
  self->title = g_strdup (title);
  self->n_columns = n_columns;
  self->headings = headings != NULL ? g_new0 (char *, n_columns + 1) : NULL;
  for (guint i = 0; headings != NULL && i < n_columns; i++)
    self->headings[i] = g_strdup (headings[i]);
  self->rows = g_ptr_array_new_with_free_func (free_row);
  return self;
}

void
tw_table_free (TwTable *self)
{
  g_free (self->title);
  g_strfreev (self->headings);
  g_ptr_array_unref (self->rows);
  g_free (self);
}

void
tw_table_add (TwTable *self, char **cells)
{
  char **row = g_new0 (char *, self->n_columns + 1);

  for (guint i = 0; i < self->n_columns; i++)
    row[i] = cells[i] != NULL ? cells[i] : g_strdup ("");
  g_ptr_array_add (self->rows, row);
}

guint
tw_table_n_rows (const TwTable *self)
{
  return self->rows->len;
}

static double
row_height (const TwLook *look)
{
  return ROW_HEIGHTS * look->heights[TW_INK_SIZE_SMALL];
}

/* The title stands over the first line. */
static double
title_height (const TwLook *look)
{
  return ROW_HEIGHTS * look->heights[TW_INK_SIZE_NOTE];
}

/* Rows of headings. */
static guint
n_heads (const TwTable *self)
{
  return self->headings != NULL ? 1 : 0;
}

double
tw_table_height_mm (const TwTable *self, const TwLook *look, guint n_rows)
{
  return title_height (look) + (n_rows + n_heads (self)) * row_height (look);
}

guint
tw_table_fit (const TwTable *self, const TwLook *look, double height_mm)
{
  double rows = (height_mm - title_height (look)) / row_height (look) - n_heads (self);

  return rows < 1 ? 0 : (guint)rows;
}

static double
text_width (const TwLook *look, const TwMeasure *measure, const char *text)
{
  return tw_measure_width (measure, text, look->heights[TW_INK_SIZE_SMALL]) + 2 * PAD_MM;
}

/* Widths that add up to @room: natural ones with what is left over shared out, or the widest cut down. */
static void
find_widths (const TwTable *self, const TwLook *look, const TwMeasure *measure, double room, double *widths)
{
  double sum = 0, cap = room;
  guint n_capped;

  for (guint c = 0; c < self->n_columns; c++) {
    widths[c] = self->headings != NULL ? text_width (look, measure, self->headings[c]) : 0;
    for (guint r = 0; r < self->rows->len; r++)
      widths[c]
          = MAX (widths[c], text_width (look, measure, ((char **)g_ptr_array_index (self->rows, r))[c]));
    sum += widths[c];
  }
  if (sum <= room) {
    for (guint c = 0; c < self->n_columns; c++)
      widths[c] += (room - sum) / self->n_columns;
    return;
  }
  /* The cap at which columns no wider keep their width and the others share the rest alike. */
  for (guint pass = 0; pass <= self->n_columns; pass++) {
    double kept = 0;

    n_capped = 0;
    for (guint c = 0; c < self->n_columns; c++) {
      if (widths[c] > cap)
        n_capped++;
      else
        kept += widths[c];
    }
    cap = n_capped > 0 ? (room - kept) / n_capped : room / self->n_columns;
  }
  for (guint c = 0; c < self->n_columns; c++)
    widths[c] = MIN (widths[c], cap);
}

static void
draw_line (TwInk *ink, TwInkPen pen, TwPoint from, TwPoint to)
{
  const TwInkStyle style = { pen, TW_INK_TINT_INK, TW_TABLE_LAYER, TW_ID_NONE };

  tw_ink_line (ink, &style, from, to);
}

static void
draw_text (TwInk *ink, TwInkSize size, TwInkAcross across, TwPoint at, const char *text)
{
  const TwInkStyle style = { TW_INK_PEN_THIN, TW_INK_TINT_INK, TW_TABLE_LAYER, TW_ID_NONE };
  const TwInkPlace place = { at, size, across, TW_INK_MIDDLE, FALSE };

  tw_ink_text (ink, &style, &place, text);
}

/* Whether all that stands in a column is a figure: those stand at its right edge, under each other. */
static gboolean
is_figures (const TwTable *self, guint column)
{
  for (guint r = 0; r < self->rows->len; r++) {
    const char *text = ((char **)g_ptr_array_index (self->rows, r))[column];

    for (; *text != '\0'; text++)
      if (g_ascii_isalpha (*text))
        return FALSE;
  }
  return self->headings != NULL;
}

typedef struct {
  const TwTable *table;
  TwInk *ink;
  const TwLook *look;
  const TwMeasure *measure;
  const double *widths_mm;
} Pen;

static void
draw_row (const Pen *pen, char *const *cells, double left, double middle)
{
  for (guint c = 0; c < pen->table->n_columns; c++) {
    g_autofree char *text = tw_measure_fit (pen->measure, cells[c], pen->look->heights[TW_INK_SIZE_SMALL],
                                            pen->widths_mm[c] - 2 * PAD_MM + 0.01);
    gboolean right = is_figures (pen->table, c);

    draw_text (pen->ink, TW_INK_SIZE_SMALL, right ? TW_INK_RIGHT : TW_INK_LEFT,
               (TwPoint){ right ? left + pen->widths_mm[c] - PAD_MM : left + PAD_MM, middle }, text);
    left += pen->widths_mm[c];
  }
}

/* Lines round the table, under the headings, and between rows and columns. */
static void
draw_grid (const Pen *pen, const TwTablePlace *place, double top)
{
  double left = place->left_mm, right = place->right_mm, low = place->low_mm, row = row_height (pen->look),
         x = left;
  guint heads = n_heads (pen->table);

  for (guint i = 1; i < place->n + heads; i++)
    draw_line (pen->ink, i == heads ? TW_INK_PEN_OUTLINE : TW_INK_PEN_THIN, (TwPoint){ left, top - i * row },
               (TwPoint){ right, top - i * row });
  for (guint c = 1; c < pen->table->n_columns; c++) {
    x += pen->widths_mm[c - 1];
    draw_line (pen->ink, TW_INK_PEN_THIN, (TwPoint){ x, low }, (TwPoint){ x, top });
  }
  draw_line (pen->ink, TW_INK_PEN_OUTLINE, (TwPoint){ left, top }, (TwPoint){ right, top });
  draw_line (pen->ink, TW_INK_PEN_OUTLINE, (TwPoint){ left, low }, (TwPoint){ right, low });
  draw_line (pen->ink, TW_INK_PEN_OUTLINE, (TwPoint){ left, low }, (TwPoint){ left, top });
  draw_line (pen->ink, TW_INK_PEN_OUTLINE, (TwPoint){ right, low }, (TwPoint){ right, top });
}

double
tw_table_draw (const TwTable *self,
               TwInk *ink,
               const TwLook *look,
               const TwMeasure *measure,
               const TwTablePlace *place)
{
  double widths[MOST_COLUMNS], row = row_height (look), left = place->left_mm, room = place->right_mm - left;
  guint heads = n_heads (self);
  double top = place->low_mm + (place->n + heads) * row;
  const Pen pen = { self, ink, look, measure, widths };
  g_autofree char *title = tw_measure_fit (measure, self->title, look->heights[TW_INK_SIZE_NOTE], room);

  find_widths (self, look, measure, room, widths);
  draw_text (ink, TW_INK_SIZE_NOTE, TW_INK_LEFT, (TwPoint){ left, top + title_height (look) / 2 }, title);
  if (heads > 0)
    draw_row (&pen, self->headings, left, top - row / 2);
  for (guint i = 0; i < place->n; i++)
    draw_row (&pen, g_ptr_array_index (self->rows, place->first + i), left, top - (i + heads + 0.5) * row);
  draw_grid (&pen, place, top);
  return top + title_height (look);
}
