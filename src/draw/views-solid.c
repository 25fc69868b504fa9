/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * views-solid.c - a polyhedron as it is seen: what it covers and which edges show
 */
#include "draw/views-private.h"

#include <math.h>

/* Edges between faces that turn by less than this are not drawn: they stand for something round. Cosine of
 * 12°. */
#define SMOOTH_COS 0.978

/* How far corners may lie off their face, mm. */
#define ON_FACE_MM 1e-4

/* --- polyhedra --------------------------------------------------------------------------------------------
 */

/* A face that is seen: its corners in order round it. */
typedef struct {
  guint face;
  guint first; /* its corners are these n of the list */
  guint n;
} Seen;

typedef struct {
  const TwViewHand *hand;
  const TwConvex *solid;
  TwHalfSpace *halves; /* of all faces */
  TwPoint *points;     /* all corners as they are seen */
  gboolean *on; /* whether corner c lies on face f: at f · number of corners + c; faces that are seen only */
  GArray *faces;   /* of Seen */
  GArray *corners; /* of guint: numbers of the solid's points */
} Look;

static gboolean
is_on (const Look *look, guint face, guint point)
{
  return look->on[face * tw_convex_n_points (look->solid) + point];
}

static void
find_corners (Look *look, guint face)
{
  guint n = tw_convex_n_points (look->solid);
  TwHalfSpace half = look->halves[face];

  for (guint i = 0; i < n; i++)
    look->on[face * n + i]
        = fabs (tw_vec_dot (half.normal, tw_convex_point (look->solid, i)) - half.offset_mm) < ON_FACE_MM;
}

typedef struct {
  guint point;
  double angle_rad;
} Turn;

static int
compare_turns (gconstpointer a, gconstpointer b)
{
  const Turn *one = a, *two = b;

  return one->angle_rad > two->angle_rad ? 1 : one->angle_rad < two->angle_rad ? -1 : 0;
}

/* Notes face @face if it is seen: corners sorted round their middle, as they are seen. */
static void
look_at_face (Look *look, guint face)
{
  g_autoptr (GArray) turns = g_array_new (FALSE, FALSE, sizeof (Turn));
  TwPoint middle = { 0, 0 };
  Seen seen = { face, look->corners->len, 0 };

  if (tw_view_away (look->hand, look->halves[face].normal) > -1e-6)
    return;
  find_corners (look, face);
  for (guint i = 0; i < tw_convex_n_points (look->solid); i++) {
    Turn turn = { i, 0 };

    if (is_on (look, face, i))
      g_array_append_val (turns, turn);
  }
  for (guint i = 0; i < turns->len; i++) {
    TwPoint at = look->points[g_array_index (turns, Turn, i).point];

    middle.x_mm += at.x_mm / turns->len;
    middle.y_mm += at.y_mm / turns->len;
  }
  for (guint i = 0; i < turns->len; i++) {
    Turn *turn = &g_array_index (turns, Turn, i);
    TwPoint at = look->points[turn->point];

    turn->angle_rad = atan2 (at.y_mm - middle.y_mm, at.x_mm - middle.x_mm);
  }
  g_array_sort (turns, compare_turns);
  for (guint i = 0; i < turns->len; i++)
    g_array_append_val (look->corners, g_array_index (turns, Turn, i).point);
  seen.n = turns->len;
  if (seen.n >= 3)
    g_array_append_val (look->faces, seen);
}

/* Whether the edge between two corners of a seen face is one of something round, or drawn with another face.
 */
static gboolean
is_left_out (const Look *look, const Seen *seen, guint from, guint to)
{
  TwVec normal = look->halves[seen->face].normal;

  for (guint i = 0; i < look->faces->len; i++) {
    guint other = g_array_index (look->faces, Seen, i).face;

    if (other == seen->face || !is_on (look, other, from) || !is_on (look, other, to))
      continue;
    return other < seen->face || tw_vec_dot (normal, look->halves[other].normal) > SMOOTH_COS;
  }
  return FALSE;
}

static TwPoint
corner_of (const Look *look, const Seen *seen, guint nth)
{
  guint point = g_array_index (look->corners, guint, seen->first + nth % seen->n);

  return look->points[point];
}

/* The edges of one face: stretches of those that are drawn, closed if all are. */
static void
draw_edges (const Look *look, const Seen *seen, const TwInkStyle *style)
{
  g_autofree TwInkCorner *corners = g_new0 (TwInkCorner, 2 * seen->n);
  guint n = 0, n_left_out = 0;

  for (guint i = 0; i < seen->n; i++) {
    guint from = g_array_index (look->corners, guint, seen->first + i);
    guint to = g_array_index (look->corners, guint, seen->first + (i + 1) % seen->n);

    if (is_left_out (look, seen, from, to)) {
      n_left_out++;
      continue;
    }
    corners[n++] = (TwInkCorner){ corner_of (look, seen, i), 0, TRUE };
    corners[n++] = (TwInkCorner){ corner_of (look, seen, i + 1), 0, FALSE };
  }
  if (n == 0)
    return;
  if (n_left_out > 0) {
    tw_ink_path (look->hand->ink, style, corners, n, FALSE);
    return;
  }
  for (guint i = 0; i < seen->n; i++)
    corners[i] = (TwInkCorner){ corner_of (look, seen, i), 0, i == 0 };
  tw_ink_path (look->hand->ink, style, corners, seen->n, TRUE);
}

static void
fill_faces (const Look *look, const TwInkStyle *style, double tone)
{
  g_autoptr (GArray) corners = g_array_new (FALSE, FALSE, sizeof (TwInkCorner));
  TwInkStyle ground = *style;

  for (guint i = 0; i < look->faces->len; i++) {
    const Seen *seen = &g_array_index (look->faces, Seen, i);

    for (guint k = 0; k < seen->n; k++) {
      TwInkCorner corner = { corner_of (look, seen, k), 0, k == 0 };

      g_array_append_val (corners, corner);
    }
  }
  if (corners->len < 3)
    return;
  ground.tint = tone > 0 ? TW_INK_TINT_FAINT : TW_INK_TINT_PAPER;
  if (tone > 0)
    tw_ink_tone (look->hand->ink, &ground, (TwInkCorner *)(gpointer)corners->data, corners->len, tone);
  else
    tw_ink_fill (look->hand->ink, &ground, (TwInkCorner *)(gpointer)corners->data, corners->len);
}

void
tw_view_solid (const TwViewHand *hand, const TwConvex *solid, const TwInkStyle *style, double tone)
{
  guint n_faces = tw_convex_n_faces (solid), n_points = tw_convex_n_points (solid);
  g_autofree TwHalfSpace *halves = g_new (TwHalfSpace, MAX (n_faces, 1));
  g_autofree TwPoint *points = g_new (TwPoint, MAX (n_points, 1));
  g_autofree gboolean *on = g_new0 (gboolean, MAX (n_faces * n_points, 1));
  g_autoptr (GArray) faces = g_array_new (FALSE, FALSE, sizeof (Seen));
  g_autoptr (GArray) corners = g_array_new (FALSE, FALSE, sizeof (guint));
  Look look = { hand, solid, halves, points, on, faces, corners };

  for (guint i = 0; i < n_faces; i++)
    halves[i] = tw_convex_face (solid, i);
  for (guint i = 0; i < n_points; i++)
    points[i] = tw_view_point (hand, tw_convex_point (solid, i));
  for (guint i = 0; i < n_faces; i++)
    look_at_face (&look, i);
  fill_faces (&look, style, tone);
  for (guint i = 0; i < faces->len; i++)
    draw_edges (&look, &g_array_index (faces, Seen, i), style);
}
