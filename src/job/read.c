/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/read.h"

#include "base/json.h"
#include "base/outline.h"
#include "job/change.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct {
  TwJob *job;
  TwTroubles *troubles;
  GHashTable *known; /* names of members that were read, of the object at hand */
} Reader;

static void
trouble (Reader *self, const char *where, char *found, const char *expected)
{
  tw_troubles_add (self->troubles, g_strdup (where), found, expected);
}

/* The value of a field from @item, checked; FALSE when it said a trouble. */
static gboolean
read_value (Reader *self, const TwField *field, const cJSON *item, const char *where, TwValue *value)
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
  trouble (self, where, tw_json_found (item), accepts);
  tw_value_clear (value);
  return FALSE;
}

/* The text as typed must say the same figure as the number beside it. */
static void
read_typed (Reader *self, const TwField *field, const cJSON *item, const char *where, TwValue *value)
{
  double number;

  if (!cJSON_IsString (item) || strlen (item->valuestring) > 60
      || !tw_units_parse (field->quantity, &TW_UNIT_STYLE_MM, item->valuestring, &number, NULL)) {
    trouble (self, where, tw_json_found (item), _ ("a figure with its unit, as it was typed"));
    return;
  }
  if (!(fabs (number - value->number) <= 1e-9 * MAX (1, fabs (number)))) {
    g_autofree char *expected = g_strdup_printf (_ ("the same figure as %s"), field->name);

    trouble (self, where, tw_json_found (item), expected);
    return;
  }
  value->typed = g_strdup (item->valuestring);
}

static void
read_field (Reader *self, TwPart *part, guint nth, const cJSON *object, const char *where)
{
  const TwField *field = &tw_kind_info (part->kind)->fields[nth];
  const cJSON *item = cJSON_GetObjectItemCaseSensitive (object, field->name), *typed = NULL;
  g_autofree char *typed_name = tw_field_typed_name (field);
  g_autofree char *place = where[0] ? g_strdup_printf ("%s.%s", where, field->name) : g_strdup (field->name);
  g_autofree char *typed_place = typed_name == NULL ? NULL
                                 : where[0]         ? g_strdup_printf ("%s.%s", where, typed_name)
                                                    : g_strdup (typed_name);
  TwValue value;

  g_hash_table_add (self->known, g_strdup (field->name));
  if (typed_name != NULL) {
    typed = cJSON_GetObjectItemCaseSensitive (object, typed_name);
    g_hash_table_add (self->known, g_strdup (typed_name));
  }
  if (item == NULL) {
    g_autofree char *accepts = tw_field_accepts (field);

    if (field->store == TW_FIELD_REF && field->low >= 1)
      trouble (self, place, g_strdup (_ ("nothing")), accepts);
    if (typed != NULL)
      trouble (self, typed_place, tw_json_found (typed), _ ("no typed text without its figure"));
    return;
  }
  if (!read_value (self, field, item, place, &value))
    return;
  if (typed != NULL)
    read_typed (self, field, typed, typed_place, &value);
  tw_part_put (part, nth, &value);
}

static cJSON *
unknown_members (Reader *self, const cJSON *object)
{
  cJSON *extra = NULL;
  const cJSON *child;

  cJSON_ArrayForEach (child, object)
    if (!g_hash_table_contains (self->known, child->string)) {
      if (extra == NULL)
        extra = cJSON_CreateObject ();
      cJSON_AddItemToObject (extra, child->string, cJSON_Duplicate (child, TRUE));
    }
  return extra;
}

static void
read_id (Reader *self, TwPart *part, const cJSON *object, const char *where, gboolean needed)
{
  const cJSON *item = cJSON_GetObjectItemCaseSensitive (object, "id");
  g_autofree char *place = g_strdup_printf ("%s.id", where);
  const char *expected = _ ("an id of 1 to 31 characters a-z, 0-9, - and _");

  g_hash_table_add (self->known, g_strdup ("id"));
  if (item == NULL) {
    if (needed)
      trouble (self, place, g_strdup (_ ("nothing")), expected);
  } else if (!cJSON_IsString (item) || !tw_id_from_text (item->valuestring, &part->id)) {
    trouble (self, place, tw_json_found (item), expected);
  }
}

static TwPart *read_part (Reader *self, TwKind kind, const cJSON *object, const char *where);

/* Elements without an id are given one that the list's others do not have. */
static void
name_elements (TwPart *part)
{
  for (guint l = 0; l < tw_kind_info (part->kind)->n_lists; l++) {
    GPtrArray *elements = tw_part_list (part, l);
    guint n = 0;

    for (guint i = 0; i < elements->len; i++) {
      TwPart *element = g_ptr_array_index (elements, i);

      while (tw_id_is_none (element->id)) {
        g_autofree char *text = g_strdup_printf ("%s-%u", tw_kind_info (element->kind)->stem, ++n);
        TwId id;

        if (tw_id_from_text (text, &id) && tw_part_element (part, id, NULL) == NULL)
          element->id = id;
      }
    }
  }
}

static void
check_element_ids (Reader *self, const TwPart *part, const char *where)
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
read_list (Reader *self, TwPart *part, guint nth, const cJSON *object, const char *where)
{
  const TwList *list = &tw_kind_info (part->kind)->lists[nth];
  const cJSON *item = cJSON_GetObjectItemCaseSensitive (object, list->name), *child;
  g_autofree char *place = g_strdup_printf ("%s.%s", where, list->name);
  guint n = 0, count;

  g_hash_table_add (self->known, g_strdup (list->name));
  if (item == NULL)
    return;
  count = cJSON_IsArray (item) ? (guint)cJSON_GetArraySize (item) : 0;
  if (!cJSON_IsArray (item) || count > list->most || (count > 0 && count < list->fewest)) {
    g_autofree char *expected = g_strdup_printf (_ ("a list of %u to %u"), list->fewest, list->most);

    trouble (self, place,
             cJSON_IsArray (item) ? g_strdup_printf (_ ("%u of them"), count) : tw_json_found (item),
             expected);
    return;
  }
  cJSON_ArrayForEach (child, item) {
    g_autofree char *at = g_strdup_printf ("%s[%u]", place, n++);
    g_autoptr (GHashTable) outer = g_steal_pointer (&self->known);
    TwPart *element = read_part (self, list->element, child, at);

    self->known = g_steal_pointer (&outer);
    if (element != NULL)
      g_ptr_array_add (tw_part_list (part, nth), element);
  }
}

/* A part or element; NULL when @object is no object. Puts a new set of known members in place of the old. */
static TwPart *
read_part (Reader *self, TwKind kind, const cJSON *object, const char *where)
{
  const TwKindInfo *info = tw_kind_info (kind);
  TwPart *part;

  if (!cJSON_IsObject (object)) {
    trouble (self, where, tw_json_found (object), _ ("an object"));
    return NULL;
  }
  g_clear_pointer (&self->known, g_hash_table_unref);
  self->known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  part = tw_part_new (kind, TW_ID_NONE);
  read_id (self, part, object, where, kind < TW_FIRST_ELEMENT);
  for (guint i = 0; i < info->n_fields; i++)
    read_field (self, part, i, object, where);
  for (guint i = 0; i < info->n_lists; i++)
    read_list (self, part, i, object, where);
  check_element_ids (self, part, where);
  name_elements (part);
  part->extra = unknown_members (self, object);
  g_clear_pointer (&self->known, g_hash_table_unref);
  return part;
}

static void
read_kind (Reader *self, TwKind kind, const cJSON *list)
{
  const char *member = tw_kind_info (kind)->member;
  const cJSON *child;
  guint n = 0;

  if (!cJSON_IsArray (list)) {
    trouble (self, member, tw_json_found (list), _ ("a list"));
    return;
  }
  cJSON_ArrayForEach (child, list) {
    g_autofree char *where = g_strdup_printf ("%s[%u]", member, n++);
    TwPart *part = read_part (self, kind, child, where);

    if (part == NULL)
      continue;
    if (tw_id_is_none (part->id)) {
      tw_part_unref (part);
    } else if (tw_job_find (self->job, part->id) != NULL) {
      g_autofree char *place = g_strdup_printf ("%s.id", where);

      trouble (self, place, g_strdup_printf ("\"%s\"", part->id.text), _ ("an id that no other part has"));
      tw_part_unref (part);
    } else {
      tw_job_insert (self->job, part, -1);
    }
  }
}

static guint
count_parts (const cJSON *tree)
{
  guint n = 0;

  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++) {
    const cJSON *list = cJSON_GetObjectItemCaseSensitive (tree, tw_kind_info (kind)->member);

    if (cJSON_IsArray (list))
      n += (guint)cJSON_GetArraySize (list);
  }
  return n;
}

static void
check_references (Reader *self, TwKind kind, guint nth)
{
  const TwKindInfo *info = tw_kind_info (kind);
  const TwPart *part = tw_job_get (self->job, kind, nth);

  for (guint f = 0; f < info->n_fields; f++) {
    const TwField *field = &info->fields[f];
    const TwPart *target;
    TwId to;

    if (field->store != TW_FIELD_REF)
      continue;
    to = G_STRUCT_MEMBER (TwId, part, field->offset);
    target = tw_job_find (self->job, to);
    if (!tw_id_is_none (to) && (target == NULL || !tw_field_may_refer (field, target->kind))) {
      g_autofree char *accepts = tw_field_accepts (field);

      tw_troubles_add (self->troubles, g_strdup_printf ("%s[%u].%s", info->member, nth, field->name),
                       g_strdup_printf ("\"%s\"", to.text), accepts);
    }
  }
}

static GArray *
corners_of (GPtrArray *list)
{
  GArray *corners = g_array_new (FALSE, FALSE, sizeof (TwCorner));

  for (guint i = 0; i < list->len; i++) {
    const TwOutlineCorner *from = TW_ELEMENT (list, TwOutlineCorner, i);
    TwCorner corner = { { from->across_mm, from->up_mm }, isnan (from->bow_mm) ? 0 : from->bow_mm };

    g_array_append_val (corners, corner);
  }
  return corners;
}

/* Whether every corner has its place. */
static gboolean
corners_placed (Reader *self, guint nth, GPtrArray *list, const char *name)
{
  for (guint i = 0; i < list->len; i++) {
    const TwOutlineCorner *corner = TW_ELEMENT (list, TwOutlineCorner, i);

    if (isnan (corner->across_mm) || isnan (corner->up_mm)) {
      tw_troubles_add (self->troubles, g_strdup_printf ("volumes[%u].%s[%u]", nth, name, i),
                       g_strdup (_ ("no place")), _ ("across_mm and up_mm"));
      return FALSE;
    }
  }
  return TRUE;
}

/* Outlines must be whole: nothing crossing itself, the hole inside. */
static void
check_outline (Reader *self, TwGeos *geos, guint nth, const TwVolume *volume)
{
  g_autoptr (GArray) outer = corners_of (volume->outline), hole = corners_of (volume->hole);
  const TwOutline rings[]
      = { { (const TwCorner *)outer->data, outer->len }, { (const TwCorner *)hole->data, hole->len } };
  TwOutlineFault fault;

  if (!corners_placed (self, nth, volume->outline, "outline")
      || !corners_placed (self, nth, volume->hole, "hole"))
    return;
  if (outer->len > 0 && !tw_outline_check (geos, rings, hole->len > 0 ? 2 : 1, &fault))
    tw_troubles_add (self->troubles,
                     g_strdup_printf ("volumes[%u].%s", nth, fault.ring == 0 ? "outline" : "hole"),
                     tw_outline_fault_text (&fault), _ ("an outline that closes and does not touch itself"));
}

static void
check_volumes (Reader *self)
{
  g_autoptr (TwGeos) geos = tw_geos_new ();

  for (guint i = 0; i < tw_job_count (self->job, TW_KIND_VOLUME); i++) {
    const TwVolume *volume = (const TwVolume *)tw_job_get (self->job, TW_KIND_VOLUME, i);

    check_outline (self, geos, i, volume);
    if (volume->from_mm >= volume->to_mm)
      tw_troubles_add (self->troubles, g_strdup_printf ("volumes[%u].to_mm", i),
                       tw_number_text (volume->to_mm), _ ("a figure above from_mm"));
  }
}

static void
read_settings (Reader *self, const cJSON *tree)
{
  const TwKindInfo *info = tw_kind_info (TW_KIND_SETTINGS);
  TwPart *settings = tw_part_copy ((const TwPart *)tw_job_settings (self->job));

  self->known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_hash_table_add (self->known, g_strdup ("tankwright-job"));
  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
    g_hash_table_add (self->known, g_strdup (tw_kind_info (kind)->member));
  for (guint i = 0; i < info->n_fields; i++)
    read_field (self, settings, i, tree, "");
  tw_job_set_extra (self->job, unknown_members (self, tree));
  g_clear_pointer (&self->known, g_hash_table_unref);
  tw_job_replace (self->job, settings);
}

static void
read_tree (Reader *self, const cJSON *tree)
{
  const cJSON *format = cJSON_GetObjectItemCaseSensitive (tree, "tankwright-job");
  guint n = count_parts (tree);

  if (!cJSON_IsObject (tree)) {
    trouble (self, _ ("the file"), tw_json_found (tree), _ ("an object"));
    return;
  }
  if (!cJSON_IsNumber (format) || format->valuedouble != TW_JOB_FORMAT) {
    trouble (self, "tankwright-job", format != NULL ? tw_json_found (format) : g_strdup (_ ("nothing")), "1");
    return;
  }
  if (n > TW_JOB_MOST_PARTS) {
    g_autofree char *expected = g_strdup_printf (_ ("at most %d"), TW_JOB_MOST_PARTS);

    trouble (self, _ ("the file"), g_strdup_printf (_ ("%u parts"), n), expected);
    return;
  }
  read_settings (self, tree);
  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++) {
    const cJSON *list = cJSON_GetObjectItemCaseSensitive (tree, tw_kind_info (kind)->member);

    if (list != NULL)
      read_kind (self, kind, list);
  }
  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
    for (guint i = 0; i < tw_job_count (self->job, kind); i++)
      check_references (self, kind, i);
  check_volumes (self);
}

TwJob *
tw_job_read_text (const char *text, gsize length, TwTroubles *troubles)
{
  Reader self = { .troubles = troubles };
  cJSON *tree;

  if (length > TW_READ_MOST_BYTES) {
    g_autofree char *expected = g_strdup_printf (_ ("at most %d bytes"), TW_READ_MOST_BYTES);

    tw_troubles_add (troubles, g_strdup (_ ("the file")),
                     g_strdup_printf (_ ("%" G_GSIZE_FORMAT " bytes"), length), expected);
    return NULL;
  }
  tree = tw_json_parse (text, length, TW_READ_DEEPEST, troubles);
  if (tree == NULL)
    return NULL;
  self.job = tw_job_new ();
  read_tree (&self, tree);
  cJSON_Delete (tree);
  if (troubles->n > 0)
    g_clear_pointer (&self.job, tw_job_free);
  return self.job;
}

/* All of @stream, or as much as shows that it is too much. */
static GString *
read_stream (FILE *stream)
{
  GString *bytes = g_string_new (NULL);
  char buffer[65536];
  gsize n;

  while (bytes->len <= TW_READ_MOST_BYTES && (n = fread (buffer, 1, sizeof buffer, stream)) > 0)
    g_string_append_len (bytes, buffer, (gssize)n);
  return bytes;
}

TwJob *
tw_job_read_file (const char *path, GError **error)
{
  gboolean standard = g_str_equal (path, "-");
  FILE *stream = standard ? stdin : fopen (path, "rbe");
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  g_autoptr (GString) bytes = NULL;
  TwJob *job;
  int failed = stream == NULL ? errno : 0;

  if (stream != NULL) {
    errno = 0;
    bytes = read_stream (stream);
    failed = ferror (stream) ? errno : 0;
    if (!standard)
      fclose (stream);
  }
  if (failed != 0) {
    g_set_error (error, TW_ERROR, TW_ERROR_FILE, _ ("%s cannot be read: %s"), path, g_strerror (failed));
    return NULL;
  }
  job = tw_job_read_text (bytes->str, bytes->len, troubles);
  if (!tw_troubles_to_error (troubles, standard ? _ ("standard input") : path, error))
    g_clear_pointer (&job, tw_job_free);
  return job;
}
