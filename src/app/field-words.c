/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/field-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static char *
figure_text (TwSession *session, const TwField *field, double value)
{
  TwUnitStyle style = tw_session_style (session);
  g_autofree char *number = tw_units_format_plain (field->quantity, &style, value);
  const char *unit = tw_units_name (field->quantity, &style);

  if (unit[0] == '\0')
    return g_steal_pointer (&number);
  return g_strconcat (number, field->quantity == TW_QUANTITY_ANGLE ? "" : " ", unit, NULL);
}

char *
tw_field_words_value (TwSession *session, const TwField *field, const TwValue *value)
{
  switch (field->store) {
  case TW_FIELD_NUMBER:
    return isnan (value->number) ? NULL : figure_text (session, field, value->number);
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

/* Nobody typed it: as many places as its quantity commonly has. */
static char *
unsaid_text (TwSession *session, const TwField *field, const TwValue *value)
{
  TwUnitStyle style = tw_session_style (session);

  if (field->store != TW_FIELD_NUMBER || isnan (value->number))
    return tw_field_words_value (session, field, value);
  return tw_units_format (field->quantity, &style, value->number, -1);
}

char *
tw_field_words_unsaid (TwSession *session, const TwPart *owner, guint field, const char **why)
{
  const TwDrawing *drawing = tw_session_drawing (session);
  const TwPart *filled;
  g_autofree char *text = NULL;
  gboolean assumed;
  TwValue value;

  *why = NULL;
  filled = owner->kind < TW_FIRST_ELEMENT ? tw_drawing_find (drawing, owner->id) : NULL;
  if (filled == NULL)
    return NULL;
  assumed = tw_drawing_is_assumed (drawing, owner->id, field, why);
  value = tw_part_get (filled, field);
  text = unsaid_text (session, &tw_kind_info (owner->kind)->fields[field], &value);
  tw_value_clear (&value);
  if (text == NULL || !assumed)
    return g_steal_pointer (&text);
  /* Translators: a figure or word that the program assumes, since the job does not say it */
  return g_strdup_printf (_ ("%s, assumed"), text);
}
