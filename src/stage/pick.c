/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stage/pick-private.h"

#include <math.h>

#define THIN 4.0       /* dimensionless: times the reach */
#define SAME_SIZE 1e-9 /* mm2 */

static void
clear_shape (gpointer data)
{
  g_array_unref (((TwPickPart *)data)->paths);
}

static TwPickPart *
shape_of (TwPick *self, TwId part)
{
  guint place = GPOINTER_TO_UINT (g_hash_table_lookup (self->places, part.text));
  TwPickPart made = { { part, TW_BOX_EMPTY }, NULL, 0.0 };

  if (place == 0) {
    made.paths = g_array_new (FALSE, FALSE, sizeof (TwPickPath));
    g_array_append_val (self->shapes, made);
    place = self->shapes->len;
    g_hash_table_insert (self->places, g_strdup (part.text), GUINT_TO_POINTER (place));
  }
  return &g_array_index (self->shapes, TwPickPart, place - 1);
}

/* Straight edges only; an open line keeps its last corner's edge out. */
GArray *
tw_pick_flatten (const TwPick *self, const TwPickPath *path)
{
  const TwInkItem *item = tw_ink_get (self->ink, path->item);
  guint n = path->end - path->first;
  g_autofree TwCorner *corners = g_new (TwCorner, n);

  for (guint i = 0; i < n; i++)
    corners[i] = (TwCorner){ item->corners[path->first + i].at, item->corners[path->first + i].bow_mm };
  if (!path->closed)
    corners[n - 1].bow_mm = 0.0;
  return tw_outline_flatten (corners, n);
}

static TwBox
path_box (const TwInkItem *item, const TwPickPath *path)
{
  TwBox box = TW_BOX_EMPTY;

  for (guint i = path->first; i < path->end; i++) {
    guint next = i + 1 < path->end ? i + 1 : path->first;

    box = tw_box_add_point (box, item->corners[i].at);
    if (item->corners[i].bow_mm != 0.0 && (path->closed || i + 1 < path->end))
      box = tw_box_add (
          box, tw_edge_bounds (item->corners[i].at, item->corners[next].at, item->corners[i].bow_mm));
  }
  return box;
}

static double
box_area_mm2 (TwBox box)
{
  return (box.x1_mm - box.x0_mm) * (box.y1_mm - box.y0_mm);
}

static void
add_path (TwPickPart *shape, const TwInkItem *item, TwPickPath path)
{
  double area_mm2;

  if (path.end - path.first < 2)
    return;
  path.closed = item->closed;
  path.is_solid = item->closed && item->style.pen != TW_INK_PEN_BAY;
  path.box = path_box (item, &path);
  shape->seen.box = tw_box_add (shape->seen.box, path.box);
  area_mm2 = box_area_mm2 (path.box);
  if (path.is_solid && area_mm2 > shape->size_mm2)
    shape->size_mm2 = area_mm2;
  g_array_append_val (shape->paths, path);
}

static gboolean
is_shape (const TwInkItem *item)
{
  gboolean has_rings = item->kind == TW_INK_LINE || item->kind == TW_INK_FILL || item->kind == TW_INK_TONE
                       || item->kind == TW_INK_HATCH;
  TwInkPen pen = item->style.pen;

  if (tw_id_is_none (item->style.part) || !has_rings)
    return FALSE;
  return pen != TW_INK_PEN_DIMENSION && pen != TW_INK_PEN_EXTENSION && pen != TW_INK_PEN_LEADER
         && pen != TW_INK_PEN_CENTRE && pen != TW_INK_PEN_WATER && pen != TW_INK_PEN_GRID;
}

gboolean
tw_pick_holds (TwBox outer, TwBox inner)
{
  return tw_box_contains (outer, (TwPoint){ inner.x0_mm, inner.y0_mm })
         && tw_box_contains (outer, (TwPoint){ inner.x1_mm, inner.y1_mm });
}

/* Tubes within a core, hubs within a fan. */
static void
mark_inner (TwPickPart *shape)
{
  const TwPickPath *paths = (const TwPickPath *)shape->paths->data;

  for (guint i = 0; i < shape->paths->len; i++)
    for (guint k = 0; k < shape->paths->len && !paths[i].is_inner; k++)
      if (k != i && paths[k].closed && !paths[k].is_inner && tw_pick_holds (paths[k].box, paths[i].box)
          && (k < i || !tw_pick_holds (paths[i].box, paths[k].box)))
        g_array_index (shape->paths, TwPickPath, i).is_inner = TRUE;
}

TwPick *
tw_pick_new (TwInk *ink)
{
  TwPick *self = g_new0 (TwPick, 1);

  self->ink = tw_ink_ref (ink);
  self->shapes = g_array_new (FALSE, FALSE, sizeof (TwPickPart));
  g_array_set_clear_func (self->shapes, clear_shape);
  self->places = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < tw_ink_count (ink); i++) {
    const TwInkItem *item = tw_ink_get (ink, i);

    if (!is_shape (item))
      continue;
    for (guint first = 0, end; first < item->n_corners; first = end) {
      end = tw_ink_ring_end (item, first);
      add_path (shape_of (self, item->style.part), item,
                (TwPickPath){ .item = i, .first = first, .end = end });
    }
  }
  for (guint i = 0; i < self->shapes->len; i++)
    mark_inner (&g_array_index (self->shapes, TwPickPart, i));
  return self;
}

void
tw_pick_free (TwPick *self)
{
  g_array_unref (self->shapes);
  g_hash_table_unref (self->places);
  tw_ink_unref (self->ink);
  g_free (self);
}

guint
tw_pick_count (const TwPick *self)
{
  return self->shapes->len;
}

const TwPickShape *
tw_pick_get (const TwPick *self, guint nth)
{
  return nth < self->shapes->len ? &g_array_index (self->shapes, TwPickPart, nth).seen : NULL;
}

static const TwPickPart *
find_shape (const TwPick *self, TwId part)
{
  guint place = GPOINTER_TO_UINT (g_hash_table_lookup (self->places, part.text));

  return place > 0 ? &g_array_index (self->shapes, TwPickPart, place - 1) : NULL;
}

const TwPickShape *
tw_pick_find (const TwPick *self, TwId part)
{
  const TwPickPart *shape = find_shape (self, part);

  return shape ? &shape->seen : NULL;
}

static double
distance_to_edge_mm (TwPoint at, TwPoint from, TwPoint to)
{
  double dx = to.x_mm - from.x_mm, dy = to.y_mm - from.y_mm;
  double length_mm2 = dx * dx + dy * dy, share = 0.0;

  if (length_mm2 > 0.0)
    share = CLAMP (((at.x_mm - from.x_mm) * dx + (at.y_mm - from.y_mm) * dy) / length_mm2, 0.0, 1.0);
  return hypot (at.x_mm - from.x_mm - share * dx, at.y_mm - from.y_mm - share * dy);
}

/* Even-odd rule for a solid ring (0 inside), else the distance to its edges. */
double
tw_pick_distance_mm (const TwPick *self, const TwPickPath *path, TwPoint at)
{
  g_autoptr (GArray) flat = tw_pick_flatten (self, path);
  const TwPoint *points = (const TwPoint *)flat->data;
  guint n = flat->len;
  double least_mm = G_MAXDOUBLE;
  gboolean inside = FALSE;

  for (guint i = 0; i + (path->closed ? 0 : 1) < n; i++) {
    TwPoint a = points[i], b = points[(i + 1) % n];
    gboolean spans = (a.y_mm > at.y_mm) != (b.y_mm > at.y_mm);

    if (spans && at.x_mm < a.x_mm + (at.y_mm - a.y_mm) * (b.x_mm - a.x_mm) / (b.y_mm - a.y_mm))
      inside = !inside;
    least_mm = MIN (least_mm, distance_to_edge_mm (at, a, b));
  }
  return inside && path->is_solid ? 0.0 : least_mm;
}

static double
shape_distance_mm (const TwPick *self, const TwPickPart *shape, TwPoint at)
{
  double least_mm = G_MAXDOUBLE;

  for (guint i = 0; i < shape->paths->len; i++)
    least_mm = MIN (least_mm, tw_pick_distance_mm (self, &g_array_index (shape->paths, TwPickPath, i), at));
  return least_mm;
}

static gboolean
is_thin (const TwPickPart *shape, double reach_mm)
{
  TwBox box = shape->seen.box;

  return shape->size_mm2 == 0.0 || MIN (box.x1_mm - box.x0_mm, box.y1_mm - box.y0_mm) < THIN * reach_mm;
}

static gboolean
is_hit (const TwPick *self, const TwPickPart *shape, TwPoint at, double reach_mm)
{
  double reach = is_thin (shape, reach_mm) ? reach_mm : reach_mm / THIN;

  return tw_box_contains (tw_box_grow (shape->seen.box, reach_mm), at)
         && shape_distance_mm (self, shape, at) <= reach;
}

static const TwPickPart *
shape_at (const TwPick *self, guint nth)
{
  return &g_array_index (self->shapes, TwPickPart, nth);
}

TwId
tw_pick_at (const TwPick *self, TwPoint at, double reach_mm)
{
  const TwPickPart *best = NULL;

  for (guint i = 0; i < self->shapes->len; i++) {
    const TwPickPart *shape = shape_at (self, i);

    if ((best == NULL || shape->size_mm2 <= best->size_mm2 + SAME_SIZE) && is_hit (self, shape, at, reach_mm))
      best = shape;
  }
  return best ? best->seen.part : TW_ID_NONE;
}

/* The smallest first; of two as small the one drawn last. */
static int
compare_shapes (gconstpointer a, gconstpointer b, gpointer shapes)
{
  guint first = *(const guint *)a, second = *(const guint *)b;
  double first_mm2 = g_array_index ((GArray *)shapes, TwPickPart, first).size_mm2;
  double second_mm2 = g_array_index ((GArray *)shapes, TwPickPart, second).size_mm2;

  if (fabs (first_mm2 - second_mm2) > SAME_SIZE)
    return first_mm2 < second_mm2 ? -1 : 1;
  return first > second ? -1 : first < second ? 1 : 0;
}

GArray *
tw_pick_all (const TwPick *self, TwPoint at, double reach_mm)
{
  g_autoptr (GArray) places = g_array_new (FALSE, FALSE, sizeof (guint));
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (TwId));

  for (guint i = 0; i < self->shapes->len; i++)
    if (is_hit (self, shape_at (self, i), at, reach_mm))
      g_array_append_val (places, i);
  g_array_sort_with_data (places, compare_shapes, self->shapes);
  for (guint i = 0; i < places->len; i++)
    g_array_append_val (parts, shape_at (self, g_array_index (places, guint, i))->seen.part);
  return parts;
}

TwId
tw_pick_next (const TwPick *self, TwPoint at, double reach_mm, TwId before)
{
  g_autoptr (GArray) parts = tw_pick_all (self, at, reach_mm);

  for (guint i = 0; i < parts->len; i++)
    if (tw_id_equal (g_array_index (parts, TwId, i), before))
      return g_array_index (parts, TwId, (i + 1) % parts->len);
  return parts->len > 0 ? g_array_index (parts, TwId, 0) : TW_ID_NONE;
}

GArray *
tw_pick_outline (const TwPick *self, TwId part, guint nth, gboolean *closed)
{
  const TwPickPart *shape = find_shape (self, part);

  for (guint i = 0; shape != NULL && i < shape->paths->len; i++) {
    const TwPickPath *path = &g_array_index (shape->paths, TwPickPath, i);

    if (path->is_inner || nth-- > 0)
      continue;
    *closed = path->closed;
    return tw_pick_flatten (self, path);
  }
  return NULL;
}
