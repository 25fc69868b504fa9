/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "cli/verbs.h"
#include "job/read.h"

TwCliStatus
tw_cli_check (int argc, char **argv)
{
  TwCliStatus status = TW_CLI_OK, written;
  g_autoptr (GString) sound = g_string_new (NULL);

  if (!tw_cli_options ("check", NULL, &argc, &argv))
    return TW_CLI_USAGE;
  if (argc < 2)
    return tw_cli_usage ("check", _ ("No job file was named."));
  for (int i = 1; i < argc; i++) {
    GError *error = NULL;
    g_autoptr (TwJob) job = tw_job_read_file (argv[i], &error);

    if (job == NULL)
      status = tw_cli_fail (error);
    else
      g_string_append_printf (sound, _ ("%s: a sound job file\n"), argv[i]);
  }
  written = tw_cli_write (NULL, sound->str);
  return status != TW_CLI_OK ? status : written;
}
