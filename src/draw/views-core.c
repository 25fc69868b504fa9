/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * views-core.c - block with tubes and fins, header plates, tanks, baffles
 */
#include "draw/views-private.h"

#include <math.h>

/* The core's face is looked at: cosine, dimensionless. */
#define FACING 0.5

/* A tube is two lines when it is thicker than this many pens, one line above one pen, else a tone; fins are
 * lines when they are this many pens apart. */
#define TWO_LINES 3.0
#define FINS_APART 4.0

/* More fins than this are always a tone. */
#define MOST_FINS 4000

/* A plate is seen on its edge: cosine between its normal and the way of looking, dimensionless. */
#define EDGE_ON 0.1

/* Shares of faint for fins and sides, dimensionless. */
#define FIN_TONE 0.3
#define TUBE_TONE 0.7

/* A rectangle of the face, in the core's (u, v), as it is seen. */
static void
face_corners (const TwViewHand *hand, const TwPlacedCore *core, TwBox box, TwInkCorner corners[4])
{
  tw_ink_box_corners (&box, corners);
  for (guint i = 0; i < 4; i++)
    corners[i].at = tw_view_point (
        hand, tw_frame_to_job (&core->frame, tw_vec (corners[i].at.x_mm, corners[i].at.y_mm, 0)));
}

static TwPoint
face_point (const TwViewHand *hand, const TwPlacedCore *core, double u_mm, double v_mm)
{
  return tw_view_point (hand, tw_frame_to_job (&core->frame, tw_vec (u_mm, v_mm, 0)));
}

/* --- tubes and fins ---------------------------------------------------------------------------------------
 */

static TwBox
tube_box (const TwPlacedCore *core, const TwTubeGrid *grid, guint tube)
{
  double middle_mm = tw_tube_along_mm (grid, tube), half_mm = grid->height_mm / 2;

  if (grid->level)
    return (TwBox){ core->face.x0_mm, middle_mm - half_mm, core->face.x1_mm, middle_mm + half_mm };
  return (TwBox){ middle_mm - half_mm, core->face.y0_mm, middle_mm + half_mm, core->face.y1_mm };
}

/* Whether the tube is one of the first or last two of the core or of a pass. */
static gboolean
is_near_end (const TwViewHand *hand, const TwTubeGrid *grid, guint tube)
{
  const TwPasses *passes = hand->source->passes;

  if (tube <= 2 || tube + 2 > grid->n_tubes)
    return TRUE;
  for (guint i = 0; passes != NULL && i < tw_passes_count (passes); i++) {
    const TwPass *pass = tw_passes_get (passes, i);

    for (guint k = 0; tw_id_equal (pass->core, grid->core) && k < pass->n_ranges; k++)
      if ((tube >= pass->ranges[k].first && tube <= pass->ranges[k].first + 1)
          || (tube + 1 >= pass->ranges[k].last && tube <= pass->ranges[k].last))
        return TRUE;
  }
  return FALSE;
}

static void
draw_tubes (const TwViewHand *hand, const TwPlacedCore *core, const TwTubeGrid *grid)
{
  TwInkStyle style = tw_view_style (hand, TW_INK_PEN_THIN, TW_INK_TINT_SOFT, TW_VIEW_LAYER_CORE, core->id);
  double thick = grid->height_mm / tw_view_pen_mm (hand, TW_INK_PEN_THIN);
  g_autofree TwInkCorner *all = g_new (TwInkCorner, 4 * MAX (grid->n_tubes, 1));
  guint n = 0;

  if (grid->n_tubes == 0 || isnan (grid->height_mm))
    return;
  for (guint i = 1; i <= grid->n_tubes; i++) {
    TwBox box = tube_box (core, grid, i);

    if ((hand->manner->flags & TW_VIEW_FEW_TUBES) && !is_near_end (hand, grid, i))
      continue;
    if (thick < 1 || thick > TWO_LINES) {
      face_corners (hand, core, box, all + n);
      n += 4;
    } else {
      double u_mm = (box.x0_mm + box.x1_mm) / 2, v_mm = (box.y0_mm + box.y1_mm) / 2;

      all[n++] = (TwInkCorner){
        face_point (hand, core, grid->level ? box.x0_mm : u_mm, grid->level ? v_mm : box.y0_mm), 0, TRUE
      };
      all[n++] = (TwInkCorner){
        face_point (hand, core, grid->level ? box.x1_mm : u_mm, grid->level ? v_mm : box.y1_mm), 0, FALSE
      };
    }
  }
  if (thick > TWO_LINES) {
    TwInkStyle ground = style;

    ground.tint = TW_INK_TINT_PAPER;
    tw_ink_fill (hand->ink, &ground, all, n);
  }
  if (thick < 1) {
    style.tint = TW_INK_TINT_FAINT;
    tw_ink_tone (hand->ink, &style, all, n, TUBE_TONE);
  } else {
    tw_ink_path (hand->ink, &style, all, n, thick > TWO_LINES);
  }
}

/* What of the face will be seen; all of it if the core is not square to the eye. */
static TwBox
shown_face (const TwViewHand *hand, const TwPlacedCore *core)
{
  TwPoint zero = face_point (hand, core, 0, 0), one = face_point (hand, core, 1, 1);
  TwBox shown;

  if (hand->manner->shown == NULL || fabs (one.x_mm - zero.x_mm - 1) > 1e-6
      || fabs (one.y_mm - zero.y_mm - 1) > 1e-6)
    return core->face;
  shown = *hand->manner->shown;
  return (TwBox){ MAX (core->face.x0_mm, shown.x0_mm - zero.x_mm),
                  MAX (core->face.y0_mm, shown.y0_mm - zero.y_mm),
                  MIN (core->face.x1_mm, shown.x1_mm - zero.x_mm),
                  MIN (core->face.y1_mm, shown.y1_mm - zero.y_mm) };
}

/* Fins one by one where there is room for them; FALSE if there is none. They are written as upright strokes
 * over the whole face, before the tubes cover them. */
static gboolean
draw_fins (const TwViewHand *hand, const TwPlacedCore *core, const TwTubeGrid *grid, double pitch_mm)
{
  TwInkStyle style = tw_view_style (hand, TW_INK_PEN_HATCH, TW_INK_TINT_FAINT, TW_VIEW_LAYER_CORE, core->id);
  TwBox box = shown_face (hand, core);
  double low_mm = grid->level ? core->face.x0_mm : core->face.y0_mm;
  double from = ceil (((grid->level ? box.x0_mm : box.y0_mm) - low_mm) / pitch_mm);
  double to = floor (((grid->level ? box.x1_mm : box.y1_mm) - low_mm) / pitch_mm);
  g_autoptr (GArray) corners = NULL;

  if (isnan (pitch_mm) || pitch_mm < FINS_APART * tw_view_pen_mm (hand, TW_INK_PEN_THIN)
      || to - from > MOST_FINS || to < from)
    return FALSE;
  corners = g_array_new (FALSE, FALSE, sizeof (TwInkCorner));
  for (double nth = from; nth <= to; nth++) {
    double at_mm = low_mm + nth * pitch_mm;
    TwInkCorner two[] = {
      { face_point (hand, core, grid->level ? at_mm : box.x0_mm, grid->level ? box.y0_mm : at_mm), 0, TRUE },
      { face_point (hand, core, grid->level ? at_mm : box.x1_mm, grid->level ? box.y1_mm : at_mm), 0, FALSE }
    };

    g_array_append_vals (corners, two, 2);
  }
  tw_ink_path (hand->ink, &style, (TwInkCorner *)(gpointer)corners->data, corners->len, FALSE);
  return TRUE;
}

void
tw_view_draw_block (const TwViewHand *hand, const TwPlacedSolid *solid)
{
  const TwPlacedCore *core = tw_placement_core (hand->source->placement, solid->part);
  const TwCore *drawn
      = (const TwCore *)tw_drawing_find (tw_placement_drawing (hand->source->placement), solid->part);
  TwInkStyle style
      = tw_view_style (hand, TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, TW_VIEW_LAYER_CORE, solid->part);
  TwInkStyle tone
      = tw_view_style (hand, TW_INK_PEN_HATCH, TW_INK_TINT_FAINT, TW_VIEW_LAYER_CORE, solid->part);
  TwTubeGrid grid;
  TwInkCorner corners[4];

  if (tw_view_away (hand, core->frame.w) < FACING) {
    tw_view_solid (hand, solid->convex, &style, FIN_TONE);
    return;
  }
  tw_view_solid (hand, solid->convex, &style, 0);
  grid = tw_tube_grid (drawn);
  face_corners (hand, core, core->face, corners);
  if (!draw_fins (hand, core, &grid, drawn->fin_pitch_mm))
    tw_ink_tone (hand->ink, &tone, corners, 4, FIN_TONE);
  draw_tubes (hand, core, &grid);
  tw_ink_path (hand->ink, &style, corners, 4, TRUE);
}

/* --- tanks ------------------------------------------------------------------------------------------------
 */

void
tw_view_draw_tank (const TwViewHand *hand, const TwPlacedSolid *solid)
{
  const char *layer = solid->role == TW_SOLID_TANK ? TW_VIEW_LAYER_TANK : TW_VIEW_LAYER_CORE;
  TwInkStyle style = tw_view_style (hand, TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, layer, solid->part);

  tw_view_solid (hand, solid->convex, &style, 0);
}

static double *
part_of (TwVec *vec, guint axis)
{
  return axis == 0 ? &vec->x : axis == 1 ? &vec->y : &vec->z;
}

/* The axis along which a plate is thinnest: 0, 1, 2 for u, v, w. */
static guint
thin_axis (const TwPlacedBaffle *baffle)
{
  TwVec size = tw_vec_subtract (baffle->to, baffle->from);

  if (size.x <= size.y && size.x <= size.z)
    return 0;
  return size.y <= size.z ? 1 : 2;
}

/* Corners of the plate's side that lies a @share (0 to 1, dimensionless) of its thickness in, as they are
 * seen. */
static void
plate_corners (const TwViewHand *hand, const TwPlacedBaffle *baffle, double share, TwPoint points[4])
{
  const TwPlacedCore *core = tw_placement_core (hand->source->placement, baffle->core);
  guint thin = thin_axis (baffle), one = (thin + 1) % 3, two = (thin + 2) % 3;

  for (guint i = 0; i < 4; i++) {
    TwVec from = baffle->from, to = baffle->to, at = from;

    *part_of (&at, thin) = *part_of (&from, thin) + share * (*part_of (&to, thin) - *part_of (&from, thin));
    *part_of (&at, one) = *part_of (i == 1 || i == 2 ? &to : &from, one);
    *part_of (&at, two) = *part_of (i >= 2 ? &to : &from, two);
    points[i] = tw_view_point (hand, tw_frame_to_job (&core->frame, at));
  }
}

/* The two corners that are farthest apart. */
static void
farthest (const TwPoint points[4], guint pair[2])
{
  double longest_mm = -1;

  pair[0] = pair[1] = 0;
  for (guint i = 0; i < 4; i++)
    for (guint k = i + 1; k < 4; k++)
      if (tw_point_distance_mm (points[i], points[k]) > longest_mm) {
        longest_mm = tw_point_distance_mm (points[i], points[k]);
        pair[0] = i;
        pair[1] = k;
      }
}

/* Seen on its edge a plate is one line, or two when there is room between them, else its outline; dashed,
 * because it is inside. */
static void
draw_baffle (const TwViewHand *hand, const TwPlacedBaffle *baffle)
{
  TwInkStyle style = { TW_INK_PEN_BEHIND, TW_INK_TINT_INK, TW_VIEW_LAYER_HIDDEN, baffle->id };
  const TwPlacedCore *core = tw_placement_core (hand->source->placement, baffle->core);
  const TwVec normals[] = { core->frame.u, core->frame.v, core->frame.w };
  guint thin = thin_axis (baffle), pair[2];
  TwVec size = tw_vec_subtract (baffle->to, baffle->from);
  gboolean thick = *part_of (&size, thin) > TWO_LINES * tw_view_pen_mm (hand, TW_INK_PEN_BEHIND);
  TwPoint sides[2][4];

  plate_corners (hand, baffle, thick ? 0 : 0.5, sides[0]);
  plate_corners (hand, baffle, thick ? 1 : 0.5, sides[1]);
  if (fabs (tw_view_away (hand, normals[thin])) > EDGE_ON) {
    TwInkCorner corners[4] = { 0 };

    for (guint i = 0; i < 4; i++)
      corners[i].at = sides[0][i];
    tw_ink_path (hand->ink, &style, corners, 4, TRUE);
    return;
  }
  farthest (sides[0], pair);
  for (guint i = 0; i < (thick ? 2 : 1); i++)
    tw_ink_line (hand->ink, &style, sides[i][pair[0]], sides[i][pair[1]]);
}

void
tw_view_draw_baffles (const TwViewHand *hand)
{
  guint n;
  const TwPlacedBaffle *baffles = tw_placement_baffles (hand->source->placement, &n);

  for (guint i = 0; i < n; i++) {
    const TwPlacedCore *core = tw_placement_core (hand->source->placement, baffles[i].core);
    TwVec middle = tw_vec_scale (tw_vec_add (baffles[i].from, baffles[i].to), 0.5);

    /* of a tank that the core hides, the baffle is not shown */
    if (core != NULL
        && tw_view_depth_mm (hand, tw_frame_to_job (&core->frame, middle)) < hand->nearest_mm + 1)
      draw_baffle (hand, &baffles[i]);
  }
}
