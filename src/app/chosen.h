/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * chosen.h - which parts are chosen, and which element of the leading one
 *
 * Plain data for the session. The lead part stands last: the form shows it, alignment follows it. The job
 * itself (id `job`) is chosen alone.
 */
#pragma once

#include "job/job.h"

G_BEGIN_DECLS

typedef struct _TwChosen TwChosen;

/* With nothing in it. (transfer full) */
TwChosen *tw_chosen_new (void) G_GNUC_WARN_UNUSED_RESULT;
void tw_chosen_free (TwChosen *self);

/* Parts, the lead part last. (transfer none) (array length=n), until the next call that alters it */
const TwId *tw_chosen_parts (const TwChosen *self, guint *n);
/* TW_ID_NONE when nothing is chosen. */
TwId tw_chosen_lead (const TwChosen *self);
/* Of the lead part; TW_ID_NONE when none of its elements is chosen. */
TwId tw_chosen_element (const TwChosen *self);
gboolean tw_chosen_has (const TwChosen *self, TwId part);

/* These return whether anything changed. Ids that are none or stand twice are left out. */
gboolean tw_chosen_set (TwChosen *self, const TwId *parts, guint n);
/* Takes it in as the lead part, or leaves it out when it was chosen. */
gboolean tw_chosen_toggle (TwChosen *self, TwId part);
/* An element of @part, which becomes the lead part, alone unless it was chosen. TW_ID_NONE: no element. */
gboolean tw_chosen_set_element (TwChosen *self, TwId part, TwId element);
/* Leaves out what is no longer in @job. */
gboolean tw_chosen_check (TwChosen *self, const TwJob *job);

G_END_DECLS
