/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/clearance-private.h"

/* While pairs are being found. */
typedef struct {
  GArray *pairs; /* of TwClearancePair: what was found */
  const TwPlacement *placement;
  const TwPlacedSolid *solids; /* all of the placement */
  guint n_solids;
  const TwBay *bay; /* NULL when its walls are not looked at */
} Search;

/* The solids of one part. */
typedef struct {
  const TwPlacedSolid *solids;
  guint n;
} Body;

static gboolean
counts (TwSolidRole role)
{
  switch (role) {
  case TW_SOLID_BLOCK:
  case TW_SOLID_HEADER:
  case TW_SOLID_TANK:
  case TW_SOLID_PORT:
  case TW_SOLID_SHROUD:
  case TW_SOLID_FAN:
  case TW_SOLID_HEADER_TANK:
  case TW_SOLID_HOSE:
    return TRUE;
  case TW_SOLID_BAFFLE:
  case TW_SOLID_ENGINE_PORT:
  case TW_SOLID_HUB:
  case TW_SOLID_TAKEN:
  case TW_SOLID_FREE:
  default:
    return FALSE;
  }
}

/* The least that the pair can become when the boxes of its solids are @apart_mm: worth a closer look only
 * when that is less than what is known. */
static gboolean
may_beat (double apart_mm, double required_mm, const TwClearancePair *best)
{
  return apart_mm <= 0.0 || apart_mm - required_mm < best->over_mm;
}

static void
keep_lesser (TwClearancePair *best, const TwClearancePair *pair)
{
  if (pair->over_mm < best->over_mm)
    *best = *pair;
}

static TwClearancePair
pair_of (const TwPlacedSolid *solid, TwGap gap, TwId other, double required_mm)
{
  return (TwClearancePair){
    .part = solid->part,
    .role = solid->role,
    .other = other,
    .distance_mm = gap.distance_mm,
    .crosses = gap.crosses,
    .depth_mm = gap.depth_mm,
    .required_mm = required_mm,
    .over_mm = (gap.crosses ? -gap.depth_mm : gap.distance_mm) - required_mm,
    .at_part = gap.at_a,
    .at_other = gap.at_b,
  };
}

/* ---- Taken volumes ---- */

static double
distance_from_volume_mm (const Search *search, const TwPlacedVolume *volume, TwVec at)
{
  g_autoptr (TwConvex) point = tw_convex_new_capsule (at, at, 0.0);
  double least_mm = G_MAXDOUBLE;

  for (guint i = 0; i < volume->n_solids; i++)
    least_mm
        = MIN (least_mm, tw_convex_gap (point, search->solids[volume->first_solid + i].convex).distance_mm);
  return least_mm;
}

/* The engine port's place at which a hose is joined to something in @volume; FALSE when it is not. */
static gboolean
is_joined_to (const Search *search, TwId end, const TwPlacedVolume *volume, double required_mm, TwVec *at)
{
  const TwPlacedEnginePort *port = tw_placement_engine_port (search->placement, end);

  if (port == NULL || distance_from_volume_mm (search, volume, port->at) > required_mm)
    return FALSE;
  *at = port->at;
  return TRUE;
}

static gboolean
begins_at (const TwPlacedSolid *solid, TwVec at)
{
  g_autoptr (TwConvex) point = tw_convex_new_capsule (at, at, 0.0);

  return tw_convex_gap (solid->convex, point).distance_mm <= 1e-6;
}

/* Whether a hose's piece is the one by which it is joined to what @volume stands for. */
static gboolean
is_joint (const Search *search, const TwPlacedSolid *solid, const TwPlacedVolume *volume, double required_mm)
{
  const TwHose *hose;
  TwVec at;

  if (solid->role != TW_SOLID_HOSE)
    return FALSE;
  hose = (const TwHose *)tw_drawing_find (tw_placement_drawing (search->placement), solid->part);
  if (hose == NULL)
    return FALSE;
  return (is_joined_to (search, hose->from, volume, required_mm, &at) && begins_at (solid, at))
         || (is_joined_to (search, hose->to, volume, required_mm, &at) && begins_at (solid, at));
}

/* A solid and a convex piece of a volume that may be the nearest, and how far their boxes are apart. */
typedef struct {
  const TwPlacedSolid *solid;
  const TwConvex *piece;
  double apart_mm;
} Candidate;

static int
compare_candidates (gconstpointer a, gconstpointer b)
{
  double a_mm = ((const Candidate *)a)->apart_mm, b_mm = ((const Candidate *)b)->apart_mm;

  return a_mm < b_mm ? -1 : a_mm > b_mm;
}

/* All pairs of a body and a volume, those first whose boxes are nearest: what they measure saves a look at
 * most of the others. */
static GArray *
list_candidates (const Search *search, const Body *body, const TwPlacedVolume *volume, double required_mm)
{
  GArray *list = g_array_sized_new (FALSE, FALSE, sizeof (Candidate), body->n * volume->n_solids);

  for (guint i = 0; i < body->n; i++) {
    const TwPlacedSolid *solid = &body->solids[i];

    if (!counts (solid->role) || is_joint (search, solid, volume, required_mm))
      continue;
    for (guint k = 0; k < volume->n_solids; k++) {
      const TwConvex *piece = search->solids[volume->first_solid + k].convex;
      Candidate candidate = { .solid = solid, .piece = piece };

      candidate.apart_mm
          = tw_solid_box_distance_mm (tw_convex_bounds (solid->convex), tw_convex_bounds (piece));
      g_array_append_val (list, candidate);
    }
  }
  g_array_sort (list, compare_candidates);
  return list;
}

static void
measure_volume (Search *search, const Body *body, const TwPlacedVolume *volume)
{
  double required_mm = tw_clearance_required_mm (search->placement, volume->id);
  TwClearancePair best = { .over_mm = G_MAXDOUBLE };
  g_autoptr (GArray) list = list_candidates (search, body, volume, required_mm);

  for (guint i = 0; i < list->len; i++) {
    const Candidate *candidate = &g_array_index (list, Candidate, i);
    TwClearancePair pair;

    if (!may_beat (candidate->apart_mm, required_mm, &best))
      break;
    pair = pair_of (candidate->solid, tw_convex_gap (candidate->solid->convex, candidate->piece), volume->id,
                    required_mm);
    keep_lesser (&best, &pair);
  }
  if (best.over_mm < G_MAXDOUBLE)
    g_array_append_val (search->pairs, best);
}

/* ---- The bay ---- */

static TwVec
middle_of (const TwConvex *convex)
{
  guint n = tw_convex_n_points (convex);
  TwVec sum = tw_vec (0.0, 0.0, 0.0);

  for (guint i = 0; i < n; i++)
    sum = tw_vec_add_scaled (sum, 1.0 / n, tw_convex_point (convex, i));
  return sum;
}

/* How far @solid stands out through @wall. */
static double
stands_out_mm (const TwBayWall *wall, const TwPlacedSolid *solid)
{
  return tw_convex_reach_mm (solid->convex, wall->out) - tw_convex_reach_mm (wall->convex, wall->out);
}

/* How far @solid, outside the bay, reaches away from its nearest wall. */
static double
reaches_mm (const TwClearancePair *pair, const TwPlacedSolid *solid, const TwBayWall *wall)
{
  TwVec away;

  if (pair->distance_mm == 0.0)
    return stands_out_mm (wall, solid);
  away = tw_vec_unit (tw_vec_subtract (pair->at_part, pair->at_other));
  return tw_convex_reach_mm (solid->convex, away) - tw_vec_dot (away, pair->at_other);
}

/* The wall that @solid is nearest to, or through which it stands out furthest; @nearest is set to it. */
static TwClearancePair
measure_walls (const TwBay *bay, const TwPlacedSolid *solid, const TwBayWall **nearest)
{
  TwClearancePair best = { .over_mm = G_MAXDOUBLE };

  for (guint i = 0; i < bay->walls->len; i++) {
    const TwBayWall *wall = &g_array_index (bay->walls, TwBayWall, i);
    TwClearancePair pair;
    TwGap gap;

    if (!may_beat (
            tw_solid_box_distance_mm (tw_convex_bounds (solid->convex), tw_convex_bounds (wall->convex)),
            wall->required_mm, &best))
      continue;
    gap = tw_convex_gap (solid->convex, wall->convex);
    if (gap.crosses)
      gap.depth_mm = stands_out_mm (wall, solid);
    pair = pair_of (solid, gap, wall->volume, wall->required_mm);
    pair.is_bay = TRUE;
    if (pair.over_mm < best.over_mm) {
      best = pair;
      *nearest = wall;
    }
  }
  return best;
}

static void
measure_bay (Search *search, const Body *body)
{
  TwClearancePair best = { .over_mm = G_MAXDOUBLE };

  for (guint i = 0; i < body->n; i++) {
    const TwPlacedSolid *solid = &body->solids[i];
    const TwBayWall *wall = NULL;
    TwClearancePair pair;

    if (!counts (solid->role) || solid->role == TW_SOLID_HOSE)
      continue;
    pair = measure_walls (search->bay, solid, &wall);
    if (!pair.crosses && !tw_bay_contains (search->bay, middle_of (solid->convex))) {
      if (solid->role == TW_SOLID_HEADER_TANK)
        continue; /* it stands elsewhere */
      pair.is_outside = TRUE;
      pair.depth_mm = reaches_mm (&pair, solid, wall);
      pair.over_mm = -pair.depth_mm - pair.required_mm;
    }
    keep_lesser (&best, &pair);
  }
  if (best.over_mm < G_MAXDOUBLE)
    g_array_append_val (search->pairs, best);
}

/* ---- All ---- */

static void
measure_body (Search *search, const Body *body)
{
  guint n;
  const TwPlacedVolume *volumes = tw_placement_volumes (search->placement, &n);

  for (guint i = 0; i < n; i++)
    if (!volumes[i].is_free)
      measure_volume (search, body, &volumes[i]);
  if (search->bay != NULL)
    measure_bay (search, body);
}

/* Goes through a list of solids part by part. */
static void
measure_list (Search *search, const TwPlacedSolid *solids, guint n_solids)
{
  guint start = 0;

  while (start < n_solids) {
    guint end = start + 1;

    while (end < n_solids && tw_id_equal (solids[end].part, solids[start].part))
      end++;
    if (counts (solids[start].role))
      measure_body (search, &(Body){ .solids = &solids[start], .n = end - start });
    start = end;
  }
}

void
tw_clearance_measure (const TwPlacement *placement,
                      const TwBay *bay,
                      const TwPlacedSolid *hoses,
                      guint n_hoses,
                      GArray *pairs)
{
  Search search = { .pairs = pairs, .placement = placement, .bay = bay };

  search.solids = tw_placement_solids (placement, &search.n_solids);
  measure_list (&search, search.solids, search.n_solids);
  measure_list (&search, hoses, n_hoses);
}
