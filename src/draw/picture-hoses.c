/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * picture-hoses.c - hose runs laid out straight: straights and bends in order, in one scale
 */
#include "draw/picture-private.h"

#include "base/error.h"
#include "draw/views.h"

#include <math.h>

/* Most runs that are shown: the longest. */
#define MOST_RUNS 2

/* A run, from its top: name, bar, bends; the line that counts the others. */
#define RUN_PX 37.0
#define BAR_DOWN_PX 16.5
#define BENDS_DOWN_PX 30.0
#define RADII_DOWN_PX 43.0
#define OTHERS_PX 12.0

#define BAR_PX 7.0
#define END_RADIUS_PX 8.0
#define ENGINE_SIDE_PX 7.0
#define MARK_PX 4.0

/* A bend is never narrower than this. */
#define LEAST_BEND_PX 3.0

/* Share of ink, dimensionless. */
#define BEND_TONE 0.5
#define HATCH_RAD (G_PI / 4)

/* A label moves aside in such steps, at most so many. */
#define STEP_PX 5.0
#define STEPS 5
#define MOST_LABELS 64

/* Beside the bar's longest there is room for the ends; texts keep out of it. */
#define INSET_PX (2 * END_RADIUS_PX + 1)

/* One run in the picture. */
typedef struct {
  const TwPictureHand *hand;
  const TwRoute *route;
  double top_px;
  double from_px; /* the bar */
  double to_px;
  double scale;                     /* px a millimetre */
  double taken_px[2 * MOST_LABELS]; /* from and to of the labels that stand */
  guint n_taken;
} Run;

static double
piece_mm (const TwRoutePiece *piece)
{
  return MAX (piece->length_mm, 0);
}

static double
length_mm (const TwRoute *route)
{
  double sum_mm = 0;

  for (guint i = 0; i < route->n_pieces; i++)
    sum_mm += piece_mm (&route->pieces[i]);
  return sum_mm;
}

static gboolean
is_tight (const TwRoutePiece *piece)
{
  return piece->kind == TW_ROUTE_BEND && !isnan (piece->over_least_mm) && piece->over_least_mm < 0;
}

/* --- the bar ----------------------------------------------------------------------------------------------
 */

static void
draw_bend (const Run *run, const TwRoutePiece *piece, TwBox box)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_THIN, TW_INK_TINT_INK, run->route->hose);
  double middle_px = (box.x0_mm + box.x1_mm) / 2, low_px = box.y0_mm - 1;
  const TwInkCorner mark[] = { { .at = { middle_px, low_px } },
                               { .at = { middle_px - MARK_PX, low_px - MARK_PX } },
                               { .at = { middle_px + MARK_PX, low_px - MARK_PX } } };
  TwInkCorner corners[4];

  if (box.x1_mm - box.x0_mm < LEAST_BEND_PX) {
    box.x0_mm = MAX (run->from_px, middle_px - LEAST_BEND_PX / 2);
    box.x1_mm = MIN (run->to_px, middle_px + LEAST_BEND_PX / 2);
  }
  tw_ink_box_corners (&box, corners);
  if (!is_tight (piece)) {
    tw_ink_tone (run->hand->ink, &style, corners, G_N_ELEMENTS (corners), BEND_TONE);
    return;
  }
  style.tint = TW_INK_TINT_HOT;
  tw_ink_fill (run->hand->ink, &style, corners, G_N_ELEMENTS (corners));
  tw_ink_fill (run->hand->ink, &style, mark, G_N_ELEMENTS (mark));
}

static void
draw_pieces (const Run *run)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_THIN, TW_INK_TINT_INK, run->route->hose);
  double y1_px = run->top_px - BAR_DOWN_PX + BAR_PX / 2, at_px = run->from_px;
  TwBox bar = { run->from_px, y1_px - BAR_PX, run->to_px, y1_px };

  tw_picture_tone (run->hand, &bar, &style, 0);
  for (guint i = 0; i < run->route->n_pieces; i++) {
    double width_px = piece_mm (&run->route->pieces[i]) * run->scale;

    if (run->route->pieces[i].kind == TW_ROUTE_BEND)
      draw_bend (run, &run->route->pieces[i], (TwBox){ at_px, bar.y0_mm, at_px + width_px, bar.y1_mm });
    at_px += width_px;
  }
  tw_ink_box (run->hand->ink, &style, &bar);
}

/* A port has its letter, as in the views; one of the engine is a square. */
static void
draw_end (const Run *run, TwId port, double bar_px, int side)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_THIN, TW_INK_TINT_INK, port);
  g_autofree char *letter = tw_view_port_letter (tw_answer_drawing (run->hand->answer), port);
  TwPoint at
      = { bar_px + side * (letter != NULL ? END_RADIUS_PX : ENGINE_SIDE_PX / 2), run->top_px - BAR_DOWN_PX };
  TwBox square = { at.x_mm - ENGINE_SIDE_PX / 2, at.y_mm - ENGINE_SIDE_PX / 2, at.x_mm + ENGINE_SIDE_PX / 2,
                   at.y_mm + ENGINE_SIDE_PX / 2 };
  TwInkCorner corners[4];

  if (letter == NULL) {
    tw_ink_box_corners (&square, corners);
    tw_ink_fill (run->hand->ink, &style, corners, G_N_ELEMENTS (corners));
    return;
  }
  tw_ink_circle (run->hand->ink, &style, at, END_RADIUS_PX);
  if (tw_picture_text_px (run->hand, letter) < 1.4 * END_RADIUS_PX)
    tw_picture_write (run->hand, at, TW_INK_CENTRE, &style, letter);
}

static void
draw_ends (Run *run)
{
  const TwHose *hose
      = (const TwHose *)tw_drawing_find (tw_answer_drawing (run->hand->answer), run->route->hose);

  draw_end (run, hose->from, run->from_px, -1);
  draw_end (run, hose->to, run->to_px, 1);
  run->taken_px[0] = run->from_px - INSET_PX;
  run->taken_px[1] = run->from_px - TW_PICTURE_GAP_PX;
  run->taken_px[2] = run->to_px + TW_PICTURE_GAP_PX;
  run->taken_px[3] = run->to_px + INSET_PX - TW_PICTURE_GAP_PX;
  run->n_taken = 2;
}

/* --- words ------------------------------------------------------------------------------------------------
 */

/* Name over the bar and length behind it; where the bar has no room for one of them, it joins the other. */
static void
write_name (const Run *run)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_THIN, TW_INK_TINT_INK, run->route->hose);
  const char *name = tw_picture_name (run->hand, run->route->hose);
  g_autofree char *length = tw_picture_length (run->hand, run->route->centreline_mm);
  g_autofree char *both = g_strdup_printf ("%s, %s", name, length);
  double over_px = run->to_px - run->from_px, length_px = tw_picture_text_px (run->hand, length);
  double behind_px = run->hand->room.x1_mm - 1 - run->to_px - INSET_PX;
  TwPoint over = { run->from_px, run->top_px - tw_picture_letter_px (run->hand) / 2 - 1 };
  TwPoint behind = { run->to_px + INSET_PX, run->top_px - BAR_DOWN_PX };

  if (tw_picture_text_px (run->hand, name) > over_px && behind_px > over_px) {
    tw_picture_write_fit (run->hand, behind, behind_px, &style, both);
  } else if (behind_px >= length_px) {
    tw_picture_write_fit (run->hand, over, over_px, &style, name);
    tw_picture_write (run->hand, behind, TW_INK_LEFT, &style, length);
  } else {
    tw_picture_write_fit (run->hand, over, over_px - length_px - 3 * TW_PICTURE_GAP_PX, &style, name);
    tw_picture_write (run->hand, (TwPoint){ run->to_px, over.y_mm }, TW_INK_RIGHT, &style, length);
  }
}

static gboolean
is_taken (const Run *run, double from_px, double to_px)
{
  for (guint i = 0; i < run->n_taken; i++)
    if (from_px < run->taken_px[2 * i + 1] + TW_PICTURE_GAP_PX
        && to_px > run->taken_px[2 * i] - TW_PICTURE_GAP_PX)
      return TRUE;
  return run->n_taken >= G_N_ELEMENTS (run->taken_px) / 2;
}

/* A label under @middle_px, or a little beside it where it has room; FALSE when there is none. */
static gboolean
find_room (Run *run, const char *text, double *middle_px)
{
  double half_px = tw_picture_text_px (run->hand, text) / 2;
  double low_px = run->hand->room.x0_mm + half_px + 1, high_px = run->hand->room.x1_mm - half_px - 1;

  for (int step = 0; step <= 2 * STEPS; step++) {
    double at_px = *middle_px + (step % 2 ? 1 : -1) * ((step + 1) / 2) * STEP_PX;

    at_px = CLAMP (at_px, low_px, MAX (high_px, low_px));
    if (is_taken (run, at_px - half_px, at_px + half_px))
      continue;
    run->taken_px[2 * run->n_taken] = at_px - half_px;
    run->taken_px[2 * run->n_taken + 1] = at_px + half_px;
    run->n_taken++;
    *middle_px = at_px;
    return TRUE;
  }
  return FALSE;
}

static char *
bend_text (const Run *run, const TwRoutePiece *piece)
{
  g_autofree char *angle
      = tw_units_format (TW_QUANTITY_ANGLE, run->hand->manner->style, piece->angle_rad * 180 / G_PI, 0);

  if (is_tight (piece))
    return g_strdup_printf ("%s %s", angle, tw_picture_words (run->hand, N_ ("too tight")));
  return g_steal_pointer (&angle);
}

static void
write_bend (Run *run, const TwRoutePiece *piece, double middle_px)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_THIN, is_tight (piece) ? TW_INK_TINT_HOT : TW_INK_TINT_INK,
                                       run->route->hose);
  g_autofree char *text = bend_text (run, piece);

  if (find_room (run, text, &middle_px))
    tw_picture_write (run->hand, (TwPoint){ middle_px, run->top_px - BENDS_DOWN_PX }, TW_INK_CENTRE, &style,
                      text);
}

/* Those that are too tight come first: they find room. */
static void
write_bends (Run *run)
{
  for (guint pass = 0; pass < 2; pass++) {
    double at_px = run->from_px;

    for (guint i = 0; i < run->route->n_pieces; i++) {
      const TwRoutePiece *piece = &run->route->pieces[i];
      double width_px = piece_mm (piece) * run->scale;

      if (piece->kind == TW_ROUTE_BEND && is_tight (piece) == (pass == 0))
        write_bend (run, piece, at_px + width_px / 2);
      at_px += width_px;
    }
  }
}

/* Radii under the angles, where a run stands alone; each once. */
static void
write_radii (Run *run)
{
  double at_px = run->from_px;

  run->n_taken = 2;
  for (guint i = 0; i < run->route->n_pieces; i++) {
    const TwRoutePiece *piece = &run->route->pieces[i];
    double width_px = piece_mm (piece) * run->scale, middle_px = at_px + width_px / 2;
    TwInkStyle style = tw_picture_style (TW_INK_PEN_THIN, TW_INK_TINT_INK, run->route->hose);
    g_autofree char *radius = tw_picture_length (run->hand, piece->radius_mm);
    g_autofree char *text = g_strdup_printf ("R %s", radius);

    at_px += width_px;
    if (piece->kind == TW_ROUTE_BEND && piece->radius_mm > 0 && find_room (run, text, &middle_px))
      tw_picture_write (run->hand, (TwPoint){ middle_px, run->top_px - RADII_DOWN_PX }, TW_INK_CENTRE, &style,
                        text);
  }
}

/* --- runs -------------------------------------------------------------------------------------------------
 */

static int
longest_first (gconstpointer a, gconstpointer b)
{
  const TwRoute *one = *(TwRoute *const *)a, *two = *(TwRoute *const *)b;
  double longer_mm = length_mm (two) - length_mm (one);

  return longer_mm > 0 ? 1 : longer_mm < 0 ? -1 : 0;
}

static void
draw_run (const TwPictureHand *hand, const TwRoute *route, double top_px, double most_mm, gboolean is_only)
{
  double width_px = hand->room.x1_mm - hand->room.x0_mm - 2 * INSET_PX;
  Run run = { .hand = hand, .route = route, .top_px = top_px };

  run.scale = width_px / MAX (most_mm, 1);
  run.from_px = hand->room.x0_mm + INSET_PX;
  run.to_px = run.from_px + MAX (length_mm (route) * run.scale, 2 * BAR_PX);
  write_name (&run);
  draw_pieces (&run);
  draw_ends (&run);
  write_bends (&run);
  if (is_only)
    write_radii (&run);
}

static void
count_others (const TwPictureHand *hand, guint n)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_THIN, TW_INK_TINT_INK, TW_ID_NONE);
  TwPoint at = { hand->room.x0_mm + 1, hand->room.y0_mm + OTHERS_PX / 2 };
  /* Translators: hose runs that have no room in the picture */
  g_autofree char *text = g_strdup_printf (tw_picture_words (hand, N_ ("+%u more")), n);

  tw_picture_write (hand, at, TW_INK_LEFT, &style, text);
}

void
tw_picture_hoses (const TwPictureHand *hand)
{
  const TwRoutes *routes = tw_answer_routes (hand->answer);
  guint n = tw_routes_count (routes), shown = MIN (n, MOST_RUNS);
  g_autoptr (GPtrArray) order = g_ptr_array_new ();
  double high_px = hand->room.y1_mm - hand->room.y0_mm, used_px, top_px;

  for (guint i = 0; i < n; i++)
    g_ptr_array_add (order, (gpointer)tw_routes_get (routes, i));
  g_ptr_array_sort (order, longest_first);
  used_px = n == 1 ? RADII_DOWN_PX + OTHERS_PX / 2 : shown * RUN_PX + (n > shown ? OTHERS_PX : 0);
  top_px = hand->room.y1_mm - (high_px - used_px) / 2;
  for (guint i = 0; i < shown; i++)
    draw_run (hand, g_ptr_array_index (order, i), top_px - i * RUN_PX,
              length_mm (g_ptr_array_index (order, 0)), n == 1);
  if (n > shown)
    count_others (hand, n - shown);
}
