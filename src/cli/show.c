/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "base/json.h"
#include "base/source.h"
#include "cards/cards.h"
#include "cards/json.h"
#include "cards/text.h"
#include "cli/verbs.h"
#include "job/change.h"
#include "job/read.h"

#include <string.h>

/* Keeps the cards that were asked for, in the order of the cards; FALSE after naming one that there is not.
 */
static gboolean
choose (GPtrArray *cards, char **wanted)
{
  if (wanted == NULL)
    return TRUE;
  for (guint i = 0; wanted[i] != NULL; i++)
    if (tw_cards_find (cards, wanted[i]) == NULL) {
      g_autoptr (GString) what = g_string_new (NULL);

      g_string_printf (what, _ ("There is no panel \"%s\"; there are"), wanted[i]);
      for (guint k = 0; k < cards->len; k++)
        g_string_append_printf (what, " %s", ((const TwCard *)g_ptr_array_index (cards, k))->id);
      tw_cli_usage ("show", what->str);
      return FALSE;
    }
  for (guint k = cards->len; k > 0; k--)
    if (!g_strv_contains ((const char *const *)wanted,
                          ((const TwCard *)g_ptr_array_index (cards, k - 1))->id))
      g_ptr_array_remove_index (cards, k - 1);
  return TRUE;
}

static char *
cards_as_json (const GPtrArray *cards)
{
  cJSON *tree = tw_cards_json (cards);
  char *text = tw_json_print (tree);

  cJSON_Delete (tree);
  return text;
}

/* The flow given on the command line takes the place of the job's, for this call alone. */
static gboolean
set_flow (TwJob *job, const char *typed, GError **error)
{
  const TwField *field = &tw_kind_info (TW_KIND_SETTINGS)->fields[TW_SETTINGS_flow_l_min];
  TwUnitStyle style = tw_job_unit_style (job);
  g_autoptr (TwChange) change = NULL, inverse = NULL;
  TwValue value;

  if (typed == NULL)
    return TRUE;
  if (!tw_value_parse (field, &style, typed, &value, error))
    return FALSE;
  change = tw_change_set (((const TwPart *)tw_job_settings (job))->id, TW_ID_NONE, TW_SETTINGS_flow_l_min,
                          &value);
  return tw_change_apply (change, job, &inverse, error);
}

TwCliStatus
tw_cli_show (int argc, char **argv)
{
  g_auto (GStrv) panels = NULL;
  g_autofree char *flow = NULL, *text = NULL;
  gboolean json = FALSE, notes = FALSE, where = FALSE;
  const GOptionEntry entries[] = {
    { "panel", 'p', 0, G_OPTION_ARG_STRING_ARRAY, &panels,
      N_ ("only this panel; may be given more than once"), N_ ("PANEL") },
    { "flow", 0, 0, G_OPTION_ARG_STRING, &flow, N_ ("show velocities at this water flow"), N_ ("FLOW") },
    { "notes", 0, 0, G_OPTION_ARG_NONE, &notes, N_ ("with the definitions that change figures"), NULL },
    { "where-from", 0, 0, G_OPTION_ARG_NONE, &where, N_ ("with formula, source and inputs of the figures"),
      NULL },
    { "json", 0, 0, G_OPTION_ARG_NONE, &json, N_ ("as JSON, in base units, neither rounded nor translated"),
      NULL },
    { NULL },
  };
  g_autoptr (TwCatalogue) catalogue = NULL;
  g_autoptr (TwSources) sources = NULL;
  g_autoptr (TwAnswer) answer = NULL;
  g_autoptr (GPtrArray) cards = NULL;
  g_autoptr (TwJob) job = NULL;
  GError *error = NULL;
  TwUnitStyle style;
  const char *path;

  if (!tw_cli_options ("show", entries, &argc, &argv)
      || (path = tw_cli_one_file ("show", argc, argv)) == NULL)
    return TW_CLI_USAGE;
  job = tw_job_read_file (path, &error);
  if (job == NULL || !set_flow (job, flow, &error))
    return tw_cli_fail (error);
  catalogue = tw_cli_catalogue ();
  if (catalogue == NULL)
    return TW_CLI_FAILED;
  sources = tw_sources_load (&error);
  if (sources == NULL)
    return tw_cli_fail (error);
  answer = tw_answer_new (job, catalogue, NULL);
  style = tw_cli_style (job);
  cards = tw_cards_new (answer, sources, &style);
  if (!choose (cards, panels))
    return TW_CLI_USAGE;
  text = json ? cards_as_json (cards)
              : tw_cards_text (cards, (notes ? TW_TEXT_NOTES : 0) | (where ? TW_TEXT_WHERE : 0));
  return tw_cli_write (NULL, text);
}
