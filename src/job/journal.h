/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * journal.h - the steps of a job beside its file, so that a crash costs the last seconds at most
 *
 * One file a job that is being worked on, in a folder of the user's own: a line that says which job, one with
 * the whole job as it was at the start, then one for each step (job/change-text.h). Each line begins with a
 * checksum over it and the one before, so that whatever can be read is what was done, from the first step on.
 * The user's own file is never touched.
 *
 * Whoever works on a journal holds a lock on it; a journal without one was left behind by a program that is
 * gone. Where the file system knows no locks, journals are written and never found again.
 */
#pragma once

#include "job/history.h"

G_BEGIN_DECLS

#define TW_JOURNAL_FORMAT 1
/* A journal whose steps take more than this begins afresh with the job as it is. */
#define TW_JOURNAL_MOST_BYTES (1024 * 1024)

typedef struct _TwJournal TwJournal;

/* Where this user's journals are, a folder that need not be there yet. (transfer full) */
char *tw_journal_folder (void) G_GNUC_WARN_UNUSED_RESULT;

/* Which job it is. Both (transfer none). */
typedef struct {
  const char *path;     /* of its file; NULL: it was never saved */
  const char *identity; /* tw_job_identity() of the job as it was read from or saved to that file, or NULL */
} TwJournalAbout;

/* What a journal holds, and how it ended. */
typedef struct {
  char *path;       /* of the job's file; NULL: it was never saved */
  char *identity;   /* as in TwJournalAbout, or NULL */
  gint64 entered_s; /* when the last whole step was entered, seconds since 1970 in UTC */
  guint n_steps;    /* steps that can be had back */
  char *last_label; /* name of the last of them, or NULL */
  gboolean cut_off; /* the last step was being written when the program ended; it is lost */
  guint n_lost;     /* whole lines after the last good one that cannot be read any more */
} TwJournalStory;

/**
 * tw_journal_start:
 * @folder: made when it is not there, for its owner alone
 * @base: the job as it is; kept as text
 *
 * Returns: (transfer full) (nullable): NULL when it cannot be written
 */
TwJournal *tw_journal_start (const char *folder,
                             const TwJournalAbout *about,
                             const TwJob *base,
                             GError **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_journal_enter:
 * @now: the job after the step
 * @label: what the step is called, or NULL
 *
 * Enters what leads from the job as it was entered last to @now; nothing when that is the same. What could
 * not be entered before is entered with it. A journal that was taken loses its unreadable end. A journal that
 * has vanished or grown too long begins afresh.
 *
 * Returns: FALSE when it cannot be written: what was entered before is still there
 */
gboolean tw_journal_enter (TwJournal *self, const TwJob *now, const char *label, GError **error);

/* A descriptor of the file to be synced and closed by the caller, in a thread of its own if it likes; -1 when
 * there is none to be had. */
int tw_journal_descriptor (const TwJournal *self);

/* Closes it and leaves it for tw_journal_left(). */
void tw_journal_free (TwJournal *self);
/* Closes it and removes the file: its job is saved, or is not wanted any more. */
void tw_journal_remove (TwJournal *self);

/**
 * tw_journal_take:
 * @file: path of a journal
 *
 * Takes a journal that was left behind, with its lock. Nothing in it is altered.
 *
 * Returns: (transfer full) (nullable): NULL when it is in use (TW_ERROR_REFUSED), gone, or when not even the
 * job at its start can be read
 */
TwJournal *tw_journal_take (const char *file, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* The journals in @folder that were left behind, of TwJournal, latest first; those in use and those that
 * cannot be read stay where they are. (transfer full) */
GPtrArray *tw_journal_left (const char *folder) G_GNUC_WARN_UNUSED_RESULT;

/* Path of the file. (transfer none) */
const char *tw_journal_file (const TwJournal *self);
/* (transfer none) */
const TwJournalStory *tw_journal_story (const TwJournal *self);

/* The job as it was entered last. (transfer none), until the next call that enters. */
const TwJob *tw_journal_job (const TwJournal *self);

/* Of a journal that was taken: the job at its start. (transfer full) */
TwJob *tw_journal_base (const TwJournal *self) G_GNUC_WARN_UNUSED_RESULT;
/* Does the steps of a journal that was taken on that job, through its @history, each to be undone. Once. */
void tw_journal_replay (TwJournal *self, TwHistory *history);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwJournal, tw_journal_free)

G_END_DECLS
