/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * verbs.h - what the command can do: one file a verb, one table of them
 *
 * Results go to standard output, everything else to standard error. `-` is standard input or output.
 */
#pragma once

#include "job/catalogue.h"
#include "job/job.h"

G_BEGIN_DECLS

/* How the command ends. Findings have their own, so that a script can tell them from a failure. */
typedef enum {
  TW_CLI_OK = 0,
  TW_CLI_FAILED = 1, /* a file that cannot be read, written or taken */
  TW_CLI_USAGE = 2,  /* the call's words are off */
  TW_CLI_WARN = 10,  /* `findings`: at least one warning, no stop */
  TW_CLI_STOP = 20,  /* `findings`: at least one stop */
} TwCliStatus;

typedef struct {
  const char *name;
  const char *arguments;                      /* N_()-marked, for the usage line */
  const char *summary;                        /* N_()-marked, one line */
  TwCliStatus (*run) (int argc, char **argv); /* argv[0] is the verb */
} TwVerb;

/* In the order of the help; ends with a NULL name. */
extern const TwVerb tw_cli_verbs[];

/* The verbs. @argv holds the verb and what follows it; options are parsed here. */
TwCliStatus tw_cli_check (int argc, char **argv);
TwCliStatus tw_cli_findings (int argc, char **argv);
TwCliStatus tw_cli_new (int argc, char **argv);
TwCliStatus tw_cli_picture (int argc, char **argv);
TwCliStatus tw_cli_set (int argc, char **argv);
TwCliStatus tw_cli_sheets (int argc, char **argv);
TwCliStatus tw_cli_show (int argc, char **argv);

/* What follows is shared by the verbs (verbs.c). */

/* Parses the options of verb @name. FALSE after saying why on standard error: then end with TW_CLI_USAGE.
 * `--help` prints and ends the program. */
gboolean tw_cli_options (const char *name, const GOptionEntry *entries, int *argc, char ***argv);

/* Prints @error (transfer full) on standard error, a line each, and gives TW_CLI_FAILED. */
TwCliStatus tw_cli_fail (GError *error);

/* Prints on standard error what is wrong with the call and where help is, and gives TW_CLI_USAGE. */
TwCliStatus tw_cli_usage (const char *verb, const char *what);

/* The one file that the verb wants, or NULL after saying so. */
const char *tw_cli_one_file (const char *verb, int argc, char **argv);

/* The catalogue, or NULL after saying why. (transfer full) */
TwCatalogue *tw_cli_catalogue (void);

/* How the job's figures are written, with the decimal sign of the reader's locale. */
TwUnitStyle tw_cli_style (const TwJob *job);

/* FALSE, after saying so, when @output is the job file @input itself, by whatever name: it would be lost. */
gboolean tw_cli_spares (const char *output, const char *input);

/* Writes @text to @path, `-` or NULL for standard output. */
TwCliStatus tw_cli_write (const char *path, const char *text);

G_END_DECLS
