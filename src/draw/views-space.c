/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * views-space.c - shapes in space as they are seen
 */
#include "draw/views-private.h"

#include <math.h>

/* What is nearer by less than this covers nothing, mm. */
#define NEARER_MM 1e-4

/* End on, and from the side: shares of the way of looking, dimensionless. */
#define END_ON 0.9999
#define FROM_SIDE 0.01

/* Corners of a circle that is seen slanted. */
#define ELLIPSE_CORNERS 48

/* Centre lines reach this beyond what they belong to, units of the look's note height, dimensionless. */
#define CENTRE_BEYOND 0.7

TwPoint
tw_view_point (const TwViewHand *hand, TwVec at)
{
  TwVec seen = tw_frame_from_job (&hand->eye, at);

  return (TwPoint){ seen.x, seen.y };
}

double
tw_view_depth_mm (const TwViewHand *hand, TwVec at)
{
  return tw_frame_from_job (&hand->eye, at).z;
}

double
tw_view_away (const TwViewHand *hand, TwVec direction)
{
  return tw_vec_dot (direction, hand->eye.w);
}

gboolean
tw_view_angle (const TwViewHand *hand, TwVec direction, double *angle_rad)
{
  double across = tw_vec_dot (direction, hand->eye.u), up = tw_vec_dot (direction, hand->eye.v);

  if (fabs (tw_view_away (hand, direction)) > 0.95)
    return FALSE;
  *angle_rad = atan2 (up, across);
  return TRUE;
}

double
tw_view_paper_mm (const TwViewHand *hand, double paper)
{
  return paper / hand->manner->scale;
}

double
tw_view_pen_mm (const TwViewHand *hand, TwInkPen pen)
{
  return tw_view_paper_mm (hand, hand->manner->look->pens[pen].width);
}

TwInkStyle
tw_view_style (const TwViewHand *hand, TwInkPen pen, TwInkTint tint, const char *layer, TwId part)
{
  g_autofree char *behind = hand->behind ? g_strconcat (layer, "-behind", NULL) : NULL;

  return (TwInkStyle){ pen, tint, behind != NULL ? g_intern_string (behind) : layer, part };
}

gboolean
tw_view_is_covered (const TwViewHand *hand, TwVec at)
{
  TwPoint seen = tw_view_point (hand, at);
  double depth_mm = tw_view_depth_mm (hand, at), zero_mm = tw_vec_dot (hand->eye.w, hand->eye.origin);
  guint n;
  const TwPlacedSolid *solids = tw_placement_solids (hand->source->placement, &n);

  for (guint i = 0; i < n; i++) {
    const TwConvex *solid = solids[i].convex;
    TwVec zero = hand->eye.origin;

    if (solids[i].role > TW_SOLID_TANK && solids[i].role != TW_SOLID_SHROUD)
      continue;
    if (tw_convex_reach_mm (solid, hand->eye.w) - zero_mm < depth_mm - NEARER_MM
        && tw_convex_reach_mm (solid, hand->eye.u) - tw_vec_dot (hand->eye.u, zero) > seen.x_mm
        && tw_convex_least_mm (solid, hand->eye.u) - tw_vec_dot (hand->eye.u, zero) < seen.x_mm
        && tw_convex_reach_mm (solid, hand->eye.v) - tw_vec_dot (hand->eye.v, zero) > seen.y_mm
        && tw_convex_least_mm (solid, hand->eye.v) - tw_vec_dot (hand->eye.v, zero) < seen.y_mm)
      return TRUE;
  }
  return FALSE;
}

/* --- round things -----------------------------------------------------------------------------------------
 */

/* Corners of the circle as it is seen, ELLIPSE_CORNERS of them. */
static void
ellipse (const TwViewHand *hand, TwVec at, TwVec axis, double radius_mm, TwPoint *points)
{
  TwVec one = tw_vec_square_to (axis), two = tw_vec_cross (axis, one);

  for (guint i = 0; i < ELLIPSE_CORNERS; i++) {
    double angle_rad = 2 * G_PI * i / ELLIPSE_CORNERS;
    TwVec rim = tw_vec_add_scaled (tw_vec_add_scaled (at, radius_mm * cos (angle_rad), one),
                                   radius_mm * sin (angle_rad), two);

    points[i] = tw_view_point (hand, rim);
  }
}

void
tw_view_circle (const TwViewHand *hand, TwVec at, TwVec axis, double radius_mm, const TwInkStyle *style)
{
  TwPoint points[ELLIPSE_CORNERS];
  TwInkCorner corners[ELLIPSE_CORNERS] = { 0 };

  if (fabs (tw_view_away (hand, axis)) > END_ON) {
    tw_ink_circle (hand->ink, style, tw_view_point (hand, at), radius_mm);
    return;
  }
  ellipse (hand, at, axis, radius_mm, points);
  for (guint i = 0; i < ELLIPSE_CORNERS; i++)
    corners[i].at = points[i];
  tw_ink_path (hand->ink, style, corners, ELLIPSE_CORNERS, TRUE);
}

static void
cover (const TwViewHand *hand, const TwInkStyle *style, const TwInkCorner *corners, guint n)
{
  TwInkStyle ground = *style;

  ground.tint = TW_INK_TINT_PAPER;
  tw_ink_fill (hand->ink, &ground, corners, n);
}

static void
draw_slanted (const TwViewHand *hand,
              const TwVec ends[2],
              double radius_mm,
              const TwInkStyle *style,
              gboolean covers)
{
  TwVec axis = tw_vec_unit (tw_vec_subtract (ends[1], ends[0]));
  TwPoint points[2 * ELLIPSE_CORNERS];
  TwArea *hull;

  ellipse (hand, ends[0], axis, radius_mm, points);
  ellipse (hand, ends[1], axis, radius_mm, points + ELLIPSE_CORNERS);
  hull = tw_area_new_hull (hand->source->geos, points, G_N_ELEMENTS (points));
  if (covers && !tw_area_is_empty (hull)) {
    g_autoptr (GArray) corners = tw_view_area_corners (hull);

    cover (hand, style, (TwInkCorner *)(gpointer)corners->data, corners->len);
  }
  tw_view_area (hand, hull, style);
  tw_area_unref (hull);
  if (fabs (tw_view_away (hand, axis)) > FROM_SIDE)
    tw_view_circle (hand, ends[tw_view_away (hand, axis) > 0 ? 0 : 1], axis, radius_mm, style);
}

void
tw_view_cylinder (const TwViewHand *hand,
                  const TwVec ends[2],
                  double radius_mm,
                  const TwInkStyle *style,
                  gboolean covers)
{
  TwVec axis = tw_vec_unit (tw_vec_subtract (ends[1], ends[0]));
  double away = fabs (tw_view_away (hand, axis));

  if (away > END_ON) {
    TwInkCorner corners[2];

    tw_ink_circle_corners (tw_view_point (hand, ends[0]), radius_mm, corners);
    if (covers)
      cover (hand, style, corners, 2);
    tw_ink_path (hand->ink, style, corners, 2, TRUE);
  } else if (away < FROM_SIDE) {
    TwPoint from = tw_view_point (hand, ends[0]), to = tw_view_point (hand, ends[1]);
    double angle_rad = atan2 (to.y_mm - from.y_mm, to.x_mm - from.x_mm);
    double x_mm = -radius_mm * sin (angle_rad), y_mm = radius_mm * cos (angle_rad);
    const TwInkCorner corners[] = {
      { .at = { from.x_mm + x_mm, from.y_mm + y_mm } },
      { .at = { from.x_mm - x_mm, from.y_mm - y_mm } },
      { .at = { to.x_mm - x_mm, to.y_mm - y_mm } },
      { .at = { to.x_mm + x_mm, to.y_mm + y_mm } },
    };

    if (covers)
      cover (hand, style, corners, G_N_ELEMENTS (corners));
    tw_ink_path (hand->ink, style, corners, G_N_ELEMENTS (corners), TRUE);
  } else {
    draw_slanted (hand, ends, radius_mm, style, covers);
  }
}

void
tw_view_centre (const TwViewHand *hand, const TwVec ends[2], double radius_mm, const TwInkStyle *style)
{
  double beyond_mm = tw_view_paper_mm (hand, CENTRE_BEYOND * hand->manner->look->heights[TW_INK_SIZE_NOTE]);
  TwPoint from = tw_view_point (hand, ends[0]), to = tw_view_point (hand, ends[1]);
  double length_mm = tw_point_distance_mm (from, to), reach_mm = radius_mm + beyond_mm;

  if (length_mm < 2 * radius_mm * 0.05) {
    tw_ink_line (hand->ink, style, (TwPoint){ from.x_mm - reach_mm, from.y_mm },
                 (TwPoint){ from.x_mm + reach_mm, from.y_mm });
    tw_ink_line (hand->ink, style, (TwPoint){ from.x_mm, from.y_mm - reach_mm },
                 (TwPoint){ from.x_mm, from.y_mm + reach_mm });
    return;
  }
  tw_ink_line (hand->ink, style,
               (TwPoint){ from.x_mm - beyond_mm * (to.x_mm - from.x_mm) / length_mm,
                          from.y_mm - beyond_mm * (to.y_mm - from.y_mm) / length_mm },
               (TwPoint){ to.x_mm + beyond_mm * (to.x_mm - from.x_mm) / length_mm,
                          to.y_mm + beyond_mm * (to.y_mm - from.y_mm) / length_mm });
}

/* --- areas, labels, words ---------------------------------------------------------------------------------
 */

GArray *
tw_view_area_corners (const TwArea *area)
{
  GArray *corners = g_array_new (FALSE, FALSE, sizeof (TwInkCorner));

  for (guint i = 0; i < tw_area_n_rings (area); i++) {
    TwRing ring = tw_area_ring (area, i);

    for (guint k = 0; k < ring.n_points; k++) {
      TwInkCorner corner = { ring.points[k], 0, k == 0 };

      g_array_append_val (corners, corner);
    }
  }
  return corners;
}

void
tw_view_area (const TwViewHand *hand, const TwArea *area, const TwInkStyle *style)
{
  g_autoptr (GArray) corners = tw_view_area_corners (area);

  if (corners->len >= 3)
    tw_ink_path (hand->ink, style, (TwInkCorner *)(gpointer)corners->data, corners->len, TRUE);
}

TwViewLabel *
tw_view_label (const TwViewHand *hand,
               TwViewLabelKind kind,
               TwId part,
               TwPoint at,
               double reach_mm,
               char *text)
{
  TwViewLabel label = { .kind = kind, .part = part, .at = at, .tint = TW_INK_TINT_INK, .text = text };

  label.around = tw_box_grow ((TwBox){ at.x_mm, at.y_mm, at.x_mm, at.y_mm }, reach_mm);
  g_array_append_val (hand->labels, label);
  return &g_array_index (hand->labels, TwViewLabel, hand->labels->len - 1);
}

const char *
tw_view_words (const TwViewHand *hand, const char *words)
{
  return hand->manner->translate != NULL ? hand->manner->translate (words) : words;
}
