/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * found.h - what the rooms find in a job, for tests
 */
#pragma once

#include "layout/passes.h"

G_BEGIN_DECLS

/* All of it is owned; the catalogue is NULL when it is the caller's. */
typedef struct {
  TwCatalogue *catalogue;
  TwDrawing *drawing;
  TwGeos *geos;
  TwPlacement *placement;
  TwTubes *tubes;
  TwPasses *passes;
} Found;

/* With a catalogue of the caller's. */
static inline Found
find_by (const TwJob *job, const TwCatalogue *catalogue)
{
  Found found = { .drawing = tw_drawing_new (job, catalogue), .geos = tw_geos_new () };

  found.placement = tw_placement_new (found.drawing, found.geos);
  found.tubes = tw_tubes_find (found.placement);
  found.passes = tw_passes_find (found.placement, found.tubes);
  return found;
}

static inline Found
find (const TwJob *job)
{
  g_autoptr (GError) error = NULL;
  TwCatalogue *catalogue = tw_catalogue_load (&error);
  Found found;

  g_assert_no_error (error);
  found = find_by (job, catalogue);
  found.catalogue = catalogue;
  return found;
}

static inline void
found_clear (Found *self)
{
  tw_passes_unref (self->passes);
  tw_tubes_unref (self->tubes);
  tw_placement_unref (self->placement);
  tw_geos_free (self->geos);
  tw_drawing_unref (self->drawing);
  g_clear_pointer (&self->catalogue, tw_catalogue_free);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Found, found_clear)

static inline TwId
id_of (const char *text)
{
  TwId id;

  g_assert_true (tw_id_from_text (text, &id));
  return id;
}

G_END_DECLS
