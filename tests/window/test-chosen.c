/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * test-chosen.c - several chosen parts, the leading one, its element; no window is needed
 *
 * A line of words alters the set: `a` chooses a alone, `+a` toggles it, `a/e` its element e, `a/` none, `!`
 * checks against a job that has only the parts x and y, x without elements. Expected: what is chosen, the
 * lead last, `/` and the element.
 */
#include "app/chosen.h"
#include "job/change.h"

typedef struct {
  const char *name;
  const char *steps;
  const char *expected;
} Case;

static const Case cases[] = {
  { "one", "a", "a" },
  { "another", "a b", "b" },
  { "also", "a +b +c", "a b c" },
  { "also-again-leaves", "a +b +a", "b" },
  { "lead-leaves", "a +b +b", "a" },
  { "all-leave", "a +a", "" },
  { "job-alone", "a +job", "job" },
  { "from-job", "job +a", "a" },
  { "list", "a,b,c", "a b c" },
  { "list-without-job", "a,job,c", "a c" },
  { "list-once", "a,b,a", "a b" },
  { "element", "a/e", "a/e" },
  { "element-of-another", "a b/e", "b/e" },
  { "element-of-one-of-several", "a,b,c a/e", "b c a/e" },
  { "element-off", "a/e a/", "a" },
  { "element-stays-with-its-part", "a/e a", "a/e" },
  { "element-goes-with-another", "a/e b", "b" },
  { "element-goes-with-several", "a/e +b", "a b" },
  { "removed", "x,a,y !", "x y" },
  { "removed-lead", "x,y,a !", "x y" },
  { "removed-element", "x/e !", "x" },
};

static TwId
id_of (const char *text)
{
  TwId id;

  g_assert_true (tw_id_from_text (text, &id));
  return id;
}

static void
check (TwChosen *chosen)
{
  g_autoptr (TwJob) job = tw_job_new ();
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < 2; i++) {
    TwChange *inverse = NULL;
    g_autoptr (TwChange) change = tw_change_add (tw_part_new (TW_KIND_VOLUME, id_of (i ? "y" : "x")), -1);

    g_assert_true (tw_change_apply (change, job, &inverse, &error));
    tw_change_free (inverse);
  }
  (void)tw_chosen_check (chosen, job);
}

static void
step (TwChosen *chosen, const char *word)
{
  g_auto (GStrv) halves = g_strsplit (word, "/", 2);
  g_auto (GStrv) parts = g_strsplit (word, ",", -1);
  guint n = g_strv_length (parts);
  g_autofree TwId *ids = g_new0 (TwId, n);

  if (word[0] == '!') {
    check (chosen);
  } else if (word[0] == '+') {
    (void)tw_chosen_toggle (chosen, id_of (word + 1));
  } else if (halves[1] != NULL) {
    (void)tw_chosen_set_element (chosen, id_of (halves[0]), halves[1][0] ? id_of (halves[1]) : TW_ID_NONE);
  } else {
    for (guint i = 0; i < n; i++)
      ids[i] = id_of (parts[i]);
    (void)tw_chosen_set (chosen, ids, n);
  }
}

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_auto (GStrv) words = g_strsplit (c->steps, " ", -1);
  TwChosen *chosen = tw_chosen_new ();
  GString *text = g_string_new (NULL);
  const TwId *parts;
  guint n;

  for (guint i = 0; words[i] != NULL; i++)
    step (chosen, words[i]);
  parts = tw_chosen_parts (chosen, &n);
  for (guint i = 0; i < n; i++)
    g_string_append_printf (text, "%s%s", i ? " " : "", parts[i].text);
  if (!tw_id_is_none (tw_chosen_element (chosen)))
    g_string_append_printf (text, "/%s", tw_chosen_element (chosen).text);
  g_assert_cmpstr (text->str, ==, c->expected);
  g_assert_cmpstr (tw_chosen_lead (chosen).text, ==, n ? parts[n - 1].text : "");
  g_string_free (text, TRUE);
  tw_chosen_free (chosen);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *path = g_strconcat ("/window/chosen/", cases[i].name, NULL);

    g_test_add_data_func (path, &cases[i], test_case);
  }
  return g_test_run ();
}
