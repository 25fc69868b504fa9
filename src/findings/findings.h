/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * findings.h - what is wrong or doubtful with a drawing: ids and figures, no sentences
 *
 * One table of checks, each with the rooms that it needs. A check that was not made never reads as nothing
 * found: it is waiting (a room has not spoken yet) or could not be made (with the reason). The sentences are
 * in cards/words.
 */
#pragma once

#include "layout/clearance.h"
#include "layout/coverage.h"
#include "layout/frontal.h"
#include "layout/heights.h"
#include "layout/passes.h"
#include "layout/routes.h"
#include "layout/tubes.h"

G_BEGIN_DECLS

/* Worst first. */
typedef enum {
  TW_SEVERITY_STOP, /* do not cut: it cannot be built or cannot work so */
  TW_SEVERITY_WARN, /* doubtful: look at it before cutting */
  TW_SEVERITY_NOTE, /* good to know */
  TW_N_SEVERITIES
} TwSeverity;

/* Rooms that speak about a drawing; a set of them is several or-ed together. */
typedef enum {
  TW_ROOM_PLACEMENT = 1 << 0,
  TW_ROOM_TUBES = 1 << 1,
  TW_ROOM_PASSES = 1 << 2,
  TW_ROOM_HEIGHTS = 1 << 3,
  TW_ROOM_ROUTES = 1 << 4,
  TW_ROOM_FRONTAL = 1 << 5,
  TW_ROOM_COVERAGE = 1 << 6,
  TW_ROOM_CLEARANCE = 1 << 7,
  TW_ROOM_FINDINGS = 1 << 8,
} TwRooms;
#define TW_N_ROOMS 9

/* What the rooms said; a room that is NULL has not spoken yet. Nothing is owned. */
typedef struct {
  const TwDrawing *drawing; /* never NULL */
  const TwPlacement *placement;
  const TwTubes *tubes;
  const TwPasses *passes;
  const TwHeights *heights;
  const TwRoutes *routes;
  const TwFrontal *frontal;
  const TwCoverage *coverage;
  const TwClearance *clearance;
} TwKnown;

/* One check of the table; never changes. */
typedef struct {
  const char *id; /* `baffle-on-mouth` */
  TwSeverity severity;
  TwRooms needs;
  TwQuantity quantity; /* of what it measures; TW_QUANTITY_NONE: a bare number, or nothing */
  TwQuantity beside;   /* of a second figure; TW_QUANTITY_NONE: it has none */
  const char *source;  /* of its limit, id in data/sources.json; NULL when it has no limit */
} TwCheck;

/* How a check went. */
typedef enum {
  TW_CHECK_CLEAR,   /* made, found nothing */
  TW_CHECK_FOUND,   /* made, found something */
  TW_CHECK_WAITING, /* a room that it needs has not spoken yet */
  TW_CHECK_UNMADE,  /* could not be made, or not for every part */
} TwCheckState;

#define TW_FINDING_PARTS 3

/* One thing found. */
typedef struct {
  const TwCheck *check;
  guint n_parts;                /* at least one of which a reader can choose; 0: of the job as a whole */
  TwId parts[TW_FINDING_PARTS]; /* what is said first; the rest are none */
  double measured;              /* in the unit of the check's quantity; NaN without one */
  double limit;                 /* in the same unit; NaN without one */
  double beside;                /* in the unit of the check's second quantity; NaN without one */
  guint from, to;  /* places that it concerns, from 1 (tubes, straights, bends, chambers); 0: none */
  const char *why; /* further words, N_()-marked, not owned; NULL: none */
} TwFinding;

typedef struct _TwFindings TwFindings; /* never changes once made; may be shared between threads */

/* All checks, in the order in which they are made; @nth is below the count. (transfer none) */
guint tw_check_count (void);
const TwCheck *tw_check_get (guint nth);
/* By id, or NULL. (transfer none) */
const TwCheck *tw_check_find (const char *id);
/* Place of a check in the table. */
guint tw_check_place (const TwCheck *self);

/* `stop`, `warn`, `note`: as files and the command write it. (transfer none) */
const char *tw_severity_id (TwSeverity severity);

/**
 * tw_findings_make:
 * @known: only read during the call
 *
 * Makes every check whose rooms have spoken. Findings stand by severity, then in the order of the table, then
 * in that of the drawing.
 *
 * Returns: (transfer full): free with tw_findings_unref()
 */
TwFindings *tw_findings_make (const TwKnown *known) G_GNUC_WARN_UNUSED_RESULT;
TwFindings *tw_findings_ref (const TwFindings *self);
void tw_findings_unref (TwFindings *self);

/* What was found; NULL past the last. (transfer none) */
guint tw_findings_count (const TwFindings *self);
const TwFinding *tw_findings_get (const TwFindings *self, guint nth);
/* How many of one severity. */
guint tw_findings_count_of (const TwFindings *self, TwSeverity severity);

/* How check number @check of the table went. @why (out, may be NULL) is the reason of one that could not be
 * made, N_()-marked, else NULL. */
TwCheckState tw_findings_state (const TwFindings *self, guint check, const char **why);
/* How many checks went so. */
guint tw_findings_count_state (const TwFindings *self, TwCheckState state);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwFindings, tw_findings_unref)

G_END_DECLS
