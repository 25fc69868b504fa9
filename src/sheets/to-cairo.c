/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/to-cairo.h"

#include <cairo-pdf.h>
#include <math.h>
#include <string.h>

#include "base/error.h"
#include "draw/hatch.h"
#include "draw/measure.h"

#define POINTS_PER_MM (72.0 / 25.4)
#define MOST_PIXELS 20000

/* What every item is drawn with. */
typedef struct {
  cairo_t *cr;
  const TwLook *look;
  TwLetters *letters;
  const TwCairoLens *lens;
} Hand;

static TwPoint
place_of (const Hand *hand, TwPoint at)
{
  return (TwPoint){ hand->lens->origin_x + at.x_mm * hand->lens->scale,
                    hand->lens->origin_y - at.y_mm * hand->lens->scale };
}

static void
set_tint (const Hand *hand, TwInkTint tint, double share)
{
  double rgb[3];

  tw_look_colour (hand->look, tint, share, rgb);
  cairo_set_source_rgb (hand->cr, rgb[0], rgb[1], rgb[2]);
}

static void
set_pen (const Hand *hand, TwInkPen nth)
{
  const TwLookPen *pen = &hand->look->pens[nth];
  int n_dashes = 0;

  while (n_dashes < TW_LOOK_DASHES && pen->dashes[n_dashes] > 0)
    n_dashes++;
  cairo_set_line_width (hand->cr, pen->width);
  cairo_set_dash (hand->cr, pen->dashes, n_dashes, 0);
  cairo_set_line_cap (hand->cr, n_dashes > 0 ? CAIRO_LINE_CAP_BUTT : CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join (hand->cr, CAIRO_LINE_JOIN_MITER);
  cairo_set_miter_limit (hand->cr, 2);
}

/* --- paths ------------------------------------------------------------------------------------------------
 */

/* A level or upright edge is put where its line covers whole device pixels. */
static double
snapped (double at, double width)
{
  double half = fmod (MAX (1, round (width)), 2) / 2;

  return round (at - half) + half;
}

static gboolean
is_straight (const TwInkCorner *from, const TwInkCorner *to, gboolean upright)
{
  return from->bow_mm == 0
         && (upright ? fabs (from->at.x_mm - to->at.x_mm) : fabs (from->at.y_mm - to->at.y_mm)) < 1e-9;
}

/* Place of corner @nth of the ring from @first to @end, moved to whole pixels where an edge of it asks for
 * it. */
static TwPoint
corner_place (const Hand *hand, const TwInkItem *item, const guint ring[2], guint nth)
{
  const TwInkCorner *corner = &item->corners[nth];
  const TwInkCorner *next = &item->corners[nth + 1 < ring[1] ? nth + 1 : ring[0]];
  const TwInkCorner *last = &item->corners[nth > ring[0] ? nth - 1 : ring[1] - 1];
  TwPoint at = place_of (hand, corner->at);
  double width = hand->look->pens[item->style.pen].width;
  gboolean has_next = item->closed || nth + 1 < ring[1], has_last = item->closed || nth > ring[0];

  if (!hand->lens->snap)
    return at;
  if ((has_next && is_straight (corner, next, TRUE)) || (has_last && is_straight (last, corner, TRUE)))
    at.x_mm = snapped (at.x_mm, width);
  if ((has_next && is_straight (corner, next, FALSE)) || (has_last && is_straight (last, corner, FALSE)))
    at.y_mm = snapped (at.y_mm, width);
  return at;
}

static void
add_edge (const Hand *hand, const TwInkItem *item, const guint ring[2], guint nth)
{
  guint next = nth + 1 < ring[1] ? nth + 1 : ring[0];
  const TwInkCorner *from = &item->corners[nth], *to = &item->corners[next];
  TwPoint at = corner_place (hand, item, ring, next);

  if (from->bow_mm != 0 && tw_point_distance_mm (from->at, to->at) > 0) {
    TwArc arc = tw_arc_of_edge (from->at, to->at, from->bow_mm);
    TwPoint centre = place_of (hand, arc.centre);
    double radius = arc.radius_mm * hand->lens->scale;

    /* y runs down there: what turns left here turns right there */
    if (arc.turn_rad > 0)
      cairo_arc_negative (hand->cr, centre.x_mm, centre.y_mm, radius, -arc.from_rad,
                          -arc.from_rad - arc.turn_rad);
    else
      cairo_arc (hand->cr, centre.x_mm, centre.y_mm, radius, -arc.from_rad, -arc.from_rad - arc.turn_rad);
  } else if (next != ring[0]) {
    cairo_line_to (hand->cr, at.x_mm, at.y_mm);
  }
}

static void
add_rings (const Hand *hand, const TwInkItem *item)
{
  cairo_new_path (hand->cr);
  for (guint first = 0, end; first < item->n_corners; first = end) {
    TwPoint at;

    end = tw_ink_ring_end (item, first);
    at = corner_place (hand, item, (const guint[]){ first, end }, first);
    cairo_move_to (hand->cr, at.x_mm, at.y_mm);
    for (guint i = first; i + (item->closed ? 0 : 1) < end; i++)
      add_edge (hand, item, (const guint[]){ first, end }, i);
    if (item->closed)
      cairo_close_path (hand->cr);
  }
}

/* --- the kinds --------------------------------------------------------------------------------------------
 */

static void
draw_line (const Hand *hand, const TwInkItem *item)
{
  set_tint (hand, item->style.tint, 1);
  set_pen (hand, item->style.pen);
  add_rings (hand, item);
  cairo_stroke (hand->cr);
}

static void
draw_fill (const Hand *hand, const TwInkItem *item, double share)
{
  set_tint (hand, item->style.tint, share);
  cairo_set_fill_rule (hand->cr, CAIRO_FILL_RULE_EVEN_ODD);
  add_rings (hand, item);
  cairo_fill (hand->cr);
}

static void
draw_hatch (const Hand *hand, const TwInkItem *item)
{
  g_autoptr (GArray) lines = tw_hatch_lines (item, hand->look->hatch_gap * item->spacing / hand->lens->scale);

  set_tint (hand, item->style.tint, 1);
  set_pen (hand, item->style.pen);
  cairo_new_path (hand->cr);
  for (guint i = 0; i < lines->len; i++) {
    const TwHatchLine *line = &g_array_index (lines, TwHatchLine, i);
    TwPoint from = place_of (hand, line->from), to = place_of (hand, line->to);

    cairo_move_to (hand->cr, from.x_mm, from.y_mm);
    cairo_line_to (hand->cr, to.x_mm, to.y_mm);
  }
  cairo_stroke (hand->cr);
}

static void
draw_arrow (const Hand *hand, const TwInkItem *item)
{
  TwPoint at = place_of (hand, item->corners[0].at);
  double c = cos (item->angle_rad), s = sin (item->angle_rad);
  double length, width, half;

  tw_look_head (hand->look, item->style.pen, &length, &width);
  half = width / 2;
  set_tint (hand, item->style.tint, 1);
  cairo_new_path (hand->cr);
  cairo_move_to (hand->cr, at.x_mm, at.y_mm);
  cairo_line_to (hand->cr, at.x_mm - length * c + half * s, at.y_mm + length * s + half * c);
  cairo_line_to (hand->cr, at.x_mm - length * c - half * s, at.y_mm + length * s - half * c);
  cairo_close_path (hand->cr);
  cairo_fill (hand->cr);
}

static void
draw_dot (const Hand *hand, const TwInkItem *item)
{
  TwPoint at = place_of (hand, item->corners[0].at);

  set_tint (hand, item->style.tint, 1);
  cairo_new_path (hand->cr);
  cairo_arc (hand->cr, at.x_mm, at.y_mm, hand->look->dot_diameter / 2, 0, 2 * G_PI);
  cairo_fill (hand->cr);
}

static void
draw_ring (const Hand *hand, const TwInkItem *item)
{
  TwPoint at = place_of (hand, item->corners[0].at);

  set_tint (hand, item->style.tint, 1);
  set_pen (hand, item->style.pen);
  cairo_new_path (hand->cr);
  cairo_arc (hand->cr, at.x_mm, at.y_mm, item->spacing * hand->look->heights[TW_INK_SIZE_NOTE], 0, 2 * G_PI);
  cairo_stroke (hand->cr);
}

static void
draw_text (const Hand *hand, const TwInkItem *item)
{
  TwMeasure measure = tw_letters_measure (hand->letters);
  double height = hand->look->heights[item->place.size];
  double width = tw_measure_width (&measure, item->text, height);
  TwPoint at = place_of (hand, item->place.at);
  static const double back[] = { [TW_INK_LEFT] = 0, [TW_INK_CENTRE] = 0.5, [TW_INK_RIGHT] = 1 };
  static const double down[] = { [TW_INK_BASELINE] = 0, [TW_INK_MIDDLE] = 0.5, [TW_INK_TOP] = 1 };

  cairo_save (hand->cr);
  cairo_translate (hand->cr, at.x_mm, at.y_mm);
  if (item->place.upright)
    cairo_rotate (hand->cr, -G_PI / 2);
  for (int halo = hand->look->halo ? 1 : 0; halo >= 0; halo--) {
    set_tint (hand, halo ? TW_INK_TINT_PAPER : item->style.tint, 1);
    cairo_set_dash (hand->cr, NULL, 0, 0);
    cairo_move_to (hand->cr, -width * back[item->place.across], height * down[item->place.up]);
    tw_letters_show (hand->letters, hand->cr, item->text, height, halo * height * 0.35);
  }
  cairo_restore (hand->cr);
}

void
tw_cairo_draw (cairo_t *cr, const TwInk *ink, const TwLook *look, TwLetters *letters, const TwCairoLens *lens)
{
  const Hand hand = { cr, look, letters, lens };

  cairo_save (cr);
  for (guint i = 0; i < tw_ink_count (ink); i++) {
    const TwInkItem *item = tw_ink_get (ink, i);

    switch (item->kind) {
    case TW_INK_LINE:
      draw_line (&hand, item);
      break;
    case TW_INK_FILL:
      draw_fill (&hand, item, 1);
      break;
    case TW_INK_TONE:
      draw_fill (&hand, item, item->spacing);
      break;
    case TW_INK_HATCH:
      draw_hatch (&hand, item);
      break;
    case TW_INK_TEXT:
      draw_text (&hand, item);
      break;
    case TW_INK_ARROW:
      draw_arrow (&hand, item);
      break;
    case TW_INK_DOT:
      draw_dot (&hand, item);
      break;
    case TW_INK_RING:
      draw_ring (&hand, item);
      break;
    }
  }
  cairo_new_path (cr);
  cairo_restore (cr);
}

/* --- files ------------------------------------------------------------------------------------------------
 */

static cairo_status_t
append_cb (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static gboolean
went_well (cairo_status_t status, GError **error)
{
  if (status == CAIRO_STATUS_SUCCESS)
    return TRUE;
  g_set_error_literal (error, TW_ERROR, TW_ERROR_FILE, cairo_status_to_string (status));
  return FALSE;
}

static void
set_about (cairo_surface_t *surface, const TwPageAbout *about)
{
  const struct {
    cairo_pdf_metadata_t which;
    const char *text;
  } entries[] = {
    { CAIRO_PDF_METADATA_TITLE, about->title },      { CAIRO_PDF_METADATA_SUBJECT, about->subject },
    { CAIRO_PDF_METADATA_AUTHOR, about->author },    { CAIRO_PDF_METADATA_CREATOR, "Tankwright" },
    { CAIRO_PDF_METADATA_CREATE_DATE, about->date }, { CAIRO_PDF_METADATA_MOD_DATE, about->date },
  };

  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    if (entries[i].text != NULL)
      cairo_pdf_surface_set_metadata (surface, entries[i].which, entries[i].text);
}

static void
draw_page (cairo_t *cr, const TwPage *page, TwLetters *letters)
{
  const TwCairoLens lens = { .scale = 1, .origin_x = 0, .origin_y = page->height_mm };

  tw_cairo_draw (cr, page->ink, page->look, letters, &lens);
}

GBytes *
tw_cairo_write_pdf (const TwPage *pages, guint n, const TwPageAbout *about, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  g_autoptr (TwLetters) letters = tw_letters_new (TW_LETTERS_SHEET_FONT);
  cairo_surface_t *surface;
  cairo_t *cr;
  cairo_status_t status;

  g_return_val_if_fail (n > 0 && about->date != NULL, NULL);

  surface = cairo_pdf_surface_create_for_stream (append_cb, bytes, pages[0].width_mm * POINTS_PER_MM,
                                                 pages[0].height_mm * POINTS_PER_MM);
  set_about (surface, about);
  cr = cairo_create (surface);
  for (guint i = 0; i < n; i++) {
    cairo_pdf_surface_set_size (surface, pages[i].width_mm * POINTS_PER_MM,
                                pages[i].height_mm * POINTS_PER_MM);
    cairo_save (cr);
    cairo_scale (cr, POINTS_PER_MM, POINTS_PER_MM);
    draw_page (cr, &pages[i], letters);
    cairo_restore (cr);
    cairo_show_page (cr);
  }
  status = cairo_status (cr);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  return went_well (status, error) ? g_byte_array_free_to_bytes (g_steal_pointer (&bytes)) : NULL;
}

GBytes *
tw_cairo_write_png (const TwPage *page, double pixels_per_mm, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  g_autoptr (TwLetters) letters = NULL;
  double width = ceil (page->width_mm * pixels_per_mm), height = ceil (page->height_mm * pixels_per_mm);
  cairo_surface_t *surface;
  cairo_t *cr;
  cairo_status_t status;

  g_return_val_if_fail (pixels_per_mm > 0 && pixels_per_mm <= 40, NULL);

  if (width > MOST_PIXELS || height > MOST_PIXELS) {
    g_set_error (error, TW_ERROR, TW_ERROR_LIMIT, _ ("A picture may be %d pixels wide and high"),
                 MOST_PIXELS);
    return NULL;
  }
  letters = tw_letters_new (TW_LETTERS_SHEET_FONT);
  surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cr = cairo_create (surface);
  set_tint (&(Hand){ .cr = cr, .look = page->look }, TW_INK_TINT_PAPER, 1);
  cairo_paint (cr);
  cairo_scale (cr, pixels_per_mm, pixels_per_mm);
  draw_page (cr, page, letters);
  status = cairo_status (cr);
  cairo_destroy (cr);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_write_to_png_stream (surface, append_cb, bytes);
  cairo_surface_destroy (surface);
  return went_well (status, error) ? g_byte_array_free_to_bytes (g_steal_pointer (&bytes)) : NULL;
}
