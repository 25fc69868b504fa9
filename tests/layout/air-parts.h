/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * air-parts.h - jobs put together part by part, for the tests of placement, frontal and coverage
 *
 * Makers insert a part at once and return it to be filled further; it must be filled before the first look at
 * the job.
 */
#pragma once

#include "job/read.h"
#include "layout/placement.h"

#include <math.h>

#define AIR_DEG (G_PI / 180.0)
#define assert_near(a, b, by) g_assert_cmpfloat_with_epsilon ((a), (b), (by))

/* What the rooms under test need, made from one job. */
typedef struct {
  TwDrawing *drawing;
  TwGeos *geos;
  TwPlacement *placement;
} Air;

static inline Air
air_of (const TwJob *job)
{
  g_autoptr (TwCatalogue) catalogue = tw_catalogue_load (NULL);
  Air air;

  g_assert_nonnull (catalogue);
  air.drawing = tw_drawing_new (job, catalogue);
  air.geos = tw_geos_new ();
  air.placement = tw_placement_new (air.drawing, air.geos);
  g_assert_null (tw_geos_trouble (air.geos));
  return air;
}

static inline void
air_clear (Air *air)
{
  tw_placement_unref (air->placement);
  tw_geos_free (air->geos);
  tw_drawing_unref (air->drawing);
}

static inline TwJob *
air_sample (const char *name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "samples", name, NULL);
  g_autoptr (GError) error = NULL;
  TwJob *job = tw_job_read_file (path, &error);

  g_assert_no_error (error);
  return job;
}

static inline TwId
air_id (const char *text)
{
  TwId id;

  g_assert_true (tw_id_from_text (text, &id));
  return id;
}

static inline gpointer
air_add (TwJob *job, TwKind kind, const char *id)
{
  TwPart *part = tw_part_new (kind, air_id (id));

  tw_job_insert (job, part, -1);
  return part;
}

/* Level tubes; header plates 2 thick that reach 5 beyond the face. */
static inline TwCore *
air_core (TwJob *job, const char *id, double width_mm, double height_mm, double thickness_mm)
{
  TwCore *core = air_add (job, TW_KIND_CORE, id);

  core->tubes = TW_TUBES_LEVEL;
  core->face_width_mm = width_mm;
  core->face_height_mm = height_mm;
  core->thickness_mm = thickness_mm;
  core->header_reach_mm = 5;
  core->header_thickness_mm = 2;
  core->header_width_mm = thickness_mm + 10;
  return core;
}

static inline TwTank *
air_tank (TwJob *job, const char *id, const char *core, int side, double depth_mm)
{
  TwTank *tank = air_add (job, TW_KIND_TANK, id);

  tank->core = air_id (core);
  tank->side = side;
  tank->depth_mm = depth_mm;
  tank->wall_mm = 2;
  return tank;
}

static inline TwPort *
air_port (TwJob *job, const char *id, const char *tank, int wall)
{
  TwPort *port = air_add (job, TW_KIND_PORT, id);

  port->tank = air_id (tank);
  port->use = TW_PORT_SPARE;
  port->wall = wall;
  port->stand_out_mm = 40;
  port->outside_mm = 32;
  port->bore_mm = 28;
  return port;
}

static inline TwFan *
air_fan (TwJob *job, const char *id, double u_mm, double v_mm, double swept_mm, double hub_mm)
{
  TwFan *fan = air_add (job, TW_KIND_FAN, id);

  fan->core = air_id ("core");
  fan->u_mm = u_mm;
  fan->v_mm = v_mm;
  fan->swept_mm = swept_mm;
  fan->ring_mm = swept_mm;
  fan->hub_mm = hub_mm;
  fan->depth_mm = 60;
  return fan;
}

static inline TwShroud *
air_shroud (TwJob *job, const char *id, double u_mm, double v_mm, double width_mm, double height_mm)
{
  TwShroud *shroud = air_add (job, TW_KIND_SHROUD, id);

  shroud->core = air_id ("core");
  shroud->u_mm = u_mm;
  shroud->v_mm = v_mm;
  shroud->width_mm = width_mm;
  shroud->height_mm = height_mm;
  shroud->plenum_mm = 40;
  return shroud;
}

static inline void
air_flap (TwShroud *shroud, const char *id, double u_mm, double v_mm, double width_mm, double height_mm)
{
  TwFlap *flap = (TwFlap *)tw_part_new (TW_KIND_FLAP, air_id (id));

  flap->u_mm = u_mm;
  flap->v_mm = v_mm;
  flap->width_mm = width_mm;
  flap->height_mm = height_mm;
  g_ptr_array_add (shroud->flaps, flap);
}

/* @kind -1: free room of the bay. */
static inline TwVolume *
air_volume (TwJob *job, const char *id, int kind, int plane, double from_mm, double to_mm)
{
  TwVolume *volume = air_add (job, TW_KIND_VOLUME, id);

  volume->use = kind < 0 ? TW_USE_FREE : TW_USE_TAKEN;
  volume->kind = kind;
  volume->plane = plane;
  volume->from_mm = from_mm;
  volume->to_mm = to_mm;
  return volume;
}

static inline void
air_corner (TwVolume *volume, double across_mm, double up_mm, double bow_mm)
{
  g_autofree char *id = g_strdup_printf ("corner-%u", volume->outline->len + 1);
  TwOutlineCorner *corner = (TwOutlineCorner *)tw_part_new (TW_KIND_CORNER, air_id (id));

  corner->across_mm = across_mm;
  corner->up_mm = up_mm;
  if (fabs (bow_mm) > 0.0)
    corner->bow_mm = bow_mm;
  g_ptr_array_add (volume->outline, corner);
}

static inline void
air_rectangle (TwVolume *volume, double x0_mm, double y0_mm, double x1_mm, double y1_mm)
{
  air_corner (volume, x0_mm, y0_mm, 0);
  air_corner (volume, x1_mm, y0_mm, 0);
  air_corner (volume, x1_mm, y1_mm, 0);
  air_corner (volume, x0_mm, y1_mm, 0);
}

static inline void
air_circle (TwVolume *volume, double across_mm, double up_mm, double diameter_mm)
{
  air_corner (volume, across_mm - 0.5 * diameter_mm, up_mm, 0.5 * diameter_mm);
  air_corner (volume, across_mm + 0.5 * diameter_mm, up_mm, 0.5 * diameter_mm);
}
