/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/canvas-layers.h"

#include "draw/measure.h"

#include <math.h>
#include <string.h>

#define MARGIN_PX 12.0 /* heads, dots and pens reach so far beyond their place */

/* Items that follow each other and belong together. */
typedef struct {
  const char *layer; /* interned */
  TwId part;
  guint first;
  guint n;
  gboolean is_drawn;
  GskRenderNode *node; /* NULL: not drawn yet, or nothing of it is on the screen */
} Run;

struct _TwCanvasLayers {
  TwInk *ink;
  TwLook look;
  TwLens lens;
  GArray *runs; /* of Run */
  guint n_drawn;
};

static void
clear_run (gpointer data)
{
  g_clear_pointer (&((Run *)data)->node, gsk_render_node_unref);
}

static GArray *
runs_new (void)
{
  GArray *runs = g_array_new (FALSE, FALSE, sizeof (Run));

  g_array_set_clear_func (runs, clear_run);
  return runs;
}

TwCanvasLayers *
tw_canvas_layers_new (void)
{
  TwCanvasLayers *self = g_new0 (TwCanvasLayers, 1);

  self->runs = runs_new ();
  return self;
}

void
tw_canvas_layers_free (TwCanvasLayers *self)
{
  g_array_unref (self->runs);
  g_clear_pointer (&self->ink, tw_ink_unref);
  g_free (self);
}

static GArray *
split (const TwInk *ink)
{
  GArray *runs = runs_new ();

  for (guint i = 0; i < tw_ink_count (ink); i++) {
    const TwInkStyle *style = &tw_ink_get (ink, i)->style;
    Run *last = runs->len ? &g_array_index (runs, Run, runs->len - 1) : NULL;

    if (last != NULL && last->layer == style->layer && tw_id_equal (last->part, style->part)) {
      last->n++;
    } else {
      Run run = { style->layer, style->part, i, 1, FALSE, NULL };

      g_array_append_val (runs, run);
    }
  }
  return runs;
}

static gboolean
same_run (const TwInk *a, const Run *x, const TwInk *b, const Run *y)
{
  if (x->layer != y->layer || !tw_id_equal (x->part, y->part) || x->n != y->n)
    return FALSE;
  for (guint i = 0; i < x->n; i++)
    if (!tw_ink_item_equal (tw_ink_get (a, x->first + i), tw_ink_get (b, y->first + i)))
      return FALSE;
  return TRUE;
}

/* Runs mostly stand where they stood: look there first, then a little further on, since a part may have come
 * or gone. */
static void
take_nodes (TwCanvasLayers *self, const TwInk *ink, GArray *runs)
{
  guint at = 0;

  for (guint i = 0; i < runs->len; i++) {
    Run *run = &g_array_index (runs, Run, i);

    for (guint k = at; k < MIN (at + 4, self->runs->len); k++) {
      Run *old = &g_array_index (self->runs, Run, k);

      if (!same_run (self->ink, old, ink, run))
        continue;
      run->is_drawn = old->is_drawn;
      run->node = g_steal_pointer (&old->node);
      at = k;
      break;
    }
    at++;
  }
}

static gboolean
same_lenses (const TwLens *a, const TwLens *b)
{
  return a->middle.x_mm == b->middle.x_mm && a->middle.y_mm == b->middle.y_mm && a->px_mm == b->px_mm
         && a->width_px == b->width_px && a->height_px == b->height_px;
}

/* Looks of a screen differ in nothing but their colours. */
void
tw_canvas_layers_set (TwCanvasLayers *self, TwInk *ink, const TwLook *look, const TwLens *lens)
{
  gboolean same_look = memcmp (look->colours, self->look.colours, sizeof look->colours) == 0;
  gboolean same_lens = same_lenses (lens, &self->lens);
  GArray *runs;

  if (ink == self->ink && same_look && same_lens)
    return;
  runs = split (ink);
  if (self->ink != NULL && same_look && same_lens)
    take_nodes (self, ink, runs);
  g_array_unref (self->runs);
  self->runs = runs;
  tw_ink_ref (ink);
  g_clear_pointer (&self->ink, tw_ink_unref);
  self->ink = ink;
  self->look = *look;
  self->lens = *lens;
}

/* --- drawing -------------------------------------------------------------------------------------------- */

/* What an item covers, in pixels with y up from the top edge (so that text can be measured). */
static TwBox
item_box_px (const TwCanvasLayers *self, const TwMeasure *measure, const TwInkItem *item)
{
  TwPixel origin = tw_lens_origin (&self->lens);
  double scale = self->lens.px_mm;
  TwBox box;

  if (item->kind == TW_INK_TEXT) {
    TwInkPlace place = item->place;

    place.at.x_mm = origin.x_px + place.at.x_mm * scale;
    place.at.y_mm = place.at.y_mm * scale - origin.y_px;
    box = tw_measure_box (measure, &self->look, &place, item->text);
    return tw_box_grow (box, 4.0);
  }
  tw_ink_item_bounds (item, &box);
  if (tw_box_is_empty (box))
    return box;
  box = (TwBox){ origin.x_px + box.x0_mm * scale, box.y0_mm * scale - origin.y_px,
                 origin.x_px + box.x1_mm * scale, box.y1_mm * scale - origin.y_px };
  if (item->kind == TW_INK_RING)
    return tw_box_grow (box, item->spacing * self->look.heights[TW_INK_SIZE_NOTE] + MARGIN_PX);
  return tw_box_grow (box, MARGIN_PX);
}

static gboolean
run_bounds (const TwCanvasLayers *self, const TwMeasure *measure, const Run *run, graphene_rect_t *bounds)
{
  TwBox box = TW_BOX_EMPTY;
  double x0, x1, y0, y1;

  for (guint i = 0; i < run->n; i++)
    box = tw_box_add (box, item_box_px (self, measure, tw_ink_get (self->ink, run->first + i)));
  x0 = MAX (floor (box.x0_mm), 0.0);
  x1 = MIN (ceil (box.x1_mm), self->lens.width_px);
  y0 = MAX (floor (-box.y1_mm), 0.0);
  y1 = MIN (ceil (-box.y0_mm), self->lens.height_px);
  if (x1 <= x0 || y1 <= y0)
    return FALSE;
  graphene_rect_init (bounds, (float)x0, (float)y0, (float)(x1 - x0), (float)(y1 - y0));
  return TRUE;
}

static void
draw_run (TwCanvasLayers *self, TwLetters *letters, Run *run)
{
  TwMeasure measure = tw_letters_measure (letters);
  TwPixel origin = tw_lens_origin (&self->lens);
  TwCairoLens lens = { self->lens.px_mm, origin.x_px, origin.y_px, TRUE };
  g_autoptr (TwInk) part = NULL;
  graphene_rect_t bounds;
  cairo_t *cr;

  run->is_drawn = TRUE;
  self->n_drawn++;
  if (!run_bounds (self, &measure, run, &bounds))
    return;
  part = tw_ink_new ();
  tw_ink_append_items (part, self->ink, run->first, run->n);
  tw_ink_finish (part);
  run->node = gsk_cairo_node_new (&bounds);
  cr = gsk_cairo_node_get_draw_context (run->node);
  tw_cairo_draw (cr, part, &self->look, letters, &lens);
  cairo_destroy (cr);
}

void
tw_canvas_layers_snapshot (TwCanvasLayers *self, TwLetters *letters, GtkSnapshot *snapshot)
{
  for (guint i = 0; i < self->runs->len; i++) {
    Run *run = &g_array_index (self->runs, Run, i);

    if (!run->is_drawn)
      draw_run (self, letters, run);
    if (run->node != NULL)
      gtk_snapshot_append_node (snapshot, run->node);
  }
}

guint
tw_canvas_layers_drawn (const TwCanvasLayers *self)
{
  return self->n_drawn;
}
