/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * findings-private.h - how the checks of one subject reach the one table
 */
#pragma once

#include "findings/findings.h"

G_BEGIN_DECLS

/* One check being made. */
typedef struct {
  const TwKnown *known; /* the rooms that the check needs have spoken */
  const TwCheck *check;
  guint which;      /* from the row: for checks that differ in it alone */
  GArray *found;    /* of TwFinding */
  guint n_left_out; /* checks that wait or could not be made so far */
} TwFinder;

/* Makes a check; gives NULL, or the reason for which it could not be made for every part, N_()-marked. */
typedef const char *(*TwCheckMake) (TwFinder *finder);

/* A row of the table. */
typedef struct {
  TwCheck check;
  TwCheckMake make;
  guint which; /* handed to @make: a flag, a kind of cover */
} TwCheckRow;

/* The rows of one subject. */
typedef struct {
  const TwCheckRow *rows;
  guint n_rows;
} TwCheckRows;

extern const TwCheckRows tw_checks_water;
extern const TwCheckRows tw_checks_mouths;
extern const TwCheckRows tw_checks_filling;
extern const TwCheckRows tw_checks_air;
extern const TwCheckRows tw_checks_fans;
extern const TwCheckRows tw_checks_hoses;
extern const TwCheckRows tw_checks_fit;
extern const TwCheckRows tw_checks_rules;

/* What the trade does; the limits that are taste stand in the job's settings and can be edited there. */
#define TW_COMMON_PRACTICE "COMMON-PRACTICE"

/* A new finding of the check on hand about @part (none: the job as a whole), to be filled at once: valid
 * until the next. */
TwFinding *tw_finder_add (TwFinder *self, TwId part);

/* Another part that it concerns; past TW_FINDING_PARTS or none: left out. */
void tw_finding_also (TwFinding *self, TwId part);

G_END_DECLS
