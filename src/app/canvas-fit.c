/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/canvas-private.h"

static gboolean
is_of_core (const TwPart *part)
{
  return part != NULL
         && (part->kind == TW_KIND_CORE || part->kind == TW_KIND_TANK || part->kind == TW_KIND_PORT
             || part->kind == TW_KIND_SHROUD || part->kind == TW_KIND_FAN);
}

static gboolean
is_room (const TwPart *part)
{
  return part != NULL && part->kind == TW_KIND_VOLUME && ((const TwVolume *)part)->use == TW_USE_FREE;
}

/* The cores with what is fixed to them, and the rooms that they stand in: hoses may run the length of the
 * vehicle. */
static TwBox
middle_box (TwCanvas *self)
{
  const TwDrawing *drawing = tw_session_drawing (self->session);
  TwBox box = TW_BOX_EMPTY, rooms = TW_BOX_EMPTY;

  for (guint i = 0; self->pick != NULL && i < tw_pick_count (self->pick); i++)
    if (is_of_core (tw_drawing_find (drawing, tw_pick_get (self->pick, i)->part)))
      box = tw_box_add (box, tw_pick_get (self->pick, i)->box);
  for (guint i = 0; !tw_box_is_empty (box) && i < tw_pick_count (self->pick); i++) {
    const TwPickShape *shape = tw_pick_get (self->pick, i);

    if (is_room (tw_drawing_find (drawing, shape->part)) && tw_box_overlaps (shape->box, box)
        && tw_box_contains (shape->box,
                            (TwPoint){ (box.x0_mm + box.x1_mm) / 2, (box.y0_mm + box.y1_mm) / 2 }))
      rooms = tw_box_add (rooms, shape->box);
  }
  return tw_box_add (box, rooms);
}

static TwLens
fitted (TwCanvas *self, TwBox box)
{
  return tw_lens_fit (box, gtk_widget_get_width (GTK_WIDGET (self)),
                      gtk_widget_get_height (GTK_WIDGET (self)), TW_CANVAS_MARGIN_PX);
}

void
tw_canvas_fit_lens (TwCanvas *self, gboolean all)
{
  TwBox box = all ? TW_BOX_EMPTY : middle_box (self);

  if (tw_box_is_empty (box) && self->drawing != NULL)
    box = self->drawing->all;
  *tw_canvas_lens (self) = fitted (self, box);
  self->fitted[tw_session_view (self->session)] = !all;
  self->framed[tw_session_view (self->session)] = TRUE;
  self->drawn_px_mm = 0.0;
}

void
tw_canvas_zoom (TwCanvas *self, double by)
{
  TwLens *lens = tw_canvas_lens (self);

  *lens = tw_lens_zoom (lens, by, (TwPixel){ lens->width_px / 2.0, lens->height_px / 2.0 });
  tw_canvas_lens_changed (self);
}

gboolean
tw_canvas_chosen_box (TwCanvas *self, TwBox *box)
{
  guint n;
  const TwId *chosen = tw_session_chosen (self->session, &n);

  *box = TW_BOX_EMPTY;
  for (guint i = 0; self->pick != NULL && i < n; i++) {
    const TwPickShape *shape = tw_pick_find (self->pick, chosen[i]);

    if (shape != NULL)
      *box = tw_box_add (*box, shape->box);
  }
  return !tw_box_is_empty (*box);
}

gboolean
tw_canvas_pointer (TwCanvas *self, graphene_point_t *at)
{
  *at = GRAPHENE_POINT_INIT ((float)self->pointer.x_px, (float)self->pointer.y_px);
  return self->has_pointer;
}
