/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sheets of a job against raw cairo: laying them out and writing them as PDF, and writing alone, each as a
 * ratio to cairo calls that put the same lines, fills and texts into a PDF without asking anything.
 * `bench-sheets FILE…`
 */
#include "job/read.h"
#include "sheets/letters.h"
#include "sheets/sheet.h"
#include "sheets/to-cairo.h"

#include <cairo-pdf.h>
#include <stdlib.h>
#include <string.h>

#define ROUNDS 9
#define POINTS_A_MM (72 / 25.4)

static int
by_value (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;

  return x < y ? -1 : x > y;
}

static double
median (double *values)
{
  qsort (values, ROUNDS, sizeof *values, by_value);
  return values[ROUNDS / 2];
}

static cairo_status_t
swallow (void *closure, const unsigned char *data, unsigned int length)
{
  return CAIRO_STATUS_SUCCESS;
}

static void
raw_item (cairo_t *cr, const TwInkItem *item)
{
  if (item->kind == TW_INK_TEXT) {
    cairo_move_to (cr, item->place.at.x_mm, item->place.at.y_mm);
    cairo_show_text (cr, item->text);
    return;
  }
  for (guint i = 0; i < item->n_corners; i++) {
    if (i == 0 || item->corners[i].start)
      cairo_move_to (cr, item->corners[i].at.x_mm, item->corners[i].at.y_mm);
    else
      cairo_line_to (cr, item->corners[i].at.x_mm, item->corners[i].at.y_mm);
  }
  if (item->kind == TW_INK_FILL || item->kind == TW_INK_TONE)
    cairo_fill (cr);
  else
    cairo_stroke (cr);
}

/* Every line, fill and text of the pages, with one pen and one font. */
static void
write_raw (const TwPage *pages, guint n)
{
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (swallow, NULL, 100, 100);

  for (guint p = 0; p < n; p++) {
    cairo_t *cr;

    cairo_pdf_surface_set_size (surface, pages[p].width_mm * POINTS_A_MM, pages[p].height_mm * POINTS_A_MM);
    cr = cairo_create (surface);
    cairo_scale (cr, POINTS_A_MM, POINTS_A_MM);
    cairo_set_line_width (cr, 0.25);
    cairo_set_font_size (cr, 3.5);
    for (guint i = 0; i < tw_ink_count (pages[p].ink); i++)
      raw_item (cr, tw_ink_get (pages[p].ink, i));
    cairo_show_page (cr);
    cairo_destroy (cr);
  }
  cairo_surface_finish (surface);
  cairo_surface_destroy (surface);
}

static void
bench (const char *path, const TwCatalogue *catalogue)
{
  double whole[ROUNDS], writing[ROUNDS], raw[ROUNDS];
  g_autoptr (GError) error = NULL;
  g_autoptr (TwJob) job = tw_job_read_file (path, &error);
  g_autoptr (TwGeos) geos = tw_geos_new ();
  g_autoptr (TwAnswer) answer = job != NULL ? tw_answer_new (job, catalogue, geos) : NULL;
  g_autoptr (TwLetters) letters = tw_letters_new (TW_LETTERS_SHEET_FONT);
  TwMeasure measure = tw_letters_measure (letters);
  const TwSheetSource source = { .answer = answer, .geos = geos, .measure = &measure, .decimal = '.' };
  const TwPageAbout about = { .date = "2026-01-01" };
  guint n_items = 0;

  if (job == NULL)
    g_error ("%s", error->message);
  for (guint r = 0; r < ROUNDS; r++) {
    gint64 t0 = g_get_monotonic_time (), t1, t2, t3;
    g_autoptr (GPtrArray) sheets = tw_sheets_new (&source, TW_SHEET_ALL, NULL);
    g_autofree TwPage *pages = g_new (TwPage, sheets->len);
    g_autoptr (GBytes) bytes = NULL;

    n_items = 0;
    for (guint i = 0; i < sheets->len; i++) {
      pages[i] = tw_sheet_page (g_ptr_array_index (sheets, i));
      n_items += tw_ink_count (pages[i].ink);
    }
    t1 = g_get_monotonic_time ();
    bytes = tw_cairo_write_pdf (pages, sheets->len, &about, NULL);
    t2 = g_get_monotonic_time ();
    write_raw (pages, sheets->len);
    t3 = g_get_monotonic_time ();
    whole[r] = (double)(t2 - t0);
    writing[r] = (double)(t2 - t1);
    raw[r] = (double)(t3 - t2);
  }
  g_print ("%-22s %5u items  raw cairo %6.0f us  writing/raw %4.1f  layout and writing/raw %4.1f\n",
           strrchr (path, '/') + 1, n_items, median (raw), median (writing) / median (raw),
           median (whole) / median (raw));
}

int
main (int argc, char *argv[])
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TwCatalogue) catalogue = tw_catalogue_load (&error);

  if (catalogue == NULL)
    g_error ("%s", error->message);
  for (int i = 1; i < argc; i++)
    bench (argv[i], catalogue);
  return 0;
}
