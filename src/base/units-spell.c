/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the typesetter and the keyboard make of a figure, as plain ASCII: fractions, primes, quotes, minus
 * signs, raised digits, degree signs and the spaces that part thousands.
 */
#include "base/units-private.h"

static const struct {
  gunichar sign;
  const char *plain;
} spelled[] = {
  { 0x00bd, " 1/2" }, { 0x00bc, " 1/4" }, { 0x00be, " 3/4" }, { 0x2153, " 1/3" }, { 0x2154, " 2/3" },
  { 0x215b, " 1/8" }, { 0x215c, " 3/8" }, { 0x215d, " 5/8" }, { 0x215e, " 7/8" }, { 0x2044, "/" },
  { 0x2215, "/" },    { 0x2212, "-" },    { 0x00b2, "^2" },   { 0x00b3, "^3" },   { 0x00b0, "deg" },
  { 0x00ba, "deg" },  { 0x2103, "degc" }, { 0x2109, "degf" }, { 0x2033, "\"" },   { 0x201c, "\"" },
  { 0x201d, "\"" },   { 0x2032, "'" },    { 0x2018, "'" },    { 0x2019, "'" },    { 0x0009, " " },
  { 0x00a0, " " },    { 0x2007, " " },    { 0x2009, " " },    { 0x202f, " " },
};

/* Whether @next, behind a typesetter's space, is a group of three digits and no more, nor a numerator. */
static gboolean
is_thousands (const char *next)
{
  guint n = 0;
  gunichar after;

  while (g_ascii_isdigit (next[n]))
    n++;
  after = g_utf8_get_char (next + n);
  return n == 3 && after != '/' && after != 0x2044 && after != 0x2215;
}

static const char *
spelling_of (gunichar sign)
{
  for (guint i = 0; i < G_N_ELEMENTS (spelled); i++)
    if (spelled[i].sign == sign)
      return spelled[i].plain;
  return NULL;
}

char *
tw_units_spell_out (const char *text)
{
  GString *out = g_string_new (NULL);

  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at)) {
    gunichar sign = g_utf8_get_char (at);
    const char *plain = spelling_of (sign);
    char last = out->len > 0 ? out->str[out->len - 1] : '\0';

    if (plain != NULL && *plain == ' ' && plain[1] == '\0') {
      if (sign < 0x80 || !g_ascii_isdigit (last) || !is_thousands (g_utf8_next_char (at)))
        g_string_append_c (out, ' ');
    } else if (plain != NULL) {
      g_string_append (out, plain);
    } else {
      g_string_append_c (out, sign >= 0x20 && sign < 0x7f ? g_ascii_tolower ((char)sign) : '?');
    }
    if (g_str_has_suffix (out->str, "''"))
      g_string_append_c (g_string_truncate (out, out->len - 2), '"');
  }
  return g_strstrip (g_string_free (out, FALSE));
}
