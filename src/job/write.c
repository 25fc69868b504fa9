/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/write.h"

#include "base/json.h"
#include "job/read.h"
#include "job/write-private.h"

#include <math.h>
#include <string.h>

cJSON *
tw_job_write_value (const TwField *field, const TwValue *value)
{
  switch (field->store) {
  case TW_FIELD_NUMBER:
    return isnan (value->number) ? NULL : cJSON_CreateNumber (value->number);
  case TW_FIELD_COUNT:
    return value->choice < 0 ? NULL : cJSON_CreateNumber (value->choice);
  case TW_FIELD_FLAG:
    return value->choice < 0 ? NULL : cJSON_CreateBool (value->choice);
  case TW_FIELD_CHOICE:
    return value->choice < 0 ? NULL : cJSON_CreateString (field->choices[value->choice].name);
  case TW_FIELD_TEXT:
    return value->text == NULL ? NULL : cJSON_CreateString (value->text);
  case TW_FIELD_REF:
    return tw_id_is_none (value->ref) ? NULL : cJSON_CreateString (value->ref.text);
  }
  g_assert_not_reached ();
}

static void
write_field (cJSON *object, const TwPart *part, guint nth)
{
  const TwField *field = &tw_kind_info (part->kind)->fields[nth];
  g_autofree char *typed_name = tw_field_typed_name (field);
  TwValue value = tw_part_get (part, nth);
  cJSON *item = tw_job_write_value (field, &value);

  if (item != NULL)
    cJSON_AddItemToObject (object, field->name, item);
  if (typed_name != NULL && value.typed != NULL)
    cJSON_AddStringToObject (object, typed_name, value.typed);
  tw_value_clear (&value);
}

static void
write_extra (cJSON *object, const cJSON *extra)
{
  const cJSON *child;

  cJSON_ArrayForEach (child, extra)
    cJSON_AddItemToObject (object, child->string, cJSON_Duplicate (child, TRUE));
}

cJSON *
tw_job_write_part (const TwPart *part)
{
  const TwKindInfo *info = tw_kind_info (part->kind);
  cJSON *object = cJSON_CreateObject ();

  if (!tw_id_is_none (part->id))
    cJSON_AddStringToObject (object, "id", part->id.text);
  for (guint i = 0; i < info->n_fields; i++)
    write_field (object, part, i);
  for (guint i = 0; i < info->n_lists; i++) {
    GPtrArray *elements = tw_part_list (part, i);
    cJSON *list;

    if (elements->len == 0)
      continue;
    list = cJSON_AddArrayToObject (object, info->lists[i].name);
    for (guint k = 0; k < elements->len; k++)
      cJSON_AddItemToArray (list, tw_job_write_part (g_ptr_array_index (elements, k)));
  }
  write_extra (object, part->extra);
  return object;
}

char *
tw_job_write_text (const TwJob *self)
{
  cJSON *tree = cJSON_CreateObject ();
  char *text;

  cJSON_AddNumberToObject (tree, "tankwright-job", TW_JOB_FORMAT);
  for (guint i = 0; i < tw_kind_info (TW_KIND_SETTINGS)->n_fields; i++)
    write_field (tree, (const TwPart *)tw_job_settings (self), i);
  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++) {
    cJSON *list;

    if (tw_job_count (self, kind) == 0)
      continue;
    list = cJSON_AddArrayToObject (tree, tw_kind_info (kind)->member);
    for (guint i = 0; i < tw_job_count (self, kind); i++)
      cJSON_AddItemToArray (list, tw_job_write_part (tw_job_get (self, kind, i)));
  }
  write_extra (tree, tw_job_extra (self));
  text = tw_json_print (tree);
  cJSON_Delete (tree);
  return text;
}

char *
tw_job_digest (const TwJob *self)
{
  g_autofree char *identity = tw_job_identity (self);

  return g_strndup (identity, 8);
}

char *
tw_job_identity (const TwJob *self)
{
  g_autofree char *text = tw_job_write_text (self);

  return g_compute_checksum_for_string (G_CHECKSUM_SHA256, text, -1);
}

gboolean
tw_job_save (const TwJob *self, const char *path, GError **error)
{
  g_autofree char *text = tw_job_write_text (self);

  return tw_write_file (path, text, strlen (text), error);
}
