/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/keeper.h"

#include "job/read.h"
#include "job/write.h"

#include <errno.h>
#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <unistd.h>

#define SYNC_AFTER_MS 500 /* after a step; several that come sooner are synced together */
#define LOOK_AFTER_MS 300 /* after the file was touched: a rename comes as several events */

struct _TwKeeper {
  GObject parent_instance;

  TwSession *session;
  TwJob *base;         /* as it was read, saved or made; NULL: no job */
  char *identity;      /* of the job in the file as far as it is known; NULL: of @base */
  TwJournal *journal;  /* NULL: there is nothing that is in no file */
  gboolean is_leaving; /* another job is about to be put in */
  gboolean was_told;   /* that the journal cannot be written */
  char *redo_label;    /* as of the last step */

  guint sync_timer;
  gboolean is_syncing, sync_again;

  GFileMonitor *monitor;
  guint look_timer;
  char *disk_told; /* identity of what was last found in the file and told */
};

enum { TROUBLE, DISK_CHANGED, N_SIGNALS };

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TwKeeper, tw_keeper, G_TYPE_OBJECT)

/* Said once, until it works again: work goes on. */
static void
tell_trouble (TwKeeper *self, const GError *error)
{
  g_autofree char *words = NULL;

  if (self->was_told)
    return;
  self->was_told = TRUE;
  words = g_strdup_printf (_ ("Steps are not kept for a crash: %s. Save now and then."), error->message);
  g_signal_emit (self, signals[TROUBLE], 0, words);
}

/* --- syncing -------------------------------------------------------------------------------------------- */

static void sync_later (TwKeeper *self);

static void
sync_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  int fd = GPOINTER_TO_INT (data), code = fsync (fd) != 0 ? errno : 0;

  close (fd);
  g_task_return_int (task, code);
}

static void
synced_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  TwKeeper *self = TW_KEEPER (source);
  gssize code = g_task_propagate_int (G_TASK (result), NULL);

  self->is_syncing = FALSE;
  if (code > 0) {
    g_autoptr (GError) error
        = g_error_new_literal (G_IO_ERROR, g_io_error_from_errno ((int)code), g_strerror ((int)code));

    tell_trouble (self, error);
  }
  if (self->sync_again)
    sync_later (self);
}

static gboolean
sync_cb (gpointer data)
{
  TwKeeper *self = data;
  int fd = self->journal != NULL ? tw_journal_descriptor (self->journal) : -1;
  g_autoptr (GTask) task = NULL;

  self->sync_timer = 0;
  if (fd < 0)
    return G_SOURCE_REMOVE;
  self->is_syncing = TRUE;
  self->sync_again = FALSE;
  task = g_task_new (self, NULL, synced_cb, NULL);
  g_task_set_task_data (task, GINT_TO_POINTER (fd), NULL);
  g_task_run_in_thread (task, sync_thread);
  return G_SOURCE_REMOVE;
}

static void
sync_later (TwKeeper *self)
{
  if (self->is_syncing)
    self->sync_again = TRUE;
  else if (self->sync_timer == 0)
    self->sync_timer = g_timeout_add (SYNC_AFTER_MS, sync_cb, self);
}

/* --- the journal ---------------------------------------------------------------------------------------- */

static const char *
file_identity (TwKeeper *self)
{
  if (self->identity == NULL)
    self->identity = tw_job_identity (self->base);
  return self->identity;
}

static gboolean
ensure_journal (TwKeeper *self, GError **error)
{
  const char *path = tw_session_path (self->session);
  const TwJournalAbout about = { path, path != NULL ? file_identity (self) : NULL };
  g_autofree char *folder = NULL;

  if (self->journal != NULL)
    return TRUE;
  folder = tw_journal_folder ();
  self->journal = tw_journal_start (folder, &about, self->base, error);
  return self->journal != NULL;
}

/* What the step is called that has just been done; a step that was undone is the one that can be redone now.
 */
static char *
step_label (TwKeeper *self)
{
  const TwHistory *history = tw_session_history (self->session);
  const char *redo = tw_history_redo_label (history);
  char *label;

  if (redo != NULL && g_strcmp0 (redo, self->redo_label) != 0)
    /* Translators: a step that can be recovered: the undoing of another */
    label = g_strdup_printf (_ ("Undo: %s"), redo);
  else
    label = g_strdup (tw_history_undo_label (history));
  g_free (self->redo_label);
  self->redo_label = g_strdup (redo);
  return label;
}

/* A drag enters when its step is closed. */
static void
enter (TwKeeper *self)
{
  TwHistory *history = tw_session_history (self->session);
  g_autoptr (GError) error = NULL;
  g_autofree char *label = NULL;

  if (self->is_leaving || self->base == NULL || history == NULL || tw_history_is_open (history))
    return;
  if (self->journal == NULL && tw_history_is_saved (history))
    return;
  label = step_label (self);
  if (!ensure_journal (self, &error)
      || !tw_journal_enter (self->journal, tw_session_job (self->session), label, &error)) {
    tell_trouble (self, error);
    return;
  }
  self->was_told = FALSE;
  sync_later (self);
}

void
tw_keeper_forget (TwKeeper *self)
{
  g_clear_handle_id (&self->sync_timer, g_source_remove);
  g_clear_pointer (&self->journal, tw_journal_remove);
}

/* --- the file ------------------------------------------------------------------------------------------- */

/* The job in the file, or NULL with the state that says why there is none. */
static TwJob *
read_disk (const char *path, TwDiskState *state)
{
  TwJob *job = tw_job_read_file (path, NULL);

  if (job == NULL)
    *state = g_file_test (path, G_FILE_TEST_EXISTS) ? TW_DISK_UNREADABLE : TW_DISK_GONE;
  return job;
}

TwDiskState
tw_keeper_look (TwKeeper *self, TwJobDifference *difference)
{
  const char *path = tw_session_path (self->session);
  TwDiskState state = TW_DISK_SAME;
  g_autoptr (TwJob) disk = NULL;
  g_autofree char *identity = NULL;

  if (path == NULL || self->base == NULL)
    return TW_DISK_SAME;
  disk = read_disk (path, &state);
  if (disk == NULL)
    return state;
  identity = tw_job_identity (disk);
  if (g_str_equal (identity, file_identity (self)))
    return TW_DISK_SAME;
  if (difference != NULL)
    *difference = tw_job_difference (tw_session_job (self->session), disk);
  return TW_DISK_CHANGED;
}

static gboolean
look_cb (gpointer data)
{
  TwKeeper *self = data;
  TwDiskState state = tw_keeper_look (self, NULL);
  g_autofree char *found = g_strdup_printf ("%d", state), *sum = NULL, *bytes = NULL;
  gsize length;

  self->look_timer = 0;
  if (state != TW_DISK_SAME && state != TW_DISK_GONE
      && g_file_get_contents (tw_session_path (self->session), &bytes, &length, NULL)) {
    sum = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *)bytes, length);
    g_free (found);
    found = g_steal_pointer (&sum);
  }
  if (g_strcmp0 (found, self->disk_told) == 0)
    return G_SOURCE_REMOVE;
  g_free (self->disk_told);
  self->disk_told = g_steal_pointer (&found);
  if (state != TW_DISK_SAME)
    g_signal_emit (self, signals[DISK_CHANGED], 0);
  return G_SOURCE_REMOVE;
}

static void
disk_event_cb (TwKeeper *self)
{
  if (self->look_timer == 0)
    self->look_timer = g_timeout_add (LOOK_AFTER_MS, look_cb, self);
}

static void
watch (TwKeeper *self)
{
  const char *path = tw_session_path (self->session);
  g_autoptr (GFile) file = path != NULL ? g_file_new_for_path (path) : NULL;

  g_clear_object (&self->monitor);
  g_clear_handle_id (&self->look_timer, g_source_remove);
  g_clear_pointer (&self->disk_told, g_free);
  if (file == NULL)
    return;
  self->monitor = g_file_monitor_file (file, G_FILE_MONITOR_WATCH_MOVES, NULL, NULL);
  if (self->monitor != NULL)
    g_signal_connect_object (self->monitor, "changed", G_CALLBACK (disk_event_cb), self, G_CONNECT_SWAPPED);
}

/* --- what the session tells ----------------------------------------------------------------------------- */

/* The job as it is now is what the file holds, or what a new one starts from. */
static void
take_base (TwKeeper *self)
{
  TwJob *job = tw_session_job (self->session);

  g_clear_pointer (&self->base, tw_job_free);
  g_clear_pointer (&self->identity, g_free);
  g_clear_pointer (&self->redo_label, g_free);
  self->base = job != NULL ? tw_job_copy (job) : NULL;
  watch (self);
}

static void
job_leaves_cb (TwKeeper *self)
{
  self->is_leaving = TRUE;
  tw_keeper_forget (self);
}

static void
job_replaced_cb (TwKeeper *self)
{
  self->is_leaving = FALSE;
  take_base (self);
}

/* The path is told again with every save. */
static void
path_cb (TwKeeper *self)
{
  if (self->is_leaving || self->base == NULL || tw_session_is_modified (self->session))
    return;
  tw_keeper_forget (self);
  take_base (self);
}

void
tw_keeper_recover (TwKeeper *self, TwJournal *journal)
{
  const TwJournalStory *story = tw_journal_story (journal);
  TwJob *job = tw_journal_base (journal);
  g_autofree char *identity = tw_job_identity (job);
  TwHistory *history;

  tw_session_take_job (self->session, job, story->path);
  self->is_leaving = TRUE; /* these steps stand in the journal already */
  history = tw_session_history (self->session);
  tw_job_begin (job);
  tw_journal_replay (journal, history);
  tw_job_end (job);
  self->is_leaving = FALSE;
  if (story->path == NULL || g_strcmp0 (identity, story->identity) != 0)
    tw_history_mark_unsaved (history);
  g_free (self->identity);
  self->identity = g_strdup (story->identity);
  self->journal = journal;
  tw_session_tell_history (self->session);
}

static void
tw_keeper_dispose (GObject *object)
{
  TwKeeper *self = TW_KEEPER (object);

  g_clear_handle_id (&self->look_timer, g_source_remove);
  g_clear_handle_id (&self->sync_timer, g_source_remove);
  g_clear_object (&self->monitor);
  if (self->journal != NULL && !tw_session_is_modified (self->session))
    tw_keeper_forget (self);
  g_clear_pointer (&self->journal, tw_journal_free);
  if (self->session != NULL)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (tw_keeper_parent_class)->dispose (object);
}

static void
tw_keeper_finalize (GObject *object)
{
  TwKeeper *self = TW_KEEPER (object);

  g_clear_pointer (&self->base, tw_job_free);
  g_free (self->identity);
  g_free (self->redo_label);
  g_free (self->disk_told);
  G_OBJECT_CLASS (tw_keeper_parent_class)->finalize (object);
}

static void
tw_keeper_class_init (TwKeeperClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->dispose = tw_keeper_dispose;
  object_class->finalize = tw_keeper_finalize;
  signals[TROUBLE] = g_signal_new ("trouble", TW_TYPE_KEEPER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[DISK_CHANGED]
      = g_signal_new ("disk-changed", TW_TYPE_KEEPER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
tw_keeper_init (TwKeeper *self)
{
}

TwKeeper *
tw_keeper_new (TwSession *session)
{
  TwKeeper *self = g_object_new (TW_TYPE_KEEPER, NULL);

  self->session = g_object_ref (session);
  if (tw_session_has_job (session))
    take_base (self);
  g_signal_connect_swapped (session, "job-leaves", G_CALLBACK (job_leaves_cb), self);
  g_signal_connect_swapped (session, "job-replaced", G_CALLBACK (job_replaced_cb), self);
  g_signal_connect_swapped (session, "notify::path", G_CALLBACK (path_cb), self);
  g_signal_connect_swapped (session, "notify::undo-label", G_CALLBACK (enter), self);
  return self;
}
