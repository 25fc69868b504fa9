/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The two air panels of the samples, to the last digit shown. Expected figures are worked from the dimensions
 * of the samples by elementary geometry: rectangles, circles, segments and lenses; beside each.
 */
#include "air-parts.h"
#include "layout/coverage.h"
#include "layout/frontal.h"

#define IN2 645.16

/* Without the hoses, which are drawn after. 0 where there is no such obstruction. */
typedef struct {
  const char *sample;
  double face_mm2, projected_mm2, free_mm2, unit_mm2; /* to one of these */
  const char *first, *second;
  double first_percent, second_percent, free_percent;
} Frontal;

static const Frontal frontals[] = {
  /* clang-format off */
  /* 700 × 318; tube 38 across all of 700, plate 30 × (471 − 330) */
  { "merlin-tail.twjob", 222600, 222600, 191770, 1, "cross-tube", "mount-plate", 11.9, 1.9, 86.2 },
  /* in²: 31 × 19.19 = 594.89; tube 1.75 × 31 = 54.25, bracket 2 × 6 = 12 */
  { "caravan-4.twjob", 594.89 * IN2, 594.89 * IN2, 528.64 * IN2, 0.01 * IN2, "cage-tube", "lamp-bracket", 9.1, 2.0, 88.9 },
  { "volt-9.twjob", 53600, 53600, 53600, 1, NULL, NULL, 0, 0, 100 },
  { "ox.twjob", 337792, 337792, 337792, 1, NULL, NULL, 0, 0, 100 },
  /* 540 × 348, ·cos 40° = 143 955; a strip of 25 over 540 */
  { "merlin-boot.twjob", 187920, 143955, 174420, 1, "floor-stiffener", NULL, 7.2, 0, 92.8 },
  /* clang-format on */
};

static const TwShade *
shade_of (const TwFaceShade *face, const char *part)
{
  for (guint i = 0; i < face->n_shades; i++)
    if (g_str_equal (face->shades[i].part.text, part))
      return &face->shades[i];
  g_assert_not_reached ();
}

static void
test_frontal (gconstpointer data)
{
  const Frontal *c = data;
  g_autoptr (TwJob) job = air_sample (c->sample);
  Air air = air_of (job);
  g_autoptr (TwFrontal) frontal = tw_frontal_find (air.placement, air.geos, NULL, 0);
  guint n;
  const TwFaceShade *face = tw_frontal_faces (frontal, &n);

  g_assert_cmpuint (n, ==, 1);
  g_assert_cmpuint (face->flags, ==, 0);
  assert_near (face->face_mm2, c->face_mm2, 0.01 * c->unit_mm2);
  assert_near (face->projected_mm2, c->projected_mm2, 0.5 * c->unit_mm2);
  assert_near (face->free_mm2, c->free_mm2, 0.5 * c->unit_mm2);
  assert_near (100 * face->free_share, c->free_percent, 0.05);
  assert_near (face->shared_mm2, 0, 0.5 * c->unit_mm2);
  g_assert_cmpuint (face->n_shades, ==, (c->first != NULL) + (c->second != NULL));
  if (c->first != NULL)
    assert_near (100 * shade_of (face, c->first)->alone_share, c->first_percent, 0.0501);
  if (c->second != NULL)
    assert_near (100 * shade_of (face, c->second)->alone_share, c->second_percent, 0.0501);
  air_clear (&air);
}

typedef struct {
  const char *sample;
  double swept_mm2, unit_mm2, swept_percent, ring_percent, boxed_percent;
} Coverage;

static const Coverage coverages[] = {
  /* clang-format off */
  /* 2·π/4·280² = 123 150; hub 120; box 680 × 306 */
  { "merlin-tail.twjob", 123150, 1, 55.3, 45.2, 93.5 },
  /* 2·π/4·15² = 353.43 in², shown 353.4; hub 6: 296.88; box 31 × 18.8 = 582.80 */
  { "caravan-4.twjob", 353.4 * IN2, 0.1 * IN2, 59.4, 49.9, 98.0 },
  /* π/4·457² = 164 030; hub 150; box 515 × 625 */
  { "ox.twjob", 164030, 1, 48.6, 43.3, 95.3 },
  /* 2·π/4·255² = 102 141; hub 100; box 536 × 340 */
  { "merlin-boot.twjob", 102141, 1, 54.4, 46.0, 97.0 },
  { "volt-9.twjob", 0, 1, 0, 0, 0 },
  /* clang-format on */
};

static void
test_coverage (gconstpointer data)
{
  const Coverage *c = data;
  g_autoptr (TwJob) job = air_sample (c->sample);
  Air air = air_of (job);
  g_autoptr (TwCoverage) coverage = tw_coverage_find (air.placement, air.geos);
  guint n;
  const TwFaceCover *face = tw_coverage_faces (coverage, &n);

  g_assert_cmpuint (n, ==, 1);
  assert_near (face->swept_mm2, c->swept_mm2, 0.5 * c->unit_mm2);
  assert_near (100 * face->swept_share, c->swept_percent, 0.05);
  assert_near (100 * face->ring_share, c->ring_percent, 0.05);
  assert_near (100 * face->boxed_share, c->boxed_percent, 0.05);
  g_assert_cmpuint (face->n_overlaps, ==, 0);
  air_clear (&air);
}

/* The pick-up with two 16 in fans at ±7.75 in on a face of 31 × 19.19 in: lens
 * 2·8²·acos (7.75/8) − 7.75·√(16² − 15.5²) = 1.327 in²; segments of 0.25 in each 0.664 in²; union
 * 2·201.062 − 1.327 − 2·0.664 = 399.47 in² = 67.2 %. */
static void
test_sixteen (void)
{
  g_autoptr (TwJob) job = tw_job_new ();
  Air air;
  TwCoverage *coverage;
  const TwFaceCover *face;

  air_core (job, "core", 31 * 25.4, 19.19 * 25.4, 2.25 * 25.4);
  air_fan (job, "left", -7.75 * 25.4, 0, 16 * 25.4, 6 * 25.4);
  air_fan (job, "right", 7.75 * 25.4, 0, 16 * 25.4, 6 * 25.4);
  air_shroud (job, "shroud", 0, 0, 31 * 25.4, 18.8 * 25.4);
  air = air_of (job);
  coverage = tw_coverage_find (air.placement, air.geos);
  face = tw_coverage_face (coverage, air_id ("core"));
  assert_near (face->face_mm2 / IN2, 594.89, 0.005);
  assert_near (face->swept_mm2 / IN2, 399.47, 0.005);
  assert_near (100 * face->swept_share, 67.2, 0.05);
  assert_near (face->boxed_mm2 / IN2, 582.80, 0.005);
  assert_near (100 * face->boxed_share, 98.0, 0.05);
  g_assert_cmpuint (face->n_overlaps, ==, 1);
  assert_near (face->overlaps[0].area_mm2 / IN2, 1.33, 0.005);
  assert_near (face->overlaps[0].depth_mm / 25.4, 0.5, 1e-9);
  for (guint i = 0; i < 2; i++) {
    assert_near (face->fans[i].face_over_mm / 25.4, 0.25, 1e-9);
    assert_near (face->fans[i].face_over_mm2 / IN2, 0.66, 0.005);
    assert_near (face->fans[i].mouth_over_mm / 25.4, 0.25, 1e-9);
    assert_near (face->fans[i].own_mm2, 0.5 * face->swept_mm2, 1e-6);
  }
  tw_coverage_unref (coverage);
  air_clear (&air);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (frontals); i++) {
    g_autofree char *path = g_strdup_printf ("/layout/air/frontal/%s", frontals[i].sample);
    g_test_add_data_func (path, &frontals[i], test_frontal);
  }
  for (guint i = 0; i < G_N_ELEMENTS (coverages); i++) {
    g_autofree char *path = g_strdup_printf ("/layout/air/coverage/%s", coverages[i].sample);
    g_test_add_data_func (path, &coverages[i], test_coverage);
  }
  g_test_add_func ("/layout/air/coverage/sixteen-inch", test_sixteen);
  return g_test_run ();
}
