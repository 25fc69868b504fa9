/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Areas of unions, intersections and differences against a second polygon library: Clipper 6.4 (Angus Johnson;
 * Debian: libpolyclipping-dev), which counts in whole numbers, here of a millionth of a millimetre.
 */
#include <clipper.hpp>

#include <cmath>
#include <vector>

extern "C" {
#include "base/area.h"
}

using namespace ClipperLib;

static const double PER_MM = 1e6;

/* A random outline round a middle: star-shaped, so that it never crosses itself. */
static std::vector<TwPoint>
random_star (GRand *rand)
{
  int n = g_rand_int_range (rand, 3, 40);
  double x_mm = g_rand_double_range (rand, -100, 100), y_mm = g_rand_double_range (rand, -100, 100);
  std::vector<TwPoint> points;

  for (int i = 0; i < n; i++) {
    double angle_rad = (i + g_rand_double_range (rand, 0.0, 0.9)) * 2 * G_PI / n;
    double r_mm = g_rand_double_range (rand, 20, 200);
    TwPoint point = { std::round ((x_mm + r_mm * std::cos (angle_rad)) * PER_MM) / PER_MM,
                      std::round ((y_mm + r_mm * std::sin (angle_rad)) * PER_MM) / PER_MM };
    points.push_back (point);
  }
  return points;
}

static Path
to_path (const TwPoint *points, size_t n)
{
  Path path;

  for (size_t i = 0; i < n; i++)
    path.push_back (IntPoint (std::llround (points[i].x_mm * PER_MM), std::llround (points[i].y_mm * PER_MM)));
  return path;
}

static double
clipper_mm2 (const Paths &a, const Paths &b, ClipType type)
{
  Clipper clipper;
  Paths result;
  double sum = 0.0;

  clipper.AddPaths (a, ptSubject, true);
  clipper.AddPaths (b, ptClip, true);
  clipper.Execute (type, result, pftNonZero, pftNonZero);
  for (const Path &path : result)
    sum += Area (path);
  return sum / (PER_MM * PER_MM);
}

/* Crossings rounded to a millionth of a millimetre move the area by that times the outline's length. */
static void
test_pairs (void)
{
  GRand *rand = g_rand_new_with_seed (20261125);
  TwGeos *geos = tw_geos_new ();

  for (int i = 0; i < 300; i++) {
    std::vector<TwPoint> p = random_star (rand), q = random_star (rand);
    TwArea *a = tw_area_new_points (geos, p.data (), p.size ());
    TwArea *b = tw_area_new_points (geos, q.data (), q.size ());
    TwArea *list[] = { a, b };
    TwArea *joined = tw_area_union (geos, list, 2);
    TwArea *shared = tw_area_intersection (geos, a, b);
    TwArea *rest = tw_area_difference (geos, a, b);
    Paths pa (1, to_path (p.data (), p.size ())), pb (1, to_path (q.data (), q.size ()));

    if (!Orientation (pa[0]))
      ReversePath (pa[0]);
    if (!Orientation (pb[0]))
      ReversePath (pb[0]);
    g_assert_cmpfloat_with_epsilon (tw_area_mm2 (joined), clipper_mm2 (pa, pb, ctUnion), 0.01);
    g_assert_cmpfloat_with_epsilon (tw_area_mm2 (shared), clipper_mm2 (pa, pb, ctIntersection), 0.01);
    g_assert_cmpfloat_with_epsilon (tw_area_mm2 (rest), clipper_mm2 (pa, pb, ctDifference), 0.01);
    tw_area_unref (rest);
    tw_area_unref (shared);
    tw_area_unref (joined);
    tw_area_unref (b);
    tw_area_unref (a);
  }
  g_assert_null (tw_geos_trouble (geos));
  tw_geos_free (geos);
  g_rand_free (rand);
}

/* Twenty discs and bars over a plate: what is left of it. */
static void
test_many (void)
{
  GRand *rand = g_rand_new_with_seed (7);
  TwGeos *geos = tw_geos_new ();
  TwArea *plate = tw_area_new_box (geos, TwBox{ -350, 330, 350, 648 });
  Path plate_path = to_path (tw_area_ring (plate, 0).points, 4);

  for (int i = 0; i < 20; i++) {
    std::vector<TwArea *> parts;
    Paths paths;

    for (int k = 0; k < 20; k++) {
      TwPoint at = { g_rand_double_range (rand, -350, 350), g_rand_double_range (rand, 330, 648) };
      double r_mm = g_rand_double_range (rand, 3, 60);

      parts.push_back (k % 2 ? tw_area_new_circle (geos, at, r_mm)
                             : tw_area_new_box (geos, TwBox{ at.x_mm, at.y_mm - r_mm, at.x_mm + 9, at.y_mm + r_mm }));
      TwRing ring = tw_area_ring (parts.back (), 0);
      paths.push_back (to_path (ring.points, ring.n_points));
    }
    TwArea *all = tw_area_union (geos, parts.data (), parts.size ());
    TwArea *left = tw_area_difference (geos, plate, all);

    g_assert_cmpfloat_with_epsilon (tw_area_mm2 (left), clipper_mm2 (Paths (1, plate_path), paths, ctDifference),
                                    0.05);
    tw_area_unref (left);
    tw_area_unref (all);
    for (TwArea *part : parts)
      tw_area_unref (part);
  }
  g_assert_null (tw_geos_trouble (geos));
  tw_area_unref (plate);
  tw_geos_free (geos);
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/published/area/clipper-pairs", test_pairs);
  g_test_add_func ("/published/area/clipper-many", test_many);
  return g_test_run ();
}
