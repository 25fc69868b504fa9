/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * pick-band.c - parts within a box that is drawn round them
 */
#include "stage/pick-private.h"

#include <math.h>

/* Whether an edge has a point in a box: what is left of it between the box's sides, by shares of its length.
 */
static gboolean
crosses_box (TwBox box, TwPoint from, TwPoint to)
{
  double starts_mm[2] = { from.x_mm, from.y_mm }, ways_mm[2] = { to.x_mm - from.x_mm, to.y_mm - from.y_mm };
  double lows_mm[2] = { box.x0_mm, box.y0_mm }, highs_mm[2] = { box.x1_mm, box.y1_mm };
  double enters = 0.0, leaves = 1.0;

  for (guint i = 0; i < 2; i++) {
    double low = lows_mm[i] - starts_mm[i], high = highs_mm[i] - starts_mm[i];

    if (fabs (ways_mm[i]) <= 0.0) {
      if (low > 0.0 || high < 0.0)
        return FALSE;
      continue;
    }
    enters = MAX (enters, MIN (low / ways_mm[i], high / ways_mm[i]));
    leaves = MIN (leaves, MAX (low / ways_mm[i], high / ways_mm[i]));
  }
  return enters <= leaves;
}

/* A room of the bay is drawn by its outline alone. */
static gboolean
is_room (const TwPickPart *shape)
{
  for (guint i = 0; i < shape->paths->len; i++) {
    const TwPickPath *path = &g_array_index (shape->paths, TwPickPath, i);

    if (path->is_solid || !path->closed)
      return FALSE;
  }
  return TRUE;
}

/* Whether any of a path lies in a box: a corner, an edge that crosses it, or the box lies in a solid ring. */
static gboolean
path_meets (const TwPick *self, const TwPickPath *path, TwBox box)
{
  g_autoptr (GArray) flat = NULL;
  const TwPoint *points;

  if (!tw_box_overlaps (path->box, box))
    return FALSE;
  flat = tw_pick_flatten (self, path);
  points = (const TwPoint *)flat->data;
  for (guint i = 0; i + (path->closed ? 0 : 1) < flat->len; i++)
    if (crosses_box (box, points[i], points[(i + 1) % flat->len]))
      return TRUE;
  return path->is_solid && tw_pick_distance_mm (self, path, (TwPoint){ box.x0_mm, box.y0_mm }) <= 0.0;
}

static gboolean
shape_meets (const TwPick *self, const TwPickPart *shape, TwBox box)
{
  for (guint i = 0; i < shape->paths->len; i++)
    if (path_meets (self, &g_array_index (shape->paths, TwPickPath, i), box))
      return TRUE;
  return FALSE;
}

GArray *
tw_pick_in (const TwPick *self, TwBox box, gboolean touched)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (TwId));

  for (guint i = 0; i < self->shapes->len; i++) {
    const TwPickPart *shape = &g_array_index (self->shapes, TwPickPart, i);

    if (tw_pick_holds (box, shape->seen.box)
        || (touched && !is_room (shape) && shape_meets (self, shape, box)))
      g_array_append_val (parts, shape->seen.part);
  }
  return parts;
}
