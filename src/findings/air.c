/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The air before the face. */
#include "findings/findings-private.h"

static const char *
find_flag (TwFinder *finder)
{
  guint n;
  const TwFaceShade *faces = tw_frontal_faces (finder->known->frontal, &n);

  for (guint i = 0; i < n; i++)
    if ((faces[i].flags & finder->which) != 0)
      tw_finder_add (finder, faces[i].core);
  return NULL;
}

static const char *
find_shades (TwFinder *finder)
{
  guint n;
  const TwFaceShade *faces = tw_frontal_faces (finder->known->frontal, &n);

  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < faces[i].n_shades; k++) {
      TwFinding *finding = tw_finder_add (finder, faces[i].shades[k].part);

      tw_finding_also (finding, faces[i].core);
      finding->measured = faces[i].shades[k].shadow_mm2 / faces[i].face_mm2;
      finding->beside = faces[i].shades[k].distance_mm;
    }
  return NULL;
}

/* clang-format off */
static const TwCheckRow rows[] = {
  { { "face-turned", TW_SEVERITY_STOP, TW_ROOM_FRONTAL }, find_flag, TW_FRONTAL_TURNED },
  { { "frontal-doubtful", TW_SEVERITY_STOP, TW_ROOM_FRONTAL }, find_flag, TW_FRONTAL_TROUBLE },
  { { "no-bay", TW_SEVERITY_NOTE, TW_ROOM_FRONTAL }, find_flag, TW_FRONTAL_NO_BAY },
  { { "face-shaded", TW_SEVERITY_NOTE, TW_ROOM_FRONTAL, TW_QUANTITY_SHARE, TW_QUANTITY_LENGTH }, find_shades },
};
/* clang-format on */

const TwCheckRows tw_checks_air = { rows, G_N_ELEMENTS (rows) };
