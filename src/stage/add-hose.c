/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * add-hose.c - a new hose between two ports that have none
 */
#include "stage/add-private.h"

#include <string.h>

/* An end that is free. */
typedef struct {
  TwId id;
  TwVec at;
  gboolean is_engine;
  gboolean gives;    /* hot water of the engine, or cooled water of the core, leaves here */
  gboolean is_known; /* the job says which */
} End;

static gboolean
has_hose (const TwJob *job, TwId port)
{
  for (guint i = 0; i < tw_job_count (job, TW_KIND_HOSE); i++)
    if (tw_part_refers_to (tw_job_get (job, TW_KIND_HOSE, i), port))
      return TRUE;
  return FALSE;
}

static void
list_ends (const TwAddWhere *where, GArray *ends)
{
  const TwDrawing *drawing = tw_placement_drawing (where->placement);
  guint n;
  const TwPlacedPort *ports = tw_placement_ports (where->placement, &n);
  const TwPlacedEnginePort *engine;

  for (guint i = 0; i < n; i++) {
    int use = ((const TwPort *)tw_drawing_find (drawing, ports[i].id))->use;
    End end = { ports[i].id, ports[i].at, FALSE, use == TW_PORT_OUTLET,
                use == TW_PORT_INLET || use == TW_PORT_OUTLET };

    if (!has_hose (where->job, ports[i].id))
      g_array_append_val (ends, end);
  }
  engine = tw_placement_engine_ports (where->placement, &n);
  for (guint i = 0; i < n; i++) {
    int use = ((const TwEnginePort *)tw_drawing_find (drawing, engine[i].id))->use;
    End end = { engine[i].id, engine[i].at, TRUE, use == TW_ENGINE_SUPPLY, use >= 0 };

    if (!has_hose (where->job, engine[i].id))
      g_array_append_val (ends, end);
  }
}

/* How well two ends go together: 2 from what gives to what takes, between engine and core; 1 anything that is
 * not against it; 0 not. */
static guint
fit (const End *from, const End *to)
{
  gboolean known = from->is_known && to->is_known;

  if (tw_id_equal (from->id, to->id) || (known && (!from->gives || to->gives)))
    return 0;
  return known && from->is_engine != to->is_engine ? 2 : 1;
}

gboolean
tw_add_hose (const TwAddWhere *where, TwPart *made, GError **error)
{
  g_autoptr (GArray) ends = g_array_new (FALSE, FALSE, sizeof (End));
  const End *best[2] = { NULL, NULL };
  gboolean wants_chosen = FALSE;
  double best_mm = G_MAXDOUBLE;
  guint best_fit = 0;

  list_ends (where, ends);
  for (guint i = 0; i < ends->len; i++)
    wants_chosen |= tw_id_equal (g_array_index (ends, End, i).id, where->chosen);
  for (guint i = 0; i < ends->len; i++)
    for (guint k = 0; k < ends->len; k++) {
      const End *from = &g_array_index (ends, End, i), *to = &g_array_index (ends, End, k);
      guint good = fit (from, to);
      double apart_mm = tw_vec_distance_mm (from->at, to->at);

      if (wants_chosen && !tw_id_equal (from->id, where->chosen) && !tw_id_equal (to->id, where->chosen))
        continue;
      if (good > best_fit || (good == best_fit && good > 0 && apart_mm < best_mm - 1e-9)) {
        best[0] = from;
        best[1] = to;
        best_fit = good;
        best_mm = apart_mm;
      }
    }
  if (best_fit == 0)
    return tw_add_refuse (error, _ ("a hose needs two ports that have none"));
  tw_add_refer (made, TW_HOSE_from, best[0]->id);
  tw_add_refer (made, TW_HOSE_to, best[1]->id);
  return TRUE;
}
