/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Any job that can be read, through all that is made of it: the answer, every card as text and as data, their
 * pictures, every view, every sheet and its files. Nothing stops the program, no figure is no number, no
 * place lies nowhere.
 */
#include "cards/cards.h"
#include "cards/json.h"
#include "cards/text.h"
#include "draw/picture.h"
#include "draw/views.h"
#include "job/change.h"
#include "job/read.h"
#include "sheets/sheet.h"
#include "sheets/to-cairo.h"
#include "sheets/to-svg.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* cairo 1.16 loses an array of some fonts when it finishes a PDF with names in many scripts. Our own leaks
 * there are looked for by tests/sheets. */
#ifdef __has_feature
#if __has_feature(address_sanitizer)
#include <sanitizer/lsan_interface.h>
#define LEAKS_OF_CAIRO(enable) (enable) ? __lsan_enable () : __lsan_disable ()
#endif
#endif
#ifndef LEAKS_OF_CAIRO
#define LEAKS_OF_CAIRO(enable) (void)(enable)
#endif

int LLVMFuzzerTestOneInput (const uint8_t *bytes, size_t length);

/* Larger jobs are right too, but take longer than an attack can wait. */
#define MOST_PARTS 60
#define MOST_CORES 3
#define MOST_ELEMENTS 60 /* of one list */
#define MOST_TUBES 400   /* of one core, all rows */

/* What every attack needs, opened once. */
typedef struct {
  TwCatalogue *catalogue;
  TwSources *sources;
  TwLook look;
  TwMeasure measure;
} Bench;

static const Bench *
bench (void)
{
  static Bench opened;

  if (opened.catalogue == NULL) {
    opened.catalogue = tw_catalogue_load (NULL);
    opened.sources = tw_sources_load (NULL);
    g_assert_true (opened.catalogue != NULL && opened.sources != NULL);
    opened.look = tw_look_paper (FALSE);
    opened.measure = tw_measure_fixed ();
  }
  return &opened;
}

static gboolean
is_small_part (const TwPart *part)
{
  const TwCore *core = (const TwCore *)part;

  for (guint i = 0; i < tw_kind_info (part->kind)->n_lists; i++)
    if (tw_part_list (part, i)->len > MOST_ELEMENTS)
      return FALSE;
  return part->kind != TW_KIND_CORE || core->tube_count * MAX (core->rows, 1) <= MOST_TUBES;
}

static gboolean
is_small (const TwJob *job)
{
  guint n = 0;

  for (TwKind kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++) {
    n += tw_job_count (job, kind);
    for (guint i = 0; i < tw_job_count (job, kind); i++)
      if (n > MOST_PARTS || !is_small_part (tw_job_get (job, kind, i)))
        return FALSE;
  }
  return tw_job_count (job, TW_KIND_CORE) <= MOST_CORES;
}

/* ---- texts ---- */

/* Whether @text says that a figure is no number, as a word by itself. */
static gboolean
says_no_number (const char *text)
{
  static const char *const words[] = { "nan", "inf", "infinity" };

  for (const char *c = text; *c != '\0';) {
    gsize n = 0;

    while (g_ascii_isalnum (c[n]) || (c[n] & 0x80) != 0)
      n++;
    for (guint i = 0; i < G_N_ELEMENTS (words); i++)
      if (n == strlen (words[i]) && g_ascii_strncasecmp (c, words[i], n) == 0)
        return TRUE;
    c += MAX (n, 1);
  }
  return FALSE;
}

/* @own: the job itself uses such a word. */
static void
check_text (const char *text, gboolean own)
{
  g_assert_true (g_utf8_validate (text, -1, NULL));
  g_assert_true (own || !says_no_number (text));
}

static void
check_ink (const TwInk *ink, gboolean own)
{
  for (guint i = 0; i < tw_ink_count (ink); i++) {
    const TwInkItem *item = tw_ink_get (ink, i);
    TwBox box;

    tw_ink_item_bounds (item, &box);
    g_assert_true (isfinite (box.x0_mm) && isfinite (box.y0_mm) && isfinite (box.x1_mm)
                   && isfinite (box.y1_mm));
    if (item->text != NULL)
      check_text (item->text, own);
  }
}

/* ---- all that is made of a job ---- */

static void
make_cards (const TwAnswer *answer, const TwUnitStyle *style, gboolean own)
{
  g_autoptr (GPtrArray) cards = tw_cards_new (answer, bench ()->sources, style);
  g_autofree char *text = tw_cards_text (cards, TW_TEXT_NOTES | TW_TEXT_WHERE);
  TwLook look = tw_look_screen (TW_LOOK_LIGHT, FALSE);
  const TwPictureManner manner = { 292, &look, &bench ()->measure, style, NULL };
  cJSON *tree = tw_cards_json (cards);
  g_autofree char *json = tw_json_print (tree);

  check_text (text, own);
  check_text (json, own);
  cJSON_Delete (tree);
  for (guint i = 0; i < cards->len; i++) {
    g_autoptr (TwInk) ink = tw_picture_draw (((const TwCard *)cards->pdata[i])->id, answer, &manner);

    if (ink != NULL)
      check_ink (ink, own);
  }
}

static void
make_views (const TwAnswer *answer, TwGeos *geos, gboolean own)
{
  const TwViewSource source
      = { tw_answer_placement (answer), tw_answer_routes (answer), tw_answer_passes (answer), geos };

  for (TwView view = 0; view < TW_N_VIEWS; view++) {
    const TwViewManner manner
        = { .view = view, .scale = 0.2, .look = &bench ()->look, .measure = &bench ()->measure };
    g_autoptr (TwViewDrawing) drawing = tw_view_draw (&source, &manner);

    check_ink (drawing->ink, own);
  }
}

static void
make_sheets (const TwAnswer *answer, TwGeos *geos, gboolean own)
{
  const TwPageAbout about = { .title = "attack", .date = "2026-01-01" };
  const TwSheetSource source
      = { .answer = answer, .geos = geos, .revision = "0", .measure = &bench ()->measure, .decimal = '.' };
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) sheets = tw_sheets_new (&source, TW_SHEET_ALL, &error);
  g_autofree TwPage *pages = NULL;
  g_autoptr (GBytes) pdf = NULL;

  g_assert_no_error (error);
  g_assert_cmpuint (sheets->len, >, 0);
  pages = g_new (TwPage, sheets->len);
  for (guint i = 0; i < sheets->len; i++) {
    g_autoptr (GBytes) svg = NULL;

    pages[i] = tw_sheet_page (g_ptr_array_index (sheets, i));
    check_ink (pages[i].ink, own);
    svg = tw_svg_write (&pages[i], &about);
    g_assert_cmpuint (g_bytes_get_size (svg), >, 0);
  }
  LEAKS_OF_CAIRO (FALSE);
  pdf = tw_cairo_write_pdf (pages, sheets->len, &about, &error);
  LEAKS_OF_CAIRO (TRUE);
  g_assert_no_error (error);
  g_assert_cmpuint (g_bytes_get_size (pdf), >, 0);
}

int
LLVMFuzzerTestOneInput (const uint8_t *bytes, size_t length)
{
  g_autoptr (TwTroubles) troubles = tw_troubles_new ();
  g_autoptr (TwJob) job = tw_job_read_text ((const char *)bytes, length, troubles);
  g_autofree char *text = g_strndup ((const char *)bytes, length);
  g_autoptr (TwAnswer) answer = NULL;
  g_autoptr (TwGeos) geos = NULL;
  TwUnitStyle style;
  gboolean own;

  if (job == NULL || !is_small (job))
    return -1; /* not to be kept */
  own = says_no_number (text);
  geos = tw_geos_new ();
  style = tw_job_unit_style (job);
  answer = tw_answer_new (job, bench ()->catalogue, geos);
  make_cards (answer, &style, own);
  make_views (answer, geos, own);
  make_sheets (answer, geos, own);
  return 0;
}
