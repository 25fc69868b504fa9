/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/job-picture.h"

#include "app/compat.h"
#include "sheets/to-cairo.h"

#include <adwaita.h>

#define MARGIN_PX 8.0
#define CORNER_PX 6.0F
#define FIRST_PX_MM 0.25 /* scale of the drawing by which the picture is measured */

struct _TwJobPicture {
  GtkWidget parent_instance;

  TwAnswer *answer; /* NULL: empty paper */
  TwView view;
  TwViewFlags flags;

  GskRenderNode *node; /* NULL: to be drawn */
  int width, height;   /* px, of the node */
  TwLook look;         /* of the node */
  guint n_drawn;
};

G_DEFINE_FINAL_TYPE (TwJobPicture, tw_job_picture, GTK_TYPE_WIDGET)

static TwLook
look_now (void)
{
  return tw_look_screen (adw_style_manager_get_dark (adw_style_manager_get_default ()) ? TW_LOOK_DARK
                                                                                       : TW_LOOK_LIGHT,
                         tw_compat_high_contrast ());
}

static TwViewDrawing *
draw_view (TwJobPicture *self, TwGeos *geos, double px_mm)
{
  TwViewSource source = { tw_answer_placement (self->answer), tw_answer_routes (self->answer),
                          tw_answer_passes (self->answer), geos };
  TwViewManner manner = {
    .view = self->view,
    .core = TW_ID_NONE,
    .scale = px_mm,
    .flags = self->flags | TW_VIEW_NO_NAMES,
    .look = &self->look,
  };

  return tw_view_draw (&source, &manner);
}

/* What is to be seen: all that is drawn, or nothing. */
static TwBox
bounds_of (const TwViewDrawing *drawing)
{
  return tw_box_is_empty (drawing->all) ? drawing->parts : drawing->all;
}

static void
draw_ink (TwJobPicture *self, cairo_t *cr)
{
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwLetters) letters = tw_letters_new (TW_LETTERS_SHEET_FONT);
  g_autoptr (TwViewDrawing) first = draw_view (self, geos, FIRST_PX_MM);
  g_autoptr (TwViewDrawing) drawing = NULL;
  TwBox box = bounds_of (first);
  double width_mm = box.x1_mm - box.x0_mm, height_mm = box.y1_mm - box.y0_mm, px_mm;
  TwCairoLens lens;

  if (tw_box_is_empty (box) || !(width_mm > 0) || !(height_mm > 0))
    return;
  px_mm = MIN ((self->width - 2 * MARGIN_PX) / width_mm, (self->height - 2 * MARGIN_PX) / height_mm);
  if (!(px_mm > 0))
    return;
  drawing = draw_view (self, geos, px_mm);
  lens = (TwCairoLens){ px_mm, self->width / 2.0 - px_mm * (box.x0_mm + box.x1_mm) / 2,
                        self->height / 2.0 + px_mm * (box.y0_mm + box.y1_mm) / 2, TRUE };
  tw_cairo_draw (cr, drawing->ink, &self->look, letters, &lens);
}

static void
draw_again (TwJobPicture *self)
{
  cairo_t *cr;

  g_clear_pointer (&self->node, gsk_render_node_unref);
  self->node = gsk_cairo_node_new (&GRAPHENE_RECT_INIT (0.0F, 0.0F, (float)self->width, (float)self->height));
  cr = gsk_cairo_node_get_draw_context (self->node);
  if (self->answer != NULL)
    draw_ink (self, cr);
  cairo_destroy (cr);
  self->n_drawn++;
}

static void
tw_job_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TwJobPicture *self = TW_JOB_PICTURE (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  TwLook look = look_now ();
  gboolean same_look = memcmp (look.colours, self->look.colours, sizeof look.colours) == 0;
  graphene_rect_t whole = GRAPHENE_RECT_INIT (0.0F, 0.0F, (float)width, (float)height);
  GskRoundedRect corners;
  double rgb[3];

  if (self->node == NULL || width != self->width || height != self->height || !same_look) {
    self->width = width;
    self->height = height;
    self->look = look;
    draw_again (self);
  }
  tw_look_colour (&self->look, TW_INK_TINT_PAPER, 1.0, rgb);
  gsk_rounded_rect_init_from_rect (&corners, &whole, CORNER_PX);
  gtk_snapshot_push_rounded_clip (snapshot, &corners);
  gtk_snapshot_append_color (snapshot, &(GdkRGBA){ (float)rgb[0], (float)rgb[1], (float)rgb[2], 1.0F },
                             &whole);
  gtk_snapshot_append_node (snapshot, self->node);
  gtk_snapshot_pop (snapshot);
}

static void
tw_job_picture_finalize (GObject *object)
{
  TwJobPicture *self = TW_JOB_PICTURE (object);

  g_clear_pointer (&self->answer, tw_answer_unref);
  g_clear_pointer (&self->node, gsk_render_node_unref);
  G_OBJECT_CLASS (tw_job_picture_parent_class)->finalize (object);
}

static void
tw_job_picture_class_init (TwJobPictureClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = tw_job_picture_finalize;
  GTK_WIDGET_CLASS (klass)->snapshot = tw_job_picture_snapshot;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_IMG);
}

static void
tw_job_picture_init (TwJobPicture *self)
{
  AdwStyleManager *styles = adw_style_manager_get_default ();

  g_signal_connect_object (styles, "notify::dark", G_CALLBACK (gtk_widget_queue_draw), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (styles, "notify::high-contrast", G_CALLBACK (gtk_widget_queue_draw), self,
                           G_CONNECT_SWAPPED);
}

GtkWidget *
tw_job_picture_new (void)
{
  return g_object_new (TW_TYPE_JOB_PICTURE, NULL);
}

void
tw_job_picture_show (TwJobPicture *self, const TwAnswer *answer, TwView view, TwViewFlags flags)
{
  TwAnswer *kept;

  if (self->answer == answer && self->view == view && self->flags == flags)
    return;
  kept = answer ? tw_answer_ref (answer) : NULL;
  g_clear_pointer (&self->answer, tw_answer_unref);
  self->answer = kept;
  self->view = view;
  self->flags = flags;
  g_clear_pointer (&self->node, gsk_render_node_unref);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

guint
tw_job_picture_drawn (TwJobPicture *self)
{
  return self->n_drawn;
}
