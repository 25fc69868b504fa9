/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/clearance.h"

#include "layout/clearance-private.h"

struct _TwClearance {
  gatomicrefcount count;
  TwClearanceFlags flags;
  TwId odd;
  GArray *pairs; /* of TwClearancePair */
};

/* Whether the bay can be walled in; sets the flags that say why not. */
static gboolean
judge_bay (TwClearance *self, const TwPlacement *placement)
{
  guint n;
  const TwPlacedVolume *volumes = tw_placement_volumes (placement, &n);
  const TwPlacedVolume *first = NULL;

  for (guint i = 0; i < n; i++) {
    if (!volumes[i].is_free)
      continue;
    if (first == NULL)
      first = &volumes[i];
    if (volumes[i].plane != first->plane) {
      self->flags |= TW_CLEARANCE_MIXED_BAY;
      self->odd = volumes[i].id;
      return FALSE;
    }
  }
  if (first == NULL)
    self->flags |= TW_CLEARANCE_NO_BAY;
  return first != NULL;
}

TwClearance *
tw_clearance_find (const TwPlacement *placement, TwGeos *geos, const TwPlacedSolid *hoses, guint n_hoses)
{
  TwClearance *self;
  g_autoptr (TwBay) bay = NULL;

  g_return_val_if_fail (placement != NULL && geos != NULL, NULL);
  g_return_val_if_fail (hoses != NULL || n_hoses == 0, NULL);

  self = g_new0 (TwClearance, 1);
  g_atomic_ref_count_init (&self->count);
  self->pairs = g_array_new (FALSE, FALSE, sizeof (TwClearancePair));
  if (judge_bay (self, placement))
    bay = tw_bay_new (placement, geos);
  if (tw_geos_trouble (geos) != NULL)
    self->flags |= TW_CLEARANCE_TROUBLE;

  tw_clearance_measure (placement, bay, hoses, n_hoses, self->pairs);
  return self;
}

TwClearance *
tw_clearance_ref (const TwClearance *self)
{
  TwClearance *counted = (TwClearance *)self;

  g_return_val_if_fail (self != NULL, NULL);

  g_atomic_ref_count_inc (&counted->count);
  return counted;
}

void
tw_clearance_unref (TwClearance *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->count))
    return;
  g_array_unref (self->pairs);
  g_free (self);
}

TwClearanceFlags
tw_clearance_flags (const TwClearance *self)
{
  g_return_val_if_fail (self != NULL, 0);

  return self->flags;
}

TwId
tw_clearance_odd_volume (const TwClearance *self)
{
  g_return_val_if_fail (self != NULL, TW_ID_NONE);

  return self->odd;
}

const TwClearancePair *
tw_clearance_pairs (const TwClearance *self, guint *n)
{
  g_return_val_if_fail (self != NULL && n != NULL, NULL);

  *n = self->pairs->len;
  return (const TwClearancePair *)(const void *)self->pairs->data;
}

/* A crossing, and a place outside, count as less than no distance. */
static double
nearness_mm (const TwClearancePair *pair)
{
  return pair->crosses || pair->is_outside ? -pair->depth_mm : pair->distance_mm;
}

const TwClearancePair *
tw_clearance_nearest (const TwClearance *self)
{
  const TwClearancePair *best = NULL;

  g_return_val_if_fail (self != NULL, NULL);

  for (guint i = 0; i < self->pairs->len; i++) {
    const TwClearancePair *pair = &g_array_index (self->pairs, TwClearancePair, i);

    if (best == NULL || nearness_mm (pair) < nearness_mm (best))
      best = pair;
  }
  return best;
}

const TwClearancePair *
tw_clearance_tightest (const TwClearance *self)
{
  const TwClearancePair *best = NULL;

  g_return_val_if_fail (self != NULL, NULL);

  for (guint i = 0; i < self->pairs->len; i++) {
    const TwClearancePair *pair = &g_array_index (self->pairs, TwClearancePair, i);

    if (best == NULL || pair->over_mm < best->over_mm)
      best = pair;
  }
  return best;
}
