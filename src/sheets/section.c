/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Section across a tank: tank, header plate and the ends of its tubes, as they lie on each other.
 */
#include "sheets/sheet-private.h"

#include <math.h>

#define LAYER "section"
#define STUB_MM 16.0 /* of the core drawn before the plate, model mm */

typedef struct {
  const TwSheetSet *set;
  const TwPlacedTank *tank;
  const TwTank *drawn;
  const TwPlacedCore *core;
  TwTubeGrid grid;
  TwViewDrawing *view; /* its ink, in mm of the model as it lies on the page */
  double wall_mm;
  double radius_mm; /* inside of the folds */
  double depth_mm;
  gboolean is_round;
} Section;

static const TwInkStyle outline = { TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, LAYER, { "" } };
static const TwInkStyle hatch = { TW_INK_PEN_HATCH, TW_INK_TINT_INK, LAYER, { "" } };
static const TwInkStyle thin = { TW_INK_PEN_THIN, TW_INK_TINT_INK, LAYER, { "" } };

TwPoint
tw_sheet_off (const TwHeaderSide *side, double off_mm, double across_mm)
{
  switch (side->side) {
  case TW_SIDE_LEFT:
    return (TwPoint){ -off_mm, across_mm };
  case TW_SIDE_RIGHT:
    return (TwPoint){ off_mm, across_mm };
  case TW_SIDE_TOP:
    return (TwPoint){ across_mm, off_mm };
  default:
    return (TwPoint){ across_mm, -off_mm };
  }
}

gboolean
tw_sheet_off_mirrors (const TwHeaderSide *side)
{
  return side->side == TW_SIDE_LEFT || side->side == TW_SIDE_TOP;
}

/* Adds the open U of the tank's wall at @in inside its outside, from the upper rim round the back to the
 * lower one. An arc's rise is the radius less its middle over the chord: R (1 − cos 45°). */
static void
add_wall (GArray *corners, const Section *self, double in_mm, double radius_mm, gboolean back)
{
  double w0 = self->tank->w_from_mm + in_mm, w1 = self->tank->w_to_mm - in_mm, d = self->depth_mm - in_mm;
  double r = MAX (0, MIN (radius_mm, MIN (d, (w1 - w0) / 2)));
  double bow = (back ? 1 : -1) * r * (1 - M_SQRT1_2);
  const TwInkCorner forth[] = { { { 0, w0 }, 0, FALSE },     { { d - r, w0 }, r > 0 ? bow : 0, FALSE },
                                { { d, w0 + r }, 0, FALSE }, { { d, w1 - r }, r > 0 ? bow : 0, FALSE },
                                { { d - r, w1 }, 0, FALSE }, { { 0, w1 }, 0, FALSE } };
  const TwHeaderSide *side = &self->tank->side;

  for (guint i = 0; i < G_N_ELEMENTS (forth); i++) {
    TwInkCorner corner = forth[back ? i : G_N_ELEMENTS (forth) - 1 - i];

    /* backwards, an edge's arc is that of the corner before */
    if (!back)
      corner.bow_mm = i + 1 < G_N_ELEMENTS (forth) ? forth[G_N_ELEMENTS (forth) - 2 - i].bow_mm : 0;
    if (tw_sheet_off_mirrors (side))
      corner.bow_mm = -corner.bow_mm;
    corner.at = tw_sheet_off (side, corner.at.x_mm, corner.at.y_mm);
    g_array_append_val (corners, corner);
  }
}

static void
draw_tank (const Section *self)
{
  g_autoptr (GArray) corners = g_array_new (FALSE, FALSE, sizeof (TwInkCorner));

  add_wall (corners, self, 0, self->radius_mm + self->wall_mm, TRUE);
  add_wall (corners, self, self->wall_mm, self->radius_mm, FALSE);
  tw_ink_hatch (self->view->ink, &hatch, (const TwInkCorner *)(gconstpointer)corners->data, corners->len,
                G_PI / 4, 1);
  tw_ink_path (self->view->ink, &outline, (const TwInkCorner *)(gconstpointer)corners->data, corners->len,
               TRUE);
}

/* A rectangle from @off[0] to @off[1] off the plate, @across[0] to @across[1] with the air. */
static void
draw_cut (const Section *self, const double off_mm[2], const double across_mm[2], double angle_rad)
{
  TwInkCorner corners[4] = { 0 };

  for (guint i = 0; i < 4; i++)
    corners[i].at = tw_sheet_off (&self->tank->side, off_mm[i == 1 || i == 2], across_mm[i / 2]);
  tw_ink_hatch (self->view->ink, &hatch, corners, 4, angle_rad, 1);
  tw_ink_path (self->view->ink, &outline, corners, 4, TRUE);
}

/* Rims of the tank that lie inwards on the plate. */
static void
draw_lips (const Section *self)
{
  double lip_mm = self->drawn->lip_mm, w0 = self->tank->w_from_mm, w1 = self->tank->w_to_mm;

  if (isnan (lip_mm) || lip_mm <= self->wall_mm || 2 * lip_mm >= w1 - w0 || self->wall_mm >= self->depth_mm)
    return;
  draw_cut (self, (const double[]){ 0, self->wall_mm }, (const double[]){ w0 + self->wall_mm, w0 + lip_mm },
            G_PI / 4);
  draw_cut (self, (const double[]){ 0, self->wall_mm }, (const double[]){ w1 - lip_mm, w1 - self->wall_mm },
            G_PI / 4);
}

static void
draw_core (const Section *self)
{
  double plate_mm = self->core->header_thickness_mm;

  draw_cut (self, (const double[]){ -plate_mm, 0 },
            (const double[]){ self->core->header_w_from_mm, self->core->header_w_to_mm }, -G_PI / 4);
  for (guint row = 1; row <= self->grid.n_rows && !isnan (self->grid.width_mm); row++)
    for (double half = -0.5; half <= 0.5; half += 1) {
      double across_mm = tw_tube_across_mm (&self->grid, row) + half * self->grid.width_mm;

      tw_ink_line (self->view->ink, &thin, tw_sheet_off (&self->tank->side, -plate_mm - STUB_MM, across_mm),
                   tw_sheet_off (&self->tank->side, -plate_mm, across_mm));
    }
}

/* --- names ------------------------------------------------------------------------------------------------
 */

static void
want (const Section *self, double off_mm, double across_mm, char *text)
{
  TwPoint at = tw_sheet_off (&self->tank->side, off_mm, across_mm);
  const TwViewLabel label = { .kind = TW_VIEW_LABEL_ENGINE,
                              .part = self->tank->id,
                              .at = at,
                              .around = { at.x_mm, at.y_mm, at.x_mm, at.y_mm },
                              .tint = TW_INK_TINT_INK,
                              .text = text };

  g_array_append_val (self->view->labels, label);
}

static void
want_names (const Section *self)
{
  const TwSheetSet *set = self->set;
  double w0 = self->tank->w_from_mm, w1 = self->tank->w_to_mm, d = self->depth_mm;
  double r = MIN (self->radius_mm, MIN (d, (w1 - w0) / 2) - self->wall_mm);
  g_autofree char *wall = tw_sheet_thin (set, self->tank->wall_mm);
  g_autofree char *radius = tw_sheet_thin (set, self->drawn->bend_radius_mm);
  g_autofree char *plate = tw_sheet_thin (set, self->core->header_thickness_mm);
  g_autofree char *lip = tw_sheet_length (set, self->drawn->lip_mm);
  double bent_mm = self->wall_mm + r * (1 - M_SQRT1_2);

  want (self, d / 2, w1 - self->wall_mm / 2, g_strdup_printf ("t %s", wall));
  if (self->is_round)
    want (self, d - self->wall_mm, (w0 + w1) / 2, g_strdup (tw_sheet_words (set, N_ ("half-round"))));
  else if (r > 0 && !isnan (self->drawn->bend_radius_mm))
    want (self, d - bent_mm, w0 + bent_mm, g_strdup_printf ("R %s", radius));
  want (self, -self->core->header_thickness_mm / 2, w0 + (w1 - w0) / 4,
        g_strdup_printf ("%s t %s", tw_sheet_words (set, N_ ("plate")), plate));
  if (!isnan (self->drawn->lip_mm) && self->drawn->lip_mm > self->wall_mm)
    want (self, self->wall_mm / 2, w1 - self->drawn->lip_mm + self->wall_mm / 2,
          g_strdup_printf ("%s %s", tw_sheet_words (set, N_ ("lip")), lip));
}

static void
clear_label (gpointer data)
{
  g_free (((TwViewLabel *)data)->text);
}

TwSheetView
tw_sheet_section (const TwSheetSet *set, const TwSheet *page, const TwPlacedTank *tank, double scale)
{
  TwSheetView view = { .drawing = g_new0 (TwViewDrawing, 1), .scale = scale };
  Section self = { .set = set, .tank = tank, .view = view.drawing };
  const TwCore *core = (const TwCore *)tw_drawing_find (set->drawing, tank->core);

  view.manner = (TwViewManner){
    .view = TW_N_VIEWS, .scale = scale, .look = &page->look, .measure = set->source->measure
  };
  view.drawing->ink = tw_ink_new ();
  view.drawing->labels = g_array_new (FALSE, FALSE, sizeof (TwViewLabel));
  g_array_set_clear_func (view.drawing->labels, clear_label);
  self.core = tw_placement_core (set->placement, tank->core);
  self.drawn = (const TwTank *)tw_drawing_find (set->drawing, tank->id);
  self.grid = tw_tube_grid (core);
  self.is_round = tank->back == TW_BACK_ROUND;
  self.depth_mm = MAX (tank->depth_start_mm, tank->depth_end_mm);
  self.wall_mm = MIN (isnan (tank->wall_mm) ? 2 : tank->wall_mm,
                      MIN (self.depth_mm, tank->w_to_mm - tank->w_from_mm) / 3);
  self.radius_mm = self.is_round                        ? G_MAXDOUBLE / 4
                   : isnan (self.drawn->bend_radius_mm) ? self.wall_mm
                                                        : self.drawn->bend_radius_mm;
  draw_core (&self);
  draw_tank (&self);
  draw_lips (&self);
  want_names (&self);
  if (!tw_ink_bounds (tw_ink_finish (view.drawing->ink), &view.drawing->all))
    view.drawing->all = TW_BOX_EMPTY;
  return view;
}

/* --- dimensions -------------------------------------------------------------------------------------------
 */

static const TwDimensionSide away[] = { [TW_SIDE_LEFT] = TW_DIMENSION_LEFT,
                                        [TW_SIDE_RIGHT] = TW_DIMENSION_RIGHT,
                                        [TW_SIDE_TOP] = TW_DIMENSION_ABOVE,
                                        [TW_SIDE_BOTTOM] = TW_DIMENSION_BELOW };
static const TwDimensionSide back[] = { [TW_SIDE_LEFT] = TW_DIMENSION_RIGHT,
                                        [TW_SIDE_RIGHT] = TW_DIMENSION_LEFT,
                                        [TW_SIDE_TOP] = TW_DIMENSION_BELOW,
                                        [TW_SIDE_BOTTOM] = TW_DIMENSION_ABOVE };

/* One size between two places (off, across). */
static void
dimension (const TwSheetSet *set,
           TwSheet *page,
           const TwSheetView *view,
           const TwPlacedTank *tank,
           TwDimensionSide where,
           const double ends_mm[4])
{
  const TwDimensionEdge edge = { tw_sheet_on_paper (view, view->drawing->all), where };
  g_autofree char *text = tw_sheet_length (set, hypot (ends_mm[2] - ends_mm[0], ends_mm[3] - ends_mm[1]));
  const TwDimension dim
      = { tw_sheet_point (view, tw_sheet_off (&tank->side, ends_mm[0], ends_mm[1])),
          tw_sheet_point (view, tw_sheet_off (&tank->side, ends_mm[2], ends_mm[3])), text, tank->id };

  (void)tw_sheet_stack (set, page, &edge, &dim, 1);
}

void
tw_sheet_dimension_section (const TwSheetSet *set,
                            TwSheet *page,
                            const TwSheetView *view,
                            const TwPlacedTank *tank)
{
  const TwPlacedCore *core = tw_placement_core (set->placement, tank->core);
  gboolean level = tank->side.side == TW_SIDE_LEFT || tank->side.side == TW_SIDE_RIGHT;
  double d = MAX (tank->depth_start_mm, tank->depth_end_mm), w0 = tank->w_from_mm, w1 = tank->w_to_mm;

  dimension (set, page, view, tank, level ? TW_DIMENSION_BELOW : TW_DIMENSION_LEFT,
             (const double[]){ 0, w0, d, w0 });
  dimension (set, page, view, tank, away[tank->side.side], (const double[]){ d, w0, d, w1 });
  if (fabs (core->header_w_from_mm - w0) > 0.05 || fabs (core->header_w_to_mm - w1) > 0.05)
    dimension (set, page, view, tank, back[tank->side.side],
               (const double[]){ 0, core->header_w_from_mm, 0, core->header_w_to_mm });
}
