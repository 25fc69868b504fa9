/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/frontal-private.h"

#include <math.h>

/* Sides of a circle at the corners of a tube's outline: the centreline itself is a chain of chords that lie
 * up to 0.1 mm inside their arc. */
#define TUBE_SIDES 128

/* Sides of a piece that is cut in space. */
#define ROD_SIDES 512

/* Lines on the side of a tube along which its distance from the face is sought. */
#define SIDE_LINES 64

/* A piece of tube: a cylinder or capsule. */
typedef struct {
  TwVec from;
  TwVec to;
  double radius_mm;
  gboolean is_capsule;
} Tube;

/* The tubes of one part. */
typedef struct {
  const TwPlacedSolid *solids;
  guint n;
} Run;

static gboolean
is_tube (const TwPlacedSolid *solid, Tube *tube)
{
  tube->is_capsule = tw_convex_radius_mm (solid->convex) > 0.0;
  return (solid->role == TW_SOLID_HOSE || tube->is_capsule)
         && tw_convex_axis (solid->convex, &tube->from, &tube->to, &tube->radius_mm);
}

/* Whether piece @i + 1 goes on where piece @i ends. */
static gboolean
goes_on (const Run *run, guint i, Tube *a, Tube *b)
{
  return i + 1 < run->n && is_tube (&run->solids[i], a) && is_tube (&run->solids[i + 1], b)
         && fabs (a->radius_mm - b->radius_mm) <= 1e-9 && tw_vec_distance_mm (a->to, b->from) < 1e-6;
}

static gboolean
is_first (const Run *run, guint i)
{
  Tube a, b;

  return i == 0 || !goes_on (run, i - 1, &a, &b);
}

static gboolean
is_last (const Run *run, guint i)
{
  Tube a, b;

  return !goes_on (run, i, &a, &b);
}

/* How a rounded solid lies to half-spaces. */
typedef enum {
  LIES_IN,
  LIES_OUT,
  LIES_ACROSS,
} Lie;

static Lie
lie_to (const TwConvex *solid, const TwHalfSpace *halves, guint n_halves)
{
  Lie lie = LIES_IN;

  for (guint i = 0; i < n_halves; i++) {
    if (tw_convex_least_mm (solid, halves[i].normal) >= halves[i].offset_mm)
      return LIES_OUT;
    if (tw_convex_reach_mm (solid, halves[i].normal) > halves[i].offset_mm)
      lie = LIES_ACROSS;
  }
  return lie;
}

/* Whether a piece of hose counts as a whole, not at all, or in part. */
static Lie
lie_in_light (const TwLight *self, const TwConvex *solid)
{
  Lie lie = lie_to (solid, &self->upstream, 1);
  Lie best = LIES_OUT;

  if (lie == LIES_OUT || lie_to (solid, self->beam, G_N_ELEMENTS (self->beam)) == LIES_OUT)
    return LIES_OUT;
  if (self->rooms == NULL)
    return lie;
  for (guint i = 0; i < self->rooms->len && best != LIES_IN; i++) {
    const TwRoom *room = &g_array_index (self->rooms, TwRoom, i);
    Lie in = lie_to (solid, room->halves, room->n_halves);

    if (in == LIES_IN || best == LIES_OUT)
      best = in;
  }
  return best == LIES_IN ? lie : best;
}

/* Seen along the air, laid on the face and cut to it; takes @seen. */
static void
gather_seen (const TwLight *self, TwArea *seen, TwGathered *gathered)
{
  g_autoptr (TwArea) on_plane = tw_area_map (self->geos, seen, &self->to_face);

  tw_light_gather_area (tw_area_in_box (self->geos, on_plane, self->core->face), gathered);
  tw_area_unref (seen);
}

static TwPoint
seen_at (const TwLight *self, TwVec at)
{
  TwVec seen = tw_frame_from_job (&self->view, at);

  return (TwPoint){ seen.x, seen.y };
}

/* Notes how near the part of a line that lies in the light, or within @wider_mm of it, comes to the face. */
static void
note_line (const TwLight *self, TwVec from, TwVec way, double wider_mm, TwGathered *gathered)
{
  double t[2] = { 0.0, 1.0 };

  for (guint i = 0; i < G_N_ELEMENTS (self->beam); i++) {
    double over_mm = tw_vec_dot (self->beam[i].normal, from) - self->beam[i].offset_mm - wider_mm;
    double gain_mm = tw_vec_dot (self->beam[i].normal, way);

    if (gain_mm > 0.0)
      t[1] = MIN (t[1], -over_mm / gain_mm);
    else if (gain_mm < 0.0)
      t[0] = MAX (t[0], -over_mm / gain_mm);
    else if (over_mm > 0.0)
      return;
  }
  for (guint i = 0; i < 2 && t[0] <= t[1]; i++) {
    TwVec at = tw_vec_subtract (tw_vec_add_scaled (from, t[i], way), self->core->frame.origin);
    double before_mm = -tw_vec_dot (at, self->core->frame.w) / self->air.z;

    gathered->nearest_mm = MIN (gathered->nearest_mm, MAX (0.0, before_mm));
  }
}

/* How near a piece comes to the face along the air: the nearest of lines on its side. The first is the one
 * that faces the core, which is enough for a piece of which all is lit; at the edge of the light another may
 * be nearer.
 */
static void
note_distance (const TwLight *self, const Tube *tube, guint n_lines, TwGathered *gathered)
{
  TwVec way = tw_vec_subtract (tube->to, tube->from), along = tw_vec_unit (way), w = self->core->frame.w;
  TwVec facing = tw_vec_add_scaled (w, -tw_vec_dot (along, w), along), beside;

  facing = tw_vec_length_mm (facing) > 1e-9 ? tw_vec_unit (facing) : tw_vec_square_to (along);
  beside = tw_vec_cross (along, facing);
  for (guint i = 0; i < n_lines; i++) {
    double turn_rad = 2.0 * G_PI * i / n_lines;
    TwVec from = tw_vec_add_scaled (tube->from, tube->radius_mm * cos (turn_rad), facing);

    from = tw_vec_add_scaled (from, tube->radius_mm * sin (turn_rad), beside);
    note_line (self, from, way, 0.0, gathered);
  }
}

/* How far the cylinders of pieces @i and @i + 1 must overlap so that no wedge stays open between them: the
 * radius by the tangent of half the turn. */
static double
wedge_mm (const Run *run, guint i)
{
  Tube a, b;
  double turn_rad;

  if (!goes_on (run, i, &a, &b))
    return 0.0;
  turn_rad = tw_vec_angle_rad (tw_vec_unit (tw_vec_subtract (a.to, a.from)),
                               tw_vec_unit (tw_vec_subtract (b.to, b.from)));
  return a.radius_mm * tan (MIN (0.5 * turn_rad, 1.0));
}

/* A piece of which only a part counts, or that ends the hose flat, as a polyhedron that can be clipped. */
static void
gather_cut (const TwLight *self, const Run *run, guint i, TwGathered *gathered)
{
  double before_mm = i > 0 ? wedge_mm (run, i - 1) : 0.0, after_mm = wedge_mm (run, i);
  Tube tube;
  TwVec way;
  TwConvex *rod;

  if (!is_tube (&run->solids[i], &tube) || !(tw_vec_distance_mm (tube.from, tube.to) > 0.0))
    return;
  if (!tube.is_capsule && before_mm + after_mm <= 0.0) {
    tw_light_gather_polyhedron (self, run->solids[i].convex, gathered);
    return;
  }
  way = tw_vec_unit (tw_vec_subtract (tube.to, tube.from));
  rod = tw_convex_new_rod (tw_vec_add_scaled (tube.from, -before_mm, way),
                           tw_vec_add_scaled (tube.to, after_mm, way), tube.radius_mm, ROD_SIDES);
  tw_light_gather_polyhedron (self, rod, gathered);
  tw_convex_unref (rod);
}

/* TRUE for a piece that may be part of a band: all of it counts, and it does not end the hose flat. */
static gboolean
is_of_band (const TwLight *self, const Run *run, guint i)
{
  gboolean is_capsule = tw_convex_radius_mm (run->solids[i].convex) > 0.0;

  return (is_capsule || !(is_first (run, i) || is_last (run, i)))
         && lie_in_light (self, run->solids[i].convex) == LIES_IN;
}

/* Shadow of the pieces from @from to before @end, of which all counts: a band along their axis, with balls
 * where capsules end the hose. */
static void
gather_band (const TwLight *self, const Run *run, guint from, guint end, TwGathered *gathered)
{
  g_autofree TwPoint *points = g_new (TwPoint, end - from + 1);
  Tube tube = { 0 };
  gboolean is_lit;

  for (guint i = from; i < end; i++) {
    is_tube (&run->solids[i], &tube);
    points[i - from] = seen_at (self, tube.from);
    points[i - from + 1] = seen_at (self, tube.to);
    is_lit = lie_to (run->solids[i].convex, self->beam, G_N_ELEMENTS (self->beam)) == LIES_IN;
    note_distance (self, &tube, is_lit ? 1 : SIDE_LINES, gathered);
  }
  /* A sliver of the side that the light meets between two of those lines. */
  for (guint i = from; i < end && gathered->nearest_mm == G_MAXDOUBLE; i++) {
    is_tube (&run->solids[i], &tube);
    note_line (self, tube.from, tw_vec_subtract (tube.to, tube.from), tube.radius_mm, gathered);
  }
  gather_seen (self, tw_area_new_band (self->geos, points, end - from + 1, tube.radius_mm, TUBE_SIDES),
               gathered);
  if (is_first (run, from))
    gather_seen (self, tw_area_new_circle (self->geos, points[0], tube.radius_mm), gathered);
  if (is_last (run, end - 1))
    gather_seen (self, tw_area_new_circle (self->geos, points[end - from], tube.radius_mm), gathered);
}

guint
tw_light_gather_tubes (const TwLight *self,
                       const TwPlacedSolid *solids,
                       guint n,
                       guint at,
                       TwGathered *gathered)
{
  Run run = { solids, n };
  guint end = at + 1;
  Tube tube;

  if (!is_tube (&solids[at], &tube))
    return at;
  if (!is_of_band (self, &run, at)) {
    if (lie_in_light (self, solids[at].convex) != LIES_OUT)
      gather_cut (self, &run, at, gathered);
    return end;
  }
  while (!is_last (&run, end - 1) && is_of_band (self, &run, end))
    end++;
  gather_band (self, &run, at, end, gathered);
  return end;
}
