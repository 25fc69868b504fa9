/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * samples.h - the sample jobs that come with the program
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* One sample job. */
typedef struct {
  char *path;
  char *name; /* as its settings call it, else its file's name */
  char *note; /* first line of its notes, or NULL */
} TwSample;

/* Samples that are found, by file name; those that cannot be read are left out. (transfer full)
 * (element-type TwSample) */
GPtrArray *tw_samples_list (void) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
