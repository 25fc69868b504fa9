/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout/heights.h"

#include "layout/heights-private.h"
#include "layout/tank-inside-private.h"

#include <math.h>

/* Differences below this are rounding: level. */
#define LEVEL_MM 1e-6

struct _TwHeights {
  GArray *chambers; /* of TwChamberHeight */
  GArray *ports;    /* of TwPortHeight */
  GArray *tanks;    /* of TwTankHeight */
};

/* A chamber looked at along one direction: upright for what air does, downwards for what water does. */
typedef struct {
  TwVec at;        /* the farthest place inside; job frame */
  double reach_mm; /* how far that is */
  double best_mm;  /* how far one comes from here through tubes that do not lead back */
  double mouth_mm; /* the farthest mouth that leads on */
  double tap_mm;   /* the farthest port that lets it out */
  gboolean has_tap;
  gboolean leads_to_tap; /* some chamber that one comes to has one */
} Look;

/* One direction at work. */
typedef struct {
  const TwPlacement *placement;
  const TwPasses *passes;
  TwVec along; /* direction, job frame */
  GArray *looks;
} Sight;

TwVec
tw_attitude_up (const TwDrawing *drawing, TwAttitude attitude)
{
  double heading_deg = tw_drawing_settings (drawing)->nose_heading_deg;
  double heading = isnan (heading_deg) ? 0.0 : heading_deg * G_PI / 180.0;
  double nose_up = sin (attitude.nose_up_rad), level = cos (attitude.nose_up_rad);
  double right_down = level * sin (attitude.right_down_rad), upright = level * cos (attitude.right_down_rad);
  TwVec nose, right;

  nose = tw_vec (-sin (heading), 0.0, -cos (heading));
  right = tw_vec (nose.z, 0.0, -nose.x);
  return tw_vec_add_scaled (tw_vec_add_scaled (tw_vec_scale (nose, nose_up), -right_down, right), upright,
                            tw_vec (0.0, 1.0, 0.0));
}

/* The place in a chamber that lies farthest along @way, in core coordinates. */
static TwVec
farthest_in (const TwPlacedTank *tank, const TwChamber *chamber, TwVec way)
{
  const TwHeaderSide *side = &tank->side;
  double slope = way.z, rise = tw_vec_dot (way, side->out);
  double ends[] = { chamber->from_mm, chamber->to_mm };
  double plain = slope > 0.0 ? chamber->across_to_mm : chamber->across_from_mm;
  double back
      = tw_tank_inside_reach_across_mm (tank, slope, rise, chamber->across_from_mm, chamber->across_to_mm);
  TwVec best = { 0.0, 0.0, 0.0 };
  double best_mm = -G_MAXDOUBLE;

  for (guint i = 0; i < 4; i++) {
    double along = ends[i / 2];
    TwVec at = i % 2 == 0 ? tw_header_point (side, along, 0.0, plain)
                          : tw_header_point (side, along, tw_tank_inside_depth_mm (tank, along, back), back);

    if (tw_vec_dot (at, way) > best_mm + LEVEL_MM) {
      best = at;
      best_mm = tw_vec_dot (at, way);
    }
  }
  return best;
}

static void
look_at_chambers (Sight *sight)
{
  for (guint i = 0; i < tw_passes_n_chambers (sight->passes); i++) {
    const TwChamber *chamber = tw_passes_chamber (sight->passes, i);
    const TwPlacedCore *core = tw_placement_core (sight->placement, chamber->core);
    TwVec way = tw_frame_turn_from_job (&core->frame, sight->along);
    TwVec at = farthest_in (tw_placement_tank (sight->placement, chamber->tank), chamber, way);
    Look look
        = { .at = tw_frame_to_job (&core->frame, at), .mouth_mm = -G_MAXDOUBLE, .tap_mm = -G_MAXDOUBLE };

    look.reach_mm = look.best_mm = tw_vec_dot (look.at, sight->along);
    g_array_append_val (sight->looks, look);
  }
}

/* How far the mouths of a group reach along the sight, on one header side. */
static double
mouths_reach_mm (const Sight *sight, const TwTubeGroup *group, const TwTubeGrid *grid, TwHeader header)
{
  const TwPlacedCore *core = tw_placement_core (sight->placement, group->core);
  const TwHeaderSide *side = &core->sides[header];
  TwVec way = tw_frame_turn_from_job (&core->frame, sight->along);
  double up = tw_vec_dot (way, side->along), r = grid->bore_height_mm / 2.0;
  double round_mm = r * hypot (up, way.z) + (grid->bore_width_mm / 2.0 - r) * fabs (way.z);
  double best_mm = -G_MAXDOUBLE;

  for (guint i = 0; i < group->n_ranges; i++)
    for (guint corner = 0; corner < 4; corner++) {
      const TwTubeRange *range = &group->ranges[i];
      double along = tw_tube_along_mm (grid, corner % 2 == 0 ? range->first : range->last);
      double across = tw_tube_across_mm (grid, corner / 2 == 0 ? range->first_row : range->last_row);

      best_mm = MAX (best_mm, tw_vec_dot (tw_header_point (side, along, 0.0, across), way));
    }
  return best_mm + round_mm + tw_vec_dot (core->frame.origin, sight->along);
}

/* How much farther along the sight the second end of a core's tubes lies than the first. */
static double
tubes_rise_mm (const Sight *sight, const TwTubeGrid *grid)
{
  const TwPlacedCore *core = tw_placement_core (sight->placement, grid->core);

  return grid->length_mm
         * tw_vec_dot (tw_frame_turn_to_job (&core->frame, core->sides[TW_HEADER_SECOND].out), sight->along);
}

/* Lets what is in a chamber go on through one group; TRUE when that takes it where it was not known to come.
 */
static gboolean
go_on (Sight *sight, const TwTubeGroup *group, const TwTubeGrid *grid, TwHeader from)
{
  Look *here = &g_array_index (sight->looks, Look, group->chamber[from]);
  const Look *there = &g_array_index (sight->looks, Look, group->chamber[from == TW_HEADER_FIRST ? 1 : 0]);
  double rise = tubes_rise_mm (sight, grid);
  gboolean news;

  if ((from == TW_HEADER_FIRST ? rise : -rise) < -LEVEL_MM)
    return FALSE;
  here->mouth_mm = MAX (here->mouth_mm, mouths_reach_mm (sight, group, grid, from));
  news = there->best_mm > here->best_mm || (!here->leads_to_tap && (there->has_tap || there->leads_to_tap));
  here->best_mm = MAX (here->best_mm, there->best_mm);
  here->leads_to_tap |= there->has_tap || there->leads_to_tap;
  return news;
}

/* Through all tubes, until nothing comes farther. */
static void
go_through_tubes (Sight *sight)
{
  gboolean farther;

  do {
    farther = FALSE;
    for (guint i = 0; i < tw_passes_n_groups (sight->passes); i++) {
      const TwTubeGroup *group = tw_passes_group (sight->passes, i);
      const TwPart *core = tw_drawing_find (tw_placement_drawing (sight->placement), group->core);
      TwTubeGrid grid = tw_tube_grid ((const TwCore *)core);

      if (group->why == TW_DEAD_BLOCKED || group->chamber[TW_HEADER_FIRST] == G_MAXUINT)
        continue;
      farther |= go_on (sight, group, &grid, TW_HEADER_FIRST);
      farther |= go_on (sight, group, &grid, TW_HEADER_SECOND);
    }
  } while (farther);
}

/* Bleeds and fillers let air out, drains water. */
static void
look_for_taps (Sight *sight, gboolean is_air)
{
  for (guint i = 0; i < tw_passes_n_ports (sight->passes); i++) {
    const TwChamberPort *port = tw_passes_port (sight->passes, i);
    gboolean is_tap
        = is_air ? port->use == TW_PORT_BLEED || port->use == TW_PORT_FILLER : port->use == TW_PORT_DRAIN;
    Look *look;

    if (!is_tap || !port->has_chamber)
      continue;
    look = &g_array_index (sight->looks, Look, port->chamber);
    look->has_tap = TRUE;
    look->tap_mm
        = MAX (look->tap_mm, tw_vec_dot (tw_placement_port (sight->placement, port->port)->at, sight->along));
  }
}

static GArray *
look_along (const TwPlacement *placement, const TwPasses *passes, TwVec along, gboolean is_air)
{
  Sight sight = { placement, passes, along, g_array_new (FALSE, TRUE, sizeof (Look)) };

  look_at_chambers (&sight);
  look_for_taps (&sight, is_air);
  go_through_tubes (&sight);
  return sight.looks;
}

/* Whether nothing farther is come to from here. */
static gboolean
is_end (const Look *look)
{
  return look->best_mm <= look->reach_mm + LEVEL_MM;
}

/* What stays in the chamber for good; @is_needy when only a tap of its own can let it out. */
static double
stays_mm (const Look *look, gboolean is_needy)
{
  if (is_needy)
    return look->has_tap ? MAX (look->reach_mm - look->tap_mm, 0.0) : (double)NAN;
  return MAX (look->reach_mm - MAX (look->mouth_mm, look->tap_mm), 0.0);
}

static void
collect_ports (TwHeights *self, const TwPlacement *placement, const TwPasses *passes, TwVec up)
{
  for (guint i = 0; i < tw_passes_n_ports (passes); i++) {
    const TwPlacedPort *placed = tw_placement_port (placement, tw_passes_port (passes, i)->port);
    TwPortHeight port = { .port = tw_passes_port (passes, i)->port, .height_mm = (double)NAN };

    if (placed != NULL) {
      port.at = placed->at;
      port.height_mm = tw_vec_dot (placed->at, up);
    }
    g_array_append_val (self->ports, port);
  }
}

TwHeights *
tw_heights_find (const TwPlacement *placement, const TwPasses *passes, TwAttitude attitude)
{
  TwHeights *self = g_atomic_rc_box_new0 (TwHeights);
  TwVec up = tw_attitude_up (tw_placement_drawing (placement), attitude);
  g_autoptr (GArray) air = look_along (placement, passes, up, TRUE);
  g_autoptr (GArray) water = look_along (placement, passes, tw_vec_scale (up, -1.0), FALSE);

  self->chambers = g_array_new (FALSE, FALSE, sizeof (TwChamberHeight));
  self->ports = g_array_new (FALSE, FALSE, sizeof (TwPortHeight));
  for (guint i = 0; i < air->len; i++) {
    const Look *top = &g_array_index (air, Look, i), *bottom = &g_array_index (water, Look, i);
    gboolean is_high = is_end (top), is_low = is_end (bottom) && (bottom->has_tap || !bottom->leads_to_tap);
    TwChamberHeight chamber = {
      .highest_mm = top->reach_mm,
      .lowest_mm = -bottom->reach_mm,
      .highest_at = top->at,
      .lowest_at = bottom->at,
      .is_high = is_high,
      .is_low = is_low,
      .pocket_mm = stays_mm (top, is_high),
      .pool_mm = stays_mm (bottom, is_low),
      .has_bleed = top->has_tap,
      .has_drain = bottom->has_tap,
    };

    g_array_append_val (self->chambers, chamber);
  }
  collect_ports (self, placement, passes, up);
  self->tanks = tw_heights_of_tanks (placement, up);
  return self;
}

static void
clear_heights (gpointer data)
{
  TwHeights *self = data;

  g_array_unref (self->chambers);
  g_array_unref (self->ports);
  g_array_unref (self->tanks);
}

TwHeights *
tw_heights_ref (TwHeights *self)
{
  return g_atomic_rc_box_acquire (self);
}

void
tw_heights_unref (TwHeights *self)
{
  g_atomic_rc_box_release_full (self, clear_heights);
}

guint
tw_heights_n_chambers (const TwHeights *self)
{
  return self->chambers->len;
}

const TwChamberHeight *
tw_heights_chamber (const TwHeights *self, guint nth)
{
  return nth < self->chambers->len ? &g_array_index (self->chambers, TwChamberHeight, nth) : NULL;
}

guint
tw_heights_n_ports (const TwHeights *self)
{
  return self->ports->len;
}

const TwPortHeight *
tw_heights_port (const TwHeights *self, guint nth)
{
  return nth < self->ports->len ? &g_array_index (self->ports, TwPortHeight, nth) : NULL;
}

guint
tw_heights_n_tanks (const TwHeights *self)
{
  return self->tanks->len;
}

const TwTankHeight *
tw_heights_tank (const TwHeights *self, guint nth)
{
  return nth < self->tanks->len ? &g_array_index (self->tanks, TwTankHeight, nth) : NULL;
}
