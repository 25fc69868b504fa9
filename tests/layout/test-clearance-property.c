/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Clearances of random jobs: the two places of a pair lie where they should and as far apart as is said,
 * nothing taken at random of the two is nearer, and neither repetition nor the order of the parts changes a
 * figure.
 */
#include "job/read.h"
#include "job/write.h"
#include "layout/clearance.h"
#include "support/make-job.h"

#include <math.h>

#define N_JOBS 70
#define N_SAMPLES 40

typedef struct {
  TwGeos *geos;
  TwPlacement *placement;
  TwClearance *clearance;
} Found;

static Found
find (TwJob *job, TwCatalogue *catalogue)
{
  g_autoptr (TwDrawing) drawing = tw_drawing_new (job, catalogue);
  Found found;

  found.geos = tw_geos_new ();
  found.placement = tw_placement_new (drawing, found.geos);
  found.clearance = tw_clearance_find (found.placement, found.geos, NULL, 0);
  return found;
}

static void
clear (Found *found)
{
  tw_clearance_unref (found->clearance);
  tw_placement_unref (found->placement);
  tw_geos_free (found->geos);
}

static double
off_part_mm (const TwPlacement *placement, TwId part, TwVec at)
{
  guint n;
  const TwPlacedSolid *solids = tw_placement_solids (placement, &n);
  g_autoptr (TwConvex) point = tw_convex_new_capsule (at, at, 0.0);
  double least_mm = G_MAXDOUBLE;

  for (guint i = 0; i < n; i++)
    if (tw_id_equal (solids[i].part, part))
      least_mm = MIN (least_mm, tw_convex_gap (point, solids[i].convex).distance_mm);
  return least_mm;
}

static TwVec
random_point (const TwConvex *convex, GRand *rand)
{
  guint n = tw_convex_n_points (convex);
  TwVec sum = tw_vec (0, 0, 0);
  double weights = 0.0;

  for (guint i = 0; i < 4; i++) {
    double weight = g_rand_double_range (rand, 0.0, 1.0);

    sum = tw_vec_add_scaled (sum, weight,
                             tw_convex_point (convex, (guint)g_rand_int_range (rand, 0, (gint32)n)));
    weights += weight;
  }
  return tw_vec_scale (sum, 1.0 / weights);
}

/* The nearest of some places taken at random from the two parts. */
static double
sampled_mm (const TwPlacement *placement, const TwClearancePair *pair, GRand *rand)
{
  guint n;
  const TwPlacedSolid *solids = tw_placement_solids (placement, &n);
  double least_mm = G_MAXDOUBLE;

  for (guint k = 0; k < N_SAMPLES; k++) {
    const TwPlacedSolid *a = &solids[g_rand_int_range (rand, 0, (gint32)n)];

    for (guint i = 0; i < n && tw_id_equal (a->part, pair->part) && a->role != TW_SOLID_HUB; i++)
      if (tw_id_equal (solids[i].part, pair->other))
        least_mm = MIN (least_mm, tw_vec_distance_mm (random_point (a->convex, rand),
                                                      random_point (solids[i].convex, rand)));
  }
  return least_mm;
}

static void
check_pairs (const Found *found, GRand *rand)
{
  guint n;
  const TwClearancePair *pairs = tw_clearance_pairs (found->clearance, &n);

  for (guint i = 0; i < n; i++) {
    const TwClearancePair *pair = &pairs[i];

    g_assert_cmpfloat (pair->distance_mm, >=, 0.0);
    g_assert_cmpfloat (pair->depth_mm, >=, 0.0);
    g_assert_cmpint (pair->crosses || pair->is_outside, ==, pair->depth_mm > 0.0);
    g_assert_cmpfloat_with_epsilon (tw_vec_distance_mm (pair->at_part, pair->at_other), pair->distance_mm,
                                    1e-6);
    g_assert_cmpfloat (off_part_mm (found->placement, pair->part, pair->at_part), <, 1e-5);
    g_assert_cmpfloat (off_part_mm (found->placement, pair->other, pair->at_other), <, 1e-5);
    if (!pair->is_bay)
      g_assert_cmpfloat (pair->distance_mm, <=, sampled_mm (found->placement, pair, rand) + 1e-6);
  }
}

static const TwClearancePair *
same_pair (const TwClearance *clearance, const TwClearancePair *wanted)
{
  guint n;
  const TwClearancePair *pairs = tw_clearance_pairs (clearance, &n);

  for (guint i = 0; i < n; i++)
    if (tw_id_equal (pairs[i].part, wanted->part) && pairs[i].is_bay == wanted->is_bay
        && (pairs[i].is_bay || tw_id_equal (pairs[i].other, wanted->other)))
      return &pairs[i];
  return NULL;
}

static void
check_same (const TwClearance *a, const TwClearance *b, double by_mm)
{
  guint n_a, n_b;
  const TwClearancePair *pairs = tw_clearance_pairs (a, &n_a);

  tw_clearance_pairs (b, &n_b);
  g_assert_cmpuint (n_a, ==, n_b);
  g_assert_cmpint (tw_clearance_flags (a), ==, tw_clearance_flags (b));
  for (guint i = 0; i < n_a; i++) {
    const TwClearancePair *other = same_pair (b, &pairs[i]);

    g_assert_nonnull (other);
    g_assert_cmpfloat (fabs (other->over_mm - pairs[i].over_mm), <=, by_mm);
    g_assert_cmpint (other->is_outside, ==, pairs[i].is_outside);
  }
}

/* The same job with every list of parts the other way about. */
static TwJob *
turn_lists (const TwJob *job)
{
  g_autofree char *text = tw_job_write_text (job);
  cJSON *file = cJSON_Parse (text), *turned = cJSON_CreateObject ();
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  char *printed;
  TwJob *again;

  while (file->child != NULL) {
    cJSON *member = cJSON_DetachItemViaPointer (file, file->child);

    if (cJSON_IsArray (member)) {
      cJSON *list = cJSON_CreateArray ();

      while (cJSON_GetArraySize (member) > 0)
        cJSON_AddItemToArray (list, cJSON_DetachItemFromArray (member, cJSON_GetArraySize (member) - 1));
      cJSON_AddItemToObject (turned, member->string, list);
      cJSON_Delete (member);
    } else {
      cJSON_AddItemToObject (turned, member->string, member);
    }
  }
  printed = cJSON_Print (turned);
  again = tw_job_read_text (printed, strlen (printed), troubles);
  g_assert_cmpuint (troubles->n, ==, 0);
  cJSON_free (printed);
  cJSON_Delete (turned);
  cJSON_Delete (file);
  return again;
}

static void
test_random (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TwCatalogue) catalogue = tw_catalogue_load (&error);
  GRand *rand = g_rand_new_with_seed (3);
  guint n_pairs = 0;

  g_assert_no_error (error);
  for (guint seed = 0; seed < N_JOBS; seed++) {
    g_autoptr (TwJob) job = tw_random_job (seed);
    g_autoptr (TwJob) turned = turn_lists (job);
    Found found = find (job, catalogue), again = find (job, catalogue), other = find (turned, catalogue);
    guint n;

    g_test_message ("job %u", seed);
    g_assert_null (tw_geos_trouble (found.geos));
    check_pairs (&found, rand);
    check_same (found.clearance, again.clearance, 0.0);
    if (!(tw_clearance_flags (found.clearance) & TW_CLEARANCE_MIXED_BAY))
      check_same (found.clearance, other.clearance, 1e-9);
    tw_clearance_pairs (found.clearance, &n);
    n_pairs += n;
    clear (&found);
    clear (&again);
    clear (&other);
  }
  g_assert_cmpuint (n_pairs, >, 1000);
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/property/clearance/random", test_random);
  return g_test_run ();
}
