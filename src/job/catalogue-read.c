/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/catalogue-private.h"

#include "base/json.h"
#include "base/units.h"

#include <math.h>
#include <string.h>

#define DEEPEST 6
#define MOST_ENTRIES 10000
#define LONGEST_TEXT 500

/* A figure that an entry of a list may have, or must have. */
typedef struct {
  const char *name;
  double low, high; /* both allowed; in the unit that the name ends in, dimensionless where it has none */
  gboolean needed;
} Figure;

/* A list of words that an entry may have, or must have. */
typedef struct {
  const char *name;
  gboolean needed;
} Words;

/* clang-format off */
static const Figure core_kinds[] = {
  { "rows", 1, 12, TRUE }, { "thickness_mm", 5, 500, TRUE }, { "tube_pitch_mm", 2, 100, TRUE },
  { "tube_height_mm", 0.5, 50, TRUE }, { "tube_width_mm", 2, 400, TRUE }, { "tube_wall_mm", 0.05, 5, TRUE },
  { "row_pitch_mm", 2, 400, FALSE }, { "fin_pitch_mm", 0.3, 20, TRUE }, { "fin_thickness_mm", 0.02, 2, TRUE },
  { "louvre_pitch_mm", 0.3, 20, TRUE }, { "louvre_length_mm", 0.5, 100, TRUE }, { "louvre_deg", 0, 60, TRUE },
  { "header_reach_mm", 0, 200, TRUE }, { "header_width_mm", 5, 500, TRUE },
  { "header_thickness_mm", 0.5, 20, TRUE }, { "tank_depth_mm", 5, 1000, TRUE },
  { "tank_wall_mm", 0.3, 20, TRUE }, { "tank_bend_radius_mm", 0, 200, TRUE }, { NULL },
};

static const Figure ports[] = {
  { "major_mm", 1, 400, FALSE }, { "pitch_mm", 0.2, 10, FALSE }, { "threads_per_inch", 2, 80, FALSE },
  { "minor_mm", 1, 400, FALSE }, { "pitch_diameter_mm", 1, 400, FALSE }, { "pitch_diameter_end_mm", 1, 400, FALSE },
  { "tap_drill_mm", 1, 400, FALSE }, { "tube_outside_mm", 1, 300, FALSE }, { "spot_face_mm", 2, 400, FALSE },
  { "spot_face_narrow_mm", 2, 400, FALSE }, { "spot_face_iso_1179_mm", 2, 400, FALSE },
  { "spot_face_depth_mm", 0, 20, FALSE }, { "seat_mm", 2, 400, FALSE }, { "seat_deg", 1, 60, FALSE },
  { "thread_depth_mm", 1, 200, FALSE }, { "thread_depth_iso_1179_mm", 1, 200, FALSE },
  { "drill_depth_mm", 1, 200, FALSE }, { "gauge_length_mm", 1, 100, FALSE },
  { "effective_length_mm", 1, 200, FALSE }, { "make_up_mm", 0, 100, FALSE }, { "bore_mm", 0.5, 300, FALSE },
  { "boss_mm", 2, 400, FALSE }, { "outside_mm", 1, 300, FALSE }, { "stub_wall_mm", 0.3, 20, FALSE },
  { "bead_height_mm", 0, 20, FALSE }, { "bead_width_mm", 0, 50, FALSE }, { "bead_place_mm", 0, 100, FALSE },
  { "stand_out_mm", 0, 1000, FALSE }, { NULL },
};

static const Figure alloys[] = {
  { "density_kg_m3", 1500, 9000, TRUE }, { "elastic_modulus_mpa", 10000, 300000, TRUE },
  { "yield_mpa", 5, 2000, TRUE }, { "strength_mpa", 5, 2000, TRUE }, { "haz_yield_mpa", 5, 2000, TRUE },
  { "haz_strength_mpa", 5, 2000, TRUE }, { "welded_yield_mpa", 5, 2000, FALSE },
  { "welded_strength_mpa", 5, 2000, FALSE }, { "code_welded_strength_mpa", 5, 2000, FALSE },
  { "expansion_per_k", 1e-6, 1e-4, FALSE }, { "solidus_c", 200, 1600, FALSE }, { "liquidus_c", 200, 1600, FALSE },
  { "least_radius_1_64_per_t", 0, 20, FALSE }, { "least_radius_1_32_per_t", 0, 20, FALSE },
  { "least_radius_1_16_per_t", 0, 20, FALSE }, { "least_radius_1_8_per_t", 0, 20, FALSE },
  { "least_radius_3_16_per_t", 0, 20, FALSE }, { "least_radius_1_4_per_t", 0, 20, FALSE },
  { "least_radius_3_8_per_t", 0, 20, FALSE }, { "least_radius_1_2_per_t", 0, 20, FALSE }, { NULL },
};

static const Figure coolants[] = {
  { "glycol_volume_share", 0, 1, TRUE }, { "glycol_mass_share", 0, 1, TRUE }, { "freezes_c", -80, 10, TRUE },
  { "density_20_kg_m3", 500, 2000, TRUE }, { "density_60_kg_m3", 500, 2000, TRUE },
  { "density_90_kg_m3", 500, 2000, TRUE }, { "heat_capacity_20_j_kg_k", 1000, 6000, TRUE },
  { "heat_capacity_60_j_kg_k", 1000, 6000, TRUE }, { "heat_capacity_90_j_kg_k", 1000, 6000, TRUE },
  { "conductivity_20_w_m_k", 0.1, 1, TRUE }, { "conductivity_60_w_m_k", 0.1, 1, TRUE },
  { "conductivity_90_w_m_k", 0.1, 1, TRUE }, { "viscosity_20_pa_s", 1e-5, 1, TRUE },
  { "viscosity_60_pa_s", 1e-5, 1, TRUE }, { "viscosity_90_pa_s", 1e-5, 1, TRUE }, { NULL },
};

/* Those of every list first; a list's own after them. */
static const Words words[TW_N_CATALOGUES + 1][9] = {
  [TW_CATALOGUE_CORE_KINDS] = { { "alloy", TRUE }, { "tank_alloy", TRUE } },
  [TW_CATALOGUE_PORTS] = { { "standard", TRUE }, { "size", TRUE }, { "also", FALSE }, { "thread", FALSE } },
  [TW_CATALOGUE_COOLANTS] = { { "glycol", TRUE } },
  [TW_N_CATALOGUES] = { { "name", TRUE }, { "source", TRUE }, { "status", TRUE }, { "sources", FALSE },
                        { "note", FALSE }, { "second_hand", FALSE }, { "from_memory", FALSE },
                        { "common_practice", FALSE } },
};
/* clang-format on */

static const struct {
  const char *name;
  const Figure *figures;
} lists[] = {
  [TW_CATALOGUE_CORE_KINDS] = { "core-kinds", core_kinds },
  [TW_CATALOGUE_PORTS] = { "ports", ports },
  [TW_CATALOGUE_ALLOYS] = { "alloys", alloys },
  [TW_CATALOGUE_COOLANTS] = { "coolants", coolants },
};

const char *
tw_catalogue_list_name (TwCatalogueList list)
{
  return lists[list].name;
}

void
tw_entry_free (gpointer data)
{
  TwEntry *self = data;

  g_free (self->id);
  g_hash_table_unref (self->numbers);
  g_hash_table_unref (self->texts);
  g_free (self);
}

static void
trouble (TwTroubles *troubles, const char *where, const char *member, const cJSON *item, const char *expected)
{
  tw_troubles_add (troubles, g_strdup_printf ("%s.%s", where, member),
                   item != NULL ? tw_json_found (item) : g_strdup (_ ("nothing")), expected);
}

static const Figure *
find_figure (TwCatalogueList list, const char *name)
{
  for (const Figure *f = lists[list].figures; f->name != NULL; f++)
    if (g_str_equal (f->name, name))
      return f;
  return NULL;
}

static const Words *
find_words (TwCatalogueList list, const char *name)
{
  for (const Words *w = words[list]; w->name != NULL; w++)
    if (g_str_equal (w->name, name))
      return w;
  for (const Words *w = words[TW_N_CATALOGUES]; w->name != NULL; w++)
    if (g_str_equal (w->name, name))
      return w;
  return NULL;
}

static void
read_figure (TwEntry *entry, const Figure *figure, const cJSON *item, const char *where, TwTroubles *troubles)
{
  g_autofree char *low = tw_number_text (figure->low), *high = tw_number_text (figure->high);
  g_autofree char *expected = g_strdup_printf (_ ("a number of %s to %s"), low, high);

  if (!cJSON_IsNumber (item) || item->valuedouble < figure->low || item->valuedouble > figure->high)
    trouble (troubles, where, figure->name, item, expected);
  else
    g_hash_table_insert (entry->numbers, g_strdup (figure->name),
                         g_memdup2 (&item->valuedouble, sizeof item->valuedouble));
}

/* A text, or a list of texts that are joined with a space. */
static void
read_words (TwEntry *entry, const char *name, const cJSON *item, const char *where, TwTroubles *troubles)
{
  g_autoptr (GString) text = g_string_new (cJSON_IsString (item) ? item->valuestring : NULL);
  gboolean right = cJSON_IsString (item) || (cJSON_IsArray (item) && g_str_equal (name, "sources"));
  const cJSON *child;

  cJSON_ArrayForEach (child, item) {
    right = right && cJSON_IsString (child);
    if (right)
      g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", child->valuestring);
  }
  if (!right || text->len == 0 || text->len > LONGEST_TEXT)
    trouble (troubles, where, name, item, _ ("a text of 1 to 500 bytes"));
  else
    g_hash_table_insert (entry->texts, g_strdup (name), g_strdup (text->str));
}

static void
read_id (TwEntry *entry, const cJSON *item, const char *where, TwTroubles *troubles)
{
  TwId id;

  if (cJSON_IsString (item) && tw_id_from_text (item->valuestring, &id))
    entry->id = g_strdup (id.text);
  else
    trouble (troubles, where, "id", item, _ ("an id of 1 to 31 characters a-z, 0-9, - and _"));
}

static void
read_member (TwEntry *entry, TwCatalogueList list, const cJSON *item, const char *where, TwTroubles *troubles)
{
  const Figure *figure = find_figure (list, item->string);

  if (g_str_equal (item->string, "id"))
    read_id (entry, item, where, troubles);
  else if (figure != NULL)
    read_figure (entry, figure, item, where, troubles);
  else if (find_words (list, item->string) != NULL)
    read_words (entry, item->string, item, where, troubles);
  else
    trouble (troubles, where, item->string, item, _ ("no such member here"));
}

static void
check_needed (TwEntry *entry,
              TwCatalogueList list,
              const cJSON *object,
              const char *where,
              TwTroubles *troubles)
{
  for (const Figure *f = lists[list].figures; f->name != NULL; f++)
    if (f->needed && cJSON_GetObjectItemCaseSensitive (object, f->name) == NULL)
      trouble (troubles, where, f->name, NULL, _ ("a number"));
  for (guint i = 0; i < 2; i++)
    for (const Words *w = words[i == 0 ? TW_N_CATALOGUES : list]; w->name != NULL; w++)
      if (w->needed && cJSON_GetObjectItemCaseSensitive (object, w->name) == NULL)
        trouble (troubles, where, w->name, NULL, _ ("a text"));
  if (cJSON_GetObjectItemCaseSensitive (object, "id") == NULL)
    read_id (entry, NULL, where, troubles);
}

/* The status is a word of ours, and the figures that are less sure than it are figures of the entry. */
static void
check_doubts (const TwEntry *entry, const char *where, TwTroubles *troubles)
{
  static const char *const statuses[] = { "confirmed", "second-hand", "memory", "common-practice", NULL };
  static const char *const doubts[] = { "second_hand", "from_memory", "common_practice" };
  const char *status = g_hash_table_lookup (entry->texts, "status");

  if (status != NULL && !g_strv_contains (statuses, status))
    tw_troubles_add (troubles, g_strdup_printf ("%s.status", where), g_strdup_printf ("\"%s\"", status),
                     _ ("\"confirmed\", \"second-hand\", \"memory\" or \"common-practice\""));
  for (guint i = 0; i < G_N_ELEMENTS (doubts); i++) {
    const char *text = g_hash_table_lookup (entry->texts, doubts[i]);
    g_auto (GStrv) names = g_strsplit (text != NULL ? text : "", " ", -1);

    for (guint k = 0; names[k] != NULL; k++)
      if (!g_hash_table_contains (entry->numbers, names[k]))
        tw_troubles_add (troubles, g_strdup_printf ("%s.%s", where, doubts[i]),
                         g_strdup_printf ("\"%s\"", names[k]), _ ("names of figures of this entry"));
  }
}

static TwEntry *
read_entry (TwCatalogueList list, const cJSON *object, const char *where, TwTroubles *troubles)
{
  TwEntry *entry = g_new0 (TwEntry, 1);
  const cJSON *item;

  entry->numbers = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  entry->texts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  if (!cJSON_IsObject (object)) {
    tw_troubles_add (troubles, g_strdup (where), tw_json_found (object), _ ("an object"));
    return entry;
  }
  cJSON_ArrayForEach (item, object)
    read_member (entry, list, item, where, troubles);
  check_needed (entry, list, object, where, troubles);
  check_doubts (entry, where, troubles);
  return entry;
}

static void
read_entries (TwCatalogueList list, const cJSON *array, GPtrArray *entries, TwTroubles *troubles)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  const cJSON *object;

  cJSON_ArrayForEach (object, array) {
    g_autofree char *where = g_strdup_printf ("entries[%u]", entries->len);
    TwEntry *entry = read_entry (list, object, where, troubles);

    g_ptr_array_add (entries, entry);
    if (entry->id != NULL && !g_hash_table_add (seen, entry->id))
      tw_troubles_add (troubles, g_strdup_printf ("%s.id", where), g_strdup_printf ("\"%s\"", entry->id),
                       _ ("an id that no other entry has"));
  }
}

/* What stands round the entries. */
static void
check_frame (TwCatalogueList list, const cJSON *tree, TwTroubles *troubles)
{
  static const char *const members[] = { "tankwright-catalogue", "list", "about", "entries", NULL };
  const cJSON *format = cJSON_GetObjectItemCaseSensitive (tree, "tankwright-catalogue");
  const cJSON *name = cJSON_GetObjectItemCaseSensitive (tree, "list");
  g_autofree char *expected = g_strdup_printf ("\"%s\"", lists[list].name);
  const cJSON *item;

  if (!cJSON_IsNumber (format) || format->valuedouble != 1)
    tw_troubles_add (troubles, g_strdup ("tankwright-catalogue"),
                     format != NULL ? tw_json_found (format) : g_strdup (_ ("nothing")), "1");
  if (!cJSON_IsString (name) || !g_str_equal (name->valuestring, lists[list].name))
    tw_troubles_add (troubles, g_strdup ("list"),
                     name != NULL ? tw_json_found (name) : g_strdup (_ ("nothing")), expected);
  cJSON_ArrayForEach (item, tree)
    if (!g_strv_contains (members, item->string))
      tw_troubles_add (troubles, g_strdup (item->string), tw_json_found (item), _ ("no such member here"));
}

GPtrArray *
tw_catalogue_read (TwCatalogueList list, const char *text, gsize length, TwTroubles *troubles)
{
  GPtrArray *entries = g_ptr_array_new_with_free_func (tw_entry_free);
  cJSON *tree = tw_json_parse (text, length, DEEPEST, troubles);
  const cJSON *array = cJSON_GetObjectItemCaseSensitive (tree, "entries");

  if (tree == NULL)
    return entries;
  if (!cJSON_IsObject (tree)) {
    tw_troubles_add (troubles, g_strdup (_ ("the file")), tw_json_found (tree), _ ("an object"));
  } else if (!cJSON_IsArray (array) || cJSON_GetArraySize (array) > MOST_ENTRIES) {
    tw_troubles_add (troubles, g_strdup ("entries"),
                     array != NULL ? tw_json_found (array) : g_strdup (_ ("nothing")),
                     _ ("a list of at most 10000"));
  } else {
    check_frame (list, tree, troubles);
    read_entries (list, array, entries, troubles);
  }
  cJSON_Delete (tree);
  return entries;
}
