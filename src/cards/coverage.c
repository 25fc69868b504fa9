/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cards/maker-private.h"

#include <glib/gi18n-lib.h>

#define AREA TW_QUANTITY_AREA
#define SHARE TW_QUANTITY_SHARE
#define SOURCE "DEF-COVERAGE"

static TwCardRow *
share_row (TwCardMaker *maker, const char *id, TwId part, const char *label, const double figures[2])
{
  TwCardRow *row = tw_maker_row (maker, id, part, label, tw_maker_area (maker, figures[0], figures[1]));

  tw_row_figure (row, "area_mm2", AREA, figures[0], SOURCE);
  tw_row_figure (row, "share", SHARE, figures[1], SOURCE);
  return row;
}

static void
input_face (TwCardMaker *maker, TwCardWhere *where, TwId core)
{
  tw_maker_input (maker, where, core, TW_CORE_face_width_mm);
  tw_maker_input (maker, where, core, TW_CORE_face_height_mm);
}

static TwCardWhere *
where_swept (TwCardMaker *maker, const TwFaceCover *face, gboolean is_ring)
{
  TwCardWhere *where
      = is_ring ? tw_maker_where (maker, "ring", face->core,
                                  _ ("swept discs less their hubs, united, on the face"), SOURCE)
                : tw_maker_where (maker, "swept", face->core, _ ("swept discs, united, on the face"), SOURCE);

  input_face (maker, where, face->core);
  for (guint i = 0; i < face->n_fans; i++) {
    tw_maker_input (maker, where, face->fans[i].fan, TW_FAN_swept_mm);
    if (is_ring)
      tw_maker_input (maker, where, face->fans[i].fan, TW_FAN_hub_mm);
  }
  return where;
}

static TwCardWhere *
where_boxed (TwCardMaker *maker, const TwFaceCover *face)
{
  TwCardWhere *where
      = tw_maker_where (maker, "boxed", face->core, _ ("mouths of the shrouds, united, on the face"), SOURCE);

  input_face (maker, where, face->core);
  for (guint i = 0; i < tw_drawing_count (maker->drawing, TW_KIND_SHROUD); i++) {
    const TwShroud *shroud = TW_DRAWING_SHROUD (maker->drawing, i);

    if (!tw_id_equal (shroud->core, face->core))
      continue;
    tw_maker_input (maker, where, shroud->head.id, TW_SHROUD_width_mm);
    tw_maker_input (maker, where, shroud->head.id, TW_SHROUD_height_mm);
  }
  return where;
}

static void
add_fans (TwCardMaker *maker, const TwFaceCover *face, const TwCardWhere *where)
{
  for (guint i = 0; i < face->n_fans; i++) {
    const TwFanCover *fan = &face->fans[i];
    TwCardRow *row = share_row (maker, "fan", fan->fan, tw_maker_name (maker, fan->fan),
                                (double[]){ fan->own_mm2, fan->own_share });

    row->detail = g_strdup (_ ("its own share of the swept area"));
    tw_row_where (row, where);
    if (fan->face_over_mm > 0) {
      g_autofree char *area = tw_maker_text (maker, AREA, fan->face_over_mm2);
      g_autofree char *reach = tw_maker_text (maker, TW_QUANTITY_LENGTH, fan->face_over_mm);

      g_free (row->detail);
      row->detail = g_strdup_printf (_ ("its own share; reaches %s beyond the face, %s of it"), reach, area);
      tw_row_figure (row, "beyond_face_mm", TW_QUANTITY_LENGTH, fan->face_over_mm, SOURCE);
      tw_row_figure (row, "beyond_face_mm2", AREA, fan->face_over_mm2, SOURCE);
    }
  }
}

/* `Left fan sweeps 31.0 %`, what is left bare, and who share. */
static void
picture_face (TwCardMaker *maker, const TwFaceCover *face)
{
  g_autofree char *boxed = tw_maker_text (maker, SHARE, face->unswept_mm2 / face->face_mm2);
  double bare_mm2 = MAX (face->face_mm2 - face->unswept_mm2 - face->swept_mm2, 0);
  g_autofree char *bare = tw_maker_text (maker, SHARE, bare_mm2 / face->face_mm2);

  for (guint i = 0; i < face->n_fans; i++) {
    const TwFanCover *fan = &face->fans[i];
    g_autofree char *share = tw_maker_text (maker, SHARE, fan->own_share);
    g_autofree char *over = tw_maker_text (maker, TW_QUANTITY_LENGTH, fan->face_over_mm);

    if (fan->face_over_mm > 0)
      tw_maker_picture (maker, g_strdup_printf (_ ("%s sweeps %s and reaches %s beyond the face"),
                                                tw_maker_name (maker, fan->fan), share, over));
    else
      tw_maker_picture (maker, g_strdup_printf (_ ("%s sweeps %s"), tw_maker_name (maker, fan->fan), share));
  }
  for (guint i = 0; i < face->n_overlaps; i++)
    tw_maker_picture (maker,
                      g_strdup_printf (_ ("%s and %s overlap"), tw_maker_name (maker, face->overlaps[i].a),
                                       tw_maker_name (maker, face->overlaps[i].b)));
  tw_maker_picture (maker, g_strdup_printf (_ ("%s boxed in but not swept, %s bare"), boxed, bare));
}

static void
add_overlaps (TwCardMaker *maker, const TwFaceCover *face)
{
  for (guint i = 0; i < face->n_overlaps; i++) {
    const TwFanOverlap *overlap = &face->overlaps[i];
    g_autofree char *id = g_strconcat ("overlap:", overlap->a.text, ":", overlap->b.text, NULL);
    g_autofree char *depth = tw_maker_text (maker, TW_QUANTITY_LENGTH, overlap->depth_mm);
    g_autofree char *label = g_strdup_printf (_ ("Overlap of %s and %s"), tw_maker_name (maker, overlap->a),
                                              tw_maker_name (maker, overlap->b));
    TwCardRow *row
        = tw_maker_row (maker, id, TW_ID_NONE, label, tw_maker_text (maker, AREA, overlap->area_mm2));

    row->detail = g_strdup_printf (_ ("%s into each other; counts once"), depth);
    tw_row_also (row, overlap->a);
    tw_row_also (row, overlap->b);
    tw_row_figure (row, "area_mm2", AREA, overlap->area_mm2, SOURCE);
    tw_row_figure (row, "depth_mm", TW_QUANTITY_LENGTH, overlap->depth_mm, SOURCE);
  }
}

static void
add_face (TwCardMaker *maker, const TwFaceCover *face)
{
  const TwCardWhere *swept = where_swept (maker, face, FALSE);
  const TwCardWhere *boxed = where_boxed (maker, face);

  tw_row_where (share_row (maker, "swept", face->core, _ ("Swept by fans"),
                           (double[]){ face->swept_mm2, face->swept_share }),
                swept);
  tw_row_where (share_row (maker, "ring", face->core, _ ("Swept, without hubs"),
                           (double[]){ face->ring_mm2, face->ring_share }),
                where_swept (maker, face, TRUE));
  tw_row_where (share_row (maker, "boxed", face->core, _ ("Boxed in"),
                           (double[]){ face->boxed_mm2, face->boxed_share }),
                boxed);
  if (face->n_shrouds > 0)
    share_row (maker, "unswept", face->core, _ ("Boxed in, not swept"),
               (double[]){ face->unswept_mm2, face->unswept_mm2 / face->face_mm2 });
  if (face->n_flaps > 0)
    share_row (maker, "flaps", face->core, _ ("Ram flaps"),
               (double[]){ face->flaps_mm2, face->flaps_mm2 / face->face_mm2 });
  add_fans (maker, face, swept);
  add_overlaps (maker, face);
  if (face->n_fans > 0)
    tw_maker_pending (maker, "operating-point", face->core, _ ("Operating point"));
}

static void
add_headline (TwCardMaker *maker, const TwFaceCover *faces, guint n)
{
  double face_mm2 = 0, swept_mm2 = 0, ring_mm2 = 0, boxed_mm2 = 0;
  g_autofree char *swept = NULL, *ring = NULL, *boxed = NULL;

  for (guint i = 0; i < n; i++) {
    face_mm2 += faces[i].face_mm2;
    swept_mm2 += faces[i].swept_mm2;
    ring_mm2 += faces[i].ring_mm2;
    boxed_mm2 += faces[i].boxed_mm2;
  }
  swept = tw_maker_text (maker, SHARE, swept_mm2 / face_mm2);
  ring = tw_maker_text (maker, SHARE, ring_mm2 / face_mm2);
  boxed = tw_maker_text (maker, SHARE, boxed_mm2 / face_mm2);
  tw_maker_headline (maker, g_strdup_printf (_ ("%s swept"), swept));
  tw_maker_headline_figure (maker, "swept_share", SHARE, swept_mm2 / face_mm2, SOURCE);
  tw_maker_headline_figure (maker, "swept_mm2", AREA, swept_mm2, SOURCE);
  g_free (maker->card->meaning);
  maker->card->meaning = g_strdup_printf (_ ("%s without hubs; %s of the face is boxed in"), ring, boxed);
}

TwCard *
tw_card_coverage (TwCardMaker *maker)
{
  guint n;
  const TwFaceCover *faces = tw_coverage_faces (tw_answer_coverage (maker->answer), &n);

  tw_maker_begin (maker, "coverage", _ ("Fan coverage"));
  tw_maker_note (maker,
                 _ ("Swept: the circle of the blade tips. Parts of a fan beyond the face do not count; "
                    "area that fans share counts once."));
  tw_maker_note (maker,
                 _ ("Coverage alone proves nothing: a sealed box with depth makes half the face enough "
                    "(common practice)."));
  if (n == 0)
    tw_maker_missing (maker, _ ("No core with a face is drawn."), TW_KIND_CORE);
  else if (tw_drawing_count (maker->drawing, TW_KIND_FAN) == 0)
    tw_maker_missing (maker, _ ("No fan is drawn."), TW_KIND_FAN);
  else
    add_headline (maker, faces, n);
  for (guint i = 0; i < n; i++) {
    guint from = maker->card->rows->len;

    if (faces[i].n_fans == 0 && faces[i].n_shrouds == 0)
      continue;
    if (n > 1)
      tw_maker_heading (maker, "core", faces[i].core, tw_maker_name (maker, faces[i].core));
    add_face (maker, &faces[i]);
    picture_face (maker, &faces[i]);
    for (guint k = from + 1; n > 1 && k < maker->card->rows->len; k++)
      ((TwCardRow *)g_ptr_array_index (maker->card->rows, k))->indent = 1;
    if (maker->card->where == NULL)
      maker->card->where = g_strconcat ("swept:", faces[i].core.text, NULL);
  }
  return tw_maker_end (maker);
}
