/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/drawing.h"

#include "job/assume-private.h"

struct _TwDrawing {
  guint64 revision;
  GPtrArray *parts[TW_FIRST_ELEMENT]; /* by kind, the settings too */
  GHashTable *by_id;                  /* id text (in the part) → TwPart, not owned */
  GArray *assumed;                    /* of TwAssumed */
  GHashTable *assumed_at;             /* "part/field" → place in assumed + 1 */
};

static void
clear_drawing (gpointer data)
{
  TwDrawing *self = data;

  for (guint i = 0; i < TW_FIRST_ELEMENT; i++)
    g_ptr_array_unref (self->parts[i]);
  g_hash_table_unref (self->by_id);
  g_array_unref (self->assumed);
  g_hash_table_unref (self->assumed_at);
}

TwDrawing *
tw_drawing_new (const TwJob *job, const TwCatalogue *catalogue)
{
  TwDrawing *self = g_atomic_rc_box_new0 (TwDrawing);
  TwAssume assume = { .job = job, .catalogue = catalogue };

  self->revision = tw_job_revision (job);
  self->by_id = g_hash_table_new (g_str_hash, g_str_equal);
  self->assumed = g_array_new (FALSE, FALSE, sizeof (TwAssumed));
  self->assumed_at = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  assume.by_id = self->by_id;
  assume.assumed = self->assumed;
  for (guint kind = 0; kind < TW_FIRST_ELEMENT; kind++) {
    self->parts[kind] = g_ptr_array_new_with_free_func (tw_part_unref);
    for (guint i = 0; i < tw_job_count (job, kind); i++) {
      TwPart *filled = tw_assume_fill (&assume, tw_job_get (job, kind, i));

      g_ptr_array_add (self->parts[kind], filled);
      g_hash_table_insert (self->by_id, filled->id.text, filled);
    }
  }
  for (guint i = 0; i < self->assumed->len; i++) {
    const TwAssumed *a = &g_array_index (self->assumed, TwAssumed, i);

    g_hash_table_insert (self->assumed_at, g_strdup_printf ("%s/%u", a->part.text, a->field),
                         GUINT_TO_POINTER (i + 1));
  }
  return self;
}

TwDrawing *
tw_drawing_ref (const TwDrawing *self)
{
  return g_atomic_rc_box_acquire ((gpointer)self);
}

void
tw_drawing_unref (TwDrawing *self)
{
  g_atomic_rc_box_release_full (self, clear_drawing);
}

guint64
tw_drawing_revision (const TwDrawing *self)
{
  return self->revision;
}

const TwSettings *
tw_drawing_settings (const TwDrawing *self)
{
  return (const TwSettings *)tw_drawing_get (self, TW_KIND_SETTINGS, 0);
}

guint
tw_drawing_count (const TwDrawing *self, TwKind kind)
{
  g_return_val_if_fail (kind < TW_FIRST_ELEMENT, 0);
  return self->parts[kind]->len;
}

const TwPart *
tw_drawing_get (const TwDrawing *self, TwKind kind, guint nth)
{
  g_return_val_if_fail (nth < tw_drawing_count (self, kind), NULL);
  return g_ptr_array_index (self->parts[kind], nth);
}

const TwPart *
tw_drawing_find (const TwDrawing *self, TwId id)
{
  return g_hash_table_lookup (self->by_id, id.text);
}

gboolean
tw_drawing_is_assumed (const TwDrawing *self, TwId part, guint field, const char **why)
{
  g_autofree char *key = g_strdup_printf ("%s/%u", part.text, field);
  guint place = GPOINTER_TO_UINT (g_hash_table_lookup (self->assumed_at, key));

  if (place > 0 && why != NULL)
    *why = tw_drawing_assumed (self, place - 1)->why;
  return place > 0;
}

guint
tw_drawing_n_assumed (const TwDrawing *self)
{
  return self->assumed->len;
}

const TwAssumed *
tw_drawing_assumed (const TwDrawing *self, guint nth)
{
  g_return_val_if_fail (nth < self->assumed->len, NULL);
  return &g_array_index (self->assumed, TwAssumed, nth);
}
