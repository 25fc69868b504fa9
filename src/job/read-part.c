/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/change.h"
#include "job/read-private.h"

#include <math.h>
#include <string.h>

void
tw_job_reader_trouble (TwJobReader *self, const char *where, char *found, const char *expected)
{
  tw_troubles_add (self->troubles, g_strdup (where), found, expected);
}

gboolean
tw_job_reader_value (TwJobReader *self,
                     const TwField *field,
                     const cJSON *item,
                     const char *where,
                     TwValue *value)
{
  gboolean right = FALSE;
  g_autofree char *accepts = NULL;

  *value = tw_value_unknown (field->store);
  switch (field->store) {
  case TW_FIELD_NUMBER:
    right = cJSON_IsNumber (item);
    if (right)
      value->number = item->valuedouble;
    break;
  case TW_FIELD_COUNT:
    right = cJSON_IsNumber (item) && item->valuedouble == floor (item->valuedouble)
            && item->valuedouble >= field->low && item->valuedouble <= field->high;
    if (right)
      value->choice = (int)item->valuedouble;
    break;
  case TW_FIELD_FLAG:
    right = cJSON_IsBool (item);
    value->choice = cJSON_IsTrue (item);
    break;
  case TW_FIELD_CHOICE:
    for (int i = 0; cJSON_IsString (item) && field->choices[i].name != NULL; i++)
      if (g_str_equal (field->choices[i].name, item->valuestring))
        value->choice = i;
    right = value->choice >= 0;
    break;
  case TW_FIELD_TEXT:
    right = cJSON_IsString (item);
    if (right)
      value->text = g_strdup (item->valuestring);
    break;
  case TW_FIELD_REF:
    right = cJSON_IsString (item) && tw_id_from_text (item->valuestring, &value->ref);
    break;
  }
  if (right && tw_value_check (field, value, NULL))
    return TRUE;
  accepts = tw_field_accepts (field);
  tw_job_reader_trouble (self, where, tw_json_found (item), accepts);
  tw_value_clear (value);
  return FALSE;
}

void
tw_job_reader_typed (TwJobReader *self,
                     const TwField *field,
                     const cJSON *item,
                     const char *where,
                     TwValue *value)
{
  double number;

  if (!cJSON_IsString (item) || strlen (item->valuestring) > TW_FIELD_LONGEST_TYPED
      || !tw_units_parse (field->quantity, &TW_UNIT_STYLE_MM, item->valuestring, &number, NULL)) {
    tw_job_reader_trouble (self, where, tw_json_found (item), _ ("a figure with its unit, as it was typed"));
    return;
  }
  if (!(fabs (number - value->number) <= 1e-9 * MAX (1, fabs (number)))) {
    g_autofree char *expected = g_strdup_printf (_ ("the same figure as %s"), field->name);

    tw_job_reader_trouble (self, where, tw_json_found (item), expected);
    return;
  }
  value->typed = g_strdup (item->valuestring);
}

static char *
member_place (const char *where, const char *name)
{
  return where[0] != '\0' ? g_strdup_printf ("%s.%s", where, name) : g_strdup (name);
}

/* A member that is not there, or is there only as it was typed. */
static void
read_nothing (TwJobReader *self, const TwField *field, const cJSON *typed, const char *where)
{
  g_autofree char *accepts = NULL, *place = NULL;

  if (field->store == TW_FIELD_REF && field->low >= 1) {
    accepts = tw_field_accepts (field);
    place = member_place (where, field->name);
    tw_job_reader_trouble (self, place, g_strdup (_ ("nothing")), accepts);
  }
  if (typed != NULL) {
    place = member_place (where, typed->string);
    tw_job_reader_trouble (self, place, tw_json_found (typed), _ ("no typed text without its figure"));
  }
}

static void
read_field (TwJobReader *self, TwPart *part, guint nth, const cJSON *object, const char *where)
{
  const TwField *field = &tw_kind_info (part->kind)->fields[nth];
  const cJSON *item = cJSON_GetObjectItemCaseSensitive (object, field->name), *typed = NULL;
  g_autofree char *place = NULL, *typed_place = NULL;
  TwValue value;

  for (typed = object->child; typed != NULL; typed = typed->next)
    if (tw_field_is_typed_name (field, typed->string))
      break;
  if (item == NULL) {
    read_nothing (self, field, typed, where);
    return;
  }
  place = member_place (where, field->name);
  if (!tw_job_reader_value (self, field, item, place, &value))
    return;
  if (typed != NULL) {
    typed_place = member_place (where, typed->string);
    tw_job_reader_typed (self, field, typed, typed_place, &value);
  }
  tw_part_put (part, nth, &value);
}

void
tw_job_reader_fields (TwJobReader *self, TwPart *part, const cJSON *object, const char *where)
{
  for (guint i = 0; i < tw_kind_info (part->kind)->n_fields; i++)
    read_field (self, part, i, object, where);
}

static gboolean
is_known (TwKind kind, const char *name)
{
  const TwKindInfo *info = tw_kind_info (kind);

  if (tw_kind_field (kind, name) >= 0 || tw_kind_list (kind, name) >= 0)
    return TRUE;
  for (guint i = 0; i < info->n_fields; i++)
    if (tw_field_is_typed_name (&info->fields[i], name))
      return TRUE;
  if (kind != TW_KIND_SETTINGS)
    return g_str_equal (name, "id");
  for (guint i = TW_KIND_SETTINGS + 1; i < TW_FIRST_ELEMENT; i++)
    if (g_str_equal (name, tw_kind_info (i)->member))
      return TRUE;
  return g_str_equal (name, "tankwright-job");
}

cJSON *
tw_job_reader_unknown (TwKind kind, const cJSON *object)
{
  cJSON *extra = NULL;
  const cJSON *child;

  cJSON_ArrayForEach (child, object)
    if (!is_known (kind, child->string)) {
      if (extra == NULL)
        extra = cJSON_CreateObject ();
      cJSON_AddItemToObject (extra, child->string, cJSON_Duplicate (child, TRUE));
    }
  return extra;
}

static void
read_id (TwJobReader *self, TwPart *part, const cJSON *object, const char *where, gboolean needed)
{
  const cJSON *item = cJSON_GetObjectItemCaseSensitive (object, "id");
  g_autofree char *place = g_strdup_printf ("%s.id", where);
  const char *expected = _ ("an id of 1 to 31 characters a-z, 0-9, - and _");

  if (item == NULL) {
    if (needed)
      tw_job_reader_trouble (self, place, g_strdup (_ ("nothing")), expected);
  } else if (!cJSON_IsString (item) || !tw_id_from_text (item->valuestring, &part->id)) {
    tw_job_reader_trouble (self, place, tw_json_found (item), expected);
  }
}

static TwId
unused_element_id (const TwPart *part, TwKind kind, guint *last)
{
  TwId id;

  do {
    g_autofree char *text = g_strdup_printf ("%s-%u", tw_kind_info (kind)->stem, ++*last);

    if (!tw_id_from_text (text, &id))
      g_assert_not_reached ();
  } while (tw_part_element (part, id, NULL) != NULL);
  return id;
}

/* Elements without an id are given one that the part's others do not have. */
static void
name_elements (TwPart *part)
{
  for (guint l = 0; l < tw_kind_info (part->kind)->n_lists; l++) {
    GPtrArray *elements = tw_part_list (part, l);
    guint last = 0;

    for (guint i = 0; i < elements->len; i++) {
      TwPart *element = g_ptr_array_index (elements, i);

      if (tw_id_is_none (element->id))
        element->id = unused_element_id (part, element->kind, &last);
    }
  }
}

static void
check_element_ids (TwJobReader *self, const TwPart *part, const char *where)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint l = 0; l < tw_kind_info (part->kind)->n_lists; l++) {
    GPtrArray *elements = tw_part_list (part, l);

    for (guint i = 0; i < elements->len; i++) {
      TwPart *element = g_ptr_array_index (elements, i);

      if (!tw_id_is_none (element->id) && !g_hash_table_add (seen, element->id.text))
        tw_troubles_add (self->troubles,
                         g_strdup_printf ("%s.%s[%u].id", where, tw_kind_info (part->kind)->lists[l].name, i),
                         g_strdup_printf ("\"%s\"", element->id.text), _ ("an id that no other element has"));
    }
  }
}

static void
read_list (TwJobReader *self, TwPart *part, guint nth, const cJSON *object, const char *where)
{
  const TwList *list = &tw_kind_info (part->kind)->lists[nth];
  const cJSON *item = cJSON_GetObjectItemCaseSensitive (object, list->name), *child;
  g_autofree char *place = g_strdup_printf ("%s.%s", where, list->name);
  guint n = 0, count;

  if (item == NULL)
    return;
  count = cJSON_IsArray (item) ? (guint)cJSON_GetArraySize (item) : 0;
  if (!cJSON_IsArray (item) || count > list->most || (count > 0 && count < list->fewest)) {
    g_autofree char *expected = g_strdup_printf (_ ("a list of %u to %u"), list->fewest, list->most);

    tw_job_reader_trouble (
        self, place, cJSON_IsArray (item) ? g_strdup_printf (_ ("%u of them"), count) : tw_json_found (item),
        expected);
    return;
  }
  cJSON_ArrayForEach (child, item) {
    g_autofree char *at = g_strdup_printf ("%s[%u]", place, n++);
    TwPart *element = tw_job_reader_part (self, list->element, child, at);

    if (element != NULL)
      g_ptr_array_add (tw_part_list (part, nth), element);
  }
}

/* A part or element; NULL when @object is no object. */
TwPart *
tw_job_reader_part (TwJobReader *self, TwKind kind, const cJSON *object, const char *where)
{
  const TwKindInfo *info = tw_kind_info (kind);
  TwPart *part;

  if (!cJSON_IsObject (object)) {
    tw_job_reader_trouble (self, where, tw_json_found (object), _ ("an object"));
    return NULL;
  }
  part = tw_part_new (kind, TW_ID_NONE);
  read_id (self, part, object, where, kind < TW_FIRST_ELEMENT && !self->unnamed);
  tw_job_reader_fields (self, part, object, where);
  for (guint i = 0; i < info->n_lists; i++)
    read_list (self, part, i, object, where);
  check_element_ids (self, part, where);
  if (!self->unnamed)
    name_elements (part);
  part->extra = tw_job_reader_unknown (kind, object);
  return part;
}
