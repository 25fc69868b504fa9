/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/free-name.h"

#include <string.h>

#define LONGEST_NAME 100 /* bytes: what a name takes */

/* Its stem without a number: `Inlet` of `Inlet 2`. (transfer full) */
static char *
stem_of (const char *name)
{
  gsize length = strlen (name), digits = 0;

  while (digits < length && g_ascii_isdigit (name[length - 1 - digits]))
    digits++;
  if (digits > 0 && digits < 6 && length > digits + 1 && name[length - digits - 1] == ' ')
    return g_strndup (name, length - digits - 1);
  return g_strdup (name);
}

char *
tw_free_name (GHashTable *taken, const char *name)
{
  g_autofree char *stem = stem_of (name);

  for (guint n = 2;; n++) {
    g_autofree char *number = g_strdup_printf (" %u", n);
    gsize room = LONGEST_NAME - strlen (number);
    const char *end = stem + MIN (strlen (stem), room);
    g_autofree char *cut = NULL;
    char *made;

    while (end > stem && ((guchar)*end & 0xc0) == 0x80) /* not within a letter of UTF-8 */
      end--;
    cut = g_strndup (stem, (gsize)(end - stem));
    made = g_strconcat (cut, number, NULL);
    if (g_hash_table_add (taken, g_strdup (made)))
      return made;
    g_free (made);
  }
}
