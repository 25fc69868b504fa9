/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Port tables, cell by cell, as the standards print them:
 *   SAE J1926-1 / ISO 11926-1 (two transcriptions agree; bore from memory, boss common practice)
 *   ISO 6149-1 (two transcriptions agree; largest bore from one)
 *   ASME B1.20.1 (inch; E1, L1, L2 as printed; drills and couplings of class 3000 from memory)
 *   ISO 228-1, ISO 7-1 with DIN 3852-2, and ISO 1179-1 second hand
 *   SAE J514 / ISO 8434-2 male ends: flow bores of MS20760, -4 and -6 from memory
 * Threads follow from diameter and pitch by the formulas that stand at the checks.
 */
#include "job/catalogue.h"

#include <math.h>

#define INCH_MM 25.4

/* clang-format off */
/* dash, thread, major in, threads per inch, tube in, Y, d5, T, P, S, Z, bore, boss (mm) */
typedef struct { const char *size, *thread; double major_in, per_inch, tube_in, y, d5, t, p, s, z, bore, boss; } Inch;
static const Inch inch[] = {
  { "-2", "5/16-24 UNF", 5/16.0, 24, 1/8.0, 17, 9.1, 10, 12, 1.6, 12, 1.6, 19 },
  { "-3", "3/8-24 UNF", 3/8.0, 24, 3/16.0, 19, 10.7, 10, 12, 1.6, 12, 3.2, 21 },
  { "-4", "7/16-20 UNF", 7/16.0, 20, 1/4.0, 21, 12.4, 11.5, 14, 1.6, 12, 4.5, 23 },
  { "-5", "1/2-20 UNF", 1/2.0, 20, 5/16.0, 23, 14.0, 11.5, 14, 1.6, 12, 6, 25 },
  { "-6", "9/16-18 UNF", 9/16.0, 18, 3/8.0, 25, 15.6, 12.7, 15.5, 1.6, 12, 7.5, 27 },
  { "-8", "3/4-16 UNF", 3/4.0, 16, 1/2.0, 30, 20.6, 14.3, 17.5, 2.4, 15, 10, 32 },
  { "-10", "7/8-14 UNF", 7/8.0, 14, 5/8.0, 34, 23.9, 16.7, 20, 2.4, 15, 12.5, 36 },
  { "-12", "1 1/16-12 UN", 1 + 1/16.0, 12, 3/4.0, 41, 29.2, 19, 23, 2.4, 15, 16, 44 },
  { "-14", "1 3/16-12 UN", 1 + 3/16.0, 12, 7/8.0, 45, 32.3, 19, 23, 2.4, 15, 18, 48 },
  { "-16", "1 5/16-12 UN", 1 + 5/16.0, 12, 1, 49, 35.5, 19, 23, 3.2, 15, 21, 52 },
  { "-20", "1 5/8-12 UN", 1 + 5/8.0, 12, 1 + 1/4.0, 58, 43.5, 19, 23, 3.2, 15, 27, 61 },
  { "-24", "1 7/8-12 UN", 1 + 7/8.0, 12, 1 + 1/2.0, 65, 49.8, 19, 23, 3.2, 15, 33, 68 },
  { "-32", "2 1/2-12 UN", 2 + 1/2.0, 12, 2, 88, 65.7, 19, 23, 3.2, 15, 45, 92 },
};

/* T, P and d5 of the same ports as the inch edition prints them. */
static const struct { double t_in, p_in, d5_in; } inch_print[] = {
  { 0.390, 0.468, 0.358 }, { 0.390, 0.468, 0.421 }, { 0.454, 0.547, 0.488 }, { 0.454, 0.547, 0.551 },
  { 0.500, 0.609, 0.614 }, { 0.562, 0.688, 0.811 }, { 0.656, 0.787, 0.941 }, { 0.750, 0.906, 1.150 },
  { 0.750, 0.906, 1.272 }, { 0.750, 0.906, 1.398 }, { 0.750, 0.906, 1.713 }, { 0.750, 0.906, 1.961 },
  { 0.750, 0.906, 2.587 },
};

/* thread, major, pitch, Y wide, Y narrow, d5, T, P, S, Z, d4 (mm) */
typedef struct { const char *size; double major, pitch, y, narrow, d5, t, p, s, z, bore; } Metric;
static const Metric metric[] = {
  { "M8×1", 8, 1, 17, 14, 9.1, 10, 11.5, 1, 12, 3 },
  { "M10×1", 10, 1, 20, 16, 11.1, 10, 11.5, 1, 12, 4.5 },
  { "M12×1.5", 12, 1.5, 23, 19, 13.8, 11.5, 14, 1.5, 15, 6 },
  { "M14×1.5", 14, 1.5, 25, 21, 15.8, 11.5, 14, 1.5, 15, 7.5 },
  { "M16×1.5", 16, 1.5, 28, 24, 17.8, 13, 15.5, 1.5, 15, 9 },
  { "M18×1.5", 18, 1.5, 30, 26, 19.8, 14.5, 17, 2, 15, 11 },
  { "M22×1.5", 22, 1.5, 33, 29, 23.8, 15.5, 18, 2, 15, 14 },
  { "M27×2", 27, 2, 40, 34, 29.4, 19, 22, 2, 15, 18 },
  { "M33×2", 33, 2, 49, 43, 35.4, 19, 22, 2.5, 15, 23 },
  { "M42×2", 42, 2, 58, 52, 44.4, 19.5, 22.5, 2.5, 15, 30 },
  { "M48×2", 48, 2, 63, 57, 50.4, 22, 25, 2.5, 15, 36 },
  { "M60×2", 60, 2, 74, 67, 62.4, 24.5, 27.5, 2.5, 15, 44 },
};

/* size, D, threads per inch, E1, L1, L2, tap drill, coupling (in) */
typedef struct { const char *size; double d, per_inch, e1, l1, l2, drill, boss; } Taper;
static const Taper taper[] = {
  { "1/8", 0.405, 27, 0.37360, 0.1615, 0.2639, 21/64.0, 0.62 },
  { "1/4", 0.540, 18, 0.49163, 0.2278, 0.4018, 7/16.0, 0.75 },
  { "3/8", 0.675, 18, 0.62701, 0.240, 0.4078, 37/64.0, 0.88 },
  { "1/2", 0.840, 14, 0.77843, 0.320, 0.5337, 45/64.0, 1.12 },
  { "3/4", 1.050, 14, 0.98887, 0.339, 0.5457, 59/64.0, 1.38 },
  { "1", 1.315, 11.5, 1.23863, 0.400, 0.6828, 1 + 5/32.0, 1.75 },
  { "1 1/4", 1.660, 11.5, 1.58338, 0.420, 0.7068, 1 + 1/2.0, 2.25 },
  { "1 1/2", 1.900, 11.5, 1.82234, 0.420, 0.7235, 1 + 47/64.0, 2.50 },
};

/* size, threads per inch, pitch, major, pitch diameter, minor, gauge length, drills for G and Rc, DIN 3852-2 spot
 * face and thread, ISO 1179-1 spot face, thread and largest bore (mm) */
typedef struct { const char *size; double per_inch, pitch, major, d2, minor, gauge, g, rc, y, t, y2, t2, bore; } Bsp;
static const Bsp bsp[] = {
  { "1/8", 28, 0.907, 9.728, 9.147, 8.566, 4.0, 8.8, 8.6, 15, 8, 15, 8.5, 4.5 },
  { "1/4", 19, 1.337, 13.157, 12.301, 11.445, 6.0, 11.8, 11.5, 19, 12, 20, 12.5, 7.5 },
  { "3/8", 19, 1.337, 16.662, 15.806, 14.950, 6.4, 15.25, 15.0, 23, 12, 23, 12.5, 9 },
  { "1/2", 14, 1.814, 20.955, 19.793, 18.631, 8.2, 19.0, 18.75, 27, 14, 28, 15, 14 },
  { "3/4", 14, 1.814, 26.441, 25.279, 24.117, 9.5, 24.5, 24.25, 33, 16, 33, 16.5, 18 },
  { "1", 11, 2.309, 33.249, 31.770, 30.291, 10.4, 30.75, 30.4, 40, 18, 41, 19, 23 },
  { "1 1/4", 11, 2.309, 41.910, 40.431, 38.952, 12.7, 39.5, 39.0, 50, 20, 51, 21.5, 30 },
  { "1 1/2", 11, 2.309, 47.803, 46.324, 44.845, 12.7, 45.25, 44.5, 56, 22, 56, 22.5, 36 },
};

static const struct { const char *size; double bore_in; } flare[] = {
  { "-4", 0.172 }, { "-6", 0.297 }, { "-8", 0.391 }, { "-10", 0.484 }, { "-12", 0.609 }, { "-16", 0.844 },
  { "-20", 1.078 }, { "-24", 1.312 }, { "-32", 1.781 },
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
port (const TwCatalogue *catalogue, const char *standard, const char *size)
{
  const TwEntry *entry = tw_catalogue_port (catalogue, standard, size);

  if (entry == NULL)
    g_error ("no %s of size %s", standard, size);
  return entry;
}

/* Stored to so many places that half a unit of the last is @within. */
static void
assert_near (const TwEntry *entry, const char *name, double expected, double within)
{
  double is = tw_entry_number (entry, name);

  if (!(fabs (is - expected) <= within))
    g_error ("%s.%s: %.6f is not %.6f", tw_entry_id (entry), name, is, expected);
}

static void
assert_is (const TwEntry *entry, const char *name, double expected)
{
  assert_near (entry, name, expected, 1e-9);
}

static void
test_inch (void)
{
  g_autoptr (TwCatalogue) catalogue = load ();

  for (guint i = 0; i < G_N_ELEMENTS (inch); i++) {
    const Inch *r = &inch[i];
    const TwEntry *entry = port (catalogue, "iso-11926", r->size);
    double pitch_mm = INCH_MM / r->per_inch, major_mm = r->major_in * INCH_MM;

    g_assert_true (entry == port (catalogue, "iso-11926", r->thread));
    g_assert_true (entry == port (catalogue, "sae-j1926", r->size + 1));
    assert_is (entry, "spot_face_mm", r->y);
    assert_is (entry, "seat_mm", r->d5);
    assert_is (entry, "thread_depth_mm", r->t);
    assert_is (entry, "drill_depth_mm", r->p);
    assert_is (entry, "spot_face_depth_mm", r->s);
    assert_is (entry, "seat_deg", r->z);
    assert_is (entry, "bore_mm", r->bore);
    assert_is (entry, "boss_mm", r->boss);
    assert_is (entry, "threads_per_inch", r->per_inch);
    assert_near (entry, "tube_outside_mm", r->tube_in * INCH_MM, 0.00005);
    /* Unified thread: p = 25.4/n, D1 = D - 1.08253 p, D2 = D - 0.64952 p (ASME B1.1) */
    assert_near (entry, "major_mm", major_mm, 0.00005);
    assert_near (entry, "pitch_mm", pitch_mm, 0.00005);
    assert_near (entry, "minor_mm", major_mm - 1.08253 * pitch_mm, 0.00051);
    assert_near (entry, "pitch_diameter_mm", major_mm - 0.64952 * pitch_mm, 0.00051);
    assert_near (entry, "thread_depth_mm", inch_print[i].t_in * INCH_MM, 0.12);
    assert_near (entry, "drill_depth_mm", inch_print[i].p_in * INCH_MM, 0.12);
    assert_near (entry, "seat_mm", inch_print[i].d5_in * INCH_MM, 0.06);
  }
}

static void
test_metric (void)
{
  g_autoptr (TwCatalogue) catalogue = load ();

  for (guint i = 0; i < G_N_ELEMENTS (metric); i++) {
    const Metric *r = &metric[i];
    const TwEntry *entry = port (catalogue, "iso-6149", r->size);

    assert_is (entry, "major_mm", r->major);
    assert_is (entry, "pitch_mm", r->pitch);
    assert_is (entry, "spot_face_mm", r->y);
    assert_is (entry, "spot_face_narrow_mm", r->narrow);
    assert_is (entry, "seat_mm", r->d5);
    assert_is (entry, "thread_depth_mm", r->t);
    assert_is (entry, "drill_depth_mm", r->p);
    assert_is (entry, "spot_face_depth_mm", r->s);
    assert_is (entry, "seat_deg", r->z);
    assert_is (entry, "bore_mm", r->bore);
    /* ISO 724: D1 = D - 1.08253 P, D2 = D - 0.64952 P */
    assert_near (entry, "minor_mm", r->major - 1.08253 * r->pitch, 0.00051);
    assert_near (entry, "pitch_diameter_mm", r->major - 0.64952 * r->pitch, 0.00051);
  }
}

static void
test_taper (void)
{
  g_autoptr (TwCatalogue) catalogue = load ();

  for (guint i = 0; i < G_N_ELEMENTS (taper); i++) {
    const Taper *r = &taper[i];
    const TwEntry *entry = port (catalogue, "npt", r->size);
    /* ASME B1.20.1: E0 = D - (0.050 D + 1.1)/n, E1 = E0 + L1/16, L2 = (0.80 D + 6.8)/n, L3 = 3/n */
    double e0 = r->d - (0.050 * r->d + 1.1) / r->per_inch;

    assert_near (entry, "major_mm", r->d * INCH_MM, 0.00005);
    assert_is (entry, "threads_per_inch", r->per_inch);
    assert_near (entry, "pitch_mm", INCH_MM / r->per_inch, 0.00005);
    assert_near (entry, "pitch_diameter_mm", r->e1 * INCH_MM, 0.00005);
    assert_near (entry, "gauge_length_mm", r->l1 * INCH_MM, 0.00005);
    assert_near (entry, "effective_length_mm", r->l2 * INCH_MM, 0.00005);
    assert_near (entry, "tap_drill_mm", r->drill * INCH_MM, 0.00051);
    assert_near (entry, "boss_mm", r->boss * INCH_MM, 0.00051);
    assert_near (entry, "pitch_diameter_end_mm", e0 * INCH_MM, 0.00005);
    assert_near (entry, "make_up_mm", 3 / r->per_inch * INCH_MM, 0.00005);
    g_assert_cmpfloat_with_epsilon (e0 + r->l1 / 16, r->e1, 0.0000051);
    g_assert_cmpfloat_with_epsilon ((0.80 * r->d + 6.8) / r->per_inch, r->l2, 0.000051);
  }
}

static void
test_bsp (void)
{
  g_autoptr (TwCatalogue) catalogue = load ();

  for (guint i = 0; i < G_N_ELEMENTS (bsp); i++) {
    const Bsp *r = &bsp[i];
    const TwEntry *g = port (catalogue, "iso-228", r->size), *rc = port (catalogue, "iso-7", r->size);
    const TwEntry *both[] = { g, rc };

    for (guint k = 0; k < G_N_ELEMENTS (both); k++) {
      assert_is (both[k], "threads_per_inch", r->per_inch);
      assert_is (both[k], "pitch_mm", r->pitch);
      assert_is (both[k], "major_mm", r->major);
      assert_is (both[k], "pitch_diameter_mm", r->d2);
      assert_is (both[k], "minor_mm", r->minor);
      /* ISO 228-1: P = 25.4/n, h = 0.640327 P, d2 = d - h, d1 = d - 2 h */
      assert_near (both[k], "pitch_mm", INCH_MM / r->per_inch, 0.00051);
      assert_near (both[k], "pitch_diameter_mm", r->major - 0.640327 * INCH_MM / r->per_inch, 0.00101);
      assert_near (both[k], "minor_mm", r->major - 2 * 0.640327 * INCH_MM / r->per_inch, 0.00151);
    }
    assert_is (rc, "gauge_length_mm", r->gauge);
    assert_is (g, "tap_drill_mm", r->g);
    assert_is (rc, "tap_drill_mm", r->rc);
    assert_is (g, "spot_face_mm", r->y);
    assert_is (g, "thread_depth_mm", r->t);
    assert_is (g, "spot_face_iso_1179_mm", r->y2);
    assert_is (g, "thread_depth_iso_1179_mm", r->t2);
    assert_is (g, "bore_mm", r->bore);
  }
}

static void
test_flare (void)
{
  g_autoptr (TwCatalogue) catalogue = load ();

  for (guint i = 0; i < G_N_ELEMENTS (flare); i++) {
    const TwEntry *entry = port (catalogue, "flare-37", flare[i].size);
    const TwEntry *straight = port (catalogue, "iso-11926", flare[i].size);

    assert_near (entry, "bore_mm", flare[i].bore_in * INCH_MM, 0.00051);
    assert_is (entry, "major_mm", tw_entry_number (straight, "major_mm"));
    assert_is (entry, "pitch_mm", tw_entry_number (straight, "pitch_mm"));
  }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job/ports/iso-11926", test_inch);
  g_test_add_func ("/job/ports/iso-6149", test_metric);
  g_test_add_func ("/job/ports/npt", test_taper);
  g_test_add_func ("/job/ports/iso-228-and-iso-7", test_bsp);
  g_test_add_func ("/job/ports/flare-37", test_flare);
  return g_test_run ();
}
