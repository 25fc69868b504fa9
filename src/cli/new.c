/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "base/units.h"
#include "cli/verbs.h"
#include "job/write.h"
#include "propose/first-layout.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

/* One question: its option, what it asks when a person sits there, and what the answer is. */
typedef struct {
  char **answer; /* owned by the caller; NULL in it: left open */
  const char *option;
  const char *question; /* N_()-marked */
  TwQuantity quantity;
  gboolean needed;
  double *value; /* in the unit of its quantity */
} Question;

/* Asks on the terminal what the options left open; no answer leaves it open. */
static void
ask (Question *question)
{
  char line[200];

  g_printerr ("%s ", _ (question->question));
  if (fgets (line, sizeof line, stdin) != NULL && g_strstrip (line)[0] != '\0')
    *question->answer = g_strdup (line);
}

static TwCliStatus
take_answers (Question *questions, guint n, const TwUnitStyle *style)
{
  gboolean terminal = isatty (STDIN_FILENO) && isatty (STDERR_FILENO);

  for (guint i = 0; i < n; i++) {
    Question *q = &questions[i];
    GError *error = NULL;

    if (*q->answer == NULL && terminal)
      ask (q);
    if (*q->answer == NULL && q->needed) {
      g_autofree char *what = g_strdup_printf (_ ("--%s is wanted."), q->option);

      return tw_cli_usage ("new", what);
    }
    if (*q->answer != NULL && !tw_units_parse (q->quantity, style, *q->answer, q->value, &error)) {
      g_prefix_error (&error, "--%s: ", q->option);
      return tw_cli_fail (error);
    }
  }
  return TW_CLI_OK;
}

static void
say_kinds (const TwCatalogue *catalogue)
{
  for (guint i = 0; i < tw_catalogue_count (catalogue, TW_CATALOGUE_CORE_KINDS); i++) {
    const TwEntry *entry = tw_catalogue_get (catalogue, TW_CATALOGUE_CORE_KINDS, i);

    g_print ("%-20s %s\n", tw_entry_id (entry), tw_entry_name (entry));
  }
}

static gboolean
takes_options_only (int argc)
{
  if (argc > 1)
    tw_cli_usage ("new", _ ("It takes options only."));
  return argc == 1;
}

static TwCliStatus
make (const TwFirstLayoutWish *wish, const TwCatalogue *catalogue, const char *output)
{
  GError *error = NULL;
  g_autoptr (TwJob) job = tw_first_layout (wish, catalogue, &error);
  g_autofree char *text = NULL;

  if (job == NULL)
    return tw_cli_fail (error);
  text = tw_job_write_text (job);
  return tw_cli_write (output, text);
}

TwCliStatus
tw_cli_new (int argc, char **argv)
{
  TwFirstLayoutWish wish = tw_first_layout_wish ();
  g_autofree char *width = NULL, *height = NULL, *depth = NULL, *heat = NULL;
  Question questions[] = {
    { &width, "width", N_ ("How wide is the free room (across)?"), TW_QUANTITY_LENGTH, TRUE,
      &wish.bay_width_mm },
    { &height, "height", N_ ("How high?"), TW_QUANTITY_LENGTH, TRUE, &wish.bay_height_mm },
    { &depth, "depth", N_ ("How deep, along the air?"), TW_QUANTITY_LENGTH, TRUE, &wish.bay_depth_mm },
    { &heat, "heat", N_ ("How much heat must it lose (kW, may be left open)?"), TW_QUANTITY_POWER, FALSE,
      &wish.heat_kw },
  };
  g_autofree char *name = NULL, *kind = NULL, *output = NULL, *tubes = NULL;
  gboolean inches = FALSE, no_fans = FALSE, kinds = FALSE;
  const GOptionEntry entries[] = {
    { "width", 0, 0, G_OPTION_ARG_STRING, &width, N_ ("free room across: 920, 36 1/2 in"), N_ ("LENGTH") },
    { "height", 0, 0, G_OPTION_ARG_STRING, &height, N_ ("free room upwards"), N_ ("LENGTH") },
    { "depth", 0, 0, G_OPTION_ARG_STRING, &depth, N_ ("free room along the air"), N_ ("LENGTH") },
    { "heat", 0, 0, G_OPTION_ARG_STRING, &heat, N_ ("heat to reject; kept for the duty cases"),
      N_ ("POWER") },
    { "kind", 0, 0, G_OPTION_ARG_STRING, &kind, N_ ("kind of core; --kinds lists them"), N_ ("KIND") },
    { "tubes", 0, 0, G_OPTION_ARG_STRING, &tubes, N_ ("level or upright; along the longer side if not said"),
      N_ ("WAY") },
    { "no-fans", 0, 0, G_OPTION_ARG_NONE, &no_fans, N_ ("leave out shroud and fans"), NULL },
    { "inches", 0, 0, G_OPTION_ARG_NONE, &inches, N_ ("an inch job: figures without a unit are inches"),
      NULL },
    { "name", 0, 0, G_OPTION_ARG_STRING, &name, N_ ("name of the job"), N_ ("NAME") },
    { "kinds", 0, 0, G_OPTION_ARG_NONE, &kinds, N_ ("list the kinds of core and end"), NULL },
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &output, N_ ("write to FILE instead of standard output"),
      N_ ("FILE") },
    { NULL },
  };
  g_autoptr (TwCatalogue) catalogue = NULL;
  TwCliStatus status;
  TwUnitStyle style;

  if (!tw_cli_options ("new", entries, &argc, &argv) || !takes_options_only (argc))
    return TW_CLI_USAGE;
  catalogue = tw_cli_catalogue ();
  if (catalogue == NULL)
    return TW_CLI_FAILED;
  if (kinds) {
    say_kinds (catalogue);
    return TW_CLI_OK;
  }
  if (tubes != NULL && !g_str_equal (tubes, "level") && !g_str_equal (tubes, "upright"))
    return tw_cli_usage ("new", _ ("--tubes is level or upright."));

  style = inches ? TW_UNIT_STYLE_IN : TW_UNIT_STYLE_MM;
  status = take_answers (questions, G_N_ELEMENTS (questions), &style);
  if (status != TW_CLI_OK)
    return status;
  wish.name = name;
  wish.core_kind = kind;
  wish.fans = !no_fans;
  wish.shown_in = inches ? TW_SHOWN_IN_INCH : TW_SHOWN_IN_MM;
  wish.tubes = tubes == NULL ? -1 : g_str_equal (tubes, "level") ? TW_TUBES_LEVEL : TW_TUBES_UPRIGHT;
  return make (&wish, catalogue, output);
}
