/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figures as text; units-read.c goes the other way.
 */
#include "base/units-private.h"

#include <float.h>
#include <math.h>
#include <string.h>

#define THIN_SPACE "\u2009"
#define MINUS "\u2212"
#define NO_FIGURE "\u2013"
#define DEGREE "°"
/* Thousands are parted from five digits on. */
#define PARTED_FROM 5
#define FINEST_DEFAULT 64
/* Slack for figures that are half a step but for the last bits of a product, in steps. Dimensionless. */
#define HALF_SLACK 1e-9
/* Beyond this, steps of one are no longer exact doubles and nothing is rounded. Dimensionless. */
#define EXACT_LARGEST 1e15
#define DECIMALS_MOST 15

/* @magnitude, not negative, with @decimals places, half rounded up as the decimal figure reads: 2.675 is a
 * half although its double lies below.
 */
static char *
fixed (double magnitude, int decimals)
{
  char format[] = "%.00f";
  char digits[G_ASCII_DTOSTR_BUF_SIZE + 320];
  double steps = magnitude;
  gsize length;

  for (int i = 0; i < decimals; i++)
    steps *= 10;
  if (!(steps < EXACT_LARGEST)) {
    format[2] = (char)('0' + decimals / 10);
    format[3] = (char)('0' + decimals % 10);
    return g_strdup (g_ascii_formatd (digits, sizeof digits, format, magnitude));
  }
  g_ascii_formatd (digits, sizeof digits, "%.0f", floor (steps + 0.5 + 4 * DBL_EPSILON * steps));
  length = strlen (digits);
  if (length <= (gsize)decimals) {
    gsize missing = (gsize)decimals + 1 - length;

    memmove (digits + missing, digits, length + 1);
    memset (digits, '0', missing);
    length += missing;
  }
  if (decimals == 0)
    return g_strdup (digits);
  return g_strdup_printf ("%.*s.%s", (int)length - decimals, digits, digits + length - decimals);
}

static gboolean
is_zero (const char *figure)
{
  return strpbrk (figure, "123456789") == NULL;
}

/* Puts thin spaces between groups of three of the whole part of @figure, and @decimal for its point. */
static char *
dress (const char *figure, char decimal, gboolean part_thousands)
{
  GString *out = g_string_new (NULL);
  gsize whole = strcspn (figure, ".");

  for (gsize i = 0; i < whole; i++) {
    if (part_thousands && whole >= PARTED_FROM && i > 0 && (whole - i) % 3 == 0)
      g_string_append (out, THIN_SPACE);
    g_string_append_c (out, figure[i]);
  }
  if (figure[whole] == '.') {
    g_string_append_c (out, decimal == ',' ? ',' : '.');
    g_string_append (out, figure + whole + 1);
  }
  return g_string_free (out, FALSE);
}

/* @steps of 1/@finest inch, not negative, as `24 1/2`. */
static char *
fraction_text (double steps, int finest, gboolean part_thousands)
{
  double whole = floor (steps / finest);
  int rest = (int)(steps - whole * finest);
  g_autofree char *plain = fixed (whole, 0);
  g_autofree char *units = dress (plain, '.', part_thousands);

  while (rest > 0 && rest % 2 == 0) {
    rest /= 2;
    finest /= 2;
  }
  if (rest == 0)
    return g_steal_pointer (&units);
  if (whole == 0)
    return g_strdup_printf ("%d/%d", rest, finest);
  return g_strdup_printf ("%s %d/%d", units, rest, finest);
}

static int
finest_of (const TwUnitStyle *style)
{
  return style->finest > 0 ? style->finest : FINEST_DEFAULT;
}

static gboolean
shows_fractions (TwQuantity quantity, const TwUnitStyle *style)
{
  return tw_units_is_length (quantity) && style->inches && style->fractions;
}

/* The figure of @value without its sign, in the shown unit. */
static char *
magnitude_text (TwQuantity quantity, const TwUnitStyle *style, double value, int decimals)
{
  const TwQuantityRow *row = tw_units_row (quantity);
  double shown = fabs (tw_units_into (row, tw_units_shown (quantity, style), value));
  g_autofree char *plain = NULL;

  if (shows_fractions (quantity, style)) {
    int finest = finest_of (style);

    return fraction_text (floor (shown * finest + 0.5 + HALF_SLACK), finest, TRUE);
  }
  if (decimals < 0)
    decimals = row->decimals[style->inches ? 1 : 0];
  plain = fixed (shown, MIN (decimals, DECIMALS_MOST));
  return dress (plain, style->decimal, TRUE);
}

/* Temperatures change sign with their unit, so the sign is the shown figure's. */
static const char *
sign_of (double shown, const char *magnitude)
{
  return shown < 0 && !is_zero (magnitude) ? MINUS : "";
}

char *
tw_units_format_number (TwQuantity quantity, const TwUnitStyle *style, double value, int decimals)
{
  g_autofree char *magnitude = NULL;
  double shown;

  g_return_val_if_fail (style != NULL && finest_of (style) <= 1024, NULL);

  shown = tw_units_into (tw_units_row (quantity), tw_units_shown (quantity, style), value);
  if (!isfinite (shown))
    return g_strdup (NO_FIGURE);
  magnitude = magnitude_text (quantity, style, value, decimals);
  return g_strconcat (sign_of (shown, magnitude), magnitude, NULL);
}

char *
tw_units_format (TwQuantity quantity, const TwUnitStyle *style, double value, int decimals)
{
  g_autofree char *figure = tw_units_format_number (quantity, style, value, decimals);
  const char *name = tw_units_name (quantity, style);

  if (*name == '\0' || strcmp (figure, NO_FIGURE) == 0)
    return g_steal_pointer (&figure);
  return g_strconcat (figure, strcmp (name, DEGREE) == 0 ? "" : THIN_SPACE, name, NULL);
}

const char *
tw_units_name (TwQuantity quantity, const TwUnitStyle *style)
{
  return tw_units_row (quantity)->names[style->inches ? 1 : 0];
}

/* Shortest text of 15 to 17 digits of @shown that reads back as @value through @unit; the last of them if
 * none does.
 */
static char *
shortest (const TwQuantityRow *row, const TwUnit *unit, double shown, double value)
{
  static const char *const formats[] = { "%.15g", "%.16g", "%.17g" };
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  for (guint i = 0; i < G_N_ELEMENTS (formats); i++) {
    g_ascii_formatd (text, sizeof text, formats[i], shown);
    if (tw_units_from (row, unit, g_ascii_strtod (text, NULL)) == value)
      break;
  }
  return g_strdup (text);
}

char *
tw_units_format_plain (TwQuantity quantity, const TwUnitStyle *style, double value)
{
  const TwQuantityRow *row = tw_units_row (quantity);
  const TwUnit *unit = tw_units_shown (quantity, style);
  double shown = tw_units_into (row, unit, value);
  char *text;

  g_return_val_if_fail (style != NULL && isfinite (shown), NULL);

  if (shows_fractions (quantity, style)) {
    int finest = finest_of (style);
    double steps = floor (fabs (shown) * finest + 0.5);

    if (steps < EXACT_LARGEST && tw_units_from (row, unit, steps / finest) == fabs (value)) {
      g_autofree char *magnitude = fraction_text (steps, finest, FALSE);

      return g_strconcat (value < 0 ? "-" : "", magnitude, NULL);
    }
  }
  text = shortest (row, unit, shown + 0.0, value);
  return g_strdelimit (text, ".", style->decimal == ',' ? ',' : '.');
}

char *
tw_units_format_dimension (const TwUnitStyle *style, double value_mm, int decimals)
{
  g_autofree char *magnitude = NULL;
  g_autofree char *dressed = NULL;
  char *end;

  g_return_val_if_fail (style != NULL && isfinite (value_mm), NULL);

  if (shows_fractions (TW_QUANTITY_LENGTH, style)) {
    int finest = finest_of (style);

    dressed = fraction_text (floor (fabs (value_mm) / 25.4 * finest + 0.5 + HALF_SLACK), finest, FALSE);
    return g_strconcat (sign_of (value_mm, dressed), dressed, NULL);
  }
  magnitude = fixed (fabs (style->inches ? value_mm / 25.4 : value_mm), CLAMP (decimals, 0, DECIMALS_MOST));
  if (!style->inches && strchr (magnitude, '.') != NULL) {
    for (end = magnitude + strlen (magnitude); end[-1] == '0'; end--)
      ;
    *(end[-1] == '.' ? end - 1 : end) = '\0';
  }
  dressed = dress (magnitude, style->decimal, FALSE);
  return g_strconcat (sign_of (value_mm, dressed),
                      style->inches && g_str_has_prefix (magnitude, "0.") ? dressed + 1 : dressed, NULL);
}

char *
tw_number_text (double value)
{
  static const TwUnit same = { "", 1, 1, 0 };
  g_autofree char *text = NULL;
  char digits[G_ASCII_DTOSTR_BUF_SIZE];

  g_return_val_if_fail (isfinite (value), NULL);

  text = shortest (tw_units_row (TW_QUANTITY_NONE), &same, value, value);
  if (strchr (text, 'e') != NULL && fabs (value) < 1e22 && value == floor (value)) {
    g_ascii_formatd (digits, sizeof digits, "%.0f", value);
    if (strlen (digits) <= strlen (text))
      return g_strdup (digits);
  }
  return g_steal_pointer (&text);
}
