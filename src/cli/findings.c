/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "base/json.h"
#include "cards/cards.h"
#include "cards/json.h"
#include "cards/text.h"
#include "cli/verbs.h"
#include "job/change.h"
#include "job/read.h"

static TwCliStatus
status_of (const TwFindings *findings)
{
  if (tw_findings_count_of (findings, TW_SEVERITY_STOP) > 0)
    return TW_CLI_STOP;
  return tw_findings_count_of (findings, TW_SEVERITY_WARN) > 0 ? TW_CLI_WARN : TW_CLI_OK;
}

static char *
findings_as_json (const TwFindings *findings)
{
  cJSON *tree = tw_findings_json (findings);
  char *text = tw_json_print (tree);

  cJSON_Delete (tree);
  return text;
}

TwCliStatus
tw_cli_findings (int argc, char **argv)
{
  gboolean json = FALSE;
  const GOptionEntry entries[] = {
    { "json", 0, 0, G_OPTION_ARG_NONE, &json, N_ ("as JSON, in base units, neither rounded nor translated"),
      NULL },
    { NULL },
  };
  g_autoptr (TwCatalogue) catalogue = NULL;
  g_autoptr (TwAnswer) answer = NULL;
  g_autoptr (GPtrArray) cards = NULL;
  g_autoptr (TwJob) job = NULL;
  g_autofree char *text = NULL;
  const TwFindings *findings;
  GError *error = NULL;
  TwUnitStyle style;
  TwCliStatus status;
  const char *path;

  if (!tw_cli_options ("findings", entries, &argc, &argv)
      || (path = tw_cli_one_file ("findings", argc, argv)) == NULL)
    return TW_CLI_USAGE;
  job = tw_job_read_file (path, &error);
  if (job == NULL)
    return tw_cli_fail (error);
  catalogue = tw_cli_catalogue ();
  if (catalogue == NULL)
    return TW_CLI_FAILED;
  answer = tw_answer_new (job, catalogue, NULL);
  findings = tw_answer_findings (answer);
  style = tw_cli_style (job);
  cards = tw_cards_new (answer, NULL, &style);
  text = json ? findings_as_json (findings) : tw_card_text (tw_cards_find (cards, "findings"), 0);
  status = tw_cli_write (NULL, text);
  return status == TW_CLI_OK ? status_of (findings) : status;
}
