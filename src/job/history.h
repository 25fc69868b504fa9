/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * history.h - undo and redo over a job
 *
 * Every change goes through here. Between open and close everything is one step: a whole drag is one undo.
 * Within an open group a second set of the same field takes the place of the first.
 */
#pragma once

#include "job/change.h"

G_BEGIN_DECLS

typedef struct _TwHistory TwHistory;

/* Of @job, which must outlive it. (transfer full) */
TwHistory *tw_history_new (TwJob *job) G_GNUC_WARN_UNUSED_RESULT;
void tw_history_free (TwHistory *self);

/* Applies @change (transfer full) and remembers how to undo it; forgets what could be redone. A refused
 * change leaves history and job as they were. */
gboolean tw_history_do (TwHistory *self, TwChange *change, GError **error);

/* Opens a step; @label as tw_change_group(). Steps do not nest. */
void tw_history_open (TwHistory *self, const char *label);
gboolean tw_history_is_open (const TwHistory *self);
/* Closes the step; nothing is remembered when nothing was done or all is as before. */
void tw_history_close (TwHistory *self);
/* Puts everything back as it was at open. */
void tw_history_cancel (TwHistory *self);

/* Whether there is a step to undo, and one to do again. */
gboolean tw_history_can_undo (const TwHistory *self);
gboolean tw_history_can_redo (const TwHistory *self);
/* Do nothing when there is nothing; an open step is closed first. */
void tw_history_undo (TwHistory *self);
void tw_history_redo (TwHistory *self);

/* Name of the step, or NULL. (transfer none), until the next call that changes history. */
const char *tw_history_undo_label (const TwHistory *self);
const char *tw_history_redo_label (const TwHistory *self);

/* Whether the job is as it was when last marked (a new history is). */
gboolean tw_history_is_saved (const TwHistory *self);
void tw_history_mark_saved (TwHistory *self);
/* As it is now it is in no file, and no undo leads to what is: made by the program, or recovered. */
void tw_history_mark_unsaved (TwHistory *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwHistory, tw_history_free)

G_END_DECLS
