/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/catalogue-private.h"

#include "base/data.h"

#include <math.h>
#include <string.h>

#define MOST_BYTES (4 * 1024 * 1024)

struct _TwCatalogue {
  GPtrArray *lists[TW_N_CATALOGUES];  /* of TwEntry, in the order of the files, the user's additions last */
  GHashTable *by_id[TW_N_CATALOGUES]; /* id → TwEntry */
  GHashTable *ports;                  /* `standard size`, spelt plainly → TwEntry */
};

static GPtrArray *
read_file (TwCatalogueList list, const char *path, GError **error)
{
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  g_autoptr (GPtrArray) entries = NULL;
  g_autoptr (GError) reading = NULL;
  g_autofree char *text = NULL;
  gsize length;

  if (!g_file_get_contents (path, &text, &length, &reading)) {
    g_set_error_literal (error, TW_ERROR, TW_ERROR_FILE, reading->message);
    return NULL;
  }
  if (length > MOST_BYTES) {
    g_set_error (error, TW_ERROR, TW_ERROR_LIMIT, _ ("%s: a catalogue has at most %d bytes"), path,
                 MOST_BYTES);
    return NULL;
  }
  entries = tw_catalogue_read (list, text, length, troubles);
  return tw_troubles_to_error (troubles, path, error) ? g_steal_pointer (&entries) : NULL;
}

/* Puts @entry (transfer full) in the place of the one with its id, or last. */
static void
take_entry (TwCatalogue *self, TwCatalogueList list, TwEntry *entry)
{
  TwEntry *old = g_hash_table_lookup (self->by_id[list], entry->id);
  guint place;

  g_hash_table_replace (self->by_id[list], entry->id, entry);
  if (old != NULL && g_ptr_array_find (self->lists[list], old, &place)) {
    g_ptr_array_index (self->lists[list], place) = entry;
    tw_entry_free (old);
  } else {
    g_ptr_array_add (self->lists[list], entry);
  }
}

static gboolean
load_list (TwCatalogue *self, TwCatalogueList list, GError **error)
{
  g_autofree char *name = g_strdup_printf ("catalogue/%s.json", tw_catalogue_list_name (list));
  g_autofree char *shipped = tw_data_find_shipped (name, error), *own = tw_data_find_own (name);
  const char *paths[] = { shipped, own };

  if (shipped == NULL)
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (paths) && paths[i] != NULL; i++) {
    g_autoptr (GPtrArray) entries = read_file (list, paths[i], error);

    if (entries == NULL)
      return FALSE;
    while (entries->len > 0)
      take_entry (self, list, g_ptr_array_steal_index (entries, 0));
  }
  return TRUE;
}

/* A standard or size as a key: `M14×1,5` and `m14 x 1.5` are one, `–16` and `16` too; `1 1/2` keeps its
 * space.
 */
static char *
spell_plainly (const char *text)
{
  static const char *const pairs[][2]
      = { { "×", "x" },    { "−", "-" },      { "–", "-" },     { "‑", "-" },    { "ø", "" },
          { "Ø", "" },     { "½", " 1/2" },   { "¼", " 1/4" },  { "¾", " 3/4" }, { "⅛", " 1/8" },
          { "⅜", " 3/8" }, { "⅝", " 5/8" },   { "⅞", " 7/8" },  { ",", "." },    { "\"", " " },
          { "°", "" },     { "\u00a0", " " }, { "\u2009", " " } };
  g_autoptr (GString) plain = g_string_new (text);
  g_auto (GStrv) parts = NULL;
  g_autofree char *lower = NULL;
  GString *key = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (pairs); i++)
    g_string_replace (plain, pairs[i][0], pairs[i][1], 0);
  lower = g_ascii_strdown (plain->str, -1);
  parts = g_strsplit_set (lower, " \t", -1);
  for (guint i = 0; parts[i] != NULL; i++) {
    gboolean both_digits
        = key->len > 0 && g_ascii_isdigit (key->str[key->len - 1]) && g_ascii_isdigit (parts[i][0]);

    if (g_str_equal (parts[i], "mm") || g_str_equal (parts[i], "in") || parts[i][0] == '\0')
      continue;
    g_string_append_printf (key, "%s%s", both_digits ? " " : "", parts[i]);
  }
  return g_string_free (key, FALSE);
}

/* Sizes with a thread's letters or a unit grown onto them, and dash sizes without their dash. */
static const char *
without_sign (const char *size)
{
  static const char *const signs[] = { "rc", "rp", "g", "r", "-" };

  for (guint i = 0; i < G_N_ELEMENTS (signs); i++)
    if (g_str_has_prefix (size, signs[i]) && g_ascii_isdigit (size[strlen (signs[i])]))
      return size + strlen (signs[i]);
  return size;
}

static char *
port_key (const char *standard, const char *size)
{
  g_autofree char *plain_standard = g_ascii_strdown (standard, -1), *plain_size = spell_plainly (size);
  const char *units[] = { "mm", "in", "npt", "unf", "un" };

  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    if (g_str_has_suffix (plain_size, units[i]))
      plain_size[strlen (plain_size) - strlen (units[i])] = '\0';
  g_strdelimit (plain_standard, " _./", '-');
  return g_strdup_printf ("%s %s", plain_standard, without_sign (plain_size));
}

/* Each standard has one pitch a diameter, so that `M14` says enough. */
static void
index_port (TwCatalogue *self, TwEntry *entry)
{
  const char *size = tw_entry_text (entry, "size"), *thread = tw_entry_text (entry, "thread");
  const char *also = tw_entry_text (entry, "also"), *pitch = strchr (size, 'x');
  g_autofree char *names
      = g_strconcat (tw_entry_text (entry, "standard"), " ", also != NULL ? also : "", NULL);
  g_auto (GStrv) standards = g_strsplit (names, " ", -1);

  for (guint i = 0; standards[i] != NULL; i++) {
    if (standards[i][0] == '\0')
      continue;
    g_hash_table_replace (self->ports, port_key (standards[i], size), entry);
    if (thread != NULL)
      g_hash_table_replace (self->ports, port_key (standards[i], thread), entry);
    if (pitch != NULL) {
      g_autofree char *diameter = g_strndup (size, (gsize)(pitch - size));

      g_hash_table_replace (self->ports, port_key (standards[i], diameter), entry);
    }
  }
}

TwCatalogue *
tw_catalogue_load (GError **error)
{
  g_autoptr (TwCatalogue) self = g_new0 (TwCatalogue, 1);

  self->ports = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < TW_N_CATALOGUES; i++) {
    self->lists[i] = g_ptr_array_new_with_free_func (tw_entry_free);
    self->by_id[i] = g_hash_table_new (g_str_hash, g_str_equal);
  }
  for (guint i = 0; i < TW_N_CATALOGUES; i++)
    if (!load_list (self, i, error))
      return NULL;
  for (guint i = 0; i < self->lists[TW_CATALOGUE_PORTS]->len; i++)
    index_port (self, g_ptr_array_index (self->lists[TW_CATALOGUE_PORTS], i));
  return g_steal_pointer (&self);
}

void
tw_catalogue_free (TwCatalogue *self)
{
  for (guint i = 0; i < TW_N_CATALOGUES; i++) {
    g_clear_pointer (&self->by_id[i], g_hash_table_unref);
    g_clear_pointer (&self->lists[i], g_ptr_array_unref);
  }
  g_hash_table_unref (self->ports);
  g_free (self);
}

guint
tw_catalogue_count (const TwCatalogue *self, TwCatalogueList list)
{
  g_return_val_if_fail (list < TW_N_CATALOGUES, 0);
  return self->lists[list]->len;
}

const TwEntry *
tw_catalogue_get (const TwCatalogue *self, TwCatalogueList list, guint nth)
{
  g_return_val_if_fail (nth < tw_catalogue_count (self, list), NULL);
  return g_ptr_array_index (self->lists[list], nth);
}

const TwEntry *
tw_catalogue_find (const TwCatalogue *self, TwCatalogueList list, const char *id)
{
  g_return_val_if_fail (list < TW_N_CATALOGUES, NULL);
  return g_hash_table_lookup (self->by_id[list], id);
}

const TwEntry *
tw_catalogue_port (const TwCatalogue *self, const char *standard, const char *size)
{
  g_autofree char *key = port_key (standard, size);

  return g_hash_table_lookup (self->ports, key);
}

const char *
tw_entry_id (const TwEntry *self)
{
  return self->id;
}

const char *
tw_entry_name (const TwEntry *self)
{
  return tw_entry_text (self, "name");
}

const char *
tw_entry_source (const TwEntry *self)
{
  return tw_entry_text (self, "source");
}

const char *
tw_entry_status (const TwEntry *self)
{
  return tw_entry_text (self, "status");
}

double
tw_entry_number (const TwEntry *self, const char *name)
{
  const double *number = g_hash_table_lookup (self->numbers, name);

  return number != NULL ? *number : (double)NAN;
}

const char *
tw_entry_text (const TwEntry *self, const char *name)
{
  return g_hash_table_lookup (self->texts, name);
}
