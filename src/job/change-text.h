/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * change-text.h - a change as a line of text, and back
 *
 * One reader and writer for the journal, the clipboard and whatever else keeps changes. A line of JSON:
 *
 *   { "set": "tank-1", "kind": "tank", "field": "wall_mm", "value": 2.5, "typed": "2.5 mm" }
 *   { "set": "volume-1", "element": "corner-3", "kind": "corner", "field": "across_mm", "value": null }
 *   { "add": { "id": "port-7", … }, "kind": "port", "nth": 2 }
 *   { "add": { "id": "via-2", … }, "to": "hose-1", "kind": "hose", "list": "vias", "nth": -1 }
 *   { "remove": "port-7" }      { "remove": "hose-1", "element": "via-2" }
 *   { "reorder": "port-7", "nth": 0 }
 *   { "group": [ … ], "label": "Move of Baffle" }
 *
 * `kind` says in whose table field and list are sought, so that a line is understood without its job. Numbers
 * come back to the bit; parts are written as in a job file, unknown members too.
 */
#pragma once

#include "base/error.h"
#include "job/change.h"

G_BEGIN_DECLS

#define TW_CHANGE_TEXT_DEEPEST 16 /* groups within each other */

/**
 * tw_change_write_text:
 * @before: the job as it is before @self; NULL for a change that was read, which knows its kinds
 *
 * @before has, or @self adds before, whatever is set or gets an element.
 *
 * Returns: (transfer full): one line, without newline
 */
char *tw_change_write_text (const TwChange *self, const TwJob *before) G_GNUC_WARN_UNUSED_RESULT;

/* The same as cJSON holds it. (transfer full) */
cJSON *tw_change_write_json (const TwChange *self, const TwJob *before) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_change_read_text:
 * @text: @length bytes of UTF-8, need not end in zero
 * @troubles: filled with what is wrong
 *
 * Strict, as the reader of jobs is. That the change fits a job is found out when it is applied.
 *
 * Returns: (transfer full) (nullable): NULL when anything at all is wrong
 */
TwChange *
tw_change_read_text (const char *text, gsize length, TwTroubles *troubles) G_GNUC_WARN_UNUSED_RESULT;

/* The same from what cJSON holds; @where leads to it and stands before the place of each trouble. (transfer
 * full) (nullable) */
TwChange *
tw_change_read_json (const cJSON *tree, const char *where, TwTroubles *troubles) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
