/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The second half of the proof on random jobs (the first is in test-sheets.c): two programs run beside each
 * other.
 */
#include "sheets/desk.h"

static void
test_random (void)
{
  desk_prove_random (251);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheets/proof/random-second-half", test_random);
  return g_test_run ();
}
