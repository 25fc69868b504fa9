/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/write.h"

#include "base/error.h"
#include "base/json.h"
#include "job/read.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define MOST_LINKS 40 /* as many as Linux follows; a ring of links is then written over by its last one */

static void
write_field (cJSON *object, const TwPart *part, guint nth)
{
  const TwField *field = &tw_kind_info (part->kind)->fields[nth];
  g_autofree char *typed_name = tw_field_typed_name (field);
  const char *text;
  double number;
  int choice;

  switch (field->store) {
  case TW_FIELD_NUMBER:
    number = G_STRUCT_MEMBER (double, part, field->offset);
    if (!isnan (number))
      cJSON_AddNumberToObject (object, field->name, number);
    break;
  case TW_FIELD_COUNT:
  case TW_FIELD_FLAG:
  case TW_FIELD_CHOICE:
    choice = G_STRUCT_MEMBER (int, part, field->offset);
    if (choice < 0)
      break;
    if (field->store == TW_FIELD_COUNT)
      cJSON_AddNumberToObject (object, field->name, choice);
    else if (field->store == TW_FIELD_FLAG)
      cJSON_AddBoolToObject (object, field->name, choice);
    else
      cJSON_AddStringToObject (object, field->name, field->choices[choice].name);
    break;
  case TW_FIELD_TEXT:
    text = G_STRUCT_MEMBER (char *, part, field->offset);
    if (text != NULL)
      cJSON_AddStringToObject (object, field->name, text);
    break;
  case TW_FIELD_REF:
    text = G_STRUCT_MEMBER (TwId, part, field->offset).text;
    if (text[0] != '\0')
      cJSON_AddStringToObject (object, field->name, text);
    break;
  }
  if (typed_name != NULL && part->typed != NULL && part->typed[nth] != NULL)
    cJSON_AddStringToObject (object, typed_name, part->typed[nth]);
}

static void
write_extra (cJSON *object, const cJSON *extra)
{
  const cJSON *child;

  cJSON_ArrayForEach (child, extra)
    cJSON_AddItemToObject (object, child->string, cJSON_Duplicate (child, TRUE));
}

static cJSON *
write_part (const TwPart *part)
{
  const TwKindInfo *info = tw_kind_info (part->kind);
  cJSON *object = cJSON_CreateObject ();

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
      cJSON_AddItemToArray (list, write_part (g_ptr_array_index (elements, k)));
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
      cJSON_AddItemToArray (list, write_part (tw_job_get (self, kind, i)));
  }
  write_extra (tree, tw_job_extra (self));
  text = tw_json_print (tree);
  cJSON_Delete (tree);
  return text;
}

char *
tw_job_digest (const TwJob *self)
{
  g_autofree char *text = tw_job_write_text (self);
  g_autofree char *sum = g_compute_checksum_for_string (G_CHECKSUM_SHA256, text, -1);

  return g_strndup (sum, 8);
}

static gboolean
set_file_error (GError **error, const char *path, int code)
{
  g_set_error (error, TW_ERROR, TW_ERROR_FILE, _ ("%s cannot be written: %s; the file is as it was before"),
               path, g_strerror (code));
  return FALSE;
}

/* Writes and syncs; errno says why not. */
static gboolean
fill_file (int fd, const char *bytes, gsize length)
{
  while (length > 0) {
    gssize n = write (fd, bytes, length);

    if (n < 0 && errno == EINTR)
      continue;
    if (n <= 0)
      return FALSE;
    bytes += n;
    length -= (gsize)n;
  }
  return fsync (fd) == 0;
}

static void
sync_folder (const char *folder)
{
  int fd = open (folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);

  if (fd >= 0) {
    /* Some file systems cannot; the rename itself has succeeded. */
    if (fsync (fd) != 0)
      errno = 0;
    close (fd);
  }
}

/* Mode of the file that is replaced, else what the mask of the process leaves of 0666. */
static mode_t
mode_for (const char *path)
{
  struct stat status;
  mode_t mask;

  if (stat (path, &status) == 0)
    return status.st_mode & 07777;
  mask = umask (0);
  umask (mask);
  return 0666 & ~mask;
}

/* The file that is meant by @path, through symbolic links, also through one that leads to nothing yet. */
static char *
follow_links (const char *path)
{
  char *at = g_strdup (path);

  for (guint i = 0; i < MOST_LINKS; i++) {
    g_autofree char *link = g_file_read_link (at, NULL), *folder = g_path_get_dirname (at);

    if (link == NULL)
      break;
    g_free (at);
    at = g_path_is_absolute (link) ? g_strdup (link) : g_build_filename (folder, link, NULL);
  }
  return at;
}

gboolean
tw_write_file (const char *path, const char *bytes, gsize length, GError **error)
{
  g_autofree char *target = follow_links (path);
  g_autofree char *folder = g_path_get_dirname (target);
  g_autofree char *beside = g_strdup_printf ("%s.XXXXXX", target);
  int fd, code = 0;

  fd = g_mkstemp_full (beside, O_WRONLY | O_CLOEXEC, 0600);
  if (fd < 0)
    return set_file_error (error, path, errno);
  if (!fill_file (fd, bytes, length) || fchmod (fd, mode_for (target)) != 0)
    code = errno;
  if (close (fd) != 0 && code == 0)
    code = errno;
  if (code == 0 && g_rename (beside, target) != 0)
    code = errno;
  if (code != 0) {
    g_unlink (beside);
    return set_file_error (error, path, code);
  }
  sync_folder (folder);
  return TRUE;
}

gboolean
tw_job_save (const TwJob *self, const char *path, GError **error)
{
  g_autofree char *text = tw_job_write_text (self);

  return tw_write_file (path, text, strlen (text), error);
}
