/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stage/freedom.h"

#include "job/change.h"

#include <math.h>

TwStageView
tw_stage_view_plane (TwPlane plane)
{
  TwVec origin = tw_plane_lift (plane, (TwPoint){ 0.0, 0.0 }, 0.0);
  TwVec right = tw_plane_lift (plane, (TwPoint){ 1.0, 0.0 }, 0.0);
  TwVec above = tw_plane_lift (plane, (TwPoint){ 0.0, 1.0 }, 0.0);

  return (TwStageView){ tw_vec_subtract (right, origin), tw_vec_subtract (above, origin) };
}

TwStageView
tw_stage_view_face (const TwPlacedCore *core)
{
  return (TwStageView){ core->frame.u, core->frame.v };
}

typedef struct {
  const TwDrawing *drawing;
  TwId part;
  TwFreedom *freedoms;
  guint n;
} List;

/* Left out when neither the job nor anything behind it says where the part is. */
static void
add (List *list, guint field, TwVec along)
{
  const TwPart *part = tw_drawing_find (list->drawing, list->part);
  const TwField *info = &tw_kind_info (part->kind)->fields[field];
  double value_mm = G_STRUCT_MEMBER (double, part, info->offset);

  if (!isfinite (value_mm))
    return;
  list->freedoms[list->n++] = (TwFreedom){ field, along, value_mm, info->low, info->high };
}

static void
add_job_axes (List *list, const guint fields[3])
{
  add (list, fields[0], tw_vec (1.0, 0.0, 0.0));
  add (list, fields[1], tw_vec (0.0, 1.0, 0.0));
  add (list, fields[2], tw_vec (0.0, 0.0, 1.0));
}

static void
add_baffle (List *list, const TwPlacement *placement)
{
  const TwPlacedBaffle *baffle = tw_placement_baffle (placement, list->part);
  const TwPlacedTank *tank = baffle ? tw_placement_tank (placement, baffle->tank) : NULL;
  const TwPlacedCore *core = tank ? tw_placement_core (placement, tank->core) : NULL;

  if (core == NULL)
    return;
  add (list, TW_BAFFLE_place_mm,
       baffle->runs_along ? core->frame.w : tw_frame_turn_to_job (&core->frame, tank->side.along));
}

static void
add_port (List *list, const TwPlacement *placement)
{
  const TwPlacedPort *port = tw_placement_port (placement, list->part);
  const TwPlacedTank *tank = port ? tw_placement_tank (placement, port->tank) : NULL;
  const TwPlacedCore *core = tank ? tw_placement_core (placement, tank->core) : NULL;
  gboolean in_end, in_back;

  if (core == NULL)
    return;
  in_end = port->wall == TW_WALL_START || port->wall == TW_WALL_END;
  in_back = port->wall == TW_WALL_BACK;
  if (!in_end)
    add (list, TW_PORT_along_mm, tw_frame_turn_to_job (&core->frame, tank->side.along));
  if (in_end || in_back)
    add (list, TW_PORT_across_mm, core->frame.w);
  if (!in_back)
    add (list, TW_PORT_out_mm, tw_frame_turn_to_job (&core->frame, tank->side.out));
}

static void
add_on_face (List *list, const TwPlacedCore *core, guint u, guint v)
{
  if (core == NULL)
    return;
  add (list, u, core->frame.u);
  add (list, v, core->frame.v);
}

/* One with an outline has no middle of its own: it is moved square to its plane. */
static void
add_opening (List *list, const TwPlacedOpening *opening, const TwPart *drawn)
{
  TwPoint zero = { 0.0, 0.0 };

  if (((const TwOpening *)drawn)->outline->len == 0) {
    add (list, TW_OPENING_across_mm, tw_plane_lift (opening->plane, (TwPoint){ 1.0, 0.0 }, 0.0));
    add (list, TW_OPENING_up_mm, tw_plane_lift (opening->plane, (TwPoint){ 0.0, 1.0 }, 0.0));
  }
  add (list, TW_OPENING_at_mm, tw_plane_lift (opening->plane, zero, 1.0));
}

G_STATIC_ASSERT ((int)TW_OPENING_up_mm == (int)TW_EXIT_up_mm && (int)TW_OPENING_at_mm == (int)TW_EXIT_at_mm);

guint
tw_freedom_list (const TwPlacement *placement, TwId part, TwFreedom freedoms[TW_FREEDOM_MOST])
{
  static const guint of_core[] = { TW_CORE_x_mm, TW_CORE_y_mm, TW_CORE_z_mm };
  static const guint of_engine[] = { TW_ENGINE_PORT_x_mm, TW_ENGINE_PORT_y_mm, TW_ENGINE_PORT_z_mm };
  List list = { tw_placement_drawing (placement), part, freedoms, 0 };
  static const guint of_tank[] = { TW_HEADER_TANK_x_mm, TW_HEADER_TANK_y_mm, TW_HEADER_TANK_z_mm };
  const TwPart *drawn = tw_drawing_find (list.drawing, part);
  const TwPlacedOpening *opening;
  const TwPlacedFan *fan;
  const TwPlacedShroud *shroud;

  if (drawn == NULL)
    return 0;
  if (drawn->kind == TW_KIND_CORE)
    add_job_axes (&list, of_core);
  else if (drawn->kind == TW_KIND_ENGINE_PORT)
    add_job_axes (&list, of_engine);
  else if (drawn->kind == TW_KIND_HEADER_TANK)
    add_job_axes (&list, of_tank);
  else if ((opening = tw_placement_opening (placement, part)) != NULL)
    add_opening (&list, opening, drawn);
  else if (drawn->kind == TW_KIND_BAFFLE)
    add_baffle (&list, placement);
  else if (drawn->kind == TW_KIND_PORT)
    add_port (&list, placement);
  else if (drawn->kind == TW_KIND_FAN && (fan = tw_placement_fan (placement, part)) != NULL)
    add_on_face (&list, tw_placement_core (placement, fan->core), TW_FAN_u_mm, TW_FAN_v_mm);
  else if (drawn->kind == TW_KIND_SHROUD && (shroud = tw_placement_shroud (placement, part)) != NULL)
    add_on_face (&list, tw_placement_core (placement, shroud->core), TW_SHROUD_u_mm, TW_SHROUD_v_mm);
  return list.n;
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
tw_freedom_solve (const TwFreedom *freedoms,
                  guint n,
                  const TwStageView *view,
                  TwPoint drawn,
                  double *amounts_mm)
{
  double across[TW_FREEDOM_MOST], up[TW_FREEDOM_MOST];
  Square m = { 0.0, 0.0, 0.0 };
  TwPoint solution;

  g_return_val_if_fail (n <= TW_FREEDOM_MOST, FALSE);
  for (guint i = 0; i < n; i++) {
    across[i] = tw_vec_dot (freedoms[i].along, view->across);
    up[i] = tw_vec_dot (freedoms[i].along, view->up);
    m.xx += across[i] * across[i];
    m.xy += across[i] * up[i];
    m.yy += up[i] * up[i];
  }
  if (!solve_square (m, drawn, &solution))
    return FALSE;
  for (guint i = 0; i < n; i++)
    amounts_mm[i] = across[i] * solution.x_mm + up[i] * solution.y_mm;
  return TRUE;
}
