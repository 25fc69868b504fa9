/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * check-private.h - what must hold of a part as a whole, for the reader and for changes alike
 */
#pragma once

#include "base/area.h"
#include "base/error.h"
#include "job/parts.h"

G_BEGIN_DECLS

/**
 * tw_part_check:
 * @part: each of its fields in its range
 * @geos: a handle
 * @where: its place in the file (`volumes[2]`), or its name
 * @troubles: added to: lists that are too short or too long, corners without a place, outlines that cross
 *   themselves, a volume that ends before it starts
 */
void tw_part_check (const TwPart *part, TwGeos *geos, const char *where, TwTroubles *troubles);

G_END_DECLS
