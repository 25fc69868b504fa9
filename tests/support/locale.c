/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * locale.c - every test runs in the locale of its environment
 *
 * Linked into each test. A program that never calls setlocale() stays in "C", and one whose locale is not
 * installed falls back to it in silence: a run under a comma locale would then prove nothing. With TW_COMMA
 * set the decimal sign must really be a comma.
 */
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void __attribute__ ((constructor)) take_locale (void)
{
  setlocale (LC_ALL, "");
  if (getenv ("TW_COMMA") != NULL && strcmp (localeconv ()->decimal_point, ",") != 0) {
    fprintf (stderr, "TW_COMMA is set, but the decimal sign of the locale is \"%s\"\n",
             localeconv ()->decimal_point);
    abort ();
  }
}
