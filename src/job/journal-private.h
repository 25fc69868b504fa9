/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * journal-private.h - what the writer and the reader of journals share
 */
#pragma once

#include "job/journal.h"

G_BEGIN_DECLS

#define TW_JOURNAL_ENDING ".journal"
#define TW_JOURNAL_UNFINISHED ".new" /* of a journal whose start is still being written */
#define TW_JOURNAL_SUM 16            /* hexadecimal digits before each line */

struct _TwJournal {
  char *file;
  int fd;                       /* with the lock */
  char sum[TW_JOURNAL_SUM + 1]; /* of the last whole line */
  goffset length;               /* bytes up to the end of the last whole line */
  goffset start;                /* bytes of the first two lines */
  TwJob *entered;
  TwJournalStory story;
  TwJob *base;      /* of a journal that was taken, else NULL */
  GPtrArray *steps; /* of TwChange, likewise */
};

/* The checksum of a line after one with the checksum @before. */
void tw_journal_sum (const char *before, const char *line, gsize length, char sum[TW_JOURNAL_SUM + 1]);

G_END_DECLS
