/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/measure.h"

#include <string.h>

static double
fixed_width (gconstpointer data, const char *text, double height)
{
  return 0.75 * height * g_utf8_strlen (text, -1);
}

TwMeasure
tw_measure_fixed (void)
{
  return (TwMeasure){ .width = fixed_width };
}

double
tw_measure_width (const TwMeasure *self, const char *text, double height)
{
  return self->width (self->data, text, height);
}

double
tw_measure_down (const char *text)
{
  double down = 0;

  for (const char *c = text; *c != '\0'; c = g_utf8_next_char (c)) {
    gunichar sign = g_utf8_get_char (c);

    if (sign == ',' || sign == ';')
      down = MAX (down, 0.2);
    else if (sign < 128 ? strchr ("gjpqyQ()[]{}/\\|_$@&", (int)sign) != NULL : g_unichar_isalpha (sign))
      return 0.35;
  }
  return down;
}

/* Accents stand on capitals. */
static double
rise (const char *text)
{
  for (const char *c = text; *c != '\0'; c = g_utf8_next_char (c))
    if (g_utf8_get_char (c) >= 128 && g_unichar_isalpha (g_utf8_get_char (c)))
      return 1.3;
  return 1.0;
}

TwBox
tw_measure_box (const TwMeasure *self, const TwLook *look, const TwInkPlace *place, const char *text)
{
  double height = look->heights[place->size];
  double width = tw_measure_width (self, text, height);
  double along0 = place->across == TW_INK_LEFT ? 0 : place->across == TW_INK_CENTRE ? -width / 2 : -width;
  double base = place->up == TW_INK_BASELINE ? 0 : place->up == TW_INK_MIDDLE ? -height / 2 : -height;
  double low = base - tw_measure_down (text) * height, high = base + rise (text) * height;
  double x = place->at.x_mm, y = place->at.y_mm;

  if (place->upright)
    return (TwBox){ x - high, y + along0, x - low, y + along0 + width };
  return (TwBox){ x + along0, y + low, x + along0 + width, y + high };
}

char *
tw_measure_fit (const TwMeasure *self, const char *text, double height, double width)
{
  glong n = g_utf8_strlen (text, -1);

  if (tw_measure_width (self, text, height) <= width)
    return g_strdup (text);
  while (--n > 0) {
    g_autofree char *start = g_utf8_substring (text, 0, n);
    g_autofree char *cut = g_strconcat (g_strchomp (start), "…", NULL);

    if (tw_measure_width (self, cut, height) <= width)
      return g_steal_pointer (&cut);
  }
  return g_strdup ("…");
}
