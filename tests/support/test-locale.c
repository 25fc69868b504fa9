/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The comma run is one: the C library writes a comma there, and what goes through g_ascii_*() still a point.
 */
#include <glib.h>
#include <locale.h>
#include <stdio.h>

static void
test_decimal_sign (void)
{
  char local[16], ascii[G_ASCII_DTOSTR_BUF_SIZE];
  const char *sign = g_getenv ("TW_COMMA") != NULL ? "," : localeconv ()->decimal_point;
  g_autofree char *expected = g_strconcat ("24", sign, "5", NULL);

  snprintf (local, sizeof local, "%.1f", 24.5);
  g_assert_cmpstr (local, ==, expected);
  g_assert_cmpstr (g_ascii_formatd (ascii, sizeof ascii, "%.1f", 24.5), ==, "24.5");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/locale/decimal-sign", test_decimal_sign);
  return g_test_run ();
}
