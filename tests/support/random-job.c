/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/random-private.h"

#include <math.h>

/* Adds a part of @kind when there is what it needs; NULL when not. */
static TwPart *
add (TwThrow *self, TwKind kind)
{
  TwPart *part = tw_throw_part (self, kind, tw_job_new_id (self->job, kind));

  if (part != NULL)
    tw_job_insert (self->job, part, -1);
  return part;
}

static void
throw_settings (TwThrow *self)
{
  TwPart *settings = tw_part_copy ((const TwPart *)tw_job_settings (self->job));
  TwSettings *s = (TwSettings *)settings;

  s->shown_in = self->inches ? TW_SHOWN_IN_INCH : tw_throw_int (self, -1, TW_SHOWN_IN_MM);
  s->inch_figures = tw_throw_int (self, -1, TW_INCH_DECIMALS);
  s->projection = tw_throw_int (self, -1, TW_PROJECTION_THIRD);
  s->name = tw_throw_chance (self, 0.9) ? tw_throw_name (self, "job") : NULL;
  s->note = tw_throw_chance (self, 0.3) ? g_strdup ("first line\nsecond line") : NULL;
  s->owner = tw_throw_chance (self, 0.3) ? tw_throw_name (self, "shop") : NULL;
  s->flow_l_min = tw_throw_chance (self, 0.5) ? tw_throw_double (self, 5, 300) : (double)NAN;
  s->heat_kw = tw_throw_chance (self, 0.5) ? tw_throw_double (self, 1, 150) : (double)NAN;
  if (tw_throw_chance (self, 0.5))
    tw_throw_put (self, settings, TW_SETTINGS_clearance_mm, tw_throw_length (self, 2, 25));
  if (tw_throw_chance (self, 0.5))
    tw_throw_put (self, settings, TW_SETTINGS_ground_mm, tw_throw_length (self, -100, 900));
  tw_job_replace (self->job, settings);
  tw_job_set_extra (self->job, tw_throw_extra (self, 0.3));
}

/* One tank over a side, or several that share it end to end. */
static void
add_tanks_of_side (TwThrow *self, const TwCore *core, int side)
{
  gboolean upright = core->tubes == TW_TUBES_UPRIGHT;
  double half_mm = (upright ? core->face_width_mm : core->face_height_mm) / 2
                   + (isnan (core->header_reach_mm) ? 5 : core->header_reach_mm);
  int n = half_mm > 120 && tw_throw_chance (self, 0.25) ? tw_throw_int (self, 2, 3) : 1;
  double from_mm = -half_mm;

  for (int i = 0; i < n; i++) {
    TwTank *tank = (TwTank *)add (self, TW_KIND_TANK);
    double to_mm
        = i == n - 1 ? half_mm : from_mm + 2 * half_mm / n + tw_throw_double (self, -0.1, 0.1) * half_mm;

    tank->core = core->head.id;
    tank->side = side;
    if (n > 1 || tw_throw_chance (self, 0.5)) {
      tw_throw_put (self, tank, TW_TANK_start_mm, from_mm);
      tw_throw_put (self, tank, TW_TANK_end_mm, to_mm);
    }
    from_mm = to_mm;
  }
}

static void
add_core (TwThrow *self)
{
  const TwCore *core = (const TwCore *)add (self, TW_KIND_CORE);
  gboolean upright = core->tubes == TW_TUBES_UPRIGHT;

  add_tanks_of_side (self, core, upright ? TW_SIDE_TOP : TW_SIDE_LEFT);
  if (tw_throw_chance (self, 0.97))
    add_tanks_of_side (self, core, upright ? TW_SIDE_BOTTOM : TW_SIDE_RIGHT);
}

static void
add_several (TwThrow *self, TwKind kind, int most)
{
  for (int i = tw_throw_int (self, 0, most); i > 0; i--)
    add (self, kind);
}

static void
add_ports (TwThrow *self)
{
  static const int uses[] = { TW_PORT_INLET, TW_PORT_OUTLET };

  for (guint i = 0; i < G_N_ELEMENTS (uses); i++) {
    TwPort *port = tw_throw_chance (self, 0.95) ? (TwPort *)add (self, TW_KIND_PORT) : NULL;

    if (port != NULL)
      port->use = uses[i];
  }
  add_several (self, TW_KIND_PORT, 6);
}

/* A box that holds most of what was thrown. */
static void
add_bay (TwThrow *self)
{
  TwMakeBox bay = { -700, 0, -900, 700, 1500, 700 };

  bay.x0_mm = tw_throw_length (self, -900, -500);
  bay.x1_mm = tw_throw_length (self, 500, 900);
  if (tw_throw_chance (self, 0.85))
    tw_make_box (self->job, TW_DRAWN_FRONT, -1, &bay);
}

TwJob *
tw_random_job (guint32 seed)
{
  TwThrow self = { .rng = g_rand_new_with_seed (seed), .job = tw_job_new () };

  self.inches = tw_throw_chance (&self, 0.35);
  throw_settings (&self);
  add_bay (&self);
  add_several (&self, TW_KIND_VOLUME, 5);
  for (int i = tw_throw_chance (&self, 0.02) ? 0 : tw_throw_chance (&self, 0.12) ? 2 : 1; i > 0; i--)
    add_core (&self);
  add_several (&self, TW_KIND_BAFFLE, tw_throw_chance (&self, 0.3) ? 6 : 2);
  add_ports (&self);
  add_several (&self, TW_KIND_SHROUD, tw_throw_chance (&self, 0.2) ? 2 : 1);
  add_several (&self, TW_KIND_FAN, 4);
  add_several (&self, TW_KIND_ENGINE_PORT, 3);
  add_several (&self, TW_KIND_HOSE, 3);
  add_several (&self, TW_KIND_HEADER_TANK, 2);
  add_several (&self, TW_KIND_OPENING, 2);
  add_several (&self, TW_KIND_EXIT, 1);
  g_rand_free (self.rng);
  return self.job;
}
