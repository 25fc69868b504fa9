/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "propose/first-layout-private.h"

#include <math.h>

#define FAN_MOST_MM 400.0  /* larger electric fans are rare */
#define FAN_LEAST_MM 120.0 /* smaller ones move little */
#define FANS_MOST 6        /* of one core */
#define FAN_GAP_MM 4.0     /* of sheet between two rings; two thicknesses are usual */
#define USUAL_SHARE 0.5    /* dimensionless: of the face, swept */
#define WORTH_SHARE 1.1    /* dimensionless: what one more fan must gain in swept area */
#define LEAST_TUBES 4
#define LEAST_TUBE_MM 60.0
#define FACE_MOST_MM 1200.0   /* longest side of a bare core that one can usually buy */
#define FACE_LEAST_MOST 800.0 /* and its shorter one */
#define AWAY_MOST_MM 150.0    /* room behind the fans for the air to get away, when the bay has it */

static double
of_kind (const TwEntry *kind, const char *name, double otherwise)
{
  double value = tw_entry_number (kind, name);

  return isnan (value) ? otherwise : value;
}

static void
take_kind (TwFirstPlan *self, const TwEntry *kind, gboolean level)
{
  self->kind = kind;
  self->level = level;
  self->thickness_mm = of_kind (kind, "thickness_mm", 42);
  self->header_width_mm = of_kind (kind, "header_width_mm", self->thickness_mm + 12);
  self->header_thickness_mm = of_kind (kind, "header_thickness_mm", 2);
  self->reach_mm = of_kind (kind, "header_reach_mm", 6);
  self->tank_depth_mm = of_kind (kind, "tank_depth_mm", 50);
  self->pitch_mm = of_kind (kind, "tube_pitch_mm", 10);
  self->rows = (int)of_kind (kind, "rows", 1);
  self->tube_height_mm = of_kind (kind, "tube_height_mm", 2);
  self->tube_width_mm = of_kind (kind, "tube_width_mm", self->thickness_mm);
  self->tube_wall_mm = of_kind (kind, "tube_wall_mm", 0.3);
}

/* What the stack takes upstream of the face and downstream of it, without clearances. */
static double
before_mm (const TwFirstPlan *self)
{
  return MAX (0, (self->header_width_mm - self->thickness_mm) / 2) + TW_FIRST_STUB_OUT_MM;
}

static double
plate_behind_mm (const TwFirstPlan *self)
{
  return self->thickness_mm + MAX (0, (self->header_width_mm - self->thickness_mm) / 2);
}

static double
fans_behind_mm (const TwFirstPlan *self)
{
  return MAX (plate_behind_mm (self), self->thickness_mm + TW_FIRST_PLENUM_MM + TW_FIRST_FAN_DEPTH_MM);
}

/* Whole millimetres, or sixteenths of an inch in an inch job. */
static double
whole_mm (const TwFirstPlan *self, double length_mm)
{
  double step_mm = self->wish->shown_in == TW_SHOWN_IN_INCH ? 25.4 / 16 : 1;

  return floor (length_mm / step_mm + 1e-9) * step_mm;
}

/* As fans are sold: in steps of 5 mm, or half inches. */
static double
fan_size_mm (const TwFirstPlan *self, double most_mm)
{
  double step_mm = self->wish->shown_in == TW_SHOWN_IN_INCH ? 12.7 : 5;

  return floor (MIN (FAN_MOST_MM, most_mm) / step_mm + 1e-9) * step_mm;
}

/* Bleed and drain stand out of the tanks' ends of level tubes, and of the backs of upright ones. */
static gboolean
size_face (TwFirstPlan *self)
{
  const TwFirstLayoutWish *wish = self->wish;
  double bay_along_mm = self->level ? wish->bay_height_mm : wish->bay_width_mm;
  double bay_across_mm = self->level ? wish->bay_width_mm : wish->bay_height_mm;
  double along_mm = bay_along_mm - 2 * (TW_FIRST_CLEARANCE_MM + self->reach_mm);
  double across_mm
      = bay_across_mm - 2 * (TW_FIRST_CLEARANCE_MM + self->header_thickness_mm + self->tank_depth_mm);
  double longest_mm = FACE_MOST_MM, shortest_mm = FACE_LEAST_MOST;
  guint along = self->level ? 1 : 0; /* places of width and height in short_of_mm */

  if (self->level)
    along_mm -= 2 * TW_FIRST_BUNG_OUT_MM;
  else
    across_mm -= 2 * TW_FIRST_BUNG_OUT_MM;
  self->short_of_mm[along] = MAX (0, LEAST_TUBES * self->pitch_mm - along_mm);
  self->short_of_mm[1 - along] = MAX (0, LEAST_TUBE_MM - across_mm);
  if (self->short_of_mm[0] > 0 || self->short_of_mm[1] > 0)
    return FALSE;
  self->is_capped = MAX (along_mm, across_mm) > longest_mm || MIN (along_mm, across_mm) > shortest_mm;
  if (along_mm >= across_mm) {
    along_mm = MIN (along_mm, longest_mm);
    across_mm = MIN (across_mm, shortest_mm);
  } else {
    along_mm = MIN (along_mm, shortest_mm);
    across_mm = MIN (across_mm, longest_mm);
  }
  self->n_tubes = (guint)floor (along_mm / self->pitch_mm + 1e-9);
  self->face_along_mm = self->n_tubes * self->pitch_mm;
  self->face_across_mm = whole_mm (self, across_mm);
  return TRUE;
}

/* The grid of fans that sweeps most of the mouth; one more must be worth it, unless it is needed for the
 * usual share of the face. */
static void
choose_fans (TwFirstPlan *self)
{
  double width_mm = (self->level ? self->face_across_mm : self->face_along_mm) - 2 * TW_FIRST_MOUTH_EDGE_MM;
  double height_mm = (self->level ? self->face_along_mm : self->face_across_mm) - 2 * TW_FIRST_MOUTH_EDGE_MM;
  double usual_mm2 = USUAL_SHARE * self->face_along_mm * self->face_across_mm, best_mm2 = 0;

  for (guint n = 1; n <= FANS_MOST; n++)
    for (guint across = 1; across <= n; across++) {
      guint up = n / across;
      double cell_mm = MIN (width_mm / across, height_mm / up);
      double swept_mm = fan_size_mm (self, cell_mm - TW_FIRST_RING_MM - FAN_GAP_MM);
      double swept_mm2 = n * G_PI / 4 * swept_mm * swept_mm;

      if (across * up != n || swept_mm < FAN_LEAST_MM
          || swept_mm2 <= best_mm2 * (best_mm2 < usual_mm2 ? 1 : WORTH_SHARE))
        continue;
      best_mm2 = swept_mm2;
      self->swept_mm = swept_mm;
      self->n_across = across;
      self->n_up = up;
    }
  if (best_mm2 <= 0)
    self->fans = TW_FIRST_FANS_NO_FACE;
}

static gboolean
size_depth (TwFirstPlan *self)
{
  double room_mm = self->wish->bay_depth_mm - 2 * TW_FIRST_CLEARANCE_MM;
  double bare_mm = before_mm (self) + plate_behind_mm (self);
  double with_fans_mm = before_mm (self) + fans_behind_mm (self), spare_mm;

  self->fans_depth_mm = with_fans_mm + 2 * TW_FIRST_CLEARANCE_MM;
  self->short_of_mm[2] = MAX (0, bare_mm - room_mm);
  if (self->short_of_mm[2] > 0)
    return FALSE;
  self->fans = !self->wish->fans        ? TW_FIRST_FANS_NOT_WISHED
               : with_fans_mm > room_mm ? TW_FIRST_FANS_NO_DEPTH
                                        : TW_FIRST_FANS_FIT;
  if (self->fans == TW_FIRST_FANS_FIT)
    choose_fans (self);
  if (self->fans == TW_FIRST_FANS_FIT)
    bare_mm = with_fans_mm;
  spare_mm = room_mm - bare_mm;
  self->behind_mm = bare_mm - before_mm (self) + TW_FIRST_CLEARANCE_MM
                    + whole_mm (self, MIN (AWAY_MOST_MM, spare_mm / 2));
  return TRUE;
}

/* Sizes for one kind and way of the tubes. FALSE: the plan only says what is missing. */
static gboolean
size_as (TwFirstPlan *self, const TwEntry *kind, gboolean level)
{
  gboolean face, depth;

  take_kind (self, kind, level);
  face = size_face (self);
  if (!face)
    self->face_along_mm = self->face_across_mm = 0;
  depth = size_depth (self);
  return face && depth;
}

static double
face_m2 (const TwFirstPlan *self)
{
  return self->face_along_mm * self->face_across_mm / 1e6;
}

/* --- which kind ----------------------------------------------------------------------------------------- */

/* Heat on the face for each kelvin between the water's limit and the ambient. */
static double
load_of (const TwFirstPlan *self)
{
  double ambient_c = isnan (self->wish->ambient_c) ? TW_FIRST_AMBIENT_C : self->wish->ambient_c;

  return tw_first_heat_kw (self->wish) / (face_m2 (self) * (TW_FIRST_LIMIT_C - ambient_c));
}

/* Depth of core for a load: what cores of about that depth are seen to carry; an estimate of our own, good to
 * a third at best. */
static double
wanted_thickness_mm (double load_kw_m2_k)
{
  static const struct {
    double most_kw_m2_k;
    double thickness_mm;
  } steps[] = { { 1.2, 32 }, { 2.4, 42 }, { 3.6, 56 } };

  if (isnan (load_kw_m2_k))
    return 42;
  for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
    if (load_kw_m2_k <= steps[i].most_kw_m2_k)
      return steps[i].thickness_mm;
  return 70;
}

/* How far a kind is from what is wanted: thinner ones step by step, then thicker ones; of two as thick the
 * one with the closer fins. */
static double
unlike (const TwEntry *kind, double wanted_mm)
{
  double thickness_mm = of_kind (kind, "thickness_mm", 42);
  double off_mm
      = thickness_mm <= wanted_mm + 0.5 ? wanted_mm - thickness_mm : 1000 + thickness_mm - wanted_mm;

  return off_mm + of_kind (kind, "fin_pitch_mm", 2) / 100;
}

/* Kinds to try, in order. (transfer full) (element-type TwEntry) */
static GPtrArray *
kinds_in_order (const TwFirstPlan *self, double wanted_mm)
{
  GPtrArray *kinds = g_ptr_array_new ();
  const char *said = self->wish->core_kind;

  for (guint i = 0; i < tw_catalogue_count (self->catalogue, TW_CATALOGUE_CORE_KINDS); i++) {
    const TwEntry *kind = tw_catalogue_get (self->catalogue, TW_CATALOGUE_CORE_KINDS, i);
    guint at = 0;

    if (said != NULL && !g_str_equal (said, tw_entry_id (kind)))
      continue;
    while (at < kinds->len && unlike (g_ptr_array_index (kinds, at), wanted_mm) <= unlike (kind, wanted_mm))
      at++;
    g_ptr_array_insert (kinds, (int)at, (gpointer)kind);
  }
  return kinds;
}

/* --- which of all --------------------------------------------------------------------------------------- */

/* Fans before depth of core, then the order in which they were tried, then the larger face. */
static gboolean
is_better (const TwFirstPlan *a, const TwFirstPlan *b)
{
  gboolean a_fans = a->fans != TW_FIRST_FANS_NO_DEPTH, b_fans = b->fans != TW_FIRST_FANS_NO_DEPTH;

  if (a_fans != b_fans)
    return a_fans;
  return a->kind == b->kind && face_m2 (a) > face_m2 (b) * 1.25;
}

static double
misses_mm (const TwFirstPlan *self)
{
  return self->short_of_mm[0] + self->short_of_mm[1] + self->short_of_mm[2];
}

static gboolean
may_run (const TwFirstPlan *self, gboolean level)
{
  return self->wish->tubes < 0 || (self->wish->tubes == TW_TUBES_LEVEL) == level;
}

/* Tries every kind with tubes along the longer side of the bay and then along the other. */
static gboolean
choose (TwFirstPlan *self, GPtrArray *kinds)
{
  gboolean longer = self->wish->bay_width_mm >= self->wish->bay_height_mm, fits = FALSE, any = FALSE;
  TwFirstPlan best = *self;

  for (guint i = 0; i < 2 * kinds->len; i++) {
    TwFirstPlan tried = *self;
    gboolean level = i % 2 == 0 ? longer : !longer;

    if (!may_run (self, level))
      continue;
    if (size_as (&tried, g_ptr_array_index (kinds, i / 2), level)) {
      if (!fits || is_better (&tried, &best))
        best = tried;
      fits = TRUE;
    } else if (!fits && (!any || misses_mm (&tried) < misses_mm (&best) - 0.5)) {
      best = tried;
    }
    any = TRUE;
  }
  *self = best;
  return fits;
}

gboolean
tw_first_plan_size (TwFirstPlan *self)
{
  g_autoptr (GPtrArray) usual = kinds_in_order (self, 42), wanted = NULL;
  TwFirstPlan first = *self;

  self->load_kw_m2_k = (double)NAN;
  if (!choose (&first, usual)) {
    *self = first;
    return FALSE;
  }
  first.load_kw_m2_k = load_of (&first);
  wanted = kinds_in_order (self, wanted_thickness_mm (first.load_kw_m2_k));
  if (!choose (self, wanted))
    return FALSE;
  self->load_kw_m2_k = load_of (self);
  return TRUE;
}
