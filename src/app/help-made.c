/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/help-made.h"

#include "base/source.h"
#include "cards/words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* Text that is no mark: what stands in a data file may hold any sign. */
static void
append_plain (GString *page, const char *text)
{
  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at)) {
    gunichar sign = g_utf8_get_char (at);

    if (sign == '*')
      g_string_append_unichar (page, 0x2217); /* the asterisk of formulas */
    else if (sign == '[' || sign == '{')
      g_string_append_c (page, '(');
    else if (sign == ']' || sign == '}')
      g_string_append_c (page, ')');
    else if (sign == '\n')
      g_string_append_c (page, ' ');
    else
      g_string_append_unichar (page, sign);
  }
}

#define OF_PROGRAM ": definition of this program" /* how the file ends the titles of these */

/* What it is, edition and note; at the end how sure it is and the id by which cards and files name it. */
static void
append_source (GString *page, const TwSource *source)
{
  gboolean is_ours = g_str_has_suffix (source->title, OF_PROGRAM);
  g_autofree char *title
      = g_strndup (source->title, strlen (source->title) - (is_ours ? strlen (OF_PROGRAM) : 0));

  g_string_append (page, "- *");
  append_plain (page, title);
  if (!g_str_equal (source->edition, "-")) {
    g_string_append (page, ", ");
    append_plain (page, source->edition);
  }
  g_string_append (page, "*: ");
  append_plain (page, source->note);
  if (source->status == TW_SOURCE_DEFINITION)
    g_string_append_printf (page, " (%s)\n", source->id);
  else
    g_string_append_printf (page, " (%s; %s)\n", _ (tw_source_status_name (source->status)), source->id);
}

static void
append_sources (GString *page, const TwSources *sources, gboolean definitions)
{
  for (guint i = 0; i < tw_sources_count (sources); i++) {
    const TwSource *source = tw_sources_get (sources, i);

    if ((source->status == TW_SOURCE_DEFINITION) == definitions)
      append_source (page, source);
  }
}

static void
append_block (GString *page, const char *before, const char *text)
{
  g_string_append_printf (page, "%s%s\n\n", before, text);
}

static char *
sources_text (GError **error)
{
  g_autoptr (TwSources) sources = tw_sources_load (error);
  GString *page;

  if (sources == NULL)
    return NULL;
  page = g_string_new (NULL);
  append_block (page, "# ", _ ("Where Figures Come From"));
  append_block (page, "",
                _ ("Every figure on a card says by its info button which definition or source it rests on. "
                   "These are all of them. Titles and notes are as published, in English."));
  append_block (page, "## ", _ ("Definitions"));
  append_block (page, "", _ ("What a word means here, fixed once so that two figures can be compared."));
  append_sources (page, sources, TRUE);
  append_block (page, "\n## ", _ ("Standards, handbooks and common practice"));
  append_block (
      page, "",
      _ ("At the end of each stands how sure it is: seen in a public text of the source, second-hand, "
         "from memory, or what the trade does without a source."));
  append_sources (page, sources, FALSE);
  return g_string_free (page, FALSE);
}

static void
append_checks (GString *page, TwSeverity severity)
{
  for (guint i = 0; i < tw_check_count (); i++) {
    const TwCheck *check = tw_check_get (i);

    if (check->severity != severity)
      continue;
    g_string_append (page, "- *");
    append_plain (page, tw_check_subject (check));
    g_string_append (page, "*: ");
    append_plain (page, tw_check_remedy (check));
    g_string_append (page, "\n");
  }
}

static char *
checks_text (void)
{
  const char *const about[TW_N_SEVERITIES] = {
    [TW_SEVERITY_STOP] = _ ("Do not cut: it cannot be built or cannot work so."),
    [TW_SEVERITY_WARN] = _ ("Doubtful: look at it before cutting."),
    [TW_SEVERITY_NOTE] = _ ("Good to know."),
  };
  GString *page = g_string_new (NULL);

  append_block (page, "# ", _ ("Everything That Is Checked"));
  append_block (page, "",
                _ ("What each check looks for, and what usually mends it. They are made anew at every "
                   "change; [the findings](findings) say what they found."));
  for (guint i = 0; i < TW_N_SEVERITIES; i++) {
    append_block (page, "\n## ", tw_severity_word (i));
    append_block (page, "", about[i]);
    append_checks (page, i);
  }
  return g_string_free (page, FALSE);
}

char *
tw_help_made_text (const char *name, GError **error)
{
  if (g_str_equal (name, "sources"))
    return sources_text (error);
  if (g_str_equal (name, "checks"))
    return checks_text ();
  return NULL;
}
