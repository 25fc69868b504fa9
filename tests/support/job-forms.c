/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/job-forms.h"

#include "job/drawing.h"

#include <math.h>

/* A run from a port to itself turns straight back somewhere, and no plane for that is better than another. */
static gboolean
is_loop (const TwPart *part)
{
  return part->kind == TW_KIND_HOSE && tw_id_equal (((const TwHose *)part)->from, ((const TwHose *)part)->to);
}

TwJob *
tw_form_settled (const TwJob *job, gboolean reversed)
{
  g_autoptr (TwCatalogue) catalogue = tw_catalogue_load (NULL);
  g_autoptr (TwDrawing) drawing = tw_drawing_new (job, catalogue);
  TwJob *made = tw_job_new ();

  for (TwKind kind = TW_KIND_VOLUME; kind < TW_FIRST_ELEMENT; kind++) {
    guint n = tw_drawing_count (drawing, kind);
    const TwKindInfo *info = tw_kind_info (kind);

    for (guint i = 0; i < n; i++) {
      const TwPart *drawn = tw_drawing_get (drawing, kind, reversed ? n - 1 - i : i);
      TwPart *part = is_loop (drawn) ? NULL : tw_part_copy (drawn);

      if (part == NULL)
        continue;
      for (guint k = 0; k < info->n_lists; k++) {
        GPtrArray *list = tw_part_list (part, k);

        for (guint e = 0; e < list->len; e++) {
          TwPart *shared = list->pdata[e];

          list->pdata[e] = tw_part_copy (shared);
          tw_part_unref (shared);
        }
      }
      tw_job_insert (made, part, -1);
    }
  }
  return made;
}

/* Parts of a settled job are nobody else's yet. */
static gpointer
own (TwJob *job, TwKind kind, guint nth)
{
  return (gpointer)tw_job_get (job, kind, nth);
}

#define each(type, name, KIND)                                                                               \
  for (guint i_##name = 0; i_##name < tw_job_count (job, KIND); i_##name++)                                  \
    for (type *name = own (job, KIND, i_##name); name != NULL; name = NULL)

static gboolean
is_upright (const TwJob *job, TwId tank)
{
  const TwTank *found = (const TwTank *)tw_job_find (job, tank);

  return ((const TwCore *)tw_job_find (job, found->core))->tubes == TW_TUBES_UPRIGHT;
}

static void
swap (double *a, double *b, double sign)
{
  double kept = *a;

  *a = sign * *b;
  *b = sign * kept;
}

static void
swap_choice (int *choice, int a, int b)
{
  if (*choice == a || *choice == b)
    *choice = a + b - *choice;
}

static void
mirror_outline (GPtrArray *list, gboolean across)
{
  for (guint i = 0; i < list->len; i++) {
    TwOutlineCorner *corner = list->pdata[i];

    if (across)
      corner->across_mm = -corner->across_mm;
    if (across)
      corner->bow_mm = -corner->bow_mm;
  }
}

static void
mirror_tanks (TwJob *job)
{
  each (TwTank, tank, TW_KIND_TANK)
  {
    if (tank->side == TW_SIDE_LEFT || tank->side == TW_SIDE_RIGHT) {
      swap_choice (&tank->side, TW_SIDE_LEFT, TW_SIDE_RIGHT);
      continue;
    }
    swap (&tank->start_mm, &tank->end_mm, -1);
    if (tank->back == TW_BACK_TAPERED)
      swap (&tank->depth_mm, &tank->depth_end_mm, 1);
  }
  each (TwBaffle, baffle, TW_KIND_BAFFLE)
  {
    if (is_upright (job, baffle->tank) && baffle->runs != TW_RUNS_ALONG)
      baffle->place_mm = -baffle->place_mm;
  }
  each (TwPort, port, TW_KIND_PORT)
  {
    swap_choice (&port->leaves, TW_LEAVES_LEFT, TW_LEAVES_RIGHT);
    if (is_upright (job, port->tank)) {
      port->along_mm = -port->along_mm;
      swap_choice (&port->wall, TW_WALL_START, TW_WALL_END);
    }
  }
}

/* Tubes are counted from the left. */
static void
mirror_tubes (TwCore *core)
{
  core->first_tube_mm
      = core->face_width_mm - core->first_tube_mm - (core->tube_count - 1.0) * core->tube_pitch_mm;
  for (guint i = 0; i < core->plugged->len; i++) {
    TwPlug *plug = core->plugged->pdata[i];

    plug->tube = core->tube_count + 1 - plug->tube;
  }
}

static void
mirror_opening (TwOpening *opening)
{
  mirror_outline (opening->outline, opening->plane != TW_DRAWN_SIDE);
  if (opening->plane != TW_DRAWN_SIDE) {
    opening->across_mm = -opening->across_mm;
    return;
  }
  opening->at_mm = -opening->at_mm;
  swap_choice (&opening->way, TW_WAY_ALONG, TW_WAY_AGAINST);
}

static void
mirror_around (TwJob *job)
{
  each (TwHeaderTank, tank, TW_KIND_HEADER_TANK)
  {
    tank->x_mm = -tank->x_mm;
    tank->heading_deg = -tank->heading_deg;
  }
  each (TwOpening, opening, TW_KIND_OPENING) mirror_opening (opening);
  each (TwOpening, opening, TW_KIND_EXIT) mirror_opening (opening); /* it has the same fields */
}

void
tw_form_mirror (TwJob *job)
{
  each (TwCore, core, TW_KIND_CORE)
  {
    core->x_mm = -core->x_mm;
    core->turn_deg = -core->turn_deg;
    core->roll_deg = -core->roll_deg;
    core->heading_deg = -core->heading_deg;
    if (core->tubes == TW_TUBES_UPRIGHT)
      mirror_tubes (core);
  }
  mirror_tanks (job);
  mirror_around (job);
  each (TwFan, fan, TW_KIND_FAN) fan->u_mm = -fan->u_mm;
  each (TwShroud, shroud, TW_KIND_SHROUD)
  {
    shroud->u_mm = -shroud->u_mm;
    for (guint i = 0; i < shroud->flaps->len; i++) {
      TwFlap *flap = shroud->flaps->pdata[i];

      flap->u_mm = -flap->u_mm;
    }
  }
  each (TwVolume, volume, TW_KIND_VOLUME)
  {
    mirror_outline (volume->outline, volume->plane != TW_DRAWN_SIDE);
    mirror_outline (volume->hole, volume->plane != TW_DRAWN_SIDE);
    if (volume->plane == TW_DRAWN_SIDE)
      swap (&volume->from_mm, &volume->to_mm, -1);
  }
  each (TwEnginePort, port, TW_KIND_ENGINE_PORT)
  {
    port->x_mm = -port->x_mm;
    swap_choice (&port->leaves, TW_LEAVES_AXIS_LEFT, TW_LEAVES_AXIS_RIGHT);
  }
  each (TwHose, hose, TW_KIND_HOSE)
  {
    for (guint i = 0; i < hose->vias->len; i++) {
      TwVia *via = hose->vias->pdata[i];

      via->x_mm = -via->x_mm;
    }
  }
}

/* A quarter turn about z, clockwise looking with the air: (x, y) to (y, −x). */
static void
roll_point (double *x_mm, double *y_mm)
{
  double kept_mm = *x_mm;

  *x_mm = *y_mm;
  *y_mm = -kept_mm;
}

static const int rolled_leaves[]
    = { TW_LEAVES_AXIS_UP,    TW_LEAVES_AXIS_DOWN,     TW_LEAVES_AXIS_LEFT,
        TW_LEAVES_AXIS_RIGHT, TW_LEAVES_AXIS_UPSTREAM, TW_LEAVES_AXIS_DOWNSTREAM };

static void
roll_outline (GPtrArray *list, int plane)
{
  for (guint i = 0; i < list->len; i++) {
    TwOutlineCorner *corner = list->pdata[i];

    /* Front (x, y) → Front (y, −x); Side (z, y) → Plan (y, z), turned over; Plan (x, z) → Side (z, −x) */
    if (plane == TW_DRAWN_FRONT || plane == TW_DRAWN_PLAN)
      roll_point (&corner->across_mm, &corner->up_mm);
    else
      swap (&corner->across_mm, &corner->up_mm, 1);
    if (plane == TW_DRAWN_SIDE)
      corner->bow_mm = -corner->bow_mm;
  }
}

/* A box lies on its side, an upright cylinder lies level; headings are left out. */
static void
roll_header_tank (TwHeaderTank *tank)
{
  roll_point (&tank->x_mm, &tank->y_mm);
  swap (&tank->width_mm, &tank->height_mm, 1);
  swap_choice (&tank->form, TW_VESSEL_UPRIGHT, TW_VESSEL_LEVEL);
}

static void
roll_opening (TwOpening *opening)
{
  roll_outline (opening->outline, opening->plane);
  if (opening->plane == TW_DRAWN_SIDE) {
    swap (&opening->across_mm, &opening->up_mm, 1);
    opening->at_mm = -opening->at_mm;
    swap_choice (&opening->way, TW_WAY_ALONG, TW_WAY_AGAINST);
  } else {
    roll_point (&opening->across_mm, &opening->up_mm);
  }
  swap (&opening->width_mm, &opening->height_mm, 1);
  swap_choice (&opening->plane, TW_DRAWN_SIDE, TW_DRAWN_PLAN);
}

void
tw_form_roll (TwJob *job)
{
  each (TwCore, core, TW_KIND_CORE)
  {
    roll_point (&core->x_mm, &core->y_mm);
    core->roll_deg = (core->roll_deg > 90 ? core->roll_deg - 360 : core->roll_deg) + 90;
  }
  each (TwVolume, volume, TW_KIND_VOLUME)
  {
    roll_outline (volume->outline, volume->plane);
    roll_outline (volume->hole, volume->plane);
    if (volume->plane == TW_DRAWN_SIDE)
      swap (&volume->from_mm, &volume->to_mm, -1);
    swap_choice (&volume->plane, TW_DRAWN_SIDE, TW_DRAWN_PLAN);
  }
  each (TwHeaderTank, tank, TW_KIND_HEADER_TANK) roll_header_tank (tank);
  each (TwOpening, opening, TW_KIND_OPENING) roll_opening (opening);
  each (TwOpening, opening, TW_KIND_EXIT) roll_opening (opening);
  each (TwPort, port, TW_KIND_PORT)
  {
    if (port->leaves > TW_LEAVES_SQUARE)
      port->leaves = rolled_leaves[port->leaves - 1] + 1;
  }
  each (TwEnginePort, port, TW_KIND_ENGINE_PORT)
  {
    roll_point (&port->x_mm, &port->y_mm);
    if (port->leaves >= 0)
      port->leaves = rolled_leaves[port->leaves];
  }
  each (TwHose, hose, TW_KIND_HOSE)
  {
    for (guint i = 0; i < hose->vias->len; i++) {
      TwVia *via = hose->vias->pdata[i];

      roll_point (&via->x_mm, &via->y_mm);
    }
  }
}

static void
rescale_part (TwPart *part)
{
  const TwKindInfo *info = tw_kind_info (part->kind);

  for (guint i = 0; i < info->n_fields; i++)
    if (info->fields[i].quantity == TW_QUANTITY_LENGTH || info->fields[i].quantity == TW_QUANTITY_DIAMETER)
      G_STRUCT_MEMBER (double, part, info->fields[i].offset) *= TW_FORM_SCALE;
  for (guint k = 0; k < info->n_lists; k++)
    for (guint e = 0; e < tw_part_list (part, k)->len; e++)
      rescale_part (tw_part_list (part, k)->pdata[e]);
}

void
tw_form_rescale (TwJob *job)
{
  for (TwKind kind = TW_KIND_VOLUME; kind < TW_FIRST_ELEMENT; kind++)
    for (guint i = 0; i < tw_job_count (job, kind); i++)
      rescale_part (own (job, kind, i));
}

void
tw_form_without_headings (TwJob *job)
{
  each (TwCore, core, TW_KIND_CORE) core->heading_deg = 0;
  each (TwHeaderTank, tank, TW_KIND_HEADER_TANK) tank->heading_deg = 0;
}
