/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/journal-private.h"

#include "base/error.h"
#include "base/json.h"
#include "job/change-text.h"
#include "job/difference.h"
#include "job/write-private.h"
#include "job/write.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

char *
tw_journal_folder (void)
{
  return g_build_filename (g_get_user_state_dir (), "tankwright", "journal", NULL);
}

void
tw_journal_sum (const char *before, const char *line, gsize length, char sum[TW_JOURNAL_SUM + 1])
{
  g_autoptr (GChecksum) checksum = g_checksum_new (G_CHECKSUM_SHA256);

  g_checksum_update (checksum, (const guchar *)before, (gssize)strlen (before));
  g_checksum_update (checksum, (const guchar *)line, (gssize)length);
  g_strlcpy (sum, g_checksum_get_string (checksum), TW_JOURNAL_SUM + 1);
}

static gboolean
set_file_error (GError **error, const char *file, int code)
{
  g_set_error (error, TW_ERROR, TW_ERROR_FILE, _ ("%s cannot be written: %s"), file, g_strerror (code));
  return FALSE;
}

static void
append_line (GString *out, char sum[TW_JOURNAL_SUM + 1], const cJSON *tree)
{
  g_autofree char *line = tw_json_print_line (tree);
  char next[TW_JOURNAL_SUM + 1];

  tw_journal_sum (sum, line, strlen (line), next);
  memcpy (sum, next, sizeof next);
  g_string_append_printf (out, "%s %s\n", sum, line);
}

static char *
time_text (gint64 time_s)
{
  g_autoptr (GDateTime) time = g_date_time_new_from_unix_utc (time_s);

  return g_date_time_format_iso8601 (time);
}

/* The first two lines: which job, and the job. Sets the sum. */
static GString *
write_start (TwJournal *self, const TwJob *job)
{
  cJSON *head = cJSON_CreateObject (), *base = cJSON_CreateObject ();
  g_autofree char *text = tw_job_write_text (job), *time = time_text (self->story.entered_s);
  GString *out = g_string_new (NULL);

  cJSON_AddNumberToObject (head, "tankwright-journal", TW_JOURNAL_FORMAT);
  cJSON_AddStringToObject (head, "program", TW_VERSION);
  if (self->story.path != NULL)
    cJSON_AddStringToObject (head, "file", self->story.path);
  if (self->story.identity != NULL)
    cJSON_AddStringToObject (head, "identity", self->story.identity);
  cJSON_AddNumberToObject (head, "steps", self->story.n_steps);
  if (self->story.last_label != NULL)
    cJSON_AddStringToObject (head, "label", self->story.last_label);
  cJSON_AddStringToObject (head, "at", time);
  cJSON_AddStringToObject (base, "job", text);
  self->sum[0] = '\0';
  append_line (out, self->sum, head);
  append_line (out, self->sum, base);
  cJSON_Delete (head);
  cJSON_Delete (base);
  return out;
}

static int
open_unfinished (const char *folder, char **unfinished, gboolean *locked)
{
  int fd;

  if (g_mkdir_with_parents (folder, 0700) != 0)
    return -1;
  *unfinished = g_build_filename (folder, "XXXXXX" TW_JOURNAL_UNFINISHED, NULL);
  fd = g_mkstemp_full (*unfinished, O_RDWR | O_CLOEXEC, 0600);
  if (fd >= 0)
    (void)tw_write_lock (fd, locked);
  return fd;
}

/* Writes a start with @job at the place of self->file, whole or not at all. */
static gboolean
begin_afresh (TwJournal *self, const TwJob *job, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (self->file), *unfinished = NULL;
  char sum_before[TW_JOURNAL_SUM + 1];
  g_autoptr (GString) start = NULL;
  gboolean locked;
  int fd = open_unfinished (folder, &unfinished, &locked), code = 0;

  if (fd < 0)
    return set_file_error (error, self->file, errno);
  memcpy (sum_before, self->sum, sizeof sum_before);
  start = write_start (self, job);
  if (!tw_write_all (fd, start->str, start->len) || fsync (fd) != 0 || g_rename (unfinished, self->file) != 0)
    code = errno;
  if (code != 0) {
    memcpy (self->sum, sum_before, sizeof sum_before);
    g_unlink (unfinished);
    close (fd);
    return set_file_error (error, self->file, code);
  }
  tw_write_sync_folder (folder);
  if (self->fd >= 0)
    close (self->fd);
  self->fd = fd;
  self->length = self->start = (goffset)start->len;
  return TRUE;
}

/* A name that no journal has. */
static char *
new_file (const char *folder)
{
  for (;;) {
    g_autofree char *name = g_strdup_printf ("%08x%08x" TW_JOURNAL_ENDING, g_random_int (), g_random_int ());
    g_autofree char *file = g_build_filename (folder, name, NULL);

    if (!g_file_test (file, G_FILE_TEST_EXISTS))
      return g_steal_pointer (&file);
  }
}

static gint64
now_s (void)
{
  return g_get_real_time () / G_USEC_PER_SEC;
}

TwJournal *
tw_journal_start (const char *folder, const TwJournalAbout *about, const TwJob *base, GError **error)
{
  g_autoptr (TwJournal) self = g_new0 (TwJournal, 1);

  self->fd = -1;
  self->file = new_file (folder);
  self->story.path = g_strdup (about->path);
  self->story.identity = g_strdup (about->identity);
  self->story.entered_s = now_s ();
  if (!begin_afresh (self, base, error))
    return NULL;
  self->entered = tw_job_copy (base);
  return g_steal_pointer (&self);
}

/* Appends a line at the end of the whole ones, or leaves these as they are. */
static gboolean
append (TwJournal *self, const cJSON *tree, GError **error)
{
  g_autoptr (GString) line = g_string_new (NULL);
  char sum[TW_JOURNAL_SUM + 1];
  int code = 0;

  memcpy (sum, self->sum, sizeof sum);
  append_line (line, sum, tree);
  if (ftruncate (self->fd, self->length) != 0 || lseek (self->fd, self->length, SEEK_SET) < 0
      || !tw_write_all (self->fd, line->str, line->len))
    code = errno;
  if (code != 0) {
    if (ftruncate (self->fd, self->length) != 0)
      errno = 0; /* the checksum will tell */
    return set_file_error (error, self->file, code);
  }
  memcpy (self->sum, sum, sizeof sum);
  self->length += (goffset)line->len;
  return TRUE;
}

static void
note_step (TwJournal *self, const char *label)
{
  char *copy = g_strdup (label);

  g_free (self->story.last_label);
  self->story.last_label = copy;
  self->story.entered_s = now_s ();
  self->story.n_steps++;
}

static gboolean
enter_change (TwJournal *self, const TwChange *change, GError **error)
{
  cJSON *line = cJSON_CreateObject ();
  g_autofree char *time = time_text (self->story.entered_s);
  gboolean ok;

  cJSON_AddStringToObject (line, "at", time);
  cJSON_AddItemToObject (line, "change", tw_change_write_json (change, self->entered));
  ok = append (self, line, error);
  cJSON_Delete (line);
  return ok;
}

gboolean
tw_journal_enter (TwJournal *self, const TwJob *now, const char *label, GError **error)
{
  g_autoptr (TwChange) change = tw_change_between (self->entered, now, label);
  gboolean goes_on = change != NULL && tw_write_is_there (self->fd, self->file);

  if (change != NULL && tw_change_group_size (change) == 0)
    return TRUE;
  note_step (self, label);
  if (!(goes_on ? enter_change (self, change, error) : begin_afresh (self, now, error))) {
    self->story.n_steps--;
    return FALSE;
  }
  self->story.cut_off = FALSE;
  self->story.n_lost = 0;
  tw_job_free (self->entered);
  self->entered = tw_job_copy (now);
  if (self->length - self->start > TW_JOURNAL_MOST_BYTES)
    (void)begin_afresh (self, now, NULL); /* else it goes on growing */
  return TRUE;
}

int
tw_journal_descriptor (const TwJournal *self)
{
  return fcntl (self->fd, F_DUPFD_CLOEXEC, 0);
}

void
tw_journal_free (TwJournal *self)
{
  if (self->fd >= 0)
    close (self->fd);
  g_clear_pointer (&self->entered, tw_job_free);
  g_clear_pointer (&self->base, tw_job_free);
  g_clear_pointer (&self->steps, g_ptr_array_unref);
  g_free (self->story.path);
  g_free (self->story.identity);
  g_free (self->story.last_label);
  g_free (self->file);
  g_free (self);
}

void
tw_journal_remove (TwJournal *self)
{
  if (tw_write_is_there (self->fd, self->file))
    g_unlink (self->file);
  tw_journal_free (self);
}

const char *
tw_journal_file (const TwJournal *self)
{
  return self->file;
}

const TwJournalStory *
tw_journal_story (const TwJournal *self)
{
  return &self->story;
}

const TwJob *
tw_journal_job (const TwJournal *self)
{
  return self->entered;
}
