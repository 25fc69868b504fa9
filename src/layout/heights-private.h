/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * heights-private.h - what the files of layout/heights share
 */
#pragma once

#include "layout/heights.h"

G_BEGIN_DECLS

/* Heights of all header tanks along the direction @up. (transfer full) (element-type TwTankHeight) */
GArray *tw_heights_of_tanks (const TwPlacement *placement, TwVec up) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
