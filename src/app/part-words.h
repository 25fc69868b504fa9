/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * part-words.h - what the window calls parts
 */
#pragma once

#include "job/parts.h"

G_BEGIN_DECLS

/* Name of a part on the screen; the job's settings read `Job` while the job has no name. Translated.
 * (transfer none) */
const char *tw_part_words_name (const TwPart *part);

/* Name of the symbolic icon. (transfer none) */
const char *tw_part_words_icon (const TwPart *part);

/* Kind and what the job says of the part, for a screen reader: `baffle; Place along the header −5 mm; …`.
 * (transfer full) */
char *tw_part_words_figures (const TwPart *part, const TwUnitStyle *style) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
