/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "look-private.h"

#include "app/passage.h"
#include "drive.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define SCALE 2             /* the picture's: stems of letters are then painted full */
#define LEAST 4.5           /* dimensionless; WCAG 2.1, success criterion 1.4.3 */
#define LEAST_LARGE 3.0     /* the same for large text */
#define LARGE_PX 24.0       /* 18 pt at 96 px an inch */
#define LARGE_BOLD_PX 18.66 /* 14 pt */
#define STEM_PIXELS 4       /* of the picture: what a sign covers in full at least */
#define STEMS 0.004         /* dimensionless: share of a text's box that its darkest strokes cover at least */

typedef struct {
  guchar *pixels; /* four bytes each: blue, green, red, alpha */
  gsize stride;
  int width, height;
} Picture;

static Picture
picture_of (GtkWidget *root)
{
  g_autoptr (GdkTexture) texture = drive_texture (root, SCALE);
  Picture picture = { .width = gdk_texture_get_width (texture), .height = gdk_texture_get_height (texture) };

  picture.stride = (gsize)picture.width * 4;
  picture.pixels = g_malloc (picture.stride * (gsize)picture.height);
  gdk_texture_download (texture, picture.pixels, picture.stride);
  return picture;
}

/* Relative luminance of a colour (WCAG 2.1, definition "relative luminance"). */
static double
luminance (guint32 rgb)
{
  double parts[3];

  for (guint i = 0; i < 3; i++) {
    double part = ((rgb >> (16 - 8 * i)) & 0xff) / 255.0;

    parts[i] = part <= 0.03928 ? part / 12.92 : pow ((part + 0.055) / 1.055, 2.4);
  }
  return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2];
}

static double
contrast (double a, double b)
{
  return (MAX (a, b) + 0.05) / (MIN (a, b) + 0.05);
}

static int
by_number (const void *a, const void *b)
{
  guint32 x = *(const guint32 *)a, y = *(const guint32 *)b;

  return x < y ? -1 : x > y;
}

static int
by_falling (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;

  return x > y ? -1 : x < y;
}

/* The colour that most of the pixels have. @colours are sorted. */
static guint32
ground_of (const guint32 *colours, guint n)
{
  guint32 best = colours[0];
  guint most = 0, run = 0;

  for (guint i = 0; i < n; i++) {
    run = i > 0 && colours[i] == colours[i - 1] ? run + 1 : 1;
    if (run > most) {
      most = run;
      best = colours[i];
    }
  }
  return best;
}

/* Contrast of the strokes in a box against its ground, 0 when nothing is written there. */
static double
contrast_in (const Picture *picture, const graphene_rect_t *box)
{
  int x0 = MAX ((int)floorf (box->origin.x * SCALE), 0), y0 = MAX ((int)floorf (box->origin.y * SCALE), 0);
  int x1 = MIN ((int)ceilf ((box->origin.x + box->size.width) * SCALE), picture->width);
  int y1 = MIN ((int)ceilf ((box->origin.y + box->size.height) * SCALE), picture->height);
  guint n = 0, most = (guint)(MAX (x1 - x0, 0) * MAX (y1 - y0, 0));
  g_autofree guint32 *colours = g_new (guint32, most + 1);
  g_autofree double *contrasts = g_new (double, most + 1);
  double ground;

  for (int y = y0; y < y1; y++)
    for (int x = x0; x < x1; x++) {
      const guchar *pixel = picture->pixels + (gsize)y * picture->stride + (gsize)x * 4;

      colours[n++] = (guint32)pixel[2] << 16 | (guint32)pixel[1] << 8 | pixel[0];
    }
  if (n == 0)
    return 0.0;
  qsort (colours, n, sizeof *colours, by_number);
  ground = luminance (ground_of (colours, n));
  for (guint i = 0; i < n; i++)
    contrasts[i] = contrast (luminance (colours[i]), ground);
  qsort (contrasts, n, sizeof *contrasts, by_falling);
  return contrasts[MIN (MIN ((guint)(n * STEMS), STEM_PIXELS), n - 1)];
}

/* --- texts ------------------------------------------------------------------------------------------------
 */

static gboolean
is_large (GtkWidget *widget)
{
  const PangoFontDescription *font
      = pango_context_get_font_description (gtk_widget_get_pango_context (widget));
  double px = pango_font_description_get_size (font) / (double)PANGO_SCALE;

  if (!pango_font_description_get_size_is_absolute (font))
    px *= 96.0 / 72.0;
  return px >= LARGE_PX
         || (px >= LARGE_BOLD_PX && pango_font_description_get_weight (font) >= PANGO_WEIGHT_BOLD);
}

/* Buttons in the platform's own colours, which it sets bold; ours to use, not to choose. */
static gboolean
is_on_accent (GtkWidget *widget)
{
  GtkWidget *button = gtk_widget_get_ancestor (widget, GTK_TYPE_BUTTON);

  return button != NULL
         && (gtk_widget_has_css_class (button, "suggested-action")
             || gtk_widget_has_css_class (button, "destructive-action"));
}

/* The box of the letters, in the root's coordinates; FALSE when not all of it is seen. */
static gboolean
letters_box (LookWalk *walk, GtkWidget *widget, graphene_rect_t *box)
{
  graphene_rect_t whole;
  graphene_point_t corner;
  int x = 0, y = 0;
  PangoRectangle ink;

  if (!look_seen (widget, walk->root, box) || !gtk_widget_compute_bounds (widget, walk->root, &whole)
      || box->size.height < whole.size.height - 1.0F || box->size.width < whole.size.width - 1.0F)
    return FALSE;
  if (!GTK_IS_LABEL (widget))
    return TRUE;
  gtk_label_get_layout_offsets (GTK_LABEL (widget), &x, &y);
  pango_layout_get_pixel_extents (gtk_label_get_layout (GTK_LABEL (widget)), &ink, NULL);
  if (!gtk_widget_compute_point (widget, walk->root,
                                 &GRAPHENE_POINT_INIT ((float)(x + ink.x), (float)(y + ink.y)), &corner))
    return FALSE;
  return graphene_rect_intersection (
      &GRAPHENE_RECT_INIT (corner.x, corner.y, (float)ink.width, (float)ink.height), box, box);
}

static void
judge (LookWalk *walk, const Picture *picture, GtkWidget *widget)
{
  g_autofree char *text = look_text (widget);
  graphene_rect_t box;

  if (text != NULL && text[0] != '\0' && gtk_widget_is_sensitive (widget) && letters_box (walk, widget, &box)
      && box.size.height >= 6.0F && box.size.width >= 4.0F) {
    double least = is_large (widget) || is_on_accent (widget) ? LEAST_LARGE : LEAST,
           is = contrast_in (picture, &box);

    if (is < least)
      look_fault (walk, widget, "has a contrast of %.2f, less than %.1f", is, least);
  }
  for (GtkWidget *child = look_first (widget); child != NULL; child = look_next (child))
    judge (walk, picture, child);
}

void
look_judge_contrast (LookWalk *walk)
{
  Picture picture = picture_of (walk->root);

  judge (walk, &picture, walk->root);
  g_free (picture.pixels);
}
