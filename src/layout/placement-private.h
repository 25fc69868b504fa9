/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * placement-private.h - what the files of layout/placement share
 */
#pragma once

#include "layout/placement.h"

#include <glib/gi18n-lib.h>
#include <math.h>

G_BEGIN_DECLS

struct _TwPlacement {
  gatomicrefcount count;
  TwDrawing *drawing;
  GHashTable *places; /* id as text, owned by the drawing → place + 1 in the array of its kind */
  GArray *cores;      /* of TwPlacedCore; the others likewise */
  GArray *tanks;
  GArray *baffles;
  GArray *ports;
  GArray *engine_ports;
  GArray *shrouds;
  GArray *flaps;
  GArray *fans;
  GArray *volumes;
  GArray *header_tanks;
  GArray *openings;
  GArray *solids;
  GArray *unplaced;
};

/* @value, or @otherwise when it is unknown. */
static inline double
tw_known_or (double value, double otherwise)
{
  return isfinite (value) ? value : otherwise;
}

/* Takes @convex (transfer full). */
void tw_placement_add_solid (TwPlacement *self, TwId part, TwId core, TwSolidRole role, TwConvex *convex);

/* Lists @part, of which @placed is appended to @array when it has a place; otherwise @why, N_()-marked, says
 * what is missing. */
void tw_placement_add (TwPlacement *self,
                       const TwPart *part,
                       GArray *array,
                       gconstpointer placed,
                       const char *why);

/* The outside of a tank's back at @along_mm and @w_mm: off the header plate, and the direction square out of
 * it in core coordinates (@normal may be NULL). */
double tw_placement_tank_back_mm (const TwPlacedTank *tank, double along_mm, double w_mm, TwVec *normal);

/* A round solid between two places; none, and nothing listed, when it has no length or width. */
void tw_placement_add_round (TwPlacement *self,
                             const TwPlacedSolid *like,
                             TwVec from,
                             TwVec to,
                             double diameter_mm);

/* The area in a drawn outline and its hole (either may be empty). One that cannot be used gives an empty
 * area, and leaves no trouble in @geos: it is said by the part being listed without a place. (transfer full)
 */
TwArea *tw_placement_outline_area (GPtrArray *outline, GPtrArray *hole, TwGeos *geos);

/* The steps, in this order. */
void tw_placement_place_cores (TwPlacement *self);
void tw_placement_place_tanks (TwPlacement *self);
void tw_placement_place_baffles (TwPlacement *self);
void tw_placement_place_ports (TwPlacement *self);
void tw_placement_place_fans (TwPlacement *self); /* and shrouds with their flaps */
void tw_placement_place_engine_ports (TwPlacement *self);
void tw_placement_place_header_tanks (TwPlacement *self);
void tw_placement_place_openings (TwPlacement *self, TwGeos *geos);
void tw_placement_place_volumes (TwPlacement *self, TwGeos *geos);

G_END_DECLS
