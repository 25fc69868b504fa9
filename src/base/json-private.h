/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * json-private.h - walks a text by the grammar of RFC 8259, without building anything and without recursion
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct {
  const char *at; /* where the scan stands, and stopped when it failed */
  const char *end;
  guint depth;          /* lists and objects that are open */
  guint deepest;        /* as many as may be */
  guint values;         /* numbers, texts, lists … so far */
  char *opened;         /* room for @deepest signs: '[' or '{' by depth */
  const char *expected; /* N_()-marked: what should stand at @at, when it failed */
} TwJsonScan;

/* Whether the text from @at to @end is one JSON value. */
gboolean tw_json_scan (TwJsonScan *self);

G_END_DECLS
