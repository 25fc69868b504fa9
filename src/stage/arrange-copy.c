/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * arrange-copy.c - copies of parts with what belongs to them
 */
#include "stage/arrange-private.h"

#include "job/free-name.h"

#include <stdlib.h>
#include <string.h>

/* Copies being made. */
typedef struct {
  const TwArrangeSet *set;
  GHashTable *new_ids; /* id as text → TwId of the copy, owned */
  GHashTable *names;   /* names in use, of the job and of copies */
  TwChange *group;
} Copies;

static gboolean
is_copied (const Copies *self, TwId part)
{
  return g_hash_table_contains (self->new_ids, part.text);
}

static gboolean
mark (Copies *self, const TwPart *part)
{
  TwId id;

  if (is_copied (self, part->id))
    return FALSE;
  id = tw_job_new_id (self->set->job, part->kind);
  g_hash_table_insert (self->new_ids, g_strdup (part->id.text), g_memdup2 (&id, sizeof id));
  return TRUE;
}

/* What is fixed to a part, and what to that. */
static void
mark_belongings (Copies *self, TwId owner)
{
  for (guint kind = TW_KIND_CORE; kind <= TW_KIND_FAN; kind++)
    for (guint i = 0; i < tw_job_count (self->set->job, kind); i++) {
      const TwPart *part = tw_job_get (self->set->job, kind, i);

      if (tw_part_refers_to (part, owner) && mark (self, part))
        mark_belongings (self, part->id);
    }
}

/* Hoses whose ends are both copied go along. */
static void
mark_hoses (Copies *self)
{
  for (guint i = 0; i < tw_job_count (self->set->job, TW_KIND_HOSE); i++) {
    const TwHose *hose = (const TwHose *)tw_job_get (self->set->job, TW_KIND_HOSE, i);

    if (is_copied (self, hose->from) && is_copied (self, hose->to))
      mark (self, &hose->head);
  }
}

/* --- names ---------------------------------------------------------------------------------------------- */

static void
gather_names (Copies *self)
{
  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
    for (guint i = 0; i < tw_job_count (self->set->job, kind); i++)
      g_hash_table_add (self->names, g_strdup (tw_part_name (tw_job_get (self->set->job, kind, i))));
}

/* --- making ----------------------------------------------------------------------------------------------
 */

static void
lead_to_copies (const Copies *self, TwPart *made)
{
  const TwKindInfo *info = tw_kind_info (made->kind);

  for (guint i = 0; i < info->n_fields; i++) {
    const TwId *id;

    if (info->fields[i].store != TW_FIELD_REF)
      continue;
    id = g_hash_table_lookup (self->new_ids, G_STRUCT_MEMBER (TwId, made, info->fields[i].offset).text);
    if (id != NULL)
      G_STRUCT_MEMBER (TwId, made, info->fields[i].offset) = *id;
  }
}

static void
give_name (Copies *self, TwPart *made, const TwPart *part)
{
  int field = tw_kind_field (part->kind, "name");
  TwValue value = field < 0 ? tw_value_unknown (TW_FIELD_TEXT) : tw_part_get (part, (guint)field);

  if (value.text != NULL) {
    g_autofree char *name = tw_free_name (self->names, value.text);
    TwValue given = tw_value_text (name);

    tw_part_put (made, (guint)field, &given);
  }
  tw_value_clear (&value);
}

/* Whether the place of its copy hangs on that of another copy. */
static gboolean
is_carried (const Copies *self, const TwPart *part)
{
  GHashTableIter each;
  gpointer key;
  TwId id;

  if (part->kind == TW_KIND_HOSE)
    return FALSE;
  g_hash_table_iter_init (&each, self->new_ids);
  while (g_hash_table_iter_next (&each, &key, NULL))
    if (tw_id_from_text (key, &id) && tw_part_refers_to (part, id))
      return TRUE;
  return FALSE;
}

static void
shift (Copies *self, const TwPart *part, TwId made, TwPoint offset)
{
  g_autoptr (TwGrips) grips = tw_grips_new (self->set->placement, self->set->view, part->id);
  const TwFreedoms *freedoms;
  double amounts_mm[TW_FREEDOM_MOST];

  if (tw_grips_body (grips) == NULL || is_carried (self, part))
    return;
  freedoms = tw_grips_freedoms (grips, 0);
  if (!tw_freedoms_solve (freedoms, self->set->view, NULL, offset, amounts_mm))
    return;
  for (guint i = 0; i < freedoms->n; i++)
    amounts_mm[i] = CLAMP (amounts_mm[i], freedoms->list[i].low_mm, freedoms->list[i].high_mm);
  tw_freedoms_change (freedoms, made, amounts_mm, self->group);
}

/* In the order of the kinds, so that what is referred to is there first. */
static void
add_copies (Copies *self, TwPoint offset)
{
  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
    for (guint i = 0; i < tw_job_count (self->set->job, kind); i++) {
      const TwPart *part = tw_job_get (self->set->job, kind, i);
      const TwId *id = g_hash_table_lookup (self->new_ids, part->id.text);
      TwPart *made;

      if (id == NULL)
        continue;
      made = tw_part_copy (part);
      made->id = *id;
      lead_to_copies (self, made);
      give_name (self, made, part);
      tw_change_group_add (self->group, tw_change_add (made, -1));
      shift (self, part, *id, offset);
    }
}

static gboolean
mark_set (Copies *self, GError **error)
{
  const TwArrangeSet *set = self->set;

  for (guint i = 0; i < set->n; i++) {
    const TwPart *part = tw_arrange_part (set, i, error);

    if (part == NULL)
      return FALSE;
    if (part->kind != TW_KIND_HOSE && mark (self, part))
      mark_belongings (self, part->id);
  }
  mark_hoses (self);
  for (guint i = 0; i < set->n; i++)
    if (!is_copied (self, set->ids[i])) {
      g_set_error (error, TW_ERROR, TW_ERROR_REFUSED, _ ("%s is copied only together with both its ends"),
                   tw_part_name (tw_arrange_part (set, i, NULL)));
      return FALSE;
    }
  return TRUE;
}

TwChange *
tw_arrange_duplicate (const TwArrangeSet *set, TwPoint offset, GArray **made, GError **error)
{
  g_autoptr (GHashTable) new_ids = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (GHashTable) names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  Copies copies = { set, new_ids, names, NULL };

  *made = NULL;
  if (!mark_set (&copies, error))
    return NULL;
  gather_names (&copies);
  copies.group = tw_change_group (set->label);
  add_copies (&copies, offset);
  *made = g_array_new (FALSE, FALSE, sizeof (TwId));
  for (guint i = 0; i < set->n; i++)
    g_array_append_vals (*made, g_hash_table_lookup (new_ids, set->ids[i].text), 1);
  return copies.group;
}
