/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * ink-clip.c - what of a list lies in a box, for views that are broken off
 */
#include "draw/ink.h"

#include "draw/place-private.h"

/* Where an edge goes through a side of the box. */
static void
note_cut (TwInkCuts *cuts, const TwBox *box, TwPoint at)
{
  const double sides[] = { box->x0_mm, box->x1_mm, box->y0_mm, box->y1_mm };

  for (guint side = 0; side < 4; side++) {
    double off_mm = (side < 2 ? at.x_mm : at.y_mm) - sides[side];
    double along_mm = side < 2 ? at.y_mm : at.x_mm;

    if (ABS (off_mm) > 1e-6)
      continue;
    cuts->low_mm[side] = cuts->any[side] ? MIN (cuts->low_mm[side], along_mm) : along_mm;
    cuts->high_mm[side] = cuts->any[side] ? MAX (cuts->high_mm[side], along_mm) : along_mm;
    cuts->any[side] = TRUE;
  }
}

/* Cuts @t, the shares of a line at which it enters and leaves, at one side: the line is inside where
 * @start + t · @step is at most nought. FALSE when nothing is left. (Liang and Barsky, from memory) */
static gboolean
cut_at_side (double start, double step, double t[2])
{
  if (step == 0)
    return start <= 0;
  if (step < 0)
    t[0] = MAX (t[0], -start / step);
  else
    t[1] = MIN (t[1], -start / step);
  return t[0] < t[1];
}

static TwPoint
between (const TwPlaceLine *line, double t)
{
  return (TwPoint){ line->from.x_mm + t * (line->to.x_mm - line->from.x_mm),
                    line->from.y_mm + t * (line->to.y_mm - line->from.y_mm) };
}

/* The part of a straight line inside; FALSE if there is none. */
static gboolean
clip_line (const TwPlaceLine *line, const TwBox *box, TwInkCuts *cuts, TwPlaceLine *inside)
{
  double dx = line->to.x_mm - line->from.x_mm, dy = line->to.y_mm - line->from.y_mm, t[2] = { 0, 1 };

  if (!cut_at_side (box->x0_mm - line->from.x_mm, -dx, t)
      || !cut_at_side (line->from.x_mm - box->x1_mm, dx, t)
      || !cut_at_side (box->y0_mm - line->from.y_mm, -dy, t)
      || !cut_at_side (line->from.y_mm - box->y1_mm, dy, t))
    return FALSE;
  *inside = (TwPlaceLine){ line->item, t[0] > 0 ? between (line, t[0]) : line->from,
                           t[1] < 1 ? between (line, t[1]) : line->to };
  if (t[0] > 0)
    note_cut (cuts, box, inside->from);
  if (t[1] < 1)
    note_cut (cuts, box, inside->to);
  return TRUE;
}

/* Stretch or ring from corner @first to before @end as straight lines. */
static GArray *
lines_of (const TwInkItem *item, guint first, guint end, gboolean closed)
{
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (TwPlaceLine));

  for (guint i = first; i + 1 < end; i++)
    tw_place_flatten (&item->corners[i], &item->corners[i + 1], lines);
  if (closed && end - first > 1)
    tw_place_flatten (&item->corners[end - 1], &item->corners[first], lines);
  return lines;
}

static void
append_corner (GArray *corners, TwPoint at, gboolean start)
{
  const TwInkCorner corner = { at, 0, start };

  g_array_append_val (corners, corner);
}

static void
clip_path (TwInk *self, const TwInkItem *item, const TwBox *box, TwInkCuts *cuts)
{
  g_autoptr (GArray) corners = g_array_new (FALSE, FALSE, sizeof (TwInkCorner));

  for (guint first = 0, end; first < item->n_corners; first = end) {
    g_autoptr (GArray) lines = NULL;
    TwPoint last = { G_MAXDOUBLE, G_MAXDOUBLE };

    end = tw_ink_ring_end (item, first);
    lines = lines_of (item, first, end, item->closed);
    for (guint i = 0; i < lines->len; i++) {
      TwPlaceLine inside;

      if (!clip_line (&g_array_index (lines, TwPlaceLine, i), box, cuts, &inside))
        continue;
      if (inside.from.x_mm != last.x_mm || inside.from.y_mm != last.y_mm)
        append_corner (corners, inside.from, TRUE);
      append_corner (corners, inside.to, FALSE);
      last = inside.to;
    }
  }
  if (corners->len > 1)
    tw_ink_path (self, &item->style, (const TwInkCorner *)(gconstpointer)corners->data, corners->len, FALSE);
}

/* How far a point lies inside one of the four sides; negative outside. */
static double
depth_mm (const TwBox *box, guint side, TwPoint at)
{
  const double depths[]
      = { at.x_mm - box->x0_mm, box->x1_mm - at.x_mm, at.y_mm - box->y0_mm, box->y1_mm - at.y_mm };

  return depths[side];
}

/* One side of Sutherland and Hodgman's way (from memory): @points is replaced. */
static void
clip_ring_at (GArray **points, const TwBox *box, guint side)
{
  GArray *kept = g_array_new (FALSE, FALSE, sizeof (TwPoint));
  guint n = (*points)->len;

  for (guint i = 0; i < n; i++) {
    const TwPlaceLine edge
        = { 0, g_array_index (*points, TwPoint, i), g_array_index (*points, TwPoint, (i + 1) % n) };
    double from_mm = depth_mm (box, side, edge.from), to_mm = depth_mm (box, side, edge.to);

    if (from_mm >= 0)
      g_array_append_val (kept, edge.from);
    if ((from_mm < 0) != (to_mm < 0)) {
      TwPoint at = between (&edge, from_mm / (from_mm - to_mm));

      g_array_append_val (kept, at);
    }
  }
  g_array_unref (*points);
  *points = kept;
}

/* Rings of an area, each clipped by itself: even and odd stay what they are. (transfer full) */
static GArray *
clip_rings (const TwInkItem *item, const TwBox *box)
{
  GArray *corners = g_array_new (FALSE, FALSE, sizeof (TwInkCorner));

  for (guint first = 0, end; first < item->n_corners; first = end) {
    g_autoptr (GArray) lines = NULL;
    GArray *points = g_array_new (FALSE, FALSE, sizeof (TwPoint));

    end = tw_ink_ring_end (item, first);
    lines = lines_of (item, first, end, TRUE);
    for (guint i = 0; i < lines->len; i++)
      g_array_append_val (points, g_array_index (lines, TwPlaceLine, i).from);
    for (guint side = 0; side < 4; side++)
      clip_ring_at (&points, box, side);
    for (guint i = 0; points->len > 2 && i < points->len; i++)
      append_corner (corners, g_array_index (points, TwPoint, i), i == 0);
    g_array_unref (points);
  }
  return corners;
}

static void
clip_area (TwInk *self, const TwInkItem *item, const TwBox *box)
{
  g_autoptr (GArray) rings = clip_rings (item, box);
  const TwInkCorner *corners = (const TwInkCorner *)(gconstpointer)rings->data;

  if (rings->len < 3)
    return;
  if (item->kind == TW_INK_FILL)
    tw_ink_fill (self, &item->style, corners, rings->len);
  else if (item->kind == TW_INK_TONE)
    tw_ink_tone (self, &item->style, corners, rings->len, item->spacing);
  else
    tw_ink_hatch (self, &item->style, corners, rings->len, item->angle_rad, item->spacing);
}

static gboolean
holds (const TwBox *box, const TwBox *other)
{
  return other->x0_mm >= box->x0_mm && other->x1_mm <= box->x1_mm && other->y0_mm >= box->y0_mm
         && other->y1_mm <= box->y1_mm;
}

void
tw_ink_append_clipped (TwInk *self, const TwInk *from, const TwBox *box, TwInkCuts *cuts)
{
  *cuts = (TwInkCuts){ { FALSE } };
  for (guint i = 0; i < tw_ink_count (from); i++) {
    const TwInkItem *item = tw_ink_get (from, i);
    TwBox bounds;

    tw_ink_item_bounds (item, &bounds);
    if (holds (box, &bounds))
      tw_ink_append_items (self, from, i, 1);
    else if (item->kind == TW_INK_LINE)
      clip_path (self, item, box, cuts);
    else if (item->kind == TW_INK_FILL || item->kind == TW_INK_TONE || item->kind == TW_INK_HATCH)
      clip_area (self, item, box);
  }
}
