/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cards/text.h"

#include "cards/words.h"

#include <glib/gi18n-lib.h>

#define INDENT 2
#define GAP 2

/* Width of labels and of texts; what is wider pushes its line out alone. */
#define WIDEST_LABEL 48
#define WIDEST_TEXT 30

static gboolean
is_finding (const TwCardRow *row)
{
  return row->kind == TW_ROW_STOP || row->kind == TW_ROW_WARN || row->kind == TW_ROW_NOTE;
}

/* @text, then spaces up to @width columns and GAP more; GAP at least. */
static void
append_padded (GString *out, const char *text, glong width)
{
  g_string_append (out, text);
  for (glong n = MIN (g_utf8_strlen (text, -1), width); n < width + GAP; n++)
    g_string_append_c (out, ' ');
}

static void
append_indent (GString *out, guint depth)
{
  for (guint i = 0; i < depth * INDENT; i++)
    g_string_append_c (out, ' ');
}

static void
append_line (GString *out, guint depth, const char *text)
{
  append_indent (out, depth);
  g_string_append (out, text);
  g_string_append_c (out, '\n');
}

static void
append_finding (GString *out, const TwCardRow *row)
{
  static const TwSeverity severities[] = { TW_SEVERITY_STOP, TW_SEVERITY_WARN, TW_SEVERITY_NOTE };
  g_autofree char *line
      = g_strdup_printf ("%s: %s", tw_severity_word (severities[row->kind - TW_ROW_STOP]), row->label);

  append_line (out, 1, line);
  if (row->detail != NULL)
    append_line (out, 2, row->detail);
}

static void
append_row (GString *out, const TwCardRow *row, glong label_width, glong text_width)
{
  g_autoptr (GString) line = g_string_new (NULL);
  gboolean has_more = row->detail != NULL || row->is_assumed;

  append_indent (line, row->indent);
  g_string_append (line, row->label);
  if (*row->text != '\0' || has_more) {
    g_autofree char *label = g_strdup (line->str);

    g_string_truncate (line, 0);
    append_padded (line, label, label_width);
    if (has_more)
      append_padded (line, row->text, text_width);
    else
      g_string_append (line, row->text);
  }
  g_string_append (line, row->detail != NULL ? row->detail : "");
  if (row->is_assumed)
    g_string_append (line, row->detail != NULL ? _ (" · assumed") : _ ("assumed"));
  append_line (out, 1, line->str);
}

static void
append_rows (GString *out, const GPtrArray *rows)
{
  glong label_width = 0, text_width = 0;

  for (guint i = 0; i < rows->len; i++) {
    const TwCardRow *row = g_ptr_array_index (rows, i);
    glong label = g_utf8_strlen (row->label, -1) + row->indent * INDENT;
    glong text = g_utf8_strlen (row->text, -1);

    if (is_finding (row))
      continue;
    if (label <= WIDEST_LABEL)
      label_width = MAX (label_width, label);
    if (text <= WIDEST_TEXT)
      text_width = MAX (text_width, text);
  }
  for (guint i = 0; i < rows->len; i++) {
    const TwCardRow *row = g_ptr_array_index (rows, i);

    if (is_finding (row))
      append_finding (out, row);
    else
      append_row (out, row, label_width, text_width);
  }
}

static void
append_where (GString *out, const TwCardWhere *where)
{
  g_autofree char *line = g_strdup_printf ("[%s] %s", where->id, where->formula);
  g_autofree char *source = g_strdup_printf (_ ("source: %s"), where->source_title);

  append_line (out, 1, line);
  append_line (out, 2, source);
  for (guint i = 0; i < where->inputs->len; i++) {
    const TwCardInput *input = g_ptr_array_index (where->inputs, i);
    g_autofree char *text = input->why != NULL ? g_strdup_printf (_ ("%s = %s, assumed: %s"), input->label,
                                                                  input->text, input->why)
                                               : g_strdup_printf ("%s = %s", input->label, input->text);

    append_line (out, 2, text);
  }
}

static void
append_card (GString *out, const TwCard *card, TwTextParts parts)
{
  append_line (out, 0, card->label);
  append_line (out, 1, card->missing != NULL ? card->missing : card->headline);
  if (*card->meaning != '\0')
    append_line (out, 1, card->meaning);
  append_rows (out, card->rows);
  for (guint i = 0; (parts & TW_TEXT_NOTES) != 0 && i < card->notes->len; i++)
    append_line (out, 1, g_ptr_array_index (card->notes, i));
  for (guint i = 0; (parts & TW_TEXT_WHERE) != 0 && i < card->wheres->len; i++)
    append_where (out, g_ptr_array_index (card->wheres, i));
}

char *
tw_card_text (const TwCard *card, TwTextParts parts)
{
  GString *out = g_string_new (NULL);

  append_card (out, card, parts);
  return g_string_free (out, FALSE);
}

char *
tw_cards_text (const GPtrArray *cards, TwTextParts parts)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < cards->len; i++) {
    if (i > 0)
      g_string_append_c (out, '\n');
    append_card (out, g_ptr_array_index (cards, i), parts);
  }
  return g_string_free (out, FALSE);
}
