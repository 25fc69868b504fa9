/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * view-bench.h - views of jobs made for tests, and how to find what is drawn in them
 */
#pragma once

#include "draw/views.h"
#include "support/make-job.h"

#include <math.h>

G_BEGIN_DECLS

/* A job with all that a view needs, found anew. */
typedef struct {
  TwGeos *geos;
  TwCatalogue *catalogue;
  TwDrawing *drawing;
  TwPlacement *placement;
  TwTubes *tubes;
  TwPasses *passes;
  TwRoutes *routes;
  TwLook look;
  TwMeasure measure;
} Bench;

static inline void
bench_init (Bench *bench, const TwJob *job)
{
  g_autoptr (GError) error = NULL;

  bench->geos = tw_geos_new ();
  bench->catalogue = tw_catalogue_load (&error);
  g_assert_no_error (error);
  bench->drawing = tw_drawing_new (job, bench->catalogue);
  bench->placement = tw_placement_new (bench->drawing, bench->geos);
  bench->tubes = tw_tubes_find (bench->placement);
  bench->passes = tw_passes_find (bench->placement, bench->tubes);
  bench->routes = tw_routes_find (bench->placement);
  bench->look = tw_look_paper (FALSE);
  bench->measure = tw_measure_fixed ();
}

static inline void
bench_clear (Bench *bench)
{
  tw_routes_unref (bench->routes);
  tw_passes_unref (bench->passes);
  tw_tubes_unref (bench->tubes);
  tw_placement_unref (bench->placement);
  tw_drawing_unref (bench->drawing);
  tw_catalogue_free (bench->catalogue);
  tw_geos_free (bench->geos);
}

static inline TwViewDrawing *
draw (const Bench *bench, TwView view, double scale, TwViewFlags flags)
{
  const TwViewSource source = { bench->placement, bench->routes, bench->passes, bench->geos };
  const TwViewManner manner
      = { .view = view, .scale = scale, .flags = flags, .look = &bench->look, .measure = &bench->measure };

  return tw_view_draw (&source, &manner);
}

/* The nth item of a part on a layer; NULL past the last. */
static inline const TwInkItem *
item_of (const TwViewDrawing *drawing, const char *layer, const char *part, TwInkKind kind, guint nth)
{
  for (guint i = 0; i < tw_ink_count (drawing->ink); i++) {
    const TwInkItem *item = tw_ink_get (drawing->ink, i);

    if (item->kind == kind && g_str_equal (item->style.layer, layer)
        && g_str_equal (item->style.part.text, part) && nth-- == 0)
      return item;
  }
  return NULL;
}

static inline TwBox
box_of (const TwInkItem *item)
{
  TwBox box;

  tw_ink_item_bounds (item, &box);
  return box;
}

static inline void
assert_box (TwBox box, double x0_mm, double y0_mm, double x1_mm, double y1_mm)
{
  g_assert_cmpfloat_with_epsilon (box.x0_mm, x0_mm, 1e-6);
  g_assert_cmpfloat_with_epsilon (box.y0_mm, y0_mm, 1e-6);
  g_assert_cmpfloat_with_epsilon (box.x1_mm, x1_mm, 1e-6);
  g_assert_cmpfloat_with_epsilon (box.y1_mm, y1_mm, 1e-6);
}

G_END_DECLS
