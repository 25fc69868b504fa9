/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pictures of the cards of two samples, against lists that were looked at as pictures before they were kept.
 * Letters are measured by the fixed measure, so that no font has a say.
 */
#include "draw/picture.h"
#include "job/change.h"
#include "job/read.h"
#include "support/golden.h"

static const char *const cards[] = { "frontal", "coverage", "passes", "hoses", "fit" };

static void
test_sample (gconstpointer data)
{
  g_autofree char *file = g_strconcat (data, ".twjob", NULL);
  g_autofree char *name = g_strconcat (data, ".txt", NULL);
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "samples", file, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (TwCatalogue) catalogue = tw_catalogue_load (&error);
  g_autoptr (TwJob) job = tw_job_read_file (path, &error);
  g_autoptr (TwAnswer) answer = tw_answer_new (job, catalogue, NULL);
  g_autoptr (GString) text = g_string_new (NULL);
  TwLook look = tw_look_screen (TW_LOOK_LIGHT, FALSE);
  TwMeasure measure = tw_measure_fixed ();
  TwUnitStyle style = tw_job_unit_style (job);
  const TwPictureManner manner = { 292, &look, &measure, &style, NULL };

  g_assert_no_error (error);
  for (guint i = 0; i < G_N_ELEMENTS (cards); i++) {
    g_autoptr (TwInk) ink = tw_picture_draw (cards[i], answer, &manner);

    g_string_append_printf (text, "card %s\n", cards[i]);
    golden_append_ink (text, ink);
  }
  golden_assert ("draw", name, text->str);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/draw/picture-golden/merlin-tail", "merlin-tail", test_sample);
  g_test_add_data_func ("/draw/picture-golden/caravan-4", "caravan-4", test_sample);
  return g_test_run ();
}
