/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * json.h - JSON read strictly and written so that it reads back the same
 *
 * cJSON makes the tree. What it lets pass is refused before and after: text that is not UTF-8, control
 * characters and \u0000 in strings, numbers like 01, 1. and 1e999, members given twice, text after the end,
 * nesting and size beyond a limit (RFC 8259).
 */
#pragma once

#include "base/error.h"

#include <cjson/cJSON.h>

G_BEGIN_DECLS

/* Numbers, texts, lists and so on in one file: a tree of so many takes some 60 MB, and no job has so much to
 * say. */
#define TW_JSON_MOST_VALUES 500000

/**
 * tw_json_parse:
 * @text: @length bytes, need not end in zero
 * @deepest: arrays and objects within each other, at most 200
 * @troubles: filled with what is wrong: `line 3, column 14`, or the path of a member given twice
 *
 * Returns: (transfer full) (nullable): NULL when the text is no JSON; members given twice leave a tree
 */
cJSON *
tw_json_parse (const char *text, gsize length, guint deepest, TwTroubles *troubles) G_GNUC_WARN_UNUSED_RESULT;

/* Two spaces a level; what fits on a line stands on one. Ends in a newline. Numbers are finite. (transfer
 * full) */
char *tw_json_print (const cJSON *tree) G_GNUC_WARN_UNUSED_RESULT;

/* The same on one line, however long it is, without the newline. (transfer full) */
char *tw_json_print_line (const cJSON *tree) G_GNUC_WARN_UNUSED_RESULT;

/* `a number`, `"text"` (shortened), `a list` …: what stands there, for a trouble. (transfer full) */
char *tw_json_found (const cJSON *item) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
