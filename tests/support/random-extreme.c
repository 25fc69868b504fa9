/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/random-private.h"

#include <math.h>

/* Any part of the job, or one of its elements; @owner (out) is the part. */
static const TwPart *
any_target (TwThrow *self, const TwPart **owner)
{
  TwKind kind = (TwKind)tw_throw_int (self, TW_KIND_SETTINGS, TW_FIRST_ELEMENT - 1);
  guint n = tw_job_count (self->job, kind), list;
  GPtrArray *elements;

  if (n == 0)
    return NULL;
  *owner = tw_job_get (self->job, kind, (guint)tw_throw_int (self, 0, (int)n - 1));
  n = tw_kind_info (kind)->n_lists;
  if (n == 0 || tw_throw_chance (self, 0.6))
    return *owner;
  list = (guint)tw_throw_int (self, 0, (int)n - 1);
  elements = tw_part_list (*owner, list);
  return elements->len == 0
             ? *owner
             : g_ptr_array_index (elements, (guint)tw_throw_int (self, 0, (int)elements->len - 1));
}

/* Limits, what lies just within them, nought and near it, and what is a little or much off what was there. */
static double
throw_figure (TwThrow *self, const TwField *field, double now)
{
  double tiny = 1e-9 * (field->high - field->low), near = isnan (now) ? field->low : now;
  double figures[] = { field->low,
                       field->high,
                       field->low + tiny,
                       field->high - tiny,
                       0,
                       1e-7,
                       -1e-7,
                       near,
                       -near,
                       near + 1e-6,
                       near / 2,
                       near * 2,
                       near * 10,
                       tw_throw_double (self, field->low, field->high),
                       (double)NAN };
  double figure = figures[tw_throw_int (self, 0, G_N_ELEMENTS (figures) - 1)];

  return isnan (figure) ? figure : CLAMP (figure, field->low, field->high);
}

static TwValue
throw_extreme (TwThrow *self, const TwPart *part, guint nth)
{
  const TwField *field = &tw_kind_info (part->kind)->fields[nth];
  TwValue value = tw_value_unknown (field->store);
  int n = 0;

  switch (field->store) {
  case TW_FIELD_NUMBER:
    value.number = throw_figure (self, field, G_STRUCT_MEMBER (double, part, field->offset));
    break;
  case TW_FIELD_COUNT:
    value.choice = tw_throw_chance (self, 0.5) ? (int)field->low : tw_throw_int (self, -1, 40);
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
  case TW_FIELD_REF:
    break; /* unknown */
  }
  return value;
}

TwChange *
tw_extreme_change (const TwJob *job, GRand *rng)
{
  g_autoptr (TwJob) copy = tw_make_copy (job);
  TwThrow self = { .rng = rng, .job = copy };

  for (guint i = 0; i < 100; i++) {
    const TwPart *owner = NULL, *target = any_target (&self, &owner);
    g_autoptr (TwChange) change = NULL, inverse = NULL;
    TwValue value;
    guint field;

    if (target == NULL)
      continue;
    field = (guint)tw_throw_int (&self, 0, (int)tw_kind_info (target->kind)->n_fields - 1);
    value = throw_extreme (&self, target, field);
    change = tw_change_set (owner->id, target == owner ? TW_ID_NONE : target->id, field, &value);
    if (tw_change_apply (change, copy, &inverse, NULL))
      return g_steal_pointer (&change);
  }
  return NULL;
}
