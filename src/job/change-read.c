/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/change-text.h"

#include "base/json.h"
#include "job/change-private.h"
#include "job/read-private.h"
#include "job/read.h"

#include <math.h>
#include <string.h>

#define LONGEST_LABEL 1000 /* bytes */

/* Parts stand a little deeper in a change than in a job file. */
#define DEEPEST (TW_READ_DEEPEST + 2 * TW_CHANGE_TEXT_DEEPEST + 4)

typedef struct {
  TwJobReader reader;
  const cJSON *object; /* the change that is read */
  const char *where;   /* leads to it */
  guint depth;         /* groups around it */
} Scribe;

static TwChange *read_any (const Scribe *outer, const cJSON *tree, const char *where);

/* A trouble with member @name of the change; takes @found. */
static void
trouble (Scribe *self, const char *name, char *found, const char *expected)
{
  g_autofree char *place = self->where[0] != '\0' && name[0] != '\0'
                               ? g_strdup_printf ("%s.%s", self->where, name)
                               : g_strconcat (self->where, name, NULL);

  tw_job_reader_trouble (&self->reader, place[0] != '\0' ? place : _ ("the change"), found, expected);
}

static const cJSON *
member (Scribe *self, const char *name)
{
  return cJSON_GetObjectItemCaseSensitive (self->object, name);
}

static void
wrong (Scribe *self, const char *name, const char *expected)
{
  const cJSON *item = member (self, name);

  trouble (self, name, item != NULL ? tw_json_found (item) : g_strdup (_ ("nothing")), expected);
}

/* An id that must be there. */
static gboolean
read_id (Scribe *self, const char *name, TwId *id)
{
  const cJSON *item = member (self, name);

  if (cJSON_IsString (item) && tw_id_from_text (item->valuestring, id))
    return TRUE;
  wrong (self, name, _ ("an id of 1 to 31 characters a-z, 0-9, - and _"));
  return FALSE;
}

/* The element that is meant; TW_ID_NONE when none is named. */
static gboolean
read_element (Scribe *self, TwId *element)
{
  *element = TW_ID_NONE;
  return member (self, "element") == NULL || read_id (self, "element", element);
}

static gboolean
read_place (Scribe *self, int lowest, int *nth)
{
  const cJSON *item = member (self, "nth");

  if (cJSON_IsNumber (item) && item->valuedouble == floor (item->valuedouble) && item->valuedouble >= lowest
      && item->valuedouble <= G_MAXINT) {
    *nth = (int)item->valuedouble;
    return TRUE;
  }
  wrong (self, "nth", lowest < 0 ? _ ("a place in the list, or -1 for the last") : _ ("a place in the list"));
  return FALSE;
}

static gboolean
read_kind (Scribe *self, TwKind lowest, TwKind end, TwKind *kind)
{
  const cJSON *item = member (self, "kind");

  *kind = cJSON_IsString (item) ? tw_kind_from_member (item->valuestring) : TW_N_KINDS;
  if (*kind >= lowest && *kind < end && g_str_equal (tw_kind_info (*kind)->stem, item->valuestring))
    return TRUE;
  wrong (self, "kind", _ ("a kind of part, such as tank"));
  return FALSE;
}

/* Members that a change of this kind does not have are a fault: they would be lost. */
static gboolean
only_members (Scribe *self, const char *const *names)
{
  const cJSON *child;
  gboolean ok = TRUE;

  cJSON_ArrayForEach (child, self->object)
    if (!g_strv_contains (names, child->string)) {
      g_autofree char *expected = g_strjoinv (", ", (char **)names);

      trouble (self, child->string, tw_json_found (child), expected);
      ok = FALSE;
    }
  return ok;
}

static char *
place_of (Scribe *self, const char *name)
{
  return self->where[0] != '\0' ? g_strdup_printf ("%s.%s", self->where, name) : g_strdup (name);
}

static TwChange *
read_set (Scribe *self)
{
  static const char *const names[] = { "set", "element", "kind", "field", "value", "typed", NULL };
  const cJSON *field_item = member (self, "field"), *value_item = member (self, "value"),
              *typed = member (self, "typed");
  g_autofree char *place = place_of (self, "value"), *typed_place = place_of (self, "typed");
  TwId part, element;
  TwValue value;
  TwKind kind;
  TwChange *change;
  const TwField *field;
  int nth;

  if (!only_members (self, names) || !read_id (self, "set", &part) || !read_element (self, &element)
      || !read_kind (self, tw_id_is_none (element) ? 0 : TW_FIRST_ELEMENT,
                     tw_id_is_none (element) ? TW_FIRST_ELEMENT : TW_N_KINDS, &kind))
    return NULL;
  nth = cJSON_IsString (field_item) ? tw_kind_field (kind, field_item->valuestring) : -1;
  if (nth < 0) {
    wrong (self, "field", _ ("a field of this kind of part"));
    return NULL;
  }
  field = &tw_kind_info (kind)->fields[nth];
  value = tw_value_unknown (field->store);
  if (value_item == NULL || (cJSON_IsNull (value_item) && !tw_value_check (field, &value, NULL))) {
    g_autofree char *accepts = tw_field_accepts (field);

    wrong (self, "value", accepts);
    return NULL;
  }
  if (!cJSON_IsNull (value_item) && !tw_job_reader_value (&self->reader, field, value_item, place, &value))
    return NULL;
  if (typed != NULL && (field->store != TW_FIELD_NUMBER || isnan (value.number)))
    wrong (self, "typed", _ ("no typed text without its figure"));
  else if (typed != NULL)
    tw_job_reader_typed (&self->reader, field, typed, typed_place, &value);
  change = tw_change_set (part, element, (guint)nth, &value);
  change->owner = kind;
  return change;
}

static TwChange *
read_add_element (Scribe *self)
{
  static const char *const names[] = { "add", "to", "kind", "list", "nth", NULL };
  g_autofree char *place = place_of (self, "add");
  const cJSON *list_item = member (self, "list");
  TwChange *change;
  TwPart *made;
  TwKind kind;
  TwId part;
  int list, nth;

  if (!only_members (self, names) || !read_id (self, "to", &part)
      || !read_kind (self, 0, TW_FIRST_ELEMENT, &kind) || !read_place (self, -1, &nth))
    return NULL;
  list = cJSON_IsString (list_item) ? tw_kind_list (kind, list_item->valuestring) : -1;
  if (list < 0) {
    wrong (self, "list", _ ("a list of this kind of part"));
    return NULL;
  }
  made = tw_job_reader_part (&self->reader, tw_kind_info (kind)->lists[list].element, member (self, "add"),
                             place);
  if (made == NULL)
    return NULL;
  change = tw_change_add_element (part, (guint)list, made, nth);
  change->owner = kind;
  return change;
}

static TwChange *
read_add (Scribe *self)
{
  static const char *const names[] = { "add", "kind", "nth", NULL };
  g_autofree char *place = place_of (self, "add");
  TwPart *made;
  TwKind kind;
  int nth;

  if (member (self, "to") != NULL)
    return read_add_element (self);
  if (!only_members (self, names) || !read_kind (self, TW_KIND_SETTINGS + 1, TW_FIRST_ELEMENT, &kind)
      || !read_place (self, -1, &nth))
    return NULL;
  made = tw_job_reader_part (&self->reader, kind, member (self, "add"), place);
  return made != NULL ? tw_change_add (made, nth) : NULL;
}

/* The settings are always there and in no list. */
static gboolean
read_target (Scribe *self, const char *name, TwId *part, TwId *element)
{
  if (!read_id (self, name, part) || !read_element (self, element))
    return FALSE;
  if (!tw_id_is_none (*element) || !g_str_equal (part->text, "job"))
    return TRUE;
  wrong (self, name, _ ("the id of a part"));
  return FALSE;
}

static TwChange *
read_remove (Scribe *self)
{
  static const char *const names[] = { "remove", "element", NULL };
  TwId part, element;

  if (!only_members (self, names) || !read_target (self, "remove", &part, &element))
    return NULL;
  return tw_change_remove (part, element);
}

static TwChange *
read_reorder (Scribe *self)
{
  static const char *const names[] = { "reorder", "element", "nth", NULL };
  TwId part, element;
  int nth;

  if (!only_members (self, names) || !read_target (self, "reorder", &part, &element)
      || !read_place (self, 0, &nth))
    return NULL;
  return tw_change_reorder (part, element, (guint)nth);
}

static TwChange *
read_group (Scribe *self)
{
  static const char *const names[] = { "group", "label", NULL };
  const cJSON *list = member (self, "group"), *label = member (self, "label"), *child;
  TwChange *group;
  guint n = 0;

  if (!only_members (self, names))
    return NULL;
  if (!cJSON_IsArray (list) || self->depth > TW_CHANGE_TEXT_DEEPEST) {
    g_autofree char *expected
        = g_strdup_printf (_ ("a list of changes, at most %d within each other"), TW_CHANGE_TEXT_DEEPEST);

    wrong (self, "group", expected);
    return NULL;
  }
  if (label != NULL && (!cJSON_IsString (label) || strlen (label->valuestring) > LONGEST_LABEL)) {
    wrong (self, "label", _ ("the name of the step"));
    return NULL;
  }
  group = tw_change_group (label != NULL ? label->valuestring : NULL);
  cJSON_ArrayForEach (child, list) {
    g_autofree char *base = place_of (self, "group"), *where = g_strdup_printf ("%s[%u]", base, n++);
    TwChange *change = read_any (self, child, where);

    if (change != NULL)
      tw_change_group_add (group, change);
  }
  return group;
}

static TwChange *
read_any (const Scribe *outer, const cJSON *tree, const char *where)
{
  static const struct {
    const char *name;
    TwChange *(*read) (Scribe *self);
  } kinds[] = {
    { "set", read_set },         { "add", read_add },     { "remove", read_remove },
    { "reorder", read_reorder }, { "group", read_group },
  };
  Scribe self = { outer->reader, tree, where, outer->depth + 1 };

  for (guint i = 0; cJSON_IsObject (tree) && i < G_N_ELEMENTS (kinds); i++)
    if (member (&self, kinds[i].name) != NULL)
      return kinds[i].read (&self);
  trouble (&self, "", tw_json_found (tree), _ ("a change: set, add, remove, reorder or group"));
  return NULL;
}

TwChange *
tw_change_read_json (const cJSON *tree, const char *where, TwTroubles *troubles)
{
  const Scribe outer = { .reader = { .troubles = troubles, .unnamed = TRUE } };
  guint before = troubles->n;
  TwChange *change = read_any (&outer, tree, where);

  if (troubles->n > before)
    g_clear_pointer (&change, tw_change_free);
  return change;
}

TwChange *
tw_change_read_text (const char *text, gsize length, TwTroubles *troubles)
{
  TwChange *change;
  cJSON *tree;

  if (length > TW_READ_MOST_BYTES) {
    g_autofree char *expected = g_strdup_printf (_ ("at most %d bytes"), TW_READ_MOST_BYTES);

    tw_troubles_add (troubles, g_strdup (_ ("the change")), g_strdup_printf (_ ("%lu bytes"), (gulong)length),
                     expected);
    return NULL;
  }
  tree = tw_json_parse (text, length, DEEPEST, troubles);
  if (tree == NULL)
    return NULL;
  change = tw_change_read_json (tree, "", troubles);
  cJSON_Delete (tree);
  if (troubles->n > 0)
    g_clear_pointer (&change, tw_change_free);
  return change;
}
