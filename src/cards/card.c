/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cards/card.h"

static void
free_row (gpointer data)
{
  TwCardRow *self = data;

  g_free (self->id);
  g_free (self->label);
  g_free (self->text);
  g_free (self->detail);
  g_free (self->where);
  g_array_unref (self->figures);
  g_array_unref (self->parts);
  g_free (self);
}

static void
free_where (gpointer data)
{
  TwCardWhere *self = data;

  g_free (self->id);
  g_free (self->formula);
  g_free (self->source_id);
  g_free (self->source_title);
  g_ptr_array_unref (self->inputs);
  g_free (self);
}

TwCard *
tw_card_new (const char *id, const char *label)
{
  TwCard *self = g_new0 (TwCard, 1);

  self->id = id;
  self->label = g_strdup (label);
  self->headline = g_strdup ("–");
  self->meaning = g_strdup ("");
  self->picture = g_strdup ("");
  self->missing_kind = TW_N_KINDS;
  self->figures = g_array_new (FALSE, FALSE, sizeof (TwCardFigure));
  self->rows = g_ptr_array_new_with_free_func (free_row);
  self->notes = g_ptr_array_new_with_free_func (g_free);
  self->wheres = g_ptr_array_new_with_free_func (free_where);
  return self;
}

void
tw_card_free (TwCard *self)
{
  if (self == NULL)
    return;
  g_free (self->label);
  g_free (self->headline);
  g_free (self->where);
  g_free (self->meaning);
  g_free (self->picture);
  g_free (self->missing);
  g_array_unref (self->figures);
  g_ptr_array_unref (self->rows);
  g_ptr_array_unref (self->notes);
  g_ptr_array_unref (self->wheres);
  g_free (self);
}

const TwCardRow *
tw_card_row (const TwCard *self, const char *id)
{
  for (guint i = 0; i < self->rows->len; i++) {
    const TwCardRow *row = g_ptr_array_index (self->rows, i);

    if (g_str_equal (row->id, id))
      return row;
  }
  return NULL;
}

const TwCardWhere *
tw_card_where (const TwCard *self, const char *id)
{
  for (guint i = 0; i < self->wheres->len; i++) {
    const TwCardWhere *where = g_ptr_array_index (self->wheres, i);

    if (g_str_equal (where->id, id))
      return where;
  }
  return NULL;
}

const TwCardFigure *
tw_card_figure (const GArray *figures, const char *key)
{
  for (guint i = 0; i < figures->len; i++) {
    const TwCardFigure *figure = &g_array_index (figures, TwCardFigure, i);

    if (g_str_equal (figure->key, key))
      return figure;
  }
  return NULL;
}
