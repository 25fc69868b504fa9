/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * picture-face.c - faces beside each other in one scale, and the legend at their right
 */
#include "draw/picture-private.h"

#define FACE_GAP_PX 8.0

static TwPoint
face_point (const TwPictureFace *face, TwPoint at)
{
  return (TwPoint){ face->shift.x_mm + at.x_mm * face->scale, face->shift.y_mm + at.y_mm * face->scale };
}

/* How wide all extents are together, and how high the highest is, mm. */
static TwPoint
sizes_of (const TwBox *extents, guint n)
{
  TwPoint sum = { 0, 0 };

  for (guint i = 0; i < n; i++) {
    sum.x_mm += extents[i].x1_mm - extents[i].x0_mm;
    sum.y_mm = MAX (sum.y_mm, extents[i].y1_mm - extents[i].y0_mm);
  }
  return sum;
}

guint
tw_picture_place_faces (const TwPictureHand *hand,
                        const TwBox *room,
                        const TwBox *extents,
                        TwPictureFace *faces)
{
  guint n_cores;
  const TwPlacedCore *cores = tw_placement_cores (tw_answer_placement (hand->answer), &n_cores);
  guint n = MIN (n_cores, TW_PICTURE_MOST_FACES);
  TwPoint sizes = sizes_of (extents, n);
  double width_px = room->x1_mm - room->x0_mm - (n > 0 ? (n - 1) * FACE_GAP_PX : 0);
  double scale = MIN (width_px / MAX (sizes.x_mm, 1), (room->y1_mm - room->y0_mm) / MAX (sizes.y_mm, 1));
  double at_px = room->x0_mm + (width_px - sizes.x_mm * scale) / 2;

  for (guint i = 0; i < n; i++) {
    TwPoint low, high;

    faces[i] = (TwPictureFace){ .core = &cores[i], .scale = scale, .shown = extents[i] };
    faces[i].shift
        = (TwPoint){ at_px - extents[i].x0_mm * scale,
                     (room->y0_mm + room->y1_mm) / 2 - (extents[i].y0_mm + extents[i].y1_mm) / 2 * scale };
    low = face_point (&faces[i], (TwPoint){ cores[i].face.x0_mm, cores[i].face.y0_mm });
    high = face_point (&faces[i], (TwPoint){ cores[i].face.x1_mm, cores[i].face.y1_mm });
    faces[i].box = (TwBox){ low.x_mm, low.y_mm, high.x_mm, high.y_mm };
    at_px += (extents[i].x1_mm - extents[i].x0_mm) * scale + FACE_GAP_PX;
  }
  return n;
}

void
tw_picture_face_append (const TwPictureHand *hand, const TwPictureFace *face, const TwInk *ink)
{
  g_autoptr (TwInk) clipped = tw_ink_new ();
  TwInkCuts cuts;

  tw_ink_append_clipped (clipped, ink, &face->shown, &cuts);
  tw_ink_append_scaled (hand->ink, clipped, face->scale, face->shift);
}

guint
tw_picture_legend_most (const TwPictureHand *hand)
{
  return (guint)((hand->room.y1_mm - hand->room.y0_mm) / TW_PICTURE_ROW_PX);
}

TwPictureLegend
tw_picture_legend (const TwPictureHand *hand, guint n_rows, double width_px)
{
  TwPictureLegend legend = { hand->room, n_rows, 0 };

  legend.room.x0_mm = legend.room.x1_mm - width_px;
  return legend;
}

TwBox
tw_picture_legend_row (const TwPictureHand *hand,
                       TwPictureLegend *legend,
                       const TwInkStyle *style,
                       const char *text)
{
  double middle_px = (legend->room.y0_mm + legend->room.y1_mm) / 2
                     + ((legend->n_rows - 1) / 2.0 - legend->nth_row) * TW_PICTURE_ROW_PX;
  double half_px = tw_picture_letter_px (hand) / 2;
  TwPoint at = { legend->room.x0_mm + TW_PICTURE_SIGN_PX + TW_PICTURE_GAP_PX, middle_px };

  tw_picture_write_fit (hand, at, legend->room.x1_mm - at.x_mm - 1, style, text);
  legend->nth_row++;
  return (TwBox){ legend->room.x0_mm, middle_px - half_px, legend->room.x0_mm + TW_PICTURE_SIGN_PX,
                  middle_px + half_px };
}
