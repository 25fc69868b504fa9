/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "base/units.h"
#include "cli/verbs.h"
#include "job/change.h"
#include "job/write.h"
#include "propose/first-layout.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

/* What was given as options, as typed; all NULL or FALSE at first. */
typedef struct {
  char *width, *height, *depth;
  char *heat, *brake, *share, *share_of;
  char *ambient, *coolant, *air_from;
  char *kind, *tubes, *name, *output;
  gboolean inches, no_fans, list_kinds, list_coolants, explain;
} Given;

/* One question: its option, what it asks when a person sits there, and what the answer is. */
typedef struct {
  char **answer; /* NULL in it: left open */
  const char *option;
  const char *question; /* N_()-marked; NULL: not asked */
  TwQuantity quantity;
  gboolean needed;
  double *value; /* in the unit of its quantity */
} Question;

static void
clear_given (Given *self)
{
  char **texts[] = { &self->width, &self->height,   &self->depth,   &self->heat,    &self->brake,
                     &self->share, &self->share_of, &self->ambient, &self->coolant, &self->air_from,
                     &self->kind,  &self->tubes,    &self->name,    &self->output };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    g_clear_pointer (texts[i], g_free);
}

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
take_figures (Given *given, TwFirstLayoutWish *wish, const TwUnitStyle *style)
{
  Question questions[] = {
    { &given->width, "width", N_ ("How wide is the free room (across)?"), TW_QUANTITY_LENGTH, TRUE,
      &wish->bay_width_mm },
    { &given->height, "height", N_ ("How high?"), TW_QUANTITY_LENGTH, TRUE, &wish->bay_height_mm },
    { &given->depth, "depth", N_ ("How deep, along the air?"), TW_QUANTITY_LENGTH, TRUE,
      &wish->bay_depth_mm },
    { &given->heat, "heat", N_ ("How much heat must it lose (kW, may be left open)?"), TW_QUANTITY_POWER,
      FALSE, &wish->heat_kw },
    { &given->brake, "brake", NULL, TW_QUANTITY_POWER, FALSE, &wish->brake_kw },
    { &given->share, "share", NULL, TW_QUANTITY_SHARE, FALSE, &wish->share },
    { &given->ambient, "ambient", N_ ("How hot is the air on the worst day (°C, may be left open)?"),
      TW_QUANTITY_TEMPERATURE, FALSE, &wish->ambient_c },
  };
  gboolean terminal = isatty (STDIN_FILENO) && isatty (STDERR_FILENO);

  for (guint i = 0; i < G_N_ELEMENTS (questions); i++) {
    Question *q = &questions[i];
    GError *error = NULL;

    if (*q->answer == NULL && q->question != NULL && terminal)
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

/* Place of @word among @words, -1 when it is none of them. */
static int
place_of (const char *word, const char *const *words, guint n)
{
  for (guint i = 0; i < n; i++)
    if (g_str_equal (word, words[i]))
      return (int)i;
  return -1;
}

static TwCliStatus
take_words (const Given *given, TwFirstLayoutWish *wish)
{
  static const char *const ways[] = { "level", "upright" }, *const bases[] = { "brake", "fuel" };
  const char *airs[TW_FIRST_N_AIRS];
  int way = given->tubes ? place_of (given->tubes, ways, G_N_ELEMENTS (ways)) : 0, air = 0, base = 0;

  for (guint i = 0; i < TW_FIRST_N_AIRS; i++)
    airs[i] = tw_first_air_id (i);
  if (given->air_from != NULL)
    air = place_of (given->air_from, airs, TW_FIRST_N_AIRS);
  if (given->share_of != NULL)
    base = place_of (given->share_of, bases, G_N_ELEMENTS (bases));
  if (way < 0)
    return tw_cli_usage ("new", _ ("--tubes is level or upright."));
  if (base < 0)
    return tw_cli_usage ("new", _ ("--of is brake or fuel."));
  if (air < 0)
    return tw_cli_usage ("new", _ ("--air-from is front, rear, left or right."));
  if ((given->share != NULL || given->share_of != NULL) && given->brake == NULL)
    return tw_cli_usage ("new", _ ("--share and --of go with --brake."));
  if (given->brake != NULL && given->heat != NULL)
    return tw_cli_usage ("new", _ ("--heat or --brake, not both."));
  if (given->tubes != NULL)
    wish->tubes = way == 0 ? TW_TUBES_LEVEL : TW_TUBES_UPRIGHT;
  wish->share_of = base == 0 ? TW_FIRST_OF_BRAKE : TW_FIRST_OF_FUEL;
  wish->air_from = (TwFirstAir)air;
  wish->name = given->name;
  wish->core_kind = given->kind;
  wish->coolant = given->coolant;
  wish->fans = !given->no_fans;
  wish->shown_in = given->inches ? TW_SHOWN_IN_INCH : TW_SHOWN_IN_MM;
  return TW_CLI_OK;
}

/* The name as the job file takes it. */
static gboolean
check_name (const char *name, GError **error)
{
  const TwField *field = &tw_kind_info (TW_KIND_SETTINGS)->fields[TW_SETTINGS_name];
  TwValue value = tw_value_text (name);
  gboolean ok = tw_value_check (field, &value, error);

  tw_value_clear (&value);
  return ok;
}

static void
say_entries (const TwCatalogue *catalogue, TwCatalogueList list)
{
  for (guint i = 0; i < tw_catalogue_count (catalogue, list); i++) {
    const TwEntry *entry = tw_catalogue_get (catalogue, list, i);

    g_print ("%-20s %s\n", tw_entry_id (entry), tw_entry_name (entry));
  }
}

/* A line for each answer that cannot be taken. */
static TwCliStatus
say_refusals (const TwFirstLayout *made)
{
  g_autoptr (GString) lines = g_string_new (NULL);

  for (guint i = 0; i < made->refusals->len; i++) {
    const TwFirstRefusal *refusal = g_ptr_array_index (made->refusals, i);

    g_string_append_printf (lines, "%s%s: %s", i > 0 ? "\n" : "", _ (tw_first_answer_name (refusal->answer)),
                            refusal->words);
  }
  return tw_cli_fail (g_error_new_literal (TW_ERROR, TW_ERROR_REFUSED, lines->str));
}

static void
say_choices (const TwFirstLayout *made)
{
  for (guint i = 0; i < made->choices->len; i++) {
    const TwFirstChoice *choice = g_ptr_array_index (made->choices, i);

    g_printerr ("%s: %s\n", choice->what, choice->why);
  }
}

static TwCliStatus
make (const Given *given, const TwFirstLayoutWish *wish, const TwCatalogue *catalogue, char decimal)
{
  g_autoptr (TwFirstLayout) made = tw_first_layout_make (wish, catalogue, decimal);
  g_autofree char *text = NULL;

  if (made->job == NULL)
    return say_refusals (made);
  if (given->explain)
    say_choices (made);
  text = tw_job_write_text (made->job);
  return tw_cli_write (given->output, text);
}

static TwCliStatus
answer (Given *given)
{
  TwFirstLayoutWish wish = tw_first_layout_wish ();
  TwUnitStyle style = given->inches ? TW_UNIT_STYLE_IN : TW_UNIT_STYLE_MM;
  g_autoptr (TwCatalogue) catalogue = tw_cli_catalogue ();
  g_autoptr (TwJob) empty = tw_job_new ();
  GError *error = NULL;
  TwCliStatus status;

  if (catalogue == NULL)
    return TW_CLI_FAILED;
  if (given->list_kinds || given->list_coolants) {
    say_entries (catalogue, given->list_kinds ? TW_CATALOGUE_CORE_KINDS : TW_CATALOGUE_COOLANTS);
    return TW_CLI_OK;
  }
  if (!check_name (given->name, &error))
    return tw_cli_fail (error);
  status = take_words (given, &wish);
  if (status == TW_CLI_OK)
    status = take_figures (given, &wish, &style);
  if (status != TW_CLI_OK)
    return status;
  return make (given, &wish, catalogue, tw_cli_style (empty).decimal);
}

static gboolean
takes_options_only (int argc)
{
  if (argc > 1)
    tw_cli_usage ("new", _ ("It takes options only."));
  return argc == 1;
}

TwCliStatus
tw_cli_new (int argc, char **argv)
{
  Given g = { 0 };
  const GOptionEntry entries[] = {
    { "width", 0, 0, G_OPTION_ARG_STRING, &g.width, N_ ("free room across: 920, 36 1/2 in"), N_ ("LENGTH") },
    { "height", 0, 0, G_OPTION_ARG_STRING, &g.height, N_ ("free room upwards"), N_ ("LENGTH") },
    { "depth", 0, 0, G_OPTION_ARG_STRING, &g.depth, N_ ("free room along the air"), N_ ("LENGTH") },
    { "heat", 0, 0, G_OPTION_ARG_STRING, &g.heat, N_ ("heat to reject: 42, 60 hp"), N_ ("POWER") },
    { "brake", 0, 0, G_OPTION_ARG_STRING, &g.brake, N_ ("or the engine's brake power"), N_ ("POWER") },
    { "share", 0, 0, G_OPTION_ARG_STRING, &g.share,
      N_ ("what of it goes to the water: 60 %, usual if not said"), N_ ("SHARE") },
    { "of", 0, 0, G_OPTION_ARG_STRING, &g.share_of, N_ ("what that is a share of: brake (power) or fuel"),
      N_ ("WHAT") },
    { "ambient", 0, 0, G_OPTION_ARG_STRING, &g.ambient, N_ ("air on the worst day: 32, 90 F"),
      N_ ("TEMPERATURE") },
    { "coolant", 0, 0, G_OPTION_ARG_STRING, &g.coolant, N_ ("water or mix; --coolants lists them"),
      N_ ("COOLANT") },
    { "air-from", 0, 0, G_OPTION_ARG_STRING, &g.air_from,
      N_ ("front (if not said), rear, left or right of the vehicle"), N_ ("END") },
    { "kind", 0, 0, G_OPTION_ARG_STRING, &g.kind, N_ ("kind of core; --kinds lists them; chosen if not said"),
      N_ ("KIND") },
    { "tubes", 0, 0, G_OPTION_ARG_STRING, &g.tubes, N_ ("level or upright; as it fits best if not said"),
      N_ ("WAY") },
    { "no-fans", 0, 0, G_OPTION_ARG_NONE, &g.no_fans, N_ ("leave out shroud and fans"), NULL },
    { "inches", 0, 0, G_OPTION_ARG_NONE, &g.inches, N_ ("an inch job: figures without a unit are inches"),
      NULL },
    { "name", 0, 0, G_OPTION_ARG_STRING, &g.name, N_ ("name of the job"), N_ ("NAME") },
    { "explain", 0, 0, G_OPTION_ARG_NONE, &g.explain, N_ ("say on standard error what was chosen, and why"),
      NULL },
    { "kinds", 0, 0, G_OPTION_ARG_NONE, &g.list_kinds, N_ ("list the kinds of core and end"), NULL },
    { "coolants", 0, 0, G_OPTION_ARG_NONE, &g.list_coolants, N_ ("list the coolants and end"), NULL },
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &g.output, N_ ("write to FILE instead of standard output"),
      N_ ("FILE") },
    { NULL },
  };
  TwCliStatus status = TW_CLI_USAGE;

  if (tw_cli_options ("new", entries, &argc, &argv) && takes_options_only (argc))
    status = answer (&g);
  clear_given (&g);
  return status;
}
