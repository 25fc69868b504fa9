/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * found.h - what the rooms find in a job, for tests
 */
#pragma once

#include "layout/passes.h"

G_BEGIN_DECLS

/* All of it is owned. */
typedef struct {
  TwCatalogue *catalogue;
  TwDrawing *drawing;
  TwGeos *geos;
  TwPlacement *placement;
  TwTubes *tubes;
  TwPasses *passes;
} Found;

static inline Found
find (const TwJob *job)
{
  g_autoptr (GError) error = NULL;
  Found found = { .catalogue = tw_catalogue_load (&error) };

  g_assert_no_error (error);
  found.drawing = tw_drawing_new (job, found.catalogue);
  found.geos = tw_geos_new ();
  found.placement = tw_placement_new (found.drawing, found.geos);
  found.tubes = tw_tubes_find (found.placement);
  found.passes = tw_passes_find (found.placement, found.tubes);
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
  tw_catalogue_free (self->catalogue);
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
