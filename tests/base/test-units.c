/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Expected figures are worked by hand from 1 in = 25.4 mm and 1 ft = 12 in; exact factors of the other units
 * are checked in test-units-published.c.
 */
#include "base/units.h"
#include "base/error.h"

#include <math.h>
#include <string.h>

#define THIN "\u2009"
#define NARROW "\u202f"
#define NO_BREAK "\u00a0"

static const TwUnitStyle mm = { .finest = 64, .decimal = '.' };
static const TwUnitStyle in = { .inches = TRUE, .fractions = TRUE, .finest = 64, .decimal = '.' };
static const TwUnitStyle in16 = { .inches = TRUE, .fractions = TRUE, .finest = 16, .decimal = '.' };
static const TwUnitStyle in_decimal = { .inches = TRUE, .finest = 64, .decimal = '.' };
static const TwUnitStyle comma = { .finest = 64, .decimal = ',' };
static const TwUnitStyle in_comma = { .inches = TRUE, .finest = 64, .decimal = ',' };

/* clang-format off */
static const struct {
  TwQuantity quantity;
  const TwUnitStyle *style;
  const char *text;
  double value;
} reads[] = {
  { TW_QUANTITY_LENGTH, &mm, "610", 610 },
  { TW_QUANTITY_LENGTH, &mm, "610 mm", 610 },
  { TW_QUANTITY_LENGTH, &mm, "  610mm  ", 610 },
  { TW_QUANTITY_LENGTH, &mm, "610 MM", 610 },
  { TW_QUANTITY_LENGTH, &in, "610 mm", 610 },
  { TW_QUANTITY_LENGTH, &mm, "61 cm", 610 },
  { TW_QUANTITY_LENGTH, &mm, "0.61 m", 610 },
  { TW_QUANTITY_LENGTH, &mm, "+610", 610 },
  { TW_QUANTITY_LENGTH, &mm, "-3.5", -3.5 },
  { TW_QUANTITY_LENGTH, &mm, "\u22123.5", -3.5 },
  { TW_QUANTITY_LENGTH, &mm, "- 3.5", -3.5 },
  { TW_QUANTITY_LENGTH, &mm, "24,5 mm", 24.5 },
  { TW_QUANTITY_LENGTH, &mm, "24.5 mm", 24.5 },
  { TW_QUANTITY_LENGTH, &comma, "24.5", 24.5 },
  { TW_QUANTITY_LENGTH, &comma, "1,250", 1.25 },
  { TW_QUANTITY_LENGTH, &comma, "1.250", 1.25 },
  { TW_QUANTITY_LENGTH, &mm, "0,125", 0.125 },
  { TW_QUANTITY_LENGTH, &mm, ",125", 0.125 },
  { TW_QUANTITY_LENGTH, &mm, "1,2505", 1.2505 },
  { TW_QUANTITY_LENGTH, &mm, "1250,125", 1250.125 },
  { TW_QUANTITY_LENGTH, &mm, ".5", 0.5 },
  { TW_QUANTITY_LENGTH, &mm, "24.", 24 },
  { TW_QUANTITY_LENGTH, &mm, "1e3", 1000 },
  { TW_QUANTITY_LENGTH, &mm, "2.5E-1 mm", 0.25 },
  { TW_QUANTITY_LENGTH, &mm, "12" THIN "345.5" THIN "mm", 12345.5 },
  { TW_QUANTITY_LENGTH, &mm, "1" NARROW "234" NARROW "567", 1234567 },
  { TW_QUANTITY_LENGTH, &mm, "1" NO_BREAK "250" NO_BREAK "mm", 1250 },
  { TW_QUANTITY_LENGTH, &in, "20 3/8", 20.375 * 25.4 },
  { TW_QUANTITY_LENGTH, &in, "20" NO_BREAK "3/8", 20.375 * 25.4 },
  { TW_QUANTITY_LENGTH, &in, "1" NO_BREAK "127/128", 255.0 / 128 * 25.4 },
  { TW_QUANTITY_LENGTH, &in, "20", 508 },
  { TW_QUANTITY_LENGTH, &in, "20.5", 520.7 },
  { TW_QUANTITY_LENGTH, &in, "1/3", 25.4 / 3 },
  { TW_QUANTITY_LENGTH, &mm, "20 3/8", 20.375 * 25.4 },   /* a ruler's fraction is inches in any job */
  { TW_QUANTITY_LENGTH, &mm, "1/2", 12.7 },
  { TW_QUANTITY_LENGTH, &mm, "1/2 mm", 0.5 },
  { TW_QUANTITY_LENGTH, &mm, "1 1/2\"", 38.1 },
  { TW_QUANTITY_LENGTH, &mm, "1 1/2''", 38.1 },
  { TW_QUANTITY_LENGTH, &mm, "1 1/2\u2033", 38.1 },
  { TW_QUANTITY_LENGTH, &mm, "1 1/2\u201d", 38.1 },
  { TW_QUANTITY_LENGTH, &mm, "1 1/2 in", 38.1 },
  { TW_QUANTITY_LENGTH, &mm, "1 1/2 in.", 38.1 },
  { TW_QUANTITY_LENGTH, &mm, "1 1/2 Inch", 38.1 },
  { TW_QUANTITY_LENGTH, &mm, "24-1/2 in", 622.3 },
  { TW_QUANTITY_LENGTH, &mm, "-24-1/2 in", -622.3 },
  { TW_QUANTITY_LENGTH, &mm, "24 1\u20442 in", 622.3 },
  { TW_QUANTITY_LENGTH, &mm, "24\u00bd\"", 622.3 },
  { TW_QUANTITY_LENGTH, &mm, "24 \u00bd in", 622.3 },
  { TW_QUANTITY_LENGTH, &mm, "\u00bd", 12.7 },
  { TW_QUANTITY_LENGTH, &mm, "\u2212\u00bc", -6.35 },
  { TW_QUANTITY_LENGTH, &mm, "1\u00bc", 31.75 },
  { TW_QUANTITY_LENGTH, &mm, "1\u00be", 44.45 },
  { TW_QUANTITY_LENGTH, &mm, "1\u215b", 28.575 },
  { TW_QUANTITY_LENGTH, &mm, "1\u215c", 34.925 },
  { TW_QUANTITY_LENGTH, &mm, "1\u215d", 41.275 },
  { TW_QUANTITY_LENGTH, &mm, "1\u215e", 47.625 },
  { TW_QUANTITY_LENGTH, &mm, "0.080 in", 2.032 },
  { TW_QUANTITY_LENGTH, &mm, "80 thou", 2.032 },
  { TW_QUANTITY_LENGTH, &mm, "2 ft", 609.6 },
  { TW_QUANTITY_LENGTH, &mm, "2'", 609.6 },
  { TW_QUANTITY_LENGTH, &mm, "2\u2032", 609.6 },
  { TW_QUANTITY_LENGTH, &mm, "2 ft 3", 685.8 },
  { TW_QUANTITY_LENGTH, &mm, "2ft3", 685.8 },
  { TW_QUANTITY_LENGTH, &mm, "2 feet 3 inches", 685.8 },
  { TW_QUANTITY_LENGTH, &mm, "2' 3 1/2\"", 698.5 },
  { TW_QUANTITY_LENGTH, &mm, "2'-3 1/2\"", 698.5 },
  { TW_QUANTITY_LENGTH, &mm, "2\u2032 3\u00bd\u2033", 698.5 },
  { TW_QUANTITY_LENGTH, &mm, "-2 ft 3", -685.8 },
  { TW_QUANTITY_LENGTH, &mm, "2 ft 3.5 in", 698.5 },
  { TW_QUANTITY_LENGTH, &mm, "-0", 0 },
  { TW_QUANTITY_LENGTH, &mm, "2 ft 3 1/2 in", 698.5 },
  { TW_QUANTITY_LENGTH, &mm, "24.5\u00a0mm", 24.5 },
  { TW_QUANTITY_LENGTH, &comma, "24,5 mm", 24.5 },
  { TW_QUANTITY_LENGTH, &mm, "1\u00bd", 38.1 },
  { TW_QUANTITY_LENGTH, &comma, "1,5\"", 38.1 },
  { TW_QUANTITY_DIAMETER, &mm, "-16", 25.4 },   /* dash sizes: sixteenths of an inch */
  { TW_QUANTITY_DIAMETER, &in, "-16", 25.4 },
  { TW_QUANTITY_DIAMETER, &mm, "\u22128", 12.7 },
  { TW_QUANTITY_DIAMETER, &mm, " -20 ", 31.75 },
  { TW_QUANTITY_DIAMETER, &mm, "-64", 101.6 },
  { TW_QUANTITY_DIAMETER, &mm, "16", 16 },      /* without its dash it is a figure in the job's unit */
  { TW_QUANTITY_DIAMETER, &in, "16", 406.4 },
  { TW_QUANTITY_DIAMETER, &mm, "-16 mm", -16 }, /* refused by the field's range */
  { TW_QUANTITY_DIAMETER, &mm, "-65", -65 },
  { TW_QUANTITY_DIAMETER, &mm, "-0", 0 },
  { TW_QUANTITY_DIAMETER, &mm, "-16.5", -16.5 },
  { TW_QUANTITY_DIAMETER, &mm, "1 1/2", 38.1 },
  { TW_QUANTITY_DIAMETER, &mm, "1 1/2\"", 38.1 },
  { TW_QUANTITY_DIAMETER, &in, "1 1/2", 38.1 },
  { TW_QUANTITY_DIAMETER, &mm, "1 ft", 304.8 },
  { TW_QUANTITY_NONE, &mm, "3/8", 0.375 },
  { TW_QUANTITY_NONE, &in, "0.407", 0.407 },
  { TW_QUANTITY_COUNT, &mm, "40", 40 },
  { TW_QUANTITY_COUNT, &mm, "40.0", 40 },
  { TW_QUANTITY_SHARE, &mm, "86.2", 0.862 },
  { TW_QUANTITY_SHARE, &mm, "86.2 %", 0.862 },
  { TW_QUANTITY_AREA, &mm, "250", 250 },
  { TW_QUANTITY_AREA, &in, "1", 645.16 },
  { TW_QUANTITY_AREA, &mm, "12 cm\u00b2", 1200 },
  { TW_QUANTITY_AREA, &mm, "12 cm^2", 1200 },
  { TW_QUANTITY_AREA, &mm, "0.25 m2", 250000 },
  { TW_QUANTITY_AREA, &mm, "2 sq in", 1290.32 },
  { TW_QUANTITY_VOLUME, &in, "7.5", 7.5 },
  { TW_QUANTITY_VOLUME, &mm, "7.5 l", 7.5 },
  { TW_QUANTITY_VOLUME, &mm, "750 mL", 0.75 },
  { TW_QUANTITY_VOLUME, &mm, "750 cm\u00b3", 0.75 },
  { TW_QUANTITY_ANGLE, &mm, "45", 45 },
  { TW_QUANTITY_ANGLE, &mm, "22.5\u00b0", 22.5 },
  { TW_QUANTITY_ANGLE, &mm, "-22.5 deg", -22.5 },
  { TW_QUANTITY_SPEED, &mm, "108 km/h", 30 },
  { TW_QUANTITY_WATER_FLOW, &mm, "120 l/min", 120 },
  { TW_QUANTITY_WATER_FLOW, &mm, "120 L / min", 120 },
  { TW_QUANTITY_WATER_FLOW, &mm, "2 L/s", 120 },
  { TW_QUANTITY_WATER_FLOW, &mm, "6 m\u00b3/h", 100 },
  { TW_QUANTITY_AIR_FLOW, &mm, "3600 m3/h", 1 },
  { TW_QUANTITY_PRESSURE, &mm, "110", 110 },
  { TW_QUANTITY_PRESSURE, &mm, "1.1 bar", 110 },
  { TW_QUANTITY_PRESSURE, &mm, "250 Pa", 0.25 },
  { TW_QUANTITY_AIR_PRESSURE, &mm, "250", 250 },
  { TW_QUANTITY_AIR_PRESSURE, &mm, "2.5 mbar", 250 },
  { TW_QUANTITY_AIR_PRESSURE, &mm, "0.25 kPa", 250 },
  { TW_QUANTITY_TEMPERATURE, &mm, "95", 95 },
  { TW_QUANTITY_TEMPERATURE, &mm, "95 \u00b0C", 95 },
  { TW_QUANTITY_TEMPERATURE, &mm, "95 \u2103", 95 },
  { TW_QUANTITY_TEMPERATURE, &mm, "95 c", 95 },
  { TW_QUANTITY_POWER, &mm, "75000 W", 75 },
  { TW_QUANTITY_MASS, &mm, "350 g", 0.35 },
  { TW_QUANTITY_TIME, &mm, "1.5 min", 90 },
  { TW_QUANTITY_TIME, &mm, "2 h", 7200 },
  { TW_QUANTITY_VOLTAGE, &mm, "13.5 V", 13.5 },
  { TW_QUANTITY_CURRENT, &mm, "18 A", 18 },
};

static const struct {
  TwQuantity quantity;
  const TwUnitStyle *style;
  const char *text;
  TwErrorCode code;
  const char *says;   /* all of it, or how it begins if it ends in `…` */
} refused[] = {
  { TW_QUANTITY_LENGTH, &mm, "12 zz", TW_ERROR_FORMAT,
    "\"12 zz\" is not a length; accepted are figures like 610, 24 1/2 in, 2 ft 3, 61 cm" },
  { TW_QUANTITY_LENGTH, &mm, "", TW_ERROR_FORMAT,
    "nothing is entered; a length is wanted, like 610, 24 1/2 in, 2 ft 3, 61 cm" },
  { TW_QUANTITY_LENGTH, &mm, " \t" THIN, TW_ERROR_FORMAT, "nothing is entered; …" },
  { TW_QUANTITY_LENGTH, &mm, "mm", TW_ERROR_FORMAT, "\"mm\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "-", TW_ERROR_FORMAT, "\"-\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "--5", TW_ERROR_FORMAT, "\"--5\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, ".", TW_ERROR_FORMAT, "\".\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "nan", TW_ERROR_FORMAT, "\"nan\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "inf", TW_ERROR_FORMAT, "\"inf\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "-infinity", TW_ERROR_FORMAT, "\"-infinity\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "0x10", TW_ERROR_FORMAT, "\"0x10\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "1e999", TW_ERROR_LIMIT, "\"1e999\" is too large to be a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "1e308 m", TW_ERROR_LIMIT, "\"1e308 m\" is too large to be a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "1e308 ft 3", TW_ERROR_LIMIT, "\"1e308 ft 3\" is too large to be a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "1/0", TW_ERROR_FORMAT, "\"1/0\" divides by zero; …" },
  { TW_QUANTITY_LENGTH, &mm, "20 3/0", TW_ERROR_FORMAT, "\"20 3/0\" divides by zero; …" },
  { TW_QUANTITY_LENGTH, &mm, "1/", TW_ERROR_FORMAT, "\"1/\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "/2", TW_ERROR_FORMAT, "\"/2\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "1/2/3", TW_ERROR_FORMAT, "\"1/2/3\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "1.5/2 in", TW_ERROR_FORMAT, "\"1.5/2 in\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "1/2.5 in", TW_ERROR_FORMAT, "\"1/2.5 in\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "20 9/8 in", TW_ERROR_FORMAT, "\"20 9/8 in\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "610/2", TW_ERROR_FORMAT, "\"610/2\" needs its unit; …" },
  { TW_QUANTITY_LENGTH, &mm, "1/3", TW_ERROR_FORMAT, "\"1/3\" needs its unit; …" },
  { TW_QUANTITY_LENGTH, &mm, "1,250.5", TW_ERROR_FORMAT, "\"1,250.5\" can be read in two ways; …" },
  { TW_QUANTITY_LENGTH, &mm, "1,250", TW_ERROR_FORMAT,
    "\"1,250\" can be read in two ways; write thousands without a sign between them and one decimal point: "
    "1250 or 1.25" },
  { TW_QUANTITY_LENGTH, &mm, "1.250.000", TW_ERROR_FORMAT, "\"1.250.000\" can be read in two ways; …" },
  { TW_QUANTITY_LENGTH, &comma, "1.250,5", TW_ERROR_FORMAT, "\"1.250,5\" can be read in two ways; …" },
  { TW_QUANTITY_LENGTH, &mm, "600 400", TW_ERROR_FORMAT, "\"600 400\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "600, 400", TW_ERROR_FORMAT, "\"600, 400\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "2 ft\u00b2", TW_ERROR_FORMAT, "\"2 ft\u00b2\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "2 ft 3 mm", TW_ERROR_FORMAT, "\"2 ft 3 mm\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "2 ft --3", TW_ERROR_FORMAT, "\"2 ft --3\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "24\u00b3/8", TW_ERROR_FORMAT, "\"24\u00b3/8\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "5 \u20ac", TW_ERROR_FORMAT, "\"5 \u20ac\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "5\nmm", TW_ERROR_FORMAT, "\"5\ufffdmm\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "5 \xff\xfe", TW_ERROR_FORMAT, "\"5 \ufffd\ufffd\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "5 kg", TW_ERROR_FORMAT, "\"5 kg\" is not a length; …" },
  { TW_QUANTITY_DIAMETER, &mm, "--16", TW_ERROR_FORMAT,
    "\"--16\" is not a diameter; accepted are figures like 38, 1 1/2 in, 3.8 cm, -16" },
  { TW_QUANTITY_DIAMETER, &mm, "AN16", TW_ERROR_FORMAT, "\"AN16\" is not a diameter; …" },
  { TW_QUANTITY_LENGTH, &mm, "1 1/2 mm \"", TW_ERROR_FORMAT, "\"1 1/2 mm \"\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "2 ft 3 ft", TW_ERROR_FORMAT, "\"2 ft 3 ft\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "10 + 5", TW_ERROR_FORMAT, "\"10 + 5\" is not a length; …" },
  { TW_QUANTITY_LENGTH, &mm, "\u00bd/2 in", TW_ERROR_FORMAT, "\"\u00bd/2 in\" is not a length; …" },
  { TW_QUANTITY_COUNT, &mm, "2.5", TW_ERROR_FORMAT,
    "\"2.5\" is not a whole number; accepted are figures like 1, 40" },
  { TW_QUANTITY_COUNT, &mm, "1/2", TW_ERROR_FORMAT, "\"1/2\" is not a whole number; …" },
  { TW_QUANTITY_COUNT, &mm, "1e17", TW_ERROR_LIMIT, "\"1e17\" is too large to be a whole number; …" },
  { TW_QUANTITY_COUNT, &mm, "4 mm", TW_ERROR_FORMAT, "\"4 mm\" is not a whole number; …" },
  { TW_QUANTITY_WATER_FLOW, &mm, "2 kg/s", TW_ERROR_FORMAT, "\"2 kg/s\" is not a water flow; …" },
  { TW_QUANTITY_TEMPERATURE, &mm, "95\u00b0", TW_ERROR_FORMAT, "\"95\u00b0\" is not a temperature; …" },
  { TW_QUANTITY_ANGLE, &mm, "5\"", TW_ERROR_FORMAT, "\"5\"\" is not an angle; …" },
  { TW_QUANTITY_PRESSURE, &mm, "5 V", TW_ERROR_FORMAT, "\"5 V\" is not a pressure; …" },
};

static const struct {
  TwQuantity quantity;
  const TwUnitStyle *style;
  double value;
  int decimals;
  const char *text;   /* _ stands for the thin space before the unit and between thousands */
} shown[] = {
  { TW_QUANTITY_LENGTH, &mm, 653.5, -1, "653.5_mm" },
  { TW_QUANTITY_LENGTH, &mm, 653.45, 1, "653.5_mm" },
  { TW_QUANTITY_LENGTH, &mm, -653.45, 1, "\u2212653.5_mm" },
  { TW_QUANTITY_LENGTH, &mm, 2.675, 2, "2.68_mm" },
  { TW_QUANTITY_LENGTH, &mm, 0.5, 0, "1_mm" },
  { TW_QUANTITY_LENGTH, &mm, 0.25, 1, "0.3_mm" },
  { TW_QUANTITY_LENGTH, &mm, -0.04, 1, "0.0_mm" },
  { TW_QUANTITY_LENGTH, &mm, -0.05, 1, "\u22120.1_mm" },
  { TW_QUANTITY_LENGTH, &mm, 9.96, 1, "10.0_mm" },
  { TW_QUANTITY_LENGTH, &mm, 0.004, 3, "0.004_mm" },
  { TW_QUANTITY_LENGTH, &mm, 9999, 0, "9999_mm" },
  { TW_QUANTITY_LENGTH, &mm, 9999.96, 1, "10_000.0_mm" },
  { TW_QUANTITY_LENGTH, &mm, 1234567.8, 1, "1_234_567.8_mm" },
  { TW_QUANTITY_LENGTH, &comma, 12345.5, 1, "12_345,5_mm" },
  { TW_QUANTITY_LENGTH, &in_decimal, 622.3, -1, "24.500_in" },
  { TW_QUANTITY_LENGTH, &in_comma, 622.3, 1, "24,5_in" },
  { TW_QUANTITY_LENGTH, &in, 622.3, -1, "24 1/2_in" },
  { TW_QUANTITY_LENGTH, &in, 622.3, 4, "24 1/2_in" },
  { TW_QUANTITY_LENGTH, &in, 304800, -1, "12_000_in" },
  { TW_QUANTITY_LENGTH, &mm, NAN, -1, "\u2013" },
  { TW_QUANTITY_LENGTH, &in, NAN, -1, "\u2013" },
  { TW_QUANTITY_LENGTH, &mm, INFINITY, -1, "\u2013" },
  { TW_QUANTITY_LENGTH, &mm, 1e15, 1, "1_000_000_000_000_000.0_mm" },
  { TW_QUANTITY_NONE, &mm, 0.407, 3, "0.407" },
  { TW_QUANTITY_COUNT, &mm, 40, -1, "40" },
  { TW_QUANTITY_SHARE, &mm, 0.862, -1, "86.2_%" },
  { TW_QUANTITY_SHARE, &mm, 1, -1, "100.0_%" },
  { TW_QUANTITY_AREA, &mm, 391800, -1, "391_800_mm\u00b2" },
  { TW_QUANTITY_AREA, &in, 645.16, -1, "1.00_in\u00b2" },
  { TW_QUANTITY_VOLUME, &in, 7.5, -1, "7.50_L" },
  { TW_QUANTITY_ANGLE, &mm, 22.5, -1, "22.5\u00b0" },
  { TW_QUANTITY_SPEED, &mm, 30, -1, "30.00_m/s" },
  { TW_QUANTITY_WATER_FLOW, &mm, 120, -1, "120.0_L/min" },
  { TW_QUANTITY_AIR_FLOW, &mm, 1.2, -1, "1.200_m\u00b3/s" },
  { TW_QUANTITY_PRESSURE, &mm, 110, -1, "110.0_kPa" },
  { TW_QUANTITY_AIR_PRESSURE, &mm, 250, -1, "250_Pa" },
  { TW_QUANTITY_TEMPERATURE, &mm, -40, -1, "\u221240.0_\u00b0C" },
  { TW_QUANTITY_POWER, &mm, 75, -1, "75.0_kW" },
  { TW_QUANTITY_MASS, &mm, 4.2, -1, "4.20_kg" },
  { TW_QUANTITY_TIME, &mm, 90, -1, "90.0_s" },
  { TW_QUANTITY_VOLTAGE, &mm, 13.5, -1, "13.5_V" },
  { TW_QUANTITY_CURRENT, &mm, 18, -1, "18.0_A" },
};

static const struct {
  TwQuantity quantity;
  const TwUnitStyle *style;
  double value;
  const char *text;
} plain[] = {
  { TW_QUANTITY_LENGTH, &mm, 653.5, "653.5" },
  { TW_QUANTITY_LENGTH, &mm, -3, "-3" },
  { TW_QUANTITY_LENGTH, &mm, 12345.5, "12345.5" },
  { TW_QUANTITY_LENGTH, &comma, 12345.5, "12345,5" },
  { TW_QUANTITY_LENGTH, &comma, 1.125, "1,125" },
  { TW_QUANTITY_LENGTH, &in, 622.3, "24 1/2" },
  { TW_QUANTITY_LENGTH, &in, -622.3, "-24 1/2" },
  { TW_QUANTITY_LENGTH, &in, 304800, "12000" },
  { TW_QUANTITY_LENGTH, &in, 0, "0" },
  { TW_QUANTITY_LENGTH, &in16, 25.4 / 64, "0.015625" },
  { TW_QUANTITY_LENGTH, &in_decimal, 622.3, "24.5" },
  { TW_QUANTITY_LENGTH, &mm, -0.0, "0" },
  { TW_QUANTITY_SHARE, &mm, 0.862, "86.2" },
  { TW_QUANTITY_TEMPERATURE, &mm, -40, "-40" },
};

static const struct {
  const TwUnitStyle *style;
  double value_mm;
  int decimals;
  const char *text;
} dimensions[] = {
  /* ISO 129-1 and ASME Y14.5: zeros before and behind the decimal sign */
  { &mm, 610, 1, "610" },
  { &mm, 0.5, 1, "0.5" },
  { &mm, 59.9768, 1, "60" },
  { &mm, 123.9303, 1, "123.9" },
  { &mm, 100, 0, "100" },
  { &mm, 12345, 1, "12345" },
  { &mm, -0.04, 1, "0" },
  { &mm, -3.5, 1, "\u22123.5" },
  { &comma, 653.5, 1, "653,5" },
  { &in_decimal, 6.35, 3, ".250" },
  { &in_decimal, -6.35, 3, "\u2212.250" },
  { &in_decimal, 25.4, 2, "1.00" },
  { &in_decimal, 0, 2, ".00" },
  { &in_comma, 6.35, 3, ",250" },
  { &in, 622.3, 3, "24 1/2" },
  { &in, -3.175, 3, "\u22121/8" },
  { &in, 304800, 3, "12000" },
};

static const struct {
  double value;
  const char *text;
} numbers[] = {
  { 0, "0" }, { 1, "1" }, { -2.5, "-2.5" }, { 0.1, "0.1" }, { 25.4, "25.4" }, { 610, "610" },
  { 100000, "100000" }, { 1e15, "1e+15" }, { 123456789012345678.0, "123456789012345680" },
  { 0.1 + 0.2, "0.30000000000000004" }, { 1.0 / 3, "0.3333333333333333" }, { 1e-7, "1e-07" },
  { 5e-324, "4.94065645841247e-324" }, { 1.7976931348623157e308, "1.7976931348623157e+308" },
};
/* clang-format on */

static void
test_reads (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (reads); i++) {
    g_autoptr (GError) error = NULL;
    double value = -1;

    g_test_message ("%s", reads[i].text);
    g_assert_true (tw_units_parse (reads[i].quantity, reads[i].style, reads[i].text, &value, &error));
    g_assert_no_error (error);
    g_assert_cmpfloat (fabs (value - reads[i].value), <=, 1e-14 * fabs (reads[i].value));
    g_assert_false (signbit (value) && value == 0);
  }
}

static void
test_refused (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++) {
    g_autoptr (GError) error = NULL;
    double value = -77;
    const char *more;

    g_test_message ("%s", refused[i].says);
    g_assert_false (tw_units_parse (refused[i].quantity, refused[i].style, refused[i].text, &value, &error));
    g_assert_error (error, TW_ERROR, (int)refused[i].code);
    g_assert_cmpfloat (value, ==, -77);
    more = strstr (refused[i].says, "…");
    if (more == NULL)
      g_assert_cmpstr (error->message, ==, refused[i].says);
    else if (strncmp (error->message, refused[i].says, (gsize)(more - refused[i].says)) != 0)
      g_assert_cmpstr (error->message, ==, refused[i].says);
    g_assert_true (g_utf8_validate (error->message, -1, NULL));
  }
}

static char *
with_thin_spaces (const char *text)
{
  g_autoptr (GString) out = g_string_new (text);

  g_string_replace (out, "_", THIN, 0);
  return g_string_free (g_steal_pointer (&out), FALSE);
}

static void
test_shown (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (shown); i++) {
    g_autofree char *text
        = tw_units_format (shown[i].quantity, shown[i].style, shown[i].value, shown[i].decimals);
    g_autofree char *expected = with_thin_spaces (shown[i].text);

    g_assert_cmpstr (text, ==, expected);
  }
}

static void
test_shown_is_read (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (shown); i++) {
    g_autofree char *text = tw_units_format (shown[i].quantity, shown[i].style, shown[i].value, 9);
    g_autoptr (GError) error = NULL;
    double value;

    if (!isfinite (shown[i].value))
      continue;
    g_assert_true (tw_units_parse (shown[i].quantity, shown[i].style, text, &value, &error));
    g_assert_no_error (error);
    g_assert_cmpfloat (fabs (value - shown[i].value), <=, 1e-12 * fabs (shown[i].value));
  }
}

static void
test_plain (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (plain); i++) {
    g_autofree char *text = tw_units_format_plain (plain[i].quantity, plain[i].style, plain[i].value);

    g_assert_cmpstr (text, ==, plain[i].text);
  }
}

static void
test_dimensions (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (dimensions); i++) {
    g_autofree char *text
        = tw_units_format_dimension (dimensions[i].style, dimensions[i].value_mm, dimensions[i].decimals);

    g_assert_cmpstr (text, ==, dimensions[i].text);
  }
}

static void
test_numbers (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++) {
    g_autofree char *text = tw_number_text (numbers[i].value);

    g_assert_cmpstr (text, ==, numbers[i].text);
    g_assert_true (g_ascii_strtod (text, NULL) == numbers[i].value);
  }
}

/* Whether a figure is in the unit that the style shows. */
static void
test_is_shown (void)
{
  static const struct {
    TwQuantity quantity;
    const TwUnitStyle *style;
    const char *text;
    gboolean shown;
  } cases[] = {
    { TW_QUANTITY_LENGTH, &mm, "610", TRUE },        { TW_QUANTITY_LENGTH, &mm, "610 mm", TRUE },
    { TW_QUANTITY_LENGTH, &mm, "61 cm", FALSE },     { TW_QUANTITY_LENGTH, &mm, "20 3/8", FALSE },
    { TW_QUANTITY_LENGTH, &in, "20 3/8", TRUE },     { TW_QUANTITY_LENGTH, &in, "20 3/8\"", TRUE },
    { TW_QUANTITY_LENGTH, &in, "2 ft 3", FALSE },    { TW_QUANTITY_LENGTH, &in, "610 mm", FALSE },
    { TW_QUANTITY_LENGTH, &mm, "nothing", FALSE },   { TW_QUANTITY_LENGTH, &mm, "", FALSE },
    { TW_QUANTITY_DIAMETER, &mm, "-16", FALSE },     { TW_QUANTITY_DIAMETER, &in, "-16", FALSE },
    { TW_QUANTITY_DIAMETER, &mm, "25.4", TRUE },     { TW_QUANTITY_PRESSURE, &mm, "110 kPa", TRUE },
    { TW_QUANTITY_PRESSURE, &mm, "1.1 bar", FALSE }, { TW_QUANTITY_ANGLE, &mm, "45\u00b0", TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_test_message ("%s", cases[i].text);
    g_assert_cmpint (tw_units_is_shown (cases[i].quantity, cases[i].style, cases[i].text), ==,
                     cases[i].shown);
  }
}

/* What should be handled as one text: far too long, or long and senseless. */
static void
test_long (void)
{
  static const char *const pieces[]
      = { "1", "9", " ", "-", "/", "1/", "ft ", "\u00bd", "'", "\xff", "e", ("1" THIN) };

  for (guint i = 0; i < G_N_ELEMENTS (pieces); i++)
    for (guint length = 50; length <= 10000; length += 1990) {
      g_autoptr (GString) text = g_string_new (NULL);
      g_autoptr (GError) error = NULL;
      double value;

      while (text->len < length)
        g_string_append (text, pieces[i]);
      if (!tw_units_parse (TW_QUANTITY_LENGTH, &mm, text->str, &value, &error)) {
        g_assert_nonnull (error);
        g_assert_cmpuint (strlen (error->message), <, 400);
        g_assert_true (g_utf8_validate (error->message, -1, NULL));
      } else {
        g_assert_cmpuint (length, ==, 50);
        g_assert_true (isfinite (value));
      }
    }
}

/* Every string of three of these signs is read or refused, never both, and what is read is finite. */
static void
test_every_short_text (void)
{
  static const char *const signs[]
      = { "",       "0",  "1",  "9",  ".",  ",", "/",    "-",      " ",      "e", "'",    "\"",
          "\u00bd", THIN, "ft", "in", "mm", "%", "\x80", "\u2044", "\u00b0", "c", "\x01", "\u00b2" };

  for (guint n = 0; n < G_N_ELEMENTS (signs) * G_N_ELEMENTS (signs) * G_N_ELEMENTS (signs); n++) {
    g_autofree char *text = g_strconcat (signs[n % 24], signs[n / 24 % 24], signs[n / 576], "1/2", NULL);

    for (guint cut = 0; cut <= 3; cut += 3) {
      g_autoptr (GError) error = NULL;
      double value = NAN;

      text[strlen (text) - cut] = '\0';
      g_assert_cmpint (tw_units_parse (n % TW_N_QUANTITIES, &in, text, &value, &error), ==, error == NULL);
      g_assert_cmpint (isfinite (value) != 0, ==, error == NULL);
    }
  }
}

static double
random_figure (GRand *rand)
{
  double size = pow (10, g_rand_double_range (rand, -3, 6));

  return g_rand_int_range (rand, 0, 4) == 0 ? -size : size;
}

/* One unit in the last place is what 17 digits in another unit may cost. */
static void
test_plain_is_read (void)
{
  static const TwUnitStyle *const styles[] = { &mm, &in, &in16, &in_decimal, &comma, &in_comma };
  g_autoptr (GRand) rand = g_rand_new_with_seed (20250208);

  for (guint quantity = 0; quantity < TW_N_QUANTITIES; quantity++)
    for (guint i = 0; i < 6000; i++) {
      const TwUnitStyle *style = styles[i % G_N_ELEMENTS (styles)];
      double x = random_figure (rand);
      double value;
      g_autofree char *text = NULL;
      g_autoptr (GError) error = NULL;

      if (quantity == TW_QUANTITY_COUNT)
        x = floor (x);
      else if (i % 3 == 0)
        x = 25.4 * floor (x) / 64;
      text = tw_units_format_plain (quantity, style, x);
      g_assert_true (tw_units_parse (quantity, style, text, &value, &error));
      g_assert_no_error (error);
      g_assert_cmpfloat (fabs (value - x), <=, nextafter (fabs (x), INFINITY) - fabs (x));
    }
}

/* Half a step of what is shown, and a little for the last bits. */
static void
test_shown_within_half_a_step (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20250209);

  for (guint i = 0; i < 20000; i++) {
    double x = random_figure (rand);
    double value;
    int finest = 16 << (i % 3);
    TwUnitStyle fractions = { .inches = TRUE, .fractions = TRUE, .finest = finest, .decimal = '.' };
    g_autofree char *fraction = tw_units_format (TW_QUANTITY_LENGTH, &fractions, x, -1);
    g_autofree char *decimal = tw_units_format (TW_QUANTITY_LENGTH, &mm, x, 2);

    g_assert_true (tw_units_parse (TW_QUANTITY_LENGTH, &fractions, fraction, &value, NULL));
    g_assert_cmpfloat (fabs (value - x), <=, 25.4 / finest / 2 * (1 + 1e-6));
    g_assert_true (tw_units_parse (TW_QUANTITY_LENGTH, &mm, decimal, &value, NULL));
    g_assert_cmpfloat (fabs (value - x), <=, 0.005 * (1 + 1e-6));
  }
}

static void
test_number_text_is_read (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20250210);

  for (guint i = 0; i < 100000; i++) {
    union {
      guint64 bits;
      double value;
    } any = { .bits = (guint64)g_rand_int (rand) << 32 | g_rand_int (rand) };
    g_autofree char *text = NULL;

    if (!isfinite (any.value))
      continue;
    text = tw_number_text (any.value);
    g_assert_true (g_ascii_strtod (text, NULL) == any.value);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/units/reads", test_reads);
  g_test_add_func ("/base/units/refused", test_refused);
  g_test_add_func ("/base/units/shown", test_shown);
  g_test_add_func ("/base/units/shown-is-read", test_shown_is_read);
  g_test_add_func ("/base/units/plain", test_plain);
  g_test_add_func ("/base/units/dimensions", test_dimensions);
  g_test_add_func ("/base/units/numbers", test_numbers);
  g_test_add_func ("/base/units/is-shown", test_is_shown);
  g_test_add_func ("/base/units/long", test_long);
  g_test_add_func ("/base/units/every-short-text", test_every_short_text);
  g_test_add_func ("/base/units/plain-is-read", test_plain_is_read);
  g_test_add_func ("/base/units/shown-within-half-a-step", test_shown_within_half_a_step);
  g_test_add_func ("/base/units/number-text-is-read", test_number_text_is_read);
  return g_test_run ();
}
