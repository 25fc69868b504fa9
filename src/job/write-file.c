/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "job/write-private.h"
#include "job/write.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define MOST_LINKS 40 /* as many as Linux follows; a ring of links is then written over by its last one */

/* A file that is being written beside NAME is called NAME.tw-XXXXXX, and is locked by who writes it. */
#define BESIDE ".tw-"
#define BESIDE_RANDOM 6

static gboolean
set_file_error (GError **error, const char *path, int code)
{
  g_set_error (error, TW_ERROR, TW_ERROR_FILE, _ ("%s cannot be written: %s; the file is as it was before"),
               path, g_strerror (code));
  return FALSE;
}

gboolean
tw_write_all (int fd, const char *bytes, gsize length)
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
  return TRUE;
}

void
tw_write_sync_folder (const char *folder)
{
  int fd = open (folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);

  if (fd >= 0) {
    /* Some file systems cannot; the rename itself has succeeded. */
    if (fsync (fd) != 0)
      errno = 0;
    close (fd);
  }
}

gboolean
tw_write_lock (int fd, gboolean *known)
{
  gboolean locked = flock (fd, LOCK_EX | LOCK_NB) == 0;

  *known = locked || errno == EWOULDBLOCK;
  return locked || !*known;
}

gboolean
tw_write_is_there (int fd, const char *file)
{
  struct stat opened, found;

  return fstat (fd, &opened) == 0 && stat (file, &found) == 0 && opened.st_dev == found.st_dev
         && opened.st_ino == found.st_ino;
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

/* A new file beside @target, locked; -1 and errno when there can be none. */
static int
open_beside (const char *target, char **beside)
{
  for (;;) {
    gboolean known;
    int fd;

    g_free (*beside);
    *beside = g_strconcat (target, BESIDE "XXXXXX", NULL);
    fd = g_mkstemp_full (*beside, O_WRONLY | O_CLOEXEC, 0600);
    if (fd < 0 || (tw_write_lock (fd, &known) && tw_write_is_there (fd, *beside)))
      return fd;
    close (fd); /* taken for one that was left behind, between its making and its lock */
  }
}

/* Removes @file when no one holds it: its writer was killed. */
static void
remove_left (const char *file)
{
  int fd = open (file, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
  struct stat status;
  gboolean known;

  if (fd < 0)
    return;
  if (fstat (fd, &status) == 0 && S_ISREG (status.st_mode) && tw_write_lock (fd, &known) && known
      && tw_write_is_there (fd, file))
    g_unlink (file);
  close (fd);
}

/* What earlier saves of the same file have left behind when they were killed. */
static void
sweep (const char *folder, const char *target)
{
  g_autofree char *base = g_path_get_basename (target), *start = g_strconcat (base, BESIDE, NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL) {
    g_autofree char *file = NULL;

    if (!g_str_has_prefix (name, start) || strlen (name) != strlen (start) + BESIDE_RANDOM)
      continue;
    file = g_build_filename (folder, name, NULL);
    remove_left (file);
  }
}

gboolean
tw_write_file (const char *path, const char *bytes, gsize length, GError **error)
{
  g_autofree char *target = follow_links (path);
  g_autofree char *folder = g_path_get_dirname (target), *beside = NULL;
  int fd = open_beside (target, &beside), code = 0;

  if (fd < 0)
    return set_file_error (error, path, errno);
  if (!tw_write_all (fd, bytes, length) || fsync (fd) != 0 || fchmod (fd, mode_for (target)) != 0)
    code = errno;
  if (code == 0 && g_rename (beside, target) != 0)
    code = errno;
  if (close (fd) != 0 && code == 0)
    code = errno; /* what a distant server says late; the bytes were synced */
  if (code != 0) {
    g_unlink (beside);
    return set_file_error (error, path, code);
  }
  tw_write_sync_folder (folder);
  sweep (folder, target);
  return TRUE;
}
