/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Wherever a journal breaks off, what comes back is the job after some number of whole steps, to the byte;
 * and what is lost is said.
 */
#include "base/error.h"
#include "job/journal.h"
#include "job/write.h"
#include "support/make-job.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/time.h>
#include <sys/wait.h>
#include <unistd.h>

#define N_JOBS 25
#define N_STEPS 12
#define N_CUTS 15

typedef struct {
  char *folder;
} Desk;

static void
desk_open (Desk *desk, gconstpointer data)
{
  desk->folder = g_dir_make_tmp ("journal-XXXXXX", NULL);
  g_assert_nonnull (desk->folder);
}

static guint
count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (dir != NULL && g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static void
desk_close (Desk *desk, gconstpointer data)
{
  GDir *dir = g_dir_open (desk->folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL) {
    g_autofree char *file = g_build_filename (desk->folder, name, NULL);

    g_unlink (file);
  }
  g_clear_pointer (&dir, g_dir_close);
  g_rmdir (desk->folder);
  g_free (desk->folder);
}

static TwJournal *
start (Desk *desk, const TwJob *job)
{
  const TwJournalAbout about = { "/somewhere/merlin.twjob", "abc" };
  g_autoptr (GError) error = NULL;
  TwJournal *journal = tw_journal_start (desk->folder, &about, job, &error);

  g_assert_no_error (error);
  return journal;
}

static TwJournal *
take (const char *file)
{
  g_autoptr (GError) error = NULL;
  TwJournal *journal = tw_journal_take (file, &error);

  g_assert_no_error (error);
  return journal;
}

static void
assert_holds (const TwJob *job, const char *text)
{
  g_autofree char *held = tw_job_write_text (job);

  g_assert_cmpstr (held, ==, text);
}

/* Does random steps on @job, enters each, and gives the job's text after 0, 1, 2 … entered ones. */
static GPtrArray *
work (TwJournal *journal, TwJob *job, guint32 seed)
{
  GPtrArray *states = g_ptr_array_new_with_free_func (g_free);
  GRand *rng = g_rand_new_with_seed (seed);

  g_ptr_array_add (states, tw_job_write_text (job));
  for (guint i = 0; i < N_STEPS; i++) {
    g_autoptr (TwChange) change = tw_random_change (job, rng);
    g_autoptr (TwChange) inverse = NULL;
    g_autofree char *before = tw_job_write_text (job), *after = NULL;

    if (change == NULL || !tw_change_apply (change, job, &inverse, NULL))
      continue;
    g_assert_true (tw_journal_enter (journal, job, "A step", NULL));
    after = tw_job_write_text (job);
    if (!g_str_equal (before, after))
      g_ptr_array_add (states, g_steal_pointer (&after));
  }
  g_rand_free (rng);
  return states;
}

/* Base and steps, done again and undone. */
static void
check_replay (TwJournal *journal, GPtrArray *states, guint n)
{
  g_autoptr (TwJob) job = tw_journal_base (journal);
  g_autoptr (TwHistory) history = tw_history_new (job);

  assert_holds (job, g_ptr_array_index (states, 0));
  tw_journal_replay (journal, history);
  assert_holds (job, g_ptr_array_index (states, n));
  while (tw_history_can_undo (history))
    tw_history_undo (history);
  assert_holds (job, g_ptr_array_index (states, 0));
}

static void
check_cut (const char *file, const char *bytes, gsize length, gsize cut, GPtrArray *states)
{
  g_autoptr (TwJournal) journal = NULL;
  const TwJournalStory *story;
  gboolean at_line = cut > 0 && bytes[cut - 1] == '\n';

  g_assert_true (g_file_set_contents (file, bytes, (gssize)cut, NULL));
  journal = tw_journal_take (file, NULL);
  if (journal == NULL) /* not even the job at the start; the writer puts that in place whole */
    return;
  story = tw_journal_story (journal);
  g_assert_cmpuint (story->n_steps, <, states->len);
  g_assert_cmpint (story->cut_off, ==, !at_line);
  g_assert_cmpuint (story->n_lost, ==, 0);
  assert_holds (tw_journal_job (journal), g_ptr_array_index (states, story->n_steps));
  if (cut == length)
    g_assert_cmpuint (story->n_steps, ==, states->len - 1);
  check_replay (journal, states, story->n_steps);
}

static void
test_cut_anywhere (Desk *desk, gconstpointer data)
{
  g_autofree char *copy = g_build_filename (desk->folder, "copy", NULL);
  guint n_whole = 0, n_cut = 0;

  for (guint32 seed = 0; seed < N_JOBS; seed++) {
    g_autoptr (TwJob) job = tw_random_job (seed);
    TwJournal *journal = start (desk, job);
    g_autoptr (GPtrArray) states = work (journal, job, seed + 900);
    g_autofree char *bytes = NULL;
    GRand *rng = g_rand_new_with_seed (seed);
    const char *base_end;
    gsize length;

    g_assert_true (g_file_get_contents (tw_journal_file (journal), &bytes, &length, NULL));
    base_end = strchr (strchr (bytes, '\n') + 1, '\n') + 1;
    for (guint i = 0; i < N_CUTS; i++) {
      gsize cut = (gsize)(base_end - bytes)
                  + (gsize)(g_rand_double (rng) * (double)(length - (gsize)(base_end - bytes)));

      check_cut (copy, bytes, length, cut, states);
      n_cut++;
    }
    check_cut (copy, bytes, length, (gsize)(base_end - bytes), states);
    check_cut (copy, bytes, length, length, states);
    n_whole += states->len - 1;
    g_rand_free (rng);
    tw_journal_remove (journal);
  }
  g_test_message ("%u steps, cut at %u places", n_whole, n_cut);
  g_assert_cmpuint (n_whole, >, 5 * N_JOBS);
}

/* A byte that has changed ends it before its line; the lines after it are counted. */
static void
test_spoilt_byte (Desk *desk, gconstpointer data)
{
  g_autofree char *copy = g_build_filename (desk->folder, "copy", NULL);

  for (guint32 seed = 0; seed < N_JOBS; seed++) {
    g_autoptr (TwJob) job = tw_random_job (seed);
    TwJournal *journal = start (desk, job);
    g_autoptr (GPtrArray) states = work (journal, job, seed + 400);
    g_autoptr (TwJournal) taken = NULL;
    g_autofree char *bytes = NULL;
    const char *base_end;
    gsize length, at;
    guint n_after = 0;
    GRand *rng = g_rand_new_with_seed (seed);

    g_assert_true (g_file_get_contents (tw_journal_file (journal), &bytes, &length, NULL));
    base_end = strchr (strchr (bytes, '\n') + 1, '\n') + 1;
    at = (gsize)(base_end - bytes)
         + (gsize)(g_rand_double (rng) * (double)(length - (gsize)(base_end - bytes)));
    g_rand_free (rng);
    if (bytes[at] == '\n')
      at--;
    bytes[at] ^= 1;
    if (bytes[at] == '\n') /* then a line became two */
      bytes[at] = 'x';
    for (gsize i = at; i < length; i++)
      n_after += bytes[i] == '\n';
    g_assert_true (g_file_set_contents (copy, bytes, (gssize)length, NULL));
    taken = take (copy);
    g_assert_cmpuint (tw_journal_story (taken)->n_steps, ==, states->len - 1 - n_after);
    g_assert_cmpuint (tw_journal_story (taken)->n_lost, ==, n_after);
    g_assert_false (tw_journal_story (taken)->cut_off);
    assert_holds (tw_journal_job (taken), g_ptr_array_index (states, states->len - 1 - n_after));
    tw_journal_remove (journal);
  }
}

static void
test_story (Desk *desk, gconstpointer data)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 20);
  TwJournal *journal = start (desk, job);
  g_autofree char *file = g_strdup (tw_journal_file (journal));
  const TwJournalStory *story;
  gint64 before_s = g_get_real_time () / G_USEC_PER_SEC;

  g_assert_true (tw_journal_enter (journal, job, "Nothing", NULL));
  tw_make_baffle (job, "tank-1", 10);
  g_assert_true (tw_journal_enter (journal, job, "Adding Baffle", NULL));
  tw_make_set_number (job, "baffle-1", "place_mm", 12);
  g_assert_true (tw_journal_enter (journal, job, "Move of Baffle", NULL));
  tw_journal_free (journal);

  journal = take (file);
  story = tw_journal_story (journal);
  g_assert_cmpstr (story->path, ==, "/somewhere/merlin.twjob");
  g_assert_cmpstr (story->identity, ==, "abc");
  g_assert_cmpuint (story->n_steps, ==, 2);
  g_assert_cmpstr (story->last_label, ==, "Move of Baffle");
  g_assert_cmpint (story->entered_s, >=, before_s);
  g_assert_false (story->cut_off);
  tw_journal_remove (journal);
  g_assert_cmpuint (count_files (desk->folder), ==, 0);
}

/* What was taken is gone on with: the spoilt end goes, the new step follows the last good one. */
static void
test_gone_on_with (Desk *desk, gconstpointer data)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 20), back = NULL;
  TwJournal *journal = start (desk, job);
  g_autofree char *file = g_strdup (tw_journal_file (journal)), *bytes = NULL, *wanted = NULL;
  gsize length;

  tw_make_baffle (job, "tank-1", 10);
  g_assert_true (tw_journal_enter (journal, job, NULL, NULL));
  tw_make_baffle (job, "tank-1", 12);
  g_assert_true (tw_journal_enter (journal, job, NULL, NULL));
  tw_journal_free (journal);
  g_assert_true (g_file_get_contents (file, &bytes, &length, NULL));
  g_assert_cmpint (truncate (file, (off_t)length - 5), ==, 0);

  journal = take (file);
  g_assert_true (tw_journal_story (journal)->cut_off);
  g_assert_cmpuint (tw_journal_story (journal)->n_steps, ==, 1);
  back = tw_job_copy (tw_journal_job (journal));
  tw_make_baffle (back, "tank-2", 5);
  g_assert_true (tw_journal_enter (journal, back, NULL, NULL));
  g_assert_false (tw_journal_story (journal)->cut_off);
  tw_journal_free (journal);

  journal = take (file);
  g_assert_cmpuint (tw_journal_story (journal)->n_steps, ==, 2);
  g_assert_false (tw_journal_story (journal)->cut_off);
  wanted = tw_job_write_text (back);
  assert_holds (tw_journal_job (journal), wanted);
  tw_journal_remove (journal);
}

/* In use, it is neither taken nor found, in this process or another; left behind by one that was killed it
 * is. */
static void
test_locked (Desk *desk, gconstpointer data)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 20);
  int ends[2], status;
  pid_t child;
  char byte;

  g_assert_cmpint (pipe (ends), ==, 0);
  child = fork ();
  if (child == 0) {
    TwJournal *journal = start (desk, job);

    tw_make_baffle (job, "tank-1", 10);
    if (!tw_journal_enter (journal, job, NULL, NULL) || write (ends[1], "", 1) != 1)
      _exit (1);
    for (;;)
      pause ();
  }
  g_assert_cmpint (read (ends[0], &byte, 1), ==, 1);
  {
    g_autoptr (GPtrArray) left = tw_journal_left (desk->folder);

    g_assert_cmpuint (left->len, ==, 0);
  }
  g_assert_cmpint (kill (child, SIGKILL), ==, 0);
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  {
    g_autoptr (GPtrArray) left = tw_journal_left (desk->folder), none = tw_journal_left (desk->folder);
    g_autoptr (GError) error = NULL;

    g_assert_cmpuint (left->len, ==, 1);
    g_assert_cmpuint (none->len, ==, 0);
    g_assert_cmpuint (tw_journal_story (g_ptr_array_index (left, 0))->n_steps, ==, 1);
    g_assert_null (tw_journal_take (tw_journal_file (g_ptr_array_index (left, 0)), &error));
    g_assert_error (error, TW_ERROR, TW_ERROR_REFUSED);
  }
  close (ends[0]);
  close (ends[1]);
}

static goffset
size_of (const char *file)
{
  GStatBuf status;

  g_assert_cmpint (g_stat (file, &status), ==, 0);
  return (goffset)status.st_size;
}

/* A long one begins afresh; the number of steps is kept, the job comes back. */
static void
test_long (Desk *desk, gconstpointer data)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 20);
  TwJournal *journal = start (desk, job);
  g_autofree char *file = g_strdup (tw_journal_file (journal)), *wanted = NULL;
  g_autofree char *long_name = g_strnfill (90, 'n');
  goffset before = size_of (file);
  guint n = 0;

  tw_make_set (job, "core-1", "name", long_name);
  for (; n == 0 || size_of (file) > before; n++) {
    before = size_of (file);
    g_assert_cmpint (before, <, TW_JOURNAL_MOST_BYTES + 100000);
    for (guint i = 0; i < 30; i++)
      tw_make_port (job, "tank-1", TW_PORT_SPARE, TW_WALL_BACK, i + n);
    g_assert_true (tw_journal_enter (journal, job, "Ports", NULL));
    while (tw_job_count (job, TW_KIND_PORT) > 0)
      tw_part_unref (tw_job_take (job, tw_job_get (job, TW_KIND_PORT, 0)->id));
  }
  g_assert_cmpint (size_of (file), <, 100000);
  tw_make_baffle (job, "tank-1", 3);
  g_assert_true (tw_journal_enter (journal, job, "A baffle", NULL));
  wanted = tw_job_write_text (job);
  tw_journal_free (journal);
  journal = take (file);
  g_assert_cmpuint (tw_journal_story (journal)->n_steps, ==, n + 1);
  g_assert_cmpuint (count_files (desk->folder), ==, 1);
  assert_holds (tw_journal_job (journal), wanted);
  tw_journal_remove (journal);
}

/* The folder goes while it is written: it is made again, with the job as it is then. */
static void
test_vanished_folder (Desk *desk, gconstpointer data)
{
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 20);
  TwJournal *journal = start (desk, job);
  g_autofree char *file = g_strdup (tw_journal_file (journal)), *wanted = NULL;

  g_assert_cmpint (g_unlink (file), ==, 0);
  g_assert_cmpint (g_rmdir (desk->folder), ==, 0);
  tw_make_baffle (job, "tank-1", 3);
  g_assert_true (tw_journal_enter (journal, job, "A baffle", NULL));
  wanted = tw_job_write_text (job);
  tw_journal_free (journal);
  journal = take (file);
  g_assert_cmpuint (tw_journal_story (journal)->n_steps, ==, 1);
  g_assert_cmpstr (tw_journal_story (journal)->last_label, ==, "A baffle");
  assert_holds (tw_journal_job (journal), wanted);
  tw_journal_remove (journal);
}

/* A step that finds no room is refused and enters with the next one that does. */
static void
test_no_room (Desk *desk, gconstpointer data)
{
  pid_t child = fork ();
  int status;

  if (child == 0) {
    g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 20);
    TwJournal *journal = start (desk, job);
    g_autoptr (GError) error = NULL;
    struct rlimit limit = { (rlim_t)size_of (tw_journal_file (journal)) + 40, RLIM_INFINITY };

    signal (SIGXFSZ, SIG_IGN);
    tw_make_baffle (job, "tank-1", 3);
    if (setrlimit (RLIMIT_FSIZE, &limit) != 0 || tw_journal_enter (journal, job, "One", &error))
      _exit (1);
    if (!g_error_matches (error, TW_ERROR, TW_ERROR_FILE)
        || strstr (error->message, g_strerror (EFBIG)) == NULL)
      _exit (2);
    limit.rlim_cur = RLIM_INFINITY;
    tw_make_baffle (job, "tank-1", 5);
    if (setrlimit (RLIMIT_FSIZE, &limit) != 0 || !tw_journal_enter (journal, job, "Both", NULL))
      _exit (3);
    _exit (0);
  }
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_true (WIFEXITED (status));
  g_assert_cmpint (WEXITSTATUS (status), ==, 0);
  {
    g_autoptr (GPtrArray) left = tw_journal_left (desk->folder);

    g_assert_cmpuint (left->len, ==, 1);
    g_assert_cmpuint (tw_journal_story (g_ptr_array_index (left, 0))->n_steps, ==, 1);
    g_assert_cmpuint (tw_job_count (tw_journal_job (g_ptr_array_index (left, 0)), TW_KIND_BAFFLE), ==, 2);
  }
}

static void
test_no_folder (Desk *desk, gconstpointer data)
{
  const TwJournalAbout about = { NULL, NULL };
  g_autoptr (TwJob) job = tw_job_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *file = g_build_filename (desk->folder, "no-folder", NULL);

  g_assert_true (g_file_set_contents (file, "", 0, NULL));
  g_assert_null (tw_journal_start (file, &about, job, &error));
  g_assert_error (error, TW_ERROR, TW_ERROR_FILE);
}

/* What is no journal is left where it is; what a dead program had only begun goes, once it is old. */
static void
test_strangers (Desk *desk, gconstpointer data)
{
  g_autofree char *text = g_build_filename (desk->folder, "letter.journal", NULL);
  g_autofree char *begun = g_build_filename (desk->folder, "abcdef.new", NULL);
  g_autofree char *young = g_build_filename (desk->folder, "abcdeg.new", NULL);
  const struct timeval old[2] = { { 1000, 0 }, { 1000, 0 } };
  g_autoptr (GPtrArray) left = NULL;

  g_assert_true (g_file_set_contents (text, "Dear Sir\n", -1, NULL));
  g_assert_true (g_file_set_contents (begun, "", 0, NULL));
  g_assert_true (g_file_set_contents (young, "", 0, NULL));
  g_assert_cmpint (utimes (begun, old), ==, 0);
  left = tw_journal_left (desk->folder);
  g_assert_cmpuint (left->len, ==, 0);
  g_assert_true (g_file_test (text, G_FILE_TEST_EXISTS));
  g_assert_true (g_file_test (young, G_FILE_TEST_EXISTS));
  g_assert_false (g_file_test (begun, G_FILE_TEST_EXISTS));
}

int
main (int argc, char *argv[])
{
  static const struct {
    const char *path;
    void (*test) (Desk *desk, gconstpointer data);
  } tests[] = {
    { "/job/journal/story", test_story },
    { "/job/journal/cut-anywhere", test_cut_anywhere },
    { "/job/journal/spoilt-byte", test_spoilt_byte },
    { "/job/journal/gone-on-with", test_gone_on_with },
    { "/job/journal/locked", test_locked },
    { "/job/journal/long", test_long },
    { "/job/journal/vanished-folder", test_vanished_folder },
    { "/job/journal/no-room", test_no_room },
    { "/job/journal/no-folder", test_no_folder },
    { "/job/journal/strangers", test_strangers },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Desk, NULL, desk_open, tests[i].test, desk_close);
  return g_test_run ();
}
