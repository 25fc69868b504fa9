/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * field-target.h - which field of the job an editor stands for
 *
 * A field of one part, of one element of a part, or the same field of several parts of one kind: what these
 * share is read as one value, and what is set is set in all of them by one step.
 */
#pragma once

#include "app/session.h"

G_BEGIN_DECLS

typedef struct _TwFieldTarget TwFieldTarget;

/* @parts are of one kind and in the session's job; @n at least 1, exactly 1 when @element is not TW_ID_NONE.
 * (transfer full) */
TwFieldTarget *tw_field_target_new (TwSession *session, const TwId *parts, guint n, TwId element, guint field)
    G_GNUC_WARN_UNUSED_RESULT;
void tw_field_target_free (TwFieldTarget *self);

/* (transfer none) */
TwSession *tw_field_target_session (const TwFieldTarget *self);
/* How many parts. */
guint tw_field_target_n (const TwFieldTarget *self);
/* Number of the field in the table of its kind. */
guint tw_field_target_field (const TwFieldTarget *self);
/* What it is in the table of its kind. (transfer none) */
const TwField *tw_field_target_info (const TwFieldTarget *self);

/* Part or element number @nth, NULL when it is no longer in the job. (transfer none) */
const TwPart *tw_field_target_owner (const TwFieldTarget *self, guint nth);

/* Name by which a text typed for it is kept while the part is not shown: `tank-1//3`. (transfer full) */
char *tw_field_target_key (const TwFieldTarget *self) G_GNUC_WARN_UNUSED_RESULT;

/* The value that all of them have, with the text as typed where that is the same; FALSE, and @value unknown,
 * when they differ or are gone. Clear it with tw_value_clear(). */
gboolean tw_field_target_get (const TwFieldTarget *self, TwValue *value) G_GNUC_WARN_UNUSED_RESULT;

/* Sets all of them in one step, or none. Takes what @value holds. */
gboolean tw_field_target_set (const TwFieldTarget *self, TwValue *value, GError **error);

/* A reference that must be there. */
gboolean tw_field_target_is_needed (const TwFieldTarget *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwFieldTarget, tw_field_target_free)

G_END_DECLS
