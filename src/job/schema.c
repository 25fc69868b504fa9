/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/schema.h"

#include "base/json.h"
#include "job/read.h"

#define ID_PATTERN "^[a-z0-9_-]{1,31}$"

static cJSON *
new_type (const char *type)
{
  cJSON *schema = cJSON_CreateObject ();

  cJSON_AddStringToObject (schema, "type", type);
  return schema;
}

static cJSON *
new_id (void)
{
  cJSON *schema = new_type ("string");

  cJSON_AddStringToObject (schema, "pattern", ID_PATTERN);
  return schema;
}

static cJSON *
new_choice (const TwChoice *choices)
{
  cJSON *schema = cJSON_CreateObject (), *names = cJSON_AddArrayToObject (schema, "enum");

  for (; choices->name != NULL; choices++)
    cJSON_AddItemToArray (names, cJSON_CreateString (choices->name));
  return schema;
}

static cJSON *
new_value (const TwField *field)
{
  cJSON *schema;

  switch (field->store) {
  case TW_FIELD_NUMBER:
  case TW_FIELD_COUNT:
    schema = new_type (field->store == TW_FIELD_COUNT ? "integer" : "number");
    cJSON_AddNumberToObject (schema, "minimum", field->low);
    cJSON_AddNumberToObject (schema, "maximum", field->high);
    return schema;
  case TW_FIELD_CHOICE:
    return new_choice (field->choices);
  case TW_FIELD_FLAG:
    return new_type ("boolean");
  case TW_FIELD_TEXT:
    schema = new_type ("string");
    cJSON_AddNumberToObject (schema, "maxLength", field->high);
    return schema;
  case TW_FIELD_REF:
    return new_id ();
  }
  g_assert_not_reached ();
}

/* The typed text of a figure stands beside it, never alone. */
static void
add_typed (cJSON *members, cJSON *together, const TwField *field)
{
  g_autofree char *name = tw_field_typed_name (field);
  g_autofree char *text = g_strdup_printf ("%s as it was typed, with its unit", field->name);
  cJSON *schema, *needs;

  if (name == NULL)
    return;
  schema = new_type ("string");
  cJSON_AddNumberToObject (schema, "maxLength", TW_FIELD_LONGEST_TYPED);
  cJSON_AddStringToObject (schema, "description", text);
  cJSON_AddItemToObject (members, name, schema);
  needs = cJSON_AddArrayToObject (together, name);
  cJSON_AddItemToArray (needs, cJSON_CreateString (field->name));
}

static void
add_fields (cJSON *members, cJSON *together, cJSON *needed, const TwKindInfo *info)
{
  for (guint i = 0; i < info->n_fields; i++) {
    const TwField *field = &info->fields[i];
    g_autofree char *text = g_strdup_printf ("%s: %s", field->label, field->hint);
    cJSON *schema = new_value (field);

    cJSON_AddStringToObject (schema, "description", text);
    cJSON_AddItemToObject (members, field->name, schema);
    add_typed (members, together, field);
    if (field->store == TW_FIELD_REF && field->low >= 1)
      cJSON_AddItemToArray (needed, cJSON_CreateString (field->name));
  }
}

/* A list may be empty; if it is not, it holds its fewest. */
static void
add_list (cJSON *members, const TwList *list)
{
  g_autofree char *ref = g_strdup_printf ("#/$defs/%s", tw_kind_info (list->element)->stem);
  cJSON *schema = new_type ("array"), *items = cJSON_AddObjectToObject (schema, "items");

  cJSON_AddStringToObject (items, "$ref", ref);
  cJSON_AddNumberToObject (schema, "maxItems", list->most);
  if (list->fewest > 1) {
    cJSON *either = cJSON_AddArrayToObject (schema, "anyOf");
    cJSON *none = cJSON_CreateObject (), *enough = cJSON_CreateObject ();

    cJSON_AddNumberToObject (none, "maxItems", 0);
    cJSON_AddNumberToObject (enough, "minItems", list->fewest);
    cJSON_AddItemToArray (either, none);
    cJSON_AddItemToArray (either, enough);
  }
  cJSON_AddStringToObject (schema, "description", list->label);
  cJSON_AddItemToObject (members, list->name, schema);
}

static cJSON *
new_kind (TwKind kind)
{
  const TwKindInfo *info = tw_kind_info (kind);
  cJSON *schema = new_type ("object"), *members, *together, *needed;

  cJSON_AddStringToObject (schema, "description", info->noun);
  members = cJSON_AddObjectToObject (schema, "properties");
  needed = cJSON_AddArrayToObject (schema, "required");
  together = cJSON_AddObjectToObject (schema, "dependentRequired");
  cJSON_AddItemToObject (members, "id", new_id ());
  if (kind < TW_FIRST_ELEMENT)
    cJSON_AddItemToArray (needed, cJSON_CreateString ("id"));
  add_fields (members, together, needed, info);
  for (guint i = 0; i < info->n_lists; i++)
    add_list (members, &info->lists[i]);
  return schema;
}

static void
add_kinds (cJSON *members, cJSON *kinds)
{
  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_N_KINDS; kind++) {
    const TwKindInfo *info = tw_kind_info (kind);

    cJSON_AddItemToObject (kinds, info->stem, new_kind (kind));
    if (kind < TW_FIRST_ELEMENT) {
      g_autofree char *ref = g_strdup_printf ("#/$defs/%s", info->stem);
      cJSON *list = new_type ("array");

      cJSON_AddStringToObject (cJSON_AddObjectToObject (list, "items"), "$ref", ref);
      cJSON_AddNumberToObject (list, "maxItems", TW_JOB_MOST_PARTS);
      cJSON_AddItemToObject (members, info->member, list);
    }
  }
}

char *
tw_job_schema_text (void)
{
  cJSON *schema = cJSON_CreateObject (), *members, *together, *needed, *format;
  char *text;

  cJSON_AddStringToObject (schema, "$schema", "https://json-schema.org/draft/2020-12/schema");
  cJSON_AddStringToObject (schema, "title", "Tankwright job");
  cJSON_AddStringToObject (
      schema, "description",
      "Lengths are millimetres, angles degrees, other units stand at the end of a name. An "
      "absent member is unknown. Members that are not named here are kept.");
  cJSON_AddStringToObject (schema, "type", "object");
  members = cJSON_AddObjectToObject (schema, "properties");
  needed = cJSON_AddArrayToObject (schema, "required");
  together = cJSON_AddObjectToObject (schema, "dependentRequired");
  format = cJSON_AddObjectToObject (members, "tankwright-job");
  cJSON_AddNumberToObject (format, "const", TW_JOB_FORMAT);
  cJSON_AddItemToArray (needed, cJSON_CreateString ("tankwright-job"));
  add_fields (members, together, needed, tw_kind_info (TW_KIND_SETTINGS));
  add_kinds (members, cJSON_AddObjectToObject (schema, "$defs"));
  text = tw_json_print (schema);
  cJSON_Delete (schema);
  return text;
}
