/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/sheet-private.h"

#include <math.h>
#include <string.h>

/* Tables of large letters want more room than the title block is wide; mm on paper. */
#define LARGE_COLUMN_MM 250.0

/* ISO 5455, reducing; with inches 1:4 and 1:8 instead of 1:5 (common practice, no source). */
static const double scales[] = { 1, 2, 5, 10, 20, 50, 100 };
static const double inch_scales[] = { 1, 2, 4, 8, 10, 20, 50, 100 };

double
tw_sheet_scale (const TwSheetSet *self, guint nth)
{
  if (self->inches)
    return nth < G_N_ELEMENTS (inch_scales) ? inch_scales[nth] : 0;
  return nth < G_N_ELEMENTS (scales) ? scales[nth] : 0;
}

char *
tw_sheet_scale_text (double model_a_paper)
{
  return tw_paper_scale_text ((TwPaperScale){ 1, (guint)model_a_paper });
}

const char *
tw_sheet_words (const TwSheetSet *self, const char *marked)
{
  return self->source->translate != NULL ? self->source->translate (marked) : marked;
}

char *
tw_sheet_length (const TwSheetSet *self, double value_mm)
{
  return isnan (value_mm) ? g_strdup ("–")
                          : tw_units_format_dimension (&self->style, value_mm, self->inches ? 2 : 1);
}

char *
tw_sheet_thin (const TwSheetSet *self, double value_mm)
{
  TwUnitStyle style = self->style;

  style.fractions = FALSE;
  return isnan (value_mm) ? g_strdup ("–")
                          : tw_units_format_dimension (&style, value_mm, self->inches ? 3 : 2);
}

char *
tw_sheet_figure (const TwSheetSet *self, TwQuantity quantity, double value)
{
  return tw_units_format (quantity, &self->style, value, -1);
}

const char *
tw_sheet_name (const TwSheetSet *self, TwId part)
{
  const TwPart *found = tw_drawing_find (self->drawing, part);

  return found != NULL ? tw_part_name (found) : "–";
}

static void
free_sheet (gpointer data)
{
  TwSheet *self = data;

  tw_ink_unref (self->ink);
  tw_place_free (self->place);
  g_free (self);
}

static void
free_title (gpointer data)
{
  TwSheetTitle *self = data;

  g_free (self->title);
  g_free (self->scale);
  g_free (self->kind);
  g_free (self);
}

static const char *
kind_words (TwSheetKinds kind)
{
  return kind == TW_SHEET_ARRANGEMENT ? N_ ("Arrangement") : N_ ("Core and tanks");
}

TwSheet *
tw_sheet_add (TwSheetSet *self, TwSheetKinds kind, TwPaperSize size, const char *title, const char *scale)
{
  TwSheet *page = g_new0 (TwSheet, 1);
  TwSheetTitle *words = g_new0 (TwSheetTitle, 1);
  TwBox block = tw_paper_title_box (size, FALSE);

  page->kind = kind;
  page->id = kind == TW_SHEET_ARRANGEMENT ? "arrangement" : "core-and-tanks";
  page->size = size;
  page->look = tw_look_paper (tw_paper (size)->large);
  page->ink = tw_ink_new ();
  page->place = tw_place_new (&tw_paper (size)->frame, &page->look, self->source->measure);
  tw_place_add_block (page->place, &block, TW_PAPER_TITLE_LAYER);
  tw_paper_draw_frame (page->ink, size);
  tw_sheet_draw_bar (self, page);
  g_ptr_array_add (self->pages, page);

  words->title = g_strdup (title);
  words->scale = g_strdup (scale);
  words->kind = g_strdup (tw_sheet_words (self, kind_words (kind)));
  g_ptr_array_add (self->titles, words);
  return page;
}

TwBox
tw_sheet_column (TwPaperSize size)
{
  TwBox block = tw_paper_title_box (size, FALSE);

  return (TwBox){ MIN (block.x0_mm, block.x1_mm - (tw_paper (size)->large ? LARGE_COLUMN_MM : 0)),
                  block.y1_mm + TW_SHEET_GAP_MM, block.x1_mm - TW_SHEET_MARK_MM,
                  tw_paper (size)->frame.y1_mm - TW_SHEET_GAP_MM };
}

TwBox
tw_sheet_room (TwPaperSize size)
{
  TwBox room = tw_paper (size)->frame;

  room.x0_mm += TW_SHEET_MARK_MM;
  room.x1_mm = tw_sheet_column (size).x0_mm - TW_SHEET_GAP_MM;
  room.y0_mm += TW_SHEET_MARK_MM;
  room.y1_mm -= TW_SHEET_MARK_MM;
  return room;
}

TwDimensionManner
tw_sheet_manner (const TwSheetSet *self, const TwSheet *page)
{
  return tw_dimension_manner (self->inches, &page->look, self->source->measure);
}

gboolean
tw_sheet_bounds (const TwPlacement *placement, gboolean bay, TwVec *from, TwVec *to)
{
  guint n;
  const TwPlacedSolid *solids = tw_placement_solids (placement, &n);
  gboolean any = FALSE;

  for (guint i = 0; i < n; i++) {
    TwSolidBox box;
    gboolean wanted = bay ? solids[i].role == TW_SOLID_FREE
                          : solids[i].role == TW_SOLID_BLOCK || solids[i].role == TW_SOLID_HEADER
                                || solids[i].role == TW_SOLID_TANK || solids[i].role == TW_SOLID_SHROUD
                                || solids[i].role == TW_SOLID_FAN;

    if (!wanted || tw_convex_is_empty (solids[i].convex))
      continue;
    box = tw_convex_bounds (solids[i].convex);
    *from = any ? (TwVec){ MIN (from->x, box.from.x), MIN (from->y, box.from.y), MIN (from->z, box.from.z) }
                : box.from;
    *to = any ? (TwVec){ MAX (to->x, box.to.x), MAX (to->y, box.to.y), MAX (to->z, box.to.z) } : box.to;
    any = TRUE;
  }
  return any;
}

/* Of sizes that say none of their own; inch ones by common practice, no source. */
static const char *
tolerance_of (const TwSheetSet *self)
{
  if (!self->inches)
    return "ISO 2768-c";
  return self->style.fractions ? tw_sheet_words (self, N_ ("fractions ±1/32")) : ".00 ±.03, .000 ±.010";
}

/* Title blocks, now that the number of pages is known. */
static void
draw_title (const TwSheetSet *self, guint nth)
{
  TwSheet *page = g_ptr_array_index (self->pages, nth);
  const TwSheetTitle *words = g_ptr_array_index (self->titles, nth);
  const TwSettings *settings = self->settings;
  const TwPaperTitle title = {
    .owner = settings->owner,
    .title = words->title,
    .number = settings->identification,
    .kind = words->kind,
    .creator = settings->creator,
    .approver = settings->approver,
    .date = settings->issue_date,
    .revision = self->source->revision,
    .scale = words->scale,
    .units = self->inches ? "in" : "mm",
    .tolerance = tolerance_of (self),
    .manner = self->inches ? tw_sheet_words (self, N_ ("after ASME Y14.5"))
                           : tw_sheet_words (self, N_ ("after ISO 128, 129")),
    .projection = settings->projection == TW_PROJECTION_THIRD ? TW_PAPER_THIRD_ANGLE : TW_PAPER_FIRST_ANGLE,
    .translate = self->source->translate,
    .sheet = nth + 1,
    .n_sheets = self->pages->len,
  };
  guint first = tw_ink_count (page->ink);

  tw_paper_draw_title (page->ink, page->size, &title, self->source->measure);
  tw_place_take (page->place, page->ink, first);
  tw_ink_finish (page->ink);
}

static gboolean
find_papers (TwSheetSet *self, GError **error)
{
  const char *name = self->source->paper;

  self->smallest = self->inches ? TW_PAPER_TABLOID : TW_PAPER_A3;
  if (name != NULL && !tw_paper_find (name, &self->smallest)) {
    g_set_error (error, TW_ERROR, TW_ERROR_MISSING,
                 _ ("there is no paper \"%s\"; there are A3, A2, A1, A0, Tabloid, C, D, E"), name);
    return FALSE;
  }
  if (self->smallest == TW_PAPER_A4)
    self->smallest = TW_PAPER_A3;
  if (self->smallest == TW_PAPER_LETTER)
    self->smallest = TW_PAPER_TABLOID;
  self->largest = self->smallest;
  while (tw_paper_next (self->largest) != self->largest)
    self->largest = tw_paper_next (self->largest);
  return TRUE;
}

GPtrArray *
tw_sheets_new (const TwSheetSource *source, TwSheetKinds kinds, GError **error)
{
  TwSheetSet self = { .source = source };
  g_autoptr (GPtrArray) titles = g_ptr_array_new_with_free_func (free_title);
  const TwPlacedCore *cores;
  guint n;

  self.drawing = tw_answer_drawing (source->answer);
  self.placement = tw_answer_placement (source->answer);
  self.settings = tw_drawing_settings (self.drawing);
  self.inches = self.settings->shown_in == TW_SHOWN_IN_INCH;
  self.style = self.inches ? TW_UNIT_STYLE_IN : TW_UNIT_STYLE_MM;
  self.style.fractions = self.inches && self.settings->inch_figures != TW_INCH_DECIMALS;
  self.style.decimal = source->decimal;
  if (!find_papers (&self, error))
    return NULL;
  self.pages = g_ptr_array_new_with_free_func (free_sheet);
  self.titles = titles;
  if (kinds & TW_SHEET_ARRANGEMENT)
    tw_sheet_arrangement (&self);
  cores = tw_placement_cores (self.placement, &n);
  for (guint i = 0; (kinds & TW_SHEET_CORE_AND_TANKS) && i < n; i++)
    tw_sheet_core_and_tanks (&self, &cores[i]);
  for (guint i = 0; i < self.pages->len; i++)
    draw_title (&self, i);
  return self.pages;
}

TwPage
tw_sheet_page (const TwSheet *self)
{
  return (TwPage){ tw_paper (self->size)->width_mm, tw_paper (self->size)->height_mm, self->ink,
                   &self->look };
}
