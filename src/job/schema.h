/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * schema.h - the job file's format as a JSON Schema, made from the field lists
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * tw_job_schema_text:
 *
 * The schema (draft 2020-12) of what tw_job_read_text() takes and tw_job_write_text() writes, from the same
 * tables. It is looser than the reader where a schema cannot say more: ids are not compared, outlines are not
 * looked at, texts are measured in characters instead of bytes. data/tankwright-job.schema.json holds it.
 *
 * Returns: (transfer full)
 */
char *tw_job_schema_text (void) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
