/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * source.h - the standards, handbooks and definitions that figures rest on
 *
 * Formulas, data files and figures name a source by its id; data/sources.json says what stands behind it and
 * how far it has been seen.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* How sure what rests on a source is. */
typedef enum {
  TW_SOURCE_CONFIRMED,       /* seen in a public text of the source itself */
  TW_SOURCE_SECOND_HAND,     /* seen where others repeat it; the source itself not seen */
  TW_SOURCE_MEMORY,          /* from memory, not confirmed */
  TW_SOURCE_COMMON_PRACTICE, /* what the trade does; no source */
  TW_SOURCE_DEFINITION,      /* fixed by this program */
} TwSourceStatus;

/* One source; all texts are English, as published, and not empty. */
typedef struct {
  const char *id;      /* `ISO-6149-1`: upper-case letters, digits and `-` */
  const char *title;   /* of the publication, or what is defined */
  const char *edition; /* year or edition, `not known`, or `-` for what has none */
  const char *note;    /* what it is used for here, and what was seen of it */
  TwSourceStatus status;
} TwSource;

typedef struct _TwSources TwSources; /* never changes once read; share it between threads */

/**
 * tw_sources_load:
 *
 * Reads data/sources.json. An error lists every entry that is not as it should be.
 *
 * Returns: (transfer full) (nullable): free with tw_sources_free()
 */
TwSources *tw_sources_load (GError **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_sources_parse:
 * @text: what stands in the file
 * @name: of the file, for errors
 *
 * As tw_sources_load(), from a text.
 */
TwSources *tw_sources_parse (const char *text, const char *name, GError **error) G_GNUC_WARN_UNUSED_RESULT;
void tw_sources_free (TwSources *self);

/* The source of @id, or NULL. (transfer none) */
const TwSource *tw_sources_find (const TwSources *self, const char *id);
/* Sources in the order of the file; @nth is below the count. (transfer none) */
guint tw_sources_count (const TwSources *self);
const TwSource *tw_sources_get (const TwSources *self, guint nth);

/* As data files write it: `second-hand`. (transfer none) */
const char *tw_source_status_id (TwSourceStatus status);
/* As people read it, marked N_(): `second-hand`, `from memory`. (transfer none) */
const char *tw_source_status_name (TwSourceStatus status);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwSources, tw_sources_free)

G_END_DECLS
