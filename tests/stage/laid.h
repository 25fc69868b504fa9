/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * laid.h - a job laid out for tests of the stage: placement and passes of the job as it is
 */
#pragma once

#include "job/history.h"
#include "job/read.h"
#include "job/write.h"
#include "stage/hand.h"
#include "support/make-job.h"

enum { FACE, FRONT, SIDE, PLAN, N_VIEWS };

typedef struct {
  TwJob *job;
  TwHistory *history;
  TwCatalogue *catalogue;
  TwGeos *geos;
  TwPlacement *placement;
  TwTubes *tubes;
  TwPasses *passes;
  TwHandBench bench;
} Laid;

static inline void
laid_clear (Laid *self)
{
  g_clear_pointer (&self->passes, tw_passes_unref);
  g_clear_pointer (&self->tubes, tw_tubes_unref);
  g_clear_pointer (&self->placement, tw_placement_unref);
}

/* Placement and passes of the job as it is now. */
static inline void
laid_again (Laid *self)
{
  g_autoptr (TwDrawing) drawing = tw_drawing_new (self->job, self->catalogue);

  laid_clear (self);
  self->placement = tw_placement_new (drawing, self->geos);
  self->tubes = tw_tubes_find (self->placement);
  self->passes = tw_passes_find (self->placement, self->tubes);
  self->bench = (TwHandBench){ self->job, self->history, self->placement, self->passes };
}

/* Takes @job. */
static inline void
laid_out (Laid *self, TwJob *job)
{
  g_autoptr (GError) error = NULL;

  *self = (Laid){ .job = job, .history = tw_history_new (job), .geos = tw_geos_new () };
  self->catalogue = tw_catalogue_load (&error);
  g_assert_no_error (error);
  laid_again (self);
}

static inline void
laid_away (Laid *self)
{
  laid_clear (self);
  tw_history_free (self->history);
  tw_job_free (self->job);
  tw_catalogue_free (self->catalogue);
  tw_geos_free (self->geos);
}

static inline TwStageView
laid_view (const Laid *self, int view)
{
  guint n;
  const TwPlacedCore *cores = tw_placement_cores (self->placement, &n);

  if (view == FACE && n > 0)
    return tw_stage_view_face (&cores[0]);
  return tw_stage_view_plane (view == SIDE ? TW_PLANE_SIDE : view == PLAN ? TW_PLANE_PLAN : TW_PLANE_FRONT);
}

static inline TwId
laid_id (const char *text)
{
  TwId id = TW_ID_NONE;

  g_assert_true (text[0] == '\0' || tw_id_from_text (text, &id));
  return id;
}

/* `field` of a part, or `element/field` of one of its elements; NaN when the job does not say it. */
static inline double
laid_figure (const Laid *self, const char *part_id, const char *path)
{
  const TwPart *part = tw_job_find (self->job, laid_id (part_id));
  const char *slash = strchr (path, '/');

  g_assert_nonnull (part);
  if (slash != NULL) {
    g_autofree char *element = g_strndup (path, (gsize)(slash - path));

    part = tw_part_element (part, laid_id (element), NULL);
    g_assert_nonnull (part);
    path = slash + 1;
  }
  g_assert_cmpint (tw_kind_field (part->kind, path), >=, 0);
  return G_STRUCT_MEMBER (double, part,
                          tw_kind_info (part->kind)->fields[tw_kind_field (part->kind, path)].offset);
}

/* A job of the samples folder. */
static inline TwJob *
laid_sample (const char *name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "samples", name, NULL);
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  TwJob *job;
  gsize length;

  g_assert_true (g_file_get_contents (path, &text, &length, &error));
  job = tw_job_read_text (text, length, troubles);
  g_assert_nonnull (job);
  return job;
}

static const char *const laid_samples[]
    = { "caravan-4.twjob", "merlin-boot.twjob", "merlin-tail.twjob", "ox.twjob", "volt-9.twjob" };

static inline void
laid_add_element (TwJob *job, const char *part, guint list, TwPart *made)
{
  g_autoptr (TwChange) change = tw_change_add_element (laid_id (part), list, made, -1), inverse = NULL;

  g_assert_true (tw_change_apply (change, job, &inverse, NULL));
}

/**
 * laid_stand:
 *
 * Level tubes, 40 of pitch 10: the face is 400 × 400 round the job's zero, 42 thick, header plates from −205
 * to 205, 54 wide and 2 thick, so tanks begin 202 from the middle; they are 50 deep. Tank 1 left, tank 2
 * right. Baffle 1 in tank 1 at 0. Port 1 in the back of tank 1 at 100, port 2 in the back of tank 2 at −100.
 * Shroud 1 of 380 × 360, plenum 40, with flap 1 of 40 × 30 at (120, 100). Fan 1 at (−90, 0) sweeps 160, ring
 * 172. Volume 1: the bay, x ±400, y ±300, z −100 to 500, in Front. Volume 2: taken, x 300 to 380, y −200 to
 * −100, z 0 to 200, in Plan. Volume 3: a bar of 40 along x at z 300, y 200, in Side. Engine port 1 at (150,
 * −250, 400) pointing upstream, engine port 2 at (0, −250, 400). Hose 1 from engine port 1 to port 1 by (0,
 * −200, 250) and (−300, 50, 100). Header tank 1 of 100 × 60 × 80 round (200, 260, 200). Opening 1 of 300 ×
 * 200 at z −90.
 */
static inline TwJob *
laid_stand (void)
{
  TwJob *job = tw_make_job (TW_TUBES_LEVEL, 40);
  const TwMakeBox bay = { -400, -300, -100, 400, 300, 500 }, block = { 300, -200, 0, 380, -100, 200 };
  const double engine[2][3] = { { 150, -250, 400 }, { 0, -250, 400 } };
  const double vias[2][3] = { { 0, -200, 250 }, { -300, 50, 100 } };
  const double vessel[2][3] = { { 200, 260, 200 }, { 100, 60, 80 } };
  TwFlap *flap = (TwFlap *)tw_part_new (TW_KIND_FLAP, laid_id ("flap-1"));
  TwId port, supply;

  tw_make_baffle (job, "tank-1", 20);
  port = tw_make_port (job, "tank-1", TW_PORT_INLET, TW_WALL_BACK, 100);
  tw_make_port (job, "tank-2", TW_PORT_OUTLET, TW_WALL_BACK, -100);
  tw_make_shroud (job, 0, 0, 380, 360);
  tw_make_fan (job, -90, 0, 160, 60);
  tw_make_box (job, TW_DRAWN_FRONT, -1, &bay);
  tw_make_box (job, TW_DRAWN_PLAN, TW_TAKEN_STRUCTURE, &block);
  tw_make_bar (job, TW_DRAWN_SIDE, 300, 200, 40);
  supply = tw_make_engine_port (job, TW_ENGINE_SUPPLY, engine[0], TW_LEAVES_AXIS_UPSTREAM);
  tw_make_engine_port (job, TW_ENGINE_RETURN, engine[1], TW_LEAVES_AXIS_UPSTREAM);
  tw_make_hose (job, supply, port, 2, vias, 60);
  tw_make_header_tank (job, vessel[0], vessel[1]);
  tw_make_opening (job, TW_KIND_OPENING, TW_DRAWN_FRONT, (double[3]){ 0, 0, -90 }, (double[2]){ 300, 200 });
  flap->u_mm = 120;
  flap->v_mm = 100;
  flap->width_mm = 40;
  flap->height_mm = 30;
  laid_add_element (job, "shroud-1", 0, &flap->head);
  return job;
}
