/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/change-text.h"

#include "base/json.h"
#include "job/change-private.h"
#include "job/write-private.h"

/* The job before the change, on which the writer does what it has written: so it knows the kinds of what is
 * set later in a group. NULL: every change knows them itself. */
typedef struct {
  TwJob *job;
} Writer;

static TwKind
kind_of_target (const Writer *self, const TwChange *change)
{
  const TwPart *target = self->job != NULL ? tw_job_find (self->job, change->part) : NULL;

  if (target != NULL && !tw_id_is_none (change->element))
    target = tw_part_element (target, change->element, NULL);
  return target != NULL ? target->kind : TW_N_KINDS;
}

static TwKind
kind_of_owner (const Writer *self, const TwChange *change)
{
  const TwPart *part = self->job != NULL ? tw_job_find (self->job, change->part) : NULL;

  return part != NULL ? part->kind : TW_N_KINDS;
}

static void
do_it (Writer *self, const TwChange *change)
{
  g_autoptr (TwChange) inverse = NULL;

  if (self->job != NULL)
    (void)tw_change_apply_unchecked (change, self->job, &inverse, NULL);
}

static void
write_set (const Writer *self, const TwChange *change, cJSON *object)
{
  TwKind kind = change->owner != TW_N_KINDS ? change->owner : kind_of_target (self, change);
  const TwField *field;
  cJSON *value;

  g_return_if_fail (kind < TW_N_KINDS);
  field = &tw_kind_info (kind)->fields[change->field];
  value = tw_job_write_value (field, &change->value);
  cJSON_AddStringToObject (object, "set", change->part.text);
  if (!tw_id_is_none (change->element))
    cJSON_AddStringToObject (object, "element", change->element.text);
  cJSON_AddStringToObject (object, "kind", tw_kind_info (kind)->stem);
  cJSON_AddStringToObject (object, "field", field->name);
  cJSON_AddItemToObject (object, "value", value != NULL ? value : cJSON_CreateNull ());
  if (change->value.typed != NULL)
    cJSON_AddStringToObject (object, "typed", change->value.typed);
}

static void
write_add (const Writer *self, const TwChange *change, cJSON *object)
{
  TwKind kind = change->made->kind;

  cJSON_AddItemToObject (object, "add", tw_job_write_part (change->made));
  if (kind >= TW_FIRST_ELEMENT) {
    kind = change->owner != TW_N_KINDS ? change->owner : kind_of_owner (self, change);
    g_return_if_fail (kind < TW_N_KINDS);
    cJSON_AddStringToObject (object, "to", change->part.text);
    cJSON_AddStringToObject (object, "kind", tw_kind_info (kind)->stem);
    cJSON_AddStringToObject (object, "list", tw_kind_info (kind)->lists[change->list].name);
  } else {
    cJSON_AddStringToObject (object, "kind", tw_kind_info (kind)->stem);
  }
  cJSON_AddNumberToObject (object, "nth", change->nth);
}

static cJSON *
write_any (Writer *self, const TwChange *change)
{
  cJSON *object = cJSON_CreateObject (), *list;

  switch (change->kind) {
  case TW_CHANGE_SET:
    write_set (self, change, object);
    break;
  case TW_CHANGE_ADD:
    write_add (self, change, object);
    break;
  case TW_CHANGE_REMOVE:
  case TW_CHANGE_REORDER:
    cJSON_AddStringToObject (object, change->kind == TW_CHANGE_REMOVE ? "remove" : "reorder",
                             change->part.text);
    if (!tw_id_is_none (change->element))
      cJSON_AddStringToObject (object, "element", change->element.text);
    if (change->kind == TW_CHANGE_REORDER)
      cJSON_AddNumberToObject (object, "nth", change->nth);
    break;
  case TW_CHANGE_GROUP:
    list = cJSON_AddArrayToObject (object, "group");
    for (guint i = 0; i < change->members->len; i++)
      cJSON_AddItemToArray (list, write_any (self, g_ptr_array_index (change->members, i)));
    if (change->label != NULL)
      cJSON_AddStringToObject (object, "label", change->label);
    return object;
  }
  do_it (self, change);
  return object;
}

cJSON *
tw_change_write_json (const TwChange *self, const TwJob *before)
{
  g_autoptr (TwJob) job = before != NULL ? tw_job_copy (before) : NULL;
  Writer writer = { job };

  return write_any (&writer, self);
}

char *
tw_change_write_text (const TwChange *self, const TwJob *before)
{
  cJSON *tree = tw_change_write_json (self, before);
  char *text = tw_json_print_line (tree);

  cJSON_Delete (tree);
  return text;
}
