/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * views-bay.c - rooms of the bay, and what takes room, as neighbours are drawn
 */
#include "draw/views-private.h"

#include <math.h>

/* A section is as thick as this, mm. */
#define SECTION_MM 0.02

/* What lies over a face is hatched so much wider, dimensionless. */
#define WIDER 2.0

void
tw_view_hatch (int kind, double *angle_rad, double *spacing)
{
  static const struct {
    double angle_deg;
    double spacing; /* of the closest hatch, dimensionless */
  } hatches[] = {
    [TW_TAKEN_STRUCTURE] = { 45, 1.0 }, [TW_TAKEN_HOT] = { 135, 1.0 },     [TW_TAKEN_MOVING] = { 70, 1.4 },
    [TW_TAKEN_SERVICE] = { 0, 1.8 },    [TW_TAKEN_OCCUPIED] = { 90, 1.8 }, [TW_TAKEN_OTHER] = { 20, 2.4 },
  };
  guint nth = kind >= 0 && kind < (int)G_N_ELEMENTS (hatches) ? kind : TW_TAKEN_OTHER;

  *angle_rad = hatches[nth].angle_deg * G_PI / 180;
  *spacing = hatches[nth].spacing;
}

static gboolean
plane_of (TwView view, TwPlane *plane)
{
  static const TwPlane planes[]
      = { [TW_VIEW_FRONT] = TW_PLANE_FRONT, [TW_VIEW_SIDE] = TW_PLANE_SIDE, [TW_VIEW_PLAN] = TW_PLANE_PLAN };

  if (view == TW_VIEW_FACE)
    return FALSE;
  *plane = planes[view];
  return TRUE;
}

/* --- the shape that a volume has in a view ----------------------------------------------------------------
 */

static void
append_outline (GArray *corners, const GPtrArray *outline)
{
  for (guint i = 0; i < outline->len; i++) {
    const TwOutlineCorner *from = TW_ELEMENT (outline, TwOutlineCorner, i);
    TwInkCorner corner
        = { { from->across_mm, from->up_mm }, isnan (from->bow_mm) ? 0 : from->bow_mm, i == 0 };

    g_array_append_val (corners, corner);
  }
}

/* In the plane that it was drawn in: as it was drawn, arcs and all. */
static void
append_drawn (const TwViewHand *hand, const TwPlacedVolume *volume, GArray *corners)
{
  const TwVolume *drawn
      = (const TwVolume *)tw_drawing_find (tw_placement_drawing (hand->source->placement), volume->id);

  append_outline (corners, drawn->outline);
  append_outline (corners, drawn->hole);
}

/* From the side: the rectangle that it fills. */
static void
append_side (const TwViewHand *hand, const TwPlacedVolume *volume, GArray *corners)
{
  TwBox outline = tw_area_bounds (volume->outline), seen = TW_BOX_EMPTY;
  TwInkCorner four[4];

  for (guint i = 0; i < 8; i++) {
    TwPoint at = { i & 1 ? outline.x1_mm : outline.x0_mm, i & 2 ? outline.y1_mm : outline.y0_mm };

    seen = tw_box_add_point (
        seen,
        tw_view_point (hand, tw_plane_lift (volume->plane, at, i & 4 ? volume->to_mm : volume->from_mm)));
  }
  tw_ink_box_corners (&seen, four);
  g_array_append_vals (corners, four, 4);
}

/* What @volume has between two depths before and behind the plane of the eye's zero, seen from the eye. */
static TwArea *
slice (const TwViewHand *hand, const TwPlacedVolume *volume, double from_mm, double to_mm)
{
  guint n_solids;
  const TwPlacedSolid *solids = tw_placement_solids (hand->source->placement, &n_solids);
  g_autofree TwArea **pieces = g_new (TwArea *, MAX (volume->n_solids, 1));
  double zero_mm = tw_vec_dot (hand->eye.w, hand->eye.origin);
  TwArea *all;

  for (guint i = 0; i < volume->n_solids; i++) {
    TwConvex *near = tw_convex_clip (solids[volume->first_solid + i].convex,
                                     (TwHalfSpace){ hand->eye.w, zero_mm + to_mm });
    TwConvex *kept
        = tw_convex_is_empty (near)
              ? tw_convex_ref (near)
              : tw_convex_clip (near, (TwHalfSpace){ tw_vec_scale (hand->eye.w, -1), -zero_mm - from_mm });

    pieces[i] = tw_convex_is_empty (kept) ? tw_area_new_empty ()
                                          : tw_convex_shadow (kept, hand->source->geos, &hand->eye);
    tw_convex_unref (kept);
    tw_convex_unref (near);
  }
  all = tw_area_union (hand->source->geos, pieces, volume->n_solids);
  for (guint i = 0; i < volume->n_solids; i++)
    tw_area_unref (pieces[i]);
  return all;
}

static void
append_slice (const TwViewHand *hand,
              const TwPlacedVolume *volume,
              const double depths_mm[2],
              GArray *corners)
{
  TwArea *area = slice (hand, volume, depths_mm[0], depths_mm[1]);
  g_autoptr (GArray) rings = tw_view_area_corners (area);

  if (rings->len > 0)
    g_array_append_vals (corners, rings->data, rings->len);
  tw_area_unref (area);
}

/* Corners of @volume in this view; none if it does not show. In Face that is the section by the face's plane,
 * and for what takes room the shadow of what lies before the face. */
static GArray *
shape_of (const TwViewHand *hand, const TwPlacedVolume *volume, gboolean before)
{
  static const double section_mm[] = { -SECTION_MM / 2, SECTION_MM / 2 }, upstream_mm[] = { -1e5, 0 };
  GArray *corners = g_array_new (FALSE, FALSE, sizeof (TwInkCorner));
  TwPlane plane;

  if (!plane_of (hand->manner->view, &plane))
    append_slice (hand, volume, before ? upstream_mm : section_mm, corners);
  else if (plane == volume->plane)
    append_drawn (hand, volume, corners);
  else
    append_side (hand, volume, corners);
  return corners;
}

/* --- bay --------------------------------------------------------------------------------------------------
 */

static TwArea *
area_of (const TwViewHand *hand, const GArray *corners)
{
  g_autofree TwCorner *outline = g_new (TwCorner, MAX (corners->len, 1));
  g_autoptr (GArray) points = NULL;
  guint n = 0;

  /* the outer ring alone: rooms of the bay that are joined show their outer edge */
  for (; n < corners->len && (n == 0 || !g_array_index (corners, TwInkCorner, n).start); n++)
    outline[n] = (TwCorner){ g_array_index (corners, TwInkCorner, n).at,
                             g_array_index (corners, TwInkCorner, n).bow_mm };
  if (n < 2)
    return tw_area_new_empty ();
  points = tw_outline_flatten (outline, n);
  return tw_area_new_points (hand->source->geos, (TwPoint *)(gpointer)points->data, points->len);
}

void
tw_view_draw_bay (const TwViewHand *hand)
{
  g_autoptr (GPtrArray) areas = g_ptr_array_new_with_free_func ((GDestroyNotify)tw_area_unref);
  guint n, n_free = 0;
  const TwPlacedVolume *volumes = tw_placement_volumes (hand->source->placement, &n);

  for (guint i = 0; i < n; i++)
    n_free += volumes[i].is_free;
  for (guint i = 0; i < n; i++) {
    TwInkPen pen = n_free == 1 ? TW_INK_PEN_BAY : TW_INK_PEN_OTHER;
    TwInkStyle style = { pen, TW_INK_TINT_INK, TW_VIEW_LAYER_BAY, volumes[i].id };
    g_autoptr (GArray) corners = volumes[i].is_free ? shape_of (hand, &volumes[i], FALSE) : NULL;

    if (corners == NULL || corners->len < 2)
      continue;
    tw_ink_path (hand->ink, &style, (TwInkCorner *)(gpointer)corners->data, corners->len, TRUE);
    if (n_free > 1)
      g_ptr_array_add (areas, area_of (hand, corners));
  }
  if (areas->len > 1) {
    TwInkStyle style = { TW_INK_PEN_BAY, TW_INK_TINT_INK, TW_VIEW_LAYER_BAY, TW_ID_NONE };
    TwArea *all = tw_area_union (hand->source->geos, (TwArea **)areas->pdata, areas->len);

    tw_view_area (hand, all, &style);
    tw_area_unref (all);
  }
}

/* --- taken ------------------------------------------------------------------------------------------------
 */

static double
depth_of (const TwViewHand *hand, const TwPlacedVolume *volume)
{
  guint n_solids;
  const TwPlacedSolid *solids = tw_placement_solids (hand->source->placement, &n_solids);
  double low_mm = G_MAXDOUBLE, high_mm = -G_MAXDOUBLE;

  for (guint i = volume->first_solid; i < volume->first_solid + volume->n_solids; i++) {
    low_mm = MIN (low_mm, tw_convex_least_mm (solids[i].convex, hand->eye.w));
    high_mm = MAX (high_mm, tw_convex_reach_mm (solids[i].convex, hand->eye.w));
  }
  return (low_mm + high_mm) / 2 - tw_vec_dot (hand->eye.w, hand->eye.origin);
}

static void
want_name (const TwViewHand *hand, const TwPlacedVolume *volume, const GArray *corners)
{
  const TwPart *part = tw_drawing_find (tw_placement_drawing (hand->source->placement), volume->id);
  TwArea *area = area_of (hand, corners);
  double free_mm = 0;
  TwPoint at = tw_area_label_point (hand->source->geos, area, &free_mm);

  if (!tw_area_is_empty (area)) {
    TwViewLabel *label
        = tw_view_label (hand, TW_VIEW_LABEL_VOLUME, volume->id, at, free_mm, g_strdup (tw_part_name (part)));

    label->around = tw_area_bounds (area);
    label->inside_mm = free_mm;
  }
  tw_area_unref (area);
}

/* Room for people or hands before a core is only outlined: hatched, it would hide the core for nothing. */
static gboolean
shades (int kind)
{
  return kind == TW_TAKEN_STRUCTURE || kind == TW_TAKEN_HOT || kind == TW_TAKEN_MOVING;
}

static void
draw_taken (const TwViewHand *hand, const TwPlacedVolume *volume, gboolean before)
{
  TwInkStyle edge = { TW_INK_PEN_OTHER, TW_INK_TINT_TAKEN, TW_VIEW_LAYER_TAKEN, volume->id };
  TwInkStyle lines = { TW_INK_PEN_HATCH, TW_INK_TINT_TAKEN, TW_VIEW_LAYER_TAKEN, volume->id };
  g_autoptr (GArray) corners = shape_of (hand, volume, before);
  const TwInkCorner *first = (const TwInkCorner *)(gconstpointer)corners->data;
  double angle_rad, spacing;

  if (corners->len < 2)
    return;
  if (before)
    edge.layer = lines.layer = TW_VIEW_LAYER_TAKEN "-before";
  tw_view_hatch (volume->kind, &angle_rad, &spacing);
  if (!before || shades (volume->kind))
    tw_ink_hatch (hand->ink, &lines, first, corners->len, angle_rad, before ? WIDER * spacing : spacing);
  tw_ink_path (hand->ink, &edge, first, corners->len, TRUE);
  want_name (hand, volume, corners);
}

void
tw_view_draw_taken (const TwViewHand *hand, gboolean before)
{
  guint n;
  const TwPlacedVolume *volumes = tw_placement_volumes (hand->source->placement, &n);

  for (guint i = 0; i < n; i++)
    if (!volumes[i].is_free && before == (depth_of (hand, &volumes[i]) < hand->nearest_mm))
      draw_taken (hand, &volumes[i], before);
}
