/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * catalogue-private.h - entries of a catalogue and their reader
 */
#pragma once

#include "base/error.h"
#include "job/catalogue.h"

G_BEGIN_DECLS

struct _TwEntry {
  char *id;
  GHashTable *numbers; /* name → double * */
  GHashTable *texts;   /* name → text; lists of the file joined with a space */
};

void tw_entry_free (gpointer self);

/* Words of the file for a list: `ports`. (transfer none) */
const char *tw_catalogue_list_name (TwCatalogueList list);

/**
 * tw_catalogue_read:
 * @list: what the file must hold
 * @text: of the file, @length bytes
 * @troubles: filled with what is wrong
 *
 * Returns: (transfer full) (element-type TwEntry): in the order of the file; worth nothing when there are
 * troubles
 */
GPtrArray *tw_catalogue_read (TwCatalogueList list, const char *text, gsize length, TwTroubles *troubles)
    G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
