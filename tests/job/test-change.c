/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What changes do to a small job, and that a refused one does nothing.
 */
#include "base/error.h"
#include "job/history.h"
#include "job/read.h"
#include "job/write.h"

#include <math.h>
#include <string.h>

static const char small_job[]
    = "{\"tankwright-job\": 1, \"name\": \"Small\","
      " \"cores\": [{\"id\": \"core\", \"face_width_mm\": 600, \"face_height_mm\": 300}],"
      " \"tanks\": [{\"id\": \"left\", \"core\": \"core\", \"name\": \"Left tank\"},"
      "             {\"id\": \"right\", \"core\": \"core\", \"side\": \"right\"}],"
      " \"baffles\": [{\"id\": \"baffle-7\", \"tank\": \"left\", \"place_mm\": 5}],"
      " \"ports\": [{\"id\": \"in\", \"tank\": \"left\", \"use\": \"inlet\"}],"
      " \"engine_ports\": [{\"id\": \"pump\"}],"
      " \"hoses\": [{\"id\": \"run\", \"from\": \"pump\", \"to\": \"in\","
      "   \"vias\": [{\"id\": \"a\", \"x_mm\": 1}, {\"id\": \"b\", \"x_mm\": 2}]}],"
      " \"circuit\": {\"litres\": 7.25}, \"tank\": 5, \"id\": \"x\"}";

static TwJob *
make (void)
{
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  TwJob *job = tw_job_read_text (small_job, strlen (small_job), troubles);

  g_assert_cmpuint (troubles->n, ==, 0);
  return job;
}

static TwId
id (const char *text)
{
  TwId made;

  g_assert_true (tw_id_from_text (text, &made) || text[0] == '\0');
  return made;
}

static TwChange *
set_number (const char *part, const char *element, const char *field, TwKind kind, double value)
{
  TwValue number = tw_value_number (value);
  int nth = tw_kind_field (kind, field);

  g_assert_cmpint (nth, >=, 0);
  return tw_change_set (id (part), id (element), (guint)nth, &number);
}

static TwChange *
set_ref (const char *part, const char *field, TwKind kind, const char *to)
{
  TwValue ref = tw_value_ref (id (to));

  return tw_change_set (id (part), TW_ID_NONE, (guint)tw_kind_field (kind, field), &ref);
}

static TwPart *
tank_named (const char *text, const char *core)
{
  TwPart *tank = tw_part_new (TW_KIND_TANK, id (text));

  ((TwTank *)tank)->core = id (core);
  return tank;
}

/* Each gives a change; @refused is a word of the message when the job must refuse it. */
typedef struct {
  const char *name;
  TwChange *(*make) (void);
  const char *refused;
  const char *label;
} Case;

static TwChange *
move_baffle (void)
{
  return set_number ("baffle-7", "", "place_mm", TW_KIND_BAFFLE, -5);
}

static TwChange *
move_via (void)
{
  return set_number ("run", "b", "y_mm", TW_KIND_VIA, 40);
}

static TwChange *
set_flow (void)
{
  return set_number ("job", "", "flow_l_min", TW_KIND_SETTINGS, 118.8);
}

static TwChange *
wall_too_thick (void)
{
  return set_number ("left", "", "wall_mm", TW_KIND_TANK, 2000);
}

static TwChange *
wall_infinite (void)
{
  return set_number ("left", "", "wall_mm", TW_KIND_TANK, (double)INFINITY);
}

static TwChange *
no_such_part (void)
{
  return set_number ("middle", "", "wall_mm", TW_KIND_TANK, 2);
}

static TwChange *
no_such_element (void)
{
  return set_number ("run", "z", "y_mm", TW_KIND_VIA, 2);
}

static TwChange *
hose_to_nothing (void)
{
  return set_ref ("run", "to", TW_KIND_HOSE, "nowhere");
}

static TwChange *
hose_to_tank (void)
{
  return set_ref ("run", "to", TW_KIND_HOSE, "left");
}

static TwChange *
hose_from_none (void)
{
  return set_ref ("run", "from", TW_KIND_HOSE, "");
}

static TwChange *
add_tank (void)
{
  return tw_change_add (tank_named ("", "core"), -1);
}

static TwChange *
add_tank_first (void)
{
  return tw_change_add (tank_named ("top", "core"), 0);
}

static TwChange *
add_twice (void)
{
  return tw_change_add (tank_named ("left", "core"), -1);
}

static TwChange *
add_without_core (void)
{
  return tw_change_add (tank_named ("", ""), -1);
}

static TwChange *
add_via (void)
{
  return tw_change_add_element (id ("run"), 0, tw_part_new (TW_KIND_VIA, TW_ID_NONE), 1);
}

static TwChange *
add_via_twice (void)
{
  return tw_change_add_element (id ("run"), 0, tw_part_new (TW_KIND_VIA, id ("a")), 1);
}

static TwChange *
remove_baffle (void)
{
  return tw_change_remove (id ("baffle-7"), TW_ID_NONE);
}

static TwChange *
remove_via (void)
{
  return tw_change_remove (id ("run"), id ("a"));
}

static TwChange *
remove_used_tank (void)
{
  return tw_change_remove (id ("left"), TW_ID_NONE);
}

static TwChange *
remove_core_whole (void)
{
  g_autoptr (TwJob) job = make ();

  return tw_change_remove_whole (job, id ("core"));
}

static TwChange *
reorder_tank (void)
{
  return tw_change_reorder (id ("left"), TW_ID_NONE, 1);
}

static TwChange *
reorder_via (void)
{
  return tw_change_reorder (id ("run"), id ("a"), 1);
}

static TwChange *
group_of_two (void)
{
  TwChange *group = tw_change_group ("Two things");

  tw_change_group_add (group, move_baffle ());
  tw_change_group_add (group, remove_via ());
  return group;
}

static TwChange *
group_refused_late (void)
{
  TwChange *group = tw_change_group ("Three things");

  tw_change_group_add (group, move_baffle ());
  tw_change_group_add (group, add_tank_first ());
  tw_change_group_add (group, wall_too_thick ());
  return group;
}

static const Case cases[] = {
  { "set", move_baffle, NULL, "Place along the header of baffle-7" },
  { "set-element", move_via, NULL, "y of run" },
  { "set-setting", set_flow, NULL, "Water flow to show velocities at of Small" },
  { "set-out-of-range", wall_too_thick, "a length of 0.3 to 20 mm", NULL },
  { "set-infinite", wall_infinite, "wall_mm", NULL },
  { "set-no-part", no_such_part, "middle", NULL },
  { "set-no-element", no_such_element, "\"z\"", NULL },
  { "refer-to-nothing", hose_to_nothing, "nowhere", NULL },
  { "refer-to-wrong-kind", hose_to_tank, "engine_ports", NULL },
  { "needed-reference-emptied", hose_from_none, "from", NULL },
  { "add", add_tank, NULL, "Adding tank" },
  { "add-first", add_tank_first, NULL, "Adding top" },
  { "add-twice", add_twice, "there already", NULL },
  { "add-without-reference", add_without_core, "core", NULL },
  { "add-element", add_via, NULL, NULL },
  { "add-element-twice", add_via_twice, "there already", NULL },
  { "remove", remove_baffle, NULL, "Removal of baffle-7" },
  { "remove-element", remove_via, NULL, NULL },
  { "remove-referred", remove_used_tank, "Left tank cannot be removed while baffle-7", NULL },
  { "remove-whole", remove_core_whole, NULL, "Removal of core" },
  { "reorder", reorder_tank, NULL, NULL },
  { "reorder-element", reorder_via, NULL, NULL },
  { "group", group_of_two, NULL, "Two things" },
  { "group-refused", group_refused_late, "wall_mm", NULL },
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (TwJob) job = make ();
  g_autoptr (TwChange) change = c->make (), inverse = NULL, forth = NULL;
  g_autofree char *before = tw_job_write_text (job), *label = tw_change_label (change, job), *done = NULL,
                  *after = NULL, *again = NULL;
  g_autoptr (GError) error = NULL;
  gboolean ok = tw_change_apply (change, job, &inverse, &error);

  done = tw_job_write_text (job);
  if (c->refused != NULL) {
    g_assert_false (ok);
    g_assert_null (inverse);
    g_assert_nonnull (strstr (error->message, c->refused));
    g_assert_cmpstr (done, ==, before);
    return;
  }
  g_assert_no_error (error);
  g_assert_true (ok);
  g_assert_cmpstr (done, !=, before);
  if (c->label != NULL)
    g_assert_cmpstr (label, ==, c->label);
  g_assert_true (tw_change_apply (inverse, job, &forth, NULL));
  after = tw_job_write_text (job);
  g_assert_cmpstr (after, ==, before);
  g_clear_pointer (&inverse, tw_change_free);
  g_assert_true (tw_change_apply (forth, job, &inverse, NULL));
  again = tw_job_write_text (job);
  g_assert_cmpstr (again, ==, done);
}

static void
do_ok (TwHistory *history, TwChange *change)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (tw_history_do (history, change, &error));
  g_assert_no_error (error);
}

static double
place (TwJob *job)
{
  return ((const TwBaffle *)tw_job_find (job, id ("baffle-7")))->place_mm;
}

/* A drag of many moves is one step, named at its opening, and Escape puts everything back. */
static void
test_drag (void)
{
  g_autoptr (TwJob) job = make ();
  g_autoptr (TwHistory) history = tw_history_new (job);

  tw_history_open (history, "Move of the baffle");
  for (int i = 0; i < 100; i++)
    do_ok (history, set_number ("baffle-7", "", "place_mm", TW_KIND_BAFFLE, i));
  tw_history_close (history);
  g_assert_cmpstr (tw_history_undo_label (history), ==, "Move of the baffle");
  g_assert_false (tw_history_is_saved (history));
  tw_history_undo (history);
  g_assert_cmpfloat (place (job), ==, 5);
  g_assert_false (tw_history_can_undo (history));
  g_assert_true (tw_history_is_saved (history));
  tw_history_redo (history);
  g_assert_cmpfloat (place (job), ==, 99);

  tw_history_open (history, NULL);
  do_ok (history, set_number ("baffle-7", "", "place_mm", TW_KIND_BAFFLE, 1));
  do_ok (history, remove_via ());
  tw_history_cancel (history);
  g_assert_cmpfloat (place (job), ==, 99);
  g_assert_cmpuint (((const TwHose *)tw_job_find (job, id ("run")))->vias->len, ==, 2);

  tw_history_open (history, NULL);
  do_ok (history, set_number ("baffle-7", "", "place_mm", TW_KIND_BAFFLE, 1));
  do_ok (history, set_number ("baffle-7", "", "place_mm", TW_KIND_BAFFLE, 99));
  tw_history_close (history); /* back where it was: no step */
  tw_history_undo (history);
  g_assert_cmpfloat (place (job), ==, 5);
}

static void
test_saved_mark (void)
{
  g_autoptr (TwJob) job = make ();
  g_autoptr (TwHistory) history = tw_history_new (job);

  do_ok (history, move_baffle ());
  do_ok (history, move_via ());
  tw_history_mark_saved (history);
  g_assert_true (tw_history_is_saved (history));
  tw_history_undo (history);
  g_assert_false (tw_history_is_saved (history));
  tw_history_redo (history);
  g_assert_true (tw_history_is_saved (history));
  tw_history_undo (history);
  do_ok (history, set_flow ()); /* the saved state can no longer be reached */
  g_assert_false (tw_history_is_saved (history));
  g_assert_false (tw_history_can_redo (history));
  tw_history_undo (history);
  tw_history_undo (history);
  g_assert_false (tw_history_is_saved (history));
}

static void
count_cb (const TwJob *job, gpointer data)
{
  ++*(int *)data;
}

/* Watchers hear of a group once, and of a refused change never with another content. */
static void
test_watch (void)
{
  g_autoptr (TwJob) job = make ();
  g_autoptr (TwChange) group = group_of_two (), inverse = NULL;
  int heard = 0;
  guint watch = tw_job_watch (job, count_cb, &heard);

  g_assert_true (tw_change_apply (group, job, &inverse, NULL));
  g_assert_cmpint (heard, ==, 1);
  tw_job_unwatch (job, watch);
  g_clear_pointer (&inverse, tw_change_free);
  g_clear_pointer (&group, tw_change_free);
  group = move_via ();
  g_assert_true (tw_change_apply (group, job, &inverse, NULL));
  g_assert_cmpint (heard, ==, 1);
}

/* Ids are given once, also after their part is gone. */
static void
test_new_ids (void)
{
  g_autoptr (TwJob) job = make ();
  g_autoptr (TwHistory) history = tw_history_new (job);

  g_assert_cmpstr (tw_job_new_id (job, TW_KIND_BAFFLE).text, ==, "baffle-8");
  do_ok (history, add_tank ());
  g_assert_nonnull (tw_job_find (job, id ("tank-1")));
  tw_history_undo (history);
  do_ok (history, add_tank ());
  g_assert_null (tw_job_find (job, id ("tank-1")));
  g_assert_nonnull (tw_job_find (job, id ("tank-2")));
}

/* Text as typed, what it becomes, and a word of the refusal. */
typedef struct {
  TwKind kind;
  const char *field, *text;
  gboolean inches;
  double number;
  const char *typed, *refused;
} Typed;

static const Typed typed_cases[] = {
  { TW_KIND_TANK, "width_mm", "610", FALSE, 610, "610 mm", NULL },
  { TW_KIND_TANK, "width_mm", "2 1/2", TRUE, 63.5, NULL, NULL },
  { TW_KIND_TANK, "width_mm", "3", TRUE, 76.2, "3 in", NULL },
  { TW_KIND_TANK, "width_mm", " 6 cm ", TRUE, 60, "6 cm", NULL },
  { TW_KIND_TANK, "width_mm", "12 zz", FALSE, 0, NULL, "12 zz" },
  { TW_KIND_TANK, "width_mm", "9 m", FALSE, 0, NULL, "width_mm" },
  { TW_KIND_CORE, "lean_deg", "40", FALSE, 40, NULL, NULL },
  { TW_KIND_CORE, "rows", "2", FALSE, 2, NULL, NULL },
  { TW_KIND_CORE, "rows", "2.5", FALSE, 0, NULL, "rows" },
  { TW_KIND_CORE, "rows", "0", FALSE, 0, NULL, "a whole number of 1 to 12" },
  { TW_KIND_TANK, "side", "right", FALSE, 1, NULL, NULL },
  { TW_KIND_TANK, "side", "north", FALSE, 0, NULL, "\"bottom\"" },
  { TW_KIND_SHROUD, "sealed", "no", FALSE, 0, NULL, NULL },
  { TW_KIND_SHROUD, "sealed", "maybe", FALSE, 0, NULL, "true or false" },
  { TW_KIND_TANK, "name", "a\001b", FALSE, 0, NULL, "control" },
  { TW_KIND_HOSE, "from", "Not An Id", FALSE, 0, NULL, "from" },
};

static void
test_typed (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (typed_cases); i++) {
    const Typed *c = &typed_cases[i];
    const TwField *field = &tw_kind_info (c->kind)->fields[tw_kind_field (c->kind, c->field)];
    TwUnitStyle style = c->inches ? TW_UNIT_STYLE_IN : TW_UNIT_STYLE_MM;
    g_autoptr (GError) error = NULL;
    TwValue value;
    gboolean ok = tw_value_parse (field, &style, c->text, &value, &error);

    g_test_message ("%s %s", c->field, c->text);
    if (c->refused != NULL) {
      g_assert_false (ok);
      g_assert_nonnull (strstr (error->message, c->refused));
      continue;
    }
    g_assert_no_error (error);
    if (field->store == TW_FIELD_NUMBER)
      g_assert_cmpfloat_with_epsilon (value.number, c->number, 1e-9);
    else
      g_assert_cmpint (value.choice, ==, (int)c->number);
    if (c->typed != NULL)
      g_assert_cmpstr (value.typed, ==, c->typed);
    tw_value_clear (&value);
  }
}

/* Members of the file that look like ours but are not are kept too. */
static void
test_unknown_members (void)
{
  g_autoptr (TwJob) job = make ();
  g_autofree char *text = tw_job_write_text (job);

  g_assert_nonnull (strstr (text, "\"circuit\": { \"litres\": 7.25 },\n  \"tank\": 5,\n  \"id\": \"x\"\n}"));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strdup_printf ("/job/change/%s", cases[i].name);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  g_test_add_func ("/job/history/drag", test_drag);
  g_test_add_func ("/job/history/saved-mark", test_saved_mark);
  g_test_add_func ("/job/job/watch", test_watch);
  g_test_add_func ("/job/job/new-ids", test_new_ids);
  g_test_add_func ("/job/read/unknown-members", test_unknown_members);
  g_test_add_func ("/job/value/typed", test_typed);
  return g_test_run ();
}
