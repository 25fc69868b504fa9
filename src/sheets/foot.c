/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The foot of a baffle on the header plate between two tubes: what is left of the plate on both sides of it.
 */
#include "sheets/sheet-private.h"

#include <math.h>

#define LAYER "section"

/* Beyond the two tubes, and off the plate to both sides, in tube pitches; dimensionless. */
#define BEYOND 0.05
#define OFF 0.75

/* The tubes beside a baffle, along the header. */
typedef struct {
  const TwPlacedCore *core;
  const TwPlacedTank *tank;
  double tubes_mm[2]; /* middles, lower or left one first */
  guint numbers[2];
  double half_mm;      /* of a tube's height */
  double baffle_mm[2]; /* its two sides */
  double pitch_mm;
} Foot;

static const TwInkStyle outline = { TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, LAYER, { "" } };
static const TwInkStyle hatch = { TW_INK_PEN_HATCH, TW_INK_TINT_INK, LAYER, { "" } };
static const TwInkStyle thin = { TW_INK_PEN_THIN, TW_INK_TINT_INK, LAYER, { "" } };

/* FALSE for one that runs along, that stands on a tube or beyond the first or last one. */
static gboolean
find_foot (const TwSheetSet *set, const TwPlacedBaffle *baffle, Foot *self)
{
  const TwBaffle *drawn = (const TwBaffle *)tw_drawing_find (set->drawing, baffle->id);
  TwTubeGrid grid = tw_tube_grid ((const TwCore *)tw_drawing_find (set->drawing, baffle->core));
  double half_mm = drawn->thickness_mm / 2;

  self->core = tw_placement_core (set->placement, baffle->core);
  self->tank = tw_placement_tank (set->placement, baffle->tank);
  self->half_mm = grid.height_mm / 2;
  self->pitch_mm = fabs (grid.step_mm);
  self->baffle_mm[0] = drawn->place_mm - half_mm;
  self->baffle_mm[1] = drawn->place_mm + half_mm;
  if (baffle->runs_along || isnan (half_mm) || isnan (self->half_mm) || isnan (drawn->place_mm))
    return FALSE;
  for (guint tube = 1; tube < grid.n_tubes; tube++) {
    gboolean down = grid.step_mm < 0;

    self->numbers[0] = down ? tube + 1 : tube;
    self->numbers[1] = down ? tube : tube + 1;
    for (guint i = 0; i < 2; i++)
      self->tubes_mm[i] = tw_tube_along_mm (&grid, self->numbers[i]);
    if (self->tubes_mm[0] + self->half_mm < self->baffle_mm[0]
        && self->tubes_mm[1] - self->half_mm > self->baffle_mm[1])
      return TRUE;
  }
  return FALSE;
}

static TwPoint
point (const Foot *self, double off_mm, double along_mm)
{
  return tw_sheet_off (&self->tank->side, off_mm, along_mm);
}

static void
draw_line (const Foot *self,
           TwInk *ink,
           const TwInkStyle *style,
           const double off_mm[2],
           const double along_mm[2])
{
  tw_ink_line (ink, style, point (self, off_mm[0], along_mm[0]), point (self, off_mm[1], along_mm[1]));
}

static void
draw_hatch (const Foot *self, TwInk *ink, const double off_mm[2], const double along_mm[2], double angle_rad)
{
  TwInkCorner corners[4] = { 0 };

  for (guint i = 0; i < 4; i++)
    corners[i].at = point (self, off_mm[i == 1 || i == 2], along_mm[i / 2]);
  tw_ink_hatch (ink, &hatch, corners, 4, angle_rad, 1);
}

/* The plate in three pieces, between the tubes that go through it. */
static void
draw_plate (const Foot *self, TwInk *ink)
{
  const double plate_mm[] = { -self->core->header_thickness_mm, 0 };
  const double ends_mm[][2]
      = { { self->tubes_mm[0] - (0.5 + BEYOND) * self->pitch_mm, self->tubes_mm[0] - self->half_mm },
          { self->tubes_mm[0] + self->half_mm, self->tubes_mm[1] - self->half_mm },
          { self->tubes_mm[1] + self->half_mm, self->tubes_mm[1] + (0.5 + BEYOND) * self->pitch_mm } };

  for (guint i = 0; i < 3; i++) {
    draw_hatch (self, ink, plate_mm, ends_mm[i], -G_PI / 4);
    for (guint k = 0; k < 2; k++)
      draw_line (self, ink, &outline, (const double[]){ plate_mm[k], plate_mm[k] }, ends_mm[i]);
  }
}

static void
draw_tubes (const Foot *self, TwInk *ink)
{
  double in_mm = -self->core->header_thickness_mm - OFF * self->pitch_mm;

  for (guint i = 0; i < 2; i++) {
    double low_mm = self->tubes_mm[i] - self->half_mm, high_mm = self->tubes_mm[i] + self->half_mm;

    draw_line (self, ink, &outline, (const double[]){ in_mm, 0 }, (const double[]){ low_mm, low_mm });
    draw_line (self, ink, &outline, (const double[]){ in_mm, 0 }, (const double[]){ high_mm, high_mm });
    draw_line (self, ink, &thin, (const double[]){ 0, 0 }, (const double[]){ low_mm, high_mm });
    draw_line (self, ink, &thin, (const double[]){ in_mm, in_mm }, (const double[]){ low_mm, high_mm });
  }
}

static void
draw_baffle (const Foot *self, TwInk *ink)
{
  const double off_mm[] = { 0, OFF * self->pitch_mm };

  draw_hatch (self, ink, off_mm, self->baffle_mm, G_PI / 4);
  for (guint i = 0; i < 2; i++)
    draw_line (self, ink, &outline, off_mm, (const double[]){ self->baffle_mm[i], self->baffle_mm[i] });
  draw_line (self, ink, &thin, (const double[]){ off_mm[1], off_mm[1] }, self->baffle_mm);
}

static void
clear_label (gpointer data)
{
  g_free (((TwViewLabel *)data)->text);
}

/* A name beside what lies between two places @off_mm and @along_mm, or @inside_mm of its middle. */
static void
want (const Foot *self,
      GArray *labels,
      const double off_mm[2],
      const double along_mm[2],
      double inside_mm,
      char *text)
{
  TwViewLabel label = { .kind = TW_VIEW_LABEL_ENGINE,
                        .part = self->core->id,
                        .at = point (self, (off_mm[0] + off_mm[1]) / 2, (along_mm[0] + along_mm[1]) / 2),
                        .around = TW_BOX_EMPTY,
                        .inside_mm = inside_mm,
                        .tint = TW_INK_TINT_INK,
                        .text = text };

  for (guint i = 0; i < 2; i++)
    label.around = tw_box_add_point (label.around, point (self, off_mm[i], along_mm[i]));
  g_array_append_val (labels, label);
}

/* Tubes by their numbers, thicknesses of baffle and plate. */
static void
want_names (const TwSheetSet *set, const Foot *self, GArray *labels)
{
  g_autofree char *baffle = tw_sheet_thin (set, self->baffle_mm[1] - self->baffle_mm[0]);
  g_autofree char *plate = tw_sheet_thin (set, self->core->header_thickness_mm);
  double thick_mm = self->core->header_thickness_mm, in_mm = -thick_mm - OFF * self->pitch_mm;

  for (guint i = 0; i < 2; i++)
    want (self, labels, (const double[]){ in_mm, -thick_mm },
          (const double[]){ self->tubes_mm[i] - self->half_mm, self->tubes_mm[i] + self->half_mm },
          self->half_mm, g_strdup_printf (tw_sheet_words (set, N_ ("tube %u")), self->numbers[i]));
  want (self, labels, (const double[]){ 0, OFF * self->pitch_mm }, self->baffle_mm, 0,
        g_strdup_printf ("t %s", baffle));
  want (
      self, labels, (const double[]){ -thick_mm, 0 },
      (const double[]){ self->tubes_mm[1] + 0.3 * self->pitch_mm, self->tubes_mm[1] + 0.5 * self->pitch_mm },
      0, g_strdup_printf ("t %s", plate));
}

TwSheetView
tw_sheet_foot (const TwSheetSet *set, const TwSheet *page, const TwPlacedBaffle *baffle, double scale)
{
  TwSheetView view = { .drawing = g_new0 (TwViewDrawing, 1), .scale = scale };
  Foot self;

  view.manner = (TwViewManner){
    .view = TW_N_VIEWS, .scale = scale, .look = &page->look, .measure = set->source->measure
  };
  view.drawing->ink = tw_ink_new ();
  view.drawing->labels = g_array_new (FALSE, FALSE, sizeof (TwViewLabel));
  g_array_set_clear_func (view.drawing->labels, clear_label);
  view.drawing->all = TW_BOX_EMPTY;
  if (find_foot (set, baffle, &self)) {
    draw_plate (&self, view.drawing->ink);
    draw_tubes (&self, view.drawing->ink);
    draw_baffle (&self, view.drawing->ink);
    want_names (set, &self, view.drawing->labels);
    (void)tw_ink_bounds (view.drawing->ink, &view.drawing->all);
  }
  tw_ink_finish (view.drawing->ink);
  return view;
}

/* Sizes along the header between places that follow each other, on one side. */
static void
dimension (const TwSheetSet *set,
           TwSheet *page,
           const TwSheetView *view,
           const Foot *self,
           TwDimensionSide side,
           const double places_mm[4][3])
{
  const TwDimensionEdge edge = { tw_sheet_on_paper (view, view->drawing->all), side };
  TwDimension dims[4];
  char *texts[4];
  guint n = 0;

  for (; n < 4 && places_mm[n][0] != places_mm[n][1]; n++) {
    texts[n] = tw_sheet_thin (set, fabs (places_mm[n][1] - places_mm[n][0]));
    dims[n] = (TwDimension){ tw_sheet_point (view, point (self, places_mm[n][2], places_mm[n][0])),
                             tw_sheet_point (view, point (self, places_mm[n][2], places_mm[n][1])), texts[n],
                             TW_ID_NONE };
  }
  (void)tw_sheet_stack (set, page, &edge, dims, n);
  for (guint i = 0; i < n; i++)
    g_free (texts[i]);
}

void
tw_sheet_dimension_foot (const TwSheetSet *set,
                         TwSheet *page,
                         const TwSheetView *view,
                         const TwPlacedBaffle *baffle)
{
  Foot self;
  gboolean level;

  if (!find_foot (set, baffle, &self))
    return;
  level = !self.core->is_upright;
  {
    double in_mm = -self.core->header_thickness_mm - OFF * self.pitch_mm;
    const double on_plate[4][3] = { { self.tubes_mm[0] + self.half_mm, self.baffle_mm[0], 0 },
                                    { self.baffle_mm[1], self.tubes_mm[1] - self.half_mm, 0 } };
    const double pitch[4][3] = { { self.tubes_mm[0], self.tubes_mm[1], in_mm } };
    gboolean low = self.tank->side.side == TW_SIDE_LEFT || self.tank->side.side == TW_SIDE_BOTTOM;
    TwDimensionSide sides[]
        = { level ? TW_DIMENSION_LEFT : TW_DIMENSION_BELOW, level ? TW_DIMENSION_RIGHT : TW_DIMENSION_ABOVE };

    dimension (set, page, view, &self, sides[low ? 0 : 1], on_plate);
    dimension (set, page, view, &self, sides[low ? 1 : 0], pitch);
  }
}
