/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/answer.h"

struct _TwAnswer {
  gint n_refs;
  TwRooms known; /* rooms that have spoken */
  TwDrawing *drawing;
  TwPlacement *placement;
  TwTubes *tubes;
  TwPasses *passes;
  TwHeights *heights;
  TwRoutes *routes;
  TwFrontal *frontal;
  TwCoverage *coverage;
  TwClearance *clearance;
  TwFindings *findings;
};

static void
ask_placement (TwAnswer *self, TwGeos *geos)
{
  self->placement = tw_placement_new (self->drawing, geos);
}

static void
ask_tubes (TwAnswer *self, TwGeos *geos)
{
  self->tubes = tw_tubes_find (self->placement);
}

static void
ask_passes (TwAnswer *self, TwGeos *geos)
{
  self->passes = tw_passes_find (self->placement, self->tubes);
}

static void
ask_heights (TwAnswer *self, TwGeos *geos)
{
  self->heights = tw_heights_find (self->placement, self->passes, TW_ATTITUDE_LEVEL);
}

static void
ask_routes (TwAnswer *self, TwGeos *geos)
{
  self->routes = tw_routes_find (self->placement);
}

static void
ask_frontal (TwAnswer *self, TwGeos *geos)
{
  guint n;
  const TwPlacedSolid *hoses = tw_routes_solids (self->routes, &n);

  self->frontal = tw_frontal_find (self->placement, geos, hoses, n);
}

static void
ask_coverage (TwAnswer *self, TwGeos *geos)
{
  self->coverage = tw_coverage_find (self->placement, geos);
}

static void
ask_clearance (TwAnswer *self, TwGeos *geos)
{
  guint n;
  const TwPlacedSolid *hoses = tw_routes_solids (self->routes, &n);

  self->clearance = tw_clearance_find (self->placement, geos, hoses, n);
}

static void
ask_findings (TwAnswer *self, TwGeos *geos)
{
  TwKnown known = { self->drawing, self->placement, self->tubes,    self->passes,   self->heights,
                    self->routes,  self->frontal,   self->coverage, self->clearance };

  self->findings = tw_findings_make (&known);
}

/* The rooms in an order in which each finds what it needs; @needs is asserted. A dear room gets a price here
 * and is handed to whoever asks. */
static const struct {
  TwRooms room;
  TwRooms needs;
  void (*ask) (TwAnswer *self, TwGeos *geos);
} rooms[] = {
  { TW_ROOM_PLACEMENT, 0, ask_placement },
  { TW_ROOM_TUBES, TW_ROOM_PLACEMENT, ask_tubes },
  { TW_ROOM_PASSES, TW_ROOM_PLACEMENT | TW_ROOM_TUBES, ask_passes },
  { TW_ROOM_HEIGHTS, TW_ROOM_PLACEMENT | TW_ROOM_PASSES, ask_heights },
  { TW_ROOM_ROUTES, TW_ROOM_PLACEMENT, ask_routes },
  { TW_ROOM_FRONTAL, TW_ROOM_PLACEMENT | TW_ROOM_ROUTES, ask_frontal },
  { TW_ROOM_COVERAGE, TW_ROOM_PLACEMENT, ask_coverage },
  { TW_ROOM_CLEARANCE, TW_ROOM_PLACEMENT | TW_ROOM_ROUTES, ask_clearance },
  { TW_ROOM_FINDINGS, 0, ask_findings },
};

TwAnswer *
tw_answer_new (const TwJob *job, const TwCatalogue *catalogue, TwGeos *geos)
{
  g_autoptr (TwGeos) own = geos == NULL ? tw_geos_new () : NULL;
  TwAnswer *self = g_new0 (TwAnswer, 1);

  if (geos != NULL)
    tw_geos_clear_trouble (geos); /* that of an earlier answer is not this one's */
  self->n_refs = 1;
  self->drawing = tw_drawing_new (job, catalogue);
  for (guint i = 0; i < G_N_ELEMENTS (rooms); i++) {
    g_assert ((rooms[i].needs & ~self->known) == 0);
    rooms[i].ask (self, geos != NULL ? geos : own);
    self->known |= rooms[i].room;
  }
  return self;
}

TwAnswer *
tw_answer_ref (const TwAnswer *self)
{
  TwAnswer *mutable = (TwAnswer *)self;

  g_atomic_int_inc (&mutable->n_refs);
  return mutable;
}

void
tw_answer_unref (TwAnswer *self)
{
  if (self == NULL || !g_atomic_int_dec_and_test (&self->n_refs))
    return;
  tw_findings_unref (self->findings);
  tw_clearance_unref (self->clearance);
  tw_coverage_unref (self->coverage);
  tw_frontal_unref (self->frontal);
  tw_routes_unref (self->routes);
  tw_heights_unref (self->heights);
  tw_passes_unref (self->passes);
  tw_tubes_unref (self->tubes);
  tw_placement_unref (self->placement);
  tw_drawing_unref (self->drawing);
  g_free (self);
}

guint64
tw_answer_revision (const TwAnswer *self)
{
  return tw_drawing_revision (self->drawing);
}

const TwDrawing *
tw_answer_drawing (const TwAnswer *self)
{
  return self->drawing;
}

const TwPlacement *
tw_answer_placement (const TwAnswer *self)
{
  return self->placement;
}

const TwTubes *
tw_answer_tubes (const TwAnswer *self)
{
  return self->tubes;
}

const TwPasses *
tw_answer_passes (const TwAnswer *self)
{
  return self->passes;
}

const TwHeights *
tw_answer_heights (const TwAnswer *self)
{
  return self->heights;
}

const TwRoutes *
tw_answer_routes (const TwAnswer *self)
{
  return self->routes;
}

const TwFrontal *
tw_answer_frontal (const TwAnswer *self)
{
  return self->frontal;
}

const TwCoverage *
tw_answer_coverage (const TwAnswer *self)
{
  return self->coverage;
}

const TwClearance *
tw_answer_clearance (const TwAnswer *self)
{
  return self->clearance;
}

const TwFindings *
tw_answer_findings (const TwAnswer *self)
{
  return self->findings;
}
