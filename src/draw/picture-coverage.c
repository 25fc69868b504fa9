/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * picture-coverage.c - what of the face fans sweep, what is only boxed in, what is bare
 */
#include "draw/picture-private.h"

#include "base/error.h"

#include <math.h>

/* Shares of the tint, dimensionless. */
#define BARE_TONE 0.75
#define BOXED_TONE 0.3
#define SWEPT_TONE 0.35

/* What two fans share, and what reaches beyond the face. */
#define SHARED_RAD (G_PI / 4)
#define BEYOND_RAD (-G_PI / 4)

#define LEGEND_PX 76.0

/* Of what lies beyond a face so much is shown, as a share of its longer side; dimensionless. */
#define MOST_BEYOND 0.2

/* What the legend explains. */
typedef enum {
  SIGN_SWEPT,
  SIGN_SHARED,
  SIGN_BOXED,
  SIGN_BARE,
  SIGN_BEYOND,
  N_SIGNS,
} Sign;

static const char *const sign_words[N_SIGNS] = {
  [SIGN_SWEPT] = N_ ("swept"), [SIGN_SHARED] = N_ ("by two"), [SIGN_BOXED] = N_ ("boxed in"),
  [SIGN_BARE] = N_ ("bare"),   [SIGN_BEYOND] = N_ ("beyond"),
};

static void
fill_sign (TwInk *ink, Sign sign, const TwInkCorner *corners, guint n, TwId part)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_THIN, TW_INK_TINT_FAINT, part);

  switch (sign) {
  case SIGN_BARE:
    tw_ink_tone (ink, &style, corners, n, BARE_TONE);
    break;
  case SIGN_BOXED:
    tw_ink_tone (ink, &style, corners, n, BOXED_TONE);
    break;
  case SIGN_SWEPT:
    style.tint = TW_INK_TINT_AIR;
    tw_ink_tone (ink, &style, corners, n, SWEPT_TONE);
    break;
  case SIGN_SHARED:
  case SIGN_BEYOND:
    style.pen = TW_INK_PEN_HATCH;
    style.tint = TW_INK_TINT_INK;
    tw_ink_hatch (ink, &style, corners, n, sign == SIGN_SHARED ? SHARED_RAD : BEYOND_RAD, 1);
    break;
  case N_SIGNS:
    break;
  }
}

static void
cover (TwInk *ink, const TwInkCorner *corners, guint n, TwId part)
{
  TwInkStyle style = tw_picture_style (TW_INK_PEN_OUTLINE, TW_INK_TINT_PAPER, part);

  tw_ink_fill (ink, &style, corners, n);
}

/* Two circles that cross: the ring of what both hold. FALSE when they do not. */
static gboolean
lens_of (const TwPlacedFan *a, const TwPlacedFan *b, TwInkCorner corners[2])
{
  double ra_mm = a->swept_mm / 2, rb_mm = b->swept_mm / 2;
  double dx_mm = b->centre.x_mm - a->centre.x_mm, dy_mm = b->centre.y_mm - a->centre.y_mm;
  double between_mm = hypot (dx_mm, dy_mm), along_mm, half_mm;

  if (between_mm >= ra_mm + rb_mm || between_mm <= fabs (ra_mm - rb_mm))
    return FALSE;
  /* chord of two circles: (d² + a² − b²) / 2d from the first centre; elementary geometry */
  along_mm = (between_mm * between_mm + ra_mm * ra_mm - rb_mm * rb_mm) / (2 * between_mm);
  half_mm = sqrt (MAX (ra_mm * ra_mm - along_mm * along_mm, 0));
  if (half_mm < 0.5)
    return FALSE;
  dx_mm /= between_mm;
  dy_mm /= between_mm;
  for (guint i = 0; i < 2; i++) {
    double side_mm = i == 0 ? -half_mm : half_mm;

    corners[i] = (TwInkCorner){ { a->centre.x_mm + along_mm * dx_mm - side_mm * dy_mm,
                                  a->centre.y_mm + along_mm * dy_mm + side_mm * dx_mm },
                                i == 0 ? ra_mm - along_mm : rb_mm - (between_mm - along_mm),
                                i == 0 };
  }
  return TRUE;
}

static void
fill_circle (TwInk *ink, Sign sign, const TwPlacedFan *fan, double diameter_mm)
{
  TwInkCorner corners[2];

  tw_ink_circle_corners (fan->centre, diameter_mm / 2, corners);
  if (sign == N_SIGNS)
    cover (ink, corners, G_N_ELEMENTS (corners), fan->id);
  else
    fill_sign (ink, sign, corners, G_N_ELEMENTS (corners), fan->id);
}

/* One core's fans. */
typedef struct {
  const TwPictureHand *hand;
  const TwFaceCover *cover;
  const TwPlacedFan *fans[TW_COVERAGE_MOST_FANS];
  guint n_fans;
} Cover;

static Cover
cover_of (const TwPictureHand *hand, const TwFaceCover *face)
{
  Cover found = { hand, face, { NULL }, 0 };

  for (guint i = 0; i < face->n_fans; i++) {
    const TwPlacedFan *fan = tw_placement_fan (tw_answer_placement (hand->answer), face->fans[i].fan);

    if (fan != NULL && fan->swept_mm > 0)
      found.fans[found.n_fans++] = fan;
  }
  return found;
}

/* Discs that reach beyond the face, hatched; the face covers the rest of them. */
static void
draw_beyond (TwInk *ink, const Cover *cover)
{
  for (guint i = 0; i < cover->n_fans; i++) {
    TwInkStyle edge = tw_picture_style (TW_INK_PEN_BEHIND, TW_INK_TINT_INK, cover->fans[i]->id);

    if (cover->cover->fans[i].face_over_mm <= 0)
      continue;
    fill_circle (ink, SIGN_BEYOND, cover->fans[i], cover->fans[i]->swept_mm);
    tw_ink_circle (ink, &edge, cover->fans[i]->centre, cover->fans[i]->swept_mm / 2);
  }
}

static TwBox
common (TwBox a, TwBox b)
{
  return (TwBox){ MAX (a.x0_mm, b.x0_mm), MAX (a.y0_mm, b.y0_mm), MIN (a.x1_mm, b.x1_mm),
                  MIN (a.y1_mm, b.y1_mm) };
}

/* The face, its mouths and, over them, the discs with what they share. */
static void
draw_on_face (TwInk *ink, const Cover *cover_on, const TwPlacedCore *core)
{
  guint n;
  const TwPlacedShroud *shrouds = tw_placement_shrouds (tw_answer_placement (cover_on->hand->answer), &n);
  TwInkCorner corners[4];

  tw_ink_box_corners (&core->face, corners);
  cover (ink, corners, G_N_ELEMENTS (corners), core->id);
  fill_sign (ink, SIGN_BARE, corners, G_N_ELEMENTS (corners), core->id);
  for (guint i = 0; i < n; i++) {
    TwBox mouth = common (shrouds[i].mouth, core->face);
    TwInkStyle edge = tw_picture_style (TW_INK_PEN_BEHIND, TW_INK_TINT_INK, shrouds[i].id);

    if (!tw_id_equal (shrouds[i].core, core->id) || mouth.x1_mm <= mouth.x0_mm || mouth.y1_mm <= mouth.y0_mm)
      continue;
    tw_ink_box_corners (&mouth, corners);
    cover (ink, corners, G_N_ELEMENTS (corners), shrouds[i].id);
    fill_sign (ink, SIGN_BOXED, corners, G_N_ELEMENTS (corners), shrouds[i].id);
    tw_ink_box (ink, &edge, &mouth);
  }
  for (guint i = 0; i < cover_on->n_fans; i++)
    fill_circle (ink, N_SIGNS, cover_on->fans[i], cover_on->fans[i]->swept_mm);
  for (guint i = 0; i < cover_on->n_fans; i++)
    fill_circle (ink, SIGN_SWEPT, cover_on->fans[i], cover_on->fans[i]->swept_mm);
  for (guint i = 0; i < cover_on->n_fans; i++)
    for (guint k = i + 1; k < cover_on->n_fans; k++)
      if (lens_of (cover_on->fans[i], cover_on->fans[k], corners))
        fill_sign (ink, SIGN_SHARED, corners, 2, cover_on->fans[i]->id);
}

static void
draw_rims (TwInk *ink, const Cover *cover)
{
  for (guint i = 0; i < cover->n_fans; i++) {
    const TwPlacedFan *fan = cover->fans[i];
    TwInkStyle rim = tw_picture_style (TW_INK_PEN_THIN, TW_INK_TINT_INK, fan->id);

    tw_ink_circle (ink, &rim, fan->centre, fan->swept_mm / 2);
    if (!(fan->hub_mm > 0))
      continue;
    fill_circle (ink, N_SIGNS, fan, fan->hub_mm);
    fill_circle (ink, SIGN_BARE, fan, fan->hub_mm);
    tw_ink_circle (ink, &rim, fan->centre, fan->hub_mm / 2);
  }
}

static void
draw_face (const TwPictureFace *face, const Cover *cover)
{
  const TwPlacedCore *core = face->core;
  TwInkStyle edge = tw_picture_style (TW_INK_PEN_OUTLINE, TW_INK_TINT_INK, core->id);
  g_autoptr (TwInk) beyond = tw_ink_new ();
  g_autoptr (TwInk) inside = tw_ink_new ();
  TwPictureFace only = *face;

  draw_beyond (beyond, cover);
  tw_picture_face_append (cover->hand, face, beyond);
  only.shown = core->face;
  draw_on_face (inside, cover, core);
  draw_rims (inside, cover);
  tw_picture_face_append (cover->hand, &only, inside);
  tw_ink_box (cover->hand->ink, &edge, &face->box);
}

/* The face, and of what reaches beyond it so much as may be shown. */
static TwBox
extent_of (const TwPlacedCore *core, const Cover *cover)
{
  double most_mm = MOST_BEYOND * MAX (core->face_width_mm, core->face_height_mm);
  TwBox all = core->face, most = tw_box_grow (core->face, most_mm);

  for (guint i = 0; i < cover->n_fans; i++) {
    double radius_mm = cover->fans[i]->swept_mm / 2;
    TwPoint c = cover->fans[i]->centre;

    all = tw_box_add (
        all, (TwBox){ c.x_mm - radius_mm, c.y_mm - radius_mm, c.x_mm + radius_mm, c.y_mm + radius_mm });
  }
  return common (all, most);
}

/* Signs that the faces show. */
static guint
find_signs (const Cover *covers, guint n)
{
  guint signs = 0;

  for (guint i = 0; i < n; i++) {
    const TwFaceCover *cover = covers[i].cover;

    if (cover->swept_mm2 > 0)
      signs |= 1 << SIGN_SWEPT;
    if (cover->n_overlaps > 0)
      signs |= 1 << SIGN_SHARED;
    if (cover->unswept_mm2 > 0.5)
      signs |= 1 << SIGN_BOXED;
    if (cover->face_mm2 - cover->unswept_mm2 - cover->swept_mm2 > 0.5)
      signs |= 1 << SIGN_BARE;
    for (guint k = 0; k < cover->n_fans; k++)
      if (cover->fans[k].face_over_mm > 0)
        signs |= 1 << SIGN_BEYOND;
  }
  return signs;
}

static void
draw_legend (const TwPictureHand *hand, guint signs)
{
  TwPictureLegend legend = tw_picture_legend (hand, 0, LEGEND_PX);
  TwInkStyle style = tw_picture_style (TW_INK_PEN_THIN, TW_INK_TINT_INK, TW_ID_NONE);

  for (Sign sign = 0; sign < N_SIGNS; sign++)
    legend.n_rows += signs >> sign & 1;
  for (Sign sign = 0; sign < N_SIGNS; sign++) {
    TwInkCorner corners[4];
    TwBox box;

    if ((signs >> sign & 1) == 0)
      continue;
    box = tw_picture_legend_row (hand, &legend, &style, tw_picture_words (hand, sign_words[sign]));
    tw_ink_box_corners (&box, corners);
    fill_sign (hand->ink, sign, corners, G_N_ELEMENTS (corners), TW_ID_NONE);
    tw_ink_box (hand->ink, &style, &box);
  }
}

void
tw_picture_coverage (const TwPictureHand *hand)
{
  guint n_faces, n;
  const TwFaceCover *found = tw_coverage_faces (tw_answer_coverage (hand->answer), &n_faces);
  TwPictureFace faces[TW_PICTURE_MOST_FACES];
  Cover covers[TW_PICTURE_MOST_FACES];
  TwBox extents[TW_PICTURE_MOST_FACES], room = hand->room;
  guint n_cores;
  const TwPlacedCore *cores = tw_placement_cores (tw_answer_placement (hand->answer), &n_cores);

  n = MIN (n_faces, TW_PICTURE_MOST_FACES);
  for (guint i = 0; i < n; i++) {
    covers[i] = cover_of (hand, &found[i]);
    extents[i] = extent_of (&cores[i], &covers[i]);
  }
  room.x1_mm -= LEGEND_PX + 2 * TW_PICTURE_GAP_PX;
  tw_picture_place_faces (hand, &room, extents, faces);
  for (guint i = 0; i < n; i++)
    draw_face (&faces[i], &covers[i]);
  draw_legend (hand, find_signs (covers, n));
}
