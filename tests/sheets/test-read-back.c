/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sheets of a sample read back from what was written: lengths from the PDF and the SVG, words from the PDF.
 * Figures of the Merlin's tail are worked by hand from its section 6 of the sample's README: tanks from
 * x −412 to 407 are 819 wide, plates from y 324 to 654 are 330 long, the baffle at y 484 is 484 − 324 = 160
 * from the lower end, the inlet at y 600 is 276 and the outlet at 378 is 54 from it, the sensor at 440 is
 * 116; 16 of 31 tubes are above the baffle.
 */
#include "sheets/desk.h"
#include "sheets/to-cairo.h"
#include "sheets/to-svg.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

static const TwPageAbout about = { .title = "Read back", .date = "2026-01-01" };

static GBytes *
pdf_of (GPtrArray *sheets)
{
  g_autofree TwPage *pages = g_new (TwPage, sheets->len);
  g_autoptr (GError) error = NULL;
  GBytes *bytes;

  for (guint i = 0; i < sheets->len; i++)
    pages[i] = tw_sheet_page (g_ptr_array_index (sheets, i));
  bytes = tw_cairo_write_pdf (pages, sheets->len, &about, &error);
  g_assert_no_error (error);
  return bytes;
}

/* What a program prints about @pdf; NULL if it is not installed, which skips the test. */
static char *
printed_about (GBytes *pdf, const char *const *program)
{
  g_autofree char *path = g_build_filename (g_getenv ("G_TEST_BUILDDIR"), "sheet-read-back.pdf", NULL);
  const char *argv[12] = { 0 };
  char *out = NULL;

  g_assert_true (g_file_set_contents (path, g_bytes_get_data (pdf, NULL), g_bytes_get_size (pdf), NULL));
  for (guint n = 0; program[n] != NULL; n++)
    argv[n] = g_str_equal (program[n], "FILE") ? path : program[n];
  if (!g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_SEARCH_PATH | G_SPAWN_STDERR_TO_DEV_NULL, NULL, NULL,
                     &out, NULL, NULL, NULL))
    g_test_skip ("a reader of PDF is not installed");
  g_unlink (path);
  return out;
}

/* How many lines of that length there are among four numbers that @pattern finds, each times @unit_mm. */
static guint
count_level_lines (const char *text, const char *pattern, double unit_mm, double length_mm)
{
  g_autoptr (GRegex) regex = g_regex_new (pattern, G_REGEX_RAW, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  guint count = 0;

  for (g_regex_match (regex, text, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL)) {
    double v[4];

    for (guint i = 0; i < 4; i++) {
      g_autofree char *number = g_match_info_fetch (match, (int)i + 1);

      v[i] = g_ascii_strtod (number, NULL) * unit_mm;
    }
    count += fabs (fabs (v[2] - v[0]) - length_mm) < 0.002 && fabs (v[3] - v[1]) < 0.002;
  }
  return count;
}

typedef struct {
  const char *sample;
  double bar_mm;
} Bar;

static const Bar bars[] = { { "merlin-tail", 100 }, { "caravan-4", 4 * 25.4 } };

/* The bar that is measured on a print: 100 mm, 4 in with inches; once on each page. 72 pt are 25.4 mm. */
static void
test_bar (gconstpointer data)
{
  const Bar *bar = data;
  g_autoptr (TwJob) job = desk_sample (bar->sample);
  Desk desk = desk_open ();
  g_autoptr (GPtrArray) sheets = desk_sheets (&desk, job);
  g_autoptr (GBytes) pdf = pdf_of (sheets);
  g_autofree char *qdf = printed_about (
      pdf, (const char *[]){ "qpdf", "--qdf", "--object-streams=disable", "FILE", "-", NULL });

  for (guint i = 0; i < sheets->len; i++) {
    TwPage page = tw_sheet_page (g_ptr_array_index (sheets, i));
    g_autoptr (GBytes) svg = tw_svg_write (&page, &about);
    g_autofree char *text = g_strndup (g_bytes_get_data (svg, NULL), g_bytes_get_size (svg));
    char *group = strstr (text, "id=\"bar\""), *end;

    g_assert_nonnull (group);
    end = strstr (group, "</g>");
    g_assert_nonnull (end);
    *end = '\0';
    g_assert_cmpuint (count_level_lines (group,
                                         "M\\s*([-\\d.]+)[ ,]([-\\d.]+)\\s*L\\s*([-\\d.]+)[ ,]([-\\d.]+)", 1,
                                         bar->bar_mm),
                      ==, 1);
  }
  if (qdf != NULL)
    g_assert_cmpuint (count_level_lines (qdf, "(-?[\\d.]+) (-?[\\d.]+) m (-?[\\d.]+) (-?[\\d.]+) l S",
                                         25.4 / 72, bar->bar_mm),
                      >=, sheets->len);
  desk_close (&desk);
}

/* The page's words, runs of blanks as one. */
static char *
words_of (GBytes *pdf, const char *page)
{
  g_autofree char *text = printed_about (
      pdf, (const char *[]){ "pdftotext", "-layout", "-f", page, "-l", page, "FILE", "-", NULL });
  g_autoptr (GRegex) blanks = g_regex_new ("[ \\t]+", 0, 0, NULL);

  return text != NULL ? g_regex_replace_literal (blanks, text, -1, 0, " ", 0, NULL) : NULL;
}

static void
assert_words (const char *text, const char *const *wanted)
{
  for (guint i = 0; wanted[i] != NULL; i++)
    if (strstr (text, wanted[i]) == NULL) {
      g_test_message ("missing: %s", wanted[i]);
      g_test_fail ();
    }
}

static void
test_words (void)
{
  static const char *const arrangement[]
      = { "Merlin, tail",
          "MT-1",
          "Arrangement",
          " 1/2",
          "01234567",
          "1:5",
          "ISO 2768-c",
          "First angle",
          "819 × 330 × 161", /* z −6 … 155: 161 */
          "−352; 324; −6",   /* datum: outer face of the left plate, its lower end, air-in edge */
          "Inlet inlet stub Ø32 −30 276 0",
          "Outlet outlet stub Ø32 −30 54 0",
          "Supply Engine, water out Inlet 28 653.5",
          "Return Outlet Engine, water in 28 803.9", /* trade's own lengths */
          "not yet computed",
          NULL };
  static const char *const core[] = { "Core and tanks",
                                      " 2/2",
                                      "16 | 17 160 2 welded all round",
                                      "1–16 to the right",
                                      "17–31 to the left",
                                      "700 × 318; 48",
                                      "330 × 60 × 2",
                                      "A inlet stub Ø32 28 – air-in side 276 30 0",
                                      "F sensor ISO 6149 M14x1.5 7.5 27 air-in side 116 30 0",
                                      "Left tank 330 60 60 2 3 – 5052-H32",
                                      NULL };
  g_autoptr (TwJob) job = desk_sample ("merlin-tail");
  Desk desk = desk_open ();
  g_autoptr (GPtrArray) sheets = desk_sheets (&desk, job);
  g_autoptr (GBytes) pdf = pdf_of (sheets);
  g_autofree char *first = words_of (pdf, "1"), *second = words_of (pdf, "2");

  if (first != NULL && second != NULL) {
    assert_words (first, arrangement);
    assert_words (second, core);
  }
  desk_close (&desk);
}

/* Figures of dimensions on a page, in the order of the ink. */
static char *
figures_of (const TwSheet *sheet)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < tw_ink_count (sheet->ink); i++) {
    const TwInkItem *item = tw_ink_get (sheet->ink, i);

    if (item->kind == TW_INK_TEXT && g_str_equal (item->style.layer, "dimension"))
      g_string_append_printf (text, "%s ", item->text);
  }
  return g_strdup (text->str);
}

/* Running sizes of the header side with everything on it, then face and whole: by hand as above. Arrangement:
 * whole, bay (920 × 430 × 700) and from the bay's wall: 460 − 412 = 48, 324 − 290 = 34, 520 − 6 = 514. */
static void
test_dimensions (void)
{
  g_autoptr (TwJob) job = desk_sample ("merlin-tail");
  Desk desk = desk_open ();
  g_autoptr (GPtrArray) sheets = desk_sheets (&desk, job);
  g_autofree char *arrangement = figures_of (g_ptr_array_index (sheets, 0));
  g_autofree char *core = figures_of (g_ptr_array_index (sheets, 1));

  g_assert_cmpstr (arrangement, ==, "819 920 48 330 430 34 161 700 514 ");
  g_assert_true (g_str_has_prefix (core, "0 54 116 160 276 330 819 700 "));
  desk_close (&desk);
}

/* What no figure has room for stands in a table, never nowhere: the same job in inches in third angle. */
static void
test_manner (void)
{
  g_autoptr (TwJob) job = desk_sample ("caravan-4");
  Desk desk = desk_open ();
  g_autoptr (GPtrArray) sheets = desk_sheets (&desk, job);
  g_autoptr (GBytes) pdf = pdf_of (sheets);
  g_autofree char *text = words_of (pdf, "1");

  if (text != NULL)
    assert_words (text,
                  (const char *[]){ "Third angle", "after ASME Y14.5", "fractions ±1/32", "1:8", NULL });
  desk_close (&desk);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (bars); i++) {
    g_autofree char *path = g_strdup_printf ("/sheets/read-back/bar-%s", bars[i].sample);

    g_test_add_data_func (path, &bars[i], test_bar);
  }
  g_test_add_func ("/sheets/read-back/words", test_words);
  g_test_add_func ("/sheets/read-back/dimensions", test_dimensions);
  g_test_add_func ("/sheets/read-back/manner", test_manner);
  return g_test_run ();
}
