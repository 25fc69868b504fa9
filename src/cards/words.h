/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * words.h - the sentences of the findings
 */
#pragma once

#include "findings/findings.h"

G_BEGIN_DECLS

/* What is wrong, in one sentence with names and rounded figures, translated. (transfer full) */
char *tw_finding_text (const TwFinding *finding,
                       const TwDrawing *drawing,
                       const TwUnitStyle *style) G_GNUC_WARN_UNUSED_RESULT;

/* What usually mends a finding of this check, translated; the limit's source is not in it. (transfer none) */
const char *tw_check_remedy (const TwCheck *check);

/* What the check looks for, in a few words, translated: `a baffle on a tube mouth`. (transfer none) */
const char *tw_check_subject (const TwCheck *check);

/* `Stop`, `Warning`, `Note`, translated. (transfer none) */
const char *tw_severity_word (TwSeverity severity);

G_END_DECLS
