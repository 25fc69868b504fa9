/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * paper-title.c - the title block and the projection symbol
 */
#include "sheets/paper.h"

#include <math.h>

#include "base/error.h"
#include "draw/place.h"

/* Rows of the block from the frame up, mm. */
#define WIDTH_MM 180.0

/* A frame that is wider than the block by less than this has a block as wide as itself, mm. */
#define SLIVER_MM 20.0
#define ROW_MM 12.0
#define TITLE_ROW_MM 21.0
#define CAUTION_MM 7.5

/* Letters keep this from the lines round their field; mm. */
#define INSET_MM 1.5

/* Height of the letters that the symbol is drawn for; mm. */
#define SYMBOL_MM 3.5

static const TwInkStyle thin = { TW_INK_PEN_THIN, TW_INK_TINT_INK, TW_PAPER_TITLE_LAYER, { "" } };
static const TwInkStyle wide = { TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, TW_PAPER_TITLE_LAYER, { "" } };
static const TwInkStyle centre = { TW_INK_PEN_CENTRE, TW_INK_TINT_INK, TW_PAPER_TITLE_LAYER, { "" } };

/* What the fields are written with. */
typedef struct {
  TwInk *ink;
  const TwPaper *paper;
  const TwPaperTitle *title;
  const TwMeasure *measure;
  TwLook look;
} Block;

/* --- the projection symbol --------------------------------------------------------------------------------
 */

void
tw_paper_projection_symbol (TwInk *ink, TwPaperProjection projection, TwPoint at, double height_mm)
{
  double large_mm = height_mm, small_mm = height_mm / 2; /* half of the two diameters */
  double side = projection == TW_PAPER_THIRD_ANGLE ? -1 : 1;
  double end_x_mm = at.x_mm + side * 1.6 * height_mm;     /* middle of the circles */
  double frustum_x_mm = at.x_mm - side * 1.4 * height_mm; /* middle of the frustum */
  /* the circles are what is seen from the small end: beside it in third angle, beyond the large end in first
   */
  double small_x_mm = frustum_x_mm - height_mm, large_x_mm = frustum_x_mm + height_mm;
  const TwInkCorner frustum[] = {
    { .at = { small_x_mm, at.y_mm - small_mm } },
    { .at = { large_x_mm, at.y_mm - large_mm } },
    { .at = { large_x_mm, at.y_mm + large_mm } },
    { .at = { small_x_mm, at.y_mm + small_mm } },
  };

  tw_ink_path (ink, &wide, frustum, G_N_ELEMENTS (frustum), TRUE);
  tw_ink_circle (ink, &wide, (TwPoint){ end_x_mm, at.y_mm }, large_mm);
  tw_ink_circle (ink, &wide, (TwPoint){ end_x_mm, at.y_mm }, small_mm);
  tw_ink_line (ink, &centre, (TwPoint){ small_x_mm - 1, at.y_mm }, (TwPoint){ large_x_mm + 1, at.y_mm });
  tw_ink_line (ink, &centre, (TwPoint){ end_x_mm - large_mm - 1, at.y_mm },
               (TwPoint){ end_x_mm + large_mm + 1, at.y_mm });
  tw_ink_line (ink, &centre, (TwPoint){ end_x_mm, at.y_mm - large_mm - 1 },
               (TwPoint){ end_x_mm, at.y_mm + large_mm + 1 });
}

/* --- fields -----------------------------------------------------------------------------------------------
 */

static void
write_text (const Block *block, TwPoint at, TwInkSize size, double room_mm, const char *text)
{
  TwInkPlace place = { at, size, TW_INK_LEFT, TW_INK_BASELINE, FALSE };
  g_autofree char *fitting = tw_measure_fit (block->measure, text, block->look.heights[size], room_mm);

  tw_ink_text (block->ink, &thin, &place, fitting);
}

/* The tallest of two sizes at which @text fits, the smaller one if none does. */
static TwInkSize
size_for (const Block *block, TwInkSize tall, TwInkSize small, double room_mm, const char *text)
{
  return tw_measure_width (block->measure, text, block->look.heights[tall]) <= room_mm ? tall : small;
}

static void
draw_field (const Block *block, const TwBox *box, const char *name, const char *value)
{
  double room_mm = box->x1_mm - box->x0_mm - 2 * INSET_MM;
  TwInkSize value_size = block->paper->large ? TW_INK_SIZE_SMALL : TW_INK_SIZE_NOTE;
  TwPoint at
      = { box->x0_mm + INSET_MM, box->y1_mm - INSET_MM + 0.3 - block->look.heights[TW_INK_SIZE_FIELD] };

  tw_ink_box (block->ink, &thin, box);
  if (block->title->translate != NULL)
    name = block->title->translate (name);
  write_text (block, at, TW_INK_SIZE_FIELD, room_mm, name);
  if (value == NULL)
    return;
  at.y_mm = box->y0_mm + 2.3;
  write_text (block, at, size_for (block, value_size, TW_INK_SIZE_FIELD, room_mm, value), room_mm, value);
}

/* A row of fields side by side; the last one ends at the block's right edge. */
static void
draw_row (const Block *block,
          TwBox row,
          const double *widths_mm,
          const char *const *names_and_values,
          guint n)
{
  double x_mm = row.x0_mm;

  for (guint i = 0; i < n; i++) {
    TwBox box = { x_mm, row.y0_mm, i + 1 < n ? x_mm + widths_mm[i] : row.x1_mm, row.y1_mm };

    draw_field (block, &box, names_and_values[2 * i], names_and_values[2 * i + 1]);
    x_mm = box.x1_mm;
  }
}

static void
draw_title (const Block *block, const TwBox *box)
{
  const char *name = N_ ("Title");
  TwInkSize size = block->paper->large ? TW_INK_SIZE_NOTE : TW_INK_SIZE_TITLE;
  TwInkSize sub_size = block->paper->large ? TW_INK_SIZE_SMALL : TW_INK_SIZE_NOTE;
  double room_mm = box->x1_mm - box->x0_mm - 2 * INSET_MM;
  TwPoint at = { box->x0_mm + INSET_MM, box->y0_mm + (block->title->subtitle != NULL ? 9.4 : 5.0) };

  draw_field (block, box, name, NULL);
  if (block->title->title != NULL)
    write_text (block, at, size_for (block, size, sub_size, room_mm, block->title->title), room_mm,
                block->title->title);
  at.y_mm = box->y0_mm + 2.3;
  if (block->title->subtitle != NULL)
    write_text (block, at, size_for (block, sub_size, TW_INK_SIZE_FIELD, room_mm, block->title->subtitle),
                room_mm, block->title->subtitle);
}

static void
draw_projection (const Block *block, const TwBox *box)
{
  const char *name
      = block->title->projection == TW_PAPER_THIRD_ANGLE ? N_ ("Third angle") : N_ ("First angle");
  double name_mm = tw_measure_width (block->measure, name, block->look.heights[TW_INK_SIZE_FIELD]);
  TwPoint at = { (box->x0_mm + name_mm + INSET_MM + box->x1_mm) / 2, (box->y0_mm + box->y1_mm) / 2 };

  draw_field (block, box, name, NULL);
  tw_paper_projection_symbol (block->ink, block->title->projection, at, SYMBOL_MM);
}

static TwBox
take_row (TwBox *rest, double height_mm)
{
  TwBox row = *rest;

  row.y1_mm = row.y0_mm + height_mm;
  rest->y0_mm = row.y1_mm;
  return row;
}

static void
draw_rows (const Block *block, TwBox rest)
{
  const TwPaperTitle *t = block->title;
  g_autofree char *sheet = g_strdup_printf ("%u / %u", t->sheet, MAX (t->n_sheets, t->sheet));
  const char *const lowest[] = { N_ ("Identification number"), t->number, N_ ("Revision"), t->revision,
                                 N_ ("Date of issue"),         t->date,   N_ ("Sheet"),    sheet };
  const char *const people[] = { N_ ("Document type"), t->kind,     N_ ("Created by"), t->creator,
                                 N_ ("Approved by"),   t->approver, N_ ("Paper"),      block->paper->name };
  const char *const owner[] = { N_ ("Owner"), t->owner };
  const char *const beside[] = { N_ ("General tolerance"),
                                 t->tolerance,
                                 N_ ("Manner"),
                                 t->manner,
                                 N_ ("Units"),
                                 t->units,
                                 N_ ("Scale"),
                                 t->scale };
  TwBox row = take_row (&rest, ROW_MM), part;

  draw_row (block, row, (const double[]){ 84, 36, 34, 26 }, lowest, 4);
  row = take_row (&rest, TITLE_ROW_MM);
  part = row;
  part.x1_mm = row.x0_mm + 60;
  draw_row (block, part, NULL, owner, 1);
  part.x0_mm = part.x1_mm;
  part.x1_mm = row.x1_mm;
  draw_title (block, &part);
  draw_row (block, take_row (&rest, ROW_MM), (const double[]){ 60, 48, 46, 26 }, people, 4);
  row = take_row (&rest, ROW_MM);
  part = row;
  part.x1_mm = row.x1_mm - 48;
  draw_row (block, part, (const double[]){ 37, 57, 16, 22 }, beside, 4);
  part.x0_mm = part.x1_mm;
  part.x1_mm = row.x1_mm;
  draw_projection (block, &part);
}

TwBox
tw_paper_title_box (TwPaperSize size, gboolean caution)
{
  const TwBox *frame = &tw_paper (size)->frame;
  double height_mm = 3 * ROW_MM + TITLE_ROW_MM + (caution ? CAUTION_MM : 0);

  double frame_mm = frame->x1_mm - frame->x0_mm;
  double width_mm = frame_mm < WIDTH_MM + SLIVER_MM ? frame_mm : WIDTH_MM;

  return (TwBox){ frame->x1_mm - width_mm, frame->y0_mm, frame->x1_mm, frame->y0_mm + height_mm };
}

void
tw_paper_draw_title (TwInk *ink, TwPaperSize size, const TwPaperTitle *title, const TwMeasure *measure)
{
  Block block = { ink, tw_paper (size), title, measure, tw_look_paper (tw_paper (size)->large) };
  TwBox box = tw_paper_title_box (size, title->caution != NULL);

  draw_rows (&block, box);
  if (title->caution != NULL) {
    TwPoint at = { box.x0_mm + INSET_MM, box.y1_mm - CAUTION_MM + 2.5 };
    double room_mm = box.x1_mm - box.x0_mm - 2 * INSET_MM;

    write_text (&block, at, TW_INK_SIZE_FIELD, room_mm, title->caution);
  }
  tw_ink_box (ink, &wide, &box);
}

void
tw_paper_draw (TwInk *ink, TwPaperSize size, const TwPaperTitle *title, const TwMeasure *measure)
{
  tw_paper_draw_frame (ink, size);
  tw_paper_draw_title (ink, size, title, measure);
}
