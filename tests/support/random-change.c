/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/random-private.h"

#include <math.h>

/* Any part of any kind, the settings too. */
static const TwPart *
any_part (TwThrow *self, gboolean settings_too)
{
  guint n = settings_too ? 1 : 0;
  guint nth;

  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
    n += tw_job_count (self->job, kind);
  if (n == 0)
    return NULL;
  nth = (guint)tw_throw_int (self, 0, (int)n - 1);
  for (guint kind = settings_too ? 0 : 1; kind < TW_FIRST_ELEMENT; kind++) {
    guint count = tw_job_count (self->job, kind);

    if (nth < count)
      return tw_job_get (self->job, kind, nth);
    nth -= count;
  }
  g_assert_not_reached ();
}

/* Any list of @part that holds something, as its elements; NULL when it has none. */
static GPtrArray *
any_list (TwThrow *self, const TwPart *part, guint *list)
{
  guint n = tw_kind_info (part->kind)->n_lists;

  if (n == 0)
    return NULL;
  *list = (guint)tw_throw_int (self, 0, (int)n - 1);
  return tw_part_list (part, *list);
}

static TwValue
throw_number (TwThrow *self, const TwPart *part, guint nth)
{
  const TwField *field = &tw_kind_info (part->kind)->fields[nth];
  double now = G_STRUCT_MEMBER (double, part, field->offset);
  double near = isnan (now) ? MAX (field->low, MIN (field->high, 40)) : now;
  TwValue value = tw_value_number (near + tw_throw_double (self, -0.2, 0.2) * MAX (10, fabs (near)));

  if (tw_throw_chance (self, 0.1))
    value.number = (double)NAN;
  else if (tw_throw_chance (self, 0.1))
    value.number = tw_throw_chance (self, 0.5) ? field->low : field->high;
  if (!isnan (value.number))
    value.number = CLAMP (value.number, field->low, field->high);
  if (!isnan (value.number) && field->quantity == TW_QUANTITY_LENGTH && tw_throw_chance (self, 0.3)) {
    g_autofree char *figure = tw_number_text (value.number);

    value.typed = g_strdup_printf ("%s mm", figure);
  }
  return value;
}

static TwValue
throw_reference (TwThrow *self, const TwField *field)
{
  for (guint i = 0; i < 40; i++) {
    const TwPart *target = any_part (self, FALSE);

    if (target != NULL && tw_field_may_refer (field, target->kind))
      return tw_value_ref (target->id);
  }
  return tw_value_unknown (TW_FIELD_REF);
}

static TwValue
throw_value (TwThrow *self, const TwPart *part, guint nth)
{
  const TwField *field = &tw_kind_info (part->kind)->fields[nth];
  TwValue value = tw_value_unknown (field->store);
  int n = 0;

  switch (field->store) {
  case TW_FIELD_NUMBER:
    return throw_number (self, part, nth);
  case TW_FIELD_COUNT:
    value.choice = tw_throw_int (self, (int)field->low, (int)MIN (field->high, 60));
    break;
  case TW_FIELD_CHOICE:
    while (field->choices[n].name != NULL)
      n++;
    value.choice = tw_throw_int (self, -1, n - 1);
    break;
  case TW_FIELD_FLAG:
    value.choice = tw_throw_int (self, -1, 1);
    break;
  case TW_FIELD_TEXT:
    if (tw_throw_chance (self, 0.8))
      value.text = field->high >= 100 ? tw_throw_name (self, "thing") : g_strdup ("-8");
    break;
  case TW_FIELD_REF:
    return throw_reference (self, field);
  }
  return value;
}

static TwChange *
throw_set (TwThrow *self)
{
  const TwPart *part = any_part (self, TRUE), *target = part;
  TwId element = TW_ID_NONE;
  GPtrArray *elements;
  TwValue value;
  guint list, field;

  elements = tw_throw_chance (self, 0.3) ? any_list (self, part, &list) : NULL;
  if (elements != NULL && elements->len > 0) {
    target = g_ptr_array_index (elements, (guint)tw_throw_int (self, 0, (int)elements->len - 1));
    element = target->id;
  }
  field = (guint)tw_throw_int (self, 0, (int)tw_kind_info (target->kind)->n_fields - 1);
  value = throw_value (self, target, field);
  return tw_change_set (part->id, element, field, &value);
}

static TwChange *
throw_add (TwThrow *self)
{
  TwKind kind = (TwKind)tw_throw_int (self, TW_KIND_SETTINGS + 1, TW_FIRST_ELEMENT - 1);
  g_autofree char *text = g_strdup_printf ("thrown-%08x", g_rand_int (self->rng));
  TwPart *made;
  TwId id;

  /* Within a group a later member may speak of it: then it must be the same in the job as in the copy. */
  if (!tw_id_from_text (text, &id))
    g_assert_not_reached ();
  made = tw_throw_part (self, kind, self->in_group || tw_throw_chance (self, 0.5) ? id : TW_ID_NONE);
  if (made == NULL)
    return NULL;
  return tw_change_add (made, tw_throw_int (self, -1, (int)tw_job_count (self->job, kind)));
}

static TwChange *
throw_add_element (TwThrow *self)
{
  const TwPart *part = any_part (self, FALSE);
  guint list = 0;
  GPtrArray *elements = part != NULL ? any_list (self, part, &list) : NULL;
  TwPart *made;

  if (elements == NULL)
    return NULL;
  made = tw_part_new (tw_kind_info (part->kind)->lists[list].element, TW_ID_NONE);
  for (guint i = 0; i < tw_kind_info (made->kind)->n_fields; i++) {
    TwValue value = throw_value (self, made, i);

    tw_part_put (made, i, &value);
  }
  return tw_change_add_element (part->id, list, made, tw_throw_int (self, -1, (int)elements->len));
}

static TwChange *
throw_remove (TwThrow *self)
{
  const TwPart *part = any_part (self, FALSE);
  guint list = 0;
  GPtrArray *elements = part != NULL ? any_list (self, part, &list) : NULL;

  if (part == NULL)
    return NULL;
  if (elements != NULL && elements->len > 0 && tw_throw_chance (self, 0.6)) {
    const TwPart *element
        = g_ptr_array_index (elements, (guint)tw_throw_int (self, 0, (int)elements->len - 1));

    return tw_change_remove (part->id, element->id);
  }
  return tw_throw_chance (self, 0.3) ? tw_change_remove_whole (self->job, part->id)
                                     : tw_change_remove (part->id, TW_ID_NONE);
}

static TwChange *
throw_reorder (TwThrow *self)
{
  const TwPart *part = any_part (self, FALSE);
  guint list = 0;
  GPtrArray *elements = part != NULL ? any_list (self, part, &list) : NULL;

  if (part == NULL)
    return NULL;
  if (elements != NULL && elements->len > 0 && tw_throw_chance (self, 0.6)) {
    const TwPart *element
        = g_ptr_array_index (elements, (guint)tw_throw_int (self, 0, (int)elements->len - 1));

    return tw_change_reorder (part->id, element->id, (guint)tw_throw_int (self, 0, (int)elements->len - 1));
  }
  return tw_change_reorder (part->id, TW_ID_NONE,
                            (guint)tw_throw_int (self, 0, (int)tw_job_count (self->job, part->kind) - 1));
}

/* A change that the job thrown on accepts, applied to it; NULL after too many that it does not. */
static TwChange *
throw_accepted (TwThrow *self)
{
  static TwChange *(*const throws[]) (TwThrow *)
      = { throw_set, throw_set, throw_set, throw_add, throw_add_element, throw_remove, throw_reorder };

  for (guint i = 0; i < 100; i++) {
    g_autoptr (TwChange) change = throws[tw_throw_int (self, 0, G_N_ELEMENTS (throws) - 1)](self);
    g_autoptr (TwChange) inverse = NULL;

    if (change != NULL && tw_change_apply (change, self->job, &inverse, NULL))
      return g_steal_pointer (&change);
  }
  return NULL;
}

TwChange *
tw_random_change (const TwJob *job, GRand *rng)
{
  g_autoptr (TwJob) copy = tw_make_copy (job);
  TwThrow self = { .rng = rng, .job = copy };
  TwChange *group;

  if (!tw_throw_chance (&self, 0.15))
    return throw_accepted (&self);
  self.in_group = TRUE;
  group = tw_change_group (tw_throw_chance (&self, 0.5) ? "Several things" : NULL);
  for (int i = tw_throw_int (&self, 1, 4); i > 0; i--) {
    TwChange *member = throw_accepted (&self);

    if (member != NULL)
      tw_change_group_add (group, member);
  }
  return group;
}
