/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/letters.h"

#include <pango/pangocairo.h>

/* Size at which letters are measured: large, so that Pango's units do not round. */
#define MEASURED_SIZE 200.0

struct _TwLetters {
  PangoFontMap *map;
  PangoContext *context;
  PangoLayout *layout;
  PangoFontDescription *font;
  char *family;
  double capital; /* height of a capital as a share of the font's size; dimensionless */
};

/* Glyphs are placed where they belong, not on whole units: a unit may be a millimetre. */
static void
set_options (PangoContext *context)
{
  cairo_font_options_t *options = cairo_font_options_create ();

  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options (context, options);
  pango_context_set_round_glyph_positions (context, FALSE);
  cairo_font_options_destroy (options);
}

static void
set_size (TwLetters *self, double size)
{
  pango_font_description_set_absolute_size (self->font, size * PANGO_SCALE);
  pango_layout_set_font_description (self->layout, self->font);
}

/* Figures of one width, so that columns of them stand under each other. */
static void
set_figures (TwLetters *self)
{
  PangoAttrList *list = pango_attr_list_new ();

  pango_attr_list_insert (list, pango_attr_font_features_new ("tnum=1"));
  pango_layout_set_attributes (self->layout, list);
  pango_attr_list_unref (list);
}

static void
measure_capital (TwLetters *self)
{
  PangoRectangle ink;

  pango_layout_set_text (self->layout, "H", -1);
  pango_layout_get_extents (self->layout, &ink, NULL);
  self->capital = ink.height > 0 ? ink.height / (PANGO_SCALE * MEASURED_SIZE) : 0.7;
}

static void
find_family (TwLetters *self)
{
  PangoFont *font = pango_context_load_font (self->context, self->font);
  PangoFontDescription *used = font != NULL ? pango_font_describe (font) : NULL;

  self->family = g_strdup (used != NULL ? pango_font_description_get_family (used)
                                        : pango_font_description_get_family (self->font));
  g_clear_pointer (&used, pango_font_description_free);
  g_clear_object (&font);
}

TwLetters *
tw_letters_new (const char *family)
{
  TwLetters *self = g_new0 (TwLetters, 1);

  self->map = pango_cairo_font_map_new ();
  self->context = pango_font_map_create_context (self->map);
  set_options (self->context);
  self->layout = pango_layout_new (self->context);
  pango_layout_set_single_paragraph_mode (self->layout, TRUE);
  self->font = pango_font_description_from_string (family);
  set_figures (self);
  set_size (self, MEASURED_SIZE);
  measure_capital (self);
  find_family (self);
  return self;
}

void
tw_letters_free (TwLetters *self)
{
  g_object_unref (self->layout);
  g_object_unref (self->context);
  g_object_unref (self->map);
  pango_font_description_free (self->font);
  g_free (self->family);
  g_free (self);
}

static double
width_of (gconstpointer data, const char *text, double height)
{
  TwLetters *self = (TwLetters *)data;
  PangoRectangle logical;

  /* the size of the page that was written on last would make letters larger than the font library can */
  if (pango_context_get_matrix (self->context) != NULL) {
    pango_context_set_matrix (self->context, NULL);
    pango_layout_context_changed (self->layout);
  }
  set_size (self, MEASURED_SIZE);
  pango_layout_set_text (self->layout, text, -1);
  pango_layout_get_extents (self->layout, NULL, &logical);
  return logical.width / (PANGO_SCALE * MEASURED_SIZE) * tw_letters_font_size (self, height);
}

TwMeasure
tw_letters_measure (TwLetters *self)
{
  return (TwMeasure){ .width = width_of, .data = self };
}

double
tw_letters_font_size (TwLetters *self, double height)
{
  return height / self->capital;
}

void
tw_letters_show (TwLetters *self, cairo_t *cr, const char *text, double height, double halo_width)
{
  PangoLayoutLine *line;

  pango_cairo_update_context (cr, self->context);
  set_size (self, tw_letters_font_size (self, height));
  pango_layout_context_changed (self->layout);
  pango_layout_set_text (self->layout, text, -1);
  line = pango_layout_get_line_readonly (self->layout, 0);
  if (halo_width > 0) {
    pango_cairo_layout_line_path (cr, line);
    cairo_set_line_width (cr, halo_width);
    cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
    cairo_stroke (cr);
  } else {
    pango_cairo_show_layout_line (cr, line);
  }
}

const char *
tw_letters_family (TwLetters *self)
{
  return self->family;
}
