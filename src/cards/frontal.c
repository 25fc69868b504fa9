/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cards/maker-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define AREA TW_QUANTITY_AREA
#define SHARE TW_QUANTITY_SHARE

static TwCardRow *
area_row (TwCardMaker *maker, const char *id, TwId core, const char *label, double area_mm2)
{
  TwCardRow *row = tw_maker_row (maker, id, core, label, tw_maker_text (maker, AREA, area_mm2));

  tw_row_figure (row, "area_mm2", AREA, area_mm2, "DEF-FACE");
  return row;
}

static TwCardRow *
share_row (TwCardMaker *maker, const char *id, TwId part, const char *label, const double figures[2])
{
  TwCardRow *row = tw_maker_row (maker, id, part, label, tw_maker_area (maker, figures[0], figures[1]));

  tw_row_figure (row, "area_mm2", AREA, figures[0], "DEF-OBSTRUCTION");
  tw_row_figure (row, "share", SHARE, figures[1], "DEF-OBSTRUCTION");
  return row;
}

/* The next number in the picture. */
static guint
next_mark (const TwCard *card)
{
  guint mark = 1;

  for (guint i = 0; i < card->rows->len; i++)
    mark = MAX (mark, ((const TwCardRow *)g_ptr_array_index (card->rows, i))->mark + 1);
  return mark;
}

/* `1 Cross tube, 11.9 %`. */
static void
picture_shade (TwCardMaker *maker, const TwCardRow *row, const TwShade *shade)
{
  g_autofree char *share = tw_maker_text (maker, SHARE, shade->alone_share);

  tw_maker_picture (maker, g_strdup_printf ("%u %s, %s", row->mark, row->label, share));
}

static void
add_shades (TwCardMaker *maker, const TwFaceShade *face, const TwCardWhere *where)
{
  for (guint i = 0; i < face->n_shades; i++) {
    const TwShade *shade = &face->shades[i];
    g_autofree char *id = g_strconcat ("shade:", face->core.text, NULL);
    g_autofree char *distance = tw_maker_text (maker, TW_QUANTITY_LENGTH, shade->distance_mm);
    g_autofree char *all = tw_maker_text (maker, AREA, shade->shadow_mm2);
    TwCardRow *row = share_row (maker, id, shade->part, tw_maker_name (maker, shade->part),
                                (double[]){ shade->alone_mm2, shade->alone_share });

    row->mark = next_mark (maker->card);
    picture_shade (maker, row, shade);
    tw_row_also (row, face->core);
    tw_row_figure (row, "shadow_mm2", AREA, shade->shadow_mm2, "DEF-OBSTRUCTION");
    tw_row_figure (row, "distance_mm", TW_QUANTITY_LENGTH, shade->distance_mm, "DEF-OBSTRUCTION");
    tw_row_where (row, where);
    if (fabs (shade->shadow_mm2 - shade->alone_mm2) > 0.5)
      /* Translators: an area that others cover too, then a distance. */
      row->detail
          = g_strdup_printf (_ ("alone; %s with what others cover too; %s before the face"), all, distance);
    else
      row->detail = g_strdup_printf (_ ("%s before the face"), distance);
  }
}

static TwCardWhere *
add_where_face (TwCardMaker *maker, TwId core)
{
  TwCardWhere *where = tw_maker_where (maker, "face", core, _ ("face width × face height"), "DEF-FACE");

  tw_maker_input (maker, where, core, TW_CORE_face_width_mm);
  tw_maker_input (maker, where, core, TW_CORE_face_height_mm);
  return where;
}

static TwCardWhere *
add_where_projected (TwCardMaker *maker, TwId core)
{
  TwCardWhere *where = tw_maker_where (maker, "projected", core,
                                       _ ("face × cosine of the angle between its normal and z"), "DEF-FACE");

  tw_maker_input (maker, where, core, TW_CORE_face_width_mm);
  tw_maker_input (maker, where, core, TW_CORE_face_height_mm);
  tw_maker_input (maker, where, core, TW_CORE_turn_deg);
  tw_maker_input (maker, where, core, TW_CORE_lean_deg);
  tw_maker_input (maker, where, core, TW_CORE_roll_deg);
  tw_maker_input (maker, where, core, TW_CORE_heading_deg);
  return where;
}

static TwCardWhere *
add_where_free (TwCardMaker *maker, const TwFaceShade *face)
{
  TwCardWhere *where = tw_maker_where (maker, "free", face->core,
                                       _ ("face − shadows of the obstructions, cast along the air’s way"),
                                       "DEF-OBSTRUCTION");

  tw_maker_input (maker, where, face->core, TW_CORE_face_width_mm);
  tw_maker_input (maker, where, face->core, TW_CORE_face_height_mm);
  tw_maker_input (maker, where, face->core, TW_CORE_air);
  return where;
}

static void
add_face (TwCardMaker *maker, const TwFaceShade *face)
{
  const TwCardWhere *free = add_where_free (maker, face);

  tw_row_where (area_row (maker, "face", face->core, _ ("Face"), face->face_mm2),
                add_where_face (maker, face->core));
  tw_row_where (area_row (maker, "projected", face->core, _ ("Projected along z"), face->projected_mm2),
                add_where_projected (maker, face->core));
  tw_row_where (
      share_row (maker, "free", face->core, _ ("Free"), (double[]){ face->free_mm2, face->free_share }),
      free);
  add_shades (maker, face, free);
  if (face->n_shades > 1)
    tw_row_where (share_row (maker, "shared", face->core, _ ("Shared by several"),
                             (double[]){ face->shared_mm2, face->shared_share }),
                  free);
}

static void
add_opening_inputs (TwCardMaker *maker, TwCardWhere *where, TwId id)
{
  const TwPart *part = tw_drawing_find (maker->drawing, id);
  int width = tw_kind_field (part->kind, "width_mm"), height = tw_kind_field (part->kind, "height_mm");

  if (tw_part_list (part, 0)->len > 0) /* it has an outline instead */
    return;
  tw_maker_input (maker, where, id, (guint)width);
  tw_maker_input (maker, where, id, (guint)height);
}

/* All openings, or all exits, against all faces. */
static void
add_openings (TwCardMaker *maker, gboolean exits, double face_mm2)
{
  guint n, count = 0;
  const TwPlacedOpening *openings = tw_placement_openings (tw_answer_placement (maker->answer), &n);
  double area_mm2 = 0;
  TwCardWhere *where = NULL;
  TwCardRow *row;

  for (guint i = 0; i < n; i++) {
    if (openings[i].is_exit != exits)
      continue;
    if (where == NULL)
      where = tw_maker_where (maker, exits ? "exits" : "openings", TW_ID_NONE,
                              _ ("area inside the outlines; width × height of those without one"),
                              "DEF-OPENING");
    add_opening_inputs (maker, where, openings[i].id);
    area_mm2 += openings[i].area_mm2;
    count++;
  }
  if (where == NULL)
    return;
  row = tw_maker_row (maker, exits ? "exits" : "openings", TW_ID_NONE, exits ? _ ("Exits") : _ ("Openings"),
                      tw_maker_area (maker, area_mm2, area_mm2 / face_mm2));
  /* Translators: an area as a share of the core's face; %u openings or exits */
  row->detail = count == 1 ? g_strdup (_ ("against the face"))
                           : g_strdup_printf (_ ("%u together, against the face"), count);
  tw_row_figure (row, "area_mm2", AREA, area_mm2, "DEF-OPENING");
  tw_row_figure (row, "share", SHARE, area_mm2 / face_mm2, "DEF-OPENING");
  for (guint i = 0; i < n; i++)
    if (openings[i].is_exit == exits)
      tw_row_also (row, openings[i].id);
  tw_row_where (row, where);
}

static void
add_headline (TwCardMaker *maker, const TwFaceShade *faces, guint n)
{
  double face_mm2 = 0, free_mm2 = 0;
  const TwShade *largest = NULL;
  g_autofree char *share = NULL, *free = NULL, *face = NULL;

  for (guint i = 0; i < n; i++) {
    face_mm2 += faces[i].face_mm2;
    free_mm2 += faces[i].free_mm2;
    if (faces[i].n_shades > 0 && (largest == NULL || faces[i].shades[0].alone_mm2 > largest->alone_mm2))
      largest = &faces[i].shades[0];
  }
  share = tw_maker_text (maker, SHARE, free_mm2 / face_mm2);
  free = tw_maker_text (maker, AREA, free_mm2);
  face = tw_maker_text (maker, AREA, face_mm2);
  tw_maker_headline (maker, g_strdup_printf (_ ("%s free"), share));
  tw_maker_headline_figure (maker, "free_share", SHARE, free_mm2 / face_mm2, "DEF-OBSTRUCTION");
  tw_maker_headline_figure (maker, "free_mm2", AREA, free_mm2, "DEF-OBSTRUCTION");
  g_free (maker->card->meaning);
  if (largest == NULL)
    maker->card->meaning = g_strdup_printf (_ ("outside air can reach all of the face, %s"), face);
  else
    maker->card->meaning = g_strdup_printf (_ ("%s of %s; %s takes the most"), free, face,
                                            tw_maker_name (maker, largest->part));
}

TwCard *
tw_card_frontal (TwCardMaker *maker)
{
  guint n;
  const TwFaceShade *faces = tw_frontal_faces (tw_answer_frontal (maker->answer), &n);
  double face_mm2 = 0;

  tw_maker_begin (maker, "frontal", _ ("Free frontal area"));
  tw_maker_note (maker,
                 _ ("Face: the block of fins and tubes that air meets, without header and side plates."));
  tw_maker_note (maker, _ ("Obstruction: what lies in the bay and before the face, cast along the air’s way "
                           "whatever its distance; a mesh is a loss, not an obstruction."));
  if (n == 0)
    tw_maker_missing (maker, _ ("No core with a face is drawn."), TW_KIND_CORE);
  else
    add_headline (maker, faces, n);
  for (guint i = 0; i < n; i++) {
    guint from = maker->card->rows->len;

    if (n > 1)
      tw_maker_heading (maker, "core", faces[i].core, tw_maker_name (maker, faces[i].core));
    add_face (maker, &faces[i]);
    face_mm2 += faces[i].face_mm2;
    for (guint k = from + 1; n > 1 && k < maker->card->rows->len; k++)
      ((TwCardRow *)g_ptr_array_index (maker->card->rows, k))->indent = 1;
    if ((faces[i].flags & TW_FRONTAL_NO_BAY) != 0)
      tw_maker_note (maker, _ ("No free volume is drawn: everything before the face counts."));
  }
  for (int exits = 0; n > 0 && exits <= 1; exits++)
    add_openings (maker, exits, face_mm2);
  if (n > 0 && maker->card->picture[0] == '\0')
    tw_maker_picture (maker, g_strdup (_ ("nothing stands before the face")));
  if (n > 0)
    maker->card->where = g_strconcat ("free:", faces[0].core.text, NULL);
  return tw_maker_end (maker);
}
