/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the writers wrote, read back by others: qpdf takes the PDF apart, pdftotext reads its words.
 */
#include "sheets/to-cairo.h"
#include "sheets/to-svg.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

static const TwInkStyle edge = { TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, "part", { "" } };
static const TwInkStyle cut = { TW_INK_PEN_THIN, TW_INK_TINT_HOT, "cut", { "" } };
static const TwPageAbout about = { "A title & more", "Subject", "Someone", "2026-03-01T00:00:00Z" };
static const char words[] = "⌀31.75 ±0.1 — 24 1/2″ × 610 mm, 95 °C";

/* A line of 100 mm, a slanted one of 60.96 × 25.4, a rectangle of 50.8 × 25.4, a circle of 20, and words. */
static TwInk *
known_ink (void)
{
  TwInk *ink = tw_ink_new ();
  const TwInkPlace place = { { 20, 100 }, TW_INK_SIZE_NOTE, TW_INK_LEFT, TW_INK_BASELINE, FALSE };
  const TwInkPlace turned = { { 200, 60 }, TW_INK_SIZE_TITLE, TW_INK_CENTRE, TW_INK_MIDDLE, TRUE };
  TwInkCorner corners[4];

  tw_ink_line (ink, &edge, (TwPoint){ 20, 50 }, (TwPoint){ 120, 50 });
  tw_ink_line (ink, &cut, (TwPoint){ 20, 60 }, (TwPoint){ 80.96, 85.4 });
  tw_ink_box (ink, &edge, &(TwBox){ 130, 40, 180.8, 65.4 });
  tw_ink_circle (ink, &cut, (TwPoint){ 100, 150 }, 20);
  tw_ink_box_corners (&(TwBox){ 20, 120, 60, 140 }, corners);
  tw_ink_tone (ink, &edge, corners, 4, 0.25);
  tw_ink_hatch (ink, &cut, corners, 4, G_PI / 4, 1);
  tw_ink_text (ink, &edge, &place, words);
  tw_ink_text (ink, &edge, &turned, "upright <&>");
  tw_ink_arrow (ink, &edge, (TwPoint){ 20, 50 }, G_PI);
  tw_ink_dot (ink, &edge, (TwPoint){ 120, 50 });
  tw_ink_ring (ink, &edge, (TwPoint){ 150, 100 }, 1);
  return tw_ink_finish (ink);
}

static char *
in_folder (const char *name)
{
  return g_build_filename (g_getenv ("G_TEST_BUILDDIR"), name, NULL);
}

/* What a program prints about @pdf; NULL if it is not installed, which skips the test. */
static char *
printed_about (GBytes *pdf, const char *const *program)
{
  g_autofree char *path = in_folder ("writers-read-back.pdf");
  const char *argv[8] = { 0 };
  char *out = NULL;
  guint n = 0;

  g_assert_true (g_file_set_contents (path, g_bytes_get_data (pdf, NULL), g_bytes_get_size (pdf), NULL));
  for (; program[n] != NULL; n++)
    argv[n] = g_str_equal (program[n], "FILE") ? path : program[n];
  if (!g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_SEARCH_PATH | G_SPAWN_STDERR_TO_DEV_NULL, NULL, NULL,
                     &out, NULL, NULL, NULL))
    g_test_skip ("a reader of PDF is not installed");
  g_unlink (path);
  return out;
}

static GBytes *
known_pdf (void)
{
  g_autoptr (TwInk) ink = known_ink ();
  const TwLook look = tw_look_paper (FALSE);
  const TwPage pages[] = { { 297, 210, ink, &look }, { 420, 297, ink, &look } };
  GError *error = NULL;
  GBytes *pdf = tw_cairo_write_pdf (pages, 2, &about, &error);

  g_assert_no_error (error);
  return pdf;
}

/* How often a line with this offset stands in the streams of the PDF, in mm to 0.002 (cairo keeps 1/256 pt).
 */
static guint
count_lines (const char *qdf, double dx_mm, double dy_mm)
{
  g_autoptr (GRegex) regex
      = g_regex_new ("(-?[\\d.]+) (-?[\\d.]+) m (-?[\\d.]+) (-?[\\d.]+) l S", G_REGEX_RAW, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  guint count = 0;

  for (g_regex_match (regex, qdf, 0, &match); g_match_info_matches (match); g_match_info_next (match, NULL)) {
    double v[4];

    for (guint i = 0; i < 4; i++) {
      g_autofree char *text = g_match_info_fetch (match, i + 1);

      v[i] = g_ascii_strtod (text, NULL) * 25.4 / 72;
    }
    count += fabs (fabs (v[2] - v[0]) - dx_mm) < 0.002 && fabs (fabs (v[3] - v[1]) - dy_mm) < 0.002;
  }
  return count;
}

/* Points, 72 to the inch of 25.4 mm: A4 across is 841.890 × 595.276, A3 across 1190.551 × 841.890. */
static void
test_pdf_lengths (void)
{
  g_autoptr (GBytes) pdf = known_pdf ();
  g_autofree char *qdf = printed_about (
      pdf, (const char *[]){ "qpdf", "--qdf", "--object-streams=disable", "FILE", "-", NULL });

  if (qdf == NULL)
    return;
  g_assert_true (
      g_regex_match_simple ("MediaBox \\[\\s+0\\s+0\\s+841\\.8897\\d*\\s+595\\.275", qdf, G_REGEX_RAW, 0));
  g_assert_true (
      g_regex_match_simple ("MediaBox \\[\\s+0\\s+0\\s+1190\\.55\\d*\\s+841\\.88", qdf, G_REGEX_RAW, 0));
  g_assert_cmpuint (count_lines (qdf, 100, 0), ==, 2); /* once on each page */
  g_assert_cmpuint (count_lines (qdf, 60.96, 25.4), ==, 2);
}

static void
test_pdf_words (void)
{
  g_autoptr (GBytes) pdf = known_pdf ();
  g_autofree char *text = printed_about (pdf, (const char *[]){ "pdftotext", "-l", "1", "FILE", "-", NULL });

  if (text == NULL)
    return;
  g_assert_nonnull (strstr (text, words));
  g_assert_nonnull (strstr (text, "upright <&>"));
}

static void
test_pdf_fonts (void)
{
  g_autoptr (GBytes) pdf = known_pdf ();
  g_autofree char *text = printed_about (pdf, (const char *[]){ "pdffonts", "FILE", NULL });

  if (text == NULL)
    return;
  g_assert_nonnull (strstr (text, " yes yes")); /* embedded, a subset */
  g_assert_null (strstr (text, " no "));
}

static void
test_pdf_about (void)
{
  g_autoptr (GBytes) pdf = known_pdf ();
  g_autofree char *text = printed_about (pdf, (const char *[]){ "pdfinfo", "-isodates", "FILE", NULL });

  if (text == NULL)
    return;
  g_assert_nonnull (strstr (text, "A title & more"));
  g_assert_nonnull (strstr (text, "2026-03-01T00:00:00Z"));
  g_assert_nonnull (strstr (text, "Pages:           2"));
}

static void
test_same_bytes (void)
{
  g_autoptr (GBytes) pdf = known_pdf (), pdf_again = known_pdf ();
  g_autoptr (TwInk) ink = known_ink ();
  const TwLook look = tw_look_paper (FALSE);
  const TwPage page = { 297, 210, ink, &look };
  g_autoptr (GBytes) svg = tw_svg_write (&page, &about), svg_again = tw_svg_write (&page, &about);
  g_autoptr (GBytes) png = tw_cairo_write_png (&page, 4, NULL),
                     png_again = tw_cairo_write_png (&page, 4, NULL);

  g_assert_true (g_bytes_equal (pdf, pdf_again));
  g_assert_true (g_bytes_equal (svg, svg_again));
  g_assert_true (g_bytes_equal (png, png_again));
}

static void
test_png (void)
{
  g_autoptr (TwInk) ink = known_ink ();
  const TwLook look = tw_look_paper (FALSE);
  const TwPage page = { 297, 210, ink, &look }, huge = { 1189, 841, ink, &look };
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) png = tw_cairo_write_png (&page, 10, NULL);
  const guint8 *data = g_bytes_get_data (png, NULL);

  /* PNG's own header: width and height, most significant byte first, from byte 16 (ISO/IEC 15948) */
  g_assert_cmpuint (data[18] << 8 | data[19], ==, 2970);
  g_assert_cmpuint (data[22] << 8 | data[23], ==, 2100);
  g_assert_null (tw_cairo_write_png (&huge, 40, &error));
  g_assert_nonnull (error);
}

/* --- SVG --------------------------------------------------------------------------------------------------
 */

static char *
known_svg (void)
{
  g_autoptr (TwInk) ink = known_ink ();
  const TwLook look = tw_look_paper (FALSE);
  const TwPage page = { 297, 210, ink, &look };
  g_autoptr (GBytes) svg = tw_svg_write (&page, &about);

  return g_strndup (g_bytes_get_data (svg, NULL), g_bytes_get_size (svg));
}

/* What a strict XML parser finds. */
typedef struct {
  guint n_groups, n_texts, n_elements;
  GString *text;
} Seen;

static void
start_cb (GMarkupParseContext *context,
          const char *name,
          const char **names,
          const char **values,
          gpointer data,
          GError **error)
{
  Seen *seen = data;

  seen->n_elements++;
  seen->n_groups += g_str_equal (name, "g");
  seen->n_texts += g_str_equal (name, "text");
}

static void
text_cb (GMarkupParseContext *context, const char *text, gsize length, gpointer data, GError **error)
{
  g_string_append_len (((Seen *)data)->text, text, length);
}

static void
test_svg_parses (void)
{
  g_autofree char *svg = known_svg ();
  const GMarkupParser parser = { .start_element = start_cb, .text = text_cb };
  Seen seen = { .text = g_string_new (NULL) };
  g_autoptr (GMarkupParseContext) context = g_markup_parse_context_new (&parser, 0, &seen, NULL);
  GError *error = NULL;

  g_markup_parse_context_parse (context, svg, -1, &error);
  g_assert_no_error (error);
  g_markup_parse_context_end_parse (context, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (seen.n_groups, ==, 2); /* part and cut, each once */
  g_assert_cmpuint (seen.n_texts, ==, 2);
  g_assert_nonnull (strstr (seen.text->str, words));
  g_assert_nonnull (strstr (seen.text->str, "upright <&>"));
  g_assert_nonnull (strstr (seen.text->str, "A title & more"));
  g_string_free (seen.text, TRUE);
}

/* One user unit is a millimetre; y counts from the top: 210 − 50 = 160. */
static void
test_svg_lengths (void)
{
  g_autofree char *svg = known_svg ();

  g_assert_nonnull (strstr (svg, "width=\"297mm\" height=\"210mm\" viewBox=\"0 0 297 210\""));
  g_assert_nonnull (strstr (svg, "d=\"M20 160L120 160\""));
  g_assert_nonnull (strstr (svg, "d=\"M20 150L80.96 124.6\""));
  g_assert_nonnull (strstr (svg, "d=\"M130 170L180.8 170L180.8 144.6L130 144.6Z\""));
  /* counter-clockwise on paper is sweep 0 where y runs down */
  g_assert_nonnull (strstr (svg, "d=\"M120 60A20 20 0 0 0 80 60A20 20 0 0 0 120 60Z\""));
  g_assert_nonnull (strstr (svg, "<g id=\"part\">"));
  g_assert_nonnull (strstr (svg, "<g id=\"cut\">"));
  g_assert_nonnull (strstr (svg, "stroke-width=\"0.25\""));
  g_assert_null (strstr (svg, "<style"));
  g_assert_null (strstr (svg, "scale("));
}

/* --- letters ----------------------------------------------------------------------------------------------
 */

/* Letters stay in the box that was measured for them (with the room that the proof keeps round it), at any
 * size. */
static void
test_letters (void)
{
  static const char *const texts[]
      = { "100", "24 1/2", "Ø31.8", "gate (3)", "Hydrogen, Q", "7", "[1 15/16]", "R4.5" };
  g_autoptr (TwLetters) letters = tw_letters_new (TW_LETTERS_SHEET_FONT);
  TwMeasure measure = tw_letters_measure (letters);
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_ALPHA, NULL);
  double wide = tw_measure_width (&measure, "610 mm", 35);

  g_assert_cmpfloat_with_epsilon (tw_measure_width (&measure, "610 mm", 3.5) * 10, wide, 0.01);
  cairo_surface_destroy (surface);
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++) {
    double x, y, width, height, room = tw_measure_width (&measure, texts[i], 3.5);
    cairo_t *cr;

    surface = cairo_recording_surface_create (CAIRO_CONTENT_ALPHA, NULL);
    cr = cairo_create (surface);
    cairo_move_to (cr, 0, 0);
    tw_letters_show (letters, cr, texts[i], 3.5, 0);
    cairo_destroy (cr);
    cairo_recording_surface_ink_extents (surface, &x, &y, &width, &height);
    /* extents are whole units: one unit of slack at each side */
    g_assert_cmpfloat (x, >=, -1.01);
    g_assert_cmpfloat (x + width, <=, room + 1.5);
    g_assert_cmpfloat (-y, <=, 3.5 + 1.5);
    g_assert_cmpfloat (y + height, <=, tw_measure_down (texts[i]) * 3.5 + 1.5);
    cairo_surface_destroy (surface);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheets/writers/pdf-lengths", test_pdf_lengths);
  g_test_add_func ("/sheets/writers/pdf-words", test_pdf_words);
  g_test_add_func ("/sheets/writers/pdf-fonts", test_pdf_fonts);
  g_test_add_func ("/sheets/writers/pdf-about", test_pdf_about);
  g_test_add_func ("/sheets/writers/same-bytes", test_same_bytes);
  g_test_add_func ("/sheets/writers/png", test_png);
  g_test_add_func ("/sheets/writers/svg-parses", test_svg_parses);
  g_test_add_func ("/sheets/writers/svg-lengths", test_svg_lengths);
  g_test_add_func ("/sheets/writers/letters", test_letters);
  return g_test_run ();
}
