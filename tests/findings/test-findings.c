/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every check of the table: a drawing that it finds something in, and a near twin. What spoils it was thought
 * out by hand from the sizes of the drawing (findings/drawn.h); the arithmetic stands at each line.
 */
#include "findings/cases.h"
#include "findings/drawn.h"

#include <math.h>

static TwCatalogue *
load (void)
{
  g_autoptr (GError) error = NULL;
  TwCatalogue *catalogue = tw_catalogue_load (&error);

  g_assert_no_error (error);
  return catalogue;
}

static guint
count (const TwFindings *findings, const char *check)
{
  guint n = 0;

  for (guint i = 0; i < tw_findings_count (findings); i++)
    n += g_str_equal (tw_findings_get (findings, i)->check->id, check);
  return n;
}

static TwCheckState
state (const TwFindings *findings, const char *check)
{
  return tw_findings_state (findings, tw_check_place (tw_check_find (check)), NULL);
}

static void
test_fires (gconstpointer data)
{
  const FindingCase *c = data;
  g_autoptr (TwCatalogue) catalogue = load ();
  g_autoptr (TwAnswer) answer = drawn_answer (catalogue, c->fires);
  const TwFindings *findings = tw_answer_findings (answer);

  g_assert_nonnull (tw_check_find (c->check));
  g_assert_cmpuint (count (findings, c->check), >, 0);
  if (state (findings, c->check) != TW_CHECK_FOUND)
    g_assert_cmpint (state (findings, c->check), ==, TW_CHECK_UNMADE);
}

static void
test_twin (gconstpointer data)
{
  const FindingCase *c = data;
  g_autoptr (TwCatalogue) catalogue = load ();
  g_autoptr (TwAnswer) answer = drawn_answer (catalogue, c->twin);

  g_assert_cmpuint (count (tw_answer_findings (answer), c->check), ==, 0);
}

/* The ends that every finding keeps. */
static void
test_shape (gconstpointer data)
{
  const FindingCase *c = data;
  g_autoptr (TwCatalogue) catalogue = load ();
  g_autoptr (TwAnswer) answer = drawn_answer (catalogue, c->fires);
  const TwFindings *findings = tw_answer_findings (answer);
  TwSeverity last = TW_SEVERITY_STOP;

  for (guint i = 0; i < tw_findings_count (findings); i++) {
    const TwFinding *finding = tw_findings_get (findings, i);

    g_assert_cmpint (finding->check->severity, >=, last);
    last = finding->check->severity;
    g_assert_cmpuint (finding->n_parts, <=, TW_FINDING_PARTS);
    g_assert_cmpuint (finding->from, <=, finding->to);
    for (guint k = 0; k < finding->n_parts; k++)
      g_assert_nonnull (tw_drawing_find (tw_answer_drawing (answer), finding->parts[k]));
    if (finding->check->quantity != TW_QUANTITY_NONE)
      g_assert_true (isfinite (finding->measured));
    if (finding->check->beside != TW_QUANTITY_NONE)
      g_assert_true (isfinite (finding->beside));
    if (finding->check->source != NULL && strchr (finding->check->id, ':') == NULL)
      g_assert_true (isfinite (finding->limit) || g_str_equal (finding->check->id, "no-bleed"));
  }
}

static void
test_nothing_wrong (void)
{
  g_autoptr (TwCatalogue) catalogue = load ();
  g_autoptr (TwAnswer) answer = drawn_answer (catalogue, "");
  const TwFindings *findings = tw_answer_findings (answer);

  for (guint i = 0; i < tw_findings_count (findings); i++)
    g_test_message ("%s %s", tw_findings_get (findings, i)->check->id,
                    tw_findings_get (findings, i)->parts[0].text);
  g_assert_cmpuint (tw_findings_count (findings), ==, 0);
  g_assert_cmpuint (tw_findings_count_state (findings, TW_CHECK_CLEAR), ==, tw_check_count ());
}

/* A check whose room has not spoken waits: it never reads as nothing found. */
static void
test_waiting (void)
{
  g_autoptr (TwCatalogue) catalogue = load ();
  g_autoptr (TwAnswer) answer = drawn_answer (catalogue, "");
  TwKnown known = { .drawing = tw_answer_drawing (answer), .tubes = tw_answer_tubes (answer) };
  g_autoptr (TwFindings) findings = tw_findings_make (&known);

  for (guint i = 0; i < tw_check_count (); i++) {
    gboolean can = (tw_check_get (i)->needs & ~TW_ROOM_TUBES) == 0;

    g_assert_cmpint (tw_findings_state (findings, i, NULL) == TW_CHECK_WAITING, ==, !can);
  }
  g_assert_cmpuint (count (findings, "not-all-checked"), ==, 1);
}

/* What a drawing does not say is a reason, and a check that it stops says so. */
static void
test_reasons (void)
{
  static const struct {
    const char *orders, *check;
  } cases[] = {
    { "job flow_l_min", "water-fast" },
    { "hose 30 " OVER, "hose-bend-tight" },
    { "engine_port-1 leaves", "hose-off-axis" },
    { "remove volume-1", "out-of-bay" },
  };
  g_autoptr (TwCatalogue) catalogue = load ();

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (TwAnswer) answer = drawn_answer (catalogue, cases[i].orders);
    const char *why;

    g_assert_cmpint (tw_findings_state (tw_answer_findings (answer),
                                        tw_check_place (tw_check_find (cases[i].check)), &why),
                     ==, TW_CHECK_UNMADE);
    g_assert_nonnull (why);
  }
}

/* A check without a case is not proved. No drawing was found for which the polygon library refuses shadows,
 * or the discs and boxes of fans and shrouds. */
static void
test_all_have_cases (void)
{
  for (guint i = 0; i < tw_check_count (); i++) {
    const char *id = tw_check_get (i)->id;
    gboolean has = g_str_has_suffix (id, "-doubtful");

    for (guint k = 0; k < G_N_ELEMENTS (finding_cases) && !has; k++)
      has = g_str_equal (finding_cases[k].check, id);
    if (!has)
      g_error ("no case for the check %s", id);
    g_assert_true (tw_check_find (id) == tw_check_get (i)); /* an id is given once */
  }
}

/* Figures that the case tables leave unsaid, worked by hand. */
static void
test_figures (void)
{
  static const struct {
    const char *check, *orders;
    double measured, limit, within;
  } cases[] = {
    { "hose-straight-short", "hose 40 " OVER, 20, 25, 1e-9 },       /* 100 − 2 × 40 */
    { "hose-no-fit", "hose 60 " OVER, 20, NAN, 1e-9 },              /* 2 × 60 − 100 */
    { "hose-off-axis", "engine_port-1 y_mm 110", 1.2787, 1, 5e-5 }, /* atan (10 ÷ 448) */
    { "land-small", "baffle-1 place_mm 2.5", 0.5, 1, 1e-9 },        /* 4 − 3.5 */
    { "tank-too-long", "tank-2 end_mm 156", 1, NAN, 1e-9 },         /* 156 − 155 */
    { "clearance-small", "box structure 257 -20 0 300 20 40", 5, 10, 1e-6 },
    { "bay-near", "core-1 x_mm 240", 8, 10, 1e-6 }, /* 500 − 492 */
    { "uneven-passes", "baffle-1 place_mm -40", 19.0 / 11, 1.5, 1e-9 },
    { "water-fast", "job flow_l_min 150", 3.0447, 2.5, 5e-5 }, /* 2.5e6 mm³/s ÷ 15 ÷ 54.7394 mm² */
  };
  g_autoptr (TwCatalogue) catalogue = load ();

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (TwAnswer) answer = drawn_answer (catalogue, cases[i].orders);
    const TwFindings *findings = tw_answer_findings (answer);
    guint nth = 0;

    while (!g_str_equal (tw_findings_get (findings, nth)->check->id, cases[i].check))
      nth++;
    g_assert_cmpfloat_with_epsilon (tw_findings_get (findings, nth)->measured, cases[i].measured,
                                    cases[i].within);
    if (isnan (cases[i].limit))
      g_assert_true (isnan (tw_findings_get (findings, nth)->limit));
    else
      g_assert_cmpfloat (tw_findings_get (findings, nth)->limit, ==, cases[i].limit);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/findings/nothing-wrong", test_nothing_wrong);
  g_test_add_func ("/findings/all-have-cases", test_all_have_cases);
  g_test_add_func ("/findings/waiting", test_waiting);
  g_test_add_func ("/findings/reasons", test_reasons);
  g_test_add_func ("/findings/figures", test_figures);
  for (guint i = 0; i < G_N_ELEMENTS (finding_cases); i++) {
    g_autofree char *fires = g_strdup_printf ("/findings/%s/fires", finding_cases[i].check);
    g_autofree char *twin = g_strdup_printf ("/findings/%s/twin", finding_cases[i].check);
    g_autofree char *shape = g_strdup_printf ("/findings/%s/shape", finding_cases[i].check);

    g_test_add_data_func (fires, &finding_cases[i], test_fires);
    g_test_add_data_func (twin, &finding_cases[i], test_twin);
    g_test_add_data_func (shape, &finding_cases[i], test_shape);
  }
  return g_test_run ();
}
