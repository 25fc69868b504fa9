/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Parts taken out of one job and put into another: what comes along, what they belong to there, what is
 * refused.
 */
#include "base/error.h"
#include "job/free-name.h"
#include "job/pieces.h"
#include "job/write.h"
#include "support/make-job.h"

#include <string.h>

#define N_JOBS 60

static TwId
id_of (const char *text)
{
  TwId id;

  g_assert_true (tw_id_from_text (text, &id));
  return id;
}

static char *
taken (const TwJob *job, const char *part)
{
  TwId id = id_of (part);
  g_autoptr (GError) error = NULL;
  char *text = tw_pieces_write (job, &id, 1, &error);

  g_assert_no_error (error);
  return text;
}

/* Puts @text into @job; the new ids. */
static GArray *
put (const char *text, TwJob *job)
{
  g_autoptr (GError) error = NULL;
  GArray *made = NULL;
  g_autoptr (TwChange) change = tw_pieces_read (text, strlen (text), job, "Pasting", &made, &error);
  g_autoptr (TwChange) inverse = NULL;

  g_assert_no_error (error);
  g_assert_true (tw_change_apply (change, job, &inverse, &error));
  g_assert_no_error (error);
  return made;
}

static void
assert_refused (const char *text, TwJob *job, const char *says)
{
  g_autofree char *before = tw_job_write_text (job), *after = NULL;
  g_autoptr (GError) error = NULL;
  GArray *made = NULL;

  g_assert_null (tw_pieces_read (text, strlen (text), job, "Pasting", &made, &error));
  g_assert_null (made);
  g_assert_nonnull (strstr (error->message, says));
  after = tw_job_write_text (job);
  g_assert_cmpstr (before, ==, after);
}

/* tank-1 with a baffle and a port; a hose between two ports goes only with both. */
static TwJob *
make (void)
{
  TwJob *job = tw_make_job (TW_TUBES_LEVEL, 20);

  tw_make_baffle (job, "tank-1", 10);
  tw_make_port (job, "tank-1", TW_PORT_INLET, TW_WALL_BACK, 50);
  tw_make_port (job, "tank-2", TW_PORT_OUTLET, TW_WALL_BACK, -50);
  tw_make_hose (job, id_of ("port-1"), id_of ("port-2"), 0, NULL, 60);
  return job;
}

static void
test_whole_tank (void)
{
  g_autoptr (TwJob) job = make ();
  g_autofree char *text = taken (job, "tank-1");
  g_autoptr (GArray) made = put (text, job);
  const TwBaffle *baffle;

  g_assert_cmpuint (made->len, ==, 3);
  g_assert_cmpuint (tw_job_count (job, TW_KIND_TANK), ==, 3);
  g_assert_cmpuint (tw_job_count (job, TW_KIND_BAFFLE), ==, 2);
  g_assert_cmpuint (tw_job_count (job, TW_KIND_PORT), ==, 3);
  g_assert_cmpuint (tw_job_count (job, TW_KIND_HOSE), ==, 1);
  baffle = (const TwBaffle *)tw_job_get (job, TW_KIND_BAFFLE, 1);
  g_assert_cmpstr (baffle->tank.text, ==, "tank-3");
}

/* A core takes everything that hangs on it, the hose too. */
static void
test_whole_core (void)
{
  g_autoptr (TwJob) job = make (), other = tw_job_new ();
  g_autofree char *text = taken (job, "core-1");
  g_autoptr (GArray) made = put (text, other);

  g_assert_cmpuint (made->len, ==, 7);
  g_assert_cmpuint (tw_job_count (other, TW_KIND_HOSE), ==, 1);
  g_assert_cmpuint (tw_job_count (other, TW_KIND_TANK), ==, 2);
}

/* Into another job: to the part of the same id, else to the only one of its kind, else not at all. */
static void
test_where_it_belongs (void)
{
  g_autoptr (TwJob) job = make (), same = tw_make_job (TW_TUBES_LEVEL, 20), empty = tw_job_new ();
  g_autofree char *baffle = taken (job, "baffle-1"), *tank = taken (job, "tank-2");
  g_autoptr (TwJob) one = tw_job_new ();
  g_autoptr (GArray) made = put (baffle, same), into_one = NULL;
  TwPart *core = tw_part_new (TW_KIND_CORE, id_of ("another"));

  g_assert_cmpstr (((const TwBaffle *)tw_job_get (same, TW_KIND_BAFFLE, 0))->tank.text, ==, "tank-1");
  assert_refused (baffle, empty, "tank-1");
  assert_refused (baffle, empty, "not in this job");
  tw_job_insert (one, core, -1);
  into_one = put (tank, one);
  g_assert_cmpstr (((const TwTank *)tw_job_get (one, TW_KIND_TANK, 0))->core.text, ==, "another");
}

static void
test_not_ours (void)
{
  static const char *const texts[] = {
    "",
    "24 1/2",
    "{}",
    "{ \"tankwright-parts\": 2, \"change\": { \"group\": [{ \"add\": { \"id\": \"c\" }, \"kind\": \"core\", "
    "\"nth\": -1 }] } }",
    "{ \"tankwright-parts\": 1, \"change\": { \"group\": [] } }",
    "{ \"tankwright-parts\": 1, \"change\": { \"group\": [{ \"remove\": \"core-1\" }] } }",
    "{ \"tankwright-parts\": 1, \"change\": { \"remove\": \"core-1\" } }",
    "{ \"tankwright-parts\": 1, \"change\": { \"group\": [{ \"add\": {}, \"kind\": \"core\", \"nth\": -1 }] "
    "} }",
    "{ \"tankwright-parts\": 1, \"change\": { \"group\": [{ \"add\": { \"id\": \"c\", \"face_width_mm\": -3 "
    "}, "
    "\"kind\": \"core\", \"nth\": -1 }] } }",
  };
  g_autoptr (TwJob) job = make ();

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    assert_refused (texts[i], job, "no parts of a job");
}

static void
test_nothing_chosen (void)
{
  g_autoptr (TwJob) job = make ();
  g_autoptr (GError) error = NULL;
  TwId settings = id_of ("job");

  g_assert_null (tw_pieces_write (job, &settings, 1, &error));
  g_assert_error (error, TW_ERROR, TW_ERROR_REFUSED);
}

static void
test_free_names (void)
{
  static const struct {
    const char *name, *next;
  } cases[] = {
    { "Inlet", "Inlet 2" }, { "Inlet", "Inlet 3" }, { "Inlet 2", "Inlet 4" },
    { "M6", "M6 2" },       { "7", "7 2" },
  };
  g_autoptr (GHashTable) names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *name = tw_free_name (names, cases[i].name);

    g_assert_cmpstr (name, ==, cases[i].next);
  }
}

/* Any part of any job, put back into it: the same parts beside the old ones, all of them whole. */
static void
test_random (void)
{
  for (guint32 seed = 0; seed < N_JOBS; seed++) {
    g_autoptr (TwJob) job = tw_random_job (seed);

    for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++) {
      g_autoptr (TwJob) copy = tw_job_copy (job);
      g_autoptr (GArray) made = NULL;
      g_autofree char *text = NULL;
      const TwPart *before, *after;

      if (tw_job_count (job, kind) == 0)
        continue;
      before = tw_job_get (job, kind, 0);
      text = taken (job, before->id.text);
      made = put (text, copy);
      after = tw_job_get (copy, kind, tw_job_count (job, kind));
      g_assert_cmpint (after->kind, ==, before->kind);
      g_assert_null (tw_job_find (job, after->id));
      for (guint i = 0; i < tw_kind_info (kind)->n_lists; i++)
        g_assert_cmpuint (tw_part_list (after, i)->len, ==, tw_part_list (before, i)->len);
    }
  }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job/pieces/whole-tank", test_whole_tank);
  g_test_add_func ("/job/pieces/whole-core", test_whole_core);
  g_test_add_func ("/job/pieces/where-it-belongs", test_where_it_belongs);
  g_test_add_func ("/job/pieces/not-ours", test_not_ours);
  g_test_add_func ("/job/pieces/nothing-chosen", test_nothing_chosen);
  g_test_add_func ("/job/pieces/free-names", test_free_names);
  g_test_add_func ("/job/pieces/random", test_random);
  return g_test_run ();
}
