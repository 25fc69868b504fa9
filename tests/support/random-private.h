/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * random-private.h - dice for random jobs
 */
#pragma once

#include "support/make-job.h"

G_BEGIN_DECLS

/* A job being thrown. */
typedef struct {
  GRand *rng;
  TwJob *job;
  gboolean inches;   /* lengths are sixty-fourths of an inch, most with what was typed */
  gboolean in_group; /* a group of changes is being thrown */
} TwThrow;

/* TRUE once in 1 / @share throws; dimensionless. */
gboolean tw_throw_chance (TwThrow *self, double share);
/* @low to @high, both may come. */
int tw_throw_int (TwThrow *self, int low, int high);
double tw_throw_double (TwThrow *self, double low, double high);

/* A length such as a person gives: half millimetres, tenths, any bits; sixty-fourths of an inch. */
double tw_throw_length (TwThrow *self, double low_mm, double high_mm);

/* Fills a field with a length, now and then with what was typed. */
void tw_throw_put (TwThrow *self, gpointer part, guint field, double value_mm);
/* The same with a thrown length in @share of the cases; else it stays unknown. */
void tw_throw_maybe (TwThrow *self, gpointer part, guint field, const double range_mm[2], double share);

/* Two or three words, now and then a hundred bytes of any script. (transfer full) */
char *tw_throw_name (TwThrow *self, const char *noun);

/* Members that no program knows, or NULL. (transfer full) */
cJSON *tw_throw_extra (TwThrow *self, double share);

/* An element with an id that is free in @part, put last into its @list; it may still be filled. (transfer
 * none)
 */
gpointer tw_throw_element (gpointer part, GPtrArray *list, TwKind kind);

/* A part of @kind with an id of its own or none (TW_ID_NONE), its references led to parts that are there;
 * NULL when there is nothing for it to refer to. Not yet in the job. (transfer full) */
TwPart *tw_throw_part (TwThrow *self, TwKind kind, TwId id);

G_END_DECLS
