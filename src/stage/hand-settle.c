/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * hand-settle.c - snapping, rounding, and steps by arrow keys
 */
#include "stage/hand-private.h"

#include "layout/tube-grid.h"

#include <math.h>

#define NUDGE_MM 1.0
#define NUDGE_INCH_MM (25.4 / 16.0)
#define LEAST_GUIDE_MM 1e-3 /* a guide line is longer than this */

static gboolean
shown_in_inches (const TwJob *job)
{
  return tw_job_settings (job)->shown_in == TW_SHOWN_IN_INCH;
}

static TwSnapBench
snap_bench (const TwHand *self)
{
  return (TwSnapBench){ self->placement,
                        self->passes,
                        &self->view,
                        self->moving,
                        self->carried.is_over ? &self->carried.port : NULL,
                        shown_in_inches (self->bench.job) };
}

static gboolean
both_seen (const TwHand *self, const TwFreedoms *freedoms)
{
  TwPoint a, b;

  if (freedoms->n != 2)
    return FALSE;
  a = tw_stage_view_direction (&self->view, freedoms->list[0].along);
  b = tw_stage_view_direction (&self->view, freedoms->list[1].along);
  return fabs (a.x_mm * b.y_mm - a.y_mm * b.x_mm) > TW_FREEDOM_LEAST;
}

/* Two fans side by side: both figures at once, before each is looked at alone. */
static gboolean
snap_touching (TwHand *self, double *amounts_mm, double reach_mm)
{
  const TwHandHeld *held = tw_hand_held (self, 0);
  const TwPlacedFan *fan = tw_placement_fan (self->placement, held->grip->part);
  TwSnap snap = { .kind = TW_SNAP_TOUCHES, .has_place = TRUE };
  const TwPlacedFan *other;
  TwPoint centre;

  if (fan == NULL || held->grip->kind != TW_GRIP_BODY || !both_seen (self, held->freedoms) || held->typed[0]
      || held->typed[1])
    return FALSE;
  centre = (TwPoint){ fan->centre.x_mm + amounts_mm[0], fan->centre.y_mm + amounts_mm[1] };
  if (!tw_snap_touch (self->placement, fan->id, &centre, reach_mm, &snap.other))
    return FALSE;
  amounts_mm[0] = centre.x_mm - fan->centre.x_mm;
  amounts_mm[1] = centre.y_mm - fan->centre.y_mm;
  snap.amount_mm = amounts_mm[0];
  other = tw_placement_fan (self->placement, snap.other);
  snap.place = tw_frame_to_job (&tw_placement_core (self->placement, fan->core)->frame,
                                tw_vec (other->centre.x_mm, other->centre.y_mm, other->mounting_w_mm));
  g_array_append_val (self->snaps, snap);
  return TRUE;
}

/* The figure that a person would name becomes a multiple of the step; where it is no length along the
 * movement (a corner of a slanting edge) the movement does. */
static double
rounded_mm (const TwHandHeld *held, guint freedom, double amount_mm, double step_mm)
{
  const TwFreedomTarget *target = tw_freedoms_target (held->freedoms, freedom, 0);
  double factor = fabs (target->factor);
  double value_mm = target->value_mm + target->factor * amount_mm;

  if (fabs (factor - 1.0) > 1e-9 && fabs (factor - 2.0) > 1e-9)
    return round (amount_mm / step_mm) * step_mm;
  return (round (value_mm / step_mm) * step_mm - target->value_mm) / target->factor;
}

/* The more telling one first. */
static void
add_snap (TwHand *self, const TwSnap *snap)
{
  guint place = 0;

  while (place < self->snaps->len && g_array_index (self->snaps, TwSnap, place).kind <= snap->kind)
    place++;
  g_array_insert_val (self->snaps, place, *snap);
}

static void
settle_one (TwHand *self, guint freedom, double *amounts_mm, const TwHandManner *manner)
{
  const TwHandHeld *held = tw_hand_held (self, 0);
  TwSnapBench bench = snap_bench (self);
  TwSnapAsk ask = { held->grip, held->freedoms, freedom, amounts_mm };
  const TwFreedom *one = &held->freedoms->list[freedom];
  TwSnap snap;

  if (fabs (amounts_mm[freedom]) < TW_HAND_LAST_MM || held->typed[freedom])
    return;
  if (!manner->no_snaps && tw_snap_find (&bench, &ask, manner->reach_mm, &snap)
      && snap.amount_mm >= one->low_mm && snap.amount_mm <= one->high_mm) {
    amounts_mm[freedom] = snap.amount_mm;
    add_snap (self, &snap);
  } else if (manner->step_mm > 0.0) {
    amounts_mm[freedom] = rounded_mm (held, freedom, amounts_mm[freedom], manner->step_mm);
  }
}

/* From what a snap is taken from to what is held, where it stands now. */
static void
draw_guides (TwHand *self, const double *amounts_mm)
{
  const TwHandHeld *held = tw_hand_held (self, 0);
  TwVec place = held->grip->place;

  for (guint i = 0; i < held->freedoms->n; i++)
    place = tw_vec_add_scaled (place, amounts_mm[i], held->freedoms->list[i].along);
  for (guint i = 0; i < self->snaps->len; i++) {
    TwSnap *snap = &g_array_index (self->snaps, TwSnap, i);

    snap->guide[0] = tw_stage_view_place (&self->view, snap->place);
    snap->guide[1] = tw_stage_view_place (&self->view, place);
    snap->has_guide
        = snap->has_place && tw_point_distance_mm (snap->guide[0], snap->guide[1]) > LEAST_GUIDE_MM;
  }
}

void
tw_hand_settle (TwHand *self, double *amounts_mm, const TwHandManner *manner)
{
  const TwHandHeld *held = tw_hand_held (self, 0);

  if (manner->no_snaps || !snap_touching (self, amounts_mm, manner->reach_mm))
    for (guint i = 0; i < held->freedoms->n; i++)
      settle_one (self, i, amounts_mm, manner);
  for (guint i = 0; i < held->freedoms->n; i++)
    amounts_mm[i] = CLAMP (amounts_mm[i], held->freedoms->list[i].low_mm, held->freedoms->list[i].high_mm);
  draw_guides (self, amounts_mm);
}

/* --- arrow keys ----------------------------------------------------------------------------------------- */

/* From gap to gap of the tubes along the header, or of the rows; 0 when there is only one. */
static double
gap_step_mm (const TwPlacement *placement, const TwGrip *grip)
{
  const TwPlacedBaffle *baffle = tw_placement_baffle (placement, grip->part);
  TwTubeGrid grid;

  if (baffle == NULL)
    return 0.0;
  grid = tw_tube_grid ((const TwCore *)tw_drawing_find (tw_placement_drawing (placement), baffle->core));
  return baffle->runs_along ? (grid.n_rows > 2 ? grid.row_step_mm : 0.0)
                            : (grid.n_tubes > 2 ? fabs (grid.step_mm) : 0.0);
}

/* The first gap that lies @steps gaps away; from between two gaps the nearest one that way is the first. */
static gboolean
nudge_to_gap (TwHand *hand, const TwStageView *view, const TwHandNudge *nudge, double step_mm)
{
  const TwHandManner manner = { .reach_mm = step_mm / 2.0 };
  const TwFreedoms *freedoms = tw_hand_held (hand, 0)->freedoms;
  TwPoint way = tw_stage_view_direction (view, freedoms->list[0].along);
  double seen = hypot (way.x_mm, way.y_mm);
  double steps = fabs (way.x_mm) > fabs (way.y_mm) ? (way.x_mm > 0.0 ? nudge->right : -nudge->right)
                                                   : (way.y_mm > 0.0 ? nudge->up : -nudge->up);
  double by_mm = steps * step_mm * (nudge->ten ? 10.0 : 1.0);

  return tw_hand_move (hand, (TwPoint){ by_mm * way.x_mm * seen, by_mm * way.y_mm * seen }, &manner);
}

gboolean
tw_hand_nudge_all (const TwHandBench *bench, const TwHandGrasp *grasp, const TwHandNudge *nudge)
{
  g_autoptr (TwHand) hand = tw_hand_new ();
  double step_mm = (nudge->inches ? NUDGE_INCH_MM : NUDGE_MM) * (nudge->ten ? 10.0 : 1.0);
  TwHandManner manner = { .no_snaps = TRUE, .no_carry = TRUE };
  TwHandGrasp from_zero = *grasp;
  double gap_mm = nudge->gap && grasp->n_grips == 1 ? gap_step_mm (bench->placement, grasp->grips) : 0.0;
  gboolean moved;

  from_zero.at = (TwPoint){ 0.0, 0.0 };
  if (!tw_hand_take (hand, bench, &from_zero))
    return FALSE;
  if (gap_mm > 0.0)
    moved = nudge_to_gap (hand, grasp->view, nudge, gap_mm);
  else
    moved = tw_hand_move (hand, (TwPoint){ nudge->right * step_mm, nudge->up * step_mm }, &manner);
  tw_hand_release (hand);
  return moved;
}

gboolean
tw_hand_nudge (const TwHandBench *bench,
               const TwStageView *view,
               TwId part,
               const TwHandNudge *nudge,
               const char *label)
{
  TwGrip body = { .kind = TW_GRIP_BODY, .part = part, .element = TW_ID_NONE };
  TwHandGrasp grasp = { view, &body, 1, { 0.0, 0.0 }, label };

  return tw_hand_nudge_all (bench, &grasp, nudge);
}
