/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * views-around.c - header tanks, openings and exits
 */
#include "draw/views-private.h"

#include <math.h>

/* An opening is looked at, not along its plane; share of the way of looking, dimensionless. */
#define LOOKED_AT 0.05
#define SQUARELY 0.98

/* The second line of an opening lies so many pens inside the first; dimensionless. */
#define SECOND 2.4

/* Lips of an opening seen on its edge, and the air's arrow through it: in heights of a note, dimensionless.
 */
#define LIP 0.8
#define ARROW_BEFORE 2.4
#define ARROW_AFTER 0.8

/* The marks of a water level, left of the name: middle and half lengths as shares of half the width that is
 * seen; dimensionless. */
#define LEVEL_MIDDLE 0.82
#define LEVEL_WIDE 0.13
#define LEVEL_NARROW 0.06

static double
note_mm (const TwViewHand *hand)
{
  return tw_view_paper_mm (hand, hand->manner->look->heights[TW_INK_SIZE_NOTE]);
}

/* The name of a part, inside what @area of it is seen or beside that. */
static void
want_name (const TwViewHand *hand, TwId part, const TwArea *area, TwInkTint tint)
{
  const TwPart *drawn = tw_drawing_find (tw_placement_drawing (hand->source->placement), part);
  double free_mm = 0;
  TwPoint at = tw_area_label_point (hand->source->geos, area, &free_mm);
  TwViewLabel *label
      = tw_view_label (hand, TW_VIEW_LABEL_AROUND, part, at, free_mm, g_strdup (tw_part_name (drawn)));

  label->around = tw_area_bounds (area);
  label->inside_mm = free_mm;
  label->tint = tint;
}

/* --- header tanks -----------------------------------------------------------------------------------------
 */

/* Two level marks, the lower one shorter. */
static void
draw_level (const TwViewHand *hand, const TwPlacedHeaderTank *tank, const char *layer)
{
  const TwHeaderTank *drawn
      = (const TwHeaderTank *)tw_drawing_find (tw_placement_drawing (hand->source->placement), tank->id);
  TwInkStyle style = { TW_INK_PEN_THIN, TW_INK_TINT_COOL, layer, tank->id };
  double inside_mm = tank->half.y - tank->wall_mm;
  double half_mm = fabs (tw_vec_dot (tank->frame.u, hand->eye.u)) * tank->half.x
                   + fabs (tw_vec_dot (tank->frame.w, hand->eye.u)) * tank->half.z;
  double level_mm = (2 * drawn->cold_share - 1) * inside_mm;
  double step_mm = MIN (0.5 * note_mm (hand), 0.2 * tank->half.y);
  TwPoint at = tw_view_point (hand, tw_vec_add_scaled (tank->frame.origin, level_mm, tank->frame.v));

  if (isnan (drawn->cold_share) || inside_mm <= 0 || level_mm - step_mm <= -inside_mm)
    return;
  at.x_mm -= LEVEL_MIDDLE * half_mm;
  tw_ink_line (hand->ink, &style, (TwPoint){ at.x_mm - LEVEL_WIDE * half_mm, at.y_mm },
               (TwPoint){ at.x_mm + LEVEL_WIDE * half_mm, at.y_mm });
  tw_ink_line (hand->ink, &style, (TwPoint){ at.x_mm - LEVEL_NARROW * half_mm, at.y_mm - step_mm },
               (TwPoint){ at.x_mm + LEVEL_NARROW * half_mm, at.y_mm - step_mm });
}

void
tw_view_draw_header_tank (const TwViewHand *hand, const TwPlacedSolid *solid)
{
  const TwPlacedHeaderTank *tank = tw_placement_header_tank (hand->source->placement, solid->part);
  TwInkStyle style
      = tw_view_style (hand, TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, TW_VIEW_LAYER_HEADER_TANK, solid->part);
  TwInkStyle centre
      = tw_view_style (hand, TW_INK_PEN_CENTRE, TW_INK_TINT_SOFT, TW_VIEW_LAYER_HEADER_TANK, solid->part);
  TwArea *seen = tw_convex_shadow (solid->convex, hand->source->geos, &hand->eye);

  if (tank->form == TW_VESSEL_BOX) {
    tw_view_solid (hand, solid->convex, &style, 0);
  } else {
    tw_view_cylinder (hand, tank->ends, tank->round_mm / 2, &style, TRUE);
    tw_view_centre (hand, tank->ends, tank->round_mm / 2, &centre);
  }
  if (hand->manner->view == TW_VIEW_FRONT || hand->manner->view == TW_VIEW_SIDE)
    draw_level (hand, tank, style.layer);
  if (!tw_area_is_empty (seen))
    want_name (hand, solid->part, seen, TW_INK_TINT_INK);
  tw_area_unref (seen);
}

/* --- openings and exits -----------------------------------------------------------------------------------
 */

/* Its outline as it is seen; empty when it is seen on its edge. */
static TwArea *
seen_area (const TwViewHand *hand, const TwPlacedOpening *opening)
{
  TwRing ring = tw_area_ring (opening->outline, 0);
  g_autofree TwPoint *points = g_new (TwPoint, ring.n_points);

  if (fabs (tw_view_away (hand, opening->way)) < LOOKED_AT)
    return tw_area_new_empty ();
  for (guint i = 0; i < ring.n_points; i++)
    points[i] = tw_view_point (hand, tw_plane_lift (opening->plane, ring.points[i], opening->at_mm));
  return tw_area_new_points (hand->source->geos, points, ring.n_points);
}

/* Thick, with a thin second line inside; what lies behind is dashed and has none. */
static void
draw_outline (const TwViewHand *hand, const TwArea *seen, const TwInkStyle *style)
{
  double in_mm = SECOND * tw_view_pen_mm (hand, TW_INK_PEN_OUTLINE);
  TwInkStyle thin = *style;
  TwArea *inner;

  tw_view_area (hand, seen, style);
  if (style->pen != TW_INK_PEN_OUTLINE)
    return;
  inner = tw_area_grow (hand->source->geos, seen, -in_mm);
  thin.pen = TW_INK_PEN_THIN;
  tw_view_area (hand, inner, &thin);
  tw_area_unref (inner);
}

/* The two corners of the box round its outline that are seen farthest apart. */
static void
edge_ends (const TwViewHand *hand, const TwPlacedOpening *opening, TwPoint ends[2])
{
  TwBox box = tw_area_bounds (opening->outline);
  TwPoint corners[4] = {
    { box.x0_mm, box.y0_mm }, { box.x1_mm, box.y0_mm }, { box.x1_mm, box.y1_mm }, { box.x0_mm, box.y1_mm }
  };
  double longest_mm = -1;

  for (guint i = 0; i < 4; i++)
    corners[i] = tw_view_point (hand, tw_plane_lift (opening->plane, corners[i], opening->at_mm));
  for (guint i = 0; i < 4; i++)
    for (guint k = i + 1; k < 4; k++)
      if (tw_point_distance_mm (corners[i], corners[k]) > longest_mm) {
        longest_mm = tw_point_distance_mm (corners[i], corners[k]);
        ends[0] = corners[i];
        ends[1] = corners[k];
      }
}

static TwPoint
moved (TwPoint from, TwPoint way, double by_mm)
{
  return (TwPoint){ from.x_mm + by_mm * way.x_mm, from.y_mm + by_mm * way.y_mm };
}

/* On its edge: a thick line with a thin one on the side of the duct, and lips that open outwards. */
static void
draw_edge (const TwViewHand *hand, const TwPlacedOpening *opening, const TwInkStyle *style)
{
  TwPoint ends[2], outwards, along;
  TwVec out = tw_vec_scale (opening->way, opening->is_exit ? 1 : -1);
  double length_mm, lip_mm, in_mm = SECOND * tw_view_pen_mm (hand, TW_INK_PEN_OUTLINE);
  TwInkStyle thin = *style;

  edge_ends (hand, opening, ends);
  length_mm = tw_point_distance_mm (ends[0], ends[1]);
  lip_mm = MIN (LIP * note_mm (hand), 0.3 * length_mm);
  outwards = (TwPoint){ tw_vec_dot (out, hand->eye.u), tw_vec_dot (out, hand->eye.v) };
  along = (TwPoint){ (ends[1].x_mm - ends[0].x_mm) / length_mm, (ends[1].y_mm - ends[0].y_mm) / length_mm };
  tw_ink_line (hand->ink, style, ends[0], ends[1]);
  for (guint i = 0; i < 2; i++)
    tw_ink_line (hand->ink, style, ends[i],
                 moved (moved (ends[i], outwards, lip_mm), along, i == 0 ? -lip_mm : lip_mm));
  if (style->pen != TW_INK_PEN_OUTLINE)
    return;
  thin.pen = TW_INK_PEN_THIN;
  tw_ink_line (hand->ink, &thin, moved (ends[0], outwards, -in_mm), moved (ends[1], outwards, -in_mm));
}

static void
name_edge (const TwViewHand *hand, const TwPlacedOpening *opening)
{
  const TwPart *drawn = tw_drawing_find (tw_placement_drawing (hand->source->placement), opening->id);
  TwViewLabel *label;
  TwPoint ends[2];

  edge_ends (hand, opening, ends);
  label = tw_view_label (hand, TW_VIEW_LABEL_AROUND, opening->id,
                         (TwPoint){ (ends[0].x_mm + ends[1].x_mm) / 2, (ends[0].y_mm + ends[1].y_mm) / 2 }, 0,
                         g_strdup (tw_part_name (drawn)));
  label->around = tw_box_add_point (tw_box_add_point (TW_BOX_EMPTY, ends[0]), ends[1]);
  label->tint = TW_INK_TINT_AIR;
}

static gboolean
is_behind (const TwViewHand *hand, const TwPlacedOpening *opening)
{
  return hand->nearest_mm > -G_MAXDOUBLE
         && tw_view_depth_mm (hand, opening->middle) > hand->nearest_mm + TW_VIEW_BESIDE_MM;
}

/* Face shows those only that it looks at squarely enough; the others would be pushed aside by the slant. */
static gboolean
is_shown (const TwViewHand *hand, const TwPlacedOpening *opening)
{
  return hand->manner->view != TW_VIEW_FACE || fabs (tw_view_away (hand, opening->way)) > SQUARELY;
}

void
tw_view_draw_openings (const TwViewHand *hand, gboolean behind)
{
  guint n;
  const TwPlacedOpening *openings = tw_placement_openings (hand->source->placement, &n);

  for (guint i = 0; i < n; i++) {
    TwInkStyle style = { behind ? TW_INK_PEN_BEHIND : TW_INK_PEN_OUTLINE, TW_INK_TINT_AIR,
                         behind ? TW_VIEW_LAYER_HIDDEN : TW_VIEW_LAYER_OPENING, openings[i].id };
    TwArea *seen;

    if (!is_shown (hand, &openings[i]) || is_behind (hand, &openings[i]) != behind)
      continue;
    seen = seen_area (hand, &openings[i]);
    if (tw_area_is_empty (seen)) {
      draw_edge (hand, &openings[i], &style);
      name_edge (hand, &openings[i]);
    } else {
      draw_outline (hand, seen, &style);
      want_name (hand, openings[i].id, seen, TW_INK_TINT_AIR);
    }
    tw_area_unref (seen);
  }
}

void
tw_view_draw_opening_ways (const TwViewHand *hand)
{
  guint n;
  const TwPlacedOpening *openings = tw_placement_openings (hand->source->placement, &n);

  for (guint i = 0; i < n; i++) {
    TwInkStyle style = { TW_INK_PEN_WATER, TW_INK_TINT_AIR, TW_VIEW_LAYER_WAY, openings[i].id };
    TwVec tail = tw_vec_add_scaled (openings[i].middle, -ARROW_BEFORE * note_mm (hand), openings[i].way);
    TwVec head = tw_vec_add_scaled (openings[i].middle, ARROW_AFTER * note_mm (hand), openings[i].way);
    double angle_rad;

    if (!is_shown (hand, &openings[i]) || !tw_view_angle (hand, openings[i].way, &angle_rad))
      continue;
    tw_ink_line (hand->ink, &style, tw_view_point (hand, tail), tw_view_point (hand, head));
    tw_ink_arrow (hand->ink, &style, tw_view_point (hand, head), angle_rad);
  }
}
