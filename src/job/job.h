/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * job.h - the document: what the user drew and typed, and nothing that was computed
 *
 * One installation: a record of settings and a list of parts of each kind. Parts have stable ids and never
 * change in place (job/parts.h); the job holds the newest of each. It is altered only by changes
 * (job/change.h). What the program does not know (circuit, duty cases, ducts, variants of a later format) is
 * kept and written back.
 */
#pragma once

#include "job/parts.h"

G_BEGIN_DECLS

#define TW_JOB_MOST_PARTS 10000 /* in one job, elements not counted */

typedef struct _TwJob TwJob;

/* An empty job. (transfer full): free with tw_job_free() */
TwJob *tw_job_new (void) G_GNUC_WARN_UNUSED_RESULT;
void tw_job_free (TwJob *self);

/* Another with the same parts, which are shared, and without watchers; it gives the ids that @self would
 * give. (transfer full) */
TwJob *tw_job_copy (const TwJob *self) G_GNUC_WARN_UNUSED_RESULT;

/* Same settings, parts (in the same order) and unknown members. */
gboolean tw_job_equal (const TwJob *a, const TwJob *b);

/* (transfer none), never NULL; replaced by another when a setting changes. */
const TwSettings *tw_job_settings (const TwJob *self);

/* Parts of one kind in the order of the file; @nth below the count. (transfer none) */
guint tw_job_count (const TwJob *self, TwKind kind);
const TwPart *tw_job_get (const TwJob *self, TwKind kind, guint nth);

/* Part by id, of any kind, or NULL. The settings have the id `job`. (transfer none) */
const TwPart *tw_job_find (const TwJob *self, TwId id);

/* Place among the parts of its kind, or -1. */
int tw_job_place (const TwJob *self, TwId id);

/* The first part that refers to @id, or NULL: a part that is referred to cannot be removed. */
const TwPart *tw_job_referrer (const TwJob *self, TwId id);

/* An id never given in this job before: `<stem>-<number>`. */
TwId tw_job_new_id (TwJob *self, TwKind kind);

/* Goes up by one with each change, undone and redone ones too. */
guint64 tw_job_revision (const TwJob *self);

/* Members of the file that this program does not know: an object, or NULL. (transfer none) */
const cJSON *tw_job_extra (const TwJob *self);

/* Called after the job has changed; once a group. Watchers are called in the order in which they came. */
typedef void (*TwJobWatch) (const TwJob *job, gpointer data);
guint tw_job_watch (TwJob *self, TwJobWatch watch, gpointer data);
void tw_job_unwatch (TwJob *self, guint watch);

/* What follows is for the rooms of this folder that build and change a job. */

/* Puts @part (transfer full) at @nth place of its kind, or last with -1. Its id must be new. */
void tw_job_insert (TwJob *self, TwPart *part, int nth);
/* Takes a part out; it must be there. (transfer full) */
TwPart *tw_job_take (TwJob *self, TwId id);
/* Puts @part (transfer full) in the place of the one with its id, or of the settings. */
void tw_job_replace (TwJob *self, TwPart *part);
/* Takes an object (transfer full), or NULL. */
void tw_job_set_extra (TwJob *self, cJSON *extra);
/* Holds the watchers back until the matching end; nests. */
void tw_job_begin (TwJob *self);
void tw_job_end (TwJob *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwJob, tw_job_free)

G_END_DECLS
