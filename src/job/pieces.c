/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/pieces.h"

#include "base/error.h"
#include "base/json.h"
#include "job/change-private.h"
#include "job/change-text.h"
#include "job/free-name.h"
#include "job/read.h"

#include <string.h>

#define DEEPEST 120 /* a part of a job file in a change in this */

/* --- taking --------------------------------------------------------------------------------------------- */

static TwId *
reference (const TwPart *part, guint field)
{
  const TwField *info = &tw_kind_info (part->kind)->fields[field];

  return info->store == TW_FIELD_REF ? &G_STRUCT_MEMBER (TwId, part, info->offset) : NULL;
}

/* Whether @part refers to something taken, and to nothing else. */
static gboolean
belongs (const TwPart *part, GHashTable *taken)
{
  gboolean some = FALSE;

  for (guint i = 0; i < tw_kind_info (part->kind)->n_fields; i++) {
    const TwId *to = reference (part, i);

    if (to == NULL || tw_id_is_none (*to))
      continue;
    if (!g_hash_table_contains (taken, to->text))
      return FALSE;
    some = TRUE;
  }
  return some;
}

/* Adds to @taken what of a kind belongs to what is in it; TRUE when that was something. */
static gboolean
take_belongings (const TwJob *job, TwKind kind, GHashTable *taken)
{
  gboolean more = FALSE;

  for (guint i = 0; i < tw_job_count (job, kind); i++) {
    const TwPart *part = tw_job_get (job, kind, i);

    if (!g_hash_table_contains (taken, part->id.text) && belongs (part, taken))
      more |= g_hash_table_add (taken, (gpointer)part->id.text);
  }
  return more;
}

/* Whether all that @part refers to has been written, or is not taken at all. */
static gboolean
can_follow (const TwPart *part, GHashTable *taken, GHashTable *written)
{
  for (guint i = 0; i < tw_kind_info (part->kind)->n_fields; i++) {
    const TwId *to = reference (part, i);

    if (to != NULL && g_hash_table_contains (taken, to->text) && !g_hash_table_contains (written, to->text))
      return FALSE;
  }
  return TRUE;
}

static void
write_kind (const TwJob *job, TwKind kind, GHashTable *taken, GHashTable *written, TwChange *group)
{
  for (guint i = 0; i < tw_job_count (job, kind); i++) {
    const TwPart *part = tw_job_get (job, kind, i);

    if (!g_hash_table_contains (taken, part->id.text) || g_hash_table_contains (written, part->id.text)
        || !can_follow (part, taken, written))
      continue;
    g_hash_table_add (written, (gpointer)part->id.text);
    tw_change_group_add (group, tw_change_add (tw_part_ref (part), -1));
  }
}

/* Additions of what is taken, each after what it refers to. */
static TwChange *
write_group (const TwJob *job, GHashTable *taken)
{
  g_autoptr (GHashTable) written = g_hash_table_new (g_str_hash, g_str_equal);
  TwChange *group = tw_change_group (NULL);
  guint before;

  do {
    before = tw_change_group_size (group);
    for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
      write_kind (job, kind, taken, written, group);
  } while (tw_change_group_size (group) > before);
  return group;
}

char *
tw_pieces_write (const TwJob *job, const TwId *ids, guint n, GError **error)
{
  g_autoptr (GHashTable) taken = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (TwChange) group = NULL;
  gboolean more = TRUE;
  cJSON *tree;
  char *text;

  for (guint i = 0; i < n; i++) {
    const TwPart *part = tw_job_find (job, ids[i]);

    if (part != NULL && part->kind != TW_KIND_SETTINGS)
      g_hash_table_add (taken, (gpointer)part->id.text);
  }
  if (g_hash_table_size (taken) == 0) {
    g_set_error_literal (error, TW_ERROR, TW_ERROR_REFUSED, _ ("No part is chosen that could be copied."));
    return NULL;
  }
  while (more) {
    more = FALSE;
    for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
      more |= take_belongings (job, kind, taken);
  }
  group = write_group (job, taken);
  tree = cJSON_CreateObject ();
  cJSON_AddNumberToObject (tree, "tankwright-parts", TW_PIECES_FORMAT);
  cJSON_AddItemToObject (tree, "change", tw_change_write_json (group, job));
  text = tw_json_print_line (tree);
  cJSON_Delete (tree);
  return text;
}

/* --- putting in ----------------------------------------------------------------------------------------- */

/* The change in a text of ours; only additions of parts are taken from a clipboard. */
static TwChange *
read_group (const char *text, gsize length, TwTroubles *troubles)
{
  cJSON *tree = length <= TW_READ_MOST_BYTES ? tw_json_parse (text, length, DEEPEST, troubles) : NULL;
  const cJSON *format = cJSON_GetObjectItemCaseSensitive (tree, "tankwright-parts"),
              *inside = cJSON_GetObjectItemCaseSensitive (tree, "change");
  g_autoptr (TwChange) change = NULL;

  if (troubles->n == 0 && cJSON_IsNumber (format) && format->valuedouble == TW_PIECES_FORMAT
      && inside != NULL)
    change = tw_change_read_json (inside, "change", troubles);
  cJSON_Delete (tree);
  if (change == NULL || change->kind != TW_CHANGE_GROUP || change->members->len == 0)
    return NULL;
  for (guint i = 0; i < change->members->len; i++) {
    const TwChange *member = g_ptr_array_index (change->members, i);

    if (member->kind != TW_CHANGE_ADD || member->made->kind >= TW_FIRST_ELEMENT
        || tw_id_is_none (member->made->id))
      return NULL;
  }
  return g_steal_pointer (&change);
}

GPtrArray *
tw_pieces_parts (const char *text, gsize length)
{
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  g_autoptr (TwChange) group = read_group (text, length, troubles);
  GPtrArray *parts = NULL;

  for (guint i = 0; group != NULL && i < group->members->len; i++) {
    if (parts == NULL)
      parts = g_ptr_array_new_with_free_func (tw_part_unref);
    g_ptr_array_add (parts, tw_part_ref (((const TwChange *)g_ptr_array_index (group->members, i))->made));
  }
  return parts;
}

/* Parts being put into a job. */
typedef struct {
  TwJob *job;
  GHashTable *new_ids; /* id as text → TwId of the new part, owned */
  GHashTable *names;   /* in use */
} Paste;

/* The only part of @job that @field may refer to; NULL when there are none or several. */
static const TwPart *
only_one (const TwJob *job, const TwField *field)
{
  const TwPart *found = NULL;

  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++) {
    guint n = tw_field_may_refer (field, kind) ? tw_job_count (job, kind) : 0;

    if (n > 1 || (n == 1 && found != NULL))
      return NULL;
    if (n == 1)
      found = tw_job_get (job, kind, 0);
  }
  return found;
}

/* Leads one reference to the new part, to its like in the job, or to the only one there is. */
static gboolean
lead (const Paste *self, const TwPart *part, const TwField *field, TwId *to, GError **error)
{
  const TwId *id = g_hash_table_lookup (self->new_ids, to->text);
  const TwPart *found = tw_job_find (self->job, *to);

  if (id != NULL) {
    *to = *id;
    return TRUE;
  }
  if (found == NULL || !tw_field_may_refer (field, found->kind))
    found = only_one (self->job, field);
  if (found == NULL) {
    g_set_error (error, TW_ERROR, TW_ERROR_REFUSED,
                 /* Translators: a part, the id of the part that it belongs to */
                 _ ("%s belongs to “%s”, which is not in this job: copy both together."), tw_part_name (part),
                 to->text);
    return FALSE;
  }
  *to = found->id;
  return TRUE;
}

static void
give_name (const Paste *self, TwPart *made)
{
  int field = tw_kind_field (made->kind, "name");
  TwValue value = field >= 0 ? tw_part_get (made, (guint)field) : tw_value_unknown (TW_FIELD_TEXT);

  if (value.text != NULL && !g_hash_table_add (self->names, g_strdup (value.text))) {
    g_autofree char *name = tw_free_name (self->names, value.text);
    TwValue given = tw_value_text (name);

    tw_part_put (made, (guint)field, &given);
  }
  tw_value_clear (&value);
}

/* A part like @part with the id that was given to it. */
static TwPart *
make (const Paste *self, const TwPart *part, GError **error)
{
  g_autoptr (TwPart) made = tw_part_copy (part);

  made->id = *(const TwId *)g_hash_table_lookup (self->new_ids, part->id.text);
  for (guint i = 0; i < tw_kind_info (made->kind)->n_fields; i++) {
    TwId *to = reference (made, i);

    if (to != NULL && !tw_id_is_none (*to)
        && !lead (self, part, &tw_kind_info (made->kind)->fields[i], to, error))
      return NULL;
  }
  give_name (self, made);
  return g_steal_pointer (&made);
}

static GHashTable *
names_of (const TwJob *job)
{
  GHashTable *names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
    for (guint i = 0; i < tw_job_count (job, kind); i++)
      g_hash_table_add (names, g_strdup (tw_part_name (tw_job_get (job, kind, i))));
  return names;
}

static TwChange *
paste (Paste *self, GPtrArray *parts, const char *label, GArray *made, GError **error)
{
  g_autoptr (TwChange) group = tw_change_group (label);

  for (guint i = 0; i < parts->len; i++) {
    const TwPart *part = g_ptr_array_index (parts, i);
    TwId id = tw_job_new_id (self->job, part->kind);

    g_hash_table_insert (self->new_ids, g_strdup (part->id.text), g_memdup2 (&id, sizeof id));
    g_array_append_val (made, id);
  }
  for (guint i = 0; i < parts->len; i++) {
    TwPart *part = make (self, g_ptr_array_index (parts, i), error);

    if (part == NULL)
      return NULL;
    tw_change_group_add (group, tw_change_add (part, -1));
  }
  return g_steal_pointer (&group);
}

TwChange *
tw_pieces_read (const char *text, gsize length, TwJob *job, const char *label, GArray **made, GError **error)
{
  g_autoptr (GPtrArray) parts = tw_pieces_parts (text, length);
  g_autoptr (GHashTable) new_ids = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (GHashTable) names = names_of (job);
  Paste self = { job, new_ids, names };
  TwChange *change;

  *made = NULL;
  if (parts == NULL) {
    g_set_error_literal (error, TW_ERROR, TW_ERROR_FORMAT, _ ("There are no parts of a job to be pasted."));
    return NULL;
  }
  *made = g_array_new (FALSE, FALSE, sizeof (TwId));
  change = paste (&self, parts, label, *made, error);
  if (change == NULL)
    g_clear_pointer (made, g_array_unref);
  return change;
}
