/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/coverage.h"

#include "layout/coverage-private.h"

struct _TwCoverage {
  gatomicrefcount count;
  GArray *faces; /* of TwFaceCover */
};

static void
clear_face (gpointer data)
{
  TwFaceCover *face = data;

  g_free (face->fans);
  g_free (face->overlaps);
  g_free (face->gaps);
}

/* United boxes of one core on its face. */
static TwArea *
unite_boxes (TwGeos *geos, const GArray *boxes, TwBox face)
{
  g_autoptr (GPtrArray) areas = g_ptr_array_new_with_free_func ((GDestroyNotify)tw_area_unref);

  for (guint i = 0; i < boxes->len; i++) {
    TwBox box = g_array_index (boxes, TwBox, i);

    box.x0_mm = MAX (box.x0_mm, face.x0_mm);
    box.y0_mm = MAX (box.y0_mm, face.y0_mm);
    box.x1_mm = MIN (box.x1_mm, face.x1_mm);
    box.y1_mm = MIN (box.y1_mm, face.y1_mm);
    g_ptr_array_add (areas, tw_area_new_box (geos, box));
  }
  if (areas->len == 1)
    return tw_area_ref (g_ptr_array_index (areas, 0));
  return tw_area_union (geos, (TwArea *const *)areas->pdata, areas->len);
}

static GArray *
mouths_of (const TwPlacement *placement, TwId core)
{
  GArray *boxes = g_array_new (FALSE, FALSE, sizeof (TwBox));
  guint n;
  const TwPlacedShroud *shrouds = tw_placement_shrouds (placement, &n);

  for (guint i = 0; i < n; i++)
    if (tw_id_equal (shrouds[i].core, core))
      g_array_append_val (boxes, shrouds[i].mouth);
  return boxes;
}

static GArray *
flaps_of (const TwPlacement *placement, TwId core)
{
  GArray *boxes = g_array_new (FALSE, FALSE, sizeof (TwBox));
  guint n;
  const TwPlacedFlap *flaps = tw_placement_flaps (placement, &n);

  for (guint i = 0; i < n; i++)
    if (tw_id_equal (flaps[i].core, core))
      g_array_append_val (boxes, flaps[i].opening);
  return boxes;
}

static void
measure_boxes (const TwPlacement *placement, TwGeos *geos, TwFans *fans, TwFaceCover *face)
{
  g_autoptr (GArray) mouths = mouths_of (placement, face->core);
  g_autoptr (GArray) flaps = flaps_of (placement, face->core);
  g_autoptr (TwArea) boxed = unite_boxes (geos, mouths, fans->face);
  g_autoptr (TwArea) open = unite_boxes (geos, flaps, fans->face);

  face->n_shrouds = mouths->len;
  face->n_flaps = flaps->len;
  face->boxed_mm2 = tw_area_mm2 (boxed);
  face->flaps_mm2 = tw_area_mm2 (open);
  face->unswept_mm2 = MAX (0.0, face->boxed_mm2 - tw_coverage_swept_in_mm2 (geos, fans, boxed));
}

static TwFaceCover
measure_face (const TwPlacement *placement, TwGeos *geos, const TwPlacedCore *core)
{
  TwFaceCover face = { .core = core->id, .face_mm2 = core->face_width_mm * core->face_height_mm };
  gboolean was_well = tw_geos_trouble (geos) == NULL;
  TwFans fans;

  tw_coverage_take_fans (placement, geos, core, &fans);
  tw_coverage_measure_fans (placement, geos, &fans, &face);
  measure_boxes (placement, geos, &fans, &face);
  tw_coverage_find_gaps (placement, core->id, &face);
  tw_coverage_drop_fans (&fans);

  face.swept_share = face.swept_mm2 / face.face_mm2;
  face.ring_share = face.ring_mm2 / face.face_mm2;
  face.boxed_share = face.boxed_mm2 / face.face_mm2;
  face.has_trouble = was_well && tw_geos_trouble (geos) != NULL;
  return face;
}

TwCoverage *
tw_coverage_find (const TwPlacement *placement, TwGeos *geos)
{
  TwCoverage *self;
  guint n;
  const TwPlacedCore *cores;

  g_return_val_if_fail (placement != NULL, NULL);
  g_return_val_if_fail (geos != NULL, NULL);

  self = g_new0 (TwCoverage, 1);
  g_atomic_ref_count_init (&self->count);
  self->faces = g_array_new (FALSE, FALSE, sizeof (TwFaceCover));
  g_array_set_clear_func (self->faces, clear_face);
  cores = tw_placement_cores (placement, &n);
  for (guint i = 0; i < n; i++) {
    TwFaceCover face = measure_face (placement, geos, &cores[i]);

    g_array_append_val (self->faces, face);
  }
  return self;
}

TwCoverage *
tw_coverage_ref (const TwCoverage *self)
{
  TwCoverage *counted = (TwCoverage *)self;

  g_return_val_if_fail (self != NULL, NULL);
  g_atomic_ref_count_inc (&counted->count);
  return counted;
}

void
tw_coverage_unref (TwCoverage *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->count))
    return;
  g_array_unref (self->faces);
  g_free (self);
}

const TwFaceCover *
tw_coverage_faces (const TwCoverage *self, guint *n)
{
  g_return_val_if_fail (self != NULL && n != NULL, NULL);
  *n = self->faces->len;
  return (const TwFaceCover *)(void *)self->faces->data;
}

const TwFaceCover *
tw_coverage_face (const TwCoverage *self, TwId core)
{
  g_return_val_if_fail (self != NULL, NULL);
  for (guint i = 0; i < self->faces->len; i++) {
    const TwFaceCover *face = &g_array_index (self->faces, TwFaceCover, i);

    if (tw_id_equal (face->core, core))
      return face;
  }
  return NULL;
}
