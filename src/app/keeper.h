/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * keeper.h - keeps what was done on a session's job: the journal beside its file, and an eye on the file
 *
 * Listens to the session and needs no calls of it. A job with changes that are in no file has a journal
 * (job/journal.h); what is saved, or replaced by another job, needs none any more. A session that ends with
 * unsaved changes about which nobody was asked leaves its journal to be recovered.
 *
 * Signals: `trouble` (const char *): words for the person, once until it works again; `disk-changed`: the
 * file is another than the one that was read or saved, or is gone.
 */
#pragma once

#include "app/session.h"
#include "job/difference.h"
#include "job/journal.h"

G_BEGIN_DECLS

#define TW_TYPE_KEEPER (tw_keeper_get_type ())
G_DECLARE_FINAL_TYPE (TwKeeper, tw_keeper, TW, KEEPER, GObject)

/* Of @session, which it keeps a reference to. (transfer full) */
TwKeeper *tw_keeper_new (TwSession *session) G_GNUC_WARN_UNUSED_RESULT;

/* How the file of the session is, compared with what was read from or saved to it. */
typedef enum {
  TW_DISK_SAME,       /* also when there is no file yet */
  TW_DISK_CHANGED,    /* it holds another job */
  TW_DISK_UNREADABLE, /* it holds something that is no job */
  TW_DISK_GONE,
} TwDiskState;

/**
 * tw_keeper_look:
 * @difference: (out) (nullable): of TW_DISK_CHANGED: what leads from the job in the window to that in the
 * file
 *
 * Reads the file.
 */
TwDiskState tw_keeper_look (TwKeeper *self, TwJobDifference *difference);

/* The changes are not wanted any more: there is nothing to recover. */
void tw_keeper_forget (TwKeeper *self);

/* Puts the job of a journal that was taken (transfer full) into the session, as it was entered last, each of
 * its steps to be undone. It stays in the journal until it is saved. */
void tw_keeper_recover (TwKeeper *self, TwJournal *journal);

G_END_DECLS
