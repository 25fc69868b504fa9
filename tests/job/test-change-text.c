/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A change as text and back: the same change, and everything that is wrong in a text said with its place.
 */
#include "job/change-text.h"
#include "job/read.h"
#include "job/write.h"
#include "support/make-job.h"

#include <math.h>
#include <string.h>

#define N_JOBS 40
#define N_CHANGES 20

static TwChange *
read_or_fail (const char *text)
{
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  TwChange *change = tw_change_read_text (text, strlen (text), troubles);

  for (guint i = 0; i < troubles->list->len; i++) {
    g_autofree char *line = tw_trouble_text (g_ptr_array_index (troubles->list, i));

    g_error ("%s\n%s", line, text);
  }
  g_assert_nonnull (change);
  return change;
}

static char *
applied (const TwChange *change, const TwJob *job)
{
  g_autoptr (TwJob) copy = tw_job_copy (job);
  g_autoptr (TwChange) inverse = NULL;
  g_autoptr (GError) error = NULL;

  if (!tw_change_apply (change, copy, &inverse, &error))
    return g_strdup (error->message);
  return tw_job_write_text (copy);
}

/* Written, read and written again: the same bytes. Applied: the same job. The inverse as well. */
static void
check_both_ways (const TwChange *change, const TwJob *job)
{
  g_autofree char *text = tw_change_write_text (change, job);
  g_autoptr (TwChange) back = read_or_fail (text);
  g_autofree char *again = tw_change_write_text (back, NULL), *one = applied (change, job),
                  *other = applied (back, job);

  g_assert_null (strchr (text, '\n'));
  g_assert_cmpstr (text, ==, again);
  g_assert_cmpstr (one, ==, other);
}

static void
test_random (void)
{
  for (guint32 seed = 0; seed < N_JOBS; seed++) {
    g_autoptr (TwJob) job = tw_random_job (seed);
    GRand *rng = g_rand_new_with_seed (seed + 77);

    for (guint i = 0; i < N_CHANGES; i++) {
      g_autoptr (TwChange) change = tw_random_change (job, rng);
      g_autoptr (TwChange) inverse = NULL;

      if (change == NULL)
        continue;
      check_both_ways (change, job);
      if (tw_change_apply (change, job, &inverse, NULL))
        check_both_ways (inverse, job);
    }
    g_rand_free (rng);
  }
}

/* Sums that are no short decimals, the smallest steps beside a figure, zero with its sign. */
static void
test_numbers_to_the_bit (void)
{
  const double figures[]
      = { 0.1 + 0.2, 1.0 / 3.0, -0.0, nextafter (12.7, 13), 4096.000000000001, 5e-324, 1e-17 };
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 20);
  TwId baffle = tw_make_baffle (job, "tank-1", 10);

  for (guint i = 0; i < G_N_ELEMENTS (figures); i++) {
    TwValue value = tw_value_number (figures[i]);
    g_autoptr (TwChange) change = tw_change_set (baffle, TW_ID_NONE, TW_BAFFLE_place_mm, &value);
    g_autofree char *text = tw_change_write_text (change, job);
    g_autoptr (TwChange) back = read_or_fail (text), inverse = NULL;
    double place_mm;

    g_assert_true (tw_change_apply (back, job, &inverse, NULL));
    place_mm = ((const TwBaffle *)tw_job_find (job, baffle))->place_mm;
    if (memcmp (&place_mm, &figures[i], sizeof place_mm) != 0)
      g_error ("%a became %a by %s", figures[i], place_mm, text);
  }
}

/* Each form as the header shows it, to the letter. */
static void
test_forms (void)
{
  static const char *const forms[] = {
    "{ \"set\": \"tank-1\", \"kind\": \"tank\", \"field\": \"wall_mm\", \"value\": 2.5, \"typed\": \"2.5 "
    "mm\" }",
    "{ \"set\": \"v-1\", \"element\": \"c-3\", \"kind\": \"corner\", \"field\": \"across_mm\", \"value\": "
    "null }",
    "{ \"set\": \"job\", \"kind\": \"settings\", \"field\": \"name\", \"value\": \"Merlin \\\"tail\\\"\\n2\" "
    "}",
    "{ \"add\": { \"id\": \"core-2\", \"face_width_mm\": 600, \"later\": [1, { \"a\": null }] }, \"kind\": "
    "\"core\", "
    "\"nth\": 1 }",
    "{ \"add\": {}, \"kind\": \"core\", \"nth\": -1 }",
    "{ \"add\": { \"id\": \"via-2\", \"x_mm\": 3 }, \"to\": \"hose-1\", \"kind\": \"hose\", \"list\": "
    "\"vias\", "
    "\"nth\": -1 }",
    "{ \"remove\": \"port-7\" }",
    "{ \"remove\": \"hose-1\", \"element\": \"via-2\" }",
    "{ \"reorder\": \"port-7\", \"nth\": 0 }",
    "{ \"group\": [], \"label\": \"Nothing\" }",
    "{ \"group\": [{ \"remove\": \"a\" }, { \"group\": [{ \"remove\": \"b\" }] }] }",
  };

  for (guint i = 0; i < G_N_ELEMENTS (forms); i++) {
    g_autoptr (TwChange) change = read_or_fail (forms[i]);
    g_autofree char *again = tw_change_write_text (change, NULL);

    g_assert_cmpstr (forms[i], ==, again);
  }
}

/* One trouble each: the text, and the place and what is accepted as the reader says them. */
static void
test_troubles (void)
{
  static const struct {
    const char *text, *where, *found;
  } cases[] = {
    { "", "line 1, column 1", "the end of the file" },
    { "[]", "the change", "a list" },
    { "{}", "the change", "an object" },
    { "{ \"sett\": \"a\" }", "the change", "an object" },
    { "{ \"remove\": \"job\" }", "remove", "\"job\"" },
    { "{ \"remove\": \"Port\" }", "remove", "\"Port\"" },
    { "{ \"remove\": \"a\", \"elment\": \"b\" }", "elment", "\"b\"" },
    { "{ \"remove\": \"a\", \"element\": 3 }", "element", "3" },
    { "{ \"reorder\": \"a\" }", "nth", "nothing" },
    { "{ \"reorder\": \"a\", \"nth\": -1 }", "nth", "-1" },
    { "{ \"reorder\": \"a\", \"nth\": 1.5 }", "nth", "1.5" },
    { "{ \"reorder\": \"a\", \"nth\": 1e10 }", "nth", "10000000000" },
    { "{ \"set\": \"a\", \"field\": \"wall_mm\", \"value\": 1 }", "kind", "nothing" },
    { "{ \"set\": \"a\", \"kind\": \"tanks\", \"field\": \"wall_mm\", \"value\": 1 }", "kind", "\"tanks\"" },
    { "{ \"set\": \"a\", \"kind\": \"via\", \"field\": \"x_mm\", \"value\": 1 }", "kind", "\"via\"" },
    { "{ \"set\": \"a\", \"element\": \"b\", \"kind\": \"tank\", \"field\": \"x\", \"value\": 1 }", "kind",
      "\"tank\"" },
    { "{ \"set\": \"a\", \"kind\": \"tank\", \"field\": \"wall\", \"value\": 1 }", "field", "\"wall\"" },
    { "{ \"set\": \"a\", \"kind\": \"tank\", \"field\": \"wall_mm\" }", "value", "nothing" },
    { "{ \"set\": \"a\", \"kind\": \"tank\", \"field\": \"wall_mm\", \"value\": \"2\" }", "value", "\"2\"" },
    { "{ \"set\": \"a\", \"kind\": \"tank\", \"field\": \"wall_mm\", \"value\": -2 }", "value", "-2" },
    { "{ \"set\": \"a\", \"kind\": \"tank\", \"field\": \"core\", \"value\": null }", "value", "null" },
    { "{ \"set\": \"a\", \"kind\": \"tank\", \"field\": \"wall_mm\", \"value\": 2, \"typed\": \"3 mm\" }",
      "typed", "\"3 mm\"" },
    { "{ \"set\": \"a\", \"kind\": \"tank\", \"field\": \"wall_mm\", \"value\": null, \"typed\": \"3 mm\" }",
      "typed", "\"3 mm\"" },
    { "{ \"add\": [], \"kind\": \"core\", \"nth\": 0 }", "add", "a list" },
    { "{ \"add\": {}, \"kind\": \"settings\", \"nth\": 0 }", "kind", "\"settings\"" },
    { "{ \"add\": {}, \"kind\": \"via\", \"nth\": 0 }", "kind", "\"via\"" },
    { "{ \"add\": { \"face_width_mm\": \"x\" }, \"kind\": \"core\", \"nth\": 0 }", "add.face_width_mm",
      "\"x\"" },
    { "{ \"add\": {}, \"to\": \"h\", \"kind\": \"hose\", \"list\": \"flaps\", \"nth\": 0 }", "list",
      "\"flaps\"" },
    { "{ \"group\": {} }", "group", "an object" },
    { "{ \"group\": [], \"label\": 1 }", "label", "1" },
    { "{ \"group\": [{ \"remove\": \"a\" }, { \"group\": [{}] }] }", "group[1].group[0]", "an object" },
    { "{ \"remove\": \"a\", \"remove\": \"b\" }", "remove", "a second member of this name" },
    { "{ \"remove\": \"a\" } x", "line 1, column 19", "\"x\"" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (TwTroubles) troubles = tw_troubles_new ();
    const TwTrouble *trouble;

    g_test_message ("%s", cases[i].text);
    g_assert_null (tw_change_read_text (cases[i].text, strlen (cases[i].text), troubles));
    g_assert_cmpuint (troubles->n, ==, 1);
    trouble = g_ptr_array_index (troubles->list, 0);
    g_assert_cmpstr (trouble->where, ==, cases[i].where);
    g_assert_cmpstr (trouble->found, ==, cases[i].found);
  }
}

static char *
nested (guint deep)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < deep; i++)
    g_string_append (text, "{ \"group\": [");
  for (guint i = 0; i < deep; i++)
    g_string_append (text, "] }");
  return g_string_free (text, FALSE);
}

static void
test_depth (void)
{
  g_autofree char *deepest = nested (TW_CHANGE_TEXT_DEEPEST), *deeper = nested (TW_CHANGE_TEXT_DEEPEST + 1);
  g_autoptr (TwChange) change = read_or_fail (deepest);
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();

  g_assert_null (tw_change_read_text (deeper, strlen (deeper), troubles));
  g_assert_cmpuint (troubles->n, ==, 1);
}

/* A text that was made for another kind of part is refused by the job, not taken for its own. */
static void
test_other_kind (void)
{
  static const char *const texts[] = {
    "{ \"set\": \"core-1\", \"kind\": \"tank\", \"field\": \"wall_mm\", \"value\": 2 }",
    "{ \"add\": { \"x_mm\": 1 }, \"to\": \"core-1\", \"kind\": \"hose\", \"list\": \"vias\", \"nth\": -1 }",
    "{ \"set\": \"nobody\", \"kind\": \"tank\", \"field\": \"wall_mm\", \"value\": 2 }",
  };
  g_autoptr (TwJob) job = tw_make_job (TW_TUBES_LEVEL, 20);
  g_autofree char *before = tw_job_write_text (job), *after = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++) {
    g_autoptr (TwChange) change = read_or_fail (texts[i]);
    g_autoptr (TwChange) inverse = NULL;
    g_autoptr (GError) error = NULL;

    g_assert_false (tw_change_apply (change, job, &inverse, &error));
    g_assert_true (error->domain == TW_ERROR);
  }
  after = tw_job_write_text (job);
  g_assert_cmpstr (before, ==, after);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job/change-text/random", test_random);
  g_test_add_func ("/job/change-text/numbers-to-the-bit", test_numbers_to_the_bit);
  g_test_add_func ("/job/change-text/forms", test_forms);
  g_test_add_func ("/job/change-text/troubles", test_troubles);
  g_test_add_func ("/job/change-text/depth", test_depth);
  g_test_add_func ("/job/change-text/other-kind", test_other_kind);
  return g_test_run ();
}
