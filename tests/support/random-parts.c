/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * random-parts.c - one random part of each kind, that fits the parts which are there
 */
#include "support/random-private.h"

#include <math.h>

#define RANGE(low, high) ((const double[]){ (low), (high) })

/* Any part of the job of @kind, or NULL. */
static const TwPart *
any (TwThrow *self, TwKind kind)
{
  guint n = tw_job_count (self->job, kind);

  return n > 0 ? tw_job_get (self->job, kind, (guint)tw_throw_int (self, 0, (int)n - 1)) : NULL;
}

static double
known (double value, double otherwise)
{
  return isnan (value) ? otherwise : value;
}

/* Length of the header of @core, and half of it when nothing else is known. */
static double
header_mm (const TwCore *core)
{
  return known (core->tubes == TW_TUBES_UPRIGHT ? core->face_width_mm : core->face_height_mm, 300);
}

static void
throw_place (TwThrow *self, TwPart *part)
{
  tw_throw_put (self, part, TW_CORE_x_mm, tw_throw_length (self, -400, 400));
  tw_throw_put (self, part, TW_CORE_y_mm, tw_throw_length (self, 100, 1200));
  tw_throw_put (self, part, TW_CORE_z_mm, tw_throw_length (self, -300, 300));
  if (tw_throw_chance (self, 0.5))
    return;
  if (tw_throw_chance (self, 0.6))
    ((TwCore *)part)->lean_deg = tw_throw_int (self, -60, 60);
  if (tw_throw_chance (self, 0.2))
    ((TwCore *)part)->turn_deg
        = tw_throw_chance (self, 0.5) ? 90 * tw_throw_int (self, -2, 2) : tw_throw_double (self, -180, 180);
  if (tw_throw_chance (self, 0.2))
    ((TwCore *)part)->roll_deg = tw_throw_double (self, -30, 30);
  if (tw_throw_chance (self, 0.2))
    ((TwCore *)part)->heading_deg = tw_throw_double (self, -90, 90);
}

/* 1 to 400 tubes, as many small cores as large ones. */
static void
throw_core (TwThrow *self, TwPart *part)
{
  TwCore *core = (TwCore *)part;
  int n = (int)floor (exp (tw_throw_double (self, 0, log (400.999))));
  double pitch_mm = tw_throw_length (self, 6, MIN (14, 4500.0 / n)),
         width_mm = tw_throw_length (self, 14, 60);
  double along_mm = MAX (20, n * pitch_mm), tube_mm = tw_throw_length (self, 80, 1100);
  static const char *const kinds[]
      = { "single-row-fine", "two-row-coarse", "single-row-thin", "no-such-kind" };

  core->tubes = tw_throw_chance (self, 0.1) ? -1 : tw_throw_int (self, TW_TUBES_LEVEL, TW_TUBES_UPRIGHT);
  core->rows = tw_throw_int (self, 1, 4);
  core->tube_count = tw_throw_chance (self, 0.9) ? n : -1;
  if (tw_throw_chance (self, 0.7))
    core->core_kind = g_strdup (kinds[tw_throw_int (self, 0, 3)]);
  if (core->tubes == TW_TUBES_UPRIGHT) {
    tw_throw_put (self, part, TW_CORE_face_width_mm, along_mm);
    tw_throw_put (self, part, TW_CORE_face_height_mm, tube_mm);
  } else {
    tw_throw_put (self, part, TW_CORE_face_width_mm, tube_mm);
    tw_throw_put (self, part, TW_CORE_face_height_mm, along_mm);
  }
  tw_throw_put (self, part, TW_CORE_tube_pitch_mm, pitch_mm);
  tw_throw_put (self, part, TW_CORE_tube_width_mm, width_mm);
  tw_throw_put (self, part, TW_CORE_thickness_mm, core->rows * (width_mm + 2));
  tw_throw_maybe (self, part, TW_CORE_tube_height_mm, RANGE (1.5, 3), 0.8);
  tw_throw_maybe (self, part, TW_CORE_tube_wall_mm, RANGE (0.25, 0.5), 0.7);
  tw_throw_maybe (self, part, TW_CORE_fin_pitch_mm, RANGE (1, 3), 0.6);
  tw_throw_maybe (self, part, TW_CORE_header_reach_mm, RANGE (0, 12), 0.7);
  tw_throw_maybe (self, part, TW_CORE_header_thickness_mm, RANGE (1, 3), 0.7);
  tw_throw_maybe (self, part, TW_CORE_header_lip_mm, RANGE (4, 20), 0.15);
  if (tw_throw_chance (self, 0.6))
    tw_throw_put (self, part, TW_CORE_header_width_mm,
                  core->rows * (width_mm + 2) + tw_throw_length (self, 4, 16));
  throw_place (self, part);
  for (int i = tw_throw_chance (self, 0.15) ? tw_throw_int (self, 1, 5) : 0; i > 0; i--) {
    TwPlug *plug = tw_throw_element (part, core->plugged, TW_KIND_PLUG);

    plug->tube = tw_throw_int (self, 1, n);
    plug->row = tw_throw_chance (self, 0.5) ? -1 : tw_throw_int (self, 1, core->rows);
  }
}

static void
throw_tank (TwThrow *self, TwPart *part)
{
  TwTank *tank = (TwTank *)part;
  const TwCore *core = (const TwCore *)tw_job_find (self->job, tank->core);
  gboolean upright = core->tubes == TW_TUBES_UPRIGHT;

  tank->side = upright ? tw_throw_int (self, TW_SIDE_TOP, TW_SIDE_BOTTOM)
                       : tw_throw_int (self, TW_SIDE_LEFT, TW_SIDE_RIGHT);
  tw_throw_maybe (self, part, TW_TANK_depth_mm, RANGE (25, 120), 0.9);
  tw_throw_maybe (self, part, TW_TANK_wall_mm, RANGE (1.2, 3), 0.8);
  tw_throw_maybe (self, part, TW_TANK_bend_radius_mm, RANGE (0, 6), 0.5);
  tw_throw_maybe (self, part, TW_TANK_lip_mm, RANGE (0, 5), 0.2);
  tw_throw_maybe (self, part, TW_TANK_offset_mm, RANGE (-4, 4), 0.1);
  if (tw_throw_chance (self, 0.3))
    tank->alloy = g_strdup (tw_throw_chance (self, 0.8) ? "3003-h14" : "unobtainium");
  if (tw_throw_chance (self, 0.3))
    tank->back = tw_throw_int (self, TW_BACK_FLAT, TW_BACK_ROUND);
  if (tank->back == TW_BACK_TAPERED)
    tw_throw_put (self, part, TW_TANK_depth_end_mm, tw_throw_length (self, 25, 120));
}

/* In a gap between two tubes as a builder would, now and then anywhere. */
static void
throw_baffle (TwThrow *self, TwPart *part)
{
  TwBaffle *baffle = (TwBaffle *)part;
  const TwTank *tank = (const TwTank *)tw_job_find (self->job, baffle->tank);
  const TwCore *core = (const TwCore *)tw_job_find (self->job, tank->core);
  double pitch_mm = known (core->tube_pitch_mm, 10), half_mm = header_mm (core) / 2;
  double low_mm = known (tank->start_mm, -half_mm), high_mm = known (tank->end_mm, half_mm);
  double place_mm = tw_throw_double (self, low_mm, high_mm);

  if (tw_throw_chance (self, 0.85)) {
    double first_mm = half_mm - (core->tube_count > 0 ? (core->tube_count - 1) * pitch_mm / 2 : half_mm);

    first_mm = known (core->first_tube_mm, half_mm - (half_mm - first_mm));
    place_mm
        = half_mm - first_mm - (round ((half_mm - first_mm - place_mm) / pitch_mm - 0.5) + 0.5) * pitch_mm;
  }
  tw_throw_put (self, part, TW_BAFFLE_place_mm, place_mm);
  tw_throw_maybe (self, part, TW_BAFFLE_thickness_mm, RANGE (1, 3), 0.5);
  if (tw_throw_chance (self, 0.05)) {
    baffle->runs = TW_RUNS_ALONG;
    tw_throw_put (self, part, TW_BAFFLE_place_mm, 0);
  }
  if (tw_throw_chance (self, 0.2))
    baffle->seat = TW_SEAT_SLIP;
}

static void
throw_port (TwThrow *self, TwPart *part)
{
  static const char *const sizes[][2]
      = { { "stub", "32" },     { "stub", "1 1/2" },       { "stub", "19" },          { "npt", "1/4" },
          { "npt", "3/8" },     { "iso-6149", "M14x1.5" }, { "iso-6149", "M12x1.5" }, { "iso-11926", "-8" },
          { "iso-228", "1/2" }, { "flare-37", "-16" },     { "iso-6149", "M13" } };
  TwPort *port = (TwPort *)part;
  const TwTank *tank = (const TwTank *)tw_job_find (self->job, port->tank);
  double half_mm = header_mm ((const TwCore *)tw_job_find (self->job, tank->core)) / 2;
  double low_mm = known (tank->start_mm, -half_mm), high_mm = known (tank->end_mm, half_mm);
  double margin_mm = MIN (30, (high_mm - low_mm) / 3);
  const char *const *size = sizes[tw_throw_int (self, 0, G_N_ELEMENTS (sizes) - 1)];

  port->use = tw_throw_int (self, -1, TW_PORT_SPARE);
  port->wall = tw_throw_int (self, -1, TW_WALL_END);
  tw_throw_maybe (self, part, TW_PORT_along_mm, RANGE (low_mm + margin_mm, high_mm - margin_mm), 0.9);
  tw_throw_maybe (self, part, TW_PORT_out_mm, RANGE (15, 40), 0.4);
  tw_throw_maybe (self, part, TW_PORT_across_mm, RANGE (-8, 8), 0.2);
  tw_throw_maybe (self, part, TW_PORT_stand_out_mm, RANGE (6, 60), 0.7);
  if (tw_throw_chance (self, 0.1))
    port->leaves = tw_throw_int (self, TW_LEAVES_SQUARE, TW_LEAVES_DOWNSTREAM);
  if (tw_throw_chance (self, 0.85)) {
    port->standard = g_strdup (size[0]);
    port->size = g_strdup (size[1]);
  }
  tw_throw_maybe (self, part, TW_PORT_outside_mm, RANGE (15, 50), 0.4);
  tw_throw_maybe (self, part, TW_PORT_bore_mm, RANGE (8, 45), 0.4);
}

static void
throw_shroud (TwThrow *self, TwPart *part)
{
  TwShroud *shroud = (TwShroud *)part;
  const TwCore *core = (const TwCore *)tw_job_find (self->job, shroud->core);
  double width_mm = known (core->face_width_mm, 300), height_mm = known (core->face_height_mm, 300);

  tw_throw_maybe (self, part, TW_SHROUD_u_mm, RANGE (-width_mm / 10, width_mm / 10), 0.3);
  tw_throw_maybe (self, part, TW_SHROUD_v_mm, RANGE (-height_mm / 10, height_mm / 10), 0.3);
  tw_throw_maybe (self, part, TW_SHROUD_width_mm, RANGE (width_mm / 2, width_mm), 0.8);
  tw_throw_maybe (self, part, TW_SHROUD_height_mm, RANGE (height_mm / 2, height_mm), 0.8);
  tw_throw_maybe (self, part, TW_SHROUD_plenum_mm, RANGE (10, 90), 0.8);
  shroud->stands = tw_throw_chance (self, 0.1) ? TW_STANDS_BEFORE : -1;
  shroud->form = tw_throw_int (self, -1, TW_FORM_TAPERED);
  shroud->sealed = tw_throw_int (self, -1, 1);
  for (int i = tw_throw_chance (self, 0.3) ? tw_throw_int (self, 1, 3) : 0; i > 0; i--) {
    TwFlap *flap = tw_throw_element (part, shroud->flaps, TW_KIND_FLAP);

    flap->u_mm = tw_throw_length (self, -width_mm / 3, width_mm / 3);
    flap->v_mm = tw_throw_length (self, -height_mm / 3, height_mm / 3);
    flap->width_mm = tw_throw_length (self, 5, MAX (6, width_mm / 6));
    flap->height_mm = tw_throw_length (self, 5, MAX (6, height_mm / 3));
  }
}

static void
throw_fan (TwThrow *self, TwPart *part)
{
  TwFan *fan = (TwFan *)part;
  const TwCore *core = (const TwCore *)tw_job_find (self->job, fan->core);
  double width_mm = known (core->face_width_mm, 300), height_mm = known (core->face_height_mm, 300);
  double swept_mm = tw_throw_length (self, 40, MAX (60, 0.95 * MIN (width_mm, height_mm)));
  double flow_m3_s = 0;

  tw_throw_maybe (self, part, TW_FAN_u_mm, RANGE (-width_mm / 2.5, width_mm / 2.5), 0.9);
  tw_throw_maybe (self, part, TW_FAN_v_mm, RANGE (-height_mm / 4, height_mm / 4), 0.5);
  tw_throw_put (self, part, TW_FAN_swept_mm, swept_mm);
  if (tw_throw_chance (self, 0.8))
    tw_throw_put (self, part, TW_FAN_ring_mm, swept_mm + tw_throw_length (self, 2, 14));
  tw_throw_maybe (self, part, TW_FAN_hub_mm, RANGE (swept_mm / 4, swept_mm / 2), 0.8);
  tw_throw_maybe (self, part, TW_FAN_depth_mm, RANGE (30, 100), 0.8);
  fan->blows = tw_throw_chance (self, 0.15)  ? TW_BLOWS_PUSH
               : tw_throw_chance (self, 0.5) ? TW_BLOWS_PULL
                                             : -1;
  fan->rated_v = tw_throw_chance (self, 0.7) ? 13 : (double)NAN;
  fan->current_a = tw_throw_chance (self, 0.7) ? tw_throw_double (self, 5, 40) : (double)NAN;
  for (int i = tw_throw_int (self, 0, 6); i > 0; i--) {
    TwCurvePoint *point = tw_throw_element (part, fan->curve, TW_KIND_CURVE_POINT);

    point->flow_m3_s = flow_m3_s;
    point->pressure_pa = 60 * (i - 1) + tw_throw_double (self, 0, 50);
    flow_m3_s += tw_throw_double (self, 0.05, 0.3);
  }
}

static void
throw_engine_port (TwThrow *self, TwPart *part)
{
  TwEnginePort *port = (TwEnginePort *)part;

  port->use = tw_throw_int (self, -1, TW_ENGINE_RETURN);
  tw_throw_put (self, part, TW_ENGINE_PORT_x_mm, tw_throw_length (self, -600, 600));
  tw_throw_put (self, part, TW_ENGINE_PORT_y_mm, tw_throw_length (self, 0, 1200));
  tw_throw_put (self, part, TW_ENGINE_PORT_z_mm, tw_throw_length (self, -2500, -300));
  port->leaves = tw_throw_int (self, -1, TW_LEAVES_AXIS_DOWNSTREAM);
  tw_throw_maybe (self, part, TW_ENGINE_PORT_outside_mm, RANGE (15, 50), 0.5);
}

static TwId
hose_end (TwThrow *self)
{
  const TwPart *end = any (self, tw_throw_chance (self, 0.7) ? TW_KIND_PORT : TW_KIND_ENGINE_PORT);

  if (end == NULL)
    end = any (self, TW_KIND_PORT);
  return end != NULL ? end->id : TW_ID_NONE;
}

static gboolean
throw_hose (TwThrow *self, TwPart *part)
{
  TwHose *hose = (TwHose *)part;

  hose->from = hose_end (self);
  hose->to = hose_end (self);
  if (tw_id_is_none (hose->from) || tw_id_is_none (hose->to))
    return FALSE;
  tw_throw_maybe (self, part, TW_HOSE_bore_mm, RANGE (10, 50), 0.95);
  tw_throw_maybe (self, part, TW_HOSE_bend_radius_mm, RANGE (25, 120), 0.8);
  tw_throw_maybe (self, part, TW_HOSE_least_radius_mm, RANGE (25, 120), 0.3);
  hose->made = tw_throw_int (self, -1, TW_HOSE_TUBE);
  for (int i = tw_throw_int (self, 0, 5); i > 0; i--) {
    TwVia *via = tw_throw_element (part, hose->vias, TW_KIND_VIA);

    tw_throw_put (self, via, TW_VIA_x_mm, tw_throw_length (self, -700, 700));
    tw_throw_put (self, via, TW_VIA_y_mm, tw_throw_length (self, 0, 1300));
    tw_throw_put (self, via, TW_VIA_z_mm, tw_throw_length (self, -2500, 400));
    tw_throw_maybe (self, via, TW_VIA_bend_radius_mm, RANGE (25, 120), 0.1);
  }
  return TRUE;
}

/* A ring round a middle: box, circle, or a polygon whose edges may be bowed a little. */
static void
throw_ring (TwThrow *self, gpointer part, GPtrArray *ring, const double middle_mm[2], double radius_mm)
{
  int n = tw_throw_chance (self, 0.3) ? 2 : tw_throw_int (self, 3, 9);
  double turned_rad = tw_throw_double (self, 0, 2 * G_PI);
  gboolean bowed = tw_throw_chance (self, 0.2);

  for (int i = 0; i < n; i++) {
    double jitter = n == 2 ? 0 : tw_throw_double (self, -0.1, 0.1);
    double angle_rad = turned_rad + 2 * G_PI * (i + jitter) / n;
    double r_mm = n == 2 ? radius_mm : radius_mm * tw_throw_double (self, 0.7, 1);
    TwPart *corner = tw_throw_element (part, ring, TW_KIND_CORNER);

    tw_throw_put (self, corner, TW_CORNER_across_mm, middle_mm[0] + r_mm * cos (angle_rad));
    tw_throw_put (self, corner, TW_CORNER_up_mm, middle_mm[1] + r_mm * sin (angle_rad));
    if (n == 2 || bowed)
      tw_throw_put (self, corner, TW_CORNER_bow_mm,
                    n == 2 ? -radius_mm : radius_mm * tw_throw_double (self, -0.03, 0.03));
  }
}

static void
throw_volume (TwThrow *self, TwPart *part)
{
  TwVolume *volume = (TwVolume *)part;
  gboolean free = tw_throw_chance (self, 0.3);
  double radius_mm = free ? tw_throw_length (self, 400, 900) : tw_throw_length (self, 10, 300);
  double middle_mm[2] = { tw_throw_length (self, -300, 300), tw_throw_length (self, 200, 900) };
  double from_mm = tw_throw_length (self, -800, 200), depth_mm = free ? 900 : 150;

  volume->use = free ? TW_USE_FREE : tw_throw_chance (self, 0.5) ? TW_USE_TAKEN : -1;
  volume->kind = free ? -1 : tw_throw_int (self, -1, TW_TAKEN_OTHER);
  volume->plane = free ? TW_DRAWN_FRONT : tw_throw_int (self, -1, TW_DRAWN_PLAN);
  if (volume->plane == TW_DRAWN_PLAN)
    middle_mm[1] -= 600;
  tw_throw_put (self, part, TW_VOLUME_from_mm, from_mm);
  tw_throw_put (self, part, TW_VOLUME_to_mm, from_mm + depth_mm + tw_throw_length (self, 0, 300));
  tw_throw_maybe (self, part, TW_VOLUME_clearance_mm, RANGE (0, 60), 0.2);
  throw_ring (self, volume, volume->outline, middle_mm, radius_mm);
  if (tw_throw_chance (self, 0.15))
    throw_ring (self, volume, volume->hole, middle_mm, radius_mm / 10);
}

static void
throw_header_tank (TwThrow *self, TwPart *part)
{
  TwHeaderTank *tank = (TwHeaderTank *)part;

  tank->use = tw_throw_int (self, -1, TW_VESSEL_CATCH);
  tank->form = tw_throw_int (self, -1, TW_VESSEL_LEVEL);
  tw_throw_put (self, part, TW_HEADER_TANK_x_mm, tw_throw_length (self, -600, 600));
  tw_throw_put (self, part, TW_HEADER_TANK_y_mm, tw_throw_length (self, 100, 1400));
  tw_throw_put (self, part, TW_HEADER_TANK_z_mm, tw_throw_length (self, -700, 400));
  for (guint field = TW_HEADER_TANK_width_mm; field <= TW_HEADER_TANK_length_mm; field++)
    tw_throw_maybe (self, part, field, RANGE (50, 300), 0.95);
  tw_throw_maybe (self, part, TW_HEADER_TANK_wall_mm, RANGE (1, 3), 0.5);
  tank->heading_deg = tw_throw_chance (self, 0.3) ? tw_throw_int (self, -180, 180) : (double)NAN;
  tank->volume_l = tw_throw_chance (self, 0.3) ? tw_throw_double (self, 0.2, 8) : (double)NAN;
  tank->cold_share = tw_throw_chance (self, 0.5) ? tw_throw_double (self, 0, 1) : (double)NAN;
  tank->cap_kpa = tw_throw_chance (self, 0.5) ? tw_throw_double (self, 20, 150) : (double)NAN;
}

/* An exit has the fields of an opening. */
static void
throw_opening (TwThrow *self, TwPart *part)
{
  TwOpening *opening = (TwOpening *)part;
  double middle_mm[2] = { tw_throw_length (self, -600, 600), tw_throw_length (self, 100, 900) };

  opening->plane = tw_throw_int (self, -1, TW_DRAWN_PLAN);
  opening->way = tw_throw_int (self, -1, TW_WAY_AGAINST);
  opening->pressure = tw_throw_int (self, -1, TW_PRESSURE_UNDER_BODY);
  tw_throw_maybe (self, part, TW_OPENING_at_mm, RANGE (-1200, 600), 0.9);
  if (tw_throw_chance (self, 0.4)) {
    throw_ring (self, part, opening->outline, middle_mm, tw_throw_length (self, 40, 300));
    return;
  }
  tw_throw_put (self, part, TW_OPENING_across_mm, middle_mm[0]);
  tw_throw_put (self, part, TW_OPENING_up_mm, middle_mm[1]);
  tw_throw_maybe (self, part, TW_OPENING_width_mm, RANGE (40, 600), 0.97);
  tw_throw_maybe (self, part, TW_OPENING_height_mm, RANGE (40, 300), 0.97);
}

static void
throw_name (TwThrow *self, TwPart *part)
{
  int field = tw_kind_field (part->kind, "name");
  TwValue value;

  if (field < 0 || tw_throw_chance (self, 0.2))
    return;
  value = (TwValue){ .store = TW_FIELD_TEXT,
                     .number = (double)NAN,
                     .choice = -1,
                     .text = tw_throw_name (self, tw_kind_info (part->kind)->noun) };
  tw_part_put (part, (guint)field, &value);
}

TwPart *
tw_throw_part (TwThrow *self, TwKind kind, TwId id)
{
  static const TwKind of[TW_FIRST_ELEMENT] = { [TW_KIND_TANK] = TW_KIND_CORE,
                                               [TW_KIND_BAFFLE] = TW_KIND_TANK,
                                               [TW_KIND_PORT] = TW_KIND_TANK,
                                               [TW_KIND_SHROUD] = TW_KIND_CORE,
                                               [TW_KIND_FAN] = TW_KIND_CORE };
  static void (*const throws[TW_FIRST_ELEMENT]) (TwThrow *, TwPart *)
      = { [TW_KIND_VOLUME] = throw_volume,
          [TW_KIND_CORE] = throw_core,
          [TW_KIND_TANK] = throw_tank,
          [TW_KIND_BAFFLE] = throw_baffle,
          [TW_KIND_PORT] = throw_port,
          [TW_KIND_SHROUD] = throw_shroud,
          [TW_KIND_FAN] = throw_fan,
          [TW_KIND_ENGINE_PORT] = throw_engine_port,
          [TW_KIND_HEADER_TANK] = throw_header_tank,
          [TW_KIND_OPENING] = throw_opening,
          [TW_KIND_EXIT] = throw_opening };
  const TwPart *owner = of[kind] != 0 ? any (self, of[kind]) : NULL;
  g_autoptr (TwPart) part = tw_part_new (kind, id);
  int field = of[kind] != 0 ? tw_kind_field (kind, tw_kind_info (of[kind])->stem) : -1;

  if (of[kind] != 0 && owner == NULL)
    return NULL;
  if (field >= 0) {
    TwValue value = tw_value_ref (owner->id);

    tw_part_put (part, (guint)field, &value);
  }
  throw_name (self, part);
  if (kind == TW_KIND_HOSE && !throw_hose (self, part))
    return NULL;
  if (kind != TW_KIND_HOSE)
    throws[kind](self, part);
  part->extra = tw_throw_extra (self, 0.05);
  return g_steal_pointer (&part);
}
