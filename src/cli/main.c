/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The command: everything that the window shows, without a window.
 */
#include "base/data.h"
#include "base/error.h"
#include "cli/verbs.h"

#include <locale.h>

static void
print_help (void)
{
  g_print (
      _ ("Usage: tankwright-cli VERB …\n\nPlans a one-off radiator from a job file, without a window.\n\n"));
  for (const TwVerb *verb = tw_cli_verbs; verb->name != NULL; verb++)
    g_print ("  %-10s %s\n", verb->name, _ (verb->summary));
  g_print (_ ("\n\"tankwright-cli VERB --help\" says more of one. \"-\" stands for standard input.\n"
              "Ends with 0 when all went well, 1 when something failed, 2 when the call was wrong.\n"));
}

int
main (int argc, char *argv[])
{
  g_autofree char *locale_folder = tw_data_locale_folder ();

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, locale_folder);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  g_set_prgname ("tankwright-cli");

  if (argc < 2) {
    g_autofree char *what = g_strdup (_ ("No verb was given."));

    return tw_cli_usage (NULL, what);
  }
  if (g_str_equal (argv[1], "--help") || g_str_equal (argv[1], "-h") || g_str_equal (argv[1], "help")) {
    print_help ();
    return TW_CLI_OK;
  }
  if (g_str_equal (argv[1], "--version")) {
    g_print ("tankwright-cli %s\n", TW_VERSION);
    return TW_CLI_OK;
  }
  for (const TwVerb *verb = tw_cli_verbs; verb->name != NULL; verb++)
    if (g_str_equal (verb->name, argv[1]))
      return verb->run (argc - 1, argv + 1);
  {
    g_autofree char *what = g_strdup_printf (_ ("There is no verb \"%s\"."), argv[1]);

    return tw_cli_usage (NULL, what);
  }
}
