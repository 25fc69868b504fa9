/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Core and tanks: the assembly square on its face with all places along the headers, a section of each tank
 * on its header plate, the feet of the baffles, tables of ports, baffles, tanks, passes.
 */
#include "sheets/core-sheet-private.h"

#include <math.h>
#include <string.h>

#define FLAGS (TW_VIEW_NO_BAY | TW_VIEW_NO_HOSES | TW_VIEW_NO_AIRWAY)

/* The assembly is not drawn smaller unless there is no larger paper. */
#define COARSEST 5.0

/* Scales of sections as model mm a paper mm; the coarse ones only when there is no larger paper. */
static const double sections[] = { 1, 2, 5, 10 };

/* Scales of baffles' feet as paper mm a model mm. */
static const double feet[] = { 5, 2, 1 };

/* A section is not drawn smaller, unless there is no larger paper; mm on paper. */
#define LEAST_SECTION_MM 25.0

/* Line over the assembly that says what it is; mm on paper. */
#define TITLE_MM 11.0

/* Names of upright passes stand this share of the face's height under its upper edge, beyond the arrow;
 * dimensionless. */
#define NAME_SHARE 0.1

typedef struct {
  TwSheetSet *set;
  TwSheet *page;
  const TwPlacedCore *core;
  TwBox extents;   /* of core and tanks in (u, v) */
  TwBox all;       /* of all that is drawn, ports too */
  GArray *strip;   /* of TwCoreStripItem */
  double scale;    /* model mm a paper mm */
  double strip_mm; /* height of the strip on paper */
} CoreSheet;

/* --- what fits --------------------------------------------------------------------------------------------
 */

static gboolean
fits (CoreSheet *self, TwPaperSize size, double scale, const double small[2])
{
  TwLook look = tw_look_paper (tw_paper (size)->large);
  TwBox room = tw_sheet_room (size), margins = tw_core_sheet_margins (self->set, &look, self->core);
  double across = (self->all.x1_mm - self->all.x0_mm) / scale + margins.x0_mm + margins.x1_mm, wide;
  double up = (self->all.y1_mm - self->all.y0_mm) / scale + margins.y0_mm + margins.y1_mm + TITLE_MM;

  self->scale = scale;
  self->strip_mm = tw_core_strip_size (self->strip, &look, small, &wide);
  return MAX (across, wide) <= room.x1_mm - room.x0_mm && up + self->strip_mm <= room.y1_mm - room.y0_mm;
}

/* Not coarse: what is drawn small must still be read. Largest scale of sections, then of feet, with the
 * assembly at 1:@scale. */
static gboolean
fits_with_strip (CoreSheet *self, TwPaperSize size, double scale, gboolean coarse)
{
  double largest = tw_core_strip_least (self->strip) >= 2 * LEAST_SECTION_MM ? 2 : 1;

  for (guint k = 0; k < G_N_ELEMENTS (sections) && (sections[k] <= largest || coarse); k++)
    for (guint f = 0; f < G_N_ELEMENTS (feet) && (feet[f] > 1 || coarse); f++)
      if (fits (self, size, scale, (const double[]){ sections[k], feet[f] }))
        return TRUE;
  return FALSE;
}

/* Largest scale of the assembly, then of the strip, on one paper. */
static gboolean
fits_somehow (CoreSheet *self, TwPaperSize size, double coarsest)
{
  double scale;

  for (guint i = 0; (scale = tw_sheet_scale (self->set, i)) > 0 && scale <= coarsest; i++)
    if (fits_with_strip (self, size, scale, coarsest > COARSEST))
      return TRUE;
  return FALSE;
}

static TwPaperSize
choose (CoreSheet *self, GPtrArray *tables)
{
  TwPaperSize size = self->set->smallest;

  for (; size != self->set->largest; size = tw_paper_next (size))
    if (tw_sheet_tables_fit (self->set, size, tables) && fits_somehow (self, size, COARSEST))
      return size;
  if (!fits_somehow (self, size, 100))
    (void)fits (self, size, 100, (const double[]){ 10, 1 });
  return size;
}

/* --- the assembly -----------------------------------------------------------------------------------------
 */

/* The box round core and tanks in (u, v), without ports. */
static TwBox
find_extents (const TwSheetSet *set, const TwPlacedCore *core)
{
  TwBox box = core->face;
  const TwPlacedTank *tanks;
  guint n;

  for (guint i = 0; i < 2; i++)
    for (guint k = 0; k < 2; k++) {
      TwVec at
          = tw_header_point (&core->sides[i], k == 0 ? core->header_start_mm : core->header_end_mm, 0, 0);

      box = tw_box_add_point (box, (TwPoint){ at.x, at.y });
    }
  tanks = tw_placement_tanks (set->placement, &n);
  for (guint i = 0; i < n; i++)
    if (tw_id_equal (tanks[i].core, core->id)) {
      box = tw_box_add_point (box, (TwPoint){ tanks[i].from.x, tanks[i].from.y });
      box = tw_box_add_point (box, (TwPoint){ tanks[i].to.x, tanks[i].to.y });
    }
  return box;
}

static TwBox
trial_box (const TwSheetSet *set, const TwPlacedCore *core)
{
  const TwSheet page = { .look = tw_look_paper (FALSE) };
  TwSheetView view = tw_sheet_view (set, &page, TW_VIEW_FACE, core->id, 0.2, FLAGS);
  TwBox box = tw_box_add (view.drawing->all, core->face);

  tw_view_drawing_free (view.drawing);
  return box;
}

/* Out of the way of its arrow: between it and the edge of the pass, or beyond its head or tail. */
static void
move_pass_name (const CoreSheet *self, const TwPass *pass, TwViewLabel *label)
{
  TwTubeGrid grid = tw_tube_grid ((const TwCore *)tw_drawing_find (self->set->drawing, self->core->id));
  const TwTubeRange *range = &pass->ranges[0];
  double high_mm = fabs (grid.step_mm) * (range->last - range->first + 1);

  if (self->core->is_upright)
    label->at.y_mm = self->core->face.y1_mm - NAME_SHARE * self->core->face_height_mm;
  else
    label->at.y_mm += high_mm / 4;
  label->inside_mm = self->core->is_upright ? NAME_SHARE * self->core->face_height_mm : high_mm / 4;
  label->around = (TwBox){ label->at.x_mm, label->at.y_mm, label->at.x_mm, label->at.y_mm };
}

/* `pass 1: tubes 1–16` instead of how many they are: that is in the table. */
static void
name_passes (const CoreSheet *self, TwViewDrawing *drawing)
{
  const TwPasses *passes = tw_answer_passes (self->set->source->answer);
  guint nth = 0;

  for (guint i = 0; i < tw_passes_count (passes); i++) {
    const TwPass *pass = tw_passes_get (passes, i);
    g_autofree char *tubes = NULL;
    TwViewLabel *label;

    if (!tw_id_equal (pass->core, self->core->id) || pass->flows == TW_FLOWS_NOWHERE || pass->n_ranges == 0)
      continue;
    while (nth < drawing->labels->len
           && g_array_index (drawing->labels, TwViewLabel, nth).kind != TW_VIEW_LABEL_PASS)
      nth++;
    if (nth >= drawing->labels->len)
      return;
    tubes = tw_sheet_tubes (pass);
    label = &g_array_index (drawing->labels, TwViewLabel, nth++);
    move_pass_name (self, pass, label);
    g_free (label->text);
    /* Translators: number of a pass, numbers of its tubes */
    label->text = g_strdup_printf (tw_sheet_words (self->set, N_ ("pass %u: tubes %s")), pass->level, tubes);
  }
}

/* Between which tubes each baffle stands. */
static void
name_baffles (const CoreSheet *self, TwViewDrawing *drawing)
{
  const TwPlacedBaffle *baffles;
  guint n;

  baffles = tw_placement_baffles (self->set->placement, &n);
  for (guint i = 0; i < n; i++) {
    const TwBaffle *drawn = (const TwBaffle *)tw_drawing_find (self->set->drawing, baffles[i].id);
    TwViewLabel label
        = { .kind = TW_VIEW_LABEL_END,
            .part = baffles[i].id,
            .at = { (baffles[i].from.x + baffles[i].to.x) / 2, (baffles[i].from.y + baffles[i].to.y) / 2 },
            .tint = TW_INK_TINT_INK };

    if (!tw_id_equal (baffles[i].core, self->core->id) || baffles[i].runs_along)
      continue;
    label.around = tw_box_add_point (
        tw_box_add_point (TW_BOX_EMPTY, (TwPoint){ baffles[i].from.x, baffles[i].from.y }),
        (TwPoint){ baffles[i].to.x, baffles[i].to.y });
    label.text = tw_sheet_gap (self->set, self->core, drawn);
    g_array_prepend_val (drawing->labels, label);
  }
}

/* The assembly stands above the strip, in the middle of the room. */
static void
place_view (const CoreSheet *self, TwSheetView *view)
{
  TwBox room = tw_sheet_room (self->page->size),
        margins = tw_core_sheet_margins (self->set, &self->page->look, self->core);

  room.x0_mm += margins.x0_mm;
  room.x1_mm -= margins.x1_mm;
  room.y0_mm += margins.y0_mm + self->strip_mm;
  room.y1_mm -= margins.y1_mm + TITLE_MM;
  view->shift.x_mm = (room.x0_mm + room.x1_mm) / 2 - (self->all.x0_mm + self->all.x1_mm) / 2 * view->scale;
  view->shift.y_mm = (room.y0_mm + room.y1_mm) / 2 - (self->all.y0_mm + self->all.y1_mm) / 2 * view->scale;
}

static void
write_title (const CoreSheet *self, const TwSheetView *view)
{
  const TwInkStyle words = { TW_INK_PEN_THIN, TW_INK_TINT_INK, "view-title", TW_ID_NONE };
  TwBox room = tw_sheet_room (self->page->size), box = tw_sheet_on_paper (view, self->all),
        margins = tw_core_sheet_margins (self->set, &self->page->look, self->core);
  TwInkPlace place = {
    { box.x0_mm, box.y1_mm + margins.y1_mm + 2 }, TW_INK_SIZE_NOTE, TW_INK_LEFT, TW_INK_BASELINE, FALSE
  };
  g_autofree char *ratio = tw_sheet_scale_text (self->scale);
  g_autofree char *text = g_strdup_printf (
      "%s  %s", tw_sheet_words (self->set, N_ ("Square on the face, looking with the air")), ratio);
  g_autofree char *fitted = tw_measure_fit (
      self->set->source->measure, text, self->page->look.heights[TW_INK_SIZE_NOTE], room.x1_mm - box.x0_mm);

  tw_ink_text (self->page->ink, &words, &place, fitted);
}

/* --- the sheet --------------------------------------------------------------------------------------------
 */

static GPtrArray *
make_tables (const TwSheetSet *set, const TwPlacedCore *core)
{
  GPtrArray *tables = g_ptr_array_new_with_free_func ((GDestroyNotify)tw_table_free);

  g_ptr_array_add (tables, tw_sheet_core (set, core));
  g_ptr_array_add (tables, tw_sheet_passes (set, core));
  g_ptr_array_add (tables, tw_sheet_baffles (set, core));
  g_ptr_array_add (tables, tw_sheet_tanks (set, core));
  g_ptr_array_add (tables, tw_sheet_ports (set, core));
  return tables;
}

/* The page with everything but the tables. */
static void
draw (CoreSheet *self, TwSheetView *view)
{
  static const char *const letters[] = { "W", "X", "Y", "Z" };
  TwBox strip = tw_sheet_room (self->page->size);
  guint n_sections = 0;

  *view = tw_sheet_view (self->set, self->page, TW_VIEW_FACE, self->core->id, 1 / self->scale, FLAGS);
  self->all = tw_box_add (view->drawing->all, self->core->face); /* arrows are as long as at this scale */
  place_view (self, view);
  name_passes (self, view->drawing);
  name_baffles (self, view->drawing);
  tw_sheet_put_view (self->page, view, NULL);
  write_title (self, view);
  tw_core_sheet_dimension (self->set, self->page, view, self->core, &self->extents);
  for (guint i = 0; i < self->strip->len; i++) {
    const TwPlacedTank *tank = g_array_index (self->strip, TwCoreStripItem, i).tank;

    if (tank != NULL)
      g_array_index (self->strip, TwCoreStripItem, i).has_plane
          = tw_core_sheet_draw_plane (self->set, self->page, view, tank, letters[n_sections++ % 4]);
  }
  strip.y1_mm = strip.y0_mm + self->strip_mm;
  tw_core_strip_draw (self->set, self->page, self->strip, &strip);
}

/* Names of all drawings of the page. */
static void
put_names (const CoreSheet *self, TwSheet *page, const TwSheetView *view)
{
  g_autofree TwSheetView *views = g_new (TwSheetView, self->strip->len + 1);

  views[0] = *view;
  for (guint i = 0; i < self->strip->len; i++)
    views[i + 1] = g_array_index (self->strip, TwCoreStripItem, i).view;
  tw_sheet_put_names (page, views, self->strip->len + 1);
}

void
tw_sheet_core_and_tanks (TwSheetSet *set, const TwPlacedCore *core)
{
  const TwSheet trial = { .look = tw_look_paper (FALSE) };
  CoreSheet self = { .set = set, .core = core, .extents = find_extents (set, core) };
  g_autoptr (GPtrArray) tables = make_tables (set, core);
  g_autofree char *title = NULL, *scale_text = NULL;
  const char *job = tw_part_name ((const TwPart *)set->settings);
  TwPaperSize size;
  TwSheetView view;
  guint n_cores;

  self.strip = tw_core_strip_new (set, &trial, core);
  self.all = trial_box (set, core);
  size = choose (&self, tables);
  scale_text = tw_sheet_scale_text (self.scale);
  tw_placement_cores (set->placement, &n_cores);
  title = n_cores > 1 ? g_strdup_printf ("%s, %s", job, tw_sheet_name (set, core->id)) : g_strdup (job);
  self.page = tw_sheet_add (set, TW_SHEET_CORE_AND_TANKS, size, title, scale_text);
  for (guint i = 0; i < self.strip->len; i++)
    g_array_index (self.strip, TwCoreStripItem, i).view.manner.look = &self.page->look;
  draw (&self, &view);
  tw_sheet_put_tables (set, self.page, tables);
  put_names (&self, self.page, &view);
  tw_view_drawing_free (view.drawing);
  g_array_unref (self.strip);
}
