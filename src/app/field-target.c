/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/field-target.h"

#include <glib/gi18n-lib.h>

struct _TwFieldTarget {
  TwSession *session;
  TwKind kind;   /* of the part, or of the element */
  GArray *parts; /* of TwId */
  TwId element;
  guint field;
};

const TwPart *
tw_field_target_owner (const TwFieldTarget *self, guint nth)
{
  const TwJob *job = tw_session_job (self->session);
  const TwPart *part = job != NULL ? tw_job_find (job, g_array_index (self->parts, TwId, nth)) : NULL;

  if (part == NULL || tw_id_is_none (self->element))
    return part;
  return tw_part_element (part, self->element, NULL);
}

TwFieldTarget *
tw_field_target_new (TwSession *session, const TwId *parts, guint n, TwId element, guint field)
{
  TwFieldTarget *self = g_new0 (TwFieldTarget, 1);

  self->session = g_object_ref (session);
  self->parts = g_array_new (FALSE, FALSE, sizeof (TwId));
  g_array_append_vals (self->parts, parts, n);
  self->element = element;
  self->field = field;
  self->kind = tw_field_target_owner (self, 0)->kind;
  return self;
}

void
tw_field_target_free (TwFieldTarget *self)
{
  g_object_unref (self->session);
  g_array_unref (self->parts);
  g_free (self);
}

TwSession *
tw_field_target_session (const TwFieldTarget *self)
{
  return self->session;
}

guint
tw_field_target_n (const TwFieldTarget *self)
{
  return self->parts->len;
}

guint
tw_field_target_field (const TwFieldTarget *self)
{
  return self->field;
}

const TwField *
tw_field_target_info (const TwFieldTarget *self)
{
  return &tw_kind_info (self->kind)->fields[self->field];
}

char *
tw_field_target_key (const TwFieldTarget *self)
{
  GString *key = g_string_new (NULL);

  for (guint i = 0; i < self->parts->len; i++)
    g_string_append_printf (key, "%s/", g_array_index (self->parts, TwId, i).text);
  g_string_append_printf (key, "%s/%u", self->element.text, self->field);
  return g_string_free (key, FALSE);
}

gboolean
tw_field_target_get (const TwFieldTarget *self, TwValue *value)
{
  const TwPart *owner = tw_field_target_owner (self, 0);
  gboolean same = owner != NULL;

  *value = same ? tw_part_get (owner, self->field) : tw_value_unknown (tw_field_target_info (self)->store);
  for (guint i = 1; i < self->parts->len && same; i++) {
    const TwPart *other = tw_field_target_owner (self, i);
    TwValue there;

    if ((same = other != NULL)) {
      there = tw_part_get (other, self->field);
      same = tw_value_equal (value, &there);
      if (same && g_strcmp0 (value->typed, there.typed) != 0)
        g_clear_pointer (&value->typed, g_free);
      tw_value_clear (&there);
    }
  }
  if (!same)
    tw_value_clear (value);
  return same;
}

static TwValue
copy_value (const TwValue *value)
{
  TwValue copy = *value;

  copy.text = g_strdup (value->text);
  copy.typed = g_strdup (value->typed);
  return copy;
}

gboolean
tw_field_target_set (const TwFieldTarget *self, TwValue *value, GError **error)
{
  g_autofree char *label = NULL;
  TwChange *group;

  if (self->parts->len == 1)
    return tw_session_do (
        self->session,
        tw_change_set (g_array_index (self->parts, TwId, 0), self->element, self->field, value), error);
  /* Translators: a step that can be undone: a field, of so many parts */
  label = g_strdup_printf (_ ("%s of %u parts"), _ (tw_field_target_info (self)->label), self->parts->len);
  group = tw_change_group (label);
  for (guint i = 0; i < self->parts->len; i++) {
    TwValue copy = copy_value (value);

    tw_change_group_add (
        group, tw_change_set (g_array_index (self->parts, TwId, i), self->element, self->field, &copy));
  }
  tw_value_clear (value);
  return tw_session_do (self->session, group, error);
}

gboolean
tw_field_target_is_needed (const TwFieldTarget *self)
{
  const TwField *field = tw_field_target_info (self);

  return field->store == TW_FIELD_REF && field->low > 0.0;
}
