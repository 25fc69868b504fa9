/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * catalogue.h - port standards, alloys, coolants and kinds of core, from data files
 *
 * The files are data/catalogue/<list>.json; a user's own file of the same name in the data folder of the user
 * wins entry by entry. Every row says where it comes from and how sure that is.
 */
#pragma once

#include "job/parts.h"

G_BEGIN_DECLS

typedef enum {
  TW_CATALOGUE_CORE_KINDS,
  TW_CATALOGUE_PORTS, /* one entry a standard and size */
  TW_CATALOGUE_ALLOYS,
  TW_CATALOGUE_COOLANTS,
  TW_N_CATALOGUES
} TwCatalogueList;

typedef struct _TwCatalogue TwCatalogue;
typedef struct _TwEntry TwEntry;

/* Reads all lists; an error names the file and place. (transfer full) */
TwCatalogue *tw_catalogue_load (GError **error) G_GNUC_WARN_UNUSED_RESULT;
void tw_catalogue_free (TwCatalogue *self);

/* Entries of one list, in the order of its file; @nth is below the count. (transfer none) */
guint tw_catalogue_count (const TwCatalogue *self, TwCatalogueList list);
const TwEntry *tw_catalogue_get (const TwCatalogue *self, TwCatalogueList list, guint nth);
/* Entry by its id (`5052-h32`, `crossflow-fine`), or NULL. */
const TwEntry *tw_catalogue_find (const TwCatalogue *self, TwCatalogueList list, const char *id);
/* Port by standard and size as a port names them (`iso-6149`, `M14x1.5`; signs and case do not matter), or
 * NULL. */
const TwEntry *tw_catalogue_port (const TwCatalogue *self, const char *standard, const char *size);

/* What every entry has; never NULL. (transfer none) */
const char *tw_entry_id (const TwEntry *self);
const char *tw_entry_name (const TwEntry *self);   /* as people say it; not translated */
const char *tw_entry_source (const TwEntry *self); /* id in data/sources.json */
const char *tw_entry_status (const TwEntry *self); /* confirmed, second-hand, memory, common-practice */
/* A figure of the entry by its name (`density_kg_m3`), NaN when it has none. */
double tw_entry_number (const TwEntry *self, const char *name);
/* A text of the entry, NULL when it has none. */
const char *tw_entry_text (const TwEntry *self, const char *name);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TwCatalogue, tw_catalogue_free)

G_END_DECLS
