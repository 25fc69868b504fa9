/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * difference.h - what leads from one state of a job to another
 *
 * Parts are shared between the states, so that what was not touched costs a comparison of two pointers.
 */
#pragma once

#include "job/change.h"

G_BEGIN_DECLS

/**
 * tw_change_between:
 * @from: (transfer none)
 * @to: (transfer none)
 * @label: of the group, may be NULL
 *
 * The changes that make @to of @from, as a group; an empty one when the two are the same.
 *
 * Returns: (transfer full) (nullable): NULL when no change of ours leads there (unknown members that differ,
 * an id that has become another kind of part)
 */
TwChange *tw_change_between (const TwJob *from, const TwJob *to, const char *label) G_GNUC_WARN_UNUSED_RESULT;

/* How many parts differ; the settings count as one. */
typedef struct {
  guint n_added;   /* only in the second */
  guint n_removed; /* only in the first */
  guint n_changed; /* in both, and not the same */
} TwJobDifference;

/* Counts them. */
TwJobDifference tw_job_difference (const TwJob *from, const TwJob *to);

G_END_DECLS
