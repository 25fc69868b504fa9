/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/ink.h"

static gboolean
same_corners (const TwInkItem *a, const TwInkItem *b)
{
  if (a->n_corners != b->n_corners)
    return FALSE;
  for (guint i = 0; i < a->n_corners; i++) {
    const TwInkCorner *x = &a->corners[i], *y = &b->corners[i];

    if (x->at.x_mm != y->at.x_mm || x->at.y_mm != y->at.y_mm || x->bow_mm != y->bow_mm
        || x->start != y->start)
      return FALSE;
  }
  return TRUE;
}

static gboolean
same_place (const TwInkPlace *a, const TwInkPlace *b)
{
  return a->at.x_mm == b->at.x_mm && a->at.y_mm == b->at.y_mm && a->size == b->size && a->across == b->across
         && a->up == b->up && a->upright == b->upright;
}

gboolean
tw_ink_item_equal (const TwInkItem *a, const TwInkItem *b)
{
  return a->kind == b->kind && a->style.pen == b->style.pen && a->style.tint == b->style.tint
         && a->style.layer == b->style.layer && tw_id_equal (a->style.part, b->style.part)
         && a->closed == b->closed && a->angle_rad == b->angle_rad && a->spacing == b->spacing
         && g_strcmp0 (a->text, b->text) == 0 && same_place (&a->place, &b->place) && same_corners (a, b);
}
