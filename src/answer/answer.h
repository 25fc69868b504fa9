/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * answer.h - all that is known of one revision of the job
 *
 * Never changes once made: counted, safe to share between threads. Its rooms are computed in turn by a table
 * of rooms with their needs; each at most once. All of this version's rooms are cheap; a dear one (cooling)
 * will make a further answer of the same revision that shares the others.
 */
#pragma once

#include "findings/findings.h"

G_BEGIN_DECLS

typedef struct _TwAnswer TwAnswer;

/**
 * tw_answer_new:
 * @job: as it is now; not kept
 * @catalogue: only read during the call
 * @geos: (nullable): a handle, used during the call; NULL: one is made and freed
 *
 * Cannot fail: a half-drawn job gives what it has.
 *
 * Returns: (transfer full): free with tw_answer_unref()
 */
TwAnswer *
tw_answer_new (const TwJob *job, const TwCatalogue *catalogue, TwGeos *geos) G_GNUC_WARN_UNUSED_RESULT;
TwAnswer *tw_answer_ref (const TwAnswer *self);
void tw_answer_unref (TwAnswer *self);

/* tw_job_revision() of the job when it was asked. */
guint64 tw_answer_revision (const TwAnswer *self);

/* What each room said; never NULL in this version. (transfer none) */
const TwDrawing *tw_answer_drawing (const TwAnswer *self);
const TwPlacement *tw_answer_placement (const TwAnswer *self);
const TwTubes *tw_answer_tubes (const TwAnswer *self);
const TwPasses *tw_answer_passes (const TwAnswer *self);
const TwHeights *tw_answer_heights (const TwAnswer *self);
const TwRoutes *tw_answer_routes (const TwAnswer *self);
const TwFrontal *tw_answer_frontal (const TwAnswer *self);
const TwCoverage *tw_answer_coverage (const TwAnswer *self);
const TwClearance *tw_answer_clearance (const TwAnswer *self);
const TwFindings *tw_answer_findings (const TwAnswer *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwAnswer, tw_answer_unref)

G_END_DECLS
