/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Factors: [sources: NIST-SP-811, appendix B.8], where exact factors are set in bold: 1 in = 25.4 mm,
 * 1 lb = 0.453 592 37 kg, 1 US gal = 231 in3, 1 imp gal = 4.546 09 L, g = 9.806 65 m/s2,
 * 1 Btu (international table) = 1055.055 852 62 J. All others follow from these.
 */
#include "base/units-private.h"

#include <glib/gi18n-lib.h>

#define INCH_MM 25.4
#define FOOT_M 0.3048
#define MILE_M 1609.344
#define POUND_KG 0.45359237
#define G_M_S2 9.80665
#define INCH3_L 0.016387064
#define FOOT3_M3 0.028316846592
#define GALLON_L 3.785411784 /* 231 in3 */
#define IMPERIAL_GALLON_L 4.54609
#define BTU_J 1055.05585262
#define PSI_PA (POUND_KG * G_M_S2 / (0.0254 * 0.0254))
#define INCH_WATER_PA 249.08891 /* conventional: 1000 kg/m3, nearly water at 4 °C, times g, times 25.4 mm */
#define HP_W (550 * FOOT_M * POUND_KG * G_M_S2)
#define PS_W (75 * G_M_S2)
#define KELVIN_AT_0_C 273.15

/* clang-format off */
static const TwUnit bare[] = { { "", 1, 1 }, { NULL } };

static const TwUnit shares[] = { { "%|percent|pct", 1, 100 }, { NULL } };

/* Inches and feet as fractions of whole numbers, so that 1 1/2 in is 38.1 mm to the last bit. */
static const TwUnit lengths[] = {
  { "mm", 1, 1 },
  { "in|inch|inches|\"", 254, 10 },
  { "cm", 10, 1 },
  { "m", 1000, 1 },
  { "ft|foot|feet|'", 3048, 10 },
  { "thou", 254, 10000 },
  { NULL },
};

static const TwUnit areas[] = {
  { "mm2|sqmm", 1, 1 },
  { "in2|sqin|sq.in", INCH_MM * INCH_MM, 1 },
  { "cm2|sqcm", 100, 1 },
  { "m2|sqm", 1e6, 1 },
  { "ft2|sqft|sq.ft", 144 * INCH_MM * INCH_MM, 1 },
  { NULL },
};

static const TwUnit volumes[] = {
  { "l|litre|litres|liter|liters|dm3", 1, 1 },
  { "ml|cm3|cc", 1, 1000 },
  { "m3", 1000, 1 },
  { "in3|cuin|cu.in", INCH3_L, 1 },
  { "usgal|gal|usgallon|usgallons|gallon|gallons", GALLON_L, 1 },
  { "usqt|qt", GALLON_L, 4 },
  { "usfloz|floz", GALLON_L, 128 },
  { "impgal|ukgal", IMPERIAL_GALLON_L, 1 },
  { NULL },
};

static const TwUnit angles[] = {
  { "deg|degree|degrees", 1, 1 },
  { "rad", 180, G_PI },
  { NULL },
};

static const TwUnit speeds[] = {
  { "m/s", 1, 1 },
  { "km/h|kmh|kph", 10, 36 },
  { "mph|mi/h", MILE_M, 3600 },
  { "ft/s|fps", FOOT_M, 1 },
  { "ft/min|fpm", FOOT_M, 60 },
  { NULL },
};

static const TwUnit water_flows[] = {
  { "l/min|lpm", 1, 1 },
  { "l/s", 60, 1 },
  { "l/h", 1, 60 },
  { "m3/h", 1000, 60 },
  { "m3/s", 60000, 1 },
  { "gpm|gal/min|usgal/min|usgpm", GALLON_L, 1 },
  { "impgal/min|ukgal/min", IMPERIAL_GALLON_L, 1 },
  { NULL },
};

static const TwUnit air_flows[] = {
  { "m3/s", 1, 1 },
  { "m3/min", 1, 60 },
  { "m3/h", 1, 3600 },
  { "l/s", 1, 1000 },
  { "cfm|ft3/min", FOOT3_M3, 60 },
  { NULL },
};

static const TwUnit pressures[] = {
  { "pa", 1, 1 },
  { "kpa", 1000, 1 },
  { "hpa|mbar", 100, 1 },
  { "bar", 1e5, 1 },
  { "psi|lbf/in2", PSI_PA, 1 },
  { "inh2o|inchh2o|inwc|inwg", INCH_WATER_PA, 1 },
  { NULL },
};

static const TwUnit temperatures[] = {
  { "degc|c", 1, 1 },
  { "degf|f", 5, 9, -32 },
  { "k", 1, 1, -KELVIN_AT_0_C },
  { NULL },
};

static const TwUnit powers[] = {
  { "kw", 1, 1 },
  { "w", 1, 1000 },
  { "hp|bhp", HP_W, 1000 },
  { "ps", PS_W, 1000 },
  { "btu/h|btu/hr", BTU_J, 3600e3 },
  { "btu/min", BTU_J, 60e3 },
  { NULL },
};

static const TwUnit masses[] = {
  { "kg", 1, 1 },
  { "g", 1, 1000 },
  { "lb|lbs", POUND_KG, 1 },
  { "oz", POUND_KG, 16 },
  { NULL },
};

static const TwUnit times[] = {
  { "s|sec", 1, 1 },
  { "min", 60, 1 },
  { "h|hr", 3600, 1 },
  { NULL },
};

static const TwUnit voltages[] = { { "v|volt|volts", 1, 1 }, { NULL } };

static const TwUnit currents[] = { { "a|amp|amps", 1, 1 }, { NULL } };

static const TwQuantityRow rows[TW_N_QUANTITIES] = {
  [TW_QUANTITY_NONE] = { N_("a number"), N_("12, 0.407, 3/8"),
                         bare, 1, { "", "" }, { 0, 0 }, { 2, 2 } },
  [TW_QUANTITY_COUNT] = { N_("a whole number"), N_("1, 40"),
                          bare, 1, { "", "" }, { 0, 0 }, { 0, 0 } },
  [TW_QUANTITY_SHARE] = { N_("a share"), N_("86, 86.2 %"),
                          shares, 1, { "%", "%" }, { 0, 0 }, { 1, 1 } },
  [TW_QUANTITY_LENGTH] = { N_("a length"), N_("610, 24 1/2 in, 2 ft 3, 61 cm"),
                           lengths, 1, { "mm", "in" }, { 0, 1 }, { 1, 3 } },
  [TW_QUANTITY_DIAMETER] = { N_("a diameter"), N_("38, 1 1/2 in, 3.8 cm, -16"),
                             lengths, 1, { "mm", "in" }, { 0, 1 }, { 1, 3 } },
  [TW_QUANTITY_AREA] = { N_("an area"), N_("250000, 2500 cm², 388 in², 2.7 ft²"),
                         areas, 1, { "mm²", "in²" }, { 0, 1 }, { 0, 2 } },
  [TW_QUANTITY_VOLUME] = { N_("a volume"), N_("7.5, 7.5 L, 750 mL, 2 US gal, 460 in³"),
                           volumes, 1, { "L", "L" }, { 0, 0 }, { 2, 2 } },
  [TW_QUANTITY_ANGLE] = { N_("an angle"), N_("45, 22.5°, 0.5 rad"),
                          angles, 1, { "°", "°" }, { 0, 0 }, { 1, 1 } },
  [TW_QUANTITY_SPEED] = { N_("a speed"), N_("30, 30 m/s, 110 km/h, 70 mph"),
                          speeds, 1, { "m/s", "m/s" }, { 0, 0 }, { 2, 2 } },
  [TW_QUANTITY_WATER_FLOW] = { N_("a water flow"), N_("120, 120 L/min, 2 L/s, 30 gpm"),
                               water_flows, 1, { "L/min", "L/min" }, { 0, 0 }, { 1, 1 } },
  [TW_QUANTITY_AIR_FLOW] = { N_("an air flow"), N_("1.2, 1.2 m³/s, 4300 m³/h, 2500 cfm"),
                             air_flows, 1, { "m³/s", "m³/s" }, { 0, 0 }, { 3, 3 } },
  [TW_QUANTITY_PRESSURE] = { N_("a pressure"), N_("110, 110 kPa, 1.1 bar, 16 psi"),
                             pressures, 1000, { "kPa", "kPa" }, { 1, 1 }, { 1, 1 } },
  [TW_QUANTITY_AIR_PRESSURE] = { N_("a pressure"), N_("250, 250 Pa, 2.5 mbar, 1 inH2O"),
                                 pressures, 1, { "Pa", "Pa" }, { 0, 0 }, { 0, 0 } },
  [TW_QUANTITY_TEMPERATURE] = { N_("a temperature"), N_("95, 95 °C, 203 °F, 368 K"),
                                temperatures, 1, { "°C", "°C" }, { 0, 0 }, { 1, 1 } },
  [TW_QUANTITY_POWER] = { N_("a power"), N_("75, 75 kW, 100 hp, 102 PS"),
                          powers, 1, { "kW", "kW" }, { 0, 0 }, { 1, 1 } },
  [TW_QUANTITY_MASS] = { N_("a mass"), N_("4.2, 4.2 kg, 350 g, 9 lb"),
                         masses, 1, { "kg", "kg" }, { 0, 0 }, { 2, 2 } },
  [TW_QUANTITY_TIME] = { N_("a time"), N_("90, 90 s, 1.5 min, 2 h"),
                         times, 1, { "s", "s" }, { 0, 0 }, { 1, 1 } },
  [TW_QUANTITY_VOLTAGE] = { N_("a voltage"), N_("13.5, 12 V"),
                            voltages, 1, { "V", "V" }, { 0, 0 }, { 1, 1 } },
  [TW_QUANTITY_CURRENT] = { N_("a current"), N_("18, 18 A"),
                            currents, 1, { "A", "A" }, { 0, 0 }, { 1, 1 } },
};
/* clang-format on */

const TwQuantityRow *
tw_units_row (TwQuantity quantity)
{
  g_assert ((guint)quantity < TW_N_QUANTITIES);
  return &rows[quantity];
}

gboolean
tw_units_is_length (TwQuantity quantity)
{
  return quantity == TW_QUANTITY_LENGTH || quantity == TW_QUANTITY_DIAMETER;
}

const TwUnit *
tw_units_shown (TwQuantity quantity, const TwUnitStyle *style)
{
  const TwQuantityRow *row = tw_units_row (quantity);

  return &row->units[row->shown[style->inches ? 1 : 0]];
}

double
tw_units_from (const TwQuantityRow *row, const TwUnit *unit, double figure)
{
  return (figure + unit->zero) * unit->num / unit->den / row->base;
}

double
tw_units_into (const TwQuantityRow *row, const TwUnit *unit, double value)
{
  return value * row->base * unit->den / unit->num - unit->zero;
}
