/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "job/change.h"

#include <math.h>
#include <string.h>

TwValue
tw_value_unknown (TwFieldStore store)
{
  return (TwValue){ .store = store, .number = (double)NAN, .choice = -1 };
}

TwValue
tw_value_number (double number)
{
  TwValue value = tw_value_unknown (TW_FIELD_NUMBER);

  value.number = number;
  return value;
}

TwValue
tw_value_choice (TwFieldStore store, int choice)
{
  TwValue value = tw_value_unknown (store);

  value.choice = choice;
  return value;
}

TwValue
tw_value_text (const char *text)
{
  TwValue value = tw_value_unknown (TW_FIELD_TEXT);

  value.text = g_strdup (text);
  return value;
}

TwValue
tw_value_ref (TwId ref)
{
  TwValue value = tw_value_unknown (TW_FIELD_REF);

  value.ref = ref;
  return value;
}

void
tw_value_clear (TwValue *self)
{
  g_free (self->text);
  g_free (self->typed);
  *self = tw_value_unknown (self->store);
}

gboolean
tw_value_equal (const TwValue *a, const TwValue *b)
{
  return (a->number == b->number || (isnan (a->number) && isnan (b->number))) && a->choice == b->choice
         && g_strcmp0 (a->text, b->text) == 0 && tw_id_equal (a->ref, b->ref);
}

TwValue
tw_part_get (const TwPart *part, guint field)
{
  const TwField *info = &tw_kind_info (part->kind)->fields[field];
  TwValue value = tw_value_unknown (info->store);

  switch (info->store) {
  case TW_FIELD_NUMBER:
    value.number = G_STRUCT_MEMBER (double, part, info->offset);
    break;
  case TW_FIELD_COUNT:
  case TW_FIELD_CHOICE:
  case TW_FIELD_FLAG:
    value.choice = G_STRUCT_MEMBER (int, part, info->offset);
    break;
  case TW_FIELD_TEXT:
    value.text = g_strdup (G_STRUCT_MEMBER (char *, part, info->offset));
    break;
  case TW_FIELD_REF:
    value.ref = G_STRUCT_MEMBER (TwId, part, info->offset);
    break;
  }
  if (part->typed != NULL)
    value.typed = g_strdup (part->typed[field]);
  return value;
}

void
tw_part_put (TwPart *part, guint field, TwValue *value)
{
  const TwKindInfo *kind = tw_kind_info (part->kind);
  const TwField *info = &kind->fields[field];

  g_return_if_fail (value->store == info->store);
  switch (info->store) {
  case TW_FIELD_NUMBER:
    G_STRUCT_MEMBER (double, part, info->offset) = value->number;
    break;
  case TW_FIELD_COUNT:
  case TW_FIELD_CHOICE:
  case TW_FIELD_FLAG:
    G_STRUCT_MEMBER (int, part, info->offset) = value->choice;
    break;
  case TW_FIELD_TEXT:
    g_free (G_STRUCT_MEMBER (char *, part, info->offset));
    G_STRUCT_MEMBER (char *, part, info->offset) = g_steal_pointer (&value->text);
    break;
  case TW_FIELD_REF:
    G_STRUCT_MEMBER (TwId, part, info->offset) = value->ref;
    break;
  }
  if (value->typed != NULL && part->typed == NULL)
    part->typed = g_new0 (char *, kind->n_fields);
  if (part->typed != NULL) {
    g_free (part->typed[field]);
    part->typed[field] = g_steal_pointer (&value->typed);
  }
  tw_value_clear (value);
}

static gboolean
refuse (const TwField *field, const char *found, GError **error)
{
  g_autofree char *accepts = tw_field_accepts (field);

  g_set_error (error, TW_ERROR, TW_ERROR_REFUSED, _ ("%s: found %s, expected %s"), field->name, found,
               accepts);
  return FALSE;
}

/* What was typed is repeated as it was typed, the range in the unit that the person sees. */
static gboolean
refuse_figure (const TwField *field, const TwUnitStyle *style, const char *found, GError **error)
{
  g_autofree char *accepts = tw_field_accepts_shown (field, style);

  g_set_error (error, TW_ERROR, TW_ERROR_REFUSED, _ ("%s: found %s, expected %s"), field->name, found,
               accepts);
  return FALSE;
}

static gboolean
parse_choice (const TwField *field, const char *text, TwValue *value, GError **error)
{
  if (field->store == TW_FIELD_FLAG && (g_str_equal (text, "true") || g_str_equal (text, "yes"))) {
    value->choice = 1;
  } else if (field->store == TW_FIELD_FLAG && (g_str_equal (text, "false") || g_str_equal (text, "no"))) {
    value->choice = 0;
  } else if (field->store == TW_FIELD_CHOICE) {
    for (int i = 0; field->choices[i].name != NULL; i++)
      if (g_ascii_strcasecmp (field->choices[i].name, text) == 0)
        value->choice = i;
  }
  return value->choice >= 0 || refuse (field, text, error);
}

/* What was typed, with the unit that was meant when it named none: read later, in another style, it is the
 * same. */
static char *
with_unit (const TwField *field, const TwUnitStyle *style, const char *text, double number)
{
  TwUnitStyle other = style->inches ? TW_UNIT_STYLE_MM : TW_UNIT_STYLE_IN;
  double elsewhere;

  if (tw_units_parse (field->quantity, &other, text, &elsewhere, NULL) && elsewhere == number)
    return g_strdup (text);
  return g_strdup_printf ("%s %s", text, tw_units_name (field->quantity, style));
}

static gboolean
is_read_as (const TwField *field, const char *text, double number)
{
  double read;

  return strlen (text) <= TW_FIELD_LONGEST_TYPED
         && tw_units_parse (field->quantity, &TW_UNIT_STYLE_MM, text, &read, NULL) && read == number;
}

/* The same as a file can keep it: `1,250` with a decimal comma would be read in two ways there. NULL when it
 * cannot. */
static char *
as_kept (const TwField *field, char *typed, double number)
{
  if (!is_read_as (field, typed, number))
    g_strdelimit (typed, ",", '.');
  if (!is_read_as (field, typed, number))
    g_clear_pointer (&typed, g_free);
  return typed;
}

static gboolean
parse_figure (const TwField *field,
              const TwUnitStyle *style,
              const char *text,
              TwValue *value,
              GError **error)
{
  double number;

  if (!tw_units_parse (field->quantity, style, text, &number, error)) {
    g_prefix_error (error, "%s: ", field->name);
    return FALSE;
  }
  if (field->store == TW_FIELD_NUMBER) {
    if (number < field->low || number > field->high)
      return refuse_figure (field, style, text, error);
    value->number = number;
    value->typed = as_kept (field, with_unit (field, style, text, number), number);
    return TRUE;
  }
  if (number < field->low || number > field->high || number != floor (number))
    return refuse_figure (field, style, text, error);
  value->choice = (int)number;
  return TRUE;
}

gboolean
tw_value_parse (const TwField *field,
                const TwUnitStyle *style,
                const char *text,
                TwValue *value,
                GError **error)
{
  g_autofree char *stripped = g_strstrip (g_strdup (text));
  gboolean ok = TRUE;

  *value = tw_value_unknown (field->store);
  if (!g_utf8_validate (text, -1, NULL))
    return refuse (field, _ ("text that is not UTF-8"), error);
  if (stripped[0] == '\0' && field->store != TW_FIELD_TEXT)
    return tw_value_check (field, value, error);

  switch (field->store) {
  case TW_FIELD_NUMBER:
  case TW_FIELD_COUNT:
    ok = parse_figure (field, style, stripped, value, error);
    break;
  case TW_FIELD_CHOICE:
  case TW_FIELD_FLAG:
    ok = parse_choice (field, stripped, value, error);
    break;
  case TW_FIELD_TEXT:
    value->text = text[0] != '\0' ? g_strdup (text) : NULL;
    ok = tw_value_check (field, value, error);
    break;
  case TW_FIELD_REF:
    ok = tw_id_from_text (stripped, &value->ref) || refuse (field, stripped, error);
    break;
  }
  if (!ok)
    tw_value_clear (value);
  return ok;
}

static gboolean
check_number (const TwField *field, double number, GError **error)
{
  char found[G_ASCII_DTOSTR_BUF_SIZE];

  if (isnan (number) || (number >= field->low && number <= field->high))
    return TRUE;
  g_ascii_formatd (found, sizeof found, "%.15g", number);
  return refuse (field, found, error);
}

/* Control characters other than tab and newline would break sheets and files. */
static gboolean
check_text (const TwField *field, const char *text, GError **error)
{
  if (text == NULL)
    return TRUE;
  if (strlen (text) > (gsize)field->high)
    return refuse (field, _ ("a longer text"), error);
  for (const char *c = text; *c != '\0'; c++)
    if ((guchar)*c < 0x20 && *c != '\n' && *c != '\t')
      return refuse (field, _ ("a control character"), error);
  return TRUE;
}

gboolean
tw_value_check (const TwField *field, const TwValue *value, GError **error)
{
  int n = 0;

  g_return_val_if_fail (value->store == field->store, FALSE);
  switch (field->store) {
  case TW_FIELD_NUMBER:
    return check_number (field, value->number, error);
  case TW_FIELD_COUNT:
    return value->choice == -1 || check_number (field, value->choice, error);
  case TW_FIELD_CHOICE:
    while (field->choices[n].name != NULL)
      n++;
    return (value->choice >= -1 && value->choice < n) || refuse (field, _ ("another choice"), error);
  case TW_FIELD_FLAG:
    return (value->choice >= -1 && value->choice <= 1) || refuse (field, _ ("another value"), error);
  case TW_FIELD_TEXT:
    return check_text (field, value->text, error);
  case TW_FIELD_REF:
    return field->low < 1 || !tw_id_is_none (value->ref) || refuse (field, _ ("nothing"), error);
  }
  g_assert_not_reached ();
}

TwUnitStyle
tw_job_unit_style (const TwJob *job)
{
  const TwSettings *settings = tw_job_settings (job);
  TwUnitStyle style = settings->shown_in == TW_SHOWN_IN_INCH ? TW_UNIT_STYLE_IN : TW_UNIT_STYLE_MM;

  style.fractions = style.inches && settings->inch_figures != TW_INCH_DECIMALS;
  return style;
}
