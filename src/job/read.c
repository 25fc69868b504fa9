/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/read.h"

#include "job/check-private.h"
#include "job/read-private.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>

static void
read_kind (TwJobReader *self, TwKind kind, const cJSON *list)
{
  const char *member = tw_kind_info (kind)->member;
  const cJSON *child;
  guint n = 0;

  if (!cJSON_IsArray (list)) {
    tw_job_reader_trouble (self, member, tw_json_found (list), _ ("a list"));
    return;
  }
  cJSON_ArrayForEach (child, list) {
    g_autofree char *where = g_strdup_printf ("%s[%u]", member, n++);
    TwPart *part = tw_job_reader_part (self, kind, child, where);

    if (part == NULL)
      continue;
    if (tw_id_is_none (part->id)) {
      tw_part_unref (part);
    } else if (tw_job_find (self->job, part->id) != NULL) {
      g_autofree char *place = g_strdup_printf ("%s.id", where);

      tw_job_reader_trouble (self, place, g_strdup_printf ("\"%s\"", part->id.text),
                             _ ("an id that no other part has"));
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
check_references (TwJobReader *self, TwKind kind, guint nth)
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

static void
check_wholes (TwJobReader *self)
{
  g_autoptr (TwGeos) geos = tw_geos_new ();

  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
    for (guint i = 0; i < tw_job_count (self->job, kind); i++) {
      g_autofree char *where = g_strdup_printf ("%s[%u]", tw_kind_info (kind)->member, i);

      tw_part_check (tw_job_get (self->job, kind, i), geos, where, self->troubles);
    }
}

static void
read_settings (TwJobReader *self, const cJSON *tree)
{
  TwPart *settings = tw_part_copy ((const TwPart *)tw_job_settings (self->job));

  tw_job_reader_fields (self, settings, tree, "");
  tw_job_set_extra (self->job, tw_job_reader_unknown (TW_KIND_SETTINGS, tree));
  tw_job_replace (self->job, settings);
}

static void
read_tree (TwJobReader *self, const cJSON *tree)
{
  const cJSON *format = cJSON_GetObjectItemCaseSensitive (tree, "tankwright-job");
  guint n = count_parts (tree);

  if (!cJSON_IsObject (tree)) {
    tw_job_reader_trouble (self, _ ("the file"), tw_json_found (tree), _ ("an object"));
    return;
  }
  if (!cJSON_IsNumber (format) || format->valuedouble != TW_JOB_FORMAT) {
    tw_job_reader_trouble (self, "tankwright-job",
                           format != NULL ? tw_json_found (format) : g_strdup (_ ("nothing")), "1");
    return;
  }
  if (n > TW_JOB_MOST_PARTS) {
    g_autofree char *expected = g_strdup_printf (_ ("at most %d"), TW_JOB_MOST_PARTS);

    tw_job_reader_trouble (self, _ ("the file"), g_strdup_printf (_ ("%u parts"), n), expected);
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
  check_wholes (self);
}

TwJob *
tw_job_read_text (const char *text, gsize length, TwTroubles *troubles)
{
  TwJobReader self = { .troubles = troubles };
  cJSON *tree;

  if (length > TW_READ_MOST_BYTES) {
    g_autofree char *expected = g_strdup_printf (_ ("at most %d bytes"), TW_READ_MOST_BYTES);

    tw_troubles_add (troubles, g_strdup (_ ("the file")), g_strdup_printf (_ ("%lu bytes"), (gulong)length),
                     expected);
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
tw_job_read_troubles (const char *path, TwTroubles *troubles, GError **error)
{
  gboolean standard = g_str_equal (path, "-");
  FILE *stream = standard ? stdin : fopen (path, "rbe");
  g_autoptr (GString) bytes = NULL;
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
  return tw_job_read_text (bytes->str, bytes->len, troubles);
}

TwJob *
tw_job_read_file (const char *path, GError **error)
{
  const char *shown = g_str_equal (path, "-") ? _ ("standard input") : path;
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  TwJob *job = tw_job_read_troubles (path, troubles, error);

  if (troubles->n > 0 && !tw_troubles_to_error (troubles, shown, error))
    g_clear_pointer (&job, tw_job_free);
  return job;
}
