/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The catalogue's reader and its look-ups. Ports against their standards: test-ports-published.c.
 */
#include "base/error.h"
#include "base/source.h"
#include "job/catalogue.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

static TwCatalogue *
load (void)
{
  g_autoptr (GError) error = NULL;
  TwCatalogue *catalogue = tw_catalogue_load (&error);

  g_assert_no_error (error);
  return catalogue;
}

/* As people write it, and the entry that is meant. */
static const struct {
  const char *standard, *size, *id;
} looked_up[] = {
  { "iso-6149", "M12x1.5", "iso-6149-m12x1_5" },
  { "iso-6149", "M14×1.5", "iso-6149-m14x1_5" },
  { "ISO 6149", "m14 x 1,5", "iso-6149-m14x1_5" },
  { "iso-6149", "M14", "iso-6149-m14x1_5" },
  { "npt", "1/4", "npt-1_4" },
  { "NPT", "3/8 NPT", "npt-3_8" },
  { "npt", "1 1/2", "npt-1-1_2" },
  { "npt", "1½", "npt-1-1_2" },
  { "iso-11926", "-16", "iso-11926-16" },
  { "iso-11926", "−16", "iso-11926-16" },
  { "sae-j1926", "16", "iso-11926-16" },
  { "iso-11926", "1 5/16-12 UN", "iso-11926-16" },
  { "flare-37", "-8", "flare-37-8" },
  { "iso-228", "G 1/4", "iso-228-1_4" },
  { "iso-228", "g1/4", "iso-228-1_4" },
  { "iso-7", "Rc 1 1/4", "iso-7-1-1_4" },
  { "stub", "32", "stub-32" },
  { "stub", "ø 32 mm", "stub-32" },
  { "stub", "1 1/2", "stub-1-1_2-in" },
  { "stub", "1 1/2 in", "stub-1-1_2-in" },
  { "stub", "2\"", "stub-2-in" },
  { "iso-6149", "M13x1.5", NULL },
  { "npt", "-16", NULL },
  { "no-such", "1/4", NULL },
  { "stub", "", NULL },
};

static void
test_port (void)
{
  g_autoptr (TwCatalogue) catalogue = load ();

  for (guint i = 0; i < G_N_ELEMENTS (looked_up); i++) {
    const TwEntry *entry = tw_catalogue_port (catalogue, looked_up[i].standard, looked_up[i].size);

    g_assert_cmpstr (entry != NULL ? tw_entry_id (entry) : NULL, ==, looked_up[i].id);
  }
}

/* Whatever a data file names as its source is a source, and no id leads astray. */
static void
test_entries (void)
{
  g_autoptr (TwCatalogue) catalogue = load ();
  g_autoptr (GError) error = NULL;
  g_autoptr (TwSources) sources = tw_sources_load (&error);

  g_assert_no_error (error);
  for (guint list = 0; list < TW_N_CATALOGUES; list++) {
    g_assert_cmpuint (tw_catalogue_count (catalogue, list), >, 3);
    for (guint i = 0; i < tw_catalogue_count (catalogue, list); i++) {
      const TwEntry *entry = tw_catalogue_get (catalogue, list, i);

      g_assert_true (tw_catalogue_find (catalogue, list, tw_entry_id (entry)) == entry);
      g_assert_nonnull (tw_entry_name (entry));
      g_assert_nonnull (tw_entry_status (entry));
      if (tw_sources_find (sources, tw_entry_source (entry)) == NULL)
        g_error ("%s: there is no source %s", tw_entry_id (entry), tw_entry_source (entry));
      g_assert_true (isnan (tw_entry_number (entry, "no_such_mm")));
      g_assert_null (tw_entry_text (entry, "no_such"));
    }
  }
}

/* Every kind of core names alloys that there are, and every alloy is lighter than iron and heavier than
 * water. */
static void
test_core_kinds (void)
{
  g_autoptr (TwCatalogue) catalogue = load ();

  for (guint i = 0; i < tw_catalogue_count (catalogue, TW_CATALOGUE_CORE_KINDS); i++) {
    const TwEntry *kind = tw_catalogue_get (catalogue, TW_CATALOGUE_CORE_KINDS, i);
    static const char *const named[] = { "alloy", "tank_alloy" };

    for (guint k = 0; k < G_N_ELEMENTS (named); k++)
      g_assert_nonnull (tw_catalogue_find (catalogue, TW_CATALOGUE_ALLOYS, tw_entry_text (kind, named[k])));
    g_assert_cmpstr (tw_entry_status (kind), ==, "common-practice");
    g_assert_cmpfloat (tw_entry_number (kind, "rows") * tw_entry_number (kind, "tube_width_mm"), <=,
                       tw_entry_number (kind, "thickness_mm"));
  }
}

/* What may stand in a user's file, and what is said of what may not: each is the whole of alloys.json. */
static const struct {
  const char *name, *text, *says;
} files[] = {
  { "no-json", "{ \"tankwright-catalogue\": 1, ", "line 1, column 30" },
  { "no-object", "[]", "the file: found a list, expected an object" },
  { "no-entries", "{ \"tankwright-catalogue\": 1, \"list\": \"alloys\" }", "entries: found nothing" },
  { "other-format", "{ \"tankwright-catalogue\": 2, \"list\": \"alloys\", \"entries\": [] }",
    "tankwright-catalogue: found 2, expected 1" },
  { "other-list", "{ \"tankwright-catalogue\": 1, \"list\": \"ports\", \"entries\": [] }",
    "list: found \"ports\", expected \"alloys\"" },
  { "stray-member", "{ \"tankwright-catalogue\": 1, \"list\": \"alloys\", \"more\": 0, \"entries\": [] }",
    "more: found 0, expected no such member here" },
  { "no-id", "{ \"tankwright-catalogue\": 1, \"list\": \"alloys\", \"entries\": [{ \"name\": \"x\" }] }",
    "entries[0].id: found nothing" },
  { "bad-id", "{ \"tankwright-catalogue\": 1, \"list\": \"alloys\", \"entries\": [{ \"id\": \"A B\" }] }",
    "entries[0].id: found \"A B\"" },
  { "missing-figure",
    "{ \"tankwright-catalogue\": 1, \"list\": \"alloys\", \"entries\": [{ \"id\": \"x\", \"name\": \"x\" }] "
    "}",
    "entries[0].density_kg_m3: found nothing, expected a number" },
  { "out-of-range",
    "{ \"tankwright-catalogue\": 1, \"list\": \"alloys\", \"entries\": [{ \"id\": \"x\", \"density_kg_m3\": "
    "2.7 }] }",
    "entries[0].density_kg_m3: found 2.7, expected a number of 1500 to 9000" },
  { "text-for-figure",
    "{ \"tankwright-catalogue\": 1, \"list\": \"alloys\", \"entries\": [{ \"id\": \"x\", \"yield_mpa\": "
    "\"65\" }] }",
    "entries[0].yield_mpa: found \"65\", expected a number of 5 to 2000" },
  { "unknown-member",
    "{ \"tankwright-catalogue\": 1, \"list\": \"alloys\", \"entries\": [{ \"id\": \"x\", \"colour\": 1 }] }",
    "entries[0].colour: found 1, expected no such member here" },
  { "bad-status",
    "{ \"tankwright-catalogue\": 1, \"list\": \"alloys\", \"entries\": [{ \"id\": \"x\", \"status\": "
    "\"sure\" }] }",
    "entries[0].status: found \"sure\"" },
  { "doubt-of-nothing",
    "{ \"tankwright-catalogue\": 1, \"list\": \"alloys\", \"entries\": [{ \"id\": \"x\", \"from_memory\": "
    "\"taste\" }] }",
    "entries[0].from_memory: found \"taste\", expected names of figures of this entry" },
  { "twice",
    "{ \"tankwright-catalogue\": 1, \"list\": \"alloys\", \"entries\": [{ \"id\": \"x\" }, { \"id\": \"x\" "
    "}] }",
    "entries[1].id: found \"x\", expected an id that no other entry has" },
  { "no-entry", "{ \"tankwright-catalogue\": 1, \"list\": \"alloys\", \"entries\": [7] }",
    "entries[0]: found 7, expected an object" },
};

/* Puts alloys.json into the user's own folder; the caller frees the path and removes the file. */
static char *
put_own_file (const char *text)
{
  g_autofree char *folder = g_build_filename (g_get_user_data_dir (), "tankwright", "catalogue", NULL);
  char *path = g_build_filename (folder, "alloys.json", NULL);

  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  g_assert_true (g_file_set_contents (path, text, -1, NULL));
  return path;
}

static void
test_refused (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (files); i++) {
    g_autofree char *path = put_own_file (files[i].text);
    g_autoptr (GError) error = NULL;
    TwCatalogue *catalogue = tw_catalogue_load (&error);

    g_assert_null (catalogue);
    g_assert_error (error, TW_ERROR, TW_ERROR_FORMAT);
    if (strstr (error->message, files[i].says) == NULL || strstr (error->message, path) == NULL)
      g_error ("%s: \"%s\" does not say \"%s\" of %s", files[i].name, error->message, files[i].says, path);
    g_unlink (path);
  }
}

/* A user's file with one of ours under another name and one more: ours is replaced, the other comes last. */
static void
test_own_wins (void)
{
  static const char entry[]
      = "{ \"id\": \"%s\", \"name\": \"%s\", \"density_kg_m3\": 2700, \"elastic_modulus_mpa\": 70000, "
        "\"yield_mpa\": 50, \"strength_mpa\": 100, \"haz_yield_mpa\": 50, \"haz_strength_mpa\": 100, "
        "\"source\": \"COMMON-PRACTICE\", \"status\": \"common-practice\" }";
  g_autoptr (TwCatalogue) shipped = load ();
  g_autofree char *one = g_strdup_printf (entry, "5052-h32", "the shop's own sheet");
  g_autofree char *other = g_strdup_printf (entry, "left-over", "left over");
  g_autofree char *text = g_strdup_printf (
      "{ \"tankwright-catalogue\": 1, \"list\": \"alloys\", \"entries\": [%s, %s] }", one, other);
  g_autofree char *path = put_own_file (text);
  g_autoptr (TwCatalogue) both = load ();
  guint n = tw_catalogue_count (shipped, TW_CATALOGUE_ALLOYS);

  g_unlink (path);
  g_assert_cmpuint (tw_catalogue_count (both, TW_CATALOGUE_ALLOYS), ==, n + 1);
  g_assert_cmpstr (tw_entry_id (tw_catalogue_get (both, TW_CATALOGUE_ALLOYS, n)), ==, "left-over");
  g_assert_cmpstr (tw_entry_name (tw_catalogue_find (both, TW_CATALOGUE_ALLOYS, "5052-h32")), ==,
                   "the shop's own sheet");
  for (guint i = 0; i < n; i++)
    g_assert_cmpstr (tw_entry_id (tw_catalogue_get (shipped, TW_CATALOGUE_ALLOYS, i)), ==,
                     tw_entry_id (tw_catalogue_get (both, TW_CATALOGUE_ALLOYS, i)));
}

int
main (int argc, char *argv[])
{
  /* not G_TEST_OPTION_ISOLATE_DIRS: what GLib keeps of it looks like a leak of ours */
  g_autofree char *home = g_dir_make_tmp ("tw-catalogue-XXXXXX", NULL);
  g_autofree char *ours = g_build_filename (home, "tankwright", NULL);
  g_autofree char *catalogue = g_build_filename (ours, "catalogue", NULL);
  int status;

  g_setenv ("XDG_DATA_HOME", home, TRUE);
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job/catalogue/port", test_port);
  g_test_add_func ("/job/catalogue/entries", test_entries);
  g_test_add_func ("/job/catalogue/core-kinds", test_core_kinds);
  g_test_add_func ("/job/catalogue/refused", test_refused);
  g_test_add_func ("/job/catalogue/own-wins", test_own_wins);
  status = g_test_run ();
  g_rmdir (catalogue);
  g_rmdir (ours);
  g_rmdir (home);
  return status;
}
