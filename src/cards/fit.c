/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cards/maker-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define LENGTH TW_QUANTITY_LENGTH
#define SOURCE "DEF-CLEARANCE"

/* `25.0 mm`, or how far it crosses. */
static char *
distance_text (const TwCardMaker *maker, const TwClearancePair *pair)
{
  g_autofree char *figure = tw_maker_text (maker, LENGTH, pair->crosses ? pair->depth_mm : pair->distance_mm);

  if (pair->crosses)
    return g_strdup_printf (pair->is_bay ? _ ("%s through the wall") : _ ("%s into it"), figure);
  if (pair->is_outside)
    return g_strdup_printf (_ ("outside by %s"), figure);
  return g_steal_pointer (&figure);
}

/* Signed: what is free between them, negative when they share room or the part is outside. */
static double
free_mm (const TwClearancePair *pair)
{
  if (pair->crosses)
    return -pair->depth_mm;
  return pair->is_outside ? -pair->distance_mm : pair->distance_mm;
}

static char *
to_text (const TwCardMaker *maker, const TwClearancePair *pair)
{
  g_autofree char *required = tw_maker_text (maker, LENGTH, pair->required_mm);

  if (pair->is_bay)
    return g_strdup_printf (_ ("to the wall of %s; %s wanted"), tw_maker_name (maker, pair->other), required);
  return g_strdup_printf (_ ("to %s; %s wanted"), tw_maker_name (maker, pair->other), required);
}

/* Of each part the pair that leaves least, the first of equals: keys are the parts' ids as text. (transfer
 * full) */
static GHashTable *
tightest_pairs (const TwClearancePair *pairs, guint n)
{
  GHashTable *tightest = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < n; i++) {
    const TwClearancePair *known = g_hash_table_lookup (tightest, pairs[i].part.text);

    if (known == NULL || pairs[i].over_mm < known->over_mm)
      g_hash_table_replace (tightest, (gpointer)pairs[i].part.text, (gpointer)&pairs[i]);
  }
  return tightest;
}

static void
add_parts (TwCardMaker *maker, const TwClearancePair *pairs, guint n)
{
  g_autoptr (GHashTable) tightest = tightest_pairs (pairs, n);
  TwCardWhere *where = NULL;

  for (guint i = 0; i < n; i++) {
    const TwClearancePair *pair = g_hash_table_lookup (tightest, pairs[i].part.text);
    TwCardRow *row;

    if (pair != &pairs[i])
      continue;
    if (where == NULL) {
      where = tw_maker_where (maker, "distance", TW_ID_NONE,
                              _ ("shortest distance in space between surfaces"), SOURCE);
      tw_maker_input (maker, where, tw_drawing_settings (maker->drawing)->head.id, TW_SETTINGS_clearance_mm);
    }
    row = tw_maker_row (maker, "part", pair->part, tw_maker_name (maker, pair->part),
                        distance_text (maker, pair));
    row->detail = to_text (maker, pair);
    tw_row_also (row, pair->other);
    tw_row_figure (row, "free_mm", LENGTH, free_mm (pair), SOURCE);
    tw_row_figure (row, "required_mm", LENGTH, pair->required_mm, SOURCE);
    tw_row_where (row, where);
  }
}

static TwSolidBox
envelope_of (const TwPlacement *placement, TwId core)
{
  guint n;
  const TwPlacedSolid *solids = tw_placement_solids (placement, &n);
  TwSolidBox all = { { INFINITY, INFINITY, INFINITY }, { -INFINITY, -INFINITY, -INFINITY } };

  for (guint i = 0; i < n; i++) {
    TwSolidBox box;

    if (!tw_id_equal (solids[i].core, core)
        || (solids[i].role != TW_SOLID_BLOCK && solids[i].role != TW_SOLID_HEADER
            && solids[i].role != TW_SOLID_TANK))
      continue;
    box = tw_convex_bounds (solids[i].convex);
    all.from
        = (TwVec){ MIN (all.from.x, box.from.x), MIN (all.from.y, box.from.y), MIN (all.from.z, box.from.z) };
    all.to = (TwVec){ MAX (all.to.x, box.to.x), MAX (all.to.y, box.to.y), MAX (all.to.z, box.to.z) };
  }
  return all;
}

static void
add_envelopes (TwCardMaker *maker)
{
  guint n;
  const TwPlacedCore *cores = tw_placement_cores (tw_answer_placement (maker->answer), &n);

  for (guint i = 0; i < n; i++) {
    TwSolidBox box = envelope_of (tw_answer_placement (maker->answer), cores[i].id);
    TwVec size = tw_vec_subtract (box.to, box.from);
    g_autofree char *width = tw_maker_text (maker, LENGTH, size.x);
    g_autofree char *height = tw_maker_text (maker, LENGTH, size.y);
    g_autofree char *depth = tw_maker_text (maker, LENGTH, size.z);
    g_autofree char *label
        = g_strdup_printf (_ ("%s with tanks, overall"), tw_maker_name (maker, cores[i].id));
    TwCardRow *row = tw_maker_row (maker, "overall", cores[i].id, label,
                                   g_strdup_printf ("%s × %s × %s", width, height, depth));

    row->detail = g_strdup (_ ("across, up, along the air; without ports"));
    tw_row_figure (row, "width_mm", LENGTH, size.x, SOURCE);
    tw_row_figure (row, "height_mm", LENGTH, size.y, SOURCE);
    tw_row_figure (row, "depth_mm", LENGTH, size.z, SOURCE);
  }
}

static void
add_headline (TwCardMaker *maker, const TwClearancePair *nearest)
{
  g_autofree char *to = to_text (maker, nearest);

  tw_maker_headline (maker, distance_text (maker, nearest));
  tw_maker_headline_figure (maker, "nearest_mm", LENGTH, free_mm (nearest), SOURCE);
  maker->card->where = g_strdup ("distance");
  g_free (maker->card->meaning);
  /* Translators: a part, then `to the wall of Bay; 15.0 mm wanted`. */
  maker->card->meaning = g_strdup_printf (_ ("nearest is %s %s"), tw_maker_name (maker, nearest->part), to);
  tw_maker_picture (maker, g_strdup_printf (_ ("%s and %s where they come nearest"),
                                            tw_maker_name (maker, nearest->part),
                                            tw_maker_name (maker, nearest->other)));
}

TwCard *
tw_card_fit (TwCardMaker *maker)
{
  const TwClearance *clearance = tw_answer_clearance (maker->answer);
  TwClearanceFlags flags = tw_clearance_flags (clearance);
  guint n;
  const TwClearancePair *pairs = tw_clearance_pairs (clearance, &n);

  tw_maker_begin (maker, "fit", _ ("Fit"));
  tw_maker_note (maker,
                 _ ("Clearance: the shortest distance in space between two surfaces. The bay’s walls do not "
                    "count for hoses, nor for header tanks that stand outside."));
  if ((flags & TW_CLEARANCE_NO_BAY) != 0)
    tw_maker_note (maker, _ ("No free volume is drawn: distances to the bay are not judged."));
  if ((flags & TW_CLEARANCE_MIXED_BAY) != 0)
    tw_maker_note (maker,
                   _ ("Free volumes are drawn in different planes: distances to the bay are not judged."));
  if (n == 0)
    tw_maker_missing (maker, _ ("No volume is drawn that parts could meet."), TW_KIND_VOLUME);
  else
    add_headline (maker, tw_clearance_nearest (clearance));
  add_envelopes (maker);
  add_parts (maker, pairs, n);
  return tw_maker_end (maker);
}
