/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * field-words.h - what stands in the form for a value, and for a value that the job does not say
 */
#pragma once

#include "app/field-target.h"

G_BEGIN_DECLS

/* In full, with the unit that the job shows; NULL when it is unknown. (transfer full) */
char *tw_field_words_value (TwSession *session,
                            const TwField *field,
                            const TwValue *value) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_field_words_entry:
 * @bare: without the unit that the job shows, for columns that name it in their head
 *
 * As it stands in an entry: as it was typed, in the unit in which it was typed; else as
 * tw_field_words_value().
 *
 * Returns: (transfer full) (nullable): NULL when it is unknown
 */
char *tw_field_words_entry (TwSession *session, const TwField *field, const TwValue *value, gboolean bare)
    G_GNUC_WARN_UNUSED_RESULT;

/* `= 517.525 mm` beside what was typed in another unit than the job shows, `≈` where that is rounded; NULL
 * when there is nothing to add. (transfer full) */
char *tw_field_words_beside (TwSession *session,
                             const TwField *field,
                             const TwValue *value) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_field_words_unsaid:
 * @note: (out) (transfer full) (nullable): `assumed: kind of core`, when it is more than what silence means
 *
 * What the program goes by where the job says nothing: `46 mm`, `flat`.
 *
 * Returns: (transfer full) (nullable): NULL when nothing is known, or different things of several parts
 */
char *tw_field_words_unsaid (const TwFieldTarget *target, char **note) G_GNUC_WARN_UNUSED_RESULT;

/* What a refusal says, to stand under the field: without the name by which files know it. (transfer none) */
const char *tw_field_words_trouble (const TwField *field, const GError *error);

G_END_DECLS
