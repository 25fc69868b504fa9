/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * add-between.h - a new element at a place of its list, where its neighbours ask for it
 *
 * For lists by number: a row is put before or after another one and has figures at once that leave the shape
 * as it was: a corner in the middle of its edge (a bowed edge becomes two arcs of the same circle), a
 * via-point in the middle of its leg, a curve point between its neighbours. At an end the step of the last
 * two goes on.
 */
#pragma once

#include "job/change.h"
#include "layout/placement.h"

G_BEGIN_DECLS

/**
 * tw_add_between:
 * @placement: of @job as it is now; only the ends of hoses are taken from it
 * @part: with at least one element in @list
 * @nth: place in the list that the new element has afterwards, at most the list's length
 * @element: (out): its id
 *
 * Returns: (transfer full)
 */
TwChange *tw_add_between (const TwJob *job,
                          const TwPlacement *placement,
                          TwId part,
                          guint list,
                          guint nth,
                          TwId *element) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
