/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-drags.c - what holds of every grip of every job: letting go and undoing, or cancelling, leaves the job
 * as it was, byte for byte; a movement does something or says why not
 */
#include "stage/laid.h"

#include "stage/add.h"
#include "stage/arrange.h"
#include "stage/gauge.h"

#include <math.h>

#define RANDOM_JOBS 12

static char *
text_of (const Laid *laid)
{
  return tw_job_write_text (laid->job);
}

/* Ways from the press, mm of the view: along and against what the grip does first, and far beyond. */
static TwPoint
way_of (const TwGrip *grip, double by_mm)
{
  return (TwPoint){ grip->at.x_mm + by_mm * grip->ways[0].x_mm, grip->at.y_mm + by_mm * grip->ways[0].y_mm };
}

static void
check_figures (const TwHand *hand, const Laid *laid)
{
  guint n;
  const TwHandFigure *figures = tw_hand_figures (hand, &n);

  g_assert_cmpuint (n, >, 0);
  for (guint i = 0; i < n; i++) {
    const TwPart *part = tw_job_find (laid->job, figures[i].part);
    const TwPart *owner
        = tw_id_is_none (figures[i].element) ? part : tw_part_element (part, figures[i].element, NULL);
    const TwField *field = &tw_kind_info (owner->kind)->fields[figures[i].field];
    double says = G_STRUCT_MEMBER (double, owner, field->offset);

    g_assert_true (isfinite (figures[i].value_mm));
    g_assert_cmpfloat (figures[i].value_mm, >=, field->low);
    g_assert_cmpfloat (figures[i].value_mm, <=, field->high);
    if (figures[i].changed)
      g_assert_cmpfloat (says, ==, figures[i].value_mm);
  }
}

static gboolean
take (TwHand *hand, const Laid *laid, const TwStageView *view, const TwGrip *grip)
{
  TwHandGrasp grasp = { view, grip, 1, grip->at, "Drag" };

  return tw_hand_take (hand, &laid->bench, &grasp);
}

/* One grip: 10 mm, far, back, cancelled; then 10 mm, let go, undone. */
static void
check_grip (Laid *laid, const TwStageView *view, const TwGrip *grip, const char *before)
{
  const TwHandManner manners[] = { { 0, 0, TRUE }, { 6, 1, FALSE } };
  const double ways_mm[] = { 10, -10, 1e5, -1e5, 3.3 };
  g_autoptr (TwHand) hand = tw_hand_new ();
  g_autofree char *cancelled = NULL, *undone = NULL;
  gboolean moved = FALSE;

  g_assert_true (take (hand, laid, view, grip));
  for (guint m = 0; m < G_N_ELEMENTS (manners); m++)
    for (guint i = 0; i < G_N_ELEMENTS (ways_mm); i++) {
      tw_hand_move (hand, way_of (grip, ways_mm[i]), &manners[m]);
      check_figures (hand, laid);
    }
  g_assert_false (tw_hand_move (hand, (TwPoint){ NAN, 0 }, &manners[0]));
  tw_hand_cancel (hand);
  cancelled = text_of (laid);
  g_assert_cmpstr (cancelled, ==, before);

  g_assert_true (take (hand, laid, view, grip));
  for (guint i = 0; i < 2 && !moved; i++)
    moved = tw_hand_move (hand, way_of (grip, ways_mm[i]), &manners[0]) || tw_hand_refusal (hand) != NULL;
  if (!moved)
    g_error ("%s: \"%s\" went nowhere and did not say why", grip->part.text, grip->what);
  tw_hand_release (hand);
  if (tw_history_can_undo (laid->history))
    tw_history_undo (laid->history);
  undone = text_of (laid);
  g_assert_cmpstr (undone, ==, before);
}

static void
check_gauges (const Laid *laid, const TwStageView *view, const TwGrip *grip)
{
  TwGauge gauges[TW_GAUGE_MOST];
  guint n = tw_gauge_find (laid->placement, view, grip->part, grip->element, gauges);

  for (guint i = 0; i < n; i++) {
    double seen_mm = tw_point_distance_mm (gauges[i].from, gauges[i].to);

    g_assert_true (isfinite (gauges[i].length_mm));
    g_assert_cmpfloat (seen_mm, >, 0);
    g_assert_cmpfloat (gauges[i].length_mm, >=, seen_mm - 1e-6);
    g_assert_false (tw_id_is_none (gauges[i].neighbour));
  }
}

/* All grips of all parts in one view, or some of them. */
static void
check_view (Laid *laid, int which, GRand *rng)
{
  g_autofree char *before = text_of (laid);
  TwStageView view = laid_view (laid, which);

  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
    for (guint i = 0; i < tw_job_count (laid->job, kind); i++) {
      TwId part = tw_job_get (laid->job, kind, i)->id;
      g_autoptr (TwGrips) grips = tw_grips_new (laid->placement, &view, part);

      if (tw_grips_count (grips) == 0)
        g_assert_nonnull (tw_grips_why_none (laid->placement, &view, part));
      for (guint k = 0; k < tw_grips_count (grips); k++) {
        if (rng != NULL && g_rand_double (rng) > 0.1)
          continue;
        check_grip (laid, &view, tw_grips_get (grips, k), before);
        check_gauges (laid, &view, tw_grips_get (grips, k));
      }
    }
}

static void
test_sample (gconstpointer name)
{
  Laid laid;

  laid_out (&laid, laid_sample (name));
  for (int view = 0; view < N_VIEWS; view++)
    check_view (&laid, view, NULL);
  laid_away (&laid);
}

static void
test_random (void)
{
  g_autoptr (GRand) rng = g_rand_new_with_seed ((guint32)g_test_rand_int ());

  for (guint i = 0; i < RANDOM_JOBS; i++) {
    Laid laid;

    laid_out (&laid, tw_random_job (g_rand_int (rng)));
    check_view (&laid, (int)(i % N_VIEWS), rng);
    laid_away (&laid);
  }
}

/* Every kind of part added to every sample, with no pointer and with one: a change that the job takes and
 * that undoes to the byte, or a reason. */
static void
check_adding (Laid *laid, const TwAddWhere *where, TwKind kind, const char *before)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *after = NULL;
  TwChange *change;
  TwId id;

  change = tw_add_part (where, kind, &id, &error);
  if (change == NULL) {
    g_assert_nonnull (error);
    return;
  }
  g_assert_true (tw_history_do (laid->history, change, &error));
  g_assert_no_error (error);
  g_assert_nonnull (tw_job_find (laid->job, id));
  laid_again (laid);
  if (kind != TW_KIND_HOSE && tw_grips_why_none (laid->placement, where->view, id) != NULL)
    g_assert_cmpint (kind, ==, TW_KIND_BAFFLE); /* the only one that a view may hide */
  tw_history_undo (laid->history);
  after = text_of (laid);
  g_assert_cmpstr (after, ==, before);
  laid_again (laid);
}

static void
test_adding (gconstpointer name)
{
  g_autofree char *before = NULL;
  Laid laid;

  laid_out (&laid, laid_sample (name));
  before = text_of (&laid);
  for (int which = FRONT; which < N_VIEWS; which++)
    for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
      for (guint n = 0; n <= 2; n++) {
        TwStageView view = laid_view (&laid, which);
        TwAddWhere where = { .job = laid.job,
                             .placement = laid.placement,
                             .passes = laid.passes,
                             .view = &view,
                             .n_points = n,
                             .points = { { 10, 20 }, { 130, 95 } } };

        check_adding (&laid, &where, kind, before);
      }
  laid_away (&laid);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (laid_samples); i++) {
    g_autofree char *path = g_strconcat ("/stage/drags/", laid_samples[i], NULL);
    g_autofree char *adding = g_strconcat ("/stage/adding/", laid_samples[i], NULL);

    g_test_add_data_func (path, laid_samples[i], test_sample);
    g_test_add_data_func (adding, laid_samples[i], test_adding);
  }
  g_test_add_func ("/stage/drags/random", test_random);
  return g_test_run ();
}
