/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Section across a tank: tank, header plate and the end of a tube, as they lie on each other. Across the page
 * runs the way off the core, up the page the way of the air.
 */
#include "sheets/sheet-private.h"

#include <math.h>

#define LAYER "section"
#define STUB_MM 18.0 /* of the core drawn before the plate, model mm */

typedef struct {
  const TwPlacedTank *tank;
  const TwPlacedCore *core;
  const TwCore *drawn;
  TwInk *ink; /* in model mm: off the core across, downstream up */
  double wall_mm;
  double radius_mm; /* inside of the folds */
  double depth_mm;
} Section;

static const TwInkStyle outline = { TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, LAYER, { "" } };
static const TwInkStyle hatch = { TW_INK_PEN_HATCH, TW_INK_TINT_INK, LAYER, { "" } };
static const TwInkStyle thin = { TW_INK_PEN_THIN, TW_INK_TINT_INK, LAYER, { "" } };

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

  for (guint i = 0; i < G_N_ELEMENTS (forth); i++) {
    TwInkCorner corner = forth[back ? i : G_N_ELEMENTS (forth) - 1 - i];

    /* backwards, an edge's arc is that of the corner before */
    if (!back)
      corner.bow_mm = i + 1 < G_N_ELEMENTS (forth) ? forth[G_N_ELEMENTS (forth) - 2 - i].bow_mm : 0;
    g_array_append_val (corners, corner);
  }
}

static void
draw_tank (const Section *self)
{
  g_autoptr (GArray) corners = g_array_new (FALSE, FALSE, sizeof (TwInkCorner));

  add_wall (corners, self, 0, self->radius_mm + self->wall_mm, TRUE);
  add_wall (corners, self, self->wall_mm, self->radius_mm, FALSE);
  tw_ink_hatch (self->ink, &hatch, (const TwInkCorner *)corners->data, corners->len, G_PI / 4, 1);
  tw_ink_path (self->ink, &outline, (const TwInkCorner *)corners->data, corners->len, TRUE);
}

static void
draw_box (const Section *self, const TwBox *box, double angle)
{
  TwInkCorner corners[4];

  tw_ink_box_corners (box, corners);
  if (angle != 0)
    tw_ink_hatch (self->ink, &hatch, corners, 4, angle, 1);
  tw_ink_box (self->ink, &outline, box);
}

static void
draw_core (const Section *self)
{
  const TwBox plate
      = { -self->core->header_thickness_mm, self->core->header_w_from_mm, 0, self->core->header_w_to_mm };
  TwTubeGrid grid = tw_tube_grid (self->drawn);

  draw_box (self, &plate, -G_PI / 4);
  for (guint row = 1; row <= grid.n_rows; row++) {
    double middle = tw_tube_across_mm (&grid, row), half = grid.width_mm / 2;

    tw_ink_line (self->ink, &thin, (TwPoint){ -STUB_MM, middle - half },
                 (TwPoint){ plate.x0_mm, middle - half });
    tw_ink_line (self->ink, &thin, (TwPoint){ -STUB_MM, middle + half },
                 (TwPoint){ plate.x0_mm, middle + half });
  }
}

static void
dimension (const TwSheetSet *set, TwSheet *page, const TwSheetView *view, const Section *self)
{
  TwDimensionManner manner = tw_sheet_manner (set, page);
  TwBox box;
  TwDimensionEdge edge = { 0 };
  static const TwDimensionSide sides[] = { TW_DIMENSION_BELOW, TW_DIMENSION_RIGHT, TW_DIMENSION_LEFT };
  g_autofree char *depth = tw_sheet_length (set, self->depth_mm);
  g_autofree char *width = tw_sheet_length (set, self->tank->w_to_mm - self->tank->w_from_mm);
  g_autofree char *plate = tw_sheet_length (set, self->core->header_w_to_mm - self->core->header_w_from_mm);
  const char *texts[] = { depth, width, plate };
  TwPoint at[6] = { { 0, self->tank->w_from_mm },
                    { self->depth_mm, self->tank->w_from_mm },
                    { self->depth_mm, self->tank->w_from_mm },
                    { self->depth_mm, self->tank->w_to_mm },
                    { 0, self->core->header_w_from_mm },
                    { 0, self->core->header_w_to_mm } };

  if (!tw_ink_bounds (self->ink, &box))
    return;
  for (guint i = 0; i < G_N_ELEMENTS (at); i++)
    at[i] = (TwPoint){ at[i].x_mm * view->scale + view->shift.x_mm,
                       at[i].y_mm * view->scale + view->shift.y_mm };
  edge.outline = tw_sheet_on_paper (view, box);
  for (guint i = 0; i < 3; i++) {
    const TwDimension dim = { at[2 * i], at[2 * i + 1], texts[i], self->tank->id };

    edge.side = sides[i];
    if (tw_sheet_has_room (set, page, &dim))
      (void)tw_dimension_stack (page->ink, &manner, &edge, &dim, 1);
  }
}

static char *
title_of (const TwSheetSet *set, const Section *self, double scale)
{
  g_autofree char *wall = tw_sheet_length (set, self->wall_mm),
                  *radius = tw_sheet_length (set, self->radius_mm);
  g_autofree char *ratio = tw_sheet_scale_text (round (1 / scale));

  return g_strdup_printf ("%s, %s  t %s, R %s", tw_sheet_name (set, self->tank->id), ratio, wall, radius);
}

void
tw_sheet_section (TwSheetSet *set, TwSheet *page, const TwPlacedTank *tank, double scale, const TwBox *cell)
{
  const TwTank *drawn = (const TwTank *)tw_drawing_find (set->drawing, tank->id);
  g_autoptr (TwInk) ink = tw_ink_new ();
  Section self = { .tank = tank, .ink = ink };
  TwSheetView view = { .scale = scale };
  const TwInkStyle words = { TW_INK_PEN_THIN, TW_INK_TINT_INK, LAYER, tank->id };
  g_autofree char *title = NULL, *cut = NULL;
  TwInkPlace place = { .size = TW_INK_SIZE_NOTE, .across = TW_INK_CENTRE, .up = TW_INK_BASELINE };
  TwBox box;

  self.core = tw_placement_core (set->placement, tank->core);
  self.drawn = (const TwCore *)tw_drawing_find (set->drawing, tank->core);
  self.depth_mm = MAX (tank->depth_start_mm, tank->depth_end_mm);
  self.wall_mm = MIN (isnan (tank->wall_mm) ? 2 : tank->wall_mm,
                      MIN (self.depth_mm, tank->w_to_mm - tank->w_from_mm) / 3);
  self.radius_mm = isnan (drawn->bend_radius_mm) ? self.wall_mm : drawn->bend_radius_mm;
  draw_core (&self);
  draw_tank (&self);
  if (!tw_ink_bounds (ink, &box))
    return;
  view.shift = (TwPoint){ (cell->x0_mm + cell->x1_mm) / 2 - (box.x0_mm + box.x1_mm) / 2 * scale,
                          (cell->y0_mm + cell->y1_mm) / 2 - (box.y0_mm + box.y1_mm) / 2 * scale };
  tw_ink_append_scaled (page->ink, ink, scale, view.shift);
  dimension (set, page, &view, &self);
  title = title_of (set, &self, scale);
  cut = tw_measure_fit (set->source->measure, title, page->look.heights[TW_INK_SIZE_NOTE],
                        cell->x1_mm - cell->x0_mm - 4);
  place.at = (TwPoint){ (cell->x0_mm + cell->x1_mm) / 2, cell->y1_mm - 6 };
  tw_ink_text (page->ink, &words, &place, cut);
}
