/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stage/freedom.h"

#include <math.h>

TwStageView
tw_stage_view_plane (TwPlane plane)
{
  TwVec origin = tw_plane_lift (plane, (TwPoint){ 0.0, 0.0 }, 0.0);
  TwVec right = tw_plane_lift (plane, (TwPoint){ 1.0, 0.0 }, 0.0);
  TwVec above = tw_plane_lift (plane, (TwPoint){ 0.0, 1.0 }, 0.0);

  return (TwStageView){ tw_vec_subtract (right, origin), tw_vec_subtract (above, origin), origin };
}

TwStageView
tw_stage_view_face (const TwPlacedCore *core)
{
  return (TwStageView){ core->frame.u, core->frame.v, core->frame.origin };
}

TwPoint
tw_stage_view_direction (const TwStageView *view, TwVec direction)
{
  return (TwPoint){ tw_vec_dot (direction, view->across), tw_vec_dot (direction, view->up) };
}

TwPoint
tw_stage_view_place (const TwStageView *view, TwVec at)
{
  return tw_stage_view_direction (view, tw_vec_subtract (at, view->origin));
}

TwVec
tw_stage_view_depth (const TwStageView *view)
{
  return tw_vec_cross (view->across, view->up);
}

TwFreedoms
tw_freedoms (void)
{
  return (TwFreedoms){ .targets = g_array_new (FALSE, FALSE, sizeof (TwFreedomTarget)) };
}

void
tw_freedoms_clear (TwFreedoms *self)
{
  g_clear_pointer (&self->targets, g_array_unref);
  self->n = 0;
}

const TwFreedomTarget *
tw_freedoms_target (const TwFreedoms *self, guint freedom, guint nth)
{
  const TwFreedom *one = &self->list[freedom];

  g_return_val_if_fail (freedom < self->n && nth < one->n_targets, NULL);
  return &g_array_index (self->targets, TwFreedomTarget, one->first_target + nth);
}

/* A symmetric matrix of two rows, all dimensionless. */
typedef struct {
  double xx; /* dimensionless */
  double xy; /* dimensionless */
  double yy; /* dimensionless */
} Square;

/* (J·Jᵀ)⁺·d: the eigenvalues of a symmetric 2 × 2 matrix in closed form; small ones are left out. FALSE when
 * both are. */
static gboolean
solve_square (Square m, TwPoint d, TwPoint *solution)
{
  const double least = TW_FREEDOM_LEAST * TW_FREEDOM_LEAST;
  double mean = (m.xx + m.yy) / 2.0, half = hypot ((m.xx - m.yy) / 2.0, m.xy);
  double values[2] = { mean + half, mean - half };
  double angle_rad = 0.5 * atan2 (2.0 * m.xy, m.xx - m.yy);
  double c = cos (angle_rad), s = sin (angle_rad);
  double parts[2] = { c * d.x_mm + s * d.y_mm, -s * d.x_mm + c * d.y_mm };

  for (guint i = 0; i < 2; i++)
    parts[i] = values[i] > least ? parts[i] / values[i] : 0.0;
  *solution = (TwPoint){ c * parts[0] - s * parts[1], s * parts[0] + c * parts[1] };
  return values[0] > least;
}

gboolean
tw_freedoms_solve (const TwFreedoms *self,
                   const TwStageView *view,
                   const gboolean *held,
                   TwPoint drawn,
                   double *amounts_mm)
{
  TwPoint seen[TW_FREEDOM_MOST];
  Square m = { 0.0, 0.0, 0.0 };
  TwPoint solution;

  for (guint i = 0; i < TW_FREEDOM_MOST; i++)
    amounts_mm[i] = 0.0;
  for (guint i = 0; i < self->n; i++) {
    seen[i] = tw_stage_view_direction (view, self->list[i].along);
    if (held != NULL && held[i])
      seen[i] = (TwPoint){ 0.0, 0.0 };
    m.xx += seen[i].x_mm * seen[i].x_mm;
    m.xy += seen[i].x_mm * seen[i].y_mm;
    m.yy += seen[i].y_mm * seen[i].y_mm;
  }
  if (!solve_square (m, drawn, &solution))
    return FALSE;
  for (guint i = 0; i < self->n; i++)
    amounts_mm[i] = seen[i].x_mm * solution.x_mm + seen[i].y_mm * solution.y_mm;
  return TRUE;
}

double
tw_freedom_clean_mm (double value_mm)
{
  double cleaned_mm = round (value_mm * 1e6) / 1e6;

  return cleaned_mm == 0.0 ? 0.0 : cleaned_mm;
}

void
tw_freedoms_change (const TwFreedoms *self, TwId part, const double *amounts_mm, TwChange *group)
{
  for (guint i = 0; i < self->n; i++) {
    if (fabs (amounts_mm[i]) < 1e-9)
      continue;
    for (guint k = 0; k < self->list[i].n_targets; k++) {
      const TwFreedomTarget *target = tw_freedoms_target (self, i, k);
      TwValue value
          = tw_value_number (tw_freedom_clean_mm (target->value_mm + target->factor * amounts_mm[i]));

      tw_change_group_add (group, tw_change_set (part, target->element, target->field, &value));
    }
  }
}
