/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/geom.h"

#include <math.h>

double
tw_point_distance_mm (TwPoint a, TwPoint b)
{
  return hypot (b.x_mm - a.x_mm, b.y_mm - a.y_mm);
}

gboolean
tw_point_is_sane (TwPoint point)
{
  /* NaN fails both comparisons */
  return fabs (point.x_mm) <= TW_GEOM_LIMIT_MM && fabs (point.y_mm) <= TW_GEOM_LIMIT_MM;
}

TwPoint
tw_map_point (const TwMap *map, TwPoint point)
{
  return (TwPoint){ map->xx * point.x_mm + map->xy * point.y_mm + map->x_mm,
                    map->yx * point.x_mm + map->yy * point.y_mm + map->y_mm };
}

gboolean
tw_box_is_empty (TwBox box)
{
  return !(box.x0_mm <= box.x1_mm && box.y0_mm <= box.y1_mm);
}

TwBox
tw_box_add_point (TwBox box, TwPoint point)
{
  return (TwBox){ MIN (box.x0_mm, point.x_mm), MIN (box.y0_mm, point.y_mm), MAX (box.x1_mm, point.x_mm),
                  MAX (box.y1_mm, point.y_mm) };
}

TwBox
tw_box_add (TwBox a, TwBox b)
{
  return (TwBox){ MIN (a.x0_mm, b.x0_mm), MIN (a.y0_mm, b.y0_mm), MAX (a.x1_mm, b.x1_mm),
                  MAX (a.y1_mm, b.y1_mm) };
}

gboolean
tw_box_overlaps (TwBox a, TwBox b)
{
  return a.x0_mm <= b.x1_mm && b.x0_mm <= a.x1_mm && a.y0_mm <= b.y1_mm && b.y0_mm <= a.y1_mm;
}

gboolean
tw_box_contains (TwBox box, TwPoint point)
{
  return box.x0_mm <= point.x_mm && point.x_mm <= box.x1_mm && box.y0_mm <= point.y_mm
         && point.y_mm <= box.y1_mm;
}

TwBox
tw_box_grow (TwBox box, double by_mm)
{
  return (TwBox){ box.x0_mm - by_mm, box.y0_mm - by_mm, box.x1_mm + by_mm, box.y1_mm + by_mm };
}

TwArc
tw_arc_of_edge (TwPoint from, TwPoint to, double bow_mm)
{
  double chord_mm = tw_point_distance_mm (from, to);
  double rise_mm = fabs (bow_mm);
  double sign = bow_mm < 0.0 ? -1.0 : 1.0;
  double radius_mm, off_mm;
  TwPoint right;
  TwArc arc;

  if (bow_mm == 0.0 || chord_mm == 0.0)
    return (TwArc){ .radius_mm = 0.0 };

  radius_mm = (chord_mm * chord_mm / 4.0 + rise_mm * rise_mm) / (2.0 * rise_mm);
  /* From the chord's middle to the centre, counted to the right of the direction of travel. */
  off_mm = sign * (rise_mm - radius_mm);
  right = (TwPoint){ (to.y_mm - from.y_mm) / chord_mm, (from.x_mm - to.x_mm) / chord_mm };
  arc.centre = (TwPoint){ (from.x_mm + to.x_mm) / 2.0 + off_mm * right.x_mm,
                          (from.y_mm + to.y_mm) / 2.0 + off_mm * right.y_mm };
  arc.radius_mm = radius_mm;
  arc.from_rad = atan2 (from.y_mm - arc.centre.y_mm, from.x_mm - arc.centre.x_mm);
  arc.turn_rad = sign * 4.0 * atan (2.0 * rise_mm / chord_mm);
  return arc;
}

double
tw_arc_segment_area_mm2 (double radius_mm, double turn_rad)
{
  double theta = fabs (turn_rad);

  /* θ − sin θ loses its figures for a flat arc: θ³/6·(1 − θ²/20) is exact to 1e-14 below 0.003. */
  if (theta < 0.003)
    return radius_mm * radius_mm * theta * theta * theta / 12.0 * (1.0 - theta * theta / 20.0);
  return radius_mm * radius_mm / 2.0 * (theta - sin (theta));
}

TwPoint
tw_arc_point (const TwArc *arc, double t)
{
  double angle_rad = arc->from_rad + t * arc->turn_rad;

  return (TwPoint){ arc->centre.x_mm + arc->radius_mm * cos (angle_rad),
                    arc->centre.y_mm + arc->radius_mm * sin (angle_rad) };
}

double
tw_edge_length_mm (TwPoint from, TwPoint to, double bow_mm)
{
  TwArc arc = tw_arc_of_edge (from, to, bow_mm);

  return arc.radius_mm > 0.0 ? arc.radius_mm * fabs (arc.turn_rad) : tw_point_distance_mm (from, to);
}

TwBox
tw_edge_bounds (TwPoint from, TwPoint to, double bow_mm)
{
  TwArc arc = tw_arc_of_edge (from, to, bow_mm);
  TwBox box = tw_box_add_point (tw_box_add_point (TW_BOX_EMPTY, from), to);

  if (arc.radius_mm > 0.0) {
    static const TwPoint axes[] = { { 1.0, 0.0 }, { 0.0, 1.0 }, { -1.0, 0.0 }, { 0.0, -1.0 } };

    for (guint i = 0; i < G_N_ELEMENTS (axes); i++) {
      double past_rad = i * G_PI_2 - arc.from_rad;

      if (arc.turn_rad < 0.0)
        past_rad = -past_rad;
      past_rad = fmod (past_rad + 4.0 * G_PI, 2.0 * G_PI);
      if (past_rad <= fabs (arc.turn_rad))
        box = tw_box_add_point (box, (TwPoint){ arc.centre.x_mm + arc.radius_mm * axes[i].x_mm,
                                                arc.centre.y_mm + arc.radius_mm * axes[i].y_mm });
    }
  }
  return box;
}

TwBox
tw_outline_bounds (const TwCorner *corners, guint n_corners)
{
  TwBox box = TW_BOX_EMPTY;

  for (guint i = 0; i < n_corners; i++) {
    const TwCorner *next = &corners[(i + 1) % n_corners];

    box = tw_box_add (box, tw_edge_bounds (corners[i].at, next->at, corners[i].bow_mm));
  }
  return box;
}

double
tw_outline_area_mm2 (const TwCorner *corners, guint n_corners)
{
  double area_mm2 = 0.0;

  for (guint i = 0; i < n_corners; i++) {
    TwPoint origin = corners[0].at;
    TwPoint a = corners[i].at;
    TwPoint b = corners[(i + 1) % n_corners].at;
    TwArc arc = tw_arc_of_edge (a, b, corners[i].bow_mm);
    double segment_mm2 = tw_arc_segment_area_mm2 (arc.radius_mm, arc.turn_rad);

    area_mm2
        += ((a.x_mm - origin.x_mm) * (b.y_mm - origin.y_mm) - (b.x_mm - origin.x_mm) * (a.y_mm - origin.y_mm))
           / 2.0;
    area_mm2 += arc.turn_rad < 0.0 ? -segment_mm2 : segment_mm2;
  }
  return area_mm2;
}

/* How far out, as a multiple of the radius, the inner points of an arc of @n equal steps of @step_rad lie for
 * the polygon to have the sector's area. Between the ends stand n − 2 triangles with both corners out and 2
 * with one: (n − 2)·q²·sin δ + 2·q·sin δ = n·δ. */
static double
arc_points_out (guint n, double step_rad)
{
  double wanted = n * step_rad / sin (step_rad);

  if (n == 2)
    return wanted / 2.0;
  return (sqrt (1.0 + (n - 2.0) * wanted) - 1.0) / (n - 2.0);
}

GArray *
tw_outline_flatten (const TwCorner *corners, guint n_corners)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (TwPoint));

  for (guint i = 0; i < n_corners; i++) {
    TwArc arc = tw_arc_of_edge (corners[i].at, corners[(i + 1) % n_corners].at, corners[i].bow_mm);
    double turn_rad = fabs (arc.turn_rad);

    g_array_append_val (points, corners[i].at);
    if (arc.radius_mm > 0.0) {
      /* the small part taken off keeps a half circle from getting 513 sides by rounding */
      guint n = MAX (2, (guint)ceil (turn_rad * TW_GEOM_CIRCLE_SIDES / (2.0 * G_PI) - 1e-6));
      TwArc out = arc;

      out.radius_mm *= arc_points_out (n, turn_rad / n);
      for (guint k = 1; k < n; k++) {
        TwPoint point = tw_arc_point (&out, k / (double)n);

        g_array_append_val (points, point);
      }
    }
  }
  return points;
}

void
tw_circle_points (TwPoint centre, double radius_mm, TwPoint *points)
{
  tw_circle_sides (centre, radius_mm, TW_GEOM_CIRCLE_SIDES, points);
}

void
tw_circle_sides (TwPoint centre, double radius_mm, guint n, TwPoint *points)
{
  const double step_rad = 2.0 * G_PI / n;
  /* n/2·R²·sin (2π/n) = π·r² */
  double out_mm = radius_mm * sqrt (step_rad / sin (step_rad));

  g_assert (n >= 8 && n % 8 == 0);

  for (guint i = 0; i < n / 8; i++) {
    double c_mm = out_mm * cos ((i + 0.5) * step_rad);
    double s_mm = out_mm * sin ((i + 0.5) * step_rad);
    const TwPoint eighths[] = { { c_mm, s_mm },   { s_mm, c_mm },   { -s_mm, c_mm }, { -c_mm, s_mm },
                                { -c_mm, -s_mm }, { -s_mm, -c_mm }, { s_mm, -c_mm }, { c_mm, -s_mm } };

    for (guint k = 0; k < 8; k++) {
      guint place = k % 2 == 0 ? k * (n / 8) + i : (k + 1) * (n / 8) - 1 - i;

      points[place] = (TwPoint){ centre.x_mm + eighths[k].x_mm, centre.y_mm + eighths[k].y_mm };
    }
  }
}
