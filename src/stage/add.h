/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * add.h - a new part, or a new element of a part, where it makes sense
 *
 * For the canvas: fill a TwAddWhere with what is chosen and where the pointer is, call, hand the change to
 * tw_history_do(), choose the id. Only what the place asks for is said in the new part; all else stays
 * unknown, and so is assumed by the drawing. Where something is missing without which the part has no place
 * (a tank without a core) the error says what to draw first.
 */
#pragma once

#include "job/change.h"
#include "layout/passes.h"
#include "stage/grip.h"

G_BEGIN_DECLS

typedef struct {
  TwJob *job;                   /* new ids are taken from it; else only read */
  const TwPlacement *placement; /* of the job as it is now */
  const TwPasses *passes;       /* NULL: no chambers */
  const TwStageView *view;
  TwId chosen;       /* part on which or beside which it is wished, or none */
  TwId element;      /* element of it that is chosen, or none */
  const char *label; /* what undo calls a new element, translated; NULL: named after what is done */
  guint n_points; /* of @points that are meant: 0 none, 1 the pointer, 2 a box drawn from one to the other */
  TwPoint points[2]; /* mm of the view */
} TwAddWhere;

/**
 * tw_add_part:
 * @kind: of a part, not of an element
 * @id: (out): of the new part
 *
 * A volume is the box of two points, as deep as the bay, or stands beside it; the first one is the bay. A
 * core stands in the middle of the bay or at the pointer; a tank on a header side that has none; a baffle in
 * the free gap nearest to the pointer, or to the middle of the tank's longest chamber; a port on the tank's
 * back, in its middle or at the pointer; a shroud over the face; a fan in the largest free circle of the
 * mouth, or at the pointer, as large as the others where there is room; an engine port at the pointer or
 * behind the core; a hose between the two free ports that go together best; a header tank as the box of two
 * points, at the pointer or over the bay; an opening or exit as the box of two points, or as large as the
 * face at the end of the bay.
 *
 * Returns: (transfer full) (nullable)
 */
TwChange *
tw_add_part (const TwAddWhere *where, TwKind kind, TwId *id, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_add_element:
 * @list: of the chosen part's kind: outline or hole of a volume, vias of a hose, flaps of a shroud, plugged
 *   tubes of a core
 * @element: (out): of the new element; of a new hole its first corner
 *
 * A corner on the edge nearest to the pointer (in the middle of the longest edge without one); a hole as a
 * square in the middle or as the box of two points; a via-point in the leg nearest to the pointer, at the
 * nearest point; a flap in the mouth's largest room or at the pointer; the tube nearest to the pointer is
 * plugged.
 */
TwChange *
tw_add_element (const TwAddWhere *where, guint list, TwId *element, GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
