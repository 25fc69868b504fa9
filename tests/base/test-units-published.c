/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Units against their definitions. Unless a row says otherwise: NIST Special Publication 811 (2008),
 * appendix B.8, where factors in bold are exact; the printed factor is given as printed, and the figure read
 * must agree to all its digits.
 */
#include "base/units.h"

#include <math.h>

static const TwUnitStyle mm = { .finest = 64, .decimal = '.' };

/* clang-format off */
static const struct {
  TwQuantity quantity;
  const char *text;
  double value;       /* in the quantity's own unit */
  double within;      /* half a unit in the last printed place; 0: exact */
} factors[] = {
  /* length: inch 2.54 E-02 m, foot 3.048 E-01 m, mil (thou) 2.54 E-05 m, exact */
  { TW_QUANTITY_LENGTH, "1 in", 25.4, 0 },
  { TW_QUANTITY_LENGTH, "1 ft", 304.8, 0 },
  { TW_QUANTITY_LENGTH, "1 thou", 0.0254, 0 },
  /* area: square inch 6.4516 E-04 m2, square foot 9.290 304 E-02 m2, exact */
  { TW_QUANTITY_AREA, "1 in2", 645.16, 0 },
  { TW_QUANTITY_AREA, "1 ft2", 92903.04, 0 },
  /* volume: US gallon = 231 in3 (NIST Handbook 44, appendix C) = 3.785 411 784 L; quart a fourth,
   * fluid ounce 1/128 of it; cubic inch 1.638 7064 E-05 m3; Imperial gallon 4.546 09 E-03 m3, exact */
  { TW_QUANTITY_VOLUME, "1 US gal", 3.785411784, 0 },
  { TW_QUANTITY_VOLUME, "1 qt", 0.946352946, 0 },
  { TW_QUANTITY_VOLUME, "1 fl oz", 0.0295735295625, 0 },
  { TW_QUANTITY_VOLUME, "1 in3", 0.016387064, 0 },
  { TW_QUANTITY_VOLUME, "231 cu in", 3.785411784, 0 },
  { TW_QUANTITY_VOLUME, "1 imp gal", 4.54609, 0 },
  /* angle: degree 1.745 329 E-02 rad */
  { TW_QUANTITY_ANGLE, "0.01745329251994329577 rad", 1, 0 },
  /* speed: mile per hour 4.4704 E-01, foot per second 3.048 E-01, foot per minute 5.08 E-03 m/s, exact;
   * kilometre per hour 2.777 778 E-01 m/s */
  { TW_QUANTITY_SPEED, "1 mph", 0.44704, 0 },
  { TW_QUANTITY_SPEED, "1 ft/s", 0.3048, 0 },
  { TW_QUANTITY_SPEED, "1 ft/min", 0.00508, 0 },
  { TW_QUANTITY_SPEED, "1 km/h", 0.2777778, 5e-8 },
  /* flow: gallon (US) per minute 6.309 020 E-05 m3/s; cubic foot per minute 4.719 474 E-04 m3/s, which from
   * 1 ft = 0.3048 m is 0.028 316 846 592 m3 in 60 s */
  { TW_QUANTITY_WATER_FLOW, "1 gpm", 3.785411784, 0 },
  { TW_QUANTITY_WATER_FLOW, "1 US gal/min", 6.309020e-5 * 60000, 5e-12 * 60000 },
  { TW_QUANTITY_WATER_FLOW, "1 imp gal/min", 4.54609, 0 },
  { TW_QUANTITY_WATER_FLOW, "1 L/h", 0.016666666666666666667, 0 },
  { TW_QUANTITY_WATER_FLOW, "1 m3/s", 60000, 0 },
  { TW_QUANTITY_AIR_FLOW, "1 cfm", 4.719474e-4, 5e-11 },
  { TW_QUANTITY_AIR_FLOW, "60 cfm", 0.028316846592, 0 },
  { TW_QUANTITY_AIR_FLOW, "60 m3/min", 1, 0 },
  { TW_QUANTITY_AIR_FLOW, "1 L/s", 0.001, 0 },
  /* pressure: psi 6.894 757 E+03 Pa, which from 1 lb = 0.453 592 37 kg, g = 9.806 65 m/s2 and 1 in = 0.0254 m
   * is 4.448 221 615 260 5 N / 6.4516 E-04 m2; inch of water, conventional 2.490 889 E+02 Pa: conventional
   * water has exactly 1000 kg/m3, so 9.806 65 * 25.4 = 249.088 91 Pa; the table's inch of water at 39.2 °F
   * (4 °C) is 2.490 82 E+02 Pa, 0.003 % less; bar E+05 Pa */
  { TW_QUANTITY_PRESSURE, "1 psi", 6.894757, 5e-7 },
  { TW_QUANTITY_PRESSURE, "1 psi", 4.4482216152605 / 645.16 * 1000, 0 },
  { TW_QUANTITY_PRESSURE, "1 inH2O", 0.2490889, 5e-8 },
  { TW_QUANTITY_AIR_PRESSURE, "1 in H2O", 249.08891, 0 },
  { TW_QUANTITY_PRESSURE, "1 bar", 100, 0 },
  { TW_QUANTITY_AIR_PRESSURE, "1 mbar", 100, 0 },
  { TW_QUANTITY_AIR_PRESSURE, "1 kPa", 1000, 0 },
  /* power: horsepower (550 ft lbf/s) 7.456 999 E+02 W, which is 550 * 0.3048 * 4.448 221 615 260 5 N;
   * horsepower (metric) 7.354 988 E+02 W, 75 kgf m/s = 735.498 75 W; Btu(IT) 1.055 055 852 62 E+03 J */
  { TW_QUANTITY_POWER, "1 hp", 0.7456999, 5e-8 },
  { TW_QUANTITY_POWER, "1 hp", 0.74569987158227022, 0 },
  { TW_QUANTITY_POWER, "1 PS", 0.73549875, 0 },
  { TW_QUANTITY_POWER, "1 Btu/h", 2.930711e-4, 5e-11 },
  { TW_QUANTITY_POWER, "60 Btu/min", 1.05505585262, 0 },
  /* mass: pound (avoirdupois) 4.535 9237 E-01 kg exact, ounce 2.834 952 E-02 kg, a sixteenth of it */
  { TW_QUANTITY_MASS, "1 lb", 0.45359237, 0 },
  { TW_QUANTITY_MASS, "1 oz", 0.028349523125, 0 },
  /* time: hour 3600 s, minute 60 s */
  { TW_QUANTITY_TIME, "1 h", 3600, 0 },
  /* temperature: the fixed points ice 32 °F = 0 °C, steam 212 °F = 100 °C, 0 °C = 273.15 K (SP 811, 8.5),
   * the crossing of the scales at -40, absolute zero */
  { TW_QUANTITY_TEMPERATURE, "32 \u00b0F", 0, 0 },
  { TW_QUANTITY_TEMPERATURE, "212 \u00b0F", 100, 0 },
  { TW_QUANTITY_TEMPERATURE, "-40 \u00b0F", -40, 0 },
  { TW_QUANTITY_TEMPERATURE, "273.15 K", 0, 0 },
  { TW_QUANTITY_TEMPERATURE, "0 K", -273.15, 0 },
  { TW_QUANTITY_TEMPERATURE, "-459.67 \u00b0F", -273.15, 0 },
  { TW_QUANTITY_TEMPERATURE, "98.6 \u2109", 37, 0 },
};

/* Inches to the nearest 1/64 and 1/16, half away from zero: each row worked by hand as inches times 64 (or
 * 16), the nearest whole number, reduced. The last four are sizes of two tank blanks.
 */
static const struct {
  double inches;
  const char *by_64, *by_16;
} fractions[] = {
  { 24.5, "24 1/2", "24 1/2" },        /* 1568;      392 */
  { 2.2847, "2 9/32", "2 5/16" },      /* 146.22;    36.56 */
  { 0.0078125, "1/64", "0" },          /* 0.5, half; 0.125 */
  { 11.9961, "12", "12" },             /* 767.75;    191.94 */
  { -0.125, "\u22121/8", "\u22121/8" },/* -8;        -2 */
  { 0.004, "0", "0" },                 /* 0.256;     0.064 */
  { 28.34280, "28 11/32", "28 5/16" }, /* 1813.94;   453.48 */
  { 7.24044, "7 15/64", "7 1/4" },     /* 463.39;    115.85 */
  { 28.5347, "28 17/32", "28 9/16" },  /* 1826.22;   456.56 */
  { 6.2847, "6 9/32", "6 5/16" },      /* 402.22;    100.56 */
  { -0.0078125, "\u22121/64", "0" },
  { -0.004, "0", "0" },
  { 0.03125, "1/32", "1/16" },         /* 2;         0.5, half */
  { 0.992, "63/64", "1" },             /* 63.49;     15.87 */
  { 0, "0", "0" },
};

/* Dash sizes: SAE J514, sixteenths of an inch of tube outside diameter; SAE J517, of hose inside diameter. */
static const struct {
  const char *dash;
  double diameter_in;
} dashes[] = {
  { "-2", 0.125 }, { "-3", 0.1875 }, { "-4", 0.25 }, { "-6", 0.375 }, { "-8", 0.5 }, { "-10", 0.625 },
  { "-12", 0.75 }, { "-16", 1 }, { "-20", 1.25 }, { "-24", 1.5 }, { "-32", 2 },
};
/* clang-format on */

static void
test_factors (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (factors); i++) {
    double within = factors[i].within > 0 ? factors[i].within * (1 + 1e-6) : 4e-16 * fabs (factors[i].value);
    g_autoptr (GError) error = NULL;
    double value;

    g_test_message ("%s", factors[i].text);
    g_assert_true (tw_units_parse (factors[i].quantity, &mm, factors[i].text, &value, &error));
    g_assert_no_error (error);
    /* a temperature is a difference of figures as large as 273, so its last place is theirs */
    if (factors[i].quantity == TW_QUANTITY_TEMPERATURE)
      within = 6e-14;
    g_assert_cmpfloat (fabs (value - factors[i].value), <=, within);
  }
}

static void
test_fractions (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (fractions); i++) {
    TwUnitStyle style = TW_UNIT_STYLE_IN;
    const double value_mm = fractions[i].inches * 25.4;
    g_autofree char *by_64 = tw_units_format_number (TW_QUANTITY_LENGTH, &style, value_mm, -1);
    g_autofree char *by_16 = NULL;
    g_autofree char *drawn = tw_units_format_dimension (&style, value_mm, 0);

    style.finest = 16;
    by_16 = tw_units_format_number (TW_QUANTITY_LENGTH, &style, value_mm, -1);
    g_assert_cmpstr (by_64, ==, fractions[i].by_64);
    g_assert_cmpstr (by_16, ==, fractions[i].by_16);
    g_assert_cmpstr (drawn, ==, fractions[i].by_64);
  }
}

static void
test_dashes (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (dashes); i++) {
    g_autoptr (GError) error = NULL;
    double diameter_mm;

    g_assert_true (
        tw_units_parse (TW_QUANTITY_DIAMETER, &TW_UNIT_STYLE_MM, dashes[i].dash, &diameter_mm, &error));
    g_assert_no_error (error);
    g_assert_cmpfloat (diameter_mm, ==, dashes[i].diameter_in * 254 / 10);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/units-published/factors", test_factors);
  g_test_add_func ("/base/units-published/fractions", test_fractions);
  g_test_add_func ("/base/units-published/dashes", test_dashes);
  return g_test_run ();
}
