/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/make-job.h"

#include <math.h>

static TwId
id_of (const char *text)
{
  TwId id;

  if (!tw_id_from_text (text, &id))
    g_error ("\"%s\" is no id", text);
  return id;
}

static TwPart *
new_part (TwJob *job, TwKind kind)
{
  return tw_part_new (kind, tw_job_new_id (job, kind));
}

/* Puts the part into the job and says under which id. */
static TwId
insert (TwJob *job, gpointer part)
{
  TwId id = ((TwPart *)part)->id;

  tw_job_insert (job, part, -1);
  return id;
}

static void
insert_tank (TwJob *job, int side, double half_mm)
{
  TwTank *tank = (TwTank *)new_part (job, TW_KIND_TANK);

  tank->core = id_of ("core-1");
  tank->side = side;
  tank->start_mm = -half_mm;
  tank->end_mm = half_mm;
  tank->width_mm = TW_MAKE_THICKNESS_MM + 12;
  tank->offset_mm = 0;
  tank->depth_mm = tank->depth_end_mm = 50;
  tank->wall_mm = 2;
  tank->bend_radius_mm = 3;
  tank->back = TW_BACK_FLAT;
  tank->lip_mm = 0;
  tank->alloy = g_strdup ("5052-h32");
  tank->made = TW_MADE_ONE_PIECE;
  insert (job, tank);
}

static void
insert_core (TwJob *job, int tubes, guint n_tubes)
{
  TwCore *core = (TwCore *)new_part (job, TW_KIND_CORE);
  double along_mm = n_tubes * TW_MAKE_PITCH_MM;

  core->core_kind = g_strdup ("single-row-fine");
  core->x_mm = core->y_mm = core->z_mm = 0;
  core->turn_deg = core->lean_deg = core->roll_deg = core->heading_deg = 0;
  core->air = TW_AIR_ALONG_Z;
  core->face_width_mm = tubes == TW_TUBES_LEVEL ? TW_MAKE_TUBE_LENGTH_MM : along_mm;
  core->face_height_mm = tubes == TW_TUBES_LEVEL ? along_mm : TW_MAKE_TUBE_LENGTH_MM;
  core->thickness_mm = TW_MAKE_THICKNESS_MM;
  core->tubes = tubes;
  core->tube_count = (int)n_tubes;
  core->rows = 1;
  core->tube_pitch_mm = TW_MAKE_PITCH_MM;
  core->first_tube_mm = TW_MAKE_PITCH_MM / 2;
  core->tube_height_mm = TW_MAKE_TUBE_HEIGHT_MM;
  core->tube_width_mm = TW_MAKE_TUBE_WIDTH_MM;
  core->tube_wall_mm = 0.3;
  core->row_pitch_mm = TW_MAKE_THICKNESS_MM;
  core->fin_pitch_mm = 1.5;
  core->fin_thickness_mm = 0.1;
  core->louvre_pitch_mm = 1.2;
  core->louvre_length_mm = 6.8;
  core->louvre_deg = 27;
  core->header_reach_mm = 5;
  core->header_width_mm = TW_MAKE_THICKNESS_MM + 12;
  core->header_thickness_mm = 2;
  core->header_lip_mm = 0;
  core->alloy = g_strdup ("3003-o");
  insert (job, core);
}

TwJob *
tw_make_job (int tubes, guint n_tubes)
{
  TwJob *job = tw_job_new ();
  double half_mm = n_tubes * TW_MAKE_PITCH_MM / 2 + 5;

  insert_core (job, tubes, n_tubes);
  insert_tank (job, tubes == TW_TUBES_LEVEL ? TW_SIDE_LEFT : TW_SIDE_TOP, half_mm);
  insert_tank (job, tubes == TW_TUBES_LEVEL ? TW_SIDE_RIGHT : TW_SIDE_BOTTOM, half_mm);
  return job;
}

double
tw_make_gap_mm (const TwJob *job, guint after)
{
  const TwCore *core = (const TwCore *)tw_job_find (job, id_of ("core-1"));
  gboolean level = core->tubes == TW_TUBES_LEVEL;
  double half_mm = (level ? core->face_height_mm : core->face_width_mm) / 2;
  double from_edge_mm = core->first_tube_mm + (after - 0.5) * core->tube_pitch_mm;

  return level ? half_mm - from_edge_mm : from_edge_mm - half_mm;
}

TwId
tw_make_baffle (TwJob *job, const char *tank, guint after)
{
  TwBaffle *baffle = (TwBaffle *)new_part (job, TW_KIND_BAFFLE);

  baffle->tank = id_of (tank);
  baffle->runs = TW_RUNS_ACROSS;
  baffle->place_mm = tw_make_gap_mm (job, after);
  baffle->thickness_mm = 2;
  baffle->seat = TW_SEAT_WELDED;
  return insert (job, baffle);
}

TwId
tw_make_port (TwJob *job, const char *tank, int use, int wall, double along_mm)
{
  TwPort *port = (TwPort *)new_part (job, TW_KIND_PORT);

  port->tank = id_of (tank);
  port->use = use;
  port->wall = wall;
  port->along_mm = along_mm;
  port->across_mm = 0;
  port->leaves = TW_LEAVES_SQUARE;
  port->stand_out_mm = 40;
  port->standard = g_strdup ("stub");
  port->size = g_strdup ("32");
  port->outside_mm = 32;
  port->bore_mm = 28;
  return insert (job, port);
}

TwId
tw_make_fan (TwJob *job, double u_mm, double v_mm, double swept_mm, double hub_mm)
{
  TwFan *fan = (TwFan *)new_part (job, TW_KIND_FAN);

  fan->core = id_of ("core-1");
  fan->u_mm = u_mm;
  fan->v_mm = v_mm;
  fan->swept_mm = swept_mm;
  fan->ring_mm = swept_mm + 12;
  fan->hub_mm = hub_mm;
  fan->depth_mm = 60;
  fan->blows = TW_BLOWS_PULL;
  fan->stand_off_mm = 40;
  return insert (job, fan);
}

TwId
tw_make_shroud (TwJob *job, double u_mm, double v_mm, double width_mm, double height_mm)
{
  TwShroud *shroud = (TwShroud *)new_part (job, TW_KIND_SHROUD);

  shroud->core = id_of ("core-1");
  shroud->u_mm = u_mm;
  shroud->v_mm = v_mm;
  shroud->width_mm = width_mm;
  shroud->height_mm = height_mm;
  shroud->plenum_mm = 40;
  shroud->stands = TW_STANDS_BEHIND;
  shroud->form = TW_FORM_BOX;
  shroud->wall_mm = 1.5;
  shroud->sealed = 1;
  return insert (job, shroud);
}

static void
add_corner (TwVolume *volume, double across_mm, double up_mm, double bow_mm)
{
  g_autofree char *text = g_strdup_printf ("corner-%u", volume->outline->len + 1);
  TwOutlineCorner *corner = (TwOutlineCorner *)tw_part_new (TW_KIND_CORNER, id_of (text));

  corner->across_mm = across_mm;
  corner->up_mm = up_mm;
  corner->bow_mm = bow_mm;
  g_ptr_array_add (volume->outline, corner);
}

static TwVolume *
new_volume (TwJob *job, int plane, int kind, double from_mm, double to_mm)
{
  TwVolume *volume = (TwVolume *)new_part (job, TW_KIND_VOLUME);

  volume->use = kind < 0 ? TW_USE_FREE : TW_USE_TAKEN;
  volume->kind = kind;
  volume->plane = plane;
  volume->from_mm = from_mm;
  volume->to_mm = to_mm;
  return volume;
}

TwId
tw_make_box (TwJob *job, int plane, int kind, const TwMakeBox *box)
{
  const double x[] = { box->x0_mm, box->x1_mm }, y[] = { box->y0_mm, box->y1_mm },
               z[] = { box->z0_mm, box->z1_mm };
  const double *across = plane == TW_DRAWN_SIDE ? z : x;
  const double *up = plane == TW_DRAWN_PLAN ? z : y;
  const double *third = plane == TW_DRAWN_FRONT ? z : plane == TW_DRAWN_SIDE ? x : y;
  TwVolume *volume = new_volume (job, plane, kind, third[0], third[1]);

  for (guint i = 0; i < 4; i++)
    add_corner (volume, across[i == 1 || i == 2], up[i >= 2], (double)NAN);
  return insert (job, volume);
}

TwId
tw_make_bar (TwJob *job, int plane, double across_mm, double up_mm, double diameter_mm)
{
  TwVolume *volume = new_volume (job, plane, TW_TAKEN_STRUCTURE, -1000, 1000);

  add_corner (volume, across_mm, up_mm - diameter_mm / 2, diameter_mm / 2);
  add_corner (volume, across_mm, up_mm + diameter_mm / 2, diameter_mm / 2);
  return insert (job, volume);
}

TwId
tw_make_engine_port (TwJob *job, int use, const double place_mm[3], int leaves)
{
  TwEnginePort *port = (TwEnginePort *)new_part (job, TW_KIND_ENGINE_PORT);

  port->use = use;
  port->x_mm = place_mm[0];
  port->y_mm = place_mm[1];
  port->z_mm = place_mm[2];
  port->leaves = leaves;
  port->stand_out_mm = 40;
  port->outside_mm = 32;
  return insert (job, port);
}

TwId
tw_make_hose (TwJob *job, TwId from, TwId to, guint n, const double (*vias_mm)[3], double radius_mm)
{
  TwHose *hose = (TwHose *)new_part (job, TW_KIND_HOSE);

  hose->from = from;
  hose->to = to;
  hose->bore_mm = 28;
  hose->wall_mm = 4.5;
  hose->made = TW_HOSE_RUBBER;
  hose->bend_radius_mm = radius_mm;
  hose->push_on_mm = 32;
  for (guint i = 0; i < n; i++) {
    g_autofree char *text = g_strdup_printf ("via-%u", i + 1);
    TwVia *via = (TwVia *)tw_part_new (TW_KIND_VIA, id_of (text));

    via->x_mm = vias_mm[i][0];
    via->y_mm = vias_mm[i][1];
    via->z_mm = vias_mm[i][2];
    g_ptr_array_add (hose->vias, via);
  }
  return insert (job, hose);
}

static void
set_value (TwJob *job, const TwPart *part, guint field, TwValue *value)
{
  g_autoptr (TwChange) change = tw_change_set (part->id, TW_ID_NONE, field, value);
  g_autoptr (TwChange) inverse = NULL;
  g_autoptr (GError) error = NULL;

  if (!tw_change_apply (change, job, &inverse, &error))
    g_error ("%s", error->message);
}

static const TwPart *
part_with_field (const TwJob *job, const char *id, const char *field, guint *nth)
{
  const TwPart *part = tw_job_find (job, id_of (id));
  int found = part != NULL ? tw_kind_field (part->kind, field) : -1;

  if (found < 0)
    g_error ("there is no %s.%s", id, field);
  *nth = (guint)found;
  return part;
}

TwId
tw_make_header_tank (TwJob *job, const double middle_mm[3], const double sizes_mm[3])
{
  TwHeaderTank *tank = (TwHeaderTank *)new_part (job, TW_KIND_HEADER_TANK);

  tank->use = TW_VESSEL_HEADER;
  tank->form = TW_VESSEL_BOX;
  tank->x_mm = middle_mm[0];
  tank->y_mm = middle_mm[1];
  tank->z_mm = middle_mm[2];
  tank->width_mm = sizes_mm[0];
  tank->height_mm = sizes_mm[1];
  tank->depth_mm = sizes_mm[2];
  tank->wall_mm = 2;
  tank->cold_share = 0.5;
  return insert (job, tank);
}

TwId
tw_make_opening (TwJob *job, TwKind kind, int plane, const double place_mm[3], const double sizes_mm[2])
{
  TwOpening *opening = (TwOpening *)new_part (job, kind);

  opening->plane = plane;
  opening->across_mm = place_mm[0];
  opening->up_mm = place_mm[1];
  opening->at_mm = place_mm[2];
  opening->width_mm = sizes_mm[0];
  opening->height_mm = sizes_mm[1];
  return insert (job, opening);
}

void
tw_make_set (TwJob *job, const char *part, const char *field, const char *text)
{
  guint nth;
  const TwPart *found = part_with_field (job, part, field, &nth);
  TwUnitStyle style = tw_job_unit_style (job);
  g_autoptr (GError) error = NULL;
  TwValue value;

  if (!tw_value_parse (&tw_kind_info (found->kind)->fields[nth], &style, text, &value, &error))
    g_error ("%s.%s: %s", part, field, error->message);
  set_value (job, found, nth, &value);
}

void
tw_make_set_number (TwJob *job, const char *part, const char *field, double number)
{
  guint nth;
  const TwPart *found = part_with_field (job, part, field, &nth);
  TwValue value = tw_value_number (number);

  set_value (job, found, nth, &value);
}

TwJob *
tw_make_copy (const TwJob *job)
{
  TwJob *copy = tw_job_new ();

  tw_job_replace (copy, tw_part_ref ((const TwPart *)tw_job_settings (job)));
  for (guint kind = TW_KIND_SETTINGS + 1; kind < TW_FIRST_ELEMENT; kind++)
    for (guint i = 0; i < tw_job_count (job, kind); i++)
      tw_job_insert (copy, tw_part_ref (tw_job_get (job, kind, i)), -1);
  if (tw_job_extra (job) != NULL)
    tw_job_set_extra (copy, cJSON_Duplicate (tw_job_extra (job), TRUE));
  return copy;
}
