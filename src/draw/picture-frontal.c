/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * picture-frontal.c - the face with what stands before it, numbered as the card's rows are
 */
#include "draw/picture-private.h"

#include "base/error.h"
#include "draw/views.h"

/* Shares of the tint, dimensionless: what air can reach, and what parts of our own cover. */
#define FREE_TONE 0.3
#define PART_TONE 0.55

/* Of the width of the picture, dimensionless. */
#define LEGEND_SHARE 0.42

/* How far a number may stand from what it names. */
#define REACH_PX 26.0

/* Rings of shadows with more corners than this are thinned to it: nothing of that is seen. */
#define MOST_CORNERS 64

/* Rings of an area, round ones with fewer corners. (transfer full) (element-type TwInkCorner) */
static GArray *
corners_of (const TwArea *area)
{
  GArray *corners = g_array_new (FALSE, FALSE, sizeof (TwInkCorner));

  for (guint i = 0; i < tw_area_n_rings (area); i++) {
    TwRing ring = tw_area_ring (area, i);
    guint step = ring.n_points / MOST_CORNERS + 1;

    for (guint k = 0; k < ring.n_points; k += step) {
      TwInkCorner corner = { ring.points[k], 0, k == 0 };

      g_array_append_val (corners, corner);
    }
  }
  return corners;
}

/* What takes room is hatched by its kind, as in the views; parts of the job are toned. */
static void
draw_shadow (const TwPictureHand *hand, TwInk *ink, TwId part, const TwArea *shadow)
{
  const TwPlacedVolume *volume = tw_placement_volume (tw_answer_placement (hand->answer), part);
  TwInkTint tint = volume != NULL ? TW_INK_TINT_TAKEN : TW_INK_TINT_SOFT;
  TwInkStyle style = tw_picture_style (TW_INK_PEN_OUTLINE, TW_INK_TINT_PAPER, part);
  g_autoptr (GArray) found = corners_of (shadow);
  const TwInkCorner *corners = (const TwInkCorner *)(gpointer)found->data;
  double angle_rad, spacing;

  if (found->len < 3)
    return;
  tw_ink_fill (ink, &style, corners, found->len);
  style = tw_picture_style (volume != NULL ? TW_INK_PEN_HATCH : TW_INK_PEN_THIN, tint, part);
  if (volume != NULL) {
    tw_view_hatch (volume->kind, &angle_rad, &spacing);
    tw_ink_hatch (ink, &style, corners, found->len, angle_rad, spacing);
  } else {
    tw_ink_tone (ink, &style, corners, found->len, PART_TONE);
  }
  style.pen = TW_INK_PEN_THIN;
  tw_ink_path (ink, &style, corners, found->len, TRUE);
}

static void
draw_face (const TwPictureHand *hand, const TwPictureFace *face, const TwFaceShade *shade)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_THIN, TW_INK_TINT_AIR, face->core->id);
  g_autoptr (TwInk) ink = tw_ink_new ();
  TwInkCorner corners[4];

  tw_ink_box_corners (&face->core->face, corners);
  tw_ink_tone (ink, &style, corners, G_N_ELEMENTS (corners), FREE_TONE);
  for (guint i = shade->n_shades; i > 0; i--)
    draw_shadow (hand, ink, shade->shades[i - 1].part, shade->shades[i - 1].shadow);
  tw_picture_face_append (hand, face, ink);
  style = tw_picture_style (TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, face->core->id);
  tw_ink_box (hand->ink, &style, &face->box);
}

/* The middle of what @shadow covers of the face, on the picture. */
static TwPoint
middle_of (const TwPictureFace *face, const TwArea *shadow)
{
  TwBox box = tw_area_bounds (shadow);

  return (TwPoint){ face->shift.x_mm + (box.x0_mm + box.x1_mm) / 2 * face->scale,
                    face->shift.y_mm + (box.y0_mm + box.y1_mm) / 2 * face->scale };
}

static void
write_number (const TwPictureHand *hand, TwPlace *place, TwPoint at, TwId part, const char *number)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_LEADER, TW_INK_TINT_INK, part);
  TwInkPlace stands = { .size = TW_INK_SIZE_SMALL };
  guint first = tw_ink_count (hand->ink);
  TwBox box;

  if (!tw_place_label (place, number, at, REACH_PX, TRUE, &stands))
    return;
  box = tw_measure_box (hand->manner->measure, hand->manner->look, &stands, number);
  box = tw_box_grow (box, 2);
  tw_picture_tone (hand, &box, &style, 0);
  tw_ink_text (hand->ink, &style, &stands, number);
  tw_place_take (place, hand->ink, first);
}

/* Numbers on the faces, in the order of the card's rows. */
static void
write_numbers (const TwPictureHand *hand, const TwPictureFace *faces, const TwFaceShade *shades, guint n)
{
  g_autoptr (TwPlace) place = tw_place_new (&hand->room, hand->manner->look, hand->manner->measure);
  guint number = 0;

  tw_place_take (place, hand->ink, 0);
  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < shades[i].n_shades; k++) {
      g_autofree char *text = g_strdup_printf ("%u", ++number);

      write_number (hand, place, middle_of (&faces[i], shades[i].shades[k].shadow), shades[i].shades[k].part,
                    text);
    }
}

static void
draw_legend (const TwPictureHand *hand, const TwFaceShade *shades, guint n, double width_px)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_THIN, TW_INK_TINT_INK, TW_ID_NONE);
  guint most = tw_picture_legend_most (hand), n_shades = 0, number = 0;
  TwPictureLegend legend;

  for (guint i = 0; i < n; i++)
    n_shades += shades[i].n_shades;
  legend = tw_picture_legend (hand, MIN (n_shades, most), width_px);
  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < shades[i].n_shades && number < most; k++) {
      gboolean is_rest = ++number == most && n_shades > most;
      g_autofree char *text
          = g_strdup_printf (is_rest ? "+%u" : "%u", is_rest ? n_shades - most + 1 : number);
      TwBox sign = tw_picture_legend_row (hand, &legend, &style,
                                          is_rest ? "" : tw_picture_name (hand, shades[i].shades[k].part));

      tw_picture_write (hand, (TwPoint){ sign.x0_mm, (sign.y0_mm + sign.y1_mm) / 2 }, TW_INK_LEFT, &style,
                        text);
    }
}

void
tw_picture_frontal (const TwPictureHand *hand)
{
  guint n_faces, n, n_shades = 0;
  const TwFaceShade *shades = tw_frontal_faces (tw_answer_frontal (hand->answer), &n_faces);
  TwPictureFace faces[TW_PICTURE_MOST_FACES];
  TwBox extents[TW_PICTURE_MOST_FACES], room = hand->room;
  double legend_px = LEGEND_SHARE * (room.x1_mm - room.x0_mm);
  guint n_cores;
  const TwPlacedCore *cores = tw_placement_cores (tw_answer_placement (hand->answer), &n_cores);

  n = MIN (n_faces, TW_PICTURE_MOST_FACES);
  for (guint i = 0; i < n; i++) {
    extents[i] = cores[i].face;
    n_shades += shades[i].n_shades;
  }
  if (n_shades > 0)
    room.x1_mm -= legend_px + 2 * TW_PICTURE_GAP_PX;
  tw_picture_place_faces (hand, &room, extents, faces);
  for (guint i = 0; i < n; i++)
    draw_face (hand, &faces[i], &shades[i]);
  if (n_shades == 0)
    return;
  draw_legend (hand, shades, n, legend_px);
  write_numbers (hand, faces, shades, n);
}
