/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/job.h"

#include <string.h>

typedef struct {
  guint id;
  TwJobWatch call;
  gpointer data;
} Watch;

struct _TwJob {
  TwPart *settings;
  GPtrArray *parts[TW_FIRST_ELEMENT]; /* by kind; the settings' own is NULL */
  GHashTable *by_id;                  /* id text (in the part) → TwPart, not owned */
  GHashTable *last_number;            /* kind → highest number that its ids have had */
  cJSON *extra;
  guint64 revision;
  GArray *watches; /* of Watch */
  guint last_watch;
  guint begun;
  gboolean changed;
};

TwJob *
tw_job_new (void)
{
  TwJob *self = g_new0 (TwJob, 1);
  TwId id;

  if (!tw_id_from_text ("job", &id))
    g_assert_not_reached ();
  self->settings = tw_part_new (TW_KIND_SETTINGS, id);
  for (guint i = TW_KIND_SETTINGS + 1; i < TW_FIRST_ELEMENT; i++)
    self->parts[i] = g_ptr_array_new_with_free_func (tw_part_unref);
  self->by_id = g_hash_table_new (g_str_hash, g_str_equal);
  self->last_number = g_hash_table_new (NULL, NULL);
  self->watches = g_array_new (FALSE, FALSE, sizeof (Watch));
  g_hash_table_insert (self->by_id, self->settings->id.text, self->settings);
  return self;
}

void
tw_job_free (TwJob *self)
{
  g_hash_table_unref (self->by_id);
  g_hash_table_unref (self->last_number);
  for (guint i = TW_KIND_SETTINGS + 1; i < TW_FIRST_ELEMENT; i++)
    g_ptr_array_unref (self->parts[i]);
  tw_part_unref (self->settings);
  cJSON_Delete (self->extra);
  g_array_unref (self->watches);
  g_free (self);
}

TwJob *
tw_job_copy (const TwJob *self)
{
  TwJob *copy = tw_job_new ();
  GHashTableIter numbers;
  gpointer kind, number;

  tw_job_replace (copy, tw_part_ref (self->settings));
  for (guint i = TW_KIND_SETTINGS + 1; i < TW_FIRST_ELEMENT; i++)
    for (guint k = 0; k < self->parts[i]->len; k++)
      tw_job_insert (copy, tw_part_ref (tw_job_get (self, i, k)), -1);
  g_hash_table_iter_init (&numbers, self->last_number);
  while (g_hash_table_iter_next (&numbers, &kind, &number))
    g_hash_table_insert (copy->last_number, kind, number);
  copy->extra = self->extra != NULL ? cJSON_Duplicate (self->extra, TRUE) : NULL;
  return copy;
}

gboolean
tw_job_equal (const TwJob *a, const TwJob *b)
{
  if (!tw_part_equal (a->settings, b->settings) || (a->extra == NULL) != (b->extra == NULL))
    return FALSE;
  if (a->extra != NULL && !cJSON_Compare (a->extra, b->extra, TRUE))
    return FALSE;
  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++) {
    if (a->parts[kind]->len != b->parts[kind]->len)
      return FALSE;
    for (guint i = 0; i < a->parts[kind]->len; i++)
      if (!tw_part_equal (tw_job_get (a, kind, i), tw_job_get (b, kind, i)))
        return FALSE;
  }
  return TRUE;
}

const TwSettings *
tw_job_settings (const TwJob *self)
{
  return (const TwSettings *)self->settings;
}

guint
tw_job_count (const TwJob *self, TwKind kind)
{
  g_return_val_if_fail (kind < TW_FIRST_ELEMENT, 0);
  return kind == TW_KIND_SETTINGS ? 1 : self->parts[kind]->len;
}

const TwPart *
tw_job_get (const TwJob *self, TwKind kind, guint nth)
{
  g_return_val_if_fail (nth < tw_job_count (self, kind), NULL);
  return kind == TW_KIND_SETTINGS ? self->settings : g_ptr_array_index (self->parts[kind], nth);
}

const TwPart *
tw_job_find (const TwJob *self, TwId id)
{
  return g_hash_table_lookup (self->by_id, id.text);
}

int
tw_job_place (const TwJob *self, TwId id)
{
  const TwPart *part = tw_job_find (self, id);
  guint place;

  if (part == NULL || part->kind == TW_KIND_SETTINGS
      || !g_ptr_array_find (self->parts[part->kind], part, &place))
    return -1;
  return (int)place;
}

const TwPart *
tw_job_referrer (const TwJob *self, TwId id)
{
  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
    for (guint i = 0; i < self->parts[kind]->len; i++)
      if (tw_part_refers_to (tw_job_get (self, kind, i), id))
        return tw_job_get (self, kind, i);
  return NULL;
}

/* The number of an id `<stem>-<number>`, 0 for any other. */
static guint
number_of (const char *id, const char *stem)
{
  guint64 number;

  if (!g_str_has_prefix (id, stem) || id[strlen (stem)] != '-'
      || !g_ascii_string_to_unsigned (id + strlen (stem) + 1, 10, 1, G_MAXINT, &number, NULL))
    return 0;
  return (guint)number;
}

static void
remember_number (TwJob *self, const TwPart *part)
{
  guint number = number_of (part->id.text, tw_kind_info (part->kind)->stem);
  gpointer kind = GUINT_TO_POINTER (part->kind);

  if (number > GPOINTER_TO_UINT (g_hash_table_lookup (self->last_number, kind)))
    g_hash_table_insert (self->last_number, kind, GUINT_TO_POINTER (number));
}

TwId
tw_job_new_id (TwJob *self, TwKind kind)
{
  guint number = GPOINTER_TO_UINT (g_hash_table_lookup (self->last_number, GUINT_TO_POINTER (kind)));
  TwId id;

  do {
    g_autofree char *text = g_strdup_printf ("%s-%u", tw_kind_info (kind)->stem, ++number);

    if (!tw_id_from_text (text, &id))
      g_assert_not_reached ();
  } while (tw_job_find (self, id) != NULL);
  g_hash_table_insert (self->last_number, GUINT_TO_POINTER (kind), GUINT_TO_POINTER (number));
  return id;
}

guint64
tw_job_revision (const TwJob *self)
{
  return self->revision;
}

const cJSON *
tw_job_extra (const TwJob *self)
{
  return self->extra;
}

guint
tw_job_watch (TwJob *self, TwJobWatch watch, gpointer data)
{
  Watch entry = { ++self->last_watch, watch, data };

  g_array_append_val (self->watches, entry);
  return entry.id;
}

void
tw_job_unwatch (TwJob *self, guint watch)
{
  for (guint i = 0; i < self->watches->len; i++)
    if (g_array_index (self->watches, Watch, i).id == watch) {
      g_array_remove_index (self->watches, i);
      return;
    }
  g_return_if_reached ();
}

void
tw_job_begin (TwJob *self)
{
  self->begun++;
}

void
tw_job_end (TwJob *self)
{
  g_return_if_fail (self->begun > 0);
  if (--self->begun > 0 || !self->changed)
    return;
  self->changed = FALSE;
  for (guint i = 0; i < self->watches->len; i++) {
    Watch watch = g_array_index (self->watches, Watch, i);

    watch.call (self, watch.data);
  }
}

static void
note_change (TwJob *self)
{
  tw_job_begin (self);
  self->revision++;
  self->changed = TRUE;
  tw_job_end (self);
}

void
tw_job_insert (TwJob *self, TwPart *part, int nth)
{
  g_return_if_fail (part->kind > TW_KIND_SETTINGS && part->kind < TW_FIRST_ELEMENT);
  g_return_if_fail (!tw_id_is_none (part->id) && tw_job_find (self, part->id) == NULL);
  g_return_if_fail (nth <= (int)self->parts[part->kind]->len);
  g_ptr_array_insert (self->parts[part->kind], nth, part);
  g_hash_table_insert (self->by_id, part->id.text, part);
  remember_number (self, part);
  note_change (self);
}

TwPart *
tw_job_take (TwJob *self, TwId id)
{
  int place = tw_job_place (self, id);
  TwPart *taken;

  g_return_val_if_fail (place >= 0, NULL);
  taken = g_ptr_array_steal_index (self->parts[tw_job_find (self, id)->kind], (guint)place);
  g_hash_table_remove (self->by_id, id.text);
  note_change (self);
  return taken;
}

void
tw_job_replace (TwJob *self, TwPart *part)
{
  int place = tw_job_place (self, part->id);

  g_hash_table_remove (self->by_id, part->id.text);
  if (part->kind == TW_KIND_SETTINGS) {
    tw_part_unref (self->settings);
    self->settings = part;
  } else {
    g_return_if_fail (place >= 0);
    tw_part_unref (g_ptr_array_index (self->parts[part->kind], place));
    g_ptr_array_index (self->parts[part->kind], place) = part;
  }
  g_hash_table_insert (self->by_id, part->id.text, part);
  note_change (self);
}

void
tw_job_set_extra (TwJob *self, cJSON *extra)
{
  cJSON_Delete (self->extra);
  self->extra = extra;
}
