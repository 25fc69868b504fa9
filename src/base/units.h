/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * units.h - figures as people type and read them
 *
 * Inside, a quantity has one unit (the table below); here text becomes a figure and a figure text. Factors
 * are exact and stand nowhere else: 1 in = 25.4 mm, 1 lb = 0.45359237 kg, 1 US gal = 231 in3 (NIST SP 811,
 * appendix B), psi and the rest follow from them. Reading takes a point or a comma as decimal sign and any
 * unit that the trade uses for the quantity, whatever the job shows; unit words may be in any case. A number
 * without a unit has the unit that the style shows, with one exception: a ruler's fraction (`3/8`,
 * `20 3/8`) is inches in either style, for nobody writes fractions of a millimetre. Nothing here asks the
 * locale.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum {
  TW_QUANTITY_NONE,     /* a bare number */
  TW_QUANTITY_COUNT,    /* a whole number */
  TW_QUANTITY_SHARE,    /* 0..1, shown in % */
  TW_QUANTITY_LENGTH,   /* mm; mm cm m in " ' ft thou; fractions, `2 ft 3` */
  TW_QUANTITY_DIAMETER, /* mm; a length that also reads dash sizes, `-16`: of hose and tube, never below 0 */
  TW_QUANTITY_AREA,     /* mm2; mm² cm² m² in² ft² */
  TW_QUANTITY_VOLUME,   /* L; mL cm³ L in³, US gal (gal), qt, fl oz, imp gal */
  TW_QUANTITY_ANGLE,    /* deg; ° deg rad */
  TW_QUANTITY_SPEED,    /* m/s; m/s km/h mph ft/s ft/min */
  TW_QUANTITY_WATER_FLOW,   /* L/min; L/s L/h m³/h m³/s gpm (US gal/min) imp gal/min; kg is no flow */
  TW_QUANTITY_AIR_FLOW,     /* m3/s; m³/s m³/min m³/h L/s cfm */
  TW_QUANTITY_PRESSURE,     /* kPa (gauge); Pa hPa kPa bar mbar psi inH2O */
  TW_QUANTITY_AIR_PRESSURE, /* Pa; the same units */
  TW_QUANTITY_TEMPERATURE,  /* °C; °C °F K */
  TW_QUANTITY_POWER,        /* kW; W kW hp PS Btu/h Btu/min */
  TW_QUANTITY_MASS,         /* kg; g kg lb oz */
  TW_QUANTITY_TIME,         /* s; s min h */
  TW_QUANTITY_VOLTAGE,      /* V */
  TW_QUANTITY_CURRENT,      /* A */
  TW_N_QUANTITIES
} TwQuantity;

/* How figures are shown, and what a number without a unit means. */
typedef struct {
  gboolean inches;    /* lengths in inches, areas in in², volumes stay litres; else mm */
  gboolean fractions; /* inches as fractions; else as decimals */
  int finest;         /* smallest fraction of an inch: 64, 32, 16; 0 stands for 64 */
  char decimal;       /* '.' or ',' in what is shown; 0 stands for '.' */
} TwUnitStyle;

#define TW_UNIT_STYLE_MM ((TwUnitStyle){ .finest = 64, .decimal = '.' })
#define TW_UNIT_STYLE_IN ((TwUnitStyle){ .inches = TRUE, .fractions = TRUE, .finest = 64, .decimal = '.' })

/* Longest text that is read, in bytes. */
#define TW_UNITS_LONGEST 100

/**
 * tw_units_parse:
 * @quantity: what the text should be
 * @style: unit of a number that has none, never NULL
 * @text: as typed: `20 3/8`, `1 1/2"`, `610`, `2 ft 3`, `2' 3 1/2"`, `0.080 in`, `24,5 mm`, `12½`; a
 *   diameter also `-16`, a dash size from 1 to 64: sixteenths of an inch, inside a hose or outside a tube
 *   [sources: SAE-J517; SAE-J514]
 * @value: (out): in the unit of the quantity; untouched when refused
 *
 * Refuses what is not wholly a figure of this quantity, zero denominators, NaN and infinity, and says what is
 * accepted. Overflow is refused, not clipped. A comma before exactly three digits (`1,250`) and figures with
 * more than one decimal sign (`1,250.5`) could mean two things and are refused, but a style that shows a
 * decimal comma reads `1,250` as one and a quarter. Thousands parted by thin or no-break spaces are read.
 */
gboolean tw_units_parse (TwQuantity quantity,
                         const TwUnitStyle *style,
                         const char *text,
                         double *value,
                         GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Whether @text is a figure whose unit is the one that @style shows: `24.5` and `24.5 mm` with millimetres,
 * not `2 ft 3`, a dash size or what cannot be read. */
gboolean tw_units_is_shown (TwQuantity quantity, const TwUnitStyle *style, const char *text);

/**
 * tw_units_format:
 * @decimals: places after the decimal sign in the shown unit; ignored for inch fractions; -1: as many as the
 *   quantity usually has (mm 1, in 3, mm² 0, in² 2, share as % 1, L 2, m/s 2, …)
 *
 * Figure, thin space (U+2009) and unit: `653.5 mm`, `24 1/2 in`, `86.2 %`; degrees of angle stand close,
 * `45°`. A minus is U+2212. Half rounds away from zero; what rounds to zero has no sign; what is not finite
 * reads `–` without a unit. Thousands are parted by U+2009 from 10 000 on.
 */
char *tw_units_format (TwQuantity quantity, const TwUnitStyle *style, double value, int decimals)
    G_GNUC_WARN_UNUSED_RESULT;
/* The same without the unit. */
char *tw_units_format_number (TwQuantity quantity, const TwUnitStyle *style, double value, int decimals)
    G_GNUC_WARN_UNUSED_RESULT;
/* The unit that the style shows: `mm`, `in²`, `%`. (transfer none) */
const char *tw_units_name (TwQuantity quantity, const TwUnitStyle *style);

/**
 * tw_units_format_plain:
 *
 * As an entry field would show it, without unit: ASCII minus, no thousands, an inch fraction only where it is
 * the figure itself. Reading it back in the same style gives the same double, or its neighbour where
 * no text of 17 digits in the shown unit does. @value is finite.
 */
char *
tw_units_format_plain (TwQuantity quantity, const TwUnitStyle *style, double value) G_GNUC_WARN_UNUSED_RESULT;

/**
 * tw_units_format_dimension:
 * @value_mm: a length, finite
 * @decimals: most places of millimetres; places of decimal inches
 *
 * As a dimension on a drawing [sources: ISO-129-1; ASME-Y14-5], without unit and thousands: millimetres with
 * a leading zero and no trailing ones (`610`, `0.5`), decimal inches without a leading zero and with all
 * places
 * (`.250`), or inch fractions. A minus is U+2212.
 */
char *
tw_units_format_dimension (const TwUnitStyle *style, double value_mm, int decimals) G_GNUC_WARN_UNUSED_RESULT;

/* Shortest decimal text that reads back as the same double; for files, whatever the locale. @value is finite.
 */
char *tw_number_text (double value) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
