/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/verbs.h"

#include "base/error.h"
#include "job/change.h"
#include "job/write.h"

#include <glib/gstdio.h>
#include <locale.h>
#include <stdio.h>
#include <string.h>

const TwVerb tw_cli_verbs[] = {
  { "show", N_ ("FILE"), N_ ("print the panels: face, fans, passes, hoses, fit"), tw_cli_show },
  { "findings", N_ ("FILE"), N_ ("list what is wrong or doubtful; ends with 20 for a stop, 10 for a warning"),
    tw_cli_findings },
  { "sheets", N_ ("FILE"), N_ ("write the drawing sheets as PDF and SVG"), tw_cli_sheets },
  { "picture", N_ ("FILE"), N_ ("write one view as a picture"), tw_cli_picture },
  { "check", N_ ("FILE…"), N_ ("read job files and say everything that is wrong in them"), tw_cli_check },
  { "set", N_ ("FILE PART.FIELD=VALUE…"), N_ ("change fields of a job file"), tw_cli_set },
  { "new", "", N_ ("make a first layout that fits a bay"), tw_cli_new },
  { NULL },
};

static const TwVerb *
verb_named (const char *name)
{
  for (const TwVerb *verb = tw_cli_verbs; verb->name != NULL; verb++)
    if (g_str_equal (verb->name, name))
      return verb;
  g_assert_not_reached ();
}

gboolean
tw_cli_options (const char *name, const GOptionEntry *entries, int *argc, char ***argv)
{
  const TwVerb *verb = verb_named (name);
  g_autofree char *usage = g_strdup_printf ("%s", verb->arguments[0] != '\0' ? _ (verb->arguments) : "");
  g_autofree char *program = g_strdup_printf ("%s %s", g_get_prgname (), name);
  g_autoptr (GOptionContext) context = g_option_context_new (usage);
  g_autoptr (GError) error = NULL;
  gboolean ok;

  g_option_context_set_summary (context, _ (verb->summary));
  g_option_context_set_translation_domain (context, GETTEXT_PACKAGE);
  if (entries != NULL)
    g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
  g_set_prgname (program);
  ok = g_option_context_parse (context, argc, argv, &error);
  g_set_prgname ("tankwright-cli");
  if (!ok)
    tw_cli_usage (name, error->message);
  return ok;
}

TwCliStatus
tw_cli_fail (GError *error)
{
  g_printerr ("%s\n", error->message);
  g_error_free (error);
  return TW_CLI_FAILED;
}

TwCliStatus
tw_cli_usage (const char *verb, const char *what)
{
  g_printerr ("%s\n", what);
  if (verb != NULL)
    g_printerr (_ ("\"tankwright-cli %s --help\" says how it is called.\n"), verb);
  else
    g_printerr (_ ("\"tankwright-cli --help\" says how it is called.\n"));
  return TW_CLI_USAGE;
}

const char *
tw_cli_one_file (const char *verb, int argc, char **argv)
{
  if (argc == 2)
    return argv[1];
  tw_cli_usage (verb, argc < 2 ? _ ("No job file was named.") : _ ("Only one job file can be named."));
  return NULL;
}

TwCatalogue *
tw_cli_catalogue (void)
{
  GError *error = NULL;
  TwCatalogue *catalogue = tw_catalogue_load (&error);

  if (catalogue == NULL)
    tw_cli_fail (error);
  return catalogue;
}

TwUnitStyle
tw_cli_style (const TwJob *job)
{
  TwUnitStyle style = tw_job_unit_style (job);

  style.decimal = localeconv ()->decimal_point[0] == ',' ? ',' : '.';
  return style;
}

gboolean
tw_cli_spares (const char *output, const char *input)
{
  GStatBuf out, in;

  if (g_stat (output, &out) != 0 || g_stat (input, &in) != 0 || out.st_dev != in.st_dev
      || out.st_ino != in.st_ino)
    return TRUE;
  g_printerr (_ ("%s is the job file itself; it is left as it was\n"), output);
  return FALSE;
}

TwCliStatus
tw_cli_write (const char *path, const char *text)
{
  GError *error = NULL;

  if (path == NULL || g_str_equal (path, "-")) {
    gboolean ok = fputs (text, stdout) >= 0 && fflush (stdout) == 0;

    if (!ok)
      g_printerr (_ ("standard output cannot be written\n"));
    return ok ? TW_CLI_OK : TW_CLI_FAILED;
  }
  return tw_write_file (path, text, strlen (text), &error) ? TW_CLI_OK : tw_cli_fail (error);
}
