/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/picture-private.h"

static gboolean
has_face (const TwAnswer *answer)
{
  guint n;

  tw_frontal_faces (tw_answer_frontal (answer), &n);
  return n > 0;
}

static gboolean
has_airway (const TwAnswer *answer)
{
  guint n;
  const TwFaceCover *faces = tw_coverage_faces (tw_answer_coverage (answer), &n);

  for (guint i = 0; i < n; i++)
    if (faces[i].n_fans + faces[i].n_shrouds > 0)
      return TRUE;
  return FALSE;
}

static gboolean
has_tubes (const TwAnswer *answer)
{
  const TwTubes *tubes = tw_answer_tubes (answer);

  for (guint i = 0; i < tw_tubes_n_grids (tubes); i++)
    if (tw_tubes_grid (tubes, i)->n_tubes > 0)
      return TRUE;
  return FALSE;
}

static gboolean
has_runs (const TwAnswer *answer)
{
  return tw_routes_count (tw_answer_routes (answer)) > 0;
}

static gboolean
has_pair (const TwAnswer *answer)
{
  return tw_clearance_nearest (tw_answer_clearance (answer)) != NULL;
}

/* Pictures by card, and the rooms that they are drawn from. */
static const struct {
  const char *card;
  void (*draw) (const TwPictureHand *hand);
  gboolean (*shows) (const TwAnswer *answer);
  TwRooms rooms;
} pictures[] = {
  { "frontal", tw_picture_frontal, has_face, TW_ROOM_FRONTAL },
  { "coverage", tw_picture_coverage, has_airway, TW_ROOM_COVERAGE },
  { "passes", tw_picture_passes, has_tubes, TW_ROOM_PASSES | TW_ROOM_TUBES },
  { "hoses", tw_picture_hoses, has_runs, TW_ROOM_ROUTES },
  { "fit", tw_picture_fit, has_pair, TW_ROOM_CLEARANCE },
};

TwRooms
tw_picture_rooms (const char *card)
{
  for (guint i = 0; i < G_N_ELEMENTS (pictures); i++)
    if (g_str_equal (pictures[i].card, card))
      return pictures[i].rooms;
  return 0;
}

gboolean
tw_picture_shows (const char *card, const TwAnswer *answer)
{
  for (guint i = 0; i < G_N_ELEMENTS (pictures); i++)
    if (g_str_equal (pictures[i].card, card))
      return pictures[i].shows (answer);
  return FALSE;
}

TwInk *
tw_picture_draw (const char *card, const TwAnswer *answer, const TwPictureManner *manner)
{
  TwBox all = { 0, 0, manner->width_px, TW_PICTURE_HEIGHT_PX };
  TwPictureHand hand = { answer, manner, tw_box_grow (all, -TW_PICTURE_EDGE_PX), NULL };

  g_return_val_if_fail (manner->width_px >= TW_PICTURE_LEAST_WIDTH_PX, NULL);

  if (!tw_picture_shows (card, answer))
    return NULL;
  hand.ink = tw_ink_new ();
  for (guint i = 0; i < G_N_ELEMENTS (pictures); i++)
    if (g_str_equal (pictures[i].card, card))
      pictures[i].draw (&hand);
  return tw_ink_finish (hand.ink);
}

const char *
tw_picture_words (const TwPictureHand *hand, const char *words)
{
  return hand->manner->translate != NULL ? hand->manner->translate (words) : words;
}

const char *
tw_picture_name (const TwPictureHand *hand, TwId part)
{
  const TwPart *found = tw_drawing_find (tw_answer_drawing (hand->answer), part);

  return found != NULL ? tw_part_name (found) : "–";
}

char *
tw_picture_length (const TwPictureHand *hand, double length_mm)
{
  TwUnitStyle style = *hand->manner->style;

  style.fractions = FALSE;
  return tw_units_format (TW_QUANTITY_LENGTH, &style, length_mm, style.inches ? 2 : 1);
}

TwInkStyle
tw_picture_style (TwInkPen pen, TwInkTint tint, TwId part)
{
  return (TwInkStyle){ pen, tint, TW_PICTURE_LAYER, part };
}

double
tw_picture_letter_px (const TwPictureHand *hand)
{
  return hand->manner->look->heights[TW_INK_SIZE_SMALL];
}

double
tw_picture_text_px (const TwPictureHand *hand, const char *text)
{
  return tw_measure_width (hand->manner->measure, text, tw_picture_letter_px (hand));
}

void
tw_picture_write (const TwPictureHand *hand,
                  TwPoint at,
                  TwInkAcross across,
                  const TwInkStyle *style,
                  const char *text)
{
  const TwInkPlace place = { at, TW_INK_SIZE_SMALL, across, TW_INK_MIDDLE, FALSE };

  tw_ink_text (hand->ink, style, &place, text);
}

void
tw_picture_write_fit (const TwPictureHand *hand,
                      TwPoint at,
                      double most_px,
                      const TwInkStyle *style,
                      const char *text)
{
  g_autofree char *fitting
      = tw_measure_fit (hand->manner->measure, text, tw_picture_letter_px (hand), MAX (most_px, 0));

  if (tw_picture_text_px (hand, fitting) <= most_px)
    tw_picture_write (hand, at, TW_INK_LEFT, style, fitting);
}

void
tw_picture_tone (const TwPictureHand *hand, const TwBox *box, const TwInkStyle *style, double share)
{
  TwInkStyle filled = *style;
  TwInkCorner corners[4];

  tw_ink_box_corners (box, corners);
  if (share > 0) {
    tw_ink_tone (hand->ink, style, corners, G_N_ELEMENTS (corners), share);
    return;
  }
  filled.tint = TW_INK_TINT_PAPER;
  tw_ink_fill (hand->ink, &filled, corners, G_N_ELEMENTS (corners));
}

void
tw_picture_cross (const TwPictureHand *hand, const TwBox *box, const TwInkStyle *style)
{
  tw_ink_line (hand->ink, style, (TwPoint){ box->x0_mm, box->y0_mm }, (TwPoint){ box->x1_mm, box->y1_mm });
  tw_ink_line (hand->ink, style, (TwPoint){ box->x0_mm, box->y1_mm }, (TwPoint){ box->x1_mm, box->y0_mm });
}
