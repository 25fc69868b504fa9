/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/frontal.h"

#include "layout/frontal-private.h"

#include <math.h>

/* Below this the face is edge-on: what shades it would have no place on it. Dimensionless. */
#define LEAST_AIR_COS 1e-6

struct _TwFrontal {
  gatomicrefcount count;
  GArray *faces; /* of TwFaceShade */
};

static void
clear_face (gpointer data)
{
  TwFaceShade *face = data;

  for (guint i = 0; i < face->n_shades; i++)
    tw_area_unref (face->shades[i].shadow);
  g_free (face->shades);
  tw_area_unref (face->free);
  tw_area_unref (face->shared);
}

/* Ids of ports that are covered by one of the hoses given. */
static GHashTable *
ports_under_hoses (const TwPlacement *placement, const TwPlacedSolid *hoses, guint n_hoses)
{
  GHashTable *ports = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < n_hoses; i++) {
    const TwPart *part = tw_drawing_find (tw_placement_drawing (placement), hoses[i].part);
    const TwHose *hose = (const TwHose *)part;

    if (part != NULL && part->kind == TW_KIND_HOSE) {
      g_hash_table_add (ports, (gpointer)hose->from.text);
      g_hash_table_add (ports, (gpointer)hose->to.text);
    }
  }
  return ports;
}

/* Whether a solid may shade @core: a rule of the definition, not of where it lies. */
static gboolean
may_shade (const TwPlacement *placement, const TwPlacedSolid *solid, TwId core, GHashTable *hidden)
{
  const TwPlacedVolume *volume;

  switch (solid->role) {
  case TW_SOLID_HEADER:
  case TW_SOLID_TANK:
    return !tw_id_equal (solid->core, core);
  case TW_SOLID_PORT:
    return !g_hash_table_contains (hidden, solid->part.text);
  case TW_SOLID_HUB:
  case TW_SOLID_HEADER_TANK:
  case TW_SOLID_HOSE:
    return TRUE;
  case TW_SOLID_TAKEN:
    volume = tw_placement_volume (placement, solid->part);
    return volume != NULL
           && (volume->kind == TW_TAKEN_STRUCTURE || volume->kind == TW_TAKEN_HOT
               || volume->kind == TW_TAKEN_MOVING);
  default:
    return FALSE;
  }
}

static int
compare_ids (gconstpointer a, gconstpointer b)
{
  return strcmp (((const TwShade *)a)->part.text, ((const TwShade *)b)->part.text);
}

static int
compare_shades (gconstpointer first, gconstpointer second)
{
  const TwShade *a = first, *b = second;

  if (a->alone_mm2 < b->alone_mm2 || a->alone_mm2 > b->alone_mm2)
    return a->alone_mm2 > b->alone_mm2 ? -1 : 1;
  return compare_ids (a, b);
}

/* One shade for each part in @solids that shades the face. Solids of one part and role stand together. */
static void
add_shades (const TwPlacement *placement,
            const TwLight *light,
            const TwPlacedSolid *solids,
            guint n_solids,
            GHashTable *hidden,
            GArray *shades)
{
  for (guint from = 0, to; from < n_solids; from = to) {
    TwShade shade = { .part = solids[from].part };

    for (to = from + 1; to < n_solids && solids[to].role == solids[from].role
                        && tw_id_equal (solids[to].part, solids[from].part);)
      to++;
    if (!may_shade (placement, &solids[from], light->core->id, hidden))
      continue;
    shade.shadow = tw_light_shadow (light, &solids[from], to - from, &shade.distance_mm);
    shade.shadow_mm2 = tw_area_mm2 (shade.shadow);
    if (shade.shadow_mm2 > TW_FRONTAL_NOTHING_MM2)
      g_array_append_val (shades, shade);
    else
      tw_area_unref (shade.shadow);
  }
}

static void
replace (TwArea **area, TwArea *by)
{
  tw_area_unref (*area);
  *area = by;
}

static TwArea *
join (TwGeos *geos, TwArea *a, TwArea *b)
{
  TwArea *const both[] = { a, b };

  if (tw_area_is_empty (a))
    return tw_area_ref (b);
  return tw_area_union (geos, both, 2);
}

static TwArea *
without (TwGeos *geos, TwArea *a, TwArea *b)
{
  if (!tw_box_overlaps (tw_area_bounds (a), tw_area_bounds (b)))
    return tw_area_ref (a);
  return tw_area_difference (geos, a, b);
}

/* Parts the face: what no shadow covers, what one covers alone, what several do. */
static void
part_face (TwGeos *geos, TwBox box, GArray *shades, TwFaceShade *face)
{
  g_autoptr (TwArea) whole = tw_area_new_box (geos, box);
  TwArea *any = tw_area_new_empty (), *several = tw_area_new_empty ();

  for (guint i = 0; i < shades->len; i++) {
    TwShade *shade = &g_array_index (shades, TwShade, i);
    g_autoptr (TwArea) again = tw_area_intersection (geos, any, shade->shadow);

    if (!tw_area_is_empty (again))
      replace (&several, join (geos, several, again));
    replace (&any, join (geos, any, shade->shadow));
  }
  for (guint i = 0; i < shades->len; i++) {
    TwShade *shade = &g_array_index (shades, TwShade, i);
    g_autoptr (TwArea) alone = without (geos, shade->shadow, several);

    shade->alone_mm2 = tw_area_mm2 (alone);
    shade->alone_share = shade->alone_mm2 / face->face_mm2;
  }
  face->shared = several;
  face->free = without (geos, whole, any);
  tw_area_unref (any);
}

static TwFaceShade
face_of (const TwPlacedCore *core, const GArray *rooms)
{
  TwFaceShade face = {
    .core = core->id,
    .flags = rooms == NULL ? TW_FRONTAL_NO_BAY : 0,
    .face_mm2 = core->face_width_mm * core->face_height_mm,
  };

  face.projected_mm2 = face.face_mm2 * fabs (core->frame.w.z);
  if (core->air_cos < LEAST_AIR_COS)
    face.flags |= TW_FRONTAL_TURNED;
  return face;
}

/* Finishes @face with what shades it. */
static void
add_light (const TwPlacement *placement,
           const TwLight *light,
           const TwPlacedSolid *hoses,
           guint n_hoses,
           TwFaceShade *face)
{
  GArray *shades = g_array_new (FALSE, FALSE, sizeof (TwShade));
  gboolean was_well = tw_geos_trouble (light->geos) == NULL;
  g_autoptr (GHashTable) hidden = ports_under_hoses (placement, hoses, n_hoses);
  guint n;
  const TwPlacedSolid *solids = tw_placement_solids (placement, &n);

  if (!(face->flags & TW_FRONTAL_TURNED)) {
    add_shades (placement, light, solids, n, hidden, shades);
    add_shades (placement, light, hoses, n_hoses, hidden, shades);
  }
  g_array_sort (shades, compare_ids);
  part_face (light->geos, light->core->face, shades, face);
  g_array_sort (shades, compare_shades);

  face->free_mm2 = tw_area_mm2 (face->free);
  face->free_share = face->free_mm2 / face->face_mm2;
  face->shared_mm2 = tw_area_mm2 (face->shared);
  face->shared_share = face->shared_mm2 / face->face_mm2;
  face->n_shades = shades->len;
  face->shades = (TwShade *)(void *)g_array_free (shades, FALSE);
  if (was_well && tw_geos_trouble (light->geos) != NULL)
    face->flags |= TW_FRONTAL_TROUBLE;
}

TwFrontal *
tw_frontal_find (const TwPlacement *placement, TwGeos *geos, const TwPlacedSolid *hoses, guint n_hoses)
{
  TwFrontal *self;
  GArray *rooms;
  guint n;
  const TwPlacedCore *cores;

  g_return_val_if_fail (placement != NULL, NULL);
  g_return_val_if_fail (geos != NULL, NULL);
  g_return_val_if_fail (hoses != NULL || n_hoses == 0, NULL);

  self = g_new0 (TwFrontal, 1);
  g_atomic_ref_count_init (&self->count);
  self->faces = g_array_new (FALSE, FALSE, sizeof (TwFaceShade));
  g_array_set_clear_func (self->faces, clear_face);
  rooms = tw_frontal_rooms (placement);
  cores = tw_placement_cores (placement, &n);
  for (guint i = 0; i < n; i++) {
    TwFaceShade face = face_of (&cores[i], rooms);
    TwLight light = tw_light_on (geos, &cores[i], rooms);

    add_light (placement, &light, hoses, n_hoses, &face);
    g_array_append_val (self->faces, face);
  }
  g_clear_pointer (&rooms, g_array_unref);
  return self;
}

TwFrontal *
tw_frontal_ref (const TwFrontal *self)
{
  TwFrontal *counted = (TwFrontal *)self;

  g_return_val_if_fail (self != NULL, NULL);
  g_atomic_ref_count_inc (&counted->count);
  return counted;
}

void
tw_frontal_unref (TwFrontal *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->count))
    return;
  g_array_unref (self->faces);
  g_free (self);
}

const TwFaceShade *
tw_frontal_faces (const TwFrontal *self, guint *n)
{
  g_return_val_if_fail (self != NULL && n != NULL, NULL);
  *n = self->faces->len;
  return (const TwFaceShade *)(void *)self->faces->data;
}

const TwFaceShade *
tw_frontal_face (const TwFrontal *self, TwId core)
{
  g_return_val_if_fail (self != NULL, NULL);
  for (guint i = 0; i < self->faces->len; i++) {
    const TwFaceShade *face = &g_array_index (self->faces, TwFaceShade, i);

    if (tw_id_equal (face->core, core))
      return face;
  }
  return NULL;
}
