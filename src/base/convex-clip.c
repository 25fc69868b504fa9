/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/convex-private.h"

#include <math.h>

/* Where an edge was cut. */
typedef struct {
  guint out;   /* its corner that is cut off */
  guint place; /* of the new corner */
  guint next;  /* the next cut edge at the same kept corner: its place in the list + 1, or 0 */
} EdgeCut;

/* A solid being cut: how far each corner lies beyond the plane, what becomes of it, and what comes new. */
typedef struct {
  const TwConvex *solid;
  double *over_mm;  /* of each corner: positive is cut off, 0 lies in the plane */
  guint *new_place; /* of each corner that stays */
  guint *first_cut; /* of each corner: the first cut edge at it, its place in cuts + 1, or 0 */
  GArray *cuts;     /* of EdgeCut */
  GArray *points;   /* of what stays */
  GArray *loops;
  GArray *face_starts;
  GArray *rim_next; /* by place: the place after it round the cut face, or G_MAXUINT */
  guint rim_start;  /* a place on the rim, or G_MAXUINT */
} Cut;

/* The place where the edge @in-@out meets the plane; the same one for both faces at the edge. */
static guint
cut_edge (Cut *cut, guint in, guint out)
{
  EdgeCut edge = { .out = out, .place = cut->points->len, .next = cut->first_cut[in] };
  double t = cut->over_mm[in] / (cut->over_mm[in] - cut->over_mm[out]);
  TwVec a = cut->solid->points[in];
  TwVec at;

  for (guint i = cut->first_cut[in]; i != 0; i = g_array_index (cut->cuts, EdgeCut, i - 1).next)
    if (g_array_index (cut->cuts, EdgeCut, i - 1).out == out)
      return g_array_index (cut->cuts, EdgeCut, i - 1).place;
  at = tw_vec_add_scaled (a, t, tw_vec_subtract (cut->solid->points[out], a));
  g_array_append_val (cut->points, at);
  g_array_append_val (cut->cuts, edge);
  cut->first_cut[in] = cut->cuts->len;
  return edge.place;
}

static void
keep_points (Cut *cut)
{
  for (guint i = 0; i < cut->solid->n_points; i++) {
    cut->new_place[i] = cut->points->len;
    if (cut->over_mm[i] <= 0.0)
      g_array_append_val (cut->points, cut->solid->points[i]);
  }
}

static void
set_rim (Cut *cut, guint from, guint to)
{
  const guint none = G_MAXUINT;

  while (cut->rim_next->len <= MAX (from, to))
    g_array_append_val (cut->rim_next, none);
  g_array_index (cut->rim_next, guint, from) = to;
  cut->rim_start = from;
}

/* What stays of a face; its edge in the plane, if it has one, becomes part of the rim the other way about. */
static void
cut_face (Cut *cut, guint face)
{
  const TwConvex *solid = cut->solid;
  const guint *loop = &solid->loops[solid->face_starts[face]];
  guint n = solid->face_starts[face + 1] - solid->face_starts[face];
  guint start = cut->loops->len, kept = 0, last_in_plane = G_MAXUINT, first_in_plane = G_MAXUINT;
  gboolean inside = FALSE;
  guint *stays;

  g_array_set_size (cut->loops, start + 2 * n); /* room for every corner and a cut on every edge */
  stays = &g_array_index (cut->loops, guint, start);
  for (guint i = 0; i < n; i++) {
    guint a = loop[i], b = loop[(i + 1) % n];

    inside |= cut->over_mm[a] < 0.0;
    if (cut->over_mm[a] <= 0.0)
      stays[kept++] = cut->new_place[a];
    if ((cut->over_mm[a] < 0.0 && cut->over_mm[b] > 0.0)
        || (cut->over_mm[a] > 0.0 && cut->over_mm[b] < 0.0)) {
      guint place = cut->over_mm[a] < 0.0 ? cut_edge (cut, a, b) : cut_edge (cut, b, a);

      stays[kept++] = place;
      if (cut->over_mm[a] < 0.0)
        last_in_plane = place; /* the loop leaves here … */
      else
        first_in_plane = place; /* … and comes back here */
    } else if (cut->over_mm[a] < 0.0 && cut->over_mm[b] == 0.0) {
      last_in_plane = cut->new_place[b];
    } else if (cut->over_mm[a] == 0.0 && cut->over_mm[b] < 0.0) {
      first_in_plane = cut->new_place[a];
    }
  }
  g_array_set_size (cut->loops, start + kept);
  if (kept < 3 || !inside) {
    g_array_set_size (cut->loops, start);
    return;
  }
  g_array_append_val (cut->face_starts, cut->loops->len);
  if (last_in_plane != G_MAXUINT && first_in_plane != G_MAXUINT && last_in_plane != first_in_plane)
    set_rim (cut, first_in_plane, last_in_plane);
}

/* The face that the cut itself makes. */
static void
close_rim (Cut *cut)
{
  guint start = cut->loops->len, place = cut->rim_start;

  if (place == G_MAXUINT)
    return;
  do {
    g_array_append_val (cut->loops, place);
    place = place < cut->rim_next->len ? g_array_index (cut->rim_next, guint, place) : G_MAXUINT;
  } while (place != cut->rim_start && place != G_MAXUINT && cut->loops->len - start <= cut->points->len);
  if (place == cut->rim_start && cut->loops->len - start >= 3)
    g_array_append_val (cut->face_starts, cut->loops->len);
  else
    g_array_set_size (cut->loops, start);
}

static TwConvex *
cut_solid (const TwConvex *self, double *over_mm)
{
  const guint zero = 0;
  Cut cut = {
    .solid = self,
    .over_mm = over_mm,
    .new_place = g_new (guint, self->n_points),
    .first_cut = g_new0 (guint, self->n_points),
    .cuts = g_array_new (FALSE, FALSE, sizeof (EdgeCut)),
    .points = g_array_sized_new (FALSE, FALSE, sizeof (TwVec), self->n_points),
    .loops = g_array_sized_new (FALSE, FALSE, sizeof (guint), 6 * self->n_points),
    .face_starts = g_array_sized_new (FALSE, FALSE, sizeof (guint), self->n_faces + 2),
    .rim_next = g_array_sized_new (FALSE, FALSE, sizeof (guint), self->n_points),
    .rim_start = G_MAXUINT,
  };

  keep_points (&cut);
  g_array_append_val (cut.face_starts, zero);
  for (guint i = 0; i < self->n_faces; i++)
    cut_face (&cut, i);
  if (self->n_faces > 1)
    close_rim (&cut);

  g_free (cut.new_place);
  g_free (cut.first_cut);
  g_array_unref (cut.cuts);
  g_array_unref (cut.rim_next);
  return tw_convex_take (cut.points, cut.loops, cut.face_starts);
}

TwConvex *
tw_convex_clip (TwConvex *self, TwHalfSpace half)
{
  g_autofree double *over_mm = NULL;
  gboolean some_in = FALSE, some_out = FALSE;
  double nothing_mm;

  g_return_val_if_fail (self != NULL && self->radius_mm == 0.0, NULL);

  over_mm = g_new (double, self->n_points);
  nothing_mm = 1e-12 * MAX (1.0, fabs (half.offset_mm));
  for (guint i = 0; i < self->n_points; i++) {
    over_mm[i] = tw_vec_dot (half.normal, self->points[i]) - half.offset_mm;
    if (fabs (over_mm[i]) <= nothing_mm)
      over_mm[i] = 0.0;
    some_in |= over_mm[i] < 0.0;
    some_out |= over_mm[i] > 0.0;
  }
  if (!some_out && some_in)
    return tw_convex_ref (self);
  if (!some_in)
    return tw_convex_take (g_array_new (FALSE, FALSE, sizeof (TwVec)), NULL, NULL);
  return cut_solid (self, over_mm);
}

TwArea *
tw_convex_shadow (const TwConvex *self, TwGeos *geos, const TwFrame *frame)
{
  g_autofree TwPoint *points = NULL;
  g_autoptr (TwArea) hull = NULL;

  g_assert (self != NULL && geos != NULL && frame != NULL);

  points = g_new (TwPoint, MAX (1, self->n_points));
  for (guint i = 0; i < self->n_points; i++) {
    TwVec uvw = tw_frame_from_job (frame, self->points[i]);

    points[i] = (TwPoint){ uvw.x, uvw.y };
  }
  if (self->radius_mm > 0.0 && self->n_points <= 2)
    return tw_area_new_strip (geos, points, self->n_points, self->radius_mm, TRUE);
  hull = tw_area_new_hull (geos, points, self->n_points);
  return self->radius_mm > 0.0 ? tw_area_grow (geos, hull, self->radius_mm) : g_steal_pointer (&hull);
}
