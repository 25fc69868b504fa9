/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * extent.h - how far a part reaches
 *
 * From the solids of the placement; hoses, which have none there, from their via-points.
 */
#pragma once

#include "stage/freedom.h"

G_BEGIN_DECLS

/* An empty range and box: nothing is there. */
#define TW_SOLID_BOX_EMPTY                                                                                   \
  ((TwSolidBox){ { G_MAXDOUBLE, G_MAXDOUBLE, G_MAXDOUBLE }, { -G_MAXDOUBLE, -G_MAXDOUBLE, -G_MAXDOUBLE } })

/* What of a core is meant. */
typedef enum {
  TW_EXTENT_PART,     /* block and header plates */
  TW_EXTENT_ASSEMBLY, /* with all that is fixed to it */
} TwExtent;

/* From where to where @part reaches along @direction. FALSE for what has no extent. */
gboolean tw_extent_along (const TwPlacement *placement,
                          TwId part,
                          TwExtent extent,
                          TwVec direction,
                          double range_mm[2]);

/* Box along the job's axes round @part; of a core with all that is fixed to it. Empty for what has no extent.
 */
TwSolidBox tw_extent_box (const TwPlacement *placement, TwId part);

/* The smallest box that holds both. */
TwSolidBox tw_solid_box_add (TwSolidBox a, TwSolidBox b);

/* The box that the view sees of @part; empty for what has no extent. */
TwBox tw_extent_seen (const TwPlacement *placement, const TwStageView *view, TwId part, TwExtent extent);

G_END_DECLS
