/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whatever happens while a job is saved, the file holds the old job or the new one, whole.
 */
#include "base/error.h"
#include "job/read.h"
#include "job/write.h"
#include "support/make-job.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <grp.h>
#include <sched.h>
#include <signal.h>
#include <string.h>
#include <sys/file.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define N_KILLS 250
#define NOBODY 65534

/* A child that could not set up what it should try, and one that lost something. */
#define EXIT_SKIP 77
#define EXIT_LOST 1

typedef struct {
  char *folder, *path;
  TwJob *old, *new;
  char *old_text, *new_text;
} Desk;

static void
desk_open (Desk *desk, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  desk->folder = g_dir_make_tmp ("save-XXXXXX", NULL);
  g_assert_nonnull (desk->folder);
  desk->path = g_build_filename (desk->folder, "merlin.twjob", NULL);
  desk->old = tw_make_job (TW_TUBES_LEVEL, 31);
  desk->new = tw_make_job (TW_TUBES_UPRIGHT, 26);
  /* Large enough that a save takes a while. */
  for (guint i = 0; i < 300; i++) {
    tw_make_baffle (desk->old, "tank-1", 1 + i % 30);
    tw_make_port (desk->new, "tank-2", TW_PORT_SPARE, TW_WALL_BACK, i);
  }
  desk->old_text = tw_job_write_text (desk->old);
  desk->new_text = tw_job_write_text (desk->new);
  g_assert_true (tw_job_save (desk->old, desk->path, &error));
}

static void
remove_folder (const char *folder)
{
  GDir *dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL) {
    g_autofree char *path = g_build_filename (folder, name, NULL);

    if (g_remove (path) != 0)
      remove_folder (path);
  }
  g_clear_pointer (&dir, g_dir_close);
  g_rmdir (folder);
}

static void
desk_close (Desk *desk, gconstpointer data)
{
  g_chmod (desk->folder, 0700);
  remove_folder (desk->folder);
  tw_job_free (desk->old);
  tw_job_free (desk->new);
  g_free (desk->old_text);
  g_free (desk->new_text);
  g_free (desk->folder);
  g_free (desk->path);
}

static gboolean
holds (const char *path, const char *text)
{
  g_autofree char *stored = NULL;

  return g_file_get_contents (path, &stored, NULL, NULL) && g_str_equal (stored, text);
}

static guint
count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static void
test_plain (Desk *desk, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (tw_job_save (desk->new, desk->path, &error));
  g_assert_true (holds (desk->path, desk->new_text));
  g_assert_cmpuint (count_files (desk->folder), ==, 1);
}

/* Saves the two jobs in turn, with a byte to @done after each, until it is killed. */
static void
save_for_ever (Desk *desk, int done)
{
  for (guint i = 0;; i++)
    if (!tw_job_save (i % 2 == 0 ? desk->new : desk->old, desk->path, NULL) || write (done, "", 1) != 1)
      _exit (EXIT_LOST);
}

/* A child is killed at any moment of a save: after none to three whole ones, and a part of one more. */
static void
test_killed (Desk *desk, gconstpointer data)
{
  GRand *rng = g_rand_new_with_seed (4711);
  guint n_old = 0, n_new = 0;
  gint64 start = g_get_monotonic_time (), takes_us;

  g_assert_true (tw_job_save (desk->old, desk->path, NULL));
  takes_us = MAX (100, g_get_monotonic_time () - start);
  for (guint i = 0; i < N_KILLS; i++) {
    int ends[2], status;
    char byte;
    pid_t child;

    g_assert_cmpint (pipe (ends), ==, 0);
    child = fork ();
    g_assert_cmpint (child, >=, 0);
    if (child == 0)
      save_for_ever (desk, ends[1]);
    for (int k = g_rand_int_range (rng, 0, 4); k > 0; k--)
      g_assert_cmpint (read (ends[0], &byte, 1), ==, 1);
    g_usleep ((gulong)(g_rand_double (rng) * 1.2 * (double)takes_us));
    g_assert_cmpint (kill (child, SIGKILL), ==, 0);
    g_assert_cmpint (waitpid (child, &status, 0), ==, child);
    g_assert_true (WIFSIGNALED (status));
    close (ends[0]);
    close (ends[1]);
    if (holds (desk->path, desk->old_text))
      n_old++;
    else if (holds (desk->path, desk->new_text))
      n_new++;
    else
      g_error ("killed for the %uth time: the file holds neither job", i + 1);
  }
  g_rand_free (rng);
  g_test_message ("%u times the one job, %u times the other", n_old, n_new);
  g_assert_cmpuint (n_old, >, 0);
  g_assert_cmpuint (n_new, >, 0);
  /* What the killed ones left goes with the next save. */
  g_assert_true (tw_job_save (desk->old, desk->path, NULL));
  g_assert_cmpuint (count_files (desk->folder), ==, 1);
}

/* Only files of that name which nobody holds go: not one that is being written, nor another file's. */
static void
test_left_beside (Desk *desk, gconstpointer data)
{
  g_autofree char *dead = g_strconcat (desk->path, ".tw-aB3xYz", NULL),
                  *alive = g_strconcat (desk->path, ".tw-000000", NULL),
                  *longer = g_strconcat (desk->path, ".tw-0000000", NULL),
                  *other = g_build_filename (desk->folder, "ox.twjob.tw-000000", NULL);
  int fd;

  g_assert_true (g_file_set_contents (dead, "x", 1, NULL));
  g_assert_true (g_file_set_contents (alive, "x", 1, NULL));
  g_assert_true (g_file_set_contents (longer, "x", 1, NULL));
  g_assert_true (g_file_set_contents (other, "x", 1, NULL));
  fd = open (alive, O_RDONLY | O_CLOEXEC);
  g_assert_cmpint (flock (fd, LOCK_EX), ==, 0);
  g_assert_true (tw_job_save (desk->new, desk->path, NULL));
  g_assert_false (g_file_test (dead, G_FILE_TEST_EXISTS));
  g_assert_true (g_file_test (alive, G_FILE_TEST_EXISTS));
  g_assert_true (g_file_test (longer, G_FILE_TEST_EXISTS));
  g_assert_true (g_file_test (other, G_FILE_TEST_EXISTS));
  g_assert_cmpint (close (fd), ==, 0);
}

/* The file is what it was, nothing stands beside it, and @error says of @path what @says. */
static gboolean
lost_nothing (Desk *desk, const GError *error, const char *says)
{
  return error != NULL && error->domain == TW_ERROR && error->code == TW_ERROR_FILE
         && strstr (error->message, desk->path) != NULL && strstr (error->message, says) != NULL
         && holds (desk->path, desk->old_text) && count_files (desk->folder) == 1;
}

/* Runs @body in a child of its own, which may give up rights and take limits. */
static void
in_child (Desk *desk, int (*body) (Desk *desk))
{
  pid_t child = fork ();
  int status;

  g_assert_cmpint (child, >=, 0);
  if (child == 0)
    _exit (body (desk));
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_true (WIFEXITED (status));
  if (WEXITSTATUS (status) == EXIT_SKIP)
    g_test_skip ("this process may not set that up");
  else
    g_assert_cmpint (WEXITSTATUS (status), ==, 0);
}

static int
save_read_only (Desk *desk)
{
  g_autoptr (GError) error = NULL;

  /* The root user may write anywhere. */
  if (geteuid () == 0 && (setgroups (0, NULL) != 0 || setgid (NOBODY) != 0 || setuid (NOBODY) != 0))
    return EXIT_SKIP;
  if (tw_job_save (desk->new, desk->path, &error))
    return EXIT_LOST;
  return lost_nothing (desk, error, g_strerror (EACCES)) ? 0 : EXIT_LOST;
}

static void
test_read_only_folder (Desk *desk, gconstpointer data)
{
  g_assert_cmpint (g_chmod (desk->folder, 0555), ==, 0);
  in_child (desk, save_read_only);
}

static int
save_beyond_limit (Desk *desk)
{
  struct rlimit limit = { 4096, 4096 };
  g_autoptr (GError) error = NULL;

  signal (SIGXFSZ, SIG_IGN);
  if (setrlimit (RLIMIT_FSIZE, &limit) != 0)
    return EXIT_SKIP;
  if (tw_job_save (desk->new, desk->path, &error))
    return EXIT_LOST;
  return lost_nothing (desk, error, g_strerror (EFBIG)) ? 0 : EXIT_LOST;
}

static void
test_file_size_limit (Desk *desk, gconstpointer data)
{
  in_child (desk, save_beyond_limit);
}

/* A disk that has room for the old file and not for the new one beside it. */
static int
save_to_full_disk (Desk *desk)
{
  g_autofree char *options = g_strdup_printf ("size=%zu", (strlen (desk->old_text) / 4096 + 2) * 4096);
  g_autoptr (GError) error = NULL;

  if (unshare (CLONE_NEWNS) != 0 || mount (NULL, "/", NULL, MS_REC | MS_PRIVATE, NULL) != 0
      || mount ("none", desk->folder, "tmpfs", 0, options) != 0)
    return EXIT_SKIP;
  if (!tw_job_save (desk->old, desk->path, NULL))
    return EXIT_SKIP;
  if (tw_job_save (desk->new, desk->path, &error))
    return EXIT_LOST;
  return lost_nothing (desk, error, g_strerror (ENOSPC)) ? 0 : EXIT_LOST;
}

static void
test_full_disk (Desk *desk, gconstpointer data)
{
  in_child (desk, save_to_full_disk);
}

static void
test_vanished_folder (Desk *desk, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  remove_folder (desk->folder);
  g_assert_false (tw_job_save (desk->new, desk->path, &error));
  g_assert_error (error, TW_ERROR, TW_ERROR_FILE);
  g_assert_nonnull (strstr (error->message, g_strerror (ENOENT)));
  g_assert_false (g_file_test (desk->folder, G_FILE_TEST_EXISTS));
}

static void
test_onto_folder (Desk *desk, gconstpointer data)
{
  g_autofree char *folder = g_build_filename (desk->folder, "jobs", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_mkdir (folder, 0700), ==, 0);
  g_assert_false (tw_job_save (desk->new, folder, &error));
  g_assert_error (error, TW_ERROR, TW_ERROR_FILE);
  g_assert_cmpuint (count_files (desk->folder), ==, 2);
  g_assert_true (g_file_test (folder, G_FILE_TEST_IS_DIR));
}

static mode_t
mode_of (const char *path)
{
  struct stat status;

  g_assert_cmpint (g_stat (path, &status), ==, 0);
  return status.st_mode & 07777;
}

static void
test_mode (Desk *desk, gconstpointer data)
{
  static const mode_t modes[] = { 0600, 0640, 0664, 0644, 0400 };
  g_autofree char *fresh = g_build_filename (desk->folder, "fresh.twjob", NULL);
  g_autoptr (GError) error = NULL;
  mode_t mask;

  for (guint i = 0; i < G_N_ELEMENTS (modes); i++) {
    g_assert_cmpint (g_chmod (desk->path, modes[i]), ==, 0);
    g_assert_true (tw_job_save (i % 2 == 0 ? desk->new : desk->old, desk->path, &error));
    g_assert_cmphex (mode_of (desk->path), ==, modes[i]);
  }
  mask = umask (027);
  g_assert_true (tw_job_save (desk->new, fresh, &error));
  umask (mask);
  g_assert_cmphex (mode_of (fresh), ==, 0640);
}

/* The link stays a link, also one that leads to nothing yet, and relative ones from another folder. */
static void
test_symlink (Desk *desk, gconstpointer data)
{
  static const char *const targets[] = { "merlin.twjob", "not-yet.twjob" };
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (targets); i++) {
    g_autofree char *link = g_strdup_printf ("%s/link-%u.twjob", desk->folder, i), *leads_to = NULL;
    g_autofree char *target = g_build_filename (desk->folder, targets[i], NULL);

    g_assert_cmpint (symlink (targets[i], link), ==, 0);
    g_assert_true (tw_job_save (desk->new, link, &error));
    leads_to = g_file_read_link (link, NULL);
    g_assert_cmpstr (leads_to, ==, targets[i]);
    g_assert_true (holds (target, desk->new_text));
  }
}

int
main (int argc, char *argv[])
{
  static const struct {
    const char *path;
    void (*test) (Desk *desk, gconstpointer data);
  } tests[] = {
    { "/files/save/plain", test_plain },
    { "/files/save/killed", test_killed },
    { "/files/save/left-beside", test_left_beside },
    { "/files/save/read-only-folder", test_read_only_folder },
    { "/files/save/file-size-limit", test_file_size_limit },
    { "/files/save/full-disk", test_full_disk },
    { "/files/save/vanished-folder", test_vanished_folder },
    { "/files/save/onto-folder", test_onto_folder },
    { "/files/save/mode", test_mode },
    { "/files/save/symlink", test_symlink },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Desk, NULL, desk_open, tests[i].test, desk_close);
  return g_test_run ();
}
