/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/coverage-private.h"

static TwArea *
area_at (const GPtrArray *areas, guint i)
{
  return g_ptr_array_index (areas, i);
}

/* Takes the place of area @i by @area (transfer full). */
static void
replace (GPtrArray *areas, guint i, TwArea *area)
{
  tw_area_unref (areas->pdata[i]);
  areas->pdata[i] = area;
}

static TwArea *
join (TwGeos *geos, TwArea *a, TwArea *b)
{
  TwArea *const both[] = { a, b };

  return tw_area_union (geos, both, 2);
}

/* Layer k is what k + 1 discs sweep: @disc lifts what it covers of each layer into the next. */
static void
lay (TwGeos *geos, GPtrArray *layers, TwArea *disc)
{
  TwArea *left = tw_area_ref (disc);

  g_ptr_array_add (layers, tw_area_new_empty ());
  for (guint k = layers->len - 1; k-- > 0;) {
    g_autoptr (TwArea) lifted = tw_area_intersection (geos, area_at (layers, k), disc);
    TwArea *rest;

    if (tw_area_is_empty (lifted))
      continue;
    rest = tw_area_difference (geos, left, lifted);
    tw_area_unref (left);
    left = rest;
    replace (layers, k, tw_area_difference (geos, area_at (layers, k), disc));
    replace (layers, k + 1, join (geos, area_at (layers, k + 1), lifted));
  }
  replace (layers, 0, join (geos, area_at (layers, 0), left));
  tw_area_unref (left);
}

static void
share_by_layers (TwGeos *geos, const TwFans *fans, double *own_mm2)
{
  g_autoptr (GPtrArray) layers = g_ptr_array_new_with_free_func ((GDestroyNotify)tw_area_unref);

  for (guint i = 0; i < fans->on_face->len; i++)
    lay (geos, layers, area_at (fans->on_face, i));
  for (guint i = 0; i < fans->on_face->len; i++) {
    own_mm2[i] = 0.0;
    for (guint k = 0; k < layers->len; k++) {
      g_autoptr (TwArea) part = tw_area_intersection (geos, area_at (layers, k), area_at (fans->on_face, i));

      own_mm2[i] += tw_area_mm2 (part) / (k + 1);
    }
  }
}

void
tw_coverage_share_out (TwGeos *geos, const TwFans *fans, double *own_mm2)
{
  if (fans->has_threes) {
    share_by_layers (geos, fans, own_mm2);
    return;
  }
  for (guint i = 0; i < fans->on_face->len; i++)
    own_mm2[i] = tw_area_mm2 (area_at (fans->on_face, i));
  for (guint i = 0; i < fans->pairs->len; i++) {
    const TwFanPair *pair = &g_array_index (fans->pairs, TwFanPair, i);
    double half_mm2 = 0.5 * tw_area_mm2 (pair->on_face);

    own_mm2[pair->a] -= half_mm2;
    own_mm2[pair->b] -= half_mm2;
  }
}

double
tw_coverage_swept_in_mm2 (TwGeos *geos, const TwFans *fans, TwArea *boxed)
{
  gboolean is_box = tw_area_n_rings (boxed) == 1 && tw_area_ring (boxed, 0).n_points == 4;
  double sum_mm2 = 0.0;

  if (tw_area_is_empty (boxed))
    return 0.0;
  if (fans->has_threes || !is_box) {
    g_autoptr (TwArea) all = tw_area_union (geos, (TwArea *const *)fans->on_face->pdata, fans->on_face->len);
    g_autoptr (TwArea) in = tw_area_intersection (geos, boxed, all);

    return tw_area_mm2 (in);
  }
  for (guint i = 0; i < fans->on_face->len; i++) {
    g_autoptr (TwArea) in = tw_area_in_box (geos, area_at (fans->on_face, i), tw_area_bounds (boxed));

    sum_mm2 += tw_area_mm2 (in);
  }
  for (guint i = 0; i < fans->pairs->len; i++) {
    const TwFanPair *pair = &g_array_index (fans->pairs, TwFanPair, i);
    g_autoptr (TwArea) in = tw_area_in_box (geos, pair->on_face, tw_area_bounds (boxed));

    sum_mm2 -= tw_area_mm2 (in);
  }
  return sum_mm2;
}
