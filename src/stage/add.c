/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stage/add-private.h"

#include "stage/extent.h"

#include <math.h>

#define LEAST_BOX_MM 2.0 /* two points nearer than this are one */
#define SQUARE 1e-9      /* dimensionless: how far from square on a view may be */

/* --- places --------------------------------------------------------------------------------------------- */

gboolean
tw_add_pointer (const TwAddWhere *where, TwVec like, TwVec *at)
{
  const TwStageView *view = where->view;
  TwPoint point = where->points[0], here;

  if (where->n_points == 0 || !tw_point_is_sane (point))
    return FALSE;
  here = tw_stage_view_place (view, like);
  *at = tw_vec_add_scaled (like, point.x_mm - here.x_mm, view->across);
  *at = tw_vec_add_scaled (*at, point.y_mm - here.y_mm, view->up);
  return TRUE;
}

gboolean
tw_add_box (const TwAddWhere *where, TwBox *box)
{
  if (where->n_points < 2 || !tw_point_is_sane (where->points[0]) || !tw_point_is_sane (where->points[1]))
    return FALSE;
  *box = tw_box_add_point (tw_box_add_point (TW_BOX_EMPTY, where->points[0]), where->points[1]);
  return box->x1_mm - box->x0_mm >= LEAST_BOX_MM && box->y1_mm - box->y0_mm >= LEAST_BOX_MM;
}

gboolean
tw_add_plane (const TwStageView *view, TwPlane *plane)
{
  TwVec look = tw_stage_view_depth (view);

  *plane = fabs (look.x) > 1.0 - SQUARE   ? TW_PLANE_SIDE
           : fabs (look.y) > 1.0 - SQUARE ? TW_PLANE_PLAN
                                          : TW_PLANE_FRONT;
  return *plane != TW_PLANE_FRONT || fabs (look.z) > 1.0 - SQUARE;
}

gboolean
tw_add_room (const TwPlacement *placement, TwSolidBox *room)
{
  TwSolidBox all = TW_SOLID_BOX_EMPTY;
  guint n;
  const TwPlacedSolid *solids = tw_placement_solids (placement, &n);

  *room = TW_SOLID_BOX_EMPTY;
  for (guint i = 0; i < n; i++) {
    all = tw_solid_box_add (all, tw_convex_bounds (solids[i].convex));
    if (solids[i].role == TW_SOLID_FREE)
      *room = tw_solid_box_add (*room, tw_convex_bounds (solids[i].convex));
  }
  if (room->from.x > room->to.x)
    *room = all;
  return room->from.x <= room->to.x;
}

TwVec
tw_add_whole (TwVec at)
{
  return tw_vec (round (at.x), round (at.y), round (at.z));
}

/* --- owners --------------------------------------------------------------------------------------------- */

/* The tank of a baffle or port, the core of a tank, shroud or fan; none of others. */
static TwId
owner_of (const TwPlacement *placement, TwId part, gboolean wants_tank)
{
  const TwPlacedBaffle *baffle = tw_placement_baffle (placement, part);
  const TwPlacedPort *port = tw_placement_port (placement, part);
  const TwPlacedTank *tank = tw_placement_tank (placement, part);
  const TwPlacedShroud *shroud = tw_placement_shroud (placement, part);
  const TwPlacedFan *fan = tw_placement_fan (placement, part);

  if (baffle != NULL)
    return wants_tank ? baffle->tank : baffle->core;
  if (port != NULL)
    return wants_tank ? port->tank : port->core;
  if (tank != NULL)
    return wants_tank ? tank->id : tank->core;
  if (shroud != NULL && !wants_tank)
    return shroud->core;
  return fan != NULL && !wants_tank ? fan->core : part;
}

static double
away_mm (const TwAddWhere *where, TwVec from, TwVec to, const TwFrame *frame)
{
  TwVec corners[2] = { tw_frame_to_job (frame, from), tw_frame_to_job (frame, to) };
  TwBox box
      = tw_box_add_point (tw_box_add_point (TW_BOX_EMPTY, tw_stage_view_place (where->view, corners[0])),
                          tw_stage_view_place (where->view, corners[1]));
  TwPoint at = where->points[0];

  return hypot (MAX (MAX (box.x0_mm - at.x_mm, at.x_mm - box.x1_mm), 0.0),
                MAX (MAX (box.y0_mm - at.y_mm, at.y_mm - box.y1_mm), 0.0));
}

const TwPlacedCore *
tw_add_core (const TwAddWhere *where, GError **error)
{
  guint n, best = 0;
  const TwPlacedCore *cores = tw_placement_cores (where->placement, &n);
  const TwPlacedCore *chosen
      = tw_placement_core (where->placement, owner_of (where->placement, where->chosen, FALSE));
  double best_mm = G_MAXDOUBLE;

  if (chosen != NULL)
    return chosen;
  for (guint i = 0; where->n_points > 0 && i < n; i++) {
    double off_mm
        = away_mm (where, tw_vec (cores[i].face.x0_mm, cores[i].face.y0_mm, 0.0),
                   tw_vec (cores[i].face.x1_mm, cores[i].face.y1_mm, cores[i].thickness_mm), &cores[i].frame);

    if (off_mm < best_mm) {
      best_mm = off_mm;
      best = i;
    }
  }
  if (n == 0)
    (void)tw_add_refuse (error, _ ("a core with a size comes first"));
  return n > 0 ? &cores[best] : NULL;
}

const TwPlacedTank *
tw_add_tank (const TwAddWhere *where, GError **error)
{
  guint n, best = 0;
  const TwPlacedTank *tanks = tw_placement_tanks (where->placement, &n);
  const TwPlacedTank *chosen
      = tw_placement_tank (where->placement, owner_of (where->placement, where->chosen, TRUE));
  double best_mm = G_MAXDOUBLE;

  if (chosen != NULL)
    return chosen;
  for (guint i = 0; where->n_points > 0 && i < n; i++) {
    const TwPlacedCore *core = tw_placement_core (where->placement, tanks[i].core);
    double off_mm = away_mm (where, tanks[i].from, tanks[i].to, &core->frame);

    if (off_mm < best_mm) {
      best_mm = off_mm;
      best = i;
    }
  }
  if (n == 0)
    (void)tw_add_refuse (error, _ ("a tank comes first"));
  return n > 0 ? &tanks[best] : NULL;
}

/* --- making --------------------------------------------------------------------------------------------- */

void
tw_add_put (TwPart *made, guint field, double value_mm)
{
  TwValue value = tw_value_number (tw_freedom_clean_mm (value_mm));

  tw_part_put (made, field, &value);
}

void
tw_add_choose (TwPart *made, guint field, int choice)
{
  TwValue value = tw_value_choice (TW_FIELD_CHOICE, choice);

  tw_part_put (made, field, &value);
}

void
tw_add_refer (TwPart *made, guint field, TwId to)
{
  TwValue value = tw_value_ref (to);

  tw_part_put (made, field, &value);
}

void
tw_add_corner (TwPart *made, GPtrArray *ring, TwPoint at)
{
  TwPart *corner;
  TwId id;

  for (guint n = 1;; n++) {
    g_autofree char *text = g_strdup_printf ("corner-%u", n);

    if (tw_id_from_text (text, &id) && tw_part_element (made, id, NULL) == NULL)
      break;
  }
  corner = tw_part_new (TW_KIND_CORNER, id);
  tw_add_put (corner, TW_CORNER_across_mm, at.x_mm);
  tw_add_put (corner, TW_CORNER_up_mm, at.y_mm);
  g_ptr_array_add (ring, corner);
}

gboolean
tw_add_refuse (GError **error, const char *why)
{
  g_set_error_literal (error, TW_ERROR, TW_ERROR_REFUSED, why);
  return FALSE;
}

TwChange *
tw_add_part (const TwAddWhere *where, TwKind kind, TwId *id, GError **error)
{
  static gboolean (*const fill[TW_FIRST_ELEMENT]) (const TwAddWhere *, TwPart *, GError **) = {
    [TW_KIND_VOLUME] = tw_add_volume,
    [TW_KIND_CORE] = tw_add_new_core,
    [TW_KIND_TANK] = tw_add_new_tank,
    [TW_KIND_BAFFLE] = tw_add_baffle,
    [TW_KIND_PORT] = tw_add_port,
    [TW_KIND_SHROUD] = tw_add_shroud,
    [TW_KIND_FAN] = tw_add_fan,
    [TW_KIND_ENGINE_PORT] = tw_add_engine_port,
    [TW_KIND_HOSE] = tw_add_hose,
    [TW_KIND_OPENING] = tw_add_opening,
    [TW_KIND_HEADER_TANK] = tw_add_header_tank,
    [TW_KIND_EXIT] = tw_add_opening,
  };
  g_autoptr (TwPart) made = NULL;

  g_return_val_if_fail (kind < TW_FIRST_ELEMENT && fill[kind] != NULL, NULL);
  *id = TW_ID_NONE;
  made = tw_part_new (kind, TW_ID_NONE);
  if (!fill[kind](where, made, error))
    return NULL;
  made->id = *id = tw_job_new_id (where->job, kind);
  return tw_change_add (g_steal_pointer (&made), -1);
}
