/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "cli/verbs.h"
#include "job/read.h"
#include "job/write.h"
#include "sheets/letters.h"
#include "sheets/sheet.h"
#include "sheets/to-cairo.h"
#include "sheets/to-svg.h"

#include <glib/gstdio.h>
#include <string.h>

static const char *
translate (const char *words)
{
  return words[0] != '\0' ? _ (words) : words;
}

/* Name of the files: that of the job file, or `job` for standard input. (transfer full) */
static char *
stem_of (const char *path)
{
  g_autofree char *base = g_path_get_basename (g_str_equal (path, "-") ? "job" : path);
  char *dot = strrchr (base, '.');

  if (dot != NULL && dot != base)
    *dot = '\0';
  return g_steal_pointer (&base);
}

/* Where sheets go, and from which job file they come. */
typedef struct {
  const char *folder;
  const char *stem;
  const char *input;
} Target;

static TwCliStatus
write_bytes (const Target *target, const char *name, GBytes *bytes)
{
  g_autofree char *path = g_build_filename (target->folder, name, NULL);
  GError *error = NULL;
  gsize length;
  const char *data = g_bytes_get_data (bytes, &length);

  if (!tw_cli_spares (path, target->input))
    return TW_CLI_FAILED;
  if (!tw_write_file (path, data, length, &error))
    return tw_cli_fail (error);
  g_print ("%s\n", path);
  return TW_CLI_OK;
}

static TwCliStatus
write_pdf (GPtrArray *sheets, const TwPageAbout *about, const Target *target)
{
  g_autofree TwPage *pages = g_new (TwPage, sheets->len);
  g_autofree char *name = g_strconcat (target->stem, ".pdf", NULL);
  g_autoptr (GBytes) bytes = NULL;
  GError *error = NULL;

  for (guint i = 0; i < sheets->len; i++)
    pages[i] = tw_sheet_page (g_ptr_array_index (sheets, i));
  bytes = tw_cairo_write_pdf (pages, sheets->len, about, &error);
  return bytes != NULL ? write_bytes (target, name, bytes) : tw_cli_fail (error);
}

static TwCliStatus
write_svgs (GPtrArray *sheets, const TwPageAbout *about, const Target *target)
{
  TwCliStatus status = TW_CLI_OK;

  for (guint i = 0; i < sheets->len && status == TW_CLI_OK; i++) {
    const TwSheet *sheet = g_ptr_array_index (sheets, i);
    TwPage page = tw_sheet_page (sheet);
    g_autofree char *name = g_strdup_printf ("%s-%s-%u.svg", target->stem, sheet->id, i + 1);
    g_autoptr (GBytes) bytes = tw_svg_write (&page, about);

    status = write_bytes (target, name, bytes);
  }
  return status;
}

/* What is asked for in words. */
typedef struct {
  char *folder;
  char *format;
  char *sheet;
  char *paper;
} Wish;

static gboolean
find_kinds (const Wish *wish, TwSheetKinds *kinds, gboolean *pdf, gboolean *svg)
{
  g_auto (GStrv) formats = g_strsplit (wish->format != NULL ? wish->format : "pdf,svg", ",", -1);

  *kinds = TW_SHEET_ALL;
  if (formats[0] == NULL)
    return tw_cli_usage ("sheets", _ ("--format is pdf, svg or pdf,svg.")) == TW_CLI_OK;
  if (wish->sheet != NULL && g_str_equal (wish->sheet, "arrangement"))
    *kinds = TW_SHEET_ARRANGEMENT;
  else if (wish->sheet != NULL && g_str_equal (wish->sheet, "core-and-tanks"))
    *kinds = TW_SHEET_CORE_AND_TANKS;
  else if (wish->sheet != NULL)
    return tw_cli_usage ("sheets", _ ("--sheet is arrangement or core-and-tanks.")) == TW_CLI_OK;
  for (guint i = 0; formats[i] != NULL; i++) {
    *pdf |= g_str_equal (formats[i], "pdf");
    *svg |= g_str_equal (formats[i], "svg");
    if (!g_str_equal (formats[i], "pdf") && !g_str_equal (formats[i], "svg"))
      return tw_cli_usage ("sheets", _ ("--format is pdf, svg or pdf,svg.")) == TW_CLI_OK;
  }
  return TRUE;
}

/* Day that the file says it was made: the job's day of issue when that is a date, else today. (transfer full)
 */
static char *
date_of (const TwSettings *settings)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *text = g_strdup (settings->issue_date != NULL ? settings->issue_date : "");
  g_autofree char *moment = g_strconcat (text, "T00:00:00Z", NULL);
  g_autoptr (GDateTime) issued = strlen (text) == 10 ? g_date_time_new_from_iso8601 (moment, NULL) : NULL;

  if (issued != NULL)
    return g_steal_pointer (&text);
  return g_date_time_format (now, "%Y-%m-%d");
}

static TwCliStatus
draw_and_write (const TwJob *job, const TwCatalogue *catalogue, const char *path, const Wish *wish)
{
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwAnswer) answer = tw_answer_new (job, catalogue, geos);
  g_autoptr (TwLetters) letters = tw_letters_new (TW_LETTERS_SHEET_FONT);
  TwMeasure measure = tw_letters_measure (letters);
  g_autofree char *digest = tw_job_digest (job), *stem = stem_of (path);
  const TwSettings *settings = tw_job_settings (job);
  g_autofree char *date = date_of (settings);
  const TwPageAbout about = { .title = settings->name, .author = settings->creator, .date = date };
  const TwSheetSource source = { .answer = answer,
                                 .geos = geos,
                                 .revision = digest,
                                 .measure = &measure,
                                 .decimal = tw_cli_style (job).decimal,
                                 .translate = translate,
                                 .paper = wish->paper };
  const Target target = { wish->folder != NULL ? wish->folder : ".", stem, path };
  g_autoptr (GPtrArray) sheets = NULL;
  gboolean pdf = FALSE, svg = FALSE;
  TwSheetKinds kinds;
  GError *error = NULL;
  TwCliStatus status = TW_CLI_OK;

  if (!find_kinds (wish, &kinds, &pdf, &svg))
    return TW_CLI_USAGE;
  sheets = tw_sheets_new (&source, kinds, &error);
  if (sheets == NULL)
    return tw_cli_fail (error);
  if (g_mkdir_with_parents (target.folder, 0777) != 0) {
    g_printerr (_ ("the folder %s cannot be made\n"), target.folder);
    return TW_CLI_FAILED;
  }
  if (pdf)
    status = write_pdf (sheets, &about, &target);
  if (svg && status == TW_CLI_OK)
    status = write_svgs (sheets, &about, &target);
  return status;
}

TwCliStatus
tw_cli_sheets (int argc, char **argv)
{
  Wish wish = { NULL };
  const GOptionEntry entries[] = {
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &wish.folder,
      N_ ("write into FOLDER; made when it is not there"), N_ ("FOLDER") },
    { "format", 'f', 0, G_OPTION_ARG_STRING, &wish.format, N_ ("pdf, svg or both (pdf,svg), as without it"),
      N_ ("FORMAT") },
    { "sheet", 's', 0, G_OPTION_ARG_STRING, &wish.sheet, N_ ("only arrangement, or only core-and-tanks"),
      N_ ("SHEET") },
    { "paper", 0, 0, G_OPTION_ARG_STRING, &wish.paper,
      N_ ("smallest paper to be taken: A3, A2, A1, A0, Tabloid, C, D, E"), N_ ("PAPER") },
    { NULL },
  };
  g_autoptr (TwCatalogue) catalogue = NULL;
  g_autoptr (TwJob) job = NULL;
  GError *error = NULL;
  const char *path;
  TwCliStatus status = TW_CLI_USAGE;

  if (tw_cli_options ("sheets", entries, &argc, &argv)
      && (path = tw_cli_one_file ("sheets", argc, argv)) != NULL) {
    job = tw_job_read_file (path, &error);
    catalogue = job != NULL ? tw_cli_catalogue () : NULL;
    if (job == NULL)
      status = tw_cli_fail (error);
    else
      status = catalogue != NULL ? draw_and_write (job, catalogue, path, &wish) : TW_CLI_FAILED;
  }
  g_free (wish.folder);
  g_free (wish.format);
  g_free (wish.sheet);
  g_free (wish.paper);
  return status;
}
