/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every check has its words, and every finding of the cases of tests/findings reads as a sentence.
 */
#include "cards/cards.h"
#include "cards/words.h"
#include "findings/cases.h"
#include "findings/drawn.h"

static void
test_every_check (void)
{
  for (guint i = 0; i < tw_check_count (); i++) {
    const TwCheck *check = tw_check_get (i);

    g_test_message ("%s", check->id);
    g_assert_cmpuint (strlen (tw_check_subject (check)), >, 0);
    g_assert_true (g_str_has_suffix (tw_check_remedy (check), "."));
  }
}

static void
test_sentences (gconstpointer data)
{
  const FindingCase *c = data;
  const TwUnitStyle style = TW_UNIT_STYLE_MM;
  g_autoptr (GError) error = NULL;
  g_autoptr (TwCatalogue) catalogue = tw_catalogue_load (&error);
  g_autoptr (TwAnswer) answer = drawn_answer (catalogue, c->fires);
  const TwFindings *findings = tw_answer_findings (answer);

  for (guint i = 0; i < tw_findings_count (findings); i++) {
    g_autofree char *text
        = tw_finding_text (tw_findings_get (findings, i), tw_answer_drawing (answer), &style);

    g_test_message ("%s", text);
    g_assert_true (g_utf8_validate (text, -1, NULL));
    g_assert_true (g_str_has_suffix (text, "."));
    g_assert_null (strpbrk (text, "{}"));
    g_assert_null (strstr (text, "–"));      /* a figure or a name that is not there */
    g_assert_null (strstr (text, "tube 0")); /* a place that is not said */
  }
}

static void
test_severities (void)
{
  g_assert_cmpstr (tw_severity_word (TW_SEVERITY_STOP), ==, "Stop");
  g_assert_cmpstr (tw_severity_word (TW_SEVERITY_WARN), ==, "Warning");
  g_assert_cmpstr (tw_severity_word (TW_SEVERITY_NOTE), ==, "Note");
  g_assert_cmpstr (tw_severity_id (TW_SEVERITY_WARN), ==, "warn");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cards/words/every-check", test_every_check);
  g_test_add_func ("/cards/words/severities", test_severities);
  for (guint i = 0; i < G_N_ELEMENTS (finding_cases); i++) {
    g_autofree char *path = g_strdup_printf ("/cards/words/%s", finding_cases[i].check);

    g_test_add_data_func (path, &finding_cases[i], test_sentences);
  }
  return g_test_run ();
}
