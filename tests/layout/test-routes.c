/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Hose runs by closed forms: a bend of angle θ and radius R takes R·tan(θ/2) off each of its legs and is R·θ
 * long (elementary geometry). Each leg and sum was worked by hand.
 */
#include "layout/found.h"
#include "layout/routes.h"
#include "support/make-job.h"

#include <math.h>

#define INCH 25.4
#define MOST 6

/* A run between two engine ports. */
typedef struct {
  const char *name;
  double unit_mm;
  double radius;
  double bore;
  guint n;
  double points[MOST][3];
  double centreline; /* in the unit, to a tenth */
  double volume_l;   /* to the last digit of volume_digits */
  int volume_digits;
  guint n_bends;
  double shortest; /* in the unit */
} Run;

static const Run runs[] = {
  /* legs 262, √(40² + 424²) = 425.883; one bend of 90°: −160 + 125.664 */
  { "Merlin, tail, supply",
    1.0,
    80.0,
    28.0,
    3,
    { { -120, 640, -430 }, { -382, 640, -430 }, { -382, 600, -6 } },
    653.5,
    0.402,
    3,
    1,
    182.0 },
  /* 294, 442, √(42² + 130²) = 136.616; two of 90°; the last straight is 136.616 − 80 */
  { "Merlin, tail, return",
    1.0,
    80.0,
    28.0,
    4,
    { { -382, 378, -6 }, { -382, 378, -300 }, { 60, 378, -300 }, { 60, 420, -430 } },
    803.9,
    0.495,
    3,
    2,
    56.616 },
  /* 10.8, 101, 30.6, 8.8; three of 90°: −24 + 18.850; the straight between two bends at the least 8.8 − 4 */
  { "Caravan 4, supply",
    INCH,
    4.0,
    1.5,
    5,
    { { 6, -12, -110 }, { 16.8, -12, -110 }, { 16.8, -12, -9 }, { 16.8, 18.6, -9 }, { 16.8, 18.6, -0.2 } },
    146.0,
    4.23,
    2,
    3,
    4.8 },
  /* 5.3, 19.6, 26.8, 106.5 */
  { "Caravan 4, return",
    INCH,
    4.0,
    1.5,
    5,
    { { 16.8, 3.6, -0.2 }, { 16.8, 3.6, -5.5 }, { 16.8, -16, -5.5 }, { -10, -16, -5.5 }, { -10, -16, -112 } },
    153.0,
    4.43,
    2,
    3,
    1.3 },
  /* 340, 202, 340; two of 90°: −140 + 109.956 */
  { "Volt-9, supply",
    1.0,
    35.0,
    12.0,
    4,
    { { 250, 140, -350 }, { -90, 140, -350 }, { -90, 342, -350 }, { -90, 342, -10 } },
    852.0,
    0.096,
    3,
    2,
    132.0 },
  /* 290, 222, 190 */
  { "Volt-9, return",
    1.0,
    35.0,
    12.0,
    4,
    { { 60, 342, -10 }, { 60, 342, -300 }, { 60, 120, -300 }, { 250, 120, -300 } },
    672.0,
    0.076,
    3,
    2,
    152.0 },
  /* √(30² + 336²) */
  { "Ox, supply", 1.0, 85.0, 57.0, 2, { { 0, 790, 84 }, { 0, 760, 420 } }, 337.3, 0.86, 2, 0, 337.337 },
  /* 176, 178, 170: −340 + 267.035 */
  { "Ox, return",
    1.0,
    85.0,
    57.0,
    4,
    { { -180, 62, 84 }, { -180, 62, 260 }, { -180, 240, 260 }, { -180, 240, 430 } },
    451.0,
    1.15,
    2,
    2,
    8.0 },
  /* 370, 2350, 388, 147, 372; four of 90°: −520 + 408.407; 147 − 130 */
  { "Merlin, boot, supply",
    1.0,
    65.0,
    28.0,
    6,
    { { -150, 610, -2650 },
      { -150, 240, -2650 },
      { -150, 240, -300 },
      { -150, 628, -300 },
      { -297, 628, -300 },
      { -297, 628, 72 } },
    3515.4,
    2.165,
    3,
    4,
    17.0 },
  /* 181, 147, 160, 2350, 190 */
  { "Merlin, boot, return",
    1.0,
    65.0,
    28.0,
    6,
    { { 297, 400, -119 },
      { 297, 400, -300 },
      { 150, 400, -300 },
      { 150, 240, -300 },
      { 150, 240, -2650 },
      { 150, 430, -2650 } },
    2916.4,
    1.796,
    3,
    4,
    17.0 },
};

/* A job with that run as `hose-1`, and what is found in it. */
typedef struct {
  TwJob *job;
  Found found;
  TwRoutes *routes;
} Laid;

static TwJob *
lay_job (guint n, const double (*points)[3], double radius_mm, int leaves_from, int leaves_to)
{
  TwJob *job = tw_job_new ();
  TwId from = tw_make_engine_port (job, TW_ENGINE_SUPPLY, points[0], leaves_from);
  TwId to = tw_make_engine_port (job, TW_ENGINE_RETURN, points[n - 1], leaves_to);

  tw_make_hose (job, from, to, n - 2, points + 1, radius_mm);
  return job;
}

static Laid
look (TwJob *job)
{
  Laid laid = { .job = job, .found = find (job) };

  laid.routes = tw_routes_find (laid.found.placement);
  g_assert_cmpuint (tw_routes_count (laid.routes), ==, 1);
  return laid;
}

static Laid
lay (guint n, const double (*points)[3], double radius_mm)
{
  return look (lay_job (n, points, radius_mm, -1, -1));
}

static void
laid_clear (Laid *self)
{
  tw_routes_unref (self->routes);
  found_clear (&self->found);
  tw_job_free (self->job);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Laid, laid_clear)

static double
rounded (double value, int digits)
{
  double scale = pow (10.0, digits);

  return floor (value * scale + 0.5) / scale;
}

static Laid
lay_run (const Run *c, gboolean backwards, double scale)
{
  double points[MOST][3];
  TwJob *job;

  for (guint i = 0; i < c->n; i++)
    for (guint k = 0; k < 3; k++)
      points[i][k] = c->points[backwards ? c->n - 1 - i : i][k] * c->unit_mm * scale;
  job = lay_job (c->n, (const double (*)[3])points, c->radius * c->unit_mm * scale, -1, -1);
  tw_make_set_number (job, "hose-1", "bore_mm", c->bore * c->unit_mm * scale);
  return look (job);
}

static void
test_run (gconstpointer data)
{
  const Run *c = data;
  g_auto (Laid) laid = lay_run (c, FALSE, 1.0);
  const TwRoute *route = tw_routes_get (laid.routes, 0);

  g_assert_cmpfloat_with_epsilon (rounded (route->centreline_mm / c->unit_mm, 1), c->centreline, 1e-9);
  g_assert_cmpfloat_with_epsilon (rounded (route->volume_l, c->volume_digits), c->volume_l, 1e-9);
  g_assert_cmpfloat_with_epsilon (route->shortest_mm / c->unit_mm, c->shortest, 0.0005);
  g_assert_cmpuint (route->n_bends, ==, c->n_bends);
  g_assert_cmpuint (route->n_pieces, ==, 2 * c->n_bends + 1);
  g_assert_cmpfloat_with_epsilon (route->fall_mm, (c->points[0][1] - c->points[c->n - 1][1]) * c->unit_mm,
                                  1e-9);
  for (guint i = 0; i < route->n_pieces; i++)
    if (route->pieces[i].kind == TW_ROUTE_BEND)
      g_assert_cmpfloat_with_epsilon (route->pieces[i].angle_rad, G_PI / 2.0, 1e-9);
}

/* The same backwards, and twice as large. */
static void
test_run_turned_round (gconstpointer data)
{
  const Run *c = data;
  g_auto (Laid) there = lay_run (c, FALSE, 1.0);
  g_auto (Laid) back = lay_run (c, TRUE, 1.0);
  g_auto (Laid) twice = lay_run (c, FALSE, 2.0);
  const TwRoute *a = tw_routes_get (there.routes, 0), *b = tw_routes_get (back.routes, 0);
  const TwRoute *d = tw_routes_get (twice.routes, 0);

  g_assert_cmpfloat_with_epsilon (a->centreline_mm, b->centreline_mm, 1e-9);
  g_assert_cmpfloat_with_epsilon (a->shortest_mm, b->shortest_mm, 1e-9);
  g_assert_cmpfloat_with_epsilon (a->fall_mm, -b->fall_mm, 1e-12);
  g_assert_cmpuint (a->n_turns, ==, b->n_turns);
  g_assert_cmpfloat_with_epsilon (2.0 * a->centreline_mm, d->centreline_mm, 1e-9);
  g_assert_cmpfloat_with_epsilon (8.0 * a->volume_l, d->volume_l, 1e-9);
}

/* Each piece starts where and as the one before ends, and its middle lies at the radius from the centre. */
static void
test_joins (gconstpointer data)
{
  g_auto (Laid) laid = lay_run (data, FALSE, 1.0);
  const TwRoute *route = tw_routes_get (laid.routes, 0);

  for (guint i = 0; i < route->n_pieces; i++) {
    const TwRoutePiece *piece = &route->pieces[i];
    TwVec end = tw_route_piece_point (piece, 1.0), middle = tw_route_piece_point (piece, 0.5);

    g_assert_cmpfloat (tw_vec_distance_mm (end, piece->to), <, 1e-9);
    if (piece->kind == TW_ROUTE_BEND)
      g_assert_cmpfloat_with_epsilon (tw_vec_distance_mm (middle, piece->centre), piece->radius_mm, 1e-9);
    if (i == 0)
      continue;
    g_assert_cmpfloat (tw_vec_distance_mm (piece->from, piece[-1].to), <, 1e-9);
    g_assert_cmpfloat (tw_vec_angle_rad (piece->way, piece[-1].way_end), <, 1e-9);
  }
}

/* Cut length of the Merlin's supply: 653.546 − 40 − 25 + 2·30. */
static void
test_cut_length (void)
{
  TwJob *job = lay_job (3, runs[0].points, 80.0, -1, -1);
  Laid laid;

  tw_make_set_number (job, "engine_port-1", "stand_out_mm", 40.0);
  tw_make_set_number (job, "engine_port-2", "stand_out_mm", 25.0);
  tw_make_set_number (job, "hose-1", "push_on_mm", 30.0);
  laid = look (job);
  g_assert_cmpfloat_with_epsilon (tw_routes_get (laid.routes, 0)->cut_mm, 648.546, 0.001);
  laid_clear (&laid);
}

/* Without a push-on length 32 mm go over a stub, or all of a shorter one: 653.546 − 40 − 25 + 32 + 25. */
static void
test_usual_push_on (void)
{
  TwJob *job = lay_job (3, runs[0].points, 80.0, -1, -1);
  Laid laid;

  tw_make_set_number (job, "engine_port-1", "stand_out_mm", 40.0);
  tw_make_set_number (job, "engine_port-2", "stand_out_mm", 25.0);
  tw_make_set (job, "hose-1", "push_on_mm", "");
  laid = look (job);
  g_assert_cmpfloat_with_epsilon (tw_routes_get (laid.routes, 0)->cut_mm, 645.546, 0.001);
  laid_clear (&laid);
}

/* Along z, up, across: planes a quarter turn apart, clockwise seen upwards; then back along z: 90° clockwise
 * seen to the right (z turns up). The other way round the signs change. */
static void
test_planes (void)
{
  static const double points[][3]
      = { { 0, 0, 0 }, { 0, 0, 300 }, { 0, 300, 300 }, { 300, 300, 300 }, { 300, 300, 0 } };
  static const double mirrored[][3]
      = { { 0, 0, 0 }, { 0, 0, 300 }, { 0, 300, 300 }, { -300, 300, 300 }, { -300, 300, 0 } };
  static const double flat[][3] = { { 0, 0, 0 }, { 0, 0, 300 }, { 0, 300, 300 }, { 0, 300, 600 } };
  g_auto (Laid) laid = lay (5, points, 50.0);
  g_auto (Laid) other = lay (5, mirrored, 50.0);
  g_auto (Laid) both = lay (4, flat, 50.0);
  const TwRoutePiece *pieces = tw_routes_get (laid.routes, 0)->pieces;

  g_assert_cmpfloat (tw_vec_distance_mm (pieces[1].normal, tw_vec (-1.0, 0.0, 0.0)), <, 1e-12);
  g_assert_cmpfloat (pieces[1].turn_rad, ==, 0.0);
  g_assert_cmpfloat_with_epsilon (pieces[3].turn_rad, G_PI / 2.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (tw_routes_get (other.routes, 0)->pieces[3].turn_rad, -G_PI / 2.0, 1e-12);
  /* way +x, inwards from +x leg before: up; next towards −z */
  g_assert_cmpfloat_with_epsilon (fabs (pieces[5].turn_rad), G_PI / 2.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (tw_routes_get (other.routes, 0)->pieces[5].turn_rad, -pieces[5].turn_rad,
                                  1e-12);
  g_assert_cmpfloat_with_epsilon (fabs (tw_routes_get (both.routes, 0)->pieces[3].turn_rad), G_PI, 1e-12);
  g_assert_cmpuint (pieces[3].bend, ==, 2);
  g_assert_cmpstr (pieces[3].via.text, !=, pieces[1].via.text);
}

/* Up 200, 300 across, down 150 with R 50: level at 200 from 50 to 250 across; 150 + 50·π/2 + 100 along. */
static void
test_level_top (void)
{
  static const double points[][3] = { { 0, 0, 0 }, { 0, 200, 0 }, { 300, 200, 0 }, { 300, 50, 0 } };
  g_auto (Laid) laid = lay (4, points, 50.0);
  const TwRoute *route = tw_routes_get (laid.routes, 0);

  g_assert_cmpuint (route->n_turns, ==, 1);
  g_assert_true (route->turns[0].is_high);
  g_assert_cmpfloat (tw_vec_distance_mm (route->turns[0].at, tw_vec (150.0, 200.0, 0.0)), <, 1e-6);
  g_assert_cmpfloat_with_epsilon (route->turns[0].along_mm, 250.0 + 25.0 * G_PI, 1e-6);
  g_assert_cmpfloat_with_epsilon (route->turns[0].rise_mm, 150.0, 1e-9);
}

/* A gable of 45° and a ditch after it, R 50: the arc's top lies R·(√2 − 1) = 20.711 under the corner. */
static void
test_round_turns (void)
{
  static const double points[][3] = { { 0, 0, 0 }, { 100, 100, 0 }, { 300, -100, 0 }, { 500, 100, 0 } };
  g_auto (Laid) laid = lay (4, points, 50.0);
  const TwRoute *route = tw_routes_get (laid.routes, 0);

  g_assert_cmpuint (route->n_turns, ==, 2);
  g_assert_true (route->turns[0].is_high && !route->turns[1].is_high);
  g_assert_cmpfloat (tw_vec_distance_mm (route->turns[0].at, tw_vec (100.0, 79.2893, 0.0)), <, 1e-4);
  g_assert_cmpfloat (tw_vec_distance_mm (route->turns[1].at, tw_vec (300.0, -79.2893, 0.0)), <, 1e-4);
  g_assert_cmpfloat_with_epsilon (route->turns[0].rise_mm, 79.2893, 1e-4);
  g_assert_cmpfloat_with_epsilon (route->turns[1].rise_mm, 158.5786, 1e-4);
}

typedef struct {
  const char *name;
  guint n;
  double points[MOST][3];
  double radius;
  guint flags;
  double shortest_mm; /* NaN: none */
} Fault;

static const Fault faults[] = {
  { "fits", 3, { { 0 }, { 0, 0, 200 }, { 0, 200, 200 } }, 80.0, 0, 120.0 },
  { "two bends on a leg of 100",
    4,
    { { 0 }, { 0, 0, 200 }, { 0, 100, 200 }, { 0, 100, 400 } },
    80.0,
    TW_ROUTE_NO_FIT,
    -60.0 },
  { "a first leg of 50", 3, { { 0 }, { 0, 0, 50 }, { 0, 200, 50 } }, 80.0, TW_ROUTE_NO_FIT, -30.0 },
  { "bends that just meet",
    4,
    { { 0 }, { 0, 0, 200 }, { 0, 160, 200 }, { 0, 160, 400 } },
    80.0,
    TW_ROUTE_SHORT,
    0.0 },
  { "ten between bends",
    4,
    { { 0 }, { 0, 0, 200 }, { 0, 170, 200 }, { 0, 170, 400 } },
    80.0,
    TW_ROUTE_SHORT,
    10.0 },
  { "tight", 3, { { 0 }, { 0, 0, 200 }, { 0, 200, 200 } }, 60.0, TW_ROUTE_TIGHT, 140.0 },
  { "back on itself", 3, { { 0 }, { 0, 0, 200 }, { 0, 0, 50 } }, 80.0, TW_ROUTE_DOUBLES_BACK, 150.0 },
  { "the same point twice",
    4,
    { { 0 }, { 0, 0, 200 }, { 0, 0, 200 }, { 0, 200, 200 } },
    80.0,
    TW_ROUTE_SAME_PLACE,
    120.0 },
  { "a point on the other end",
    4,
    { { 0 }, { 0, 0, 200 }, { 0, 200, 200 }, { 0, 200, 200 } },
    80.0,
    TW_ROUTE_SAME_PLACE,
    120.0 },
  { "from a place to itself", 2, { { 0 }, { 0 } }, 80.0, TW_ROUTE_SAME_PLACE, (double)NAN },
  { "straight on at a point", 4, { { 0 }, { 0, 0, 50 }, { 0, 0, 200 }, { 0, 200, 200 } }, 80.0, 0, 120.0 },
  { "no radius", 3, { { 0 }, { 0, 0, 200 }, { 0, 150, 200 } }, 0.0, TW_ROUTE_NO_RADIUS, 150.0 },
};

static void
test_fault (gconstpointer data)
{
  const Fault *c = data;
  TwJob *job = lay_job (c->n, c->points, c->radius > 0.0 ? c->radius : (double)NAN, -1, -1);
  g_auto (Laid) laid = { .job = NULL };
  const TwRoute *route;

  if (!(c->radius > 0.0))
    tw_make_set (job, "hose-1", "bore_mm", ""); /* else the radius would follow from it */
  tw_make_set_number (job, "hose-1", "least_radius_mm", 70.0);
  tw_make_set_number (job, "job", "straight_mm", 25.0);
  laid = look (job);
  route = tw_routes_get (laid.routes, 0);
  g_assert_cmphex (route->flags, ==, c->flags);
  g_assert_cmpint (isnan (route->shortest_mm), ==, isnan (c->shortest_mm));
  if (!isnan (c->shortest_mm))
    g_assert_cmpfloat_with_epsilon (route->shortest_mm, c->shortest_mm, 1e-9);
  g_assert_cmpint (isnan (route->centreline_mm), ==,
                   (c->flags & (TW_ROUTE_NO_RADIUS | TW_ROUTE_DOUBLES_BACK)) != 0 || isnan (c->shortest_mm));
}

/* The first leg of the Merlin's return leaves with the port; the last comes in at atan (42/130) = 17.9°. */
static void
test_off_axis (void)
{
  g_auto (Laid) laid
      = look (lay_job (4, runs[1].points, 80.0, TW_LEAVES_AXIS_UPSTREAM, TW_LEAVES_AXIS_DOWNSTREAM));
  const TwRoute *route = tw_routes_get (laid.routes, 0);

  g_assert_cmpfloat_with_epsilon (route->off_axis_from_rad, 0.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (route->off_axis_to_rad, atan (42.0 / 130.0), 1e-12);
  g_assert_cmphex (route->flags, ==, TW_ROUTE_OFF_AXIS_TO);
}

static void
test_no_place (void)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 10);
  static const double at[3] = { 0, 0, -500 };
  TwId engine = tw_make_engine_port (job, TW_ENGINE_SUPPLY, at, -1);
  TwId port = tw_make_port (job, "tank-1", TW_PORT_INLET, TW_WALL_AIR_IN, 0.0);
  g_auto (Found) found = { NULL };
  g_autoptr (TwRoutes) routes = NULL;

  tw_make_hose (job, engine, port, 0, NULL, 80.0);
  tw_make_set (job, "tank-1", "side", "top");
  found = find (job);
  routes = tw_routes_find (found.placement);
  g_assert_cmphex (tw_routes_get (routes, 0)->flags, ==, TW_ROUTE_NO_END);
  g_assert_true (isnan (tw_routes_get (routes, 0)->centreline_mm));
  g_assert_null (tw_routes_get (routes, 1));
}

/* Every point of the centreline lies in a solid, and what is a radius away from it lies at most the sag off.
 */
static void
test_solids (gconstpointer data)
{
  g_auto (Laid) laid = lay_run (data, FALSE, 1.0);
  const TwRoute *route = tw_routes_get (laid.routes, 0);
  const TwHose *hose = TW_DRAWING_HOSE (laid.found.drawing, 0);
  double radius = hose->bore_mm / 2.0 + hose->wall_mm;
  guint n;
  const TwPlacedSolid *solids = tw_routes_solids (laid.routes, &n);

  for (guint i = 0; i < 8 * route->n_pieces; i++) {
    const TwRoutePiece *piece = &route->pieces[i / 8];
    TwVec on = tw_route_piece_point (piece, (i % 8 + 0.5) / 8.0);
    TwVec beside = piece->kind == TW_ROUTE_BEND ? piece->normal : tw_vec_square_to (piece->way);
    TwVec out = piece->kind == TW_ROUTE_BEND ? tw_vec_unit (tw_vec_subtract (on, piece->centre)) : beside;
    g_autoptr (TwConvex) off_side = tw_convex_new_capsule (
        tw_vec_add_scaled (on, radius + 10.0, beside), tw_vec_add_scaled (on, radius + 10.0, beside), 0.0);
    g_autoptr (TwConvex) off_back = tw_convex_new_capsule (tw_vec_add_scaled (on, radius + 10.0, out),
                                                           tw_vec_add_scaled (on, radius + 10.0, out), 0.0);
    double side = G_MAXDOUBLE, back = G_MAXDOUBLE;

    for (guint k = 0; k < n; k++) {
      side = MIN (side, tw_convex_gap (solids[k].convex, off_side).distance_mm);
      back = MIN (back, tw_convex_gap (solids[k].convex, off_back).distance_mm);
    }
    g_assert_cmpfloat_with_epsilon (side, 10.0, TW_ROUTES_SAG_MM + 0.01);
    g_assert_cmpfloat_with_epsilon (back, 10.0, TW_ROUTES_SAG_MM + 0.01);
  }
}

static void
add (const char *what, const char *name, gconstpointer data, GTestDataFunc test)
{
  g_autofree char *path = g_strconcat ("/layout/routes/", what, name, NULL);

  g_test_add_data_func (path, data, test);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (runs); i++) {
    add ("", runs[i].name, &runs[i], test_run);
    add ("turned round: ", runs[i].name, &runs[i], test_run_turned_round);
    add ("joins: ", runs[i].name, &runs[i], test_joins);
    add ("solids: ", runs[i].name, &runs[i], test_solids);
  }
  for (guint i = 0; i < G_N_ELEMENTS (faults); i++)
    add ("fault: ", faults[i].name, &faults[i], test_fault);
  g_test_add_func ("/layout/routes/cut length", test_cut_length);
  g_test_add_func ("/layout/routes/usual push-on", test_usual_push_on);
  g_test_add_func ("/layout/routes/planes", test_planes);
  g_test_add_func ("/layout/routes/level top", test_level_top);
  g_test_add_func ("/layout/routes/round turns", test_round_turns);
  g_test_add_func ("/layout/routes/off axis", test_off_axis);
  g_test_add_func ("/layout/routes/no place", test_no_place);
  return g_test_run ();
}
