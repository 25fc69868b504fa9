/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * read-private.h - one part from its object
 */
#pragma once

#include "base/json.h"
#include "job/change.h"

G_BEGIN_DECLS

typedef struct {
  TwJob *job;           /* being filled */
  TwTroubles *troubles; /* added to */
  gboolean unnamed;     /* parts and elements may be without id, and stay so */
} TwJobReader;

/* Notes a trouble; takes @found. */
void tw_job_reader_trouble (TwJobReader *self, const char *where, char *found, const char *expected);

/* The value of a field from @item, checked; FALSE when it said a trouble. Clear it with tw_value_clear(). */
gboolean tw_job_reader_value (TwJobReader *self,
                              const TwField *field,
                              const cJSON *item,
                              const char *where,
                              TwValue *value);

/* The text as typed beside @value, which must say the same figure. */
void tw_job_reader_typed (TwJobReader *self,
                          const TwField *field,
                          const cJSON *item,
                          const char *where,
                          TwValue *value);

/* Reads the settings' fields into @settings, from the file's own object. */
void tw_job_reader_fields (TwJobReader *self, TwPart *settings, const cJSON *object, const char *where);

/* Members of @object that a part of @kind does not have (of the settings: that the file does not): an object,
 * or NULL. (transfer full) */
cJSON *tw_job_reader_unknown (TwKind kind, const cJSON *object);

/* A part or element with its lists; NULL when @object is no object. (transfer full) */
TwPart *tw_job_reader_part (TwJobReader *self, TwKind kind, const cJSON *object, const char *where);

G_END_DECLS
