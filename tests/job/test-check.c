/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A change that would leave a part which no file may hold is refused as a whole, and nothing is altered.
 */
#include "base/error.h"
#include "job/write.h"
#include "support/make-job.h"

#include <math.h>
#include <string.h>

static TwId
id_of (const char *text)
{
  TwId id;

  g_assert_true (tw_id_from_text (text, &id));
  return id;
}

static TwJob *
job_with_box (void)
{
  static const TwMakeBox box = { -100, 0, -50, 100, 200, 50 };
  TwJob *job = tw_make_job (TW_TUBES_LEVEL, 10);

  tw_make_box (job, TW_DRAWN_FRONT, TW_TAKEN_STRUCTURE, &box);
  return job;
}

static TwChange *
move_corner (const char *corner, guint field, double to_mm)
{
  TwValue value = tw_value_number (to_mm);

  return tw_change_set (id_of ("volume-1"), id_of (corner), field, &value);
}

static TwChange *
add_hole_corner (double across_mm, double up_mm, double bow_mm)
{
  TwPart *corner = tw_part_new (TW_KIND_CORNER, TW_ID_NONE);

  ((TwOutlineCorner *)corner)->across_mm = across_mm;
  ((TwOutlineCorner *)corner)->up_mm = up_mm;
  ((TwOutlineCorner *)corner)->bow_mm = bow_mm;
  return tw_change_add_element (id_of ("volume-1"), (guint)tw_kind_list (TW_KIND_VOLUME, "hole"), corner, -1);
}

/* Refused, with a message that holds @says, and the job as it was. Takes the change. */
static void
assert_refused (TwJob *job, TwChange *change, const char *says)
{
  g_autofree char *before = tw_job_write_text (job), *after = NULL;
  g_autoptr (TwChange) inverse = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_false (tw_change_apply (change, job, &inverse, &error));
  g_assert_null (inverse);
  g_assert_error (error, TW_ERROR, TW_ERROR_REFUSED);
  g_assert_nonnull (strstr (error->message, says));
  after = tw_job_write_text (job);
  g_assert_cmpstr (before, ==, after);
  tw_change_free (change);
}

static void
assert_done_and_undone (TwJob *job, TwChange *change)
{
  g_autofree char *before = tw_job_write_text (job), *done = NULL, *undone = NULL;
  g_autoptr (TwChange) inverse = NULL, forth = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (tw_change_apply (change, job, &inverse, &error));
  done = tw_job_write_text (job);
  g_assert_cmpstr (before, !=, done);
  g_assert_true (tw_change_apply (inverse, job, &forth, &error));
  undone = tw_job_write_text (job);
  g_assert_cmpstr (before, ==, undone);
  tw_change_free (change);
}

/* The box's lower left corner pulled over its upper right one makes a bow tie. */
static void
test_outline_crosses (void)
{
  g_autoptr (TwJob) job = job_with_box ();
  TwChange *group = tw_change_group (NULL);

  assert_refused (job, move_corner ("corner-1", TW_CORNER_across_mm, 300), "crosses");

  tw_change_group_add (group, move_corner ("corner-1", TW_CORNER_across_mm, 300));
  tw_change_group_add (group, move_corner ("corner-2", TW_CORNER_across_mm, 400));
  tw_change_group_add (group, move_corner ("corner-3", TW_CORNER_across_mm, 400));
  assert_done_and_undone (job, group);
}

static void
test_corner_without_place (void)
{
  g_autoptr (TwJob) job = job_with_box ();

  assert_refused (job, move_corner ("corner-1", TW_CORNER_up_mm, (double)NAN), "across_mm and up_mm");
}

static void
test_ends_before_start (void)
{
  g_autoptr (TwJob) job = job_with_box ();
  TwValue value = tw_value_number (80);

  assert_refused (job, tw_change_set (id_of ("volume-1"), TW_ID_NONE, TW_VOLUME_from_mm, &value), "from_mm");
}

/* A round hole of two corners: the first alone is none, both together are. */
static void
test_hole (void)
{
  g_autoptr (TwJob) job = job_with_box ();
  TwChange *group = tw_change_group (NULL);

  assert_refused (job, add_hole_corner (0, 90, 10), "hole");

  tw_change_group_add (group, add_hole_corner (0, 90, 10));
  tw_change_group_add (group, add_hole_corner (0, 110, 10));
  assert_done_and_undone (job, group);
}

/* A box loses one corner and is a triangle, a triangle loses one and would be a line. */
static void
test_too_few_corners (void)
{
  g_autoptr (TwJob) job = job_with_box ();
  g_autoptr (TwChange) first = tw_change_remove (id_of ("volume-1"), id_of ("corner-1")), inverse = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (tw_change_apply (first, job, &inverse, &error));
  assert_refused (job, tw_change_remove (id_of ("volume-1"), id_of ("corner-2")), "outline");
}

/* An opening's outline is held to the same: a triangle of which one corner is pulled onto the line of the
 * other two holds nothing. */
static void
test_opening (void)
{
  static const double corners[][2] = { { 0, 0 }, { 100, 0 }, { 50, 80 } };
  g_autoptr (TwJob) job = tw_job_new ();
  TwPart *opening = tw_part_new (TW_KIND_OPENING, id_of ("scoop"));
  TwValue value;

  for (guint i = 0; i < G_N_ELEMENTS (corners); i++) {
    g_autofree char *id = g_strdup_printf ("corner-%u", i + 1);
    TwPart *corner = tw_part_new (TW_KIND_CORNER, id_of (id));

    ((TwOutlineCorner *)corner)->across_mm = corners[i][0];
    ((TwOutlineCorner *)corner)->up_mm = corners[i][1];
    g_ptr_array_add (((TwOpening *)opening)->outline, corner);
  }
  tw_job_insert (job, opening, -1);
  value = tw_value_number (0);
  assert_refused (job, tw_change_set (id_of ("scoop"), id_of ("corner-3"), TW_CORNER_up_mm, &value),
                  "outline");
  value = tw_value_number (-80);
  assert_done_and_undone (job, tw_change_set (id_of ("scoop"), id_of ("corner-3"), TW_CORNER_up_mm, &value));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job/check/outline-crosses", test_outline_crosses);
  g_test_add_func ("/job/check/corner-without-place", test_corner_without_place);
  g_test_add_func ("/job/check/ends-before-start", test_ends_before_start);
  g_test_add_func ("/job/check/hole", test_hole);
  g_test_add_func ("/job/check/too-few-corners", test_too_few_corners);
  g_test_add_func ("/job/check/opening", test_opening);
  return g_test_run ();
}
