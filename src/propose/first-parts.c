/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "propose/first-layout-private.h"

#include "base/error.h"
#include "job/change.h"

#include <math.h>

/* A job that is being filled. */
typedef struct {
  const TwFirstPlan *plan;
  TwJob *job;
} Build;

static TwPart *
new_part (TwKind kind, const char *id, const char *name)
{
  TwId made;
  TwPart *part;
  TwValue text = tw_value_text (name);

  if (!tw_id_from_text (id, &made))
    g_assert_not_reached ();
  part = tw_part_new (kind, made);
  tw_part_put (part, (guint)tw_kind_field (kind, "name"), &text);
  return part;
}

static TwId
insert (Build *self, TwPart *part)
{
  tw_job_insert (self->job, part, -1);
  return part->id;
}

static void
add_corner (TwVolume *volume, const char *id, double across_mm, double up_mm)
{
  TwId made;
  TwOutlineCorner *corner;

  if (!tw_id_from_text (id, &made))
    g_assert_not_reached ();
  corner = (TwOutlineCorner *)tw_part_new (TW_KIND_CORNER, made);
  corner->across_mm = across_mm;
  corner->up_mm = up_mm;
  g_ptr_array_add (volume->outline, corner);
}

/* Zero lies in the middle of the bay's floor; the face of the core at z 0. */
static void
add_bay (Build *self)
{
  TwVolume *bay = (TwVolume *)new_part (TW_KIND_VOLUME, "bay", _ ("Bay"));
  const TwFirstLayoutWish *wish = self->plan->wish;
  double half_mm = wish->bay_width_mm / 2, top_mm = wish->bay_height_mm;

  bay->use = TW_USE_FREE;
  bay->plane = TW_DRAWN_FRONT;
  bay->to_mm = self->plan->behind_mm;
  bay->from_mm = self->plan->behind_mm - wish->bay_depth_mm;
  add_corner (bay, "corner-1", -half_mm, 0);
  add_corner (bay, "corner-2", half_mm, 0);
  add_corner (bay, "corner-3", half_mm, top_mm);
  add_corner (bay, "corner-4", -half_mm, top_mm);
  insert (self, (TwPart *)bay);
}

static TwId
add_core (Build *self)
{
  const TwFirstPlan *plan = self->plan;
  TwCore *core = (TwCore *)new_part (TW_KIND_CORE, "core", _ ("Core"));

  core->core_kind = g_strdup (tw_entry_id (plan->kind));
  core->x_mm = 0;
  core->y_mm = plan->wish->bay_height_mm / 2;
  core->z_mm = 0;
  core->tubes = plan->level ? TW_TUBES_LEVEL : TW_TUBES_UPRIGHT;
  core->face_width_mm = plan->level ? plan->face_across_mm : plan->face_along_mm;
  core->face_height_mm = plan->level ? plan->face_along_mm : plan->face_across_mm;
  return insert (self, (TwPart *)core);
}

static TwId
add_tank (Build *self, TwId core, const char *id, const char *name, int side)
{
  TwTank *tank = (TwTank *)new_part (TW_KIND_TANK, id, name);

  tank->core = core;
  tank->side = side;
  return insert (self, (TwPart *)tank);
}

static void
add_stub (Build *self, TwId tank, int use, double along_mm)
{
  gboolean inlet = use == TW_PORT_INLET;
  TwPort *port
      = (TwPort *)new_part (TW_KIND_PORT, inlet ? "inlet" : "outlet", inlet ? _ ("Inlet") : _ ("Outlet"));

  port->tank = tank;
  port->use = use;
  port->wall = TW_WALL_AIR_IN;
  port->along_mm = along_mm;
  port->standard = g_strdup ("stub");
  if (self->plan->stub != NULL)
    port->size = g_strdup (tw_entry_text (self->plan->stub, "size"));
  insert (self, (TwPart *)port);
}

/* @along_mm: NAN: in the middle of an end wall */
static void
add_bung (Build *self, TwId tank, const char *id, int use, int wall, double along_mm)
{
  TwPort *port = (TwPort *)new_part (TW_KIND_PORT, id, use == TW_PORT_BLEED ? _ ("Bleed") : _ ("Drain"));

  port->tank = tank;
  port->use = use;
  port->wall = wall;
  port->along_mm = along_mm;
  port->standard = g_strdup ("iso-6149");
  port->size = g_strdup (TW_FIRST_BUNG_SIZE);
  insert (self, (TwPart *)port);
}

static void
add_baffle (Build *self, TwId tank)
{
  TwBaffle *baffle = (TwBaffle *)new_part (TW_KIND_BAFFLE, "baffle", _ ("Baffle"));

  baffle->tank = tank;
  baffle->place_mm = tw_first_baffle_place_mm (self->plan);
  insert (self, (TwPart *)baffle);
}

/* In at the top; out at the bottom, of the other tank or, in two passes, of the same. */
static void
add_level_water (Build *self, TwId core)
{
  const double none = (double)NAN;
  double end_mm = tw_first_port_place_mm (self->plan);
  TwId left = add_tank (self, core, "left-tank", _ ("Left tank"), TW_SIDE_LEFT);
  TwId right = add_tank (self, core, "right-tank", _ ("Right tank"), TW_SIDE_RIGHT);

  if (self->plan->two_passes)
    add_baffle (self, left);
  add_stub (self, left, TW_PORT_INLET, end_mm);
  add_stub (self, self->plan->two_passes ? left : right, TW_PORT_OUTLET, -end_mm);
  add_bung (self, left, "left-bleed", TW_PORT_BLEED, TW_WALL_END, none);
  add_bung (self, right, "right-bleed", TW_PORT_BLEED, TW_WALL_END, none);
  add_bung (self, left, "left-drain", TW_PORT_DRAIN, TW_WALL_START, none);
  add_bung (self, right, "right-drain", TW_PORT_DRAIN, TW_WALL_START, none);
}

/* Down in one pass. Two passes go up and down, with the baffle below: so the top tank has one highest place.
 */
static void
add_upright_water (Build *self, TwId core)
{
  const double none = (double)NAN;
  double end_mm = tw_first_port_place_mm (self->plan);
  TwId top = add_tank (self, core, "top-tank", _ ("Top tank"), TW_SIDE_TOP);
  TwId bottom = add_tank (self, core, "bottom-tank", _ ("Bottom tank"), TW_SIDE_BOTTOM);

  if (self->plan->two_passes)
    add_baffle (self, bottom);
  add_stub (self, self->plan->two_passes ? bottom : top, TW_PORT_INLET, -end_mm);
  add_stub (self, bottom, TW_PORT_OUTLET, end_mm);
  add_bung (self, top, "bleed", TW_PORT_BLEED, TW_WALL_BACK, none);
  if (self->plan->two_passes) {
    add_bung (self, bottom, "left-drain", TW_PORT_DRAIN, TW_WALL_BACK, -self->plan->face_along_mm / 4);
    add_bung (self, bottom, "right-drain", TW_PORT_DRAIN, TW_WALL_BACK, self->plan->face_along_mm / 4);
  } else {
    add_bung (self, bottom, "drain", TW_PORT_DRAIN, TW_WALL_BACK, none);
  }
}

static void
add_fan (Build *self, TwId core, guint nth, TwPoint at)
{
  g_autofree char *id = g_strdup_printf ("fan-%u", nth + 1);
  g_autofree char *name = g_strdup_printf (_ ("Fan %u"), nth + 1);
  TwFan *fan = (TwFan *)new_part (TW_KIND_FAN, id, name);

  fan->core = core;
  fan->u_mm = at.x_mm;
  fan->v_mm = at.y_mm;
  fan->swept_mm = self->plan->swept_mm;
  fan->ring_mm = self->plan->swept_mm + TW_FIRST_RING_MM;
  insert (self, (TwPart *)fan);
}

/* Each in the middle of its share of the mouth, counted from the left and from the top. */
static void
add_fans (Build *self, TwId core)
{
  const TwFirstPlan *plan = self->plan;
  TwShroud *shroud = (TwShroud *)new_part (TW_KIND_SHROUD, "shroud", _ ("Shroud"));
  double width_mm = (plan->level ? plan->face_across_mm : plan->face_along_mm) - 2 * TW_FIRST_MOUTH_EDGE_MM;
  double height_mm = (plan->level ? plan->face_along_mm : plan->face_across_mm) - 2 * TW_FIRST_MOUTH_EDGE_MM;

  shroud->core = core;
  shroud->width_mm = width_mm;
  shroud->height_mm = height_mm;
  insert (self, (TwPart *)shroud);
  for (guint i = 0; i < plan->n_across * plan->n_up; i++) {
    guint across = i % plan->n_across, up = i / plan->n_across;

    add_fan (self, core, i,
             (TwPoint){ width_mm * ((across + 0.5) / plan->n_across - 0.5),
                        height_mm * (0.5 - (up + 0.5) / plan->n_up) });
  }
}

static double
nose_heading_deg (TwFirstAir air)
{
  /* the air goes along +z; the nose points to -z at 0 and turns towards -x, the vehicle's right then looks
   * along +z */
  static const double headings[TW_FIRST_N_AIRS] = {
    [TW_FIRST_AIR_FRONT] = 0,
    [TW_FIRST_AIR_REAR] = 180,
    [TW_FIRST_AIR_LEFT] = 90,
    [TW_FIRST_AIR_RIGHT] = -90,
  };

  return headings[air];
}

static void
add_settings (Build *self)
{
  TwSettings *settings = (TwSettings *)tw_part_copy ((const TwPart *)tw_job_settings (self->job));
  const TwFirstLayoutWish *wish = self->plan->wish;

  settings->name = g_strdup (wish->name);
  settings->shown_in = wish->shown_in;
  settings->heat_kw = tw_first_heat_kw (wish);
  settings->nose_heading_deg = nose_heading_deg (wish->air_from);
  tw_job_replace (self->job, (TwPart *)settings);
}

static void
add_number (cJSON *object, const char *name, double number)
{
  if (!isnan (number))
    cJSON_AddNumberToObject (object, name, number);
}

/* The coolant and the worst day have no rooms of their own yet: they stand in the file where the samples have
 * them, as members that are kept and written back. */
static void
add_duty (Build *self)
{
  const TwFirstLayoutWish *wish = self->plan->wish;
  cJSON *extra = cJSON_CreateObject (), *duty = cJSON_CreateObject (), *loop;

  if (wish->coolant != NULL) {
    loop = cJSON_AddObjectToObject (extra, "loop");
    cJSON_AddStringToObject (loop, "coolant", wish->coolant);
  }
  add_number (duty, "heat_kw", tw_first_heat_kw (wish));
  if (isnan (wish->heat_kw) && !isnan (wish->brake_kw)) {
    add_number (duty, "brake_kw", wish->brake_kw);
    add_number (duty, "water_share", wish->share);
    cJSON_AddStringToObject (duty, "water_share_of", wish->share_of == TW_FIRST_OF_FUEL ? "fuel" : "brake");
  }
  add_number (duty, "ambient_c", wish->ambient_c);
  if (duty->child != NULL) {
    cJSON *cases = cJSON_AddArrayToObject (extra, "duty_cases");

    cJSON_AddStringToObject (duty, "id", "worst-day");
    cJSON_AddStringToObject (duty, "name", _ ("Worst day"));
    cJSON_AddItemToArray (cases, duty);
  } else {
    cJSON_Delete (duty);
  }
  if (extra->child != NULL)
    tw_job_set_extra (self->job, extra);
  else
    cJSON_Delete (extra);
}

TwJob *
tw_first_plan_build (const TwFirstPlan *self)
{
  Build build = { self, tw_job_new () };
  TwId core;

  add_bay (&build);
  core = add_core (&build);
  if (self->level)
    add_level_water (&build, core);
  else
    add_upright_water (&build, core);
  if (self->fans == TW_FIRST_FANS_FIT)
    add_fans (&build, core);
  add_settings (&build);
  add_duty (&build);
  return build.job;
}

/* --- as one change -------------------------------------------------------------------------------------- */

static void
add_said (TwChange *group, const TwPart *settings)
{
  const TwKindInfo *info = tw_kind_info (TW_KIND_SETTINGS);
  g_autoptr (TwJob) empty = tw_job_new ();

  for (guint i = 0; i < info->n_fields; i++) {
    TwValue value = tw_part_get (settings, i);
    TwChange *set = tw_change_set (settings->id, TW_ID_NONE, i, &value);

    if (tw_change_is_noop (set, empty))
      tw_change_free (set);
    else
      tw_change_group_add (group, set);
  }
}

/* Kinds stand in the order in which they refer to each other. */
TwChange *
tw_first_layout_change (const TwJob *job, const char *label)
{
  TwChange *group = tw_change_group (label);

  add_said (group, (const TwPart *)tw_job_settings (job));
  for (TwKind kind = 0; kind < TW_FIRST_ELEMENT; kind++)
    for (guint i = 0; kind != TW_KIND_SETTINGS && i < tw_job_count (job, kind); i++)
      tw_change_group_add (group, tw_change_add (tw_part_copy (tw_job_get (job, kind, i)), -1));
  return group;
}
