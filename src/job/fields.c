/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/fields.h"

#include "base/error.h"
#include "job/parts.h"

#include <math.h>
#include <string.h>

/* clang-format off */
#define TW_CHOICES(list) const TwChoice tw_choices_##list[] = {
#define TW_CHOICE(symbol, name, label) { name, label },
#define TW_CHOICES_END { NULL, NULL } };
#include "job/choices.inc"

static const TwChoice tw_refs_core[] = { { "cores", NULL }, { NULL, NULL } };
static const TwChoice tw_refs_tank[] = { { "tanks", NULL }, { NULL, NULL } };
static const TwChoice tw_refs_hose_end[] = { { "ports", NULL }, { "engine_ports", NULL }, { NULL, NULL } };

#define STORE_NONE TW_FIELD_NUMBER, TW_QUANTITY_NONE
#define STORE_SHARE TW_FIELD_NUMBER, TW_QUANTITY_SHARE
#define STORE_LENGTH TW_FIELD_NUMBER, TW_QUANTITY_LENGTH
#define STORE_DIAMETER TW_FIELD_NUMBER, TW_QUANTITY_DIAMETER
#define STORE_VOLUME TW_FIELD_NUMBER, TW_QUANTITY_VOLUME
#define STORE_ANGLE TW_FIELD_NUMBER, TW_QUANTITY_ANGLE
#define STORE_WATER_FLOW TW_FIELD_NUMBER, TW_QUANTITY_WATER_FLOW
#define STORE_AIR_FLOW TW_FIELD_NUMBER, TW_QUANTITY_AIR_FLOW
#define STORE_PRESSURE TW_FIELD_NUMBER, TW_QUANTITY_PRESSURE
#define STORE_AIR_PRESSURE TW_FIELD_NUMBER, TW_QUANTITY_AIR_PRESSURE
#define STORE_POWER TW_FIELD_NUMBER, TW_QUANTITY_POWER
#define STORE_VOLTAGE TW_FIELD_NUMBER, TW_QUANTITY_VOLTAGE
#define STORE_CURRENT TW_FIELD_NUMBER, TW_QUANTITY_CURRENT
#define STORE_COUNT TW_FIELD_COUNT, TW_QUANTITY_COUNT
#define STORE_CHOICE TW_FIELD_CHOICE, TW_QUANTITY_NONE
#define STORE_FLAG TW_FIELD_FLAG, TW_QUANTITY_NONE
#define STORE_TEXT TW_FIELD_TEXT, TW_QUANTITY_NONE
#define STORE_REF TW_FIELD_REF, TW_QUANTITY_NONE

#define TABLE(what) G_PASTE (what, TW_SYMBOL)
#define TW_PART_BEGIN static const TwField TABLE (fields_)[] = {
#define TW_PART_END };
#define TW_FIELD(kind, name, label, low, high, choices, hint) \
  { STORE_##kind, #name, label, hint, G_STRUCT_OFFSET (TW_STRUCT, name), low, high, choices },
#define TW_LIST(element, name, label, fewest, most)
#include "job/all-fields.inc"

#define TW_PART_BEGIN static const TwList TABLE (lists_)[] = {
#define TW_PART_END };
#define TW_FIELD(kind, name, label, low, high, choices, hint)
#define TW_LIST(element, name, label, fewest, most) \
  { TW_KIND_##element, #name, label, G_STRUCT_OFFSET (TW_STRUCT, name), fewest, most },
#include "job/all-fields.inc"

static const TwKindInfo kinds[] = {
#define TW_KIND(symbol, type, stem, member, noun) \
  { TW_KIND_##symbol, member, #stem, noun, sizeof (type), fields_##symbol, G_N_ELEMENTS (fields_##symbol), \
    lists_##symbol, G_N_ELEMENTS (lists_##symbol) },
#include "job/kinds.inc"
};
/* clang-format on */

const TwKindInfo *
tw_kind_info (TwKind kind)
{
  g_return_val_if_fail (kind < TW_N_KINDS, NULL);
  return &kinds[kind];
}

TwKind
tw_kind_from_member (const char *member)
{
  for (guint i = 0; i < TW_N_KINDS; i++)
    if (g_str_equal (kinds[i].member, member) || g_str_equal (kinds[i].stem, member))
      return kinds[i].kind;
  return TW_N_KINDS;
}

int
tw_kind_field (TwKind kind, const char *name)
{
  for (guint i = 0; i < kinds[kind].n_fields; i++)
    if (g_str_equal (kinds[kind].fields[i].name, name))
      return (int)i;
  return -1;
}

int
tw_kind_list (TwKind kind, const char *name)
{
  for (guint i = 0; i < kinds[kind].n_lists; i++)
    if (g_str_equal (kinds[kind].lists[i].name, name))
      return (int)i;
  return -1;
}

gboolean
tw_field_may_refer (const TwField *field, TwKind target)
{
  g_return_val_if_fail (field->store == TW_FIELD_REF, FALSE);
  for (const TwChoice *c = field->choices; c->name != NULL; c++)
    if (g_str_equal (c->name, kinds[target].member))
      return TRUE;
  return FALSE;
}

/* Endings of the names of figures, which the typed text does without since it names its own unit. */
static const char *const endings[]
    = { "_mm", "_deg", "_l_min", "_m3_s", "_pa", "_kpa", "_l", "_kw", "_v", "_a" };

char *
tw_field_typed_name (const TwField *field)
{
  if (field->store != TW_FIELD_NUMBER)
    return NULL;
  for (guint i = 0; i < G_N_ELEMENTS (endings); i++)
    if (g_str_has_suffix (field->name, endings[i]))
      return g_strdup_printf ("%.*s_typed", (int)(strlen (field->name) - strlen (endings[i])), field->name);
  return g_strdup_printf ("%s_typed", field->name);
}

gboolean
tw_field_is_typed_name (const TwField *field, const char *name)
{
  gsize stem = 0;

  if (field->store != TW_FIELD_NUMBER || !g_str_has_suffix (name, "_typed"))
    return FALSE;
  stem = strlen (name) - strlen ("_typed");
  if (strncmp (name, field->name, stem) != 0)
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (endings); i++)
    if (g_str_has_suffix (field->name, endings[i]))
      return strlen (field->name) - strlen (endings[i]) == stem;
  return field->name[stem] == '\0';
}

static char *
join_choices (const TwField *field)
{
  GString *text = g_string_new (NULL);

  for (const TwChoice *c = field->choices; c->name != NULL; c++)
    g_string_append_printf (text, "%s\"%s\"", text->len ? ", " : "", c->name);
  return g_string_free (text, FALSE);
}

/* Words for a figure of each quantity; the two places are the smallest and the largest that is accepted. */
static const char *const ranges[TW_N_QUANTITIES] = {
  [TW_QUANTITY_NONE] = N_ ("a number of %s to %s"),
  [TW_QUANTITY_COUNT] = N_ ("a whole number of %s to %s"),
  [TW_QUANTITY_SHARE] = N_ ("a share of %s to %s"),
  [TW_QUANTITY_LENGTH] = N_ ("a length of %s to %s mm"),
  [TW_QUANTITY_DIAMETER] = N_ ("a diameter of %s to %s mm"),
  [TW_QUANTITY_AREA] = N_ ("an area of %s to %s mm²"),
  [TW_QUANTITY_VOLUME] = N_ ("a volume of %s to %s L"),
  [TW_QUANTITY_ANGLE] = N_ ("an angle of %s to %s degrees"),
  [TW_QUANTITY_SPEED] = N_ ("a speed of %s to %s m/s"),
  [TW_QUANTITY_WATER_FLOW] = N_ ("a water flow of %s to %s L/min"),
  [TW_QUANTITY_AIR_FLOW] = N_ ("an air flow of %s to %s m³/s"),
  [TW_QUANTITY_PRESSURE] = N_ ("a pressure of %s to %s kPa"),
  [TW_QUANTITY_AIR_PRESSURE] = N_ ("a pressure of %s to %s Pa"),
  [TW_QUANTITY_TEMPERATURE] = N_ ("a temperature of %s to %s °C"),
  [TW_QUANTITY_POWER] = N_ ("a power of %s to %s kW"),
  [TW_QUANTITY_MASS] = N_ ("a mass of %s to %s kg"),
  [TW_QUANTITY_TIME] = N_ ("a time of %s to %s s"),
  [TW_QUANTITY_VOLTAGE] = N_ ("a voltage of %s to %s V"),
  [TW_QUANTITY_CURRENT] = N_ ("a current of %s to %s A"),
};

char *
tw_field_accepts (const TwField *field)
{
  char low[G_ASCII_DTOSTR_BUF_SIZE], high[G_ASCII_DTOSTR_BUF_SIZE];
  g_autofree char *names = NULL;

  switch (field->store) {
  case TW_FIELD_CHOICE:
    names = join_choices (field);
    return g_strdup_printf (_ ("one of %s"), names);
  case TW_FIELD_REF:
    names = join_choices (field);
    return g_strdup_printf (_ ("the id of a part in %s"), names);
  case TW_FIELD_FLAG:
    return g_strdup (_ ("true or false"));
  case TW_FIELD_TEXT:
    return g_strdup_printf (_ ("text of at most %d bytes without control characters"), (int)field->high);
  case TW_FIELD_NUMBER:
  case TW_FIELD_COUNT:
    break;
  }
  g_ascii_formatd (low, sizeof low, "%.15g", field->low);
  g_ascii_formatd (high, sizeof high, "%.15g", field->high);
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
  return g_strdup_printf (_ (ranges[field->quantity]), low, high);
#pragma GCC diagnostic pop
}

/* Steps of @style's ruler inwards from an end of the range; 3 decimals where the ruler is too coarse. */
static char *
inch_text (double end_mm, double (*inwards) (double), const TwUnitStyle *style)
{
  const double step_mm = style->fractions ? 25.4 / 64 : 25.4 / 1000;

  return tw_units_format_number (TW_QUANTITY_LENGTH, style, inwards (end_mm / step_mm) * step_mm, 3);
}

char *
tw_field_accepts_shown (const TwField *field, const TwUnitStyle *style)
{
  gboolean length = field->quantity == TW_QUANTITY_LENGTH || field->quantity == TW_QUANTITY_DIAMETER;
  TwUnitStyle inches = *style;
  g_autofree char *low = NULL, *high = NULL;

  if (!length || !style->inches)
    return tw_field_accepts (field);
  inches.fractions = style->fractions && (field->low <= 0 || field->low > 25.4 / 64);
  low = inch_text (field->low, ceil, &inches);
  high = inch_text (field->high, floor, &inches);
  if (field->quantity == TW_QUANTITY_DIAMETER)
    return g_strdup_printf (_ ("a diameter of %s to %s in"), low, high);
  return g_strdup_printf (_ ("a length of %s to %s in"), low, high);
}
