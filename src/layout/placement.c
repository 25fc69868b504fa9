/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/placement.h"

#include "layout/placement-private.h"

static void
clear_solid (gpointer data)
{
  TwPlacedSolid *solid = data;

  tw_convex_unref (solid->convex);
}

static void
clear_volume (gpointer data)
{
  TwPlacedVolume *volume = data;

  tw_area_unref (volume->outline);
}

static void
clear_opening (gpointer data)
{
  TwPlacedOpening *opening = data;

  tw_area_unref (opening->outline);
}

void
tw_placement_add_solid (TwPlacement *self, TwId part, TwId core, TwSolidRole role, TwConvex *convex)
{
  TwPlacedSolid solid = { .part = part, .core = core, .role = role, .convex = convex };

  g_array_append_val (self->solids, solid);
}

/* Stubs and bosses are small. */
#define PORT_SIDES 256

void
tw_placement_add_round (TwPlacement *self,
                        const TwPlacedSolid *like,
                        TwVec from,
                        TwVec to,
                        double diameter_mm)
{
  gboolean is_port = like->role == TW_SOLID_PORT || like->role == TW_SOLID_ENGINE_PORT;
  TwConvex *convex;

  if (!(diameter_mm > 0.0) || !(tw_vec_distance_mm (from, to) > 0.0))
    return;
  convex = is_port ? tw_convex_new_rod (from, to, 0.5 * diameter_mm, PORT_SIDES)
                   : tw_convex_new_cylinder (from, to, 0.5 * diameter_mm);
  tw_placement_add_solid (self, like->part, like->core, like->role, convex);
}

void
tw_placement_add (TwPlacement *self, const TwPart *part, GArray *array, gconstpointer placed, const char *why)
{
  if (why != NULL) {
    TwUnplaced unplaced = { .part = part->id, .why = why };

    g_array_append_val (self->unplaced, unplaced);
    return;
  }
  g_array_append_vals (array, placed, 1);
  g_hash_table_insert (self->places, (gpointer)part->id.text, GUINT_TO_POINTER (array->len));
}

TwPlacement *
tw_placement_new (const TwDrawing *drawing, TwGeos *geos)
{
  TwPlacement *self;

  g_return_val_if_fail (drawing != NULL, NULL);
  g_return_val_if_fail (geos != NULL, NULL);

  self = g_new0 (TwPlacement, 1);
  g_atomic_ref_count_init (&self->count);
  self->drawing = tw_drawing_ref (drawing);
  self->places = g_hash_table_new (g_str_hash, g_str_equal);
  self->cores = g_array_new (FALSE, FALSE, sizeof (TwPlacedCore));
  self->tanks = g_array_new (FALSE, FALSE, sizeof (TwPlacedTank));
  self->baffles = g_array_new (FALSE, FALSE, sizeof (TwPlacedBaffle));
  self->ports = g_array_new (FALSE, FALSE, sizeof (TwPlacedPort));
  self->engine_ports = g_array_new (FALSE, FALSE, sizeof (TwPlacedEnginePort));
  self->shrouds = g_array_new (FALSE, FALSE, sizeof (TwPlacedShroud));
  self->flaps = g_array_new (FALSE, FALSE, sizeof (TwPlacedFlap));
  self->fans = g_array_new (FALSE, FALSE, sizeof (TwPlacedFan));
  self->volumes = g_array_new (FALSE, FALSE, sizeof (TwPlacedVolume));
  g_array_set_clear_func (self->volumes, clear_volume);
  self->header_tanks = g_array_new (FALSE, FALSE, sizeof (TwPlacedHeaderTank));
  self->openings = g_array_new (FALSE, FALSE, sizeof (TwPlacedOpening));
  g_array_set_clear_func (self->openings, clear_opening);
  self->solids = g_array_new (FALSE, FALSE, sizeof (TwPlacedSolid));
  g_array_set_clear_func (self->solids, clear_solid);
  self->unplaced = g_array_new (FALSE, FALSE, sizeof (TwUnplaced));

  tw_placement_place_cores (self);
  tw_placement_place_tanks (self);
  tw_placement_place_baffles (self);
  tw_placement_place_ports (self);
  tw_placement_place_fans (self);
  tw_placement_place_engine_ports (self);
  tw_placement_place_header_tanks (self);
  tw_placement_place_openings (self, geos);
  tw_placement_place_volumes (self, geos);
  return self;
}

TwPlacement *
tw_placement_ref (const TwPlacement *self)
{
  TwPlacement *counted = (TwPlacement *)self;

  g_return_val_if_fail (self != NULL, NULL);
  g_atomic_ref_count_inc (&counted->count);
  return counted;
}

void
tw_placement_unref (TwPlacement *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->count))
    return;
  g_array_unref (self->cores);
  g_array_unref (self->tanks);
  g_array_unref (self->baffles);
  g_array_unref (self->ports);
  g_array_unref (self->engine_ports);
  g_array_unref (self->shrouds);
  g_array_unref (self->flaps);
  g_array_unref (self->fans);
  g_array_unref (self->volumes);
  g_array_unref (self->header_tanks);
  g_array_unref (self->openings);
  g_array_unref (self->solids);
  g_array_unref (self->unplaced);
  g_hash_table_unref (self->places);
  tw_drawing_unref (self->drawing);
  g_free (self);
}

const TwDrawing *
tw_placement_drawing (const TwPlacement *self)
{
  g_return_val_if_fail (self != NULL, NULL);
  return self->drawing;
}

static gconstpointer
all_of (const GArray *array, guint *n)
{
  *n = array->len;
  return array->data;
}

/* Part of the kind that @array holds; every placed part begins with its id. */
static gconstpointer
find (const TwPlacement *self, const GArray *array, TwId id)
{
  guint place = GPOINTER_TO_UINT (g_hash_table_lookup (self->places, id.text));
  const TwId *found;

  if (place == 0 || place > array->len)
    return NULL;
  found = (const TwId *)(array->data + (gsize)(place - 1) * g_array_get_element_size ((GArray *)array));
  return tw_id_equal (*found, id) ? found : NULL;
}

const TwPlacedCore *
tw_placement_cores (const TwPlacement *self, guint *n)
{
  return all_of (self->cores, n);
}

const TwPlacedTank *
tw_placement_tanks (const TwPlacement *self, guint *n)
{
  return all_of (self->tanks, n);
}

const TwPlacedBaffle *
tw_placement_baffles (const TwPlacement *self, guint *n)
{
  return all_of (self->baffles, n);
}

const TwPlacedPort *
tw_placement_ports (const TwPlacement *self, guint *n)
{
  return all_of (self->ports, n);
}

const TwPlacedEnginePort *
tw_placement_engine_ports (const TwPlacement *self, guint *n)
{
  return all_of (self->engine_ports, n);
}

const TwPlacedShroud *
tw_placement_shrouds (const TwPlacement *self, guint *n)
{
  return all_of (self->shrouds, n);
}

const TwPlacedFlap *
tw_placement_flaps (const TwPlacement *self, guint *n)
{
  return all_of (self->flaps, n);
}

const TwPlacedFan *
tw_placement_fans (const TwPlacement *self, guint *n)
{
  return all_of (self->fans, n);
}

const TwPlacedVolume *
tw_placement_volumes (const TwPlacement *self, guint *n)
{
  return all_of (self->volumes, n);
}

const TwPlacedHeaderTank *
tw_placement_header_tanks (const TwPlacement *self, guint *n)
{
  return all_of (self->header_tanks, n);
}

const TwPlacedOpening *
tw_placement_openings (const TwPlacement *self, guint *n)
{
  return all_of (self->openings, n);
}

const TwPlacedSolid *
tw_placement_solids (const TwPlacement *self, guint *n)
{
  return all_of (self->solids, n);
}

const TwUnplaced *
tw_placement_unplaced (const TwPlacement *self, guint *n)
{
  return all_of (self->unplaced, n);
}

const TwPlacedCore *
tw_placement_core (const TwPlacement *self, TwId id)
{
  return find (self, self->cores, id);
}

const TwPlacedTank *
tw_placement_tank (const TwPlacement *self, TwId id)
{
  return find (self, self->tanks, id);
}

const TwPlacedBaffle *
tw_placement_baffle (const TwPlacement *self, TwId id)
{
  return find (self, self->baffles, id);
}

const TwPlacedPort *
tw_placement_port (const TwPlacement *self, TwId id)
{
  return find (self, self->ports, id);
}

const TwPlacedEnginePort *
tw_placement_engine_port (const TwPlacement *self, TwId id)
{
  return find (self, self->engine_ports, id);
}

const TwPlacedShroud *
tw_placement_shroud (const TwPlacement *self, TwId id)
{
  return find (self, self->shrouds, id);
}

const TwPlacedFan *
tw_placement_fan (const TwPlacement *self, TwId id)
{
  return find (self, self->fans, id);
}

const TwPlacedVolume *
tw_placement_volume (const TwPlacement *self, TwId id)
{
  return find (self, self->volumes, id);
}

const TwPlacedHeaderTank *
tw_placement_header_tank (const TwPlacement *self, TwId id)
{
  return find (self, self->header_tanks, id);
}

const TwPlacedOpening *
tw_placement_opening (const TwPlacement *self, TwId id)
{
  return find (self, self->openings, id);
}

TwPoint
tw_placed_core_shade (const TwPlacedCore *core, TwVec at)
{
  TwVec uvw = tw_frame_from_job (&core->frame, at);
  TwVec air = tw_frame_turn_from_job (&core->frame, core->air);

  g_return_val_if_fail (air.z > 0.0, ((TwPoint){ 0 }));
  return (TwPoint){ uvw.x - air.x * uvw.z / air.z, uvw.y - air.y * uvw.z / air.z };
}
