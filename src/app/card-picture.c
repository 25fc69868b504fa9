/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/card-picture.h"

#include "app/compat.h"
#include "draw/picture.h"
#include "sheets/to-cairo.h"

#include <adwaita.h>
#include <glib/gi18n-lib.h>

#define CORNER_PX 6.0F

struct _TwCardPicture {
  GtkWidget parent_instance;

  const char *card; /* its id, a constant; NULL: nothing shown yet */
  TwAnswer *answer; /* NULL: nothing to show */
  TwUnitStyle style;
  char *words;

  TwLetters *letters;
  TwInk *ink;          /* NULL: not drawn yet */
  int ink_width;       /* px that it was drawn for */
  gboolean is_late;    /* the answer is newer than the ink */
  GskRenderNode *node; /* of the ink; NULL: not painted yet */
  guint n_painted;
};

G_DEFINE_FINAL_TYPE (TwCardPicture, tw_card_picture, GTK_TYPE_WIDGET)

static TwLook
look_now (void)
{
  gboolean is_dark = adw_style_manager_get_dark (adw_style_manager_get_default ());

  return tw_look_screen (is_dark ? TW_LOOK_DARK : TW_LOOK_LIGHT, tw_compat_high_contrast ());
}

static const char *
translate (const char *words)
{
  return _ (words);
}

static gboolean
same_ink (const TwInk *a, const TwInk *b)
{
  if (tw_ink_count (a) != tw_ink_count (b))
    return FALSE;
  for (guint i = 0; i < tw_ink_count (a); i++)
    if (!tw_ink_item_equal (tw_ink_get (a, i), tw_ink_get (b, i)))
      return FALSE;
  return TRUE;
}

static void
drop_node (TwCardPicture *self)
{
  g_clear_pointer (&self->node, gsk_render_node_unref);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* Whether any of it lies in the part of a scrolled list that is seen. */
static gboolean
is_in_sight (TwCardPicture *self)
{
  GtkWidget *list = gtk_widget_get_ancestor (GTK_WIDGET (self), GTK_TYPE_VIEWPORT);
  graphene_rect_t place;

  if (!gtk_widget_get_mapped (GTK_WIDGET (self)))
    return FALSE;
  if (list == NULL || !gtk_widget_compute_bounds (GTK_WIDGET (self), list, &place))
    return TRUE;
  return place.origin.y < (float)gtk_widget_get_height (list) && place.origin.y + place.size.height > 0;
}

/* Ink for the width that it has. */
static void
draw_again (TwCardPicture *self)
{
  int width = gtk_widget_get_width (GTK_WIDGET (self));
  TwMeasure measure = tw_letters_measure (self->letters);
  TwLook look = look_now ();
  const TwPictureManner manner = { width, &look, &measure, &self->style, translate };
  g_autoptr (TwInk) ink = NULL;

  if (self->answer == NULL || width < TW_PICTURE_LEAST_WIDTH_PX)
    return;
  ink = tw_picture_draw (self->card, self->answer, &manner);
  self->is_late = FALSE;
  if (ink == NULL || (self->ink != NULL && self->ink_width == width && same_ink (self->ink, ink)))
    return;
  g_clear_pointer (&self->ink, tw_ink_unref);
  self->ink = g_steal_pointer (&ink);
  self->ink_width = width;
  drop_node (self);
}

void
tw_card_picture_wake (TwCardPicture *self)
{
  if ((self->is_late || self->ink_width != gtk_widget_get_width (GTK_WIDGET (self))) && is_in_sight (self))
    draw_again (self);
}

/* --- painting ------------------------------------------------------------------------------------------- */

static void
paint (TwCardPicture *self, const graphene_rect_t *bounds, const TwLook *look)
{
  const TwCairoLens lens = { 1.0, 0.0, TW_PICTURE_HEIGHT_PX, TRUE };
  cairo_t *cr;

  self->node = gsk_cairo_node_new (bounds);
  self->n_painted++;
  cr = gsk_cairo_node_get_draw_context (self->node);
  tw_cairo_draw (cr, self->ink, look, self->letters, &lens);
  cairo_destroy (cr);
}

static void
tw_card_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TwCardPicture *self = TW_CARD_PICTURE (widget);
  graphene_rect_t bounds
      = GRAPHENE_RECT_INIT (0.0F, 0.0F, (float)gtk_widget_get_width (widget), (float)TW_PICTURE_HEIGHT_PX);
  TwLook look = look_now ();
  GskRoundedRect paper;
  double rgb[3];

  if (self->ink == NULL)
    return;
  tw_look_colour (&look, TW_INK_TINT_PAPER, 1.0, rgb);
  gsk_rounded_rect_init_from_rect (&paper, &bounds, CORNER_PX);
  gtk_snapshot_push_rounded_clip (snapshot, &paper);
  gtk_snapshot_append_color (snapshot, &(GdkRGBA){ (float)rgb[0], (float)rgb[1], (float)rgb[2], 1.0F },
                             &bounds);
  if (self->node == NULL)
    paint (self, &bounds, &look);
  gtk_snapshot_append_node (snapshot, self->node);
  gtk_snapshot_pop (snapshot);
}

static void
tw_card_picture_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  TwCardPicture *self = TW_CARD_PICTURE (widget);

  if (width != self->ink_width)
    draw_again (self);
}

static void
tw_card_picture_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (tw_card_picture_parent_class)->map (widget);
  tw_card_picture_wake (TW_CARD_PICTURE (widget));
}

static void
tw_card_picture_finalize (GObject *object)
{
  TwCardPicture *self = TW_CARD_PICTURE (object);

  g_clear_pointer (&self->answer, tw_answer_unref);
  g_clear_pointer (&self->ink, tw_ink_unref);
  g_clear_pointer (&self->node, gsk_render_node_unref);
  tw_letters_free (self->letters);
  g_free (self->words);
  G_OBJECT_CLASS (tw_card_picture_parent_class)->finalize (object);
}

static void
tw_card_picture_class_init (TwCardPictureClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = tw_card_picture_finalize;
  widget_class->snapshot = tw_card_picture_snapshot;
  widget_class->size_allocate = tw_card_picture_size_allocate;
  widget_class->map = tw_card_picture_map;
  gtk_widget_class_set_css_name (widget_class, "card-picture");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
tw_card_picture_init (TwCardPicture *self)
{
  AdwStyleManager *styles = adw_style_manager_get_default ();
  const char *family = pango_font_description_get_family (
      pango_context_get_font_description (gtk_widget_get_pango_context (GTK_WIDGET (self))));

  self->letters = tw_letters_new (family != NULL ? family : TW_LETTERS_SHEET_FONT);
  gtk_widget_set_size_request (GTK_WIDGET (self), (int)TW_PICTURE_LEAST_WIDTH_PX, (int)TW_PICTURE_HEIGHT_PX);
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
  g_signal_connect_object (styles, "notify::dark", G_CALLBACK (drop_node), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (styles, "notify::high-contrast", G_CALLBACK (drop_node), self, G_CONNECT_SWAPPED);
}

static void
speak (TwCardPicture *self, const TwCard *card)
{
  /* Translators: name of a card, whose picture it is */
  g_autofree char *name = g_strdup_printf (_ ("Picture of %s"), card->label);
  g_autofree char *words
      = g_strdup_printf ("%s. %s", card->missing ? card->missing : card->meaning, card->picture);

  if (g_strcmp0 (words, self->words) == 0)
    return;
  g_free (self->words);
  self->words = g_steal_pointer (&words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, self->words, -1);
}

void
tw_card_picture_show (TwCardPicture *self,
                      const TwCard *card,
                      const TwAnswer *answer,
                      const TwUnitStyle *style)
{
  gboolean shows = answer != NULL && tw_picture_shows (card->id, answer);

  g_clear_pointer (&self->answer, tw_answer_unref);
  self->card = card->id;
  self->style = *style;
  gtk_widget_set_visible (GTK_WIDGET (self), shows);
  if (!shows)
    return;
  self->answer = tw_answer_ref (answer);
  self->is_late = TRUE;
  speak (self, card);
  tw_card_picture_wake (self);
}

guint
tw_card_picture_n_painted (TwCardPicture *self)
{
  return self->n_painted;
}
