/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/coverage-private.h"

static const TwPlacedFan *
fan_at (const TwFans *fans, guint i)
{
  return g_ptr_array_index (fans->fans, i);
}

static TwArea *
area_at (const GPtrArray *areas, guint i)
{
  return g_ptr_array_index (areas, i);
}

static GPtrArray *
new_areas (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify)tw_area_unref);
}

static void
clear_pair (gpointer data)
{
  TwFanPair *pair = data;

  tw_area_unref (pair->both);
  tw_area_unref (pair->on_face);
}

/* How far two discs reach into each other on the line of their centres; not above 0: apart. */
static double
reach_mm (const TwPlacedFan *a, double a_mm, const TwPlacedFan *b, double b_mm)
{
  double deep_mm = 0.5 * (a_mm + b_mm) - tw_point_distance_mm (a->centre, b->centre);

  return MIN (deep_mm, MIN (a_mm, b_mm));
}

static double
overlap_mm (const TwFans *fans, guint i, guint j)
{
  const TwPlacedFan *a = fan_at (fans, i), *b = fan_at (fans, j);

  return reach_mm (a, a->swept_mm, b, b->swept_mm);
}

/* TRUE when a fan before @i reaches into both of a pair. */
static gboolean
any_third (const TwFans *fans, guint i, guint j)
{
  for (guint k = 0; k < i; k++)
    if (overlap_mm (fans, k, i) > 0.0 && overlap_mm (fans, k, j) > 0.0)
      return TRUE;
  return FALSE;
}

static void
find_pairs (TwGeos *geos, TwFans *fans)
{
  for (guint i = 0; i < fans->fans->len; i++) {
    for (guint j = i + 1; j < fans->fans->len; j++) {
      TwFanPair pair = { .a = i, .b = j, .depth_mm = overlap_mm (fans, i, j) };

      if (!(pair.depth_mm > 0.0))
        continue;
      pair.both = tw_area_intersection (geos, area_at (fans->discs, i), area_at (fans->discs, j));
      pair.on_face = tw_area_in_box (geos, pair.both, fans->face);
      fans->has_threes |= any_third (fans, i, j);
      g_array_append_val (fans->pairs, pair);
    }
  }
}

void
tw_coverage_take_fans (const TwPlacement *placement, TwGeos *geos, const TwPlacedCore *core, TwFans *fans)
{
  guint n;
  const TwPlacedFan *all = tw_placement_fans (placement, &n);

  *fans = (TwFans){
    .face = core->face,
    .fans = g_ptr_array_new (),
    .discs = new_areas (),
    .on_face = new_areas (),
    .pairs = g_array_new (FALSE, FALSE, sizeof (TwFanPair)),
  };
  g_array_set_clear_func (fans->pairs, clear_pair);
  for (guint i = 0; i < n; i++) {
    TwArea *disc;

    if (!tw_id_equal (all[i].core, core->id))
      continue;
    if (fans->fans->len == TW_COVERAGE_MOST_FANS) {
      fans->n_left_out++;
      continue;
    }
    disc = tw_area_new_circle (geos, all[i].centre, 0.5 * all[i].swept_mm);
    g_ptr_array_add (fans->fans, (gpointer)&all[i]);
    g_ptr_array_add (fans->discs, disc);
    g_ptr_array_add (fans->on_face, tw_area_in_box (geos, disc, core->face));
  }
  find_pairs (geos, fans);
}

void
tw_coverage_drop_fans (TwFans *fans)
{
  g_ptr_array_unref (fans->fans);
  g_ptr_array_unref (fans->discs);
  g_ptr_array_unref (fans->on_face);
  g_array_unref (fans->pairs);
}

/* TRUE when no hub reaches into what another fan sweeps: then each takes its own area off the union. */
static gboolean
hubs_stand_free (const TwFans *fans)
{
  for (guint i = 0; i < fans->pairs->len; i++) {
    const TwFanPair *pair = &g_array_index (fans->pairs, TwFanPair, i);
    const TwPlacedFan *a = fan_at (fans, pair->a), *b = fan_at (fans, pair->b);

    if (reach_mm (a, a->hub_mm, b, b->swept_mm) > 0.0 || reach_mm (a, a->swept_mm, b, b->hub_mm) > 0.0)
      return FALSE;
  }
  return TRUE;
}

/* Of all fans together, hubs taken off each before they are united. */
static double
ring_mm2 (TwGeos *geos, const TwFans *fans, double swept_mm2)
{
  gboolean is_plain = hubs_stand_free (fans);
  g_autoptr (GPtrArray) rings = new_areas ();
  g_autoptr (TwArea) all = NULL;

  for (guint i = 0; i < fans->fans->len; i++) {
    const TwPlacedFan *fan = fan_at (fans, i);
    g_autoptr (TwArea) hub = tw_area_new_circle (geos, fan->centre, 0.5 * MIN (fan->hub_mm, fan->swept_mm));

    if (is_plain) {
      g_autoptr (TwArea) on_face = tw_area_in_box (geos, hub, fans->face);

      swept_mm2 -= tw_area_mm2 (on_face);
    } else {
      g_ptr_array_add (rings, tw_area_difference (geos, area_at (fans->on_face, i), hub));
    }
  }
  if (is_plain)
    return MAX (swept_mm2, 0.0);
  all = tw_area_union (geos, (TwArea *const *)rings->pdata, rings->len);
  return tw_area_mm2 (all);
}

/* How far a disc reaches beyond a box on its worst side; 0: not at all. */
static double
over_mm (const TwPlacedFan *fan, double diameter_mm, TwBox box)
{
  double across_mm = MAX (box.x0_mm - fan->centre.x_mm, fan->centre.x_mm - box.x1_mm);
  double up_mm = MAX (box.y0_mm - fan->centre.y_mm, fan->centre.y_mm - box.y1_mm);

  return MAX (0.0, MAX (across_mm, up_mm) + 0.5 * diameter_mm);
}

static void
measure_fan (const TwPlacement *placement, TwGeos *geos, const TwFans *fans, guint i, TwFanCover *cover)
{
  const TwPlacedFan *fan = fan_at (fans, i);
  const TwPlacedShroud *shroud = tw_placement_shroud (placement, fan->shroud);
  double disc_mm2 = tw_area_mm2 (area_at (fans->discs, i));

  cover->fan = fan->id;
  cover->on_face_mm2 = tw_area_mm2 (area_at (fans->on_face, i));
  cover->face_over_mm = over_mm (fan, fan->swept_mm, fans->face);
  cover->face_over_mm2 = MAX (0.0, disc_mm2 - cover->on_face_mm2);
  if (shroud != NULL) {
    g_autoptr (TwArea) in_mouth = tw_area_in_box (geos, area_at (fans->discs, i), shroud->mouth);

    cover->mouth_over_mm = over_mm (fan, fan->swept_mm, shroud->mouth);
    cover->mouth_over_mm2 = MAX (0.0, disc_mm2 - tw_area_mm2 (in_mouth));
    cover->ring_mouth_over_mm = over_mm (fan, fan->ring_mm, shroud->mouth);
  }
}

static void
list_overlaps (const TwFans *fans, TwFaceCover *face)
{
  face->n_overlaps = fans->pairs->len;
  face->overlaps = g_new0 (TwFanOverlap, face->n_overlaps);
  for (guint i = 0; i < face->n_overlaps; i++) {
    const TwFanPair *pair = &g_array_index (fans->pairs, TwFanPair, i);

    face->overlaps[i] = (TwFanOverlap){
      .a = fan_at (fans, pair->a)->id,
      .b = fan_at (fans, pair->b)->id,
      .depth_mm = pair->depth_mm,
      .area_mm2 = tw_area_mm2 (pair->both),
      .on_face_mm2 = tw_area_mm2 (pair->on_face),
    };
  }
}

void
tw_coverage_measure_fans (const TwPlacement *placement, TwGeos *geos, const TwFans *fans, TwFaceCover *face)
{
  double own_mm2[TW_COVERAGE_MOST_FANS];

  tw_coverage_share_out (geos, fans, own_mm2);
  face->n_left_out = fans->n_left_out;
  face->n_fans = fans->fans->len;
  face->fans = g_new0 (TwFanCover, face->n_fans);
  for (guint i = 0; i < face->n_fans; i++) {
    measure_fan (placement, geos, fans, i, &face->fans[i]);
    face->fans[i].own_mm2 = own_mm2[i];
    face->fans[i].own_share = own_mm2[i] / face->face_mm2;
    face->swept_mm2 += own_mm2[i];
  }
  face->ring_mm2 = ring_mm2 (geos, fans, face->swept_mm2);
  list_overlaps (fans, face);
}
