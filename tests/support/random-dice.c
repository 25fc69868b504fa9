/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/random-private.h"

#include <math.h>
#include <string.h>

#define INCH_MM 25.4

gboolean
tw_throw_chance (TwThrow *self, double share)
{
  return g_rand_double (self->rng) < share;
}

int
tw_throw_int (TwThrow *self, int low, int high)
{
  return g_rand_int_range (self->rng, low, high + 1);
}

double
tw_throw_double (TwThrow *self, double low, double high)
{
  return low + g_rand_double (self->rng) * (high - low);
}

double
tw_throw_length (TwThrow *self, double low_mm, double high_mm)
{
  double value_mm = tw_throw_double (self, low_mm, high_mm);
  double step_mm = self->inches ? INCH_MM / 64 : tw_throw_chance (self, 0.6) ? 0.5 : 0.1;

  if (!self->inches && tw_throw_chance (self, 0.15))
    return value_mm;
  return CLAMP (round (value_mm / step_mm) * step_mm, low_mm, high_mm);
}

void
tw_throw_put (TwThrow *self, gpointer part, guint field, double value_mm)
{
  const TwField *info = &tw_kind_info (((TwPart *)part)->kind)->fields[field];
  TwValue value = tw_value_number (CLAMP (value_mm, info->low, info->high));
  gboolean in = self->inches ? tw_throw_chance (self, 0.8) : tw_throw_chance (self, 0.02);

  if (in || tw_throw_chance (self, 0.1)) {
    g_autofree char *figure = tw_number_text (in ? value.number / INCH_MM : value.number);

    value.typed = g_strdup_printf ("%s %s", figure, in ? "in" : "mm");
  }
  tw_part_put (part, field, &value);
}

void
tw_throw_maybe (TwThrow *self, gpointer part, guint field, const double range_mm[2], double share)
{
  if (tw_throw_chance (self, share))
    tw_throw_put (self, part, field, tw_throw_length (self, range_mm[0], range_mm[1]));
}

char *
tw_throw_name (TwThrow *self, const char *noun)
{
  static const char *const sides[] = { "Left", "Right", "Upper", "Lower", "Old", "Spare", "Second", "Main" };
  static const char *const scripts[]
      = { "Kühler hinten, zweiter von oben",   "Радиатор",      "冷却器 ", "“quoted” \\ and \t tabbed",
          "very long name that does not end ", "½ × ¾ ø − – ‑ " };
  GString *name = g_string_new (NULL);
  guint most = tw_throw_chance (self, 0.08) ? 100 : 20;

  if (most == 20) {
    g_string_printf (name, "%s %s", sides[tw_throw_int (self, 0, G_N_ELEMENTS (sides) - 1)], noun);
    return g_string_free (name, FALSE);
  }
  while (TRUE) {
    const char *more = scripts[tw_throw_int (self, 0, G_N_ELEMENTS (scripts) - 1)];

    if (name->len + strlen (more) > most)
      return g_string_free (name, FALSE);
    g_string_append (name, more);
  }
}

static cJSON *
throw_value (TwThrow *self, guint deep)
{
  cJSON *value;
  g_autofree char *name = NULL;

  switch (tw_throw_int (self, 0, deep > 3 ? 4 : 6)) {
  case 0:
    return cJSON_CreateNull ();
  case 1:
    return cJSON_CreateBool (tw_throw_chance (self, 0.5));
  case 2:
    return cJSON_CreateNumber (tw_throw_int (self, -1000, 1000));
  case 3:
    return cJSON_CreateNumber (ldexp (tw_throw_double (self, -1, 1), tw_throw_int (self, -200, 200)));
  case 4:
    name = tw_throw_name (self, "note");
    return cJSON_CreateString (name);
  case 5:
    value = cJSON_CreateArray ();
    for (int i = tw_throw_int (self, 0, 4); i > 0; i--)
      cJSON_AddItemToArray (value, throw_value (self, deep + 1));
    return value;
  default:
    value = cJSON_CreateObject ();
    for (int i = tw_throw_int (self, 0, 4); i > 0; i--) {
      g_autofree char *key = g_strdup_printf ("key_%d", i);

      cJSON_AddItemToObject (value, key, throw_value (self, deep + 1));
    }
    return value;
  }
}

cJSON *
tw_throw_extra (TwThrow *self, double share)
{
  static const char *const names[] = { "x-colour", "fouling_share", "later", "", "ключ", "variant of" };
  cJSON *extra;

  if (!tw_throw_chance (self, share))
    return NULL;
  extra = cJSON_CreateObject ();
  for (int i = tw_throw_int (self, 0, G_N_ELEMENTS (names) - 1); i >= 0; i -= 2)
    cJSON_AddItemToObject (extra, names[i], throw_value (self, 0));
  return extra;
}

gpointer
tw_throw_element (gpointer part, GPtrArray *list, TwKind kind)
{
  TwPart *element = NULL;

  for (guint n = 1; element == NULL; n++) {
    g_autofree char *text = g_strdup_printf ("%s-%u", tw_kind_info (kind)->stem, n);
    TwId id;

    if (!tw_id_from_text (text, &id))
      g_error ("\"%s\" is no id", text);
    if (tw_part_element (part, id, NULL) == NULL)
      element = tw_part_new (kind, id);
  }
  g_ptr_array_add (list, element);
  return element;
}
