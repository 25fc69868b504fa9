/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * field-words.h - what stands in the form for a value, and for a value that the job does not say
 */
#pragma once

#include "app/session.h"

G_BEGIN_DECLS

/* In full, with the unit that the job shows; NULL when it is unknown. (transfer full) */
char *tw_field_words_value (TwSession *session,
                            const TwField *field,
                            const TwValue *value) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_field_words_unsaid:
 * @owner: a part of the session's job; elements have no assumptions
 * @field: number of a field that it does not say
 * @why: (out): N_()-marked reason of what is assumed, else NULL
 *
 * What the program goes by where the job says nothing: `46 mm, assumed`, or what silence means: `flat`.
 *
 * Returns: (transfer full) (nullable): NULL when nothing is known
 */
char *tw_field_words_unsaid (TwSession *session, const TwPart *owner, guint field, const char **why)
    G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
