/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The four panels, and the whole answer with its cards, on cores of 40 and 400 tubes against the polygon work
 * that they cannot avoid, done by GEOS alone on shapes that are ready.
 *
 * The drawing has three bars and a hose before the face, two fans, a box. The polygon work is: each shadow
 * clipped to the face, all united, the face less that, all but each united (what it takes alone is the
 * difference); the discs and the rings united. No call repeats another, nothing is cut that lies inside. All
 * are timed in turn in one run, so the ratios hold whatever the machine does.
 */
#include "cards/cards.h"
#include "support/make-job.h"

#include <geos_c.h>
#include <math.h>
#include <stdlib.h>

#define ROUNDS 41
#define SIDES 256
#define N_SHADOWS 4
#define N_FANS 2

static int
by_value (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;

  return x < y ? -1 : x > y;
}

static double
median (double *values)
{
  qsort (values, ROUNDS, sizeof *values, by_value);
  return values[ROUNDS / 2];
}

static TwJob *
draw (guint n_tubes)
{
  static const double bars[] = { -100, 0, 100 };
  const double over_mm[][3]
      = { { -500, 60, -300 }, { -100, 60, -300 }, { -100, -60, -300 }, { -500, -60, -300 } };
  double height_mm = n_tubes * TW_MAKE_PITCH_MM;
  TwJob *job = tw_make_job (TW_TUBES_LEVEL, n_tubes);
  TwId inlet, engine;

  tw_make_baffle (job, "tank-1", n_tubes / 2);
  inlet = tw_make_port (job, "tank-1", TW_PORT_INLET, TW_WALL_BACK, height_mm / 4);
  tw_make_port (job, "tank-1", TW_PORT_OUTLET, TW_WALL_BACK, -height_mm / 4);
  tw_make_fan (job, -95, 0, 180, 60);
  tw_make_fan (job, 95, 0, 180, 60);
  tw_make_shroud (job, 0, 0, 390, height_mm - 10);
  for (guint i = 0; i < G_N_ELEMENTS (bars); i++)
    tw_make_box (job, TW_DRAWN_FRONT, TW_TAKEN_STRUCTURE,
                 &(TwMakeBox){ bars[i] - 5, -height_mm / 2 - 20, -120 - 20.0 * i, bars[i] + 5,
                               height_mm / 2 + 20, -100 - 20.0 * i });
  engine = tw_make_engine_port (job, TW_ENGINE_SUPPLY, (double[]){ -700, 60, -300 }, TW_LEAVES_AXIS_RIGHT);
  tw_make_hose (job, engine, inlet, G_N_ELEMENTS (over_mm), over_mm, 50);
  return job;
}

static GEOSGeometry *
box (GEOSContextHandle_t geos, double x0, double y0, double x1, double y1)
{
  return GEOSGeom_createRectangle_r (geos, x0, y0, x1, y1);
}

static GEOSGeometry *
circle (GEOSContextHandle_t geos, double x, double radius)
{
  GEOSCoordSequence *ring = GEOSCoordSeq_create_r (geos, SIDES + 1, 2);

  for (guint i = 0; i <= SIDES; i++)
    GEOSCoordSeq_setXY_r (geos, ring, i, x + radius * cos (2 * G_PI * (i % SIDES) / SIDES),
                          radius * sin (2 * G_PI * (i % SIDES) / SIDES));
  return GEOSGeom_createPolygon_r (geos, GEOSGeom_createLinearRing_r (geos, ring), NULL, 0);
}

/* The hose before the face, as wide as it is: 28 + 2 × 4.5. */
static GEOSGeometry *
hose (GEOSContextHandle_t geos)
{
  static const double at[][2]
      = { { -500, 60 }, { -150, 60 }, { -100, 10 }, { -100, -10 }, { -150, -60 }, { -500, -60 } };
  GEOSCoordSequence *line = GEOSCoordSeq_create_r (geos, G_N_ELEMENTS (at), 2);
  GEOSGeometry *path, *band;

  for (guint i = 0; i < G_N_ELEMENTS (at); i++)
    GEOSCoordSeq_setXY_r (geos, line, i, at[i][0], at[i][1]);
  path = GEOSGeom_createLineString_r (geos, line);
  band = GEOSBuffer_r (geos, path, 18.5, SIDES / 4);
  GEOSGeom_destroy_r (geos, path);
  return band;
}

/* All but number @left_out (none: past the last) united by one call. */
static GEOSGeometry *
unite (GEOSContextHandle_t geos, GEOSGeometry *const *shapes, guint n, guint left_out)
{
  GEOSGeometry *kept[N_SHADOWS], *all, *united;
  guint n_kept = 0;

  for (guint i = 0; i < n; i++)
    if (i != left_out)
      kept[n_kept++] = GEOSGeom_clone_r (geos, shapes[i]);
  all = GEOSGeom_createCollection_r (geos, GEOS_GEOMETRYCOLLECTION, kept, n_kept);
  united = GEOSUnaryUnion_r (geos, all);
  GEOSGeom_destroy_r (geos, all);
  return united;
}

/* Shapes of the drawing, ready for the polygon work. */
typedef struct {
  double half_mm; /* of the face, along the header */
  GEOSGeometry *face;
  GEOSGeometry *shadows[N_SHADOWS];
  GEOSGeometry *discs[N_FANS], *rings[N_FANS];
} Shapes;

static Shapes
make_shapes (GEOSContextHandle_t geos, guint n_tubes)
{
  double half = n_tubes * TW_MAKE_PITCH_MM / 2;
  Shapes shapes = { .half_mm = half, .face = box (geos, -200, -half, 200, half) };

  for (guint i = 0; i < 3; i++)
    shapes.shadows[i] = box (geos, 100.0 * i - 105, -half - 20, 100.0 * i - 95, half + 20);
  shapes.shadows[3] = hose (geos);
  for (guint i = 0; i < N_FANS; i++) {
    GEOSGeometry *hub = circle (geos, i == 0 ? -95 : 95, 30);

    shapes.discs[i] = circle (geos, i == 0 ? -95 : 95, 90);
    shapes.rings[i] = GEOSDifference_r (geos, shapes.discs[i], hub);
    GEOSGeom_destroy_r (geos, hub);
  }
  return shapes;
}

static void
free_shapes (GEOSContextHandle_t geos, Shapes *shapes)
{
  GEOSGeom_destroy_r (geos, shapes->face);
  for (guint i = 0; i < N_SHADOWS; i++)
    GEOSGeom_destroy_r (geos, shapes->shadows[i]);
  for (guint i = 0; i < N_FANS; i++) {
    GEOSGeom_destroy_r (geos, shapes->discs[i]);
    GEOSGeom_destroy_r (geos, shapes->rings[i]);
  }
}

static void
work (GEOSContextHandle_t geos, const Shapes *shapes)
{
  double half = shapes->half_mm;
  GEOSGeometry *shadows[N_SHADOWS], *all;

  for (guint i = 0; i < N_SHADOWS; i++)
    shadows[i] = GEOSClipByRect_r (geos, shapes->shadows[i], -200, -half, 200, half);
  all = unite (geos, shadows, N_SHADOWS, N_SHADOWS);
  GEOSGeom_destroy_r (geos, GEOSDifference_r (geos, shapes->face, all));
  GEOSGeom_destroy_r (geos, all);
  for (guint i = 0; i < N_SHADOWS; i++)
    GEOSGeom_destroy_r (geos, unite (geos, shadows, N_SHADOWS, i));
  for (guint i = 0; i < N_SHADOWS; i++)
    GEOSGeom_destroy_r (geos, shadows[i]);
  GEOSGeom_destroy_r (geos, unite (geos, shapes->discs, N_FANS, N_FANS));
  GEOSGeom_destroy_r (geos, unite (geos, shapes->rings, N_FANS, N_FANS));
}

/* The shapes are those of the drawing, but for the bends of the hose, which are cut corners here: what they
 * leave free differs by less than a hundredth of the face. */
static void
check_shapes (GEOSContextHandle_t geos, const Shapes *shapes, const TwJob *job, const TwCatalogue *catalogue)
{
  g_autoptr (TwAnswer) answer = tw_answer_new (job, catalogue, NULL);
  guint n;
  const TwFaceShade *face = tw_frontal_faces (tw_answer_frontal (answer), &n);
  GEOSGeometry *all = unite (geos, shapes->shadows, N_SHADOWS, N_SHADOWS);
  GEOSGeometry *rest = GEOSDifference_r (geos, shapes->face, all);
  double free_mm2 = 0;

  GEOSArea_r (geos, rest, &free_mm2);
  g_assert_cmpfloat (fabs (free_mm2 - face->free_mm2), <, face->face_mm2 / 100);
  GEOSGeom_destroy_r (geos, rest);
  GEOSGeom_destroy_r (geos, all);
}

/* Free frontal area, fan coverage, passes, hose runs, and what they need. */
static void
four_panels (const TwDrawing *drawing, TwGeos *geos)
{
  g_autoptr (TwPlacement) placement = tw_placement_new (drawing, geos);
  g_autoptr (TwTubes) tubes = tw_tubes_find (placement);
  g_autoptr (TwPasses) passes = tw_passes_find (placement, tubes);
  g_autoptr (TwRoutes) routes = tw_routes_find (placement);
  guint n;
  const TwPlacedSolid *hoses = tw_routes_solids (routes, &n);
  g_autoptr (TwFrontal) frontal = tw_frontal_find (placement, geos, hoses, n);
  g_autoptr (TwCoverage) coverage = tw_coverage_find (placement, geos);

  g_assert_cmpuint (tw_passes_count (passes), ==, 2);
}

static void
bench (guint n_tubes, const TwCatalogue *catalogue)
{
  double alone[ROUNDS], panels[ROUNDS], answers[ROUNDS], cards[ROUNDS];
  g_autoptr (TwJob) job = draw (n_tubes);
  g_autoptr (TwDrawing) drawing = tw_drawing_new (job, catalogue);
  g_autoptr (TwGeos) geos = tw_geos_new ();
  GEOSContextHandle_t handle = GEOS_init_r ();
  Shapes shapes = make_shapes (handle, n_tubes);
  const TwUnitStyle style = TW_UNIT_STYLE_MM;

  check_shapes (handle, &shapes, job, catalogue);
  for (guint i = 0; i < ROUNDS; i++) {
    gint64 t0 = g_get_monotonic_time (), t1, t2, t3, t4;
    g_autoptr (TwAnswer) answer = NULL;
    g_autoptr (GPtrArray) told = NULL;

    work (handle, &shapes);
    t1 = g_get_monotonic_time ();
    four_panels (drawing, geos);
    t2 = g_get_monotonic_time ();
    answer = tw_answer_new (job, catalogue, geos);
    t3 = g_get_monotonic_time ();
    told = tw_cards_new (answer, NULL, &style);
    t4 = g_get_monotonic_time ();
    alone[i] = (double)(t1 - t0);
    panels[i] = (double)(t2 - t1);
    answers[i] = (double)(t3 - t2);
    cards[i] = (double)(t4 - t3);
  }
  g_print ("%3u tubes  GEOS alone %6.0f µs  panels/GEOS %5.2f  answer/GEOS %5.2f  cards/GEOS %5.2f\n",
           n_tubes, median (alone), median (panels) / median (alone), median (answers) / median (alone),
           median (cards) / median (alone));
  free_shapes (handle, &shapes);
  GEOS_finish_r (handle);
}

int
main (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TwCatalogue) catalogue = tw_catalogue_load (&error);

  if (catalogue == NULL)
    g_error ("%s", error->message);
  bench (40, catalogue);
  bench (400, catalogue);
  return 0;
}
