/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stage/hand.h"

#include <math.h>

#define NUDGE_MM 1.0
#define NUDGE_INCH_MM (25.4 / 16.0)
#define LEAST_MM 1e-9 /* less is no movement */

struct _TwHand {
  TwHandBench bench;
  TwPlacement *placement; /* of the press, counted */
  TwPasses *passes;       /* of the press, counted, or NULL */
  TwStageView view;
  TwId part;
  TwPoint pressed;
  char *label;

  TwFreedom freedoms[TW_FREEDOM_MOST];
  guint n_freedoms;
  double set_mm[TW_FREEDOM_MOST]; /* what the job says of each now */
  guint fields[TW_FREEDOM_MOST];  /* that were changed */
  guint n_fields;
  gboolean is_open; /* the history's step is */
  TwSnap snap;
};

TwHand *
tw_hand_new (void)
{
  return g_new0 (TwHand, 1);
}

void
tw_hand_free (TwHand *self)
{
  tw_hand_cancel (self);
  g_free (self);
}

gboolean
tw_hand_can_move (const TwPlacement *placement, const TwStageView *view, TwId part)
{
  TwFreedom freedoms[TW_FREEDOM_MOST];
  double amounts_mm[TW_FREEDOM_MOST];
  guint n = tw_freedom_list (placement, part, freedoms);

  return n > 0 && tw_freedom_solve (freedoms, n, view, (TwPoint){ 1.0, 1.0 }, amounts_mm);
}

gboolean
tw_hand_press (TwHand *self,
               const TwHandBench *bench,
               const TwStageView *view,
               TwId part,
               TwPoint at,
               const char *label)
{
  g_return_val_if_fail (!tw_hand_is_holding (self), FALSE);

  if (!tw_hand_can_move (bench->placement, view, part))
    return FALSE;
  *self = (TwHand){ .bench = *bench, .view = *view, .part = part, .pressed = at };
  self->placement = tw_placement_ref ((TwPlacement *)bench->placement);
  self->passes = bench->passes ? tw_passes_ref ((TwPasses *)bench->passes) : NULL;
  self->label = g_strdup (label);
  self->n_freedoms = tw_freedom_list (bench->placement, part, self->freedoms);
  for (guint i = 0; i < self->n_freedoms; i++)
    self->set_mm[i] = self->freedoms[i].value_mm;
  return TRUE;
}

static gboolean
shown_in_inches (const TwJob *job)
{
  return tw_job_settings (job)->shown_in == TW_SHOWN_IN_INCH;
}

static int
freedom_of (const TwHand *self, guint field)
{
  for (guint i = 0; i < self->n_freedoms; i++)
    if (self->freedoms[i].field == field)
      return (int)i;
  return -1;
}

/* Two fans side by side: both figures at once, before each is looked at alone. */
static gboolean
snap_touching (TwHand *self, double *values_mm, double reach_mm)
{
  int u = freedom_of (self, TW_FAN_u_mm), v = freedom_of (self, TW_FAN_v_mm);
  TwPoint centre;
  TwId other;

  if (tw_placement_fan (self->placement, self->part) == NULL || u < 0 || v < 0)
    return FALSE;
  centre = (TwPoint){ values_mm[u], values_mm[v] };
  if (!tw_snap_touch (self->placement, self->part, &centre, reach_mm, &other))
    return FALSE;
  values_mm[u] = centre.x_mm;
  values_mm[v] = centre.y_mm;
  self->snap = (TwSnap){ TW_SNAP_TOUCHES, TW_FAN_u_mm, centre.x_mm, 0, other };
  return TRUE;
}

/* Rounds or snaps the figures that the gesture moves; the others stay to the bit. */
static void
settle (TwHand *self, const double *amounts_mm, double *values_mm, const TwHandManner *manner)
{
  TwSnapBench bench = { self->placement, self->passes, shown_in_inches (self->bench.job) };
  gboolean touching;

  self->snap = (TwSnap){ .kind = TW_SNAP_NONE };
  for (guint i = 0; i < self->n_freedoms; i++)
    values_mm[i] = self->freedoms[i].value_mm + amounts_mm[i];
  touching = !manner->no_snaps && snap_touching (self, values_mm, manner->reach_mm);
  for (guint i = 0; i < self->n_freedoms; i++) {
    const TwFreedom *freedom = &self->freedoms[i];
    TwSnap snap;

    if (fabs (amounts_mm[i]) < LEAST_MM) {
      values_mm[i] = touching ? values_mm[i] : freedom->value_mm;
    } else if (!touching && !manner->no_snaps
               && tw_snap_find (&bench, self->part, freedom->field, values_mm[i], manner->reach_mm, &snap)) {
      values_mm[i] = snap.value_mm;
      self->snap = self->snap.kind == TW_SNAP_NONE || snap.kind < self->snap.kind ? snap : self->snap;
    } else if (!touching && manner->step_mm > 0.0) {
      values_mm[i] = round (values_mm[i] / manner->step_mm) * manner->step_mm;
    }
    values_mm[i] = CLAMP (values_mm[i], freedom->low_mm, freedom->high_mm);
  }
}

static void
mark_field (TwHand *self, guint field)
{
  for (guint i = 0; i < self->n_fields; i++)
    if (self->fields[i] == field)
      return;
  self->fields[self->n_fields++] = field;
}

/* Binary steps of an inch or a millimetre do not stay on the grid of decimals: 0.1 + 0.2. What is written to
 * the file is the figure to a nanometre. */
static double
clean_mm (double value_mm)
{
  double cleaned_mm = round (value_mm * 1e6) / 1e6;

  return cleaned_mm == 0.0 ? 0.0 : cleaned_mm;
}

static gboolean
apply (TwHand *self, const double *values_mm)
{
  TwChange *group = tw_change_group (self->label);

  for (guint i = 0; i < self->n_freedoms; i++) {
    double value_mm = fabs (values_mm[i] - self->freedoms[i].value_mm) < LEAST_MM ? self->freedoms[i].value_mm
                                                                                  : clean_mm (values_mm[i]);
    TwValue value = tw_value_number (value_mm);

    if (value_mm == self->set_mm[i]) {
      tw_value_clear (&value);
      continue;
    }
    self->set_mm[i] = value_mm;
    mark_field (self, self->freedoms[i].field);
    tw_change_group_add (group, tw_change_set (self->part, TW_ID_NONE, self->freedoms[i].field, &value));
  }
  if (tw_change_group_size (group) == 0) {
    tw_change_free (group);
    return FALSE;
  }
  if (!self->is_open)
    tw_history_open (self->bench.history, self->label);
  self->is_open = TRUE;
  return tw_history_do (self->bench.history, group, NULL);
}

gboolean
tw_hand_move (TwHand *self, TwPoint at, const TwHandManner *manner)
{
  TwPoint drawn = { at.x_mm - self->pressed.x_mm, at.y_mm - self->pressed.y_mm };
  double amounts_mm[TW_FREEDOM_MOST], values_mm[TW_FREEDOM_MOST];

  g_return_val_if_fail (tw_hand_is_holding (self), FALSE);
  if (!tw_freedom_solve (self->freedoms, self->n_freedoms, &self->view, drawn, amounts_mm))
    return FALSE;
  settle (self, amounts_mm, values_mm, manner);
  return apply (self, values_mm);
}

static void
let_go (TwHand *self)
{
  tw_placement_unref (self->placement);
  if (self->passes != NULL)
    tw_passes_unref (self->passes);
  g_free (self->label);
  *self = (TwHand){ .part = TW_ID_NONE };
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
  return self->part;
}

const TwSnap *
tw_hand_snap (const TwHand *self)
{
  return &self->snap;
}

const guint *
tw_hand_fields (const TwHand *self, guint *n)
{
  *n = self->n_fields;
  return self->fields;
}

gboolean
tw_hand_nudge (const TwHandBench *bench,
               const TwStageView *view,
               TwId part,
               const TwHandNudge *nudge,
               const char *label)
{
  g_autoptr (TwHand) hand = tw_hand_new ();
  double step_mm = (nudge->inches ? NUDGE_INCH_MM : NUDGE_MM) * (nudge->ten ? 10.0 : 1.0);
  TwPoint to = { nudge->right * step_mm, nudge->up * step_mm };
  TwHandManner manner = { .no_snaps = TRUE };
  gboolean moved;

  if (!tw_hand_press (hand, bench, view, part, (TwPoint){ 0.0, 0.0 }, label))
    return FALSE;
  moved = tw_hand_move (hand, to, &manner);
  tw_hand_release (hand);
  return moved;
}
