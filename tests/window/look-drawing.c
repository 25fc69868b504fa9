/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "look-private.h"

#include "app/canvas.h"
#include "sheets/letters.h"

#define LEAST_LETTERS_PX 11.0
#define SLACK_PX 1.0

/* Texts of one view, as they stand on the widget. */
typedef struct {
  GtkWidget *canvas;
  TwLetters *letters;
  TwLook look;
  gboolean is_cut; /* the view shows a part of the drawing: texts at its edges are cut as the rest is */
  GArray *boxes;   /* of TwBox: px, y down */
  GPtrArray *texts;
} Texts;

static TwBox
box_of (const Texts *self, const TwInkItem *item)
{
  TwMeasure measure = tw_letters_measure (self->letters);
  graphene_point_t at = tw_canvas_place_of (TW_CANVAS (self->canvas), item->place.at);
  TwInkPlace place = item->place;
  TwBox box;

  place.at = (TwPoint){ (double)at.x, -(double)at.y };
  box = tw_measure_box (&measure, &self->look, &place, item->text);
  return (TwBox){ box.x0_mm, -box.y1_mm, box.x1_mm, -box.y0_mm };
}

static void
take (Texts *self, const TwInk *ink)
{
  for (guint i = 0; i < tw_ink_count (ink); i++) {
    const TwInkItem *item = tw_ink_get (ink, i);
    TwBox box;

    if (item->kind != TW_INK_TEXT)
      continue;
    box = box_of (self, item);
    g_array_append_val (self->boxes, box);
    g_ptr_array_add (self->texts, (gpointer)item);
  }
}

static void
judge_one (LookWalk *walk, const Texts *self, guint nth)
{
  const TwInkItem *item = g_ptr_array_index (self->texts, nth);
  const TwBox *box = &g_array_index (self->boxes, TwBox, nth);
  double width = gtk_widget_get_width (self->canvas), height = gtk_widget_get_height (self->canvas);
  double px = tw_letters_font_size (self->letters, self->look.heights[item->place.size]);
  gboolean is_out
      = self->is_cut || box->x1_mm < 0 || box->y1_mm < 0 || box->x0_mm > width || box->y0_mm > height;

  if (px < LEAST_LETTERS_PX)
    look_fault (walk, self->canvas, "writes \"%s\" with letters of %.1f px", item->text, px);
  if (!is_out
      && (box->x0_mm < -SLACK_PX || box->y0_mm < -SLACK_PX || box->x1_mm > width + SLACK_PX
          || box->y1_mm > height + SLACK_PX))
    look_fault (walk, self->canvas, "writes \"%s\" across its edge", item->text);
}

static void
judge_pair (LookWalk *walk, const Texts *self, guint a, guint b)
{
  const TwBox *x = &g_array_index (self->boxes, TwBox, a), *y = &g_array_index (self->boxes, TwBox, b);
  const TwInkItem *item = g_ptr_array_index (self->texts, a), *other = g_ptr_array_index (self->texts, b);

  if (MIN (x->x1_mm, y->x1_mm) - MAX (x->x0_mm, y->x0_mm) > SLACK_PX
      && MIN (x->y1_mm, y->y1_mm) - MAX (x->y0_mm, y->y0_mm) > SLACK_PX)
    look_fault (walk, self->canvas, "writes \"%s\" on \"%s\"", item->text, other->text);
}

static gboolean
is_cut (TwCanvas *canvas, const TwInk *ink)
{
  TwBox box = { 0, 0, 0, 0 };
  graphene_point_t low, high;

  if (!tw_ink_bounds (ink, &box))
    return FALSE;
  low = tw_canvas_place_of (canvas, (TwPoint){ box.x0_mm, box.y0_mm });
  high = tw_canvas_place_of (canvas, (TwPoint){ box.x1_mm, box.y1_mm });
  return low.x < 0.0F || high.y < 0.0F || high.x > (float)gtk_widget_get_width (GTK_WIDGET (canvas))
         || low.y > (float)gtk_widget_get_height (GTK_WIDGET (canvas));
}

void
look_judge_drawing (LookWalk *walk, GtkWidget *widget)
{
  const TwInk *ink = TW_IS_CANVAS (widget) ? tw_canvas_ink (TW_CANVAS (widget)) : NULL;
  Texts texts = { .canvas = widget, .look = tw_look_screen (TW_LOOK_LIGHT, FALSE) };
  const PangoFontDescription *font;

  if (ink == NULL)
    return;
  font = pango_context_get_font_description (gtk_widget_get_pango_context (widget));
  texts.letters = tw_letters_new (pango_font_description_get_family (font));
  texts.is_cut = is_cut (TW_CANVAS (widget), ink);
  texts.boxes = g_array_new (FALSE, FALSE, sizeof (TwBox));
  texts.texts = g_ptr_array_new ();
  take (&texts, ink);
  for (guint i = 0; i < texts.texts->len; i++) {
    judge_one (walk, &texts, i);
    for (guint k = i + 1; k < texts.texts->len; k++)
      judge_pair (walk, &texts, i, k);
  }
  g_ptr_array_unref (texts.texts);
  g_array_unref (texts.boxes);
  tw_letters_free (texts.letters);
}
