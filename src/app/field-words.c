/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/field-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define LONGEST_PLAIN 9  /* characters of a figure that stands in full */
#define LONGEST_BARE 7   /* the same in a column */
#define ROUNDED_PLACES 3 /* else at most so many after the decimal sign */
#define SAME 1e-9        /* in the unit of the quantity: no difference that anyone could make */

static char *
with_unit (TwSession *session, const TwField *field, const char *number)
{
  TwUnitStyle style = tw_session_style (session);
  const char *unit = tw_units_name (field->quantity, &style);

  if (unit[0] == '\0')
    return g_strdup (number);
  return g_strconcat (number, field->quantity == TW_QUANTITY_ANGLE ? "" : " ", unit, NULL);
}

/* In full where that is short: a figure that was dragged in millimetres has fifteen places in inches, and no
 * ruler's fraction. @bare: without its unit, for a column. */
static char *
figure_text (TwSession *session, const TwField *field, double value, gboolean bare)
{
  TwUnitStyle style = tw_session_style (session);
  g_autofree char *number = tw_units_format_plain (field->quantity, &style, value), *rounded = NULL;
  gsize longest = bare ? LONGEST_BARE : LONGEST_PLAIN;

  style.fractions = FALSE;
  for (int places = ROUNDED_PLACES; places > 0 && (gsize)g_utf8_strlen (number, -1) > longest; places--) {
    g_free (number);
    g_free (rounded);
    rounded = tw_units_format_number (field->quantity, &style, fabs (value), places);
    number = g_strconcat (value < 0.0 ? "-" : "", rounded, NULL); /* as it is typed */
  }
  return bare ? g_steal_pointer (&number) : with_unit (session, field, number);
}

char *
tw_field_words_value (TwSession *session, const TwField *field, const TwValue *value)
{
  switch (field->store) {
  case TW_FIELD_NUMBER:
    return isnan (value->number) ? NULL : figure_text (session, field, value->number, FALSE);
  case TW_FIELD_COUNT:
    return value->choice < 0 ? NULL : g_strdup_printf ("%d", value->choice);
  case TW_FIELD_CHOICE:
    return value->choice < 0 ? NULL : g_strdup (_ (field->choices[value->choice].label));
  case TW_FIELD_FLAG:
    return value->choice < 0 ? NULL : g_strdup (value->choice ? _ ("yes") : _ ("no"));
  case TW_FIELD_TEXT:
    return g_strdup (value->text);
  case TW_FIELD_REF:
    break;
  }
  return NULL;
}

/* Where the unit behind a figure begins: behind its last digit. */
static const char *
unit_behind (const char *text)
{
  const char *end = text;

  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    if (g_unichar_isdigit (g_utf8_get_char (at))
        || g_unichar_type (g_utf8_get_char (at)) == G_UNICODE_OTHER_NUMBER)
      end = g_utf8_next_char (at);
  return end;
}

char *
tw_field_words_entry (TwSession *session, const TwField *field, const TwValue *value, gboolean bare)
{
  TwUnitStyle style = tw_session_style (session);
  g_autofree char *number = NULL;
  const char *unit;

  if (field->store != TW_FIELD_NUMBER || isnan (value->number))
    return tw_field_words_value (session, field, value);
  if (value->typed == NULL)
    return figure_text (session, field, value->number, bare);
  if (!tw_units_is_shown (field->quantity, &style, value->typed))
    return g_strdup (value->typed);
  unit = unit_behind (value->typed);
  number = g_strchomp (g_strndup (value->typed, (gsize)(unit - value->typed)));
  if (bare)
    return g_steal_pointer (&number);
  return *unit == '\0' ? with_unit (session, field, number) : g_strdup (value->typed);
}

char *
tw_field_words_beside (TwSession *session, const TwField *field, const TwValue *value)
{
  TwUnitStyle style = tw_session_style (session);
  g_autofree char *text = NULL;
  double read;

  if (value->typed == NULL || tw_units_is_shown (field->quantity, &style, value->typed))
    return NULL;
  text = figure_text (session, field, value->number, FALSE);
  if (tw_units_parse (field->quantity, &style, text, &read, NULL) && fabs (read - value->number) < SAME)
    return g_strconcat ("= ", text, NULL);
  return g_strconcat ("≈ ", text, NULL);
}

/* Nobody typed it: as many places as its quantity commonly has. */
static char *
unsaid_text (TwSession *session, const TwField *field, const TwValue *value)
{
  TwUnitStyle style = tw_session_style (session);

  if (field->store != TW_FIELD_NUMBER || isnan (value->number))
    return tw_field_words_value (session, field, value);
  return tw_units_format (field->quantity, &style, value->number, -1);
}

/* Of part number @nth. */
static char *
unsaid_of (const TwFieldTarget *target, guint nth, char **note)
{
  TwSession *session = tw_field_target_session (target);
  const TwDrawing *drawing = tw_session_drawing (session);
  const TwPart *owner = tw_field_target_owner (target, nth);
  const TwPart *filled = NULL;
  guint field = tw_field_target_field (target);
  const char *why = NULL;
  TwValue value;
  char *text;

  *note = NULL;
  if (owner != NULL && owner->kind < TW_FIRST_ELEMENT)
    filled = tw_drawing_find (drawing, owner->id);
  if (filled == NULL)
    return NULL;
  value = tw_part_get (filled, field);
  text = unsaid_text (session, tw_field_target_info (target), &value);
  tw_value_clear (&value);
  if (text != NULL && tw_drawing_is_assumed (drawing, owner->id, field, &why))
    /* Translators: under a figure that the program assumes since the job does not say it; then from where it
     * comes: `kind of core` */
    *note = why != NULL ? g_strdup_printf (_ ("assumed: %s"), _ (why)) : g_strdup (_ ("assumed"));
  return text;
}

char *
tw_field_words_unsaid (const TwFieldTarget *target, char **note)
{
  g_autofree char *text = unsaid_of (target, 0, note);

  for (guint i = 1; i < tw_field_target_n (target); i++) {
    g_autofree char *other_note = NULL;
    g_autofree char *other = unsaid_of (target, i, &other_note);

    if (g_strcmp0 (text, other) != 0 || g_strcmp0 (*note, other_note) != 0) {
      g_clear_pointer (note, g_free);
      return NULL;
    }
  }
  return g_steal_pointer (&text);
}

const char *
tw_field_words_trouble (const TwField *field, const GError *error)
{
  gsize length = strlen (field->name);

  if (g_str_has_prefix (error->message, field->name) && g_str_has_prefix (error->message + length, ": "))
    return error->message + length + 2;
  return error->message;
}
