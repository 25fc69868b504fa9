/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * add-private.h - what the files of stage/add share
 */
#pragma once

#include "stage/add.h"

#include "base/error.h"

G_BEGIN_DECLS

/* The pointer's place at the depth of @like (job frame), or FALSE when no point was given. */
gboolean tw_add_pointer (const TwAddWhere *where, TwVec like, TwVec *at);

/* The box of two points of the view that lie apart: mm of the view; FALSE without. */
gboolean tw_add_box (const TwAddWhere *where, TwBox *box);

/* The job plane that the view shows square on; FALSE when it shows none so. */
gboolean tw_add_plane (const TwStageView *view, TwPlane *plane);

/* The box round all free volumes, else round all solids; FALSE when there is neither. */
gboolean tw_add_room (const TwPlacement *placement, TwSolidBox *room);

/* To whole millimetres, which is how a person would begin. */
TwVec tw_add_whole (TwVec at);

/* The core, tank, that is chosen, to which what is chosen belongs, that is nearest to the pointer, or the
 * first; NULL and an error when there is none. (transfer none) */
const TwPlacedCore *tw_add_core (const TwAddWhere *where, GError **error);
const TwPlacedTank *tw_add_tank (const TwAddWhere *where, GError **error);

/* Fills a length, rounded to a nanometre, and a choice, of a part that is being made. */
void tw_add_put (TwPart *made, guint field, double value_mm);
void tw_add_choose (TwPart *made, guint field, int choice);
void tw_add_refer (TwPart *made, guint field, TwId to);

/* Another corner at the end of a ring of a part that is being made. */
void tw_add_corner (TwPart *made, GPtrArray *ring, TwPoint at);

/* The middle of the largest free circle in @mouth (u, v of @core's face) beside the rings of fans and the
 * openings of flaps on that side of the core; the one nearest to the middle of several. Returns its radius,
 * 0 or less when there is no room. */
double
tw_add_largest_mm (const TwPlacement *placement, TwId core, gboolean before, TwBox mouth, TwPoint *middle);

/* Parts by kind: each fills @made and returns FALSE with the reason when it cannot stand anywhere. */
gboolean tw_add_volume (const TwAddWhere *where, TwPart *made, GError **error);
gboolean tw_add_new_core (const TwAddWhere *where, TwPart *made, GError **error);
gboolean tw_add_engine_port (const TwAddWhere *where, TwPart *made, GError **error);
gboolean tw_add_header_tank (const TwAddWhere *where, TwPart *made, GError **error);
gboolean tw_add_opening (const TwAddWhere *where, TwPart *made, GError **error);
gboolean tw_add_new_tank (const TwAddWhere *where, TwPart *made, GError **error);
gboolean tw_add_baffle (const TwAddWhere *where, TwPart *made, GError **error);
gboolean tw_add_port (const TwAddWhere *where, TwPart *made, GError **error);
gboolean tw_add_shroud (const TwAddWhere *where, TwPart *made, GError **error);
gboolean tw_add_fan (const TwAddWhere *where, TwPart *made, GError **error);
gboolean tw_add_hose (const TwAddWhere *where, TwPart *made, GError **error);

/* Always FALSE, with the reason (translated). */
gboolean tw_add_refuse (GError **error, const char *why);

G_END_DECLS
