/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * words-private.h - the table of sentences, one a check
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* What is said of one check; all N_()-marked. In @sentence stand {part}, {other}, {third} (names),
 * {measured}, {limit}, {beside} (figures with units), {tubes} (`tube 16`, `tubes 16 to 18`), {at} (a number)
 * and {why}. */
typedef struct {
  const char *id;
  const char *subject;  /* what is looked for, in a few words */
  const char *sentence; /* what was found */
  const char *remedy;   /* what usually mends it */
} TwWords;

/* Of a check by its id; NULL when there are none. */
const TwWords *tw_words_find (const char *id);

G_END_DECLS
