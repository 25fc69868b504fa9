/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/answer.h"
#include "base/error.h"
#include "cli/verbs.h"
#include "draw/picture.h"
#include "draw/views.h"
#include "job/change.h"
#include "job/read.h"
#include "job/write.h"
#include "sheets/letters.h"
#include "sheets/to-cairo.h"
#include "sheets/to-svg.h"
#include "sheets/view-page.h"

#include <stdio.h>

/* That of a card is drawn as in the window: pixels of 1/96 inch, so many across. */
#define CARD_WIDTH_PX 292.0
#define PIXEL_MM (25.4 / 96)

/* A small picture for the file in a list: without names, of the core and what is fixed to it. */
#define SMALL_EDGE 0.03   /* dimensionless: of its longer side */
#define SMALL_PENS_PX 160 /* in a smaller one the lines get thinner */
#define SMALL_LEAST_PX 16
#define SMALL_MOST_PX 2048

static const char *const views[TW_N_VIEWS] = { "face", "front", "side", "plan" };

typedef struct {
  TwView view;
  TwId core;
  const char *card; /* NULL: a view */
  int width_px;
  int size_px; /* of a small picture, its longer side; 0: another is wanted */
  gboolean dark;
} Wish;

static const char *
translate (const char *words)
{
  return words[0] != '\0' ? _ (words) : words;
}

/* The view on a page as tall as it needs. FALSE when there is nothing to be seen. */
static gboolean
lay_out (const TwAnswer *answer,
         const Wish *wish,
         const TwLook *look,
         const TwMeasure *measure,
         TwInk *ink,
         TwPage *page)
{
  g_autoptr (TwGeos) geos = tw_geos_new ();
  const TwViewSource source
      = { tw_answer_placement (answer), tw_answer_routes (answer), tw_answer_passes (answer), geos };
  const TwViewManner manner
      = { .view = wish->view, .core = wish->core, .look = look, .measure = measure, .translate = translate };

  return tw_view_page_lay (&source, &manner, ink, page);
}

/* What is drawn small: the face without bay and hoses, of other views all there is. */
static TwViewDrawing *
draw_small (const TwViewSource *source,
            const Wish *wish,
            const TwLook *look,
            const TwMeasure *measure,
            double scale)
{
  const TwViewFlags face = TW_VIEW_NO_BAY | TW_VIEW_NO_HOSES | TW_VIEW_NO_WAYS;
  const TwViewManner manner = { .view = wish->view,
                                .core = wish->core,
                                .scale = scale,
                                .flags = TW_VIEW_NO_NAMES | (wish->view == TW_VIEW_FACE ? face : 0),
                                .look = look,
                                .measure = measure,
                                .translate = translate };

  return tw_view_draw (source, &manner);
}

/* A page whose longer side is that many pixels. FALSE when there is nothing to be seen. */
static gboolean
lay_out_small (const TwAnswer *answer,
               const Wish *wish,
               const TwLook *look,
               const TwMeasure *measure,
               TwInk *ink,
               TwPage *page)
{
  g_autoptr (TwGeos) geos = tw_geos_new ();
  const TwViewSource source
      = { tw_answer_placement (answer), tw_answer_routes (answer), tw_answer_passes (answer), geos };
  g_autoptr (TwViewDrawing) trial = draw_small (&source, wish, look, measure, 0.2), drawing = NULL;
  double side_mm = MAX (wish->size_px, SMALL_PENS_PX) * PIXEL_MM, edge_mm = SMALL_EDGE * side_mm;
  double width, height, scale;

  if (tw_box_is_empty (trial->all))
    return FALSE;
  width = MAX (trial->all.x1_mm - trial->all.x0_mm, 1);
  height = MAX (trial->all.y1_mm - trial->all.y0_mm, 1);
  scale = (side_mm - 2 * edge_mm) / MAX (width, height);
  drawing = draw_small (&source, wish, look, measure, scale);
  page->width_mm = width > height ? side_mm : width * scale + 2 * edge_mm;
  page->height_mm = width > height ? height * scale + 2 * edge_mm : side_mm;
  tw_ink_append_scaled (ink, drawing->ink, scale,
                        (TwPoint){ edge_mm - trial->all.x0_mm * scale, edge_mm - trial->all.y0_mm * scale });
  page->ink = tw_ink_finish (ink);
  return TRUE;
}

/* The wanted view, else the first in which there is something. */
static gboolean
lay_out_any_small (const TwAnswer *answer,
                   const Wish *wish,
                   const TwLook *look,
                   const TwMeasure *measure,
                   TwInk *ink,
                   TwPage *page)
{
  Wish other = *wish;

  if (lay_out_small (answer, wish, look, measure, ink, page))
    return TRUE;
  for (other.view = 0; other.view < TW_N_VIEWS; other.view++)
    if (lay_out_small (answer, &other, look, measure, ink, page))
      return TRUE;
  return FALSE;
}

/* The picture of a card on a page of its size. FALSE when there is nothing to be seen. */
static gboolean
lay_out_card (const TwAnswer *answer,
              const Wish *wish,
              const TwUnitStyle *style,
              TwLetters *letters,
              TwInk *ink,
              TwPage *page)
{
  TwLook look = tw_look_screen (wish->dark ? TW_LOOK_DARK : TW_LOOK_LIGHT, FALSE);
  TwMeasure measure = tw_letters_measure (letters);
  const TwPictureManner manner = { CARD_WIDTH_PX, &look, &measure, style, translate };
  g_autoptr (TwInk) drawn = tw_picture_draw (wish->card, answer, &manner);

  if (drawn == NULL)
    return FALSE;
  tw_ink_append_scaled (ink, drawn, PIXEL_MM, (TwPoint){ 0, 0 });
  page->width_mm = CARD_WIDTH_PX * PIXEL_MM;
  page->height_mm = TW_PICTURE_HEIGHT_PX * PIXEL_MM;
  page->ink = tw_ink_finish (ink);
  return TRUE;
}

static TwCliStatus
write_picture (const TwPage *page, const Wish *wish, const char *output)
{
  const TwPageAbout about = { NULL };
  g_autoptr (GBytes) bytes = NULL;
  GError *error = NULL;
  gsize length;
  const char *data;

  if (g_str_has_suffix (output, ".svg"))
    bytes = tw_svg_write (page, &about);
  else
    bytes = tw_cairo_write_png (page,
                                wish->size_px > 0 ? wish->size_px / MAX (page->width_mm, page->height_mm)
                                                  : wish->width_px / page->width_mm,
                                &error);
  if (bytes == NULL)
    return tw_cli_fail (error);
  data = g_bytes_get_data (bytes, &length);
  if (g_str_equal (output, "-")) {
    gboolean ok = fwrite (data, 1, length, stdout) == length && fflush (stdout) == 0;

    if (!ok)
      g_printerr (_ ("standard output cannot be written\n"));
    return ok ? TW_CLI_OK : TW_CLI_FAILED;
  }
  return tw_write_file (output, data, length, &error) ? TW_CLI_OK : tw_cli_fail (error);
}

/* Paper-like colours for a light picture, those of the dark screen for a dark one; pens and letters of a
 * sheet. */
static TwLook
look_of (const Wish *wish)
{
  TwLook look = tw_look_paper (FALSE),
         screen = tw_look_screen (wish->dark ? TW_LOOK_DARK : TW_LOOK_LIGHT, FALSE);

  if (wish->card != NULL)
    return tw_look_scaled (&screen, PIXEL_MM);
  for (guint i = 0; i < TW_INK_N_TINTS; i++)
    look.colours[i] = screen.colours[i];
  look.halo = screen.halo;
  return look;
}

static TwCliStatus
make (const TwJob *job, const TwCatalogue *catalogue, const Wish *wish, const char *output)
{
  g_autoptr (TwAnswer) answer = tw_answer_new (job, catalogue, NULL);
  g_autoptr (TwLetters) letters = tw_letters_new (TW_LETTERS_SHEET_FONT);
  TwMeasure measure = tw_letters_measure (letters);
  TwLook look = look_of (wish);
  g_autoptr (TwInk) ink = tw_ink_new ();
  TwUnitStyle style = tw_job_unit_style (job);
  TwPage page = { .look = &look };

  if (!tw_id_is_none (wish->core) && tw_placement_core (tw_answer_placement (answer), wish->core) == NULL) {
    g_printerr (_ ("there is no core \"%s\" that has a place\n"), wish->core.text);
    return TW_CLI_FAILED;
  }
  if (wish->card != NULL && !lay_out_card (answer, wish, &style, letters, ink, &page)) {
    g_printerr (_ ("the drawing has nothing of what this card would show\n"));
    return TW_CLI_FAILED;
  }
  if (wish->card == NULL
      && !(wish->size_px > 0 ? lay_out_any_small : lay_out) (answer, wish, &look, &measure, ink, &page)) {
    g_printerr (_ ("there is nothing to be seen in this view\n"));
    return TW_CLI_FAILED;
  }
  return write_picture (&page, wish, output);
}

static gboolean
find_wish (Wish *wish, const char *view, const char *core)
{
  wish->view = TW_VIEW_FACE;
  for (guint i = 0; view != NULL && i <= TW_N_VIEWS; i++) {
    if (i == TW_N_VIEWS)
      return tw_cli_usage ("picture", _ ("--view is face, front, side or plan.")) == TW_CLI_OK;
    wish->view = i;
    if (g_str_equal (views[i], view))
      break;
  }
  if (core != NULL && !tw_id_from_text (core, &wish->core))
    return tw_cli_usage ("picture", _ ("--core is the id of a core.")) == TW_CLI_OK;
  if (wish->card != NULL && tw_picture_rooms (wish->card) == 0)
    return tw_cli_usage ("picture", _ ("--card is frontal, coverage, passes, hoses or fit.")) == TW_CLI_OK;
  if (wish->card != NULL && (view != NULL || core != NULL))
    return tw_cli_usage ("picture", _ ("--card stands without --view and --core.")) == TW_CLI_OK;
  if (wish->size_px != 0 && (wish->size_px < SMALL_LEAST_PX || wish->size_px > SMALL_MOST_PX))
    return tw_cli_usage ("picture", _ ("--size is 16 to 2048.")) == TW_CLI_OK;
  if (wish->size_px != 0 && wish->card != NULL)
    return tw_cli_usage ("picture", _ ("--size is of a view, not of a card.")) == TW_CLI_OK;
  if (wish->width_px < 100 || wish->width_px > 8000)
    return tw_cli_usage ("picture", _ ("--width is 100 to 8000.")) == TW_CLI_OK;
  return TRUE;
}

TwCliStatus
tw_cli_picture (int argc, char **argv)
{
  Wish wish = { .width_px = 1400 };
  g_autofree char *view = NULL, *core = NULL, *card = NULL, *output = NULL;
  const GOptionEntry entries[] = {
    { "view", 'v', 0, G_OPTION_ARG_STRING, &view, N_ ("face, front, side or plan; face if not said"),
      N_ ("VIEW") },
    { "core", 0, 0, G_OPTION_ARG_STRING, &core, N_ ("whose face; the first core's if not said"), N_ ("ID") },
    { "card", 'c', 0, G_OPTION_ARG_STRING, &card,
      N_ ("picture of a card instead: frontal, coverage, passes, hoses or fit"), N_ ("CARD") },
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &output,
      N_ ("FILE.png or FILE.svg; - is standard output, as PNG"), N_ ("FILE") },
    { "width", 'w', 0, G_OPTION_ARG_INT, &wish.width_px, N_ ("of a PNG, in pixels; 1400 if not said"),
      N_ ("PIXELS") },
    { "size", 's', 0, G_OPTION_ARG_INT, &wish.size_px,
      N_ ("small, without names, for a list of files: its longer side"), N_ ("PIXELS") },
    { "dark", 0, 0, G_OPTION_ARG_NONE, &wish.dark, N_ ("light lines on dark"), NULL },
    { NULL },
  };
  g_autoptr (TwCatalogue) catalogue = NULL;
  g_autoptr (TwJob) job = NULL;
  GError *error = NULL;
  const char *path;

  if (!tw_cli_options ("picture", entries, &argc, &argv))
    return TW_CLI_USAGE;
  wish.card = card;
  if (argc == 3 && output == NULL)
    output = g_strdup (argv[--argc]);
  if ((path = tw_cli_one_file ("picture", argc, argv)) == NULL || !find_wish (&wish, view, core))
    return TW_CLI_USAGE;
  if (output == NULL)
    return tw_cli_usage ("picture", _ ("--output is wanted."));
  /* The desktop gives a name of its own to a small one. */
  if (wish.size_px == 0 && !g_str_equal (output, "-") && !g_str_has_suffix (output, ".png")
      && !g_str_has_suffix (output, ".svg"))
    return tw_cli_usage ("picture", _ ("--output is FILE.png, FILE.svg or -."));
  if (!tw_cli_spares (output, path))
    return TW_CLI_FAILED;
  job = tw_job_read_file (path, &error);
  if (job == NULL)
    return tw_cli_fail (error);
  catalogue = tw_cli_catalogue ();
  return catalogue != NULL ? make (job, catalogue, &wish, output) : TW_CLI_FAILED;
}
