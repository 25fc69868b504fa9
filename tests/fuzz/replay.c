/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * replay FOLDER...: a fuzz target as an ordinary test, with any compiler. Every file of the folders goes
 * through it whole, cut short at some places, and with some bytes changed, always the same ones.
 */
#include <glib.h>
#include <stdint.h>
#include <string.h>

#define N_SPOILT 20

int LLVMFuzzerTestOneInput (const uint8_t *bytes, size_t length);

static void
test_file (gconstpointer path)
{
  g_autofree char *text = NULL;
  GRand *rng = g_rand_new_with_seed (20);
  gsize length;

  g_assert_true (g_file_get_contents (path, &text, &length, NULL));
  LLVMFuzzerTestOneInput ((const uint8_t *)text, length);
  for (guint i = 0; length > 0 && i < N_SPOILT; i++) {
    gsize cut = (gsize)(g_rand_double (rng) * (double)length);
    g_autofree uint8_t *spoilt = g_malloc (MAX (1, cut));

    /* A copy of just that length: a read beyond its end is seen. */
    memcpy (spoilt, text, cut);
    LLVMFuzzerTestOneInput (spoilt, cut);
  }
  for (guint i = 0; length > 0 && i < N_SPOILT; i++) {
    g_autofree uint8_t *spoilt = g_memdup2 (text, length);

    for (guint k = 0; k < 3; k++)
      spoilt[(gsize)(g_rand_double (rng) * (double)length)] = (uint8_t)g_rand_int_range (rng, 0, 256);
    LLVMFuzzerTestOneInput (spoilt, length);
  }
  g_rand_free (rng);
}

static guint
add_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  g_assert_nonnull (dir);
  for (; (name = g_dir_read_name (dir)) != NULL; n++) {
    g_autofree char *test = g_strdup_printf ("/fuzz/%s", name);

    g_test_add_data_func_full (test, g_build_filename (folder, name, NULL), test_file, g_free);
  }
  return n;
}

int
main (int argc, char *argv[])
{
  guint n = 0;

  g_test_init (&argc, &argv, NULL);
  for (int i = 1; i < argc; i++)
    n += add_folder (argv[i]);
  g_assert_cmpuint (n, >, 0);
  return g_test_run ();
}
