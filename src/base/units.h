/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * units.h - figures as people type and read them
 *
 * Inside, a quantity has one unit (the table below); here text becomes a figure and a figure text. Factors
 * are exact and stand nowhere else: 1 in = 25.4 mm, 1 lb = 0.45359237 kg, 1 US gal = 231 in3 (NIST SP 811,
 * appendix B), psi and the rest follow from them. Reading takes a point or a comma as decimal sign and any
 * unit that the trade uses for the quantity; a number without a unit has the unit of the style.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum {
  TW_QUANTITY_NONE,         /* a bare number */
  TW_QUANTITY_COUNT,        /* a whole number */
  TW_QUANTITY_SHARE,        /* 0..1, shown in % */
  TW_QUANTITY_LENGTH,       /* mm; mm cm m in " ' ft; fractions, `2 ft 3`, dash sizes where allowed */
  TW_QUANTITY_AREA,         /* mm2; mm² cm² m² in² ft² */
  TW_QUANTITY_VOLUME,       /* L; mL cm³ L in³, US gal, US qt, US fl oz */
  TW_QUANTITY_ANGLE,        /* deg; ° deg rad */
  TW_QUANTITY_SPEED,        /* m/s; m/s km/h mph ft/s ft/min */
  TW_QUANTITY_WATER_FLOW,   /* L/min; L/min L/s L/h m3/h, US gal/min (gpm), kg is no flow */
  TW_QUANTITY_AIR_FLOW,     /* m3/s; m3/s m3/min m3/h cfm */
  TW_QUANTITY_PRESSURE,     /* kPa (gauge); Pa kPa bar mbar psi inH2O */
  TW_QUANTITY_AIR_PRESSURE, /* Pa; the same units */
  TW_QUANTITY_TEMPERATURE,  /* °C; °C °F K */
  TW_QUANTITY_POWER,        /* kW; W kW hp PS */
  TW_QUANTITY_MASS,         /* kg; g kg lb */
  TW_QUANTITY_TIME,         /* s; s min h */
  TW_QUANTITY_VOLTAGE,      /* V */
  TW_QUANTITY_CURRENT,      /* A */
  TW_N_QUANTITIES
} TwQuantity;

/* How figures are shown, and what a number without a unit means. */
typedef struct {
  gboolean inches;    /* lengths in inches, areas in in², volumes stay litres; else mm */
  gboolean fractions; /* inches as fractions; else as decimals */
  int finest;         /* smallest fraction of an inch: 64, 32, 16 */
  char decimal;       /* '.' or ',' in what is shown */
} TwUnitStyle;

#define TW_UNIT_STYLE_MM ((TwUnitStyle){ .finest = 64, .decimal = '.' })
#define TW_UNIT_STYLE_IN ((TwUnitStyle){ .inches = TRUE, .fractions = TRUE, .finest = 64, .decimal = '.' })

/**
 * tw_units_parse:
 * @quantity: what the text should be
 * @style: unit of a number that has none, never NULL
 * @text: as typed: `20 3/8`, `1 1/2"`, `610`, `2 ft 3`, `0.080 in`, `24,5 mm`, `-16` only by
 * tw_units_parse_dash()
 * @value: (out): in the unit of the quantity
 *
 * Refuses what is not wholly a figure of this quantity, zero denominators, NaN and infinity, and says what is
 * accepted. Overflow is refused, not clipped.
 */
gboolean tw_units_parse (TwQuantity quantity,
                         const TwUnitStyle *style,
                         const char *text,
                         double *value,
                         GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* A dash size `-16` or `16` as outside diameter in mm: sixteenths of an inch (SAE J514 and the trade). */
gboolean tw_units_parse_dash (const char *text, double *outside_mm, GError **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_units_format:
 * @decimals: places after the decimal sign in the shown unit; ignored for inch fractions; -1: as many as the
 *   quantity usually has (mm 1, in 3, mm² 0, in² 2, share as % 1, L 2, m/s 2, …)
 *
 * Figure, thin space (U+2009) and unit: `653.5 mm`, `24 1/2 in`, `86.2 %`. A minus is U+2212. Half rounds
 * away from zero; what rounds to zero has no sign; NaN reads `–`. Thousands are parted by U+2009 from 10 000
 * on.
 */
char *tw_units_format (TwQuantity quantity, const TwUnitStyle *style, double value, int decimals)
    G_GNUC_WARN_UNUSED_RESULT;
/* The same without the unit. */
char *tw_units_format_number (TwQuantity quantity, const TwUnitStyle *style, double value, int decimals)
    G_GNUC_WARN_UNUSED_RESULT;
/* The unit that the style shows: `mm`, `in²`, `%`. (transfer none) */
const char *tw_units_name (TwQuantity quantity, const TwUnitStyle *style);

/* As an entry field would show it so that reading it back gives the same figure: ASCII minus, no thousands.
 */
char *
tw_units_format_plain (TwQuantity quantity, const TwUnitStyle *style, double value) G_GNUC_WARN_UNUSED_RESULT;

/* Shortest decimal text that reads back as the same double; for files, whatever the locale. @value is finite.
 */
char *tw_number_text (double value) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
