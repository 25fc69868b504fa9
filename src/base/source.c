/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/source.h"
#include "base/data.h"
#include "base/error.h"

#include <cjson/cJSON.h>
#include <string.h>

#define SOURCES_FILE "sources.json"

struct _TwSources {
  GPtrArray *list;   /* of TwSource, in the order of the file */
  GHashTable *by_id; /* id → TwSource, which list owns */
};

static const struct {
  const char *id, *name;
} statuses[] = {
  [TW_SOURCE_CONFIRMED] = { "confirmed", N_ ("confirmed") },
  [TW_SOURCE_SECOND_HAND] = { "second-hand", N_ ("second-hand") },
  [TW_SOURCE_MEMORY] = { "memory", N_ ("from memory") },
  [TW_SOURCE_COMMON_PRACTICE] = { "common-practice", N_ ("common practice, no source") },
  [TW_SOURCE_DEFINITION] = { "definition", N_ ("definition of this program") },
};

static void
source_free (gpointer data)
{
  TwSource *self = data;

  g_free ((char *)self->id);
  g_free ((char *)self->title);
  g_free ((char *)self->edition);
  g_free ((char *)self->note);
  g_free (self);
}

/* The text @name of @entry, copied; a trouble and an empty text if there is none. */
static char *
text_of (const cJSON *entry, guint nth, const char *name, TwTroubles *troubles)
{
  const cJSON *item = cJSON_GetObjectItemCaseSensitive (entry, name);
  g_autofree char *found = NULL;

  if (cJSON_IsString (item) && *item->valuestring != '\0')
    return g_strdup (item->valuestring);
  found = item == NULL ? g_strdup (_ ("nothing")) : cJSON_PrintUnformatted (item);
  tw_troubles_add (troubles, g_strdup_printf ("sources[%u].%s", nth, name), g_steal_pointer (&found),
                   _ ("a text that is not empty"));
  return g_strdup ("");
}

static TwSourceStatus
status_of (const cJSON *entry, guint nth, TwTroubles *troubles)
{
  g_autofree char *text = text_of (entry, nth, "status", troubles);

  for (guint i = 0; i < G_N_ELEMENTS (statuses); i++)
    if (strcmp (statuses[i].id, text) == 0)
      return i;
  if (*text != '\0')
    tw_troubles_add (troubles, g_strdup_printf ("sources[%u].status", nth), g_strdup (text),
                     _ ("confirmed, second-hand, memory, common-practice or definition"));
  return TW_SOURCE_MEMORY;
}

static gboolean
is_id (const char *text)
{
  return *text != '\0' && strspn (text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-") == strlen (text);
}

static void
read_entry (TwSources *self, const cJSON *entry, guint nth, TwTroubles *troubles)
{
  TwSource *source = g_new0 (TwSource, 1);

  source->id = text_of (entry, nth, "id", troubles);
  source->title = text_of (entry, nth, "title", troubles);
  source->edition = text_of (entry, nth, "edition", troubles);
  source->note = text_of (entry, nth, "note", troubles);
  source->status = status_of (entry, nth, troubles);
  g_ptr_array_add (self->list, source);

  if (*source->id != '\0' && !is_id (source->id))
    tw_troubles_add (troubles, g_strdup_printf ("sources[%u].id", nth), g_strdup (source->id),
                     _ ("capital letters, digits and -"));
  if (*source->id != '\0' && !g_hash_table_insert (self->by_id, (char *)source->id, source))
    tw_troubles_add (troubles, g_strdup_printf ("sources[%u].id", nth), g_strdup (source->id),
                     _ ("an id that no other source has"));
}

TwSources *
tw_sources_parse (const char *text, const char *name, GError **error)
{
  g_autoptr (TwSources) self = g_new0 (TwSources, 1);
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  cJSON *file;
  const cJSON *list;
  const cJSON *entry;
  guint nth = 0;

  g_return_val_if_fail (text != NULL && name != NULL, NULL);

  self->list = g_ptr_array_new_with_free_func (source_free);
  self->by_id = g_hash_table_new (g_str_hash, g_str_equal);
  file = cJSON_ParseWithOpts (text, NULL, TRUE);
  list = cJSON_GetObjectItemCaseSensitive (file, "sources");
  if (!cJSON_IsArray (list))
    tw_troubles_add (troubles, g_strdup ("sources"), g_strdup (_ ("nothing")), _ ("a list of sources"));
  cJSON_ArrayForEach (entry, list)
    read_entry (self, entry, nth++, troubles);
  cJSON_Delete (file);
  return tw_troubles_to_error (troubles, name, error) ? g_steal_pointer (&self) : NULL;
}

TwSources *
tw_sources_load (GError **error)
{
  g_autofree char *path = tw_data_find (SOURCES_FILE, error);
  g_autofree char *text = NULL;
  g_autoptr (GError) reading = NULL;

  if (path == NULL)
    return NULL;
  if (!g_file_get_contents (path, &text, NULL, &reading)) {
    g_set_error_literal (error, TW_ERROR, TW_ERROR_FILE, reading->message);
    return NULL;
  }
  return tw_sources_parse (text, path, error);
}

void
tw_sources_free (TwSources *self)
{
  g_clear_pointer (&self->by_id, g_hash_table_unref);
  g_clear_pointer (&self->list, g_ptr_array_unref);
  g_free (self);
}

const TwSource *
tw_sources_find (const TwSources *self, const char *id)
{
  g_return_val_if_fail (self != NULL && id != NULL, NULL);
  return g_hash_table_lookup (self->by_id, id);
}

guint
tw_sources_count (const TwSources *self)
{
  return self->list->len;
}

const TwSource *
tw_sources_get (const TwSources *self, guint nth)
{
  g_return_val_if_fail (nth < self->list->len, NULL);
  return g_ptr_array_index (self->list, nth);
}

const char *
tw_source_status_id (TwSourceStatus status)
{
  g_return_val_if_fail (status < G_N_ELEMENTS (statuses), NULL);
  return statuses[status].id;
}

const char *
tw_source_status_name (TwSourceStatus status)
{
  g_return_val_if_fail (status < G_N_ELEMENTS (statuses), NULL);
  return statuses[status].name;
}
