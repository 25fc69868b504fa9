/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/views.h"

#include <math.h>
#include <stdlib.h>

#include "draw/views-private.h"

/* Depths are told apart to this, so that parts beside each other keep the order of the drawing. */
#define DEPTH_STEP_MM 0.1

/* Either leaves openings and exits out. */
#define NO_OPENINGS (TW_VIEW_NO_AIRWAY | TW_VIEW_NO_OPENINGS)

/* A part while the order of painting is found. */
typedef struct {
  double depth_mm;
  guint nth;
  const TwPlacedSolid *solid; /* NULL: a hose's stretch */
  TwViewStretch stretch;
} Piece;

TwFrame
tw_view_frame (const TwPlacement *placement, TwView view, TwId core)
{
  static const TwPlane planes[]
      = { [TW_VIEW_FRONT] = TW_PLANE_FRONT, [TW_VIEW_SIDE] = TW_PLANE_SIDE, [TW_VIEW_PLAN] = TW_PLANE_PLAN };
  TwFrame frame = tw_frame_job ();
  const TwPlacedCore *placed = NULL;
  guint n;

  if (view == TW_VIEW_FACE) {
    const TwPlacedCore *cores = tw_placement_cores (placement, &n);

    placed = tw_id_is_none (core) ? NULL : tw_placement_core (placement, core);
    if (placed == NULL && n > 0)
      placed = &cores[0];
    return placed != NULL ? placed->frame : frame;
  }
  frame.u = tw_plane_lift (planes[view], (TwPoint){ 1, 0 }, 0);
  frame.v = tw_plane_lift (planes[view], (TwPoint){ 0, 1 }, 0);
  /* Front looks with the air; Side from the right, so away is −x; Plan from above, so away is −y */
  frame.w = tw_plane_lift (planes[view], (TwPoint){ 0, 0 }, view == TW_VIEW_FRONT ? 1 : -1);
  return frame;
}

char *
tw_view_port_letter (const TwDrawing *drawing, TwId port)
{
  static const char letters[] = "ABCDEFGHJKLMNPQRSTUVWXYZ";
  guint n_letters = sizeof letters - 1, n = tw_drawing_count (drawing, TW_KIND_PORT);

  for (guint i = 0; i < n; i++) {
    if (!tw_id_equal (tw_drawing_get (drawing, TW_KIND_PORT, i)->id, port))
      continue;
    if (i < n_letters)
      return g_strdup_printf ("%c", letters[i]);
    return g_strdup_printf ("%c%c", letters[(i / n_letters - 1) % n_letters], letters[i % n_letters]);
  }
  return NULL;
}

/* --- the order of painting --------------------------------------------------------------------------------
 */

static double
solid_depth (const TwViewHand *hand, const TwPlacedSolid *solid)
{
  double away_mm = tw_convex_reach_mm (solid->convex, hand->eye.w),
         near_mm = tw_convex_least_mm (solid->convex, hand->eye.w);

  return (away_mm + near_mm) / 2 - tw_vec_dot (hand->eye.w, hand->eye.origin);
}

static gboolean
is_painted (const TwViewHand *hand, TwSolidRole role)
{
  switch (role) {
  case TW_SOLID_SHROUD:
  case TW_SOLID_FAN:
    return !(hand->manner->flags & TW_VIEW_NO_AIRWAY);
  case TW_SOLID_BLOCK:
  case TW_SOLID_HEADER:
  case TW_SOLID_TANK:
  case TW_SOLID_PORT:
    return TRUE;
  case TW_SOLID_ENGINE_PORT:
  case TW_SOLID_HEADER_TANK:
    return !(hand->manner->flags & TW_VIEW_NO_HOSES);
  default:
    return FALSE;
  }
}

static int
compare_pieces (gconstpointer a, gconstpointer b)
{
  const Piece *one = a, *two = b;

  if (one->depth_mm != two->depth_mm)
    return one->depth_mm < two->depth_mm ? 1 : -1; /* far ones first */
  return one->nth > two->nth ? 1 : -1;
}

static GArray *
pieces_of (const TwViewHand *hand)
{
  GArray *pieces = g_array_new (FALSE, FALSE, sizeof (Piece));
  g_autoptr (GArray) stretches = tw_view_hose_stretches (hand);
  guint n;
  const TwPlacedSolid *solids = tw_placement_solids (hand->source->placement, &n);

  for (guint i = 0; i < n; i++) {
    Piece piece = { 0, pieces->len, &solids[i], { 0 } };

    if (!is_painted (hand, solids[i].role))
      continue;
    piece.depth_mm = round (solid_depth (hand, &solids[i]) / DEPTH_STEP_MM) * DEPTH_STEP_MM;
    g_array_append_val (pieces, piece);
  }
  for (guint i = 0; i < stretches->len && !(hand->manner->flags & TW_VIEW_NO_HOSES); i++) {
    Piece piece = { 0, pieces->len, NULL, g_array_index (stretches, TwViewStretch, i) };

    piece.depth_mm = round (piece.stretch.depth_mm / DEPTH_STEP_MM) * DEPTH_STEP_MM;
    g_array_append_val (pieces, piece);
  }
  g_array_sort (pieces, compare_pieces);
  return pieces;
}

static void
paint (const TwViewHand *hand, const Piece *piece)
{
  if (piece->solid == NULL) {
    tw_view_draw_hose (hand, &piece->stretch);
    return;
  }
  switch (piece->solid->role) {
  case TW_SOLID_BLOCK:
    tw_view_draw_block (hand, piece->solid);
    break;
  case TW_SOLID_PORT:
    tw_view_draw_port (hand, piece->solid);
    break;
  case TW_SOLID_ENGINE_PORT:
    tw_view_draw_engine_port (hand, piece->solid);
    break;
  case TW_SOLID_HEADER_TANK:
    tw_view_draw_header_tank (hand, piece->solid);
    break;
  case TW_SOLID_SHROUD:
    tw_view_draw_shroud (hand, piece->solid);
    break;
  case TW_SOLID_FAN:
    tw_view_draw_fan (hand, piece->solid);
    break;
  default:
    tw_view_draw_tank (hand, piece->solid);
    break;
  }
}

/* Place of the nearest core in the order; G_MAXUINT without one. */
static guint
nearest_core (TwViewHand *hand, const GArray *pieces)
{
  guint last = G_MAXUINT;

  for (guint i = 0; i < pieces->len; i++) {
    const Piece *piece = &g_array_index (pieces, Piece, i);

    if (piece->solid == NULL || piece->solid->role != TW_SOLID_BLOCK)
      continue;
    last = i;
    hand->nearest_mm = piece->depth_mm;
  }
  return last;
}

static void
paint_all (TwViewHand *hand, const GArray *pieces, guint core)
{
  for (guint i = 0; i < pieces->len; i++) {
    hand->behind = core != G_MAXUINT && i < core;
    paint (hand, &g_array_index (pieces, Piece, i));
  }
  hand->behind = FALSE;
}

/* --- a view -----------------------------------------------------------------------------------------------
 */

static void
draw_hidden (const TwViewHand *hand)
{
  if (!(hand->manner->flags & TW_VIEW_NO_AIRWAY))
    tw_view_draw_hidden_airway (hand);
  if (!(hand->manner->flags & NO_OPENINGS))
    tw_view_draw_openings (hand, TRUE);
  tw_view_draw_baffles (hand);
  tw_view_draw_hidden_ports (hand);
}

static void
draw_ways (const TwViewHand *hand)
{
  if (hand->source->passes != NULL && !(hand->manner->flags & TW_VIEW_NO_PASSES))
    tw_view_draw_passes (hand);
  tw_view_draw_port_ways (hand);
  tw_view_draw_air (hand);
  if (!(hand->manner->flags & NO_OPENINGS))
    tw_view_draw_opening_ways (hand);
}

static TwBox
bounds_from (const TwInk *ink, guint first, guint end)
{
  TwBox all = TW_BOX_EMPTY;

  for (guint i = first; i < end; i++) {
    TwBox box;

    tw_ink_item_bounds (tw_ink_get (ink, i), &box);
    all = tw_box_add (all, box);
  }
  return all;
}

static void
clear_label (gpointer data)
{
  g_free (((TwViewLabel *)data)->text);
}

/* Places the labels at the view's own scale and brings them back into its millimetres. */
static void
draw_names (TwViewDrawing *drawing, const TwViewManner *manner)
{
  TwInk *page = tw_ink_new (), *names = tw_ink_new ();
  double scale = manner->scale, margin = 25 * manner->look->heights[TW_INK_SIZE_NOTE];
  TwBox seen = manner->shown != NULL ? *manner->shown : drawing->all;
  TwBox frame = { seen.x0_mm * scale, seen.y0_mm * scale, seen.x1_mm * scale, seen.y1_mm * scale };
  TwPlace *place;
  guint first;

  if (manner->shown == NULL)
    frame = tw_box_grow (frame, margin);
  tw_ink_append_scaled (page, drawing->ink, scale, (TwPoint){ 0, 0 });
  first = tw_ink_count (page);
  place = tw_place_new (&frame, manner->look, manner->measure);
  tw_place_take (place, page, 0);
  tw_view_labels_draw (drawing, manner, (TwPoint){ 0, 0 }, place, page);
  tw_ink_append_items (names, page, first, tw_ink_count (page) - first);
  tw_ink_append_scaled (drawing->ink, names, 1 / scale, (TwPoint){ 0, 0 });
  g_array_set_size (drawing->labels, 0);
  tw_place_free (place);
  tw_ink_unref (names);
  tw_ink_unref (page);
}

TwViewDrawing *
tw_view_draw (const TwViewSource *source, const TwViewManner *manner)
{
  TwViewDrawing *self = g_new0 (TwViewDrawing, 1);
  TwViewHand hand = { source,
                      manner,
                      tw_view_frame (source->placement, manner->view, manner->core),
                      tw_ink_new (),
                      g_array_new (FALSE, FALSE, sizeof (TwViewLabel)),
                      G_MAXDOUBLE,
                      FALSE };
  g_autoptr (GArray) pieces = pieces_of (&hand);
  guint core = nearest_core (&hand, pieces), first;

  g_array_set_clear_func (hand.labels, clear_label);
  if (core == G_MAXUINT)
    hand.nearest_mm = -G_MAXDOUBLE; /* all that takes room lies behind nothing */
  if (!(manner->flags & TW_VIEW_NO_BAY)) {
    tw_view_draw_bay (&hand);
    tw_view_draw_taken (&hand, FALSE);
  }
  first = tw_ink_count (hand.ink);
  paint_all (&hand, pieces, core);
  if (!(manner->flags & NO_OPENINGS))
    tw_view_draw_openings (&hand, FALSE);
  self->parts = bounds_from (hand.ink, first, tw_ink_count (hand.ink));
  if (!(manner->flags & TW_VIEW_NO_BAY))
    tw_view_draw_taken (&hand, TRUE);
  draw_hidden (&hand);
  if (!(manner->flags & TW_VIEW_NO_WAYS))
    draw_ways (&hand);
  self->ink = hand.ink;
  self->labels = hand.labels;
  self->all = TW_BOX_EMPTY;
  tw_ink_bounds (hand.ink, &self->all);
  if (!(manner->flags & TW_VIEW_NO_NAMES) && tw_ink_count (hand.ink) > 0)
    draw_names (self, manner);
  tw_ink_finish (self->ink);
  return self;
}

void
tw_view_drawing_free (TwViewDrawing *self)
{
  tw_ink_unref (self->ink);
  g_array_unref (self->labels);
  g_free (self);
}
