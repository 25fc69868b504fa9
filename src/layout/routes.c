/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/routes-private.h"

#include <math.h>

#define SAME_PLACE_MM 1e-6
#define ROUNDING_MM 1e-9
#define OFF_AXIS_RAD (G_PI / 180.0 + 1e-9)
#define MM3_IN_L 1e6
#define USUAL_PUSH_ON_MM 32.0 /* common practice, no source */

struct _TwRoutes {
  GArray *routes;   /* of TwRoute */
  GPtrArray *lists; /* of arrays of TwRoutePiece and TwRouteTurn, owned; the routes point at them */
  GArray *solids;   /* of TwPlacedSolid */
};

/* Where a run starts or ends. */
typedef struct {
  gboolean is_known;
  gboolean has_axis;
  TwVec at;
  TwVec axis;
  double stand_out_mm; /* NaN when unknown */
} End;

static End
find_end (const TwPlacement *placement, TwId id)
{
  const TwPlacedPort *port = tw_placement_port (placement, id);
  const TwPlacedEnginePort *engine = tw_placement_engine_port (placement, id);
  const TwPart *part = tw_drawing_find (tw_placement_drawing (placement), id);

  if (port != NULL)
    return (End){ TRUE, TRUE, port->at, port->axis, ((const TwPort *)part)->stand_out_mm };
  if (engine != NULL)
    return (End){ TRUE, engine->has_axis, engine->at, engine->axis,
                  ((const TwEnginePort *)part)->stand_out_mm };
  return (End){ .is_known = FALSE };
}

static void
add_point (GArray *points, TwVec at, double radius_mm, TwId via, TwRouteFlags *flags)
{
  TwRoutePoint point = { at, radius_mm, via };

  if (points->len > 0
      && tw_vec_distance_mm (g_array_index (points, TwRoutePoint, points->len - 1).at, at) < SAME_PLACE_MM)
    *flags |= TW_ROUTE_SAME_PLACE;
  else
    g_array_append_val (points, point);
}

/* The points of a run; NULL when the place of one is not known. */
static GArray *
collect_points (const TwHose *hose, const End *from, const End *to, TwRouteFlags *flags)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (TwRoutePoint));

  if (!from->is_known || !to->is_known)
    return NULL;
  add_point (points, from->at, (double)NAN, TW_ID_NONE, flags);
  for (guint i = 0; i < hose->vias->len; i++) {
    const TwVia *via = TW_ELEMENT (hose->vias, TwVia, i);
    TwVec at = tw_vec (via->x_mm, via->y_mm, via->z_mm);

    if (!tw_vec_is_sane (at))
      return NULL;
    add_point (points, at, isnan (via->bend_radius_mm) ? hose->bend_radius_mm : via->bend_radius_mm,
               via->head.id, flags);
  }
  if (points->len > 1
      && tw_vec_distance_mm (g_array_index (points, TwRoutePoint, points->len - 1).at, to->at)
             < SAME_PLACE_MM) {
    *flags |= TW_ROUTE_SAME_PLACE;
    g_array_set_size (points, points->len - 1);
  }
  add_point (points, to->at, (double)NAN, TW_ID_NONE, flags);
  return g_steal_pointer (&points);
}

/* Angle between a leg that leaves @end and its axis; NaN when it has none. */
static double
off_axis_rad (const End *end, TwVec way)
{
  return end->has_axis ? tw_vec_angle_rad (end->axis, way) : (double)NAN;
}

/* What goes over a stub. */
static double
push_on_mm (const TwHose *hose, const End *end)
{
  return isnan (hose->push_on_mm) ? MIN (USUAL_PUSH_ON_MM, end->stand_out_mm) : hose->push_on_mm;
}

static void
measure (TwRoute *route, const TwHose *hose, const End *from, const End *to, double least_straight_mm)
{
  double length = 0.0;

  for (guint i = 0; i < route->n_pieces; i++) {
    const TwRoutePiece *piece = &route->pieces[i];

    length += piece->length_mm;
    if (piece->kind == TW_ROUTE_BEND) {
      route->n_bends++;
      continue;
    }
    route->shortest_mm = fmin (route->shortest_mm, piece->length_mm); /* fmin() passes a NaN over */
    if (piece->length_mm >= 0.0 && piece->length_mm < least_straight_mm - ROUNDING_MM)
      route->flags |= TW_ROUTE_SHORT;
  }
  if ((route->flags & (TW_ROUTE_NO_RADIUS | TW_ROUTE_DOUBLES_BACK)) == 0)
    route->centreline_mm = length;
  route->cut_mm = route->centreline_mm - from->stand_out_mm - to->stand_out_mm + push_on_mm (hose, from)
                  + push_on_mm (hose, to);
  route->volume_l = G_PI / 4.0 * hose->bore_mm * hose->bore_mm * route->centreline_mm / MM3_IN_L;
}

static void
look_at_ends (TwRoute *route, const End *from, const End *to)
{
  const TwRoutePiece *last = &route->pieces[route->n_pieces - 1];

  route->off_axis_from_rad = off_axis_rad (from, route->pieces[0].way);
  route->off_axis_to_rad = off_axis_rad (to, tw_vec_scale (last->way_end, -1.0));
  if (route->off_axis_from_rad > OFF_AXIS_RAD)
    route->flags |= TW_ROUTE_OFF_AXIS_FROM;
  if (route->off_axis_to_rad > OFF_AXIS_RAD)
    route->flags |= TW_ROUTE_OFF_AXIS_TO;
}

/* Keeps the elements of @array, which it frees, for as long as @self lives. */
static gconstpointer
keep (TwRoutes *self, GArray *array, guint *n)
{
  gpointer data;

  *n = array->len;
  data = g_array_free (array, FALSE);
  if (data != NULL)
    g_ptr_array_add (self->lists, data);
  return data;
}

static void
add_route (TwRoutes *self, const TwPlacement *placement, const TwHose *hose)
{
  const double unknown = (double)NAN;
  double least_straight = tw_drawing_settings (tw_placement_drawing (placement))->straight_mm;
  End from = find_end (placement, hose->from), to = find_end (placement, hose->to);
  TwRoute route = { hose->head.id, 0,       unknown, unknown, unknown, unknown, unknown,
                    unknown,       unknown, 0,       0,       0,       NULL,    NULL };
  g_autoptr (GArray) points = NULL;
  double radius = hose->bore_mm / 2.0 + fmax (hose->wall_mm, 0.0);

  points = collect_points (hose, &from, &to, &route.flags);
  if (points == NULL)
    route.flags |= TW_ROUTE_NO_END;
  else
    route.fall_mm = from.at.y - to.at.y;
  if (points != NULL && points->len > 1) {
    route.pieces = keep (self,
                         tw_route_pieces ((const TwRoutePoint *)(const void *)points->data, points->len,
                                          hose->least_radius_mm, &route.flags),
                         &route.n_pieces);
    measure (&route, hose, &from, &to, least_straight);
    look_at_ends (&route, &from, &to);
    if ((route.flags & TW_ROUTE_NO_FIT) == 0)
      route.turns = keep (self, tw_route_turns (route.pieces, route.n_pieces), &route.n_turns);
    if (radius > 0.0)
      tw_route_add_solids (&route, radius, self->solids);
  }
  g_array_append_val (self->routes, route);
}

static void
clear_solid (gpointer data)
{
  tw_convex_unref (((TwPlacedSolid *)data)->convex);
}

TwRoutes *
tw_routes_find (const TwPlacement *placement)
{
  TwRoutes *self = g_atomic_rc_box_new0 (TwRoutes);
  const TwDrawing *drawing = tw_placement_drawing (placement);

  self->routes = g_array_new (FALSE, FALSE, sizeof (TwRoute));
  self->lists = g_ptr_array_new_with_free_func (g_free);
  self->solids = g_array_new (FALSE, FALSE, sizeof (TwPlacedSolid));
  g_array_set_clear_func (self->solids, clear_solid);
  for (guint i = 0; i < tw_drawing_count (drawing, TW_KIND_HOSE); i++)
    add_route (self, placement, TW_DRAWING_HOSE (drawing, i));
  return self;
}

static void
clear_routes (gpointer data)
{
  TwRoutes *self = data;

  g_array_unref (self->routes);
  g_ptr_array_unref (self->lists);
  g_array_unref (self->solids);
}

TwRoutes *
tw_routes_ref (TwRoutes *self)
{
  return g_atomic_rc_box_acquire (self);
}

void
tw_routes_unref (TwRoutes *self)
{
  g_atomic_rc_box_release_full (self, clear_routes);
}

guint
tw_routes_count (const TwRoutes *self)
{
  return self->routes->len;
}

const TwRoute *
tw_routes_get (const TwRoutes *self, guint nth)
{
  return nth < self->routes->len ? &g_array_index (self->routes, TwRoute, nth) : NULL;
}

const TwRoute *
tw_routes_find_hose (const TwRoutes *self, TwId hose)
{
  for (guint i = 0; i < self->routes->len; i++)
    if (tw_id_equal (g_array_index (self->routes, TwRoute, i).hose, hose))
      return &g_array_index (self->routes, TwRoute, i);
  return NULL;
}

const TwPlacedSolid *
tw_routes_solids (const TwRoutes *self, guint *n)
{
  *n = self->solids->len;
  return (const TwPlacedSolid *)(const void *)self->solids->data;
}
