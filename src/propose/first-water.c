/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "propose/first-layout-private.h"

#include <math.h>
#include <string.h>

#define STUB_MOST_M_S 3.0    /* water in a stub */
#define STUB_USUAL_MM 32.0   /* outside, when the flow is not known */
#define STUB_EDGE_MM 4.0     /* of a tank's wall beside a stub */
#define PORT_EDGE_MM 40.0    /* from the end of the face to the middle of a stub, at most */
#define SPLIT_LEAST_MM 200.0 /* header that has room for two stubs with a baffle between */

/* The coolant's own figures at 90 °C, those of the first entry when it is not said. */
static double
coolant_figure (const TwFirstPlan *self, const char *name)
{
  const TwEntry *entry = NULL;

  if (self->wish->coolant != NULL)
    entry = tw_catalogue_find (self->catalogue, TW_CATALOGUE_COOLANTS, self->wish->coolant);
  if (entry == NULL && tw_catalogue_count (self->catalogue, TW_CATALOGUE_COOLANTS) > 0)
    entry = tw_catalogue_get (self->catalogue, TW_CATALOGUE_COOLANTS, 0);
  return entry != NULL ? tw_entry_number (entry, name) : (double)NAN;
}

/* Mass flow that carries the heat away with the drop of a usual pump and core. */
static double
flow_kg_s (const TwFirstPlan *self)
{
  return tw_first_heat_kw (self->wish) * 1000
         / (coolant_figure (self, "heat_capacity_90_j_kg_k") * TW_FIRST_DROP_K);
}

/* With one pass. Of a tube of any form Re = 4 m / (P mu): m its flow, P its wetted outline. */
static double
reynolds_of (const TwFirstPlan *self)
{
  double height_mm = self->tube_height_mm - 2 * self->tube_wall_mm;
  double width_mm = self->tube_width_mm - 2 * self->tube_wall_mm;
  double outline_m = (2 * (width_mm - height_mm) + G_PI * height_mm) / 1000;
  double tubes = (double)self->n_tubes * self->rows;

  return 4 * flow_kg_s (self) / (tubes * outline_m * coolant_figure (self, "viscosity_90_pa_s"));
}

/* Stubs of the job's own units: inch sizes have names with a fraction or `in`. */
static gboolean
is_ours (const TwFirstPlan *self, const TwEntry *entry)
{
  const char *standard = tw_entry_text (entry, "standard"), *size = tw_entry_text (entry, "size");
  gboolean inches;

  if (standard == NULL || size == NULL || !g_str_equal (standard, "stub"))
    return FALSE;
  inches = strchr (size, '/') != NULL || strstr (size, "in") != NULL;
  return inches == (self->wish->shown_in == TW_SHOWN_IN_INCH);
}

/* The smallest that lets the water through slowly enough, else the largest that the tank's wall takes. */
static const TwEntry *
choose_stub (const TwFirstPlan *self)
{
  double most_mm = MIN (self->tank_depth_mm, self->face_along_mm + 2 * self->reach_mm) - 2 * STUB_EDGE_MM;
  double bore_mm = sqrt (4 * self->flow_l_min / 60000 / (G_PI * STUB_MOST_M_S)) * 1000;
  const TwEntry *best = NULL;
  double best_mm = 0;

  for (guint i = 0; i < tw_catalogue_count (self->catalogue, TW_CATALOGUE_PORTS); i++) {
    const TwEntry *entry = tw_catalogue_get (self->catalogue, TW_CATALOGUE_PORTS, i);
    double outside_mm = tw_entry_number (entry, "outside_mm");
    double inside_mm = tw_entry_number (entry, "bore_mm");
    gboolean enough, best_enough;

    if (!is_ours (self, entry) || !(outside_mm <= most_mm))
      continue;
    enough = isnan (bore_mm) ? outside_mm >= STUB_USUAL_MM - 1 : inside_mm >= bore_mm;
    best_enough
        = best != NULL
          && (isnan (bore_mm) ? best_mm >= STUB_USUAL_MM - 1 : tw_entry_number (best, "bore_mm") >= bore_mm);
    if (best == NULL || (enough && (!best_enough || outside_mm < best_mm))
        || (!enough && !best_enough && outside_mm > best_mm)) {
      best = entry;
      best_mm = outside_mm;
    }
  }
  return best;
}

/* A second pass gains only where it lifts the tubes out of laminar flow; elsewhere it costs the pump. */
void
tw_first_plan_water (TwFirstPlan *self)
{
  double litre_kg = coolant_figure (self, "density_90_kg_m3") / 1000;

  self->flow_l_min = flow_kg_s (self) / litre_kg * 60;
  self->reynolds = reynolds_of (self);
  self->two_passes = self->reynolds < TW_FIRST_LAMINAR && 2 * self->reynolds > TW_FIRST_LAMINAR
                     && self->face_along_mm >= SPLIT_LEAST_MM;
  self->stub = choose_stub (self);
}

double
tw_first_port_place_mm (const TwFirstPlan *self)
{
  double outside_mm = self->stub != NULL ? tw_entry_number (self->stub, "outside_mm") : STUB_USUAL_MM;
  double beside_mm = outside_mm / 2 + STUB_EDGE_MM - self->reach_mm; /* so that it lies on the tank's wall */

  return MAX (0, self->face_along_mm / 2 - MAX (MIN (PORT_EDGE_MM, self->face_along_mm / 4), beside_mm));
}

/* Between two tubes, the first pass one larger when they are odd: tubes are counted from the top or left. */
double
tw_first_baffle_place_mm (const TwFirstPlan *self)
{
  double from_first_mm = (self->n_tubes + 1) / 2 * self->pitch_mm - self->face_along_mm / 2;

  return self->level ? -from_first_mm : from_first_mm;
}
