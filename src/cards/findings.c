/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cards/maker-private.h"

#include "cards/words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* The check, its parts and places; with a number where that is not one of a kind. */
static char *
finding_id (const TwCard *card, const TwFinding *finding)
{
  GString *id = g_string_new (finding->check->id);
  gsize length;

  for (guint i = 0; i < finding->n_parts; i++)
    g_string_append_printf (id, ":%s", finding->parts[i].text);
  if (finding->from > 0)
    g_string_append_printf (id, ":%u", finding->from);
  length = id->len;
  for (guint nth = 2; tw_card_row (card, id->str) != NULL; nth++) {
    g_string_truncate (id, length);
    g_string_append_printf (id, "#%u", nth);
  }
  return g_string_free (id, FALSE);
}

static void
set_where (TwCardMaker *maker, TwCardRow *row, const TwCheck *check)
{
  g_autofree char *id = NULL;

  if (check->source == NULL)
    return;
  id = g_strconcat ("limit:", check->id, NULL);
  if (tw_card_where (maker->card, id) == NULL)
    tw_maker_where (maker, id, TW_ID_NONE, _ ("the limit of this check"), check->source);
  row->where = g_steal_pointer (&id);
}

static void
add_finding (TwCardMaker *maker, const TwFinding *finding)
{
  static const TwRowKind kinds[TW_N_SEVERITIES] = { TW_ROW_STOP, TW_ROW_WARN, TW_ROW_NOTE };
  g_autofree char *id = finding_id (maker->card, finding);
  g_autofree char *text = tw_finding_text (finding, maker->drawing, &maker->style);
  TwCardRow *row = tw_maker_row (maker, id, TW_ID_NONE, text, NULL);

  row->kind = kinds[finding->check->severity];
  row->detail = g_strdup (tw_check_remedy (finding->check));
  for (guint i = 0; i < finding->n_parts; i++)
    tw_row_also (row, finding->parts[i]);
  set_where (maker, row, finding->check);
}

/* A row for each check that waits or could not be made. */
static void
add_left_out (TwCardMaker *maker, const TwFindings *findings)
{
  for (guint i = 0; i < tw_check_count (); i++) {
    const char *why;
    TwCheckState state = tw_findings_state (findings, i, &why);
    TwCardRow *row;

    if (state != TW_CHECK_WAITING && state != TW_CHECK_UNMADE)
      continue;
    row = tw_maker_row (maker, tw_check_get (i)->id, TW_ID_NONE, tw_check_subject (tw_check_get (i)),
                        g_strdup (state == TW_CHECK_WAITING ? _ ("waiting") : _ ("not fully checked")));
    row->kind = TW_ROW_PENDING;
    row->detail = g_strdup (why != NULL ? _ (why) : NULL);
  }
}

/* Takes @count. */
static void
append_count (GString *text, guint n, char *count)
{
  if (n > 0)
    g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", count);
  g_free (count);
}

static void
add_headline (TwCardMaker *maker, const TwFindings *findings)
{
  GString *text = g_string_new (NULL);
  guint n[TW_N_SEVERITIES];

  for (TwSeverity i = 0; i < TW_N_SEVERITIES; i++)
    n[i] = tw_findings_count_of (findings, i);
  append_count (text, n[0],
                g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u stop", "%u stops", n[0]), n[0]));
  append_count (text, n[1],
                g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u warning", "%u warnings", n[1]), n[1]));
  append_count (text, n[2],
                g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u note", "%u notes", n[2]), n[2]));
  if (text->len == 0)
    g_string_append (text, _ ("nothing found"));
  tw_maker_headline (maker, g_string_free (text, FALSE));
  tw_maker_headline_figure (maker, "stops", TW_QUANTITY_COUNT, n[TW_SEVERITY_STOP], "COMMON-PRACTICE");
  tw_maker_headline_figure (maker, "warnings", TW_QUANTITY_COUNT, n[TW_SEVERITY_WARN], "COMMON-PRACTICE");
  tw_maker_headline_figure (maker, "notes", TW_QUANTITY_COUNT, n[TW_SEVERITY_NOTE], "COMMON-PRACTICE");
}

static void
add_meaning (TwCardMaker *maker, const TwFindings *findings)
{
  guint made = tw_findings_count_state (findings, TW_CHECK_CLEAR)
               + tw_findings_count_state (findings, TW_CHECK_FOUND);
  guint waiting = tw_findings_count_state (findings, TW_CHECK_WAITING);
  guint unmade = tw_findings_count_state (findings, TW_CHECK_UNMADE);

  g_free (maker->card->meaning);
  maker->card->meaning = g_strdup_printf (_ ("of %u checks %u were made in full, %u wait, %u could not be"),
                                          tw_check_count (), made, waiting, unmade);
  tw_maker_headline_figure (maker, "waiting", TW_QUANTITY_COUNT, waiting, "COMMON-PRACTICE");
  tw_maker_headline_figure (maker, "could_not_be_made", TW_QUANTITY_COUNT, unmade, "COMMON-PRACTICE");
}

TwCard *
tw_card_findings (TwCardMaker *maker)
{
  const TwFindings *findings = tw_answer_findings (maker->answer);

  tw_maker_begin (maker, "findings", _ ("Findings"));
  tw_maker_note (maker, _ ("The figures are from the drawing; prove the finished part by a pressure test and "
                           "instrumented running. Never open a hot system: it scalds."));
  add_headline (maker, findings);
  add_meaning (maker, findings);
  for (guint i = 0; i < tw_findings_count (findings); i++)
    add_finding (maker, tw_findings_get (findings, i));
  add_left_out (maker, findings);
  return tw_maker_end (maker);
}
