/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * write.h - a job to its file
 *
 * The same job gives the same bytes, in any locale. Numbers are the shortest text that reads back as the same
 * double. Members that the program does not know are written back after those that it does.
 */
#pragma once

#include "job/job.h"

G_BEGIN_DECLS

/* The whole file, ending in a newline. (transfer full) */
char *tw_job_write_text (const TwJob *self) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_job_save:
 * @path: followed when it is a symbolic link
 *
 * Atomic and durable: written beside the file, synced, renamed over it, the folder synced. The file's mode is
 * kept. When it fails the old file is untouched and nothing is left behind; what a save that was killed has
 * left beside the file goes with the next one.
 */
gboolean tw_job_save (const TwJob *self, const char *path, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* The same for any bytes. */
gboolean
tw_write_file (const char *path, const char *bytes, gsize length, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* The SHA-256 of the written job, in hexadecimal digits: the same for two jobs that are the same. (transfer
 * full) */
char *tw_job_identity (const TwJob *self) G_GNUC_WARN_UNUSED_RESULT;

/* First 8 hexadecimal digits of the SHA-256 of the written job: tells two prints apart. (transfer full) */
char *tw_job_digest (const TwJob *self) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
