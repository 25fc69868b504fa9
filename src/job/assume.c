/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/assume-private.h"

#include "base/error.h"

#include <math.h>
#include <string.h>

/* Reasons. */
static const char *const why_kind = N_ ("kind of core");
static const char *const why_catalogue = N_ ("catalogue entry of its size");
static const char *const why_drawn = N_ ("from the parts that it belongs to");

static double *
number_at (TwPart *part, guint field)
{
  const TwField *info = &tw_kind_info (part->kind)->fields[field];

  g_assert (info->store == TW_FIELD_NUMBER);
  return &G_STRUCT_MEMBER (double, part, info->offset);
}

static int *
choice_at (TwPart *part, guint field)
{
  const TwField *info = &tw_kind_info (part->kind)->fields[field];

  g_assert (info->store == TW_FIELD_CHOICE || info->store == TW_FIELD_COUNT || info->store == TW_FIELD_FLAG);
  return &G_STRUCT_MEMBER (int, part, info->offset);
}

static void
note (TwAssume *self, const TwPart *part, guint field, const char *why)
{
  TwAssumed row = { part->id, field, why };

  g_array_append_val (self->assumed, row);
}

void
tw_assume_means (TwPart *part, guint field, double number)
{
  double *at = number_at (part, field);

  if (isnan (*at))
    *at = number;
}

void
tw_assume_means_choice (TwPart *part, guint field, int choice)
{
  int *at = choice_at (part, field);

  if (*at < 0)
    *at = choice;
}

void
tw_assume_guess (TwAssume *self, TwPart *part, guint field, double number, const char *why)
{
  double *at = number_at (part, field);

  if (isnan (*at) && !isnan (number)) {
    *at = number;
    note (self, part, field, why);
  }
}

/* A multiple of another figure, to a thousandth of a millimetre, so that it reads as one would write it. */
static double
times (double factor, double figure_mm)
{
  return round (factor * figure_mm * 1000) / 1000;
}

static void
guess_count (TwAssume *self, TwPart *part, guint field, double number, const char *why)
{
  int *at = choice_at (part, field);

  if (*at < 0 && number >= 1) {
    *at = (int)number;
    note (self, part, field, why);
  }
}

static void
guess_text (TwAssume *self, TwPart *part, guint field, const char *text, const char *why)
{
  char **at = &G_STRUCT_MEMBER (char *, part, tw_kind_info (part->kind)->fields[field].offset);

  if (*at == NULL && text != NULL) {
    *at = g_strdup (text);
    note (self, part, field, why);
  }
}

static const TwSettings *
settings_of (const TwAssume *self)
{
  return g_hash_table_lookup (self->by_id, "job");
}

static void
fill_settings (TwAssume *self, TwPart *part)
{
  TwSettings *settings = (TwSettings *)part;

  tw_assume_means_choice (part, TW_SETTINGS_shown_in, TW_SHOWN_IN_MM);
  tw_assume_means_choice (part, TW_SETTINGS_inch_figures, TW_INCH_FRACTIONS);
  tw_assume_means_choice (part, TW_SETTINGS_projection,
                          settings->shown_in == TW_SHOWN_IN_INCH ? TW_PROJECTION_THIRD : TW_PROJECTION_FIRST);
  tw_assume_means (part, TW_SETTINGS_nose_heading_deg, 0);
  tw_assume_guess (self, part, TW_SETTINGS_clearance_mm, 10, TW_ASSUME_USUAL);
  tw_assume_guess (self, part, TW_SETTINGS_hot_clearance_mm, 50, TW_ASSUME_USUAL);
  tw_assume_guess (self, part, TW_SETTINGS_straight_mm, 25, TW_ASSUME_USUAL);
  tw_assume_guess (self, part, TW_SETTINGS_land_mm, 1, TW_ASSUME_USUAL);
}

static void
fill_volume (TwAssume *self, TwPart *part)
{
  TwVolume *volume = (TwVolume *)part;
  const TwSettings *settings = settings_of (self);

  tw_assume_means_choice (part, TW_VOLUME_use, TW_USE_TAKEN);
  tw_assume_means_choice (part, TW_VOLUME_kind, TW_TAKEN_STRUCTURE);
  tw_assume_means_choice (part, TW_VOLUME_plane, 0);
  tw_assume_means (part, TW_VOLUME_clearance_mm,
                   volume->use == TW_USE_TAKEN && volume->kind == TW_TAKEN_HOT ? settings->hot_clearance_mm
                                                                               : settings->clearance_mm);
}

static const TwEntry *
kind_of_core (TwAssume *self, TwPart *part)
{
  const TwCore *core = (const TwCore *)part;
  const TwEntry *entry = NULL;

  if (core->core_kind != NULL)
    entry = tw_catalogue_find (self->catalogue, TW_CATALOGUE_CORE_KINDS, core->core_kind);
  if (entry == NULL && tw_catalogue_count (self->catalogue, TW_CATALOGUE_CORE_KINDS) > 0)
    entry = tw_catalogue_get (self->catalogue, TW_CATALOGUE_CORE_KINDS, 0);
  if (entry != NULL)
    guess_text (self, part, TW_CORE_core_kind, tw_entry_id (entry), TW_ASSUME_USUAL);
  return entry;
}

static double
of_kind (const TwEntry *entry, const char *name)
{
  return entry != NULL ? tw_entry_number (entry, name) : (double)NAN;
}

/* Where a core that is not said to be turned or placed is. */
static void
fill_core_place (TwPart *part)
{
  static const guint zero[]
      = { TW_CORE_x_mm,     TW_CORE_y_mm,     TW_CORE_z_mm,        TW_CORE_turn_deg,
          TW_CORE_lean_deg, TW_CORE_roll_deg, TW_CORE_heading_deg, TW_CORE_header_lip_mm };

  for (guint i = 0; i < G_N_ELEMENTS (zero); i++)
    tw_assume_means (part, zero[i], 0);
  tw_assume_means_choice (part, TW_CORE_air, TW_AIR_ALONG_Z);
  tw_assume_means_choice (part, TW_CORE_tubes, TW_TUBES_LEVEL);
}

static void
fill_core (TwAssume *self, TwPart *part)
{
  static const guint by_kind[]
      = { TW_CORE_thickness_mm,     TW_CORE_tube_pitch_mm,   TW_CORE_tube_height_mm,
          TW_CORE_tube_width_mm,    TW_CORE_tube_wall_mm,    TW_CORE_fin_pitch_mm,
          TW_CORE_fin_thickness_mm, TW_CORE_louvre_pitch_mm, TW_CORE_louvre_length_mm,
          TW_CORE_louvre_deg,       TW_CORE_header_reach_mm, TW_CORE_header_thickness_mm };
  TwCore *core = (TwCore *)part;
  const TwEntry *entry = kind_of_core (self, part);
  double span;

  fill_core_place (part);
  for (guint i = 0; i < G_N_ELEMENTS (by_kind); i++)
    tw_assume_guess (self, part, by_kind[i],
                     of_kind (entry, tw_kind_info (TW_KIND_CORE)->fields[by_kind[i]].name), why_kind);
  guess_count (self, part, TW_CORE_rows, of_kind (entry, "rows"), why_kind);
  guess_text (self, part, TW_CORE_alloy, entry != NULL ? tw_entry_text (entry, "alloy") : NULL, why_kind);
  tw_assume_guess (self, part, TW_CORE_header_width_mm, core->thickness_mm + 12, TW_ASSUME_USUAL);
  tw_assume_guess (self, part, TW_CORE_row_pitch_mm, core->thickness_mm / MAX (1, core->rows), why_drawn);

  span = core->tubes == TW_TUBES_LEVEL ? core->face_height_mm : core->face_width_mm;
  guess_count (self, part, TW_CORE_tube_count, MIN (1000, floor (span / core->tube_pitch_mm + 1e-9)),
               why_drawn);
  if (core->tube_count > 0)
    tw_assume_means (part, TW_CORE_first_tube_mm, (span - (core->tube_count - 1) * core->tube_pitch_mm) / 2);
}

/* The filled part that a field refers to; kinds that are referred to are filled before. */
static gconstpointer
referred (const TwAssume *self, TwId id)
{
  return g_hash_table_lookup (self->by_id, id.text);
}

static void
fill_tank (TwAssume *self, TwPart *part)
{
  TwTank *tank = (TwTank *)part;
  const TwCore *core = referred (self, tank->core);
  const TwEntry *entry
      = tw_catalogue_find (self->catalogue, TW_CATALOGUE_CORE_KINDS, core->core_kind ? core->core_kind : "");
  double span = core->tubes == TW_TUBES_LEVEL ? core->face_height_mm : core->face_width_mm;

  tw_assume_means_choice (part, TW_TANK_side, core->tubes == TW_TUBES_LEVEL ? TW_SIDE_LEFT : TW_SIDE_TOP);
  tw_assume_guess (self, part, TW_TANK_start_mm, -span / 2 - core->header_reach_mm, why_drawn);
  tw_assume_guess (self, part, TW_TANK_end_mm, span / 2 + core->header_reach_mm, why_drawn);
  tw_assume_guess (self, part, TW_TANK_width_mm, core->header_width_mm, why_drawn);
  tw_assume_means (part, TW_TANK_offset_mm, 0);
  tw_assume_guess (self, part, TW_TANK_depth_mm,
                   isnan (of_kind (entry, "tank_depth_mm")) ? 50 : of_kind (entry, "tank_depth_mm"),
                   TW_ASSUME_USUAL);
  tw_assume_means (part, TW_TANK_depth_end_mm, tank->depth_mm);
  tw_assume_guess (self, part, TW_TANK_wall_mm,
                   isnan (of_kind (entry, "tank_wall_mm")) ? 2 : of_kind (entry, "tank_wall_mm"),
                   TW_ASSUME_USUAL);
  tw_assume_guess (self, part, TW_TANK_bend_radius_mm, times (1.5, tank->wall_mm), TW_ASSUME_USUAL);
  tw_assume_means_choice (part, TW_TANK_back, TW_BACK_FLAT);
  tw_assume_means_choice (part, TW_TANK_made, TW_MADE_ONE_PIECE);
  tw_assume_means (part, TW_TANK_lip_mm, 0);
  guess_text (self, part, TW_TANK_alloy, "5052-h32", TW_ASSUME_USUAL);
}

static void
fill_baffle (TwAssume *self, TwPart *part)
{
  const TwTank *tank = referred (self, ((TwBaffle *)part)->tank);

  tw_assume_means_choice (part, TW_BAFFLE_runs, TW_RUNS_ACROSS);
  tw_assume_means (part, TW_BAFFLE_place_mm, 0);
  tw_assume_guess (self, part, TW_BAFFLE_thickness_mm, tank->wall_mm, why_drawn);
  tw_assume_means_choice (part, TW_BAFFLE_seat, TW_SEAT_WELDED);
  if (((TwBaffle *)part)->seat == TW_SEAT_SLIP)
    tw_assume_guess (self, part, TW_BAFFLE_gap_mm, 0.3, TW_ASSUME_USUAL);
}

static void
fill_port (TwAssume *self, TwPart *part)
{
  TwPort *port = (TwPort *)part;
  const TwTank *tank = referred (self, port->tank);
  const TwEntry *entry;

  tw_assume_means_choice (part, TW_PORT_use, TW_PORT_SPARE);
  tw_assume_means_choice (part, TW_PORT_wall, TW_WALL_BACK);
  tw_assume_means_choice (part, TW_PORT_leaves, TW_LEAVES_SQUARE);
  tw_assume_means (part, TW_PORT_along_mm, (tank->start_mm + tank->end_mm) / 2);
  tw_assume_means (part, TW_PORT_across_mm, 0);
  tw_assume_means (part, TW_PORT_out_mm, tank->depth_mm / 2);
  if (port->standard == NULL)
    port->standard = g_strdup ("stub");
  entry = port->size != NULL ? tw_catalogue_port (self->catalogue, port->standard, port->size) : NULL;
  if (entry != NULL) {
    tw_assume_guess (self, part, TW_PORT_outside_mm, tw_entry_number (entry, "outside_mm"), why_catalogue);
    tw_assume_guess (self, part, TW_PORT_bore_mm, tw_entry_number (entry, "bore_mm"), why_catalogue);
    tw_assume_guess (self, part, TW_PORT_boss_mm, tw_entry_number (entry, "boss_mm"), why_catalogue);
  }
  tw_assume_guess (self, part, TW_PORT_stand_out_mm, g_str_equal (port->standard, "stub") ? 40 : 12,
                   TW_ASSUME_USUAL);
}

static void
fill_shroud (TwAssume *self, TwPart *part)
{
  const TwCore *core = referred (self, ((TwShroud *)part)->core);

  tw_assume_means (part, TW_SHROUD_u_mm, 0);
  tw_assume_means (part, TW_SHROUD_v_mm, 0);
  tw_assume_means (part, TW_SHROUD_width_mm, core->face_width_mm);
  tw_assume_means (part, TW_SHROUD_height_mm, core->face_height_mm);
  tw_assume_guess (self, part, TW_SHROUD_plenum_mm, 40, TW_ASSUME_USUAL);
  tw_assume_means_choice (part, TW_SHROUD_stands, TW_STANDS_BEHIND);
  tw_assume_means_choice (part, TW_SHROUD_form, TW_FORM_BOX);
  tw_assume_guess (self, part, TW_SHROUD_wall_mm, 1.5, TW_ASSUME_USUAL);
  tw_assume_means_choice (part, TW_SHROUD_sealed, 1);
}

/* Whether a shroud boxes in the place of a fan, on the fan's side of the core. */
static gboolean
holds_fan (const TwShroud *shroud, const TwFan *fan)
{
  return tw_id_equal (shroud->core, fan->core)
         && (shroud->stands == TW_STANDS_BEHIND) == (fan->blows == TW_BLOWS_PULL)
         && fabs (fan->u_mm - shroud->u_mm) <= shroud->width_mm / 2
         && fabs (fan->v_mm - shroud->v_mm) <= shroud->height_mm / 2;
}

/* The shroud that boxes in a fan's place, or NULL; the first by id where there are several, so that the order
 * of the parts does not matter. */
static const TwShroud *
shroud_round (TwAssume *self, const TwFan *fan)
{
  const TwShroud *found = NULL;

  for (guint i = 0; i < tw_job_count (self->job, TW_KIND_SHROUD); i++) {
    const TwShroud *shroud = referred (self, tw_job_get (self->job, TW_KIND_SHROUD, i)->id);

    if (holds_fan (shroud, fan) && (found == NULL || strcmp (shroud->head.id.text, found->head.id.text) < 0))
      found = shroud;
  }
  return found;
}

static void
fill_fan (TwAssume *self, TwPart *part)
{
  TwFan *fan = (TwFan *)part;
  const TwShroud *shroud;

  tw_assume_means (part, TW_FAN_u_mm, 0);
  tw_assume_means (part, TW_FAN_v_mm, 0);
  tw_assume_means_choice (part, TW_FAN_blows, TW_BLOWS_PULL);
  tw_assume_means (part, TW_FAN_ring_mm, fan->swept_mm);
  tw_assume_guess (self, part, TW_FAN_hub_mm, times (0.4, fan->swept_mm), TW_ASSUME_USUAL);
  tw_assume_guess (self, part, TW_FAN_depth_mm, 65, TW_ASSUME_USUAL);
  shroud = shroud_round (self, fan);
  if (shroud != NULL)
    tw_assume_means (part, TW_FAN_stand_off_mm, shroud->plenum_mm);
  tw_assume_guess (self, part, TW_FAN_stand_off_mm, 15, TW_ASSUME_USUAL);
}

static void
fill_hose (TwAssume *self, TwPart *part)
{
  TwHose *hose = (TwHose *)part;

  tw_assume_means_choice (part, TW_HOSE_made, TW_HOSE_RUBBER);
  tw_assume_guess (self, part, TW_HOSE_wall_mm, hose->made == TW_HOSE_TUBE ? 1.5 : 4.5, TW_ASSUME_USUAL);
  tw_assume_guess (self, part, TW_HOSE_bend_radius_mm, times (3, hose->bore_mm), TW_ASSUME_USUAL);
}

/* Elements: what absence means in them. The list is the copy's own, its elements are not. */
static void
fill_elements (TwPart *part)
{
  for (guint l = 0; l < tw_kind_info (part->kind)->n_lists; l++) {
    GPtrArray *elements = tw_part_list (part, l);

    for (guint i = 0; i < elements->len; i++) {
      TwPart *element = tw_part_copy (g_ptr_array_index (elements, i));

      if (element->kind == TW_KIND_CORNER)
        tw_assume_means (element, TW_CORNER_bow_mm, 0);
      if (element->kind == TW_KIND_VIA)
        tw_assume_means (element, TW_VIA_bend_radius_mm, ((TwHose *)part)->bend_radius_mm);
      if (element->kind == TW_KIND_FLAP) {
        tw_assume_means (element, TW_FLAP_u_mm, 0);
        tw_assume_means (element, TW_FLAP_v_mm, 0);
      }
      tw_part_unref (g_ptr_array_index (elements, i));
      g_ptr_array_index (elements, i) = element;
    }
  }
}

TwPart *
tw_assume_fill (TwAssume *self, const TwPart *part)
{
  static void (*const fill[TW_FIRST_ELEMENT]) (TwAssume *, TwPart *) = {
    [TW_KIND_SETTINGS] = fill_settings,
    [TW_KIND_VOLUME] = fill_volume,
    [TW_KIND_CORE] = fill_core,
    [TW_KIND_TANK] = fill_tank,
    [TW_KIND_BAFFLE] = fill_baffle,
    [TW_KIND_PORT] = fill_port,
    [TW_KIND_SHROUD] = fill_shroud,
    [TW_KIND_FAN] = fill_fan,
    [TW_KIND_ENGINE_PORT] = tw_assume_fill_engine_port,
    [TW_KIND_HOSE] = fill_hose,
    [TW_KIND_HEADER_TANK] = tw_assume_fill_header_tank,
    [TW_KIND_OPENING] = tw_assume_fill_opening,
    [TW_KIND_EXIT] = tw_assume_fill_exit,
  };
  TwPart *copy = tw_part_copy (part);

  fill[part->kind](self, copy);
  fill_elements (copy);
  return copy;
}
