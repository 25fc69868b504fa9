/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/journal-private.h"

#include "base/error.h"
#include "base/json.h"
#include "job/change-text.h"
#include "job/read.h"
#include "job/write-private.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* A job as text within a text takes up to twice its bytes. */
#define MOST_BYTES (2 * TW_READ_MOST_BYTES + 8 * TW_JOURNAL_MOST_BYTES)
#define DEEPEST 200

/* An unfinished journal that is younger may not have its lock yet. */
#define UNFINISHED_S 60

static GString *
read_all (int fd)
{
  GString *bytes = g_string_new (NULL);
  char buffer[65536];
  gssize n;

  while (bytes->len <= MOST_BYTES
         && ((n = pread (fd, buffer, sizeof buffer, (off_t)bytes->len)) > 0 || (n < 0 && errno == EINTR)))
    if (n > 0)
      g_string_append_len (bytes, buffer, n);
  return bytes;
}

/* The next line if it is whole and its checksum is right, as a tree; moves on. */
static cJSON *
read_line (TwJournal *self, const GString *bytes)
{
  const char *at = bytes->str + self->length;
  gsize left = bytes->len - (gsize)self->length;
  const char *end = memchr (at, '\n', left);
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  char sum[TW_JOURNAL_SUM + 1];
  gsize length;
  cJSON *tree;

  if (end == NULL || end - at < TW_JOURNAL_SUM + 1 || at[TW_JOURNAL_SUM] != ' ')
    return NULL;
  length = (gsize)(end - at) - TW_JOURNAL_SUM - 1;
  tw_journal_sum (self->sum, at + TW_JOURNAL_SUM + 1, length, sum);
  if (memcmp (sum, at, TW_JOURNAL_SUM) != 0)
    return NULL;
  tree = tw_json_parse (at + TW_JOURNAL_SUM + 1, length, DEEPEST, troubles);
  if (troubles->n > 0)
    g_clear_pointer (&tree, cJSON_Delete);
  if (tree == NULL)
    return NULL;
  memcpy (self->sum, sum, sizeof sum);
  self->length += (goffset)(end - at) + 1;
  return tree;
}

static const char *
text_of (const cJSON *tree, const char *name)
{
  const cJSON *item = cJSON_GetObjectItemCaseSensitive (tree, name);

  return cJSON_IsString (item) ? item->valuestring : NULL;
}

static gint64
time_of (const cJSON *tree)
{
  const char *text = text_of (tree, "at");
  g_autoptr (GDateTime) time = text != NULL ? g_date_time_new_from_iso8601 (text, NULL) : NULL;

  return time != NULL ? g_date_time_to_unix (time) : 0;
}

static gboolean
read_head (TwJournal *self, const cJSON *head)
{
  const cJSON *format = cJSON_GetObjectItemCaseSensitive (head, "tankwright-journal"),
              *steps = cJSON_GetObjectItemCaseSensitive (head, "steps");

  if (!cJSON_IsNumber (format) || format->valuedouble != TW_JOURNAL_FORMAT)
    return FALSE;
  self->story.path = g_strdup (text_of (head, "file"));
  self->story.identity = g_strdup (text_of (head, "identity"));
  self->story.last_label = g_strdup (text_of (head, "label"));
  self->story.entered_s = time_of (head);
  if (cJSON_IsNumber (steps) && steps->valuedouble >= 0 && steps->valuedouble <= G_MAXINT)
    self->story.n_steps = (guint)floor (steps->valuedouble);
  return TRUE;
}

static TwJob *
read_base (const cJSON *line)
{
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  const char *text = text_of (line, "job");

  return text != NULL ? tw_job_read_text (text, strlen (text), troubles) : NULL;
}

/* FALSE when the step does not follow from the job as it is: then it ends before. */
static gboolean
read_step (TwJournal *self, const cJSON *line)
{
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  const cJSON *tree = cJSON_GetObjectItemCaseSensitive (line, "change");
  g_autoptr (TwChange) inverse = NULL;
  TwChange *change = tree != NULL ? tw_change_read_json (tree, "change", troubles) : NULL;

  if (change == NULL)
    return FALSE;
  if (!tw_change_apply (change, self->entered, &inverse, NULL)) {
    tw_change_free (change);
    return FALSE;
  }
  g_ptr_array_add (self->steps, change);
  self->story.n_steps++;
  self->story.entered_s = time_of (line);
  g_free (self->story.last_label);
  self->story.last_label = tw_change_label (change, self->entered);
  return TRUE;
}

/* What stands behind the last good line. */
static void
count_lost (TwJournal *self, const GString *bytes)
{
  const char *end = bytes->str + bytes->len, *at = bytes->str + self->length, *next;

  while (at < end && (next = memchr (at, '\n', (gsize)(end - at))) != NULL) {
    self->story.n_lost++;
    at = next + 1;
  }
  self->story.cut_off = at < end;
}

static gboolean
read_journal (TwJournal *self)
{
  g_autoptr (GString) bytes = read_all (self->fd);
  cJSON *head = read_line (self, bytes), *base = head != NULL ? read_line (self, bytes) : NULL, *line;
  goffset good;
  char sum[TW_JOURNAL_SUM + 1];

  if (base != NULL && read_head (self, head))
    self->base = read_base (base);
  cJSON_Delete (head);
  cJSON_Delete (base);
  if (self->base == NULL)
    return FALSE;
  self->entered = tw_job_copy (self->base);
  self->steps = g_ptr_array_new_with_free_func ((GDestroyNotify)tw_change_free);
  self->start = good = self->length;
  memcpy (sum, self->sum, sizeof sum);
  while ((line = read_line (self, bytes)) != NULL) {
    gboolean follows = read_step (self, line);

    cJSON_Delete (line);
    if (!follows)
      break;
    good = self->length;
    memcpy (sum, self->sum, sizeof sum);
  }
  self->length = good;
  memcpy (self->sum, sum, sizeof sum);
  count_lost (self, bytes);
  return TRUE;
}

TwJournal *
tw_journal_take (const char *file, GError **error)
{
  g_autoptr (TwJournal) self = g_new0 (TwJournal, 1);
  gboolean known;

  self->file = g_strdup (file);
  self->fd = open (file, O_RDWR | O_CLOEXEC | O_NOFOLLOW);
  if (self->fd < 0) {
    g_set_error (error, TW_ERROR, TW_ERROR_FILE, _ ("%s cannot be read: %s"), file, g_strerror (errno));
    return NULL;
  }
  if (!tw_write_lock (self->fd, &known) || !known || !tw_write_is_there (self->fd, file)) {
    g_set_error (error, TW_ERROR, TW_ERROR_REFUSED, _ ("%s is in use"), file);
    return NULL;
  }
  if (!read_journal (self)) {
    g_set_error (error, TW_ERROR, TW_ERROR_FORMAT, _ ("%s is no journal that can be read"), file);
    return NULL;
  }
  return g_steal_pointer (&self);
}

/* What was left by a program that ended while it began a journal. */
static void
remove_unfinished (const char *file)
{
  int fd = open (file, O_RDWR | O_CLOEXEC | O_NOFOLLOW);
  struct stat status;
  gboolean known;

  if (fd < 0)
    return;
  if (fstat (fd, &status) == 0 && status.st_mtime + UNFINISHED_S < g_get_real_time () / G_USEC_PER_SEC
      && tw_write_lock (fd, &known) && known && tw_write_is_there (fd, file))
    g_unlink (file);
  close (fd);
}

static int
latest_first (gconstpointer a, gconstpointer b)
{
  const TwJournal *one = *(const TwJournal *const *)a, *other = *(const TwJournal *const *)b;

  if (one->story.entered_s != other->story.entered_s)
    return one->story.entered_s > other->story.entered_s ? -1 : 1;
  return strcmp (one->file, other->file);
}

GPtrArray *
tw_journal_left (const char *folder)
{
  GPtrArray *left = g_ptr_array_new_with_free_func ((GDestroyNotify)tw_journal_free);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL) {
    g_autofree char *file = g_build_filename (folder, name, NULL);
    TwJournal *journal = g_str_has_suffix (name, TW_JOURNAL_ENDING) ? tw_journal_take (file, NULL) : NULL;

    if (journal != NULL)
      g_ptr_array_add (left, journal);
    else if (g_str_has_suffix (name, TW_JOURNAL_UNFINISHED))
      remove_unfinished (file);
  }
  g_ptr_array_sort (left, latest_first);
  return left;
}

TwJob *
tw_journal_base (const TwJournal *self)
{
  g_return_val_if_fail (self->base != NULL, NULL);
  return tw_job_copy (self->base);
}

void
tw_journal_replay (TwJournal *self, TwHistory *history)
{
  gsize n;
  TwChange **steps;

  g_return_if_fail (self->steps != NULL);
  steps = (TwChange **)g_ptr_array_steal (self->steps, &n);
  for (gsize i = 0; i < n; i++)
    if (!tw_history_do (history, steps[i], NULL))
      g_assert_not_reached (); /* it was applied when the journal was read */
  g_free (steps);
}
