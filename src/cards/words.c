/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cards/words.h"

#include "cards/maker-private.h"
#include "cards/words-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

const char *
tw_check_remedy (const TwCheck *check)
{
  return _ (tw_words_find (check->id)->remedy);
}

const char *
tw_check_subject (const TwCheck *check)
{
  return _ (tw_words_find (check->id)->subject);
}

const char *
tw_severity_word (TwSeverity severity)
{
  switch (severity) {
  case TW_SEVERITY_STOP:
    return _ ("Stop");
  case TW_SEVERITY_WARN:
    return _ ("Warning");
  case TW_SEVERITY_NOTE:
  case TW_N_SEVERITIES:
    break;
  }
  return _ ("Note");
}

/* What a count counts. */
static char *
count_text (const char *check, guint n)
{
  if (g_str_equal (check, "assumed"))
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u value", "%u values", n), n);
  if (g_str_equal (check, "not-all-checked"))
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u check", "%u checks", n), n);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u tube", "%u tubes", n), n);
}

static char *
figure_text (const TwCardMaker *maker, const TwFinding *finding, TwQuantity quantity, double value)
{
  if (quantity == TW_QUANTITY_COUNT)
    return count_text (finding->check->id, (guint)value);
  return tw_maker_text (maker, quantity, value);
}

static char *
tubes_text (const TwFinding *finding)
{
  if (finding->from == finding->to)
    return g_strdup_printf (_ ("tube %u"), finding->from);
  return g_strdup_printf (_ ("tubes %u to %u"), finding->from, finding->to);
}

static char *
part_text (const TwCardMaker *maker, const TwFinding *finding, guint nth)
{
  return g_strdup (nth < finding->n_parts ? tw_maker_name (maker, finding->parts[nth]) : "–");
}

/* What stands for {@name}. */
static char *
value_of (const TwCardMaker *maker, const TwFinding *finding, const char *name)
{
  const TwCheck *check = finding->check;

  if (g_str_equal (name, "part"))
    return part_text (maker, finding, 0);
  if (g_str_equal (name, "other"))
    return part_text (maker, finding, 1);
  if (g_str_equal (name, "third"))
    return part_text (maker, finding, 2);
  if (g_str_equal (name, "measured"))
    return figure_text (maker, finding, check->quantity, finding->measured);
  if (g_str_equal (name, "limit"))
    return figure_text (maker, finding, check->quantity, finding->limit);
  if (g_str_equal (name, "beside"))
    return figure_text (maker, finding, check->beside, finding->beside);
  if (g_str_equal (name, "tubes"))
    return tubes_text (finding);
  if (g_str_equal (name, "at"))
    return g_strdup_printf ("%u", finding->from);
  if (g_str_equal (name, "why"))
    return g_strdup (_ (finding->why));
  return g_strdup (name);
}

char *
tw_finding_text (const TwFinding *finding, const TwDrawing *drawing, const TwUnitStyle *style)
{
  TwCardMaker maker = { .drawing = drawing, .style = *style, .typed_style = *style };
  GString *text = g_string_new (NULL);
  const char *at = _ (tw_words_find (finding->check->id)->sentence);

  maker.style.fractions = FALSE;
  while (*at != '\0') {
    const char *end = *at == '{' ? strchr (at, '}') : NULL;

    if (end != NULL) {
      g_autofree char *name = g_strndup (at + 1, end - at - 1);
      g_autofree char *value = value_of (&maker, finding, name);

      g_string_append (text, value);
      at = end + 1;
    } else {
      g_string_append_c (text, *at++);
    }
  }
  return g_string_free (text, FALSE);
}
