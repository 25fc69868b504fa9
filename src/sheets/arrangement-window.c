/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How much of the job the arrangement shows, and which names stand in which of its views.
 */
#include "sheets/arrangement-private.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* What reaches less far from the assembly than this share of its greatest size, or than so many mm, is drawn
 * whole. */
#define NEAR 0.8
#define NEAR_MM 400.0

/* Beyond a wall of the bay, and beyond the assembly where there is no wall, so much is drawn as a share of
 * its greatest size; dimensionless. */
#define BEYOND_WALL 0.12
#define BEYOND_ASSEMBLY 0.4

/* Whatever is not broken off has its limit here; mm. */
#define FAR_MM 1e6

typedef struct {
  double from[3]; /* x, y, z; mm */
  double to[3];   /* mm */
  gboolean any;
} Reach;

static void
add_box (Reach *reach, const TwSolidBox *box)
{
  const double from[] = { box->from.x, box->from.y, box->from.z }, to[] = { box->to.x, box->to.y, box->to.z };

  for (guint i = 0; i < 3; i++) {
    reach->from[i] = reach->any ? MIN (reach->from[i], from[i]) : from[i];
    reach->to[i] = reach->any ? MAX (reach->to[i], to[i]) : to[i];
  }
  reach->any = TRUE;
}

static gboolean
is_assembly (TwSolidRole role)
{
  return role == TW_SOLID_BLOCK || role == TW_SOLID_HEADER || role == TW_SOLID_TANK || role == TW_SOLID_PORT
         || role == TW_SOLID_SHROUD || role == TW_SOLID_FAN;
}

/* One limit of the window. @sign: −1 for the lower end of @axis, 1 for the upper one. */
static double
limit_of (const TwSheetSet *set, const Reach *assembly, const Reach *all, guint axis, double sign)
{
  double size = 0, own = sign < 0 ? assembly->from[axis] : assembly->to[axis];
  double out = sign * ((sign < 0 ? all->from[axis] : all->to[axis]) - own), near, wall = -1;
  const TwPlacedSolid *solids;
  guint n;

  for (guint i = 0; i < 3; i++)
    size = MAX (size, assembly->to[i] - assembly->from[i]);
  near = MAX (NEAR * size, NEAR_MM);
  if (out <= near)
    return sign * FAR_MM;
  solids = tw_placement_solids (set->placement, &n);
  for (guint i = 0; i < n; i++) {
    TwSolidBox box;
    double beyond;

    if (solids[i].role != TW_SOLID_FREE || tw_convex_is_empty (solids[i].convex))
      continue;
    box = tw_convex_bounds (solids[i].convex);
    beyond = sign
             * ((axis == 0   ? sign < 0 ? box.from.x : box.to.x
                 : axis == 1 ? sign < 0 ? box.from.y : box.to.y
                 : sign < 0  ? box.from.z
                             : box.to.z)
                - own);
    if (beyond <= near)
      wall = MAX (wall, beyond);
  }
  return own + sign * (wall >= 0 ? wall + BEYOND_WALL * size : BEYOND_ASSEMBLY * size);
}

/* Round an opening or exit: it is flat. */
static TwSolidBox
opening_box (const TwPlacedOpening *opening)
{
  TwBox box = tw_area_bounds (opening->outline);
  TwPoint low = { box.x0_mm, box.y0_mm }, high = { box.x1_mm, box.y1_mm };

  return (TwSolidBox){ tw_plane_lift (opening->plane, low, opening->at_mm),
                       tw_plane_lift (opening->plane, high, opening->at_mm) };
}

static void
add_openings (Reach *reach, const TwSheetSet *set)
{
  guint n;
  const TwPlacedOpening *openings = tw_placement_openings (set->placement, &n);

  for (guint i = 0; i < n; i++) {
    TwSolidBox box = opening_box (&openings[i]);

    add_box (reach, &box);
  }
}

TwArrangementWindow
tw_arrangement_window (const TwSheetSet *set)
{
  TwArrangementWindow window = { .from = { -FAR_MM, -FAR_MM, -FAR_MM }, .to = { FAR_MM, FAR_MM, FAR_MM } };
  Reach assembly = { .any = FALSE }, all = { .any = FALSE };
  const TwPlacedSolid *lists[2];
  guint ns[2];

  lists[0] = tw_placement_solids (set->placement, &ns[0]);
  lists[1] = tw_routes_solids (tw_answer_routes (set->source->answer), &ns[1]);
  for (guint l = 0; l < 2; l++)
    for (guint i = 0; i < ns[l]; i++) {
      TwSolidBox box;

      if (tw_convex_is_empty (lists[l][i].convex))
        continue;
      box = tw_convex_bounds (lists[l][i].convex);
      add_box (&all, &box);
      if (is_assembly (lists[l][i].role))
        add_box (&assembly, &box);
    }
  add_openings (&all, set);
  if (!assembly.any)
    return window;
  window.from = (TwVec){ limit_of (set, &assembly, &all, 0, -1), limit_of (set, &assembly, &all, 1, -1),
                         limit_of (set, &assembly, &all, 2, -1) };
  window.to = (TwVec){ limit_of (set, &assembly, &all, 0, 1), limit_of (set, &assembly, &all, 1, 1),
                       limit_of (set, &assembly, &all, 2, 1) };
  return window;
}

gboolean
tw_arrangement_bay (const TwSheetSet *set, const TwArrangementWindow *window, TwVec *from, TwVec *to)
{
  const TwPlacedVolume *volumes;
  const TwPlacedSolid *solids;
  guint n, n_solids;
  Reach bay = { .any = FALSE };

  volumes = tw_placement_volumes (set->placement, &n);
  solids = tw_placement_solids (set->placement, &n_solids);
  for (guint i = 0; i < n; i++) {
    Reach room = { .any = FALSE };

    for (guint k = 0; volumes[i].is_free && k < volumes[i].n_solids; k++)
      if (!tw_convex_is_empty (solids[volumes[i].first_solid + k].convex)) {
        TwSolidBox box = tw_convex_bounds (solids[volumes[i].first_solid + k].convex);

        add_box (&room, &box);
      }
    if (room.any && room.from[0] >= window->from.x && room.from[1] >= window->from.y
        && room.from[2] >= window->from.z && room.to[0] <= window->to.x && room.to[1] <= window->to.y
        && room.to[2] <= window->to.z) {
      const TwSolidBox box
          = { { room.from[0], room.from[1], room.from[2] }, { room.to[0], room.to[1], room.to[2] } };

      add_box (&bay, &box);
    }
  }
  *from = (TwVec){ bay.from[0], bay.from[1], bay.from[2] };
  *to = (TwVec){ bay.to[0], bay.to[1], bay.to[2] };
  return bay.any;
}

/* --- names ------------------------------------------------------------------------------------------------
 */

static const TwView kinds[] = { TW_VIEW_FRONT, TW_VIEW_SIDE, TW_VIEW_PLAN };

/* The bend that a label numbers: `2.1`, or `1` of the only run. */
static const TwRoutePiece *
bend_of (const TwSheetSet *set, const TwViewLabel *label)
{
  const TwRoute *route = tw_routes_find_hose (tw_answer_routes (set->source->answer), label->part);
  const char *dot = strchr (label->text, '.');
  guint number = (guint)atoi (dot != NULL ? dot + 1 : label->text);

  for (guint i = 0; route != NULL && i < route->n_pieces; i++)
    if (route->pieces[i].kind == TW_ROUTE_BEND && route->pieces[i].bend == number)
      return &route->pieces[i];
  return NULL;
}

/* The view that looks most squarely on the plane of a bend. */
static guint
best_view (const TwRoutePiece *bend)
{
  const double seen[] = { fabs (bend->normal.z), fabs (bend->normal.x), fabs (bend->normal.y) };
  guint best = 0;

  for (guint i = 1; i < G_N_ELEMENTS (seen); i++)
    if (seen[i] > seen[best] + 1e-6)
      best = i;
  return best;
}

static gboolean
is_wanted (const TwSheetSet *set, const TwViewLabel *label, guint nth)
{
  const TwRoutePiece *bend;

  switch (label->kind) {
  case TW_VIEW_LABEL_PASS:
    return FALSE;
  case TW_VIEW_LABEL_END:
    return nth == TW_ARRANGEMENT_FRONT;
  case TW_VIEW_LABEL_AIR:
    return nth == TW_ARRANGEMENT_SIDE;
  case TW_VIEW_LABEL_ENGINE:
    return nth == TW_ARRANGEMENT_PLAN;
  case TW_VIEW_LABEL_AROUND:
    return nth
           == (tw_placement_opening (set->placement, label->part) != NULL ? TW_ARRANGEMENT_PLAN
                                                                          : TW_ARRANGEMENT_FRONT);
  case TW_VIEW_LABEL_BEND:
    bend = bend_of (set, label);
    return bend == NULL || best_view (bend) == nth;
  default:
    return TRUE;
  }
}

/* Round a part of which not all need be shown: what takes room, a port of the engine, a header tank, an
 * opening or exit; nothing for others. */
static Reach
reach_of (const TwSheetSet *set, TwId part)
{
  const TwPlacedEnginePort *port = tw_placement_engine_port (set->placement, part);
  const TwPlacedOpening *opening = tw_placement_opening (set->placement, part);
  TwSolidBox box;
  Reach reach = { .any = FALSE };
  guint n;
  const TwPlacedSolid *solids = tw_placement_solids (set->placement, &n);

  if (port != NULL)
    add_box (&reach, &(const TwSolidBox){ port->at, port->at });
  if (opening != NULL) {
    box = opening_box (opening);
    add_box (&reach, &box);
  }
  for (guint i = 0; i < n; i++)
    if ((solids[i].role == TW_SOLID_TAKEN || solids[i].role == TW_SOLID_FREE
         || solids[i].role == TW_SOLID_HEADER_TANK)
        && tw_id_equal (solids[i].part, part) && !tw_convex_is_empty (solids[i].convex)) {
      box = tw_convex_bounds (solids[i].convex);
      add_box (&reach, &box);
    }
  return reach;
}

/* Whether a header tank, opening or exit stands out of the box round assembly and bay. */
static gboolean
is_apart (const TwSheetSet *set, const TwArrangementWindow *window, TwId part)
{
  Reach reach;

  if (tw_placement_opening (set->placement, part) == NULL
      && tw_placement_header_tank (set->placement, part) == NULL)
    return FALSE;
  reach = reach_of (set, part);
  return reach.from[0] < window->near_from.x || reach.from[1] < window->near_from.y
         || reach.from[2] < window->near_from.z || reach.to[0] > window->near_to.x
         || reach.to[1] > window->near_to.y || reach.to[2] > window->near_to.z;
}

/* Whether such a part lies wholly beyond the window. */
static gboolean
is_far (const TwSheetSet *set, const TwArrangementWindow *window, TwId part)
{
  Reach reach = reach_of (set, part);

  if (window->leaves_apart && is_apart (set, window, part))
    return TRUE;
  return reach.any
         && (reach.to[0] < window->from.x || reach.to[1] < window->from.y || reach.to[2] < window->from.z
             || reach.from[0] > window->to.x || reach.from[1] > window->to.y || reach.from[2] > window->to.z);
}

/* Takes what lies beyond the window along the way of looking out of a view. */
static void
leave_out_far (const TwSheetSet *set, const TwArrangementWindow *window, TwViewDrawing *drawing)
{
  TwInk *ink = tw_ink_new ();

  for (guint i = 0; i < tw_ink_count (drawing->ink); i++)
    if (!is_far (set, window, tw_ink_get (drawing->ink, i)->style.part))
      tw_ink_append_items (ink, drawing->ink, i, 1);
  tw_ink_unref (drawing->ink);
  drawing->ink = tw_ink_finish (ink);
  for (guint i = drawing->labels->len; i > 0; i--)
    if (is_far (set, window, g_array_index (drawing->labels, TwViewLabel, i - 1).part))
      g_array_remove_index (drawing->labels, i - 1);
}

gboolean
tw_arrangement_leave_apart (const TwSheetSet *set, TwArrangementWindow *window)
{
  guint n_tanks, n_openings;
  const TwPlacedHeaderTank *tanks = tw_placement_header_tanks (set->placement, &n_tanks);
  const TwPlacedOpening *openings = tw_placement_openings (set->placement, &n_openings);
  TwVec from, to;

  if (!tw_arrangement_bay (set, window, &window->near_from, &window->near_to)
      && !tw_sheet_bounds (set->placement, FALSE, &window->near_from, &window->near_to))
    return FALSE;
  if (tw_sheet_bounds (set->placement, FALSE, &from, &to)) {
    window->near_from = tw_vec (MIN (window->near_from.x, from.x), MIN (window->near_from.y, from.y),
                                MIN (window->near_from.z, from.z));
    window->near_to = tw_vec (MAX (window->near_to.x, to.x), MAX (window->near_to.y, to.y),
                              MAX (window->near_to.z, to.z));
  }
  for (guint i = 0; i < n_tanks; i++)
    window->leaves_apart |= is_apart (set, window, tanks[i].id);
  for (guint i = 0; i < n_openings; i++)
    window->leaves_apart |= is_apart (set, window, openings[i].id);
  return window->leaves_apart;
}

TwSheetView
tw_arrangement_view (const TwSheetSet *set,
                     const TwSheet *page,
                     guint nth,
                     const TwArrangementWindow *window,
                     double scale)
{
  TwSheetView view = tw_sheet_view (set, page, kinds[nth], TW_ID_NONE, scale, TW_VIEW_NO_PASSES);
  const TwVec *from = &window->from, *to = &window->to;
  const TwBox seen[] = { { from->x, from->y, to->x, to->y },
                         { from->z, from->y, to->z, to->y },
                         { from->x, from->z, to->x, to->z } };

  for (guint i = view.drawing->labels->len; i > 0; i--)
    if (!is_wanted (set, &g_array_index (view.drawing->labels, TwViewLabel, i - 1), nth))
      g_array_remove_index (view.drawing->labels, i - 1);
  leave_out_far (set, window, view.drawing);
  tw_sheet_break_view (&view, &seen[nth]);
  tw_sheet_mark_datum (set, &view);
  return view;
}
