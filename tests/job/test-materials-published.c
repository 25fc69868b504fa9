/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Alloys and coolants of the catalogue, cell by cell:
 *   density: Kissell and Ferry, Aluminum Structures, table 4.3 (1050: 2705 as printed by sheet data)
 *   least inside radius of a 90° bend in thicknesses: Aluminum Design Manual 2005, part VII, table 3-1
 *   6061 in the heat-affected zone: EN 1999-1-1, table 3.2b
 *   water: IAPWS R7-97, R12-08 and R15-11 at 0.2 MPa; mixes: ASHRAE Handbook Fundamentals 2001, by volume
 */
#include "job/catalogue.h"

#include <math.h>

/* clang-format off */
/* Density (kg/m3), yield and strength (MPa), both in the heat-affected zone. */
static const struct { const char *id; double density, yield, strength, haz_yield, haz_strength; } alloys[] = {
  { "1050-h14", 2705,  85, 105,  20,  65 },
  { "3003-o",   2730,  35,  95,  35,  95 },
  { "3003-h14", 2730, 115, 140,  35,  95 },
  { "5052-o",   2680,  65, 170,  65, 170 },
  { "5052-h32", 2680, 160, 215,  65, 170 },
  { "6061-t4",  2700, 110, 180,  95, 150 },
  { "6061-t6",  2700, 240, 260, 115, 175 },
};

/* Thicknesses of the columns, and the radius by alloy; 1050 as 1100. */
static const char *const columns[] = { "1_64", "1_32", "1_16", "1_8", "3_16", "1_4", "3_8", "1_2" };
static const struct { const char *id; double radius[8]; } bends[] = {
  { "1050-h14", { 0, 0, 0,   1,   1,   1.5, 2,   2.5 } },
  { "3003-o",   { 0, 0, 0,   0,   0.5, 1,   1,   1.5 } },
  { "3003-h14", { 0, 0, 0,   1,   1,   1.5, 2,   2.5 } },
  { "5052-o",   { 0, 0, 0,   0.5, 1,   1,   1.5, 1.5 } },
  { "5052-h32", { 0, 0, 1,   1.5, 1.5, 1.5, 1.5, 2 } },
  { "6061-t4",  { 0, 0, 1,   1.5, 2.5, 3,   3.5, 4 } },
  { "6061-t6",  { 1, 1, 1.5, 2.5, 3,   3.5, 4.5, 5 } },
};

/* At 20, 60 and 90 °C: density, heat capacity (J/kg K), conductivity (W/m K), viscosity (Pa s). */
static const struct { const char *id; double at[3][4]; } coolants[] = {
  { "water", { { 998.251, 4184.49, 0.598069, 1.00157e-3 }, { 983.254, 4182.54, 0.651069, 4.66067e-4 },
               { 965.364, 4204.80, 0.672854, 3.14207e-4 } } },
  { "water-inhibited", { { 998.251, 4184.49, 0.598069, 1.00157e-3 }, { 983.254, 4182.54, 0.651069, 4.66067e-4 },
                         { 965.364, 4204.80, 0.672854, 3.14207e-4 } } },
  { "eg-30", { { 1045.25, 3645, 0.453, 2.20e-3 }, { 1026.36, 3759, 0.488, 0.90e-3 }, { 1007.09, 3844, 0.501, 0.56e-3 } } },
  { "eg-50", { { 1073.35, 3281, 0.380, 3.94e-3 }, { 1052.04, 3435, 0.404, 1.43e-3 }, { 1030.95, 3551, 0.414, 0.82e-3 } } },
  { "pg-40", { { 1036.24, 3702, 0.402, 4.57e-3 }, { 1012.30, 3834, 0.425, 1.30e-3 }, { 988.95, 3933, 0.431, 0.75e-3 } } },
};

/* Freezing points between two rows of the handbook's table (volume share, °C). */
static const struct { const char *id; double share, low[2], high[2]; } freezing[] = {
  { "eg-30", 0.30, { 0.296, -15.4 }, { 0.395, -24.3 } },
  { "eg-50", 0.50, { 0.496, -36.4 }, { 0.578, -48.3 } },
  { "pg-40", 0.40, { 0.396, -21.1 }, { 0.499, -33.5 } },
};
/* clang-format on */

static TwCatalogue *
load (void)
{
  g_autoptr (GError) error = NULL;
  TwCatalogue *catalogue = tw_catalogue_load (&error);

  g_assert_no_error (error);
  return catalogue;
}

static const TwEntry *
find (const TwCatalogue *catalogue, TwCatalogueList list, const char *id)
{
  const TwEntry *entry = tw_catalogue_find (catalogue, list, id);

  if (entry == NULL)
    g_error ("no %s", id);
  return entry;
}

static void
test_alloys (void)
{
  g_autoptr (TwCatalogue) catalogue = load ();

  for (guint i = 0; i < G_N_ELEMENTS (alloys); i++) {
    const TwEntry *entry = find (catalogue, TW_CATALOGUE_ALLOYS, alloys[i].id);

    g_assert_cmpfloat (tw_entry_number (entry, "density_kg_m3"), ==, alloys[i].density);
    g_assert_cmpfloat (tw_entry_number (entry, "yield_mpa"), ==, alloys[i].yield);
    g_assert_cmpfloat (tw_entry_number (entry, "strength_mpa"), ==, alloys[i].strength);
    g_assert_cmpfloat (tw_entry_number (entry, "haz_yield_mpa"), ==, alloys[i].haz_yield);
    g_assert_cmpfloat (tw_entry_number (entry, "haz_strength_mpa"), ==, alloys[i].haz_strength);
  }
  g_assert_cmpuint (tw_catalogue_count (catalogue, TW_CATALOGUE_ALLOYS), ==, G_N_ELEMENTS (alloys));
}

static void
test_bends (void)
{
  g_autoptr (TwCatalogue) catalogue = load ();

  for (guint i = 0; i < G_N_ELEMENTS (bends); i++)
    for (guint k = 0; k < G_N_ELEMENTS (columns); k++) {
      g_autofree char *name = g_strdup_printf ("least_radius_%s_per_t", columns[k]);

      g_assert_cmpfloat (tw_entry_number (find (catalogue, TW_CATALOGUE_ALLOYS, bends[i].id), name), ==,
                         bends[i].radius[k]);
    }
}

static void
test_coolants (void)
{
  static const int temperatures_c[] = { 20, 60, 90 };
  static const char *const names[]
      = { "density_%d_kg_m3", "heat_capacity_%d_j_kg_k", "conductivity_%d_w_m_k", "viscosity_%d_pa_s" };
  g_autoptr (TwCatalogue) catalogue = load ();

  for (guint i = 0; i < G_N_ELEMENTS (coolants); i++)
    for (guint k = 0; k < G_N_ELEMENTS (temperatures_c) * G_N_ELEMENTS (names); k++) {
      guint t = k / G_N_ELEMENTS (names), n = k % G_N_ELEMENTS (names);
      g_auto (GStrv) halves = g_strsplit (names[n], "%d", 2);
      g_autofree char *name = g_strdup_printf ("%s%d%s", halves[0], temperatures_c[t], halves[1]);

      g_assert_cmpfloat (tw_entry_number (find (catalogue, TW_CATALOGUE_COOLANTS, coolants[i].id), name), ==,
                         coolants[i].at[t][n]);
    }
  g_assert_cmpuint (tw_catalogue_count (catalogue, TW_CATALOGUE_COOLANTS), ==, G_N_ELEMENTS (coolants));
}

static void
test_freezing (void)
{
  g_autoptr (TwCatalogue) catalogue = load ();

  for (guint i = 0; i < G_N_ELEMENTS (freezing); i++) {
    const TwEntry *entry = find (catalogue, TW_CATALOGUE_COOLANTS, freezing[i].id);
    double part = (freezing[i].share - freezing[i].low[0]) / (freezing[i].high[0] - freezing[i].low[0]);

    g_assert_cmpfloat (tw_entry_number (entry, "glycol_volume_share"), ==, freezing[i].share);
    g_assert_cmpfloat_with_epsilon (tw_entry_number (entry, "freezes_c"),
                                    freezing[i].low[1] + part * (freezing[i].high[1] - freezing[i].low[1]),
                                    0.051);
  }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job/materials/alloys", test_alloys);
  g_test_add_func ("/job/materials/bends", test_bends);
  g_test_add_func ("/job/materials/coolants", test_coolants);
  g_test_add_func ("/job/materials/freezing", test_freezing);
  return g_test_run ();
}
