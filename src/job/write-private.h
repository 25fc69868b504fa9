/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * write-private.h - one part and one value as they stand in a file, and files written whole
 */
#pragma once

#include "job/change.h"

G_BEGIN_DECLS

/* NULL for an unknown one. (transfer full) */
cJSON *tw_job_write_value (const TwField *field, const TwValue *value) G_GNUC_WARN_UNUSED_RESULT;

/* A part or element with its lists; its id is left out when it has none. (transfer full) */
cJSON *tw_job_write_part (const TwPart *part) G_GNUC_WARN_UNUSED_RESULT;

/* All of @bytes; FALSE and errno when not. */
gboolean tw_write_all (int fd, const char *bytes, gsize length);
/* So that a rename in it outlasts a loss of power. */
void tw_write_sync_folder (const char *folder);

/* Locks what @fd is open on until it is closed. FALSE when another holds it; TRUE also, with @known FALSE,
 * where the file system knows no locks. */
gboolean tw_write_lock (int fd, gboolean *known);
/* Whether @file still is what @fd was opened on. */
gboolean tw_write_is_there (int fd, const char *file);

G_END_DECLS
