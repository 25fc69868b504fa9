/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "cli/verbs.h"
#include "job/read.h"

TwCliStatus
tw_cli_check (int argc, char **argv)
{
  TwCliStatus status = TW_CLI_OK;

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
      g_print (_ ("%s: a sound job file\n"), argv[i]);
  }
  return status;
}
