/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * hand-figures.c - from amounts to figures of the job, and figures that are typed
 */
#include "stage/hand-private.h"

#include "base/error.h"

#include <math.h>

#define SEEN_LEAST 1e-9 /* dimensionless: less of a freedom is not seen at all */

/* --- the list ------------------------------------------------------------------------------------------- */

static const TwPart *
owner_of (const TwHand *self, const TwHandFigure *figure)
{
  const TwPart *part = tw_job_find (self->bench.job, figure->part);

  return tw_id_is_none (figure->element) ? part : tw_part_element (part, figure->element, NULL);
}

static const TwField *
field_of (const TwHand *self, const TwHandFigure *figure)
{
  return &tw_kind_info (owner_of (self, figure)->kind)->fields[figure->field];
}

/* Place of the figure, listed now if it was not. */
static guint
place_of (TwHand *self, GHashTable *places, const TwHandHeld *held, const TwFreedomTarget *target)
{
  const TwGrip *grip = held->grip;
  char *key = g_strdup_printf ("%s/%s/%u", grip->part.text, target->element.text, target->field);
  guint place = GPOINTER_TO_UINT (g_hash_table_lookup (places, key));
  TwHandFigure figure = { grip->part, target->element, target->field, target->value_mm, FALSE, FALSE };
  TwHandBase base = { target->value_mm, target->value_mm, { 0 }, { 0 }, target->value_mm };
  const TwPart *before = held->before;

  if (place > 0) {
    g_free (key);
    return place - 1;
  }
  if (!tw_id_is_none (figure.element))
    before = tw_part_element (before, figure.element, NULL);
  base.original = tw_part_get (before, figure.field);
  base.typed = tw_value_unknown (TW_FIELD_NUMBER);
  g_array_append_val (self->figures, figure);
  g_array_append_val (self->bases, base);
  g_hash_table_insert (places, key, GUINT_TO_POINTER (self->figures->len));
  return self->figures->len - 1;
}

static gboolean
is_seen (const TwHand *self, const TwFreedom *freedom)
{
  TwPoint way = tw_stage_view_direction (&self->view, freedom->along);

  return hypot (way.x_mm, way.y_mm) > SEEN_LEAST;
}

/* Targets number @from up to @to (not counted) of every freedom that is seen. */
static void
list_targets (TwHand *self, GHashTable *places, guint from, guint to)
{
  for (guint h = 0; h < self->held->len; h++) {
    const TwHandHeld *held = tw_hand_held (self, h);

    for (guint f = 0; f < held->freedoms->n; f++) {
      const TwFreedom *freedom = &held->freedoms->list[f];

      for (guint t = from; is_seen (self, freedom) && t < MIN (to, freedom->n_targets); t++) {
        const TwFreedomTarget *target = tw_freedoms_target (held->freedoms, f, t);
        TwHandShare share = { h, f, place_of (self, places, held, target), target->factor };

        g_array_append_val (self->shares, share);
      }
    }
  }
}

void
tw_hand_list_figures (TwHand *self)
{
  g_autoptr (GHashTable) places = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  list_targets (self, places, 0, 1);
  list_targets (self, places, 1, G_MAXUINT);
}

void
tw_hand_clear_figures (TwHand *self)
{
  g_array_set_size (self->figures, 0);
  g_array_set_size (self->bases, 0);
  g_array_set_size (self->shares, 0);
  g_array_set_size (self->fields, 0);
}

/* --- to the job ----------------------------------------------------------------------------------------- */

static TwHandFigure *
figure_at (const TwHand *self, guint nth)
{
  return &g_array_index (self->figures, TwHandFigure, nth);
}

static TwHandBase *
base_at (const TwHand *self, guint nth)
{
  return &g_array_index (self->bases, TwHandBase, nth);
}

static void
want_figures (TwHand *self)
{
  for (guint i = 0; i < self->bases->len; i++)
    base_at (self, i)->wanted_mm = base_at (self, i)->base_mm;
  for (guint i = 0; i < self->shares->len; i++) {
    const TwHandShare *share = &g_array_index (self->shares, TwHandShare, i);

    base_at (self, share->figure)->wanted_mm
        += share->factor * tw_hand_held (self, share->held)->amounts_mm[share->freedom];
  }
  for (guint i = 0; i < self->bases->len; i++) {
    TwHandBase *base = base_at (self, i);

    if (figure_at (self, i)->typed)
      base->wanted_mm = base->typed.number;
    else if (fabs (base->wanted_mm - base->base_mm) < TW_HAND_LAST_MM)
      base->wanted_mm = base->base_mm;
    else
      base->wanted_mm = tw_freedom_clean_mm (base->wanted_mm);
  }
}

/* What a figure is to say: as typed, as it was at the press, or a bare number. (transfer full) */
static TwValue
value_of (const TwHandFigure *figure, const TwHandBase *base)
{
  const TwValue *kept = figure->typed                       ? &base->typed
                        : base->wanted_mm == base->press_mm ? &base->original
                                                            : NULL;
  TwValue value = kept != NULL ? *kept : tw_value_number (base->wanted_mm);

  if (kept != NULL) {
    value.text = g_strdup (kept->text);
    value.typed = g_strdup (kept->typed);
  }
  return value;
}

/* All sets that the job does not have yet. (transfer full) */
static TwChange *
change_of (TwHand *self)
{
  TwChange *group = tw_change_group (self->label);

  for (guint i = 0; i < self->figures->len; i++) {
    const TwHandFigure *figure = figure_at (self, i);
    const TwHandBase *base = base_at (self, i);
    gboolean is_there = base->wanted_mm == figure->value_mm;
    TwValue value;

    if (is_there && !figure->typed)
      continue;
    value = value_of (figure, base);
    tw_change_group_add (group, tw_change_set (figure->part, figure->element, figure->field, &value));
  }
  return group;
}

static void
mark_field (TwHand *self, const TwHandFigure *figure)
{
  if (!tw_id_is_none (figure->element) || !tw_id_equal (figure->part, tw_hand_part (self)))
    return;
  for (guint i = 0; i < self->fields->len; i++)
    if (g_array_index (self->fields, guint, i) == figure->field)
      return;
  g_array_append_val (self->fields, figure->field);
}

static void
take_note (TwHand *self)
{
  for (guint i = 0; i < self->figures->len; i++) {
    TwHandFigure *figure = figure_at (self, i);
    const TwHandBase *base = base_at (self, i);

    if (figure->value_mm != base->wanted_mm || figure->typed)
      mark_field (self, figure);
    figure->value_mm = base->wanted_mm;
    figure->changed = figure->typed || base->wanted_mm != base->press_mm;
  }
}

gboolean
tw_hand_do (TwHand *self, TwChange *change)
{
  g_autoptr (GError) error = NULL;

  if (!self->is_open)
    tw_history_open (self->bench.history, self->label);
  self->is_open = TRUE;
  if (tw_history_do (self->bench.history, change, &error))
    return TRUE;
  self->refusal = g_strdup (error->message);
  return FALSE;
}

gboolean
tw_hand_apply (TwHand *self)
{
  g_autoptr (TwChange) group = NULL;

  g_clear_pointer (&self->refusal, g_free);
  want_figures (self);
  group = change_of (self);
  if (tw_change_is_noop (group, self->bench.job)) {
    take_note (self);
    return FALSE;
  }
  if (!tw_hand_do (self, g_steal_pointer (&group)))
    return FALSE;
  take_note (self);
  return TRUE;
}

/* --- typing --------------------------------------------------------------------------------------------- */

/* The first freedom that has a share in a figure. */
static const TwHandShare *
share_of (const TwHand *self, guint figure)
{
  for (guint i = 0; i < self->shares->len; i++)
    if (g_array_index (self->shares, TwHandShare, i).figure == figure)
      return &g_array_index (self->shares, TwHandShare, i);
  return NULL;
}

/* By what the freedom must go for the figure to be @wanted_mm, the others as they are. */
static double
amount_for (const TwHand *self, const TwHandShare *share, double wanted_mm)
{
  double rest_mm = wanted_mm - base_at (self, share->figure)->base_mm;

  for (guint i = 0; i < self->shares->len; i++) {
    const TwHandShare *other = &g_array_index (self->shares, TwHandShare, i);

    if (other->figure == share->figure && other != share)
      rest_mm -= other->factor * tw_hand_held (self, other->held)->amounts_mm[other->freedom];
  }
  return rest_mm / share->factor;
}

static gboolean
parse (const TwHand *self,
       const TwHandFigure *figure,
       const char *text,
       const TwUnitStyle *style,
       TwValue *value,
       GError **error)
{
  const TwField *field = field_of (self, figure);
  g_autofree char *accepts = NULL;

  if (!tw_value_parse (field, style, text, value, error))
    return FALSE;
  if (!isfinite (value->number)) {
    accepts = tw_field_accepts (field);
    g_set_error (error, TW_ERROR, TW_ERROR_REFUSED, _ ("%s: found nothing, expected %s"), _ (field->label),
                 accepts);
    tw_value_clear (value);
    return FALSE;
  }
  return TRUE;
}

/* A freedom follows the figure that was typed last. */
static void
forget_typed (TwHand *self, const TwHandShare *share)
{
  for (guint i = 0; i < self->shares->len; i++) {
    const TwHandShare *other = &g_array_index (self->shares, TwHandShare, i);

    if (other->held == share->held && other->freedom == share->freedom)
      figure_at (self, other->figure)->typed = FALSE;
  }
}

/* Sets the freedom, applies, and puts it back when the job refuses. */
static gboolean
take_typed (TwHand *self, const TwHandShare *share, TwValue *value, GError **error)
{
  TwHandHeld *held = tw_hand_held (self, share->held);
  TwHandFigure *figure = figure_at (self, share->figure);
  TwHandBase *base = base_at (self, share->figure);
  TwHandHeld held_before = *held;
  TwValue typed_before = base->typed;
  gsize size = self->figures->len * sizeof (TwHandFigure);
  g_autofree TwHandFigure *figures_before = g_memdup2 (self->figures->data, size);

  forget_typed (self, share);
  held->amounts_mm[share->freedom] = amount_for (self, share, value->number);
  held->typed[share->freedom] = TRUE;
  figure->typed = TRUE;
  base->typed = *value;
  (void)tw_hand_apply (self);
  if (self->refusal == NULL) {
    tw_value_clear (&typed_before);
    return TRUE;
  }
  g_set_error_literal (error, TW_ERROR, TW_ERROR_REFUSED, self->refusal);
  g_clear_pointer (&self->refusal, g_free);
  *held = held_before;
  memcpy (self->figures->data, figures_before, size);
  base->typed = typed_before;
  tw_value_clear (value);
  return FALSE;
}

gboolean
tw_hand_type (TwHand *self, guint nth, const char *text, const TwUnitStyle *style, GError **error)
{
  const TwHandShare *share;
  const TwFreedom *freedom;
  TwHandFigure *figure;
  TwValue value;
  double amount_mm;

  g_return_val_if_fail (tw_hand_is_holding (self) && nth < self->figures->len, FALSE);
  figure = figure_at (self, nth);
  share = share_of (self, nth);
  if (!parse (self, figure, text, style, &value, error))
    return FALSE;
  freedom = &tw_hand_held (self, share->held)->freedoms->list[share->freedom];
  amount_mm = amount_for (self, share, value.number);
  if (amount_mm < freedom->low_mm - TW_HAND_LAST_MM || amount_mm > freedom->high_mm + TW_HAND_LAST_MM) {
    double ends_mm[2] = { value.number + share->factor * (freedom->low_mm - amount_mm),
                          value.number + share->factor * (freedom->high_mm - amount_mm) };
    g_autofree char *low = tw_units_format (TW_QUANTITY_LENGTH, style, MIN (ends_mm[0], ends_mm[1]), -1);
    g_autofree char *high = tw_units_format (TW_QUANTITY_LENGTH, style, MAX (ends_mm[0], ends_mm[1]), -1);

    g_set_error (error, TW_ERROR, TW_ERROR_REFUSED, _ ("%s: found %s, here it goes from %s to %s"),
                 _ (field_of (self, figure)->label), text, low, high);
    tw_value_clear (&value);
    return FALSE;
  }
  return take_typed (self, share, &value, error);
}
