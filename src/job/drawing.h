/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * drawing.h - one revision of the job, never changed, with every unknown filled in
 *
 * What the rooms behind the job compute from. A field that the job does not say is filled from the kind of
 * core, the catalogue, the parts that it belongs to or common practice, and is marked as assumed. A field for
 * which nothing can be assumed stays unknown (NaN, -1, NULL): a hose's bore, a volume's range. A drawing may
 * be shared by threads.
 */
#pragma once

#include "job/catalogue.h"
#include "job/job.h"

G_BEGIN_DECLS

typedef struct _TwDrawing TwDrawing;

/* Of the job as it is now. @catalogue is only read during the call. (transfer full) */
TwDrawing *tw_drawing_new (const TwJob *job, const TwCatalogue *catalogue) G_GNUC_WARN_UNUSED_RESULT;
TwDrawing *tw_drawing_ref (const TwDrawing *self);
void tw_drawing_unref (TwDrawing *self);

/* tw_job_revision() of the job when it was made. */
guint64 tw_drawing_revision (const TwDrawing *self);

/* The job's own fields, filled, and how many parts of a kind it has. (transfer none) */
const TwSettings *tw_drawing_settings (const TwDrawing *self);
guint tw_drawing_count (const TwDrawing *self, TwKind kind);
/* Filled part; cast to the struct of its kind, or use the macro below. (transfer none) */
const TwPart *tw_drawing_get (const TwDrawing *self, TwKind kind, guint nth);
const TwPart *tw_drawing_find (const TwDrawing *self, TwId id);

#define TW_DRAWING_CORE(d, nth) ((const TwCore *)tw_drawing_get ((d), TW_KIND_CORE, (nth)))
#define TW_DRAWING_TANK(d, nth) ((const TwTank *)tw_drawing_get ((d), TW_KIND_TANK, (nth)))
#define TW_DRAWING_BAFFLE(d, nth) ((const TwBaffle *)tw_drawing_get ((d), TW_KIND_BAFFLE, (nth)))
#define TW_DRAWING_PORT(d, nth) ((const TwPort *)tw_drawing_get ((d), TW_KIND_PORT, (nth)))
#define TW_DRAWING_SHROUD(d, nth) ((const TwShroud *)tw_drawing_get ((d), TW_KIND_SHROUD, (nth)))
#define TW_DRAWING_FAN(d, nth) ((const TwFan *)tw_drawing_get ((d), TW_KIND_FAN, (nth)))
#define TW_DRAWING_HOSE(d, nth) ((const TwHose *)tw_drawing_get ((d), TW_KIND_HOSE, (nth)))
#define TW_DRAWING_VOLUME(d, nth) ((const TwVolume *)tw_drawing_get ((d), TW_KIND_VOLUME, (nth)))
#define TW_DRAWING_ENGINE_PORT(d, nth)                                                                       \
  ((const TwEnginePort *)tw_drawing_get ((d), TW_KIND_ENGINE_PORT, (nth)))

#define TW_DRAWING_HEADER_TANK(d, nth)                                                                       \
  ((const TwHeaderTank *)tw_drawing_get ((d), TW_KIND_HEADER_TANK, (nth)))
#define TW_DRAWING_OPENING(d, nth) ((const TwOpening *)tw_drawing_get ((d), TW_KIND_OPENING, (nth)))
#define TW_DRAWING_EXIT(d, nth) ((const TwExit *)tw_drawing_get ((d), TW_KIND_EXIT, (nth)))

/* Whether a field of a part was assumed, and why (`core kind …`, `common practice`; N_()-marked, (transfer
 * none)). */
gboolean tw_drawing_is_assumed (const TwDrawing *self, TwId part, guint field, const char **why);

/* All assumed fields that have a value, in order of parts and fields. */
typedef struct {
  TwId part;
  guint field;
  const char *why; /* N_()-marked, not owned */
} TwAssumed;
guint tw_drawing_n_assumed (const TwDrawing *self);
const TwAssumed *tw_drawing_assumed (const TwDrawing *self, guint nth);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwDrawing, tw_drawing_unref)

G_END_DECLS
