/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/to-svg.h"

#include <math.h>
#include <string.h>

#include "draw/hatch.h"
#include "draw/measure.h"

/* What every item is written with. */
typedef struct {
  GString *out;
  const TwPage *page;
  TwLetters *letters;
} Pen;

/* --- numbers, colours, text -------------------------------------------------------------------------------
 */

/* A tenth of a thousandth of a millimetre, without the zeros that say nothing. */
static void
put_number (GString *out, double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];
  char *end;

  g_ascii_formatd (text, sizeof text, "%.4f", fabs (value) < 0.00005 ? 0.0 : value);
  end = text + strlen (text);
  while (end[-1] == '0')
    *--end = '\0';
  if (end[-1] == '.')
    *--end = '\0';
  g_string_append (out, text);
}

static void
put_point (const Pen *pen, TwPoint at)
{
  put_number (pen->out, at.x_mm);
  g_string_append_c (pen->out, ' ');
  put_number (pen->out, pen->page->height_mm - at.y_mm);
}

static void
put_attribute (const Pen *pen, const char *name, double value)
{
  g_string_append_printf (pen->out, " %s=\"", name);
  put_number (pen->out, value);
  g_string_append_c (pen->out, '"');
}

static void
put_escaped (GString *out, const char *text)
{
  g_autofree char *escaped = g_markup_escape_text (text, -1);

  g_string_append (out, escaped);
}

static void
put_colour (const Pen *pen, const char *name, TwInkTint tint, double share)
{
  double rgb[3];

  tw_look_colour (pen->page->look, tint, share, rgb);
  g_string_append_printf (pen->out, " %s=\"#%02x%02x%02x\"", name, (guint)lround (rgb[0] * 255),
                          (guint)lround (rgb[1] * 255), (guint)lround (rgb[2] * 255));
}

/* --- paths ------------------------------------------------------------------------------------------------
 */

static void
put_edge (const Pen *pen, const TwInkCorner *from, const TwInkCorner *to, gboolean last)
{
  if (from->bow_mm != 0 && tw_point_distance_mm (from->at, to->at) > 0) {
    TwArc arc = tw_arc_of_edge (from->at, to->at, from->bow_mm);

    g_string_append (pen->out, "A");
    put_number (pen->out, arc.radius_mm);
    g_string_append_c (pen->out, ' ');
    put_number (pen->out, arc.radius_mm);
    g_string_append_printf (pen->out, " 0 %d %d ", fabs (arc.turn_rad) > G_PI, arc.turn_rad < 0);
    put_point (pen, to->at);
  } else if (!last) {
    g_string_append_c (pen->out, 'L');
    put_point (pen, to->at);
  }
}

static void
put_rings (const Pen *pen, const TwInkItem *item)
{
  g_string_append (pen->out, "<path d=\"");
  for (guint first = 0, end; first < item->n_corners; first = end) {
    end = tw_ink_ring_end (item, first);
    g_string_append_c (pen->out, 'M');
    put_point (pen, item->corners[first].at);
    for (guint i = first; i + 1 < end; i++)
      put_edge (pen, &item->corners[i], &item->corners[i + 1], FALSE);
    if (item->closed) {
      put_edge (pen, &item->corners[end - 1], &item->corners[first], TRUE);
      g_string_append_c (pen->out, 'Z');
    }
  }
  g_string_append_c (pen->out, '"');
}

static void
put_pen (const Pen *pen, const TwInkStyle *style)
{
  const TwLookPen *shape = &pen->page->look->pens[style->pen];

  put_colour (pen, "stroke", style->tint, 1);
  put_attribute (pen, "stroke-width", shape->width);
  if (shape->dashes[0] > 0) {
    g_string_append (pen->out, " stroke-linecap=\"butt\" stroke-dasharray=\"");
    for (guint i = 0; i < TW_LOOK_DASHES && shape->dashes[i] > 0; i++) {
      g_string_append (pen->out, i > 0 ? " " : "");
      put_number (pen->out, shape->dashes[i]);
    }
    g_string_append_c (pen->out, '"');
  }
  g_string_append (pen->out, "/>\n");
}

/* --- the kinds --------------------------------------------------------------------------------------------
 */

static void
put_fill (const Pen *pen, const TwInkItem *item, double share)
{
  put_rings (pen, item);
  put_colour (pen, "fill", item->style.tint, share);
  g_string_append (pen->out, " fill-rule=\"evenodd\"/>\n");
}

static void
put_hatch (const Pen *pen, const TwInkItem *item)
{
  g_autoptr (GArray) lines = tw_hatch_lines (item, pen->page->look->hatch_gap * item->spacing);

  if (lines->len == 0)
    return;
  g_string_append (pen->out, "<path d=\"");
  for (guint i = 0; i < lines->len; i++) {
    g_string_append_c (pen->out, 'M');
    put_point (pen, g_array_index (lines, TwHatchLine, i).from);
    g_string_append_c (pen->out, 'L');
    put_point (pen, g_array_index (lines, TwHatchLine, i).to);
  }
  g_string_append_c (pen->out, '"');
  put_pen (pen, &item->style);
}

static void
put_arrow (const Pen *pen, const TwInkItem *item)
{
  TwPoint at = item->corners[0].at;
  double c = cos (item->angle_rad), s = sin (item->angle_rad);
  double length_mm, width_mm, half_mm;

  tw_look_head (pen->page->look, item->style.pen, &length_mm, &width_mm);
  half_mm = width_mm / 2;
  g_string_append (pen->out, "<path d=\"M");
  put_point (pen, at);
  g_string_append_c (pen->out, 'L');
  put_point (pen, (TwPoint){ at.x_mm - length_mm * c + half_mm * s, at.y_mm - length_mm * s - half_mm * c });
  g_string_append_c (pen->out, 'L');
  put_point (pen, (TwPoint){ at.x_mm - length_mm * c - half_mm * s, at.y_mm - length_mm * s + half_mm * c });
  g_string_append (pen->out, "Z\"");
  put_colour (pen, "fill", item->style.tint, 1);
  g_string_append (pen->out, "/>\n");
}

static void
put_round (const Pen *pen, const TwInkItem *item, double radius_mm)
{
  g_string_append (pen->out, "<circle");
  put_attribute (pen, "cx", item->corners[0].at.x_mm);
  put_attribute (pen, "cy", pen->page->height_mm - item->corners[0].at.y_mm);
  put_attribute (pen, "r", radius_mm);
}

static void
put_dot (const Pen *pen, const TwInkItem *item)
{
  put_round (pen, item, pen->page->look->dot_diameter / 2);
  put_colour (pen, "fill", item->style.tint, 1);
  g_string_append (pen->out, "/>\n");
}

static void
put_text (const Pen *pen, const TwInkItem *item)
{
  static const double back[] = { [TW_INK_LEFT] = 0, [TW_INK_CENTRE] = 0.5, [TW_INK_RIGHT] = 1 };
  static const double down[] = { [TW_INK_BASELINE] = 0, [TW_INK_MIDDLE] = 0.5, [TW_INK_TOP] = 1 };
  TwMeasure measure = tw_letters_measure (pen->letters);
  double height_mm = pen->page->look->heights[item->place.size];
  double length_mm = tw_measure_width (&measure, item->text, height_mm);
  double along_mm = -length_mm * back[item->place.across], under_mm = height_mm * down[item->place.up];
  double x_mm = item->place.at.x_mm, y_mm = pen->page->height_mm - item->place.at.y_mm;

  g_string_append (pen->out, "<text");
  if (item->place.upright) {
    g_string_append (pen->out, " transform=\"rotate(-90 ");
    put_number (pen->out, x_mm);
    g_string_append_c (pen->out, ' ');
    put_number (pen->out, y_mm);
    g_string_append (pen->out, ")\"");
  }
  put_attribute (pen, "x", x_mm + along_mm);
  put_attribute (pen, "y", y_mm + under_mm);
  put_attribute (pen, "font-size", tw_letters_font_size (pen->letters, height_mm));
  put_attribute (pen, "textLength", length_mm);
  put_colour (pen, "fill", item->style.tint, 1);
  g_string_append (pen->out, " lengthAdjust=\"spacingAndGlyphs\">");
  put_escaped (pen->out, item->text);
  g_string_append (pen->out, "</text>\n");
}

static void
put_item (const Pen *pen, const TwInkItem *item)
{
  switch (item->kind) {
  case TW_INK_LINE:
    put_rings (pen, item);
    put_pen (pen, &item->style);
    break;
  case TW_INK_FILL:
    put_fill (pen, item, 1);
    break;
  case TW_INK_TONE:
    put_fill (pen, item, item->spacing);
    break;
  case TW_INK_HATCH:
    put_hatch (pen, item);
    break;
  case TW_INK_TEXT:
    put_text (pen, item);
    break;
  case TW_INK_ARROW:
    put_arrow (pen, item);
    break;
  case TW_INK_DOT:
    put_dot (pen, item);
    break;
  case TW_INK_RING:
    put_round (pen, item, item->spacing * pen->page->look->heights[TW_INK_SIZE_NOTE]);
    put_pen (pen, &item->style);
    break;
  }
}

/* --- the file ---------------------------------------------------------------------------------------------
 */

static void
put_element (GString *out, const char *name, const char *text)
{
  if (text == NULL)
    return;
  g_string_append_printf (out, "<%s>", name);
  put_escaped (out, text);
  g_string_append_printf (out, "</%s>\n", name);
}

static void
put_root (const Pen *pen)
{
  GString *out = pen->out;

  g_string_append (out,
                   "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\""
                   " version=\"1.1\" width=\"");
  put_number (out, pen->page->width_mm);
  g_string_append (out, "mm\" height=\"");
  put_number (out, pen->page->height_mm);
  g_string_append (out, "mm\" viewBox=\"0 0 ");
  put_number (out, pen->page->width_mm);
  g_string_append_c (out, ' ');
  put_number (out, pen->page->height_mm);
  g_string_append (out, "\" fill=\"none\" stroke-linecap=\"round\" stroke-miterlimit=\"2\" font-family=\"");
  put_escaped (out, tw_letters_family (pen->letters));
  g_string_append (out, ", sans-serif\">\n");
}

GBytes *
tw_svg_write (const TwPage *page, const TwPageAbout *about)
{
  g_autoptr (TwLetters) letters = tw_letters_new (TW_LETTERS_SHEET_FONT);
  Pen pen = { g_string_new (NULL), page, letters };
  const char *layer;

  put_root (&pen);
  put_element (pen.out, "title", about->title);
  put_element (pen.out, "desc", about->subject);
  for (guint nth = 0; (layer = tw_ink_layer (page->ink, nth)) != NULL; nth++) {
    g_string_append (pen.out, "<g id=\"");
    put_escaped (pen.out, layer);
    g_string_append (pen.out, "\">\n");
    for (guint i = 0; i < tw_ink_count (page->ink); i++)
      if (tw_ink_get (page->ink, i)->style.layer == layer)
        put_item (&pen, tw_ink_get (page->ink, i));
    g_string_append (pen.out, "</g>\n");
  }
  g_string_append (pen.out, "</svg>\n");
  return g_string_free_to_bytes (pen.out);
}
