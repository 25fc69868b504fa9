/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A whole job mirrored (x to −x, left and right swapped) is as far from everything, its runs are as long, its
 * water stands as high. Frontal area and coverage are mirrored in test-air-property.c, passes in
 * test-water-property.c.
 */
#include "found.h"
#include "layout/clearance.h"
#include "layout/heights.h"
#include "layout/routes.h"
#include "support/job-forms.h"

#include <math.h>

#define N_JOBS (g_test_thorough () ? 200 : 60)
#define BY_MM 1e-6

#define assert_near(a, b) g_assert_cmpfloat_with_epsilon ((a), (b), BY_MM)

/* A job and all that is compared of it. */
typedef struct {
  TwJob *job;
  Found found;
  TwRoutes *routes;
  TwClearance *clearance;
  TwHeights *heights;
} Seen;

static Seen
see (TwJob *job, const TwCatalogue *catalogue, TwAttitude attitude)
{
  Seen seen = { .job = job, .found = find_by (job, catalogue) };
  guint n;
  const TwPlacedSolid *hoses;

  seen.routes = tw_routes_find (seen.found.placement);
  hoses = tw_routes_solids (seen.routes, &n);
  seen.clearance = tw_clearance_find (seen.found.placement, seen.found.geos, hoses, n);
  seen.heights = tw_heights_find (seen.found.placement, seen.found.passes, attitude);
  g_assert_null (tw_geos_trouble (seen.found.geos));
  return seen;
}

static void
seen_clear (Seen *seen)
{
  tw_heights_unref (seen->heights);
  tw_clearance_unref (seen->clearance);
  tw_routes_unref (seen->routes);
  found_clear (&seen->found);
  tw_job_free (seen->job);
}

static void
assert_same_or_unknown (double a, double b)
{
  if (!isnan (a) || !isnan (b))
    assert_near (a, b);
}

/* ---- clearance ---- */

/* Of the same part to the same volume, or to the bay. */
static const TwClearancePair *
same_pair (const TwClearance *clearance, const TwClearancePair *wanted)
{
  guint n;
  const TwClearancePair *pairs = tw_clearance_pairs (clearance, &n);

  for (guint i = 0; i < n; i++)
    if (tw_id_equal (pairs[i].part, wanted->part) && pairs[i].is_bay == wanted->is_bay
        && (wanted->is_bay || tw_id_equal (pairs[i].other, wanted->other)))
      return &pairs[i];
  return NULL;
}

static guint
compare_clearance (const Seen *a, const Seen *b)
{
  guint n, n_b;
  const TwClearancePair *pairs = tw_clearance_pairs (a->clearance, &n);

  tw_clearance_pairs (b->clearance, &n_b);
  g_assert_cmpuint (n, ==, n_b);
  g_assert_cmpint (tw_clearance_flags (a->clearance), ==, tw_clearance_flags (b->clearance));
  for (guint i = 0; i < n; i++) {
    const TwClearancePair *other = same_pair (b->clearance, &pairs[i]);

    g_assert_nonnull (other);
    assert_near (other->over_mm, pairs[i].over_mm);
    assert_near (other->required_mm, pairs[i].required_mm);
    g_assert_cmpint (other->is_outside, ==, pairs[i].is_outside);
    g_assert_cmpint (other->crosses, ==, pairs[i].crosses);
    assert_near (other->distance_mm, pairs[i].distance_mm);
  }
  return n;
}

/* ---- routes ---- */

static guint
compare_routes (const Seen *a, const Seen *b)
{
  guint n = tw_routes_count (a->routes);

  g_assert_cmpuint (n, ==, tw_routes_count (b->routes));
  for (guint i = 0; i < n; i++) {
    const TwRoute *one = tw_routes_get (a->routes, i);
    const TwRoute *two = tw_routes_find_hose (b->routes, one->hose);

    g_assert_nonnull (two);
    g_assert_cmpint (one->flags, ==, two->flags);
    g_assert_cmpuint (one->n_pieces, ==, two->n_pieces);
    g_assert_cmpuint (one->n_bends, ==, two->n_bends);
    assert_same_or_unknown (one->centreline_mm, two->centreline_mm);
    for (guint k = 0; k < one->n_pieces; k++) {
      const TwRoutePiece *p = &one->pieces[k], *q = &two->pieces[k];

      assert_near (p->to.x, -q->to.x);
      assert_near (p->to.y, q->to.y);
      assert_near (p->to.z, q->to.z);
      assert_near (p->length_mm, q->length_mm);
    }
  }
  return n;
}

/* ---- heights ---- */

static gboolean
is_level (const Seen *seen, TwId core)
{
  return !tw_placement_core (seen->found.placement, core)->is_upright;
}

/* The chamber of the same tank that lies between the mirrored ends. */
static const TwChamberHeight *
mirrored_chamber (const Seen *b, const TwChamber *wanted, gboolean level)
{
  double from_mm = level ? wanted->from_mm : -wanted->to_mm, to_mm = level ? wanted->to_mm : -wanted->from_mm;

  for (guint i = 0; i < tw_passes_n_chambers (b->found.passes); i++) {
    const TwChamber *chamber = tw_passes_chamber (b->found.passes, i);

    if (tw_id_equal (chamber->tank, wanted->tank) && fabs (chamber->from_mm - from_mm) < BY_MM
        && fabs (chamber->to_mm - to_mm) < BY_MM
        && fabs (chamber->across_from_mm - wanted->across_from_mm) < BY_MM)
      return tw_heights_chamber (b->heights, i);
  }
  g_assert_not_reached ();
}

static guint
compare_heights (const Seen *a, const Seen *b)
{
  guint n = tw_passes_n_chambers (a->found.passes);

  g_assert_cmpuint (n, ==, tw_passes_n_chambers (b->found.passes));
  for (guint i = 0; i < n; i++) {
    const TwChamber *chamber = tw_passes_chamber (a->found.passes, i);
    const TwChamberHeight *one = tw_heights_chamber (a->heights, i),
                          *two = mirrored_chamber (b, chamber, is_level (a, chamber->core));

    assert_near (one->highest_mm, two->highest_mm);
    assert_near (one->lowest_mm, two->lowest_mm);
    g_assert_cmpint (one->is_high, ==, two->is_high);
    g_assert_cmpint (one->is_low, ==, two->is_low);
    assert_same_or_unknown (one->pocket_mm, two->pocket_mm);
    assert_same_or_unknown (one->pool_mm, two->pool_mm);
  }
  for (guint i = 0; i < tw_heights_n_ports (a->heights); i++) {
    const TwPortHeight *one = tw_heights_port (a->heights, i);

    for (guint k = 0; k < tw_heights_n_ports (b->heights); k++)
      if (tw_id_equal (tw_heights_port (b->heights, k)->port, one->port))
        assert_same_or_unknown (one->height_mm, tw_heights_port (b->heights, k)->height_mm);
  }
  for (guint i = 0; i < tw_heights_n_tanks (a->heights); i++) {
    assert_near (tw_heights_tank (a->heights, i)->highest_mm, tw_heights_tank (b->heights, i)->highest_mm);
    assert_same_or_unknown (tw_heights_tank (a->heights, i)->cold_mm,
                            tw_heights_tank (b->heights, i)->cold_mm);
  }
  return n;
}

/* Rolled to the right the mirrored vehicle must roll to the left. */
static void
test_mirrored (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TwCatalogue) catalogue = tw_catalogue_load (&error);
  guint n_pairs = 0, n_routes = 0, n_chambers = 0;

  g_assert_no_error (error);
  for (guint32 seed = 0; seed < N_JOBS; seed++) {
    g_autoptr (TwJob) random = tw_random_job (seed);
    TwJob *job = tw_form_settled (random, FALSE), *mirrored = tw_form_settled (random, FALSE);
    TwAttitude attitude = { .nose_up_rad = 0.1, .right_down_rad = 0.2 };
    Seen a = see (job, catalogue, attitude), b;

    g_test_message ("job %u", seed);
    tw_form_mirror (mirrored);
    attitude.right_down_rad = -attitude.right_down_rad;
    b = see (mirrored, catalogue, attitude);
    n_pairs += compare_clearance (&a, &b);
    n_routes += compare_routes (&a, &b);
    n_chambers += compare_heights (&a, &b);
    seen_clear (&a);
    seen_clear (&b);
  }
  /* it was about something */
  g_assert_cmpuint (n_pairs, >, 1000);
  g_assert_cmpuint (n_routes, >, 50);
  g_assert_cmpuint (n_chambers, >, 150);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/property/mirror/whole-job", test_mirrored);
  return g_test_run ();
}
