/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "job/change-private.h"
#include "job/check-private.h"

static gboolean apply_any (const TwChange *self, TwJob *job, TwChange **inverse, GError **error);

static gboolean
no_part (TwId id, GError **error)
{
  g_set_error (error, TW_ERROR, TW_ERROR_MISSING, _ ("there is no part \"%s\""), id.text);
  return FALSE;
}

static gboolean
no_element (TwId part, TwId element, GError **error)
{
  g_set_error (error, TW_ERROR, TW_ERROR_MISSING, _ ("part \"%s\" has no element \"%s\""), part.text,
               element.text);
  return FALSE;
}

/* Whether @self, which may come from a file, was made for a part or element of @kind. */
static gboolean
check_owner (const TwChange *self, TwKind kind, GError **error)
{
  if (self->owner == TW_N_KINDS || self->owner == kind)
    return TRUE;
  g_set_error (error, TW_ERROR, TW_ERROR_REFUSED, _ ("%s: found a %s, expected a %s"),
               tw_id_is_none (self->element) ? self->part.text : self->element.text,
               tw_kind_info (kind)->stem, tw_kind_info (self->owner)->stem);
  return FALSE;
}

/* Whether a reference that is known leads to a part of a kind that it may point to. */
static gboolean
check_reference (const TwJob *job, const TwField *field, TwId to, GError **error)
{
  const TwPart *target = tw_job_find (job, to);
  g_autofree char *accepts = NULL;

  if (tw_id_is_none (to) || (target != NULL && tw_field_may_refer (field, target->kind)))
    return TRUE;
  accepts = tw_field_accepts (field);
  g_set_error (error, TW_ERROR, TW_ERROR_REFUSED, _ ("%s: found %s, expected %s"), field->name, to.text,
               accepts);
  return FALSE;
}

static gboolean
check_made (const TwJob *job, const TwPart *made, GError **error)
{
  const TwKindInfo *info = tw_kind_info (made->kind);

  for (guint i = 0; i < info->n_fields; i++) {
    TwValue value = tw_part_get (made, i);
    gboolean ok
        = tw_value_check (&info->fields[i], &value, error)
          && (value.store != TW_FIELD_REF || check_reference (job, &info->fields[i], value.ref, error));

    tw_value_clear (&value);
    if (!ok)
      return FALSE;
  }
  for (guint l = 0; l < info->n_lists; l++)
    for (guint i = 0; i < tw_part_list (made, l)->len; i++)
      if (!check_made (job, g_ptr_array_index (tw_part_list (made, l), i), error))
        return FALSE;
  return TRUE;
}

static gboolean
apply_set (const TwChange *self, TwJob *job, TwChange **inverse, GError **error)
{
  const TwPart *part = tw_job_find (job, self->part), *target = part;
  g_autoptr (TwPart) made = NULL;
  const TwField *field;
  TwValue value, before;
  guint list = 0, place;

  if (part == NULL)
    return no_part (self->part, error);
  if (!tw_id_is_none (self->element) && (target = tw_part_element (part, self->element, &list)) == NULL)
    return no_element (self->part, self->element, error);
  if (!check_owner (self, target->kind, error))
    return FALSE;
  g_return_val_if_fail (self->field < tw_kind_info (target->kind)->n_fields, FALSE);
  field = &tw_kind_info (target->kind)->fields[self->field];
  if (!tw_value_check (field, &self->value, error))
    return FALSE;
  if (field->store == TW_FIELD_REF && !check_reference (job, field, self->value.ref, error))
    return FALSE;

  before = tw_part_get (target, self->field);
  *inverse = tw_change_set (self->part, self->element, self->field, &before);
  made = tw_part_copy (target);
  value = self->value;
  value.text = g_strdup (self->value.text);
  value.typed = g_strdup (self->value.typed);
  tw_part_put (made, self->field, &value);
  if (target != part) {
    TwPart *whole = tw_part_copy (part);
    GPtrArray *elements = tw_part_list (whole, list);

    if (!g_ptr_array_find (elements, target, &place))
      g_assert_not_reached ();
    tw_part_unref (g_ptr_array_index (elements, place));
    g_ptr_array_index (elements, place) = g_steal_pointer (&made);
    made = whole;
  }
  tw_job_replace (job, g_steal_pointer (&made));
  return TRUE;
}

static TwId
new_element_id (const TwPart *part, TwKind kind)
{
  TwId id;

  for (guint n = 1;; n++) {
    g_autofree char *text = g_strdup_printf ("%s-%u", tw_kind_info (kind)->stem, n);

    if (tw_id_from_text (text, &id) && tw_part_element (part, id, NULL) == NULL)
      return id;
  }
}

static gboolean
apply_add_element (const TwChange *self, TwJob *job, TwChange **inverse, GError **error)
{
  const TwPart *part = tw_job_find (job, self->part);
  g_autoptr (TwPart) made = NULL;
  TwPart *whole;

  if (part == NULL)
    return no_part (self->part, error);
  if (!check_owner (self, part->kind, error))
    return FALSE;
  g_return_val_if_fail (self->list < tw_kind_info (part->kind)->n_lists, FALSE);
  g_return_val_if_fail (tw_kind_info (part->kind)->lists[self->list].element == self->made->kind, FALSE);
  if (!check_made (job, self->made, error))
    return FALSE;
  if (!tw_id_is_none (self->made->id) && tw_part_element (part, self->made->id, NULL) != NULL) {
    g_set_error (error, TW_ERROR, TW_ERROR_REFUSED, _ ("\"%s\" is there already"), self->made->id.text);
    return FALSE;
  }
  made = tw_part_copy (self->made);
  if (tw_id_is_none (made->id))
    made->id = new_element_id (part, made->kind);
  *inverse = tw_change_remove (self->part, made->id);
  whole = tw_part_copy (part);
  g_ptr_array_insert (tw_part_list (whole, self->list),
                      MIN (self->nth, (int)tw_part_list (whole, self->list)->len), g_steal_pointer (&made));
  tw_job_replace (job, whole);
  return TRUE;
}

static gboolean
apply_add (const TwChange *self, TwJob *job, TwChange **inverse, GError **error)
{
  g_autoptr (TwPart) made = NULL;
  guint n = 0;

  if (self->made->kind >= TW_FIRST_ELEMENT)
    return apply_add_element (self, job, inverse, error);
  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
    n += tw_job_count (job, kind);
  if (n >= TW_JOB_MOST_PARTS) {
    g_set_error (error, TW_ERROR, TW_ERROR_LIMIT, _ ("a job holds at most %d parts"), TW_JOB_MOST_PARTS);
    return FALSE;
  }
  if (!tw_id_is_none (self->made->id) && tw_job_find (job, self->made->id) != NULL) {
    g_set_error (error, TW_ERROR, TW_ERROR_REFUSED, _ ("\"%s\" is there already"), self->made->id.text);
    return FALSE;
  }
  if (!check_made (job, self->made, error))
    return FALSE;
  made = tw_part_copy (self->made);
  if (tw_id_is_none (made->id))
    made->id = tw_job_new_id (job, made->kind);
  *inverse = tw_change_remove (made->id, TW_ID_NONE);
  tw_job_insert (job, made, MIN (self->nth, (int)tw_job_count (job, made->kind)));
  g_steal_pointer (&made);
  return TRUE;
}

static gboolean
apply_remove_element (const TwChange *self, TwJob *job, TwChange **inverse, GError **error)
{
  const TwPart *part = tw_job_find (job, self->part), *element;
  TwPart *whole;
  guint list, place;

  element = tw_part_element (part, self->element, &list);
  if (element == NULL)
    return no_element (self->part, self->element, error);
  if (!g_ptr_array_find (tw_part_list (part, list), element, &place))
    g_assert_not_reached ();
  *inverse = tw_change_add_element (self->part, list, tw_part_ref (element), (int)place);
  whole = tw_part_copy (part);
  g_ptr_array_remove_index (tw_part_list (whole, list), place);
  tw_job_replace (job, whole);
  return TRUE;
}

static gboolean
apply_remove (const TwChange *self, TwJob *job, TwChange **inverse, GError **error)
{
  const TwPart *part = tw_job_find (job, self->part), *referrer;
  int place = tw_job_place (job, self->part);

  if (part == NULL)
    return no_part (self->part, error);
  if (!tw_id_is_none (self->element))
    return apply_remove_element (self, job, inverse, error);
  g_return_val_if_fail (part->kind != TW_KIND_SETTINGS, FALSE);
  referrer = tw_job_referrer (job, self->part);
  if (referrer != NULL) {
    g_set_error (error, TW_ERROR, TW_ERROR_REFUSED, _ ("%s cannot be removed while %s refers to it"),
                 tw_part_name (part), tw_part_name (referrer));
    return FALSE;
  }
  *inverse = tw_change_add (tw_job_take (job, self->part), place);
  return TRUE;
}

static gboolean
apply_reorder (const TwChange *self, TwJob *job, TwChange **inverse, GError **error)
{
  const TwPart *part = tw_job_find (job, self->part), *element;
  guint list, place;
  GPtrArray *elements;
  TwPart *whole;

  if (part == NULL)
    return no_part (self->part, error);
  if (tw_id_is_none (self->element)) {
    *inverse = tw_change_reorder (self->part, TW_ID_NONE, (guint)tw_job_place (job, self->part));
    tw_job_begin (job);
    part = tw_job_take (job, self->part);
    tw_job_insert (job, (TwPart *)part, MIN (self->nth, (int)tw_job_count (job, part->kind)));
    tw_job_end (job);
    return TRUE;
  }
  element = tw_part_element (part, self->element, &list);
  if (element == NULL)
    return no_element (self->part, self->element, error);
  whole = tw_part_copy (part);
  elements = tw_part_list (whole, list);
  if (!g_ptr_array_find (elements, element, &place))
    g_assert_not_reached ();
  *inverse = tw_change_reorder (self->part, self->element, place);
  element = g_ptr_array_steal_index (elements, place);
  g_ptr_array_insert (elements, MIN (self->nth, (int)elements->len), (TwPart *)element);
  tw_job_replace (job, whole);
  return TRUE;
}

/* Takes back what was done; @undo has just been made by it. */
static void
take_back (const TwChange *undo, TwJob *job)
{
  g_autoptr (TwChange) forth = NULL;

  if (!apply_any (undo, job, &forth, NULL))
    g_assert_not_reached ();
}

static gboolean
apply_group (const TwChange *self, TwJob *job, TwChange **inverse, GError **error)
{
  g_autoptr (TwChange) undo = tw_change_group (self->label);

  for (guint i = 0; i < self->members->len; i++) {
    TwChange *back = NULL;

    if (!apply_any (g_ptr_array_index (self->members, i), job, &back, error)) {
      take_back (undo, job);
      return FALSE;
    }
    g_ptr_array_insert (undo->members, 0, back);
  }
  *inverse = g_steal_pointer (&undo);
  return TRUE;
}

static gboolean
apply_any (const TwChange *self, TwJob *job, TwChange **inverse, GError **error)
{
  static gboolean (*const apply[]) (const TwChange *, TwJob *, TwChange **, GError **) = {
    [TW_CHANGE_SET] = apply_set,         [TW_CHANGE_ADD] = apply_add,     [TW_CHANGE_REMOVE] = apply_remove,
    [TW_CHANGE_REORDER] = apply_reorder, [TW_CHANGE_GROUP] = apply_group,
  };

  return apply[self->kind](self, job, inverse, error);
}

gboolean
tw_change_apply_unchecked (const TwChange *self, TwJob *job, TwChange **inverse, GError **error)
{
  *inverse = NULL;
  return apply_any (self, job, inverse, error);
}

/* Parts that were looked at: a volume that is moved is touched once by each corner. */
typedef struct {
  TwGeos *geos;
  GHashTable *seen;
} Touched;

/* What was touched, as @undo says, is whole afterwards: what a file may not say a change may not leave. */
static void
check_touched (const TwChange *undo, const TwJob *job, Touched *touched, TwTroubles *troubles)
{
  const TwPart *part;

  if (undo->kind == TW_CHANGE_GROUP) {
    for (guint i = 0; i < undo->members->len; i++)
      check_touched (g_ptr_array_index (undo->members, i), job, touched, troubles);
    return;
  }
  part = tw_job_find (job, undo->part);
  if (part != NULL && g_hash_table_add (touched->seen, (gpointer)part))
    tw_part_check (part, touched->geos, tw_part_name (part), troubles);
}

static gboolean
check_whole (const TwChange *undo, const TwJob *job, GError **error)
{
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);
  Touched touched = { geos, seen };
  g_autofree char *first = NULL;

  check_touched (undo, job, &touched, troubles);
  if (troubles->n == 0)
    return TRUE;
  first = tw_trouble_text (g_ptr_array_index (troubles->list, 0));
  g_set_error_literal (error, TW_ERROR, TW_ERROR_REFUSED, first);
  return FALSE;
}

gboolean
tw_change_apply (const TwChange *self, TwJob *job, TwChange **inverse, GError **error)
{
  gboolean ok;

  g_return_val_if_fail (inverse != NULL, FALSE);
  *inverse = NULL;
  tw_job_begin (job);
  ok = apply_any (self, job, inverse, error);
  if (ok && !check_whole (*inverse, job, error)) {
    take_back (*inverse, job);
    g_clear_pointer (inverse, tw_change_free);
    ok = FALSE;
  }
  tw_job_end (job);
  return ok;
}
