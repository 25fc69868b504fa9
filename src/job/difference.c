/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/difference.h"

#include <math.h>
#include <string.h>

typedef struct {
  const TwJob *from, *to;
  TwChange *group; /* being filled */
} Pair;

static void
add (Pair *self, TwChange *change)
{
  tw_change_group_add (self->group, change);
}

static gboolean
same_bits (double a, double b)
{
  return memcmp (&a, &b, sizeof a) == 0 || (isnan (a) && isnan (b));
}

static gboolean
same_value (const TwValue *a, const TwValue *b)
{
  return same_bits (a->number, b->number) && a->choice == b->choice && g_strcmp0 (a->text, b->text) == 0
         && tw_id_equal (a->ref, b->ref) && g_strcmp0 (a->typed, b->typed) == 0;
}

static gboolean
same_extra (const TwPart *a, const TwPart *b)
{
  return (a->extra == NULL) == (b->extra == NULL)
         && (a->extra == NULL || cJSON_Compare (a->extra, b->extra, TRUE));
}

/* Sets of the fields in which two states of a part, or of its @element, differ. */
static void
add_sets (Pair *self, TwId part, const TwPart *a, const TwPart *b)
{
  TwId element = a->kind >= TW_FIRST_ELEMENT ? a->id : TW_ID_NONE;

  for (guint i = 0; i < tw_kind_info (a->kind)->n_fields; i++) {
    TwValue now = tw_part_get (a, i), wanted = tw_part_get (b, i);

    if (!same_value (&now, &wanted))
      add (self, tw_change_set (part, element, i, &wanted));
    tw_value_clear (&now);
    tw_value_clear (&wanted);
  }
}

static const TwPart *
find_in (GPtrArray *elements, TwId id)
{
  for (guint i = 0; i < elements->len; i++)
    if (tw_id_equal (((const TwPart *)g_ptr_array_index (elements, i))->id, id))
      return g_ptr_array_index (elements, i);
  return NULL;
}

static int
place_in (GPtrArray *order, TwId id)
{
  for (guint i = 0; i < order->len; i++)
    if (g_str_equal (g_ptr_array_index (order, i), id.text))
      return (int)i;
  return -1;
}

/* Puts @id, which may come from behind, at @place of an order of id texts. */
static void
move_to (GPtrArray *order, guint place, const TwPart *part)
{
  int now = place_in (order, part->id);

  if (now >= 0)
    g_ptr_array_remove_index (order, (guint)now);
  g_ptr_array_insert (order, (int)place, (gpointer)part->id.text);
}

/* An id may come back in another list of the part: what goes must be gone before anything comes. */
static void
add_removed_elements (Pair *self, TwId part, GPtrArray *a, GPtrArray *b)
{
  for (guint i = 0; i < a->len; i++) {
    const TwPart *element = g_ptr_array_index (a, i);

    if (find_in (b, element->id) == NULL)
      add (self, tw_change_remove (part, element->id));
  }
}

/* Additions and moves from the first place on; FALSE when an element cannot be changed so. */
static gboolean
add_elements (Pair *self, TwId part, guint list, GPtrArray *a, GPtrArray *b)
{
  g_autoptr (GPtrArray) order = g_ptr_array_new ();

  for (guint i = 0; i < a->len; i++)
    if (find_in (b, ((const TwPart *)g_ptr_array_index (a, i))->id) != NULL)
      g_ptr_array_add (order, ((TwPart *)g_ptr_array_index (a, i))->id.text);
  for (guint i = 0; i < b->len; i++) {
    const TwPart *element = g_ptr_array_index (b, i), *before = find_in (a, element->id);

    if (tw_id_is_none (element->id) || (before != NULL && !same_extra (before, element)))
      return FALSE;
    if (before == NULL)
      add (self, tw_change_add_element (part, list, tw_part_ref (element), (int)i));
    else if (place_in (order, element->id) != (int)i)
      add (self, tw_change_reorder (part, element->id, i));
    move_to (order, i, element);
    if (before != NULL && before != element)
      add_sets (self, part, before, element);
  }
  return TRUE;
}

static gboolean
add_changed (Pair *self, const TwPart *a, const TwPart *b)
{
  const TwKindInfo *info = tw_kind_info (a->kind);

  if (a == b)
    return TRUE;
  if (a->kind != b->kind || !same_extra (a, b))
    return FALSE;
  add_sets (self, a->id, a, b);
  for (guint i = 0; i < info->n_lists; i++)
    add_removed_elements (self, a->id, tw_part_list (a, i), tw_part_list (b, i));
  for (guint i = 0; i < info->n_lists; i++)
    if (!add_elements (self, a->id, i, tw_part_list (a, i), tw_part_list (b, i)))
      return FALSE;
  return TRUE;
}

/* Whether all that @part refers to is in @job, or is among the ids @known. */
static gboolean
leans_on_known (const TwPart *part, const TwJob *job, GHashTable *known)
{
  const TwKindInfo *info = tw_kind_info (part->kind);

  for (guint i = 0; i < info->n_fields; i++) {
    TwId to = info->fields[i].store == TW_FIELD_REF ? G_STRUCT_MEMBER (TwId, part, info->fields[i].offset)
                                                    : TW_ID_NONE;

    if (!tw_id_is_none (to) && tw_job_find (job, to) == NULL && !g_hash_table_contains (known, to.text))
      return FALSE;
  }
  return TRUE;
}

/* Adds to @parts those of a kind that @other does not have, and whose references lead to what is known. */
static void
gather (const TwJob *job, TwKind kind, const TwJob *other, GHashTable *known, GPtrArray *parts)
{
  for (guint i = 0; i < tw_job_count (job, kind); i++) {
    const TwPart *part = tw_job_get (job, kind, i);

    if (tw_job_find (other, part->id) != NULL || g_hash_table_contains (known, part->id.text)
        || !leans_on_known (part, other, known))
      continue;
    g_hash_table_add (known, (gpointer)part->id.text);
    g_ptr_array_add (parts, (gpointer)part);
  }
}

/* Parts of @job that @other does not have, each after what it refers to; those in a ring are left out. */
static GPtrArray *
only_in (const TwJob *job, const TwJob *other)
{
  g_autoptr (GHashTable) known = g_hash_table_new (g_str_hash, g_str_equal);
  GPtrArray *parts = g_ptr_array_new ();
  guint before;

  do {
    before = parts->len;
    for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
      gather (job, kind, other, known, parts);
  } while (parts->len > before);
  return parts;
}

/* Parts of a kind in the order of @to; those that go are still there and stand behind. */
static void
add_moves (Pair *self, TwKind kind, GPtrArray *added)
{
  g_autoptr (GPtrArray) order = g_ptr_array_new ();

  for (guint i = 0; i < tw_job_count (self->from, kind); i++)
    if (tw_job_find (self->to, tw_job_get (self->from, kind, i)->id) != NULL)
      g_ptr_array_add (order, (gpointer)tw_job_get (self->from, kind, i)->id.text);
  for (guint i = 0; i < added->len; i++)
    if (((const TwPart *)g_ptr_array_index (added, i))->kind == kind)
      g_ptr_array_add (order, (gpointer)((const TwPart *)g_ptr_array_index (added, i))->id.text);
  for (guint i = 0; i < tw_job_count (self->to, kind); i++) {
    const TwPart *part = tw_job_get (self->to, kind, i);

    if (place_in (order, part->id) == (int)i)
      continue;
    add (self, tw_change_reorder (part->id, TW_ID_NONE, i));
    move_to (order, i, part);
  }
}

/* What comes must be there before what is set to refer to it; what goes must not be referred to any more. */
static gboolean
fill (Pair *self)
{
  g_autoptr (GPtrArray) added = only_in (self->to, self->from), removed = only_in (self->from, self->to);

  for (guint i = 0; i < added->len; i++)
    add (self, tw_change_add (tw_part_ref (g_ptr_array_index (added, i)), -1));
  for (guint kind = TW_KIND_SETTINGS; kind < TW_FIRST_ELEMENT; kind++)
    for (guint i = 0; i < tw_job_count (self->to, kind); i++) {
      const TwPart *part = tw_job_get (self->to, kind, i), *before = tw_job_find (self->from, part->id);

      if (before != NULL && !add_changed (self, before, part))
        return FALSE;
    }
  for (guint i = removed->len; i > 0; i--)
    add (self, tw_change_remove (((const TwPart *)g_ptr_array_index (removed, i - 1))->id, TW_ID_NONE));
  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
    add_moves (self, kind, added);
  return TRUE;
}

TwChange *
tw_change_between (const TwJob *from, const TwJob *to, const char *label)
{
  g_autoptr (TwChange) group = tw_change_group (label), inverse = NULL;
  g_autoptr (TwJob) proof = tw_job_copy (from);
  Pair self = { from, to, group };

  if (!fill (&self) || !tw_change_apply (group, proof, &inverse, NULL) || !tw_job_equal (proof, to))
    return NULL;
  return g_steal_pointer (&group);
}

static gboolean
has_no (const TwJob *job, const TwPart *part)
{
  const TwPart *found = tw_job_find (job, part->id);

  return found == NULL || found->kind != part->kind;
}

TwJobDifference
tw_job_difference (const TwJob *from, const TwJob *to)
{
  TwJobDifference difference = { 0 };

  for (guint kind = TW_KIND_SETTINGS; kind < TW_FIRST_ELEMENT; kind++) {
    for (guint i = 0; i < tw_job_count (to, kind); i++) {
      const TwPart *part = tw_job_get (to, kind, i);

      if (has_no (from, part))
        difference.n_added++;
      else if (!tw_part_equal (tw_job_find (from, part->id), part))
        difference.n_changed++;
    }
    for (guint i = 0; i < tw_job_count (from, kind); i++)
      if (has_no (to, tw_job_get (from, kind, i)))
        difference.n_removed++;
  }
  return difference;
}
