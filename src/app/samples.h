/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * samples.h - the sample jobs that come with the program
 */
#pragma once

#include <gio/gio.h>

#include "answer/answer.h"

G_BEGIN_DECLS

/* One sample job. */
typedef struct {
  char *path;
  char *stem;       /* its file's name without ending: `merlin-tail` */
  char *name;       /* as its settings call it, else its file's name */
  char *note;       /* first sentence of its notes, or NULL */
  TwAnswer *answer; /* NULL until tw_samples_answer() was asked for it */
} TwSample;

typedef struct _TwSamples TwSamples;

/* Those that are found, by file name; what cannot be read is left out. Read at the first call and kept as
 * long as @application. (transfer none) */
TwSamples *tw_samples_of (GApplication *application);

/* @nth is below the count. (transfer none) */
guint tw_samples_count (const TwSamples *self);
const TwSample *tw_samples_get (const TwSamples *self, guint nth);
/* By its stem, or NULL. (transfer none) */
const TwSample *tw_samples_find (const TwSamples *self, const char *stem);

/* All that is known of a sample, made when it is first asked for; NULL when it cannot be read any more.
 * (transfer none) */
const TwAnswer *tw_samples_answer (TwSamples *self, const TwSample *sample);

G_END_DECLS
