/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/change-private.h"

#include "base/error.h"

static TwChange *
change_new (TwChangeKind kind, TwId part, TwId element)
{
  TwChange *self = g_new0 (TwChange, 1);

  self->kind = kind;
  self->part = part;
  self->element = element;
  self->owner = TW_N_KINDS;
  return self;
}

TwChange *
tw_change_set (TwId part, TwId element, guint field, TwValue *value)
{
  TwChange *self = change_new (TW_CHANGE_SET, part, element);

  self->field = field;
  self->value = *value;
  *value = tw_value_unknown (value->store);
  return self;
}

TwChange *
tw_change_add (TwPart *made, int nth)
{
  TwChange *self = change_new (TW_CHANGE_ADD, made->id, TW_ID_NONE);

  g_return_val_if_fail (made->kind > TW_KIND_SETTINGS && made->kind < TW_FIRST_ELEMENT, self);
  self->made = made;
  self->nth = nth;
  return self;
}

TwChange *
tw_change_add_element (TwId part, guint list, TwPart *made, int nth)
{
  TwChange *self = change_new (TW_CHANGE_ADD, part, made->id);

  g_return_val_if_fail (made->kind >= TW_FIRST_ELEMENT, self);
  self->made = made;
  self->list = list;
  self->nth = nth;
  return self;
}

TwChange *
tw_change_remove (TwId part, TwId element)
{
  return change_new (TW_CHANGE_REMOVE, part, element);
}

TwChange *
tw_change_reorder (TwId part, TwId element, guint nth)
{
  TwChange *self = change_new (TW_CHANGE_REORDER, part, element);

  self->nth = (int)nth;
  return self;
}

TwChange *
tw_change_group (const char *label)
{
  TwChange *self = change_new (TW_CHANGE_GROUP, TW_ID_NONE, TW_ID_NONE);

  self->label = g_strdup (label);
  self->members = g_ptr_array_new_with_free_func ((GDestroyNotify)tw_change_free);
  return self;
}

void
tw_change_group_add (TwChange *group, TwChange *member)
{
  g_return_if_fail (group->kind == TW_CHANGE_GROUP);
  g_ptr_array_add (group->members, member);
}

guint
tw_change_group_size (const TwChange *group)
{
  g_return_val_if_fail (group->kind == TW_CHANGE_GROUP, 0);
  return group->members->len;
}

static void
add_removals (const TwJob *job, TwId part, TwChange *group, GHashTable *seen)
{
  if (!g_hash_table_add (seen, g_strdup (part.text)))
    return;
  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
    for (guint i = 0; i < tw_job_count (job, kind); i++)
      if (tw_part_refers_to (tw_job_get (job, kind, i), part))
        add_removals (job, tw_job_get (job, kind, i)->id, group, seen);
  tw_change_group_add (group, tw_change_remove (part, TW_ID_NONE));
}

TwChange *
tw_change_remove_several (const TwJob *job, const TwId *parts, guint n, const char *label)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  TwChange *group = tw_change_group (label);

  for (guint i = 0; i < n; i++)
    add_removals (job, parts[i], group, seen);
  return group;
}

TwChange *
tw_change_remove_whole (const TwJob *job, TwId part)
{
  const TwPart *removed = tw_job_find (job, part);
  g_autofree char *label = NULL;

  g_return_val_if_fail (removed != NULL, NULL);
  /* Translators: a step that can be undone; the name of a part */
  label = g_strdup_printf (_ ("Removal of %s"), tw_part_name (removed));
  return tw_change_remove_several (job, &part, 1, label);
}

void
tw_change_free (TwChange *self)
{
  tw_value_clear (&self->value);
  if (self->made != NULL)
    tw_part_unref (self->made);
  if (self->members != NULL)
    g_ptr_array_unref (self->members);
  g_free (self->label);
  g_free (self);
}

TwChangeKind
tw_change_kind (const TwChange *self)
{
  return self->kind;
}

TwId
tw_change_part (const TwChange *self)
{
  if (self->kind == TW_CHANGE_GROUP)
    return self->members->len > 0 ? tw_change_part (g_ptr_array_index (self->members, 0)) : TW_ID_NONE;
  return self->part;
}

char *
tw_change_set_key (const TwChange *self)
{
  g_return_val_if_fail (self->kind == TW_CHANGE_SET, NULL);
  return g_strdup_printf ("%s/%s/%u", self->part.text, self->element.text, self->field);
}

gboolean
tw_change_is_noop (const TwChange *self, const TwJob *job)
{
  const TwPart *target = tw_job_find (job, self->part);
  TwValue now;
  gboolean same;

  if (self->kind == TW_CHANGE_GROUP) {
    for (guint i = 0; i < self->members->len; i++)
      if (!tw_change_is_noop (g_ptr_array_index (self->members, i), job))
        return FALSE;
    return TRUE;
  }
  if (self->kind != TW_CHANGE_SET || target == NULL)
    return FALSE;
  if (!tw_id_is_none (self->element) && (target = tw_part_element (target, self->element, NULL)) == NULL)
    return FALSE;
  now = tw_part_get (target, self->field);
  same = tw_value_equal (&now, &self->value) && g_strcmp0 (now.typed, self->value.typed) == 0;
  tw_value_clear (&now);
  return same;
}

char *
tw_change_label (const TwChange *self, const TwJob *job)
{
  const TwPart *part = tw_job_find (job, self->part), *target;
  const char *name = part != NULL         ? tw_part_name (part)
                     : self->made != NULL ? tw_part_name (self->made)
                                          : self->part.text;

  switch (self->kind) {
  case TW_CHANGE_SET:
    target
        = part != NULL && !tw_id_is_none (self->element) ? tw_part_element (part, self->element, NULL) : part;
    if (target == NULL)
      return g_strdup (name);
    /* Translators: a step that can be undone: a field, of a part */
    return g_strdup_printf (_ ("%s of %s"), _ (tw_kind_info (target->kind)->fields[self->field].label), name);
  case TW_CHANGE_ADD:
    /* Translators: a step that can be undone; the name of a part */
    return g_strdup_printf (
        _ ("Adding %s"), tw_id_is_none (self->made->id) ? _ (tw_kind_info (self->made->kind)->noun) : name);
  case TW_CHANGE_REMOVE:
    return g_strdup_printf (_ ("Removal of %s"), name);
  case TW_CHANGE_REORDER:
    /* Translators: a step that can be undone; the name of a part */
    return g_strdup_printf (_ ("New place of %s in its list"), name);
  case TW_CHANGE_GROUP:
    if (self->label != NULL)
      return g_strdup (self->label);
    return self->members->len > 0 ? tw_change_label (g_ptr_array_index (self->members, 0), job)
                                  : g_strdup ("");
  }
  g_assert_not_reached ();
}
