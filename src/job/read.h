/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * read.h - a job from its file
 *
 * Strict: whatever is wrong is named with its place, what was found and what is accepted, all of it at once.
 * What the program does not know is kept. Nothing half-read ever comes back.
 */
#pragma once

#include "base/error.h"
#include "job/job.h"

G_BEGIN_DECLS

#define TW_READ_MOST_BYTES (16 * 1024 * 1024)
#define TW_READ_DEEPEST 64 /* nesting of arrays and objects */
#define TW_JOB_FORMAT 1

/**
 * tw_job_read_text:
 * @text: @length bytes of UTF-8, need not end in zero
 * @troubles: filled with what is wrong
 *
 * Returns: (transfer full) (nullable): NULL when anything at all is wrong
 */
TwJob *tw_job_read_text (const char *text, gsize length, TwTroubles *troubles) G_GNUC_WARN_UNUSED_RESULT;

/* From a file, as tw_job_read_file(), with what is wrong in it as @troubles; @error only when it cannot be
 * read at all. (transfer full) (nullable) */
TwJob *
tw_job_read_troubles (const char *path, TwTroubles *troubles, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* From a file, or from standard input when @path is "-". A file larger than TW_READ_MOST_BYTES is refused
 * before it is read. All troubles come as one error, a line each. */
TwJob *tw_job_read_file (const char *path, GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
