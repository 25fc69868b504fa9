/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reading in three steps: the text as typed becomes plain ASCII (units-spell.c), a number is taken from its
 * front, and what is left must be a unit.
 */
#include "base/units-private.h"
#include "base/error.h"

#include <math.h>
#include <string.h>

/* Longest piece of what was typed that an error repeats, in characters. */
#define QUOTED_LONGEST 40
/* Finest fraction that a ruler has; a bare one of these is inches. Dimensionless. */
#define RULER_FINEST 128
/* Whole numbers beyond this are not all doubles. Dimensionless. */
#define COUNT_LARGEST 9007199254740992.0
#define DASH_LARGEST 64

typedef enum {
  READ_OK,
  READ_EMPTY,
  READ_TOO_LONG,
  READ_WRONG,
  READ_TWO_WAYS,
  READ_ZERO_DENOMINATOR,
  READ_TOO_LARGE,
  READ_NOT_WHOLE,
  READ_BARE_FRACTION,
} Outcome;

typedef struct {
  double value;      /* without sign, in whatever unit follows */
  gboolean fraction; /* written with a slash */
  gboolean ruler;    /* a proper fraction of halves, quarters … */
} Number;

static const char *
skip_spaces (const char *at)
{
  while (*at == ' ')
    at++;
  return at;
}

static const char *
skip_digits (const char *at)
{
  while (g_ascii_isdigit (*at))
    at++;
  return at;
}

/* Takes decimal digits from *@cursor; *@whole tells that they are digits alone. */
static Outcome
read_decimal (const char **cursor, char decimal, double *value, gboolean *whole)
{
  const char *start = *cursor;
  const char *mark = skip_digits (start);
  const char *end;
  g_autofree char *digits = NULL;

  end = *mark == '.' || *mark == ',' ? skip_digits (mark + 1) : mark;
  if (end - start <= (end > mark ? 1 : 0))
    return READ_WRONG;
  if (*end == '.' || *end == ',')
    return READ_TWO_WAYS;
  if (*mark == ',' && decimal != ',' && end - mark == 4 && mark - start <= 3 && mark > start && *start != '0')
    return READ_TWO_WAYS;
  *whole = end == mark;
  if (*end == 'e') {
    const char *power = end[1] == '+' || end[1] == '-' ? end + 2 : end + 1;

    if (g_ascii_isdigit (*power)) {
      end = skip_digits (power);
      *whole = FALSE;
    }
  }
  digits = g_strndup (start, (gsize)(end - start));
  if (*mark == ',')
    digits[mark - start] = '.';
  *value = g_ascii_strtod (digits, NULL);
  *cursor = end;
  return isfinite (*value) ? READ_OK : READ_TOO_LARGE;
}

/* The `/8` behind @numerator. */
static Outcome
read_denominator (const char **cursor, double numerator, Number *number)
{
  const char *start = *cursor + 1;
  const char *end = skip_digits (start);
  double denominator;

  if (end == start)
    return READ_WRONG;
  denominator = g_ascii_strtod (start, NULL);
  if (denominator == 0)
    return READ_ZERO_DENOMINATOR;
  number->value = numerator / denominator;
  number->fraction = TRUE;
  number->ruler = number->value < 1 && denominator <= RULER_FINEST
                  && ((guint)denominator & ((guint)denominator - 1)) == 0;
  *cursor = end;
  return READ_OK;
}

/* `24.5`, `3/8`, `24 3/8` or `24-3/8`. */
static Outcome
read_number (const char **cursor, char decimal, Number *number)
{
  gboolean whole;
  const char *at;
  double units;
  Outcome outcome = read_decimal (cursor, decimal, &number->value, &whole);

  if (outcome != READ_OK || !whole)
    return outcome;
  if (**cursor == '/')
    return read_denominator (cursor, number->value, number);

  at = skip_spaces (*cursor);
  if (*at == '-')
    at = skip_spaces (at + 1);
  if (at == *cursor || at == skip_digits (at) || *skip_digits (at) != '/')
    return READ_OK;

  units = number->value;
  *cursor = skip_digits (at);
  outcome = read_denominator (cursor, g_ascii_strtod (at, NULL), number);
  if (outcome == READ_OK && number->value >= 1)
    return READ_WRONG;
  number->value += units;
  return outcome;
}

/* What stands behind a word for feet at @at, or NULL if there is none. */
static const char *
behind_feet (const char *at)
{
  static const char *const words[] = { "feet", "foot", "ft.", "ft", "'" };

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (g_str_has_prefix (at, words[i]))
      return skip_spaces (at + strlen (words[i]));
  return NULL;
}

/* The unit of @row written as @word, or NULL. */
static const TwUnit *
find_unit (const TwQuantityRow *row, const char *word)
{
  g_autoptr (GString) name = g_string_new (word);

  g_string_replace (name, " ", "", 0);
  g_string_replace (name, "^", "", 0);
  if (name->len > 0 && name->str[name->len - 1] == '.')
    g_string_truncate (name, name->len - 1);

  for (const TwUnit *unit = row->units; unit->spellings != NULL; unit++) {
    g_auto (GStrv) spellings = g_strsplit (unit->spellings, "|", -1);

    if (g_strv_contains ((const char *const *)spellings, name->str))
      return unit;
  }
  return NULL;
}

/* The `3 1/2"` of `2 ft 3 1/2"`; @feet is what came before. */
static Outcome
read_inches (const char *rest, char decimal, double feet, double *value_mm)
{
  const TwQuantityRow *row = tw_units_row (TW_QUANTITY_LENGTH);
  const TwUnit *inch = find_unit (row, "in");
  Number inches = { 0 };
  Outcome outcome;

  if (*rest == '-')
    rest = skip_spaces (rest + 1);
  outcome = read_number (&rest, decimal, &inches);
  if (outcome != READ_OK)
    return outcome;
  rest = skip_spaces (rest);
  if (*rest != '\0' && find_unit (row, rest) != inch)
    return READ_WRONG;
  *value_mm = tw_units_from (row, inch, 12 * feet + inches.value);
  return READ_OK;
}

/* The unit of @number, of which @word is what the text says. */
static Outcome
choose_unit (TwQuantity quantity,
             const TwUnitStyle *style,
             const Number *number,
             const char *word,
             const TwUnit **unit)
{
  const TwQuantityRow *row = tw_units_row (quantity);

  if (*word != '\0') {
    *unit = find_unit (row, word);
    return *unit != NULL ? READ_OK : READ_WRONG;
  }
  *unit = tw_units_shown (quantity, style);
  if (!tw_units_is_length (quantity) || !number->fraction || style->inches)
    return READ_OK;
  *unit = find_unit (row, "in");
  return number->ruler ? READ_OK : READ_BARE_FRACTION;
}

/* `-16`: sixteenths of an inch. */
static gboolean
read_dash (const char *at, double *value_mm)
{
  double sixteenths;

  if (*at != '-' || !g_ascii_isdigit (at[1]) || *skip_digits (at + 1) != '\0')
    return FALSE;
  sixteenths = g_ascii_strtod (at + 1, NULL);
  if (sixteenths < 1 || sixteenths > DASH_LARGEST)
    return FALSE;
  *value_mm = sixteenths * 254 / 160;
  return TRUE;
}

/* Reads @at, plain ASCII without spaces at its ends, as a figure of @quantity; *@unit is its unit, NULL where
 * there are several or none.
 */
static Outcome
read_figure (TwQuantity quantity,
             const TwUnitStyle *style,
             const char *at,
             double *value,
             const TwUnit **unit)
{
  const gboolean minus = *at == '-';
  const char *inches;
  Number number = { 0 };
  Outcome outcome;

  *unit = NULL;
  if (quantity == TW_QUANTITY_DIAMETER && read_dash (at, value))
    return READ_OK;
  if (*at == '-' || *at == '+')
    at = skip_spaces (at + 1);
  outcome = read_number (&at, style->decimal, &number);
  if (outcome != READ_OK)
    return outcome;

  at = skip_spaces (at);
  inches = tw_units_is_length (quantity) ? behind_feet (at) : NULL;
  if (inches != NULL && *inches != '\0') {
    outcome = read_inches (inches, style->decimal, number.value, value);
    *value = minus ? -*value : *value;
  } else {
    outcome = choose_unit (quantity, style, &number, at, unit);
    if (outcome == READ_OK)
      *value = tw_units_from (tw_units_row (quantity), *unit, minus ? -number.value : number.value);
  }
  if (outcome != READ_OK)
    return outcome;
  if (!isfinite (*value))
    return READ_TOO_LARGE;
  if (quantity == TW_QUANTITY_COUNT && *value != floor (*value))
    return READ_NOT_WHOLE;
  if (quantity == TW_QUANTITY_COUNT && fabs (*value) > COUNT_LARGEST)
    return READ_TOO_LARGE;
  return READ_OK;
}

/* What was typed, fit to be repeated in a sentence. */
static char *
quoted (const char *text)
{
  g_autofree char *start = g_strndup (text, TW_UNITS_LONGEST);
  g_autofree char *valid = g_utf8_make_valid (start, -1);
  GString *out = g_string_new (NULL);
  guint n = 0;

  for (const char *at = valid; *at != '\0'; at = g_utf8_next_char (at)) {
    if (++n > QUOTED_LONGEST) {
      g_string_append (out, "…");
      break;
    }
    g_string_append_unichar (out, g_unichar_isprint (g_utf8_get_char (at)) ? g_utf8_get_char (at) : 0xfffd);
  }
  return g_string_free (out, FALSE);
}

static gboolean
refuse (Outcome outcome, const char *text, const char *noun, const char *examples, GError **error)
{
  g_autofree char *found = quoted (text);
  TwErrorCode code = TW_ERROR_FORMAT;
  g_autofree char *says = NULL;

  switch (outcome) {
  case READ_EMPTY:
    /* Translators: `a length`, then examples of what is accepted */
    says = g_strdup_printf (_ ("nothing is entered; %s is wanted, like %s"), noun, examples);
    break;
  case READ_TOO_LONG:
    code = TW_ERROR_LIMIT;
    says = g_strdup_printf (_ ("\"%s\" is too long to be %s; accepted are figures like %s"), found, noun,
                            examples);
    break;
  case READ_TOO_LARGE:
    code = TW_ERROR_LIMIT;
    says = g_strdup_printf (_ ("\"%s\" is too large to be %s; accepted are figures like %s"), found, noun,
                            examples);
    break;
  case READ_TWO_WAYS:
    says = g_strdup_printf (_ ("\"%s\" can be read in two ways; write thousands without a sign between them "
                               "and one decimal point: 1250 or 1.25"),
                            found);
    break;
  case READ_ZERO_DENOMINATOR:
    says = g_strdup_printf (_ ("\"%s\" divides by zero; accepted are figures like %s"), found, examples);
    break;
  case READ_BARE_FRACTION:
    says = g_strdup_printf (_ ("\"%s\" needs its unit; accepted are figures like %s"), found, examples);
    break;
  default:
    /* Translators: what was typed, `a length`, then examples of what is accepted */
    says = g_strdup_printf (_ ("\"%s\" is not %s; accepted are figures like %s"), found, noun, examples);
    break;
  }
  g_set_error_literal (error, TW_ERROR, (int)code, says);
  return FALSE;
}

/* Makes *@plain of @text, or tells why not. */
static Outcome
prepare (const char *text, char **plain)
{
  if (strlen (text) > TW_UNITS_LONGEST)
    return READ_TOO_LONG;
  if (!g_utf8_validate (text, -1, NULL))
    return READ_WRONG;
  *plain = tw_units_spell_out (text);
  return **plain == '\0' ? READ_EMPTY : READ_OK;
}

gboolean
tw_units_parse (TwQuantity quantity,
                const TwUnitStyle *style,
                const char *text,
                double *value,
                GError **error)
{
  const TwQuantityRow *row = tw_units_row (quantity);
  g_autofree char *plain = NULL;
  const TwUnit *unit;
  double read = 0;
  Outcome outcome;

  g_return_val_if_fail (style != NULL && text != NULL && value != NULL, FALSE);

  outcome = prepare (text, &plain);
  if (outcome == READ_OK)
    outcome = read_figure (quantity, style, plain, &read, &unit);
  if (outcome != READ_OK)
    return refuse (outcome, text, _ (row->noun), _ (row->examples), error);
  *value = read + 0.0; /* a zero has no sign */
  return TRUE;
}

gboolean
tw_units_is_shown (TwQuantity quantity, const TwUnitStyle *style, const char *text)
{
  g_autofree char *plain = NULL;
  const TwUnit *unit = NULL;
  double read;

  g_return_val_if_fail (style != NULL && text != NULL, FALSE);

  return prepare (text, &plain) == READ_OK && read_figure (quantity, style, plain, &read, &unit) == READ_OK
         && unit == tw_units_shown (quantity, style);
}
