/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cards/maker-private.h"

#include "job/change.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* A given figure of more characters than this is shown with few decimals. */
#define LONGEST_PLAIN 7
#define FEW_DECIMALS 3

void
tw_maker_begin (TwCardMaker *self, const char *id, const char *label)
{
  self->card = tw_card_new (id, label);
}

static gboolean
rests_on_assumed (const TwCard *card, const char *id)
{
  const TwCardWhere *where = id != NULL ? tw_card_where (card, id) : NULL;

  for (guint i = 0; where != NULL && i < where->inputs->len; i++)
    if (((const TwCardInput *)g_ptr_array_index (where->inputs, i))->why != NULL)
      return TRUE;
  return FALSE;
}

static void
flag_assumed (GArray *figures)
{
  for (guint i = 0; i < figures->len; i++) {
    TwCardFigure *figure = &g_array_index (figures, TwCardFigure, i);

    figure->figure = tw_figure_flagged (figure->figure, TW_FIGURE_ASSUMED);
  }
}

TwCard *
tw_maker_end (TwCardMaker *self)
{
  TwCard *card = g_steal_pointer (&self->card);

  card->is_assumed = rests_on_assumed (card, card->where);
  if (card->is_assumed)
    flag_assumed (card->figures);
  for (guint i = 0; i < card->rows->len; i++) {
    TwCardRow *row = g_ptr_array_index (card->rows, i);

    row->is_assumed = rests_on_assumed (card, row->where);
    if (row->is_assumed)
      flag_assumed (row->figures);
  }
  return card;
}

void
tw_maker_missing (TwCardMaker *self, const char *what, TwKind kind)
{
  g_free (self->card->missing);
  self->card->missing = g_strdup (what);
  self->card->missing_kind = kind;
  self->card->kind = TW_ROW_PENDING;
}

void
tw_maker_headline (TwCardMaker *self, char *text)
{
  g_free (self->card->headline);
  self->card->headline = text;
}

static void
append_figure (GArray *figures, const char *key, TwQuantity quantity, double value, const char *source)
{
  TwCardFigure figure
      = { key, quantity,
          isfinite (value) ? tw_figure_exact (value, source) : tw_figure_not_computed (source) };

  g_array_append_val (figures, figure);
}

void
tw_maker_headline_figure (TwCardMaker *self,
                          const char *key,
                          TwQuantity quantity,
                          double value,
                          const char *source)
{
  append_figure (self->card->figures, key, quantity, value, source);
}

void
tw_maker_picture (TwCardMaker *self, char *sentence)
{
  char *text = self->card->picture[0] != '\0' ? g_strjoin ("; ", self->card->picture, sentence, NULL)
                                              : g_strdup (sentence);

  g_free (self->card->picture);
  g_free (sentence);
  self->card->picture = text;
}

void
tw_maker_note (TwCardMaker *self, const char *text)
{
  g_ptr_array_add (self->card->notes, g_strdup (text));
}

static char *
full_id (const char *id, TwId part)
{
  return tw_id_is_none (part) ? g_strdup (id) : g_strconcat (id, ":", part.text, NULL);
}

TwCardRow *
tw_maker_row (TwCardMaker *self, const char *id, TwId part, const char *label, char *text)
{
  TwCardRow *row = g_new0 (TwCardRow, 1);

  row->id = full_id (id, part);
  row->label = g_strdup (label);
  row->text = text != NULL ? text : g_strdup ("");
  row->figures = g_array_new (FALSE, FALSE, sizeof (TwCardFigure));
  row->parts = g_array_new (FALSE, FALSE, sizeof (TwId));
  tw_row_also (row, part);
  g_ptr_array_add (self->card->rows, row);
  return row;
}

TwCardRow *
tw_maker_heading (TwCardMaker *self, const char *id, TwId part, const char *label)
{
  TwCardRow *row = tw_maker_row (self, id, part, label, NULL);

  row->kind = TW_ROW_HEADING;
  return row;
}

TwCardRow *
tw_maker_pending (TwCardMaker *self, const char *id, TwId part, const char *label)
{
  TwCardRow *row = tw_maker_row (self, id, part, label, g_strdup (_ ("not yet computed")));

  row->kind = TW_ROW_PENDING;
  return row;
}

void
tw_row_figure (TwCardRow *self, const char *key, TwQuantity quantity, double value, const char *source)
{
  append_figure (self->figures, key, quantity, value, source);
}

void
tw_row_also (TwCardRow *self, TwId part)
{
  if (!tw_id_is_none (part))
    g_array_append_val (self->parts, part);
}

static char *
title_of (const TwCardMaker *self, const char *id)
{
  const TwSource *source = self->sources != NULL ? tw_sources_find (self->sources, id) : NULL;
  const char *status = source != NULL ? _ (tw_source_status_name (source->status)) : NULL;

  if (source == NULL)
    return g_strdup (id);
  if (source->status == TW_SOURCE_DEFINITION)
    return g_strdup (source->title);
  if (g_str_equal (source->edition, "-"))
    return g_strdup_printf ("%s (%s)", source->title, status);
  return g_strdup_printf ("%s, %s (%s)", source->title, source->edition, status);
}

static void
free_input (gpointer data)
{
  TwCardInput *self = data;

  g_free (self->label);
  g_free (self->text);
  g_free (self);
}

TwCardWhere *
tw_maker_where (TwCardMaker *self, const char *id, TwId part, const char *formula, const char *source)
{
  TwCardWhere *where = g_new0 (TwCardWhere, 1);

  where->id = full_id (id, part);
  where->formula = g_strdup (formula);
  where->source_id = g_strdup (source);
  where->source_title = title_of (self, source);
  where->inputs = g_ptr_array_new_with_free_func (free_input);
  g_ptr_array_add (self->card->wheres, where);
  return where;
}

void
tw_maker_input (const TwCardMaker *self, TwCardWhere *where, TwId part, guint field)
{
  const TwPart *found = tw_drawing_find (self->drawing, part);
  TwCardInput *input = g_new0 (TwCardInput, 1);
  const char *why = NULL;

  input->part = part;
  input->label = g_strdup_printf ("%s: %s", tw_maker_name (self, part),
                                  _ (tw_kind_info (found->kind)->fields[field].label));
  input->text = tw_maker_field_text (self, found, field);
  if (tw_drawing_is_assumed (self->drawing, part, field, &why))
    input->why = _ (why);
  g_ptr_array_add (where->inputs, input);
}

void
tw_row_where (TwCardRow *row, const TwCardWhere *where)
{
  g_free (row->where);
  row->where = g_strdup (where->id);
}

/* Places after the decimal sign: lengths to a tenth of a millimetre, volumes to the millilitre. */
static int
decimals_of (const TwCardMaker *self, TwQuantity quantity)
{
  switch ((int)quantity) {
  case TW_QUANTITY_LENGTH:
    return self->style.inches ? 2 : 1;
  case TW_QUANTITY_VOLUME:
  case TW_QUANTITY_SPEED:
    return 3;
  case TW_QUANTITY_NONE:
    return 2;
  default:
    return -1;
  }
}

char *
tw_maker_text (const TwCardMaker *self, TwQuantity quantity, double value)
{
  return tw_units_format (quantity, &self->style, value, decimals_of (self, quantity));
}

char *
tw_maker_area (const TwCardMaker *self, double area_mm2, double share)
{
  g_autofree char *area = tw_maker_text (self, TW_QUANTITY_AREA, area_mm2);
  g_autofree char *part = tw_maker_text (self, TW_QUANTITY_SHARE, share);

  return g_strdup_printf ("%s = %s", area, part);
}

/* As it was given; in few places when it was reckoned, for then it may have many. */
static char *
number_text (const TwCardMaker *self, TwQuantity quantity, double value)
{
  g_autofree char *plain = tw_units_format_plain (quantity, &self->typed_style, value);
  const char *unit = tw_units_name (quantity, &self->typed_style);

  if (strlen (plain) > LONGEST_PLAIN)
    return tw_units_format (quantity, &self->style, value, FEW_DECIMALS);
  if (self->typed_style.decimal == ',')
    g_strdelimit (plain, ".", ',');
  return g_strdup_printf (quantity == TW_QUANTITY_ANGLE ? "%s%s" : "%s\u2009%s", plain, unit);
}

char *
tw_maker_field_text (const TwCardMaker *self, const TwPart *part, guint field)
{
  const TwField *info = &tw_kind_info (part->kind)->fields[field];
  TwValue value = tw_part_get (part, field);
  char *text = NULL;

  switch (info->store) {
  case TW_FIELD_NUMBER:
    if (!isnan (value.number))
      text = number_text (self, info->quantity, value.number);
    break;
  case TW_FIELD_COUNT:
    if (value.choice >= 0)
      text = g_strdup_printf ("%d", value.choice);
    break;
  case TW_FIELD_CHOICE:
    if (value.choice >= 0)
      text = g_strdup (_ (info->choices[value.choice].label));
    break;
  case TW_FIELD_FLAG:
    if (value.choice >= 0)
      text = g_strdup (value.choice ? _ ("yes") : _ ("no"));
    break;
  case TW_FIELD_TEXT:
    text = g_strdup (value.text);
    break;
  case TW_FIELD_REF:
    text = g_strdup (tw_id_is_none (value.ref) ? NULL : tw_maker_name (self, value.ref));
    break;
  }
  tw_value_clear (&value);
  return text != NULL ? text : g_strdup (_ ("not known"));
}

const char *
tw_maker_name (const TwCardMaker *self, TwId part)
{
  const TwPart *found = tw_drawing_find (self->drawing, part);

  return found != NULL ? tw_part_name (found) : "–";
}
