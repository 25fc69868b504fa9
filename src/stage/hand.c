/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stage/hand-private.h"

#include <math.h>

static void
clear_held (gpointer data)
{
  tw_grips_free (((TwHandHeld *)data)->grips);
  tw_part_unref (((TwHandHeld *)data)->before);
}

static void
clear_base (gpointer data)
{
  tw_value_clear (&((TwHandBase *)data)->original);
  tw_value_clear (&((TwHandBase *)data)->typed);
}

TwHand *
tw_hand_new (void)
{
  TwHand *self = g_new0 (TwHand, 1);

  self->held = g_array_new (FALSE, FALSE, sizeof (TwHandHeld));
  g_array_set_clear_func (self->held, clear_held);
  self->figures = g_array_new (FALSE, FALSE, sizeof (TwHandFigure));
  self->bases = g_array_new (FALSE, FALSE, sizeof (TwHandBase));
  g_array_set_clear_func (self->bases, clear_base);
  self->shares = g_array_new (FALSE, FALSE, sizeof (TwHandShare));
  self->fields = g_array_new (FALSE, FALSE, sizeof (guint));
  self->snaps = g_array_new (FALSE, FALSE, sizeof (TwSnap));
  self->moving = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  return self;
}

void
tw_hand_free (TwHand *self)
{
  tw_hand_cancel (self);
  g_array_unref (self->held);
  g_array_unref (self->figures);
  g_array_unref (self->bases);
  g_array_unref (self->shares);
  g_array_unref (self->fields);
  g_array_unref (self->snaps);
  g_hash_table_unref (self->moving);
  g_free (self);
}

TwHandHeld *
tw_hand_held (const TwHand *self, guint nth)
{
  return &g_array_index (self->held, TwHandHeld, nth);
}

gboolean
tw_hand_can_move (const TwPlacement *placement, const TwStageView *view, TwId part)
{
  g_autoptr (TwGrips) grips = tw_grips_new (placement, view, part);

  return tw_grips_body (grips) != NULL;
}

/* Adds one grip to what is held, when it is there and its part is not held by another. */
static void
hold (TwHand *self, const TwGrip *grip)
{
  TwHandHeld held = { .grips = tw_grips_new (self->placement, &self->view, grip->part) };
  int place = tw_grips_find (held.grips, grip);

  if (place < 0 || !g_hash_table_add (self->moving, g_strdup (grip->part.text))) {
    tw_grips_free (held.grips);
    return;
  }
  held.before = tw_part_ref (tw_job_find (self->bench.job, grip->part));
  held.grip = tw_grips_get (held.grips, (guint)place);
  held.freedoms = tw_grips_freedoms (held.grips, (guint)place);
  g_array_append_val (self->held, held);
}

static void
let_go (TwHand *self)
{
  g_clear_pointer (&self->placement, tw_placement_unref);
  g_clear_pointer (&self->passes, tw_passes_unref);
  g_clear_pointer (&self->label, g_free);
  g_clear_pointer (&self->refusal, g_free);
  tw_hand_clear_figures (self);
  g_array_set_size (self->held, 0);
  g_array_set_size (self->snaps, 0);
  g_hash_table_remove_all (self->moving);
  self->is_open = FALSE;
  self->carried.is_over = FALSE;
  tw_freedoms_clear (&self->carried.freedoms);
}

gboolean
tw_hand_take (TwHand *self, const TwHandBench *bench, const TwHandGrasp *grasp)
{
  g_return_val_if_fail (!tw_hand_is_holding (self), FALSE);

  if (!tw_point_is_sane (grasp->at))
    return FALSE;
  self->bench = *bench;
  self->view = *grasp->view;
  self->pressed = grasp->at;
  self->placement = tw_placement_ref (bench->placement);
  self->passes = bench->passes ? tw_passes_ref ((TwPasses *)bench->passes) : NULL;
  self->label = g_strdup (grasp->label);
  for (guint i = 0; i < grasp->n_grips; i++)
    hold (self, &grasp->grips[i]);
  if (self->held->len == 0) {
    let_go (self);
    return FALSE;
  }
  tw_hand_list_figures (self);
  return TRUE;
}

gboolean
tw_hand_press (TwHand *self,
               const TwHandBench *bench,
               const TwStageView *view,
               TwId part,
               TwPoint at,
               const char *label)
{
  TwGrip body = { .kind = TW_GRIP_BODY, .part = part, .element = TW_ID_NONE };
  TwHandGrasp grasp = { view, &body, 1, at, label };

  return tw_hand_take (self, bench, &grasp);
}

/* What is seen of a grip's movement. */
static TwPoint
seen (const TwHand *self, const TwHandHeld *held, const double *amounts_mm)
{
  TwPoint sum = { 0.0, 0.0 };

  for (guint i = 0; i < held->freedoms->n; i++) {
    TwPoint way = tw_stage_view_direction (&self->view, held->freedoms->list[i].along);

    sum.x_mm += amounts_mm[i] * way.x_mm;
    sum.y_mm += amounts_mm[i] * way.y_mm;
  }
  return sum;
}

static void
put_amounts (TwHandHeld *held, const double *amounts_mm)
{
  for (guint i = 0; i < held->freedoms->n; i++) {
    const TwFreedom *freedom = &held->freedoms->list[i];

    if (!held->typed[i])
      held->amounts_mm[i] = CLAMP (amounts_mm[i], freedom->low_mm, freedom->high_mm);
  }
}

/* The first grip goes to where it snaps; the others go by what it went, and by what was drawn where it cannot
 * follow. */
static void
move_all (TwHand *self, TwPoint drawn, const TwHandManner *manner)
{
  for (guint i = 0; i < self->held->len; i++) {
    TwHandHeld *held = tw_hand_held (self, i);
    double amounts_mm[TW_FREEDOM_MOST];
    TwPoint before, after;

    if (!tw_freedoms_solve (held->freedoms, &self->view, held->typed, drawn, amounts_mm))
      continue;
    before = seen (self, held, amounts_mm);
    if (i == 0)
      tw_hand_settle (self, amounts_mm, manner);
    put_amounts (held, amounts_mm);
    after = seen (self, held, amounts_mm);
    if (i == 0)
      drawn = (TwPoint){ drawn.x_mm + after.x_mm - before.x_mm, drawn.y_mm + after.y_mm - before.y_mm };
  }
}

gboolean
tw_hand_move (TwHand *self, TwPoint at, const TwHandManner *manner)
{
  TwPoint pressed;
  gboolean moved, carried;

  g_return_val_if_fail (tw_hand_is_holding (self), FALSE);
  if (!tw_point_is_sane (at))
    return FALSE;
  carried = tw_hand_carry (self, at, manner);
  pressed = tw_hand_pressed (self);
  for (guint i = 0; i < self->held->len; i++)
    memcpy (tw_hand_held (self, i)->before_mm, tw_hand_held (self, i)->amounts_mm,
            sizeof (double[TW_FREEDOM_MOST]));
  g_array_set_size (self->snaps, 0);
  move_all (self, (TwPoint){ at.x_mm - pressed.x_mm, at.y_mm - pressed.y_mm }, manner);
  moved = tw_hand_apply (self);
  if (self->refusal != NULL) {
    for (guint i = 0; i < self->held->len; i++)
      memcpy (tw_hand_held (self, i)->amounts_mm, tw_hand_held (self, i)->before_mm,
              sizeof (double[TW_FREEDOM_MOST]));
    g_array_set_size (self->snaps, 0);
  }
  return moved || carried;
}

void
tw_hand_release (TwHand *self)
{
  if (!tw_hand_is_holding (self))
    return;
  if (self->is_open && tw_history_is_open (self->bench.history))
    tw_history_close (self->bench.history);
  let_go (self);
}

void
tw_hand_cancel (TwHand *self)
{
  if (!tw_hand_is_holding (self))
    return;
  if (self->is_open && tw_history_is_open (self->bench.history))
    tw_history_cancel (self->bench.history);
  let_go (self);
}

gboolean
tw_hand_is_holding (const TwHand *self)
{
  return self->placement != NULL;
}

TwId
tw_hand_part (const TwHand *self)
{
  return self->held->len > 0 ? tw_hand_held (self, 0)->grip->part : TW_ID_NONE;
}

const TwGrip *
tw_hand_grip (const TwHand *self, guint nth)
{
  return nth < self->held->len ? tw_hand_held (self, nth)->grip : NULL;
}

const TwHandFigure *
tw_hand_figures (const TwHand *self, guint *n)
{
  *n = self->figures->len;
  return (const TwHandFigure *)self->figures->data;
}

const guint *
tw_hand_fields (const TwHand *self, guint *n)
{
  *n = self->fields->len;
  return (const guint *)self->fields->data;
}

const TwSnap *
tw_hand_snaps (const TwHand *self, guint *n)
{
  *n = self->snaps->len;
  return (const TwSnap *)self->snaps->data;
}

const TwSnap *
tw_hand_snap (const TwHand *self)
{
  static const TwSnap none = { .kind = TW_SNAP_NONE };

  return self->snaps->len > 0 ? &g_array_index (self->snaps, TwSnap, 0) : &none;
}

const char *
tw_hand_refusal (const TwHand *self)
{
  return self->refusal;
}
