/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Cards of random jobs: whatever is drawn, they have a shape that window and command can count on.
 */
#include "cards/cards.h"
#include "cards/json.h"
#include "cards/text.h"
#include "support/make-job.h"

#include <math.h>

#define JOBS 80

static void
check_figures (const GArray *figures)
{
  for (guint i = 0; i < figures->len; i++) {
    const TwCardFigure *figure = &g_array_index (figures, TwCardFigure, i);
    gboolean is_left_out = (figure->figure.flags & TW_FIGURE_NOT_COMPUTED) != 0;

    g_assert_cmpint (isfinite (figure->figure.value), ==, !is_left_out);
    for (guint k = 0; k < i; k++)
      g_assert_cmpstr (g_array_index (figures, TwCardFigure, k).key, !=, figure->key);
  }
}

static void
check_card (const TwCard *card, const TwDrawing *drawing)
{
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);

  check_figures (card->figures);
  g_assert_true (card->where == NULL || tw_card_where (card, card->where) != NULL);
  for (guint i = 0; i < card->rows->len; i++) {
    const TwCardRow *row = g_ptr_array_index (card->rows, i);

    if (!g_hash_table_add (ids, row->id))
      g_error ("%s has two rows %s", card->id, row->id);
    g_assert_true (g_utf8_validate (row->label, -1, NULL));
    g_assert_true (g_utf8_validate (row->text, -1, NULL));
    g_assert_true (row->where == NULL || tw_card_where (card, row->where) != NULL);
    check_figures (row->figures);
    for (guint k = 0; k < row->parts->len; k++)
      g_assert_nonnull (tw_drawing_find (drawing, g_array_index (row->parts, TwId, k)));
  }
}

static void
test_any_job (void)
{
  static const char *const order[]
      = { "frontal", "coverage", "passes", "hoses", "fit", "findings", "assumed" };
  g_autoptr (GError) error = NULL;
  g_autoptr (TwCatalogue) catalogue = tw_catalogue_load (&error);
  g_autoptr (TwSources) sources = tw_sources_load (&error);
  g_autoptr (TwGeos) geos = tw_geos_new ();

  g_assert_no_error (error);
  for (guint seed = 0; seed < JOBS; seed++) {
    g_autoptr (TwJob) job = tw_random_job (seed);
    g_autoptr (TwAnswer) answer = tw_answer_new (job, catalogue, geos);
    TwUnitStyle style = tw_job_unit_style (job);
    g_autoptr (GPtrArray) cards = tw_cards_new (answer, sources, &style);
    g_autofree char *text = tw_cards_text (cards, TW_TEXT_NOTES | TW_TEXT_WHERE);
    cJSON *tree = tw_cards_json (cards);
    g_autofree char *json = tw_json_print (tree);

    g_test_message ("seed %u", seed);
    g_assert_true (g_utf8_validate (text, -1, NULL));
    g_assert_true (g_utf8_validate (json, -1, NULL));
    g_assert_cmpuint (cards->len, ==, G_N_ELEMENTS (order));
    for (guint i = 0; i < cards->len; i++) {
      g_assert_cmpstr (((const TwCard *)g_ptr_array_index (cards, i))->id, ==, order[i]);
      check_card (g_ptr_array_index (cards, i), tw_answer_drawing (answer));
    }
    cJSON_Delete (tree);
  }
}

/* Nothing drawn: every card says what is missing, or that nothing is there. */
static void
test_empty_job (void)
{
  static const struct {
    const char *card;
    TwKind add;
  } cases[] = {
    { "frontal", TW_KIND_CORE }, { "coverage", TW_KIND_CORE }, { "passes", TW_KIND_CORE },
    { "hoses", TW_KIND_HOSE },   { "fit", TW_KIND_VOLUME },
  };
  g_autoptr (GError) error = NULL;
  g_autoptr (TwCatalogue) catalogue = tw_catalogue_load (&error);
  g_autoptr (TwJob) job = tw_job_new ();
  g_autoptr (TwAnswer) answer = tw_answer_new (job, catalogue, NULL);
  TwUnitStyle style = tw_job_unit_style (job);
  g_autoptr (GPtrArray) cards = tw_cards_new (answer, NULL, &style);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++) {
    const TwCard *card = tw_cards_find (cards, cases[i].card);

    g_assert_nonnull (card->missing);
    g_assert_cmpint (card->missing_kind, ==, cases[i].add);
    g_assert_cmpstr (card->headline, ==, "–");
  }
}

/* The same bits, whether or not a handle was used before. */
static void
test_same_again (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TwCatalogue) catalogue = tw_catalogue_load (&error);
  g_autoptr (TwGeos) geos = tw_geos_new ();

  for (guint seed = 0; seed < 20; seed++) {
    g_autoptr (TwJob) job = tw_random_job (seed);
    char *texts[2];

    for (guint i = 0; i < 2; i++) {
      g_autoptr (TwAnswer) answer = tw_answer_new (job, catalogue, i == 0 ? geos : NULL);
      TwUnitStyle style = tw_job_unit_style (job);
      g_autoptr (GPtrArray) cards = tw_cards_new (answer, NULL, &style);
      cJSON *tree = tw_cards_json (cards);

      texts[i] = tw_json_print (tree);
      cJSON_Delete (tree);
    }
    g_assert_cmpstr (texts[0], ==, texts[1]);
    g_free (texts[0]);
    g_free (texts[1]);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cards/any-job", test_any_job);
  g_test_add_func ("/cards/empty-job", test_empty_job);
  g_test_add_func ("/cards/same-again", test_same_again);
  return g_test_run ();
}
