/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "cli/verbs.h"
#include "job/history.h"
#include "job/read.h"
#include "job/write.h"

#include <string.h>

/* The part or element that PART or PART/ELEMENT names; NULL with an error. */
static const TwPart *
find_target (const TwJob *job, const char *name, TwId *part_id, TwId *element_id, GError **error)
{
  g_auto (GStrv) words = g_strsplit (name, "/", 2);
  const TwPart *part = NULL;

  *element_id = TW_ID_NONE;
  if (words[0] != NULL && tw_id_from_text (words[0], part_id))
    part = tw_job_find (job, *part_id);
  if (part != NULL && words[1] != NULL)
    part = tw_id_from_text (words[1], element_id) ? tw_part_element (part, *element_id, NULL) : NULL;
  if (part == NULL)
    g_set_error (error, TW_ERROR, TW_ERROR_MISSING, _ ("there is no part \"%s\""), name);
  return part;
}

static gboolean
no_field (const TwPart *target, const char *name, GError **error)
{
  const TwKindInfo *info = tw_kind_info (target->kind);
  g_autoptr (GString) names = g_string_new (NULL);

  for (guint i = 0; i < info->n_fields; i++)
    g_string_append_printf (names, "%s%s", i > 0 ? ", " : "", info->fields[i].name);
  g_set_error (error, TW_ERROR, TW_ERROR_MISSING, _ ("%s has no field \"%s\"; it has %s"), _ (info->noun),
               name, names->str);
  return FALSE;
}

/* `PART.FIELD=VALUE`, or `PART/ELEMENT.FIELD=VALUE`. */
static gboolean
apply (TwJob *job, TwHistory *history, const char *text, GError **error)
{
  const char *equals = strchr (text, '='), *dot = strchr (text, '.');
  g_autofree char *name = NULL, *field_name = NULL;
  TwUnitStyle style = tw_job_unit_style (job);
  const TwPart *target;
  TwId part, element;
  TwValue value;
  int field;

  if (equals == NULL || dot == NULL || dot > equals) {
    g_set_error (error, TW_ERROR, TW_ERROR_FORMAT,
                 _ ("\"%s\" is not PART.FIELD=VALUE, as in left-tank.wall_mm=2.5"), text);
    return FALSE;
  }
  name = g_strndup (text, (gsize)(dot - text));
  field_name = g_strndup (dot + 1, (gsize)(equals - dot - 1));
  target = find_target (job, name, &part, &element, error);
  if (target == NULL)
    return FALSE;
  field = tw_kind_field (target->kind, field_name);
  if (field < 0)
    return no_field (target, field_name, error);
  return tw_value_parse (&tw_kind_info (target->kind)->fields[field], &style, equals + 1, &value, error)
         && tw_history_do (history, tw_change_set (part, element, (guint)field, &value), error);
}

TwCliStatus
tw_cli_set (int argc, char **argv)
{
  g_autofree char *output = NULL;
  const GOptionEntry entries[] = {
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &output,
      N_ ("write to FILE instead of the job file itself; - is standard output"), N_ ("FILE") },
    { NULL },
  };
  g_autoptr (TwJob) job = NULL;
  g_autoptr (TwHistory) history = NULL;
  g_autofree char *text = NULL;
  GError *error = NULL;

  if (!tw_cli_options ("set", entries, &argc, &argv))
    return TW_CLI_USAGE;
  if (argc < 3)
    return tw_cli_usage ("set", _ ("A job file and at least one PART.FIELD=VALUE are wanted."));
  job = tw_job_read_file (argv[1], &error);
  if (job == NULL)
    return tw_cli_fail (error);
  history = tw_history_new (job);
  for (int i = 2; i < argc; i++)
    if (!apply (job, history, argv[i], &error))
      return tw_cli_fail (error);
  text = tw_job_write_text (job);
  return tw_cli_write (output != NULL ? output : argv[1], text);
}
